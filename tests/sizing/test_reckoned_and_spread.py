"""Row heights that follow from the stitches of a piece, and shaping spread over rows that are found."""

import pytest

import hookwright

SLEEVE = """---
terms: US
sizes: [S, M, L]
gauge: {stitches: 14, rows: 16, over: 10 cm, in: sc}
numbers:
  cuff: 28 (30, 32)
  incs: 7 (7, 8)
  sleeve: {want: 40 cm, count: rows, in: Sleeve, even: yes}
  shaping: {spread: incs, over: sleeve - 4, step: 2}
---

## Sleeve

Ch {cuff + 1}.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. ({cuff} sts)

Row 2: Ch 2 (does not count), hdc in each st across, turn.

Row 3: Ch 1, sc in each st across, turn.

Rows 4-{sleeve}: Rep Rows 2 and 3.
"""


def test_rows_of_a_piece_are_as_high_as_its_stitches():
    """sc rows are 6.25 mm by the gauge, hdc rows 1.4 / 0.89 of that, 9.83 mm; together 8.04 mm, so 40 cm are 50 rows."""
    report = hookwright.check(SLEEVE)
    assert report.sized.answer.numbers["sleeve"] == (50, 50, 50)
    assert [finding.kind for finding in report.findings if finding.kind != "caution-owed"] == ["row-gauge-reckoned"]


def test_shaping_is_spread_over_the_rows_that_were_found():
    """7 increases over 46 rows, every other row at most: 46 / 2 = 23 = 7 x 3 + 2, so twice every 8th row and 5 times every 6th."""
    numbers = hookwright.check(SLEEVE).pattern.head.numbers
    assert (numbers["shaping every"][0], numbers["shaping times"][0], numbers["shaping then every"][0], numbers["shaping then times"][0]) == (8, 2, 6, 5)
    assert numbers["shaping rest"] == 0 or numbers["shaping rest"][0] == 0
    assert 8 * 2 + 6 * 5 == 46


def test_shaping_that_does_not_fit_is_said():
    """40 increases don't fit into 46 rows of which every other one is shaped."""
    report = hookwright.check(SLEEVE.replace("incs: 7 (7, 8)", "incs: 40"))
    assert any(finding.kind == "number-not-found" and "don't fit" in finding.message for finding in report.findings)


def test_a_piece_that_is_not_there_is_said():
    """A fabric that is neither swatch nor piece is named, with what there is."""
    report = hookwright.check(SLEEVE.replace("in: Sleeve", "in: Moonlight"))
    assert any(finding.kind == "number-not-found" and "`Moonlight`" in finding.message for finding in report.findings)


HEAD = """---
terms: US
sizes: [S, M, L]
gauge: 15 sts and 16 rows to 10 cm
body:
  bust: 80 (90, 100) cm
numbers:
  h: a / 2
  a: ASKED
  l: {want: 1/2 yd, count: rows}
finished:
  bust: a * stitch
---

## Back

Ch {a + 1}.

Row 1: Sc in 2nd ch from hook and in each ch across. ({a} sts)

Rows 2-{l}: Ch 1, sc in each st across. ({a} sts)

Row {l + 1}: Ch 1, sc in each of next {h} sts, leave remaining sts unworked. ({h} sts)
"""


@pytest.mark.parametrize(("asked", "said"), [
    ("{want: bust + 8, count: stitches}", "give both a unit"),
    ("{want: bsut, count: stitches}", "did you mean `bust`"),
    ("{want: bust * bust, count: stitches, even: yes}", "is an area"),
    ("{want: 9**9**9}", "is expected before"),
    ("{want: bust, count: clouds}", "stitches, rows or rounds"),
    ("{want: bust, count: stitches, in: lace}", "`lace`"),
    ("40 (44)", "2 values for 3 sizes"),
    ("{want: bust, spread: 4, over: 10}", "one name can't have both"),
    ("{is: rubbish + 1}", "`rubbish`"),
])
def test_one_fault_in_a_wish_is_said_once(asked, said):
    """A number that can't be reckoned is no 0: nothing that follows from it is blamed, and the rows that name it are not worked."""
    report = hookwright.check(HEAD.replace("ASKED", asked))
    assert [finding.grade for finding in report.findings] == ["must mend"]
    assert said in report.findings[0].message
    assert [one.name for one in report.numbers] == ["l"]
    assert report.as_dict()["proved"]["words"].startswith("nothing was worked, since `a`")


def test_the_same_head_with_its_number_is_worked():
    """80, 90 and 100 cm at 15 sts to 10 cm are 120, 135 and 150 sts; half of 135 is no whole number, so even is asked for. Half a yard is 45.72 cm: 73 rows."""
    report = hookwright.check(HEAD.replace("ASKED", "{want: bust, count: stitches, even: yes}"))
    assert not report.must_mend
    assert {one.name: one.values for one in report.numbers}["l"] == (73, 73, 73)
    assert [fabric.rows[-1].stitches for fabric in report.fabrics] == [60, 68, 75]
