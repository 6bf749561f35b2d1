"""A phrase can be read in two ways that give different rows.

Both were worked. One of them agrees with the counts, and was taken; a maker has to find that out too, and may not.

With it::

    Ch 19.
    Row 1: Sc in 2nd ch from hook and in each ch across. (18 sc)
    Row 2: Ch 1, turn, *sc in next 5 sts, 2 sc in next st; rep from * 3 times. (21 sc)

Without it::

    Ch 19.
    Row 1: Sc in 2nd ch from hook and in each ch across. (18 sc)
    Row 2: Ch 1, turn, *sc in next 5 sts, 2 sc in next st; rep from * across. (21 sc)

Working::

    "rep from * 3 times" once and 3 more: 4 x 6 = 24 stitches asked for, 18 there
    3 times in all: 3 x 6 = 18, all that there are

What to do: write "2 more times" or "3 times in all", or whatever leaves one reading only.
"""

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..wording import quoted

KIND = "reads-two-ways"
_COST = 2  # readings that cost less are ordinary usage of the trade and listed among the assumptions only


def find(case: Case):
    found = {}
    for size, fabric in enumerate(case.fabrics):
        for worked in fabric.rows:
            for assumed in worked.assumed:
                if assumed.cost >= _COST:
                    key = (id(worked.row), assumed.kind, assumed.span, assumed.words)
                    found.setdefault(key, (worked, assumed, set()))[-1].add(size)
    for worked, assumed, sizes in found.values():
        name = case.name_of(worked.row, worked.label)
        span = assumed.span if assumed.span.end else worked.row.label_span
        at = quoted(case.text, span) if assumed.span.end else ""
        message = case.says(sizes, f"{name} can be read in two ways", f"at {at}" if at else "") + f": {assumed.words}"
        if assumed.evidence:
            message += f" ({assumed.evidence})"
        yield Finding(
            KIND,
            LOOK,
            message + ". The reading that agrees best with the counts was taken",
            span,
            name,
            case.size_names(sizes),
            found=assumed.kind,
            suggestions=(Suggestion("write it so that only one reading is left", "your choice"),),
        )
