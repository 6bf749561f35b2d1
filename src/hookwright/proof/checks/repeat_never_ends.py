"""A repeat goes to the end and never gets there.

"Repeat to the end" ends when the row below is used up. Where a repeat takes nothing from it, or goes into a ring, which has no end, only a
number of times can end it.

With it::

    Ch 4, join with sl st to form a ring.
    Rnd 1: Ch 1, *3 sc in ring, ch 2; rep from * around, join with sl st to first sc.

Without it::

    Ch 4, join with sl st to form a ring.
    Rnd 1: Ch 1, *3 sc in ring, ch 2; rep from * 3 times more, join with sl st to first sc. (12 sc, 4 ch-2 sps)

Working::

    a ring takes any number of stitches: 3 sc and ch 2 fit once, four times or ten times

What to do: say how often.
"""

from hookwright.ground import LOOK, Suggestion

from ..about_row import about_row
from ..case import Case

KIND = "repeat-never-ends"


def find(case: Case):
    for off in case.off("no-end"):
        name = case.name_of(off.row, off.label)
        message = case.says_of(off, f"a repeat of {name} has no end:", str(off.facts().get("words", "nothing of the row below is used up")))
        yield about_row(
            case,
            off,
            KIND,
            LOOK,
            message,
            suggestions=(Suggestion("say how often it is worked", "your choice"),),
        )
