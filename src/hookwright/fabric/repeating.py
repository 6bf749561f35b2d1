"""Repeats: how often they fit, where the last pass ends, and what the steps after them need."""

from hookwright.notation.tree import Chain, Either, Group, Repeat, Skip, Stitch

from .corner_blocks import pass_to_block
from .deeper_rows import over_deeper_row
from .edges import CORNERS, on_to_far_edge
from .gaps import before_last_gap
from .hand import Hand, Stuck
from .kinds import CHAINS
from .leftovers import skips_of
from .needs import least_need, need
from .reaching import end_of, find_stop, groups_so_far, made_so_far
from .repeat_ends import finish_repeat, like_ending, takes_a_pass, work_pass
from .tiling import fits, template_of, tile
from .worked import FLAG_COUNTS, Trouble


def work_repeat(hand: Hand, rep: Repeat, steps, index, after):
    """Works a repeat; True where it worked the steps after it too."""
    from .stepping import flatten

    hand.starting = hand.starting and bool(rep.steps) and isinstance(rep.steps[0], (Chain, Group)) and not _petals(rep) and not _loops(rep)
    body = flatten(hand, rep.steps) if any(type(step) is Either for step in rep.steps) else rep.steps
    body = over_deeper_row(hand, body)
    if rep.times is not None:
        times = hand.number(rep.times, None)
        if times is None:
            return False
        if rep.sense == "more":
            times += 1
        elif rep.sense == "unclear":
            more = hand.settings.repeat_sense != "total"
            ways = (f"once and then {times} times more", f"{times} times in all")
            taken = hand.choose((id(rep), "times"), 2, 2, ways if more else ways[::-1], rep.span)
            times += 1 if more != bool(taken) else 0
        return _times(hand, rep, body, times, steps, index)
    return _as_often(hand, rep, body, steps, index, after)


def _times(hand, rep, body, times, steps, index):
    if times <= 0:
        return False
    hand.room(times)
    template = template_of(hand, body) if rep.partial == "" and not rep.ending else None
    if template is not None and times > 1 and fits(hand, template, times):
        tile(hand, template, times)
        return False
    full = times - 1 if rep.partial == "last" else times
    before = hand.lay.rank(hand.cur) if hand.lay.n else 0
    outer = hand.memory.get("section")
    hand.memory["section"] = _section(hand, body) or outer
    marked = not hand.marks and any(_to_marker(step) for step in body)
    for done in range(full):
        if done and hand.lay.onto:
            on_to_far_edge(hand, body)
        start = hand.lay.rank(hand.cur) if hand.lay.n else 0
        hand.memory["pass"] = done
        if marked:  # where the markers are, is not known: each pass leaves the others their share
            hand.memory["passes ahead"] = (full - done - 1, (full - done - 1) * least_need(hand, body) + least_need(hand, steps, index + 1))
        if done == full - 1 and rep.ending and rep.partial != "last":
            _ending(hand, body, rep.ending)
            continue
        try:
            work_pass(hand, body, body if done < full - 1 else ())
        except Stuck as stuck:
            stuck.trouble.facts.setdefault("pass", done + 1)
            stuck.trouble.facts.setdefault("passes", full)
            stuck.trouble.facts.setdefault("before", before)
            if done:
                stuck.trouble.facts.setdefault("takes", (start - before) // done)
            raise
    hand.memory["pass"], hand.memory["section"] = 0, outer
    hand.memory.pop("passes ahead", None)
    if rep.partial in ("last", "again"):
        work_pass(hand, body[:rep.stop], ())
        hand.memory["cut"] = skips_of(hand, body[rep.stop:])
        if rep.ending:
            work_pass(hand, rep.ending, ())
    return False


def _loops(rep) -> bool:
    """ "*ch 3, skip next 2 sts, sc in next st; rep around": a chain over stitches that are skipped, also in the first pass."""
    chain, following = rep.steps[0], rep.steps[1] if len(rep.steps) > 1 else None
    if isinstance(chain, Chain) and chain.says is None and len(rep.steps) == 2 and isinstance(following, Stitch) and following.place is not None and following.place.which == "next" and rep.times != 1:
        return True  # "*ch 4, hdc around next sc; rep around": each chain lies before its stitch
    return isinstance(chain, Chain) and chain.says is None and isinstance(following, Skip) and following.says is None and following.place.which == "next" and rep.times != 1


def _petals(rep) -> bool:
    """"(Ch 3, 2 dc, ch 3, sl st) 5 times in ring": chains that climb and come down again stand for no stitch."""
    last = rep.steps[-1]
    return rep.times is not None and rep.times != 1 and isinstance(last, Stitch) and last.kind == "slst" and len(rep.steps) > 2 and isinstance(rep.steps[-2], Chain)


def _section(hand, body):
    """The corner or chain space that each pass comes to, up to which "the last st" of a pass lies; None where there is none."""
    if hand.lay.plain:
        return None
    ahead, last = None, False
    for step in body:
        place = getattr(step, "place", None)
        if place is None or not isinstance(step, (Stitch, Group)):
            continue
        if place.which == "next" and place.extent is None and (place.of == "corner" or place.of == "sp" and place.n == 1):
            if last or place.of == "corner":
                return place
            ahead = ahead or place
        elif place.which == "last" and place.of not in ("sp", "corner"):
            last = True
    return ahead if last else None


def _to_marker(step) -> bool:
    extent = step.place.extent if isinstance(step, Stitch) and step.place is not None else None
    return extent is not None and extent.place is not None and extent.place.which == "marked"


def _ending(hand, body, ending):
    """The last pass with its end changed."""
    at = like_ending(body, ending)
    work_pass(hand, body[:at], ())
    work_pass(hand, ending, ())


def _as_often(hand: Hand, rep: Repeat, body, steps, index, after):
    extent = rep.extent
    if hand.memory.get("detour") is not None and hand.left() <= 0:  # a chain of its own is worked off: back to the row below
        below, cur, _ = hand.memory.pop("detour")
        hand.change(below, cur)
    lay = hand.lay
    if lay.ring:
        wanted = hand.number(extent.n) if extent is not None and extent.kind == "until" else None
        if not wanted:
            hand.stuck("no-end", words="a ring has no end to repeat to")
        while _made(hand, extent.of) < wanted:  # "*sc in ring, ch 3; go on from * until you have 6 loops"
            before = _made(hand, extent.of)
            hand.room(1)
            work_pass(hand, body, body)
            if _made(hand, extent.of) <= before:
                hand.stuck("no-end", words="a ring has no end to repeat to")
        return False
    pass_to_block(hand)
    kind = extent.kind if extent is not None else "end"
    if kind == "end" and hand.memory.get("edges") and any(getattr(getattr(step, "place", None), "of", "") == "corner" for step in body):
        return _times(hand, rep, body, CORNERS, steps, index)  # "*58 sc along side, 3 sc in corner; rep from * around"
    stop = lay.n
    if kind == "last" and extent.of == "repeat":
        stop = lay.order[max(0, lay.stitches - (need(hand, body) or 0))] if lay.stitches else 0
    elif kind in ("last", "place"):
        stop = before_last_gap(hand, extent)
        if stop is None:
            stop = end_of(hand, extent.of, hand.number(extent.n) or 0) if kind == "last" else find_stop(hand, extent.place)
    rest = steps[index + 1:]
    if kind == "place" and extent.place.which == "chain top" and rest and _into_its_space(hand, rest[0], stop):
        stop -= 1
    until = hand.number(extent.n) if kind == "until" else None
    top = hand.level == 0 and kind == "end" and not hand.memory.get("nested")
    reserve = need(hand, rest) if kind == "end" and hand.memory.get("nested") is None else 0
    before = lay.rank(hand.cur)
    facts = {"there": lay.stitches, "before": before, "rest": reserve or 0}

    if kind == "end" and not rep.ending and rep.partial == "" and lay.plain and reserve is not None:
        template = template_of(hand, body)
        if template is not None and template[0] > 0:
            takes = template[0]
            room = hand.left() - reserve
            passes, left = divmod(max(0, room), takes)
            if left == 0 and passes > 0:
                tile(hand, template, passes)
                return False
    if kind == "last" and not rep.ending and rep.partial == "" and lay.plain:
        template = template_of(hand, body)
        if template is not None and template[0] > 0:
            passes, left = divmod(max(0, stop - hand.cur), template[0])
            if left == 0:
                tile(hand, template, passes)
                return False

    snaps = [hand.snapshot()]
    blocked = None
    ends_elsewhere = bool(rep.ending) or rep.partial == "last" or any(isinstance(step, (Stitch, Group)) for step in rest)
    cyclic = list(body)
    outer = hand.memory.get("section")
    hand.memory["section"] = _section(hand, body) or outer
    while hand.cur < stop and (hand.left() > 0 or lay is not hand.lay or _more_spaces(hand)):
        if until is not None and _made(hand, extent.of) >= until:
            break
        start = (hand.cur, hand.sub)
        hand.room(1)
        nested = hand.memory.get("nested")
        hand.memory["nested"] = True
        hand.memory["pass"] = len(snaps) - 1
        said = len(hand.troubles)
        try:
            work_pass(hand, body, cyclic)
            pass_to_block(hand)
            if ends_elsewhere and len(snaps) > 1 and any(trouble.kind == "other-space" for trouble in hand.troubles[said:]):
                hand.restore(snaps[-1])  # no further space of that size: the end is said apart
                break
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
    hand.memory["section"] = outer
    passes = len(snaps) - 1
    if blocked is not None and kind == "end" and blocked.kind == "no-such-place" and len(body) > 1 and hand.left() > 0 \
            and _to_a_place(body[0]) and not rep.ending and not rep.partial:
        work_pass(hand, body[:1], rest)  # no further corner: the last stretch goes on to the end
        snaps.append(hand.snapshot())
        blocked = None
    takes = takes_a_pass(hand, snaps, body)
    if kind in ("last", "place"):
        if extent.of == "group" and hand.memory.get("block") is not None and passes and _slips(body[-1]) and rest and _slips(rest[0]):
            work_pass(hand, body, rest)  # "... to last block, sl st in its ch-3 sp": its slip stitch is the last of the repeat
            if rest[1:]:
                from .stepping import run

                run(hand, rest[1:], after)
            return True
        left = lay.rank(stop) - lay.rank(hand.cur)
        if rep.ending or rep.partial:
            finish_repeat(hand, rep, body, [], snaps, facts, takes, blocked, stop)
            return False
        missed = _spaces_missed(hand, stop)
        if (left > 0 or missed) and len(body) > 1 and (isinstance(body[-1], Skip) and not lay.plain or left > 0 and _taken_at_end(body, rest)):
            left = _without_last_step(hand, body, stop)
            missed = _spaces_missed(hand, stop)
        if kind == "place" and 0 < left == _claimed(hand, rest) and not missed:
            return False  # the steps that follow take what is left before the place
        named = (kind == "place" or extent.of not in ("st", "ch") or _only_spaces(body)) and not missed
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
            return finish_repeat(hand, rep, body, rest, snaps, facts, takes, blocked, lay.n)
        return False
    return finish_repeat(hand, rep, body, rest, snaps, facts, takes, blocked, lay.n)


def _into_its_space(hand, step, stop: int) -> bool:
    """ "rep from * to turning ch, dc in last sp, dc in 3rd ch": whether what follows goes into the space of the chain that the repeat goes up to."""
    place = step.place if isinstance(step, (Stitch, Group)) else None
    return place is not None and place.of == "sp" and place.which in ("last", "next") and place.n == 1 and place.extent is None and 0 < stop < hand.lay.n and hand.lay.kind[stop - 1] == CHAINS


def _made(hand, of: str) -> int:
    """Stitches, groups or chain spaces of this row so far."""
    if of in ("sp", "ch", "corner"):
        first = next((at for at, flag in enumerate(hand.flags) if flag & FLAG_COUNTS), len(hand.kind))
        return hand.kind[first:].count(CHAINS)
    return groups_so_far(hand) if of == "group" else made_so_far(hand)


def _only_spaces(body) -> bool:
    """Whether the repeat works into spaces and groups alone, passing the stitches between them."""
    places = [step.place for step in body if isinstance(step, (Stitch, Group))]
    return bool(places) and all(place is not None and place.of in ("sp", "corner", "group") for place in places)


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


def _slips(step) -> bool:
    return isinstance(step, Stitch) and step.kind == "slst"


def _taken_at_end(body, rest) -> bool:
    """ "*..., (dc, ch 1, dc) in next sc; rep from * to last sc, 2 dc in last sc": what comes after the repeat stands where its last step would.

    After plain stitches that are worked one in each a single stitch is no such end: there a part of the repeat is left over.
    """
    step, after = body[-1], rest[0].place if rest and isinstance(rest[0], (Stitch, Group)) else None
    place = getattr(step, "place", None)
    ends = after is not None and after.which == "last" and place is not None and place.which == "next" and place.n == 1 and place.extent is None
    return ends and (not isinstance(step, Stitch) or not isinstance(body[-2], Stitch) or any(isinstance(one, (Skip, Chain)) for one in body[:-2]))


def _without_last_step(hand, body, stop) -> int:
    """One more pass without the step that ends it, where that reaches the end exactly: stitches then left before `stop`."""
    snap, left = hand.snapshot(), hand.lay.rank(stop) - hand.lay.rank(hand.cur)
    try:
        work_pass(hand, body[:-1], ())
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
