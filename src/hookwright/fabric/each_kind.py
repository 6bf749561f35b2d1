""""In each st and 2 in each ch-1 sp": place by place, each worked as its kind is."""

from hookwright.notation.tree import Each, Group, Stitch

from . import kinds
from .edges import round_flat
from .hand import Hand
from .kinds import CHAINS
from .needs import need, stitch_kind
from .reaching import end_of, find_stop, made_so_far
from .stitching import remember


def work_each(hand: Hand, step: Each, steps, index, after):
    """Place by place: each is worked as the part that names its kind says."""
    lay = hand.lay
    if lay.ring:
        hand.stuck("no-end", words="a ring has no places to be worked one after the other")
    hand.starting = False
    if (hand.in_round or lay.plain) and round_flat(hand, step):
        return
    extent = step.extent
    if extent.kind == "last":
        stop = end_of(hand, extent.of, hand.number(extent.n) or 0)
    elif extent.kind == "place":
        stop = find_stop(hand, extent.place)
    else:
        more = need(hand, steps, index + 1) or 0
        stop = lay.order[lay.stitches - more] if more else lay.n
    corners = ()
    if any(_in_corners(part) for part in step.parts):
        corners = set(lay.corner_cells() or lay.corner_stitches()) or {side * lay.n // 4 for side in range(4)}  # corner stitches of a plain round: its quarters
    gap_of = ("gap", "sp") if hand.memory.get("gaps too") else ("gap",)
    gaps = lay.gaps() if any(part.place.of in gap_of for part in step.parts) else None
    if corners and gaps and lay.plain and hand.in_round and len(gaps) % 4 == 0 and not lay.corner_cells():
        corners = set(sorted(gaps)[len(gaps) // 4 - 1::len(gaps) // 4])  # groups side by side with no chain: a square's corners are four of the gaps
    marked = next((part for part in step.parts if part.place.which == "marked"), None)
    parts = step.parts if marked is None else [part for part in step.parts if part is not marked]
    at_marks = frozenset() if marked is None else _marked_cells(hand, marked, stop)
    while hand.cur < stop and hand.lay is lay:
        cell = hand.cur
        part = marked if cell in at_marks else _part_for(hand, parts, cell, corners, gaps, gap_of)
        if part is None:
            if lay.kind[cell] != CHAINS:
                hand.longest_pass = max(hand.longest_pass, 1)
            hand.cur = cell + 1
            continue
        work_part(hand, part, cell)
        hand.cur, hand.sub = cell + 1, 0
    hand.bare_in = None
    if not lay.plain:
        hand.spaces_worked = True
    if hand.memory.get("detour") is not None and hand.lay is lay and hand.cur >= lay.n and extent.kind == "end":
        below, cur, _ = hand.memory.pop("detour")  # "ch 6, sc in 2nd ch from hook and in each ch and st across": on over the row below
        hand.change(below, cur)
        work_each(hand, step, steps, index, after)


def _in_corners(part) -> bool:
    """Whether a part goes into corners: "3 sc in center st of each 3-sc group" does."""
    return part.place.of == "corner" or part.place.part == "center" and bool(part.place.group)


def _marked_cells(hand, part, stop) -> frozenset:
    """The marked stitches, where nobody says which: so many as the row says or its count shows, spread evenly."""
    lay, count = hand.lay, hand.number(part.place.n, None)
    cells = [cell for cell in range(hand.cur, stop) if lay.kind[cell] != CHAINS]
    if count is None:
        more = (max(2, part.legs or 2) if isinstance(part, Stitch) and part.kind == "inc" else hand.number(part.n) if isinstance(part, Stitch) else 0) - 1
        asked = hand.memory.get("stated", 0) - made_so_far(hand) - len(cells)
        if more < 1 or asked < 1 or asked % more:
            hand.stuck("unread", words="each marked st")
        count = asked // more
    if count > len(cells):
        hand.stuck("runs-out", there=len(cells), left=len(cells), needed=count)
    return frozenset(cells[(2 * index + 1) * len(cells) // (2 * count)] for index in range(count))


def _part_for(hand, parts, cell, corners, gaps, gap_of):
    """The part that names this cell's kind most closely; None where none does. gaps: cells after which a gap between groups lies."""
    lay = hand.lay
    best, points = None, 0
    if gaps and lay.kind[cell] != CHAINS:
        at_gap = next((part for part in parts if part.place.of in gap_of and part.place.chains is None), None)
        if cell in gaps and at_gap is not None:
            return next((part for part in parts if _in_corners(part)), at_gap) if cell in corners else at_gap
        parts = [part for part in parts if part.place.of != "gap"]
    for part in parts:
        of, chains = "corner" if _in_corners(part) else part.place.of, hand.number(part.place.chains, None)
        if lay.kind[cell] == CHAINS:
            if of not in ("sp", "corner", "st+sp", "ch") or chains is not None and chains != lay.size[cell] or of == "corner" and cell not in corners:
                continue
            score = 4 if of == "corner" else 3 if chains is not None else 2 if of == "sp" else 1
        elif cell in corners and of == "corner":
            score = 5
        else:
            name = kinds.NAMES[lay.kind[cell]]
            if of in ("sp", "corner", "ch"):
                continue
            score = 4 if of == name else 3 if kinds.plain_of(name) == of else 2 if of in ("st", "st+sp") else 0
        if score > points:
            best, points = part, score
    if best is None and lay.kind[cell] != CHAINS:  # a name used for whatever stitch is there
        best = next((part for part in parts if part.place.of not in ("sp", "corner", "ch", "st+sp")), None)
    return best


def work_part(hand, part, cell):
    if isinstance(part, Group):
        from .stepping import run

        start, saved = len(hand.kind), hand.inside
        hand.inside = cell
        hand.level += 1
        try:
            run(hand, part.steps)
        finally:
            hand.level -= 1
            hand.inside = saved
        if len(hand.kind) - start > 1:
            hand.groups[start] = (len(hand.kind) - start, part.name)
    else:
        kind = stitch_kind(hand, part)
        loop = part.loop or part.place.loop or hand.row_loop
        count = (hand.number(part.n) or 0) * (max(2, part.legs or 2) if part.kind == "inc" else 1)
        if part.place.of == "ch" and hand.lay.kind[cell] == CHAINS:
            count *= hand.lay.size[cell]
        hand.make_into(kind, cell, count, loop)
    remember(hand, cell)
