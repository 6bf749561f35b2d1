"""How many stitches at the end of the row the later steps of a row ask for, where that can be told beforehand."""

from hookwright.notation.tree import Chain, Each, Either, Group, Join, JoinYarn, Leave, Place, Repeat, Skip, Stitch

from . import kinds
from .chain_sides import has_bridge
from .starting import BEFORE

SILENT = (*BEFORE, Chain, Join, JoinYarn)


def stitch_kind(hand, step: Stitch) -> str:
    """The catalogue id a step makes: "inc" and "dec" are of the row's own stitch."""
    if step.kind == "inc":
        return step.base or hand.base
    if step.kind == "dec":
        return (step.base or hand.base) + "2tog"
    return step.kind


def takes_of(hand, step: Stitch) -> int:
    """Places one stitch of this step takes."""
    if step.over and step.legs:
        return step.legs
    if step.over and step.kind in kinds.GATHERED and step.place is not None and (hand.number(step.place.n) or 1) > 1:
        return hand.number(step.place.n)  # "cluster over next 3 sts": a leg in each
    if step.kind in kinds.GATHERED:
        return 1
    return kinds.takes_makes(stitch_kind(hand, step))[0]


def one_place(place: Place | None) -> bool:
    """Whether a decrease named with this place has all its legs in it."""
    return place is not None and (place.which in ("ring", "beginning", "chain top") or place.which == "same" and place.n in (None, 1)
                                  or place.of in ("sp", "corner", "group") and place.which in ("next", "first", "last"))


def need(hand, steps, start: int = 0):
    """Stitches the steps from `start` on take from the row below; None where they take what they find."""
    total = 0
    for index in range(start, len(steps)):
        step = steps[index]
        if isinstance(step, SILENT):
            continue
        if hand.in_round and _only_closes(step) and all(isinstance(other, SILENT) for other in steps[index + 1:]):
            continue
        more = _need(hand, step)
        if more is None:
            return None
        total += more
    return total


def least_need(hand, steps, start: int = 0) -> int:
    """Stitches the steps from `start` on take at least: those that go as far as something count for nothing."""
    return sum(_need(hand, step) or 0 for step in steps[start:] if not isinstance(step, SILENT))


def _only_closes(step) -> bool:
    """A single slip stitch, which at the end of a round closes it."""
    return isinstance(step, Stitch) and step.kind == "slst" and step.n == 1 and (step.place is None or step.place.n == 1)


def _need(hand, step):
    if isinstance(step, Stitch):
        place = step.place
        count = hand.number(step.n) or 0
        if place is None:
            if hand.inside is not None or hand.bare_in is not None:
                return 0
            return count * takes_of(hand, step)
        if place.of == "ch" and place.which in ("next", "other side") and has_bridge(hand):
            return 0  # chains made in this row between two parts
        if place.extent is not None:
            return None
        return _places(hand, place, takes_of(hand, step) if not one_place(place) else 1)
    if isinstance(step, Skip):
        if step.place.which == "chain top" and not hand.lay.tops:
            return 0
        return None if step.place.extent is not None else _places(hand, step.place, 1)
    if isinstance(step, Group):
        if step.place is None:
            return 1 if hand.inside is None else 0
        return None if step.place.extent is not None else _places(hand, step.place, 1)
    if isinstance(step, Repeat):
        times = hand.number(step.times, None)
        if times is None:
            return None
        inner = need(hand, step.steps)
        return None if inner is None else inner * (times + (step.sense == "more"))
    if isinstance(step, Each):
        return None
    if isinstance(step, Leave):
        return hand.number(step.n, None) or 0
    if isinstance(step, Either):
        return need(hand, step.readings[0]) if step.readings else 0
    return None


def _places(hand, place, takes):
    count = hand.number(place.n)
    count = takes if count in (None, 1) else count
    if place.which in ("next", "last"):
        if place.of in ("sp", "corner", "group", "gap"):
            return 0
        return count
    if place.which == "chain top":
        return 1 if any(top >= hand.cur for top in hand.lay.tops) or not hand.in_round else 0
    if place.which == "nth":
        return hand.number(place.ordinal) or 1
    if place.which == "marked":
        return 1
    return 0


def next_space_place(steps, start: int, after=()):
    """The place of the next step that goes into a space or corner, where one comes before any plain stitch does."""
    for step in [*steps[start:], *after]:
        if isinstance(step, SILENT):
            continue
        place = getattr(step, "place", None)
        if isinstance(step, Repeat):
            return next_space_place(step.steps, 0)
        if isinstance(step, Either):
            return next_space_place(step.readings[0], 0)
        if place is None:
            return None
        if place.which == "next" and place.of in ("sp", "corner"):
            return place
        if place.which == "next" and place.of == "group":
            return place
        return None
    return None


def spaces_needed(hand, steps, start: int, place: Place) -> int:
    """Spaces like this one that later steps of the row ask for."""
    total = 0
    for step in steps[start:]:
        other = getattr(step, "place", None)
        if other is None or other.of != place.of or other.which not in ("next", "last") or other.extent is not None:
            continue
        if place.chains is None or other.chains is None or place.chains == other.chains:
            total += hand.number(other.n) or 1
    return total
