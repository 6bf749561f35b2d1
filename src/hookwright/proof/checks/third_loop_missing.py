"""The third loop is asked for where a stitch has none.

Only a stitch with a yarn over before the hook goes in (a half double, a double ... in US terms) has a third loop, the bar that the yarn
over leaves. A single crochet has a front and a back loop and no other.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, hdc in 3rd loop of each st across. (10 hdc)

Without it::

    Ch 12.
    Row 1: Hdc in 3rd ch from hook and in each ch across. (10 hdc)
    Row 2: Ch 1, turn, hdc in 3rd loop of each st across. (10 hdc)

Working::

    sc: no yarn over before the hook goes in, so two loops at its top
    hdc: one yarn over, so a third loop below the two

What to do: work the row below in a stitch that has the loop, or name the back or the front loop.
"""

from hookwright.ground import MUST_MEND

from ..case import Case
from ..flaws import finding_of, third_loops
from ..wording import stitch_word

KIND = "third-loop-missing"


def find(case: Case):
    for flaw in third_loops(case):
        word = stitch_word(flaw.below, case.terms)
        yield finding_of(
            case,
            flaw,
            KIND,
            MUST_MEND,
            f"goes into the third loop of {word}, and {word} has none",
            "work into the back or the front loop, or work the row below in a stitch with a yarn over first",
        )
