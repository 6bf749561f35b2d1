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

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..wording import listing, quoted, size_list

KIND = "stated-counts-differ"


def find(case: Case):
    off_rows = {id(off.row) for off in case.off("count")}
    for seen in case.seen:
        row = seen.row
        if len(row.stated) < 2 or id(row) in off_rows or len(row.numbers) > 1:
            continue
        first: dict = {}
        for stated in row.stated:
            if stated.per or stated.series or len(stated.items) != 1:
                continue
            number, of, *more = stated.items[0]
            if of in ("row", "sp", "ch") or of.startswith("group"):
                continue
            key = (of, *more)
            before = first.setdefault(key, stated)
            other = before.items[0][0]
            if other == number:
                continue
            shown = [size_list(value) if isinstance(value, tuple) else str(value) for value in (other, number)]
            yield Finding(
                KIND,
                LOOK,
                f"{seen.name} states two totals: {listing(shown)}",
                stated.span,
                seen.name,
                expected=other,
                found=number,
                whose="the first of them",
                labels=((before.span, f"{quoted(case.text, before.span)} stands here too"),),
                suggestions=(Suggestion("keep the one that the instructions make", "your choice"),),
            )
