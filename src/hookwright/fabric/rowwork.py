"""One written row worked in one size over the row below."""

from array import array
from collections import Counter
from itertools import compress

from hookwright.notation.tree import Chain, Either, Group, Join, JoinYarn, Repeat, Skip, Stitch

from . import kinds, layout
from .choosing import SOFT
from .corner_blocks import block_stitch, said_twice
from .edges import borders, edges_ahead, over_handles, sides_and_corners, sides_of_motif
from .founding import along_ring, chains_unsaid, take_foundation
from .gaps import spaces_are_gaps
from .groups_by_shape import passed_whole
from .hand import Hand, Stuck
from .kinds import CHAINS, FOUNDATION, SLIP
from .leftovers import tail_over
from .rejoining import rejoin
from .starting import BEFORE, next_real
from .stepping import flatten, run
from .worked import FLAG_CORNER, FLAG_COUNTS, FLAG_GROUP, FLAG_JOIN, FLAG_TEXTURE, FLAG_TURNING, Trouble, WorkedRow


def work(steps, lay, hand: Hand, *, carried=None) -> WorkedRow:
    """Works `steps` with a fresh hand over the layout `lay` (None: nothing below yet); gives the worked row with its troubles."""
    known = lay is not None
    try:
        steps = list(steps)
        if any(type(step) is Either for step in steps):
            steps = flatten(hand, steps)
        if not known:
            steps = take_foundation(hand, steps)
        if carried is not None:
            steps = _with_carried(steps, carried)
        if _other_side_ahead(steps):
            hand.memory["both sides"] = True
        if edges_ahead(steps):
            steps = sides_and_corners(over_handles(steps, hand.lay), hand)
        if edges_ahead(steps) and not sides_of_motif(steps, hand) or known and borders(steps, hand):
            hand.memory["edges"] = True
        hand.memory["there"] = hand.lay.stitches
        if not hand.lay.plain:
            hand.memory["corners"] = len(hand.lay.corner_cells())
        if hand.lay.groups and (begun := spaces_are_gaps(hand.lay, steps)):
            hand.memory["gaps too"] = begun
        if known and hand.in_round and hand.lay.groups and passed_whole(hand.lay, steps):
            hand.memory["whole groups"] = True
        if known and hand.lay.tops and hand.lay.plain:
            steps = said_twice(steps)
        if known and hand.lay.ring:
            along_ring(hand, steps)
        if known and not hand.memory.get("edges"):
            rejoin(hand, steps)
        _along_row_ends(hand, steps)
        _row_start(hand, steps, fresh=not known)
        run(hand, steps)
        _row_end(hand)
        if hand.loops and not hand.settled:
            _loops(hand)
    except Stuck as stuck:
        hand.troubles.append(stuck.trouble)
    return finish(hand)


def _with_carried(steps, carried):
    """The chain made at the end of the row before, worked as the start of this one."""
    for index, step in enumerate(steps):
        if isinstance(step, Chain):
            return steps  # a chain of its own replaces it
        if not isinstance(step, BEFORE):
            return steps[:index] + [carried] + steps[index:]
    return steps


def _other_side_ahead(steps) -> bool:
    """Whether some step works along the other side of the chain."""
    for step in steps:
        place = getattr(step, "place", None)
        if place is not None and place.which == "other side":
            return True
        if isinstance(step, (Group, Repeat)) and _other_side_ahead(step.steps):
            return True
    return False


def _along_row_ends(hand: Hand, steps):
    """ "Ch 3, skip first row end, dc in each row end across": the chain that counts stands on the first of the row ends, too."""
    if hand.in_round or hand.lay.ring or hand.sequence is None or hand.lay.kind[:1] == [kinds.ROW_END]:
        return
    real = next_real(steps, 0)
    if not isinstance(real, Chain) or hand.number(real.n) in (None, 1):
        return
    for step in steps:
        place = getattr(step, "place", None)
        if place is None or isinstance(step, Skip):
            continue
        if isinstance(step, Stitch) and place.which == "row ends" and place.extent is not None and not step.evenly and step.n == 1:
            edge = hand.sequence.row_ends(hand)
            if edge is not None:
                hand.change(edge)
        return


def _row_start(hand: Hand, steps, fresh: bool):
    """Settles where the row begins: chains skipped unsaid, a chain of blocks, a space the round starts in."""
    lay = hand.lay
    start = hand.settings.start()
    if start in ("corner", "space", "first sp") and hand.in_round and lay.n and not fresh:
        spaces = lay.corner_cells() if start == "corner" else lay.spaces()
        if spaces and lay.kind[0] == CHAINS:
            hand.begin = hand.here = spaces[0] if spaces[0] == 0 else 0
            hand.bare_in = hand.begin
        elif spaces and not _leads_to_space(steps):
            hand.change(lay.rotated(spaces[0]))
            hand.begin = hand.here = hand.bare_in = 0
    if hand.in_round and not fresh and not start:
        _begun_beside(hand, steps)
        lay = hand.lay
    if lay.kind[:1] == [FOUNDATION] and not lay.joined and lay.n:
        real = next_real(steps, 0)
        if isinstance(real, Chain):
            return
        chains_unsaid(hand, steps, real)
    cluster = hand.settings.turning(3, "dc") if any(c.value == "block" for c in hand.settings.said) else None
    if cluster is not None and cluster.counts:
        hand.memory["block"] = cluster.kind or hand.base
    elif not hand.in_round and lay.tops and lay.plain:
        stitch = block_stitch(steps)
        if stitch:
            hand.memory["block"] = stitch


def _begun_beside(hand: Hand, steps):
    """ "*5 dc in next ch-3 sp, sc in next sc; rep around": a round that passes its first stitch at the start comes to it at the end."""
    lay = hand.lay
    if lay.plain or lay.ring or not lay.n or lay.kind[0] == CHAINS or _leads_to_space(steps):
        return
    if any(isinstance(step, Chain) and (step.says is not None or (hand.number(step.n) or 0) > 1) for step in steps[:2]) and not _joined_to_stitch(steps):
        return
    body = steps
    while True:
        at, real = 0, next_real(body, 0)
        while isinstance(real, Chain):
            at = next((index for index in range(at, len(body)) if body[index] is real), len(body)) + 1  # itself, and no chain like it
            real = next_real(body, at)
        if not isinstance(real, Repeat):
            break
        body = real.steps
    place = getattr(real, "place", None)
    if not isinstance(real, (Stitch, Group)) or place is None or place.which != "next" or place.of != "sp" or place.n != 1 or place.extent is not None or place.part:
        return
    if not any(_into_stitch(step) or isinstance(step, Skip) and step.place.of not in ("sp", "corner", "group", "ch") for step in body) or any(getattr(getattr(step, "place", None), "which", "") in ("first", "last") for step in steps if not isinstance(step, Join)):
        return
    spaces = lay.spaces()
    if spaces and 0 < spaces[0] < 3:
        hand.change(lay.rotated(spaces[0]))


def _joined_to_stitch(steps) -> bool:
    """Whether the round is joined to its first stitch and not to its chain, so that the chain stands for none."""
    for step in reversed(steps):
        place = getattr(step, "place", None)
        if isinstance(step, (Repeat, Group)):
            return False
        if place is not None and place.which == "first" and place.of not in ("st", "ch", "sp", "corner", "group"):
            return isinstance(step, Join) or getattr(step, "kind", "") == "slst"
    return False


def _into_stitch(step) -> bool:
    """Whether a step goes into the next stitch."""
    place = getattr(step, "place", None)
    return isinstance(step, (Stitch, Group)) and place is not None and place.which == "next" and place.of not in ("sp", "corner", "group", "gap", "st+sp", "ch") \
        and place.n == 1 and place.extent is None


def _leads_to_space(steps) -> bool:
    """Whether the row itself slips or joins to its first space."""
    for step in steps:
        if isinstance(step, JoinYarn) and step.place is not None:
            return True
        if isinstance(step, Stitch) and step.kind == "slst":
            return True
        if isinstance(step, (Stitch, Group, Repeat)):
            return False
    return False


def _row_end(hand: Hand):
    """What is left of the row below when the row's words are done."""
    if hand.memory.get("unknown below") or hand.memory.get("edges") or hand.memory.get("no below") or any(t.kind not in SOFT for t in hand.troubles):
        return
    if hand.lay.ring or hand.lay.kind[:1] == [FOUNDATION] and hand.memory.get("ring start"):
        return
    over = tail_over(hand)
    if over <= 0:
        _passed_over(hand)
        return
    if hand.lay.kind[:1] == [FOUNDATION] and len(set(hand.foot) - {-1, -2}) <= 1:
        return  # all in one chain: a ring start
    if not any(flag & FLAG_COUNTS for flag in hand.flags) and CHAINS in hand.kind:
        return  # a loop to hang it by: nothing is worked along the row below
    hand.troubles.append(Trouble("left-over", hand.span, {"there": hand.lay.stitches, "left": over, "spaces": hand.spaces_worked,
                                                          "passed": hand.passed}))


def _passed_over(hand: Hand):
    """A few stitches passed without a word in a row that works nearly all others: was one forgotten?"""
    lay = hand.lay
    if lay.plain or hand.settled or hand.memory.get("skip unsaid"):
        return
    worked = set(hand.foot)
    for places in hand.feet.values():
        worked.update(places)
    begun = hand.foot[0] if hand.kind and hand.kind[0] == SLIP and hand.flags[0] & FLAG_JOIN else 0  # slip stitches lead on to where the row begins
    stitches = [cell for cell in lay.order if begun <= cell < hand.cur]
    silent = len([cell for cell in stitches if cell not in worked]) - hand.memory.get("skips", 0)
    if 0 < silent <= (len(stitches) - silent) // 3:
        silent -= _passed_as_usual(hand, stitches, worked)
    if 0 < silent <= (len(stitches) - silent) // 3:
        hand.troubles.append(Trouble("passed-over", hand.span, {"passed": silent, "along": len(stitches)}))


def _passed_as_usual(hand: Hand, stitches, worked) -> int:
    """Stitches that nobody names who goes into a space: both halves of a shell about it, and the first stitch of a row that begins in a loop."""
    lay, usual = hand.lay, 0
    for start, end, _ in lay.groups:
        inner = [cell for cell in range(start, end) if lay.kind[cell] == CHAINS and cell in worked]
        for half in (range(start, inner[0]), range(inner[-1] + 1, end)) if inner else ():
            if len(half) > 1 and not any(cell in worked or lay.kind[cell] == CHAINS for cell in half):
                usual += len(half)
    first = next((foot for foot, flag in zip(hand.foot, hand.flags) if flag & FLAG_COUNTS and foot >= 0), -1)
    if not hand.in_round and first == 1 and stitches[:1] == [0] and 0 not in worked and lay.kind[1] == CHAINS and not lay.groups:
        usual += 1
    return usual


def _loops(hand: Hand):
    """Loops and posts that the stitches below do not have: a third loop needs a yarn over, a post needs a stitch."""
    lay, said = hand.lay, set()
    for index, loop in hand.loops.items():
        foot = hand.foot[index]
        if not 0 <= foot < lay.n:
            continue
        below = kinds.NAMES[lay.kind[foot]]
        if loop == "third" and lay.kind[foot] >= kinds.FIRST_STITCH and not kinds.yarn_overs(below):
            trouble = "third-loop-of"
        elif loop.startswith("post") and lay.kind[foot] in (CHAINS, FOUNDATION):
            trouble = "post-of-chain"
        else:
            continue
        if trouble not in said:
            said.add(trouble)
            hand.troubles.append(Trouble(trouble, hand.span, {"kind": kinds.NAMES[hand.kind[index]], "below": below}))


def finish(hand: Hand) -> WorkedRow:
    """The hand's work as a worked row: columns, counts by kind, spaces."""
    unworked = max(0, hand.left()) if not hand.lay.ring else 0
    hand.settle()
    row = WorkedRow("", None, None, "")
    row.kind, row.foot = array("H", hand.kind), array("i", hand.foot)
    row.chains, row.flags = array("H", hand.chains), array("B", hand.flags)
    kind, flags, chains = row.kind, row.flags, row.chains
    row.feet, row.loops, row.groups, row.colours = hand.feet, hand.loops, hand.groups, hand.colours
    names = kinds.NAMES
    if _only_stitches(flags) and (not kind or min(kind)):
        counted = Counter(kind)
        row.stitches = len(kind)
    elif (middle := _between_chain_and_join(kind, flags)) is not None:
        counted = Counter(middle)
        row.stitches = len(middle)
    else:
        counted = Counter(compress(kind, flags.tobytes().translate(_COUNTED)))
        row.stitches = sum(counted.values())
        petals = _petal_edges(row)
        row.spaces = [chains[i] for i, k in enumerate(kind)
                      if k == CHAINS and not flags[i] & (FLAG_TURNING | FLAG_JOIN) and i not in petals]
    row.by_kind = {names[k]: n for k, n in counted.items()}
    row.unworked = unworked
    row.troubles, row.assumed = hand.troubles, hand.assumed
    row.in_round = hand.in_round
    return row


def _petal_edges(row) -> set:
    """Chains beside a slip stitch of the same place are the edge of a petal, no spaces."""
    found = set()
    for start, (length, _) in row.groups.items():
        end = start + length
        for index in range(start, end):
            if row.kind[index] == CHAINS and (
                index > start and row.kind[index - 1] == kinds.SLIP and row.flags[index - 1] & FLAG_JOIN
                or index + 1 < end and row.kind[index + 1] == kinds.SLIP and row.flags[index + 1] & FLAG_JOIN
            ):
                found.add(index)
    return found


_COUNTED = bytes(flag & FLAG_COUNTS for flag in range(256))
_PLACE_FLAGS = bytes({FLAG_COUNTS, FLAG_COUNTS | FLAG_GROUP, FLAG_COUNTS | FLAG_TEXTURE})


def _only_stitches(flags) -> bool:
    """Whether all flags are those of stitches that count and are nothing else."""
    return not flags.tobytes().translate(None, _PLACE_FLAGS)


def _between_chain_and_join(kind, flags):
    """The kinds of a row that is nothing but stitches between a turning chain that counts as none and its join; None where there is more to it."""
    start, end = 0, len(kind)
    if start < end and flags[0] & (FLAG_TURNING | FLAG_COUNTS) == FLAG_TURNING:
        start = 1
    while end > start and flags[end - 1] & (FLAG_JOIN | FLAG_COUNTS) == FLAG_JOIN:
        end -= 1
    middle = kind[start:end]
    return middle if min(middle, default=1) and _only_stitches(flags[start:end]) else None


def layout_of(row: WorkedRow) -> layout.Layout:
    """The worked row as places for the next, in the order it was worked."""
    flags, start, end = row.flags, 0, len(row.flags)
    while start < end and flags[start] & FLAG_JOIN:
        start += 1
    hook_chain = 0
    if start < end and row.kind[start] == CHAINS and flags[start] & FLAG_TURNING:
        hook_chain = row.chains[start]
        start += 1
    while end > start and flags[end - 1] & FLAG_JOIN:
        end -= 1
    middle = row.kind[start:end]
    if min(middle, default=1) and _only_stitches(flags[start:end]):  # nothing but stitches: the common case, at one go
        count = len(middle)
        groups = [(first - start, first - start + length, name) for first, (length, name) in sorted(row.groups.items())]
        made = layout.Layout(middle.tolist(), [0] * count, None if not start else list(range(start, end)), groups)
        made.hook_chain = hook_chain
        return made
    petals = _petal_edges(row)
    kind, size, item, tops, corners, cell_of = [], [], [], [], [], {}
    for index, k in enumerate(row.kind):
        flag = flags[index]
        if flag & FLAG_JOIN or index in petals:
            continue
        if k == CHAINS:
            if flag & FLAG_TURNING:
                continue
        elif not flag & FLAG_COUNTS:
            continue
        cell_of[index] = len(kind)
        if flag & FLAG_TURNING:
            tops.append(len(kind))
        if flag & FLAG_CORNER:
            corners.append(len(kind))
        kind.append(k)
        size.append(row.chains[index])
        item.append(index)
    groups = []
    for start, (length, name) in sorted(row.groups.items()):
        if start and flags[start - 1] & FLAG_TURNING and row.foot[start - 1] == row.foot[start]:
            start, length = start - 1, length + 1  # the chain that stands for its first stitch
        inside = [cell_of[i] for i in range(start, start + length) if i in cell_of]
        if len(inside) > 1:
            groups.append((inside[0], inside[-1] + 1, name))
    if len(groups) > 1:
        groups = [g for i, g in enumerate(groups) if not any(o[0] <= g[0] and g[1] <= o[1] and o != g for o in groups[max(0, i - 3):i + 4])]
    if tops and tops[0] == 0 and groups:
        groups = _first_alike(groups, kind, size)
    corner_cells = _true_corners(kind, size, corners)
    made = layout.Layout(kind, size, item if len(item) != len(row.kind) else None, groups, corner_cells, tops)
    made.hook_chain = hook_chain
    return made


def _first_alike(groups, kind, size) -> list:
    """The groups with the one a round begins with, which has no name of its own: "ch 3, 2 dc, ch 2, 3 dc in same sp, *shell in next sp ...".

    It is one where the row begins with a chain that stands for a stitch, and its cells are those of the named groups.
    """
    start, end, name = next((group for group in groups if group[2]), (0, 0, ""))
    length = end - start
    if not name or CHAINS not in kind[start:end] or groups[0][0] == 0 and groups[0][2] == name or kind[:length] != kind[start:end] or size[1:length] != size[start + 1 : end]:
        return groups
    return [(0, length, name), *(group for group in groups if group[0] >= length)]


def _true_corners(kind, size, corners):
    """Spaces made inside a group, and those as long as they are (a corner begun with the round's first chain)."""
    if not corners:
        return ()
    length = max(size[c] for c in corners)
    return [i for i, k in enumerate(kind) if k == CHAINS and size[i] == length]
