"""A loop is worked into twice by different rows.

A row worked in the back loops leaves the front loops free, for another row to use later. Here a loop that was already used is asked for
once more. It can be done, but the fabric draws together at that point, and mostly another row was meant.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in both loops of each st across. (10 sc)
    Row 3: Ch 1, turn, sc in front loop of each st of Row 1. (10 sc)

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in back loop of each st across. (10 sc)
    Row 3: Ch 1, turn, sc in front loop of each st of Row 1. (10 sc)

Working::

    Row 2 takes both loops of 10 stitches of Row 1: no loop of Row 1 is free

What to do: look which row left its loops free, or let the earlier row take one loop only.
"""

from hookwright.ground import LOOK

from ..case import Case
from ..flaws import finding_of, loops_taken

KIND = "loop-used-twice"


def find(case: Case):
    for flaw in loops_taken(case):
        yield finding_of(
            case,
            flaw,
            KIND,
            LOOK,
            "works into loops that an earlier row has used already",
            "name the row whose loops are free, or work the earlier row through one loop only",
        )
