"""Rows are to be worked again, and nothing says how often.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Rep Row 2.

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Rep Row 2 until piece measures 10 in.

Working::

    once, ten times, or to the length wanted: the row does not say

What to do: give the number of times, the number of rows in all, or the length.
"""

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case

KIND = "repeat-without-end"


def find(case: Case):
    for seen in case.seen:
        row, again = seen.row, seen.row.again
        if again is None or row.numbers or row.count_of_rows is not None or row.name:
            continue
        if (
            again.times is not None
            or again.total_rows is not None
            or again.until is not None
            or again.then is not None
            or again.changes
            or again.even
            or again.shaping is not None
            or again.sense == "total"  # "Work rnds 1-9 as for the front": once
        ):
            continue
        if not (again.rows or again.last):
            continue
        yield Finding(
            KIND,
            LOOK,
            f"{seen.name} works rows again and does not say how often",
            again.span if again.span.end else row.span,
            seen.name,
            suggestions=(Suggestion("add how often, for how many rows in all, or until what it measures", "your choice"),),
        )
