"""Where the stitches of a chart in rows stand: over the places they are worked into, beside their neighbours.

Along a row the places nearest to the feet that keep order and room, between rows a few sweeps up and down, so that what stands on each
other lies over each other. u runs along a row and v up it; a `Straight` makes points of them.
"""

from bisect import bisect_left

from .chart_heights import heights
from .chart_lines import Line
from .chart_ripples import are_ripples, lay_ripples, waves
from .chart_spacing import LIGHT, filled, gaps_of, over_feet, spread

SWEEPS = 3
CLOSING, OPEN = 0.3, 1.5  # how much of the way a gap is closed, and how wide it must be, times what there must be
FRILLED, CLOSEST = 1.7, 0.62  # how much wider than the rows below a row may be, and how close its symbols may come


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


def rows(lines: list[Line]) -> Straight:
    """Gives every item of worked rows its u and v."""
    if are_ripples(lines):
        lay_ripples(lines)
        for line in lines:
            heights(lines, line, lambda one, other: 0.0)
        return Straight(waves(lines))
    for line in lines:
        _cut_open(lines, line)
        _narrowed(lines, line)
    grows = not any(len(item.feet) > 1 for line in lines for item in line.items)
    for line in lines:
        _place(line, [None] * len(line.items) if line.below < 0 or not line.items else over_feet(lines, line))
        _centre(line, lines)
    for _ in range(SWEEPS):
        for index in range(len(lines) - 1, 0, -1):
            _under(lines, index)
        for line in lines[1:]:
            _place(line, _closed(line, over_feet(lines, line)) if grows else over_feet(lines, line))
    for line in lines:
        heights(lines, line, lambda one, other: abs(one - other))
    return Straight()


def _place(line: Line, targets) -> None:
    if line.below >= 0 and all(target is None for target in targets):
        return
    weights = [1.0 if target is not None else LIGHT for target in targets]
    for item, u in zip(line.items, spread(filled(targets), gaps_of(line.items), weights), strict=True):
        item.u = u


def _closed(line: Line, targets) -> list:
    """Targets drawn together where nothing is left out between stitches: gaps that a row began with close over the next ones."""
    many = {}
    for item in line.items:
        many[item.feet] = many.get(item.feet, 0) + 1
    if all(target is None for target in targets) or max(many.values()) > 2 or any(item.space for item in line.items):
        return targets
    gaps = gaps_of(line.items)
    places = spread(filled(targets), gaps)
    out, over = places[:1], 0.0
    for one, other, apart in zip(places, places[1:], gaps, strict=False):
        over += CLOSING * (other - one - apart) if other - one > OPEN * apart else 0.0
        out.append(other - over)
    shift = (sum(places) - sum(out)) / len(out)
    return [place + shift for place in out]


def _cut_open(lines, line: Line) -> None:
    """In rounds that are laid open, what reaches over the place where they are cut, from one end to the other, stands by itself."""
    if not line.in_round or len(line.items) < 4:
        return
    for index, item in enumerate(line.items):
        item.feet = tuple((below, foot) for below, foot in item.feet
                          if foot < 0 or len(lines[below].items) < 4 or abs(index / len(line.items) - foot / len(lines[below].items)) < 0.6)


def _narrowed(lines, line: Line) -> None:
    """Symbols of a frilled row closer, as far as they can still be told apart: it would else reach far over the row it stands on."""
    if line.below < 0 or len(line.items) < 12:
        return
    under = lines[line.below]
    below = min(sum(item.wide for item in one.items) for one in ([under, lines[under.below]] if under.below >= 0 else [under]))
    own = sum(item.wide for item in line.items)
    if own > FRILLED * below > 0:
        share = max(FRILLED * below / own, CLOSEST)
        for item in line.items:
            item.wide *= share


def _centre(line: Line, lines) -> None:
    if line.below < 0 and line.items:
        middle = (line.items[0].u + line.items[-1].u) / 2
        for item in line.items:
            item.u -= middle


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
