"""From a Place to the cells of the row below that it means, and where the hook stands afterwards."""

import re
from bisect import bisect_left

from hookwright.notation.tree import Place

from . import kinds, layout
from .hand import Hand
from .kinds import CHAINS, FOUNDATION, ROW_END
from .worked import FLAG_TURNING, FOOT_NONE

NEXT_STITCH = Place()


def cells(hand: Hand, place: Place, reserve: int = 0, asked: int | None = None):
    """The cells meant, in working order (a range or a list); moves the hook past them.

    reserve: stitches at the end that later steps of the row need; asked: how many places to take instead of place.n.
    Raises Stuck where they are not there.
    """
    which = place.which
    detour = hand.memory.get("detour")
    if detour is not None and which not in ("from hook", "same") and not (place.of == "ch" and which in ("next", "first", "last")
                                                                         and hand.left() > 0):
        lay, cur, _ = hand.memory.pop("detour")
        hand.change(lay, cur)
    if "unworked" in (place.of, place.group):
        return _left_open(hand, place, reserve, asked)
    if place.of == "sp" and hand.lay.kind[:1] == [FOUNDATION]:  # "loop" said of a chain of the foundation
        place = Place(which, "ch", place.n, place.extent, place.ordinal, span=place.span)
    if hand.lay.ring and hand.lay.hook_chain and (place.extent is not None or place.of == "ch") and which in ("next", "first"):
        hand.change(layout.foundation(hand.lay.hook_chain, joined=True))
    if hand.lay.ring and which in ("next", "same", "first", "last", "nth", "any"):
        if which == "next" and place.of == "st" and place.extent is not None:
            hand.stuck("no-end", words="a ring has no stitches to be worked one after the other")
        return [hand.into()]
    if place.layers == 2:
        fold(hand, place)
    if which == "next":
        if place.part and place.of != "group":
            return _part(hand, place)
        found = _OF.get(place.of)
        return found(hand, place, reserve, asked) if found else _of_kind(hand, place, reserve, asked)
    return _WHICH[which](hand, place, reserve, asked)


def _count(hand, place, asked):
    if asked is not None:
        return asked
    count = hand.number(place.n)
    return 0 if count is None else count


def _stop(hand: Hand, place: Place, reserve: int) -> int:
    """Rank of the stitch before which an extent ends."""
    lay, extent = hand.lay, place.extent
    if extent.kind == "end":
        return lay.stitches - reserve
    if extent.kind == "last":
        keep = hand.number(extent.n) or 0
        return lay.rank(end_of(hand, extent.of, keep))
    if extent.kind == "place":
        return lay.rank(find_stop(hand, extent.place))
    if extent.kind == "half":
        return lay.rank(hand.cur) + (lay.stitches - lay.rank(hand.cur)) // 2 if hand.cur else lay.stitches // 2
    if extent.kind == "until":
        return lay.rank(hand.cur) + max(0, (hand.number(extent.n) or 0) - made_so_far(hand))
    return lay.stitches - reserve


def made_so_far(hand: Hand) -> int:
    """Stitches made in this row so far."""
    return sum(1 for flag in hand.flags if flag & 1)


def end_of(hand: Hand, of: str, keep: int) -> int:
    """The cell at which exactly `keep` of `of` are left before the end."""
    lay = hand.lay
    if of in ("st", "ch", "st+sp") or not keep:
        found = lay.order
    elif of == "sp":
        found = lay.space_places()
    elif of == "corner":
        found = lay.corner_cells()
    elif of == "group" and lay.groups:
        found = [start for start, _, _ in lay.groups]
    else:
        found = lay.of_kind(of) or lay.built_on(of) or lay.order
    if keep > len(found):
        hand.stuck("runs-out", there=len(found), needed=keep)
    return found[len(found) - keep] if keep else lay.n


def find_stop(hand: Hand, place: Place | None) -> int:
    """The cell at which the next place of this sort lies, at or after the hook; the end where there is none."""
    lay = hand.lay
    if place is None:
        return lay.n
    if place.which == "marked":
        return hand.marks.get("next", lay.n)
    if place.which == "chain top":
        tops = [top for top in sorted(lay.tops) if top >= hand.cur]
        return tops[-1] if tops else (lay.order[-1] if lay.stitches else lay.n)
    if place.which in ("last",):
        return end_of(hand, place.of, hand.number(place.n) or 1)
    if place.which == "last" and place.of in ("sp", "corner"):
        found = lay.corner_cells() if place.of == "corner" else _sized(hand, place)
        return found[-1] if found and found[-1] >= hand.cur else lay.n
    if place.of in ("sp", "corner"):
        found = lay.corner_cells() if place.of == "corner" else _sized(hand, place)
    elif place.of == "group":
        found = [start for start, _, _ in lay.groups]
    elif place.of == "st":
        return min(hand.cur, lay.n)
    else:
        found = lay.of_kind(place.of) or lay.built_on(place.of)
    at = bisect_left(found, hand.cur)
    return found[at] if at < len(found) else lay.n


def _sized(hand, place):
    """Space cells of the size meant; all spaces where none has it."""
    spaces = hand.lay.space_places()
    size = hand.number(place.chains, None)
    if size is None:
        return spaces
    return [i for i in spaces if hand.lay.size[i] == size] or spaces


# ---------------------------------------------------------------- the next ...

def _of_stitch(hand, place, reserve, asked):
    lay, cur = hand.lay, hand.cur
    if place.extent is None:
        count = _count(hand, place, asked)
        if lay.plain:
            end = cur + count
            if end > lay.n:
                if hand.memory.get("both sides") and hand.other_side is None and lay.kind[:1] == [FOUNDATION] and cur >= lay.n:
                    turn_to_other_side(hand)
                    return _of_stitch(hand, place, reserve, asked)
                return _short(hand, count)
            hand.cur = end
            return range(cur, end)
        first = lay.rank(cur)
        if first + count > lay.stitches:
            return _short(hand, count)
        found = lay.order[first:first + count]
        if count:
            hand.cur = found[-1] + 1
            hand.sub = 0
        return found
    first, stop = lay.rank(cur), _stop(hand, place, reserve)
    if stop < first:
        hand.stuck("runs-out", there=lay.stitches, left=max(0, hand.left()), needed=lay.stitches + first - stop, step=first - stop)
    found = lay.order[first:stop]
    if len(found):
        hand.cur = found[-1] + 1
        hand.sub = 0
    return found


def _short(hand, count):
    there, left = hand.lay.stitches, max(0, hand.left())
    hand.stuck("runs-out", there=there, left=left, needed=there - left + count, step=count)


def _of_kind(hand, place, reserve, asked):
    lay = hand.lay
    strict = lay.of_kind(place.of)
    if len(strict) == lay.stitches:
        return _of_stitch(hand, place, reserve, asked)
    if place.of not in kinds.NAMES and not strict:
        strict = []
    if not strict:
        strict = lay.built_on(place.of)
        if not strict:  # a name used for whatever stitch is there
            return _of_stitch(hand, place, reserve, asked)
    if hand.choose((id(place), "of"), 2, 1):
        return _of_stitch(hand, place, reserve, asked)
    at = bisect_left(strict, hand.cur)
    if place.extent is None:
        count = _count(hand, place, asked)
        found = strict[at:at + count]
        if len(found) < count:
            return _of_stitch(hand, place, reserve, asked) if not found and hand.left() >= count else _short(hand, count)
    else:
        stop = _stop(hand, place, reserve)
        limit = lay.order[stop] if stop < lay.stitches else lay.n
        found = strict[at:bisect_left(strict, limit)]
        if place.extent.kind == "end" and limit == lay.n and found and lay.rank(found[-1]) + 1 < lay.stitches:
            hand.longest_pass = max(hand.longest_pass, lay.stitches - lay.rank(found[-1]) - 1)
    if found:
        before = lay.rank(hand.cur)
        for cell in found:
            here = lay.rank(cell)
            hand.longest_pass = max(hand.longest_pass, here - before)
            before = here + 1
        hand.cur = found[-1] + 1
        hand.sub = 0
    return found


def _of_chain(hand, place, reserve, asked):
    lay = hand.lay
    if lay.plain:  # a foundation, a chain made in this row, or chains said loosely of plain stitches
        return _bridge(hand, place, asked) if _has_bridge(hand) else _of_stitch(hand, place, reserve, asked)
    found, cur, sub = [], hand.cur, hand.sub
    count = _count(hand, place, asked) if place.extent is None else None
    while cur < lay.n and (count is None or len(found) < count):
        if lay.kind[cur] == CHAINS:
            room = lay.size[cur] - sub
            here = room if count is None else min(room, count - len(found))
            found.extend([cur] * here)
            sub += here
            if sub >= lay.size[cur]:
                cur, sub = cur + 1, 0
                if count is None:
                    break
        elif lay.kind[cur] == FOUNDATION:
            found.append(cur)
            cur += 1
        elif found:
            break  # chains in a row end here
        else:
            cur, sub = cur + 1, 0
    if count is not None and len(found) < count:
        hand.stuck("no-such-place", wanted="chains", of="ch", have=len(found), needed=count)
    hand.cur, hand.sub = cur, sub
    return found


def _of_space(hand, place, reserve, asked):
    lay = hand.lay
    hand.spaces_worked = True
    spaces = lay.space_places()
    at = bisect_left(spaces, hand.cur)
    if hand.sub and at < len(spaces) and spaces[at] == hand.cur:
        at += 1
    size = hand.number(place.chains, None)
    if place.extent is not None:
        stop = _space_stop(hand, place)
        found = [i for i in spaces[at:] if i < stop and (size is None or not lay.size[i] or lay.size[i] == size)]
        if not found and size is not None and spaces[at:]:
            found = [i for i in spaces[at:] if i < stop]
            _other_space(hand, size, found)
        if reserve and found:
            found = found[:len(found) - reserve]
    else:
        count = _count(hand, place, asked)
        found = []
        for i in spaces[at:]:
            if len(found) == count:
                break
            if size is None or not lay.size[i] or lay.size[i] == size:
                found.append(i)
        if len(found) < count and len(spaces) - at >= count and not found:
            found = spaces[at:at + count]
            _other_space(hand, size, found)
        if len(found) < count:
            hand.stuck("no-such-place", wanted=f"ch-{size} space" if size else "space", of="sp", have=len(found),
                       needed=count)
    _pass_to(hand, found)
    return found


def _space_stop(hand, place):
    extent = place.extent
    if extent.kind == "last":
        return end_of(hand, extent.of, hand.number(extent.n) or 0)
    if extent.kind == "place":
        return find_stop(hand, extent.place)
    return hand.lay.n


def _other_space(hand, size, found):
    if found:
        from .worked import Trouble
        hand.troubles.append(Trouble("other-space", hand.span, {"wanted": size, "have": hand.lay.size[found[0]]}))


def _pass_to(hand, found):
    """Moves the hook past cells reached by name, remembering how many stitches were passed silently on the way."""
    lay = hand.lay
    if not found:
        return
    before = lay.rank(hand.cur)
    for cell in found:
        here = lay.rank(cell)
        if here - before > hand.longest_pass:
            hand.longest_pass = here - before
        before = here + (lay.kind[cell] != CHAINS)
    if found[-1] >= hand.cur:
        hand.cur = found[-1] + 1
        hand.sub = 0


def _of_corner(hand, place, reserve, asked):
    lay = hand.lay
    hand.spaces_worked = True
    corners = lay.corner_cells()
    at = bisect_left(corners, hand.cur)
    if place.extent is not None:
        found = corners[at:]
    else:
        count = _count(hand, place, asked)
        found = corners[at:at + count]
        if len(found) < count:
            hand.stuck("no-such-place", wanted="corner space", of="corner", have=len(corners), needed=count)
    size = hand.number(place.chains, None)
    if size is not None and found and lay.size[found[0]] != size:
        _other_space(hand, size, found)
    _pass_to(hand, found)
    return found


def _of_both(hand, place, reserve, asked):
    lay = hand.lay
    if place.extent is None:
        count = _count(hand, place, asked)
        found = range(hand.cur, hand.cur + count)
        if hand.cur + count > lay.n:
            return _short(hand, count)
    else:
        if place.extent.kind == "place":
            end = find_stop(hand, place.extent.place)
        else:
            stop = _stop(hand, place, reserve)
            end = lay.order[stop] if stop < lay.stitches else lay.n
            if place.extent.kind == "end" and reserve == 0:
                end = lay.n
        found = range(hand.cur, end)
    if len(found):
        hand.cur = found[-1] + 1
        hand.sub = 0
        hand.spaces_worked = True
    return found


def _of_group(hand, place, reserve, asked):
    lay = hand.lay
    groups = [g for g in lay.groups if g[0] >= hand.cur or g[0] <= hand.cur < g[1]]
    named = [g for g in groups if g[2] and same_name(g[2], place.group)]
    if place.group and not named and any(g[2] and same_name(g[2], place.group) for g in lay.groups):
        groups = []  # there were such groups, and they are all behind the hook
    chosen = named or groups
    count = _count(hand, place, asked) if place.extent is None else len(chosen)
    if not chosen and place.group and kinds.number(place.group) in lay.kind:
        return _of_kind(hand, _like(place, place.group), reserve, asked)
    if not chosen or len(chosen) < count:
        spaces = lay.spaces()
        if spaces and bisect_left(spaces, hand.cur) < len(spaces):
            return _of_space(hand, place, reserve, asked)
        if not chosen and not place.part and not spaces and hand.left() >= count:
            return _of_stitch(hand, _like(place, "st"), reserve, asked)
        hand.stuck("no-such-place", wanted=place.group or "group", of="group", have=len(chosen), needed=count)
    found = []
    for start, end, _ in chosen[:count]:
        inner = [i for i in range(start, end) if lay.kind[i] == CHAINS]
        if place.part == "between":
            found.append(end)
        elif place.part == "before":
            found.append(start)
        elif inner and place.part != "center":
            found.append(inner[len(inner) // 2])
        else:
            stitches = [i for i in range(start, end) if lay.kind[i] != CHAINS]
            found.append(inner[len(inner) // 2] if inner and len(stitches) % 2 == 0 else stitches[len(stitches) // 2])
        before = lay.rank(hand.cur)
        hand.longest_pass = max(hand.longest_pass, lay.rank(found[-1]) - before, end - 1 - found[-1])
        hand.cur, hand.sub = (found[-1] if place.part in ("between", "before") else end), 0
    hand.spaces_worked = True
    return found


def _like(place, of):
    return Place(place.which, of, place.n, place.extent, place.ordinal, loop=place.loop, post=place.post, span=place.span)


def _of_gap(hand, place, reserve, asked):
    lay = hand.lay
    starts = [g[0] for g in lay.groups if g[0] > hand.cur] + ([lay.n] if lay.groups else [])
    count = _count(hand, place, asked) if place.extent is None else len(starts) or max(0, hand.left() - (0 if hand.in_round else 1))
    hand.spaces_worked = True
    if starts:
        found = starts[:count]
        hand.longest_pass = max(hand.longest_pass, max((g[1] - g[0] for g in lay.groups), default=0))
        if found:
            hand.cur = min(found[-1], lay.n)
        return [min(i, lay.n) - 1 for i in found]
    return _of_stitch(hand, _like(place, "st"), reserve, asked)


_OF = {"st": _of_stitch, "ch": _of_chain, "sp": _of_space, "corner": _of_corner, "st+sp": _of_both, "group": _of_group,
       "gap": _of_gap, "join": _of_stitch, "row": _of_stitch, "pair": _of_stitch}


def _part(hand, place):
    """Between, before, after or in the centre of something that is no group."""
    if place.part in ("between", "before", "after") and hand.lay.groups:
        return _of_gap(hand, place, 0, None)
    return (_OF.get(place.of) or _of_kind)(hand, _like(place, place.of), 0, None)


# ---------------------------------------------------------------- places by name

def _same(hand, place, reserve, asked):
    cell = hand.here if hand.here is not None else hand.begin
    if hand.lay.ring or cell is None or cell < 0:
        return [hand.into()]
    if place.of in ("sp", "corner") and hand.lay.kind[cell:cell + 1] != [CHAINS] and hand.bare_in is not None:
        cell = hand.bare_in
    if cell >= hand.cur and cell < hand.lay.n:
        hand.cur = cell + 1
    return [cell] * max(1, _count(hand, place, asked) if asked is None else 1)


def _first(hand, place, reserve, asked):
    lay = hand.lay
    count = _count(hand, place, asked)
    if lay.ring:
        return [hand.into()]
    if place.of == "sp":
        found = lay.space_places()[:count]
        hand.spaces_worked = True
    elif place.of == "corner":
        found = lay.corner_cells()[:count]
    elif place.of in ("st", "ch", "st+sp", "join", "row", "pair"):
        found = lay.order[:count]
    else:
        found = (lay.of_kind(place.of) or lay.built_on(place.of) or lay.order)[:count]
        if place.of not in ("st",) and len(found) and found[0] != (lay.order[0] if lay.stitches else 0) and not lay.spaces():
            found = lay.order[:count] if hand.choose((id(place), "first"), 2, 1) else found
    if len(found) and hand.memory.get("pass") and found[-1] < hand.cur:  # "in first 3 sts ... repeat around": the next 3
        return cells(hand, Place("next", place.of, place.n, loop=place.loop, post=place.post, span=place.span), reserve, asked)
    if len(found) < count:
        if lay.n == 0:
            hand.stuck("no-such-place", wanted="first stitch", of=place.of, have=0, needed=count)
        _short(hand, count)
    hand.cur = max(hand.cur, found[-1] + 1)
    return list(found)


def _last(hand, place, reserve, asked):
    lay = hand.lay
    count = _count(hand, place, asked)
    if lay.ring:
        return [hand.into()]
    if place.of == "group" and lay.groups:
        if lay.groups[-1][0] < hand.cur:
            _short(hand, count)
        hand.longest_pass = max(hand.longest_pass, lay.rank(lay.groups[-count][0]) - lay.rank(hand.cur))
        hand.cur = lay.groups[-count][0]
        return _of_group(hand, Place("next", "group", count, chains=place.chains, group=place.group, part=place.part), reserve, None)
    if place.of == "sp":
        found = lay.space_places()
        if place.chains is not None:
            found = _sized(hand, place)
        hand.spaces_worked = True
    elif place.of == "corner":
        found = lay.corner_cells()
    elif place.of in ("st", "ch", "st+sp", "join", "row", "pair", "group"):
        found = lay.order
    else:
        found = lay.of_kind(place.of) or lay.built_on(place.of) or lay.order
        if found and lay.rank(found[-1]) + 1 < lay.stitches and place.of != "st":
            if lay.plain and not hand.choose((id(place), "last"), 2, 1):
                found = lay.order
    if len(found) < count or not len(found):
        _short(hand, count)
    found = found[len(found) - count:] if count else []
    if len(found) and found[0] < hand.cur:
        if found[-1] == hand.here and found[-1] < hand.cur and count == 1 and hand.memory.get("ending"):
            hand.memory["renamed"] = True
            return [found[-1]]
        _short(hand, count)
    if len(found):
        passed = lay.rank(found[0]) - lay.rank(hand.cur)
        if passed and place.of not in ("sp", "corner"):
            hand.passed += passed
        elif passed:
            hand.longest_pass = max(hand.longest_pass, passed)
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
        found = _of_space(hand, Place(of="sp", chains=place.chains, extent=place.extent, n=place.n), reserve, asked)
        return found
    if place.of == "sp":
        spaces = lay.spaces()
        at = bisect_left(spaces, hand.cur) + ordinal - 1
        if at >= len(spaces):
            _short(hand, ordinal)
        _pass_to(hand, [spaces[at]])
        return [spaces[at]]
    # counted on from the stitch last worked into, so that "sk 2, dc in 3rd st" says one thing twice
    start = lay.rank(hand.here + 1) if hand.here is not None and 0 <= hand.here < hand.cur else lay.rank(hand.cur)
    if hand.cur == 0 and hand.here is None:
        start = 0
    if hand.choose((id(place), "nth"), 2, 2, "the stitch under the hook is counted as the first", place.span):
        start -= 1
    at = start + ordinal - 1
    found = lay.order if place.of in ("st", "ch", "group", "row") else lay.of_kind(place.of) or lay.order
    if found is not lay.order and len(found) != lay.stitches:
        at = bisect_left(found, lay.order[start] if start < lay.stitches else lay.n) + ordinal - 1
    if not 0 <= at < len(found):
        _short(hand, ordinal)
    cell = found[at]
    between = lay.order[lay.rank(hand.cur):lay.rank(cell)] if cell > hand.cur else []
    if len(between):
        hand.skipped = list(between)
        hand.last_skip = max(hand.last_skip, len(between))
    hand.cur = max(hand.cur, cell + 1)
    return [cell]


def _nth_of_group(hand, place, ordinal):
    """"In 3rd dc of next shell": a stitch counted within the next group."""
    lay = hand.lay
    groups = [g for g in lay.groups if g[0] >= hand.cur]
    groups = [g for g in groups if same_name(g[2], place.group)] or groups
    if not groups:
        hand.stuck("no-such-place", wanted=place.group, of="group", have=0, needed=1)
    start, end, _ = groups[0]
    wanted = kinds.number(place.of) if place.of not in ("st", "ch", "sp", "group") else None
    inside = [i for i in range(start, end) if (lay.kind[i] == CHAINS) == (place.of == "sp") and wanted in (None, lay.kind[i])]
    if ordinal > len(inside):
        hand.stuck("no-such-place", wanted=f"stitch {ordinal} of {place.group}", of="group", have=len(inside), needed=ordinal)
    cell = inside[ordinal - 1]
    hand.longest_pass = max(hand.longest_pass, lay.rank(cell) - lay.rank(hand.cur), lay.rank(end) - lay.rank(cell) - 1)
    hand.cur, hand.sub = end, 0
    hand.spaces_worked = True
    return [cell]


def same_name(one: str, other: str) -> bool:
    """Whether two names of a group mean the same: "V-st", "v st", "V-sts"."""
    plain = [re.sub(r"[^a-z0-9]", "", name.lower()).removesuffix("s") for name in (one, other)]
    return plain[0] == plain[1]


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
        return _last(hand, Place("last", "st", 1), reserve, asked)
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
    count = _count(hand, place, asked) if place.extent is None else len(hand.skipped)
    if len(hand.skipped) < count or not hand.skipped:
        hand.stuck("no-such-place", wanted="skipped stitch", of="skipped", have=len(hand.skipped), needed=count)
    found, hand.skipped = hand.skipped[:count], hand.skipped[count:]
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
        return _of_space(hand, Place(of="sp"), reserve, 1)
    hand.change(layout.ring())
    return [hand.into()]


def _from_hook(hand, place, reserve, asked):
    ordinal = hand.number(place.ordinal) or 1
    count = asked or 1
    if ordinal + count - 1 > hand.lay.n:
        hand.stuck("runs-out", there=hand.lay.n, left=hand.lay.n, needed=ordinal + count - 1)
    hand.cur = max(hand.cur, ordinal + count - 1)
    return list(range(ordinal - 1, ordinal + count - 1))


def _left_open(hand, place, reserve, asked):
    """Stitches left unworked before, and the free side of the chain over them; or the free loops of a row said by number."""
    if not hand.memory.get("unworked"):
        hand.memory["unworked"] = True
        found = None
        if hand.sequence is not None:
            found = hand.sequence.free_loops(hand, place) if place.row is not None else hand.sequence.unworked(hand)
        if found is not None:
            hand.change(found)
    return cells(hand, Place("first" if place.which in ("first", "any") and hand.cur == 0 else "next", "st", place.n, place.extent,
                             loop=place.loop, span=place.span), reserve, asked)


def _row_ends(hand, place, reserve, asked):
    if hand.lay.kind[:1] != [ROW_END] and hand.sequence is not None:
        edge = hand.sequence.row_ends(hand)
        if edge is not None:
            hand.change(edge)
    return _of_stitch(hand, _like_next(place), reserve, asked)


def _like_next(place):
    return Place("next", "st", place.n, place.extent, loop=place.loop, post=place.post, span=place.span)


def _has_bridge(hand) -> bool:
    """Whether a chain made in this row joins two parts (legs of a toy): it can be worked into from both sides."""
    return hand.in_round and hand.lay.kind[:1] != [FOUNDATION] and CHAINS in hand.kind and hand.lay.plain


def _bridge(hand, place, asked):
    """Places in the chain made in this row, which stands on nothing."""
    at = hand.kind.index(CHAINS)
    hand.flags[at] |= FLAG_TURNING  # worked into chain by chain: no space any more
    count = _count(hand, place, asked) if place.extent is None else hand.chains[at]
    if count > hand.chains[at]:
        hand.stuck("no-such-place", wanted="chains", of="ch", have=hand.chains[at], needed=count)
    return [FOOT_NONE] * count


def _other_side(hand, place, reserve, asked):
    if _has_bridge(hand):
        return _bridge(hand, place, asked)
    if hand.memory.get("unworked") and FOUNDATION in hand.lay.kind:
        return _of_stitch(hand, _like_next(place), reserve, asked)
    if hand.other_side is None:
        turn_to_other_side(hand)
    return _of_stitch(hand, _like_next(place), reserve, asked)


def turn_to_other_side(hand: Hand):
    """Goes on along the free side of the foundation: from the chain before the last one back to the first worked."""
    lay = hand.lay
    first = hand.memory.get("first-worked", 0)
    if lay.kind[:1] != [FOUNDATION] or not hand.cur:
        hand.stuck("no-such-place", wanted="other side of the chain", of="other side", have=0, needed=1)
    if hand.memory.get("bridge"):  # a chain between two parts: all its chains are free on the other side
        back = list(range(lay.n - 1, -1, -1))
    else:
        back = list(range(hand.cur - 2, first - 1, -1))
    items = back if lay.item is None else [lay.item[i] for i in back]
    hand.change(layout.Layout([FOUNDATION] * len(back), item=items))
    hand.other_side = lay


def _free_loops(hand, place, reserve, asked):
    if hand.sequence is not None and not hand.memory.get("free"):
        free = hand.sequence.free_loops(hand, place)
        if free is not None:
            hand.memory["free"] = True
            hand.change(free)
    return _of_stitch(hand, _like_next(place), reserve, asked)


def _marked(hand, place, reserve, asked):
    cell = hand.marks.pop("next", None)
    if cell is not None and cell >= hand.cur:
        hand.cur = cell + 1
        return [cell]
    return _of_stitch(hand, Place(n=1), reserve, 1)


def _any(hand, place, reserve, asked):
    found = _OF.get(place.of) or _of_kind
    return found(hand, Place("next", place.of, 1, chains=place.chains, group=place.group, part=place.part), reserve, 1)


def _below(hand, place, reserve, asked):
    cur, lay = hand.cur, hand.lay
    if cur < lay.n and lay.kind[cur] == CHAINS and place.extent is None:  # worked over the chains that pass the stitches meant
        hand.cur, hand.sub = cur + 1, 0
        return [cur] * (_count(hand, place, asked) or 1)
    found = _of_stitch(hand, Place(n=place.n, extent=place.extent), reserve, asked)
    if hand.memory.pop("behind", False):  # the stitch behind it is skipped in so many words
        hand.cur = cur
    return found


_WHICH = {
    "same": _same, "first": _first, "last": _last, "nth": _nth, "from hook": _from_hook, "ring": _ring,
    "chain top": _chain_top, "skipped": _skipped, "beginning": _beginning, "below": _below, "row ends": _row_ends,
    "other side": _other_side, "free loops": _free_loops, "marked": _marked, "any": _any,
}


def fold(hand: Hand, place: Place):
    """Through both thicknesses: the row below is a pair of layers, each place two stitches."""
    if hand.memory.get("folded"):
        return
    hand.memory["folded"] = True
    lay = hand.lay
    taken = hand.choose("fold", 3, 1, "which edges are held together", place.span)
    if taken == 1 or taken == 0 and (lay.n % 2 or not lay.plain):
        return
    if lay.plain and lay.n > 1:
        half = lay.n // 2
        hand.change(layout.Layout(lay.kind[:half], item=lay.item[:half] if lay.item else None))
