"""The count a row states is not the count that its instructions make.

Either the instructions or the count has to change; a maker who counts will stop here and write to you.

With it::

    Ch 45.
    Row 1: Sc in 2nd ch from hook and in each ch across. (45 sc)

Without it::

    Ch 45.
    Row 1: Sc in 2nd ch from hook and in each ch across. (44 sc)

Working::

    45 chains, the first is passed over: 44 are worked, one sc in each

What to do: work the row on paper with the numbers in the finding. Where the instructions are right take the count that was worked, which
is given in the words of the row; where the count is right, mend the row (or its foundation).
"""

from hookwright.ground import LOOK, MUST_MEND, Finding, Suggestion

from ..case import Case
from ..conventions import other_way, uneven_rows
from ..counting import count_suggestions, said_and_made
from ..sums import sum_table, two_totals, with_echoes
from ..troubles import stated_total
from ..wording import count

KIND = "count-differs"


def find(case: Case):
    for off in case.off("count"):
        if other_way(case, off) is not None or two_totals(off.row) is not None:
            continue
        name = case.name_of(off.row, off.label)
        expected, found = off.each("expected"), off.each("found")
        message = case.says_of(off, said_and_made(case, off, name))
        one = len(off.at) == 1 or len(set(expected.values())) == len(set(found.values())) == 1
        yield Finding(
            KIND,
            case.grade(off),
            message,
            off.span,
            name,
            case.size_names(off.at),
            expected=expected[min(expected)] if one else list(expected.values()),
            found=found[min(found)] if one else list(found.values()),
            whose="the stated count",
            working=sum_table(case, off, _of_kind(off, expected, found)),
            suggestions=tuple(count_suggestions(case, off)),
            echoes=with_echoes(case, off),
        )
    yield from _single_chains(case)


def _single_chains(case: Case):
    """Rows that hold only with a turning chain of one counted as a stitch, which is nobody's custom."""
    for row in uneven_rows(case):
        if row.chains > 1:
            continue
        worked = row.worked
        name = case.name_of(worked.row, worked.label)
        message = case.says(row.sizes, f"{name} states {count(row.stated, 'stitch')}, and {worked.stitches} are worked")
        others = f" and does not in {count(row.agree, 'other row')}" if row.agree else ""
        yield Finding(
            KIND,
            MUST_MEND if row.agree else LOOK,
            message + f" (a ch 1 at the start does not count by custom{others})",
            worked.row.stated[0].span,
            name,
            case.size_names(row.sizes),
            expected=row.stated,
            found=worked.stitches,
            whose="the stated count",
            suggestions=(Suggestion(f"state {worked.stitches}, as the instructions make", "likely"),),
        )


def _of_kind(off, expected: dict, found: dict) -> dict:
    """Columns for a count of one kind among others; a total needs none, the table has it."""
    if stated_total(off.first[2], off.row) is not None:
        return {}
    return {"made of it": found, "stated of it": expected}
