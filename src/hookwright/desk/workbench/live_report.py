"""The report of a text as the page shows it while she writes: counts at the rows, findings at their words, what would mend them."""

from collections import OrderedDict

import hookwright
from hookwright.desk.report import how_many
from hookwright.desk.show import full
from hookwright.ground import LOOK, MUST_MEND, NOWHERE

from .utf16 import Utf16

MOST_FINDINGS = 500
_GRADES = {MUST_MEND: "must-mend", LOOK: "look"}


_memories: OrderedDict = OrderedDict()  # of the manuscripts checked last
_MOST_MEMORIES = 3


def live_report(text: str, name: str | None = None) -> dict:
    """What the page shows at the rows; all offsets are a browser's. name: of the manuscript, whose earlier texts are remembered; None for
    a check that leans on nothing found before."""
    report = hookwright.check(text, memory=_memory_of(name))
    there, values, lines = Utf16(report.text).there, report.as_dict(multiples=False), report.lines
    return {
        "title": getattr(report.pattern.head or report.pattern.front, "title", "") or "",
        "terms": values["terms"],
        "sizes": values["sizes"],
        "rows": rows(values),
        "numbers": {name: one["values"] for name, one in values["numbers"].items()},
        "findings": [_finding(finding, lines, there) for finding in report.findings[:MOST_FINDINGS]],
        "more_findings": max(0, len(report.findings) - MOST_FINDINGS),
        "must_mend": report.must_mend,
        "look": sum(finding.grade == LOOK for finding in report.findings),
        "assumed": [one["words"] for one in values["assumed"]],
        "proved": values["proved"],
        "said": f"{how_many(report.findings)}; {values['proved']['words']}",
    }


def _memory_of(name: str | None):
    if name is None:
        return None
    memory = _memories.pop(name, None) or hookwright.Memory()
    _memories[name] = memory
    while len(_memories) > _MOST_MEMORIES:
        _memories.popitem(last=False)
    return memory


def rows(values: dict) -> list[dict]:
    """label, piece, line and the counts, one a size: None where a size does not work the row; chains of a foundation under `chains`."""
    sizes, out = values["sizes"], []
    for row in values["rows"]:
        by_size = [row["sizes"].get(size) for size in sizes]
        one = {"label": row["label"], "piece": row["piece"] or "", "line": row["line"], "counts": [None if counts is None else counts["stitches"] for counts in by_size]}
        if any(counts and counts.get("chains") for counts in by_size):
            one["chains"] = [None if counts is None else counts.get("chains") for counts in by_size]
        out.append(one)
    return out


def _finding(finding, lines, there) -> dict:
    nowhere = finding.span == NOWHERE
    start, end = (0, 0) if nowhere else (finding.span.start, max(finding.span.end, finding.span.start))
    return {
        "kind": finding.kind,
        "grade": _GRADES.get(finding.grade, "note"),
        "message": finding.message,
        "nowhere": nowhere,
        "from": there(start),
        "to": there(end),
        "line": None if nowhere else lines.place(min(start, len(lines.text)))[0],
        "row": finding.row,
        "sizes": list(finding.sizes),
        "working": _working(finding),
        "table": [[str(cell) for cell in row] for row in finding.working],
        "echoes": list(finding.echoes),
        "labels": [{"from": there(span.start), "to": there(span.end), "words": words} for span, words in finding.labels],
        "suggestions": [suggestion(one, there) for one in finding.suggestions],
    }


def _working(finding) -> str:
    """The full finding as the terminal shows it, without its place, which the page shows itself."""
    return full(finding.but(suggestions=()), None, "", 88)


def suggestion(one, there) -> dict:
    """insert: what replaces the words between from and to; None where it is only told."""
    can = one.text is not None and one.span is not None
    return {
        "words": one.says + (f" ({one.effect})" if one.effect else ""),
        "sure": one.sure,
        "from": there(one.span.start) if can else None,
        "to": there(one.span.end) if can else None,
        "insert": one.text if can else None,
    }
