"""Row heights that follow from the stitches of a piece, and shaping spread over rows that are found."""

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
