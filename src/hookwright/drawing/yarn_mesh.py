"""The yarn of a surface as a mesh for turning in a browser: a thin tube of few sides, as strips of triangles that wind along the yarn.

A tube of s sides is one strip whose vertices lie on a screw line: vertex k is at angle 2 pi k / s and k / s rings along, so that the strip
0, s, 1, s + 1, 2, ... is the whole tube, with two indices a vertex and nothing for its ends. Only the rings that the bends need are kept, and
where there are many stitches, only the yarn that can be seen from somewhere. All stretches of yarn are worked on at once, in columns.
"""

from dataclasses import dataclass

import numpy as np

from .yarn_camera import axis_of, camera_for
from .yarn_curve import sampled, tangents
from .yarn_hidden import seen_points
from .yarn_path import yarn_path

VERTEX_BYTES = 20  # with its two indices, as gltf.py writes them
MOST = 65_535  # vertices a part may have, so that indices take two bytes
_SAMPLES = 4  # of a span, before those are left out that the shape does without
_PASSES = 8
_LEVELS = ((6, 0.08), (6, 0.14), (5, 0.14), (5, 0.22), (4, 0.22), (4, 0.32), (3, 0.32), (3, 0.45), (3, 0.7))  # (sides, how far a ring may stray, thicknesses)
_WHOLE = 3  # levels that are tried with all of the yarn


@dataclass(slots=True)
class Part:
    """A strip of triangles (or a list of them, where strip is False). place (n, 3) float mm, normal (n, 3) unit, open (n,) 0 in hollows to 1, index (i,) uint16; colour: number of the yarn."""

    place: np.ndarray
    normal: np.ndarray
    open: np.ndarray
    index: np.ndarray
    colour: int
    strip: bool = True


@dataclass(slots=True)
class _Rings:
    """Rings along all stretches of yarn. centre (r, 3), depth (r,), first (r,) whether a stretch begins here, colour (r,)."""

    centre: np.ndarray
    depth: np.ndarray
    first: np.ndarray
    colour: np.ndarray

    def only(self, keep) -> "_Rings":
        return _Rings(self.centre[keep], self.depth[keep], self.first[keep], self.colour[keep])

    @property
    def last(self) -> np.ndarray:
        return np.append(self.first[1:], True)


def yarn_mesh(surface, *, most_bytes: float = float("inf"), watch=None) -> list[Part]:
    """Parts of the mesh, right way up: x right, y up, z towards the viewer.

    most_bytes: hidden yarn, sides and rings are left out until vertices and indices take no more, or the yarn could not be told with less.
    """
    path = yarn_path(surface)
    turn, flat = upright(surface)
    points = (path.points - (surface.at.min(axis=0) + surface.at.max(axis=0)) / 2) @ turn.T
    told = watch or (lambda share: None)
    rings, found = _rings_of(points, path, None), None
    for number, (sides, stray) in enumerate(_LEVELS):
        if number == _WHOLE:
            found = seen_points(points, path.starts, path.thick, flat=flat, watch=lambda share: told(0.8 * share))
            rings = _rings_of(points, path, found)
        kept = rings.only(_needed(rings, stray * path.thick))
        if len(kept.centre) * sides * VERTEX_BYTES <= most_bytes:
            break
    made = [part for colour in np.unique(kept.colour) for part in _parts(kept.only(kept.colour == colour), path.thick, sides)]
    told(1.0)
    return made


def _rings_of(points, path, found) -> _Rings:
    """Rings at _SAMPLES places of every span that is seen; all spans where `found` is None."""
    spans = np.ones(len(points), bool)
    spans[path.starts[1:] - 1] = False
    if found is not None:
        spans &= found
    span = np.flatnonzero(spans)
    centre, _, of, share = sampled(points, tangents(points, path.starts), span, np.full(len(span), _SAMPLES, np.int64))
    deep = path.depth[span[of]] * (1 - share) + path.depth[span[of] + 1] * share
    # a span whose next one is not there, or belongs to other yarn, ends a stretch: its last point closes it
    ends = np.append(span[1:] != span[:-1] + 1, True)
    where = (np.flatnonzero(ends) + 1) * _SAMPLES
    centre = np.insert(centre, where, points[span[ends] + 1], axis=0)
    deep = np.insert(deep, where, path.depth[span[ends] + 1])
    colour = np.insert(path.colour[span[of]], where, path.colour[span[ends]])
    first = np.zeros(len(centre), bool)
    first[0] = True
    first[(where + np.arange(len(where)) + 1)[:-1]] = True
    return _Rings(centre, deep, first, colour)


def _needed(rings: _Rings, stray: float) -> np.ndarray:
    """Numbers of the rings that are kept: every other one goes, time after time, where the chord of its neighbours passes it and all that went
    before it closely enough."""
    keep, off = np.arange(len(rings.centre)), np.zeros(len(rings.centre))
    fixed = rings.first | rings.last
    for number in range(_PASSES):
        at = np.arange(1 + number % 2, len(keep) - 1, 2)
        at = at[~fixed[keep[at]]]
        inner, before, after = keep[at], keep[at - 1], keep[at + 1]
        start = rings.centre[before]
        chord, gone = rings.centre[after] - start, rings.centre[inner] - start
        share = np.clip((gone * chord).sum(1) / np.maximum((chord * chord).sum(1), 1e-12), 0, 1)
        far = np.sqrt(((start + share[:, None] * chord - rings.centre[inner]) ** 2).sum(1)) + off[inner]
        drop = far < stray
        off[before[drop]] = np.maximum(off[before[drop]], far[drop])
        keep = np.delete(keep, at[drop])
    return keep


def _frames(rings: _Rings) -> tuple[np.ndarray, np.ndarray]:
    """Two unit vectors across the yarn at every ring that do not spin along it: any frame, turned back by the spin summed up."""
    step = np.diff(rings.centre, axis=0)
    step /= _length(step)
    ahead, behind = np.concatenate((step, step[-1:])), np.concatenate((step[:1], step))
    ahead[rings.last] = behind[rings.last]
    behind[rings.first] = ahead[rings.first]
    way = ahead + behind
    way /= _length(way)
    side = np.eye(3)[np.abs(way).argmin(axis=1)]
    side -= way * (side * way).sum(1)[:, None]
    side /= _length(side)
    other = np.cross(way, side)
    # what `side` becomes when it is carried to the next ring by the smallest turn
    axis = np.cross(way[:-1], way[1:])
    dot = (way[:-1] * way[1:]).sum(1)[:, None]
    across = np.cross(axis, side[:-1])
    carried = side[:-1] + across + np.cross(axis, across) / np.maximum(1 + dot, 1e-6)
    spin = np.arctan2((carried * other[1:]).sum(1), (carried * side[1:]).sum(1))
    turn = np.concatenate(([0.0], np.cumsum(spin)))[:, None]
    return side * np.cos(turn) + other * np.sin(turn), other * np.cos(turn) - side * np.sin(turn)


def _parts(rings: _Rings, thick: float, sides: int):
    """The Parts of one colour: its stretches, none longer than a part may be, gathered as long as they fit."""
    side, other = _frames(rings)
    most = MOST // sides - 1
    begin = np.flatnonzero(rings.first)
    end = np.append(begin[1:], len(rings.first))
    pieces = [(at, min(at + most, last)) for first, last in zip(begin.tolist(), end.tolist(), strict=True)
              for at in range(first, max(last - 1, first + 1), most - 1) if min(at + most, last) - at > 1]
    group, size = [], 0
    for piece in [*pieces, None]:
        count = (piece[1] - piece[0]) * sides if piece else 0
        if group and (piece is None or size + count > MOST):
            yield _strip(rings, side, other, np.array(group), thick, sides)
            group, size = [], 0
        if piece:
            group.append(piece)
            size += count


def _strip(rings, side, other, pieces, thick, sides) -> Part:
    """Vertices on the screw line round each stretch, and one strip of them all, joined by triangles that have no area."""
    lengths = (pieces[:, 1] - pieces[:, 0]) * sides
    starts = np.cumsum(lengths) - lengths
    of = np.repeat(np.arange(len(pieces)), lengths)
    number = np.arange(lengths.sum()) - starts[of]
    ring = np.minimum(number // sides, lengths[of] // sides - 2)
    share = np.clip(number / sides - ring, 0, 1)[:, None]
    at = pieces[of, 0] + ring
    angle = (2 * np.pi * (number % sides) / sides)[:, None]
    a, b = (frame[at] * (1 - share) + frame[at + 1] * share for frame in (side, other))
    normal = a * np.cos(angle) + b * np.sin(angle)
    normal /= _length(normal)
    middle = rings.centre[at] * (1 - share) + rings.centre[at + 1] * share
    narrow = (number < sides) | (number >= lengths[of] - sides)
    wide = np.where(narrow, 0.25, 1.0) * thick / 2
    depth = np.abs(rings.depth[at] * (1 - share[:, 0]) + rings.depth[at + 1] * share[:, 0])
    low = np.flatnonzero(number < lengths[of] - sides)
    pairs = np.column_stack([low + sides, low]).ravel()
    firsts = np.searchsorted(low, starts[1:]) * 2
    joins = np.column_stack([pairs[firsts - 1], pairs[firsts]]).ravel() if len(firsts) else pairs[:0]
    index = np.insert(pairs, np.repeat(firsts, 2), joins)
    return Part(middle + normal * wide[:, None], normal, np.clip(0.42 + 0.62 * depth, 0.42, 1.0), index.astype(np.uint16), int(rings.colour[0]))


def upright(surface) -> tuple[np.ndarray, bool]:
    """(turn, flat): rows right, up and towards the viewer, the piece standing upright or, where it lies flat, seen from its front."""
    camera = camera_for(surface)
    if not camera.away:
        return camera.turn, True
    up, towards = axis_of(surface), camera.turn[2]
    level = towards - up * (towards @ up)
    level /= np.linalg.norm(level)
    return np.array((np.cross(up, level), up, level)), False


def _length(vectors) -> np.ndarray:
    return np.maximum(np.sqrt((vectors * vectors).sum(axis=-1, keepdims=True)), 1e-12)
