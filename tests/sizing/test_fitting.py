"""Whom each size fits: what goes together, ease, which size to choose, shares, and gaps that are said."""

from statistics import NormalDist

import pytest

from hookwright.notation import Body, Head, Measure, SizeFact
from hookwright.sizing import bodies_of, fitting_of


def head_of(fits, finished=None, *, name="circumference", names=None, stretch="", table="", measures=None) -> Head:
    """A head with these bodies to fit in cm, (low, high) each, and one finished measure in cm a size."""
    sizes = tuple(SizeFact((names or "ABCDEFGHI")[at], tuple(10.0 * cm for cm in pair) if pair else None) for at, pair in enumerate(fits))
    made = {name: Measure(tuple((10.0 * cm, 10.0 * cm) for cm in finished))} if finished else {}
    return Head(sizes=sizes, finished=made, body=Body(table, (), {key: Measure(tuple((10.0 * cm, 10.0 * cm) for cm in value)) for key, value in (measures or {}).items()}, stretch))


def fitting(head, words="Hat", **more):
    return fitting_of(head, bodies_of(head, []), words, **more)


def test_ease_is_finished_less_body():
    """By hand: 36 cm for 38 to 40 cm is 4 to 2 cm less."""
    found = fitting(head_of([(38, 40), (42, 44)], [36, 40]))
    assert found.part == "head" and found.finished == "circumference"
    assert found.sizes[0].ease_mm == (-40.0, -20.0)


@pytest.mark.parametrize(("words", "table", "measures", "fits", "part"), [
    ("Pebble Beanie", "", None, [(38, 40), (42, 44)], "head"),
    ("Pebble Mitts", "", None, [(14, 15), (17, 18)], "hand"),
    ("Pebble Socks", "", None, [(18, 19), (21, 22)], "foot"),
    ("Pebble Cardigan", "", None, [(80, 84), (90, 94)], "chest"),
    ("Pebble", "", {"head": (39, 43)}, [None, None], "head"),
    ("Pebble", "", {"bust": (82, 92)}, [None, None], "chest"),
    ("Pebble Skirt", "", {"bust": (82, 92), "waist": (65, 75)}, [None, None], "waist"),
    ("Pebble Tunic", "", {"bust": (82, 92), "waist": (65, 75)}, [None, None], "chest"),
    ("Capstan Blanket", "", None, [(80, 84), (90, 94)], ""),
    ("Hat", "", None, [(80, 84), (90, 94)], ""),
])  # fmt: skip
def test_the_part_of_the_body_is_told_by_table_measure_or_words(words, table, measures, fits, part):
    """A word alone counts only where the bodies can be that part: no head is 80 cm round."""
    assert fitting(head_of(fits, table=table, measures=measures), words).part == part


def test_half_a_width_lies_round_nothing():
    """A finished measure of half the body or less is a width laid flat, or another length."""
    assert fitting(head_of([(38, 40), (42, 44)], [19, 21])).finished == ""


def test_a_brim_that_stands_out_is_not_what_fits():
    """The brim of a beanie lies round the head, that of a sun hat does not."""
    head = head_of([(54, 56), (57, 59)], [52, 55], name="brim circumference")
    assert fitting(head, "Pebble Beanie").finished == "brim circumference" and fitting(head, "Pebble Sun Hat").finished == ""


def test_sizes_that_are_close_join_up():
    """Between 40 and 42 cm the middle is taken; every body from the first to the last has one size."""
    chosen = [size.choose_mm for size in fitting(head_of([(38, 40), (42, 44), (46, 48)], [36, 40, 44])).sizes]
    assert chosen == [(380.0, 410.0), (410.0, 450.0), (450.0, 480.0)]


def test_a_single_measure_stands_for_those_round_it():
    """14, 16.5 and 19 cm: the middles are 15.25 and 17.75, to the half centimetre; the ends as far out as in."""
    chosen = [size.choose_mm for size in fitting(head_of([(14, 14), (16.5, 16.5), (19, 19)], [15, 17.5, 20]), "Mitts").sizes]
    assert chosen[0][1] == chosen[1][0] and chosen[1][1] == chosen[2][0]
    assert chosen[0][0] == 280 - chosen[0][1] and chosen[2][1] == 380 - chosen[2][0]


def test_a_wide_gap_is_left_open_and_said():
    """From 40 to 50 cm is more than a tenth: no size is meant for 45."""
    found = fitting(head_of([(38, 40), (50, 52)], [36, 48]))
    assert found.gaps == ((400.0, 500.0),) and found.sizes[0].choose_mm == (380.0, 400.0)


def test_stretch_closes_a_gap_or_leaves_one():
    """A 36 cm hat that stretches by 20 % goes round 43.2 cm, a 42 cm hat begins at 42: they meet. By 10 % it ends at 39.6."""
    meets = fitting(head_of([(38, 40), (46, 48)], [36, 42], stretch="20 %"))
    assert meets.gaps == () and 420 <= meets.sizes[0].choose_mm[1] == meets.sizes[1].choose_mm[0] <= 432
    parts = fitting(head_of([(38, 39), (46, 48)], [36, 42], stretch="10 %"))
    assert parts.gaps == ((395.0, 420.0),)


def test_the_share_is_that_of_the_survey():
    """A hat of 52 cm that stretches by 10 % goes round 52 to 57.2 cm. Women's heads: mean 56.11, SD 1.94 cm (ANSUR II, as in heads.toml)."""
    found = fitting(head_of([(54, 56), (57, 59)], [52, 55], stretch="10 %"))
    women = next(at for at, one in enumerate(found.people) if one.who == "women")
    people = NormalDist(56.11, 1.94)
    assert found.sizes[0].shares[women] == pytest.approx(people.cdf(57.2) - people.cdf(52), abs=1e-6)


def test_a_loose_piece_fits_those_it_is_made_for():
    """Mitts wider than the hand reach from the hand they are to fit, not from their own width."""
    size = fitting(head_of([(18, 19), (20, 21)], [20, 22], stretch="10 %"), "Mitts").sizes[0]
    assert size.reach_mm == (180.0, pytest.approx(220.0))


def test_bodies_in_no_order_are_not_joined():
    """Where a later size is to fit a smaller body nothing is said of which to choose."""
    assert all(size.choose_mm is None for size in fitting(head_of([(46, 48), (38, 40)], [44, 36])).sizes)


def test_her_own_measure_goes_before_a_body_that_it_is_not():
    """A head of 57 cm in a size that is to fit 50 to 52: the head rules; one of 51 cm leaves the range as it is."""
    assert fitting(head_of([(50, 52)], [48], measures={"head": (57,)})).sizes[0].body_mm == (570.0, 570.0)
    assert fitting(head_of([(50, 52)], [48], measures={"head": (51,)})).sizes[0].body_mm == (500.0, 520.0)


def test_without_a_body_there_is_nothing_to_tell():
    assert fitting(head_of([None, None], [36, 40])) is None
