"""Places by name: same, the top of the chain, skipped, the ring, the row ends, the other side; by number: ordinal_places."""

import re

from hookwright.notation.tree import Place

from . import layout
from .chain_sides import bridge, has_bridge, turn_to_other_side
from .edges import far_side
from .gaps import gaps_ahead
from .kinds import CHAINS, FOUNDATION, ROW_END
from .next_places import (
    NEXT,
    next_cells,
    next_of_kind,
    next_spaces,
    next_stitches,
)
from .ordinal_places import first_places, last_places, nth_places
from .reaching import count_of
from .worked import FLAG_COUNTS, FLAG_TURNING


def _same(hand, place, reserve, asked):
    cell = hand.here if hand.here is not None else hand.begin
    if hand.lay.ring or cell is None or cell < 0:
        return [hand.into()]
    if place.of in ("sp", "corner") and hand.lay.kind[cell:cell + 1] != [CHAINS] and hand.bare_in is not None:
        cell = hand.bare_in
    elif place.of in ("sp", "corner") and hand.in_round and hand.lay.kind[cell:cell + 1] != [CHAINS] and (hand.lay.spaces() or place.of == "sp" and hand.memory.get("gaps too")) and not hand.lay.closed and not any(flag & FLAG_COUNTS and not flag & FLAG_TURNING for flag in hand.flags):
        from .starting import begin_at, begin_in_gap

        if place.of == "sp" and hand.memory.get("gaps too") == "gap" and (ahead := gaps_ahead(hand)):
            begin_in_gap(hand, ahead[0] - 1)
            return [hand.into()]
        if not hand.lay.spaces():
            return [cell]
        begin_at(hand, hand.lay.corner_cells()[0] if place.of == "corner" and hand.lay.corner_cells() else hand.lay.spaces()[0])  # the round begins in a space, though nothing led there
        cell = hand.here
    elif place.of == "sp" and hand.lay.closed and hand.here in (None, hand.begin) and hand.cur == hand.begin and hand.lay.kind[cell:cell + 1] == [CHAINS] and asked is None:
        return [hand.lay.n - 1] * max(1, count_of(hand, place, asked))  # "in loop just formed": the one that closed the round, not the first of it
    if cell >= hand.lay.n:
        hand.stuck("no-such-place", wanted="same stitch", of=place.of, have=hand.lay.n, needed=cell + 1)
    if cell >= hand.cur:
        hand.cur = cell + 1
    if asked is not None and (hand.number(place.n) or 1) > 1:  # "sc2tog over same st and next st"
        return [cell, *next_cells(hand, Place("next", place.of, place.n, loop=place.loop, post=place.post, span=place.span), reserve, asked - 1)]
    return [cell] * max(1, count_of(hand, place, asked) if asked is None else 1)


def _chain_top(hand, place, reserve, asked):
    lay = hand.lay
    if lay.ring:
        return [hand.into()]
    tops = sorted(c for c in lay.tops if c >= hand.cur)
    if tops:
        cell = tops[-1] if not hand.in_round or tops[-1] == lay.n - 1 else tops[0]
        passed = lay.rank(cell) - lay.rank(hand.cur)
        if passed > 0 and not hand.spaces_worked:
            hand.passed += passed
        elif passed > 0:
            hand.longest_pass = max(hand.longest_pass, passed)
        hand.cur, hand.sub = cell + 1, 0
        return [cell]
    if hand.left() <= 0 and hand.memory.get("ending") and hand.here is not None and hand.here == lay.order[-1]:
        hand.memory["renamed"] = True
        return [hand.here]
    if hand.left() > 0:
        found = last_places(hand, Place("last", "st", 1), reserve, asked)
        if found and lay.kind[found[0] - 1:found[0]] == [CHAINS] and hand.memory.get("spaces over"):
            hand.memory["spaces over"] -= 1  # "sc in 3rd ch of turning ch-4": the space beside it is of the same chain
        return found
    if lay.hook_chain:
        hand.stuck("no-such-place", wanted="top of the turning chain", of="chain top", have=0, needed=1)
    spaces = [i for i in lay.spaces() if i >= hand.cur]
    if spaces:  # a chain that stands for stitch and space at the far edge
        hand.cur = spaces[-1] + 1
        return [spaces[-1]]
    if hand.in_round and lay.n:
        return [0]
    hand.stuck("no-such-place", wanted="top of the turning chain", of="chain top", have=0, needed=1)


def _skipped(hand, place, reserve, asked):
    if hand.memory.get("rejoined") or not hand.skipped and not hand.stitches_made() and place.extent is None:  # skipped in an earlier row: they lie here now
        return next_stitches(hand, _like_next(place), reserve, asked)
    count = count_of(hand, place, asked) if place.extent is None else len(hand.skipped)
    if len(hand.skipped) < count or not hand.skipped:
        hand.stuck("no-such-place", wanted="skipped stitch", of="skipped", have=len(hand.skipped), needed=count)
    found, hand.skipped = hand.skipped[:count], hand.skipped[count:]
    hand.memory["skips"] = max(0, hand.memory.get("skips", 0) - count)
    if not hand.skipped:
        hand.last_skip = 0  # gone back to: none of them was passed over for good
    return found


def _beginning(hand, place, reserve, asked):
    if hand.other_side is not None and place.of in ("st", "ch") and hand.left() == 1:
        hand.cur = hand.lay.n  # along the other side the first chain is the last
        return [hand.lay.order[-1]]
    return [hand.into() if hand.lay.ring else hand.begin]


def _ring(hand, place, reserve, asked):
    lay = hand.lay
    if lay.ring:
        return [hand.into()]
    if hand.bare_in is not None:
        return [hand.bare_in]
    if lay.joined and lay.kind[:1] == [FOUNDATION]:
        hand.change(layout.ring())
        return [hand.into()]
    if lay.spaces():
        return next_spaces(hand, Place(of="sp"), reserve, 1)
    hand.change(layout.ring())
    return [hand.into()]


def _from_hook(hand, place, reserve, asked):
    ordinal = hand.number(place.ordinal) or 1
    count = asked or 1
    if ordinal + count - 1 > hand.lay.n:
        hand.stuck("runs-out", there=hand.lay.n, left=hand.lay.n, needed=ordinal + count - 1)
    hand.cur = max(hand.cur, ordinal + count - 1)
    return list(range(ordinal - 1, ordinal + count - 1))


_NO_SEAM = re.compile(r"\b(?:not|except\w*|skip\w*|miss\w*|exclud\w*|ignor\w*|without|but|leav\w*)\b[^.;]{0,30}\bseam", re.I)


def _row_ends(hand, place, reserve, asked):
    if hand.lay.kind[:1] != [ROW_END] and hand.sequence is not None:
        edge = hand.sequence.row_ends(hand)
        if edge is not None:
            if hand.in_round and hand.memory.get("edges") and place.extent is not None and hand.choose(
                (id(place), "sides"), 2, 1, ("the row ends of one side", "the row ends of both sides"), place.span
            ):
                edge = layout.row_ends(2 * edge.n)
            seams = hand.sequence.seams() if place.extent is not None and edge.n > 2 else 0
            if seams and _without_seams(hand, place):
                edge = layout.row_ends(edge.n - seams)
            hand.change(edge)
    return next_stitches(hand, _like_next(place), reserve, asked)


def _without_seams(hand, place) -> bool:
    """Whether the end of the row that closes the piece is passed over: so it is said, or the count shows it."""
    said = bool(_NO_SEAM.search(hand.sequence.source.text))
    ways = ("the end of the seam is a row end, too", "the end of the seam is passed over")
    return bool(hand.choose((id(place), "seams"), 2, 1, ways[::-1] if said else ways, place.span)) != said


def _like_next(place):
    return Place("next", "st", place.n, place.extent, loop=place.loop, post=place.post, span=place.span)


def _other_side(hand, place, reserve, asked):
    if hand.other_side is None and hand.memory.get("edges") and hand.lay.kind[:1] != [FOUNDATION] and hand.sequence is not None:
        return far_side(hand, place, asked)
    if hand.memory.get("unworked") and FOUNDATION in hand.lay.kind:
        return next_stitches(hand, _like_next(place), reserve, asked)
    if has_bridge(hand):
        return bridge(hand, place, asked)
    if hand.other_side is None:
        turn_to_other_side(hand)
    return next_stitches(hand, _like_next(place), reserve, asked)


def _free_loops(hand, place, reserve, asked):
    if hand.sequence is not None and not hand.memory.get("free"):
        free = hand.sequence.free_loops(hand, place)
        if free is not None:
            hand.memory["free"] = True
            hand.change(free)
    return next_stitches(hand, _like_next(place), reserve, asked)


def _marked(hand, place, reserve, asked):
    cell = hand.marks.pop("next", None)
    if cell is not None and cell >= hand.cur:
        hand.cur = cell + 1
        return [cell]
    return next_stitches(hand, Place(n=1), reserve, 1)


def _any(hand, place, reserve, asked):
    found = NEXT.get(place.of) or next_of_kind
    return found(hand, Place("next", place.of, 1, chains=place.chains, group=place.group, part=place.part), reserve, 1)


def _below(hand, place, reserve, asked):
    cur, lay = hand.cur, hand.lay
    if cur < lay.n and lay.kind[cur] == CHAINS and place.extent is None:  # worked over the chains that pass the stitches meant
        hand.cur, hand.sub = cur + 1, 0
        return [cur] * (count_of(hand, place, asked) or 1)
    found = next_stitches(hand, Place(n=place.n, extent=place.extent), reserve, asked)
    if hand.memory.pop("behind", False):  # the stitch behind it is skipped in so many words
        hand.cur = cur
    return found


def left_open(hand, place, reserve, asked):
    """Stitches left unworked before, and the free side of the chain over them; or the free loops of a row said by number."""
    if not hand.memory.get("unworked"):
        hand.memory["unworked"] = True
        found = None
        if hand.sequence is not None:
            found = hand.sequence.unworked(hand, place.row)
            if found is None and place.row is not None:
                last = hand.sequence.unworked(hand)  # "the 9 unworked sts of Row 2" where that row is worked again under another number
                found = last if last is not None and last.stitches == hand.number(place.n, 0) else hand.sequence.free_loops(hand, place)
        if found is not None:
            hand.change(found)
    found = first_places if place.which in ("first", "any") and hand.cur == 0 and place.extent is None else next_cells
    return found(hand, Place("next", "st", place.n, place.extent, loop=place.loop, span=place.span), reserve, asked)


NAMED = {
    "same": _same, "first": first_places, "last": last_places, "nth": nth_places, "from hook": _from_hook, "ring": _ring,
    "chain top": _chain_top, "skipped": _skipped, "beginning": _beginning, "below": _below, "row ends": _row_ends,
    "other side": _other_side, "free loops": _free_loops, "marked": _marked, "any": _any,
}
