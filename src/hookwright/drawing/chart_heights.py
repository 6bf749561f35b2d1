"""How high the stitches of a chart reach: from the places they stand on, as tall as they are, like stitches evenly."""

from math import sqrt

from .chart_lines import BELOW, ENDS, FOUNDATION, RING, Line
from .symbols import chain_length

DRIFT, MOST_DRIFT = 0.65, 11.0  # how much of the way a stitch is higher or lower than its row stays in the next, and the most of it
FLATTEST = 0.55


def heights(lines, line: Line, apart, least: float = 0.0, around: bool = False) -> None:
    """v of all items: as high as their stems reach from their feet, drawn towards the height of the row."""
    if line.what in (FOUNDATION, ENDS, RING, BELOW):
        for item in line.items:
            item.v = 0.0
        _arches(line, apart, around)
        return
    floor = lines[line.below].level if line.below >= 0 else 0.0
    own = []
    for item in line.items:
        if item.space or item.join or item.kind == "picot":
            own.append(None)
            continue
        feet = [lines[below].items[foot] for below, foot in item.feet if 0 <= foot < len(lines[below].items)]
        foot = sum(one.v for one in feet) / len(feet) if feet else _foot_beside(lines, line, item, floor)
        aside = max((apart(item.u, one.u) for one in feet), default=0.0) if len(feet) < 2 else 0.0
        own.append(foot + sqrt(max(item.tall**2 - aside**2, (FLATTEST * item.tall) ** 2)))
    _levelled(line, own)
    plain = [height for item, height in zip(line.items, own, strict=True) if height is not None and not item.turning] or \
        [height for height in own if height is not None] or [floor + 8]
    line.level = max(sum(plain) / len(plain), floor + 6, least)
    over = line.level - sum(plain) / len(plain)
    for item, height in zip(line.items, own, strict=True):
        if height is not None:
            away = DRIFT * (height + over - line.level)
            item.v = line.level + max(-MOST_DRIFT, min(MOST_DRIFT, away))
    _arches(line, apart, around)


def _levelled(line: Line, own) -> None:
    """Evens out the tops of like stitches side by side, each on a place of its own."""
    same = []
    for index in range(1, len(own) - 1):
        one, item, other = line.items[index - 1 : index + 2]
        if one.kind == item.kind == other.kind and None not in own[index - 1 : index + 2] and len({one.feet, item.feet, other.feet}) == 3:
            same.append(index)
    for _ in range(3 if same else 0):
        before = list(own)
        for index in same:
            own[index] = (before[index - 1] + 2 * before[index] + before[index + 1]) / 4


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
