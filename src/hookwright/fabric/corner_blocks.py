"""Blocks from corner to corner: "sl st in ch-3 sp, ch 3, 3 dc in same sp", each chain standing for a stitch of its block."""

from dataclasses import replace

from hookwright.notation.tree import Chain, Extent, Group, Repeat, Stitch

from . import kinds


def block_stitch(steps, after=None) -> str:
    """The stitch of the blocks that the steps make one beside the other, "" where they make none."""
    for index, step in enumerate(steps):
        if isinstance(step, (Group, Repeat)):
            found = block_stitch(step.steps) or isinstance(step, Group) and _in_one_space(step)
            if found:
                return found
        elif isinstance(step, Stitch) and step.kind == "slst" and len(steps) > index + 2:
            chain, stitch = steps[index + 1], steps[index + 2]
            if _springs(step) and isinstance(chain, Chain) and chain.says is None and isinstance(stitch, Stitch) and isinstance(stitch.n, int) and stitch.n > 1 \
                    and stitch.place is not None and stitch.place.which == "same" and chain.n == kinds.turning(kinds.plain_of(stitch.kind))[0] > 1:
                return stitch.kind
    return ""


def _in_one_space(group: Group) -> str:
    """The stitch of a block told as a group: "(sl st, ch 3, 3 dc) in next ch-3 sp"."""
    place, steps = group.place, group.steps
    if place is None or place.of not in ("sp", "group") or len(steps) != 3 or not isinstance(steps[0], Stitch) or steps[0].kind != "slst":
        return ""
    chain, stitch = steps[1:]
    blocks = isinstance(chain, Chain) and chain.says is None and isinstance(stitch, Stitch) and isinstance(stitch.n, int) and stitch.n > 1
    return stitch.kind if blocks and chain.n == kinds.turning(kinds.plain_of(stitch.kind))[0] > 1 else ""


def _springs(step: Stitch) -> bool:
    """Whether the slip stitch goes where blocks stand: into the chain of the block below."""
    place = step.place
    return place is not None and place.n == 1 and (place.of in ("sp", "group", "st") or place.part == "sp") and place.extent is None


def blocks_across(steps):
    """The repeat of a row from corner to corner that makes a block in each block below, as far as there are any; None where there is none."""
    for step in steps:
        if isinstance(step, Repeat) and step.steps:
            inner = step.steps[0].steps if len(step.steps) == 1 and isinstance(step.steps[0], Group) else step.steps
            if len(inner) > 2 and isinstance(inner[0], Stitch) and inner[0].kind == "slst" and isinstance(inner[1], Chain) and isinstance(inner[2], Stitch) and inner[2].n != 1:
                return replace(step, times=None, sense="total", extent=Extent())
    return None


def said_twice(steps):
    """The steps with the space of a block told by "same" where its slip stitch and its stitches both name it: "sl st into ch-3 sp. Ch 3, 3 dc into ch-3 sp"."""
    for index in range(len(steps) - 2):
        slip, chain, stitch = steps[index:index + 3]
        if isinstance(slip, Stitch) and slip.kind == "slst" and isinstance(chain, Chain) and isinstance(stitch, Stitch) and isinstance(stitch.n, int) and stitch.n > 1 \
                and stitch.place is not None and stitch.place.of == "sp" and stitch.place.which == "next" and stitch.place == slip.place:
            steps = [*steps[:index + 2], replace(stitch, place=replace(stitch.place, which="same")), *steps[index + 3:]]
    return steps


def begins_block(hand, steps, index) -> bool:
    """Whether the chain at `index` begins a block after its slip stitch, with the row's blocks known."""
    before = steps[index - 1]  # of the pass before where the chain comes first: "*ch 3, 3 dc in same sp, sl st in ch-3 sp of next block"
    following = steps[index + 1] if index + 1 < len(steps) else None
    return hand.memory.get("block") is not None and isinstance(before, Stitch) and before.kind == "slst" and isinstance(following, Stitch) \
        and following.kind == hand.memory["block"] and following.place is not None and following.place.which == "same"


def pass_to_block(hand):
    """In a row of blocks: the stitches of the block below that was worked into are done with; the hook goes on to the next block."""
    if hand.memory.get("block") is None or not hand.lay.plain:
        return
    following = min((top for top in hand.lay.tops if top >= hand.cur), default=None)
    if following is not None:
        hand.cur = following
