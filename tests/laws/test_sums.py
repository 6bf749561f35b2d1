"""Arithmetic in the head is arithmetic: as Python's Fraction has it, for any sum; and no words at all are run or make it slip."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import hookwright
from hookwright.ground import NotArithmetic, Value, reckon

MM = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(254, 10), '"': Fraction(254, 10)}
NAMES = {"head": (Fraction(560), True), "brim": (Fraction(7), False), "to fit": (Fraction(4825, 10), True)}
VALUES = {name: Value(float(value), length=length) for name, (value, length) in NAMES.items()}


def plain(n: int) -> tuple:
    return str(n), Fraction(n), False


def decimal(n: int) -> tuple:
    return f"{n / 10:.1f}", Fraction(n, 10), False


def mixed(whole: int, top: int, bottom: int) -> tuple:
    return f"{whole} {top}/{bottom}", whole + Fraction(top, bottom), False


def long(number: tuple, unit: str) -> tuple:
    return f"{number[0]} {unit}", number[1] * MM[unit], True


COUNTS = st.one_of(st.integers(0, 99).map(plain), st.integers(1, 999).map(decimal), st.builds(mixed, st.integers(0, 9), st.integers(1, 7), st.integers(2, 8)))
LENGTHS = st.builds(long, COUNTS, st.sampled_from(sorted(MM)))
LEAVES = st.one_of(COUNTS, LENGTHS, st.sampled_from(sorted(NAMES)).map(lambda name: (name, *NAMES[name])))


def joined(a: tuple, sign: str, b: tuple):
    """(words, value, is a length) of `a sign b` in brackets; where that has no meaning, a alone."""
    (left, x, a_long), (right, y, b_long) = a, b
    words = f"({left} {sign} {right})"
    if sign in "+-" and a_long == b_long:
        return words, x + y if sign == "+" else x - y, a_long
    if sign == "*" and not (a_long and b_long):
        return words, x * y, a_long or b_long
    if sign == "/" and y and (a_long or not b_long):
        return words, x / y, a_long and not b_long
    return a


def turned(a: tuple) -> tuple:
    return f"(-{a[0]})", -a[1], a[2]


def less(a: tuple, share: int, sign: str) -> tuple:
    return f"({a[0]} {sign} {share} %)", a[1] * (1 + Fraction(share if sign == "+" else -share, 100)), a[2]


SUMS = st.recursive(LEAVES, lambda inner: st.one_of(
    st.builds(joined, inner, st.sampled_from("+-*/"), inner), inner.map(turned), st.builds(less, inner, st.integers(0, 60), st.sampled_from("+-"))), max_leaves=8)


@settings(max_examples=400)
@given(SUMS)
def test_any_sum_is_what_fractions_make_it(one):
    """Brackets, signs, decimals, fractions, units, per cent and names in any nesting."""
    words, value, length = one
    if len(words) > 200 or words.count("(") > 20:
        return
    found = reckon(words, VALUES)
    assert found.known
    assert found.constant == pytest.approx(float(value), rel=1e-9, abs=1e-9)
    assert found.length == length


@settings(max_examples=300)
@given(st.lists(st.integers(1, 99), min_size=2, max_size=9), st.data())
def test_times_goes_before_plus(numbers, data):
    """Without brackets: * and / before + and -, each from left to right."""
    signs = [data.draw(st.sampled_from("+-*/×÷−–")) for _ in numbers[1:]]
    terms = [[1, Fraction(numbers[0])]]
    for sign, n in zip(signs, numbers[1:]):
        if sign in "*×":
            terms[-1][1] *= n
        elif sign in "/÷":
            terms[-1][1] /= n
        else:
            terms.append([1 if sign == "+" else -1, Fraction(n)])
    words = " ".join([str(numbers[0]), *(f"{sign} {n}" for sign, n in zip(signs, numbers[1:]))])
    assert reckon(words, {}).constant == pytest.approx(float(sum(sign * value for sign, value in terms)), rel=1e-9, abs=1e-9)


@given(st.integers(-50, 50), st.integers(1, 20), st.integers(1, 9))
def test_a_number_to_be_found_stays_in_the_sum(add, times, by):
    """What is still to be found is carried along: (n * times + add) / by has these coefficients."""
    found = reckon(f"(n * {times} + ({add})) / {by}", {"n": Value(0.0, (("n", 1.0),))})
    assert dict(found.terms) == {"n": pytest.approx(times / by)} and found.constant == pytest.approx(add / by)


SCRAPS = st.lists(st.sampled_from(["1", "2.5", "3 1/2", "0", "9" * 60, "head", "n", "cm", "in", "%", "+", "-", "*", "/", "(", ")", " ", "pi", "__import__('os')", "head.real",
                                   "lambda: 0", "exit()", "[]", "**", "1e9", "½", "\u202e", "\n"]), max_size=25).map("".join)


@settings(max_examples=400)
@given(st.one_of(st.text(max_size=120), SCRAPS, st.text("()-", max_size=230)))
def test_any_words_are_a_value_or_refused_in_words(words):
    """Nothing is run, nothing slips: a value, or what is wrong with a place in the words."""
    try:
        found = reckon(words, {**VALUES, "n": Value(0.0, (("n", 1.0),))})
    except NotArithmetic as problem:
        assert str(problem).strip() and 0 <= problem.start <= problem.end <= max(len(words), 200)
    else:
        assert isinstance(found, Value)


@settings(max_examples=60)
@given(st.one_of(st.text(st.characters(exclude_categories=["C"]), max_size=60), SCRAPS), st.sampled_from(["want", "at least", "within", "multiple", "same in", "grows", "fits", "count", "in"]))
def test_any_wish_is_answered(words, key):
    """Any words in a wish of the head give a report: numbers, or findings."""
    said = words.replace('"', "'").replace("\\", "/").replace("\n", " ")
    text = f"""---
sizes: [{{name: S, to fit: 50 cm}}, {{name: M, to fit: 56 cm}}]
gauge: {{stitches: 15, rows: 8, over: 10 cm, in: dc}}
numbers:
  around: {{want: to fit, count: stitches, {key}: "{said}"}}
finished: {{circumference: "{said}"}}
---
Ch {{around + 1}}.
Row 1: Sc in 2nd ch from hook and in each ch across.
""".replace('want: to fit, count: stitches, want:', "count: stitches, want:").replace("count: stitches, count:", "count:")
    values = hookwright.check(text, limit=20_000).as_dict()
    assert all(finding["message"].strip() for finding in values["findings"])
