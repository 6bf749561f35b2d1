"""A double star is set, and nothing stops there.

The mark ** in a repeat is for "ending last rep at **". Without such words nobody knows what it is for.

With it::

    Ch 20.
    Row 1: Sc in 2nd ch from hook and in each ch across. (19 sc)
    Row 2: Ch 1, turn, *sc in next 3 sts,** ch 1, skip next st; rep from * across.

Without it::

    Ch 20.
    Row 1: Sc in 2nd ch from hook and in each ch across. (19 sc)
    Row 2: Ch 1, turn, *sc in next 3 sts,** ch 1, skip next st; rep from * across, ending last rep at **. (15 sc, 4 ch-1 sps)

Working::

    19 = 4 x 4 + 3: the last repeat has to stop after its 3 sc

What to do: add "ending last rep at **", or take the mark out.
"""

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..marks import marks_of

KIND = "double-star-unused"


def find(case: Case):
    for marks in marks_of(case):
        spans = marks.set.get(2, ())
        if len(spans) % 2 == 0 or marks.named.get(2):
            continue
        yield Finding(
            KIND,
            LOOK,
            f"{marks.seen.name} sets ** and nothing stops or begins there",
            spans[0],
            marks.seen.name,
            found="**",
            expected="ending last rep at **",
            suggestions=(Suggestion("add `ending last rep at **`, or take the mark out", "your choice"),),
        )
