"""After the words: how far "in each st" goes, and groups written without brackets."""

from copy import copy

from .tree import Chain, Colour, Each, Either, Extent, Group, Join, JoinYarn, Leave, Note, Place, Repeat, Skip, Stitch, Turn

_WORKED = frozenset((Stitch, Group, Repeat, Each, Either, Skip, Leave))
_SPACES = frozenset(("sp", "corner", "group", "gap"))


def settle(steps: list, reader) -> list:
    """The steps with open extents settled and unbracketed groups read in both ways; new lists, same nodes."""
    return _settled(steps, reader, False, True)


def _settled(steps: list, reader, cyclic: bool, top: bool) -> list:
    for step in steps:
        kind = type(step)
        if kind is Repeat or kind is Either:
            if id(step) in reader.settled:  # two readings may share their steps
                continue
            reader.settled.add(id(step))
        if kind is Repeat:
            step.steps = _kept_stop(step, reader)
            if step.ending:
                step.ending = _settled(step.ending, reader, False, False)
        elif kind is Group:
            step.steps = _inside(step.steps, reader)
        elif kind is Either:
            step.readings = [_settled(reading, reader, False, top) for reading in step.readings]
    steps = [_as_each(step) for step in steps]
    if cyclic:
        _both_in_one(steps)
    if cyclic or top:
        _counted_within(steps, ("st", "sc", "dc", "hdc", "tr") if cyclic else ("st",), 0 if cyclic else 1)
    _skip_last(steps)
    if top:
        _kinds_in_turn(steps, reader.text)
    steps = _by_turns(_corners_between(_each_unbracketed(steps)))
    for index, step in enumerate(steps):
        _settle_extent(steps, index, step, cyclic)
    steps = _begun_in_space(steps) if top else steps
    return _unbracketed(steps)


def _both_in_one(steps: list) -> None:
    """ "*(sc, dc) in same st, skip 1; rep from *": with nothing before it to be the same as, both go into one stitch, the next."""
    made = [step for step in steps if type(step) not in (Skip, Chain, Note, Colour)]
    group = made[0] if len(made) == 1 else None
    if type(group) is Group and len(group.steps) > 1 and any(type(step) is Skip for step in steps) and group.place is not None and group.place.which == "same" and group.place.of == "st" and group.place.n == 1:
        group.place.which = "next"


def _counted_within(steps: list, nouns: tuple, least: int) -> None:
    """ "*Sc in next 3 sts, 2 sc in the 4th": the fourth of the repeat (or of the row) is the next one."""
    passed = 0
    for step in steps:
        place = getattr(step, "place", None)
        if type(step) in (Note, Colour, Chain) and passed == 0:
            continue
        if type(step) not in (Stitch, Skip, Group) or type(step) is Group and place is None or getattr(step, "kind", "") in ("dec", "invdec") or getattr(step, "kind", "").endswith("tog"):
            return
        if place is not None and place.which == "nth" and place.of in nouns and not place.group and place.chains is None and not place.post and place.extent is None and place.ordinal == passed + 1 and passed > least:
            place.which, place.ordinal = "next", None
        more = step.n if place is None else place.n  # a group has a place
        if not isinstance(more, int) or place is not None and (place.which not in ("next", "first") or place.extent is not None or place.of in _SPACES):
            return
        passed += more


def _as_each(step):
    """ "*dc in each sc and 2 dc in each ch-2 sp* to end" is one walk and no repeat of walks."""
    if type(step) is Repeat and step.times is None and step.extent is not None and len(step.steps) == 1 and type(step.steps[0]) is Each and not step.partial and not step.ending:
        each = step.steps[0]
        if each.extent.kind == "end":
            return Each(each.parts, step.extent, step.span)
    return step


def _kept_stop(step: Repeat, reader) -> list:
    """The steps of a repeat; where groups are put together the ** mark is moved with them."""
    stop = step.stop
    if stop is None:
        return _settled(step.steps, reader, True, False)
    first = _settled(step.steps[:stop], reader, False, False)
    rest = _settled(step.steps[stop:], reader, False, False)
    for index, one in enumerate(first):
        _settle_extent(first + rest, index, one, True)
    step.stop = len(first)
    return first + rest


def _inside(steps: list, reader) -> list:
    for step in steps:
        if type(step) in (Repeat, Group):
            step.steps = _inside(step.steps, reader)
        place = getattr(step, "place", None)
        if place is not None and place.extent is not None and place.extent.kind == "open":
            place.extent = Extent("end", span=place.extent.span)
    return steps


def _kinds_in_turn(steps: list, text: str) -> None:
    """ "Sc in each sc and 2 sc in ch-2 sp.": where nothing comes after it, the whole row is told by kinds of place, and not only up to the space."""
    made = [step for step in steps if type(step) in _WORKED]
    if len(made) < 2 or type(made[-1]) not in (Stitch, Group) or not _in_each(made[-2], True) or made[-2].place.extent.kind != "open" and made[-1].place is not None and made[-1].place.of != "ch":
        return
    place, before = made[-1].place, made[-2].place
    if place is None or place.which != "next" or place.extent is not None or place.part or place.group or before.of in ("st+sp", "ch", *_SPACES) or not before.each:
        return
    said = text[made[-2].span.end:made[-1].span.end].lower()
    if place.of == "ch" and (place.each or "both" in said) and place.chains is None or place.of == "sp" and place.n == 1 and " next " not in said:
        place.n, place.extent, place.each = None, Extent("open", span=place.span), True


def _by_turns(steps: list) -> list:
    """ "dc in each dc and 2 dc in each ch-2 sp around", "sc in each st around, placing 3 sc in each corner": place by place as they come."""
    if sum(getattr(step, "place", None) is not None for step in steps) < 2:
        return steps
    out: list = []
    index = 0
    while index < len(steps):
        parts, seen = [], set()
        after = index
        while after < len(steps) and _in_each(steps[after], not parts or all(part.place.of == "corner" for part in parts) and getattr(getattr(steps[after], "place", None), "of", "") == "st+sp"):
            kind = (steps[after].place.which, steps[after].place.of, repr(steps[after].place.chains), steps[after].place.group)
            if kind in seen:
                break
            seen.add(kind)
            parts.append(steps[after])
            after += 1
            if parts[0].place.of == "st+sp" and after < len(steps) and getattr(getattr(steps[after], "place", None), "of", "") != "corner":
                break
            if parts[-1].place.which != "marked" and parts[-1].place.extent is not None and parts[-1].place.extent.kind not in ("open", "end"):
                break
        if len(parts) < 2:
            out.append(steps[index])
            index += 1
            continue
        extent = (parts[-1] if parts[-1].place.which != "marked" else parts[0]).place.extent or parts[0].place.extent
        for part in parts:
            part.place.extent, part.place.n = None, 1 if part.place.which != "marked" else part.place.n
            if type(part) is Stitch:
                part.evenly = False  # "sc evenly around, working 3 sc in each corner"
        if extent.kind == "open":
            extent = Extent("end", span=extent.span)
        out.append(Each(parts, extent, parts[0].span.to(parts[-1].span)))
        index = after
    return out


def _corners_between(steps: list) -> list:
    """ "*3 tr in next sp; rep from * along each side, working (3 tr, ch 2, 3 tr) in each corner": side, corner, side, corner."""
    out: list = []
    for step in steps:
        before = out[-1] if out else None
        if (
            type(before) is Repeat and before.times is None and before.extent is not None and before.extent.kind == "end" and not before.ending and not before.partial
            and _in_each(step, False) and step.place.of == "corner"
        ):
            side = copy(before)
            side.extent = Extent("place", place=_as_limit(step.place))
            step.place.extent, step.place.n = None, 1
            out[-1] = Repeat([side, step], extent=Extent(), span=before.span.to(step.span))
            continue
        out.append(step)
    return out


def _in_each(step, first: bool) -> bool:
    """Whether a step goes into each place of its kind as far as there are any (said so, unless it is the first)."""
    if type(step) not in (Stitch, Group) or step.place is None or getattr(step, "evenly", False) and step.n != 1:
        return False
    place = step.place
    if place.group[:4] == "leg ":
        return False  # one leg after the other
    if place.which == "marked":
        return not first and place.each  # "sc around, working 2 sc in each marked st"
    if not first and place.which == "next" and place.of == "corner" and place.each and place.extent is None and isinstance(place.n, int) and place.n > 1:
        return True  # "sc around, working 3 sc in each of the 4 corners"
    if place.which != "next" or place.n is not None or place.extent is None or place.of == "st+sp" and not first or not (first or place.each):
        return False
    return place.extent.kind in ("open", "end") or not first


# ---------------------------------------------------------------- extents

def _skip_last(steps: list) -> None:
    """ "dc in each st, miss last st": the stitch is left."""
    for index in range(1, len(steps)):
        step = steps[index]
        if type(step) is Skip and step.place.which == "last" and step.place.of == "st" and index == _last_maker(steps) + 1:
            steps[index] = Leave(step.place.n or 1, step.span)


def _last_maker(steps: list) -> int:
    return max((index for index, step in enumerate(steps) if type(step) in (Stitch, Group, Repeat, Either)), default=-1)


def _settle_extent(steps: list, index: int, step, cyclic: bool) -> None:
    if type(step) is Repeat or type(step) is Each:
        extent = step.extent
        if extent is None or extent.kind not in ("end", "open"):
            return
        if type(step) is Repeat and (step.times is not None or step.ending or step.partial):
            return
        found = _limit(steps, index, None, False)
        if found is None and cyclic and type(step) is Repeat and step.mark != "*" and not any(getattr(getattr(one, "place", None), "of", "") == "corner" for one in step.steps):
            found = next((Extent("place", place=_as_limit(one.place)) for one in steps[:index] if type(one) in (Stitch, Group) and one.place is not None and one.place.which == "next" and one.place.of == "corner"), None)
        if found is not None:
            step.extent = found
        return
    place = getattr(step, "place", None)
    if place is None or place.extent is None or place.extent.kind not in ("end", "open"):
        return
    if type(step) not in (Stitch, Group) or getattr(step, "evenly", False):
        place.extent = Extent("end", span=place.extent.span)
        return
    found = _limit(steps, index, place, cyclic)
    if found is None and cyclic and place.extent.kind == "open" and place.of in _SPACES and len(steps) > 1 and _placed(steps) > 1:
        place.extent, place.n = None, 1  # "*sc in next st, 2 dc in each sp; rep ...": one space a pass
        return
    if found is not None:
        found.span = place.extent.span
        place.extent = found
    elif place.extent.kind == "open":
        place.extent = Extent("end", span=place.extent.span)


def _placed(steps: list) -> int:
    return sum(1 for step in steps if type(step) in (Stitch, Group) and step.place is not None)


def _limit(steps: list, index: int, place: Place | None, cyclic: bool) -> Extent | None:
    """Where an extent "to the end" really stops: before stitches that are spoken of afterwards."""
    after = steps[index + 1:]
    passed = 0
    for at, step in enumerate(after):
        kind = type(step)
        if kind is Leave and step.n is not None:
            return Extent("last", step.n)
        if kind in (Chain, Note, Colour):
            continue
        if kind is Skip and step.place.which in ("next", "last") and isinstance(step.place.n, int) and step.place.of not in _SPACES:
            passed += step.place.n
            continue
        if kind not in (Stitch, Group) or kind is Stitch and step.kind == "slst":
            return None
        other = step.place
        if other is None or other.which == "same":
            return None
        return _stops_at(other, place, passed, after[at + 1:])
    if cyclic and place is not None:
        for step in steps[:index]:
            other = getattr(step, "place", None)
            if other is None:
                continue
            if other.which == "next" and other.of in _SPACES and type(step) in (Stitch, Group) and (place.of not in _SPACES or _another_space(place, other)):
                return Extent("place", place=_as_limit(other))
            return None
    return None


def _another_space(place: Place, other: Place) -> bool:
    """Whether `other` is a space that `place`, one in each, stops before: a corner, or one of another size."""
    return other.of == "corner" != place.of or place.of in ("sp", "gap") and other.of == "sp" and isinstance(other.chains, int) and other.chains != place.chains


def _stops_at(other: Place, place: Place | None, passed: int, further: list) -> Extent | None:
    spaces = other.of in _SPACES
    if other.which == "last":
        if spaces:
            return Extent("place", place=_as_limit(other)) if place is None or place.of not in _SPACES else None
        if place is not None and place.of in _SPACES:
            return None
        if not isinstance(other.n, int):
            return Extent("last", other.n, other.of) if not passed and other.n is not None else None
        return Extent("last", other.n + passed, other.of if not passed else "st")
    if other.which == "chain top":
        if place is not None and place.of in _SPACES:
            return None
        return Extent("place", place=_as_limit(other)) if not passed else None
    if other.which == "marked" and not passed:
        return Extent("place", place=_as_limit(other))
    if spaces and other.which == "next" and place is not None and place.of != "st+sp" and (place.of not in _SPACES or _another_space(place, other)):
        return Extent("place", place=_as_limit(other))
    return None


def _as_limit(place: Place) -> Place:
    limit = copy(place)
    limit.extent, limit.n, limit.each = None, 1, False
    return limit


# ---------------------------------------------------------------- groups without brackets

def _begun_in_space(steps: list) -> list:
    """ "Sl st in ch sp. Ch 3, 6 dc, ch 2, ...": what has no place goes where the row began, or on along the row."""
    start = next((index for index, step in enumerate(steps) if type(step) not in (Note, Colour, Chain, Join)), len(steps))
    if start >= len(steps):
        return steps
    opening = steps[start]
    if not (type(opening) is JoinYarn or type(opening) is Stitch and opening.kind == "slst") or opening.place is None or opening.place.of not in ("sp", "corner"):
        return steps
    first = start + 1
    while first < len(steps) and type(steps[first]) in (Note, Colour):
        first += 1
    last = first
    while last < len(steps) and type(steps[last]) in (Chain, Stitch) and getattr(steps[last], "place", None) is None:
        last += 1
    if last < len(steps) and type(steps[last]) is Stitch and not (steps[last].place is not None and steps[last].place.which == "same"):
        nxt = steps[last].place
        if nxt is not None and nxt.of == opening.place.of and nxt.which == "next" and nxt.n == 1 and _begun_with_chain(steps[first:last], steps[last]):
            closing = copy(steps[last])  # "sl st into corner, ch 3, 2 dc, ch 3, 3 dc in corner": all of it in that corner
            closing.place = None
            group = Group([*steps[first:last], closing], Place("same", opening.place.of), span=steps[first].span.to(closing.span))
            return [*steps[:first], group, *steps[last + 1:]]
        if nxt is not None and nxt.of in ("sp", "corner") and nxt.which == "next" and nxt.n == 1 and _begun_with_chain(steps[first:last], steps[last]):
            closing = copy(steps[last])  # "sl st to corner sp, ch 3, 2 dc, ch 2, 3 dc in ch-2 sp": the corner is a ch-2 space
            closing.place = None
            group = Group([*steps[first:last], closing], Place("same", opening.place.of), span=steps[first].span.to(closing.span))
            why = "the group may go into the space where the round begins, or into the next one"
            return [*steps[:first], Either([[group], steps[first:last + 1]], why, group.span), *steps[last + 1:]]
        if nxt is not None and nxt.of in _SPACES and _mirror(steps[first:last + 1]):
            return steps
    while last > first and type(steps[last - 1]) is Chain:
        last -= 1
    run = steps[first:last]
    if not any(type(step) is Stitch for step in run):
        return steps
    group = Group(list(run), Place("same", opening.place.of), span=run[0].span.to(run[-1].span))
    following = steps[last + (last < len(steps) and type(steps[last]) is Chain)] if last + 1 < len(steps) else None
    where = getattr(following, "place", None)
    if where is not None and where.which == "same" and where.of in _SPACES:
        return [*steps[:first], group, *steps[last:]]  # "..., ch 3, 3 tr in same sp": all of it there
    why = "the stitches without a place may all go into the space where the row begins, or along the row"
    return [*steps[:first], Either([[group], list(run)], why, group.span), *steps[last:]]


def _mirror(run: list) -> bool:
    """Whether a run reads the same from both ends: 3 tr, ch 3, 3 tr."""
    stitches = [step for step in run if type(step) is Stitch]
    kinds = [(step.kind, step.n) for step in stitches]
    return len(stitches) > 1 and kinds == kinds[::-1] and type(run[0]) is Stitch


def _unbracketed(steps: list) -> list:
    out: list = []
    for step in steps:
        place = getattr(step, "place", None)
        if type(step) is Stitch and place is not None and place.n == 1 and place.extent is None and place.which in ("next", "same", "last", "first") and not place.post:
            run = _run_before(out, step)
            if run:
                first = len(out) - len(run)
                inner = [*run, copy(step)]
                inner[-1].place = None
                group = Group(inner, place, span=run[0].span.to(step.span))
                apart = [*run, step]
                readings = [[group], apart]
                if place.of not in _SPACES and not any(type(one) is Chain for one in run) and len({one.kind for one in run}) < 3:
                    readings.reverse()
                why = "without brackets it is not plain whether all of it goes into the one place or only the last stitch"
                out[first:] = [Either(readings, why, group.span)]
                continue
        out.append(step)
    return out


def _each_unbracketed(steps: list) -> list:
    """ "2 tr, 1 ch, 2 tr in each corner sp": surely a group, since a chain between lies in no place."""
    out: list = []
    for step in steps:
        place = getattr(step, "place", None)
        if type(step) is Stitch and place is not None and (place.n is None or place.each and isinstance(place.n, int)) and place.of in _SPACES:
            run = _run_before(out, step)
            if run:
                del out[len(out) - len(run):]
                inner = [*run, copy(step)]
                inner[-1].place = None
                out.append(Group(inner, place, span=run[0].span.to(step.span)))
                continue
        out.append(step)
    return out


def _begun_with_chain(run: list, last: Stitch) -> bool:
    """ "Ch 3, 2 dc, ch 2, 3 dc in corner": the chain stands for the first stitch of the group."""
    return (
        len(run) == 3 and type(run[0]) is Chain and isinstance(run[0].n, int) and run[0].n > 1 and type(run[1]) is Stitch and type(run[2]) is Chain
        and run[1].kind == last.kind and isinstance(last.n, int) and run[1].n == last.n - 1 and last.place.of in _SPACES
    )


def _run_before(out: list, last: Stitch) -> list:
    """The steps just before that may share the place of `last`: stitches without a place and chains, mirrored."""
    first = len(out)
    while first and type(out[first - 1]) in (Stitch, Chain) and getattr(out[first - 1], "place", None) is None and (first == 1 or not getattr(out[first - 1], "says", None)):
        if type(out[first - 1]) is Chain and out[first - 1].role or type(out[first - 1]) is Stitch and (
            out[first - 1].kind in ("inc", "dec") or out[first - 1].kind.endswith("tog") or out[first - 1].loop and last.place.of in _SPACES  # a space has no loops
        ):
            break
        first -= 1
    run = out[first:]
    if first == 0 and _begun_with_chain(run, last):
        return run
    if first == 2 and type(out[1]) is Turn and type(out[0]) is Chain and run and type(run[0]) is Stitch and _begun_with_chain([out[0], *run], last):
        return run  # "ch 3, turn, 2 dc, ch 3, 3 dc in 1st sp"
    while run and type(run[0]) is not Stitch:
        run.pop(0)
    while run and not (run[0].kind == last.kind and run[0].n == last.n and (len(run) > 1 and _mirror([*run, last]))):
        run.pop(0)
        while run and type(run[0]) is not Stitch:
            run.pop(0)
    chained = any(type(step) is Chain for step in run)
    if not run or not chained and (len(run) < 2 or last.place.of not in _SPACES and len({step.kind for step in run}) < 2):
        return []
    if any(type(step) is Chain and not isinstance(step.n, int) for step in run):
        return []
    return run
