"""Where the stitches of a chart in rounds stand: in rings about the one they begin in, with corners where the rounds have them.

u is how far about and v how far from the middle; `Rings` makes points of them.
"""

from math import cos, inf, pi, sin, tan

from hookwright.fabric import FLAG_CORNER

from .chart_heights import heights
from .chart_lines import RING, Line
from .chart_oval import Oval, about_the_middle, is_oval, lay_middle
from .chart_spacing import LIGHT, filled, gaps_of, over_feet, spread
from .symbols import chain_length

EVEN = 0.65
SEAM = 9.0  # room for the number where a round begins


class Rings:
    """Rounds one about the other: u from 0 to 1 is once about, against the clock from the bottom; v is how far from the middle.

    corners: 0 for circles; else rounds become shapes of so many corners from the distance `begin` on, fully when they are `full` further out. half: rows that go half about,
    from one end of a straight edge at the top (u = 0) to the other (u = 1/2).
    """

    around = True

    def __init__(self, corners: int = 0, full: float = 1.0, half: bool = False):
        self.corners, self.full, self.half, self.begin = corners, full, half, 0.0
        self.turn = -pi / 2 if half else pi / corners if corners else 0.0

    def point(self, u: float, v: float) -> tuple[float, float]:
        angle = -pi / 2 + 2 * pi * u + self.turn
        x, y = v * cos(angle), v * sin(angle)
        if self.corners:
            share = self._share(v)
            side = u * self.corners
            first = side // 1
            reach = v / cos(pi / self.corners)
            one, other = (-pi / 2 + self.turn + 2 * pi * (first + k) / self.corners for k in (0, 1))
            part = side - first
            px = reach * (cos(one) * (1 - part) + cos(other) * part)
            py = reach * (sin(one) * (1 - part) + sin(other) * part)
            x, y = x + (px - x) * share, y + (py - y) * share
        return x, -y

    def _share(self, v: float) -> float:
        """How far a round at this distance has its corners, from 0 to 1."""
        return min(max(v - self.begin, 0.0) / self.full, 1.0) ** 1.5

    def around_length(self, v: float) -> float:
        """How long a round at this distance is."""
        if not self.corners:
            return 2 * pi * v
        share = self._share(v)
        return 2 * pi * v * (1 - share) + 2 * self.corners * tan(pi / self.corners) * v * share

    def along(self, u: float, v: float) -> float:
        """How far it is from where u is 0, along the round at this distance."""
        return u * self.around_length(v)

    def at(self, length: float, v: float) -> float:
        """u of a length along the round at this distance: `along` the other way round."""
        return length / self.around_length(v)


def rounds(lines: list[Line]) -> Rings | Oval:
    """Gives every item of worked rounds its u and v. Items are put into working order, which goes against the clock."""
    oval = is_oval(lines)
    for line in lines:
        _in_working_order(lines, line)
    if oval:
        ground = lay_middle(lines)
        for line in lines[1:]:
            _round(lines, line, ground, ())
        return ground
    corners, at = _corners(lines)
    ground = Rings(corners, full=65.0)
    shaped = min((index for index, places in at.items() if _has_corners(lines[index], places)), default=0)
    at = {index: places for index, places in at.items() if index >= shaped}
    if shaped > 1:
        ground.begin, ground.full = inf, 40.0
    base = lines[0]
    ring = max(len(base.items) * chain_length() / (2 * pi), 5.0)
    base.level = ring
    for index, item in enumerate(base.items):
        item.u, item.v = (index + 0.5) / len(base.items), ring
    for index, line in enumerate(lines[1:], 1):
        if index == shaped:
            ground.begin = lines[line.below].level
        _round(lines, line, ground, at.get(index, ()), lines[:index] if at and index == min(at) else ())
    return ground


def _has_corners(line: Line, places) -> bool:
    """Whether the spaces at these places are corners: made as such, or longer than all others of the round."""
    spaces = [item for item in line.items if item.space]
    chosen = [line.items[place] for place in places]
    rest = [item.chains for item in spaces if not any(item is one for one in chosen)]
    return all(item.space for item in chosen) and (any(item.flags & FLAG_CORNER for item in chosen) or min(item.chains for item in chosen) > max(rest, default=0))


def half_rounds(lines: list[Line]) -> Rings:
    """Gives every item its u and v where rows begin in a ring and go to and fro about half of it: a half circle, or half a square where
    every row has a wider space in its middle."""
    at = {}
    for index, line in enumerate(lines):
        _in_working_order(lines, line, line.side == "WS")
        longest = max((item.chains for item in line.items if item.space), default=0)
        found = [place for place, item in enumerate(line.items) if item.space and item.chains == longest]
        if len(found) == 1 and abs(found[0] * 2 - len(line.items) + 1) <= 2:
            at[index] = found
    square = len(at) > (len(lines) - 1) / 2
    ground = Rings(4 if square else 0, full=60.0, half=True)
    base = lines[0]
    base.level = 5.0 if base.what == RING else max(len(base.items) * chain_length() / (2 * pi), 5.0)
    for place, item in enumerate(base.items):
        item.u, item.v = 0.25 if base.what == RING else (place + 0.5) / len(base.items), base.level
    for index, line in enumerate(lines[1:], 1):
        _half_round(lines, line, ground, at.get(index, ()) if square else ())
    return ground


def _half_round(lines, line: Line, ground: Rings, corners) -> None:
    below = lines[line.below]
    solid = line.items
    room = sum(item.wide for item in solid)
    level = below.level + max((item.tall for item in solid if not item.space and not item.turning), default=8.0)
    while ground.around_length(level) / 2 < room * 1.02:
        level += 2
    once = ground.around_length(level)
    begins = below is lines[0]
    targets = over_feet(lines, line) if not begins else [None] * len(solid)
    if begins:
        at = 0.0
        for index, item in enumerate(solid):
            targets[index] = (at + item.wide / 2) / room / 2
            at += item.wide
    places = spread(filled(targets), [gap / once for gap in gaps_of(solid)], [1.0 if target is not None else LIGHT for target in targets])
    middle = places[corners[0]] if corners else (places[0] + places[-1]) / 2
    edge = solid[0].wide / 2 / once
    for item, place in zip(solid, places, strict=True):  # both ends lie on the straight edge, the middle in the middle
        item.u = edge + (place - places[0]) / (middle - places[0]) * (0.25 - edge) if place < middle else \
            0.25 + (place - middle) / (places[-1] - middle) * (0.25 - edge)
    for place in corners:
        solid[place].cornered = True
    stops = [0, *corners, len(solid) - 1]
    for first, last in zip(stops, stops[1:], strict=False):
        _evened(solid[first : last + 1])
    heights(lines, line, lambda one, other: abs(one - other) * once, least=level)


def _evened(items, seam: int = 0) -> None:
    """Draws items towards places as far from each other as they are wide, between the first and the last of them, which stay.
    seam: before which of them the round begins, 0 for none."""
    at, far = [0.0], 0.0
    for index, (one, other) in enumerate(zip(items, items[1:], strict=False), 1):
        far += (one.wide + other.wide) / 2 + (SEAM if index == seam else 0)
        at.append(far)
    first, length = items[0].u, items[-1].u - items[0].u
    for item, place in zip(items, at, strict=True):
        item.u += (first + length * place / (far or 1) - item.u) * EVEN


def _in_working_order(lines, line: Line, turned: bool | None = None) -> None:
    """Puts the items of a round in the order of work; `turned`: of rows to and fro, whether from the right side they run the other way."""
    reverse = line.rtl if turned is None else line.rtl != turned
    if not reverse or line.what == RING:
        return
    line.items.reverse()
    line.rtl = False
    index = next(number for number, one in enumerate(lines) if one is line)
    last = len(line.items) - 1
    for other in lines[index + 1 :]:
        for item in other.items:
            item.feet = tuple((below, last - foot) if below == index and foot >= 0 else (below, foot) for below, foot in item.feet)


def _corners(lines) -> tuple[int, dict]:
    """How many corners the rounds have, 0 for none, and the items that are corners in each line: those made as such, and what they stand on."""
    at = {}
    for index, line in enumerate(lines):
        found = [place for place, item in enumerate(line.items) if item.flags & FLAG_CORNER]
        if found:
            longest = max(line.items[place].chains for place in found)
            at[index] = [place for place, item in enumerate(line.items) if item.space and item.chains == longest]
    if not at:
        return 0, {}
    numbers = {len(places) for places in at.values()}
    if len(numbers) != 1 or not 3 <= min(numbers) <= 8:
        return 0, {}
    first = min(at)
    while first > 1 and first - 1 not in at:
        below = []
        for place in at[first]:
            foot = next((foot for other in (place - 1, place + 1) if 0 <= other < len(lines[first].items)
                         for line, foot in lines[first].items[other].feet if line == first - 1), None)
            below.append(foot)
        if None in below or len(set(below)) != len(below):
            break
        first -= 1
        at[first] = sorted(below)
    return min(numbers), at


def _round(lines, line: Line, ground: Rings, corners, inner=()) -> None:
    below = lines[line.below] if line.below >= 0 else lines[0]
    solid = [item for item in line.items if not item.join]
    reach = below.level + max((item.tall for item in solid if not item.space and not item.turning), default=8.0)
    _closer(solid, ground.around_length(reach + 8) - SEAM)
    room = sum(item.wide for item in solid) + SEAM
    level = reach
    while ground.around_length(level) < room * 1.04:
        level += 2
    once = ground.around_length(level)
    targets, before = [], None
    if below is lines[0] and isinstance(ground, Oval):
        targets = about_the_middle(lines, solid, ground)
    for item in solid if not targets else ():
        known = [lines[other].items[foot].u for other, foot in item.feet if foot >= 0 and lines[other].what != RING]
        if not known:
            targets.append(None)
            continue
        first = known[0]
        target = sum(one - round(one - first) for one in known) / len(known)
        if before is not None:
            while target < before - 0.5:
                target += 1
            while target > before + 0.7:
                target -= 1
        before = target
        targets.append(target)
    slack = once - SEAM
    if any(target is not None for target in targets):  # from here on places are lengths along the round
        wanted = [None if target is None else ground.along(target, level) for target in targets]
        places = spread(filled(wanted), gaps_of(solid), [1.0 if target is not None else LIGHT for target in targets])
    else:
        places, at = [], 0.0
        loose = slack / (room - SEAM)
        for item in solid:
            places.append((at + item.wide / 2) * loose + SEAM / 2)
            at += item.wide
    ends = (solid[0].wide + solid[-1].wide) / 2
    if places[-1] - places[0] + ends > slack:
        places = _squeezed(places, solid, slack)
    elif len(places) > 1 and not corners and not isinstance(ground, Oval):
        places = _to_the_seam(places, slack - ends, 1.2 if _most_in_one(solid) > 2 or any(item.space for item in solid) else 0.0)
    for item, place in zip(solid, places, strict=True):
        item.u = place
    if not corners and not isinstance(ground, Oval) and len(solid) > 2 and not any(item.space for item in solid) and _most_in_one(solid) < 3:
        _evened(solid)
    for item in solid:
        item.u = ground.at(item.u, level)
    if corners:
        _snap(line, solid, corners, ground.corners, inner)
    for item in line.items:
        if item.join:
            item.u = solid[0].u - (solid[0].wide + 4) / 2 / once if item.index > solid[0].index else solid[0].u
    heights(lines, line, lambda one, other: abs(((one - other + 0.5) % 1) - 0.5) * once, least=level, around=True)
    for item in line.items:
        if item.join:
            item.v = line.level


def _closer(items, length: float) -> None:
    """Brings items closer, as far as they can still be told apart, where there are more than go into a length: a frilled edge would else lie
    far outside the round it stands on. Arches of chains give way most."""
    least = [item.wide * (0.42 if item.space else 0.78) for item in items]
    whole, tight = sum(item.wide for item in items), sum(least)
    if whole <= length or whole == tight:
        return
    share = min((whole - length) / (whole - tight), 1.0)
    for item, narrow in zip(items, least, strict=True):
        item.wide -= (item.wide - narrow) * share


def _to_the_seam(places, length: float, least: float) -> list[float]:
    """Places drawn out so that the place where rounds begin stays narrow, where it is wider than `least` times any other between them."""
    widest = max(after - before for before, after in zip(places, places[1:], strict=False))
    if length - (places[-1] - places[0]) <= widest * least:
        return places
    middle, wider = (places[0] + places[-1]) / 2, length / (places[-1] - places[0])
    return [middle + (place - middle) * wider for place in places]


def _most_in_one(items) -> int:
    """How many items at most stand in one place."""
    many = {}
    for item in items:
        many[item.feet] = many.get(item.feet, 0) + 1 if item.feet else 1
    return max(many.values(), default=0)


def _squeezed(places, solid, slack) -> list[float]:
    """Places that reach more than once about, put closer: as they were as far as there is room."""
    middle = (places[0] + places[-1]) / 2
    gaps = gaps_of(solid)
    ends = (solid[0].wide + solid[-1].wide) / 2
    free = slack - sum(gaps) - ends
    loose = [max(b - a - gap, 0.0) for a, b, gap in zip(places, places[1:], gaps, strict=False)]
    share = free / sum(loose) if sum(loose) > free else 1.0
    out = [0.0]
    for gap, more in zip(gaps, loose, strict=True):
        out.append(out[-1] + gap + more * share)
    shift = middle - out[-1] / 2
    return [place + shift for place in out]


def _snap(line: Line, solid, corners, count: int, inner=()) -> None:
    """Moves corner items to the corners, and what lies between them along with them. inner: lines inside it that are turned along with it."""
    places = [solid.index(line.items[place]) for place in corners]
    if len(places) != count:
        return
    start = round(solid[places[0]].u * count)
    if inner:
        turned = sum((start + index) / count - solid[place].u for index, place in enumerate(places)) / count
        for item in (item for one in (*inner, line) for item in one.items):
            item.u += turned
    for place in places:
        solid[place].cornered = True
    old = [solid[place].u for place in places]
    new = [(start + index) / count for index in range(count)]
    old, new = [*old, old[0] + 1], [*new, new[0] + 1]
    for item in solid:
        turns = (item.u - old[0]) // 1
        u = item.u - turns
        at = max(index for index in range(count) if old[index] <= u + 1e-9)
        part = (u - old[at]) / (old[at + 1] - old[at])
        item.u = new[at] + (new[at + 1] - new[at]) * part + turns
    for one, other in zip(places, [*places[1:], places[0] + len(solid)], strict=True):
        side = [solid[at % len(solid)] for at in range(one, other + 1)]
        over = max(len(solid) - one, 0) if other >= len(solid) else 0
        for item in side[over:] if over else ():
            item.u += 1
        _evened(side, over)
        for item in side[over:] if over else ():
            item.u -= 1
