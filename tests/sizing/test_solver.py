"""The numbers found are the nearest there are: checked against trying all of them, and what is said where there are none."""

import random
from itertools import product

import pytest

from hookwright.ground import Value
from hookwright.sizing import Bound, Clash, Grows, Multiple, Problem, Same, Wish, Within, nearest, solve


def small_case(seed: int) -> Problem:
    """Two numbers in one to three sizes with conditions of every kind."""
    pick = random.Random(seed)
    sizes = pick.randint(1, 3)
    units = (pick.choice([5.0, 6.5, 7.3]),) * sizes
    wants = sorted(pick.uniform(30, 120) for _ in range(sizes))
    wishes = [Wish("wide", tuple(Value(want, length=True) for want in wants), units), Wish("high", tuple(Value(want * 0.6, length=True) for want in wants), units)]
    conditions = [
        Multiple("wide", pick.randint(2, 5), pick.randint(0, 2)), Grows("wide", pick.randint(0, 2)),
        Bound("high", -1, (Value(-1.0, (("wide", 1.0),)),) * sizes),
    ]
    if pick.random() < 0.5:
        conditions.append(Within("wide", (pick.uniform(3, 20),) * sizes))
    if sizes > 1 and pick.random() < 0.5:
        conditions.append(Same("high", (0, 1)))
    return Problem(tuple("SML"[:sizes]), wishes, conditions)


def tried_all(problem: Problem) -> float | None:
    """The least total deviation in mm over all numbers up to 30, found by trying them; None where none meets the conditions."""
    sizes = range(len(problem.sizes))
    unit = problem.wishes[0].unit_mm[0]
    off = [[abs(unit * n - wish.want[s].constant) for n in range(31)] for wish in problem.wishes for s in sizes]
    wide_off, high_off = off[: len(sizes)], off[len(sizes) :]
    multiple, grows, _, *rest = problem.conditions
    within = next((one.mm for one in rest if isinstance(one, Within)), None)
    same = next((one.sizes for one in rest if isinstance(one, Same)), ())
    best = None
    allowed = [[n for n in range(31) if n >= multiple.plus and (n - multiple.plus) % multiple.of == 0 and (within is None or wide_off[s][n] <= within[s] + 1e-9)] for s in sizes]
    for wide in product(*allowed):
        if any(b - a < grows.by for a, b in zip(wide, wide[1:])):
            continue
        tops = [n - 1 for n in wide]
        if min(tops) < 0:
            continue
        total = sum(wide_off[s][wide[s]] for s in sizes)
        free = [s for s in sizes if s not in same]
        total += sum(min(high_off[s][: tops[s] + 1]) for s in free)
        if same:
            total += min(sum(high_off[s][n] for s in same) for n in range(min(tops[s] for s in same) + 1))
        best = total if best is None else min(best, total)
    return best


@pytest.mark.parametrize("seed", range(200))
def test_the_answer_is_the_nearest_there_is(seed):
    """On small cases with random wishes HiGHS finds the same least deviation as trying all numbers."""
    problem = small_case(seed)
    answer, best = nearest(problem), tried_all(problem)
    assert (answer is None) == (best is None)
    if answer is not None:
        assert answer.total_off_mm == pytest.approx(best, abs=1e-4)


def test_a_clash_names_the_wishes_and_the_ways_out():
    """A multiple of 10 of 7 mm stitches can't come within 5 mm of 100 mm: both wishes are named, and giving up either one is a way out."""
    multiple, within = Multiple("wide", 10, 0, "a multiple of 10"), Within("wide", (5.0,), "within 5 mm")
    never = Grows("wide", 0, "never smaller")
    clash = solve(Problem(("M",), [Wish("wide", (Value(100.0, length=True),), (7.0,))], [multiple, never, within]))
    assert isinstance(clash, Clash)
    assert set(clash.conditions) == {multiple, within}
    ways = {given_up[0].words: answer.numbers["wide"] for given_up, answer in clash.ways if len(given_up) == 1}
    assert ways == {"a multiple of 10": (14,), "within 5 mm": (10,)}
    assert clash.ways[0][0] == (multiple,), "giving up the multiple is off by 2 mm only, giving up the nearness by 30"


def test_where_one_wish_is_not_enough_two_are_given_up():
    """Growing by 4 rows a size and lying within 10 mm clash; without the growth the multiple of 4 still does, so both go together."""
    wants = tuple(Value(float(want), length=True) for want in (326.0, 345.0, 361.0))
    multiple, grows, within = Multiple("rows", 4, 0, "a multiple of 4"), Grows("rows", 4, "grows by 4"), Within("rows", (10.0,) * 3, "within 1 cm")
    clash = solve(Problem(("A", "B", "C"), [Wish("rows", wants, (10.0,) * 3)], [multiple, grows, within]))
    given_up = [set(way[0]) for way in clash.ways]
    assert {within} in given_up
    assert {grows, multiple} in given_up
    assert all(len(way[0]) <= len(after[0]) for way, after in zip(clash.ways, clash.ways[1:]))


def test_sizes_that_share_a_number_share_what_is_off():
    """14 and 16 cm of 1 cm rows: 14, 15 and 16 are all 2 cm off in all, and 15 is off by no more than 1 in either."""
    wants = (Value(140.0, length=True), Value(160.0, length=True))
    answer = nearest(Problem(("S", "M"), [Wish("rows", wants, (10.0, 10.0))], [Same("rows", (0, 1))]))
    assert answer.numbers["rows"] == (15, 15)
