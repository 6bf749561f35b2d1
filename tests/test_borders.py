"""A round that goes all round a flat piece: along rows that hold spaces, under a heading of its own, side by side, and along the chain."""

import pytest

import hookwright

PLAIN = "Ch 12.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (11 sc)\n\nRows 2-8: Ch 1, sc in each st across, turn. (11 sc)\n\n"
MOSS = """Ch 12.

Row 1: Sc in 2nd ch from hook, *ch 1, skip next ch, sc in next ch; rep from * across, turn.

Row 2: Ch 1, sc in first st, *sc in next ch-1 sp, ch 1, skip next sc; rep from * to last 2 sts, sc in next ch-1 sp, sc in last st, turn.

"""


@pytest.mark.parametrize("piece", [PLAIN, MOSS], ids=["plain", "moss"])
@pytest.mark.parametrize("heading", ["", "## Border\n\n"], ids=["in it", "headed"])
@pytest.mark.parametrize(("words", "count"), [
    ("Ch 1, sc evenly around, working 3 sc in each corner, join with sl st to first sc.", 50),  # 38 along the sides and 4 x 3: as many as are stated
    ("Ch 1, [3 sc in corner, 9 sc along the edge, 3 sc in corner, 8 sc along the row ends] twice, join with sl st to first sc.", 46),
    ("Ch 1, [3 sc in corner, 9 sc along the edge, 3 sc in corner, 8 sc along the row ends] twice, join with sl st to first sc.", 47),
])
def test_a_border_goes_along_all_sides(piece, heading, words, count):
    """2 x (3 + 9 + 3 + 8) are 46, so 47 is told; nothing else is."""
    report = hookwright.check(f"---\nterms: US\n---\n\n## Blanket\n\n{piece}{heading}Rnd 1: {words} ({count} sts)\n")
    assert [finding.kind for finding in report.findings if finding.grade == "must mend"] == (["count-differs"] if count == 47 else [])


def test_the_far_side_of_the_chain_below_many_rows():
    """The sides of a bag: 45 sts, 10 row ends, 45 of the 46 chains and 10 row ends are 110; 47 chains there are not."""
    base = "---\nterms: US\n---\n\nCh 46.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (45 sc)\n\nRows 2-10: Ch 1, sc in each st across, turn. (45 sc)\n\n"
    around = "Rnd 1: Ch 1, sc in each of 45 sts, 10 sc along row ends, {} sc along the other side of the foundation chain, 10 sc along row ends. ({})\n"
    assert not hookwright.check(base + around.format(45, 110)).must_mend
    assert [finding.kind for finding in hookwright.check(base + around.format(47, 112)).findings] == ["no-such-place"]
