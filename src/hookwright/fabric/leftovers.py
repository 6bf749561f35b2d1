"""What is left of the row below when a row is done, and what accounts for it."""

from hookwright.notation.tree import Chain, Skip

from .hand import Hand
from .kinds import CHAINS
from .worked import FLAG_COUNTS, FLAG_JOIN


def tail_over(hand: Hand, body=None) -> int:
    """Stitches left over at the end of the row that nothing accounts for; 0 where it came out."""
    if hand.lay.ring or hand.left_said:
        return hand.passed
    left = hand.left()
    if left and hand.lay.closed and hand.spaces_worked:
        left -= 1
    forgotten = _spaces_forgotten(hand)
    if forgotten:
        return left + forgotten + hand.passed
    if left <= 0:
        return hand.passed
    if left == 1 and hand.other_side is not None and _several_in_first(hand):
        return hand.passed  # "3 sc in 2nd ch from hook": they go around its end, and nothing more is worked there
    if left == 1 and not hand.in_round and hand.lay.order[-1] in hand.lay.tops and hand.here == hand.lay.order[-1] - 1 and hand.lay.kind[hand.here] == CHAINS:
        return hand.passed  # in the space of the turning chain: the chain itself needs no word
    if hand.spaces_worked and left <= max(hand.longest_pass, 1 if hand.lay.left(hand.cur) == 1 and hand.in_round else 0):
        return hand.passed
    if hand.in_round or hand.joined_at_end:
        cut = hand.memory.get("cut", 0)
        closed = _closed_by_a_stitch(hand)
        passed = not closed and _passed_since(hand)
        skip = max(skips_of(hand, body) if body else 0, 0 if passed else _ending_skip(body), cut)
        if body is None and left == hand.memory.get("skip unsaid"):
            return hand.passed
        over_chain = hand.last_skip if not passed and (closed or _last_made(hand) == CHAINS) else 0  # chains span what is left, though no skip says so
        if left in (skip, cut, over_chain):
            hand.memory["skip unsaid"] = left
            return hand.passed
    return left + hand.passed


def _several_in_first(hand) -> bool:
    """Whether the first chain of a foundation took several stitches at the start of the row."""
    worked = [cell for cell, flag in zip(hand.foot, hand.flags) if flag & FLAG_COUNTS]
    return len(worked) > 1 and worked[0] in (worked[1], worked[-1]) and worked[0] >= 0


def _passed_since(hand) -> bool:
    """Whether stitches were skipped, in so many words, after the last one worked into: chains after it span those, and nothing more."""
    return hand.here is not None and hand.here >= 0 and hand.lay.rank(hand.cur) - hand.lay.rank(hand.here) > 1


def _closed_by_a_stitch(hand) -> bool:
    """Whether the round ends with chains and a stitch into its own first one, which are its last loop: "ch 2, dc in first sc"."""
    made = [(kind, foot) for kind, foot, flag in zip(hand.kind[-4:], hand.foot[-4:], hand.flags[-4:]) if not flag & FLAG_JOIN]
    if len(made) < 3 or made[-2][0] != CHAINS or made[-1][0] == CHAINS or made[-1][1] < 0:
        return False
    first = next((foot for foot in hand.foot[hand.settled:] if foot >= 0), -1)
    return made[-1][1] == first and hand.in_round


def _last_made(hand) -> int:
    """The kind last made, joins aside; -1 where nothing was."""
    for kind, flag in zip(reversed(hand.kind), reversed(hand.flags)):
        if not flag & FLAG_JOIN:
            return kind
    return -1


def _spaces_forgotten(hand) -> int:
    """Spaces left at the end of a row that has worked into every space before them."""
    lay = hand.lay
    if lay.plain or not hand.spaces_worked:
        return 0
    spaces = lay.spaces()
    if spaces[-1] < hand.cur:
        return 0
    worked = set(hand.foot[hand.settled:])
    before = [cell for cell in spaces if cell < hand.cur]
    if len(before) < 2 or any(cell not in worked for cell in before):
        return 0
    return len(spaces) - len(before)


def _ending_skip(body) -> int:
    """Stitches the last skip of a repeat passes, looking past chains: "ch 1, sk 1" at the end of a round is often unsaid."""
    for step in body or ():
        if isinstance(step, Skip) and step.place.extent is None and type(step.place.n) is int:
            return step.place.n
    return 0


def skips_of(hand, steps) -> int:
    """Stitches skipped at the start of these steps."""
    total = 0
    for step in steps:
        if isinstance(step, Skip) and step.place.extent is None:
            total += hand.number(step.place.n) or 0
        elif not isinstance(step, Chain):
            break
    return total
