"""After the words: how far "in each st" goes, and what is worked by turns along the row."""

from copy import copy
from itertools import pairwise

from .steps_unbracketed import SPACES, begun_in_space, each_unbracketed, unbracketed
from .tree import Chain, Colour, Each, Either, Extent, Group, Leave, Note, Place, Repeat, Skip, Stitch, Turn

_WORKED = frozenset((Stitch, Group, Repeat, Each, Either, Skip, Leave))


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
        _in_one_place(steps)
    if cyclic or top:
        _counted_within(steps, ("st", "sc", "dc", "hdc", "tr") if cyclic else ("st",), 0 if cyclic else 1)
    _skip_last(steps, reader.in_round)
    _last_before_place(steps)
    if top:
        _kinds_in_turn(steps, reader.text)
    steps = _by_turns(_corners_between(each_unbracketed(steps)))
    for index, step in enumerate(steps):
        _settle_extent(steps, index, step, cyclic)
    steps = begun_in_space(steps) if top else steps
    return unbracketed(steps, reader.text)


def _both_in_one(steps: list) -> None:
    """ "*(sc, dc) in same st, skip 1; rep from *": with nothing before it to be the same as, both go into one stitch, the next."""
    made = [step for step in steps if type(step) not in (Skip, Chain, Note, Colour)]
    group = made[0] if len(made) == 1 else None
    if type(group) is Group and len(group.steps) > 1 and any(type(step) is Skip for step in steps) and group.place is not None and group.place.which == "same" and group.place.of == "st" and group.place.n == 1:
        group.place.which = "next"


def _in_one_place(steps: list) -> None:
    """ "(3 sc, 2 sc in same place) x 6": after stitches that go on along the row, both of them go into the next one."""
    for before, step in pairwise(steps):
        if type(step) is Stitch and step.n == 2 and type(before) is Stitch and before.place is None and before.kind == step.kind and step.place is not None and step.place.which == "same" and step.place.of == "st" and step.place.n == 1:
            step.place.which = "next"


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
        if not isinstance(more, int) or place is not None and (place.which not in ("next", "first") or place.extent is not None or place.of in SPACES):
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
    if made and type(made[-1]) is Stitch and made[-1].kind == "slst" and made[-1].place is None:
        made.pop()  # it closes the round
    if len(made) < 2 or type(made[-1]) not in (Stitch, Group) or not _in_each(made[-2], True) or made[-2].place.extent.kind != "open" and made[-1].place is not None and made[-1].place.of != "ch":
        return
    place, before = made[-1].place, made[-2].place
    if place is None or place.which != "next" or place.extent is not None or place.part or place.group or before.of in ("st+sp", "ch", *SPACES) or not before.each:
        return
    said = text[made[-2].span.end:made[-1].span.end].lower()
    if place.of == "sp" and isinstance(place.n, int) and place.n > 1 and " the " in said and " next " not in said:  # "and (dc, ch 2, dc) in the 4 ch-2 sps"
        place.n, place.extent, place.each = None, Extent("open", span=place.span), True
        return
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

def _skip_last(steps: list, in_round: bool) -> None:
    """ "dc in each st, miss last st": the stitch is left."""
    for index in range(1, len(steps)):
        step = steps[index]
        if type(step) is not Skip or step.place.which != "last" or step.place.of != "st":
            continue
        made = _last_maker(steps)
        if index == made + 1 or not in_round and made >= 0 and all(type(one) in (Chain, Note, Turn, Skip) for one in steps[made + 1:]):  # "htr in first 48 sts, 27 ch, miss the last 27 sts"
            steps[index] = Leave(step.place.n or 1, step.span)


def _last_before_place(steps: list) -> None:
    """ "rep from * to last st before center sp, skip last st, 3 dc in center sp": the last of those before the place are the next ones."""
    left = 0
    for step in steps:
        place = getattr(step, "place", None)
        if left and place is not None:
            if place.of in SPACES or place.which == "marked" or place.extent is not None:
                left = 0
            elif place.which == "last" and place.n == left:
                place.which, left = "next", 0
            elif isinstance(left, int) and isinstance(place.n, int):
                left -= min(left, place.n)
        extent = step.extent if type(step) is Repeat else None if place is None else place.extent
        if extent is not None and extent.kind == "place" and extent.n is not None and extent.of not in SPACES:
            left = extent.n


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
    if found is None and cyclic and place.extent.kind == "open" and place.of in SPACES and len(steps) > 1 and _placed(steps) > 1:
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
        if kind is Skip and step.place.which in ("next", "last") and isinstance(step.place.n, int) and step.place.of not in SPACES:
            passed += step.place.n
            continue
        if kind not in (Stitch, Group) or kind is Stitch and step.kind == "slst":
            return None
        other = step.place
        if other is None or other.which == "same":
            return None
        if place is not None and place.of == "st+sp" and other.which == "next" and (other.of == "corner" or kind is Group and other.of == "sp" and any(type(one) is Chain for one in step.steps[1:])):
            return Extent("place", place=_as_limit(other))  # "*tr in each tr and each 1ch-sp along side, (2tr, 2ch, 2tr) in next 2ch-sp"
        return _stops_at(other, place, passed, after[at + 1:])
    if cyclic and place is not None:
        for step in steps[:index]:
            other = getattr(step, "place", None)
            if other is None:
                continue
            if other.which == "next" and other.of in SPACES and type(step) in (Stitch, Group) and (place.of not in SPACES or _another_space(place, other)):
                return Extent("place", place=_as_limit(other))
            return None
    return None


def _another_space(place: Place, other: Place) -> bool:
    """Whether `other` is a space that `place`, one in each, stops before: a corner, or one of another size."""
    return other.of == "corner" != place.of or place.of in ("sp", "gap") and other.of == "sp" and isinstance(other.chains, int) and other.chains != place.chains


def _stops_at(other: Place, place: Place | None, passed: int, further: list) -> Extent | None:
    spaces = other.of in SPACES
    if other.which == "last":
        if spaces:
            return Extent("place", place=_as_limit(other)) if place is None or place.of not in SPACES else None
        if place is not None and place.of in SPACES:
            return None
        if not isinstance(other.n, int):
            return Extent("last", other.n, other.of) if not passed and other.n is not None else None
        return Extent("last", other.n + passed, other.of if not passed else "st")
    if other.which == "chain top":
        if place is not None and place.of in SPACES:
            return None
        return Extent("place", place=_as_limit(other)) if not passed else None
    if other.which == "marked" and not passed:
        return Extent("place", place=_as_limit(other))
    if spaces and other.which == "next" and place is not None and place.of != "st+sp" and (place.of not in SPACES or _another_space(place, other)):
        return Extent("place", place=_as_limit(other))
    return None


def _as_limit(place: Place) -> Place:
    limit = copy(place)
    limit.extent, limit.n, limit.each = None, 1, False
    return limit
