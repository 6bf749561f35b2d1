"""Shapes from gauge: shawls that lie flat, borders round a piece, raglan yokes. Lengths in mm; the geometry is plain, no source."""

from dataclasses import dataclass
from math import pi, sqrt

from .tables_read import table


def triangle_increases(stitch_mm: float, row_mm: float) -> float:
    """Stitches a row of a top-down triangle with a spine must gain to lie flat.

    Each half grows at both its ends. After n rows it is a triangle of height n * row_mm over a base of n * gain / 2 * stitch_mm; the top
    edge is straight where the angle at its tip is a right one, base = 2 * height, so gain = 4 * row_mm / stitch_mm.

    >>> triangle_increases(6.0, 6.0), round(triangle_increases(6.0, 10.2), 1)
    (4.0, 6.8)
    """
    return 4 * row_mm / stitch_mm


@dataclass(frozen=True, slots=True)
class Triangle:
    """A top-down triangle: rows worked, stitches of the last row, gain a row, depth along the spine and span of the top edge in mm."""

    rows: int
    stitches: int
    gain: int
    depth_mm: float
    span_mm: float


def triangle(depth_mm: float, stitch_mm: float, row_mm: float, *, start: int = 3, gain: int | None = None) -> Triangle:
    """A triangle of about this depth. gain: stitches more a row, an even number; else the even one nearest to flat.

    >>> made = triangle(600, 6.0, 6.0)
    >>> made.rows, made.stitches, round(made.span_mm)
    (71, 287, 1205)
    """
    gain = gain or max(2, 2 * round(triangle_increases(stitch_mm, row_mm) / 2))
    rows = max(1, round(depth_mm / (sqrt(2) * row_mm)))
    height, half = rows * row_mm, rows * gain / 4 * stitch_mm
    edge = sqrt(height**2 + half**2)
    return Triangle(rows, start + gain * rows, gain, edge, 2 * edge)


def crescent_increases(stitch_mm: float, row_mm: float) -> float:
    """Stitches a row of a crescent or half circle must gain to lie flat: half of a disc's, pi * row_mm / stitch_mm.

    >>> round(crescent_increases(100 / 13, 100 / 14), 1)
    2.9
    """
    return pi * row_mm / stitch_mm


def corner_gain(kind: str) -> int:
    """Stitches more that each corner of a border in this stitch takes in every round: a side grows by a row height at either end, so that is
    2 * row height / stitch width, by the published proportions (tables/proportions.toml). The corner of the first round has one more.

    >>> corner_gain("sc"), corner_gain("hdc"), corner_gain("dc")
    (2, 3, 3)
    """
    over = table("proportions")["row_height"]["over_stitch_width"]
    return max(1, round(2 * over.get(kind, over["sc"])))


def border_stitches(width_stitches: int, rows: int, stitch_mm: float, row_mm: float, *, corner: int | None = None) -> tuple[int, int, int]:
    """(stitches along one row-end edge, in each corner, in the whole first round) of a border round a flat piece.

    Along row ends stand rows * row height / stitch width; the corners take what turns them (tables/proportions.toml).

    >>> border_stitches(60, 80, 6.25, 5.5)
    (70, 3, 272)
    """
    corner = corner or table("proportions")["pick_up"]["outer_corner"]
    side = round(rows * row_mm / stitch_mm)
    return side, corner, 2 * width_stitches + 2 * side + 4 * corner


@dataclass(frozen=True, slots=True)
class Raglan:
    """Counts of a raglan yoke from the neck down: stitches at the neck and at the underarm of back, front and one sleeve, increase rounds,
    and every how manieth round is one (the wider stretch first)."""

    neck: tuple[int, int, int]
    underarm: tuple[int, int, int]
    increases: int
    rounds: int

    @property
    def neck_stitches(self) -> int:
        back, front, sleeve = self.neck
        return back + front + 2 * sleeve

    @property
    def yoke_stitches(self) -> int:
        back, front, sleeve = self.underarm
        return back + front + 2 * sleeve


def raglan(chest: int, sleeve: int, rounds: int, *, underarm: int = 4, neck: int | None = None) -> Raglan:
    """A yoke for `chest` stitches of body and `sleeve` of one sleeve, `underarm` of each chained at the arm, over `rounds` rounds.

    Every increase round gains 8, two at each of four lines. Back and front gain 2 each a round from the neck on:
    increases = (chest / 2 - underarm - neck of the back) / 2, and never more than there are rounds. neck: stitches of the back neck,
    else as many as are left when every other round is an increase round. Raises ValueError where the sleeve or neck comes out too small.

    >>> made = raglan(160, 56, 30, underarm=6, neck=30)
    >>> made.increases, made.neck, made.underarm, made.yoke_stitches
    (22, (30, 30, 6), (74, 74, 50), 248)
    """
    half = chest // 2 - underarm
    increases = (half - neck) // 2 if neck is not None else min(rounds, max(1, rounds // 2))
    top = half - 2 * increases
    arm = sleeve - underarm
    shoulder = arm - 2 * increases
    if increases > rounds:
        raise ValueError(f"{increases} increase rounds don't fit into {rounds} rounds of yoke: take a wider neck or a deeper yoke")
    if shoulder < 1 or top < 1:
        raise ValueError(f"a sleeve of {sleeve} sts less {underarm} under the arm and {2 * increases} of increases leaves {shoulder} sts at the neck: take fewer increases or a wider sleeve")
    return Raglan((top, top, shoulder), (half, half, arm), increases, rounds)
