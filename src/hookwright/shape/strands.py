"""Strands: nodes that follow each other along the yarn of a row, round after round where a spiral is worked; and the feet along row ends."""

from dataclasses import dataclass, field

import numpy as np

_NEXT = 3  # row ends from one stitch to the next, where some are passed over


@dataclass(slots=True)
class Strands:
    """seq: nodes strand by strand; start, length, cyclic: of each strand; of, pos: strand of a node (-1 none) and its place in it.

    nxt: node that follows in its strand, -1 at an end. tails: (last row, first row) of each spiral.
    edges: row index -> nodes of the edge that row is worked into, from the hook on; around: those rows whose edge is all round the piece.
    """

    seq: np.ndarray
    start: np.ndarray
    length: np.ndarray
    cyclic: np.ndarray
    of: np.ndarray
    pos: np.ndarray
    nxt: np.ndarray
    rows: list
    edges: dict = field(default_factory=dict)
    around: set = field(default_factory=set)

    def on(self, node, steps):
        """The node `steps` places on along its strand (arrays); closed strands go round."""
        strand = self.of[node]
        length = self.length[strand]
        to = self.pos[node] + steps
        to = np.where(self.cyclic[strand], to % np.maximum(length, 1), np.clip(to, 0, length - 1))
        return self.seq[self.start[strand] + to]


def strands_of(nodes) -> Strands:
    """The strands of a part's rows."""
    rows, runs, tail_of = nodes.rows, [], {}
    for index, row in enumerate(rows):
        mine = np.arange(nodes.first[index], nodes.last[index])
        mine = mine[~nodes.rider[mine]]
        if not len(mine):
            if index not in nodes.seam_rows and nodes.below[index] >= 0 and nodes.below[index] in tail_of:
                tail_of[index] = tail_of.pop(nodes.below[index])
            continue
        joined, below = bool(row.end.get("joined")), nodes.below[index]
        if row.in_round and not row.turned and index not in nodes.onto and below in tail_of and rows[below].in_round:
            run = tail_of.pop(below)
        else:
            runs.append(run := {"rows": [], "nodes": [], "closed": joined and row.in_round})
        run["rows"].append(index), run["nodes"].append(mine)
        if not run["closed"] and not (joined and len(run["rows"]) > 1):  # a slip stitch that ends a spiral smooths the step, no more
            tail_of[index] = run
    for run in runs:
        first = run["rows"][0]
        if len(run["rows"]) == 1 and not run["closed"]:
            run["closed"] = (rows[first].in_round and len(run["nodes"][0]) > 2) or _chain_in_round(nodes, first)
    seq = np.concatenate([each for run in runs for each in run["nodes"]]) if runs else np.empty(0, np.int64)
    length = np.array([sum(map(len, run["nodes"])) for run in runs], np.int64)
    start = np.concatenate(([0], np.cumsum(length)))[:-1].astype(np.int64)
    cyclic = np.array([run["closed"] for run in runs], bool)
    of, pos, nxt = np.full(nodes.n, -1, np.int64), np.zeros(nodes.n, np.int64), np.full(nodes.n, -1, np.int64)
    of[seq] = np.repeat(np.arange(len(runs)), length)
    pos[seq] = np.arange(len(seq)) - np.repeat(start, length)
    nxt[seq[:-1]] = np.where(of[seq[:-1]] == of[seq[1:]], seq[1:], -1)
    if len(runs):
        ends, begins = seq[start + length - 1], seq[start]
        nxt[ends[cyclic]] = begins[cyclic]
    return Strands(seq, start, length, cyclic, of, pos, nxt, [run["rows"] for run in runs])


def _chain_in_round(nodes, index) -> bool:
    """Whether a foundation is a chain closed into a ring: a round stands on it that goes along it once, one way."""
    above = [at for at, below in enumerate(nodes.below) if below == index and nodes.first[at] < nodes.last[at]]
    if not above or not nodes.rows[above[0]].in_round or nodes.rows[index].in_round or nodes.rows[index].stitches:
        return False
    mine = (nodes.foot_node >= nodes.first[above[0]]) & (nodes.foot_node < nodes.last[above[0]])
    steps = np.diff(nodes.foot_a[mine])
    return len(steps) > 1 and (bool((steps >= 0).all()) or bool((steps <= 0).all()))


def stand_on_row_ends(nodes, strands) -> None:
    """Gives rows along row ends their feet: each row end is the stretch of the edge from the top of its row down to the top of the row below."""
    for index, onto in nodes.onto.items():
        if onto == "around":
            _stand_around(nodes, strands, index)
        if onto != "row ends":
            continue
        edge = edge_of(nodes, index)
        if nodes.rows[index].in_round and _stand_mixed(nodes, index, edge):
            continue
        if nodes.rows[index].in_round and len(edge) and nodes.last[index] > nodes.first[index] and _facing(nodes, edge) != nodes.towards[nodes.first[index]]:
            edge = edge[::-1]
        row = nodes.rows[index]
        begin, count = nodes.node_of[index]
        foot = np.frombuffer(row.foot, np.int32)
        fine = np.flatnonzero((foot >= 0) & (count > 0) & (foot < len(edge) - 1))
        if len(edge) < 2 or not len(fine):
            continue
        node, cell = begin[fine], foot[fine]
        _stand_along(nodes, node, cell, edge)
        strands.edges[index] = edge


def _stand_along(nodes, node, cell, edge):
    """Nodes on cells of an edge; those of one cell spread along it."""
    order = np.argsort(cell, kind="stable")
    share = np.bincount(cell, minlength=len(edge))
    rank = np.empty(len(cell))
    rank[order] = np.arange(len(cell)) - np.concatenate(([0], np.cumsum(share)))[cell[order]]
    _give_feet(nodes, node, edge[cell], edge[cell + 1], (rank + 0.5) / share[cell])


def _stand_mixed(nodes, index, edge) -> bool:
    """Feet of a round along the last row, down one side of the rows to and fro, along what those left of the round before, and up the other side: a
    heel flap. Whether this round is one such: stretches that count row ends from 0, and others."""
    row = nodes.rows[index]
    begin, count = nodes.node_of[index]
    foot = np.frombuffer(row.foot, np.int32)
    ends = _ends_stretches(foot)
    taken = np.zeros(len(foot), bool)
    for first, last in ends:
        taken[first:last] = True
    others = np.flatnonzero((foot >= 0) & ~taken & (count > 0))
    rows_below = _below(nodes, index)
    flap = next((at for at, below in enumerate(rows_below) if nodes.rows[below].in_round), 0)
    if not flap or len(ends) != 2 or len(others) < 3:
        return False
    across = int(others.min() < ends[0][0])  # over the last row first, and so to its other side
    for side, (first, last) in enumerate(ends):
        along = (edge if side == across else edge_of(nodes, index, other=True))[:flap]
        under = nodes.foot_a[nodes.foot_node == along[-1]] if len(along) else ()
        if not len(under):
            return False
        along = np.append(along, under[0])  # down to the stitch that the first of the rows begins or ends on
        along = along if side == 0 else along[::-1]
        fine = np.arange(first, last)[count[first:last] > 0]
        _stand_along(nodes, begin[fine], ((fine - first) * (len(along) - 1)) // max(last - first, 1), along)
    for place in others:
        on = next((below for below in rows_below if foot[place] < len(nodes.rows[below].kind) and (place < ends[0][0] or nodes.rows[below].in_round)), None)
        if on is None:
            continue
        there, many = nodes.node_of[on]
        if many[foot[place]]:
            _give_feet(nodes, begin[place : place + 1], there[foot[place]] + np.zeros(1, np.int64), there[foot[place]] + np.zeros(1, np.int64), np.zeros(1))
    return True


def _ends_stretches(foot) -> list[tuple[int, int]]:
    """(first, behind the last) place of each stretch whose feet go up from 0."""
    out, at = [], 0
    while at + 1 < len(foot):
        if foot[at] == 0 and 0 <= foot[at + 1] <= _NEXT:
            end = at + 1
            while end < len(foot) and 0 <= foot[end] - foot[end - 1] <= _NEXT and not (foot[end] == 0 < foot[end - 1]):
                end += 1
            out.append((at, end))
            at = end
        else:
            at += 1
    return out


def _below(nodes, index) -> list[int]:
    """The rows below a row, the nearest first."""
    out, at = [], nodes.below[index]
    while at >= 0:
        out.append(at)
        at = nodes.below[at]
    return out


def _give_feet(nodes, node, a, b, way):
    add = {"foot_node": node, "foot_a": a, "foot_b": b, "foot_t": way, "foot_off": np.zeros(len(node)), "foot_fan": np.ones(len(node), np.int64),
           "foot_way": np.ones(len(node))}
    order = np.argsort(np.concatenate((nodes.foot_node, node)), kind="stable")
    for name, values in add.items():
        setattr(nodes, name, np.concatenate((getattr(nodes, name), values))[order])


def _facing(nodes, edge) -> int:
    """+1 where going down this edge the right side is seen with the fabric on the left, which is how one works along it."""
    row = nodes.row[edge[0]]
    return 1 if (edge[0] == nodes.last[row] - 1) == (nodes.towards[edge[0]] > 0) else -1


def _stand_around(nodes, strands, index):
    """A round all round flat work: its stitches spread along the outline, down one side from the hook, along the first row, up, and back."""
    down = edge_of(nodes, index)
    if len(down) < 2:
        return
    ends = [(nodes.first[row], nodes.last[row] - 1) for row in nodes.row[down]]
    up = np.array([low if node == high else high for node, (low, high) in zip(down, ends, strict=True)])
    across = [np.arange(low, high + 1) for low, high in (ends[-1], ends[0])]
    along = [line if line[0] == start else line[::-1] for line, start in zip(across, (down[-1], up[0]), strict=True)]
    outline = np.concatenate((down, along[0][1:], up[::-1][1:], along[1][1:-1]))
    outline = outline[np.sort(np.unique(outline, return_index=True)[1])]
    if _facing(nodes, down) != nodes.towards[nodes.first[index]]:
        outline = np.concatenate((outline[:1], outline[:0:-1]))
    mine = np.arange(nodes.first[index], nodes.last[index])
    mine = mine[~nodes.rider[mine] & (nodes.kind[mine] > 0)]
    keep = ~((nodes.foot_node >= nodes.first[index]) & (nodes.foot_node < nodes.last[index]))
    for name in ("foot_node", "foot_a", "foot_b", "foot_t", "foot_off", "foot_fan", "foot_way"):
        setattr(nodes, name, getattr(nodes, name)[keep])
    nxt = np.roll(outline, -1)
    same = nodes.row[outline] == nodes.row[nxt]
    step = np.where(same, (nodes.width[outline] + nodes.width[nxt]) / 2, np.maximum(nodes.height[outline], nodes.height[nxt]))
    passed = np.concatenate(([0.0], np.cumsum(step)))
    want = (nodes.along[mine] - nodes.along[mine[0]]) / max(nodes.width[nodes.first[index]:nodes.last[index]].sum(), 1e-9) * passed[-1]
    cell = np.clip(np.searchsorted(passed, want, side="right") - 1, 0, len(outline) - 1)
    _give_feet(nodes, mine, outline[cell], nxt[cell], (want - passed[cell]) / np.maximum(step[cell], 1e-9))
    strands.edges[index] = outline
    strands.around.add(index)


def edge_of(nodes, index, of_row=False, other=False) -> np.ndarray:
    """Nodes at the row ends on the side of the hook after row `index` - 1 was worked (of_row: after that row), from there down to the foundation;
    other: on the other side."""
    out, at, last = [], index if of_row else nodes.below[index], not other
    if index in nodes.seam_rows:
        last = last != bool(nodes.rows[index].turned)
    while at >= 0:
        row = nodes.rows[at]
        if nodes.first[at] < nodes.last[at]:
            out.append(int(nodes.last[at] - 1 if last else nodes.first[at]))
        last = last != bool(row.turned)
        at = nodes.below[at]
    return np.array(out, np.int64)
