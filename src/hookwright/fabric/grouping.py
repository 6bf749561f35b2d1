"""Groups worked into one place, and places skipped."""

from hookwright.notation.tree import Chain, Group, Note, Repeat, Skip, Stitch

from .hand import Hand
from .kinds import CHAINS, GATHERED
from .needs import stitch_kind
from .placing import cells
from .reaching import find_stop
from .rejoining import keep_opening, opens
from .starting import first_stitch
from .stitching import next_plain, own_chain, remember, reserve_for
from .worked import FLAG_COUNTS, FLAG_TEXTURE, FLAG_TURNING, FOOT_NONE, FOOT_RING


def work_group(hand: Hand, step: Group, steps, index, after):
    from .stepping import run

    place = step.place
    if place is not None and place.which == "from hook":
        own_chain(hand, place)
    if place is None:
        if hand.inside is not None:
            found = [hand.inside]
        elif hand.lay.ring:
            found = [FOOT_RING]
        elif hand.bare_in is not None:
            found = [hand.bare_in]
        else:
            found = next_plain(hand, 1)
    else:
        if place.extent is not None:
            found = cells(hand, place, reserve_for(hand, step, steps, index, after))
        else:
            if place.which == "same" and place.of == "st" and hand.bare_in is not None:
                found = [hand.bare_in]
                hand.cur = max(hand.cur, hand.bare_in + 1)
            else:
                found = cells(hand, place)
        if place.which not in ("same", "ring", "beginning"):
            hand.bare_in = None
    saved = hand.inside
    for cell in found:
        start = len(hand.kind)
        hand.inside = cell
        hand.level += 1
        hand.room(1)
        try:
            run(hand, step.steps)
        finally:
            hand.level -= 1
            hand.inside = saved
        made = len(hand.kind) - start
        if step.makes:
            _gather(hand, start, step.makes, cell)
        elif made > 1:
            hand.groups[start] = (made, step.name)
        if cell >= 0:
            remember(hand, cell)
    hand.starting = False


def _gather(hand, start, kind, cell):
    """What was worked into one place is closed into one stitch."""
    hand.unmake(start)
    for columns in (hand.feet, hand.loops, hand.groups):
        for index in [i for i in columns if i >= start]:
            del columns[index]
    hand.make(kind, cell, FLAG_COUNTS | FLAG_TEXTURE)


def work_skip(hand, step: Skip, steps, index, after):
    place = step.place
    if place.which == "chain top" and not hand.lay.tops and not hand.lay.hook_chain:
        return  # "skip tch" of a row whose turning chain counts for nothing
    if place.which == "first" and hand.tch_on is not None and hand.cur and hand.level == 0 and place.of not in ("sp", "corner"):
        count = hand.number(place.n) or 1
        if hand.tch_on == hand.lay.order[0] if hand.lay.stitches else False:
            target = hand.lay.order[min(count, hand.lay.stitches) - 1] + 1
            hand.cur = max(hand.cur, target)
            return
    rest = hand.memory.pop("rest of group", None)
    if rest is not None and rest[0] == hand.cur and rest[1] and place.which == "next" and place.extent is None and place.of not in ("sp", "corner", "group", "ch", "gap") \
            and hand.number(place.n) == rest[1] and not hand.choose((id(step), "rest"), 2, 1, "the stitches skipped are those after the group", step.span):
        return  # "sc in center dc of shell, skip 2 dc": those of the shell, which lie behind the hook
    if _may_be_the_chains(hand, place):
        onward = index > 0 and _goes_on_plainly(steps[index + 1:])
        words = "the stitch missed after a chain that counts is the one after that" if onward else "the stitch missed after a chain that counts is the one the chain stands on"
        if bool(hand.choose(("counted", "missed", onward), 2, 1, words, step.span)) != onward:
            return
    hand.starting = False if place.which != "first" else hand.starting
    if hand.level == 0 and hand.bare_in is not None:
        hand.bare_in = None
    before = hand.lay.rank(hand.cur)
    here, worked = hand.here, hand.spaces_worked
    longest = hand.longest_pass
    to_space = place.extent is not None and place.extent.kind == "place" and place.extent.place.of == "sp"
    if to_space and hand.cur < hand.lay.n and hand.lay.kind[hand.cur] == CHAINS and find_stop(hand, place.extent.place) == hand.cur:
        hand.cur += 1  # "dc in each dc to ch-1 sp, skip all sts to next ch-1 sp": none are skipped before the one it stands at
    found = cells(hand, place, reserve_for(hand, step, steps, index, after) if place.extent is not None else 0)
    if to_space:
        hand.memory["skipped to"] = hand.cur
    hand.here, hand.longest_pass = here, longest
    hand.spaces_worked = worked
    passed = hand.lay.rank(hand.cur) - before
    hand.skipped = list(found)
    chains = opens(hand, hand.skipped, next((one for one in steps[index + 1:] if not isinstance(one, Note)), None))
    if chains:
        keep_opening(hand, hand.skipped, chains)
    hand.last_skip = max(hand.last_skip, passed)
    hand.memory["skips"] = hand.memory.get("skips", 0) + passed
    if step.says is not None and step.says.counts and not hand.kind_made():
        _count_skipped(hand, step, steps, index, len(found))


def _may_be_the_chains(hand, place) -> bool:
    """Whether one stitch is skipped right after a chain that counts: "3 ch (counts as 1 tr), miss 1 tr" may name the stitch under the chain."""
    return place.which == "next" and place.extent is None and place.n == 1 and place.of not in ("sp", "corner", "group", "ch", "gap") and hand.level == 0 \
        and hand.tch_on is not None and hand.cur == hand.tch_on + 1 and hand.lay.plain and len(hand.kind) == 1


def _goes_on_plainly(steps) -> bool:
    """Whether one stitch after the other follows, and no shell, for which a stitch would be left free."""
    following = next((step for step in steps if isinstance(step, (Stitch, Group, Skip, Repeat, Chain))), None)
    if isinstance(following, Repeat):
        following = following.steps[0]
    return isinstance(following, (Skip, Chain)) or isinstance(following, Stitch) and following.n == 1 and following.kind not in GATHERED


def _count_skipped(hand, step, steps, index, chains):
    """Skipped chains said to count as a stitch (and chains)."""
    says = step.says
    first = first_stitch(steps, index + 1)
    if says.kind == "sp":
        hand.make_chains(says.chains or chains)
        return
    made = says.kind or (stitch_kind(hand, first) if first is not None else hand.base)
    for _ in range(max(1, says.stitches)):
        hand.make(made, FOOT_NONE, FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = max(0, chains - says.chains)
    if says.chains:
        hand.make_chains(says.chains)
