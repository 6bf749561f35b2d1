"""A row is worked over one that is not given, so what lies below it had to be assumed.

One row alone, or a few out of the middle of a pattern, can be proved only over the row below them. Where that is not given, it is taken to
have as many stitches as the row needs to come out; a row that goes into spaces or groups is left unproved.

With it::

    Row 4: Ch 1, turn, [sc in next 4 sts, 2 sc in next st] across. (36 sc)

Without it::

    Ch 31.
    Row 1: Sc in 2nd ch from hook and in each ch across. (30 sc)
    Row 2: Ch 1, turn, [sc in next 4 sts, 2 sc in next st] across. (36 sc)

Working::

    36 = 6 x 6, and 6 x 5 = 30: over 30 stitches it comes out

What to do: state the row below, `--below "30 sc"` on the command line or `below="30 sc"` from Python; or begin with the foundation.
"""

from hookwright.ground import NOTE, Finding, Suggestion, listing, of_size

from ..case import Case
from ..sums import with_echoes
from ..wording import count

KIND = "row-below-missing"


def find(case: Case):
    for off in case.off("below-unknown"):
        name = case.name_of(off.row, off.label)
        taken = {size: taken for size, taken in off.each("taken").items() if taken}
        if off.facts().get("shape"):
            said = "it goes into spaces, groups or posts, so it was not proved"
        elif not taken and case.total_stated(*_first_place(off)) is not None:
            said = "it comes out over no number of stitches"
        elif not taken:
            said = "it states no count, so how many stitches there are is not known"
        elif len(set(taken.values())) == 1:
            said = f"it was taken over {count(taken[min(taken)], 'stitch')}"
        else:
            said = "it was taken over " + listing([f"{number} stitches in {of_size(case.sizes[size])}" for size, number in taken.items()])
        example = f"{taken[min(taken)]} sc" if taken else "[3 dc, ch 2] x 4" if off.facts().get("shape") else "20 sc"
        yield Finding(
            KIND,
            NOTE,
            f"what {name} is worked into is not given; {said}",
            off.row.label_span if off.row.label_span.end else off.row.span,
            name,
            echoes=with_echoes(case, off),
            suggestions=(Suggestion(f'state the row below, like `--below "{example}"`, or begin with the foundation', "your choice"),),
        )


def _first_place(off) -> tuple[int, int]:
    """(size, index of the worked row) of the first size concerned."""
    size = min(off.at)
    return size, off.at[size][0]
