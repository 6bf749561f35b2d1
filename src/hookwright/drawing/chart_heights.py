"""How high the stitches of a chart reach: from the places they stand on, as tall as they are, like stitches evenly."""

from math import sqrt

from .chart_lines import BELOW, ENDS, FOUNDATION, RING, Line
from .symbols import chain_length

DRIFT, MOST_DRIFT = 0.65, 11.0  # of rings: how much of the way a stitch is higher or lower than its round stays in the next, and the most of it
KEPT = 0.88  # of rows: the same
FLATTEST, LONGER = 0.7, 1.1  # of its height, how low a stitch that leans far reaches, and how much longer it may be for leaning
EVEN = 3.0  # how strongly neighbours are drawn to one height
SHORT = 0.3  # weight of what can be drawn longer or shorter without harm: single crochets, turning chains
LOW, HIGH = 0.8, 1.45  # of its own reach, how short and how long a tall stitch may be drawn


def heights(lines, line: Line, apart, least: float = 0.0, around: bool = False) -> None:
    """v of all items: as high as their stems reach from their feet, neighbours evenly, drawn towards the height of the row."""
    if line.what in (FOUNDATION, ENDS, RING, BELOW):
        for item in line.items:
            item.v = 0.0
        _arches(line, apart, around)
        return
    floor = lines[line.below].level if line.below >= 0 else 0.0
    solid, own, stand = [], [], []
    for item in line.items:
        if item.space or item.join or item.kind == "picot":
            continue
        feet = [lines[below].items[foot] for below, foot in item.feet if 0 <= foot < len(lines[below].items)]
        foot = sum(one.v for one in feet) / len(feet) if feet else _foot_beside(lines, line, item, floor)
        aside = max((apart(item.u, one.u) for one in feet), default=0.0) if len(feet) < 2 else 0.0
        solid.append(item)
        stand.append(foot)
        longest = min(item.tall**2 + aside**2, (LONGER * item.tall) ** 2)
        own.append(foot + sqrt(max(longest - aside**2, (FLATTEST * item.tall) ** 2)))
    weights = [SHORT if item.turning or item.tall < 15 else 1.0 for item in solid]
    known = [index for index, item in enumerate(solid) if not item.turning] or range(len(solid))
    heavy = sum(weights[index] for index in known)
    mean = sum(weights[index] * own[index] for index in known) / heavy if heavy else floor + 8
    line.level = max(mean, floor + 6, least)
    if around:
        for item, height in zip(solid, own, strict=True):
            item.v = line.level + max(-MOST_DRIFT, min(MOST_DRIFT, DRIFT * (height - mean)))
    else:
        even = _evened(own, weights, [EVEN * 10 / max(apart(one.u, other.u), 5.0) for one, other in zip(solid, solid[1:], strict=False)])
        for item, height, reach, foot in zip(solid, even, own, stand, strict=True):
            v = line.level + KEPT * (height - mean)
            if item.tall >= 15 and not item.turning:
                v = min(max(v, foot + LOW * (reach - foot)), foot + HIGH * (reach - foot))
            item.v = v
    _arches(line, apart, around)


def _evened(own, weights, pulls) -> list[float]:
    """Heights near to `own`, by their weights, and to those of their neighbours, by the pull between each two: the least sum of squares."""
    count = len(own)
    if count < 2:
        return list(own)
    upper, right = [0.0] * count, [0.0] * count  # elimination in one pass: only neighbours pull at each other
    for index in range(count):
        before = pulls[index - 1] if index else 0.0
        after = pulls[index] if index < count - 1 else 0.0
        pivot = weights[index] + before + after - (before * upper[index - 1] if index else 0.0)
        upper[index] = after / pivot
        right[index] = (weights[index] * own[index] + (before * right[index - 1] if index else 0.0)) / pivot
    out = [0.0] * count
    for index in reversed(range(count)):
        out[index] = right[index] + (upper[index] * out[index + 1] if index < count - 1 else 0.0)
    return out


def _foot_beside(lines, line: Line, item, floor: float) -> float:
    """How high the place is that the nearest stitch of the row goes into, for a chain that goes into none."""
    at = line.items.index(item)
    near = sorted((abs(index - at), index) for index in range(max(at - 2, 0), min(at + 3, len(line.items))) if line.items[index].feet)
    for _, index in near:
        below, foot = line.items[index].feet[0]
        if 0 <= foot < len(lines[below].items):
            return lines[below].items[foot].v
    return floor


def _arches(line: Line, apart, around: bool = False) -> None:
    """Runs of chains reach from the top before them to the top after them, as high as their length makes them; knobs stand on the top before."""
    solid = [item for item in line.items if not item.space and not item.join and item.kind != "picot"]
    if not solid:
        for item in line.items:
            item.v = line.level
        return
    before, last = {}, solid[-1] if around else None
    for item in line.items:
        before[id(item)] = last
        if not item.space and not item.join and item.kind != "picot":
            last = item
    after = solid[0] if around else None
    for item in reversed(line.items):
        if not item.space and not item.join and item.kind != "picot":
            after = item
            continue
        one, other = before[id(item)], after
        if one is None or other is None:
            one = other = one or other
        item.ends = one, other
        base = (one.v + other.v) / 2
        if item.space:
            chord = max(apart(one.u, other.u) - 3, 4.0) if one is not other else item.wide
            length = item.chains * chain_length()
            item.rise = sqrt(3 * chord * (length - chord) / 8) if length > chord else 0.0
            item.rise = 0.0 if item.cornered else min(item.rise, length / 2)
        item.v = base + item.rise
