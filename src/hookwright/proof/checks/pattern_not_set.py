"""Work is to go on as before, and nothing has been set before it.

With it::

    Ch 11, work even in pattern across. (10 sts)

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Work even in pattern across. (10 sc)

Working::

    there is no row before it whose stitches could be gone on with

What to do: name the stitch.
"""

from hookwright.ground import LOOK, Suggestion

from ..about_row import about_row
from ..case import Case

KIND = "pattern-not-set"


def find(case: Case):
    for off in case.off("nothing-established"):
        name = case.name_of(off.row, off.label)
        message = case.says_of(off, f"{name} is to go on in pattern, and no row before it sets one")
        yield about_row(
            case,
            off,
            KIND,
            LOOK,
            message,
            suggestions=(Suggestion("name the stitch to work in", "your choice"),),
        )
