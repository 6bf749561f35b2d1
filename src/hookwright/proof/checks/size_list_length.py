"""A list of numbers per size has more or fewer numbers than there are sizes.

With it::

    ---
    sizes: [S, M, L]
    ---
    Ch 36 (40, 44).
    Row 1: Sc in 2nd ch from hook, sc in next 4 (5, 6, 7) ch and in each ch across. (35 (39, 43) sc)

Without it::

    ---
    sizes: [S, M, L]
    ---
    Ch 36 (40, 44).
    Row 1: Sc in 2nd ch from hook, sc in next 4 (5, 6) ch and in each ch across. (35 (39, 43) sc)

Working::

    3 sizes: S, M, L; the list has 4 numbers

What to do: give one number for each size, in the order of the sizes, with - where a size does not work the step; or one number for all.
"""

from hookwright.ground import LOOK, MUST_MEND, Finding, Span, Suggestion

from ..case import Case
from ..size_lists import lists_in_text, size_lists
from ..wording import count, listing, quoted

KIND = "size-list-length"


def find(case: Case):
    sizes = len(case.sizes)
    if sizes < 2:
        return
    told = [finding.span for finding in case.read(KIND)]
    for each in size_lists(case):
        if len(each.values) == sizes or each.seen.row.only and len(each.values) == len(each.seen.row.only) or len(each.values) == 0:
            continue
        if _told(each.span, told):
            continue
        told.append(each.span)
        yield _finding(case, each.seen, each.span, len(each.values), MUST_MEND)
    if sizes < 3:
        return  # with two sizes "5 (6)" in the text may be a count in brackets
    for seen, span, numbers in lists_in_text(case):
        if len(numbers) not in (sizes, 2) and not seen.row.only and not _told(span, told):
            yield _finding(case, seen, span, len(numbers), LOOK)


def _told(span: Span, told: list[Span]) -> bool:
    """Whether a finding at this place was made already, here or by the reader."""
    return any(one.start < span.end and span.start < one.end for one in told)


def _finding(case: Case, seen, span: Span, length: int, grade: str) -> Finding:
    sizes = len(case.sizes)
    said = quoted(case.text, span)
    return Finding(
        KIND,
        grade,
        f"a list of {seen.name} has {count(length, 'number')} for {sizes} sizes ({listing(case.sizes)})" + (f": {said}" if said else ""),
        span,
        seen.name,
        expected=sizes,
        found=length,
        whose="the sizes",
        suggestions=(Suggestion(f"give {sizes} numbers, - where a size does not work this, or one number for all", "your choice"),),
    )
