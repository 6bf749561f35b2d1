"""From a Place to the cells of the row below that it means, and where the hook stands afterwards."""

from hookwright.notation.tree import Place

from . import layout
from .edges import corner_places
from .hand import Hand
from .kinds import FOUNDATION
from .named_places import NAMED, left_open
from .next_places import next_cells
from .starting import chains_one_by_one
from .worked import FOOT_NONE


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
        return left_open(hand, place, reserve, asked)
    if place.of == "corner" and hand.memory.get("edges"):
        return corner_places(hand, place)
    if place.of in ("corner", "gap", "sp") and hand.memory.get("rejoined") and place.extent is None and FOUNDATION in hand.lay.kind and which != "same":
        return [FOOT_NONE] * (hand.number(place.n) or 1)  # beside the stitches of a thumb or an armhole, where its two edges meet
    if place.of == "sp" and hand.lay.kind[:1] == [FOUNDATION]:  # "loop" said of a chain of the foundation
        place = Place(which, "ch", place.n, place.extent, place.ordinal, span=place.span)
    if chains_one_by_one(hand.lay, place):
        hand.change(layout.foundation(hand.lay.hook_chain, joined=True))
    if hand.lay.ring and which in ("next", "same", "first", "last", "nth", "any"):
        if which == "next" and place.of == "st" and place.extent is not None:
            hand.stuck("no-end", words="a ring has no stitches to be worked one after the other")
        return [hand.into()]
    if place.layers > 1:
        fold(hand, place)
    return next_cells(hand, place, reserve, asked) if which == "next" else NAMED[which](hand, place, reserve, asked)


def fold(hand: Hand, place: Place):
    """Through both thicknesses: the row below is a pair of layers, each place two stitches."""
    if hand.memory.get("folded"):
        return
    hand.memory["folded"] = True
    lay = hand.lay
    readings = ("each stitch is a pair, one from each layer", "both edges are held together stitch by stitch", "the row folded in half")
    order = (1, 0, 2) if place.layers > 2 else (0, 1, 2)  # two pieces: the row below is one of them
    taken = order[hand.choose("fold", 3, 1, tuple(readings[at] for at in order), place.span)]
    stated = hand.memory.get("stated", 0)
    odd = lay.n % 2 and stated in (lay.n // 2, lay.n // 2 + 1)  # pressed flat, one stitch at the fold is shared or left
    if taken == 1 or taken == 0 and (lay.n % 2 and not odd or not lay.plain):
        return
    if lay.plain and lay.n > 1:
        half = stated if odd and taken == 0 else lay.n // 2
        hand.change(layout.Layout(lay.kind[:half], item=lay.item[:half] if lay.item else None))
