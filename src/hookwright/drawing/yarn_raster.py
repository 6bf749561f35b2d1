"""Which point of which yarn is seen in every pixel: rings round the yarn as points, the nearest kept, in plain NumPy.

Round every sample of the curve lie points on the half ring that faces the viewer. Each is one 64-bit number, depth above and the point's own
number below, and `np.maximum.at` keeps the nearest of every pixel; its number then gives back the place, the normal and the stitch.
"""

from dataclasses import dataclass

import numpy as np

from .yarn_curve import sampled, spans, tangents

_BLOCK = 3_000_000  # points at a time: bounds the memory
_STEP, _ACROSS = 0.85, 1.15  # pixels between samples; points across a pixel
NOTHING, LINING = -1, -2
LINING_PIXELS = 3  # the layer behind is drawn in larger pixels


@dataclass(slots=True)
class Seen:
    """Per pixel, (h, w): sample int64, NOTHING where there is none and LINING behind gaps; depth float32, pixels towards the viewer.

    Of the samples, (m, ...): way (unit tangent), span, along (pixels gone along the yarn). shift: (h, w) float32, -1 to 1 across the yarn.
    """

    sample: np.ndarray
    depth: np.ndarray
    shift: np.ndarray
    way: np.ndarray
    point: np.ndarray
    along: np.ndarray
    radius: float


def seen(points, starts, point_keep, radius: float, width: int, height: int, lining=None, watch=None) -> Seen:
    """points (p, 3): x right, y down, z towards the viewer, all in pixels. point_keep (p,): whether it can be seen at all.

    lining: (q, 3) points of a dark layer behind, or None. watch(share) is called now and then; what it raises stops the work.
    """
    points = points.astype(np.float32)
    way = tangents(points, starts).astype(np.float32)
    span = spans(starts, len(points))
    span = span[point_keep[span] | point_keep[span + 1]]
    length = np.linalg.norm(points[span + 1] - points[span], axis=1)
    chord = (points[span + 1] - points[span]) / np.maximum(length, 1e-6)[:, None]
    bend = np.linalg.norm(way[span + 1] - chord, axis=1) + np.linalg.norm(chord - way[span], axis=1)  # the outside of a bend is longer than its middle
    counts = np.clip(np.ceil((length + 1.1 * bend * radius) / _STEP), 1, 4096).astype(np.int64)
    across = max(2, int(np.ceil(2 * radius * _ACROSS)))
    keys = np.full(width * height, -1, np.int64)
    if lining is not None:
        small = np.full((height // LINING_PIXELS + 1) * (width // LINING_PIXELS + 1), -1, np.int64)
        place = lining / np.float32(LINING_PIXELS)
        _splat(small, place[:, 0], place[:, 1], lining[:, 2], np.int64((1 << 32) - 1), width // LINING_PIXELS + 1, height // LINING_PIXELS + 1)
        large = small.reshape(height // LINING_PIXELS + 1, -1).repeat(LINING_PIXELS, axis=0).repeat(LINING_PIXELS, axis=1)
        keys[:] = large[:height, :width].ravel()
    place, tangent, of, _ = sampled(points, way, span, counts)
    tangent /= np.maximum(np.linalg.norm(tangent, axis=1, keepdims=True), 1e-9)
    side, out = rings(tangent)
    _knuckles(keys, place, tangent, side, span[of], starts, radius, across, width, height)
    shift = ((np.arange(across) + 0.5) / across * 2 - 1).astype(np.float32)
    rise = np.sqrt(1 - shift * shift)
    block = max(1, _BLOCK // across)
    for at in range(0, len(place), block):
        cut = slice(at, at + block)
        x = place[cut, 0, None] + radius * (side[cut, 0, None] * shift + out[cut, 0, None] * rise)
        y = place[cut, 1, None] + radius * (side[cut, 1, None] * shift + out[cut, 1, None] * rise)
        z = place[cut, 2, None] + radius * (out[cut, 2, None] * rise)
        number = (np.arange(at, at + len(x), dtype=np.int64) * across)[:, None] + np.arange(across)
        _splat(keys, x.ravel(), y.ravel(), z.ravel(), number.ravel(), width, height)
        if watch is not None:
            watch(min(1.0, (at + block) / len(place)))
    keys = _closed(keys.reshape(height, width), radius).ravel()
    number = keys & 0xFFFFFFFF
    empty, behind = keys < 0, (keys >= 0) & (number == (1 << 32) - 1)
    sample = number // across
    sample[empty], sample[behind] = NOTHING, LINING
    depth = ((keys >> 32).astype(np.float32) - _MIDDLE) / _FINE
    depth[empty] = np.nan
    of_point = span[of]
    gone = np.cumsum(np.concatenate(([0.0], np.linalg.norm(np.diff(place, axis=0), axis=1))))
    return Seen(sample.reshape(height, width), depth.reshape(height, width), shift[number % across].reshape(height, width),
                tangent, of_point, gone.astype(np.float32), radius)


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


def _knuckles(keys, place, tangent, side, point, starts, radius, across, width, height) -> None:
    """Half balls where a yarn begins or ends, and where it turns so sharply that rings alone would leave it open."""
    sharp = np.zeros(len(place), bool)
    sharp[1:] = (tangent[1:] * tangent[:-1]).sum(axis=1) < 0.75
    sharp[1:] |= np.diff(point) > 1
    apart = max(2, int(1.2 * radius / _STEP))  # samples along a little more than a radius
    if len(place) > apart:
        sharp[apart // 2 : apart // 2 - apart] |= (tangent[apart:] * tangent[:-apart]).sum(axis=1) < -0.1
    sharp[:-1] |= sharp[1:]
    sharp[[0, -1]] = True
    sharp[np.searchsorted(point, starts[1:-1])] = True
    sharp[np.searchsorted(point, starts[1:-1]) - 1] = True
    fine = max(3, int(np.ceil(2 * radius * _ACROSS)))
    grid = ((np.arange(fine) + 0.5) / fine * 2 - 1).astype(np.float32)
    x, y = (field.ravel() for field in np.meshgrid(grid, grid))
    x, y = x[x * x + y * y < 1], y[x * x + y * y < 1]
    z = np.sqrt(1 - x * x - y * y)
    which = np.flatnonzero(sharp)
    for at in range(0, len(which), max(1, _BLOCK // len(x))):
        some = which[at : at + max(1, _BLOCK // len(x))]
        shift = side[some, 0, None] * x + side[some, 1, None] * y
        number = some[:, None] * across + np.clip((shift + 1) / 2 * across, 0, across - 1).astype(np.int64)
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
