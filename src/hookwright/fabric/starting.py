"""The first steps of a row: does its chain count, on which stitch does it stand, where does the round begin."""

from hookwright.notation.tree import (
    Chain,
    Colour,
    Counts,
    Each,
    Either,
    FastenOff,
    Group,
    Join,
    JoinYarn,
    Leave,
    Mark,
    NoJoin,
    Note,
    Place,
    Repeat,
    Skip,
    Stitch,
    Turn,
)

from . import kinds, layout
from .kinds import CHAINS
from .worked import FLAG_COUNTS, FLAG_JOIN, FLAG_TURNING

BEFORE = (Turn, Note, Mark, Colour, NoJoin, FastenOff)


def first_stitch(steps, start: int = 0):
    """The first Stitch of the steps from `start` on, looking into groups and repeats; None where there is none."""
    for step in steps[start:]:
        if isinstance(step, Stitch) and step.kind != "slst":
            return step
        if isinstance(step, (Group, Repeat)):
            found = first_stitch(step.steps)
        elif isinstance(step, Each):
            found = first_stitch(step.parts)
        elif isinstance(step, Either):
            found = first_stitch(step.readings[0]) if step.readings else None
        else:
            continue
        if found is not None:
            return found
    return None


def next_real(steps, start):
    """The next step that works or skips something."""
    for step in steps[start:]:
        if not isinstance(step, BEFORE):
            return step
    return None


def starting_chain(hand, chain: Chain, steps, index: int):
    """Works a chain that begins a row: as a stitch, as a loop, or as nothing but height."""
    count = hand.number(chain.n)
    if not count:
        return
    says = chain.says
    first = first_stitch(steps, index + 1)
    kind = _kind(hand, first)
    if says is None:
        says = hand.settings.turning(count, kind)
    real = next_real(steps, index + 1)
    cluster = hand.settings.cluster()
    if cluster is not None and cluster.chains in (None, count) and isinstance(real, Stitch) and real.kind not in kinds.GATHERED \
            and real.place is not None and real.place.which in ("same", "first"):
        hand.tch_on = stand(hand)
        hand.make(cluster.value or cluster.stitch or "cl", hand.tch_on if hand.tch_on is not None else hand.into())
        hand.memory["swallowed"] = real
        return
    if cluster is not None and first is not None and first.kind in kinds.GATHERED:
        says = Counts(False)
    if says is None and first is not None and first.kind in kinds.GATHERED and hand.lay.n and not _further_on(hand, first):
        says = _mirrored(hand, count, steps)
    if says is None and first is not None and first.kind in kinds.GATHERED and hand.lay.n and not _further_on(hand, first):
        # the chain stands for the first leg of the cluster
        says = Counts(False)
    if says is None and isinstance(real, Skip) and real.says is not None:
        says = real.says
    if says is None and _comes_down_again(steps, index, chain):
        says = Counts(False)
    if says is None and first is not None:
        says = _custom(hand, count, kind, chain, steps, index, real)
    if says is None or not says.counts:
        loop = hand.memory.pop("loop", False) or first is None and count > 1 and hand.in_round and isinstance(real, Skip)
        hand.make_chains(count, 0 if loop else FLAG_TURNING)
        if loop:
            _stand_on_first(hand, real, chain)
        elif "yarn joined" in hand.memory:
            _where_joined(hand, real, chain)
        return
    if _shaped_with(hand, real) and (real.kind in ("inc", "dec") and chain.says is None or not hand.choose((id(chain), "shaped"), 2, 1, "the chain stands beside the increase or decrease", chain.span)):
        hand.make_chains(count, FLAG_TURNING)
        return
    made = says.kind or (kind if kind not in ("inc",) else hand.base)
    if chains_one_by_one(hand.lay, getattr(first, "place", None)):
        hand.change(layout.foundation(hand.lay.hook_chain, joined=True))
    hand.tch_on = stand(hand)
    extra = says.chains
    if not says.kind and not extra and count > kinds.height(kinds.plain_of(made)) + 1:
        extra = count - int(kinds.height(kinds.plain_of(made)))
    for _ in range(max(1, says.stitches)):
        hand.make(made, hand.tch_on if hand.tch_on is not None else hand.into(), FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = max(0, count - extra)
    if extra > 0:
        hand.make_chains(extra)
    elif hand.bare_in is not None and hand.tch_on == hand.bare_in and hand.inside is None and _goes_to_space(real):
        hand.cur = hand.bare_in  # "ch 3, 2 dc in sp": the space the round begins in


def _comes_down_again(steps, index, chain) -> bool:
    """Whether the chain is the side of a petal: "(ch 3, 2 dc, ch 3, sl st) in ring" goes down by as many chains as it went up."""
    made = False
    for at in range(index + 1, len(steps)):
        step = steps[at]
        if isinstance(step, Chain):
            after = next_real(steps, at + 1)
            return made and step.n == chain.n and isinstance(after, Stitch) and after.kind == "slst"
        if isinstance(step, (Stitch, Group)) and getattr(step, "kind", "") != "slst":
            made = True
        elif not isinstance(step, BEFORE):
            return False
    return False


def _shaped_with(hand, real) -> bool:
    """Whether the chain is a part of what comes: "ch 3, dc across, dec 1 st at each end" says two stitches fewer, "inc" two more, whatever they begin with."""
    place = getattr(real, "place", None)
    if not isinstance(real, Stitch) or hand.in_round or place is None or place.which != "first" or place.of != "st" or place.extent is not None:
        return False
    return real.kind == "inc" or place.n == 2 and (real.kind == "dec" or real.kind.endswith("2tog"))


def _further_on(hand, first) -> bool:
    """Whether a bobble or popcorn of a flat row goes into the next stitch, so that the chain before it is none of its legs."""
    place = first.place
    return not hand.in_round and place is not None and place.which == "next" and place.of not in ("sp", "corner", "group", "gap")


def chains_one_by_one(lay, place) -> bool:
    """Whether a ring of chains is worked into chain by chain and not as a ring."""
    return lay.ring and bool(lay.hook_chain) and place is not None and place.which in ("next", "first") and (place.extent is not None or place.of == "ch")


def stand(hand):
    """The place a counting chain stands on; the hook goes past it where it is a stitch."""
    lay = hand.lay
    if lay.ring or not lay.n:
        return None
    if hand.inside is not None:
        return hand.inside
    if hand.bare_in is not None:
        hand.here = hand.bare_in
        hand.cur = max(hand.cur, hand.bare_in + 1)
        return hand.bare_in
    cell = hand.memory.pop("stand", hand.cur)
    if cell >= lay.n:
        return None
    hand.here = cell
    if lay.kind[cell] != CHAINS:
        hand.cur = cell + 1
    return cell


def _kind(hand, first):
    if first is None:
        return hand.base
    if first.kind in ("inc", "dec"):
        return first.base or hand.base
    if first.kind in kinds.GATHERED:
        return first.base or "dc"
    return kinds.plain_of(first.kind)


def _custom(hand, count, kind, chain, steps, index, real):
    """What custom says of a chain of this length before this stitch; asked of the whole pattern where it is unsettled."""
    height, habit = kinds.turning(kind)
    if kinds.height(kind) <= 1:  # before single crochet a longer chain is a loop
        if count == 1:
            return Counts(False)
        if not hand.lay.n:
            if not (hand.lay.ring and hand.memory.get("in repeat")):
                return Counts(False)
            hand.memory["loop"] = True  # "*ch 6, sc in ring; rep from * 5 more times": the first loop springs from the ring, too
            return None
        if _goes_to_first(real):
            return Counts(False)
        ends = _mirrored(hand, count, steps)
        if ends is not None and not hand.choose((id(chain), "mirrored"), 2, 1, f"ch {count} at the start is a loop", chain.span):
            return ends
        if count <= 3 and hand.choose(("tch", count, kind), 2, 2, f"ch {count} at the start counts as a stitch", chain.span):
            return Counts(True, None, 0)
        if count == 2 and not (isinstance(real, Leave) or isinstance(real, Skip)):
            return Counts(False)
        hand.memory["loop"] = True
        return None
    if count == 1:
        return Counts(False)
    key = ("tch", count, kind)
    words = f"ch {count} at the start of a row"
    if count < height:
        return Counts(True) if hand.choose(key, 2, 1, words, chain.span) else Counts(False)
    if count == height:
        counts = habit == "yes"
        if hand.choose(key, 2, 1, words, chain.span):
            counts = not counts
        return Counts(counts)
    if not _joined_within(steps, height, count) and hand.choose(key, 2, 2, words, chain.span):
        return Counts(False)
    return Counts(True, kind, count - height)


def _mirrored(hand, count: int, steps) -> Counts | None:
    """What "ch 6, sc in next sp, ..., ch 3, dc in last dc" counts as: its row ends as it begins, with a high stitch and the chains beside it."""
    if hand.in_round or count < 2:
        return None
    beside, last = 0, None
    for step in reversed(steps):
        if isinstance(step, BEFORE):
            continue
        if isinstance(step, Repeat) and last is None and step.ending:
            return _mirrored(hand, count, step.ending)
        if last is None:
            if not isinstance(step, Stitch) or step.n != 1 or step.place is None or step.place.which not in ("last", "chain top") or step.place.of in ("sp", "corner", "group"):
                return None
            last = step
            continue
        if isinstance(step, Repeat) and step.steps:
            step = step.steps[-1]  # "*cl in next sp, ch 1; rep from * to last sc, dc in last sc"
        if isinstance(step, Chain):
            beside = hand.number(step.n) or 0
        break
    if last is None or last.kind in kinds.GATHERED or not kinds.turning(last.kind)[1] == "yes" or int(kinds.height(last.kind)) + beside != count:
        return None
    return Counts(True, last.kind, beside)


def _joined_within(steps, height, count) -> bool:
    """Whether the round is joined to that chain of the first which is as high as its stitches: "join in 3rd ch of beg ch-4" leaves no doubt."""
    place = next((step.place for step in reversed(steps) if isinstance(step, Join)), None)
    return place is not None and place.which == "chain top" and place.ordinal == height and place.chains in (None, count)


def _goes_to_space(step):
    place = getattr(step, "place", None)
    return place is not None and place.which == "next" and place.of in ("sp", "corner") and place.extent is None


def _goes_to_first(step):
    place = getattr(step, "place", None)
    if place is not None and place.which == "first" and (place.of in ("sp", "corner", "group") or place.part == "center"):
        return False  # "ch 5, sc in first ch-5 lp": the chain is a loop that leads there
    return place is not None and place.which in ("first", "same")


def _stand_on_first(hand, real, chain):
    """A loop springs from the stitch under the hook: the next stitch is the one after it."""
    if hand.lay.ring or hand.cur >= hand.lay.n or _goes_to_first(real) or hand.inside is not None:
        return
    if hand.lay.kind[hand.cur] == CHAINS or isinstance(real, Leave):
        return
    round_again = bool(hand.in_round and hand.memory.get("in repeat"))  # "*ch 4, skip 2, sc in next st; rep around": over every stitch
    words = "the loop springs from before the first stitch" if round_again else "the loop springs from the first stitch"
    if bool(hand.choose((id(chain), "loop"), 2, 1, words, chain.span)) != round_again:
        return
    hand.here = hand.cur
    hand.cur += 1


def _where_joined(hand, real, chain):
    """ "Join yarn in next st, ch 1, sc in each st to end": the stitch that was joined in is the first of them; with a number it may be, where the count shows it."""
    place, cell = getattr(real, "place", None), hand.memory.pop("yarn joined")
    if hand.in_round or not isinstance(real, Stitch) or hand.cur != cell + 1 or place is not None and (place.which != "next" or place.of in ("sp", "corner", "ch")):
        return
    far = place is not None and place.extent is not None
    words = "the stitch joined in is the first that is worked"
    if bool(hand.choose((id(chain), "joined"), 2, 1, words if far else "the stitch joined in is passed over", chain.span)) != far:
        hand.cur = cell
        hand.memory.pop("stand", None)


def travel(hand, step: Stitch):
    """Slip stitches at the start of a row: they carry the yarn to where the row begins and are no stitches of it."""
    from .placing import cells
    from .reaching import find_stop

    hand.span = step.span
    place = step.place or Place(n=step.n)
    cell = None
    if _one_on(hand, step, place) and hand.choose((id(step), "one on"), 2, 1, "the slip stitch goes into the stitch after the one that the round before was joined to", step.span):
        hand.cur += 1
    for cell in cells(hand, place):
        hand.make("slst", cell, FLAG_JOIN)
    if place.extent is not None and place.extent.kind == "place":
        cell = find_stop(hand, place.extent.place)
        cell = None if cell >= hand.lay.n else cell
    if cell is None or not 0 <= cell < hand.lay.n or hand.lay.ring:
        return
    if _is_gap(hand, place, cell):
        return begin_in_gap(hand, cell)
    if place.of == "group" and place.group and hand.in_round and not hand.lay.groups and hand.lay.kind[cell] == CHAINS:
        hand.memory["begun group"] = (1, place.group)  # "sl st over to the V, shell in V": it stands in that one
    begin_at(hand, cell)


def _one_on(hand, step: Stitch, place) -> bool:
    """Whether "sl st in next dc" begins a round, where the hook is in its first stitch already if the round before was joined to that."""
    return hand.in_round and step.n == 1 and place.which == "next" and place.n == 1 and place.extent is None and not hand.cur and not hand.kind and not hand.lay.plain \
        and place.of not in ("sp", "corner", "group", "gap", "ch", "st+sp") and not place.part and hand.lay.n > 1


def _is_gap(hand, place, cell: int) -> bool:
    """Whether a round begins in the gap after this cell: one between groups, or a "space" where gaps are the spaces."""
    if not (hand.in_round and hand.lay.groups):
        return False
    return place.of == "gap" or place.of == "sp" and bool(hand.memory.get("into gaps")) and hand.lay.kind[cell] != CHAINS


def begin_at(hand, cell: int):
    """The row begins in this cell: in a round, what was passed on the way comes at its end."""
    space = hand.lay.kind[cell] == CHAINS
    if hand.in_round:
        around = next((group for group in hand.lay.groups if group[0] <= cell < group[1]), None)
        group = around if space else None
        if around is not None and not space and cell > around[0]:
            hand.memory["begun within"] = cell - around[0], around[1] - cell, around[2]
        hand.change(hand.lay.rotated(cell), 0)
        if group is not None:
            hand.memory["begun group"] = (group[1] - cell, group[2])
        if group is not None and hand.memory.get("whole groups"):  # the first of groups that are passed whole: what is next lies behind it
            hand.longest_pass = max(hand.longest_pass, group[1] - cell, cell - group[0])
            hand.cur = group[1] - cell
        cell = 0
    else:
        hand.cur = cell if space else cell + 1
        if not space:
            hand.memory["stand"] = cell
    hand.begin = cell
    hand.here = cell
    hand.bare_in = cell if space else None


def begin_in_gap(hand, cell: int):
    """The round begins in the gap after this cell, which is the last it comes to."""
    hand.change(hand.lay.rotated((cell + 1) % hand.lay.n), 0)
    hand.begin = hand.here = -1
    hand.bare_in = None
    hand.memory["stand"] = hand.lay.n
    hand.memory["begun in gap"] = True


def _all_along(hand, steps) -> bool:
    """Whether nothing but a single chain comes before stitches worked in each of what is left."""
    real = next_real(steps, 0)
    if isinstance(real, Chain) and hand.number(real.n) == 1:
        real = next_real(steps, steps.index(real) + 1)
    return isinstance(real, Stitch) and real.place is not None and real.place.which == "next" and real.place.extent is not None


def join_yarn(hand, step: JoinYarn, following=()):
    """Joins yarn in a place: the row begins there. following: the steps after it."""
    from .placing import cells

    hand.span = step.span
    if step.colour:
        hand.colours.append((len(hand.kind), step.colour))
    place = step.place
    if place is not None and place.of == "corner" and hand.lay.plain:
        place = None  # a corner of the piece, where a row begins anyhow
    if place is not None and not hand.lay.ring and hand.lay.n and not hand.memory.get("edges") and (hand.cur or not hand.memory.get("rejoined")):
        if "unworked" in (place.of, place.group) or place.which == "free loops":
            cells(hand, place)
            hand.cur = hand.begin = 0
            hand.here = 0
        else:
            if place.which == "any" or place.which in ("first", "next") and place.of in ("sp", "corner"):
                found = list(cells(hand, Place("next", place.of, 1, chains=place.chains, group=place.group, part=place.part)))
            elif place.of == "gap":
                found = list(cells(hand, Place("next", "gap", 1, group=place.group)))
            else:
                found = list(cells(hand, place))
            if found and _is_gap(hand, place, found[0]):
                begin_in_gap(hand, found[0])
            elif place.of == "gap" and hand.lay.plain and hand.in_round:
                hand.memory["joined between"], hand.cur = True, 0  # "in any space between trebles": a round has as many as stitches
            elif found and found[0] >= 0:
                hand.cur = found[0]
                begin_at(hand, found[0])
                if not step.standing and hand.memory.get("stand") == found[0] and _all_along(hand, following):
                    hand.cur = found[0]  # "join yarn in next st, ch 1, sc to end": that one, too
                else:
                    hand.memory["yarn joined"] = found[0]
    if step.standing and step.standing not in ("slst",):
        cell = stand(hand)
        hand.make(step.standing, cell if cell is not None else hand.into())
        after = next_real(following, 0)
        hand.starting = isinstance(after, Chain) and after.says is not None  # a chain after it is a space: "standing sc in any sp, ch 2, sc in same sp"
    elif not hand.lay.ring:
        hand.starting = True
