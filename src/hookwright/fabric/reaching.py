"""How far an extent goes: to the end, to the last n, to the next corner, until there are so many."""

from bisect import bisect_left

from hookwright.notation.tree import Place, Stitch

from . import kinds
from .hand import Hand

POINTS = ("point", "peak", "tip")


def count_of(hand, place, asked):
    if asked is not None:
        return asked
    count = hand.number(place.n)
    return 0 if count is None else count


def made_so_far(hand: Hand) -> int:
    """Stitches made in this row so far."""
    return sum(1 for flag in hand.flags if flag & 1)


def groups_so_far(hand: Hand) -> int:
    """Groups made in this row so far: three stitches or more in one place ("until there are six scallops")."""
    groups = in_one = 0
    before = None
    for foot, flag in zip(hand.foot, hand.flags):
        in_one = in_one + 1 if foot == before and flag & 1 else 1
        before = foot
        groups += in_one == 3
    return groups


def first_leg(hand: Hand) -> int:
    """Stitches of the leg that is worked around first: as the row below tells them, else half of all."""
    for step in (hand.sequence.sequence.below if hand.sequence is not None else None) or ():
        if isinstance(step, Stitch) and step.place is not None and step.place.group.startswith("leg "):
            return hand.number(step.n) or 0
    return hand.lay.stitches // 2


def stop_rank(hand: Hand, place: Place, reserve: int) -> int:
    """Rank of the stitch before which an extent ends."""
    lay, extent = hand.lay, place.extent
    if extent.kind == "end":
        if place.group.startswith("leg ") and lay.rank(hand.cur) < (first := first_leg(hand)):
            return first  # "sc around leg 1": not on round the other
        return lay.stitches - reserve
    if extent.kind == "last":
        keep = hand.number(extent.n) or 0
        return lay.rank(end_of(hand, extent.of, keep))
    if extent.kind == "place" and extent.place.which == "marked" and not hand.marks:
        passes, takes = hand.memory.get("passes ahead", (0, 0))
        cur = lay.rank(hand.cur)
        return max(cur, cur + (lay.stitches - reserve - takes - (hand.number(extent.n, 0) or 0) - cur) // (passes + 1))
    if extent.kind == "place":
        stop = find_stop(hand, extent.place)
        if stop == hand.cur == hand.memory.get("skipped to") and lay.kind[stop:stop + 1] == [kinds.CHAINS]:
            hand.cur += 1  # "skip all sts to next ch-1 sp, dc in each dc to next ch-1 sp": the one after
            stop = find_stop(hand, extent.place)
        return lay.rank(stop) - (hand.number(extent.n, 0) or 0)
    if extent.kind == "half":
        return lay.rank(hand.cur) + (lay.stitches - lay.rank(hand.cur)) // 2 if hand.cur else lay.stitches // 2
    if extent.kind == "until":
        return lay.rank(hand.cur) + max(0, (hand.number(extent.n) or 0) - made_so_far(hand))
    return lay.stitches - reserve


def end_of(hand: Hand, of: str, keep: int) -> int:
    """The cell at which exactly `keep` of `of` are left before the end."""
    lay = hand.lay
    if of in ("st", "ch", "st+sp") or not keep:
        found = lay.order
    elif of == "sp":
        found = lay.space_places()
        if far_space(hand):
            if keep == 1:
                return lay.n
            keep -= 1
    elif of == "corner":
        found = lay.corner_cells()
    elif of == "group" and hand.memory.get("block") and lay.plain and lay.tops:
        found = lay.space_places()
    elif of == "group" and lay.groups:
        found = [start for start, _, _ in lay.groups]
    else:
        found = lay.of_kind(of) or lay.built_on(of) or lay.order
    if of != "sp" and keep:
        found = before_top(hand, found)
    section = hand.memory.get("section")
    end = lay.n
    if section is not None:  # inside a side: the last stitches before the next corner
        end = find_stop(hand, section)
        found = [cell for cell in found if cell < end]
    if keep > len(found):
        hand.stuck("runs-out", there=len(found), needed=keep)
    return found[len(found) - keep] if keep else end


def far_space(hand: Hand, size: int | None = None) -> bool:
    """Whether the chain with which the row below was turned lies at the end of this one as a space: one of this size that no other has, or any before low stitches,
    which it would be too long for otherwise."""
    lay = hand.lay
    if lay.far_chain < 2 or hand.in_round or lay.ring or lay.plain:
        return False
    if size is not None:
        return size == lay.far_chain and size not in lay.size
    return kinds.height(kinds.NAMES[lay.kind[lay.order[-1]]]) <= 1


def before_top(hand: Hand, found):
    """Stitches among which "the last sc" is looked for: the chain that stands for the row's last one may be no sc to whoever writes so."""
    lay = hand.lay
    if hand.in_round or not lay.tops or len(found) < 2 or found[-1] != lay.order[-1] or found[-1] not in lay.tops:
        return found
    if hand.choose(("row", "chain apart"), 2, 2, "the chain that stands for the last stitch is not counted among the last ones", hand.span):
        return found[:-1]
    return found


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
    if place.which == "last" and place.of == "sp" and far_space(hand, hand.number(place.chains, None)):
        return lay.n  # "..., sc in turning ch-2 sp": behind all other spaces
    if place.which == "last":
        count = hand.number(place.n) or 1
        if place.of == "sp" and place.chains is not None:
            size = hand.number(place.chains, None)
            found = [cell for cell in lay.space_places() if lay.size[cell] == size]  # not the half of one at the end
            if len(found) >= count and found[-count] >= hand.cur:
                return found[-count]
        return end_of(hand, place.of, count)
    if place.of == "sp" and place.part == "center":
        cell = center_space(lay)
        return cell if cell >= hand.cur else lay.n
    if place.of in ("sp", "corner"):
        found = lay.corner_cells() or lay.corner_stitches() if place.of == "corner" else sized_spaces(hand, place)
    elif place.of == "group":
        if is_point(lay, place):
            found = points(lay)
            at = bisect_left(found, hand.cur)
            return found[at] if at < len(found) else hand.cur if len(found) == 1 else lay.n
        found = [start for start, _, _ in lay.groups]
    elif place.of == "st":
        return min(hand.cur, lay.n)
    else:
        found = lay.of_kind(place.of) or lay.built_on(place.of)
    at = bisect_left(found, hand.cur)
    return found[at] if at < len(found) else lay.n


_APART = 5  # stitches to a point, at the least, where spaces are no lace


def is_point(lay, place) -> bool:
    """Whether "the point", "the peak" names the space in the middle, since no group goes by that name and there are spaces."""
    return place.group in POINTS and bool(lay.spaces()) and not any(name in POINTS for _, _, name in lay.groups)


def points(lay) -> list[int]:
    """The spaces that "the point", "next peak" names: those of a poncho or a wave, which lie far apart; else the one in the middle of a shawl."""
    corners = lay.corner_cells()
    apart = 1 < len(corners) == len(lay.spaces()) and lay.stitches >= _APART * len(corners)
    return corners if apart else [center_space(lay)]


def center_space(lay) -> int:
    """The space in the middle of a shawl: the one corner, the one longest space, or the middle one of all; -1 where there is none."""
    corners, spaces = lay.corner_cells(), lay.spaces()
    if len(corners) == 1:
        return corners[0]
    longest = max((lay.size[cell] for cell in spaces), default=0)
    found = [cell for cell in spaces if lay.size[cell] == longest]
    return found[0] if len(found) == 1 else spaces[len(spaces) // 2] if spaces else -1


def sized_spaces(hand, place):
    """Space cells of the size meant; all spaces where none has it."""
    spaces = hand.lay.space_places()
    size = hand.number(place.chains, None)
    if size is None:
        return spaces
    return [i for i in spaces if is_of_size(hand.lay, i, size)] or spaces


def is_of_size(lay, cell: int, size: int) -> bool:
    """Whether a space goes by `size` chains; one beside a chain that stands for a stitch goes by the whole chain, too."""
    own = lay.size[cell]
    return own == size or own < size and any(top in lay.tops and lay.size[top] and lay.size[top] + own == size for top in (cell - 1, cell + 1))
