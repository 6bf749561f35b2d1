"""A body that begins on two legs made before: their last rounds lie below it side by side."""

from hookwright.ground import at
from hookwright.notation.tree import Group, Repeat

from . import layout
from .worked import FOOT_NONE


def names_legs(steps) -> bool:
    """Whether some step goes into stitches of the first or second leg."""
    for step in steps:
        if isinstance(step, (Group, Repeat)) and names_legs(step.steps):
            return True
        place = getattr(step, "place", None)
        if place is not None and place.group.startswith("leg "):
            return True
    return False


def both_legs(thread, size: int, lay):
    """The last rounds of two legs as one line of places; `lay` itself where two are not known."""
    ended = [(piece, last) for piece, last in thread.ended if last is not None and "leg" in piece.name.lower()]
    if not ended:
        return lay
    piece, last = ended[-1]
    if (at(piece.make, size) or 1) > 1:
        first, second = last, last
    elif len(ended) > 1:
        first, second = ended[-2][1], last
    elif lay is not None and lay is not last:
        first, second = last, lay
    else:
        return lay
    item = list(second.item or range(second.n))
    return layout.Layout(second.kind + first.kind, second.size + first.size, item + [FOOT_NONE] * first.n)
