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


COWL = """---
terms: US
sizes: [{{name: S, to fit: 50.5 cm}}, {{name: M, to fit: 58.7 cm}}]
gauge: {{stitches: 16, rows: 9, over: 10 cm, in: dc}}
numbers:
  around: {{want: to fit, count: stitches, fits: Cowl}}
---

## Cowl

Ch {{around}}, join with sl st to form a ring.

{first}
"""


def test_a_chain_joined_into_a_ring_and_worked_along_has_a_multiple():
    """A mesh in rounds of 2 takes an even number: 50.5 cm at 1.6 a cm are 80.8, 58.7 cm are 93.9 stitches."""
    report = hookwright.check(COWL.format(first="Rnd 1: Ch 4 (counts as dc, ch 1), skip next ch, *dc in next ch, ch 1, skip next ch; rep from * around, join with sl st to 3rd ch of beg ch-4."))
    assert [finding.kind for finding in report.findings if finding.grade == "must mend"] == []
    assert [number.values for number in report.numbers if number.name == "around"] == [(80, 94)]
    assert report.multiples == [("Cowl", "any multiple of 2 chains")]


def test_a_chain_joined_into_a_ring_and_worked_into_the_middle_has_none():
    """The finding says that, and not that there is no such piece."""
    report = hookwright.check(COWL.format(first="Rnd 1: Ch 3 (counts as dc), {around} dc in ring, join with sl st in top of beg ch."))
    (message,) = [finding.message for finding in report.findings if finding.kind == "number-not-found"]
    assert "middle" in message and "multiple: 12 plus 1" in message and "names no piece" not in message
    assert report.multiples == []


@pytest.mark.parametrize(("stitches", "left"), [(20, 0), (21, 1), (22, 0), (31, 1)])
def test_a_round_that_leaves_a_stitch_says_so(stitches, left):
    """After a last whole pass, its own skip worked, nothing excuses the stitch that is over: 21 - 2 = 19 = 9 x 2 + 1."""
    row = "Rnd 2: Ch 4 (counts as dc, ch 1), skip next st, *dc in next st, ch 1, skip next st; rep from * around, join with sl st to 3rd ch of beg ch-4."
    found = hookwright.check(row, terms="US", below=f"{stitches} dc", in_round=True).findings
    assert [finding.kind for finding in found] == ["repeat-leaves-stitches"] * left


def test_a_skip_left_unsaid_before_the_join_is_excused():
    """The end repeats the pass but for its skip, which the join spans: ch 4 and skip, 8 passes of 2, dc and ch 1: 2 + 16 + 2 = 20."""
    row = "Rnd 2: Ch 4 (counts as dc, ch 1), skip next st, *dc in next st, ch 1, skip next st; rep from * to last 2 sts, dc in next st, ch 1, join with sl st to 3rd ch of beg ch-4."
    assert not hookwright.check(row, terms="US", below="20 dc", in_round=True).findings
