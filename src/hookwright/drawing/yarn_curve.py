"""Smooth curves through the points of yarn: a Hermite spline whose tangents weigh the two neighbouring spans by their lengths."""

from dataclasses import dataclass

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


@dataclass(slots=True)
class Curve:
    """All spans of a curve with the samples of each, found again by their number, so that none need be kept.

    points (p, 3), way (p, 3) tangents; span (s,) first point of each span; firsts (s + 1,) number of its first sample; gone (s,) length of curve
    before it.
    """

    points: np.ndarray
    way: np.ndarray
    span: np.ndarray
    firsts: np.ndarray
    gone: np.ndarray

    @property
    def samples(self) -> int:
        return int(self.firsts[-1])

    def part(self, first: int, last: int):
        """(number of the first sample, places, unit tangents, point of each) of the samples of spans `first` up to `last`."""
        counts = np.diff(self.firsts[first : last + 1])
        place, tangent, of, _ = sampled(self.points, self.way, self.span[first:last], counts)
        return int(self.firsts[first]), place, _unit(tangent), self.span[first:last][of]

    def point_of(self, sample: np.ndarray) -> np.ndarray:
        """The point that the span of each sample begins with."""
        return self.span[np.searchsorted(self.firsts, sample, "right") - 1]

    def at(self, sample: np.ndarray):
        """(unit tangent, length of curve gone, point its span begins with) of samples by their numbers."""
        of = np.searchsorted(self.firsts, sample, "right") - 1
        span = self.span[of]
        t = ((sample - self.firsts[of]) / (self.firsts[of + 1] - self.firsts[of])).astype(np.float32)
        chord = self.points[span + 1] - self.points[span]
        length = np.sqrt((chord * chord).sum(axis=1))
        m0, m1 = self.way[span] * length[:, None], self.way[span + 1] * length[:, None]
        t1 = t[:, None]
        way = (3 * (m0 + m1 - 2 * chord) * t1 + 2 * (3 * chord - 2 * m0 - m1)) * t1 + m0
        return _unit(way), (self.gone[of] + t * length).astype(np.float32), span


def curve_of(points, starts, keep, counted) -> Curve:
    """The Curve of the spans that `keep` (p,) holds an end of. counted(length (s,), bend (s,)): how many samples each span is to have, bend in
    about radians."""
    points = points.astype(np.float32)
    way = tangents(points, starts).astype(np.float32)
    span = spans(starts, len(points))
    span = span[keep[span] | keep[span + 1]]
    chord = points[span + 1] - points[span]
    length = np.sqrt((chord * chord).sum(axis=1))
    chord /= np.maximum(length, 1e-6)[:, None]
    bend = np.linalg.norm(way[span + 1] - chord, axis=1) + np.linalg.norm(chord - way[span], axis=1)
    firsts = np.concatenate(([0], np.cumsum(counted(length, bend))))
    return Curve(points, way, span, firsts, np.cumsum(length, dtype=np.float64) - length)


def _unit(vectors: np.ndarray) -> np.ndarray:
    return vectors / np.maximum(np.sqrt((vectors * vectors).sum(axis=1)), 1e-9)[:, None].astype(vectors.dtype)
