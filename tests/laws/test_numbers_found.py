"""Laws of numbers that are found: they follow gauge and measures, and made to measure for a size's own body they are that size's."""

from hypothesis import given, settings
from hypothesis import strategies as st

import hookwright
from hookwright.ground import Value
from hookwright.sizing import Bound, Grows, Multiple, Problem, Wish, nearest

LENGTHS = st.lists(st.integers(100, 1200), min_size=1, max_size=5).map(sorted)


def problem(wants, unit: float, *conditions) -> Problem:
    sizes = tuple("ABCDE"[: len(wants)])
    return Problem(sizes, [Wish("n", tuple(Value(float(want), length=True) for want in wants), (unit,) * len(wants))], list(conditions))


@settings(max_examples=60)
@given(LENGTHS, st.integers(20, 150))
def test_doubling_the_gauge_doubles_the_counts(wants, tenths):
    """Twice as many stitches to the length give twice the number, to the stitch that rounding may cost; exactly so for whole stitches."""
    unit = tenths / 10
    once, twice = nearest(problem(wants, unit)).numbers["n"], nearest(problem(wants, unit / 2)).numbers["n"]
    assert all(abs(b - 2 * a) <= 1 for a, b in zip(once, twice))
    whole = [unit * n for n in once]
    assert nearest(problem(whole, unit / 2)).numbers["n"] == tuple(2 * n for n in once)


@settings(max_examples=60)
@given(LENGTHS, st.integers(20, 150), st.integers(1, 12), st.integers(0, 11))
def test_a_length_is_off_by_half_a_repeat_at_most(wants, tenths, of, plus):
    """With nothing but a multiple asked for, the nearest number lies half a repeat away or nearer, wherever a smaller one is possible."""
    unit = tenths / 10
    answer = nearest(problem(wants, unit, Multiple("n", of, plus)))
    for want, n, off in zip(wants, answer.numbers["n"], answer.off_mm["n"]):
        assert n >= plus and (n - plus) % of == 0
        assert abs(off) <= unit * of / 2 + 1e-4 or n == plus and want < plus * unit


@settings(max_examples=40)
@given(LENGTHS, st.integers(20, 150), st.integers(1, 8))
def test_a_wish_more_never_brings_it_nearer(wants, tenths, of):
    """Each condition more leaves the whole as near or farther off."""
    unit = tenths / 10
    conditions = [Multiple("n", of, 0), Grows("n", 0), Bound("n", 1, (Value(6.0),) * len(wants))]
    totals = [nearest(problem(wants, unit, *conditions[:k])).total_off_mm for k in range(4)]
    assert all(after >= before - 1e-3 for before, after in zip(totals, totals[1:]))


def manuscript(bodies, ease, stitches, rows, multiple) -> str:
    names = ["XS", "S", "M", "L", "XL"][: len(bodies)]
    return f"""---
terms: US
sizes: [{', '.join(names)}]
body:
  chest: {bodies[0]}{f' ({", ".join(map(str, bodies[1:]))})' if len(bodies) > 1 else ''} cm
ease: {ease} cm
gauge:
  - {{stitches: {stitches}, rows: {rows}, over: 10 cm, in: sc}}
numbers:
  around: {{want: chest + ease, count: stitches, multiple: {multiple}}}
  up: {{want: chest * 0.6, count: rows, even: yes}}
  half: around / 2
---
Ch {{around + 1}}.
Row 1: Sc in 2nd ch from hook and in each ch across.
Rows 2-{{up}}: Ch 1, turn, sc in each st across.
"""


@settings(max_examples=10)
@given(st.lists(st.integers(40, 120), min_size=2, max_size=5, unique=True).map(sorted), st.integers(-3, 12), st.integers(6, 30), st.integers(6, 30),
       st.sampled_from([2, 4, 6, 10]), st.data())
def test_made_to_measure_for_a_size_is_that_size(bodies, ease, stitches, rows, multiple, data):
    """A maker with a size's own chest and the pattern's own gauge gets the numbers and the stitches of that size."""
    text = manuscript(bodies, ease, stitches, rows, multiple)
    size = data.draw(st.integers(0, len(bodies) - 1))
    whole = hookwright.check(text)
    mine = hookwright.made_to_measure(text, measures={"chest": f"{bodies[size]} cm"}, gauge=f"{stitches} sts and {rows} rows to 10 cm")
    assert {name: values[0] for name, values in mine.sized.answer.numbers.items()} == {name: values[size] for name, values in whole.sized.answer.numbers.items()}
    assert [row.stitches for row in mine.fabrics[0].rows] == [row.stitches for row in whole.fabrics[size].rows]
    assert mine.must_mend == whole.must_mend == 0
