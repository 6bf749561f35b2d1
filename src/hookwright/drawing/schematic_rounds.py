"""What a piece worked in rounds comes to by its counts: how long each round is and how far it lies from the first, in mm."""

from dataclasses import dataclass
from math import pi

from hookwright.fabric import FLAG_CORNER

from .schematic_plan import is_lace, item_widths, most_in_one_place, names_place, row_height, turns_in_middle

_CORNERS = range(3, 9)  # so many corners make a motif a polygon
_FLAT = 0.78, 1.25  # of what lies flat on the last round: between these a piece begun in a ring is a disc
_CLOSED = 0.34  # of the widest round: a last round under this closes the piece
_LACY = 0.2  # of the rounds
_HANDLE = 12  # stitches in one place: they go over a handle or a loop
_HALF = 2.4, 3.9  # times as much as its height a row of half a disc grows: pi, more or less
_RING = -2


@dataclass(slots=True)
class Rounds:
    """A piece in rounds. names: headings; rows: indexes; around: mm of each round; out: mm along the fabric from where it began to each round's
    top; stitches: of each. corners: of the last round, 0 where it has none.

    base_mm: length of what the first round goes round: 0 for a ring, both sides of a chain for an oval; None where the piece is open there.
    """

    names: tuple
    rows: list
    around: list
    out: list
    stitches: list
    base_mm: float | None
    corners: int
    lace: bool = False  # chain spaces or groups, whose rounds are counted longer than they lie
    half: bool = False  # worked to and fro about the middle of an edge: half of a disc or square

    @property
    def ring(self) -> bool:
        """Whether the beginning is closed."""
        return self.base_mm is not None

    @property
    def widest_mm(self) -> float:
        return max(self.around)

    @property
    def shape(self) -> str:
        """ "disc", "oval", "polygon", "ball", "cap" (one end closed) or "tube"; "half square" or "half disc" for half of them."""
        if self.half:
            return "half square" if self.corners else "half disc"
        flat = self.around[-1] / max(2 * pi * self.out[-1] + (self.base_mm or 0.0), 1e-6)
        if self.lace and flat > _FLAT[1]:
            flat = 1.0  # pinned out
        if self.ring and self.corners in _CORNERS:
            return "polygon"
        if self.ring and _FLAT[0] <= flat <= _FLAT[1] and self.around[-1] >= 0.95 * self.widest_mm:
            return "oval" if self.base_mm else "disc"
        closes = self.around[-1] < _CLOSED * self.widest_mm
        return "ball" if self.ring and closes else "cap" if self.ring or closes else "tube"


def rounds_of(fabric, part: list[int], sizes) -> Rounds | None:
    """The rounds of a part; None where it is worked in rows. Rows of it that are worked to and fro (an opening) count with it, and so do rows
    about the middle of an edge, such as a shawl has that is begun at the neck."""
    rows = [index for index in part if fabric.rows[index].has_height]
    half = rows and not any(fabric.rows[index].in_round for index in rows)
    corner = bool(half) and turns_in_middle([fabric.rows[index] for index in rows])
    if not rows or half and not corner and _base(fabric, part, sizes) is None:
        return None
    around, out, high, share, before = [], [], 0.0, 1.0, 0.0
    for index in rows:
        row = fabric.rows[index]
        long = float(item_widths(row, fabric.kinds, sizes).sum())
        if before and long > before and most_in_one_place(row) >= _HANDLE:
            share *= before / long  # stitches over a handle go round it, not round the piece
        before = long
        around.append(long * share)
        high += row_height(row, fabric.kinds, sizes)
        out.append(high)
    _settle_between(around, [is_lace(fabric.rows[index]) for index in rows])
    if half:
        grows = (around[-1] - around[0]) / max(out[-1] - out[0], 1e-6)
        if len(rows) < 4 or not (corner or _HALF[0] <= grows <= _HALF[1]):
            return None
        return Rounds(tuple(dict.fromkeys(fabric.rows[index].piece for index in rows)), rows, around, out, [fabric.rows[index].stitches for index in rows], 0.0, int(corner), half=True)
    last = fabric.rows[rows[-1]]
    return Rounds(tuple(dict.fromkeys(fabric.rows[index].piece for index in rows)), rows, around, out, [fabric.rows[index].stitches for index in rows],
                  _base(fabric, part, sizes), sum(bool(flag & FLAG_CORNER) for flag in last.flags) or _corners_before(fabric, rows),
                  sum(is_lace(fabric.rows[index]) for index in rows) >= _LACY * len(rows))


def _settle_between(around: list, lace: list) -> None:
    """Rounds of lace between plain ones lie no longer than these."""
    at = 0
    while at < len(around):
        end = at
        while end < len(around) and lace[end]:
            end += 1
        if 0 < at < end < len(around):
            most = max(around[at - 1], around[end])
            around[at:end] = [min(one, most) for one in around[at:end]]
        at = max(end, at + 1)


def _corners_before(fabric, rows) -> int:
    """Corners of the latest round that has any: a plain round as a border keeps them."""
    for index in rows[:-4:-1]:
        found = sum(bool(flag & FLAG_CORNER) for flag in fabric.rows[index].flags)
        if found:
            return found
    return 0


def _base(fabric, part, sizes) -> float | None:
    if any(foot == _RING for index in part[:2] for foot in fabric.rows[index].foot[:3]):
        return 0.0
    first = fabric.rows[part[0]]
    if first.has_height and first.row is not None and first.below < 0 or len(part) < 2:
        steps = first.row.steps if first.row is not None else ()
        chains = 0
    else:
        steps, chains = fabric.rows[part[1]].row.steps if fabric.rows[part[1]].row is not None else (), len(first.kind)
    if not names_place(steps, ("other side",)):
        return None
    feet = [foot for foot in fabric.rows[part[-1] if len(part) < 2 else part[1]].foot if foot >= 0]
    long = max(feet) - min(feet) + 1 if feet else chains
    return 2.0 * max(min(long, chains or long) - 1, 0) * sizes.width_mm
