"""The worked rows of a part as nodes and the places they stand on, in whole columns: a node is the top of a stitch or one chain of a run."""

from dataclasses import dataclass, field

import numpy as np

from hookwright.fabric import CHAINS, FLAG_JOIN, FLAG_TURNING
from hookwright.notation.tree import JoinYarn

from .feet import stand
from .lace import lean_ends, settled_widths
from .parts import onto_of, stands_on_nothing

FOUNDATION = 1
RING = -2


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
    for index, row in enumerate(rows):
        if row.in_round and out.below[index] >= 0 and not rows[out.below[index]].in_round and (stands_on_nothing(row) or out.onto.get(index) == "edge"):
            out.onto[index] = "around"
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
    stand(out, rows, items, stands, begin, count, starts, item_row)
    factor = settled_widths(out)
    if factor is not None:
        out.width *= factor[out.row]
        _along(out)
        stand(out, rows, items, stands, begin, count, starts, item_row)
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
    round_ = np.array([row.in_round and not row.turned for row in rows])
    count = out.last - out.first
    if (count * round_ * np.array(side)).sum() < 0:  # rounds are seen from the right side: what a strip before them calls its sides gives way
        side = [-each for each in side]
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
