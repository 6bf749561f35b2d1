"""How stitches are made, how high they stand, how rows turn: against published pages, named in stitch_facts.toml."""

import tomllib
from pathlib import Path

import pytest

from hookwright.stitches import CATALOGUE, group_steps, loops_of, step_words, stitch

FACTS = tomllib.loads(Path(__file__).with_name("stitch_facts.toml").read_text("utf-8"))
MAKE_UP = [(id, fact) for table in FACTS["make_up"] for id, fact in table.items() if id != "source"]
LAST_DRAW = [tuple(group) for table in FACTS["last_draw"] for group in table["groups"]]


def most_loops(steps) -> int:
    """Most loops on the hook on the way, one standing there before."""
    return max(1 + loops_of(steps[:number]) for number in range(len(steps) + 1))


def rows(*tables):
    return [(id, fact) for table in tables for id, fact in FACTS[table].items() if id != "source"]


@pytest.mark.parametrize("id, fact", MAKE_UP)
def test_make_up(id, fact):
    """Wraps, loops on the hook, places used and stitches made."""
    known = stitch(id)
    assert (known.yo, known.takes, known.makes) == (fact["yo"], fact["takes"], fact["makes"])
    assert most_loops(known.steps) == fact["peak"]


def test_one_loop_is_left():
    """Whatever is worked, one loop is left on the hook."""
    for id in [*CATALOGUE, *(f"{base}{number}tog" for base in ("sc", "hdc", "dc", "tr", "fpdc") for number in range(2, 13))]:
        assert loops_of(stitch(id).steps) == 0, id


@pytest.mark.parametrize("id, legs, base, loops", LAST_DRAW)
def test_groups_close_through(id, legs, base, loops):
    """A bobble of 5 legs draws through 6 loops, a puff of 4 through 9."""
    steps = group_steps(id, legs, base)
    assert step_words(steps[-1]) == f"yarn over and draw through all {loops} loops on the hook"
    assert 1 + loops_of(steps[:-1]) == loops
    assert loops_of(steps) == 0


def test_popcorn_is_whole_stitches_pulled_together():
    """A popcorn finishes each of its stitches, then pulls the loop through the first."""
    steps = group_steps("popcorn", 5, "dc")
    assert steps.count("d2") == 10 and steps[-3:] == ("drop", "pick", "ch")
    assert loops_of(steps) == 0


@pytest.mark.parametrize("id, chains", rows("heights", "heights_by_memory"))
def test_heights(id, chains):
    """Nominal heights in chains."""
    assert stitch(id).height_ch == chains


@pytest.mark.parametrize("id, custom", rows("turning", "turning_disputed"))
def test_turning_chains(id, custom):
    """Chains of the usual turning chain, and whether it counts."""
    assert [stitch(id).tch, stitch(id).tch_counts] == custom


@pytest.mark.parametrize("id, chain", rows("first_chain"))
def test_first_stitch_into_chain(id, chain):
    """The chains passed over are as many as the stitch is high."""
    assert stitch(id).tch + 1 == chain


@pytest.mark.parametrize("id, side", rows("texture", "texture_post"))
def test_texture(id, side):
    """Which side it stands out on, as the worker sees it."""
    assert stitch(id).texture == side


@pytest.mark.parametrize("id, legs", rows("usual_legs"))
def test_usual_legs(id, legs):
    """How many legs a bobble or popcorn has where nothing is said."""
    assert stitch(id).legs == legs


def test_post_stitches_stand_lower_than_plain_ones():
    """A post stitch starts lower than the plain stitch (common practice, no source for the figure)."""
    for base in ("hdc", "dc", "tr"):
        assert stitch("fp" + base).height_ch < stitch(base).height_ch


def test_decreases_stop_at_twelve_and_at_stitches_that_stand_alone():
    """dc12tog is known; dc13tog, dc1tog and "bobble2tog" are not."""
    assert stitch("dc12tog").takes == 12
    assert [stitch(id) for id in ("dc13tog", "dc1tog", "bobble2tog", "ch2tog", "fsc2tog")] == [None] * 5


def test_every_fact_has_a_source():
    """Each stitch names where its facts come from."""
    for id, fact in CATALOGUE.items():
        assert fact.sources, id
