"""Measures by counts and by the solved shape agree where fabric lies as it is counted, and both are told where it does not."""

import csv
import io
import json
from math import pi
from pathlib import Path

import pytest
from click.testing import CliRunner

import hookwright
from hookwright.desk.main import main

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
PANEL = """---
terms: US
sizes: [S, M]
gauge: 16 sts and 20 rows over 10 cm in sc
---
## Panel
Ch 33 (41).
Row 1: Sc in 2nd ch from hook and in each ch across. (32 (40) sc)
Rows 2-40: Ch 1, turn, sc in each st across. (32 (40) sc)
"""
TUBE = """---
terms: US
gauge: 16 sts and 20 rows over 10 cm in sc
---
## Cowl
Ch 64, join with sl st to form a ring.
Rnd 1: Ch 1, sc in each ch around, join. (64 sc)
Rnds 2-30: Ch 1, sc in each st around, join. (64 sc)
"""


def by_name(found, piece=0):
    return {one.name: one for one in found.pieces[piece].measures}


def test_a_rectangle_is_as_wide_and_high_as_it_is_counted():
    """32 (40) stitches of 6.25 mm and 40 rows of 5 mm; the shape agrees within one part in a hundred."""
    found = by_name(hookwright.measures(PANEL))
    assert found["width"].counted == (pytest.approx(200), pytest.approx(250))
    assert found["height"].counted == (pytest.approx(200), pytest.approx(200))
    for one in found.values():
        assert one.solved == tuple(pytest.approx(each, rel=0.01) for each in one.counted)
        assert one.settled == (True, True)


def test_a_cylinder():
    """64 stitches are 40 cm round at every height, and 30 rounds 15 cm."""
    found = by_name(hookwright.measures(TUBE, at_mm=[60]))
    for name in ("around at the first round", "around at the last round", "around 6 cm from the first round"):
        assert found[name].counted == (pytest.approx(400),)
    for name in ("around at the last round", "around 6 cm from the first round"):
        assert found[name].solved == (pytest.approx(400, rel=0.01),)
    assert found["length along the fabric"].solved == (pytest.approx(150, rel=0.03),)


def test_a_plane_cuts_a_tube_where_it_is_round():
    """The length of a level cut is the girth, at any height."""
    report = hookwright.check(TUBE)
    from hookwright.shape import Measuring, form

    measuring = Measuring(form(report.fabrics[0], pattern=report.pattern))
    for share in (0.2, 0.5, 0.8):
        assert measuring.around_at(measuring.height * share) == pytest.approx(400, rel=0.02)
    assert measuring.around_at(measuring.height + 10) is None


def test_a_hat_on_the_head_and_off_it():
    """Put on a head that is larger than its brim, the brim is as wide as the head."""
    text = (EXAMPLES / "harbor-light-beanie.md").read_text("utf-8")
    found = by_name(hookwright.measures(text, size="Adult S", head_mm=580))
    assert found["around the edge, off the head"].solved[0] == pytest.approx(520, rel=0.02)
    assert found["around the edge, on the head"].solved[0] == pytest.approx(580, rel=0.02)
    assert found["around the edge, on the head"].counted == (None,)


def test_rounds_that_cup_are_told_with_what_lies_flat():
    """Four a round where the gauge asks for 2 x pi x 5 / 6.25 = 5: one more in each."""
    rounds = "Rnd 1: 4 sc in magic ring. (4)\nRnd 2: 2 sc in each st around. (8)\nRnd 3: [Sc in next st, 2 sc in next st] 4 times. (12)\nRnd 4: [Sc in next 2 sts, 2 sc in next st] 4 times. (16)\n"
    (piece,) = hookwright.measures("---\nterms: US\ngauge: 16 sts and 20 rows over 10 cm in sc\n---\n## Mat\n" + rounds, solved=False).pieces
    assert 2 * pi * 5 / 6.25 == pytest.approx(5, abs=0.05)
    assert piece.shape == "disc"
    assert {one["does"] for one in piece.rounds} == {"cups"} and {one["to_lie_flat"] for one in piece.rounds} == {1}


def test_finished_measures_stand_beside_them():
    """As the head states them, of the sizes asked for."""
    text = PANEL.replace("gauge:", "finished: {length: 20 (21) cm}\ngauge:")
    assert hookwright.measures(text, size="M", solved=False).finished == {"length": (pytest.approx(210),)}
    assert "length   20 (21)\u00a0cm" in run("--counts-only", text=text).output


def run(*words, text=PANEL):
    return CliRunner().invoke(main, ["measure", "-", *words], input=text)


def test_the_command_tells_both_units_and_csv_and_json_the_same():
    """A line a measure; mm in the others."""
    done = run("--counts-only")
    assert done.exit_code == 0 and "20 (25)\u00a0cm" in done.output and "7¾ (9¾)\u00a0in" in done.output
    values = json.loads(run("--json", "--counts-only").output)
    (piece,) = values["pieces"]
    assert piece["measures"][0]["counted_mm"] == {"S": 200.0, "M": 250.0} and piece["measures"][0]["solved_mm"] == {"S": None, "M": None}
    lines = list(csv.DictReader(io.StringIO(run("--csv", "--counts-only", "--size", "m").output)))
    assert {(line["measure"], line["counted mm"]) for line in lines} == {("width", "250.0"), ("height", "200.0")}


def test_what_can_not_be_measured_is_told_in_words():
    """A piece that is not there, a length that is none, no rows."""
    assert "there is no piece 'hem'" in run("--piece", "hem").output
    assert "is no length" in run("--at", "soon").output
    assert run(text="Nothing is worked here.").exit_code == 2
    assert CliRunner().invoke(main, ["schematic", "-", "--piece", "hem"], input=PANEL).exit_code == 2


def test_the_shape_is_said_to_be_not_settled(monkeypatch):
    """Where the solver was stopped before it came to rest."""
    from hookwright.shape import passes

    monkeypatch.setattr(passes, "CAPS", (1, 1))
    text = (EXAMPLES / "slack-water-blanket.md").read_text("utf-8")
    done = run("--piece", "Blanket", "--size", "Stroller", text=text)
    assert "by the shape, not settled" in done.output
