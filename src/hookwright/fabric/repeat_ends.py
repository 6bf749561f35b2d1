"""The end of a repeat: the last pass, what is said to end it, and the steps that come after."""

from dataclasses import replace

from hookwright.notation.tree import Group, Place, Repeat, Stitch

from . import kinds
from .hand import Hand, Stuck
from .leftovers import skips_of, tail_over
from .needs import need
from .worked import Trouble

MOST_SPREAD = 40  # steps of a pass, its inner repeats written out, among which its end is looked for


def work_pass(hand: Hand, steps, after):
    from .stepping import run

    depth = hand.memory.get("in repeat", 0)
    hand.memory["in repeat"] = depth + 1
    try:
        run(hand, steps, after)
    finally:
        hand.memory["in repeat"] = depth


def like_ending(body, ending) -> int:
    """Where in the repeat the ending takes over: at the step most like its first, the last of those; else at the start."""
    first = ending[0]
    best, points = 0, 0
    for at, step in enumerate(body):
        if isinstance(step, Group) and isinstance(first, Stitch) and _made_of(step, first):
            score = 2 + (getattr(step.place, "of", "") == getattr(first.place, "of", ""))  # "2 dc in last st" for a group of dc
            if score >= points:
                best, points = at, score
            continue
        if type(step) is not type(first):
            continue
        score = 2
        if isinstance(step, Stitch):
            back = getattr(step.place, "which", "")
            if back == "skipped" and getattr(first.place, "which", "") != back:
                continue  # "*skip 1, dc in next st, dc in skipped st; rep across, ending dc in last st": one more, and no other place for it
            if kinds.plain_of(step.kind) != kinds.plain_of(first.kind) or step.kind != first.kind and "tog" not in step.kind:
                continue
            score += (step.n == first.n) + (getattr(step.place, "of", "") == getattr(first.place, "of", ""))
            score += getattr(step.place, "n", 1) == getattr(first.place, "n", 1)
        score += 4 * _alike(body[at:], ending)
        if score >= points:
            best, points = at, score
    return best


def _made_of(group: Group, stitch: Stitch) -> bool:
    """Whether a group that goes into one place is made of this stitch."""
    made = [kinds.plain_of(step.kind) for step in group.steps if isinstance(step, Stitch)]
    return group.place is not None and stitch.place is not None and bool(made) and all(kind == kinds.plain_of(stitch.kind) for kind in made)


def _alike(steps, ending) -> int:
    """How many steps from the start on are of the same sort in both."""
    same = 0
    for step, other in zip(steps, ending):
        if type(step) is not type(other) or getattr(step, "kind", "") != getattr(other, "kind", ""):
            break
        same += 1
    return same


def _only_gaps(body) -> bool:
    """Whether the repeat goes into gaps alone: where there is no further gap, what is left lies before the end of the round."""
    return all(getattr(getattr(step, "place", None), "of", "") == "gap" for step in body)


def finish_repeat(hand, rep, body, rest, snaps, facts, takes, blocked, stop):
    """Tries the steps after the repeat from the last pass that lets them come out exactly; True: the rest is worked."""
    passes = len(snaps) - 1
    tries = []
    low = max(0, passes - 3)
    if rep.partial == "last" and rep.stop is not None:
        for done in range(passes, low - 1, -1):
            tries.append((done, body[:rep.stop], rep.ending or []))
    elif rep.ending:
        first = like_ending(rep.steps, rep.ending)
        orders = [first] + [at for at in range(len(body)) if at != first]
        if _ends_at_last(rep.ending) and (isinstance(body[-1], Group) and rep.ending[0].n == 1 or isinstance(body[-1], Stitch) and body[-1].n == rep.ending[0].n):
            tries.append((passes, None, rep.ending))
        half = _half_of_last(body, rep.ending)
        if half is not None:
            tries.extend((done, body[:-1], half) for done in range(passes, low - 1, -1))
        for at in orders:
            for done in range(passes, low - 1, -1):
                tries.append((done, body[:at], rep.ending))
        tries.append((passes, body, rep.ending))
        spread = _spread(body)
        if spread is not None:  # cut within the inner repeat: "(sc in ch-1 sp, sc in next 3 dc) 3 times; ... ending last rep with sc in ch-1 sp"
            tries.extend((done, spread[:at], rep.ending) for done in range(passes, low - 1, -1) for at in range(len(spread) - 1, 0, -1))
    else:
        for done in range(passes, low - 1, -1):
            tries.append((done, [], []))
    best = None
    frozen = hand.freeze()
    for done, lead, tail in tries:
        hand.thaw(frozen, snaps[done])
        outcome = _attempt(hand, lead, tail, rest, done, stop, body, rep)
        if outcome == 0:
            return True
        if outcome is not None and (best is None or outcome < best[0]):
            best = (outcome, done, lead, tail)
    hand.thaw(frozen, snaps[passes])
    if best is None or not rep.ending and not rep.partial and best[1] != passes:
        best = (None, passes, [], []) if not rep.ending and not rep.partial else best or (None, passes, body[:rep.stop or 0], rep.ending or [])
    hand.thaw(frozen, snaps[best[1]])
    left = hand.lay.rank(stop) - hand.lay.rank(hand.cur) - (facts["rest"] if stop == hand.lay.n else 0)
    if left > 0 and hand.in_round and not rest and not rep.ending and not rep.partial and hand.settings.spiral():
        part = part_of_pass(body, left)
        if part is not None:  # in a coil the pattern goes on over the beginning of the round
            work_pass(hand, part, ())
            return True
    if left > 0 and passes > 1 and blocked is not None and blocked.facts.get("sought") and left <= hand.longest_pass:
        hand.left_said = True  # "*ch 4, sc in next sc; rep from * around": none is left, and what is passed is no more than between the others
    elif left > 0 and ((takes or 0) > 0 or blocked is not None) and not (blocked is not None and _only_gaps(body)):
        hand.troubles.append(Trouble("repeat-leaves", rep.span, {**facts, "takes": takes or 0, "passes": best[1],
                             "left": left, "after": facts["rest"]}))
    elif left < 0:
        hand.troubles.append(Trouble("runs-out", rep.span, {**facts, "needed": facts["rest"], "left": hand.left(), "passes": best[1]}))
    _attempt(hand, best[2] or [], best[3], rest, best[1], stop, body, rep, strict=False)
    return True


def _spread(body):
    """The steps of a pass with its inner repeats written out; None where it has none, or they are long."""
    if not any(isinstance(step, Repeat) and type(step.times) is int and not step.partial and not step.ending for step in body):
        return None
    spread = []
    for step in body:
        if isinstance(step, Repeat) and type(step.times) is int and not step.partial and not step.ending and step.sense == "total":
            spread.extend(step.steps * min(step.times, MOST_SPREAD))
        else:
            spread.append(step)
    return spread if len(spread) <= MOST_SPREAD else None


def _half_of_last(body, ending):
    """"... (2 dc, ch 2, 2 dc) in next st; rep from * around, ending with 2 dc, ch 2": the other half of the group begun in the first place."""
    if not body or not isinstance(body[-1], Group) or len(ending) >= len(body[-1].steps) or not any(isinstance(step, Stitch) for step in ending):
        return None
    for step, other in zip(ending, body[-1].steps):
        if type(step) is not type(other) or step.n != other.n or getattr(step, "place", None) is not None or getattr(step, "kind", "") != getattr(other, "kind", ""):
            return None
    return [Group(list(ending), Place("beginning"))]


def _ends_at_last(ending) -> bool:
    """Whether an ending only names where the last stitch goes."""
    return len(ending) == 1 and isinstance(ending[0], Stitch) and ending[0].place is not None and \
        ending[0].place.which in ("last", "chain top")


def _attempt(hand, lead, tail, rest, done, stop, body, rep, strict=True):
    """Works the end of a repeat and what comes after it: stitches left over (0 = exactly out), or None where it is stuck."""
    troubles, over = len(hand.troubles), hand.memory.get("spaces over", 0)
    try:
        if lead is None:
            hand.memory["ending"] = True
            hand.memory.pop("renamed", None)
            made = len(hand.kind)
            snap = hand.snapshot()
            work_pass(hand, tail, ())
            hand.memory.pop("ending", None)
            if not hand.memory.pop("renamed", False):
                return None
            hand.restore(snap)
            hand.unmake(made)
        else:
            if lead:
                work_pass(hand, lead, tail or rest)
            if rep.partial == "last":
                hand.memory["cut"] = skips_of(hand, body[rep.stop:])
            if tail:
                work_pass(hand, tail, rest)
        if rest:
            from .stepping import run

            run(hand, rest, ())
    except Stuck as stuck:
        hand.memory.pop("ending", None)
        if not strict:
            hand.troubles.append(stuck.trouble)
        return None
    finally:
        hand.memory.pop("ending", None)
    if len(hand.troubles) > troubles and strict:
        return None
    if stop < hand.lay.n and not rest:
        return hand.lay.rank(stop) - hand.lay.rank(hand.cur) if hand.cur <= stop else None
    return tail_over(hand, body) + (hand.memory.get("spaces over", 0) - over if tail and strict else 0)  # an end that passes a space is the less likely one


def part_of_pass(body, left: int):
    """The first steps of a pass that take exactly `left` stitches, one in each; None where they are not so plain."""
    part = []
    for step in body:
        place = step.place if isinstance(step, Stitch) else None
        if not isinstance(step, Stitch) or kinds.takes_makes(step.kind)[0] != 1 or step.kind in ("inc", "dec", "slst"):
            return None
        if place is None:
            many = step.n
        elif step.n == 1 and place.which == "next" and place.of == "st" and place.extent is None:
            many = place.n
        else:
            return None
        if not isinstance(many, int):
            return None
        taken = min(many, left)
        part.append(replace(step, n=taken) if place is None else replace(step, place=replace(place, n=taken)))
        left -= taken
        if not left:
            return part
    return None


def takes_a_pass(hand, snaps, body) -> int:
    """Stitches one pass takes."""
    if len(snaps) > 1:
        lay = snaps[1][12]
        return lay.rank(snaps[1][0]) - lay.rank(snaps[0][0])
    return need(hand, body) or 0
