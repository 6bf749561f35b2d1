"""Which point of which yarn is seen in every pixel: rings round the yarn as points, the nearest kept, in plain NumPy.

Round every sample of the curve lie points on the half ring that faces the viewer. Each is one 64-bit number, depth above and the point's own
number below, and `np.maximum.at` keeps the nearest of every pixel; its number then gives back the place, the normal and the stitch.
"""

from dataclasses import dataclass

import numpy as np

from .yarn_curve import Curve, curve_of

_BLOCK = 3_000_000  # points at a time: bounds the memory
_STEP, _ACROSS = 0.85, 1.15  # pixels between samples; points across a pixel
NOTHING, LINING = -1, -2
LINING_PIXELS = 3  # the layer behind is drawn in larger pixels


@dataclass(slots=True)
class Seen:
    """Per pixel, (h, w): sample int64 (a number for `curve`), NOTHING where there is none and LINING behind gaps; depth float32, pixels towards the
    viewer; shift float32, -1 to 1 across the yarn. radius: of the yarn, pixels."""

    sample: np.ndarray
    depth: np.ndarray
    shift: np.ndarray
    curve: Curve
    radius: float


def seen(points, starts, point_keep, radius: float, width: int, height: int, lining=None, watch=None) -> Seen:
    """points (p, 3): x right, y down, z towards the viewer, all in pixels. point_keep (p,): whether it can be seen at all.

    lining: (q, 3) points of a dark layer behind, or None. watch(share) is called now and then; what it raises stops the work. Samples are made and
    laid block by block, so that memory is bounded by the pixels and the points.
    """

    def counted(length, bend):  # the outside of a bend is longer than its middle
        return np.clip(np.ceil((length + 1.1 * bend * radius) / _STEP), 1, 4096).astype(np.int64)

    curve = curve_of(points, starts, point_keep, counted)
    across = max(2, int(np.ceil(2 * radius * _ACROSS)))
    keys = np.full(width * height, -1, np.int64)
    if lining is not None:
        _line(keys, lining, width, height)
    ends = np.zeros(len(points), bool)
    ends[starts[:-1]] = ends[starts[1:] - 2] = True
    shift = ((np.arange(across) + 0.5) / across * 2 - 1).astype(np.float32)
    rise = np.sqrt(1 - shift * shift)
    first = 0
    while first < len(curve.span):
        last = max(first + 1, int(np.searchsorted(curve.firsts, curve.firsts[first] + _BLOCK // across, "right")) - 1)
        at, place, tangent, point = curve.part(first, last)
        side, out = rings(tangent)
        x = place[:, 0, None] + radius * (side[:, 0, None] * shift + out[:, 0, None] * rise)
        y = place[:, 1, None] + radius * (side[:, 1, None] * shift + out[:, 1, None] * rise)
        z = place[:, 2, None] + radius * (out[:, 2, None] * rise)
        number = (np.arange(at, at + len(x), dtype=np.int64) * across)[:, None] + np.arange(across)
        _splat(keys, x.ravel(), y.ravel(), z.ravel(), number.ravel(), width, height)
        _knuckles(keys, at, place, tangent, side, point, ends, radius, across, width, height)
        first = last
        if watch is not None:
            watch(min(1.0, curve.firsts[first] / curve.samples))
    keys = _closed(keys.reshape(height, width), radius).ravel()
    number = keys & 0xFFFFFFFF
    empty, behind = keys < 0, (keys >= 0) & (number == (1 << 32) - 1)
    sample = number // across
    sample[empty], sample[behind] = NOTHING, LINING
    depth = ((keys >> 32).astype(np.float32) - _MIDDLE) / _FINE
    depth[empty] = np.nan
    return Seen(sample.reshape(height, width), depth.reshape(height, width), shift[number % across].reshape(height, width), curve, radius)


def _line(keys, lining, width: int, height: int) -> None:
    """The dark layer behind, in pixels LINING_PIXELS times as large."""
    wide, high = width // LINING_PIXELS + 1, height // LINING_PIXELS + 1
    small = np.full(high * wide, -1, np.int64)
    place = lining / np.float32(LINING_PIXELS)
    _splat(small, place[:, 0], place[:, 1], lining[:, 2], np.int64((1 << 32) - 1), wide, high)
    keys[:] = small.reshape(high, wide).repeat(LINING_PIXELS, axis=0).repeat(LINING_PIXELS, axis=1)[:height, :width].ravel()


_FINE, _MIDDLE = 256.0, float(1 << 22)


def _splat(keys, x, y, z, number, width: int, height: int) -> None:
    column, row = x.astype(np.int32), y.astype(np.int32)
    if column.min() < 0 or row.min() < 0 or column.max() >= width or row.max() >= height:
        inside = (column >= 0) & (column < width) & (row >= 0) & (row < height)
        column, row, z = column[inside], row[inside], z[inside]
        number = number[inside] if np.ndim(number) else number
    deep = (z * np.float32(_FINE) + np.float32(_MIDDLE)).astype(np.int64)
    deep <<= 32
    deep |= number
    row *= width
    row += column
    np.maximum.at(keys, row, deep)


def _knuckles(keys, at, place, tangent, side, point, ends, radius, across, width, height) -> None:
    """Half balls where a yarn begins or ends, and where it turns so sharply that rings alone would leave it open. at: number of the first sample."""
    sharp = np.zeros(len(place), bool)
    sharp[1:] = (tangent[1:] * tangent[:-1]).sum(axis=1) < 0.75
    sharp[1:] |= np.diff(point) > 1
    apart = max(2, int(1.2 * radius / _STEP))  # samples along a little more than a radius
    if len(place) > apart:
        sharp[apart // 2 : apart // 2 - apart] |= (tangent[apart:] * tangent[:-apart]).sum(axis=1) < -0.1
    new = np.concatenate(([True], point[1:] != point[:-1], [True]))
    sharp |= new[:-1] & ends[point] | new[1:] & ends[point]
    sharp[:-1] |= sharp[1:]
    fine = max(3, int(np.ceil(2 * radius * _ACROSS)))
    grid = ((np.arange(fine) + 0.5) / fine * 2 - 1).astype(np.float32)
    x, y = (field.ravel() for field in np.meshgrid(grid, grid))
    x, y = x[x * x + y * y < 1], y[x * x + y * y < 1]
    z = np.sqrt(1 - x * x - y * y)
    which = np.flatnonzero(sharp)
    block = max(1, _BLOCK // len(x))
    for begin in range(0, len(which), block):
        some = which[begin : begin + block]
        shift = side[some, 0, None] * x + side[some, 1, None] * y
        number = (at + some[:, None]) * across + np.clip((shift + 1) / 2 * across, 0, across - 1).astype(np.int64)
        _splat(keys, (place[some, 0, None] + radius * x).ravel(), (place[some, 1, None] + radius * y).ravel(),
               (place[some, 2, None] + radius * z * np.float32(0.98)).ravel(), number.ravel(), width, height)


def _closed(keys: np.ndarray, radius: float) -> np.ndarray:
    """Single pixels that no point fell on, between two that lie on the same strand, are taken from one of these."""
    step = np.int64(0.6 * radius * _FINE) << 32
    for before, here, after in ((keys[:, :-2], keys[:, 1:-1], keys[:, 2:]), (keys[:-2], keys[1:-1], keys[2:])):
        low, high = np.minimum(before, after), np.maximum(before, after)
        np.copyto(here, low, where=(low - here > step) & (high - low < 2 * step) & (low >= 0))
    return keys


def rings(tangent: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """(side, out) unit vectors across the yarn: side lies in the picture, out is turned towards the viewer."""
    x, y, z = tangent.T
    level = np.sqrt(x * x + y * y)
    some = level > 1e-4
    safe = np.where(some, level, 1)
    side = np.zeros_like(tangent)
    side[:, 0], side[:, 1] = np.where(some, -y / safe, 1), np.where(some, x / safe, 0)
    a, b = side[:, 0], side[:, 1]
    out = np.empty_like(tangent)
    out[:, 0], out[:, 1], out[:, 2] = b * z, -a * z, a * y - b * x
    out[out[:, 2] < 0] *= -1
    return side, out
