"""A round of decreases "until 6 sts remain": what is to be left of the whole round, and not of the stitches it is worked over."""

import re
from dataclasses import dataclass, replace

from hookwright.ground import Number, Span

from .patterns import Lazy
from .tree import Extent, FastenOff, Join, Note, Repeat, Stitch, Turn

_TELLS = Lazy(r"\b(?:until|till?)\b[^.;]*\b(?:rem\w*|left|have|there)\b", re.I)
_AFTERWARDS = (Join, FastenOff, Note, Turn)


@dataclass(slots=True)
class RoundGoal:
    """So many stitches that the round is worked down to."""

    stitches: Number
    span: Span


def take_goal(steps: list, text: str) -> RoundGoal | None:
    """Takes the goal out of the only steps of a round, which then go on to its end; None with nothing changed where none is told.

    steps: those of a row worked in the round, changed in place.
    """
    found = None
    for index, step in enumerate(steps):
        if type(step) in _AFTERWARDS:
            continue
        if found is not None:
            return None
        found = index
    step = steps[found] if found is not None else None
    place = step.place if type(step) is Stitch else None
    extent = step.extent if type(step) is Repeat else place.extent if place is not None else None
    if extent is None or extent.kind not in ("last", "until") or extent.of != "st" or extent.n is None:
        return None
    if not any(type(one) is Stitch and (one.kind in ("dec", "invdec") or one.kind.endswith("tog")) for one in (step.steps if type(step) is Repeat else [step])):
        return None
    if not _TELLS.search(text, extent.span.start, extent.span.end):
        return None
    whole = Extent(span=extent.span)
    steps[found] = replace(step, extent=whole) if type(step) is Repeat else replace(step, place=replace(place, extent=whole))
    return RoundGoal(extent.n, extent.span)
