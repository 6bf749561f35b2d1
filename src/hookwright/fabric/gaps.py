"""Gaps between groups that stand side by side: places of their own, and the "spaces" of granny work, where no chain lies between the groups."""

from hookwright.notation.tree import Chain, Each, Either, Group, Repeat, Stitch

from .reaching import end_of, find_stop


def gap_starts(lay, in_round: bool, edges: bool = False) -> list[int]:
    """Cells before which a gap lies, in working order; n stands for the gap before the round's first cell.

    edges: a stitch by itself at either end of a row bounds a gap, too.
    """
    whole, begun = lay.rotated_from or (lay, 0)
    if in_round and len(whole.groups) == 1 and whole.groups[0][1] - whole.groups[0][0] >= whole.n - 1 and whole.n > 3:
        return list(range(1, lay.n + 1))  # all of it in one ring: a gap between each two stitches
    starts = {(start - begun) % lay.n or lay.n for start, _, _ in whole.groups if start or in_round}
    beyond = lay.n - lay.groups[-1][1] if lay.groups else 0
    if beyond > (0 if edges else 1) and not in_round and lay.gaps():
        starts.add(lay.groups[-1][1])
    return sorted(starts)


def _of_unnamed(lay):
    """The gap where the one stretch of a round that is in no group begins, if it is as long as the groups are: the first of them, told stitch by stitch."""
    whole, begun = lay.rotated_from or (lay, 0)
    first, last = whole.groups[0], whole.groups[-1]
    size = first[1] - first[0]
    if size > 1 and len(whole.groups) > 1 and first[0] + lay.n - last[1] == size == last[1] - last[0] and len(whole.groups) * size + size == lay.n and lay.plain:
        return [(last[1] - begun) % lay.n or lay.n]
    return []


def side_by_side(lay) -> bool:
    """Whether groups follow each other with no chain between them, and no chain lies but within groups."""
    if not lay.groups or not lay.n:
        return False
    found = lay._matches.get("side by side")
    if found is None:
        inside = {cell for start, end, _ in (lay.rotated_from or (lay, 0))[0].groups for cell in range(start, end)}
        whole, begun = lay.rotated_from or (lay, 0)
        found = sum(1 for start, end, _ in whole.groups if any(end == other for other, _, _ in whole.groups)) > 0 and all(
            (cell + begun) % lay.n in inside for cell in lay.spaces()
        )
        found = lay._matches["side by side"] = found and len(lay.tops) < 2
    return found


def spaces_are_gaps(lay, steps) -> str:
    """Where "same sp" is in which the row begins, "gap" or "corner", if "space" means the gaps between groups, too: no chain lies elsewhere, or the row goes
    into corners (spaces of a size, or such as it makes chains in) and into spaces of no size as well. Else ""."""
    if not side_by_side(lay):
        return ""
    seen = set()
    _look(steps, seen)
    if lay.plain and "along" not in seen:
        return ""  # "dc in same sp as sl st", and then stitches alone: the place of the slip stitch
    return ("corner" if "from corner" in seen else "gap") if lay.plain or {"sp", "corner"} <= seen else ""


def _look(steps, seen):
    for step in steps:
        place = getattr(step, "place", None)
        if place is not None and place.which in ("next", "same", "first", "last", "any") and isinstance(step, (Stitch, Group)) and getattr(step, "kind", "") != "slst":
            chained = isinstance(step, Group) and any(isinstance(one, Chain) and index for index, one in enumerate(step.steps))
            if chained and place.which == "same":
                seen.add("from corner")
            if place.of == "corner" or place.of in ("sp", "group") and (place.chains is not None or chained):
                seen.add("corner")
            elif place.of == "sp":
                seen.update(("sp",) if place.which == "same" else ("sp", "along"))
        if isinstance(step, Repeat):
            _look(step.steps, seen)
        elif isinstance(step, Each):
            _look(step.parts, seen)
        elif isinstance(step, Either):
            _look(step.readings[0], seen)


def gaps_ahead(hand, edges: bool = False) -> list[int]:
    """Gaps that the hook has not come to yet, as the cells before which they lie."""
    begun = hand.memory.get("begun in gap")
    at, cur = hand.memory.get("in gap"), hand.cur
    rest = hand.memory.get("rest of group")
    edges_too = edges or rest is not None and rest[0] == cur  # out of the middle of a shell: the gap after it is still to come
    starts = gap_starts(hand.lay, hand.in_round, edges)
    if hand.in_round and hand.lay.groups and (begun or hand.lay.rotated_from is None):
        starts = sorted({*starts, *_of_unnamed(hand.lay)})
    return [start for start in starts if (start > cur or start == cur and start and edges_too and at != start) and (start < hand.lay.n or not begun)]


def into_gap(hand, start: int):
    """The hook goes into the gap before this cell; the cell after which it lies."""
    hand.memory["into gaps"] = True
    hand.memory["in gap"] = hand.cur = min(start, hand.lay.n)
    return hand.cur - 1


def until(hand, extent, edges: bool = False) -> float:
    """The cell at which spaces or gaps of an extent end; half a cell before the one a gap lies before. edges: as in gap_starts."""
    found, keep = _last_ones(hand, extent, edges)
    if keep:
        return found[-keep][0]
    if extent.kind == "last":
        return end_of(hand, extent.of, hand.number(extent.n) or 0)
    if extent.kind == "place":
        return find_stop(hand, extent.place)
    return hand.lay.n


def before_last_gap(hand, extent) -> int | None:
    """Where the hook is when nothing but the last gaps of an extent is ahead ("repeat to last space"); None where it does not end at gaps."""
    found, keep = _last_ones(hand, extent, True)
    if not keep:
        return None
    return hand.cur if keep == len(found) else found[-keep - 1][1] + (found[-keep - 1][0] == found[-keep - 1][1])


def _last_ones(hand, extent, edges: bool):
    """Spaces and gaps ahead, and how many of them the extent keeps: "in each space to the last space", with gaps as spaces. 0 where it is no such extent."""
    last = extent if extent.kind == "last" else extent.place if extent.kind == "place" and extent.place is not None and extent.place.which == "last" else None
    if last is None or not hand.lay.groups or not (last.of == "gap" or last.of == "sp" and hand.memory.get("gaps too")):
        return (), 0
    found, keep = _along(hand, edges), hand.number(last.n) or 0
    return found, keep if keep <= len(found) else 0


def _along(hand, edges: bool, past: bool = False) -> list:
    """Spaces and gaps ahead as they come: (where along the row, cell). past: the hook has been in this cell."""
    cells = [(cell, cell) for cell in hand.lay.spaces() if cell >= hand.cur + past]
    return sorted(cells + [(start - 0.5, start) for start in gaps_ahead(hand, edges)])


def next_gaps_and_spaces(hand, place, reserve: int, asked):
    """Cells of "next sp", "each of next 2 sps", "each sp to corner" where gaps count as spaces: both as they come."""
    lay = hand.lay
    last = lay.n + 1 if place.extent is None or place.extent.kind == "end" else until(hand, place.extent, True)
    found = [one for one in _along(hand, True, bool(hand.sub)) if one[1] < last or one[0] < one[1] <= last]
    if place.extent is None:
        count = hand.number(place.n) if asked is None else asked
        if len(found) < (count or 0):
            hand.stuck("no-such-place", wanted="space", of="sp", have=len(found), needed=count)
        found = found[:count or 0]
    elif reserve:
        found = found[:max(0, len(found) - reserve)]
    return _taken(hand, found)


def last_gap_or_space(hand, count: int):
    """Cells of "last sp" where gaps count as spaces, None where none is ahead."""
    found = _along(hand, True)[-count:]
    if len(found) < count:
        return None
    return _taken(hand, found)


def _taken(hand, found):
    """The cells of spaces and gaps, given as (where along the row, cell); the hook goes past them."""
    hand.spaces_worked = True
    hand.longest_pass = max(hand.longest_pass, max((end - start for start, end, _ in hand.lay.groups), default=0))
    taken = []
    for at, cell in found:
        if at == cell:
            hand.cur, hand.sub = cell + 1, 0
            taken.append(cell)
        else:
            taken.append(into_gap(hand, cell))
    return taken
