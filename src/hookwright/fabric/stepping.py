"""Works the steps of a row one after the other."""

from hookwright.notation.tree import (
    Chain,
    Colour,
    Each,
    Either,
    Extent,
    Go,
    Group,
    Join,
    JoinYarn,
    Leave,
    Mark,
    Place,
    Repeat,
    Ring,
    Skip,
    Stitch,
    Turn,
    Unread,
)

from . import layout
from .chaining import work_chain
from .changing_groups import LostChange, work_lost
from .each_kind import work_each
from .grouping import work_group, work_skip
from .hand import Hand, TooMuch
from .kinds import CHAINS, FOUNDATION
from .needs import least_need
from .next_places import NEXT_STITCH
from .placing import cells
from .reaching import end_of, find_stop, made_so_far
from .rejoining import keep_opening
from .repeating import work_repeat
from .slipping import AFTER, work_join
from .starting import join_yarn
from .stitching import work_stitch
from .worked import Trouble


def run(hand: Hand, steps, after=()):
    """Works `steps`; `after` are the steps that come when these are done, for those that must leave them their share."""
    for step in steps:
        if type(step) is Either:
            steps = flatten(hand, steps)
            break
    index = 0
    count = len(steps)
    hand.budget[0] -= count + 1
    if hand.budget[0] < 0:
        raise TooMuch(hand.limit, hand.span)
    while index < count:
        step = steps[index]
        handler = _HANDLERS.get(type(step))
        if handler is not None:
            hand.span = step.span
            if handler(hand, step, steps, index, after):
                return
        index += 1


def flatten(hand: Hand, steps) -> list:
    """The steps with one reading taken wherever there are two."""
    out = []
    for step in steps:
        if type(step) is Either:
            if not step.readings:
                continue
            taken = hand.choose((id(step), "either"), len(step.readings), 2, tuple(
                f"{way}: {step.why}" for way in ("the likelier way", "the other way", "the third way")), step.span)
            reading = step.readings[min(taken, len(step.readings) - 1)]
            out.extend(flatten(hand, reading if isinstance(reading, list) else [reading]))
        else:
            out.append(step)
    return out


def _ring(hand, step, steps, index, after):
    hand.change(layout.ring(hand.lay.n if hand.lay.kind[:1] == [FOUNDATION] else 0))
    hand.in_round = hand.memory.get("flat ring") is None
    hand.starting = True


def _turn(hand, step, steps, index, after):
    if hand.level == 0:
        rest = [other for other in steps[index + 1:] if not isinstance(other, AFTER) and not isinstance(other, Chain)]
        if not rest:
            hand.turned_at_end = True


def _colour(hand, step, steps, index, after):
    hand.colours.append((len(hand.kind), step.name))


def _leave(hand, step, steps, index, after):
    said = hand.number(step.n, None)
    if said and any(isinstance(other, (Stitch, Group, Repeat, Go)) for other in steps[index + 1:]):
        return _leave_open(hand, said)
    if said and hand.left() <= 0 and said == made_so_far(hand):
        return  # "decrease 6 times, leaving 12 sts": what the round has
    hand.left_said = True
    if said is not None and said != hand.left() and hand.left() >= 0 and not hand.lay.ring:
        hand.troubles.append(Trouble("left-differs", step.span, {"said": said, "left": hand.left()}))


def _leave_open(hand, count):
    """Stitches left in the middle of a row (a thumb, a buttonhole): they and the free side of the chain over them may be worked later."""
    found = list(cells(hand, NEXT_STITCH, 0, count))
    hand.skipped = found
    keep_opening(hand, found, hand.chains[-1] if hand.kind and hand.kind[-1] == CHAINS else 0)


def _mark(hand, step, steps, index, after):
    if step.act == "place":
        hand.memory.setdefault("marked", []).append(max(0, len(hand.kind) - 1))


def _unread(hand, step, steps, index, after):
    """What is not understood is passed over: of most rows the rest is worked as well, and that it is only a part of the row is said."""
    if not any(trouble.kind == "unread" and trouble.span == hand.span for trouble in hand.troubles):
        hand.troubles.append(Trouble("unread", hand.span, {"words": step.text}))


def _go(hand, step, steps, index, after):
    sequence = hand.sequence
    pattern = sequence.established(hand) if sequence is not None else None
    so_many = step.extent is not None and step.extent.kind == "until"
    if pattern is None and (so_many or any(isinstance(other, Stitch) for other in steps)):
        pattern = [Stitch(hand.base, 1, Place(extent=Extent(), n=None))]  # shaping at the edges of plain work
    if pattern is None:
        hand.stuck("nothing-established")
    saved = hand.lay
    if step.extent is not None and step.extent.kind != "end":
        if step.extent.kind == "last":
            stop = saved.rank(end_of(hand, step.extent.of, hand.number(step.extent.n) or 0))
            if step.extent.of == "group" and hand.memory.get("block") is not None:
                stop = max((saved.rank(top) + 1 for top in saved.tops if saved.rank(top) < stop), default=stop)  # the stitches before its chain are of the last block, too
        elif step.extent.kind == "until":
            passed = saved.rank(hand.cur) if any(isinstance(other, Skip) or isinstance(other, Stitch) and other.kind == "slst" for other in steps[:index]) else 0
            stop = passed + (hand.number(step.extent.n) or 0)
            if stop > saved.stitches:
                hand.stuck("runs-out", there=saved.stitches, left=saved.stitches - passed, needed=stop)
        elif step.extent.place is not None and step.extent.place.which == "marked" and not hand.marks:
            stop = max(saved.rank(hand.cur), saved.stitches - least_need(hand, steps, index + 1) - (hand.number(step.extent.n, 0) or 0))
        else:
            stop = saved.rank(find_stop(hand, step.extent.place))
        hand.lay = saved.cut(stop)
        try:
            run(hand, pattern)
            left = hand.left()
        finally:
            hand.lay = saved
        if left > 0:
            hand.stuck("repeat-leaves", there=saved.stitches, before=0, takes=0, passes=0, left=left, after=0)
        if not any(isinstance(other, (Stitch, Group, Repeat, Skip)) for other in steps[index + 1:]):
            hand.left_said = True
        return
    run(hand, pattern, steps[index + 1:])


_HANDLERS = {
    Stitch: work_stitch, Each: work_each, Chain: work_chain, Skip: work_skip, Group: work_group, Repeat: work_repeat, Join: work_join, Ring: _ring, Turn: _turn,
    Colour: _colour, JoinYarn: lambda hand, step, steps, index, after: join_yarn(hand, step, steps[index + 1:]), Leave: _leave, Mark: _mark,
    Unread: _unread, LostChange: work_lost, Go: _go,
}
