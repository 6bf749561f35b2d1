"""Chains: those a row begins with, spaces, picots, chains for the row to come, chains to be worked into."""

from hookwright.notation.tree import Chain, Skip, Stitch, Turn

from .corner_blocks import begins_block
from .kinds import CHAINS, FOUNDATION
from .rejoining import LEAST_OPENING
from .slipping import AFTER, slips_only
from .starting import next_real, stand, starting_chain
from .worked import FLAG_COUNTS, FLAG_TURNING, FOOT_NONE


def work_chain(hand, step: Chain, steps, index, after):
    count = hand.number(step.n)
    if not count:
        return
    hand.room(0)
    following = next_real(steps, index + 1)
    ahead = getattr(following, "place", None)
    if isinstance(following, Stitch) and following.kind == "slst" and hand.kind_made() and ahead is not None and (
        ahead.which == "from hook" or ahead.which == "nth" and ahead.of == "ch" and hand.number(ahead.ordinal) == count
        or ahead.which in ("last", "same") and hand.inside is None and (hand.left() > 1 or hand.memory.get("pass")) and ahead.of != "ch"
    ):  # chains closed into their own first one: a picot on the stitch just made
        hand.make("picot", hand.here if hand.here is not None else FOOT_NONE, 0)
        hand.chains[-1] = count
        hand.memory["swallowed"] = following
        return
    if step.says is not None and step.says.kind == "sp":  # "ch 3 (counts as last ch-3 sp)"
        if hand.starting and hand.lay.n and hand.lay.kind[hand.cur:hand.cur + 1] != [CHAINS] and hand.inside is None:
            hand.tch_on = stand(hand)
        hand.starting = False
        hand.make_chains(count)
        return
    if ahead is not None and ahead.which == "from hook" and hand.lay.kind[:1] != [FOUNDATION]:
        hand.starting = False
        hand.memory["chain base"] = len(hand.kind)
        hand.make_chains(count, FLAG_TURNING)
        return
    if hand.starting and count == 1 and hand.level == 0 and isinstance(following, Stitch) and following.kind == "slst" and hand.lay.n \
            and not slips_only(steps):
        hand.make_chains(1, FLAG_TURNING)  # height for the slip stitches that carry the yarn on
        return
    if hand.starting and hand.in_round and type(count) is int and count > 2 and step.says is None and hand.lay.n and hand.inside is None and isinstance(following, Stitch) and following.kind == "slst" and ahead is not None and ahead.which == "next" and ahead.of == "st" and ahead.n == 1:
        hand.starting = False  # "*ch 6, sl st in next st; rep from * around": the first loop, which no slip stitch needs as height
        hand.make_chains(count)
        return
    if hand.starting and index and isinstance(steps[index - 1], Skip) and step.says is None and len(hand.skipped) >= LEAST_OPENING and hand.in_round:
        hand.starting = False  # "miss the first 9 sts, 2 ch": over a thumb
        hand.make_chains(count)
        return
    if hand.starting and (hand.level == 0 or hand.inside is not None and not hand.kind_made()):
        hand.starting = False
        if hand.lay.n or hand.lay.ring:
            starting_chain(hand, step, steps, index)
            return
    if step.says is not None and step.says.counts and hand.inside is not None:
        made = step.says.kind or hand.base
        hand.make(made, hand.inside, FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = count
        if step.says.chains:
            hand.make_chains(step.says.chains)
        return
    if begins_block(hand, steps, index) and hand.here is not None:
        hand.make(hand.memory["block"], hand.here, FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = count
        return
    if hand.inside is not None and hand.memory.get("block") is not None:
        hand.make(hand.memory["block"], hand.inside, FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = count
        return
    if hand.level == 0 and hand.joined_at_end and hand.in_round and index == len(steps) - 1:
        return
    if hand.level == 0 and not [other for other in steps[index + 1:] if not isinstance(other, AFTER)]:
        turned = any(isinstance(other, Turn) for other in steps[max(0, index - 1):])
        if turned or step.role == "turning":
            hand.carried = step
            return
    hand.make_chains(count)
