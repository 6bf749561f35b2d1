"""Whether rounds lie flat, from their counts alone: how fast they grow against how fast a flat round would."""

from dataclasses import dataclass
from math import pi, tan

from hookwright.fabric import FLAG_CORNER, FLAG_JOIN, FLAG_TURNING

from .rest import facts

CORNERS = range(3, 9)  # so many corners make the round a polygon


@dataclass(frozen=True, slots=True)
class RoundFlare:
    """One round. row: its index in the rows given; stitches: as counted; around_mm: length of the round at rest.

    phi      growth of the round against what lies flat: 1 flat, less cups, more ruffles, 0 goes straight up, under 0 closes
    words    "closes", "goes straight up", "cups", "domes slightly", "lies flat", "waves at the edge", "ruffles"
    gain     stitches gained from the round before; flat_gain: what would lie flat
    to_flat  stitches a round to add (more than 0) or take (less than 0) for it to lie flat; 0 where it does, or goes straight up
    """

    row: int
    stitches: int
    around_mm: float
    phi: float
    words: str
    gain: float
    flat_gain: float
    to_flat: int


def flare(rows, sizes, kinds=None) -> list[RoundFlare]:
    """The flare of every round among `rows` (all of a Fabric, since they name each other by index) that stands on another, or in a ring.

    sizes: rest.RestSizes (or anything with width(kind) and height(kind) in mm); kinds: number -> catalogue id, Fabric.kinds. Cheap: no arrays.
    """
    out, known = [], {}
    for run in _runs(rows):
        lengths, heights, corners, wide = [], [], [], []
        for index in run:
            key = id(rows[index].kind)
            if key not in known:
                known[key] = _measured(rows[index], sizes, kinds)
            length, height, corner, width = known[key]
            lengths.append(length), heights.append(height), corners.append(corner), wide.append(width)
        ring = _from_ring(rows[run[0]])
        radii, at = [], 0.0
        for height in heights:
            at += height
            radii.append(at)
        half = facts()["flare"]["rounds"] // 2
        for place, index in enumerate(run):
            low, high = max(0, place - half), min(len(run), place + half + 1)
            xs, ys = radii[low:high], lengths[low:high]
            if ring and not low:
                xs, ys = [0.0, *xs], [0.0, *ys]
            if len(xs) < 2:
                continue
            grows = 2 * corners[place] * tan(pi / corners[place]) if corners[place] in CORNERS else 2 * pi
            phi = _slope(xs, ys) / grows
            before = lengths[place - 1] if place else 0.0
            gain, flat_gain = (lengths[place] - before) / wide[place], grows * heights[place] / wide[place]
            words = words_for(phi)
            mean_gain = phi * flat_gain
            low_flat, high_flat = facts()["flare"]["flat"]
            off = 0 if low_flat <= phi <= high_flat or words in ("closes", "goes straight up") else round(flat_gain - mean_gain)
            out.append(RoundFlare(index, rows[index].stitches, lengths[place], phi, words, gain, flat_gain, off))
    return out


def words_for(phi: float) -> str:
    """What a round of this flare does.

    >>> [words_for(phi) for phi in (0, 0.5, 0.93, 1, 1.1, 1.5)]
    ['goes straight up', 'cups', 'domes slightly', 'lies flat', 'waves at the edge', 'ruffles']
    """
    return [words for least, words in facts()["flare"]["words"] if phi >= least][-1]


def _runs(rows) -> list[list[int]]:
    """Rounds that stand one on the other, as runs of indexes."""
    place, out = {}, []
    for index, row in enumerate(rows):
        if not row.in_round or not row.stitches:
            continue
        run = place.get(row.below) if row.below >= 0 else None
        if run is None or rows[run[-1]] is not rows[row.below]:
            out.append(run := [])
        run.append(index)
        place[index] = run
    return [run for run in out if len(run) > 1 or _from_ring(rows[run[0]])]


def _slope(xs, ys) -> float:
    """Slope of the straight line nearest to the points."""
    mean_x, mean_y = sum(xs) / len(xs), sum(ys) / len(ys)
    spread = sum((x - mean_x) ** 2 for x in xs)
    return sum((x - mean_x) * (y - mean_y) for x, y in zip(xs, ys, strict=True)) / spread if spread else 0.0


def _from_ring(row) -> bool:
    return len(row.foot) > 0 and any(foot == -2 for foot in row.foot[:3])


def _measured(row, sizes, kinds) -> tuple[float, float, int, float]:
    """(length of the round, its height, how many corners it has, mean width of its stitches)."""
    length = height = 0.0
    count = corners = 0
    for kind, chains, flags in zip(row.kind, row.chains, row.flags, strict=True):
        if flags & FLAG_JOIN or (flags & FLAG_TURNING and kind == 0):
            continue
        name = kinds[kind] if kinds is not None else "sc"
        made = chains if kind == 0 else 1
        length += sizes.width(name) * made
        if kind:
            height += sizes.height(name)
            count += 1
        corners += bool(flags & FLAG_CORNER)
    made = count or 1
    return length, height / made, corners, (length / made) or 1.0
