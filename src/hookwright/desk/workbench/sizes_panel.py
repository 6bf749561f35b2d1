"""The sizes: the sheet's own tables and picture of them, and eases that can be tried without writing anything."""

import re

from hookwright.ground import Span
from hookwright.writing import Figure, Table, plain

from .reports import report_of
from .strings import t
from .told import Told
from .utf16 import Utf16

_EASE = re.compile(r"(?P<sign>[+\-−–])\s*(?P<n>\d+(?:[.,]\d+)?)\s*(?P<unit>cm|mm|in(?:ch(?:es)?)?\b|\")(?!\s*[*/])")
_MM = {"mm": 1.0, "cm": 10.0}
SPAN_MM = 150.0  # a slider goes so far to each side of the ease that is written


def sizes(text: str) -> dict:
    """table, plot, numbers and eases of the manuscript as it stands."""
    return _panel(report_of(text), text)


def try_eases(text: str, eases: dict) -> dict:
    """The same with these eases (name of the number -> mm) in the place of those written; `edits` would write them. Nothing is written."""
    import hookwright

    report = report_of(text)
    edits = _edits(text, report, eases)
    tried = text
    for start, end, insert in sorted(edits, reverse=True):
        tried = tried[:start] + insert + tried[end:]
    there = Utf16(text).there
    made = hookwright.check(tried) if edits else report
    return {**_panel(made, tried), "edits": [{"from": there(start), "to": there(end), "insert": insert} for start, end, insert in edits]}


def _panel(report, text: str) -> dict:
    from hookwright.pipeline import sheet

    section = next((one for one in sheet(report).sections if one.name == "sizes"), None)
    tables, plot, words = [], None, []
    for block in section.blocks if section else ():
        if isinstance(block, Table):
            tables.append({"caption": block.caption, "head": list(block.head), "rows": [[plain(cell) for cell in row] for row in block.rows]})
        elif isinstance(block, Figure):
            plot = {"svg": block.picture.svg(f"plot-{block.id}"), "title": block.picture.title, "words": block.picture.words}
        elif hasattr(block, "inlines"):
            words.append(plain(block.inlines))
    return {
        "sizes": list(report.sizes),
        "table": {"head": tables[0]["head"], "rows": tables[0]["rows"]} if tables else {"head": [], "rows": []},
        "tables": tables,
        "plot": plot["svg"] if plot else None,
        "plot_words": plot["words"] if plot else "",
        "words": words,
        "numbers": report.as_dict()["numbers"],
        "eases": [_ease(one) for one in _eases(report, text)],
        "must_mend": report.must_mend,
        "clash": [finding.message for finding in report.findings if finding.kind in ("wishes-clash", "number-not-found")],
        "findings": [finding.message for finding in report.findings if finding.kind == "length-off-wish"],
    }


# ---------------------------------------------------------------- eases

def _eases(report, text: str) -> list[tuple]:
    """(name, of what, span of the length in her text, its sign, mm, unit) of each ease that is written once for all sizes: in a wish
    ("bust + 8 cm") or as `ease:`."""
    head = report.pattern.head
    if head is None:
        return []
    out = []
    for name, wish in head.wishes.items():
        span = wish.spans.get("want")
        if span is None or not wish.keys.get("want"):
            continue
        inside = text[span.start : span.end]
        found = list(_EASE.finditer(inside))
        body = re.match(r"[\s\"']*([A-Za-z][A-Za-z _-]*[A-Za-z])", inside)
        if len(found) == 1 and body:
            out.append((name, body[1].strip(), *_length(found[0], span.start)))
    span = head.spans.get("ease")
    if span is not None and head.ease is not None and len(head.ease.mm) == 1:
        found = re.match(r"\s*(?P<sign>[+\-−–]?)\s*(?P<n>\d+(?:[.,]\d+)?)\s*(?P<unit>cm|mm|in(?:ch(?:es)?)?\b|\")\s*$", text[span.start : span.end])
        if found:
            out.append(("ease", "", *_length(found, span.start)))
    return out


def _length(found, at: int) -> tuple:
    mm = float(found["n"].replace(",", ".")) * _MM.get(found["unit"], 25.4)
    minus = found["sign"] in ("-", "−", "–")
    return Span(at + found.start(), at + found.end()), found["sign"], -mm if minus else mm, found["unit"]


def _ease(one: tuple) -> dict:
    name, of, _, _, mm, unit = one
    return {"number": name, "of": of, "ease_mm": round(mm, 2), "unit": "cm" if unit in _MM else "in", "least": round(mm - SPAN_MM), "most": round(mm + SPAN_MM)}


def _edits(text: str, report, eases) -> list[tuple[int, int, str]]:
    """What of the text is to be replaced by what."""
    known = {one[0]: one for one in _eases(report, text)}
    out = []
    for name, mm in (eases or {}).items() if isinstance(eases, dict) else ():
        if name not in known or isinstance(mm, bool) or not isinstance(mm, (int, float)) or not -2000 < mm < 2000:
            raise Told(400, "not-asked-well", t("not-asked-well"))
        _, _, span, sign, before, unit = known[name]
        if abs(mm - before) < 0.05:
            continue
        shown = f"{round(abs(mm) / _MM.get(unit, 25.4), 2):g} {unit}".replace(' "', '"')
        spaced = " " if sign and text[span.start + 1 : span.start + 2] == " " else ""
        lead = ("-" if mm < 0 else "+" if sign or name != "ease" else "") + spaced
        out.append((span.start, span.end, lead + shown))
    return out
