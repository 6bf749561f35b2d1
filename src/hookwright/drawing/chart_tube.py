"""Rounds that begin in a ring and close again, a ball or the body of a toy: laid open like a map of the globe, every round spread over one width,
so that increases and decreases stand in columns. Where the rounds are made of like parts and all of them are too wide, one part is shown."""

from .chart_heights import heights
from .chart_lines import FOUNDATION, RING, WORKED, Line
from .chart_repeats import Along
from .chart_rows import Straight
from .chart_spacing import filled, gaps_of, over_feet, spread

LIKE_PARTS = range(16, 2, -1)  # how many like parts a round may be made of
TURNED = 0.8  # how much of the way rounds are turned so that stitches stand over their feet


def is_tube(lines: list[Line]) -> bool:
    """Whether rounds go on from a ring, with a flat row or two at most."""
    worked = [line for line in lines if line.what == WORKED]
    around = sum(line.in_round for line in worked)
    return lines[0].what in (RING, FOUNDATION) and worked[0].in_round and around * 3 > len(worked) * 2 and all(line.below >= 0 for line in worked) and all(
        foot < 0 or lines[0].what == RING for item in worked[0].items for _, foot in item.feet)


def one_part(lines: list[Line]) -> list[Along]:
    """Leaves all but one of the like parts of every round out, in place; [] where the rounds are not made of like parts."""
    for many in LIKE_PARTS:
        if all(_like(line, lines, many) for line in lines[1:]):
            sizes = [len(line.items) // many if at else len(line.items) for at, line in enumerate(lines)]
            parts = []
            for line in lines[1:]:
                size = len(line.items) // many
                kept = line.items[len(line.items) - size :] if line.rtl else line.items[:size]
                for item in kept:
                    item.feet = tuple((below, _within(foot, len(lines[below].items), sizes[below], line.rtl) if below else foot) for below, foot in item.feet)
                parts.append(kept)
            for line, kept in zip(lines[1:], parts, strict=True):
                line.items[:] = kept
            return [Along(tuple((0, size) for size in sizes), many)]
    return []


def _within(foot: int, count: int, size: int, rtl: bool) -> int:
    """A place of the whole round as one of the part that is kept: what lies in the next part is the edge of this one."""
    first = count - size if rtl else 0
    return min(max(foot - first, 0), size - 1)


def _like(line: Line, lines, many: int) -> bool:
    """Whether a round is made of so many parts that look alike and stand on like parts below."""
    count, under = len(line.items), lines[line.below]
    if not count or count % many or line.below and len(under.items) % many or any(item.join or item.turning for item in line.items):
        return False
    size, step = count // many, len(under.items) // many if line.below else 0
    for index in range(size, count):
        one, other = line.items[index - size], line.items[index]
        if one.kind != other.kind or line.below and one.sign() != other.sign() or tuple((below, foot + (step if below else 0)) for below, foot in one.feet) != other.feet:
            return False
    return True


def lay_tube(lines: list[Line]) -> Straight:
    """Gives every item its u and v: each round over one width, turned so that its stitches stand over their feet."""
    worked = [line for line in lines if line.what == WORKED]
    whole = max(sum(item.wide for item in line.items if not item.join) for line in worked)
    for line in worked:
        solid = [item for item in line.items if not item.join]
        if not line.in_round:  # a row that closes it flat
            for item, u in zip(line.items, spread(filled(over_feet(lines, line)), gaps_of(line.items)), strict=True):
                item.u = u
            continue
        share = whole / (sum(item.wide for item in solid) or 1.0)
        at = -whole / 2
        for item in solid:
            item.u = at + item.wide * share / 2
            at += item.wide * share
        for item in line.items:
            if item.join:
                item.u = -whole / 2 - 5 if line.rtl else whole / 2 + 5
        if line.below > 0:
            leans = [target - item.u for target, item in zip(over_feet(lines, line), line.items, strict=True) if target is not None and not item.join]
            turn = max(-8.0, min(8.0, sum(leans) / len(leans) * TURNED)) if leans else 0.0
            for item in line.items:
                item.u += turn
    base = lines[0]
    base.level = 4.0
    for place, item in enumerate(base.items):
        item.u, item.v = -whole / 2 + whole * (place + 0.5) / len(base.items), 4.0
    for line in worked:
        heights(lines, line, lambda one, other: 0.0)
    base.wide = whole
    return Straight()
