"""One row states two different totals.

With it::

    Ch 13.
    Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc) (14 sc)

Without it::

    Ch 13.
    Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)

Working::

    12 and 14 stated, 12 chains worked into: 12

What to do: keep the one that the instructions make.
"""

from hookwright.ground import LOOK, MUST_MEND, Finding, Suggestion, listing

from ..case import Case
from ..sums import two_totals
from ..wording import quoted, size_list

KIND = "stated-counts-differ"


def find(case: Case):
    off_rows = {id(off.row) for off in case.off("count")}
    for seen in case.seen:
        pair = two_totals(seen.row)
        if pair is None:
            continue
        first, second = pair
        numbers = first.items[0][0], second.items[0][0]
        shown = [size_list(value) if isinstance(value, tuple) else str(value) for value in numbers]
        yield Finding(
            KIND,
            MUST_MEND if id(seen.row) in off_rows else LOOK,
            f"{seen.name} states two totals, {listing(shown)}" + _worked(case, seen.row),
            second.span,
            seen.name,
            expected=numbers[0],
            found=numbers[1],
            whose="the first of them",
            labels=((first.span, f"{quoted(case.text, first.span)} stands here too"),),
            suggestions=(Suggestion("keep the one that the instructions make", "your choice"),),
        )


def _worked(case: Case, row) -> str:
    made = [next((worked.stitches for worked in fabric.rows if worked.row is row), None) for fabric in case.fabrics]
    return f"; {size_list(made)} are worked" if made and None not in made else ""
