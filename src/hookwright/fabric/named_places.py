"""Places by name: same, first, last, the third, the top of the chain, the ring, the row ends."""

from bisect import bisect_left

from hookwright.notation.tree import Place

from . import kinds, layout
from .chain_sides import bridge, has_bridge, turn_to_other_side
from .edges import far_side
from .gaps import gaps_ahead, last_gap_or_space, next_gaps_and_spaces
from .group_ends import at_group_end
from .kinds import CHAINS, FOUNDATION, ROW_END
from .next_places import (
    NEXT,
    half_left,
    into_turning_chain,
    next_cells,
    next_groups,
    next_of_kind,
    next_spaces,
    next_stitches,
    pass_to,
    same_name,
    short,
)
from .reaching import before_top, count_of, far_space, find_stop, sized_spaces
from .worked import FLAG_COUNTS, FLAG_TURNING, FOOT_NONE


def _same(hand, place, reserve, asked):
    cell = hand.here if hand.here is not None else hand.begin
    if hand.lay.ring or cell is None or cell < 0:
        return [hand.into()]
    if place.of in ("sp", "corner") and hand.lay.kind[cell:cell + 1] != [CHAINS] and hand.bare_in is not None:
        cell = hand.bare_in
    elif place.of in ("sp", "corner") and hand.in_round and hand.lay.kind[cell:cell + 1] != [CHAINS] and hand.lay.spaces() and not hand.lay.closed and not any(flag & FLAG_COUNTS and not flag & FLAG_TURNING for flag in hand.flags):
        from .starting import begin_at, begin_in_gap

        if place.of == "sp" and hand.memory.get("gaps too") == "gap" and (ahead := gaps_ahead(hand)):
            begin_in_gap(hand, ahead[0] - 1)
            return [hand.into()]
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


def _first(hand, place, reserve, asked):
    lay = hand.lay
    count = count_of(hand, place, asked)
    if lay.ring:
        return [hand.into()]
    if place.group and (ends := at_group_end(hand, place, count)) is not None:
        return ends
    if place.of == "group" and lay.groups:
        hand.cur = min(hand.cur, lay.groups[0][0]) if not hand.stitches_made() or hand.tch_on is not None else hand.cur
        return next_groups(hand, Place("next", "group", count, chains=place.chains, group=place.group, part=place.part), reserve, None)
    if place.of == "sp" and place.chains is None and hand.memory.get("gaps too") and lay.groups:
        return next_gaps_and_spaces(hand, Place("next", "sp", count, span=place.span), reserve, asked)
    if place.of == "sp":
        found = lay.space_places()[:count]
        hand.spaces_worked = True
    elif place.of == "corner":
        found = lay.corner_cells()[:count]
    elif place.of == "ch" and count > 1 and lay.spaces() and count <= lay.size[lay.spaces()[0]]:
        found = lay.spaces()[:1] * count  # "sl st into first 3 ch of first loop"
    elif place.of in ("st", "ch", "st+sp", "join", "row", "pair"):
        found = lay.order[:count]
    else:
        found = (lay.of_kind(place.of) or lay.built_on(place.of) or lay.order)[:count]
        if place.of not in ("st",) and len(found) and found[0] != (lay.order[0] if lay.stitches else 0) and not lay.spaces():
            found = lay.order[:count] if hand.choose((id(place), "first"), 2, 1) else found
    if len(found) and hand.memory.get("pass") and found[-1] < hand.cur:  # "in first 3 sts ... repeat around": the next 3
        return next_cells(hand, Place("next", place.of, place.n, loop=place.loop, post=place.post, span=place.span), reserve, asked)
    if len(found) < count:
        if lay.n == 0:
            hand.stuck("no-such-place", wanted="first stitch", of=place.of, have=0, needed=count)
        short(hand, count)
    if not count:  # "in first 0 (2, 4) sts": none in this size
        return []
    hand.cur = max(hand.cur, found[-1] + 1)
    return list(found)


def _last(hand, place, reserve, asked):
    lay = hand.lay
    count = count_of(hand, place, asked)
    if lay.ring:
        return [hand.into()]
    if place.part == "sp" and lay.plain and lay.tops:
        place = Place("last", "sp", count, span=place.span)
    if place.of == "gap" and lay.groups:
        return next_cells(hand, Place("next", "gap", 1, group=place.group, span=place.span), reserve, asked)
    if (place.ordinal is not None or place.part) and place.group and place.of != "group" and lay.groups:  # "in 3rd dc of last shell"
        named = [g for g in lay.groups if same_name(g[2], place.group)] or lay.groups
        if named[-1][0] > hand.cur:
            hand.longest_pass = max(hand.longest_pass, lay.rank(named[-1][0]) - lay.rank(hand.cur))
            hand.cur = named[-1][0]
        if place.part:
            return next_cells(hand, Place("next", place.of, 1, group=place.group, part=place.part, span=place.span), reserve, asked)
        return _nth_of_group(hand, place, hand.number(place.ordinal) or 1)
    if (ends := at_group_end(hand, place, count)) is not None:
        return ends
    if place.of == "group" and lay.groups:
        if lay.groups[-1][0] < hand.cur:
            short(hand, count)
        hand.longest_pass = max(hand.longest_pass, lay.rank(lay.groups[-count][0]) - lay.rank(hand.cur))
        hand.cur = lay.groups[-count][0]
        return next_groups(hand, Place("next", "group", count, chains=place.chains, group=place.group, part=place.part), reserve, None)
    if place.of == "sp":
        if place.chains is None and hand.memory.get("gaps too") and lay.groups and (taken := last_gap_or_space(hand, count)):
            return taken
        found = lay.space_places()
        if place.chains is not None:
            found = sized_spaces(hand, place)
        size = hand.number(place.chains, None)
        if count == 1 and (not found or found[-1] < hand.cur or far_space(hand, size)) and into_turning_chain(hand, size):
            return [FOOT_NONE]
        hand.spaces_worked = True
    elif place.of == "corner":
        found = lay.corner_cells()
    elif place.of in ("st", "ch", "st+sp", "join", "row", "pair", "group"):
        found = lay.order
        if hand.memory.get("section") is not None:  # the last of a side, not of the round
            found = found[:lay.rank(find_stop(hand, hand.memory["section"]))]
    else:
        found = lay.of_kind(place.of) or lay.built_on(place.of) or lay.order
        if found and lay.rank(found[-1]) + 1 < lay.stitches and place.of != "st":
            if lay.plain and not hand.choose((id(place), "last"), 2, 1):
                found = lay.order
    if place.of not in ("sp", "corner"):
        found = before_top(hand, found)
    if len(found) < count or not len(found):
        short(hand, count)
    found = found[len(found) - count:] if count else []
    if len(found) and found[0] < hand.cur:
        if found[-1] == hand.here and found[-1] < hand.cur and count == 1 and hand.memory.get("ending"):
            hand.memory["renamed"] = True
            return [found[-1]]
        short(hand, count)
    if len(found):
        passed = lay.rank(found[0]) - lay.rank(hand.cur)
        under_chain = passed == hand.last_skip and hand.kind[-1:] == [CHAINS]  # "ch 3, dc in last sc" after "ch 3, skip 2, dc in next sc": the same skip, unsaid
        on_the_way = hand.spaces_worked and passed <= hand.longest_pass  # "5 dc in last sc" where each before was reached so
        if passed and place.of not in ("sp", "corner") and not under_chain and not on_the_way:
            hand.passed += passed
        elif passed:
            hand.longest_pass = max(hand.longest_pass, passed)
        if hand.spaces_worked and not lay.plain:
            hand.memory["spaces over"] = hand.memory.get("spaces over", 0) + sum(1 for cell in range(hand.cur, found[0]) if lay.kind[cell] == CHAINS)
        hand.cur = found[-1] + 1
        hand.sub = 0
    return list(found)


def _nth(hand, place, reserve, asked):
    lay = hand.lay
    ordinal = hand.number(place.ordinal) or 1
    if place.group and lay.groups:
        return _nth_of_group(hand, place, ordinal)
    if place.of == "ch" and not lay.plain and (place.chains is not None or lay.kind[hand.cur:hand.cur + 1] == [CHAINS]
                                               or lay.spaces()):
        found = next_spaces(hand, Place(of="sp", chains=place.chains, extent=place.extent, n=place.n), reserve, asked)
        return found
    if place.of == "sp":
        spaces = lay.spaces()
        at = bisect_left(spaces, hand.cur) + ordinal - 1
        if at >= len(spaces):
            short(hand, ordinal)
        pass_to(hand, [spaces[at]])
        return [spaces[at]]
    # counted on from the stitch last worked into, so that "sk 2, dc in 3rd st" says one thing twice
    start = lay.rank(hand.here + 1) if hand.here is not None and 0 <= hand.here < hand.cur else lay.rank(hand.cur)
    if hand.cur == 0 and hand.here is None:
        start = 0
    # "ch 3, dc in 2nd st": the chain stands on the first
    begun = hand.tch_on is not None and hand.here == hand.tch_on == 0 and hand.cur == 1 and sum(1 for flag in hand.flags if flag & FLAG_COUNTS) == 1
    words = "the stitch under the hook is not counted" if begun else "the stitch under the hook is counted as the first"
    if bool(hand.choose((id(place), "nth"), 2, 2, words, place.span)) != begun:
        start -= 1
    at = start + ordinal - 1
    found = lay.order if place.of in ("st", "ch", "group", "row") else lay.of_kind(place.of) or lay.order
    if found is not lay.order and len(found) != lay.stitches:
        at = bisect_left(found, lay.order[start] if start < lay.stitches else lay.n) + ordinal - 1
    if not 0 <= at < len(found):
        short(hand, ordinal)
    cell = found[at]
    between = lay.order[lay.rank(hand.cur):lay.rank(cell)] if cell > hand.cur else []
    if len(between):
        hand.skipped = list(between)
        hand.last_skip = max(hand.last_skip, len(between))
    hand.cur = max(hand.cur, cell + 1)
    if asked is not None and asked > 1:  # "hdc2tog over 2nd and 3rd sts"
        return [cell, *next_cells(hand, Place("next", place.of, asked - 1, span=place.span), reserve, asked - 1)]
    return [cell]


def _nth_of_group(hand, place, ordinal):
    """"In 3rd dc of next shell": a stitch counted within the next group."""
    lay = hand.lay
    groups = [g for g in lay.groups if g[1] > hand.cur]
    named = [g for g in groups if same_name(g[2], place.group)]
    groups = [g for g in named if g[0] >= hand.cur or _reached(lay, g, hand.cur, ordinal)] or [
        run for g in groups for run in _runs(lay, g) if run[0] >= hand.cur or _reached(lay, run, hand.cur, ordinal)]
    if not groups and half_left(hand) and ordinal > 1:
        pass_to(hand, [lay.order[-1]])
        return [lay.order[-1]]
    if not groups:
        hand.stuck("no-such-place", wanted=place.group, of="group", have=0, needed=1)
    start, end, _ = groups[0]
    wanted = kinds.number(place.of) if place.of not in ("st", "ch", "sp", "group") else None
    inside = [i for i in range(start, end) if (lay.kind[i] == CHAINS) == (place.of == "sp") and wanted in (None, lay.kind[i])]
    if ordinal > len(inside):
        hand.stuck("no-such-place", wanted=f"stitch {ordinal} of {place.group}", of="group", have=len(inside), needed=ordinal)
    cell = inside[ordinal - 1]
    hand.spaces_worked = True
    if start < hand.cur == cell:  # led to stitch by stitch: on from there, too
        hand.cur, hand.sub = cell + 1, 0
        return [cell]
    hand.longest_pass = max(hand.longest_pass, lay.rank(cell) - lay.rank(hand.cur), lay.rank(end) - lay.rank(cell) - 1)
    hand.cur, hand.sub = end, 0
    hand.memory["rest of group"] = (end, end - 1 - cell)
    return [cell]


def _reached(lay, group, cur: int, ordinal: int) -> bool:
    """Whether the hook stands before just that stitch of a group whose first ones were skipped ("sk 2 dc, sc in 3rd dc of shell")."""
    return group[0] < cur < group[1] and lay.kind[cur] != CHAINS and lay.rank(cur) - lay.rank(group[0]) == ordinal - 1


def _runs(lay, group):
    """A group taken apart at its chain spaces: "(3 dc, ch 2, 3 dc)" is two groups of 3 dc to whoever counts groups of 3 dc."""
    start, end, name = group
    at = start
    for cell in range(start, end + 1):
        if cell == end or lay.kind[cell] == CHAINS:
            if cell > at:
                yield at, cell, name
            at = cell + 1


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
        found = _last(hand, Place("last", "st", 1), reserve, asked)
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


def _row_ends(hand, place, reserve, asked):
    if hand.lay.kind[:1] != [ROW_END] and hand.sequence is not None:
        edge = hand.sequence.row_ends(hand)
        if edge is not None:
            if hand.in_round and hand.memory.get("edges") and place.extent is not None and hand.choose(
                (id(place), "sides"), 2, 1, ("the row ends of one side", "the row ends of both sides"), place.span
            ):
                edge = layout.row_ends(2 * edge.n)
            hand.change(edge)
    return next_stitches(hand, _like_next(place), reserve, asked)


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
            found = hand.sequence.free_loops(hand, place) if place.row is not None else hand.sequence.unworked(hand)
        if found is not None:
            hand.change(found)
    found = _first if place.which in ("first", "any") and hand.cur == 0 and place.extent is None else next_cells
    return found(hand, Place("next", "st", place.n, place.extent, loop=place.loop, span=place.span), reserve, asked)


NAMED = {
    "same": _same, "first": _first, "last": _last, "nth": _nth, "from hook": _from_hook, "ring": _ring,
    "chain top": _chain_top, "skipped": _skipped, "beginning": _beginning, "below": _below, "row ends": _row_ends,
    "other side": _other_side, "free loops": _free_loops, "marked": _marked, "any": _any,
}
