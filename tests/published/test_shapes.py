"""Discs, crowns, balls, swatches and chains come out as published pages say. The facts stand in shape_facts.toml with their sources."""

import tomllib
from math import pi, sin
from pathlib import Path
from statistics import mean

import pytest

import hookwright
from hookwright.notation import Swatch
from hookwright.sizing import ball, ball_diameter_mm, chain_allowance, crown, gauge_of, increases_per_round, table

FACTS = tomllib.loads(Path(__file__).with_name("shape_facts.toml").read_text("utf-8"))
INCH = 25.4
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.mark.parametrize("fact", FACTS["disc"], ids=lambda fact: fact["stitch"])
def test_a_flat_disc_gains_what_the_pages_say(fact):
    """2 pi x row height / stitch width: at every published gauge within one of the published figures, and on the whole the rule of 6, 8 and 12,
    within one (for dc 10.9: pages say 10 to 12)."""
    gains = [increases_per_round(100 / stitches, 100 / rows) for stitches, rows in fact["gauges"]]
    assert all(min(fact["pages"]) - 1 <= round(gain) <= max(fact["pages"]) + 1 for gain in gains)
    assert abs(mean(gains) - fact["per_round"]) <= 1.1


def test_a_disc_of_sc_begins_with_six():
    """At the mean of the published gauges a crown in sc gains 5 or 6 stitches a round; told 6, it has the rounds everyone knows."""
    fact = FACTS["disc"][0]
    width, height = mean(100 / stitches for stitches, _ in fact["gauges"]), mean(100 / rows for _, rows in fact["gauges"])
    counts = crown(60, width, height)
    gains = [after - before for before, after in zip([0, *counts], counts)]
    assert set(gains) <= {fact["per_round"] - 1, fact["per_round"]}
    assert crown(60, width, height, per_round=6) == [6, 12, 18, 24, 30, 36, 42, 48, 54, 60]


@pytest.mark.parametrize("example", FACTS["crown"]["examples_in"], ids=lambda example: str(example["circumference"]))
def test_the_diameter_of_a_crown_is_the_circumference_over_pi(example):
    """To the published digits; and a crown made for that circumference is a disc of that diameter, within half a stitch and half a round."""
    stitch, row = 100 / 14, 100 / 15
    stitches = round(example["circumference"] * INCH / stitch)
    assert ball_diameter_mm(stitches, stitch) / INCH == pytest.approx(example["diameter"], abs=0.05 + stitch / pi / 2 / INCH)
    assert example["circumference"] / pi == pytest.approx(example["diameter"], abs=0.05)
    rounds = crown(stitches, stitch, row)
    assert rounds[-1] == stitches
    assert abs(2 * len(rounds) * row - ball_diameter_mm(stitches, stitch)) <= row + 1e-6


@pytest.mark.parametrize("around", range(12, 121, 3))
def test_a_ball_follows_the_sine(around):
    """Round k of n is around x sin(pi (k - 1/2) / n) to half a stitch, the halves are alike, the middle is `around`, and with square stitches
    there are twice as many stitches round the middle as rounds (sources of the sine rule: sizing/tables/proportions.toml, [ball])."""
    assert table("proportions")["ball"]["source"]
    counts = ball(around, 7.0, 7.0)
    n = len(counts)
    assert counts == counts[::-1]
    assert abs(2 * n - around) <= 1
    assert all(abs(count - around * sin(pi * (k - 0.5) / n)) <= 0.5 or count == 3 for k, count in enumerate(counts, 1))
    assert around - max(counts) <= around * (1 - sin(pi * (n // 2 + 0.5) / n)) + 0.5


@pytest.mark.parametrize(("stitch", "row"), [(7.0, 7.0), (7.7, 6.9), (6.2, 10.5)])
def test_a_ball_has_the_surface_of_a_ball(stitch, row):
    """All stitches together cover 4 pi r^2 (geometry), within a twentieth, for square, flat and tall stitches."""
    for around in (36, 60, 90):
        radius = around * stitch / (2 * pi)
        assert sum(ball(around, stitch, row)) * stitch * row == pytest.approx(4 * pi * radius**2, rel=0.05)


@pytest.mark.parametrize("fact", FACTS["swatch"], ids=lambda fact: fact["stitch"])
def test_a_published_swatch_gives_its_published_gauge(fact):
    """20 stitches and 20 rows as measured: the gauge over 4 in to the printed digit, the proportion of row to stitch, and 1 in 20 of doubt."""
    gauge = gauge_of(Swatch(fact["stitch"], 20, fact["width_in"] * INCH, 20, fact["height_in"] * INCH))
    per = tuple(value * 4 * INCH / 100 for value in gauge.per_10cm)
    assert per == (pytest.approx(fact["per_4_in"][0], abs=0.06), pytest.approx(fact["per_4_in"][1], abs=0.06))
    assert gauge.row_mm / gauge.stitch_mm == pytest.approx(fact["row_over_stitch"], abs=0.006)
    assert gauge.stitch_out == gauge.row_out == 1 / 20


SIDEWAYS = """---
title: Quay Hat
terms: US
sizes: [Adult]
body: {from: heads, sizes: [women]}
ease: -4 cm
gauge:
  - {stitches: 14, rows: 11, over: 10 cm, in: ribbing}
numbers:
  rows: {want: head + ease, count: rows, in: ribbing, even: yes}
finished:
  circumference: rows * row
---
Ch 32.
Row 1: Sc in 2nd ch from hook and in each ch across. (31 sc)
Rows 2-{rows}: Ch 1, turn, sc in back loop of each st across. (31 sc)
"""


def test_an_adult_hat_sideways_is_20_to_21_inches():
    """Surveyed women's heads with the ease of a crochet hat; and the adult size of our own sideways hat, by its rows as worked."""
    low, high = (inches * INCH for inches in FACTS["sideways_hat"]["adult_in"])
    made = hookwright.check(SIDEWAYS)
    assert made.must_mend == 0
    assert low - 5 <= made.pattern.head.finished["circumference"].mm[0][0] <= high + 5
    assert len([row for row in made.fabrics[0].rows if row.stitches == 31]) == made.sized.answer.numbers["rows"][0]
    groyne = hookwright.check((EXAMPLES / "groyne-hat.md").read_text("utf-8"))
    adult = next(index for index, size in enumerate(groyne.sizes) if size.startswith("Adult S"))
    assert low <= sum(groyne.pattern.head.finished["circumference"].at(adult)) / 2 <= high


@pytest.mark.parametrize("stitch", [4.0, 7.0, 12.5])
def test_a_foundation_chain_lies_half_an_inch_to_an_inch_longer(stitch):
    """The allowance is that much, and the spare chains are as long to half a chain (one at least)."""
    allowance = chain_allowance(40, stitch)
    wanted = tuple(inches * INCH for inches in FACTS["foundation_chain"]["longer_in"])
    assert allowance.longer_mm == pytest.approx(wanted)
    assert allowance.wanted_mm == pytest.approx(40 * stitch)
    assert all(abs(chains * stitch - length) <= stitch / 2 + 1e-9 for chains, length in zip(allowance.spare, wanted))


def test_every_fact_has_a_source():
    """No fact without where it comes from."""
    every = [FACTS["crown"], FACTS["gauges"], FACTS["sideways_hat"], FACTS["foundation_chain"], *FACTS["disc"], *FACTS["swatch"]]
    assert all(fact["source"] and all(words.strip() for words in fact["source"]) for fact in every)
