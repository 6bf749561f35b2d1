"""Sizes of the tables by the words she has for them."""

import pytest

import hookwright
from hookwright.sizing import adult_heads, measures, surveyed


@pytest.mark.parametrize(("table", "measure", "people"), [
    ("heads", "head", adult_heads), ("hands", "hand", lambda who: surveyed(who, "hand_circumference")), ("socks", "foot", lambda who: surveyed(who, "ball_of_foot"))])
@pytest.mark.parametrize("who", ["women", "men"])
def test_small_medium_and_large_are_three_in_ten_each(table, measure, people, who):
    """By the normal distribution with the survey's mean and SD; they join up, and the whole is seven in ten."""
    spans = [measures(table, f"{who} {size}")[measure] for size in "SML"]
    assert [people(who).share(*span) for span in spans] == pytest.approx([0.3, 0.3, 0.3], abs=0.01)
    assert spans[0][1] == spans[1][0] and spans[1][1] == spans[2][0]
    assert people(who).share(*measures(table, who)[measure]) == pytest.approx(0.7, abs=0.01)


def test_socks_are_found_from_measured_feet():
    """Women's feet are 22.8 cm round on the whole, less 10 % 20.5 cm: 74 sts at 27 to 10 cm are 20.4, a multiple of four 72 or 76."""
    report = hookwright.check("""---
title: Low Tide Socks
terms: US
sizes: [S, M, L]
body: {from: socks, sizes: [women S, women M, women L]}
ease: -10 %
gauge: 36 sts and 40 rows to 10 cm in sc
numbers:
  around: {want: foot + ease, count: stitches, multiple: 4, grows: 4}
  long: {want: foot length - 5 cm, count: rounds}
finished: {foot circumference: around * stitch}
---
""")
    assert not report.must_mend
    assert report.sized.answer.numbers == {"around": (68, 72, 76), "long": (73, 79, 84)}  # wanted 19.4, 20.5, 21.6 cm round of 3.6 sts a cm: 70, 73.9, 77.7


def test_what_a_table_does_not_give_is_said():
    """The trade's chart of men has only the chest from 3X on; the deviation of a survey is no measure of the body."""
    report = hookwright.check("---\nterms: US\nsizes: [L, 3X]\nbody: men\ngauge: 16 sts and 18 rows to 10 cm\nnumbers: {arm: {want: upper arm + 4 cm, count: stitches}}\n---\n")
    assert any("the body gives no `upper arm` for size 3X; give it yourself under `body`" in finding.message for finding in report.findings)
    assert not any("sd" in name.split() for name in measures("surveyed women", "M"))


def test_centre_is_center():
    """The tables write it as the trade's standard does; she may write it in her own way."""
    text = "---\nterms: UK\nsizes: [M]\nbody: women\ngauge: 16 sts and 18 rows to 10 cm\nnumbers: {long: {want: centre back neck to wrist - 40 cm, count: rows}}\n---\n\n## Sleeve\n\nCh {long}.\n"
    assert hookwright.check(text).sized.answer.numbers["long"] == (62,)  # 74.25 cm less 40
    assert hookwright.made_to_measure(text, measures={"centre back neck to wrist": "70 cm"}).sized.answer.numbers["long"] == (54,)
