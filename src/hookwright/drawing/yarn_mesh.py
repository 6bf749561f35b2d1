"""The yarn of a surface as a mesh for turning in a browser: a thin tube of few sides, as strips of triangles that wind along the yarn.

A tube of s sides is one strip whose vertices lie on a screw line: vertex k is at angle 2 pi k / s and k / s rings along, so that the strip
0, s, 1, s + 1, 2, ... is the whole tube, with two indices a vertex and nothing for its ends. The curve keeps only the rings its bends need.
"""

from dataclasses import dataclass

import numpy as np

from .yarn_camera import axis_of, camera_for
from .yarn_curve import sampled, spans, tangents
from .yarn_path import yarn_path

SIDES = 5
_FINE = 4  # samples of a span before those are left out that the shape does without
_PASSES = 8
MOST = 65_535  # vertices a part may have, so that indices take two bytes


@dataclass(slots=True)
class Part:
    """One strip. place (n, 3) float mm, normal (n, 3) unit, open (n,) 0 in hollows to 1, index (i,) uint16; colour: number of the yarn."""

    place: np.ndarray
    normal: np.ndarray
    open: np.ndarray
    index: np.ndarray
    colour: int


def yarn_mesh(surface, *, tolerance: float = 0.10, sides: int = SIDES, watch=None) -> list[Part]:
    """Parts of the mesh, right way up: x right, y up, z towards the viewer. tolerance: how far the tube may stray, in thicknesses."""
    path = yarn_path(surface)
    camera = camera_for(surface)
    turn = camera.turn if not camera.away else _upright(axis_of(surface), camera.turn[2])
    middle = (surface.at.min(axis=0) + surface.at.max(axis=0)) / 2
    points = (path.points - middle) @ turn.T
    way = tangents(points, path.starts)
    out = []
    for colour in np.unique(path.colour):
        strips = []
        for number in np.flatnonzero(path.colour[path.starts[:-1]] == colour):
            if watch is not None and number % 16 == 0:
                watch(number / max(1, len(path.starts) - 1))
            first, last = path.starts[number], path.starts[number + 1]
            if last - first < 2:
                continue
            strips += _tubes(points[first:last], way[first:last], path.depth[first:last], path.thick, tolerance, sides)
        out += [_part(group, sides, int(colour)) for group in _grouped(strips)]
    return out


def _tubes(points, way, depth, thick, tolerance, sides):
    """[(place, normal, open)] of one line of yarn, cut where it has more vertices than one part may hold."""
    span = spans(np.array([0, len(points)]), len(points))
    centre, _, of, share = sampled(points, way, span, np.full(len(span), _FINE, np.int64))
    centre = np.concatenate((centre, points[-1:]))
    deep = np.concatenate((depth[of] * (1 - share) + depth[of + 1] * share, depth[-1:]))
    keep = _needed(centre, tolerance * thick)
    centre, deep = centre[keep], deep[keep]
    side, other = _frames(centre)
    most = MOST // sides - 2
    for at in range(0, max(1, len(centre) - 1), most - 1):
        cut = slice(at, at + most)
        if len(centre[cut]) >= 2:
            yield _screw(centre[cut], side[cut], other[cut], deep[cut], thick, sides)


def _needed(centre: np.ndarray, stray: float) -> np.ndarray:
    """Numbers of the rings that are kept: every other one goes, time after time, where the chord of its neighbours passes it and all that went
    before it closely enough."""
    keep, off = np.arange(len(centre)), np.zeros(len(centre))
    for number in range(_PASSES):
        if len(keep) < 4:
            break
        at = np.arange(1 + number % 2, len(keep) - 1, 2)
        inner, before, after = keep[at], keep[at - 1], keep[at + 1]
        chord = centre[after] - centre[before]
        gone = np.clip(((centre[inner] - centre[before]) * chord).sum(1) / np.maximum((chord * chord).sum(1), 1e-12), 0, 1)
        far = np.linalg.norm(centre[before] + gone[:, None] * chord - centre[inner], axis=1)
        far += np.maximum(off[inner], np.maximum(off[before], off[after]) * 0)
        drop = far < stray
        left = np.maximum(off[before[drop]], far[drop])
        off[before[drop]] = left
        keep = np.delete(keep, at[drop])
    return keep


def _frames(centre: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Two unit vectors across the line at every ring that do not spin along it: any frame, turned back by the spin summed up."""
    step = np.diff(centre, axis=0)
    step = np.concatenate((step[:1], step[:-1] / _length(step[:-1]) + step[1:] / _length(step[1:]), step[-1:]))
    way = step / _length(step)
    least = np.abs(way).argmin(axis=1)
    side = np.eye(3)[least]
    side = side - way * (side * way).sum(1)[:, None]
    side /= _length(side)
    other = np.cross(way, side)
    # what side becomes when it is carried to the next ring by the smallest turn
    axis = np.cross(way[:-1], way[1:])
    dot = (way[:-1] * way[1:]).sum(1)[:, None]
    carried = side[:-1] + np.cross(axis, side[:-1]) + np.cross(axis, np.cross(axis, side[:-1])) / np.maximum(1 + dot, 1e-6)
    spin = np.arctan2((carried * other[1:]).sum(1), (carried * side[1:]).sum(1))
    turn = np.concatenate(([0.0], np.cumsum(spin)))[:, None]
    return side * np.cos(turn) + other * np.sin(turn), other * np.cos(turn) - side * np.sin(turn)


def _screw(centre, side, other, deep, thick, sides):
    """Vertices on the screw line round a part of the yarn."""
    count = len(centre)
    number = np.arange((count - 1) * sides + sides)
    ring, share = np.minimum(number // sides, count - 2), None
    share = np.clip(number / sides - ring, 0, 1)[:, None]
    angle = (2 * np.pi * (number % sides) / sides)[:, None]
    a = side[ring] * (1 - share) + side[ring + 1] * share
    b = other[ring] * (1 - share) + other[ring + 1] * share
    normal = a * np.cos(angle) + b * np.sin(angle)
    normal /= _length(normal)
    middle = centre[ring] * (1 - share) + centre[ring + 1] * share
    wide = np.full(len(number), thick / 2)
    wide[:sides] *= 0.25
    wide[-sides:] *= 0.25
    depth = np.abs(deep[ring] * (1 - share[:, 0]) + deep[ring + 1] * share[:, 0])
    return middle + normal * wide[:, None], normal, np.clip(0.42 + 0.62 * depth, 0.42, 1.0)


def _grouped(strips):
    """Strips gathered as long as they fit one part."""
    group, size = [], 0
    for strip in strips:
        if group and size + len(strip[0]) > MOST:
            yield group
            group, size = [], 0
        group.append(strip)
        size += len(strip[0])
    if group:
        yield group


def _part(group, sides: int, colour: int) -> Part:
    """Several strips as one, joined by triangles that have no area."""
    index, at = [], 0
    for place, _, _ in group:
        low = np.arange(len(place) - sides)
        strip = np.column_stack([low + sides, low]).ravel() + at
        if index:
            strip = np.concatenate(([index[-1][-1], strip[0]], strip))
        index.append(strip)
        at += len(place)
    place, normal, openness = (np.concatenate([strip[column] for strip in group]) for column in range(3))
    return Part(place, normal, openness, np.concatenate(index).astype(np.uint16), colour)


def _upright(up: np.ndarray, towards: np.ndarray) -> np.ndarray:
    level = towards - up * (towards @ up)
    level /= np.linalg.norm(level)
    return np.array((np.cross(up, level), up, level))


def _length(vectors) -> np.ndarray:
    return np.maximum(np.linalg.norm(vectors, axis=-1, keepdims=True), 1e-12)
