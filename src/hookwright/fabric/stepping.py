"""Works the steps of a row one after the other."""

from hookwright.ground import at
from hookwright.notation.tree import (
    Chain, Colour, Each, Either, Extent, FastenOff, Go, Group, Join, JoinYarn, Leave, Mark, NoJoin, Note, Place, Repeat, Ring,
    Skip, Stitch, Turn, Unread,
)

from . import kinds, layout
from .hand import Hand, TooMuch
from .kinds import CHAINS, FOUNDATION
from .needs import need, next_space_place, one_place, spaces_needed, stitch_kind, takes_of
from .placing import NEXT_STITCH, cells, end_of, find_stop
from .repeating import work_repeat
from .starting import join_yarn, next_real, starting_chain, travel
from .worked import FLAG_COUNTS, FLAG_GROUP, FLAG_JOIN, FLAG_TEXTURE, FLAG_TURNING, FOOT_NONE, FOOT_RING

AFTER = (Turn, Note, Mark, FastenOff, Colour, NoJoin, Leave)


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
            taken = hand.choose((id(step), "either"), len(step.readings), 2, step.why, step.span)
            reading = step.readings[min(taken, len(step.readings) - 1)]
            out.extend(flatten(hand, reading if isinstance(reading, list) else [reading]))
        else:
            out.append(step)
    return out


# ---------------------------------------------------------------- stitches

def _stitch(hand: Hand, step: Stitch, steps, index, after):
    count = at(step.n, hand.size) if type(step.n) is not int else step.n
    if count is None or count <= 0 or hand.memory.get("swallowed") is step:
        return
    place = step.place
    kind = step.kind
    if kind == "slst" and _slip(hand, step, steps, index):
        return
    if kind == "row end":
        return
    hand.starting = False
    if step.evenly:
        return _evenly(hand, step, count)
    if kind in ("inc", "dec"):
        kind = stitch_kind(hand, step)
        if step.kind == "inc":
            return _increase(hand, step, kind, count, steps, index, after)
    loop = step.loop or (place.loop if place is not None else "") or hand.row_loop
    if not loop:
        post = place.post if place is not None and place.post else kinds.post(kind)
        loop = "post " + post if post else ""
    takes = takes_of(hand, step)
    if takes == 0:
        return _from_nothing(hand, step, kind, count)
    makes = 1 if takes == 1 or step.over else kinds.takes_makes(kind)[1]
    if kind not in kinds.GATHERED and takes == 1:
        makes = kinds.takes_makes(kind)[1]
    if place is None:
        if hand.inside is not None:
            return _into(hand, kind, hand.inside, count, loop)
        if hand.lay.ring:
            return _into(hand, kind, FOOT_RING, count, loop)
        if hand.bare_in is not None and not hand.choose("bare", 2, 2, "stitches with no place go into the next stitches", step.span):
            return _into(hand, kind, hand.bare_in, count, loop)
        return _each(hand, kind, _next(hand, count * takes), takes, makes, loop)
    if place.which == "other side" or step.place.which == "row ends":
        pass
    elif hand.inside is not None and place.which == "same":
        return _into(hand, kind, hand.inside, count, loop)
    if place.which == "from hook" and _own_chain(hand, place):
        pass
    if place.extent is not None:
        found = cells(hand, place, _reserve(hand, step, steps, index, after))
        hand.bare_in = None
        if takes > 1:
            return _each(hand, kind, found, takes, makes, loop)
        return _spread(hand, kind, found, count, loop)
    if takes > 1 and not one_place(place):
        asked = hand.number(place.n)
        wanted = takes * count if asked in (None, 1, takes) else asked
        if place.which in ("last", "first") and asked in (None, 1):
            wanted = takes
        found = cells(hand, place, 0, wanted)
        hand.bare_in = None if place.which != "same" else hand.bare_in
        return _each(hand, kind, found, takes, makes, loop)
    if place.which not in ("same", "ring", "beginning"):
        hand.bare_in = None
    if place.which == "below":
        real = next_real(steps, index + 1)
        if isinstance(real, Skip) and real.place.extent is None and real.place.of in ("st", "sc", "dc", "hdc", hand.base):
            hand.memory["behind"] = True
    found = cells(hand, place)
    if kind in ("spike",):
        loop = loop or "below"
    if makes > 1 and takes == 1 and kind not in kinds.GATHERED:
        for cell in found:
            _into(hand, kind, cell, count * makes, loop)
        return
    _spread(hand, kind, found, count, loop)


def _from_nothing(hand, step, kind, count):
    """Foundation stitches, knots and picots: they take no place of the row below."""
    hand.room(count)
    if kinds.counted(kind):
        if step.place is not None and step.place.n and step.place.which == "next" and step.place.extent is None:
            count *= hand.number(step.place.n) or 1
        hand.make_into(kind, FOOT_NONE, count)
    else:
        for _ in range(count):
            hand.make(kind, hand.here if hand.here is not None else FOOT_NONE)


def _next(hand, count):
    return cells(hand, NEXT_STITCH, 0, count)


def _remember(hand, cell):
    hand.here = cell
    if "first-worked" not in hand.memory:
        hand.memory["first-worked"] = cell


def _into(hand, kind, cell, count, loop):
    """All into one place."""
    if cell is not None and cell >= 0:
        _remember(hand, cell)
        if cell >= hand.cur and hand.inside is None and cell != hand.bare_in:
            hand.cur = cell + 1
        elif cell == hand.bare_in and hand.inside is None:
            hand.cur = max(hand.cur, cell + 1)
    hand.make_into(kind, cell, count, loop)


def _spread(hand, kind, found, count, loop):
    """`count` stitches into each of the cells."""
    if not len(found):
        return
    if count == 1 and type(found) is range:
        hand.make_run(kind, found[0], len(found), loop)
    elif count == 1:
        previous = None
        for cell in found:
            hand.make(kind, cell, FLAG_COUNTS | (FLAG_GROUP if cell == previous and cell >= 0 and hand.lay.kind[cell] != CHAINS else 0), loop)
            previous = cell
        hand.room(0)
    else:
        hand.room(count * len(found))
        for cell in found:
            start = len(hand.kind)
            hand.make_into(kind, cell, count, loop)
            hand.groups[start] = (count, "")
    _remember(hand, found[-1])


def _each(hand, kind, found, takes, makes, loop):
    """One stitch over every `takes` cells."""
    found = list(found)
    if takes == 1:
        if makes == 1:
            return _spread(hand, kind, range(found[0], found[-1] + 1) if found and found[-1] - found[0] + 1 == len(found) else found, 1, loop)
        for cell in found:
            hand.make_into(kind, cell, makes, loop)
        if found:
            _remember(hand, found[-1])
        return
    if len(found) % takes:
        hand.stuck("repeat-leaves", there=len(found), before=0, takes=takes, passes=len(found) // takes,
                   left=len(found) % takes, after=0)
    for first in range(0, len(found), takes):
        legs = found[first:first + takes]
        if makes == 1:
            hand.make(kind, legs[0], FLAG_COUNTS, loop)
            hand.feet[len(hand.kind) - 1] = tuple(legs[1:])
        else:  # crossed: worked out of order, each into its own place
            for leg in reversed(legs):
                hand.make(kind, leg, FLAG_COUNTS, loop)
    if found:
        _remember(hand, found[-1])


def _increase(hand, step, kind, count, steps, index, after):
    place = step.place
    makes = max(2, step.legs or 2)
    loop = step.loop or (place.loop if place else "") or hand.row_loop
    if place is None:
        if hand.inside is not None:
            return _into(hand, kind, hand.inside, makes * count, loop)
        return _spread(hand, kind, _next(hand, count), makes, loop)
    found = cells(hand, place, _reserve(hand, step, steps, index, after))
    _spread(hand, kind, found, makes * count if place.extent is None and hand.number(place.n) == 1 else makes, loop)


def _evenly(hand, step, count):
    """`count` stitches spread evenly over the places there are."""
    place = step.place or NEXT_STITCH
    lay = hand.lay
    if place.which == "row ends" and lay.kind[:1] != [kinds.ROW_END] and hand.sequence is not None:
        edge = hand.sequence.row_ends(hand)
        if edge is not None:
            hand.change(edge)
            lay = edge
    there = lay.stitches - lay.rank(hand.cur)
    hand.room(count)
    first = lay.rank(hand.cur)
    for index in range(count):
        cell = lay.order[first + index * there // count] if there else FOOT_NONE
        hand.make(step.kind, cell)
    hand.cur = lay.n
    if there:
        hand.here = lay.n - 1


def _reserve(hand, step, steps, index, after) -> int:
    """Stitches an extent must leave to the steps after it."""
    extent = step.place.extent
    if extent is None or extent.kind != "end":
        return 0
    if step.place.of in ("sp", "corner", "group"):
        return spaces_needed(hand, steps, index + 1, step.place)
    if not hand.lay.plain and step.place.of not in ("sp", "corner", "group"):
        ahead = next_space_place(steps, index + 1, after)
        if ahead is not None and not hand.choose((id(step), "across"), 2, 1, "across means to the end of the row", step.span):
            stop = find_stop(hand, ahead)
            return hand.lay.stitches - hand.lay.rank(stop)
    more = need(hand, steps, index + 1)
    return more or 0


# ---------------------------------------------------------------- slip stitches

def _slip(hand, step, steps, index) -> bool:
    """Whether a slip stitch is no stitch of the fabric here: it travels, joins or edges. Works it if so."""
    place = step.place
    if hand.inside is not None:
        if any(isinstance(other, Stitch) and other.kind != "slst" for other in steps):
            hand.make("slst", hand.inside, FLAG_JOIN)
            return True
        return False
    rest = [other for other in steps[index + 1:] if not isinstance(other, AFTER)]
    if hand.level == 0 and not rest and (hand.in_round or not _slips_only(steps)):
        if place is not None and (place.which in ("first", "chain top", "beginning", "same")
                                  or place.which in ("nth", "next", "any") and hand.at_end() and hand.kind
                                  or place.which == "last" and hand.at_end()):
            _close(hand)
            return True
        if hand.in_round and hand.kind_made() and (place is None and hand.at_end() or place is not None and place.extent is None
                                                   and step.n == 1 and hand.number(place.n) == 1 and hand.left() <= 1):
            _close(hand)
            return True
    if hand.level == 0 and not rest and not hand.in_round and place is not None and place.of in ("sp", "corner") and hand.stitches_made():
        for cell in cells(hand, place):  # anchors the end of the row, as corner to corner does
            hand.make("slst", cell, FLAG_JOIN)
        return True
    if hand.starting and hand.level == 0 and not hand.stitches_made() and rest and not _slips_only(steps):
        real = next_real(steps, index + 1)
        if isinstance(real, (Chain, Join)) or isinstance(real, Stitch) or isinstance(real, (Group, Repeat)):
            travel(hand, step)
            return True
    return False


def _slips_only(steps) -> bool:
    return all(isinstance(step, (Chain, Skip) + AFTER) or isinstance(step, Stitch) and step.kind == "slst" for step in steps)


def _close(hand):
    if hand.joined_at_end:
        return
    hand.make("slst", FOOT_NONE, FLAG_JOIN)
    hand.joined_at_end = True


def _join(hand, step, steps, index, after):
    if step.kind not in ("slst", "", None):
        hand.make(step.kind, hand.begin if not hand.lay.ring and hand.lay.n else hand.into())
        hand.joined_at_end = True
        return
    if not hand.kind and not hand.lay.ring and hand.lay.kind[:1] == [FOUNDATION]:
        hand.change(layout.foundation(hand.lay.n, joined=True))
        hand.in_round = True
        return
    _close(hand)


# ---------------------------------------------------------------- the rest

def _chain(hand, step: Chain, steps, index, after):
    count = hand.number(step.n)
    if not count:
        return
    hand.room(0)
    following = next_real(steps, index + 1)
    ahead = getattr(following, "place", None)
    if isinstance(following, Stitch) and following.kind == "slst" and hand.kind_made() and ahead is not None and (
        ahead.which == "from hook" or ahead.which == "nth" and ahead.of == "ch" and hand.number(ahead.ordinal) == count
        or ahead.which in ("last", "same") and hand.inside is None and hand.left() > 1 and ahead.of != "ch"
    ):  # chains closed into their own first one: a picot on the stitch just made
        hand.make("picot", hand.here if hand.here is not None else FOOT_NONE, 0)
        hand.chains[-1] = count
        hand.memory["swallowed"] = following
        return
    if ahead is not None and ahead.which == "from hook" and hand.lay.kind[:1] != [FOUNDATION]:
        hand.starting = False
        hand.memory["chain base"] = len(hand.kind)
        hand.make_chains(count, FLAG_TURNING)
        return
    if hand.starting and count == 1 and hand.level == 0 and isinstance(following, Stitch) and following.kind == "slst" and hand.lay.n \
            and not _slips_only(steps):
        hand.make_chains(1, FLAG_TURNING)  # height for the slip stitches that carry the yarn on
        return
    if hand.starting and (hand.level == 0 or hand.inside is not None and not hand.kind_made()):
        hand.starting = False
        if hand.lay.n or hand.lay.ring:
            starting_chain(hand, step, steps, index)
            return
    if step.says is not None and step.says.counts and hand.inside is not None:
        made = step.says.kind or hand.base
        hand.make(made, hand.inside, FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = count
        if step.says.chains:
            hand.make_chains(step.says.chains)
        return
    if hand.inside is not None and hand.memory.get("block") is not None:
        hand.make(hand.memory["block"], hand.inside, FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = count
        return
    if hand.level == 0 and not [other for other in steps[index + 1:] if not isinstance(other, AFTER)]:
        turned = any(isinstance(other, Turn) for other in steps[max(0, index - 1):])
        if turned or step.role == "turning":
            hand.carried = step
            return
    hand.make_chains(count)


def _skip(hand, step: Skip, steps, index, after):
    place = step.place
    if place.which == "first" and hand.tch_on is not None and hand.cur and hand.level == 0 and place.of not in ("sp", "corner"):
        count = hand.number(place.n) or 1
        if hand.tch_on == hand.lay.order[0] if hand.lay.stitches else False:
            target = hand.lay.order[min(count, hand.lay.stitches) - 1] + 1
            hand.cur = max(hand.cur, target)
            return
    hand.starting = False if place.which != "first" else hand.starting
    if hand.level == 0 and hand.bare_in is not None:
        hand.bare_in = None
    before = hand.lay.rank(hand.cur)
    here, worked = hand.here, hand.spaces_worked
    longest = hand.longest_pass
    found = cells(hand, place, _reserve(hand, step, steps, index, after) if place.extent is not None else 0)
    hand.here, hand.longest_pass = here, longest
    hand.spaces_worked = worked
    passed = hand.lay.rank(hand.cur) - before
    hand.skipped = list(found)
    hand.last_skip = max(hand.last_skip, passed)
    if step.says is not None and step.says.counts and not hand.kind_made():
        _count_skipped(hand, step, steps, index, len(found))


def _count_skipped(hand, step, steps, index, chains):
    """Skipped chains said to count as a stitch (and chains)."""
    from .starting import first_stitch

    says = step.says
    first = first_stitch(steps, index + 1)
    made = says.kind or (stitch_kind(hand, first) if first is not None else hand.base)
    for _ in range(max(1, says.stitches)):
        hand.make(made, FOOT_NONE, FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = chains - says.chains
    if says.chains:
        hand.make_chains(says.chains)


def _group(hand: Hand, step: Group, steps, index, after):
    place = step.place
    if place is not None and place.which == "from hook":
        _own_chain(hand, place)
    if place is None:
        if hand.inside is not None:
            found = [hand.inside]
        elif hand.lay.ring:
            found = [FOOT_RING]
        elif hand.bare_in is not None:
            found = [hand.bare_in]
        else:
            found = _next(hand, 1)
    else:
        if place.extent is not None:
            found = cells(hand, place, _reserve(hand, step, steps, index, after))
        else:
            if place.which == "same" and place.of == "st" and hand.bare_in is not None:
                found = [hand.bare_in]
                hand.cur = max(hand.cur, hand.bare_in + 1)
            else:
                found = cells(hand, place)
        if place.which not in ("same", "ring", "beginning"):
            hand.bare_in = None
    saved = hand.inside
    for cell in found:
        start = len(hand.kind)
        hand.inside = cell
        hand.level += 1
        hand.room(1)
        try:
            run(hand, step.steps)
        finally:
            hand.level -= 1
            hand.inside = saved
        made = len(hand.kind) - start
        if step.makes:
            _gather(hand, start, step.makes, cell)
        elif made > 1:
            hand.groups[start] = (made, step.name)
        if cell >= 0:
            _remember(hand, cell)
    hand.starting = False


def _gather(hand, start, kind, cell):
    """What was worked into one place is closed into one stitch."""
    del hand.kind[start:], hand.foot[start:], hand.chains[start:], hand.flags[start:]
    for columns in (hand.feet, hand.loops, hand.groups):
        for index in [i for i in columns if i >= start]:
            del columns[index]
    hand.make(kind, cell, FLAG_COUNTS | FLAG_TEXTURE)


def _each_kind(hand: Hand, step: Each, steps, index, after):
    """Place by place: each is worked as the part that names its kind says."""
    lay = hand.lay
    if lay.ring:
        hand.stuck("no-end", words="a ring has no places to be worked one after the other")
    hand.starting = False
    extent = step.extent
    if extent.kind == "last":
        stop = end_of(hand, extent.of, hand.number(extent.n) or 0)
    elif extent.kind == "place":
        stop = find_stop(hand, extent.place)
    else:
        more = need(hand, steps, index + 1) or 0
        stop = lay.order[lay.stitches - more] if more else lay.n
    corners = set(lay.corner_cells()) if any(part.place.of == "corner" for part in step.parts) else ()
    while hand.cur < stop and hand.lay is lay:
        cell = hand.cur
        part = _part_for(hand, step.parts, cell, corners)
        if part is None:
            if lay.kind[cell] != CHAINS:
                hand.longest_pass = max(hand.longest_pass, 1)
            hand.cur = cell + 1
            continue
        _work_part(hand, part, cell)
        hand.cur, hand.sub = cell + 1, 0
    hand.bare_in = None
    if not lay.plain:
        hand.spaces_worked = True


def _part_for(hand, parts, cell, corners):
    """The part that names this cell's kind most closely; None where none does."""
    lay = hand.lay
    best, points = None, 0
    for part in parts:
        of, chains = part.place.of, hand.number(part.place.chains, None)
        if lay.kind[cell] == CHAINS:
            if of not in ("sp", "corner", "st+sp", "ch") or chains is not None and chains != lay.size[cell] or of == "corner" and cell not in corners:
                continue
            score = 4 if of == "corner" else 3 if chains is not None else 2 if of == "sp" else 1
        else:
            name = kinds.NAMES[lay.kind[cell]]
            if of in ("sp", "corner", "ch"):
                continue
            score = 4 if of == name else 3 if kinds.plain_of(name) == of else 2 if of in ("st", "st+sp") else 0
        if score > points:
            best, points = part, score
    if best is None and lay.kind[cell] != CHAINS:  # a name used for whatever stitch is there
        best = next((part for part in parts if part.place.of not in ("sp", "corner", "ch", "st+sp")), None)
    return best


def _work_part(hand, part, cell):
    if isinstance(part, Group):
        start, saved = len(hand.kind), hand.inside
        hand.inside = cell
        hand.level += 1
        try:
            run(hand, part.steps)
        finally:
            hand.level -= 1
            hand.inside = saved
        if len(hand.kind) - start > 1:
            hand.groups[start] = (len(hand.kind) - start, part.name)
    else:
        kind = stitch_kind(hand, part)
        loop = part.loop or part.place.loop or hand.row_loop
        count = (hand.number(part.n) or 0) * (max(2, part.legs or 2) if part.kind == "inc" else 1)
        hand.make_into(kind, cell, count, loop)
    _remember(hand, cell)


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
    hand.left_said = True
    if said is not None and said != hand.left() and hand.left() >= 0 and not hand.lay.ring:
        from .worked import Trouble
        hand.troubles.append(Trouble("left-differs", step.span, {"said": said, "left": hand.left()}))


def _leave_open(hand, count):
    """Stitches left in the middle of a row (a thumb, a buttonhole): they and the free side of the chain over them may be worked later."""
    lay = hand.lay
    found = list(cells(hand, NEXT_STITCH, 0, count))
    hand.skipped = found
    chains = hand.chains[-1] if hand.kind and hand.kind[-1] == CHAINS else 0
    item = lay.item or range(lay.n)
    opening = layout.Layout([lay.kind[cell] for cell in found] + [FOUNDATION] * chains,
                            item=[item[cell] for cell in found] + [FOOT_NONE] * chains, joined=True)
    hand.left_cells.append((opening, len(found), len(hand.kind) - 1 if chains else None))


def _mark(hand, step, steps, index, after):
    if step.act == "place":
        hand.memory.setdefault("marked", []).append(max(0, len(hand.kind) - 1))


def _unread(hand, step, steps, index, after):
    hand.stuck("unread", words=step.text)


def _go(hand, step, steps, index, after):
    sequence = hand.sequence
    pattern = sequence.established(hand) if sequence is not None else None
    if pattern is None:
        hand.stuck("nothing-established")
    saved = hand.lay
    if step.extent is not None and step.extent.kind != "end":
        if step.extent.kind == "last":
            stop = saved.rank(end_of(hand, step.extent.of, hand.number(step.extent.n) or 0))
        elif step.extent.kind == "until":
            stop = hand.number(step.extent.n) or 0
        else:
            stop = saved.rank(find_stop(hand, step.extent.place))
        hand.lay = saved.cut(stop)
        run(hand, pattern)
        left = hand.left()
        hand.lay = saved
        if left > 0:
            hand.stuck("repeat-leaves", there=saved.stitches, before=0, takes=0, passes=0, left=left, after=0)
        if not any(isinstance(other, (Stitch, Group, Repeat, Skip)) for other in steps[index + 1:]):
            hand.left_said = True
        return
    run(hand, pattern, steps[index + 1:])


def _own_chain(hand, place) -> bool:
    """"In 4th ch from hook" in the middle of the work: the chain just made is worked into."""
    lay = hand.lay
    if not hand.kind or hand.kind[-1] != CHAINS or hand.memory.get("chain base") != len(hand.kind) - 1:
        return False
    made = hand.chains[-1]
    hand.flags[-1] |= FLAG_TURNING  # a foundation of its own, no space to work into
    hand.memory["detour"] = (hand.lay, hand.cur, len(hand.kind) - 1)
    hand.change(layout.Layout([FOUNDATION] * made, item=[FOOT_NONE] * made))
    skipped = (hand.number(place.ordinal) or 1) - 1
    says = hand.settings.skipped(skipped) or hand.settings.turning(skipped, hand.base)
    if says is not None and says.counts:
        hand.make(says.kind or hand.base, FOOT_NONE, FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = skipped
    return True


_HANDLERS = {
    Stitch: _stitch, Each: _each_kind, Chain: _chain, Skip: _skip, Group: _group, Repeat: work_repeat, Join: _join, Ring: _ring, Turn: _turn,
    Colour: _colour, JoinYarn: lambda hand, step, *rest: join_yarn(hand, step), Leave: _leave, Mark: _mark,
    Unread: _unread, Go: _go,
}
