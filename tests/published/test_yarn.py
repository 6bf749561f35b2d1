"""Yarn that was measured and published against the rule: tests/published/yarn_facts.toml prints what is predicted beside it."""

import math
import tomllib
from pathlib import Path

import pytest

from hookwright.notation import Gauge, Head, Hook, Yarn
from hookwright.yarn import facts
from hookwright.yarn.gauge import geometry_of, metres_per_g
from hookwright.yarn.lengths import ratio

TABLE = tomllib.loads(Path(__file__).with_name("yarn_facts.toml").read_text("utf-8"))
FACTS = TABLE["fact"]
INCH, YARD = 2.54, 91.44  # cm


def predicted(fact: dict, typical: float | None = None) -> float:
    """The yarn of one entry in the unit it was published in."""
    yarn = Yarn(weight=fact["weight"], fibre=fact.get("fibre", ""))
    kinds = fact.get("kinds") or {fact["of"]: 1}
    kind, gauge = next(iter(kinds)), fact.get("gauge")
    head = Head(
        yarn=(yarn,), hook=(Hook(fact["hook_mm"]),) if "hook_mm" in fact else (),
        gauge=(Gauge(gauge["stitches"], gauge["rows"], 101.6, 101.6, kind),) if gauge else (),
    )
    geometry, _ = geometry_of(head, "US", yarn, 1.0, {})
    if "strip" in fact:
        kinds = {kind: fact["strip"] * INCH / geometry.width}
    elif "cover" in fact:
        kinds = {kind: fact["cover"][0] * INCH / geometry.width * fact["cover"][1] * INCH / (ratio(kind) * geometry.row)}
    if "mix" in fact:
        kinds = {each: share * kinds[kind] for each, share in fact["mix"].items()}
    length = sum(number * geometry.of(each) for each, number in kinds.items()) * (facts()["stitch"]["typical"] if typical is None else typical)
    unit = fact["published"][1]
    return length / 100 / metres_per_g(yarn) if unit == "g" else length / {"in": INCH, "yd": YARD, "m": 100}[unit]


def off(fact: dict, typical: float | None = None) -> float:
    """Logarithm of predicted over published."""
    return math.log(predicted(fact, typical) / fact["published"][0])


@pytest.mark.parametrize("fact", [*FACTS, *TABLE["bound"]], ids=lambda fact: fact["name"])
def test_the_table_prints_what_is_predicted(fact):
    """Predicted and error stand beside the published figure, and the figure has a source."""
    assert fact["predicted"] == pytest.approx(predicted(fact), abs=0.06)
    assert fact["error"] == pytest.approx(100 * (predicted(fact) / fact["published"][0] - 1), abs=0.06)
    assert fact["from"] in TABLE["sources"]


def test_the_halves_were_not_picked():
    """Sorted by name, every other one is for fitting."""
    assert [fact["half"] for fact in sorted(FACTS, key=lambda fact: fact["name"])] == ["fit", "test"] * (len(FACTS) // 2)


def test_the_number_of_the_rule_is_the_fit():
    """One number, from the half for fitting alone."""
    fit = [off(fact, 1.0) for fact in FACTS if fact["half"] == "fit"]
    assert facts()["stitch"]["typical"] == pytest.approx(math.exp(-sum(fit) / len(fit)), abs=0.0006)


def test_the_band_holds_four_of_five_of_the_other_half():
    """The errors of the half kept as a test have a spread whose four fifths are about the band that is shown where nothing was weighed."""
    test = [off(fact) for fact in FACTS if fact["half"] == "test"]
    spread = math.sqrt(sum(one * one for one in test) / len(test))
    band = facts()["band"]
    assert spread == pytest.approx(0.22, abs=0.01)
    assert band["four_in_five"] * spread == pytest.approx(band["uncalibrated"], abs=0.03)


def test_whole_balls_of_published_patterns_hold_what_it_takes():
    """The lower end of the band where nothing was weighed fits into the balls that are printed."""
    for bound in TABLE["bound"]:
        assert bound["predicted"] * (1 - facts()["band"]["uncalibrated"]) < bound["published"][0], bound["name"]


def test_taller_stitches_against_single_crochet():
    """Of the same strip hdc takes 1.48 and dc 1.92 times what sc takes (Windchilde); stitch for stitch hdc 1.47 times (Interweave)."""
    by = {fact["name"]: fact for fact in FACTS}
    sc, hdc, dc = (predicted(by[f"one row of {kind}, 5 in"]) for kind in ("sc", "hdc", "dc"))
    assert hdc / sc == pytest.approx(78.5 / 53, rel=0.1)
    assert dc / sc == pytest.approx(102 / 53, rel=0.1)
    assert predicted(by["swatch of hdc in chunky yarn, 20 x 20"]) / predicted(by["swatch of sc in chunky yarn, 20 x 20"]) == pytest.approx(28 / 19, rel=0.1)


def test_pompoms():
    """Eight of 3 3/8 in took 277 yd (Card Table Inc), and 150 to 200 wraps are usual (reference.com)."""
    rule = facts()["pompom"]
    assert 150 <= rule["wraps"] <= 200
    assert 8 * (rule["wraps"] * 2 * 3.375 * INCH + rule["tie_cm"]) / YARD == pytest.approx(277, rel=0.1)
