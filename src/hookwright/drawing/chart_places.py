"""Where each stitch of a chart stands: over the place it is worked into, beside its neighbours, in rows or in rings.

Along a row the places are the ones nearest to the feet, by the sum of squares, that keep the order and leave each stitch its room
(isotonic regression by pooling of neighbours: a textbook method). u runs along a row and v up it; a `Ground` makes points of them.
"""

from bisect import bisect_left
from math import cos, hypot, pi, sin, sqrt, tan

from hookwright.fabric import FLAG_CORNER, FLAG_GROUP

from .chart_lines import BELOW, ENDS, FOUNDATION, RING, Line
from .symbols import chain_length

SWEEPS = 3
DRIFT, MOST_DRIFT = 0.65, 11.0  # how much of the way a stitch is higher or lower than its row stays in the next, and the most of it
FLATTEST = 0.55
STEP, STEEPEST = 10.0, 0.6
EVEN = 0.65
SEAM = 9.0  # room for the number where a round begins
LIGHT = 0.05


def spread(targets, gaps, weights=None) -> list[float]:
    """Places nearest to `targets` that are in order, with at least gaps[i] between i and i + 1.

    >>> spread([0, 0, 0], [10, 10])
    [-10.0, 0.0, 10.0]
    """
    ahead, at = [], 0.0
    for index in range(len(targets)):
        ahead.append(at)
        if index < len(gaps):
            at += gaps[index]
    pools = []  # (sum of weighted targets, weight, how many)
    for index, target in enumerate(targets):
        weight = weights[index] if weights else 1.0
        total, heavy, many = (target - ahead[index]) * weight, weight, 1
        while pools and pools[-1][0] * heavy >= total * pools[-1][1]:
            before = pools.pop()
            total, heavy, many = total + before[0], heavy + before[1], many + before[2]
        pools.append((total, heavy, many))
    out = []
    for total, heavy, many in pools:
        out += [total / heavy] * many
    return [place + ahead[index] for index, place in enumerate(out)]


def _gaps(items) -> list[float]:
    return [(one.wide + other.wide) / 2 for one, other in zip(items, items[1:], strict=False)]


def _filled(targets) -> list[float]:
    """Targets with those that are None put between their neighbours."""
    known = [index for index, target in enumerate(targets) if target is not None]
    if not known:
        return [10.0 * index for index in range(len(targets))]
    out = list(targets)
    for index in range(known[0]):
        out[index] = targets[known[0]]
    for index in range(known[-1] + 1, len(out)):
        out[index] = targets[known[-1]]
    for first, last in zip(known, known[1:], strict=False):
        for index in range(first + 1, last):
            out[index] = targets[first] + (targets[last] - targets[first]) * (index - first) / (last - first)
    return out


# ---------------------------------------------------------------- rows

class Straight:
    """Rows one over the other: u is a length to the right, v a height. wave: (u, how much higher all rows are there), in order of u."""

    around = False

    def __init__(self, wave=()):
        self.at, self.high = [u for u, _ in wave], [v for _, v in wave]

    def point(self, u: float, v: float) -> tuple[float, float]:
        if not self.at:
            return u, -v
        index = min(max(bisect_left(self.at, u), 1), len(self.at) - 1)
        a, b = self.at[index - 1], self.at[index]
        part = min(max((u - a) / (b - a), 0.0), 1.0)
        return u, -v - self.high[index - 1] - (self.high[index] - self.high[index - 1]) * part


def _waves(lines: list[Line]) -> list[tuple[float, float]]:
    """Where stitches lean the same way row after row (a ripple), the rows slope so that they stand square to them; [] where none do."""
    leans, ripples = {}, 0
    for line in lines:
        ripples += sum(len(item.feet) > 1 for item in line.items) > 1 and any(item.flags & FLAG_GROUP for item in line.items)
        for item in line.items:
            if len(item.feet) == 1 and not item.turning and not item.flags & FLAG_GROUP and item.tall > 8:
                below, foot = item.feet[0]
                if 0 <= foot < len(lines[below].items) and lines[below].what != RING:
                    leans.setdefault(int(item.u // STEP), []).append((item.u - lines[below].items[foot].u) / max(item.tall, 12.0))
    if ripples < 2 or not leans:
        return []
    first, last = min(leans), max(leans)
    slopes = [sum(leans[at]) / len(leans[at]) if at in leans else None for at in range(first, last + 1)]
    slopes = [max(-STEEPEST, min(STEEPEST, slope)) for slope in _filled(slopes)]
    slopes = [sum(slopes[max(at - 1, 0) : at + 2]) / len(slopes[max(at - 1, 0) : at + 2]) for at in range(len(slopes))]
    if sum(map(abs, slopes)) / len(slopes) < 0.12:
        return []
    out, high = [((first - 0.5) * STEP, 0.0)], 0.0
    for at, slope in enumerate(slopes):
        high -= slope * STEP
        out.append(((first + at + 0.5) * STEP, high))
    tilt = out[-1][1] / (out[-1][0] - out[0][0])
    return [(u, v - tilt * (u - out[0][0])) for u, v in out]


def rows(lines: list[Line]) -> Straight:
    """Gives every item of worked rows its u and v."""
    for line in lines:
        _place(line, [None] * len(line.items) if line.below < 0 or not line.items else _over_feet(lines, line))
        _centre(line, lines)
    for _ in range(SWEEPS):
        for index in range(len(lines) - 1, 0, -1):
            _under(lines, index)
        for line in lines[1:]:
            _place(line, _over_feet(lines, line))
    for line in lines:
        _heights(lines, line, lambda one, other: abs(one - other))
    return Straight(_waves(lines))


def _place(line: Line, targets) -> None:
    if line.below >= 0 and all(target is None for target in targets):
        return
    weights = [1.0 if target is not None else LIGHT for target in targets]
    for item, u in zip(line.items, spread(_filled(targets), _gaps(line.items), weights), strict=True):
        item.u = u


def _centre(line: Line, lines) -> None:
    if line.below < 0 and line.items:
        middle = (line.items[0].u + line.items[-1].u) / 2
        for item in line.items:
            item.u -= middle


def _over_feet(lines, line: Line):
    out = []
    for item in line.items:
        known = [lines[below].items[foot].u for below, foot in item.feet if 0 <= foot < len(lines[below].items)]
        out.append(sum(known) / len(known) if known else None)
    return out


def _under(lines, index: int) -> None:
    """Moves the places of one line under what stands on them."""
    line = lines[index - 1]
    sums, many = [0.0] * len(line.items), [0] * len(line.items)
    for item in lines[index].items:
        for below, foot in item.feet:
            if below == index - 1 and 0 <= foot < len(sums):
                sums[foot] += item.u
                many[foot] += 1
    if any(many):
        _place(line, [total / number if number else None for total, number in zip(sums, many, strict=True)])


def _heights(lines, line: Line, apart, least: float = 0.0, around: bool = False) -> None:
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


# ---------------------------------------------------------------- rounds

class Rings:
    """Rounds one about the other: u from 0 to 1 is once about, against the clock from the bottom; v is how far from the middle.

    corners: 0 for circles; else rounds become shapes of so many corners, fully from the distance `full` on. half: rows that go half about,
    from one end of a straight edge at the top (u = 0) to the other (u = 1/2).
    """

    around = True

    def __init__(self, corners: int = 0, full: float = 1.0, half: bool = False):
        self.corners, self.full, self.half = corners, full, half
        self.turn = -pi / 2 if half else pi / corners if corners else 0.0

    def point(self, u: float, v: float) -> tuple[float, float]:
        angle = -pi / 2 + 2 * pi * u + self.turn
        x, y = v * cos(angle), v * sin(angle)
        if self.corners:
            share = min(v / self.full, 1.0) ** 1.5
            side = u * self.corners
            first = side // 1
            reach = v / cos(pi / self.corners)
            one, other = (-pi / 2 + self.turn + 2 * pi * (first + k) / self.corners for k in (0, 1))
            part = side - first
            px = reach * (cos(one) * (1 - part) + cos(other) * part)
            py = reach * (sin(one) * (1 - part) + sin(other) * part)
            x, y = x + (px - x) * share, y + (py - y) * share
        return x, -y

    def around_length(self, v: float) -> float:
        """How long a round at this distance is."""
        if not self.corners:
            return 2 * pi * v
        share = min(v / self.full, 1.0) ** 1.5
        return 2 * pi * v * (1 - share) + 2 * self.corners * tan(pi / self.corners) * v * share


def rounds(lines: list[Line]) -> Rings:
    """Gives every item of worked rounds its u and v. Items are put into working order, which goes against the clock."""
    for line in lines:
        _in_working_order(lines, line)
    corners, at = _corners(lines)
    ground = Rings(corners, full=70.0)
    base = lines[0]
    ring = max(len(base.items) * chain_length() / (2 * pi), 5.0)
    base.level = ring
    for index, item in enumerate(base.items):
        item.u, item.v = (index + 0.5) / len(base.items), ring
    for index, line in enumerate(lines[1:], 1):
        _round(lines, line, ground, at.get(index, ()))
    return ground


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
    lines[0].level = 5.0
    for item in lines[0].items:
        item.u, item.v = 0.25, 5.0
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
    targets = _over_feet(lines, line) if below.what != RING else [None] * len(solid)
    if below.what == RING:
        at = 0.0
        for index, item in enumerate(solid):
            targets[index] = (at + item.wide / 2) / room / 2
            at += item.wide
    places = spread(_filled(targets), [gap / once for gap in _gaps(solid)], [1.0 if target is not None else LIGHT for target in targets])
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
    _heights(lines, line, lambda one, other: abs(one - other) * once, least=level)


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


def _round(lines, line: Line, ground: Rings, corners) -> None:
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
    for item in solid:
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
    gaps = [gap / once for gap in _gaps(solid)]
    slack = 1 - SEAM / once
    if any(target is not None for target in targets):
        weights = [1.0 if target is not None else LIGHT for target in targets]
        places = spread(_filled(targets), gaps, weights)
    else:
        places, at = [], 0.0
        loose = slack / (room - SEAM)
        for item in solid:
            places.append((at + item.wide / 2) * loose + SEAM / 2 / once)
            at += item.wide
    ends = (solid[0].wide + solid[-1].wide) / 2 / once
    if places[-1] - places[0] + ends > slack:
        places = _squeezed(places, solid, once, slack)
    elif len(places) > 1 and not corners:  # the place where rounds begin stays narrow
        middle, wider = (places[0] + places[-1]) / 2, (slack - ends) / (places[-1] - places[0])
        places = [middle + (place - middle) * wider for place in places]
    for item, u in zip(solid, places, strict=True):
        item.u = u
    if corners:
        _snap(line, solid, corners, ground.corners)
    for item in line.items:
        if item.join:
            item.u = solid[0].u - (solid[0].wide + 4) / 2 / once if item.index > solid[0].index else solid[0].u
    _heights(lines, line, lambda one, other: abs(((one - other + 0.5) % 1) - 0.5) * once, least=level, around=True)
    for item in line.items:
        if item.join:
            item.v = line.level


def _closer(items, length: float) -> None:
    """Brings items closer, as far as they can still be told apart, where there are more than go into a length: a frilled edge would else lie
    far outside the round it stands on. Arches of chains give way most."""
    least = [item.wide * (0.55 if item.space else 0.78) for item in items]
    whole, tight = sum(item.wide for item in items), sum(least)
    if whole <= length or whole == tight:
        return
    share = min((whole - length) / (whole - tight), 1.0)
    for item, narrow in zip(items, least, strict=True):
        item.wide -= (item.wide - narrow) * share


def _squeezed(places, solid, once, slack) -> list[float]:
    """Places that reach more than once about, put closer: as they were as far as there is room."""
    middle = (places[0] + places[-1]) / 2
    gaps = [gap / once for gap in _gaps(solid)]
    ends = (solid[0].wide + solid[-1].wide) / 2 / once
    free = slack - sum(gaps) - ends
    loose = [max(b - a - gap, 0.0) for a, b, gap in zip(places, places[1:], gaps, strict=False)]
    share = free / sum(loose) if sum(loose) > free else 1.0
    out = [0.0]
    for gap, more in zip(gaps, loose, strict=True):
        out.append(out[-1] + gap + more * share)
    shift = middle - out[-1] / 2
    return [place + shift for place in out]


def _snap(line: Line, solid, corners, count: int) -> None:
    """Moves corner items to the corners, and what lies between them along with them."""
    places = [solid.index(line.items[place]) for place in corners]
    if len(places) != count:
        return
    start = round(solid[places[0]].u * count)
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


def span_of(lines: list[Line], ground) -> tuple[float, float, float, float]:
    """left, top, right, bottom of all tops and feet."""
    points = [ground.point(item.u, item.v) for line in lines for item in line.items] or [(0.0, 0.0)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def distance(one, other) -> float:
    """How far two points are apart."""
    return hypot(one[0] - other[0], one[1] - other[1])
