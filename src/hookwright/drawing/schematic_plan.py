"""How a piece worked in rows lies flat by its counts: for every row where it begins and ends and how high it stands, in mm.

A row lies where the places lie that it is worked into: its middle stitch over the middle of its feet, so that an increase at an edge moves
that edge and no other. Widths are counts times the gauge; a row of lace takes the width that the rows about it come to. What is worked in
rounds, or round a ring in corners, is no such piece: its shape comes from the solved surface.
"""

from dataclasses import dataclass, field

import numpy as np

from hookwright.fabric import CHAINS, FLAG_CORNER, FLAG_JOIN, FLAG_TURNING
from hookwright.notation.tree import Each, Either, Group, Repeat

LACE = 3  # stitches or more in one place make lace; so do chain spaces
_LACY = 0.2  # of the rows: one row of windows in plain fabric leaves it plain
_WINDOW = 2  # rows either way that lace is looked at together
_FEW = 0.5  # of the stitches of a row: one with fewer known places goes round an edge
_LOOSE = 1.3  # times as long as the row below: a row of lace that is longer hangs in loops
_HANDLE = 10  # chains at once: they pass over stitches, and the row is no longer for them than what they pass
_MIDDLE, _MOST = 0.12, 0.4  # of a row, and of the rows, that have a corner in their middle
_GROWN = 1.5  # times as many stitches and spaces in the last row as in the first
_RING = -2
_EDGES = ("row ends", "edge")


@dataclass(slots=True)
class PlanRow:
    """One row, seen from the right side. low and high: mm above the foundation; left and right: mm, of its ends. row: index among all rows."""

    row: int
    low: float
    high: float
    left: float
    right: float
    stitches: int


@dataclass(slots=True)
class Strip:
    """Rows one on the other, under the heading `name`. on: index of the strip it stands on, -1 for the first."""

    on: int
    name: str = ""
    rows: list = field(default_factory=list)


@dataclass(slots=True)
class Plan:
    """A piece worked in rows. names: headings of its rows; strips: the first stands on the foundation, others (shoulders) on it."""

    names: tuple
    strips: list
    stitch_mm: float
    lace: bool = False
    fullness: float = 1.0  # area of its stitches and chains over that of the outline
    edge: bool = False  # worked along an edge of something else, so that its rows lie across the rows of that

    @property
    def height_mm(self) -> float:
        return max(row.high for strip in self.strips for row in strip.rows)

    @property
    def span(self) -> tuple[float, float]:
        """(left, right) of all of it, in mm."""
        rows = [row for strip in self.strips for row in strip.rows]
        return min(row.left for row in rows), max(row.right for row in rows)


def parts_of(fabric) -> list[list[int]]:
    """The rows of the fabric (indexes) in parts that hang together stitch for stitch: a body with its shoulders is one, an edging worked
    along row ends another. Rows of slip stitches alone (a seam) are left out."""
    rows, part_at, parts, carried = fabric.rows, {}, [], set()
    for index, row in enumerate(rows):
        if not len(row.kind) or row.by_kind.keys() == {"slst"}:
            continue
        below = row.below
        part = part_at.get(below) if below >= 0 and not along_edge(row, rows[below]) else None
        on = _stands_on(rows, index)
        if part is None or row.in_round and on in carried and row.has_height:  # a thumb in its opening
            parts.append(part := [])
        part.append(index)
        part_at[index] = part
        if row.has_height and on >= 0:
            carried.add(on)
    return [part for part in parts if any(rows[index].has_height and set(rows[index].by_kind) - {"slst"} for index in part)]


def along_edge(row, below) -> bool:
    """Whether a row goes along the ends of rows, and so across what was worked before."""
    if row.row is not None and names_place(row.row.steps, _EDGES):
        return True
    feet = [foot for foot in row.foot if foot >= 0]
    if feet and not row.far and len(feet) < _FEW * row.stitches and not any(foot == _RING for foot in row.foot):
        return True
    return max(feet) >= len(below.kind) if feet else row.stitches > 0 and not row.far and not any(foot == _RING for foot in row.foot)


def names_place(steps, which) -> bool:
    """Whether some of the steps go into places of these sorts (Place.which), such as row ends, which are no row."""
    for step in steps:
        if type(step) in (Group, Repeat) and names_place(step.steps, which) or type(step) is Each and names_place(step.parts, which):
            return True
        if type(step) is Either and names_place([one for reading in step.readings[:1] for one in (reading if isinstance(reading, list) else [reading])], which):
            return True
        place = getattr(step, "place", None)
        if place is not None and getattr(place, "which", "") in which:
            return True
    return False


def is_rows(fabric, part: list[int]) -> bool:
    """Whether a part is worked back and forth from an edge: not round a ring, in rounds, or about corners."""
    rows = [fabric.rows[index] for index in part if fabric.rows[index].has_height]
    if not rows or any(row.in_round for row in rows) or turns_in_middle(rows):
        return False
    seen = {id(row.flags): row.flags for row in rows}  # rows that are worked again share their columns
    return not any(foot == _RING for row in rows[:2] for foot in row.foot) and not any(flag & FLAG_CORNER for flags in seen.values() for flag in flags)


def turns_in_middle(rows) -> bool:
    """Whether rows grow about their middle: most have a corner there and nowhere else, the one largest space, or the one place with three stitches or
    more. Rows as long as the first (a strip with a row of windows up its middle) turn about nothing."""
    if len(rows) <= 3 or len(rows[-1].kind) < _GROWN * len(rows[0].kind):
        return False
    known: dict = {}
    for row in rows:
        if id(row.foot) not in known:
            known[id(row.foot)] = _corner_in_middle(row)
    return sum(known[id(row.foot)] for row in rows) >= _MOST * len(rows)


def _corner_in_middle(row) -> bool:
    count = len(row.kind)
    spaces = [place for place in range(count) if row.kind[place] == CHAINS and row.chains[place]]
    if spaces:
        largest = max(row.chains[place] for place in spaces)
        first = [place for place in spaces if row.chains[place] == largest]
        if len(first) == 1 and (len(spaces) > 1 or largest > 1):
            return abs((first[0] + 0.5) / count - 0.5) < _MIDDLE
    full, at = [], 0
    while at < count:
        end = at + 1
        while end < count and row.foot[end] == row.foot[at] >= 0:
            end += 1
        if end - at >= LACE:
            full.append((at + end) / 2)
        at = end
    return len(full) == 1 and abs(full[0] / count - 0.5) < _MIDDLE


def plan(fabric, part: list[int], sizes) -> Plan | None:
    """The plan of a part worked in rows; None where there is none. sizes: shape.RestSizes."""
    if not is_rows(fabric, part):
        return None
    rows, kinds = fabric.rows, fabric.kinds
    known: dict = {}
    widths = {index: _once(known, ("wide", id(rows[index].kind), rows[index].below < 0), item_widths, rows[index], kinds, sizes) for index in part}
    high = [index for index in part if rows[index].has_height and widths[index].any()]
    if not high:
        return None
    tall, full = set(high), sum(float(widths[index].sum()) * row_height(rows[index], kinds, sizes) for index in high)
    lace = sum(_once(known, ("lace", id(rows[index].foot)), is_lace, rows[index]) for index in high) >= max(_LACY * len(high), 1)
    if lace:
        _settle(widths, high)
    for index in high:  # loops and fans along an edge hang from it: they make it no longer
        under = _stands_on(rows, index)
        if under in tall and widths[index].sum() > _LOOSE * widths[under].sum() and is_lace(rows[index]):
            widths[index] = widths[index] * (widths[under].sum() / widths[index].sum())
    children = {}
    for index in high:
        children.setdefault(_stands_on(rows, index), []).append(index)
    strips, strip_of, xs, top = [], {}, {}, {}
    for index in part:
        row, wide = rows[index], widths[index]
        below = row.below if row.below in xs else -1
        under = xs.get(below)
        # a row worked again over places that lie alike lies as it did before
        xs[index], left, right = _once(known, ("laid", id(row.foot), id(wide), id(under)), _laid_with_ends, row, wide, under, known)
        if index not in tall:
            top[index], strip_of[index] = top.get(below, 0.0), strip_of.get(below, -1)
            continue
        on = strip_of.get(below, -1)
        if on < 0 or len(children.get(_stands_on(rows, index), ())) > 1:
            strips.append(Strip(on, row.piece))
            on = len(strips) - 1
        strip_of[index] = on
        low = top.get(below, 0.0)
        top[index] = low + row_height(row, kinds, sizes)
        strips[on].rows.append(PlanRow(index, low, top[index], left, right, row.stitches))
    names = tuple(dict.fromkeys(rows[index].piece for index in high))
    first = rows[part[0]]
    edge = first.below >= 0 and along_edge(first, rows[first.below])
    area = sum((one.right - one.left) * (one.high - one.low) for strip in strips for one in strip.rows)
    return Plan(names, [strip for strip in strips if strip.rows], sizes.width_mm, lace, full / max(area, 1e-6), edge)


def _once(known: dict, key, function, *of):
    """What a function gives, once for each key. Keys hold ids of columns that live as long as the fabric or, if laid, as long as the plan."""
    if key not in known:
        known[key] = function(*of)
    return known[key]


def _laid_with_ends(row, wide, below_x, known):
    x, held = _laid(row, wide, below_x), wide > 0
    if len(x):  # the same places are the same array, so that what stands on them is known, too
        x = known.setdefault(("x", id(wide), round(float(x[0]), 4), round(float(x[-1]), 4)), x)
    at, half = x[held], wide[held] / 2
    return (x, float((at - half).min()), float((at + half).max())) if len(at) else (x, 0.0, 0.0)


def _stands_on(rows, index: int) -> int:
    """The row with height that a row stands on, -1 for the foundation."""
    below = rows[index].below
    while below >= 0 and not rows[below].has_height:
        below = rows[below].below
    return below


def item_widths(row, kinds, sizes) -> np.ndarray:
    """Room of every item of a row along it; nothing for joins and turning chains that are no stitch."""
    kind, chains, flags = (np.frombuffer(column, dtype) for column, dtype in ((row.kind, np.uint16), (row.chains, np.uint16), (row.flags, np.uint8)))
    known = np.array([sizes.width(name) for name in kinds]) if len(kinds) else np.empty(0)
    wide = np.where(kind == CHAINS, chains * sizes.width_mm, known[np.minimum(kind, max(len(known) - 1, 0))] if len(known) else 0.0)
    wide = np.where(flags & FLAG_JOIN, 0.0, wide)
    handles = np.flatnonzero((kind == CHAINS) & (chains >= _HANDLE)) if row.below >= 0 else ()
    gaps = [_passed_over(row, int(place)) for place in handles]
    usual = min((gap for gap in gaps if gap is not None), default=None)  # one at the end of a round is as the others
    for place, gap in zip(handles, gaps, strict=True):
        if gap is not None or usual is not None:
            wide[place] = min(wide[place], (usual if gap is None else gap) * sizes.width_mm)
    loose = (flags & FLAG_TURNING != 0) & (flags & 1 == 0) & (row.below >= 0)
    return np.where(loose, 0.0, wide)


def _passed_over(row, place: int) -> int | None:
    """How many places below lie between the feet of the stitches on either side of this one; None where one of them has none."""
    before, after = (row.foot[at] if 0 <= at < len(row.foot) else -1 for at in (place - 1, place + 1))
    return max(abs(after - before) - 1, 1) if before >= 0 and after >= 0 else None


def is_lace(row) -> bool:
    """Whether a row has chain spaces, or a place with several stitches in it."""
    return bool(row.spaces) or most_in_one_place(row) >= LACE


def most_in_one_place(row) -> int:
    """The most stitches in succession that go into one place."""
    most = run = 1
    for one, other in zip(row.foot, row.foot[1:], strict=False):
        run = run + 1 if one == other and one >= 0 else 1
        most = max(most, run)
    return most


def _settle(widths: dict, high: list[int]) -> None:
    """Rows of lace are given the width that they settle to: the narrowest of the rows about them, apart from how the piece grows."""
    total = np.array([widths[index].sum() for index in high])
    at = np.arange(len(high))
    slope = np.polyfit(at, total, 1)[0] if len(high) > 2 * _WINDOW else 0.0
    level = total - slope * at
    settled = np.array([level[max(0, place - _WINDOW) : place + _WINDOW + 1].min() for place in at]) + slope * at
    for place, index in enumerate(high):
        if total[place]:
            widths[index] = widths[index] * (settled[place] / total[place])


def _laid(row, wide: np.ndarray, below_x) -> np.ndarray:
    """Places of the middles of a row's items, the right side facing: to the left from 0 where it stands on nothing."""
    middle = np.cumsum(wide) - wide / 2
    if below_x is None:
        return (-1 if row.side != "WS" else 1) * middle
    foot = np.frombuffer(row.foot, np.int32)
    stands = (foot >= 0) & (foot < len(below_x)) & (wide > 0)
    for place, feet in row.feet.items():  # several legs: over the middle of them
        if place < len(stands):
            stands[place] = stands[place] and all(0 <= one < len(below_x) for one in feet)
    if row.far:
        stands[list(row.far)] = False
    if not stands.any():
        return (-1 if row.side != "WS" else 1) * middle
    target = below_x[np.where(stands, foot, 0)].astype(float)
    for place, feet in row.feet.items():
        if place < len(stands) and stands[place]:
            target[place] = float(np.mean([target[place], *(below_x[one] for one in feet)]))
    mine, theirs = middle[stands], target[stands]
    if len(mine) > 1 and theirs.max() > theirs.min():
        way = 1.0 if np.dot(mine - mine.mean(), theirs) > 0 else -1.0
    else:
        way = 1.0 if row.side == "WS" else -1.0
    return way * middle + float(np.median(theirs - way * mine))


def row_height(row, kinds, sizes) -> float:
    """Height of a row: of the kind most of it is made of, slip stitches aside."""
    kind = max(row.by_kind.items(), key=lambda item: (item[1] * (item[0] != "slst"), item[0]))[0] if row.by_kind else "ch"
    return sizes.height(kind)
