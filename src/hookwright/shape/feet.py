"""What each stitch stands on, in columns: one place, a place shared, several places, a stretch of a run of chains."""

import numpy as np

from hookwright.fabric import FLAG_CORNER, FLAG_JOIN

NEAR = 9  # nodes: children of one place that are further apart stand on its two sides (both sides of a chain)


def stand(out, rows, items, stands, begin, count, starts, item_row):
    """All feet: of each stitch its first, then the further ones of decreases and clusters."""
    target = stands[items]
    whole = np.flatnonzero(target >= 0)
    node, into = [whole], [target[whole]]
    for index, row in enumerate(rows):
        if index in out.onto and out.onto[index] != "layers" or not row.feet or out.below[index] < 0:
            continue
        base, low = starts[index], starts[out.below[index]]
        pairs = [(begin[base + at], low + foot) for at, more in row.feet.items() if count[base + at] for foot in more]
        if pairs:
            found = np.array(pairs, np.int64)
            node.append(found[:, 0]), into.append(found[:, 1])
    for index, onto in out.onto.items():
        if onto.startswith("free loops"):
            found = _free_loops(out, rows, index, int(onto.split()[-1]), starts, stands, begin, count)
            node.append(found[0]), into.append(found[1])
        elif onto == "layers" and index not in out.seam_rows and out.below[index] >= 0:
            found = _through_both(rows, index, out.below[index], starts, begin, count, np.concatenate(node), np.concatenate(into))
            node.append(found[0]), into.append(found[1])
    node, into = np.concatenate(node), np.concatenate(into)
    order = np.lexsort((into, node))
    node, into = node[order], into[order]
    a, c = begin[into], count[into]
    ends = begin[starts[item_row[into] + 1]]
    a = np.where(c == 0, np.where(a < ends, a, begin[starts[item_row[into]]]), a)  # a turning chain or join that is no node: the stitch beside it
    fine = (a < ends) & (a < out.n)
    node, into, a, c = node[fine], into[fine], a[fine], np.maximum(c[fine], 1)
    off, fan = _fans(out, node, into)
    way = _ways(out, node, a)
    place = np.clip((c - 1) / 2 + way * off / np.maximum(out.width[a], 1e-9), 0, c - 1)  # along a run of chains
    low = np.minimum(place.astype(np.int64), np.maximum(c - 2, 0))
    out.foot_node, out.foot_a, out.foot_b = node, a + low, a + np.minimum(low + 1, c - 1)
    out.foot_t = place - low
    _round_corners(out, rows, node, into, off)
    lean = off - way * (place - (c - 1) / 2) * out.width[a]
    legs = np.bincount(node, minlength=out.n)[node]
    several = legs > 1
    if several.any():  # a decrease leans by its own feet, from their middle
        mean = np.bincount(node, out.along[a], out.n)[node] / legs
        lean = np.where(several, out.along[a] - mean, lean)
        fan = np.where(several, legs, fan)
    one, two = crossed(out, node, a, legs)
    for at, aside in ((one, -1.0), (two, 1.0)):  # legs cross, tops stay in order
        lean[at], fan[at] = aside * out.width[node[at]], 3
    both = np.isin(out.row[node], [index for index, onto in out.onto.items() if onto == "layers"])
    lean[both], fan[both] = 0.0, 1  # the layers lie on each other
    out.foot_off, out.foot_fan, out.foot_way = lean, fan, way


def _round_corners(out, rows, node, into, off):
    """A group about a corner space turns with the corner: each half leans from the corner's own place on its side, not from the middle of the group."""
    of = np.full(out.n, -1, np.int64)
    of[node] = into
    for index, row in enumerate(rows):
        corners = [at for at, flag in enumerate(row.flags) if flag & FLAG_CORNER] if any(flag & FLAG_CORNER for flag in set(row.flags)) else ()
        if not corners:
            continue
        turn = np.tan(np.pi / len(corners)) if row.in_round and 3 <= len(corners) <= 8 else 1.0
        begin, count = out.node_of[index]
        low, high = np.searchsorted(node, (out.first[index], out.last[index]))
        for at in corners:
            one, two = begin[at] - 1, begin[at] + count[at]
            if not count[at] or one < out.first[index] or two >= out.last[index] or of[one] != of[two] or of[one] < 0:
                continue
            mine = low + np.flatnonzero((into[low:high] == of[one]) & (np.abs(node[low:high] - begin[at]) < NEAR))
            off[mine] = np.sign(off[mine]) * (np.abs(off[mine]) - turn * out.height[node[mine]])


def crossed(out, node, foot, legs):
    """(entries of the first, of the second) of two stitches that cross, the second standing before the first: one step back between two steps on."""
    which = np.flatnonzero(legs == 1)
    if len(which) < 3:
        return which[:0], which[:0]
    row = out.row[node[which]]
    step = np.where(row[1:] == row[:-1], foot[which[1:]] - foot[which[:-1]], 0)
    way = np.sign(np.bincount(row[1:], np.clip(step, -3, 3), len(out.rows)))[row[1:]]
    back = (step * way < 0) & (np.abs(step) <= 3)
    lone = back.copy()
    lone[1:] &= ~back[:-1]
    lone[:-1] &= ~back[1:]
    at = np.flatnonzero(lone)
    return which[at], which[at + 1]


def _fans(out, node, into):
    """(sideways offset of each foot's stitch from the middle of those that share the place, how many share it)."""
    order = np.lexsort((node, into))
    n, t = node[order], into[order]
    new = np.ones(len(n), bool)
    if len(n):
        new[1:] = (t[1:] != t[:-1]) | (out.row[n[1:]] != out.row[n[:-1]]) | (n[1:] - n[:-1] > NEAR)
    group = np.cumsum(new) - 1
    size = np.bincount(group)
    mean = np.bincount(group, out.along[n]) / np.maximum(size, 1)
    off, fan = np.empty(len(n)), np.empty(len(n), np.int64)
    off[order] = out.along[n] - mean[group]
    fan[order] = size[group]
    return off, fan


def _ways(out, node, a):
    """+1 where the row goes on in the direction in which the row below was worked, -1 where it goes back, one a foot."""
    row = out.row[node]
    step = np.zeros(len(node))
    if len(node) > 1:
        same = row[1:] == row[:-1]
        step[1:] = np.where(same, np.clip(a[1:] - a[:-1], -3, 3), 0)
    way = np.bincount(row, step, len(out.rows)) if len(node) else np.zeros(len(out.rows))
    return np.where(way[row] < 0, -1.0, 1.0)


def _free_loops(out, rows, index, number, starts, stands, begin, count):
    """Stitches into the loops that the row with this number left free, those of the places it stands on."""
    home = next((at for at in range(index - 1, -1, -1) if rows[at].number == number and rows[at].in_round == rows[index].in_round), None)
    if home is None:
        return np.empty(0, np.int64), np.empty(0, np.int64)
    foot = np.frombuffer(rows[index].foot, np.int32)
    mine = np.arange(starts[index], starts[index + 1])
    fine = (foot >= 0) & (foot < len(rows[home].kind)) & (count[mine] > 0)
    into = stands[starts[home] + foot[fine]]
    node = begin[mine[fine]]
    return node[into >= 0], into[into >= 0]


def _through_both(rows, index, below, starts, begin, count, node, into):
    """A round pressed flat and worked through both layers: each stitch stands on the place opposite, too."""
    total = sum(1 for kind, flag in zip(rows[below].kind, rows[below].flags, strict=True) if kind and not flag & FLAG_JOIN)
    mine = (node >= begin[starts[index]]) & (node < begin[starts[index + 1]]) & (into >= starts[below]) & (into < starts[below + 1])
    first = starts[below]
    return node[mine], first + total - 1 - (into[mine] - first)
