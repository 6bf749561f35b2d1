"""The springs of a fabric as one sparse matrix: what every edge is at rest, and how much fabric it stands for."""

from dataclasses import dataclass

import numpy as np
from scipy import sparse

from .rest import facts

FAN_MOST = 1.5  # a stitch leaning to a place it shares is at most so many times its height
DIAGONAL = 0.15  # stiffness of a diagonal against that of the sides: shear is easy
SEWN = 0.08  # of the width: how far apart two places sewn together lie
RING_STIFF = 1.0
SEAM = 20.0  # stiffness of a seam against that of fabric
DRAWN = 4.0  # stiffness of what is drawn together


@dataclass(slots=True)
class Springs:
    """Row k of `matrix` (m, n) applied to the places gives the vector of spring k: rest length (m,), stiffness (m,) = area of fabric / rest length squared,
    so that energy is area x strain squared / 2. plain: (m,) bool, springs of courses and wales, of which strain is reported. node: (m,) whose
    spring it is. anchors: hidden nodes at the end of the columns (middles of rings, places drawn together)."""

    matrix: sparse.csr_array
    rest: np.ndarray
    stiff: np.ndarray
    plain: np.ndarray
    node: np.ndarray
    anchors: int = 0


def springs_of(nodes, strands, seams, drawn=()) -> Springs:
    """All springs. seams: (s, 2) nodes sewn together; drawn: arrays of nodes that are drawn together to one place."""
    n, width, height = nodes.n, nodes.width, nodes.height
    area = width * height
    made = []
    a = np.flatnonzero(strands.nxt >= 0)
    b = strands.nxt[a]
    pulled = np.zeros(n, bool)
    for group in drawn:
        pulled[group] = True
    course = _two(a, b, (width[a] + width[b]) / 2, (area[a] + area[b]) / 2, True)
    course[5][:] = ~(pulled[a] & pulled[b])
    made.append(course)
    made.append(_feet(nodes, area))
    made.append(_diagonals(nodes, strands))
    if len(seams):
        i, j = seams[:, 0], seams[:, 1]
        made.append(_two(i, j, SEWN * (width[i] + width[j]) / 2, np.zeros(len(i)), False, stiff=np.full(len(i), SEAM)))
    anchors = 0
    for index in nodes.rings:
        mine = np.flatnonzero((nodes.row == index) & nodes.in_ring)
        known = facts()["stitch"]
        hole = known["ring_room"] * width[mine].sum() / (2 * np.pi)
        made.append(_two(mine, np.full(len(mine), n + anchors), height[mine] * known["ring"] + hole, RING_STIFF * area[mine], False))
        anchors += 1
    for group in drawn:
        made.append(_two(group, np.full(len(group), n + anchors), np.minimum(0.15 * width[group] * len(group) / (2 * np.pi), 0.3 * width[group]), np.zeros(len(group)), False,
                         stiff=np.full(len(group), DRAWN)))
        anchors += 1
    rest, stiff, plain, node = (np.concatenate([each[at] for each in made]) for at in (3, 4, 5, 6))
    offset = np.cumsum([0, *(len(each[3]) for each in made)])
    rows = np.concatenate([each[0] + base for each, base in zip(made, offset, strict=False)])
    columns, values = np.concatenate([each[1] for each in made]), np.concatenate([each[2] for each in made])
    fine = values != 0
    matrix = sparse.csr_array((values[fine], (rows[fine], columns[fine])), shape=(len(rest), n + anchors))
    return Springs(matrix, rest, stiff, plain, node, anchors)


def _two(a, b, rest, area, plain, stiff=None):
    m = len(a)
    at = np.arange(m)
    rest = np.maximum(rest, 1e-3)
    return (np.concatenate((at, at)), np.concatenate((a, b)), np.repeat([1.0, -1.0], m), rest, area / rest**2 if stiff is None else stiff,
            np.full(m, plain), np.asarray(a))


def _feet(nodes, area):
    """From the top of a stitch to each place it stands on; legs of one stitch share its fabric."""
    i, t = nodes.foot_node, nodes.foot_t
    m = len(i)
    at = np.arange(m)
    legs = np.maximum(np.bincount(i, minlength=nodes.n)[i], 1)
    h = nodes.height[i]
    lean = np.where((nodes.foot_fan >= 3) | (np.abs(nodes.foot_off) > 0.75 * nodes.width[i]), 1.0, 0.5) * nodes.foot_off
    rest = np.where(nodes.foot_fan > 1, np.minimum(np.hypot(h, lean), FAN_MOST * h), h)
    rest = np.where(nodes.rider[i], nodes.height[i], rest)
    two = nodes.foot_b != nodes.foot_a
    values = np.concatenate((np.ones(m), np.where(two, t - 1, -1.0), np.where(two, -t, 0.0)))
    return (np.concatenate((at, at, at)), np.concatenate((i, nodes.foot_a, nodes.foot_b)), values, rest, area[i] / legs / rest**2, np.ones(m, bool), i)


def _diagonals(nodes, strands):
    """From the top of each stitch to the places beside the one it stands on: what keeps stitches upright on their row, in lace, too.

    Stitches that share a place, and stitches with several feet, have them to the outside only: between them the fabric may fold.
    """
    before = np.full(nodes.n, -1, np.int64)
    has = np.flatnonzero(strands.nxt >= 0)
    before[strands.nxt[has]] = has
    i, a, b, t = nodes.foot_node, nodes.foot_a, nodes.foot_b, nodes.foot_t
    legs = np.bincount(i, minlength=nodes.n)[i]
    lean = np.where(legs > 1, -nodes.foot_off, nodes.foot_way * nodes.foot_off)  # of the top from its place, along the row below
    outward = np.where(legs > 1, -lean, lean)
    alone = (nodes.foot_fan <= 1) & (legs <= 1)
    span = np.where(a != b, nodes.width[a], 0.0)
    made = []
    for other, end, way, passed in ((strands.nxt[b], b, 1.0, (1 - t) * span), (before[a], a, -1.0, t * span)):
        fine = (other >= 0) & ~nodes.rider[i] & (alone | (way * outward > 0.1 * nodes.width[i]))
        k, o, e = i[fine], other[fine], end[fine]
        far = passed[fine] + (nodes.width[o] + nodes.width[e]) / 2
        aside = far - way * lean[fine]
        rest = np.hypot(nodes.height[k], aside)
        made.append((k, o, rest, far * nodes.height[k] * DIAGONAL))
    return _two(*(np.concatenate([each[at] for each in made]) for at in range(4)), False)
