"""Slip stitches that are no stitches of the fabric: travelling, joining, edging."""

from hookwright.notation.tree import Chain, Colour, FastenOff, Group, Join, Leave, Mark, NoJoin, Note, Repeat, Skip, Stitch, Turn

from . import kinds, layout
from .corner_blocks import begins_block
from .kinds import CHAINS, FOUNDATION
from .placing import cells
from .starting import next_real, travel
from .worked import FLAG_COUNTS, FLAG_JOIN, FLAG_TURNING, FOOT_NONE, Trouble

AFTER = (Turn, Note, Mark, FastenOff, Colour, NoJoin, Leave)


def slip(hand, step, steps, index) -> bool:
    """Whether a slip stitch is no stitch of the fabric here: it travels, joins or edges. Works it if so."""
    place = step.place
    if hand.inside is not None:
        if any(isinstance(other, Stitch) and other.kind != "slst" for other in steps):
            hand.make("slst", hand.inside, FLAG_JOIN)
            return True
        return False
    following = steps[index + 1] if index + 1 < len(steps) else None
    anchors = hand.memory.get("block") is not None and place is not None and (
        isinstance(following, Chain) and begins_block(hand, steps, index + 1) and not hand.starting or following is None and place.of in ("sp", "group") and hand.stitches_made()
    )
    if anchors:
        for cell in cells(hand, place):
            hand.make("slst", cell, FLAG_JOIN)
            hand.here = cell
        return True
    if hand.memory.get("detour") is not None and not [other for other in steps[index + 1:] if not isinstance(other, AFTER)] and hand.level == 0 and hand.left() <= 0 and hand.stitches_made():
        hand.make("slst", FOOT_NONE, FLAG_JOIN)  # a strap worked on its own chain is anchored to the piece
        hand.left_said = True
        return True
    if hand.lay.kind[:1] == [FOUNDATION]:
        return False
    in_ring = hand.lay.ring and (place is None or place.which == "ring")
    if step.n == 1 and (in_ring or place is not None and place.extent is None) and _edges_a_petal(steps, index, in_ring or bool(hand.memory.get("in repeat"))):
        for cell in [hand.into()] if in_ring else cells(hand, place):
            hand.make("slst", cell, FLAG_JOIN)
            hand.here = cell
        hand.starting = False
        return True
    rest = [other for other in steps[index + 1:] if not isinstance(other, AFTER)]
    if len(rest) == 1 and isinstance(rest[0], Chain) and hand.in_round and hand.left() <= 0:
        rest = []  # "1 ss, 1 ch": both only close the round
    if hand.level == 0 and not rest and not hand.memory.get("in repeat") and (hand.in_round or not slips_only(steps)):
        if place is not None and (place.which in ("first", "chain top", "beginning", "same")
                                  or place.which in ("nth", "next", "any") and hand.at_end() and hand.kind
                                  or place.which == "last" and hand.at_end()):
            close_round(hand)
            return True
        if hand.in_round and hand.kind_made() and (place is None and hand.at_end() or place is not None and place.extent is None
                                                   and step.n == 1 and hand.number(place.n) == 1 and hand.left() <= 1):
            close_round(hand)
            return True
    if hand.level == 0 and not rest and not hand.in_round and place is not None and (place.of in ("sp", "corner") or place.part == "sp") and hand.stitches_made():
        for cell in cells(hand, place):  # anchors the end of the row, as corner to corner does
            hand.make("slst", cell, FLAG_JOIN)
        return True
    if hand.level == 0 and not rest and not hand.in_round and _several_on_stitches(step) and hand.stitches_made() and not slips_only(steps):
        ways = ("the slip stitches at the end are stitches of the row", "the slip stitches at the end are no stitches of the row")
        if not hand.choose(("row", "slips"), 2, 1, ways, step.span):
            return False
        for cell in cells(hand, place):
            hand.make("slst", cell, FLAG_JOIN)
        return True
    if hand.starting and hand.level == 0 and not hand.stitches_made() and rest and not slips_only(steps):
        real = next_real(steps, index + 1)
        if isinstance(real, (Chain, Join)) or isinstance(real, (Stitch, Group, Repeat)) and not _of_the_fabric(hand, step, steps, index, rest):
            travel(hand, step)
            return True
    return False


def _of_the_fabric(hand, step, steps, index, rest) -> bool:
    """Whether slip stitches at the start of a row are stitches of it, as in a shaped shoulder, a ribbing or a petal, though nothing says so.

    Nobody travels along one loop of the stitches, and hardly after a turning chain of one; a row that leaves as many at its end was shaped by
    travelling, and a round begins by it. What is not so is asked, so that a stated count decides.
    """
    place = step.place
    if place is not None and (place.of in ("sp", "corner", "group", "gap", "st+sp", "ch") or place.which not in ("first", "next") or place.part):
        return False
    if not hand.in_round and step.n == 1 and _several_on_stitches(step) and isinstance(rest[-1], Stitch) and rest[-1].kind == "slst" and _several_on_stitches(rest[-1]) and rest[-1].place.n == place.n:
        ways = ("the slip stitches at both ends are stitches of the row", "the slip stitches at both ends are no stitches of the row")
        return not hand.choose(("row", "slips"), 2, 1, ways, step.span)  # a shaped shoulder: as many at either end
    if any(isinstance(other, Stitch) and other.kind == "slst" for other in (rest[:-1] if hand.in_round else rest)):  # the last one of a round joins it
        return False
    if not hand.in_round and any(isinstance(other, Repeat) and any(isinstance(one, Stitch) and one.kind == "slst" and one.place is not None and one.place.of == "st" for one in other.steps) for other in rest):
        return True  # "sl st in first st, *skip 1, 5 dc in next, skip 1, sl st in next; rep": an edging of shells
    several = step.n != 1 or place is not None and (place.n != 1 or bool(step.loop or place.loop))
    climbs = index > 0 and isinstance(steps[index - 1], Chain) and steps[index - 1].n == 1
    leaves = any(isinstance(other, Leave) for other in steps) or any(isinstance(other, Stitch) and _stops_short(other) for other in rest[-1:])
    likely = several and not hand.in_round and (bool(step.loop or place is not None and place.loop) or climbs and not leaves)
    ways = ("the slip stitches at the start lead on to the first stitch", "the slip stitches at the start are stitches of the row")
    taken = hand.choose(("row", "slips"), 2, 1, ways[::-1] if likely else ways, step.span)
    return likely != bool(taken)


def _several_on_stitches(step) -> bool:
    place = step.place
    return place is not None and place.extent is None and place.n not in (None, 1) and place.of == "st" and place.which in ("first", "next", "last") and not place.part


def _stops_short(step) -> bool:
    extent = step.place.extent if step.place is not None else None
    return extent is not None and extent.kind == "last"


def _edges_a_petal(steps, index, again=False) -> bool:
    """again: the steps are repeated, so that the first follow the last. "Sl st in next st, ch 2, 2 dc in next st, ch 2, sl st in same st": the chains climb from it and come down to it, so that it edges a petal."""
    def climbs(chain, stitch, slip):
        return isinstance(chain, Chain) and isinstance(chain.n, int) and chain.n > 1 and _tall(stitch) and isinstance(slip, Stitch) and slip.kind == "slst"

    around = [step for step in steps if not isinstance(step, AFTER)]
    at = next(i for i, step in enumerate(around) if step is steps[index])
    if again and len(around) < 40 and (isinstance(around[0], Chain) or _climbing_block(around[0])):
        around = [*around, *around[:3]]
    ups = [i for i in range(len(around) - 2) if climbs(around[i + 1], around[i + 2], around[i])]
    blocks = [i for i in range(1, len(around)) if _climbing_block(around[i])]  # "(ch 2, 4 dc, ch 2) in next st"
    ups.extend(i - 1 for i in blocks)
    downs = [i for i in range(2, len(around)) if climbs(around[i - 1], around[i - 2], around[i])]
    downs.extend(i + 1 for i in blocks)
    return bool(ups and downs) and (at in ups or at in downs)


def _climbing_block(step) -> bool:
    inner = step.steps if isinstance(step, Group) else ()
    return len(inner) > 2 and isinstance(inner[0], Chain) and isinstance(inner[-1], Chain) and inner[0].n == inner[-1].n and inner[0].n != 1 and _tall(step)


def _tall(step) -> bool:
    if isinstance(step, Group):
        return any(_tall(one) for one in step.steps)
    return isinstance(step, Stitch) and kinds.plain_of(step.kind) in ("hdc", "dc", "tr", "dtr", "trtr")


def slips_only(steps) -> bool:
    return all(isinstance(step, (Chain, Skip) + AFTER) or isinstance(step, Stitch) and step.kind == "slst" for step in steps)


def close_round(hand):
    if hand.joined_at_end:
        return
    hand.make("slst", FOOT_NONE, FLAG_JOIN)
    hand.joined_at_end = True


def work_join(hand, step, steps, index, after):
    if step.kind not in ("slst", "", None):
        hand.make(step.kind, hand.begin if not hand.lay.ring and hand.lay.n else hand.into())
        hand.joined_at_end = True
        return
    if not hand.kind and not hand.lay.ring and hand.lay.kind[:1] == [FOUNDATION]:
        hand.change(layout.foundation(hand.lay.n, joined=True))
        hand.in_round = True
        return
    _joins_where_said(hand, step.place)
    close_round(hand)


def _cluster_by_another_name(said: str, made) -> bool:
    """Whether "first cluster" or "first dc2tog" names the first of what are stitches worked together in one place, or clusters."""
    clustered = any(kind.endswith("tog") or kind in kinds.GATHERED for kind in made)
    return clustered and (said == "cl" or said.endswith("tog") and not said.startswith("sc"))


def _joins_where_said(hand, place):
    """Whether the round has the stitch or chain that it is said to be joined to."""
    if place is None or not hand.kind:
        return
    span = place.span if place.span.end else hand.span
    if place.which == "chain top" and place.chains is not None:
        at = next((i for i, flag in enumerate(hand.flags) if flag & FLAG_TURNING), None)
        if at is None:
            if not any(kind == CHAINS for kind in hand.kind[:1]):
                hand.troubles.append(Trouble("join-differs", span, {"said": f"the top of a chain of {hand.number(place.chains)}", "made": ""}))
            return
        made = hand.chains[at]
        if at + 1 < len(hand.kind) and hand.kind[at + 1] == CHAINS and hand.flags[at] & FLAG_COUNTS:
            made += hand.chains[at + 1]
        if made and hand.number(place.chains) not in (made, hand.memory.get("foundation")):
            hand.troubles.append(Trouble("join-differs", span, {"said": f"a chain of {hand.number(place.chains)}", "made": f"a chain of {made}"}))
    elif place.which == "first" and place.of not in ("st", "sp", "corner", "group", "ch", "st+sp", "join", "slst"):
        made = {kinds.NAMES[kind] for kind, flag in zip(hand.kind, hand.flags) if flag & FLAG_COUNTS}
        if made and place.of not in made and place.of not in {kinds.plain_of(kind) for kind in made} and not _cluster_by_another_name(place.of, made):
            hand.troubles.append(Trouble("join-differs", span, {"said": place.of, "made": sorted(made)}))
