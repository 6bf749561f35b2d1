"""A row out of the middle of a pattern whose row below is not given: how wide that must have been for the row to come out."""

from hookwright.notation.tree import Chain, Each, Either, Group, Join, Repeat, Ring, Stitch

from . import kinds
from .choosing import SOFT, hard
from .needs import stitch_kind
from .starting import BEFORE, first_stitch, next_real
from .worked import Trouble

MOST_WIDTHS = 60  # widths tried in one reading of a row
MOST_TRIES = 300  # and in all its readings together
WIDEST = 40  # where no count says how wide it is
_SUMS = frozenset({"repeat-leaves", "runs-out", "left-over", "no-such-place", "no-end", "count", "other-space", "post-of-chain", "third-loop-of", "passed-over"})
_SHAPED = ("sp", "corner", "group", "gap", "cl", "shell", "vst", "picot", "bobble", "puff", "popcorn")


def begins_in_the_middle(row, steps, settings) -> bool:
    """Whether the chain a first row begins with is a turning chain: the row is worked over one that is not given.

    So it is where nothing is worked into that chain or round a ring of it, and the row has a number after 1, or the chain is no higher
    than its first stitch.
    """
    index = next((at for at, step in enumerate(steps) if not isinstance(step, BEFORE)), None)
    if index is None or not isinstance(steps[index], Chain) or steps[index].role == "foundation" or not isinstance(steps[index].n, int):
        return False
    real, first = next_real(steps, index + 1), first_stitch(steps, index + 1)
    if real is None or first is None or isinstance(real, (Ring, Join, Chain)) or _into_own_chain(steps[index + 1:]):
        return False
    if row.numbers and row.numbers[0] > 1:
        return True
    height = kinds.turning(kinds.plain_of(first.kind) if first.kind not in ("inc", "dec") else "sc")[0]
    return steps[index].n <= height


def _into_own_chain(steps) -> bool:
    """Whether a step works into a chain, a ring, or counts from the hook."""
    for step in steps:
        place = getattr(step, "place", None)
        if place is not None and (place.which in ("from hook", "ring", "other side") or place.of == "ch"):
            return True
        if isinstance(step, Ring) or isinstance(step, (Group, Repeat)) and _into_own_chain(step.steps):
            return True
    return False


def needs_shape(steps) -> bool:
    """Whether the steps go into more than stitches in a row: then no plain row below can stand in for the one that is not given."""
    for step in steps:
        place = getattr(step, "place", None)
        if place is not None and (place.of in _SHAPED or place.group or place.row is not None or place.which in ("unworked", "free loops", "marked", "nth")):
            return True
        inner = step.steps if isinstance(step, (Group, Repeat)) else step.parts if isinstance(step, Each) else ()
        if isinstance(step, Either) and step.readings:
            inner = step.readings[0]
        if inner and needs_shape(inner):
            return True
    return False


def fit(again, made, asked, hand, steps, total, tries):
    """(worked row, asked) over the width for which the row comes out; the row as it was worked where none does.

    again(width) -> (worked row, asked). total: the stitches the row states. tries: [so many are left], shared by all readings of the row.
    The row gets a trouble "below-unknown" with `taken`, the width (None where it could not be told).
    """
    shaped = needs_shape(steps)
    if shaped or any(stitch_kind(hand, step)[:2] in ("fp", "bp") for step in steps if isinstance(step, Stitch)) and hard([made]):
        made.troubles = [trouble for trouble in made.troubles if trouble.kind not in _SUMS]
        return _told(made, None, shaped=True), asked
    told = total is not None or hand.memory.get("asks for") is not None
    if not hard([made]) and (made.stitches or total is None):
        return _told(made, hand.lay.stitches if told else None), asked
    best = None
    needs = hand.memory.get("asks for")
    for width in _widths(total) if needs is None else (needs, needs + 1):  # one more where the turning chain stands on one
        if tries[0] <= 0:
            break
        tries[0] -= 1
        other, asked_now = again(width)
        off = _off(other, total)
        if off is not None and (best is None or off < best[0]):
            best = (off, _told(other, width if told else None), {**asked, **asked_now})
            if not off:
                break
    return best[1:] if best is not None else (made, asked)


def _off(made, total) -> int | None:
    """How far a row is from coming out: 0 where it does, more where stitches are left or its count differs, None where it breaks off."""
    off = 0
    for trouble in made.troubles:
        if trouble.kind in SOFT:
            continue
        facts = trouble.facts
        if trouble.kind == "left-over":
            off += 1 if total in (None, made.stitches) else 1000 + abs(total - made.stitches)
        elif trouble.kind == "count" and isinstance(facts.get("expected"), int) and isinstance(facts.get("found"), int):
            off += 1000 + abs(facts["expected"] - facts["found"])
        else:
            return None
    return off


def _widths(total):
    """Widths to try: near the stated count first."""
    if not total:
        yield from range(1, WIDEST)
        return
    yield total
    for step in range(1, MOST_WIDTHS // 2):
        if total > step:
            yield total - step
        yield total + step
    for times in (2, 3):  # rows that halve or double
        yield total * times
        if total % times == 0:
            yield total // times


def _told(made, width, shaped=False):
    made.troubles = [*made.troubles, Trouble("below-unknown", facts={"taken": width, "shape": shaped})]
    return made
