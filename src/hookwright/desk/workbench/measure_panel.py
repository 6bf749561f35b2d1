"""Made to measure: the pattern for one maker's gauge and measures."""

import hookwright
from hookwright.desk.report import how_many
from hookwright.ground import MUST_MEND, NOTE

from .reports import report_of
from .strings import t
from .told import Told


def form(text: str) -> dict:
    """What the form asks for: the measures that some number is found from, and the sizes to start from."""
    from hookwright.pipeline import measures_asked

    report = report_of(text)
    head = report.pattern.head
    gauge = head.gauge[0] if head is not None and head.gauge else None
    return {"measures": measures_asked(report), "sizes": list(report.sizes), "gauge": None if gauge is None else {"stitches": gauge.stitches, "rows": gauge.rows, "over_mm": gauge.over_mm}}


def measure(text: str, asked: dict) -> dict:
    """{"sheet", "text", "manuscript", "report"} for a maker: gauge and yarn in words, measures {"bust": "97 cm"}, size to start from, terms."""
    measures = asked.get("measures") or {}
    if not isinstance(measures, dict) or len(measures) > 40:
        raise Told(400, "not-asked-well", t("not-asked-well"))
    measures = {str(name)[:60]: str(words)[:60] for name, words in measures.items() if str(words).strip()}
    gauge, yarn, size = (str(asked.get(key) or "").strip()[:200] or None for key in ("gauge", "yarn", "size"))
    if not (measures or gauge or yarn or size):
        raise Told(400, "measure-nothing", t("measure-nothing"))
    terms = asked.get("terms") if asked.get("terms") in ("us", "uk", "US", "UK") else None
    try:
        report = hookwright.made_to_measure(text, measures=measures, gauge=gauge, yarn=yarn, size=size)
    except ValueError as slip:
        words = str(slip)
        raise Told(400, "measure-not-read", words[:1].upper() + words[1:] + ".") from None
    told = [{"grade": {MUST_MEND: "must-mend", NOTE: "note"}.get(finding.grade, "look"), "message": finding.message} for finding in report.findings]
    clash = any(finding.kind == "wishes-clash" for finding in report.findings)
    out = {"report": {"findings": told, "said": how_many(report.findings), "must_mend": report.must_mend, "proved": report.as_dict()["proved"]["words"]},
           "numbers": {name: one["values"][0] if one["values"] else None for name, one in report.as_dict()["numbers"].items()}}
    if clash or report.sized.unworked or report.sized.idle:
        return {**out, "sheet": None, "text": None, "manuscript": None}
    sheet, plain, manuscript = (hookwright.write(report, kind, terms).decode("utf-8") for kind in ("html", "txt", "md"))
    return {**out, "sheet": sheet, "text": plain, "manuscript": f"---\nterms: {(terms or report.pattern.terms).upper()}\n---\n\n{manuscript}"}


def measured_sheet(text: str, asked: dict) -> str:
    """The sheet for a maker as a page; Told where nothing could be made."""
    made = measure(text, asked)
    if made["sheet"] is None:
        raise Told(404, "not-made", t("measure-not-made"))
    return made["sheet"]
