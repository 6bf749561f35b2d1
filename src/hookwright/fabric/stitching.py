"""Stitches into their places: one in each, several in one, several together, spread evenly."""

from dataclasses import replace

from hookwright.ground import at
from hookwright.notation.tree import Counts, Skip, Stitch

from . import kinds, layout
from .edges import along_side, work_edge
from .hand import Hand
from .kinds import CHAINS, FOUNDATION
from .needs import least_need, need, next_space_place, one_place, spaces_needed, stitch_kind, takes_of
from .next_places import NEXT_STITCH
from .placing import cells
from .reaching import find_stop, made_so_far
from .slipping import slip
from .starting import begin_at, next_real
from .worked import FLAG_COUNTS, FLAG_GROUP, FLAG_TURNING, FOOT_NONE, FOOT_RING

MANY_IN_EACH = frozenset(("sp", "corner", "group", "gap", "st+sp", "repeat"))  # "3 dc in next 3 sps": so many in each of them


def work_stitch(hand: Hand, step: Stitch, steps, index, after):
    count = at(step.n, hand.size) if type(step.n) is not int else step.n
    if count is None or count <= 0 or hand.memory.get("swallowed") is step:
        return
    place = step.place
    kind = step.kind
    if kind == "slst" and slip(hand, step, steps, index):
        return
    if kind == "row end":
        return
    hand.starting = False
    if place is not None and place.which == "edge":
        return work_edge(hand, step)
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
        return _each(hand, kind, next_plain(hand, count * takes), takes, makes, loop)
    if place.which == "other side" or step.place.which == "row ends":
        pass
    elif hand.inside is not None and place.which == "same":
        return _into(hand, kind, hand.inside, count, loop)
    if place.which == "from hook":
        own_chain(hand, place)
    if place.which == "any" and hand.in_round and not hand.stitches_made() and hand.lay.n:
        found = cells(hand, place)  # a standing stitch: the round begins where it goes
        hand.cur = found[0]
        begin_at(hand, found[0])
        return _into(hand, kind, hand.begin, count, loop)
    if place.extent is not None:
        found = cells(hand, place, reserve_for(hand, step, steps, index, after))
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
    deeper = place.row is not None and place.which == "next" and place.extent is None and hand.sequence is not None and not hand.sequence.lies_below(place.row)
    if place.which == "below" or deeper:
        real = next_real(steps, index + 1)
        if isinstance(real, Skip) and real.place.extent is None and real.place.of in ("st", "sc", "dc", "hdc", hand.base):
            hand.memory["behind"] = True
            if deeper:  # "FPtr around next dc of Rnd 4, skip the sc behind it"
                place = replace(place, which="below", rows_down=2)
    if count > 1 and makes == 1 and place.which == "next" and not place.each and place.of not in MANY_IN_EACH and hand.number(place.n) == count and _one_in_each(hand, count, place):
        count = 1
    found = cells(hand, place)
    if kind in ("spike",):
        loop = loop or "below"
    if makes > 1 and takes == 1 and kind not in kinds.GATHERED:
        for cell in found:
            _into(hand, kind, cell, count * makes, loop)
        return
    _spread(hand, kind, found, count, loop)


def _one_in_each(hand, count, place) -> bool:
    """Whether "4 dc in next 4 dc" is one in each of them; "2 dc in next 2 sts" is two in each, unless the counts tell otherwise."""
    ways = (f"`{count} in next {count}` is one in each of them", f"`{count} in next {count}` is {count} in each of them")
    usual = count > 2
    return bool(hand.choose(("row", "so many in so many", usual), 2, 2, ways[usual], place.span)) != usual


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


def next_plain(hand, count):
    return cells(hand, NEXT_STITCH, 0, count)


def remember(hand, cell):
    hand.here = cell
    if "first-worked" not in hand.memory:
        hand.memory["first-worked"] = cell


def _into(hand, kind, cell, count, loop):
    """All into one place."""
    if cell is not None and cell >= 0:
        remember(hand, cell)
        if cell >= hand.cur and hand.inside is None and cell != hand.bare_in:
            hand.cur = cell + 1
        elif cell == hand.bare_in and hand.inside is None:
            hand.cur = max(hand.cur, cell + 1)
    hand.make_into(kind, cell, count, loop)


def _spread(hand, kind, found, count, loop):
    """`count` stitches into each of the cells."""
    if not len(found):
        return
    hand.memory.setdefault("first-worked", found[0])
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
    remember(hand, found[-1])


def _each(hand, kind, found, takes, makes, loop):
    """One stitch over every `takes` cells."""
    found = list(found)
    if takes == 1:
        if makes == 1:
            return _spread(hand, kind, range(found[0], found[-1] + 1) if found and found[-1] - found[0] + 1 == len(found) else found, 1, loop)
        for cell in found:
            hand.make_into(kind, cell, makes, loop)
        if found:
            remember(hand, found[-1])
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
        remember(hand, found[-1])


def _increase(hand, step, kind, count, steps, index, after):
    place = step.place
    makes = max(2, step.legs or 2)
    loop = step.loop or (place.loop if place else "") or hand.row_loop
    if place is None:
        if hand.inside is not None:
            return _into(hand, kind, hand.inside, makes * count, loop)
        return _spread(hand, kind, next_plain(hand, count), makes, loop)
    found = cells(hand, place, reserve_for(hand, step, steps, index, after))
    _spread(hand, kind, found, makes * count if place.extent is None and hand.number(place.n) == 1 else makes, loop)


def _evenly(hand, step, count):
    """`count` stitches spread evenly over the places there are."""
    place = step.place or NEXT_STITCH
    lay = hand.lay
    if step.kind in ("inc", "dec"):
        return _shape_evenly(hand, step, count)
    if place.which == "row ends" and hand.memory.get("pass") is not None and not lay.plain and hand.in_round and not hand.memory.get("edges") and len(lay.corner_cells()) > 2:
        return along_side(hand, step, count)  # "*3 sc in corner, 10 sc evenly along edge; rep around": from corner to corner
    if place.which == "row ends" and lay.kind[:1] != [kinds.ROW_END] and hand.sequence is not None:
        edge = hand.sequence.row_ends(hand)
        if edge is not None:
            hand.change(edge)
            lay = edge
    there = lay.stitches - lay.rank(hand.cur)
    if count == 1 and place.extent is not None and place.extent.kind == "end" and there:  # "crab st evenly around": as many as the count says, else one in each
        asked = hand.memory.get("stated", 0) - made_so_far(hand)
        count = asked if asked > 0 else there
    hand.room(count)
    first = lay.rank(hand.cur)
    for index in range(count):
        cell = lay.order[first + index * there // count] if there else FOOT_NONE
        hand.make(step.kind, cell)
    hand.cur = lay.n
    if there:
        hand.here = lay.n - 1


def _shape_evenly(hand, step, count):
    """"Dec 6 sts evenly around": so many increases or decreases among the row's plain stitches, as evenly as they go (Bresenham)."""
    lay, base = hand.lay, step.base or hand.base
    cells_left = list(lay.order[lay.rank(hand.cur):])
    takes = 2 if step.kind == "dec" else 1
    groups = len(cells_left) - count if takes == 2 else len(cells_left)
    if count > groups or groups <= 0:
        hand.stuck("runs-out", there=len(cells_left), left=len(cells_left), needed=2 * count)
    hand.room(groups + count)
    at = 0
    for index in range(groups):
        shaped = (index + 1) * count // groups > index * count // groups
        if shaped and takes == 2:
            hand.make(base + "2tog", cells_left[at])
            hand.feet[len(hand.kind) - 1] = (cells_left[at + 1],)
            at += 2
        else:
            hand.make_into(base, cells_left[at], 2 if shaped else 1)
            at += 1
    if cells_left:
        remember(hand, cells_left[-1])
    hand.cur, hand.sub = lay.n, 0


def reserve_for(hand, step, steps, index, after) -> int:
    """Stitches an extent must leave to the steps after it."""
    if step.place is not None and step.place.which == "row ends" and hand.memory.get("edges"):
        return 0  # what comes after lies on another edge
    extent = step.place.extent
    if extent is not None and extent.kind == "place" and extent.place.which == "marked" and not hand.marks:
        return least_need(hand, steps, index + 1)  # where the marker is, is not known: anywhere will do
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


def own_chain(hand, place) -> bool:
    """"In 4th ch from hook" in the middle of the work: the chain just made is worked into."""
    if not hand.kind or hand.kind[-1] != CHAINS or hand.memory.get("chain base") != len(hand.kind) - 1:
        return False
    made = hand.chains[-1]
    hand.flags[-1] |= FLAG_TURNING  # a foundation of its own, no space to work into
    hand.memory["detour"] = (hand.lay, hand.cur, len(hand.kind) - 1)
    hand.change(layout.Layout([FOUNDATION] * made, item=[FOOT_NONE] * made))
    skipped = (hand.number(place.ordinal) or 1) - 1
    says = place.says or hand.settings.skipped(skipped) or hand.settings.turning(skipped, hand.base)
    block = hand.memory.get("block")
    height, habit = kinds.turning(hand.base)
    if says is None and block is None and not hand.in_round and hand.level == 0 and not hand.stitches_made() and made > skipped + 1 and 1 < skipped == height:
        other = hand.choose(("skipped", skipped, hand.base), 2, 1, f"{skipped} skipped chains before {hand.base}", place.span)
        says = Counts(bool(other) != (habit == "yes"), hand.base)  # a row made longer: its chain is one to turn with, as at the foundation
    if says is not None and says.counts or says is None and block is not None and skipped == kinds.turning(kinds.plain_of(block))[0]:
        hand.make(says.kind if says is not None and says.kind else block or hand.base, FOOT_NONE, FLAG_COUNTS | FLAG_TURNING)
        hand.chains[-1] = skipped
    return True
