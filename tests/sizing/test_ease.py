"""Ease as a length and in per cent: what is found from it, and what is said where the finished measure is another."""

import hookwright
from hookwright.ground import Value, reckon

HEAD = """---
terms: US
sizes: [{{name: S, to fit: 50 cm}}, {{name: L, to fit: 60 cm}}]
ease: {ease}
gauge: {{stitches: 20, rows: 20, over: 10 cm, in: sc}}
numbers:
  around: {{want: to fit + ease, count: stitches}}
finished:
  circumference: {finished}
---

## Band

Ch {{around + 1}}.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. ({{around}} sts)
"""


def found(ease: str, finished: str = "around * stitch") -> hookwright.Report:
    return hookwright.check(HEAD.format(ease=ease, finished=finished))


def test_per_cent_is_a_share_of_the_body():
    """50 cm less 10 % are 45 cm, 90 sts of 5 mm; 60 cm less 10 % are 54 cm, 108 sts."""
    assert found("-10 %").sized.answer.numbers["around"] == (90, 108)
    assert found("-10 (-5) %").sized.answer.numbers["around"] == (90, 114)
    assert found("-4 cm").sized.answer.numbers["around"] == (92, 112)


def test_a_per_cent_name_works_as_a_per_cent():
    """head + ease with an ease of -5 % is 95 % of the head."""
    names = {"head": Value(560.0, length=True), "ease": Value(-0.05, percent=True)}
    assert reckon("head + ease", names).constant == 532.0
    assert reckon("head - 5 %", names).constant == 532.0


def test_finished_is_held_to_the_ease_in_per_cent():
    """45 (54) cm are right for -10 % of 50 (60) cm; 52 (62) cm are not."""
    quiet = [finding.kind for finding in found("-10 %", "45 (54) cm").findings]
    told = [finding for finding in found("-10 %", "52 (62) cm").findings if finding.kind == "ease-differs"]
    assert "ease-differs" not in quiet
    assert len(told) == 1 and told[0].sizes == ("S", "L")
