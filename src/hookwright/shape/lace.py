"""Widths of rows of lace: where groups and chain spaces of unlike numbers stand on each other, all rows of a pattern are yet as wide.

A gauge counts the stitches of a pattern's solid rows; a row of V-stitches opens, a row of shells draws in, until it fits the rows beside it.
"""

import numpy as np

from hookwright.fabric import FLAG_CORNER

LOOPS = 3.0  # times as long as lies flat: rounds of long loops, which arch
ROUND_LEAST = 0.12  # and rounds by less than this
LEAST = 0.04  # rows that differ by less are left as they are
MOST = 1.8  # and no row is widened or narrowed more than so many times
FEW = 12  # nodes: shorter rows tell nothing


def settled_widths(nodes) -> np.ndarray | None:
    """(rows,) factor for the widths of each row, None where no row is of lace."""
    count = nodes.last - nodes.first
    chains = _per_row(nodes, nodes.kind == 0) / np.maximum(count, 1)
    fan = np.zeros(nodes.n, bool)
    fan[nodes.foot_node[nodes.foot_fan >= 3]] = True
    groups = _per_row(nodes, fan) / np.maximum(count, 1)
    flat = np.array([not row.in_round for row in nodes.rows])
    open_ = ((chains >= 0.1) | (groups >= 0.3)) & (count >= FEW)
    lace = flat & open_
    rounds = _rounds_of_lace(nodes, ~flat & open_) if (~flat & open_).any() else None
    if not lace.any():
        return rounds
    dense = np.ones(len(nodes.rows))  # natural width of a row against that of the first, over the same places
    for index in range(len(nodes.rows)):
        below = nodes.below[index]
        if below < 0 or not count[index]:
            continue
        wide = flat[index] and index not in nodes.onto and (lace[index] or lace[below])
        dense[index] = dense[below] * (_ratio(nodes, index, below) if wide else 1.0)
    sort = {}
    for index in np.flatnonzero(flat & (count >= FEW)):
        sort.setdefault((round(float(chains[index]) * 20), round(float(groups[index]) * 10)), []).append(index)
    typical = {key: float(np.exp(np.median(np.log(dense[rows])))) for key, rows in sort.items()}
    first = next((index for index in range(len(nodes.rows)) if count[index]), 0)
    founded = not (nodes.foot_node < nodes.last[first]).any() and first not in nodes.rings
    wanted = 1.0 if founded else max((typical[key] for key, rows in sort.items() if len(rows) > 1), default=1.0)
    out = np.ones(len(nodes.rows))
    for index in range(len(nodes.rows)):
        below = nodes.below[index]
        if below < 0 or not flat[index] or count[index] < FEW or not (lace[index] or lace[below]):
            continue
        key = (round(float(chains[index]) * 20), round(float(groups[index]) * 10))
        like = [other for other, rows in sort.items() if len(rows) > 2 and abs(other[0] - key[0]) <= 2 and abs(other[1] - key[1]) <= 2]
        if like:
            factor = wanted / typical[min(like, key=lambda other: (abs(other[0] - key[0]) + abs(other[1] - key[1]), other))]
        else:  # one of a kind (an edging): as wide as the row it stands on
            factor = out[below] * dense[below] / dense[index]
        if abs(np.log(factor)) > LEAST:
            out[index] = min(max(factor, 1 / MOST), MOST)
    out = out if rounds is None else out * rounds
    return out if (out != 1).any() else None


def _rounds_of_lace(nodes, lace) -> np.ndarray | None:
    """Rounds of lace about a ring that is nearly flat by its counts as a whole: each as long as lies flat, as it is when it is pinned out."""
    out, radius, long = np.ones(len(nodes.rows)), np.full(len(nodes.rows), np.nan), np.zeros(len(nodes.rows))
    cornered = np.zeros(len(nodes.rows), bool)
    for index, row in enumerate(nodes.rows):
        mine = slice(nodes.first[index], nodes.last[index])
        if mine.start == mine.stop or not row.in_round:
            continue
        tall = nodes.kind[mine] > 0
        high = float(nodes.height[mine][tall].mean()) if tall.any() else 0.0
        radius[index] = high if index in nodes.rings else radius[nodes.below[index]] + high if nodes.below[index] >= 0 else np.nan
        corners = sum(1 for flag in row.flags if flag & FLAG_CORNER)
        cornered[index] = 3 <= corners <= 8
        round_ = 2 * corners * np.tan(np.pi / corners) if cornered[index] else 2 * np.pi
        long[index] = nodes.width[mine].sum() / max(round_ * radius[index], 1e-9) if radius[index] > 0 else np.nan
    known = np.flatnonzero(np.isfinite(radius) & (long > 0))
    if len(known) < 3 or not lace.any() or cornered[known].mean() >= 0.2 or not 0.5 < np.median(long[known[len(known) // 2:]]) < LOOPS:
        return None
    for index in known[1:]:
        if lace[index] and abs(np.log(long[index])) > ROUND_LEAST:
            out[index] = min(max(1 / long[index], 1 / LOOPS), MOST)
    return out


def lean_ends(nodes) -> None:
    """Where rows of lace grow at their ends, the stitch at the end leans outwards to where it belongs: it is longer than the others at rest."""
    chains = _per_row(nodes, nodes.kind == 0)
    for index, row in enumerate(nodes.rows):
        below = nodes.below[index]
        if row.in_round or below < 0 or chains[index] < 0.1 * (nodes.last[index] - nodes.first[index]) or index in nodes.onto:
            continue
        low, high = np.searchsorted(nodes.foot_node, (nodes.first[index], nodes.last[index]))
        if high - low < 6:
            continue
        way = nodes.foot_way[low]
        for end, side in ((low, slice(low + 1, low + 4)), (high - 1, slice(high - 4, high - 1))):
            if nodes.row[nodes.foot_a[end]] != below:
                continue
            own = nodes.along[nodes.foot_node[end]] - nodes.along[nodes.foot_node[side]].mean()
            foot = nodes.along[nodes.foot_a[end]] - nodes.along[nodes.foot_a[side]].mean()
            grows = own - way * foot
            if grows * own > 0:
                nodes.foot_off[end], nodes.foot_fan[end] = grows, 3


def _per_row(nodes, which):
    return np.bincount(nodes.row[which], minlength=len(nodes.rows)).astype(float)


def _ratio(nodes, index, below) -> float:
    """How many times as wide a row is as the stretch of the row below that it stands on: the middle of many pairs, so that growth at a few places
    (ends, a corner) counts for nothing."""
    low, high = np.searchsorted(nodes.foot_node, (nodes.first[index], nodes.last[index]))
    a, node = nodes.foot_a[low:high], nodes.foot_node[low:high]
    fine = nodes.row[a] == below
    a, node = a[fine], node[fine]
    mine = slice(nodes.first[below], nodes.last[below])
    items = np.bincount(nodes.place[mine])
    middle = np.bincount(nodes.place[mine], nodes.along[mine]) / np.maximum(items, 1)  # a run of chains is one place
    item, group = np.unique(nodes.place[a], return_inverse=True)
    places = middle[item]
    if len(places) < 5:
        return 1.0
    y = np.bincount(group, nodes.along[node]) / np.bincount(group)  # the middle of what stands on each place
    lag = max(len(places) // 6, min(4, len(places) - 1))
    slope = np.abs(y[lag:] - y[:-lag]) / np.maximum(places[lag:] - places[:-lag], 1e-9)
    return float(np.median(slope))
