"""What repeats along the rows of a piece, so that a chart can show it once: found in the worked stitches themselves."""

from bisect import bisect_left
from dataclasses import dataclass
from itertools import accumulate

from .chart_lines import RING, Line

MOST_ALONG = 120  # places of the foundation in one repeat
LEAST_WIDE = 30.0  # units that one repeat takes in some row
MOST_REPEATS = 4
MOST_TRIES = 8_000  # comparisons; a fabric without repeats is not searched for ever


@dataclass(frozen=True, slots=True)
class Along:
    """A repeat along the rows: in each line the items [start, end) of the one time shown; times: how often it is worked."""

    cuts: tuple[tuple[int, int], ...]
    times: int


def fold_along(lines: list[Line], least: int = 3, ripples: bool = False, share: float = 0.25) -> list[Along]:
    """Leaves all but one of each repeat along the rows out of the lines, in place; [] where there is none of at least `least` times.

    share: how much of the foundation such a repeat must take up at least. ripples: stitches drift along the rows, so that cuts go through the middle of what stands on each other.
    """
    out, after = [], 0
    while len(out) < MOST_REPEATS:
        found = _best_along(lines, least, after, ripples, share)
        if found is None:
            break
        out.append(_left_out(lines, *found))
        after = out[-1].cuts[0][1]
    return out


def keep_end(lines: list[Line], most: float) -> bool:
    """Leaves out, in place, what lies to the left of a cut through all lines, so that none is wider than `most`; whether there was such a cut."""
    if not lines or lines[0].what == RING or any(line.below >= index for index, line in enumerate(lines)):
        return False
    reach = [_reach(line) for line in lines]
    over = [list(accumulate(reversed([item.wide for item in line.items])))[::-1] for line in lines]  # how wide all is from each item on
    for place in range(1, len(lines[0].items)):
        cuts = _cuts(lines, reach, place) if over[0][place] <= most else None
        if cuts is None or any(cut >= len(wide) or wide[cut] > most for wide, cut in zip(over, cuts, strict=True)):
            continue
        for line, cut in zip(lines, cuts, strict=True):
            del line.items[:cut]
            for item in line.items:
                item.feet = tuple((below, foot - cuts[below]) for below, foot in item.feet)
        return True
    return False


def _left_out(lines, kept, ends, times) -> Along:
    for index, line in enumerate(lines):
        first, last = kept[index][1], ends[index]
        for item in line.items[last:]:
            item.feet = tuple((below, foot if foot < 0 else foot - (ends[below] - kept[below][1])) for below, foot in item.feet)
        del line.items[first:last]
    return Along(tuple(kept), times)


def _best_along(lines, least, after, ripples, share):
    if not lines or lines[0].what == RING or len(lines[0].items) < 4 or any(line.below >= index for index, line in enumerate(lines)):
        return None
    wide = len(lines[0].items)
    reach = [sorted((foot, index) for index, item in enumerate(line.items) for below, foot in item.feet if below == line.below) if ripples else
             _reach(line) for line in lines]
    numbers = {}  # a number for each look, so that runs of them are compared at once
    signs = [[numbers.setdefault((item.sign(), len(item.feet)), len(numbers)) for item in line.items] for line in lines]
    known, tries = {}, MOST_TRIES

    def cuts(place):
        if place not in known:
            known[place] = _middle_cuts(lines, reach, place) if ripples else _cuts(lines, reach, place)
        return known[place]

    for period in range(1, min(MOST_ALONG, (wide - after) // least) + 1):
        best, until = None, wide
        for start in range(after, wide - least * period + 1):
            tries -= 1
            if start > until or tries < 0:
                break
            first, second = cuts(start), cuts(start + period)
            if first is None or second is None:
                continue
            times, end = 1, second
            while start + (times + 1) * period <= wide:
                tries -= 1
                further = cuts(start + (times + 1) * period)
                if further is None or not _alike(lines, signs, first, second, end, further):
                    break
                times, end = times + 1, further
            told = sum(b > a for a, b in zip(first, second, strict=True)) * 2 > len(lines)  # in most rows there is something in it
            told = told and any(sum(item.wide for item in line.items[a:b]) >= LEAST_WIDE for line, a, b in zip(lines, first, second, strict=True))
            if times >= least and told and times * period >= share * (wide - after):
                until = min(until, start + period)
                slant = _slant(lines, first) - times * 8
                if best is None or slant < best[0]:
                    best = slant, (list(zip(first, second, strict=True)), end, times)
        if best is not None:
            return best[1]
    return None


def _slant(lines, cuts) -> float:
    """How far a cut through all lines goes to the side, by the places that the items have."""
    at = []
    for line, cut in zip(lines, cuts, strict=True):
        if 0 < cut < len(line.items):
            at.append((line.items[cut - 1].u + line.items[cut].u) / 2)
        elif line.items:
            at.append(line.items[0].u - 5 if cut == 0 else line.items[-1].u + 5)
    return sum(abs(one - other) for one, other in zip(at, at[1:], strict=False))


def _reach(line: Line):
    """For each item the furthest foot to the left of it or at it, and the nearest to the right or at it."""
    most, far = -1, []
    for item in line.items:
        for _, foot in item.feet:
            most = max(most, foot)
        far.append(most)
    least, near = 1 << 30, []
    for item in reversed(line.items):
        for _, foot in item.feet:
            least = min(least, foot)
        near.append(least)
    return far, near[::-1]


def _middle_cuts(lines, standing, place):
    """Where a cut at `place` of the first line goes through ripples: before the middle one of what stands there, whatever stands on both sides."""
    out = [place]
    for index, line in enumerate(lines[1:], 1):
        if line.below < 0:
            return None
        at = bisect_left(standing[index], (out[line.below], -1))
        found = []
        while at < len(standing[index]) and standing[index][at][0] == out[line.below]:
            found.append(standing[index][at][1])
            at += 1
        if found:
            out.append(found[len(found) // 2])
        elif at < len(standing[index]):
            out.append(standing[index][at][1])
        else:
            out.append(len(line.items))
    return out


def _cuts(lines, reach, place):
    """Where a cut at `place` of the first line goes through each of the others, None where a stitch stands on both sides of it."""
    out = [place]
    for index, line in enumerate(lines[1:], 1):
        below = out[line.below] if line.below >= 0 else None
        if below is None:
            return None
        far, near = reach[index]
        at = bisect_left(far, below)
        if at < len(near) and near[at] < below:
            return None
        out.append(at)
    return out


def _alike(lines, signs, first, second, third, fourth) -> bool:
    """Whether the items between the first two cuts are those between the last two, on the same places."""
    if any(b - a != d - c for a, b, c, d in zip(first, second, third, fourth, strict=True)):
        return False
    for found, a, b, c, d in zip(signs, first, second, third, fourth, strict=True):
        if found[a:b] != found[c:d]:
            return False
    for line, a, b, c in zip(reversed(lines), reversed(first), reversed(second), reversed(third), strict=True):  # the last rows tell most
        for one, other in zip(line.items[a:b], line.items[c:], strict=False):
            for (below, foot), (under, place) in zip(one.feet, other.feet, strict=True):
                if below != under or foot - first[below] != place - third[below]:
                    return False
    return True
