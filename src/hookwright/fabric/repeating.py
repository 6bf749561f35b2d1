"""Repeats: how often they fit, where the last pass ends, and what the steps after them need."""

from hookwright.notation.tree import Chain, Group, Join, Place, Repeat, Skip, Stitch

from . import kinds
from .hand import Hand, Stuck
from .kinds import CHAINS
from .needs import need, stitch_kind, takes_of
from .placing import end_of, find_stop, made_so_far
from .worked import FLAG_COUNTS, FLAG_GROUP, FLAG_JOIN, Trouble


def work_repeat(hand: Hand, rep: Repeat, steps, index, after):
    """Works a repeat; True where it worked the steps after it too."""
    from .stepping import flatten

    hand.starting = hand.starting and bool(rep.steps) and isinstance(rep.steps[0], (Chain, Group))
    body = flatten(hand, rep.steps) if any(type(step).__name__ == "Either" for step in rep.steps) else rep.steps
    if rep.times is not None:
        times = hand.number(rep.times, None)
        if times is None:
            return False
        if rep.sense == "more":
            times += 1
        elif rep.sense == "unclear":
            more = hand.settings.repeat_sense != "total"
            taken = hand.choose((id(rep), "times"), 2, 2, "how often", rep.span)
            times += 1 if more != bool(taken) else 0
        return _times(hand, rep, body, times, steps, index)
    return _as_often(hand, rep, body, steps, index, after)


def _pass(hand: Hand, steps, after):
    from .stepping import run

    run(hand, steps, after)


# ---------------------------------------------------------------- a number of times

def _times(hand, rep, body, times, steps, index):
    if times <= 0:
        return False
    hand.room(times)
    template = _template(hand, body) if rep.partial == "" and not rep.ending else None
    if template is not None and times > 1 and _fits(hand, template, times):
        _tile(hand, template, times)
        return False
    full = times - 1 if rep.partial == "last" else times
    before = hand.lay.rank(hand.cur) if hand.lay.n else 0
    for done in range(full):
        start = hand.lay.rank(hand.cur) if hand.lay.n else 0
        hand.memory["pass"] = done
        if done == full - 1 and rep.ending and rep.partial != "last":
            _ending(hand, body, rep.ending)
            continue
        try:
            _pass(hand, body, body if done < full - 1 else ())
        except Stuck as stuck:
            stuck.trouble.facts.setdefault("pass", done + 1)
            stuck.trouble.facts.setdefault("passes", full)
            stuck.trouble.facts.setdefault("before", before)
            if done:
                stuck.trouble.facts.setdefault("takes", (start - before) // done)
            raise
    hand.memory["pass"] = 0
    if rep.partial in ("last", "again"):
        _pass(hand, body[:rep.stop], ())
        hand.memory["cut"] = _skips(hand, body[rep.stop:])
        if rep.ending:
            _pass(hand, rep.ending, ())
    return False


def _ending(hand, body, ending):
    """The last pass with its end changed."""
    at = _like_ending(body, ending)
    _pass(hand, body[:at], ())
    _pass(hand, ending, ())


def _like_ending(body, ending) -> int:
    """Where in the repeat the ending takes over: at the last step that is of its sort, else at the start."""
    first = ending[0]
    for at in range(len(body) - 1, -1, -1):
        step = body[at]
        if type(step) is type(first):
            if isinstance(step, Stitch):
                if kinds.plain_of(step.kind) == kinds.plain_of(first.kind) and (step.kind == first.kind or "tog" in step.kind):
                    return at
            else:
                return at
    return 0


def _skips(hand, steps) -> int:
    """Stitches skipped at the start of these steps."""
    total = 0
    for step in steps:
        if isinstance(step, Skip) and step.place.extent is None:
            total += hand.number(step.place.n) or 0
        elif not isinstance(step, Chain):
            break
    return total


# ---------------------------------------------------------------- as often as it fits

def _as_often(hand: Hand, rep: Repeat, body, steps, index, after):
    extent = rep.extent
    lay = hand.lay
    if lay.ring:
        hand.stuck("no-end", words="a ring has no end to repeat to")
    kind = extent.kind if extent is not None else "end"
    stop = lay.n
    if kind == "last":
        stop = end_of(hand, extent.of, hand.number(extent.n) or 0)
    elif kind == "place":
        stop = find_stop(hand, extent.place)
    rest = steps[index + 1:]
    until = hand.number(extent.n) if kind == "until" else None
    top = hand.level == 0 and kind == "end" and not hand.memory.get("nested")
    reserve = need(hand, rest) if kind == "end" and hand.memory.get("nested") is None else 0
    before = lay.rank(hand.cur)
    facts = {"there": lay.stitches, "before": before, "rest": reserve or 0}

    if kind == "end" and not rep.ending and rep.partial == "" and lay.plain and reserve is not None:
        template = _template(hand, body)
        if template is not None and template[0] > 0:
            takes = template[0]
            room = hand.left() - reserve
            passes, left = divmod(max(0, room), takes)
            if left == 0 and passes > 0:
                _tile(hand, template, passes)
                return False
    if kind == "last" and not rep.ending and rep.partial == "" and lay.plain:
        template = _template(hand, body)
        if template is not None and template[0] > 0:
            passes, left = divmod(max(0, stop - hand.cur), template[0])
            if left == 0:
                _tile(hand, template, passes)
                return False

    snaps = [hand.snapshot()]
    blocked = None
    cyclic = list(body)
    while hand.cur < stop and (hand.left() > 0 or lay is not hand.lay or _more_spaces(hand)):
        if until is not None and made_so_far(hand) >= until:
            break
        start, made = (hand.cur, hand.sub), len(hand.kind)
        hand.room(1)
        nested = hand.memory.get("nested")
        hand.memory["nested"] = True
        hand.memory["pass"] = len(snaps) - 1
        try:
            _pass(hand, body, cyclic)
        except Stuck as stuck:
            blocked = stuck.trouble
            hand.restore(snaps[-1])
            break
        finally:
            hand.memory["pass"] = 0
            if nested is None:
                hand.memory.pop("nested", None)
        if (hand.cur, hand.sub) == start:
            hand.restore(snaps[-1])
            if len(snaps) == 1:
                hand.stuck("no-end", words="the repeat takes nothing from the row below, so it never reaches the end")
            break
        if hand.cur > stop and kind in ("last", "place"):
            hand.restore(snaps[-1])
            break
        snaps.append(hand.snapshot())
    passes = len(snaps) - 1
    if blocked is not None and kind == "end" and blocked.kind == "no-such-place" and len(body) > 1 and hand.left() > 0 \
            and _to_a_place(body[0]) and not rep.ending and not rep.partial:
        _pass(hand, body[:1], rest)  # no further corner: the last stretch goes on to the end
        snaps.append(hand.snapshot())
        blocked = None
    takes = _takes(hand, snaps, body)
    if kind in ("last", "place"):
        left = lay.rank(stop) - lay.rank(hand.cur)
        if rep.ending or rep.partial:
            _finish(hand, rep, body, [], snaps, facts, takes, blocked, stop)
            return False
        missed = _spaces_missed(hand, stop)
        if (left > 0 or missed) and len(body) > 1 and isinstance(body[-1], Skip):
            left = _without_last_skip(hand, body, stop)
            missed = _spaces_missed(hand, stop)
        if kind == "place" and 0 < left == _claimed(hand, rest) and not missed:
            return False  # the steps that follow take what is left before the place
        named = (kind == "place" or extent.of not in ("st", "ch")) and not missed
        if (left > 0 or missed) and not (named and left <= max(hand.longest_pass, hand.last_skip if hand.spaces_worked else 0)):
            hand.troubles.append(Trouble("repeat-leaves", rep.span, {**facts, "takes": takes, "passes": passes, "left": left or missed,
                                                                     "after": lay.stitches - lay.rank(stop)}))
            hand.cur = stop
        elif left > 0:
            hand.cur = stop
        return False
    if kind == "until":
        return False
    if not top:
        if rep.partial == "last" or rep.ending:
            return _finish(hand, rep, body, rest, snaps, facts, takes, blocked, lay.n)
        return False
    return _finish(hand, rep, body, rest, snaps, facts, takes, blocked, lay.n)


def _claimed(hand, rest) -> int:
    """Stitches taken by the plain steps that follow, up to the first that goes into a space or corner."""
    plain = []
    for step in rest:
        place = getattr(step, "place", None)
        if isinstance(step, Repeat) or place is not None and place.of in ("sp", "corner", "group"):
            break
        plain.append(step)
    return need(hand, plain) or 0


def _spaces_missed(hand, stop) -> int:
    """Chain spaces between the hook and `stop` in a row that works into spaces."""
    lay = hand.lay
    if lay.plain or not hand.spaces_worked:
        return 0
    return sum(1 for cell in range(hand.cur, min(stop, lay.n)) if lay.kind[cell] == CHAINS)


def _without_last_skip(hand, body, stop) -> int:
    """One more pass without the skip that ends it, where that reaches the end exactly: stitches then left before `stop`."""
    snap, left = hand.snapshot(), hand.lay.rank(stop) - hand.lay.rank(hand.cur)
    try:
        _pass(hand, body[:-1], ())
        if hand.cur <= stop and hand.lay.rank(hand.cur) == hand.lay.rank(stop):
            return 0
    except Stuck:
        pass
    hand.restore(snap)
    return left


def _to_a_place(step) -> bool:
    """Whether a step works up to the next corner or space."""
    extent = step.extent if isinstance(step, Repeat) else getattr(getattr(step, "place", None), "extent", None)
    return extent is not None and extent.kind == "place"


def _more_spaces(hand) -> bool:
    if hand.lay.plain or not hand.spaces_worked:
        return False
    spaces = hand.lay.spaces()
    return bool(spaces) and spaces[-1] >= hand.cur


def _finish(hand, rep, body, rest, snaps, facts, takes, blocked, stop):
    """Tries the steps after the repeat from the last pass that lets them come out exactly; True: the rest is worked."""
    passes = len(snaps) - 1
    tries = []
    low = max(0, passes - 3)
    if rep.partial == "last" and rep.stop is not None:
        for done in range(passes, low - 1, -1):
            tries.append((done, body[:rep.stop], rep.ending or []))
    elif rep.ending:
        first = _like_ending(rep.steps, rep.ending)
        orders = [first] + [at for at in range(len(body)) if at != first]
        if _ends_at_last(rep.ending) and (isinstance(body[-1], Group) or isinstance(body[-1], Stitch) and body[-1].n == rep.ending[0].n):
            tries.append((passes, None, rep.ending))
        for done in range(passes, low - 1, -1):
            for at in orders:
                tries.append((done, body[:at], rep.ending))
            if done == passes:
                tries.append((done, body, rep.ending))
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
    if left > 0 and (takes or 0) > 0 or blocked is not None and left > 0:
        hand.troubles.append(Trouble("repeat-leaves", rep.span, {**facts, "takes": takes or 0, "passes": best[1],
                             "left": left, "after": facts["rest"]}))
    elif left < 0:
        hand.troubles.append(Trouble("runs-out", rep.span, {**facts, "needed": facts["rest"], "left": hand.left(), "passes": best[1]}))
    _attempt(hand, best[2] or [], best[3], rest, best[1], stop, body, rep, strict=False)
    return True


def _ends_at_last(ending) -> bool:
    """Whether an ending only names where the last stitch goes."""
    return len(ending) == 1 and isinstance(ending[0], Stitch) and ending[0].place is not None and \
        ending[0].place.which in ("last", "chain top")


def _attempt(hand, lead, tail, rest, done, stop, body, rep, strict=True):
    """Works the end of a repeat and what comes after it: stitches left over (0 = exactly out), or None where it is stuck."""
    troubles = len(hand.troubles)
    try:
        if lead is None:
            hand.memory["ending"] = True
            hand.memory.pop("renamed", None)
            made = len(hand.kind)
            snap = hand.snapshot()
            _pass(hand, tail, ())
            hand.memory.pop("ending", None)
            if not hand.memory.pop("renamed", False):
                return None
            hand.restore(snap)
            del hand.kind[made:], hand.foot[made:], hand.chains[made:], hand.flags[made:]
        else:
            if lead:
                _pass(hand, lead, tail or rest)
            if rep.partial == "last":
                hand.memory["cut"] = _skips(hand, body[rep.stop:])
            if tail:
                _pass(hand, tail, rest)
        if rest:
            _pass(hand, rest, ())
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
    return tail_over(hand, body)


def tail_over(hand: Hand, body=None) -> int:
    """Stitches left over at the end of the row that nothing accounts for; 0 where it came out."""
    if hand.lay.ring or hand.left_said:
        return hand.passed
    left = hand.left()
    forgotten = _spaces_forgotten(hand)
    if forgotten:
        return left + forgotten + hand.passed
    if left <= 0:
        return hand.passed
    if hand.spaces_worked and left <= max(hand.longest_pass, 1 if hand.lay.left(hand.cur) == 1 and hand.in_round else 0):
        return hand.passed
    if hand.in_round or hand.joined_at_end:
        cut = hand.memory.get("cut", 0)
        skip = max(_skips(hand, body) if body else 0, _ending_skip(body), cut)
        if body is None and left == hand.memory.get("skip unsaid"):
            return hand.passed
        over_chain = hand.last_skip if _last_made(hand) == CHAINS else 0  # chains span what is left, though no skip says so
        if left in (skip, cut, over_chain):
            hand.memory["skip unsaid"] = left
            return hand.passed
    return left + hand.passed


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


def _takes(hand, snaps, body) -> int:
    """Stitches one pass takes."""
    if len(snaps) > 1:
        lay = snaps[1][12]
        return lay.rank(snaps[1][0]) - lay.rank(snaps[0][0])
    return need(hand, body) or 0


# ---------------------------------------------------------------- plain repeats at one go

def _template(hand: Hand, body):
    """(takes, kinds, feet offsets, flags, extra feet, makes) of one pass over plain stitches; None where it needs more than that."""
    if not hand.lay.plain or hand.lay.ring or hand.bare_in is not None or hand.inside is not None or hand.row_loop:
        return None
    at = 0
    kind, foot, flags, feet, skip = [], [], [], {}, 0
    for step in body:
        if type(step) is Skip:
            place = step.place
            if place.which != "next" or place.of not in ("st", "ch") or place.extent is not None or place.layers != 1:
                return None
            count = hand.number(place.n)
            if not count:
                return None
            at += count
            skip = max(skip, count)
            continue
        if type(step) is not Stitch or step.loop or step.evenly or step.kind in ("slst", "picot", "spike"):
            return None
        place = step.place
        count = hand.number(step.n)
        if count is None or count > 5000:
            return None
        takes = takes_of(hand, step)
        number = stitch_kind(hand, step)
        makes = kinds.takes_makes(number)[1]
        if takes < 1 or makes != 1 and step.kind not in kinds.GATHERED:
            return None
        if step.kind == "inc":
            takes = 1
        if place is not None and (place.which != "next" or place.extent is not None or place.loop or place.post or place.part
                                  or place.layers != 1 or place.of not in ("st", "ch")
                                  and len(hand.lay.of_kind(place.of)) != hand.lay.stitches and hand.lay.of_kind(place.of)):
            return None
        each = 1 if place is None else hand.number(place.n)
        if each is None:
            return None
        if place is not None and place.of not in ("st", "ch") and not hand.lay.of_kind(place.of) and hand.lay.built_on(place.of):
            return None
        small = kinds.number(number)
        counted = FLAG_COUNTS if kinds.counted(number) else 0
        if step.kind == "inc":
            units, per = (count, 2) if place is None else (each, 2 * count if each == 1 else 2)
            for _ in range(units):
                kind.extend([small] * per)
                foot.extend([at] * per)
                flags.extend([counted] + [counted | FLAG_GROUP] * (per - 1))
                at += 1
        elif takes > 1:
            units = count if place is None or each in (1, takes) else each // takes
            if place is not None and each > 1 and each % takes:
                return None
            for _ in range(units):
                feet[len(kind)] = tuple(range(at + 1, at + takes))
                kind.append(small)
                foot.append(at)
                flags.append(counted)
                at += takes
        elif place is None:
            kind.extend([small] * count)
            foot.extend(range(at, at + count))
            flags.extend([counted] * count)
            at += count
        else:
            for _ in range(each):
                kind.extend([small] * count)
                foot.extend([at] * count)
                flags.extend([counted] + [counted | FLAG_GROUP] * (count - 1))
                at += 1
    if at == 0 or not kind:
        return None
    return at, kind, foot, flags, feet, skip


def _fits(hand, template, times) -> bool:
    return hand.left() >= template[0] * times


def _tile(hand: Hand, template, passes: int):
    """Works `passes` passes of a plain repeat at one go."""
    takes, kind, foot, flags, feet, skip = template
    made = len(kind)
    hand.room(made * passes)
    if passes <= 0:
        return
    start, first = len(hand.kind), hand.cur
    hand.kind.extend(kind * passes)
    hand.flags.extend(flags * passes)
    hand.chains.extend([0] * (made * passes))
    if made == 1:
        hand.foot.extend(range(first + foot[0], first + foot[0] + takes * passes, takes))
    else:
        hand.foot.extend([base + offset for base in range(first, first + takes * passes, takes) for offset in foot])
    for index, places in feet.items():
        for done in range(passes):
            base = first + takes * done
            hand.feet[start + made * done + index] = tuple(base + place for place in places)
    at = 0
    while at < made:  # increases share their place
        end = at + 1
        while end < made and foot[end] == foot[at]:
            end += 1
        if end - at > 1:
            for done in range(passes):
                hand.groups[start + made * done + at] = (end - at, "")
        at = end
    hand.cur = first + takes * passes
    hand.here = hand.cur - takes + foot[-1] if foot else hand.cur - 1
    hand.last_skip = max(hand.last_skip, skip)
    if "first-worked" not in hand.memory:
        hand.memory["first-worked"] = first
    hand.starting = False
