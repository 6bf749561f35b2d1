"""Rows worked stitch by stitch: counts, spaces, the places stitches stand on, what is held for the whole pattern."""

import tracemalloc

import numpy as np
import pytest

import hookwright
from hookwright.fabric import CHAINS, FLAG_COUNTS, KIND_NAMES, resolved


def last(text, below=None, in_round=False, sizes=None, terms="US"):
    """The last worked row of the first size."""
    report = hookwright.check(text, terms=terms, below=below, in_round=in_round, sizes=sizes)
    return report.fabrics[0].rows[-1]


# below, in the round, the row, stitches, chain spaces
ROWS = [
    (None, False, "Ch 24. Row 1: Sc in 2nd ch from hook and in each ch across, turn.", 23, []),
    (None, False, "Ch 24. Row 1: Sc across, turn. (23)", 23, []),
    (None, False, "Ch 24. Row 1: Dc in 4th ch from hook (3 skipped chs count as dc) and in each ch across, turn.", 22, []),
    (None, False, "Ch 26. Row 1: Dc in 8th ch from hook (7 skipped chs count as dc and ch 2), *ch 2, skip 2 chs, dc in next ch; rep from * across.", 8, [2] * 7),
    ("30 dc", False, "Row 2: Ch 3 (counts as dc), dc in each st across, turn.", 30, []),
    ("30 dc", False, "Row 2: Ch 3 (counts as dc), 2 dc in same st, dc in each st to last st, 3 dc in last st, turn.", 34, []),
    ("30 sc", False, "Row 2: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn.", 28, []),
    ("31 sc", False, "Row 2: Ch 1, sc in first st, *ch 2, skip 2 sts, sc in next st; rep from * across, turn.", 11, [2] * 10),
    ("sc, [ch 2, sc] x 10", False, "Row 3: Ch 1, sc in first sc, *3 sc in next ch-2 sp, skip next sc; rep from * to last sc, sc in last sc, turn.", 32, []),
    ("24 hdc", True, "Rnd 4: Ch 1, [hdc in next 3 sts, 2 hdc in next st] around, join.", 30, []),
    ("24 sc", True, "Rnd 4: *5 sc, inc; rep from * around (28)", 28, []),
    ("ring", True, "Rnd 1: Ch 5 (counts as dc and ch 2), [3 dc in ring, ch 2] 3 times, 2 dc in ring, join with sl st to 3rd ch of ch-5.", 12, [2] * 4),
    ("ch 5 (counts as dc, ch 2), [3 dc, ch 2] x 3, 2 dc", True,
     "Rnd 2: Sl st in next ch-2 sp, ch 5 (counts as dc and ch 2), 2 dc in same sp, *dc in each st to next ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp; "
     "rep from * twice more, dc in each st to end, dc in same sp as ch-5, join.", 28, [2] * 4),
    ("40 sc", False, "Row 9: Ch 1, sc in next 10 sts, ch 6, skip 6 sts, sc in each st across, turn.", 34, [6]),
    ("24 sc", False, "Row 5: Ch 1, sc in each of next 18 sts, turn, leaving rem sts unworked.", 18, []),
    ("20 sc", False, "Row 3: Ch 1, sc in first st, *puff in next st, sc in next st; rep from * to last st, sc in last st, turn.", 20, []),
    ("18 dc", False, "Row 3: Ch 2 (counts as dc), *fpdc around next 2 sts, bpdc around next 2 sts; rep from * to last st, dc in last st, turn.", 18, []),
    ("22 row ends", False, "Ch 1, work 33 sc evenly along row ends, turn.", 33, []),
    (None, True, "Ch 9. Rnd 1: 2 sc in 2nd ch from hook, sc in next 6 chs, 4 sc in last ch, working along other side of foundation ch, sc in next 6 chs, 2 sc in last ch.", 20, []),
    ("36 sc", True, "Rnd 7: *sc in next 4 sts, sc2tog; rep from * around. (30)", 30, []),
]


@pytest.mark.parametrize("below, in_round, text, stitches, spaces", ROWS)
def test_rows_come_to_their_stitches_and_spaces(below, in_round, text, stitches, spaces):
    """Stitches and chain spaces of rows of all constructions, worked out by hand."""
    row = last(text, below, in_round)
    assert [t.kind for t in row.troubles] == []
    assert (row.stitches, list(row.spaces)) == (stitches, spaces)


def test_every_stitch_stands_where_it_was_worked():
    """A decrease has both its feet, an increase shares one, a row worked back meets the row below from its other end."""
    text = "Ch 7. Row 1: Sc in 2nd ch from hook and in each ch across, turn. (6)\nRow 2: Ch 1, 2 sc in first st, sc2tog, sc in each st across, turn. (6)"
    report = hookwright.check(text)
    row = report.fabrics[0].rows[-1]
    stitches = [i for i, flag in enumerate(row.flags) if flag & FLAG_COUNTS]
    feet = [(row.foot[i], *row.feet.get(i, ())) for i in stitches]
    assert feet == [(5,), (5,), (4, 3), (2,), (1,), (0,)]


def test_columns_of_the_whole_fabric_hang_together():
    """Every foot in the columns points at a stitch or chain of an earlier row."""
    text = ("Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc around (12)\nRnd 3: [sc, inc] x 6 (18)\n"
            "Rnd 4: [ch 3, skip 2 sts, sc in next st] x 6\nRnd 5: 4 sc in each ch-3 sp around (24)")
    fabric = hookwright.check(text).fabrics[0]
    columns = fabric.columns()
    standing = columns["foot"] >= 0
    assert standing.sum() == 12 + 18 + 6 + 24
    assert (columns["row"][columns["foot"][standing]] == columns["row"][standing] - 1).all()
    into_spaces = columns["kind"][columns["foot"][columns["row"] == 4]]
    assert (into_spaces == CHAINS).all() and len(into_spaces) == 24
    assert columns["row"].dtype == np.int32 and set(KIND_NAMES) >= {"sc"}


def test_sides_turn_with_the_work():
    """Flat rows turn and change sides, joined rounds do neither."""
    flat = hookwright.check("Ch 11. Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn.\nRow 2: Ch 1, sc across, turn.\nRow 3: Ch 1, sc across.")
    assert [row.side for row in flat.fabrics[0].rows if row.number] == ["RS", "WS", "RS"]
    tube = hookwright.check("Rnd 1: 8 dc in magic ring, join.\nRnd 2: Ch 3 (counts as dc), dc in each st around, join.\n")
    assert [row.side for row in tube.fabrics[0].rows if row.number] == ["RS", "RS"]


TURNING = """Ch {chains}. Row 1: Hdc in 3rd ch from hook and in each ch across, turn. ({first})
Row 2: Ch 2, hdc in each st across, turn. ({second})
Row 3: Ch 2, hdc in each st across, turn. ({second})
"""


def test_a_turning_chain_is_taken_as_the_counts_say():
    """Ch 2 with hdc is undecided: the stated counts of the whole pattern decide it, either way."""
    no = hookwright.check(TURNING.format(chains=22, first=20, second=20))
    yes = hookwright.check("Row 2: Ch 2, hdc in next st and in each st across, turn. (20)\nRow 3: Ch 2, hdc in next st and in each st across, turn. (20)",
                           below="ch 2 (counts as hdc), 19 hdc")
    assert not no.must_mend and not yes.must_mend
    assert no.fabrics[0].rows[-1].by_kind == {"hdc": 20} == yes.fabrics[0].rows[-1].by_kind


def test_a_convention_is_held_and_the_odd_row_reported():
    """One row that only holds if its chain counts does not change the convention; it is found."""
    rows = [f"Row {n}: Ch 2, hdc in each st across, turn. (20)" for n in range(2, 8)]
    rows[3] = "Row 5: Ch 2, hdc in each st across, turn. (21)"
    report = hookwright.check("\n".join(rows), below="20 hdc")
    upper = [f for f in report.findings if f.grade != "for your information"]
    assert [f.row for f in upper] == ["Row 5"]


def test_unclear_repeats_are_settled_by_the_count_and_said():
    """"rep from * 3 times": three more or three in all; the count decides, and the assumption is reported."""
    report = hookwright.check("Rnd 2: Ch 1, *sc in next 4 sts, ch 2; rep from * 3 times, join. (12 sc, 3 ch-2 sps)", below="12 sc", in_round=True)
    assert report.fabrics[0].rows[-1].stitches == 12
    assert [f.kind for f in report.findings if f.grade == "look at this"] == ["reads-two-ways"]


def test_resolved_pattern_has_one_reading():
    """The pattern that is written out says plainly what was taken."""
    report = hookwright.check("Rnd 2: Ch 1, *sc in next 4 sts, ch 2; rep from * 3 times, join. (12 sc, 3 ch-2 sps)", below="12 sc", in_round=True)
    _, row = next(resolved(report.pattern, report.work).rows())
    assert [step.sense for step in row.steps if type(step).__name__ == "Repeat"] == ["total"]


def test_too_much_work_is_refused_in_words():
    """A number of times with digits too many is refused before it is worked."""
    for text in ("Row 2: *sc, ch 1; rep from * 999999999 times.", "Row 2: (sc 2, (sc 3) x 9999) x 99999", "Ch 99999999. Row 1: sc in each ch across.",
                 "Row 1: Ch 11, sc in 2nd ch from hook and in each ch across.\nRows 2-9000000: Ch 1, sc across."):
        report = hookwright.check(text, below=None if "Ch" in text else "20 sc")
        assert [f.kind for f in report.findings if f.grade == "must mend"][:1] in (["too-much-work"], ["row-runs-out"]), text
        assert report.must_mend


def test_memory_of_a_large_fabric():
    """Less than 200 bytes a stitch for 100,000 stitches of which no two rows are alike."""
    rows = ["Ch 502. Row 1: Sc in 2nd ch from hook and in each ch across, turn."]
    rows += [f"Row {n}: Ch 1, sc in first {n} sts, dc in each st across, turn." for n in range(2, 201)]
    text = "\n".join(rows)
    tracemalloc.start()
    work = hookwright.work(hookwright.read(text)[0])
    held = tracemalloc.get_traced_memory()[0]
    tracemalloc.stop()
    made = sum(len(row.kind) for row in work.fabrics[0].rows)
    assert made > 100_000 and held / made < 200


def test_none_of_the_first_stitches_is_a_size_that_works_none():
    """"In first 0 (2) sts" works nothing in the first size; numbers beyond reason are refused in words."""
    report = hookwright.check("Row 2: Ch 1, sc in first 0 (2) sts, leave remaining sts unworked. (0 (2) sc)", below="20 sc", sizes=("S", "M"), terms="US")
    assert [row.stitches for row in (fabric.rows[-1] for fabric in report.fabrics)] == [0, 2]
    for text in ("Row 2: Sc in next 1000000000000000000000 sts.", "Row 2: Ch 99999999999, turn."):
        assert "too-much-work" in {finding.kind for finding in hookwright.check(text, below="20 sc", terms="US").findings}, text
    assert "too-much-work" in {finding.kind for finding in hookwright.check("Sc in each st.", below="99999999999 dc", terms="US").findings}


def test_a_row_below_with_no_row_over_it():
    """A mistyped row is not passed over as prose in silence where the row below was given for it."""
    mistyped = hookwright.check("Crab stich in each stich round, FO. (20)", below="20 sc", terms="US")
    assert [row["sizes"]["1"]["by_kind"] for row in mistyped.as_dict()["rows"]] == [{"rsc": 20}]
    for text in ("Thank you for trying my pattern.", ""):
        assert "no-row-found" in {finding.kind for finding in hookwright.check(text, below="20 sc", terms="US").findings if finding.grade == "must mend"}, text


def test_the_sheet_does_not_say_that_all_was_worked_where_words_were_left_out():
    """Only where every word was read and every count agrees does the sheet say so."""
    rows = "---\ntitle: Sprat\nterms: US\n---\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\nRow 2: Ch 1, sc in each st across{}. (10 sc)\n"
    said = "Every row was worked stitch by stitch"
    assert said in hookwright.write(rows.format(""), to="txt").decode()
    assert said not in hookwright.write(rows.format(", scallop evenly around"), to="txt").decode()
