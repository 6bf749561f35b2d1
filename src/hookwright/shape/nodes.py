"""The worked rows of a part as nodes and the places they stand on, in whole columns: a node is the top of a stitch or one chain of a run."""

from dataclasses import dataclass, field

import numpy as np

from hookwright.fabric import CHAINS, FLAG_CORNER, FLAG_JOIN, FLAG_TURNING
from hookwright.notation.tree import JoinYarn

from .lace import lean_ends, settled_widths
from .parts import onto_of

FOUNDATION = 1
RING = -2
NEAR = 9  # nodes: children of one place that are further apart stand on its two sides (both sides of a chain)


@dataclass(slots=True)
class Nodes:
    """Columns of the nodes (see Surface) and of the feet.

    Feet, one entry each: `foot_node` stands on the place between nodes `foot_a` and `foot_b`, `foot_t` of the way (b = a: on a itself);
    foot_off: how far it leans sideways from there at rest, foot_fan: stitches that share the place (or feet of the stitch, if more); foot_way: +1
    where its row goes on the way the row below was worked, -1 where it goes back.
    onto: row index -> what onto_of says, of rows that stand on other things than the tops of the row below.
    rings: row indexes (in `rows`) of the rows that are worked into a ring.
    first, last: first node and one past the last of each row.
    """

    rows: list
    n: int = 0
    row: np.ndarray = None
    place: np.ndarray = None
    kind: np.ndarray = None
    width: np.ndarray = None
    height: np.ndarray = None
    towards: np.ndarray = None
    colour: np.ndarray = None
    colours: list = None
    before: np.ndarray = None
    rider: np.ndarray = None  # hangs beside the stitches of its row (a picot)
    in_ring: np.ndarray = None
    first: np.ndarray = None
    last: np.ndarray = None
    along: np.ndarray = None  # width passed in its row up to the middle of the node
    foot_node: np.ndarray = None
    foot_a: np.ndarray = None
    foot_b: np.ndarray = None
    foot_t: np.ndarray = None
    foot_off: np.ndarray = None
    foot_fan: np.ndarray = None
    foot_way: np.ndarray = None
    below: list = None  # row index in `rows` of the row below, -1 none
    onto: dict = field(default_factory=dict)
    rings: list = field(default_factory=list)
    seam_rows: list = field(default_factory=list)
    node_of: list = None  # per row: (first node, number of nodes) of each item of its columns


def nodes_of(fabric, part, sizes_of) -> Nodes:
    """The nodes of a part. sizes_of: heading -> rest.RestSizes."""
    rows = [fabric.rows[at] for at in part.rows]
    local = {at: index for index, at in enumerate(part.rows)}
    out = Nodes(rows)
    out.below = [local.get(row.below, -1) for row in rows]
    for index, below in enumerate(out.below):  # a chain closed into a ring is a row of no stitches: what stands on it stands on the chain
        if below >= 0 and not len(rows[below].kind) and out.below[below] >= 0:
            out.below[index] = out.below[below]
    out.onto = {index: onto for index, row in enumerate(rows) if (onto := onto_of(row))}
    lengths = np.array([len(row.kind) for row in rows], np.int64)
    starts = np.concatenate(([0], np.cumsum(lengths)))
    kind = _joined([row.kind for row in rows], np.uint16)
    foot = _joined([row.foot for row in rows], np.int32).astype(np.int64)
    chains = _joined([row.chains for row in rows], np.uint16).astype(np.int64)
    flags = _joined([row.flags for row in rows], np.uint8)
    item_row = np.repeat(np.arange(len(rows)), lengths)
    special = np.array([index in out.onto and out.onto[index] != "layers" for index in range(len(rows))], bool)
    below_start = np.array([starts[below] if below >= 0 else 0 for below in out.below], np.int64)
    stands = np.where((foot >= 0) & ~special[item_row] & (np.array(out.below, np.int64)[item_row] >= 0), foot + below_start[item_row], -1)
    for index, row in enumerate(rows):
        for at, (other, place) in row.far.items():
            stands[starts[index] + at] = starts[local[other]] + place
    _seams(out, rows, fabric.kinds)
    count = _counts(out, kind, foot, chains, flags, item_row, stands, starts, lengths)
    begin = np.concatenate(([0], np.cumsum(count)))
    out.n = int(begin[-1])
    items = np.repeat(np.arange(len(kind)), count)
    out.row, out.place = item_row[items].astype(np.int32), (items - starts[item_row[items]]).astype(np.int32)
    out.kind = kind[items]
    out.first, out.last = begin[starts[:-1]], begin[starts[1:]]
    out.node_of = [(begin[starts[at]:starts[at + 1]], count[starts[at]:starts[at + 1]]) for at in range(len(rows))]
    _sizes(out, rows, fabric.kinds, sizes_of)
    out.in_ring = (foot[items] == RING) & (count[items] > 0)
    out.rings = [int(at) for at in np.unique(out.row[out.in_ring])]
    _sides(out, rows)
    _colours(out, rows)
    _before(out, rows, part.rows)
    _feet(out, rows, items, stands, begin, count, starts, item_row)
    factor = settled_widths(out)
    if factor is not None:
        out.width *= factor[out.row]
        _along(out)
        _feet(out, rows, items, stands, begin, count, starts, item_row)
        lean_ends(out)
    return out


def _joined(columns, dtype):
    return np.concatenate([np.frombuffer(each, dtype) if len(each) else np.empty(0, dtype) for each in columns]) if columns else np.empty(0, dtype)


def _seams(out, rows, kinds):
    """Rows of slip stitches through both thicknesses are seams, no fabric."""
    for index, onto in out.onto.items():
        if onto == "layers" and set(rows[index].by_kind) <= {"slst", "ch"} and out.below[index] >= 0:
            out.seam_rows.append(index)


def _counts(out, kind, foot, chains, flags, item_row, stands, starts, lengths):
    """How many nodes each item makes: turning chains and joins that are no stitch, and foundation chains never worked into, make none."""
    count = np.where(kind == CHAINS, np.where(flags & FLAG_TURNING, 0, chains), 1)
    count[(flags & FLAG_JOIN) > 0] = 0
    for index in out.seam_rows:
        count[starts[index]:starts[index + 1]] = 0
    row_has = np.zeros(len(lengths), bool)
    chain_rows = np.unique(item_row[kind == FOUNDATION]) if (kind == FOUNDATION).any() else ()
    for index in chain_rows:
        here = slice(starts[index], starts[index + 1])
        into = (stands >= here.start) & (stands < here.stop)
        row_has[index] = into.any()
        if not into.any():
            count[here] = 0  # a ring of chains, or one undone
            continue
        plain = into & ((flags & FLAG_TURNING) == 0)
        lowest = int(stands[plain].min()) if plain.any() else here.start
        skipped = into & (stands < lowest)
        keep = lowest
        if skipped.any() and lowest > here.start:  # the skipped chains count as a stitch, which stands on the last of them
            keep = lowest - 1
            stands[skipped] = keep
        count[here.start:keep] = 0
    return count


def _sizes(out, rows, kinds, sizes_of):
    names = sorted({row.piece for row in rows})
    which = {name: index for index, name in enumerate(names)}
    width, height = np.zeros((len(names), len(kinds))), np.zeros((len(names), len(kinds)))
    for name, index in which.items():
        sizes = sizes_of(name)
        width[index], height[index] = [sizes.width(kind) for kind in kinds], [sizes.height(kind) for kind in kinds]
        width[index, FOUNDATION], height[index, :2] = sizes.width("sc"), sizes.width("sc")
    table = np.array([which[row.piece] for row in rows], np.int64)
    node_table = table[out.row] if out.n else np.empty(0, np.int64)
    out.width, out.height = width[node_table, out.kind], _evened(out, height[node_table, out.kind])
    riders = np.array([kind == "picot" for kind in kinds])
    out.rider = riders[out.kind]
    _along(out)


EVENED = np.array([1.0, 2.0, 3.0, 2.0, 1.0])


def _evened(out, height):
    """Heights within a row evened out over the stitches beside: a tall stitch between short ones is pressed down and stands out from the fabric."""
    which = np.flatnonzero(out.kind > FOUNDATION)
    half = len(EVENED) // 2
    if len(which) < 2:
        return height
    total, weight, own = np.zeros(len(which)), np.zeros(len(which)), height[which]
    row = out.row[which]
    for shift, share in zip(range(-half, half + 1), EVENED, strict=True):
        at = np.arange(len(which)) + shift
        fine = (at >= 0) & (at < len(which))
        at = np.clip(at, 0, len(which) - 1)
        fine &= row[at] == row
        total += np.where(fine, share * own[at], 0.0)
        weight += np.where(fine, share, 0.0)
    made = height.copy()
    made[which] = total / weight
    return made


def _along(out):
    passed = np.cumsum(out.width)
    out.along = passed - out.width / 2
    base = np.concatenate(([0.0], passed))[out.first]
    out.along = out.along - base[out.row]


def _sides(out, rows):
    """+1 where the right side faced the worker, by what the rows say, else turned from row to row."""
    side, now = [], 1
    for row in rows:
        now = 1 if row.side == "RS" else -1 if row.side == "WS" else -now if row.turned else now
        side.append(now)
    out.towards = np.array(side, np.int8)[out.row]


def _colours(out, rows):
    out.colours, known, now = [], {}, -1
    out.colour = np.empty(out.n, np.int16)
    for index, row in enumerate(rows):
        first, last = out.first[index], out.last[index]
        out.colour[first:last] = now
        for start, name in row.colours:
            if name not in known:
                known[name] = len(out.colours)
                out.colours.append(name)
            now = known[name]
            out.colour[first + np.searchsorted(out.place[first:last], start):last] = now


def _before(out, rows, indexes):
    out.before = np.arange(-1, out.n - 1)
    for at, row in enumerate(rows):
        first = out.first[at]
        if first == out.last[at]:
            continue
        anew = row.row is not None and any(isinstance(step, JoinYarn) for step in row.row.steps[:2])
        if anew or not at or (row.below >= 0 and row.below != indexes[at - 1]):
            out.before[first] = -1


def _feet(out, rows, items, stands, begin, count, starts, item_row):
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
