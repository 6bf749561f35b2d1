"""Both sides of a chain: the far side of a foundation, and a chain made in the row itself."""

from . import layout
from .hand import Hand
from .kinds import CHAINS, FOUNDATION
from .reaching import count_of
from .worked import FLAG_TURNING, FOOT_NONE


def turn_to_other_side(hand: Hand):
    """Goes on along the free side of the foundation: from the chain before the last one back to the first worked."""
    lay = hand.lay
    first = hand.memory.get("first-worked", 0)
    if lay.kind[:1] != [FOUNDATION] or not hand.cur:
        hand.stuck("no-such-place", wanted="other side of the chain", of="other side", have=0, needed=1)
    if hand.memory.get("bridge"):  # a chain between two parts: all its chains are free on the other side
        back = list(range(lay.n - 1, -1, -1))
    else:
        alone = hand.kind and hand.foot.count(hand.cur - 1) == 1  # a last chain with one stitch in it is worked into again
        last = hand.cur - 1 - hand.choose("last chain", 2, 1, "the other side begins in the last chain" if alone else "the other side begins in the chain before the last") if alone else hand.cur - 2
        back = list(range(last, first - 1, -1))
    items = back if lay.item is None else [lay.item[i] for i in back]
    hand.change(layout.Layout([FOUNDATION] * len(back), item=items))
    hand.other_side = lay


def has_bridge(hand) -> bool:
    """Whether a chain made in this row joins two parts (legs of a toy): it can be worked into from both sides."""
    return hand.in_round and hand.lay.kind[:1] != [FOUNDATION] and CHAINS in hand.kind and hand.lay.plain


def bridge(hand, place, asked):
    """Places in the chain made in this row, which stands on nothing."""
    at = hand.kind.index(CHAINS)
    hand.memory["bridged"] = True
    hand.flags[at] |= FLAG_TURNING  # worked into chain by chain: no space any more
    count = count_of(hand, place, asked) if place.extent is None else hand.chains[at]
    if count > hand.chains[at]:
        hand.stuck("no-such-place", wanted="chains", of="ch", have=hand.chains[at], needed=count)
    return [FOOT_NONE] * count
