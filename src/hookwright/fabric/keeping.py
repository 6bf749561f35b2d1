"""A worked row takes its place in the fabric, and what it leaves behind is kept for the rows to come."""

from array import array

from hookwright.ground import NOWHERE

from . import kinds, layout
from .choosing import SOFT
from .hand import TooMuch
from .kinds import FOUNDATION
from .row_below import base_of
from .row_signs import label_of, unread_in
from .rowwork import layout_of
from .stated import total_stated
from .views import copy_layout
from .worked import FLAG_TURNING, FOOT_NONE, Trouble, WorkedRow


def keep(sequence, piece, row, source, size, number, thread, lay, turned, made, taken, in_round, stated):
    extra = made.end
    made.assumed = made.assumed + taken
    made.row, made.piece, made.number = sequence.stand_ins.get(id(row), row), piece.name if piece is not None else "", number
    made.source = source
    made.label = label_of(row, source, number)
    made.below = thread.last
    turned_end = made.turned
    made.turned = turned
    if made.in_round and in_round is False and not thread.fabric.rows:
        in_round = made.in_round
    in_round = made.in_round or in_round
    made.in_round = in_round
    if extra.get("foundation") and thread.last < 0:
        if extra.get("base") is not None and not extra["base"].ring:  # a row that is the foundation and nothing else
            foundation_columns(made, extra["foundation"])
        else:
            thread.last = foundation_row(sequence, thread, extra["foundation"], piece)
            made.below = thread.last
    if not thread.side:
        thread.side = "RS"
        if row.side:
            thread.side = row.side
    elif turned:
        thread.side = "WS" if thread.side == "RS" else "RS"
    made.side = thread.side
    if row.side and row.side != made.side and row.again is None:
        made.troubles = made.troubles + [Trouble("side-differs", row.label_span if row.label_span != NOWHERE else row.span,
                                                 {"said": row.side, "found": made.side})]
        thread.side = made.side = row.side
    sequence.made += len(made.kind)
    if sequence.made > sequence.limit * max(1, len(sequence.sizes)) or len(made.kind) > sequence.limit:
        raise TooMuch(sequence.made, row.span)
    thread.fabric.rows.append(made)
    thread.last = len(thread.fabric.rows) - 1
    thread.in_round = in_round
    thread.turned_end = turned_end
    thread.carried = extra.get("carried")
    if extra.get("took rest") and thread.rests:
        thread.rests.pop()
    rest = extra.get("rest")
    if extra.get("home") is not None:
        made.below = extra["home"]
    if rest is not None and rest.n:
        rest = copy_layout(rest)
        rest.home = made.below
        thread.rests.append(rest)
    for opening, cells, chain in extra.get("openings") or ():
        opening = copy_layout(opening)
        opening.home = made.below
        if chain is not None:
            opening.far = dict.fromkeys(range(cells, opening.n), (thread.last, chain))
        thread.rests.append(opening)
    total = total_stated(sequence, stated, size) if made.troubles else 0
    broken = off = made.troubles
    if made.troubles:
        broken = [t for t in made.troubles if t.kind not in ("count", "other-space", "left-differs", "side-differs", "left-over")]
        off = [t for t in made.troubles if t.kind not in SOFT]
    if off and total and total != made.stitches and (made.unworked or len(sequence.sizes) < 2 or any(t.kind != "unread" for t in off)) and (not made.kind or _not_read(sequence, row, source)):
        main = max(made.by_kind, key=made.by_kind.get) if made.by_kind else kinds.plain_of(base_of(sequence, source, thread, thread.lay))
        made.end = {**extra, "stated": (total, main)}  # words of it are not known: what the designer states is the best that is known of it
        broken = off
    if broken and total and total != made.stitches:
        main = max(made.by_kind, key=made.by_kind.get) if made.by_kind else kinds.plain_of(base_of(sequence, source, thread, thread.lay))
        thread.lay = layout.plain(main, min(total, sequence.limit))
    elif extra.get("base") is not None:
        thread.lay = extra["base"]
        thread.in_round = True if thread.lay.joined else None
    elif broken and not made.kind and lay is not None:
        pass  # nothing of it could be worked: the row below stays what it was
    else:
        thread.lay = layout_kept(sequence, made)


def _not_read(sequence, row, source) -> bool:
    """Whether some words of the row, or of the reference by which it is worked, could not be read or may say more than is understood."""
    key = ("not read", id(row), id(source))
    found = sequence.memo.get(key)
    if found is None:
        found = sequence.memo[key] = unread_in(source.steps) or row is not source and unread_in([*row.steps, *row.notes])
    return found


def layout_kept(sequence, made):
    key = ("lay", id(made.kind))
    found = sequence.memo.get(key)
    if found is None or found[0] is not made.kind:
        found = (made.kind, layout_of(made))
        sequence.memo[key] = found
    return found[1]


def foundation_row(sequence, thread, chains, piece) -> int:
    """The foundation chain as a row of its own, so that the first row's stitches stand on something."""
    base = WorkedRow("Foundation", None, None, piece.name if piece is not None else "")
    foundation_columns(base, chains)
    thread.fabric.rows.append(base)
    return len(thread.fabric.rows) - 1


def foundation_columns(row, chains):
    row.kind, row.foot = array("H", [FOUNDATION]) * chains, array("i", [FOOT_NONE]) * chains
    row.chains, row.flags = array("H", [1]) * chains, array("B", [FLAG_TURNING]) * chains


def rest_of(sequence, hand):
    """What the row left of the row below, for a later rejoining."""
    lay = hand.lay
    if not hand.kind or lay.kind[:1] == [FOUNDATION]:
        return None  # a chain that is only begun is no row left unworked
    if lay.ring or hand.memory.get("edges") or hand.cur >= lay.n or hand.other_side is not None:
        return None
    cur = hand.cur
    item = lay.item or range(lay.n)
    return layout.Layout(lay.kind[cur:], lay.size[cur:], list(item[cur:]), (), (), [t - cur for t in lay.tops if t >= cur])
