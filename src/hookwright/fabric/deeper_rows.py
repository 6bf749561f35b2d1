"""Repeats worked around or into stitches of an earlier row alone: they go on over that row."""

from dataclasses import replace

from hookwright.notation.tree import Chain, Group, Note, Stitch

from . import kinds
from .reaching import made_so_far


def over_deeper_row(hand, body):
    """The steps of a repeat, over the row that they go into: "*sc around post of next dc 2 rnds below, ch 5; rep from * around" has as many passes as that
    row has such stitches. The steps as they are where they also go into the row below, or that row has no other number of stitches.
    """
    meant = None
    for step in body:
        if isinstance(step, (Chain, Note)):
            continue
        place = step.place if isinstance(step, (Stitch, Group)) else None
        if place is None or place.which not in ("below", "next") or place.of not in kinds.NAMES or place.extent is not None:
            return body
        if place.which == "below" and place.rows_down < 2 or place.which == "next" and place.row is None:
            return body
        if meant is not None and (place.of, place.row, place.rows_down) != (meant.of, meant.row, meant.rows_down):
            return body
        meant = place
    if meant is None or hand.sequence is None or hand.lay.ring:
        return body
    lay = hand.sequence.earlier_row(meant)
    there = lay.of_kind(meant.of) if lay is not None else ()
    if not there or len(there) == hand.lay.stitches:
        return body
    before = made_so_far(hand) if hand.cur else 0
    if before < len(there):
        hand.change(lay, there[before] if before else 0)
    memo = hand.sequence.sequence.memo
    key = ("over deeper row", *map(id, body))
    if key not in memo:
        memo[key] = [step if isinstance(step, (Chain, Note)) else replace(step, place=replace(step.place, which="next", rows_down=0, row=None)) for step in body]
    return memo[key]
