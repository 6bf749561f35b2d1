"""Ways out that were tried: one number of a row made another, the whole manuscript worked again, and the finding is gone.

What a check suggests by its sum is likely; what is suggested here has been done, and nothing else went wrong by it.
"""

import re

from hookwright.ground import MUST_MEND, Suggestion

STEPS = (1, -1, 2, -2)
MOST_TRIES = 64
MOST_STITCHES = 4_000_000  # worked in all tries together
MOST_TOLD = 4
_NUMBER = re.compile(r"(?:(?<![\w.{])|(?<=\bx)|(?<=×))\d{1,3}(?![\d}]|\.\d|(?:st|nd|rd|th)\b|\s*(?:mm|cm|in\b|g\b|\"))")
_LIST = re.compile(r"\d{1,3}\s*[(\[]\s*\d{1,3}(?:\s*,\s*\d{1,3})*\s*[)\]]")


def mends(report, finding, memory=None, **asked) -> list[Suggestion]:
    """The changes of one number, in the finding's row or else in the row it stands on, after which the finding is gone and nothing new must be mended.

    "certain" where just one change of what is worked does it; a change of a count that is only stated is "your choice". memory and asked: as in `check`, the
    same that the report was made with.
    """
    from . import check

    text, lines = report.text, report.lines
    row, below = _rows(report, finding)
    stitches = sum(made.stitches for fabric in report.fabrics for made in fabric.rows) or 1
    tries = max(8, min(MOST_TRIES, MOST_STITCHES // stitches))
    before = {(one.kind, lines.place(one.span.start)[0]) for one in report.findings if one.grade == MUST_MEND}
    me = finding.kind, lines.place(finding.span.start)[0]
    found = []  # (must still be mended, whether a stated count is changed, all findings, size of the change, start, end, words)
    for which in (row, below):
        if which is None or found:
            break
        for start, end, words, stated, far in _changes(report, which):
            if tries <= 0:
                break
            tries -= 1
            tried = check(text[:start] + words + text[end:], memory=memory, **asked)
            left = {(one.kind, tried.lines.place(one.span.start)[0]) for one in tried.findings if one.grade == MUST_MEND}
            if me not in left and left <= before and tried.must_mend < report.must_mend:
                found.append((tried.must_mend, stated, len(tried.findings), far, start, end, words))
    found.sort()
    work = [one for one in found if not one[1]]
    only = len(work) == 1 or len(work) > 1 and (work[0][0], work[0][2]) < (work[1][0], work[1][2])
    return [_suggestion(text, one, "your choice" if one[1] else "certain" if only and one is work[0] else "likely") for one in found[:MOST_TOLD]]


def _rows(report, finding):
    """The written row that the finding points into, and the written row that it is worked into; None where there is none."""
    back = report.pattern.shifts.back if report.pattern.shifts else lambda span: span
    row = next((row for _, row in report.pattern.rows() if back(row.span).start <= finding.span.start < max(back(row.span).end, back(row.span).start + 1)), None)
    for fabric in report.fabrics if row is not None else ():
        for made in fabric.rows:
            if made.row is row and made.below >= 0 and fabric.rows[made.below].row not in (None, row):
                return row, fabric.rows[made.below].row
    return row, None


def _changes(report, row):
    """(start, end, words instead, whether it is a stated count, size of the change) for the numbers of a row, what is worked before what is stated."""
    text = report.text
    back = report.pattern.shifts.back if report.pattern.shifts else lambda span: span
    span, label = back(row.span), back(row.label_span)
    first = label.end if span.start <= label.start < label.end <= span.end else span.start
    counts = [back(stated.span) for stated in row.stated]

    def stated(start: int) -> bool:
        return any(one.start <= start < one.end for one in counts)

    places = [(found.start(), found.end()) for found in _NUMBER.finditer(text, first, span.end)]
    lists = [(found.start(), found.end()) for found in _LIST.finditer(text, first, span.end)]
    for is_count in (False, True):
        for step in STEPS:
            for start, end in places:
                if stated(start) == is_count and int(text[start:end]) + step > 0:
                    yield start, end, str(int(text[start:end]) + step), is_count, abs(step)
            for start, end in lists:
                if stated(start) == is_count:
                    words = re.sub(r"\d+", lambda number: str(max(0, int(number[0]) + step)), text[start:end])  # noqa: B023 - used at once
                    yield start, end, words, is_count, abs(step)


def _suggestion(text: str, one: tuple, sure: str) -> Suggestion:
    """The change in her words: the number with the words beside it."""
    from hookwright.ground import Span

    left, *_, start, end, words = one
    line_start, line_end = text.rfind("\n", 0, start) + 1, (text.find("\n", end) + 1 or len(text) + 1) - 1
    before = re.search(r"(?:[^\s,;.*\[\]()]+\s*){0,2}$", text[line_start:start])[0].lstrip()
    after = re.match(r"\s?(?:[^\s,;.*\[\]()]+\s*){0,3}", text[end:line_end])[0].rstrip()
    effect = "tried: it comes out" if not left else f"tried: it comes out, and {left} other thing{'s' * (left != 1)} must still be mended"
    return Suggestion(f"write `{before}{words}{after}` instead of `{before}{text[start:end]}{after}`", sure, text=words, span=Span(start, end), effect=effect)
