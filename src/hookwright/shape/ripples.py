"""Ripples at the gauge of their pattern: a swatch of waves is measured straight across and straight up, while its rows slope.

What is stretched out on the swatch is wider than the stitches are along their row and less high than they stand, so a ripple whose stitches are given
the gauge as it is comes out too narrow and too long. The solved shape is taken out to the gauge both ways, and its lengths at rest with it.
"""

import numpy as np

from hookwright.sizing import gauges_of, plain_kind

_WAVY = 0.3  # of the rows that add and take away stitches inside
_EVEN = 0.05  # rows of a ripple are as long as each other, nearly
_MOST = 1.25  # a ripple that is farther off than this is no matter of its slope
_FEW = 8  # rows


def at_gauge(piece, found, pattern):
    """(n, 3) places of an Assembled ripple that lies flat, taken out to the gauge; as they are where it is none, or the gauge is of a plain stitch. The
    rest lengths of its springs are changed with them."""
    if piece.shown != "flat" or not _of_a_pattern(pattern) or not _is_ripple(piece.nodes):
        return found
    nodes, at = piece.nodes, found[: piece.nodes.n]
    rows = [index for index in range(len(nodes.rows)) if nodes.rows[index].stitches and nodes.first[index] < nodes.last[index] and index not in nodes.onto]
    stitches = [np.flatnonzero((nodes.row == index) & (nodes.kind > 0)) for index in rows]
    wide = np.median([nodes.width[nodes.first[index] : nodes.last[index]].sum() / (np.ptp(at[nodes.first[index] : nodes.last[index], 0]) + nodes.width[nodes.first[index]]) for index in rows])
    heights = [float(nodes.height[mine].mean()) for mine in stitches if len(mine)]
    rise = abs(at[stitches[-1], 1].mean() - at[stitches[0], 1].mean())
    tall = sum(heights[1:]) / max(rise, 1e-9)
    if not all(1 / _MOST < one < _MOST for one in (wide, tall)):
        return found
    before = np.linalg.norm(piece.springs.matrix @ found, axis=1)
    out = found * np.array([wide, tall, 1.0])
    after = np.linalg.norm(piece.springs.matrix @ out, axis=1)
    piece.springs.rest *= np.where(before > 1e-6, after / np.maximum(before, 1e-6), 1.0)
    return out


def _of_a_pattern(pattern) -> bool:
    """Whether the first gauge is of a stitch pattern rather than of a plain stitch."""
    head = None if pattern is None else pattern.head or pattern.front
    first = next((gauge for gauge in (gauges_of(head) if head is not None else []) if gauge.stitch_mm and gauge.row_mm), None)
    return first is not None and not plain_kind(first.of, pattern.terms)


def _is_ripple(nodes) -> bool:
    rows = [index for index in range(len(nodes.rows)) if nodes.rows[index].stitches and index not in nodes.onto and nodes.first[index] < nodes.last[index]]
    if len(rows) < _FEW or any(nodes.rows[index].in_round for index in rows):
        return False
    counts = np.array([nodes.rows[index].stitches for index in rows])
    if np.ptp(counts) > _EVEN * counts.mean():
        return False
    legs = np.bincount(nodes.foot_node, minlength=nodes.n)
    fans = np.bincount(nodes.foot_node, nodes.foot_fan, nodes.n) / np.maximum(legs, 1)
    has = [(legs[nodes.first[index] : nodes.last[index]] >= 2).sum() > 2 and (fans[nodes.first[index] : nodes.last[index]] >= 2).sum() > 2 for index in rows]
    return sum(has) >= _WAVY * len(rows)
