"""Colour work in which one stitch is one cell: the chart as a grid of cells in their colours."""

from hookwright.fabric import FLAG_COUNTS
from hookwright.stitches import stitch

from .chart_lines import WORKED, Line
from .chart_rows import Straight
from .symbols import shape

CELL = 11.0
# What stands in a cell besides its colour, so that nobody has to tell colours apart: nothing for the first two, one empty and one full
SIGNS = ("", "", "dot", "cross", "slash", "tick", "bar", "oval")


def is_colour_work(lines: list[Line]) -> bool:
    """Whether rows change colour within themselves, and every stitch is plain and stands on one of its own."""
    worked = [line for line in lines if line.what == WORKED]
    if sum(len({item.colour for item in line.items if item.flags & FLAG_COUNTS}) > 1 for line in worked) < 2:
        return False
    kinds = {item.kind for line in worked for item in line.items if item.flags & FLAG_COUNTS}
    if len(kinds) != 1 or (stitch(kinds.pop()) or stitch("cl")).kind not in ("basic", "extended"):
        return False
    for line in worked:
        feet = [item.feet for item in line.items if item.flags & FLAG_COUNTS]
        if any(item.space or item.loop for item in line.items) or len(set(feet)) < len(feet) or any(len(foot) != 1 for foot in feet):
            return False
    return True


def only_cells(lines: list[Line]) -> None:
    """Leaves out, in place, all that is no cell: turning chains, joins."""
    moved = []
    for line in lines:
        keep = [index for index, item in enumerate(line.items) if line.what != WORKED or item.flags & FLAG_COUNTS]
        moved.append({old: new for new, old in enumerate(keep)})
        line.items[:] = [line.items[index] for index in keep]
    for line in lines:
        for item in line.items:
            item.feet = tuple((below, moved[below][foot]) for below, foot in item.feet if foot in moved[below])


def grid(lines: list[Line]) -> Straight:
    """Places the cells: rows of squares, each over the one its stitch stands on."""
    high = 0.0
    for line in lines:
        level = high
        if line.what == WORKED:
            high += CELL
            level = high - CELL / 2
        line.level = high
        below = lines[line.below].items if line.below >= 0 else ()
        first = next(((place, below[item.feet[0][1]].u) for place, item in enumerate(line.items) if item.feet and item.feet[0][0] == line.below and below), (0, 0.0))
        for place, item in enumerate(line.items):
            item.u, item.v = first[1] + (place - first[0]) * CELL, level
            item.wide, item.tall = CELL, 0.0
    return Straight()


def cell(item, x: float, y: float, colours: dict) -> str:
    """One cell; its group gives it its colour."""
    return square(x, y, list(colours).index(item.colour) if item.colour in colours else 0)


def square(x: float, y: float, number: int) -> str:
    """The cell of a colour by its number."""
    half = CELL / 2
    fill = ' fill="currentColor" fill-opacity="0.55"' if number else ""
    sign = SIGNS[number % len(SIGNS)]
    path = f'<path d="M{x - half:.1f} {y - half:.1f}h{CELL:g}v{CELL:g}h-{CELL:g}Z" stroke-width="0.7"{fill}/>'
    return path + (f'<g color="black" stroke="currentColor" stroke-width="1">{shape(sign, x, y)}</g>' if sign else "")
