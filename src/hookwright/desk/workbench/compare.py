"""Two states of a manuscript row by row: what the words say, and whether the stitches that come of them are the same."""

from difflib import SequenceMatcher

from .reports import report_of


def compare(text_a: str, text_b: str) -> dict:
    """{"rows": [...], "changed", "sizes_a", "sizes_b"}: every written row of either, side by side; None on the side where it is missing."""
    a, b = _rows(text_a), _rows(text_b)
    rows = []
    for tag, a1, a2, b1, b2 in SequenceMatcher(None, [one["key"] for one in a], [one["key"] for one in b], autojunk=False).get_opcodes():
        if tag == "equal":
            rows += [_pair(one, other) for one, other in zip(a[a1:a2], b[b1:b2], strict=True)]
        else:
            rows += [_pair(one, None) for one in a[a1:a2]] + [_pair(None, other) for other in b[b1:b2]]
    return {"rows": rows, "stitches_changed": sum(not row["same_stitches"] for row in rows), "words_changed": sum(row["text_a"] != row["text_b"] for row in rows),
            "sizes_a": list(report_of(text_a).sizes), "sizes_b": list(report_of(text_b).sizes), "head_changed": _head(text_a) != _head(text_b)}


def _head(text: str) -> str:
    from hookwright.notation import head_end

    return text[: head_end(text)]


def _rows(text: str) -> list[dict]:
    """A written row each: key, label, piece, its words, counts per size, and the columns of all worked rows that come of it."""
    report = report_of(text)
    worked = [{} for _ in report.fabrics]
    for by_row, fabric in zip(worked, report.fabrics, strict=True):
        for row in fabric.rows:
            by_row.setdefault(id(row.row), []).append(row)
    lines, out = report.lines, []
    for piece, row in report.pattern.rows():
        mine = [by_row.get(id(row), []) for by_row in worked]
        start = report.pattern.shifts.back(row.span).start if report.pattern.shifts else row.span.start
        out.append({
            "key": (piece.name, row.label()), "label": row.label(), "piece": piece.name, "text": " ".join(row.text.split()), "line": lines.place(min(start, len(text)))[0],
            "counts": [rows[-1].stitches if rows else None for rows in mine],
            "columns": [[(one.kind, one.foot, one.chains) for one in rows] for rows in mine],
        })
    return out


def _pair(one: dict | None, other: dict | None) -> dict:
    either = one or other
    return {
        "label": either["label"], "piece": either["piece"], "line_a": one and one["line"], "line_b": other and other["line"],
        "text_a": one and one["text"], "text_b": other and other["text"], "counts_a": one and one["counts"], "counts_b": other and other["counts"],
        "same_stitches": bool(one and other and one["columns"] == other["columns"]),
    }
