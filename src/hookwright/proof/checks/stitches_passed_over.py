"""A few stitches are passed over without a word in a row that works nearly all others.

On the way to a space stitches are often passed over silently. Where a row works into almost every stitch, one that is left out before a
corner is more likely a number that did not grow with the sides.

With it::

    Rnd 1: Ch 5 (counts as dc and ch 2), [3 dc in ring, ch 2] 3 times, 2 dc in ring, join. (12 dc)
    Rnd 2: Ch 1, sc in first st, *(sc, ch 2, sc) in next ch-2 sp, sc in next 2 dc; rep from * 2 more times, (sc, ch 2, sc) in next ch-2 sp, sc in next 2 dc, join.

Without it::

    Rnd 1: Ch 5 (counts as dc and ch 2), [3 dc in ring, ch 2] 3 times, 2 dc in ring, join. (12 dc)
    Rnd 2: Ch 1, sc in first st, *(sc, ch 2, sc) in next ch-2 sp, sc in next 3 dc; rep from * 2 more times, (sc, ch 2, sc) in next ch-2 sp, sc in next 2 dc, join.

Working::

    3 stitches lie on each side, and 2 are worked: 1 is passed over on three sides

What to do: count the stitches of a side once more, or say "skip next st".
"""

from hookwright.ground import LOOK, Suggestion

from ..about_row import about_row
from ..case import Case
from ..wording import count

KIND = "stitches-passed-over"


def find(case: Case):
    for off in case.off("passed-over"):
        facts, name = off.facts(), case.name_of(off.row, off.label)
        yield about_row(
            case,
            off,
            KIND,
            LOOK,
            case.says_of(off, f"{name} passes over {count(facts['passed'], 'stitch')} without a word, of {facts['along']} along which it goes"),
            expected=0,
            found=facts["passed"],
            whose="the words of the row",
            suggestions=(Suggestion("say where stitches are skipped, or name the stitches that are worked into", "your choice"),),
        )
