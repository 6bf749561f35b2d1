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
    assert said("round", "6", "--stitches", "26", "--decrease") == "[3 sc, sc2tog] 2 times, [2 sc, sc2tog] 4 times. (20 sts)\n"


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


def test_border_and_raglan_add_up():
    """60 + 71 + 60 + 71 and 3 in each corner are 274; back, front and two sleeves are all of the yoke."""
    assert "274 sts in the first round" in said("border", "--stitches", "60", "--rows", "80", "--gauge", "16 sts and 18 rows to 10 cm")
    told = said("raglan", "--chest", "160", "--sleeve", "56", "--rounds", "30", "--underarm", "6", "--neck", "30")
    assert "248 sts, back 74, front 74, sleeves 50 each" in told and "the body has 160 sts and a sleeve 56" in told
