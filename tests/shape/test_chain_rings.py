"""Tubes begun on a chain closed into a ring. 16 stitches to 10 cm are 6.25 mm each."""

import pytest

import hookwright
from hookwright.shape import Measuring

HEAD = "---\nterms: US\ngauge: 16 sts and 12 rows over 10 cm in hdc\n---\n"
COWL = HEAD + "## Cowl\nCh 64, join with sl st to form a ring.\nRnd 1: Ch 1, hdc in each ch around, join. (64 hdc)\nRnds 2-14: Ch 1, hdc in each st around, join. (64 hdc)\n"
CUFF = HEAD + """## Cuff
Ch 36, join with sl st to form a ring.
Rnd 1: Ch 1, sc in each ch around, join. (36 sc)
Rnd 2: Ch 1, *sc in next 2 sts, sc2tog; rep from * around, join. (27 sc)
Rnd 3: Ch 1, *sc in next st, bobble in next st; rep from * to last st, sc in last st, join. (27 sts)
"""


def test_every_round_of_a_tube_is_as_long_as_its_stitches():
    """From the first on: 64 x 6.25 mm."""
    surface = hookwright.surface_of(COWL)
    measured = Measuring(surface)
    around = [measured.along(row) for row in surface.rows if row.has_height]
    assert len(around) == 14 and around == pytest.approx([400.0] * 14, rel=0.02)


def test_a_long_ring_whose_rounds_get_shorter_is_a_tube():
    """It could lie flat only as a wide collar: it is no disc about its middle."""
    surface = hookwright.surface_of(CUFF)
    assert (surface.construction, surface.shown) == ("tube", "free")
    assert "as a tube" in hookwright.picture(CUFF, to="png", pixels=64).words
