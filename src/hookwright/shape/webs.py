"""Triangles between each row and the row it stands on, and lids over what is drawn together."""

import numpy as np

from .feet import crossed

OPENING = 5  # so many chains over so many places passed by are an opening (armhole, handle, buttonhole), not lace


def faces_of(nodes, strands) -> np.ndarray:
    """(f, 3) triangles, wound so that they face the right side. No edge has more than two of them."""
    first, last = _ends_of_feet(nodes)
    edge_rows = set(strands.edges)
    made = []
    footed = first >= 0
    on_edge = np.isin(nodes.row, list(edge_rows)) if edge_rows else np.zeros(nodes.n, bool)
    a, b = _pairs(strands, footed)
    both = np.array([onto == "layers" for onto in (nodes.onto.get(index, "") for index in range(len(nodes.rows)))], bool)[nodes.row]
    pressed = both[a] & both[b]
    for feet, turn in ((first, slice(None)), (last, slice(None, None, -1))):  # a row through two layers: a web before it and one behind
        made.append(_zip(nodes, strands, a[pressed], b[pressed], feet, feet, strands.of, strands.pos, strands.seq, strands.start, strands.length, strands.cyclic)[:, turn])
    plain = ~(on_edge[a] | on_edge[b] | both[a] | both[b])
    made.append(_zip(nodes, strands, a[plain], b[plain], last, first, strands.of, strands.pos, strands.seq, strands.start, strands.length, strands.cyclic))
    legs = np.flatnonzero(footed & (first != last) & ~on_edge & ~both)
    made.append(_zip(nodes, strands, legs, legs, first, last, strands.of, strands.pos, strands.seq, strands.start, strands.length, strands.cyclic))
    for index, edge in strands.edges.items():
        of, pos = np.full(nodes.n, -1, np.int64), np.zeros(nodes.n, np.int64)
        of[edge], pos[edge] = 0, np.arange(len(edge))
        mine = (nodes.row[a] == index) & (nodes.row[b] == index)
        made.append(_zip(nodes, strands, a[mine], b[mine], last, first, of, pos, edge, np.zeros(1, np.int64), np.array([len(edge)]), np.array([index in strands.around])))
    made.append(_spiral_ends(nodes, strands, first, last))
    made += [lid for index in nodes.rings if (lid := _lid(nodes, strands, index)) is not None]
    faces = np.concatenate([each for each in made if len(each)]) if any(map(len, made)) else np.empty((0, 3), np.int64)
    return _clean(faces)


def lid_over(nodes, strands, index) -> np.ndarray:
    """Triangles over the last round of a part that is drawn together."""
    lid = _lid(nodes, strands, index, inward=True)
    return lid if lid is not None else np.empty((0, 3), np.int64)


def _ends_of_feet(nodes):
    """(first, last) place each node stands on in the direction of its row, as the nearest node; -1 for none."""
    first, last = np.full(nodes.n, -1, np.int64), np.full(nodes.n, -1, np.int64)
    near = np.where(nodes.foot_t > 0.5, nodes.foot_b, nodes.foot_a)
    node = nodes.foot_node
    first[node[::-1]] = near[::-1]
    last[node] = near
    two = first != last
    if two.any():  # feet are in order of their numbers; a row that goes back meets them the other way round
        way = np.zeros(len(nodes.rows))
        if len(node) > 1:
            same = nodes.row[node[1:]] == nodes.row[node[:-1]]
            np.add.at(way, nodes.row[node[1:]], np.where(same, np.clip(first[node[1:]] - first[node[:-1]], -3, 3), 0))
        back = two & (way[nodes.row] < 0)
        first[back], last[back] = last[back], first[back]
    _uncross(nodes, first, last)
    return first, last


def _uncross(nodes, first, last):
    """Stitches that cross (the second stands before the first) are webbed as if they did not: one step back between two steps on."""
    node = np.flatnonzero((first >= 0) & (first == last))
    one, two = (node[at] for at in crossed(nodes, node, first[node], np.ones(len(node), np.int64)))
    first[one], first[two] = first[two], first[one]
    last[one], last[two] = first[one], first[two]


def _pairs(strands, footed):
    """Nodes with feet and the next such node along the strand."""
    keep = strands.seq[footed[strands.seq]]
    if len(keep) < 2:
        return np.empty(0, np.int64), np.empty(0, np.int64)
    of = strands.of[keep]
    a, b = keep[:-1], keep[1:]
    same = of[:-1] == of[1:]
    new = np.ones(len(keep), bool)
    new[1:] = ~same
    heads = keep[new]
    tails = keep[np.append(new[1:], True)]
    closed = strands.cyclic[strands.of[heads]] & (heads != tails)
    return np.concatenate((a[same], tails[closed])), np.concatenate((b[same], heads[closed]))


def _zip(nodes, strands, a, b, left, right, of, pos, seq, start, length, cyclic):
    """Triangles between the stretch from a to b above and the stretch from left[a] to right[b] below."""
    if not len(a):
        return np.empty((0, 3), np.int64)
    p, q = left[a], right[b]
    up = strands.pos[b] - strands.pos[a]
    up = np.where(up < 0, up + strands.length[strands.of[a]], up)
    fine = (of[p] >= 0) & (of[p] == of[q])
    a, b, p, q, up = a[fine], b[fine], p[fine], q[fine], up[fine]
    below = pos[q] - pos[p]
    strand = of[p]
    size = length[strand]
    around = np.where(cyclic[strand], np.where(below > size / 2, below - size, np.where(below < -size / 2, below + size, below)), below)
    way = np.where(around < 0, -1, 1)
    low = np.abs(around)
    fine = (up + low > 0) & ~((up >= OPENING) & (low > OPENING)) & ~((low > OPENING) & (low > 4 * up + OPENING)) & (low <= 60)
    a, p, up, low, way, strand, size = a[fine], p[fine], up[fine], low[fine], way[fine], strand[fine], size[fine]

    def lower(at, which):
        to = pos[p[which]] + way[which] * at
        to = np.where(cyclic[strand[which]], to % size[which], to)
        return seq[start[strand[which]] + np.clip(to, 0, size[which] - 1)]

    open_ = _worked_elsewhere(nodes, a, low, lower)
    keep = ~open_
    a, p, up, low, way, strand, size = a[keep], p[keep], up[keep], low[keep], way[keep], strand[keep], size[keep]
    i, j = np.zeros(len(a), np.int64), np.zeros(len(a), np.int64)
    made = []
    for _ in range(int((up + low).max(initial=0))):
        here = np.flatnonzero(i + j < up + low)
        if not len(here):
            break
        iu, il, u, w = i[here], j[here], up[here], low[here]
        rise = (il >= w) | ((iu < u) & ((iu + 0.5) * w <= (il + 0.5) * u))
        top, bottom = strands.on(a[here], iu), lower(il, here)
        third = np.where(rise, strands.on(a[here], iu + 1), lower(il + 1, here))
        made.append(np.where((nodes.towards[a[here]] > 0)[:, None], np.stack((bottom, top, third), 1), np.stack((bottom, third, top), 1)))
        i[here] += rise
        j[here] += ~rise
    return np.concatenate(made) if made else np.empty((0, 3), np.int64)


def _worked_elsewhere(nodes, a, low, lower):
    """Whether a place strictly between is worked into from another row: then there is an opening (the thumb's) and no web."""
    open_ = np.zeros(len(a), bool)
    wide = np.flatnonzero(low > 1)
    if not len(wide):
        return open_
    uses = _rows_that_use(nodes)
    for step in range(1, int(low[wide].max())):
        which = wide[low[wide] > step]
        between = lower(np.full(len(which), step), which)
        other = uses[between]
        open_[which[(other >= 0) & (other != nodes.row[a[which]])]] = True
    return open_


def _rows_that_use(nodes):
    """A row that works into each node, -1 none."""
    uses = np.full(nodes.n, -1, np.int64)
    uses[nodes.foot_b] = nodes.row[nodes.foot_node]
    uses[nodes.foot_a] = nodes.row[nodes.foot_node]
    return uses


def _spiral_ends(nodes, strands, first, last):
    """The step at either end of a spiral."""
    made = []
    for strand, rows in enumerate(strands.rows):
        if strands.cyclic[strand] or not nodes.rows[rows[0]].in_round or len(rows) < 2:
            continue
        nodes_of = [strands.seq[strands.start[strand]:strands.start[strand] + strands.length[strand]]]
        run = nodes_of[0]
        if rows[0] in nodes.rings:  # from the last stitch in the ring to the first that stands on another
            ring = run[nodes.row[run] == rows[0]]
            after = run[len(ring)] if len(run) > len(ring) else -1
            if after >= 0 and first[after] == ring[0]:
                made.append(_wound(nodes, ring[-1], ring[0], after))
        else:  # or, round both sides of a chain, past the place in which both the first and the last stitch of the first round stand
            round_ = run[nodes.row[run] == rows[0]]
            after = run[len(round_)] if len(run) > len(round_) else -1
            if after >= 0 and first[after] == round_[0] and last[round_[-1]] == first[round_[0]] >= 0:
                place = first[round_[0]]
                made.append(_wound(nodes, round_[-1], place, after))
                made.append(_wound(nodes, after, place, round_[0]))
        top = run[nodes.row[run] == rows[-1]]
        if len(top) > 2 and last[top[-1]] >= 0:
            foot, goal, guard = last[top[-1]], top[0], 0
            while foot != goal and guard < 4:
                step = strands.nxt[foot]
                if step < 0:
                    break
                made.append(_wound(nodes, top[-1], foot, step))
                foot, guard = step, guard + 1
    return np.array(made, np.int64).reshape(-1, 3)


def _wound(nodes, top, bottom, third):
    return (bottom, top, third) if nodes.towards[top] > 0 else (bottom, third, top)


def _lid(nodes, strands, index, inward=False):
    """A fan over a closed row: over the ring it is worked into, or (inward) over what is drawn together at the end."""
    mine = np.arange(nodes.first[index], nodes.last[index])
    mine = mine[~nodes.rider[mine]]
    if len(mine) < 3:
        return None
    tip = np.repeat(mine[:1], len(mine) - 2)
    up = nodes.towards[mine[0]] > 0
    made = np.stack((tip, mine[1:-1], mine[2:]), 1)
    return made if up != inward else made[:, ::-1]


def _clean(faces):
    """Without triangles that are none, twins, and a third face at any edge."""
    fine = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 0] != faces[:, 2])
    faces = faces[fine]
    if not len(faces):
        return faces
    _, once = np.unique(np.sort(faces, 1), axis=0, return_index=True)
    faces = faces[np.sort(once)]
    while True:
        edges = np.concatenate((faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]))
        span = int(faces.max()) + 1
        key = edges[:, 0] * span + edges[:, 1]  # with its direction: twice the same way is a face wound wrongly or one too many
        order = np.argsort(key, kind="stable")
        again = np.zeros(len(key), bool)
        again[order[1:]] = key[order[1:]] == key[order[:-1]]
        if not again.any():
            return faces
        faces = faces[~again.reshape(3, -1).any(0)]
