"""A row out of the middle of a pattern whose row below is not given: how wide that must have been for the row to come out."""

from hookwright.notation.tree import Chain, Each, Either, Group, Join, JoinYarn, Repeat, Ring, Skip, Stitch

from . import kinds
from .choosing import SOFT, hard
from .needs import need, stitch_kind
from .starting import BEFORE, first_stitch, next_real
from .worked import Trouble

MOST_WIDTHS = 60  # widths tried in one reading of a row
MOST_TRIES = 150  # and in all its readings together
WIDEST = 40  # where no count says how wide it is
_SUMS = frozenset({"repeat-leaves", "runs-out", "left-over", "no-such-place", "no-end", "count", "other-space", "post-of-chain", "third-loop-of", "passed-over"})
_NAMED = frozenset({"unworked", "free loops", "marked", "nth"})
_SHAPED = ("sp", "corner", "group", "gap", "ch", "cl", "shell", "vst", "picot", "bobble", "puff", "popcorn")


def begins_in_the_middle(row, steps) -> bool:
    """Whether the chain a first row begins with is a turning chain: the row is worked over one that is not given.

    So it is where nothing is worked into that chain or round a ring of it, and the row has a number after 1, or the chain is no higher
    than its first stitch.
    """
    index = next((at for at, step in enumerate(steps) if not isinstance(step, (*BEFORE, JoinYarn))), None)
    if index is None or not isinstance(steps[index], Chain) or steps[index].role == "foundation" or not isinstance(steps[index].n, int):
        return False
    numbered = bool(row.numbers) and row.numbers[0] > 1 or row.name.lower().startswith("next")
    real, first = next_real(steps, index + 1), first_stitch(steps, index + 1)
    if real is None or first is None or isinstance(real, (Ring, Join, Chain)) or into_own_chain(steps[index + 1:], not numbered):
        return False
    height = kinds.turning(kinds.plain_of(first.kind) if first.kind not in ("inc", "dec") else first.base or "dc")[0]
    if isinstance(real, Skip) and real.place.of == "st":
        return True  # a chain over stitches that are skipped
    return numbered or steps[index].n <= height or any(isinstance(step, JoinYarn) for step in steps[:index])


def into_own_chain(steps, any_chain: bool = True) -> bool:
    """Whether a step works into a ring, along a foundation chain, or (any_chain) into chains at all."""
    for step in steps:
        place = getattr(step, "place", None)
        if place is not None and (place.which in ("from hook", "ring", "other side") or any_chain and place.of == "ch"):
            return True
        if isinstance(step, Ring) or isinstance(step, (Group, Repeat)) and into_own_chain(step.steps, any_chain):
            return True
    return False


def needs_shape(steps) -> bool:
    """Whether the steps go into more than stitches in a row: then no plain row below can stand in for the one that is not given."""
    for step in steps:
        place = getattr(step, "place", None)
        if place is not None and (place.of in _SHAPED or place.group or place.row is not None or place.loop == "third" or place.which in _NAMED):
            return True
        inner = step.steps if isinstance(step, (Group, Repeat)) else step.parts if isinstance(step, Each) else ()
        if isinstance(step, Either) and step.readings:
            inner = step.readings[0]
        if inner and needs_shape(inner):
            return True
    return False


def fit(again, made, asked, hand, steps, total, series, tries):
    """(worked row, asked) over the width for which the row comes out; the row as it was worked where none does.

    again(width) -> (worked row, asked). total: the stitches the row states, after `series` rows where it stands for a range.
    tries: [so many are left], shared by all readings of the row.
    The row gets a trouble "below-unknown" with `taken`, the width (None where it could not be told).
    """
    total = total or None
    shaped = needs_shape(steps) and not into_own_chain(steps)
    if shaped or any(stitch_kind(hand, step)[:2] in ("fp", "bp") for step in steps if isinstance(step, Stitch)) and hard([made]):
        made.troubles = [trouble for trouble in made.troubles if trouble.kind not in _SUMS]
        return _told(made, None, shaped=True), asked
    needs = hand.memory.get("asks for")
    told = total is not None or needs is not None
    if not hard([made]) and (made.stitches or total is None) and series == 1:
        return _told(made, hand.lay.stitches if told else None), asked
    best, grown = None, 0
    least = sum(need(hand, [step]) or 0 for step in steps)
    widths, tried = _Widths(total, needs, least), set()
    while widths.queue and tries[0] > 0:
        width = widths.queue.pop(0) + grown
        if width in tried or width < 1:
            continue
        tried.add(width)
        tries[0] -= 1
        other, asked_now = again(width)
        widths.learn(width, other)
        if series > 1 and not grown and total and not hard([other]) and other.stitches != width:
            grown = (width - other.stitches) * series  # each row of the range makes it so much wider or narrower
            widths = _Widths(total, None, least)
            continue
        off = _off(other, total if series == 1 else None)
        if off is not None and (best is None or off < best[0]):
            best = (off, _told(other, width if told else None), {**asked, **asked_now})
            if not off:
                break
    if best is None or best[0]:  # nothing fits: what lies below is no plain row, or the row is at fault in itself
        worked, asked = best[1:] if best is not None else (made, asked)
        worked.troubles = [trouble for trouble in worked.troubles if trouble.kind != "below-unknown"]
        return _told(worked, None, fixed=needs is not None), asked
    return best[1:]


class _Widths:
    """Widths to try, the likeliest first: as many as the words ask for, as the row states, as its count would be reached with, and near these."""

    def __init__(self, total, needs, least):
        self.queue = [needs, needs + 1] if needs is not None else []  # one more where the turning chain stands on one
        if total:
            self.queue += [total]
            self.queue += [width for step in range(1, MOST_WIDTHS // 2) for width in (total - step, total + step)]
            self.queue += [width for times in (2, 3, 4) for width in (total * times, total // times)]
        else:
            self.queue += range(max(1, least), least + WIDEST)
        self.known = []

    def learn(self, width, made):
        """From the count that two widths come to, where the stated one would be reached."""
        off = next((trouble.facts for trouble in made.troubles if trouble.kind == "count" and isinstance(trouble.facts.get("found"), int)), None)
        if off is None or not isinstance(off.get("expected"), int):
            return
        self.known = [*self.known[-1:], (width, off["found"])]
        if len(self.known) == 2:
            (one, few), (other, many) = self.known
            if many != few:
                aimed = one + round((off["expected"] - few) * (other - one) / (many - few))
                if 0 < aimed < 100_000:
                    self.queue[:0] = [aimed, aimed + 1, aimed - 1]


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
    if not off and total not in (None, made.stitches):
        return 1  # one kind of its stitches has the count
    return off


def _told(made, width, shaped=False, fixed=False):
    """taken: the width, None where none was found; shape: it goes into more than plain stitches; fixed: how many it takes is told by its own words."""
    made.troubles = [*made.troubles, Trouble("below-unknown", facts={"taken": width, "shape": shaped, "fixed": fixed})]
    return made
