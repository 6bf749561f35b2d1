"""References, labels and definitions as they are phrased, read into the tree. All texts are our own; common practice, no source."""

import pytest

from hookwright import check
from hookwright.ground import PerSize
from hookwright.notation import read
from hookwright.notation.tree import Again, Stated, Until


def _rows(text: str, **settings):
    pattern, _ = read(text, terms="US", **settings)
    return [row for _, row in pattern.rows()]


def _plain(items):
    return [(stated.items, stated.per) for stated in items]


@pytest.mark.parametrize("words", ["without changes (28)", "work even (28)", "no change. (28)", "straight (28)"])
def test_rows_worked_without_change_are_the_last_row_again(words):
    (row,) = _rows(f"Rows 30-31: {words}")
    assert (row.again.last, row.again.even, row.numbers) == (1, True, (30, 31))
    assert _plain(row.stated) == [(((28, "st", None),), "")]


def test_rows_worked_even_need_no_label():
    (row,) = _rows("Work 4 (6-6-8-8) rows even in sc.", sizes="ABCDE")
    assert row.count_of_rows == PerSize((4, 6, 6, 8, 8))
    assert [step.kind for step in row.steps] == ["sc"]


def test_how_many_last_rows_may_differ_by_size():
    row = _rows("Row 3: sc in each st, turn.\nRep last 4 (4-2) rows 7 (8-9) times more. 50 (54-56) sc.", sizes="ABC")[-1]
    assert row.again.last == PerSize((4, 4, 2)) and row.again.times == PerSize((7, 8, 9))
    assert _plain(row.stated) == [(((PerSize((50, 54, 56)), "sc", None),), "")] and not row.steps


def test_last_rows_by_size_are_worked():
    text = "Next row: ch 1, 2 sc in first st, sc to end, turn.\nWork 3 (1) rows even in sc.\nRep last 4 (2) rows 2 (3) times more. 12 (13) sc."
    report = check(text, terms="US", below="10 (10) sc", sizes=["A", "B"])
    # The row below is said to lie under the last line, so what stands before that line is only what it refers to.
    assert [fabric.rows[-1].stitches for fabric in report.fabrics] == [12, 13]
    assert [len(fabric.rows) for fabric in report.fabrics] == [8, 6]


def test_a_dash_is_a_size_that_takes_no_part():
    row = _rows("Dec Row: ch 1, sc2tog, sc to end, turn.\nRepeat Dec Row - (-, two, three) more times. 30 (32, 28, 24) sc", sizes="ABCD")[-1]
    assert row.again.named == ("Dec",) and row.again.times == PerSize((None, None, 2, 3))


def test_rows_in_all():
    row = _rows("3rd row: sc in each st.\nRep 3rd row until there are 60 (117, 132) rows in all, or until it is as long as the edge.", sizes="ABC")[-1]
    assert row.again.total_rows == PerSize((60, 117, 132)) and row.again.until == Until(desired=True, or_fixed=True)


def test_once_more_is_more():
    (row,) = _rows("Rows 4-8: Rep Rows 2 and 3 twice more, then rep Row 2 once more.")
    assert row.again == Again(rows=(2, 3), times=2, sense="more", then=Again(rows=(2,), times=1, sense="more"))


@pytest.mark.parametrize(
    ("count", "items", "per"),
    [
        ("(24 dc, 8 ch-1 sps)", ((24, "dc", None), (8, "sp", 1)), ""),
        ("(4 groups of 9 dc)", ((4, "group", None), (9, "dc", None)), "group"),
        ("24 dc, 8 ch-1 sps.", ((24, "dc", None), (8, "sp", 1)), ""),
    ],
)
def test_a_count_may_follow_a_reference_at_once(count, items, per):
    (row,) = _rows(f"Round 3: As round 2. {count}")
    assert row.stated == [Stated(items, per)] and not row.steps


def test_a_number_before_a_repeated_group_is_the_rows():
    (row,) = _rows("10 (7 sc, inc) x 6 (54)")
    assert row.numbers == (10,) and row.steps[0].times == 6


def test_rows_that_run_backwards_are_asked_about():
    _, findings = read("Rows 9-5: Repeat Row 2.", terms="US")
    assert [(finding.kind, finding.row) for finding in findings] == [("row-out-of-order", "Rows 9, 5")]


def test_a_multiple_said_of_the_chain_itself_is_checked():
    report = check("Ch 30 (a multiple of 4 plus 3). Row 1: Sc in 2nd ch from hook, *ch 1, skip 1 ch, sc in next ch; repeat from * across, turn.", terms="US")
    assert "multiple-differs" in [finding.kind for finding in report.findings]


def test_explaining_a_stitch_keeps_it_that_stitch():
    text = (
        "## Special stitches\n\n**fpdc:** Front post double crochet: yarn over, insert hook around the post of the stitch, and complete the dc.\n\n"
        "## Hat\n\nRow 3: [fpdc around next 2 sts, hdc in next st] x 8 (16 fpdc)\n"
    )
    (row,) = _rows(text)
    assert row.steps[0].steps[0].kind == "fpdc"


@pytest.mark.parametrize("words", [
    "R1-3 same as head", "R1-3: same as for the head.", "R1-3: as head", "R1-3: like the head", "R1-3: Follow R1-3 of the head.",
    "Rounds 1-3: Same as rounds 1-3 of head.", "Work R1-3 as for the head.",
])
def test_rows_like_those_of_another_piece_are_not_those_of_the_last_one(words):
    """Of three pieces the third begins as the first (counts of our own, worked out by hand: 6, 12, 18)."""
    text = f"""HEAD
R1: 6 sc in magic ring [6]
R2: 6 inc [12]
R3: (sc, inc) x6 [18]
R4: (2 sc, inc) x6 [24]

EARS (make 2)
R1: 4 sc in magic ring [4]
R2: inc in each [8]
R3-7: 8 sc [8]

BODY
{words}
R4-6: sc around [18]
"""
    report = check(text, terms="US").as_dict()
    body = [row["sizes"]["1"]["stitches"] for row in report["rows"] if row["piece"] == "BODY"]
    assert body == [6, 12, 18, 18, 18, 18]
    assert [finding["message"] for finding in report["findings"] if finding["grade"] == "must mend"] == []


def test_an_edging_on_the_line_under_a_row_is_a_row_of_its_own():
    """32 stitches in repeats of 4, of which each makes a shell of 5 and a slip stitch: 8 shells."""
    text = "Round 1: 16 dc in magic ring. (16)\nRound 2: 2 dc in each st around, ss.\nEdging: *skip 1 st, 5 dc in next st, skip 1 st, sl st in next st* all the way around."
    report = check(text, terms="US").as_dict()
    assert [row["label"] for row in report["rows"]] == ["Round 1", "Round 2", "Edging"]
    assert report["rows"][-1]["sizes"]["1"]["by_kind"]["dc"] == 40


@pytest.mark.parametrize("thumb", [
    "Join yarn at the thumb opening.\nRnd 1: Sc in 7 skipped sts, sc in 3 ch. 10 sc",
    "Rnd 1: Join yarn in first skipped st of Rnd 2, sc in 7 skipped sts, sc in 3 ch. 10 sc",
    "Rnd 1: Join yarn in any st of the thumb hole, sc evenly around the opening. (10)",
    "Join yarn to thumb opening with sl st.\nRnd 1: Ch 1, sc in next 7 sts, sc in next 3 ch, join. (10)",
])
def test_a_thumb_is_worked_into_what_was_passed_whatever_stands_between(thumb):
    """7 stitches passed "for thumb" under 3 chains: 10 places (counted by hand)."""
    text = f"""Hand
Rnd 1: 32 sc in magic ring.
Rnd 2: Sc in next 13 sts, skip next 7 sts for thumb, ch 3, sc in next 12 sts. 28
Rnds 3-9: Sc in each st and ch around. 28
Rnd 10: Sc2tog around. 14
Fasten off.

Thumb
{thumb}"""
    report = check(text, terms="US").as_dict()
    assert report["rows"][-1]["sizes"]["1"]["stitches"] == 10
    assert [finding["message"] for finding in report["findings"] if finding["grade"] != "note"] == []


@pytest.mark.parametrize("words", [
    "Ch 1, sc in the same ch and in each ch around, join. (80)", "Ch 1, sc in same ch as join and in each ch around. (80)", "Ch 1, sc in same ch, sc in each ch around. (80)",
    "Ch 1, sc in same st as joining, sc in next ch and in each ch around, join. 80 sc", "Ch 1, 1 sc in the same place and in each chain round. 80",
])
@pytest.mark.parametrize("chain", ["Ch 80, join with a slip stitch to the first chain without twisting.", "Ch 80, join to form a ring."])
def test_a_long_chain_joined_has_one_stitch_in_each(chain, words):
    """Common practice, no source: n chains joined and worked along make n stitches."""
    report = check(f"{chain}\nRound 1: {words}", terms="US").as_dict()
    assert report["rows"][-1]["sizes"]["1"]["stitches"] == 80
    assert [finding["message"] for finding in report["findings"] if finding["grade"] == "must mend"] == []
