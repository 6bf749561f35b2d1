"""A post stitch is to go around a chain.

A post stitch goes around the stem of a stitch below. A run of chains has no stem to go around (a turning chain that stands for a stitch is
worked around by custom, and is not reported).

With it::

    Ch 13.
    Row 1: Dc in 4th ch from hook and in each ch across. (11 dc)
    Row 2: Ch 3 (counts as dc), turn, dc in next st, *ch 1, skip next st, dc in next 2 sts; rep from * across. (8 dc, 3 ch-1 sps)
    Row 3: Ch 3 (counts as dc), turn, dc in next st, *fpdc around next ch, dc in next 2 sts; rep from * across.

Without it::

    Ch 13.
    Row 1: Dc in 4th ch from hook and in each ch across. (11 dc)
    Row 2: Ch 3 (counts as dc), turn, dc in next st, *ch 1, skip next st, dc in next 2 sts; rep from * across. (8 dc, 3 ch-1 sps)
    Row 3: Ch 3 (counts as dc), turn, dc in next st, *dc in next ch, dc in next 2 sts; rep from * across. (11 dc)

Working::

    the place between the pairs of dc is one chain: it has no stem

What to do: name the stitch beside or below it, or work into the space.
"""

from hookwright.ground import LOOK

from ..case import Case
from ..flaws import finding_of, posts_of_chains
from ..wording import count, sentence

KIND = "post-of-chain"


def find(case: Case):
    for flaw in posts_of_chains(case):
        yield finding_of(
            case,
            flaw,
            KIND,
            LOOK,
            sentence("goes around the post of a chain", count(flaw.count, "time") if flaw.count else "") + ", and a chain has no post",
            "name the stitch whose post is meant, or work into the chain space",
        )
