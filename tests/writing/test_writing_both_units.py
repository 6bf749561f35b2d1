"""Lengths in sentences, in both units. 1 in = 25.4 mm (international inch, exact); 10 cm and 4 in are taken for the same (trade practice)."""

import pytest

from hookwright.notation.tree import Note, Prose, Row, Stitch
from hookwright.writing import compose, write
from hookwright.writing.both_units import both_units


@pytest.mark.parametrize(
    ("hers", "sheet"),
    [
        ("Leave a tail of 20 cm.", "Leave a tail of 20 cm (8 in)."),
        ("pin out to 20.5 (34) cm by 152 (172) cm", "pin out to 20.5 (34) cm [8 (13½) in] by 152 (172) cm [59¾ (67¾) in]"),
        ("20 x 30 cm", "20 x 30 cm (8 x 12 in)"),
        ("It measures 3 1/2 in across.", "It measures 3 1/2 in (9 cm) across."),
        ("3 in. wide; 5\" square", "3 in. (7.5 cm) wide; 5\" (12.5 cm) square"),
        ("a 10-cm tail", "a 10-cm (4-in) tail"),
        ("about 15 yards of cotton", "about 15 yards (14 m) of cotton"),
        ("Wash at 30 °C.", "Wash at 30 °C (86 °F)."),
        ("(about 240 m)", "(about 240 m / 262 yd)"),
    ],
)
def test_the_other_unit_is_added(hers, sheet):
    """After the length, in square brackets where it is a list, after a stroke within brackets."""
    assert both_units(hers).replace("\u00a0", " ") == sheet


@pytest.mark.parametrize(
    "hers",
    [
        "17¼ in (44 cm)", "44 cm (17¼ in)", "44 (48) cm [17¼ (19) in]", "6 in/15 cm", "150 cm or 60 in", "10 cm (about 4 in)",
        "2 in the same st, 4 in each, 18 in all", "a 4.5 mm hook and 22 mm buttons", 'as in "Row 3" and "Row 4"', "Row 3 in A",
    ],
)  # fmt: skip
def test_what_is_told_or_no_length_is_left(hers):
    """Both units once, millimetres as they are, and no length where there is none."""
    assert both_units(hers) == hers


def test_prose_and_remarks_on_the_sheet_have_both(hat, hat_facts):
    """A tail in the finishing and a tail in a row's remark."""
    hat.pieces[-1].items.append(Prose("Draw the tail of 30 cm through."))
    hat.pieces[2].items.append(Row("Round", (9,), steps=[Stitch("sc", 3)], notes=[Note("leaving a tail of 40 cm")]))
    text = write(compose(hat, hat_facts, "US"), "txt").decode()
    assert "Draw the tail of 30 cm (12 in) through." in text
    assert "leaving a tail of 40 cm / 15¾ in" in text
