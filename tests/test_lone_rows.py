"""A row by itself: blamed only for what it says itself; what was taken to lie below it is said. Counts worked out by hand, common practice."""

import tomllib
from pathlib import Path

import pytest

import hookwright

GRAVER = {"must mend", "look at this"}

# the row, its stitches, the stitches it was taken over
COMES_OUT = [
    ("Row 4: Ch 3, dc in next st and in each st across. (17 dc)", 17, 17),
    ("Row 4: Ch 3 (counts as dc), dc in next 22 sts. (23 dc)", 23, 23),
    ("Row 4: Ch 2, hdc in next 15 sts. (15 hdc)", 15, 15),
    ("Row 8: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog. (21 sc)", 21, 23),
    ("Rnd 6: Ch 1, *sc in next 3 sts, inc; rep from * around. (45)", 45, 36),
    ("Rnd 6: [2 sc in next st] around. (14)", 14, 7),
    ("Ch 3, turn, dc in next st and in each st across. (12 dc)", 12, 12),
]


@pytest.mark.parametrize(("text", "stitches", "over"), COMES_OUT)
def test_is_taken_over_as_many_stitches_as_let_it_come_out(text, stitches, over):
    """Nothing is blamed, the count is the stated one, and a note says over how many stitches that is."""
    report = hookwright.check(text, terms="US").as_dict()
    assert [finding["message"] for finding in report["findings"] if finding["grade"] in GRAVER] == []
    assert report["rows"][-1]["sizes"]["1"]["stitches"] == stitches
    told = [finding["message"] for finding in report["findings"] if finding["kind"] == "row-below-missing"]
    assert len(told) == 1 and told[0].endswith(f"over {over} stitches")


@pytest.mark.parametrize("text", [
    "Row 3: Ch 3, 2 dc in next ch-1 sp, *ch 1, 3 dc in next ch-1 sp; rep from * across. (33 dc)",
    "Rnd 3: Ch 3, (2 dc, ch 2, 3 dc) in corner sp, *3 dc in next sp, (3 dc, ch 2, 3 dc) in next corner sp; rep from * around.",
])
def test_that_goes_into_spaces_is_left_unproved(text):
    """Its count is not compared with anything, and that is said."""
    report = hookwright.check(text, terms="US").as_dict()
    assert [finding["message"] for finding in report["findings"] if finding["grade"] in GRAVER] == []
    assert report["proved"]["counts"] == 0
    assert "not proved" in next(finding["message"] for finding in report["findings"] if finding["kind"] == "row-below-missing")


@pytest.mark.parametrize(("text", "grade"), [
    ("Rnd 6: [sc in next 3 sts, inc] x 9. (44)", "must mend"),  # 9 x 5 = 45 over any row
    ("Rnd 6: *sc in next 3 sts, inc; rep from * around. (44)", "look at this"),  # no multiple of 5
])
def test_whose_count_holds_over_no_row_is_still_found(text, grade):
    """A count that can't be reached over any number of stitches is a fault of the row; less surely where the row goes as far as there is."""
    report = hookwright.check(text, terms="US").as_dict()
    assert [(finding["kind"], finding["grade"]) for finding in report["findings"] if finding["grade"] in GRAVER] == [("count-differs", grade)]


@pytest.mark.parametrize(("text", "stitches"), [
    ("Rows 10-13: Ch 1, turn, sc in each st across. (24)", 24),
    ("Rows 2-6: Ch 1, turn, sc in first st, 2 sc in next st, sc in each st across. (12 sc at end of Row 6)", 12),
    ("Next rnd: Ch 2, hdc in each st around, inc 4 sts evenly. (44 hdc)", 44),
    ("Edging: Join B with sl st to any st, ch 1, sc in each st around, join. (52 sc)", 52),
])
def test_ranges_and_rows_without_a_number_come_out_too(text, stitches):
    """The last of the range has the stated count, and what comes before follows from it."""
    report = hookwright.check(text, terms="US").as_dict()
    assert [finding["message"] for finding in report["findings"] if finding["grade"] in GRAVER] == []
    assert report["rows"][-1]["sizes"]["1"]["stitches"] == stitches


def test_sound_rows_without_what_lies_below_them_are_hardly_ever_blamed():
    """Of every seventh sound row of tests/patterns, taken out of its place, fewer than 3 in 100 have something that must be mended."""
    rows = [row for path in sorted((Path(__file__).parent / "patterns").glob("rows_*.toml")) for row in tomllib.loads(path.read_text("utf-8"))["row"]]
    rows = [row for row in rows if "fault" not in row and "below" in row and not row.get("rows_before")][::7]
    blamed = []
    for row in rows:
        notes = ["Notes: " + " ".join(row["notes"]), ""] if "notes" in row else []
        report = hookwright.check("\n".join([*notes, row["text"]]), terms=row["terms"], in_round=row.get("in_round", False), sizes=row.get("sizes"))
        blamed += [row["name"]] if report.must_mend else []
    assert len(rows) > 100
    assert len(blamed) * 100 < 3 * len(rows), blamed


def test_what_the_row_below_says_of_its_chain_holds_for_this_one():
    """A chain that counts below counts here: 17 stitches are there and 17 are worked, not 18."""
    below = "ch 3 (counts as dc), 16 dc"
    right = hookwright.check("Row 4: Ch 3, dc in next st and in each st across. (17 dc)", terms="US", below=below).as_dict()
    assert [finding for finding in right["findings"] if finding["grade"] in GRAVER] == []
    short = hookwright.check("Row 4: Ch 3, dc in next st and in each st across. (16 dc)", terms="US", below=below).as_dict()
    assert [finding["kind"] for finding in short["findings"] if finding["grade"] in GRAVER]
    assert not any("no other row tells" in finding["message"] for finding in short["findings"])


@pytest.mark.parametrize(
    ("text", "below", "stitches"),
    [
        ("Paws, Round 6. Work 4 single crochets, decrease once, then 3 single crochets. [8]", "9 sc", 8),
        ("Row six is the easy one: chain 3, then double crochet in every double crochet and two double crochets in every chain-two space, all the way across.", "ch 3 (counts as dc), dc, [ch 2, 2 dc] x 11, ch 2, dc", 49),
        ("Now we sc all round and there are 20 sts.", "20 sc", 20),
        ("Go gobble it all over, now you have 22", "20 sc", 22),
    ],
)
def test_a_line_over_a_row_below_is_a_row(text, below, stitches):
    """With the row below given the words are a row, whatever they look like; what can't be read of them has the count that they state, and nobody is blamed."""
    report = hookwright.check(text, terms="US", below=below, in_round=True)
    assert report.as_dict()["rows"][-1]["sizes"]["1"]["stitches"] == stitches
    assert all(finding.grade != "must mend" for finding in report.findings)


@pytest.mark.parametrize("words", ["ch 1, ch 1, 5 dc in next ch-1 sp, sc in next sc", "*ch 1, ch 1, 5 dc in next ch-1 sp, sc in next sc; rep from * around"])
def test_two_chains_alike_at_the_start_are_two(words):
    """A round that begins with two chains that are alike comes to an end."""
    report = hookwright.check(f"Rnd 3: {words}", terms="US", below="[sc, ch 1] x 6", in_round=True).as_dict()
    assert report["rows"][-1]["sizes"]["1"]["stitches"] > 5
