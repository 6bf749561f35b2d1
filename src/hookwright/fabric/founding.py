"""How a piece begins: the chain, ring or foundation stitches its first row is worked into, and whether the chains skipped at the turn count."""

from hookwright.notation.tree import Chain, Counts, Group, Join, JoinYarn, Repeat, Ring, Skip, Stitch, Turn

from . import kinds, layout
from .hand import Hand
from .needs import need, stitch_kind
from .starting import BEFORE, first_stitch
from .unknown_below import into_own_chain
from .worked import FLAG_COUNTS, FLAG_TURNING

_RING_OF_ONE = 6  # chains a round worked into the first of them begins with, at most
SHORT_RING = 8  # chains: a ring of so few is worked into, and its stitches are not meant one by one


def take_foundation(hand: Hand, steps):
    """Takes the chain, ring or foundation stitches a piece begins with; the steps after them."""
    index, chains, rest = 0, 0, []
    joined = False
    while index < len(steps):
        step = steps[index]
        if isinstance(step, Ring):
            one_by_one = step.kind == "chain" and chains and from_the_join_on(steps[index + 1:])
            hand.change(layout.foundation(chains, joined=True) if one_by_one else layout.ring(chains if step.kind == "chain" else 0))
            hand.in_round = True
            return rest + steps[index + 1:]
        if isinstance(step, Chain) and not chains and step.says is None and not hand.memory.get("middle"):
            chains = hand.number(step.n) or 0
            hand.room(chains)
            hand.memory["foundation"], hand.memory["foundation span"] = chains, step.span
        elif isinstance(step, Chain) and chains and step.says is None and (hand.number(step.n) or 9) < 5 and _from_hook(steps[index + 1:]):
            chains += hand.number(step.n)  # "Ch 20, ch 1, turn. Row 1: sc in 2nd ch from hook"
        elif isinstance(step, Join) and chains:
            joined = True
            index += 1
            break
        elif isinstance(step, BEFORE) or isinstance(step, JoinYarn):
            if not isinstance(step, Turn):
                rest.append(step)
        else:
            break
        index += 1
    if chains:
        if joined:
            hand.in_round = True
            if _into_ring(steps[index:]):  # "ch 4, sl st in first ch": a ring, whatever it is called
                hand.change(layout.ring(chains))
                return rest + steps[index:]
        if not joined and _ring_unsaid(hand, chains, steps, index):
            hand.change(layout.ring())
            return [step for step in steps[:index] if not isinstance(step, Turn)] + steps[index:]
        hand.change(layout.foundation(chains, joined=joined))
        return rest + steps[index:]
    first = first_stitch(steps)
    place = first.place if first is not None else None
    if first is not None and place is not None and place.which == "ring" or _into_ring(steps):
        hand.change(layout.ring())
        return rest + steps[index:]
    if first is not None and kinds.takes_makes(stitch_kind(hand, first))[0] == 0:
        hand.memory["no below"] = True
        return rest + steps[index:]
    # nothing is known of the row below: as wide as was found to fit, else as the row asks for
    along = into_own_chain(steps)
    if hand.memory.get("wide"):
        hand.change(layout.foundation(hand.memory["wide"]) if along else layout.plain(hand.base, hand.memory["wide"]))
        return rest + steps[index:]
    hand.memory["unknown below"] = True
    wanted = hand.memory["asks for"] = need(hand, steps)
    width = wanted if wanted is not None else hand.memory.get("stated", 0)
    hand.change(layout.foundation(width) if along else layout.plain(hand.base, width))
    return rest + steps[index:]


def _ring_unsaid(hand: Hand, chains: int, steps, index) -> bool:
    """ "1st row: 4 ch, 3 tr in ring, ..." with no ring made before: a chain that counts, or is as high as the stitches, begins the row, and the ring goes without saying."""
    first = first_stitch(steps, index)
    if first is None or (first.place is None or first.place.which != "ring") and not (isinstance(steps[index], Group) and _into_ring(steps[index:index + 1])):
        return False
    kind = stitch_kind(hand, first)
    says = hand.settings.turning(chains, kind)
    return says is not None and says.counts or chains == kinds.turning(kind)[0]


def _from_hook(steps) -> bool:
    """Whether the first stitch goes into a chain counted from the hook."""
    first = first_stitch(steps)
    return first is not None and first.place is not None and first.place.which == "from hook"


def from_the_join_on(steps) -> bool:
    """ "Sc in same ch as join and in each ch around": a long chain joined to work around it, and no ring to work into."""
    placed = [step.place for step in steps if isinstance(step, Stitch) and step.kind != "slst" and step.place is not None][:2]
    if len(placed) == 2 and placed[0].which in ("same", "first") and placed[0].of in ("st", "ch") and placed[1].which == "next" and placed[1].extent is not None:
        return True
    return not _into_ring(steps) and _chain_by_chain(steps)


def _chain_by_chain(steps) -> bool:
    """ "*Skip next 2 ch, (dc, ch 1, dc) in next ch; repeat": a repeat that goes on from chain to chain."""
    for step in steps:
        if isinstance(step, Repeat):
            places = [one.place for one in step.steps if isinstance(one, (Stitch, Group, Skip)) and one.place is not None]
            if any(place.of == "ch" and place.which == "next" and place.chains is None for place in places):
                return True
    return False


def along_ring(hand: Hand, steps) -> None:
    """Opens out a chain that was joined to a ring before, where the round goes along it from the chain of the join on."""
    chains = hand.lay.hook_chain
    if hand.lay.ring and chains > SHORT_RING and not _into_ring(steps):
        placed = [step.place for step in steps if isinstance(step, Stitch) and step.kind != "slst" and step.place is not None][:3]
        if len(placed) > 1 and placed[0].which == "same" and placed[0].of in ("st", "ch") and any(place.which == "next" and (place.of == "ch" or place.extent is not None) for place in placed[1:]):
            hand.change(layout.foundation(chains, joined=True))


def _into_ring(steps) -> bool:
    for step in steps:
        if isinstance(step, (Stitch, Group)) and step.place is not None and step.place.which == "ring":
            return True
        if isinstance(step, Repeat) and _into_ring(step.steps):
            return True
    return False


def chains_unsaid(hand: Hand, steps, real):
    """"Ch 41. Row 1: Sc across": the chains skipped at the turn are the customary ones where none are named."""
    first = first_stitch(steps)
    if first is None or isinstance(real, Chain):
        return
    place = first.place
    kind = stitch_kind(hand, first)
    if isinstance(real, Skip):  # "miss 3 ch, 1 tr in each ch to end"
        if real.place.which in ("first", "next") and real.place.of in ("st", "ch") and real.place.extent is None:
            _count_chains(hand, hand.number(real.place.n) or 0, kind, steps, real.span, real.says)
        return
    if place is not None and place.which == "from hook":
        ordinal = hand.number(place.ordinal) or 1
        _count_chains(hand, ordinal - 1, kind, steps, place.span, place.says)
        return
    if isinstance(real, Group) and real.place is not None:
        if real.place.which == "from hook":
            _count_chains(hand, (hand.number(real.place.ordinal) or 1) - 1, kind, steps, real.span, real.place.says)
            return
        place = real.place
    if place is not None and place.which == "first" and place.of == "ch" and place.n == 1 and hand.lay.n <= _RING_OF_ONE and not hand.lay.joined:
        _count_chains(hand, hand.lay.n - 1, kind, steps, place.span or first.span, place.says)
        return  # "ch 4, 11 dc in first ch": all but that one stand for a stitch, as in the 4th from the hook
    if place is not None and place.which not in ("next",):
        return
    if kind == "slst":
        chains = 1
    else:
        chains = kinds.turning(kind)[0]
    if chains >= hand.lay.n or hand.choose(("foundation-skip", kind), 2, 2, "the first stitch goes into the first chain", first.span):
        return
    hand.cur = chains
    _count_chains(hand, chains, kind, steps, first.span)


def _count_chains(hand: Hand, chains: int, kind: str, steps, span, said=None):
    """Whether chains skipped at the start of a foundation row count as a stitch, and does so.

    said: what the place of the first stitch says of them, "hdc in 3rd ch from hook (2 skipped chs count as hdc)". It goes before all else where
    the row is told stitch by stitch; where a repeat has to come out, too, the stated count still decides.
    """
    if chains <= 0:
        return
    plain = said is not None and not said.chains and said.stitches < 2 and not any(isinstance(step, Repeat) for step in steps)
    says = said if plain else hand.settings.skipped(chains)
    if says is None:
        says = _said_of_skipped(steps)
    if says is None:
        height, habit = kinds.turning(kind)
        if chains == 1:
            return  # one chain is only height: no custom counts it
        if kinds.height(kind) <= 1:
            if chains > 1:
                if said is not None and said.kind == "sp" and said.chains:
                    chains = said.chains  # "(skipped chs count as ch-2 sp)"
                hand.make_chains(chains, FLAG_TURNING)  # "sc in 4th ch from hook": a chain to turn with, whose space may be worked into
            return
        key = ("skipped", chains, kind)
        words = f"{chains} skipped chains before {kind}"
        default = chains == height and habit == "yes" or chains > height
        taken = hand.choose(key, 2, 1, words, span)
        counts = default if not taken else not default
        if not counts:
            return
        over = _base_skip(hand, steps)
        extra = max(0, chains - height - over) if over else (chains - height) // 2 if (chains - height) % 2 == 0 else chains - height
        says = Counts(True, kind, extra if chains > height else 0)
    if not says.counts:
        return
    if says.kind == "sp":
        hand.make_chains(says.chains or chains)
        return
    for _ in range(max(1, says.stitches)):
        hand.make(says.kind or kind, 0, FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = max(0, chains - says.chains)
    if says.chains:
        hand.make_chains(says.chains)


def _said_of_skipped(steps):
    for step in steps:
        if isinstance(step, Skip) and step.says is not None:
            return step.says
    return None


def _base_skip(hand, steps) -> int:
    """Stitches the row skips under its chains: the first skip in it."""
    for step in steps:
        if isinstance(step, Skip) and step.place.extent is None:
            return hand.number(step.place.n) or 0
        if isinstance(step, Repeat):
            found = _base_skip(hand, step.steps)
            if found:
                return found
    return 0
