"""Yarn joined where stitches were left before: a sleeve, a thumb, the other shoulder, the free side of the foundation chain."""

import re

from hookwright.notation.tree import Chain, Group, JoinYarn, Leave, Note, Repeat, Skip, Stitch

from . import layout
from .kinds import CHAINS, FOUNDATION
from .worked import FOOT_NONE

_OPENING = re.compile(r"\b(?:thumb|arm|leg)\s?-?\s?(?:opening|hole)s?\b|\bunderarms?\b|\barmholes?\b", re.IGNORECASE)
LEAST_OPENING = 4  # stitches passed under fewer chains: an armhole or a thumb, no buttonhole (common practice, no source)
LEAST_HANDLE = 15  # chains over fewer stitches: a handle and no loop of lace (common practice, no source)


def keep_opening(hand, found, chains: int):
    """Keeps stitches that the row passes, and the free side of the chain over them, to be worked later."""
    lay = hand.lay
    item = lay.item or range(lay.n)
    opening = layout.Layout([lay.kind[cell] for cell in found] + [FOUNDATION] * chains,
                            item=[item[cell] for cell in found] + [FOOT_NONE] * chains, joined=True)
    hand.left_cells.append((opening, len(found), len(hand.kind) - 1 if chains and hand.kind and hand.kind[-1] == CHAINS else None))


def opens(hand, found, following) -> int:
    """The chains over stitches just skipped where that makes an opening, 0 where it is lace."""
    if len(found) < LEAST_OPENING or hand.lay.ring:
        return 0
    if hand.kind and hand.kind[-1] == CHAINS:
        chains = hand.chains[-1]
    elif isinstance(following, Chain):
        chains = hand.number(following.n) or 0
    else:
        return 0
    most = len(found) - 1 if hand.memory.get("in repeat") else len(found) + 2  # as many chains, or a few more: a thumb, where it comes once
    return chains if 0 < chains <= most or chains >= LEAST_HANDLE else 0


def rejoin(hand, steps):
    """Goes to the places that were left before, where the row's first words say that it begins there."""
    joins = _joins_at(steps)
    if hand.sequence is None or hand.lay.ring or any(isinstance(step, JoinYarn) and step.place is not None and step.place.which == "free loops" for step in steps[:4]):
        return
    skipped = _goes_into_skipped(steps)
    if not (joins or skipped):
        return
    rest = hand.sequence.unworked(hand)
    first = _first(steps)
    into_chain = first is not None and first.place is not None and first.place.of == "ch" and first.place.which in ("next", "same", "first", "nth")
    if rest is not None and (skipped or into_chain and (hand.number(first.place.n) or 1) <= rest.kind.count(FOUNDATION)):
        return _go(hand, _from_the_middle(hand, rest, steps))
    if rest is not None and joins and (_skips_first(steps) or _names_the_opening(steps) or hand.sequence.fastened_off(hand) and _joins_in_next(steps)):
        return _go(hand, rest)
    longest = max(hand.lay.size, default=0)  # a run of chains longer than any there is meant
    if joins and into_chain and (hand.lay.plain or (hand.number(first.place.n) or 1) > longest) and FOUNDATION not in hand.lay.kind:
        chains = hand.sequence.foundation(hand)
        if chains:
            _go(hand, layout.foundation(chains, joined=True))


def _go(hand, lay):
    hand.memory["unworked"] = hand.memory["rejoined"] = True
    hand.change(lay)
    hand.here = None
    hand.begin = 0


def _joins_at(steps) -> bool:
    return any(isinstance(step, JoinYarn) for step in steps[:4])


def _names_the_opening(steps) -> bool:
    """ "Join yarn at the thumb opening", "join at underarm": where stitches were left, in her words."""
    return any(isinstance(step, Note) and _OPENING.search(step.text) for step in steps[:4])


def _joins_in_next(steps) -> bool:
    return any(isinstance(step, JoinYarn) and step.place is not None and step.place.which in ("next", "first") and step.place.of == "st" for step in steps[:4])


def _skips_first(steps) -> bool:
    """ "Skip centre 12 sts, rejoin yarn in next st"."""
    for step in steps[:4]:
        if isinstance(step, Skip) or isinstance(step, Leave) and step.n is not None:
            return True
        if isinstance(step, JoinYarn):
            return False
    return False


def _goes_into_skipped(steps) -> bool:
    """Whether stitches are named that were skipped, and the row skips none itself."""
    for step in steps:
        if isinstance(step, Skip):
            return False
        if isinstance(step, (Group, Repeat)):
            if _goes_into_skipped(step.steps):
                return True
        place = getattr(step, "place", None)
        if place is not None and place.which == "skipped":
            return True
    return False


def _first(steps):
    for step in steps:
        if isinstance(step, Repeat):
            return _first(step.steps)
        if isinstance(step, (Stitch, Group)):
            return step
    return None


def _from_the_middle(hand, rest, steps):
    """The opening begun in its chain: as many chains first as are worked before the stitches."""
    before = 0
    for step in steps:
        place = getattr(step, "place", None)
        if not isinstance(step, Stitch):
            continue
        if place is None or place.of != "ch":
            break
        before += hand.number(place.n) or 1
    chains = sum(1 for kind in rest.kind if kind == FOUNDATION)
    return rest.rotated(rest.n - before) if 0 < before < chains else rest
