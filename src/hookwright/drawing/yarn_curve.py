"""Smooth curves through the points of yarn: a Hermite spline whose tangents weigh the two neighbouring spans by their lengths."""

import numpy as np


def spans(starts: np.ndarray, count: int) -> np.ndarray:
    """(s,) numbers of the first points of all spans: every point but the last of each line.

    >>> spans(np.array([0, 3, 5]), 5).tolist()
    [0, 1, 3]
    """
    keep = np.ones(count, bool)
    keep[starts[1:] - 1] = False
    return np.flatnonzero(keep)


def tangents(points: np.ndarray, starts: np.ndarray) -> np.ndarray:
    """(p, 3) tangents of about unit length; at the ends of a line along its first and last span."""
    step = np.diff(points, axis=0)
    length = np.maximum(np.linalg.norm(step, axis=1), 1e-6)
    way = step / length[:, None]
    made = np.empty_like(points)
    weight = (length[1:] / (length[1:] + length[:-1]))[:, None]
    made[1:-1] = weight * way[:-1] + (1 - weight) * way[1:]
    first, last = starts[:-1], starts[1:] - 1
    several = last > first
    made[first[several]] = way[first[several]]
    made[last[several]] = way[last[several] - 1]
    made[first[~several]] = (1.0, 0.0, 0.0)
    return made


def sampled(points: np.ndarray, tangent: np.ndarray, span: np.ndarray, counts: np.ndarray):
    """Places (m, 3), tangents (m, 3, not unit), span of each (m,) and share of the span gone (m,); counts (s,) samples of each span."""
    total = int(counts.sum())
    of = np.repeat(np.arange(len(span)), counts)
    firsts = np.cumsum(counts) - counts
    t = ((np.arange(total) - firsts[of]) / counts[of]).astype(points.dtype)
    length = np.linalg.norm(points[span + 1] - points[span], axis=1)[:, None].astype(points.dtype)
    p0, p1 = points[span], points[span + 1]
    m0, m1 = tangent[span] * length, tangent[span + 1] * length
    b, c = 3 * (p1 - p0) - 2 * m0 - m1, 2 * (p0 - p1) + m0 + m1
    t1 = t[:, None]
    b, c, m0 = b[of], c[of], m0[of]
    place = ((c * t1 + b) * t1 + m0) * t1 + p0[of]
    way = (3 * c * t1 + 2 * b) * t1 + m0
    return place, way, of, t
