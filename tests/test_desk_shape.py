"""`hookwright shape`: shaping in the trade's words, and rounds that come out when they are worked."""

import re

import pytest
from click.testing import CliRunner

import hookwright
from hookwright.desk.main import main

GAUGE = ["--gauge", "22 sts and 24 rows to 10 cm"]


def said(*words):
    done = CliRunner().invoke(main, ["shape", *words], standalone_mode=False, catch_exceptions=False)
    return done.output


def test_rows_are_said_as_the_trade_says_them():
    """9 increases over 42 rows, only right-side rows shaped: 3 x 6 + 6 x 4 = 42."""
    assert said("rows", "9", "--over", "42", "--right-side").startswith("Inc every 6th row 3 times, then every 4th row 6 times.")
    assert said("rows", "5", "--over", "20", "--decrease").startswith("Dec every 4th row 5 times.")


def test_a_round_ends_with_its_count():
    """26 sts less 6 decreases are 20: 2 x 5 + 4 x 4 = 26 sts are taken."""
    assert said("round", "6", "--stitches", "26", "--decrease") == "[3 sc, sc2tog] twice, [2 sc, sc2tog] 4 times. (20 sts)\n"


@pytest.mark.parametrize("stagger", [[], ["--stagger"]])
@pytest.mark.parametrize("kind", [["crown", "52 cm"], ["crown", "33 cm", "--multiple", "6"], ["ball", "9 cm"], ["ball", "25 cm", "--multiple", "6"], ["crown", "8 cm"]])
def test_rounds_come_out(kind, stagger):
    """What is printed is read, worked and proved with nothing to mend, and the counts at the ends are those that were worked."""
    told = said(*kind, *GAUGE, *stagger)
    assert "every count agrees" in told
    rounds = [line for line in told.splitlines() if line.startswith("Round ")]
    report = hookwright.check("\n\n".join(rounds), terms="US", in_round=True).as_dict()
    assert not [finding for finding in report["findings"] if finding["grade"] != "for your information"]
    assert [row["sizes"]["1"]["stitches"] for row in report["rows"]] == [int(re.search(r"\((\d+) sts\)", line)[1]) for line in rounds]


def test_a_crown_has_the_circumference_that_is_wanted():
    """52 cm at 22 sts to 10 cm are 114.4 sts; the disc is 52 / pi = 16.6 cm across."""
    told = said("crown", "52 cm", *GAUGE)
    assert "114 sts are 51.8 cm (20.4 in) round; the disc is 16.5 cm (6.5 in) across." in told


@pytest.mark.parametrize(("words", "why"), [
    (["rows", "9", "--over", "4"], "9 changes don't fit into 4 rows"),
    (["rows", "1", "--over", "0"], "a whole number from 1 to 100,000 is needed, not `0`"),
    (["round", "6", "--stitches", "4"], "6 increases don't fit into 4 sts: each is worked into a stitch of its own"),
    (["round", "6", "--stitches", "26", "--stitch", "banana"], "`banana` is no stitch it knows"),
    (["border", "--stitches", "6", "--rows", "26", *GAUGE, "--stitch", "scc"], "Did you mean `sc`?"),
    (["round", "6", "--stitches", "11", "--decrease"], "6 decreases don't fit into 11 sts: each takes 2 of them"),
    (["rows", "nine", "--over", "40"], "not `nine`"),
    (["taper", "40", "33", "--over", "20"], "take 32 or 34 at the end, or --one-edge"),
    (["taper", "60", "40", "--over", "5"], "10 changes don't fit into 5 rows"),
    (["raglan", "--chest", "161", "--sleeve", "56", "--rounds", "30"], "take 160 or 162 round the chest"),
    (["crown", "52", *GAUGE], "a length with its unit is needed"),
    (["crown", "52 cm", "--gauge", "loose"], "--gauge takes stitches, rows"),
    (["raglan", "--chest", "160", "--sleeve", "20", "--rounds", "30"], "take fewer increases or a wider sleeve"),
])
def test_what_cannot_be_is_said(words, why):
    """What doesn't fit or can't be understood is said in words, with no traceback."""
    done = CliRunner().invoke(main, ["shape", *words])
    assert done.exit_code != 0
    assert why in done.output


def test_a_taper_says_where_and_what_it_comes_to():
    """60 to 36 sts are 12 decrease rows of 2 over 48 rows: every 4th one."""
    assert said("taper", "60", "36", "--over", "48").startswith("Dec 1 st at each end of every 4th row 12 times. (36 sts)")
    assert said("taper", "20", "27", "--over", "14", "--one-edge").startswith("Inc 1 st at one edge every other row 7 times. (27 sts)")
    assert "3.1 sts more in each row" in said("crescent", "--gauge", "14 sts and 14 rows to 10 cm")


def test_a_taper_gives_the_count_of_every_shaped_row():
    """40 to 46 sts in 3 rows of 2 over 14, right-side rows only: 6 + 4 + 4 rows, counted from before Row 1, so that rows 5, 9 and 13 are shaped."""
    told = said("taper", "40", "46", "--over", "14", "--right-side")
    assert told.startswith("Inc 1 st at each end of every 6th row once, then every 4th row twice. (46 sts)")
    assert "Counts: 40 sts, then row 5: 42, row 9: 44, row 13: 46." in told
    assert "1 row after that is worked even." in told and "right-side rows" in told


def test_a_border_grows_by_the_height_of_its_rounds():
    """A side grows by a row height at either end: 8 x 0.89 sts in sc, 8 x 1.7 in dc, shared among four corners."""
    border = ["border", "--stitches", "60", "--rows", "80", "--gauge", "16 sts and 18 rows to 10 cm"]
    assert "3 in each corner" in said(*border) and "takes 8 sts more, 2 in each corner" in said(*border)
    assert "4 in each corner: 278 sts" in said(*border, "--stitch", "dc") and "takes 12 sts more, 3 in each corner" in said(*border, "--stitch", "dc")


def test_a_ball_has_no_tip():
    """The first round is never worked again plain before it grows."""
    told = said("ball", "3 in", "--multiple", "6", "--gauge", "13 sts and 14 rows to 10 cm")
    assert "Round 2: 6 inc. (12 sts)" in told and "Round 15: 6 sc2tog. (6 sts)" not in told


def test_border_and_raglan_add_up():
    """60 + 71 + 60 + 71 and 3 in each corner are 274; back, front and two sleeves are all of the yoke."""
    assert "274 sts in the first round" in said("border", "--stitches", "60", "--rows", "80", "--gauge", "16 sts and 18 rows to 10 cm")
    told = said("raglan", "--chest", "160", "--sleeve", "56", "--rounds", "30", "--underarm", "6", "--neck", "30")
    assert "248 sts, back 74, front 74, sleeves 50 each" in told and "the body has 160 sts and a sleeve 56" in told


@pytest.mark.parametrize("around", ["12 cm", "57 cm", "130 cm", "160 cm", "200 cm", "10 m"])
@pytest.mark.parametrize("gauge", ["14 sts and 16 rows to 10 cm", "15 sts and 8 rows to 10 cm", "22 sts and 24 rows to 10 cm", "9 sts and 13 rows to 10 cm"])
def test_a_crown_of_any_size_grows_by_one_whole_number(around, gauge):
    """At any gauge no round is more than twice the one before it, every increase round but the last gains the same, and the disc has as many
    rounds as its radius asks for: circumference / (2 pi) / row height, to within 1 in 12 (8 in a
    hundred and the rounding)."""
    told = said("crown", around, "--gauge", gauge)
    counts = [int(count) for count in re.findall(r"\((\d+) sts\)", told)]
    gains = [after - before for before, after in zip(counts, counts[1:]) if after > before]
    assert "every count agrees" in told and len(set(gains[:-1])) <= 1 and max(gains, default=0) <= counts[0]
    stitch, row = (100 / int(number) for number in re.findall(r"(\d+) (?:sts|rows)", gauge))
    assert abs(len(counts) - counts[-1] * stitch / (2 * 3.14159 * row)) <= 1 + len(counts) / 12


def test_one_of_a_thing_is_said_as_one():
    """1 row, 1 round, 1 st: no plural, and no brackets round a stitch that only stands a few times."""
    assert "That is in row 12; no row after that is worked even." in said("rows", "1", "--over", "12")
    assert "1 row after that is worked even" in said("rows", "4", "--over", "8", "--right-side")
    assert "1 round, 3 sts in all" in said("crown", "1 cm", "--gauge", "22 sts and 24 rows to 10 cm")
    assert said("round", "5", "--stitches", "6") == "1 sc, 5 inc. (11 sts)\n"


def test_right_side_rows_are_odd():
    """Where Row 1 is a right-side row all right-side rows are odd: 5, 11, 17, then every 4th."""
    assert "in rows 5, 11, 17, 21, 25, 29, 33, 37, 41, all right-side rows" in said("rows", "9", "--over", "42", "--right-side")


def test_more_than_is_worked_is_not_called_wrong():
    """11,000 sts round are more than is worked: the rounds are right, and only not proved."""
    assert "are not proved" in said("crown", "50 m", *GAUGE)
