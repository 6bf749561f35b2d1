"""Rounds about a chain: worked along both its sides and round its ends, an oval."""

from math import cos, pi, sin

from .chart_lines import FOUNDATION, WORKED, Line

SPACING = 10.5  # of the chains along the middle: that of the stitches on them
MOST_CHAINS = 80
ROUND_END = 30.0  # distance at which the ends take as much of once about, for their length, as the sides


class Oval:
    """Rounds one about the other round a middle line: u from 0 to 1 is once about, against the clock from the right end of the upper side; v is
    how far from the middle line. What stands on a side stays over its chain however far out, the ends widen."""

    around, half, corners = True, False, 0

    def __init__(self, chains: int):
        self.long = (chains - 1) * SPACING
        once = 2 * self.long + 2 * pi * ROUND_END
        self.side, self.end = self.long / once, pi * ROUND_END / once

    def point(self, u: float, v: float) -> tuple[float, float]:
        u %= 1.0
        half = self.long / 2
        if u < self.side:
            return half - self.long * u / self.side, -v
        u -= self.side
        if u < self.end:
            angle = pi / 2 + pi * u / self.end
            return -half + v * cos(angle), -v * sin(angle)
        u -= self.end
        if u < self.side:
            return -half + self.long * u / self.side, v
        angle = -pi / 2 + pi * (u - self.side) / self.end
        return half + v * cos(angle), -v * sin(angle)

    def around_length(self, v: float) -> float:
        """How long a round at this distance is."""
        return 2 * self.long + 2 * pi * v

    def along(self, u: float, v: float) -> float:
        """How far it is from where u is 0, along the round at this distance."""
        turns, u = u // 1, u % 1.0
        stretch = min(u, self.side) / self.side * self.long + min(max(u - self.side, 0.0), self.end) / self.end * pi * v
        u -= self.side + self.end
        return turns * self.around_length(v) + stretch + min(max(u, 0.0), self.side) / self.side * self.long + max(u - self.side, 0.0) / self.end * pi * v

    def at(self, length: float, v: float) -> float:
        """u of a length along the round at this distance: `along` the other way round."""
        once, end = self.around_length(v), max(pi * v, 1e-6)
        turns, left = length // once, length % once
        u = min(left, self.long) / self.long * self.side + min(max(left - self.long, 0.0), end) / end * self.end
        left -= self.long + end
        return turns + u + min(max(left, 0.0), self.long) / self.long * self.side + max(left - self.long, 0.0) / end * self.end


def is_oval(lines: list[Line]) -> bool:
    """Whether the first round goes along both sides of the foundation."""
    worked = [line for line in lines if line.what == WORKED]
    if lines[0].what != FOUNDATION or not worked or not all(line.in_round and line.below >= 0 for line in worked):
        return False
    feet = [foot for item in worked[0].items for line, foot in item.feet if line == 0]
    places = set(feet)
    twice = sum(feet.count(place) > 1 for place in places)
    return 3 <= len(places) <= MOST_CHAINS and min(places) >= 0 and twice * 3 > len(places) * 2 and not any(line.below == 0 for line in worked[1:])


def lay_middle(lines: list[Line]) -> Oval:
    """Lays the foundation, in the order of work, as the middle line, and says which ground is about it; chains skipped at its start are left out."""
    base, first = lines[0], lines[1]
    near = min(foot for item in first.items if not item.turning for _, foot in item.feet)
    del base.items[:near]
    for item in first.items:
        item.feet = tuple((line, foot - near) for line, foot in item.feet if foot >= near)
    ground = Oval(len(base.items))
    for place, item in enumerate(base.items):
        item.u, item.v = ground.side * place / (len(base.items) - 1) * 0.9999, 0.0
    return ground


def about_the_middle(lines: list[Line], solid, ground: Oval) -> list:
    """The place of each item of the first round: over its chain on its side, round the ends evenly."""
    base, last = lines[0], len(lines[0].items) - 1
    feet = [item.feet[0][1] if item.feet else None for item in solid]
    far = [index for index, foot in enumerate(feet) if foot == last]
    turn = far[0] if far else max((index for index, foot in enumerate(feet) if foot is not None), key=lambda index: feet[index])
    near = [index for index, foot in enumerate(feet) if foot == 0 and index > turn]
    out = []
    for index, foot in enumerate(feet):
        if foot is None:
            out.append(None if index else ground.at(-SPACING, ROUND_END))  # a chain to begin with stands on the end, before the side
        elif index in far:
            out.append(ground.side + ground.end * (index - far[0] + 0.5) / len(far))
        elif index in near:
            out.append(2 * ground.side + ground.end * (1 + (index - near[0] + 0.5) / (len(near) + 1.4)))
        elif index < turn:
            out.append(base.items[foot].u)
        else:
            out.append(ground.side + ground.end + ground.side * (1 - foot / last))
    return out
