"""Places by number: the first, the last, the third, and the third stitch of the next group."""

from bisect import bisect_left

from hookwright.notation.tree import Place

from . import kinds
from .gaps import last_gap_or_space, next_gaps_and_spaces
from .group_ends import at_group_end, begun_within
from .kinds import CHAINS
from .next_places import half_left, into_turning_chain, next_cells, next_groups, next_spaces, pass_to, same_name, short
from .reaching import before_top, count_of, far_space, find_stop, sized_spaces
from .worked import FLAG_COUNTS, FOOT_NONE


def first_places(hand, place, reserve, asked):
    """Cells of "first st", "first 3 sts", "first ch-2 sp"."""
    lay = hand.lay
    count = count_of(hand, place, asked)
    if lay.ring:
        return [hand.into()]
    if place.group and (ends := at_group_end(hand, place, count)) is not None:
        return ends
    if place.of == "group" and not lay.groups and place.group and lay.spaces() and not hand.cur:
        return next_groups(hand, Place("next", "group", count, chains=place.chains, group=place.group, part=place.part), reserve, None)  # V-sts told stitch by stitch
    if place.of == "group" and lay.groups:
        hand.cur = min(hand.cur, lay.groups[0][0]) if not hand.stitches_made() or hand.tch_on is not None else hand.cur
        return next_groups(hand, Place("next", "group", count, chains=place.chains, group=place.group, part=place.part), reserve, None)
    if place.of == "sp" and place.chains is None and hand.memory.get("gaps too") and lay.groups:
        return next_gaps_and_spaces(hand, Place("next", "sp", count, span=place.span), reserve, asked)
    if place.of == "gap" and lay.groups and not hand.cur:
        return next_cells(hand, Place("next", "gap", count, group=place.group, span=place.span), reserve, asked)
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


def last_places(hand, place, reserve, asked):
    """Cells of "last st", "last 3 sts", "last sp"."""
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
        if hand.memory.get("section") is not None:
            stop = find_stop(hand, hand.memory["section"])
            found = [cell for cell in found if hand.cur <= cell < stop] or found
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


def nth_places(hand, place, reserve, asked):
    """Cells of "third st", "3rd dc of next shell"."""
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
    if "begun within" in hand.memory and (begun := begun_within(hand, place.group, ordinal)):
        return begun
    lay = hand.lay
    groups = [g for g in lay.groups if g[1] > hand.cur]
    named = [g for g in groups if same_name(g[2], place.group)]
    groups = [g for g in named if g[0] >= hand.cur or _reached(lay, g, hand.cur, ordinal)] or [
        run for g in groups for run in _taken_apart(lay, g, ordinal) if run[0] >= hand.cur or _reached(lay, run, hand.cur, ordinal)]
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


def _taken_apart(lay, group, ordinal: int):
    """The runs of a group; the whole of it where no run has so many stitches ("2nd dc of next fan" of dc, ch 1, dc, ch 1, dc)."""
    runs = list(_runs(lay, group))
    return [group] if len(runs) > 1 and all(end - start < ordinal for start, end, _ in runs) else runs


def _runs(lay, group):
    """A group taken apart at its chain spaces: "(3 dc, ch 2, 3 dc)" is two groups of 3 dc to whoever counts groups of 3 dc."""
    start, end, name = group
    at = start
    for cell in range(start, end + 1):
        if cell == end or lay.kind[cell] == CHAINS:
            if cell > at:
                yield at, cell, name
            at = cell + 1
