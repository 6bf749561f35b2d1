"""Colours of yarn from her words for them."""

import numpy as np
import pytest

from hookwright.drawing.yarn_colours import _lab, colours_of, rgb_of


def light(name) -> float:
    return float(_lab(rgb_of(name))[0])


@pytest.mark.parametrize(("lighter", "darker"), [("pale blue", "blue"), ("blue", "dark blue"), ("slate", "wet slate"), ("sand", "wet sand"), ("shell white", "coal"),
                                                 ("bleached white", "oat"), ("sky", "navy")])
def test_words_make_a_colour_lighter_or_darker(lighter, darker):
    assert light(lighter) > light(darker) + 0.02


@pytest.mark.parametrize(("name", "part"), [("brick red", 0), ("moss green", 1), ("night blue", 2), ("midnight", 2), ("B: glasswort", 1)])
def test_the_last_known_word_is_the_colour(name, part):
    """The named hue is the strongest of red, green and blue."""
    assert int(np.argmax(rgb_of(name))) == part


def test_plain_colour_names_are_those_of_the_css_table():
    """W3C CSS Color Module Level 4: named colours; and six digits are taken as they are."""
    assert rgb_of("darkolivegreen") == pytest.approx((85 / 255, 107 / 255, 47 / 255))
    assert rgb_of("main #ff8000") == pytest.approx((1.0, 128 / 255, 0.0))


def test_unknown_names_have_a_colour_that_stays():
    assert rgb_of("Wuthering") == rgb_of("wuthering") and all(0 <= part <= 1 for part in rgb_of("Wuthering"))
    assert rgb_of("") == rgb_of("  ")


@pytest.mark.parametrize("names", [["navy", "midnight", "ink"], ["white", "snow"], ["Yarn A", "Yarn A"], ["coal", "tar", "soot", "black"], ["oat"] * 5])
def test_colours_of_a_piece_can_be_told_apart(names):
    """Even names that mean nearly the same are drawn in shades with a step between them."""
    made = [_lab(colour) for colour in colours_of(names)]
    assert min(np.linalg.norm(one - other) for at, one in enumerate(made) for other in made[:at]) > 0.05
