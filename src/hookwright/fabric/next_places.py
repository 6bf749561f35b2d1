"""The next stitches, spaces, corners, groups or gaps from the hook on."""

import re
from bisect import bisect_left

from hookwright.notation.tree import Place

from . import kinds
from .chain_sides import bridge, has_bridge, turn_to_other_side
from .gaps import gaps_ahead, into_gap, next_gaps_and_spaces, until
from .hand import Hand
from .kinds import CHAINS, FOUNDATION
from .reaching import center_space, count_of, find_stop, is_of_size, is_point, points, stop_rank
from .worked import FLAG_COUNTS, FLAG_TURNING, FOOT_NONE, Trouble

NEXT_STITCH = Place()
_COUNTED = re.compile(  # "counting each ch-1 sp as a st", "(a tr is one and a hole is one)", "chs count as sts"
    r"\b(?:count|treat|regard)\w*\b[^.;)]{0,24}\b(?:holes?|sps?|spaces?|chs?|chains?|ch-1s?)\b[^.;)]{0,12}\b(?:as|too|also|like)\b"
    r"|\b(?:holes?|sps?|spaces?|chs?|chains?)\s+(?:(?:is|are|counts?|being|also|each)\s+)+(?:(?:as|for|counted|as)\s+)*(?:one|an?\b|sts?\b|stitch|too|also)", re.I
)


def next_stitches(hand, place, reserve, asked):
    lay, cur = hand.lay, hand.cur
    if place.extent is None:
        count = count_of(hand, place, asked)
        if lay.plain:
            end = cur + count
            if end > lay.n:
                if place.row is not None and cur >= lay.n and to_the_rest(hand, place.row):
                    return next_stitches(hand, place, reserve, asked)  # "... hdc in remaining 9 sts of Row 2"
                if hand.other_side is None and lay.kind[:1] == [FOUNDATION] and cur >= lay.n and hand.lay.n > 1 and (
                    hand.memory.get("both sides") or hand.in_round and hand.choose("far side", 2, 2, "the round goes on along the other side of the chain", place.span)
                ):
                    turn_to_other_side(hand)
                    return next_stitches(hand, place, reserve, asked)
                if hand.memory.get("edges") and cur >= lay.n:
                    if to_the_rest(hand):
                        return next_stitches(hand, place, reserve, asked)
                    if lay.kind[:1] == [kinds.ROW_END] and hand.sequence is not None:
                        return [FOOT_NONE] * count  # along the top again, once a side is worked: the words tell how many
                return short(hand, count)
            hand.cur = end
            return range(cur, end)
        if count > 2 and lay.stitches < lay.n and _spaces_count(hand, place):
            lay = hand.lay = lay.spaces_counted()
        first = lay.rank(cur)
        if first + count > lay.stitches:
            return chains_too(hand, count) or short(hand, count)
        found = lay.order[first:first + count]
        if count:
            hand.cur = found[-1] + 1
            hand.sub = 0
        return found
    first, stop = lay.rank(cur), stop_rank(hand, place, reserve)
    if stop < first:
        hand.stuck("runs-out", there=lay.stitches, left=max(0, hand.left()), needed=lay.stitches + first - stop, step=first - stop)
    found = lay.order[first:stop]
    if len(found):
        hand.cur = found[-1] + 1
        hand.sub = 0
    return found


def _spaces_count(hand, place) -> bool:
    """Whether single chains count as stitches of a mesh: "sc in next 6 sts (each ch-1 sp counts as a st)", or its numbers come out only so."""
    lay = hand.lay
    if lay.ring or hand.inside is not None or any(lay.size[cell] > 1 for cell in lay.spaces()):
        return False
    said = hand.sequence is not None and bool(_COUNTED.search(hand.sequence.source.text))
    ways = ("only stitches are counted, and no chains between them", "each chain between stitches is counted as a stitch")
    return bool(hand.choose(("row", "spaces count"), 2, 1 if said else 2, ways[::-1] if said else ways, place.span)) != said


def chains_too(hand, count) -> list:
    """The stitches and the chains between them from the hook on, where they are just so many ("21 sc across" over sc, ch 1); [] elsewhere."""
    lay, cur = hand.lay, hand.cur
    if hand.sub or count < 3 or lay.left(cur) + sum(lay.size[cur:]) != count or hand.spaces_worked:
        return []
    hand.cur = lay.n
    return [cell for cell in range(cur, lay.n) for _ in range(lay.size[cell] if lay.kind[cell] == CHAINS else 1)]


def to_the_rest(hand, row=None) -> bool:
    """Goes on over the stitches that were left unworked before (by the row with this number), where there are any and it is not done yet."""
    if hand.sequence is None or hand.memory.get("unworked"):
        return False
    rest = hand.sequence.unworked(hand, row)
    if rest is None:
        return False
    hand.memory["unworked"] = True
    hand.change(rest)
    return True


def short(hand, count, of=""):
    there, left = hand.lay.stitches, max(0, hand.left())
    hand.stuck("runs-out", there=there, left=left, needed=there - left + count, step=count, sought=of)


def next_of_kind(hand, place, reserve, asked):
    lay = hand.lay
    strict = lay.of_kind(place.of)
    if len(strict) == lay.stitches:
        return next_stitches(hand, place, reserve, asked)
    if place.of not in kinds.NAMES and not strict:
        strict = []
    if not strict:
        strict = lay.built_on(place.of)
        if not strict:  # a name used for whatever stitch is there
            if lay.plain and lay.n and len(set(lay.kind)) == 1 and lay.kind[0] > kinds.SLIP and not hand.memory.get("named"):
                hand.memory["named"] = True
                hand.troubles.append(Trouble("named-otherwise", place.span if place.span.end else hand.span,
                                             {"said": place.of, "there": kinds.NAMES[lay.kind[0]]}))
            return next_stitches(hand, place, reserve, asked)
    if hand.choose((id(place), "of"), 2, 1 if lay.plain else 2, f"{place.of} is said of all stitches there", place.span):
        return next_stitches(hand, place, reserve, asked)
    at = bisect_left(strict, hand.cur)
    if place.extent is None:
        count = count_of(hand, place, asked)
        found = strict[at:at + count]
        if len(found) < count:
            if not found and hand.left() >= count and not (
                at and hand.memory.get("pass") and hand.memory.get("nested") and hand.choose((id(place), "ends"), 2, 2, f"no further {place.of} is there, so the repeat is over", place.span) == 0
            ):
                return next_stitches(hand, place, reserve, asked)
            short(hand, count, place.of)
    else:
        stop = stop_rank(hand, place, reserve)
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
    if lay.plain and not (hand.memory.get("edges") and hand.cur >= lay.n and lay.n):  # a foundation, a chain made in this row, or chains said loosely of plain stitches
        return bridge(hand, place, asked) if has_bridge(hand) and not hand.memory.get("rejoined") and not hand.memory.get("unworked") else next_stitches(hand, place, reserve, asked)
    found, cur, sub = [], hand.cur, hand.sub
    count = count_of(hand, place, asked) if place.extent is None else None
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
        elif lay.kind[cur] == FOUNDATION or cur in lay.tops and count is not None:  # the chain that stands for a stitch
            found.append(cur)
            cur += 1
        elif found:
            break  # chains in a row end here
        else:
            cur, sub = cur + 1, 0
    if count is not None and len(found) < count:
        if hand.memory.get("edges") and not found:
            return [FOOT_NONE] * count  # along the foundation, on the way round a piece
        hand.stuck("no-such-place", wanted="chains", of="ch", have=len(found), needed=count)
    hand.cur, hand.sub = cur, sub
    return found


def next_spaces(hand, place, reserve, asked):
    lay = hand.lay
    if place.chains is None and hand.memory.get("gaps too") and lay.groups:
        return next_gaps_and_spaces(hand, place, reserve, asked)
    if place.chains is None and lay.plain and not lay.tops and hand.memory.get("joined between"):
        return NEXT["gap"](hand, Place(place.which, "gap", place.n, place.extent, span=place.span), reserve, asked)  # no space but those between stitches
    hand.spaces_worked = True
    spaces = lay.space_places()
    at = bisect_left(spaces, hand.cur)
    if hand.sub and at < len(spaces) and spaces[at] == hand.cur:
        at += 1
    size = hand.number(place.chains, None)
    if place.extent is not None:
        stop = until(hand, place.extent)
        found = [i for i in spaces[at:] if i < stop and (size is None or not lay.size[i] or is_of_size(lay, i, size))]
        if not found and size is not None and spaces[at:]:
            found = [i for i in spaces[at:] if i < stop]
            other_space(hand, size, found)
        if reserve and found:
            found = found[:len(found) - reserve]
        elif lay.closed and place.extent.kind == "end" and not hand.stitches_made():
            found = [*found, lay.n - 1]  # the loop that closed the last round is a loop, too
    else:
        count = count_of(hand, place, asked)
        found = []
        for i in spaces[at:]:
            if len(found) == count:
                break
            if size is None or not lay.size[i] or is_of_size(lay, i, size):
                found.append(i)
        if len(found) < count and len(spaces) - at >= count and not found:
            found = spaces[at:at + count]
            other_space(hand, size, found)
        if not found and count == 1 and size is not None and into_turning_chain(hand, size):
            return [FOOT_NONE]
        if len(found) < count:
            hand.stuck("no-such-place", wanted=f"ch-{size} space" if size else "space", of="sp", have=len(found),
                       needed=count)
    pass_to(hand, found)
    return found


def into_turning_chain(hand, size=None) -> bool:
    """Whether a space that is named at the end of a row is the chain with which the row below was turned ("sc in turning ch-2 sp"); the row is at its end then."""
    lay = hand.lay
    if hand.in_round or lay.far_chain < 2 or lay.ring or size not in (None, lay.far_chain) or hand.left() > 2:
        return False
    hand.cur, hand.sub, hand.spaces_worked = lay.n, 0, True
    return True


def other_space(hand, size, found):
    if found:
        hand.troubles.append(Trouble("other-space", hand.span, {"wanted": size, "have": hand.lay.size[found[0]]}))


def pass_to(hand, found):
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
    corners = lay.corner_cells() or lay.corner_stitches()
    if lay.plain and place.extent is None and place.which == "next" and (not corners or any(start <= hand.cur < end for start, end, _ in lay.groups)):
        return next_stitches(hand, place, reserve, asked)  # "3 sc in corner st" of a round without spaces: the stitch it comes to
    at = bisect_left(corners, hand.cur)
    if place.extent is not None:
        found = corners[at:]
    else:
        count = count_of(hand, place, asked)
        found = corners[at:at + count]
        if len(found) < count:
            hand.stuck("no-such-place", wanted="corner space", of="corner", have=len(corners), needed=count)
    size = hand.number(place.chains, None)
    if size is not None and found and lay.size[found[0]] != size:
        other_space(hand, size, found)
    pass_to(hand, found)
    return found


def _of_both(hand, place, reserve, asked):
    lay = hand.lay
    if place.extent is None:
        count = count_of(hand, place, asked)
        found = range(hand.cur, hand.cur + count)
        if hand.cur + count > lay.n:
            return short(hand, count)
    else:
        if place.extent.kind == "place":
            end = find_stop(hand, place.extent.place)
        else:
            stop = stop_rank(hand, place, reserve)
            end = lay.order[stop] if stop < lay.stitches else lay.n
            if place.extent.kind == "end" and reserve == 0:
                end = lay.n
        found = range(hand.cur, end)
    if len(found):
        hand.cur = found[-1] + 1
        hand.sub = 0
        hand.spaces_worked = True
    return found


def next_groups(hand, place, reserve, asked):
    lay = hand.lay
    if place.part == "sp" and lay.plain and lay.tops:  # "ch-3 sp of next block": the chain that stands for its first stitch
        return next_spaces(hand, Place("next", "sp", place.n, place.extent, span=place.span), reserve, asked)
    begun = hand.memory.pop("begun group", None)
    if begun and hand.here == hand.begin == 0 and not any(flag & FLAG_COUNTS and not flag & FLAG_TURNING for flag in hand.flags) and place.n == 1 and place.part in ("", "sp") and (not begun[1] or same_name(begun[1], place.group)):
        hand.cur, hand.sub, hand.spaces_worked = begun[0], 0, True  # "sl st to sp, beg shell in shell": the one whose space it stands in
        hand.longest_pass = max(hand.longest_pass, begun[0] - 1)
        return [0]
    if place.part == "center" and place.n == 1 and "begun within" in hand.memory:
        from .group_ends import begun_within

        if middle := begun_within(hand, place.group, None):
            return middle
    groups = [g for g in lay.groups if g[0] >= hand.cur or g[0] <= hand.cur < g[1]]
    named = [g for g in groups if g[2] and same_name(g[2], place.group)]
    if place.group and not named and any(g[2] and same_name(g[2], place.group) for g in lay.groups):
        groups = []  # there were such groups, and they are all behind the hook
    chosen = named or groups
    count = count_of(hand, place, asked) if place.extent is None else len(chosen)
    if not chosen and place.group and kinds.number(place.group) in lay.kind:
        return next_of_kind(hand, like(place, place.group), reserve, asked)
    if not chosen or len(chosen) < count:
        if place.part == "center" and count == 1 and half_left(hand):
            return pass_to(hand, [lay.order[-1]]) or [lay.order[-1]]
        spaces = lay.spaces()
        ahead = [cell for cell in points(lay) if cell >= hand.cur][:1] if count == 1 and is_point(lay, place) else None
        if ahead:
            pass_to(hand, ahead)
            return ahead
        if spaces and bisect_left(spaces, hand.cur) < len(spaces) and not lay.groups:
            return next_spaces(hand, place, reserve, asked)
        if not chosen and not place.part and not spaces and hand.left() >= count:
            return next_stitches(hand, like(place, "st"), reserve, asked)
        hand.stuck("no-such-place", wanted=place.group or "group", of="group", have=len(chosen), needed=count)
    found = []
    for start, end, _ in chosen[:count]:
        inner = [i for i in range(start, end) if lay.kind[i] == CHAINS]
        if inner and place.chains is not None and place.part == "sp" and lay.size[inner[len(inner) // 2]] != hand.number(place.chains):
            other_space(hand, hand.number(place.chains), [inner[len(inner) // 2]])
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
        if start < hand.cur == found[-1] and (place.part == "center" or not place.part and not inner and hand.skipped and hand.skipped[-1] == hand.cur - 1):  # led to stitch by stitch: on from there, too
            hand.cur, hand.sub = found[-1] + 1, 0
            hand.memory["rest of group"] = None
            continue
        hand.longest_pass = max(hand.longest_pass, lay.rank(found[-1]) - before, end - 1 - found[-1])
        hand.cur, hand.sub = (found[-1] if place.part in ("between", "before") else end), 0
        hand.memory["rest of group"] = (end, end - 1 - found[-1]) if place.part == "center" or inner and place.part in ("", "sp") else None
    hand.spaces_worked = True
    return found


def half_left(hand) -> bool:
    """Whether only half a group lies ahead, at the end of a flat row: its last stitch is where the middle of a whole one would be."""
    lay = hand.lay
    most = max((end - start for start, end, _ in lay.groups), default=0)
    return not hand.in_round and most > 2 and 0 < hand.left() <= (most + 1) // 2


def like(place, of):
    return Place(place.which, of, place.n, place.extent, place.ordinal, loop=place.loop, post=place.post, span=place.span)


def _of_gap(hand, place, reserve, asked):
    starts = gaps_ahead(hand)
    if place.extent is not None and place.extent.kind in ("place", "last"):
        stop = until(hand, place.extent)
        starts = [start for start in starts if start <= stop]
    count = count_of(hand, place, asked) if place.extent is None else len(starts) or max(0, hand.left() - (0 if hand.in_round else 1))
    hand.spaces_worked = True
    if not starts and (hand.memory.get("begun in gap") or hand.memory.get("into gaps") and place.extent is None):
        short(hand, count)
    if starts:
        hand.longest_pass = max(hand.longest_pass, max((g[1] - g[0] for g in hand.lay.groups), default=0))
        return [into_gap(hand, start) for start in starts[:count]]
    return next_stitches(hand, like(place, "st"), reserve, asked)


NEXT = {"st": next_stitches, "ch": _of_chain, "sp": next_spaces, "corner": _of_corner, "st+sp": _of_both, "group": next_groups,
       "gap": _of_gap, "join": next_stitches, "row": next_stitches, "pair": next_stitches}


def _part(hand, place):
    """Between, before, after or in the centre of something that is no group."""
    if place.group and place.group not in ("unworked",) and hand.lay.groups:
        return next_groups(hand, Place("next", "group", place.n, place.extent, chains=place.chains, group=place.group, part=place.part), 0, None)
    if place.part == "center" and not place.group and any(start == hand.cur and end - start > 2 for start, end, _ in hand.lay.groups):
        return next_groups(hand, Place("next", "group", 1, part="center"), 0, None)  # "sc in center dc", with a shell before the hook
    if place.part == "center" and place.of == "sp" and not hand.lay.plain:
        found = center_space(hand.lay)
        if found >= hand.cur:
            hand.spaces_worked = True
            pass_to(hand, [found])
            return [found]
    if place.part in ("between", "before", "after") and hand.lay.groups:
        return _of_gap(hand, place, 0, None)
    return (NEXT.get(place.of) or next_of_kind)(hand, like(place, place.of), 0, None)


def same_name(one: str, other: str) -> bool:
    """Whether two names of a group mean the same: "V-st", "v st", "V-sts"."""
    plain = [re.sub(r"[^a-z0-9]", "", name.lower()).removesuffix("s") for name in (one, other)]
    return plain[0] == plain[1]


def next_cells(hand: Hand, place: Place, reserve: int = 0, asked: int | None = None):
    """Cells of a Place "next": see placing.cells."""
    if place.part and place.of != "group":
        return _part(hand, place)
    found = NEXT.get(place.of)
    return found(hand, place, reserve, asked) if found else next_of_kind(hand, place, reserve, asked)
