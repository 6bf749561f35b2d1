"""Body tables give back the figures they were published with, in both units; surveyed people are spread as they were found.

The figures stand in body_facts.toml, head_facts.toml and yarn_weight_facts.toml, each with its source.
"""

import tomllib
from pathlib import Path
from statistics import NormalDist

import pytest

from hookwright.sizing import adult_heads, head_mm, measures, sizes_of, surveyed, table


def facts(name: str) -> dict:
    return tomllib.loads(Path(__file__).with_name(name).read_text("utf-8"))


BODIES, HEADS, YARNS = facts("body_facts.toml"), facts("head_facts.toml"), facts("yarn_weight_facts.toml")
CELLS = [(one["name"], measure, size, at) for one in BODIES["table"] for measure, fact in one.items() if isinstance(fact, dict)
         for at, size in enumerate(one["sizes"]) if at < len(fact["cm"])]


def published(name: str, measure: str, at: int) -> tuple[tuple, tuple]:
    """((low, high) in inches, the same in cm)."""
    fact = next(one for one in BODIES["table"] if one["name"] == name)[measure]
    return tuple(tuple(value if isinstance(value, list) else (value, value)) for value in (fact["in"][at], fact["cm"][at]))


@pytest.mark.parametrize("name", [one["name"] for one in BODIES["table"]])
def test_a_table_gives_back_its_figures(name):
    """Every measure of every size is the published figure in cm."""
    cells = [cell for cell in CELLS if cell[0] == name]
    assert cells
    for _, measure, size, at in cells:
        given = measures(name, size)[measure.replace("_", " ")]
        assert given == pytest.approx(tuple(value * 10 for value in published(name, measure, at)[1])), (measure, size)


@pytest.mark.parametrize("name", ["women", "men", "children", "babies"])
def test_a_table_has_the_published_sizes(name):
    """The sizes are those of the chart, in its order."""
    assert list(sizes_of(name)) == next(one for one in BODIES["table"] if one["name"] == name)["sizes"]


@pytest.mark.parametrize("name", [one["name"] for one in BODIES["table"]])
def test_both_units_are_one_measure(name):
    """Inches and cm of a figure agree within the rounding of the charts: cm to the half below 100 cm and to the whole above, and one step more
    where a chart rounds down all along (in x 2.54 against cm; 1 in = 2.54 cm by definition)."""
    for _, measure, size, at in (cell for cell in CELLS if cell[0] == name):
        for inch, cm in zip(*published(name, measure, at)):
            assert abs(inch * 2.54 - cm) <= (0.75 if inch < 40 else 1.0), (measure, size, inch, cm)


@pytest.mark.parametrize("sex", ["boys", "girls"])
def test_the_who_formula_gives_the_published_lines(sex):
    """M * (1 + S * z) at z = -3 .. +3 is the printed line to its one decimal."""
    for row in HEADS["who"][sex]:
        for z, line in zip(range(-3, 4), row["lines"]):
            assert abs(head_mm(row["months"], sex, z) / 10 - line) <= 0.0501, (row["months"], z)


@pytest.mark.parametrize("sex", ["boys", "girls"])
def test_the_who_formula_gives_the_published_percentiles(sex):
    """The same at the z of a percentile of the normal distribution."""
    for row in HEADS["who"][sex]:
        for name, value in row["percentiles"].items():
            z = NormalDist().inv_cdf(int(name[1:]) / 100)
            assert abs(head_mm(row["months"], sex, z) / 10 - value) <= 0.0501, (row["months"], name)


@pytest.mark.parametrize("who", ["women", "men"])
def test_the_share_of_heads_is_the_surveyed_percentile(who):
    """Up to a surveyed percentile lies about that share of the people: the survey is near a normal one (within 3 in 100)."""
    people = adult_heads(who)
    assert people.mean_mm == pytest.approx(HEADS["adults"][who]["mean"] * 10)
    for name, value in HEADS["adults"][who].items():
        if name[0] == "p" and name[1:].isdigit():
            assert people.share(0, value * 10) == pytest.approx(int(name[1:]) / 100, abs=0.03), name


SURVEYED = [(one["who"], measure, fact) for one in BODIES["surveyed"] for measure, fact in one.items() if isinstance(fact, dict)]


@pytest.mark.parametrize(("who", "measure", "fact"), SURVEYED, ids=[f"{who}-{measure}" for who, measure, _ in SURVEYED])
def test_the_share_of_hands_and_feet_is_the_surveyed_percentile(who, measure, fact):
    """The same for hands, feet, necks and girths, within 5 in 100: a figure printed to the millimetre is 2 in 100 by itself, and girths lean to
    the large side."""
    people = surveyed(who, measure)
    assert people.parts == ((pytest.approx(fact["mean"] * 10), pytest.approx(fact["sd"] * 10)),)
    for name in ("p5", "p50", "p95"):
        assert people.share(0, fact[name] * 10) == pytest.approx(int(name[1:]) / 100, abs=0.05), name


@pytest.mark.parametrize("one", BODIES["by_size"], ids=lambda one: one["name"])
def test_means_of_surveyed_sizes_are_given_back(one):
    """Means of the people whose chest falls into a trade size, in cm."""
    for size, fact in one.items():
        if isinstance(fact, dict):
            given = measures(one["name"], size)
            for measure, mean in fact.items():
                if measure != "n":
                    assert given[measure.replace("_", " ")] == (pytest.approx(mean * 10),) * 2, (size, measure)


def test_the_standard_yarn_weights_are_the_printed_ones():
    """Single crochet in 10 cm and hooks of each weight; both go on from weight to weight without a step back."""
    ours = table("yarn_weights")["weight"]
    assert [(one["number"], one["name"], one["sc_per_10cm"], one["hook_mm"]) for one in ours] == \
        [(one["number"], one["name"], one["sc_per_10cm"], one["hook_mm"]) for one in YARNS["weight"]]
    for thinner, thicker in zip(ours, ours[1:]):
        assert thinner["hook_mm"][1] <= thicker["hook_mm"][0] + 1e-9
        assert thinner["sc_per_10cm"][0] > thicker["sc_per_10cm"][0] and thinner["sc_per_10cm"][1] > thicker["sc_per_10cm"][1]


def test_every_table_has_a_source():
    """No figure without where it comes from."""
    for one in (*BODIES["table"], *BODIES["surveyed"], *BODIES["by_size"], HEADS["who"], *HEADS["adults"].values(), YARNS):
        assert one["source"] and all(words.strip() for words in one["source"])
