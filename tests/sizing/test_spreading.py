"""Shaping is spread as evenly as whole numbers allow: against Bresenham's closed formula, and the sums of what is said in words."""

from math import ceil

import pytest

from hookwright.sizing import evenly, over_round, over_rows, shaped_rows, staggered, taper

ALL = [(changes, places) for places in range(61) for changes in range(places + 1)]


def test_evenly_is_bresenhams_line():
    """Change k of n over m places falls on place ceil(k m / n), for all n <= m up to 60 (closed form of the line algorithm, J. E. Bresenham, 1965)."""
    for changes, places in ALL:
        assert evenly(changes, places) == [ceil(k * places / changes) for k in range(1, changes + 1)], (changes, places)


def test_the_gaps_of_evenly_differ_by_one_at_most():
    """No two stretches between changes differ by more than one place, and the last change is on the last place."""
    for changes, places in ALL:
        at = [0, *evenly(changes, places)]
        gaps = {after - before for before, after in zip(at, at[1:])}
        assert not changes or at[-1] == places and max(gaps) - min(gaps) <= 1


@pytest.mark.parametrize(("changes", "places"), [(1, 0), (7, 6), (-1, 4)])
def test_what_does_not_fit_is_refused(changes, places):
    """More changes than places, or fewer than none."""
    with pytest.raises(ValueError):
        evenly(changes, places)


@pytest.mark.parametrize("step", [1, 2])
def test_rows_add_up(step):
    """The stretches hold all changes, end within the rows, leave less than one step at the end, and are at most two whose steps are neighbours."""
    for changes, rows in ALL:
        if not changes or changes > rows // step:
            continue
        stretches = over_rows(changes, rows, step=step)
        assert sum(stretch.times for stretch in stretches) == changes
        assert len(stretches) <= 2 and all(stretch.every % step == 0 for stretch in stretches)
        assert len(stretches) < 2 or stretches[0].every - stretches[1].every == step
        used = sum(stretch.every * stretch.times for stretch in stretches)
        assert rows - step < used <= rows
        at = shaped_rows(stretches)
        assert len(at) == changes and at[-1] == used and len(set(at)) == changes


@pytest.mark.parametrize("eats", [1, 2, 3])
def test_rounds_add_up(eats):
    """Every stitch of the round is worked once, plain or in a change; the plain stretches differ by one at most."""
    for changes, stitches in ALL:
        if changes * eats > stitches:
            with pytest.raises(ValueError):
                over_round(changes, stitches, eats=eats)
            continue
        segments, left = over_round(changes, stitches, eats=eats)
        assert sum(segment.times for segment in segments) == changes
        assert sum((segment.plain + eats) * segment.times for segment in segments) + left == stitches
        plains = [segment.plain for segment in segments]
        assert not plains or max(plains) - min(plains) <= 1


@pytest.mark.parametrize("eats", [1, 2])
def test_staggered_rounds_add_up(eats):
    """Begun half a stretch in, a round still works every stitch once and makes as many changes."""
    for changes, stitches in ALL:
        if not changes or changes * eats > stitches:
            continue
        for number in (1, 2):
            first, segments, last = staggered(changes, stitches, number, eats=eats)
            begun = first >= 0
            made = sum(segment.times for segment in segments) + begun
            worked = sum((segment.plain + eats) * segment.times for segment in segments) + last + (first + eats if begun else 0)
            assert (made, worked) == (changes, stitches), (changes, stitches, number)


def test_tapers_end_where_they_should():
    """From any count to any other that fits: the last row has the end count, no row changes by more than one shaping, none goes back."""
    for start in range(4, 40, 3):
        for end in range(4, 40, 2):
            if (start - end) % 2 or abs(start - end) // 2 > 20:
                continue
            counts = taper(start, end, 20)
            steps = [after - before for before, after in zip([start, *counts], counts)]
            assert len(counts) == 20 and counts[-1] == end
            assert set(steps) <= {0, 2 if end > start else -2}
