"""A number that must fit a piece takes the multiple of its rows, whatever stands in brackets after the piece's name."""

import pytest

import hookwright

TEXT = """---
terms: US
sizes: [{{name: S, to fit: 40 cm}}, {{name: M, to fit: 51 cm}}]
gauge:
  - {{stitches: 14, rows: 10, over: 10 cm, in: hdc}}
numbers:
  half: {{want: to fit, count: stitches, fits: {fits}}}
---

## {heading}

Row 1 (RS): Ch {{half + 1}}, sc in 2nd ch from hook and in each ch across. ({{half}} sc)
Row 2: Ch 1, turn, *hdc in next 2 sts, fpdc around next 3 sts; rep from * across. ({{half}} sts)
"""


@pytest.mark.parametrize(("heading", "fits"), [("Back", "Back"), ("Back", "back"), ("Back (make 2)", "Back"), ("Back (make 2)", "Back (make 2)"), ("Front and Back (make 2)", "Front and Back")])
def test_the_number_is_a_multiple_of_the_repeat(heading, fits):
    """40 cm are 56 stitches and 51 cm are 71.4; in fives 55 and 70."""
    report = hookwright.check(TEXT.format(heading=heading, fits=fits))
    assert [finding.message for finding in report.findings] == []
    assert report.sized.answer.numbers["half"] == (55, 70)


def test_another_piece_is_not_it():
    """A name of which there is no piece is told, with those there are."""
    (finding,) = [finding for finding in hookwright.check(TEXT.format(heading="Backs", fits="Back")).findings if finding.kind == "number-not-found"]
    assert "Backs" in finding.message
