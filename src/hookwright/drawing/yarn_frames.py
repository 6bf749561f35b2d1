"""Where every stitch of a surface stands: its axes, its foot, how wide it is drawn, and how it is tipped by what is worked into it."""

from dataclasses import dataclass

import numpy as np

from .yarn_stitch import parts

_PICOT, _SPIKE = 1, 2


@dataclass(slots=True)
class Frames:
    """Columns of the n nodes. top, foot, along (unit, the way it is worked), up (unit), out (unit, towards the worker): (n, 3).

    wide, thick: drawn width of each stitch (n,) and thickness of the yarn, mm. begins, ends: (n,) whether a row begins here, or ends.
    follows: (n,) whether the yarn comes from the node before. tip: (n,) thicknesses by which its head is pushed towards the worker.
    """

    top: np.ndarray
    foot: np.ndarray
    along: np.ndarray
    up: np.ndarray
    out: np.ndarray
    wide: np.ndarray
    thick: float
    begins: np.ndarray
    ends: np.ndarray
    follows: np.ndarray
    tip: np.ndarray


def frames_of(surface, loops: np.ndarray, post: np.ndarray) -> Frames:
    """loops: (n,) 0 both, 1 back, 2 front, 3 third; post: (n,) whether it goes round the stem below."""
    at, foot = _tops(surface)
    count = len(at)
    index = np.arange(count)
    before = np.asarray(surface.before)
    width = np.asarray(surface.width, float)
    thick = _thickness(surface)
    follows = (before == index - 1) & (index > 0)
    gap = np.zeros(count)
    gap[1:] = np.linalg.norm(at[1:] - at[:-1], axis=1)
    reach = 3.2 * np.maximum(width, np.roll(width, 1)) + np.asarray(surface.height, float)
    follows &= gap < reach
    same = np.zeros(count, bool)
    same[1:] = (surface.row[1:] == surface.row[:-1]) & follows[1:]
    for first in np.flatnonzero(np.diff(surface.row)) + 1:
        same[first] = follows[first] and _spirals(surface.rows[surface.row[first - 1]], surface.rows[surface.row[first]]) and gap[first] < 1.8 * width[first]
    along = _along(at, same, surface)
    out = surface.normal * surface.towards[:, None]
    along -= out * (along * out).sum(1)[:, None]
    along = _unit(along)
    up = np.cross(along, out)
    stem = at - foot
    up[(up * stem).sum(1) < -0.25 * np.linalg.norm(stem, axis=1)] *= -1
    ends = np.ones(count, bool)
    ends[:-1] = ~same[1:]
    wide = np.where(same, gap, 0.0)
    wide = np.where(wide > 0, wide, np.where(~ends, np.roll(np.where(same, gap, 0), -1), width))
    wide = np.clip(wide, 0.62 * width, 1.45 * width)
    hinge, tip = np.zeros(count), np.zeros(count)
    _lean(surface, loops, hinge, tip)
    top = at + surface.normal * (hinge * thick)[:, None]
    _feet(surface, loops, post, at, top, foot, out, up, thick)
    return Frames(top, foot, along, up, out, wide, thick, ~same, ends, follows, tip)


def _spirals(row, after) -> bool:
    """Whether a round goes on into the next one without a join."""
    return row.in_round and after.in_round and not after.turned and not row.end.get("joined")


def _tops(surface) -> tuple[np.ndarray, np.ndarray]:
    """Tops and feet of all nodes: a picot sits on the row between its neighbours, and a spike goes down a row further."""
    at, foot = np.array(surface.at, float), np.array(surface.base, float)
    named = [_PICOT if name == "picot" else _SPIKE if name == "spike" else 0 for name in surface.kinds]
    own = np.array(named or [0])[surface.kind]
    for node in np.flatnonzero(own == _PICOT):
        beside = [other for other in (node - 1, node + 1) if 0 <= other < len(at) and surface.row[other] == surface.row[node] and own[other] != _PICOT]
        if beside:
            at[node] = foot[node] = at[beside].mean(axis=0)
    for node in np.flatnonzero(own == _SPIKE):
        feet = surface.foot_of[surface.foot_start[node] : surface.foot_start[node + 1]]
        if len(feet) and surface.place[node] not in surface.rows[surface.row[node]].far:
            foot[node] = surface.base[feet].mean(axis=0)
    return at, foot


def _thickness(surface) -> float:
    rule = parts()["thickness"]
    plain = surface.width[surface.width > 0]
    typical = float(np.median(plain)) if len(plain) else 7.0
    return float(np.clip(surface.yarn_mm, rule["least"] * typical, rule["most"] * typical))


def _along(at, same, surface) -> np.ndarray:
    """The way the row runs at each node: from the one before it to the one after it."""
    step = np.zeros_like(at)
    step[1:] = at[1:] - at[:-1]
    back = np.where(same[:, None], _unit(step), 0.0)
    ahead = np.zeros_like(at)
    ahead[:-1] = back[1:]
    along = back + ahead
    lost = np.linalg.norm(along, axis=1) < 1e-6
    if lost.any():
        stem = at - surface.base
        alone = np.cross(surface.normal * surface.towards[:, None], stem)
        alone[np.linalg.norm(alone, axis=1) < 1e-9] = (-1.0, 0.0, 0.0)
        along[lost] = alone[lost]
    return along


def _lean(surface, loops, hinge, tip) -> None:
    """How far each node is pushed off the fabric by stitches worked into one of its loops only, and its head tipped over."""
    owner, feet = _owners(surface), surface.foot_of
    worked = np.bincount(feet, minlength=len(loops)).astype(float)
    for code, name in enumerate(("back", "front", "third"), start=1):
        rule, mine = parts()["loops"][name], loops[owner] == code
        if not mine.any():
            continue
        if "tip" in rule:
            np.maximum.at(tip, feet[mine], rule["tip"])
        else:
            push = rule["hinge"] * surface.towards[owner[mine]]
            hinge += np.bincount(feet[mine], push, minlength=len(loops)) / np.maximum(worked, 1)


def _feet(surface, loops, post, at, top, foot, out, up, thick) -> None:
    """Feet follow the tops they stand on; the hook goes in between the loops for one of them, behind for the third, lower for a post."""
    owner, feet, share = _owners(surface), surface.foot_of, surface.foot_share
    moved = (top - at)[feet] * share[:, None]
    for axis in range(3):
        foot[:, axis] += np.bincount(owner, moved[:, axis], minlength=len(loops))
    has = np.diff(surface.foot_start) > 0
    for code, name in enumerate(("back", "front", "third"), start=1):
        rule, mine = parts()["loops"][name], (loops == code) & has
        foot[mine] += up[mine] * (rule["up"] * thick)
        if "tip" in rule:
            foot[mine] += out[feet[surface.foot_start[:-1][mine]]] * (rule["hinge"] * thick)
    around = np.flatnonzero(post & has)
    below = feet[surface.foot_start[around]]
    foot[around] -= 0.55 * (surface.at[below] - surface.base[below])


def _owners(surface) -> np.ndarray:
    """For each foot, the node that stands on it."""
    return np.repeat(np.arange(len(surface.at)), np.diff(surface.foot_start))


def _unit(vectors: np.ndarray) -> np.ndarray:
    length = np.linalg.norm(vectors, axis=-1, keepdims=True)
    return vectors / np.where(length > 1e-12, length, 1.0)
