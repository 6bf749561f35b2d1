"""Rows shaped at intervals told in one sentence: read, worked row by row in every size, written as they were said and read back."""

import pytest

import hookwright

SLEEVE = """---
title: Sleeve
terms: US
sizes: [S, M]
---

## Sleeve

Ch 23 (27).

Row 1: Sc in 2nd ch from hook and in each ch across, turn. [22 (26) sts]

{shaping}

Next row: Ch 1, sc in each st across, turn. [{top} sts]
"""


def report_on(shaping: str, top: str):
    return hookwright.check(SLEEVE.format(shaping=shaping, top=top))


@pytest.mark.parametrize(
    ("shaping", "top", "words"),
    [
        ("Inc 1 st at each end of every 5th row 3 (4) times.", "28 (34)", "Inc 1 st at each end of every 5th row 3 (4) times."),
        ("Inc at each end of next and every 7 (5) rows until there are 30 (32) sts.", "30 (32)", "Inc at each end of next and every foll 7th (5th) row until there are 30 (32) sts."),
        ("Continue in pattern, decreasing one stitch at both ends of 4th and every following alt row 3 times.", "16 (20)", "Dec 1 st at each end of 4th and every foll alt row 3 times."),
        ("Inc 1 st at beg of next and foll 3 (4) alternate rows.", "26 (31)", "Inc 1 st at beg of next and every foll alt row 3 (4) more times."),
        ("Work in sc, inc 1 st at each end of every 6th (4th) row twice, then every 4th (-) row 2 (0) times.", "30", "Work in sc, inc 1 st at each end of every 6th (4th) row 2 times, then every 4th (-) row 2 (0) times."),
        ("Dec 4 sts evenly across every 5th row 2 (3) times, then every other row once.", "10", "Dec 4 sts evenly every 5th row 2 (3) times, then every other row 1 time."),
        ("Inc 3 sts evenly on next and every foll 4th row 2 times.", "28 (32)", "Inc 3 sts evenly on next and every foll 4th row 2 times."),
    ],
)
def test_shaping_at_intervals_is_worked_and_written_as_it_was_said(shaping, top, words):
    """The row after it comes out in every size, and the sheet says the same intervals."""
    report = report_on(shaping, top)
    assert report.findings == []
    assert words in " ".join(hookwright.write(report, "txt").decode().split())


def test_each_of_the_rows_is_an_entry_of_the_report():
    """Even rows between the shaped ones, each with its count."""
    rows = report_on("Inc 1 st at each end of every 3rd row twice.", "26 (30)").as_dict()["rows"]
    assert [row["sizes"]["S"]["stitches"] for row in rows[-8:]] == [22, 22, 22, 24, 24, 24, 26, 26]


def test_a_row_worked_again_at_intervals():
    """ "Repeat the increase row every 4 (3)th row": that row, with even rows between."""
    text = "Increase Row: Ch 1, 2 sc in first st, sc in each st to last st, 2 sc in last st, turn. [24 (28) sts]\n\nRepeat the increase row every 4 (3)th row 2 (3) times."
    report = report_on(text, "28 (34)")
    assert report.findings == []
    assert "Rep Increase Row every 4th (3rd) row 2 (3) times." in hookwright.write(report, "txt").decode()


def test_a_row_of_a_name_that_is_not_there_is_told_and_the_sheet_does_not_claim_it():
    """Nothing is worked in its place, and nobody is blamed."""
    report = report_on("Repeat the increase row every 4th row 2 (3) times.", "22 (26)")
    assert [(finding.kind, finding.grade) for finding in report.findings] == [("cannot-read", "look at this")]
    assert "worked stitch by stitch" not in hookwright.write(report, "txt").decode()


def test_a_pattern_of_several_stitches_is_not_guessed_at():
    """Where what the even rows are worked in is not known the stated count stands, gently."""
    report = hookwright.check("Continue in pattern, increasing 1 st at each end of every 4th row, 6 times (44 sts)\n\nNext row: Ch 1, sc in each st across. (44 sts)", terms="US", below="[sc, dc] x 16")
    assert [(finding.kind, finding.grade) for finding in report.findings] == [("cannot-read", "look at this")]
    assert report.as_dict()["rows"][-1]["sizes"]["1"]["stitches"] == 44


def test_a_goal_that_the_intervals_do_not_meet_is_said():
    """27 stitches less 2 at a time never make 20."""
    report = hookwright.check("Dec 1 st at each end of next and every following alt row until 20 sts rem", terms="US", below="27 sc")
    assert [finding.kind for finding in report.findings if finding.grade != "for your information"] == ["count-differs"]


def test_what_was_taken_where_nothing_says_it():
    """ "Inc every 5th row" without a place is one stitch at each end where the count bears it out, and that is listed."""
    report = hookwright.check("Inc every 5th row 6 times, then every 4th row 3 times. (47 sts)", terms="US", below="29 sc")
    assert report.as_dict()["rows"][-1]["sizes"]["1"]["stitches"] == 47
    assert any("at each end" in one["words"] for one in report.as_dict()["assumed"])
