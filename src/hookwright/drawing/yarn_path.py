"""The yarn of a surface as lines in space: the points of every stitch in working order, one line for each length of yarn."""

from dataclasses import dataclass

import numpy as np

from hookwright.fabric import FLAG_TURNING

from .yarn_frames import Frames, frames_of
from .yarn_stitch import ACROSS, ALONG, LEG, OUT, TALL, UP, parts, points_of

_LOOPS = {"back": 1, "front": 2, "third": 3}
_CODES = 4
_SEAM_BREAKS = 3.0  # stitches between two stitches of a seam: it ends, and another begins


@dataclass(slots=True)
class YarnPath:
    """Lines of yarn. points (p, 3) mm; node (p,) the node of the surface each belongs to; out (p, 3) unit, away from the middle of the fabric,
    and depth (p,) how far out of it, in thicknesses; starts (k + 1,) where each line begins; thick: mm; colour (p,) index or -1."""

    points: np.ndarray
    node: np.ndarray
    depth: np.ndarray
    starts: np.ndarray
    colour: np.ndarray
    thick: float


def yarn_path(surface) -> YarnPath:
    """The lines of yarn of a Surface. Vectorised: stitches of the same kind are laid at once."""
    names, keys, post, loops = _read(surface)
    frames = frames_of(surface, loops, post)
    _rings(surface, frames)
    groups = _groups(surface, names, keys, frames)
    counts = np.zeros(len(surface.at), np.int64)
    for made, nodes in groups:
        counts[nodes] = len(made)
    offsets = np.concatenate(([0], np.cumsum(counts)))
    total = int(offsets[-1])
    points, depth = np.empty((total, 3)), np.empty(total)
    for made, nodes in groups:
        where = offsets[nodes][:, None] + np.arange(len(made))
        points[where] = _laid(surface, frames, made, nodes)
        depth[where] = made[:, OUT]
    node = np.repeat(np.arange(len(counts)), counts)
    path = YarnPath(points, node, depth, _starts(surface, frames, offsets), np.asarray(surface.colour)[node], frames.thick)
    return _with(path, [*_ring_lines(surface, frames), *_seam_lines(surface, frames)])


def _read(surface):
    """Of each node: names of kinds, a number that tells its template, whether it goes round a stem, and the loop it is worked in."""
    count = len(surface.at)
    loops, turning, posts = np.zeros(count, np.int8), np.zeros(count, np.int64), np.zeros(count, bool)
    first = np.concatenate(([0], np.cumsum(np.bincount(surface.row, minlength=len(surface.rows)))))
    nodes_of = {}
    for number, row in enumerate(surface.rows):
        here = np.arange(first[number], first[number + 1])
        place = surface.place[here]
        for at, loop in row.loops.items():
            mine = here[place == at]
            loops[mine] = _LOOPS.get(loop, 0)
        if any(flag & FLAG_TURNING and chains for flag, chains in zip(row.flags, row.chains, strict=True)):
            nodes_of = np.bincount(place, minlength=len(row.kind))
            for at in range(len(row.kind)):
                if row.flags[at] & FLAG_TURNING and row.chains[at] and nodes_of[at] == 1 and surface.kinds[row.kind[at]] not in ("ch", "foundation ch"):
                    turning[here[place == at]] = row.chains[at]
    names = list(surface.kinds)
    post_kind = np.array([name.startswith(("fp", "bp")) for name in names] or [False])
    posts |= post_kind[surface.kind]
    feet = np.minimum(np.diff(surface.foot_start), 12)
    keys = np.stack([surface.kind.astype(np.int64), feet, turning], axis=1)
    return names, keys, posts, loops


def _groups(surface, names, keys, frames):
    """[(template, nodes)]: nodes that are laid by the same template."""
    right = (np.asarray(surface.towards) > 0).astype(np.int64)
    full = np.column_stack([keys, right, frames.ends.astype(np.int64), (frames.begins & frames.follows).astype(np.int64)])
    unique, inverse = np.unique(full, axis=0, return_inverse=True)
    order = np.argsort(inverse.ravel(), kind="stable")
    cuts = np.searchsorted(inverse.ravel()[order], np.arange(len(unique) + 1))
    out = []
    for number, (kind, feet, turning, side, last, first) in enumerate(unique.tolist()):
        name = "ch" if kind == 0 else names[kind]
        made = points_of(name, max(1, feet), bool(side), bool(last), bool(first), turning)
        out.append((made, order[cuts[number] : cuts[number + 1]]))
    return out


def _laid(surface, frames: Frames, made: np.ndarray, nodes: np.ndarray) -> np.ndarray:
    """(g, m, 3) places of a template's points for its g nodes."""
    top, along, up, out = frames.top[nodes], frames.along[nodes], frames.up[nodes], frames.out[nodes]
    thick = frames.thick
    legs = made[:, LEG].astype(int)
    foot = frames.foot[nodes][:, None, :].repeat(len(made), axis=1)
    if legs.any():
        starts, have = surface.foot_start[nodes], np.diff(surface.foot_start)[nodes]
        several = have > 1
        for leg in range(legs.max() + 1):
            mine = legs == leg
            which = surface.foot_of[starts[several] + np.minimum(leg, have[several] - 1)]
            place = frames.top[which]
            foot[np.ix_(np.flatnonzero(several), np.flatnonzero(mine))] = place[:, None, :]
    tall = made[:, TALL][None, :, None]
    side = made[:, ALONG][None, :] * frames.wide[nodes][:, None] + made[:, ACROSS][None, :] * thick
    pushed = made[:, OUT][None, :] + frames.tip[nodes][:, None] * np.clip(made[:, TALL] * 3 - 2, 0, 1)[None, :]
    return (foot + tall * (top[:, None, :] - foot)
            + side[..., None] * along[:, None, :]
            + (made[:, UP] * thick)[None, :, None] * up[:, None, :]
            + (pushed * thick)[..., None] * out[:, None, :])


def _starts(surface, frames, offsets) -> np.ndarray:
    """Where lines of yarn begin: where the yarn was joined, was broken, or changes its colour."""
    new = ~frames.follows
    new[1:] |= surface.colour[1:] != surface.colour[:-1]
    new[:1] = True
    return np.unique(np.concatenate((offsets[:-1][new], offsets[-1:])))


def _rings(surface, frames) -> None:
    """Feet that stand in a ring go round its yarn: they are moved from its middle to its edge."""
    for nodes, middle in _in_ring(surface):
        radius = _ring_radius(len(nodes)) * frames.thick
        spoke = surface.at[nodes] - middle
        frames.foot[nodes] = middle + radius * spoke / np.maximum(np.linalg.norm(spoke, axis=1, keepdims=True), 1e-9)


def _in_ring(surface):
    """[(nodes, middle)] of the stitches worked in a ring that is drawn closed, and its middle."""
    out = []
    for number, row in enumerate(surface.rows):
        if not len(row.foot) or -2 not in row.foot:
            continue
        places = np.flatnonzero(np.frombuffer(row.foot, np.int32) == -2)
        nodes = np.flatnonzero((surface.row == number) & np.isin(surface.place, places) & (surface.kind > 0))
        if len(nodes) < 2:
            continue
        out.append((nodes, surface.base[nodes].mean(axis=0)))
    return out


def _ring_radius(count: int) -> float:
    rule = parts()["ring"]
    return float(np.clip(rule["first"] + rule["each"] * count, rule["least"], rule["most"]))


def _ring_lines(surface, frames):
    """The yarn of each ring: so many turns through the feet of its stitches."""
    for nodes, middle in _in_ring(surface):
        out = surface.normal[nodes].mean(axis=0)
        out /= np.linalg.norm(out) or 1.0
        spoke = surface.at[nodes[0]] - middle
        spoke -= out * (spoke @ out)
        spoke /= np.linalg.norm(spoke) or 1.0
        other = np.cross(out, spoke)
        turns = parts()["ring"]["turns"]
        angle = np.linspace(0, 2 * np.pi * turns, 12 * turns + 1)
        radius = _ring_radius(len(nodes)) * frames.thick
        wave = 0.22 * frames.thick * np.sin(angle / turns)
        line = middle + radius * (np.cos(angle)[:, None] * spoke + np.sin(angle)[:, None] * other) + wave[:, None] * out
        yield line, int(nodes[0])


def _seam_lines(surface, frames):
    """Whip stitches over the pairs of nodes that are sewn together, in order."""
    pairs = np.asarray(surface.seams)
    if not len(pairs):
        return
    gaps = np.linalg.norm(np.diff(surface.at[pairs[:, 0]], axis=0), axis=1)
    breaks = np.flatnonzero(gaps > _SEAM_BREAKS * max(np.median(surface.width), np.median(surface.height))) + 1
    for part in np.split(pairs, breaks):
        if len(part) < 2:
            continue
        first, second = surface.at[part[:, 0]], surface.at[part[:, 1]]
        out = surface.normal[part[:, 0]] * frames.thick
        points = np.stack([first + 0.5 * out, (first + second) / 2 + 0.9 * out, second + 0.5 * out, (first + second) / 2 - 0.7 * out], axis=1)
        yield points.reshape(-1, 3), int(part[0, 0])


def _with(path: YarnPath, lines) -> YarnPath:
    """The path with further lines, each (points, node it belongs to)."""
    for points, node in lines:
        count, first = len(points), len(path.points)
        path.points = np.concatenate((path.points, points))
        path.node = np.concatenate((path.node, np.full(count, node)))
        path.depth = np.concatenate((path.depth, np.zeros(count)))
        path.colour = np.concatenate((path.colour, np.full(count, path.colour[np.searchsorted(path.node[:first], node)] if first else -1)))
        path.starts = np.append(path.starts, first + count)
    return path
