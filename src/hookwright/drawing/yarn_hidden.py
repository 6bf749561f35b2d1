"""Which yarn of a piece can be seen from anywhere round it: what lies hidden inside the fabric need not be in a mesh."""

import numpy as np

from .yarn_raster import seen

PIXELS = 400  # of each look
_FLAT = tuple((tilt, about) for tilt in (0, 50) for about in (45, 135, 225, 315) if tilt or about == 45)
_ROUND = (*((-35, about) for about in range(0, 360, 72)), *((20, about) for about in range(30, 390, 60)), *((65, about) for about in range(0, 360, 120)), (-90, 0))


def seen_points(points: np.ndarray, starts: np.ndarray, thick: float, *, flat: bool, watch=None) -> np.ndarray:
    """(p,) whether the yarn near each point is seen in one of several looks. flat: the piece lies across z, and is looked at from both sides."""
    found = np.zeros(len(points), bool)
    keep = np.ones(len(points), bool)
    looks = [_turned_flat(tilt, about, side) for side in (1, -1) for tilt, about in _FLAT] if flat else [_turned(tilt, about) for tilt, about in _ROUND]
    for number, look in enumerate(looks):
        place = points @ look.T
        low, high = place[:, :2].min(axis=0) - thick, place[:, :2].max(axis=0) + thick
        scale = PIXELS / max(high - low)
        place = (place - [*low, 0.0]) * scale
        width, height = (int(side) + 1 for side in (high - low) * scale)
        made = seen(place, starts, keep, float(max(thick / 2 * scale, 0.8)), width, height)
        found[np.unique(made.curve.point_of(np.unique(made.sample[made.sample >= 0])))] = True
        if watch is not None:
            watch((number + 1) / len(looks))
    near = found.copy()
    near[1:] |= found[:-1]
    near[:-1] |= found[1:]
    return near


def _turned(tilt: float, about: float) -> np.ndarray:
    """Looking at what stands upright (y) from `about` round it and `tilt` above it, in degrees; the picture's y goes down."""
    up, round_ = np.radians(tilt), np.radians(about)
    towards = np.array((np.sin(round_) * np.cos(up), np.sin(up), np.cos(round_) * np.cos(up)))
    right = np.array((np.cos(round_), 0.0, -np.sin(round_)))
    return np.array((right, -np.cross(towards, right), towards))


def _turned_flat(tilt: float, about: float, side: int) -> np.ndarray:
    """Looking at what lies across z from a side of it, `tilt` off the straight look towards `about`."""
    off, round_ = np.radians(tilt), np.radians(about)
    towards = np.array((np.sin(off) * np.cos(round_), np.sin(off) * np.sin(round_), side * np.cos(off)))
    right = np.cross((0.0, 1.0, 0.0), towards)
    right /= np.linalg.norm(right)
    return np.array((right, -np.cross(towards, right), towards))
