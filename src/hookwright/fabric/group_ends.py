"""The first or last stitches of a group: "last dc of shell", "first 2 tr of pineapple", and "last dc" within a repeat, where each group has its last."""

from . import kinds
from .hand import CHAINS
from .next_places import same_name

_NO_KIND = frozenset(("st", "ch", "st+sp", "join", "row", "pair", "group", "sp", "corner", "gap"))


def at_group_end(hand, place, count: int) -> list[int] | None:
    """Cells of Place "first" or "last" with a group, or of "last dc" in a repeat; None where the whole row is meant."""
    if place.part or place.ordinal is not None or place.of in ("group", "sp", "corner", "gap", "ch", "join", "row") or not count or hand.lay.plain:
        return None
    lay = hand.lay
    if place.group:
        inside = _inside(hand, place)
    elif place.which == "last" and hand.memory.get("nested") and place.of not in _NO_KIND:
        inside = _run(lay, hand.cur, kinds.number(place.of))
        every = lay.of_kind(place.of)
        if not inside or inside[-1] == every[-1]:
            return None
    else:
        return None
    if len(inside) < count:
        return None
    found = inside[:count] if place.which == "first" else inside[-count:]
    if found[0] < hand.cur:
        return None
    hand.spaces_worked = True
    hand.longest_pass = max(hand.longest_pass, lay.rank(found[0]) - lay.rank(hand.cur))
    hand.cur, hand.sub = found[-1] + 1, 0
    return found


def begun_within(hand, name: str, ordinal: int | None) -> list[int] | None:
    """The stitch of a group that the round was begun in, where that one is asked for first ("sl st to 3rd dc of fan, *sc in 3rd dc of fan"); ordinal None: its middle."""
    before, rest, called = hand.memory.pop("begun within")
    if not hand.here == hand.begin == 0 == hand.cur or called and not same_name(called, name) or (before != rest - 1 if ordinal is None else before != ordinal - 1):
        return None
    hand.cur, hand.sub, hand.spaces_worked = rest, 0, True
    hand.longest_pass = max(hand.longest_pass, rest - 1, before)
    hand.memory["rest of group"] = (rest, rest - 1)
    return [0]


def _inside(hand, place) -> list[int]:
    """Stitches of the kind asked for in the group the hook stands in or before; of a group that is none of the lay's, the run of them."""
    lay, wanted = hand.lay, None if place.of == "st" else kinds.number(place.of)
    groups = [g for g in lay.groups if g[1] > hand.cur and same_name(g[2], place.group)]
    if groups:
        start, end, _ = groups[0]
        return [cell for cell in range(start, end) if lay.kind[cell] != CHAINS and wanted in (None, lay.kind[cell])]
    return _run(lay, hand.cur, wanted) if wanted is not None else []


def _run(lay, cur: int, wanted: int) -> list[int]:
    """Stitches of one kind from the hook on, with nothing but chains among them, and those of them that lie behind the hook."""
    order = lay.order
    at = lay.rank(cur)
    while at < len(order) and lay.kind[order[at]] != wanted:
        at += 1
    if at >= len(order):
        return []
    first = at
    while first and lay.kind[order[first - 1]] == wanted:
        first -= 1
    while at < len(order) and lay.kind[order[at]] == wanted:
        at += 1
    return list(order[first:at])
