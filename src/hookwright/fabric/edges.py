"""Rows along edges of the work that are named ("84 sc evenly along long side"): the words tell how many stitches, not the row below."""

from dataclasses import replace

from hookwright.notation.tree import Each, Extent, Group, Place, Repeat, Stitch

from . import kinds, layout
from .reaching import count_of, made_so_far
from .worked import FOOT_NONE

CORNERS = 4  # of a piece worked all around: common practice, no source


def edges_ahead(steps) -> bool:
    """Whether some step goes along a named edge."""
    for step in steps:
        if isinstance(step, Stitch):
            if step.place is not None and step.place.which == "edge":
                return True
        elif isinstance(step, (Group, Repeat)) and edges_ahead(step.steps):
            return True
    return False


def ends_unsaid(steps) -> bool:
    """Whether a row goes round the work along edges of which nothing says how many stitches they take: its count is only likely."""
    ends = corners = False
    for step in steps:
        if isinstance(step, Repeat) and ends_unsaid(step.steps):
            return True
        for one in step.parts if isinstance(step, Each) else (step,):
            place = getattr(one, "place", None)
            if place is None:
                continue
            said = isinstance(one, Stitch) and one.n != 1 or place.n not in (None, 1)
            ends = ends or place.which in ("row ends", "edge") and not said
            corners = corners or place.of == "corner" or place.which == "last" and isinstance(one, Stitch) and one.n in (2, 3)
    return ends and corners


def borders(steps, hand) -> bool:
    """Whether a row goes round flat work: along row ends or the far side of the chain, and with more that the last row does not hold."""
    lay = hand.lay
    if lay.ring or not lay.plain and not (hand.sequence is not None and hand.sequence.flat(hand)):  # spaces of a motif may be its corners
        return False
    ends = corners = more = False
    sides = [step for step in steps if isinstance(step, Repeat)]
    if sides:  # "[3 sc in corner, 40 sc along the row ends, ...] twice": one side after the other
        return len(sides) == 1 and isinstance(sides[0].times, int) and sides[0].times <= CORNERS and borders(sides[0].steps, hand)
    for step in steps:
        place = getattr(step, "place", None)
        if not isinstance(step, (Stitch, Group)) or place is None:
            continue
        if place.which == "skipped":
            return False  # round a thumb or an armhole
        ends = ends or place.which in ("row ends", "other side")
        corners = corners or place.of == "corner"
        more = more or ends and place.which == "next" and place.of != "corner" and place.extent is None and place.n != 1
    return ends and (corners or more) or {"row ends", "other side"} <= {step.place.which for step in steps if isinstance(step, (Stitch, Group)) and step.place is not None}


def sides_of_motif(steps, hand) -> bool:
    """Whether "58 sc evenly along each side" goes from one corner space of a motif to the next, so that the row below does tell where the side lies."""
    lay = hand.lay
    if not hand.in_round or lay.plain or lay.ring or hand.sequence is not None and hand.sequence.flat(hand) or not 2 < len(lay.corner_cells()) < 9:
        return False
    bodies = [step.steps for step in steps if isinstance(step, Repeat)]
    return bool(bodies) and not edges_ahead([step for step in steps if not isinstance(step, Repeat)]) and all(_from_corner(body) for body in bodies if edges_ahead(body))


def sides_and_corners(steps, hand) -> list:
    """The steps with "sc evenly along each side, 3 sc in each corner" over a round with corners as one in each stitch, the corners by themselves."""
    lay = hand.lay
    if not hand.in_round or lay.plain or lay.ring or hand.sequence is not None and hand.sequence.flat(hand) or not 2 < len(lay.corner_cells()) < 9:
        return steps
    for index, (side, corner) in enumerate(zip(steps, steps[1:], strict=False)):
        if not isinstance(side, Stitch) or not isinstance(corner, (Stitch, Group)) or side.place is None or corner.place is None:
            continue
        if side.place.which == "edge" and side.n == 1 and side.place.n in (4, len(lay.corner_cells())) and corner.place.of == "corner" and corner.place.each and corner.place.extent is not None:
            every = replace(side, evenly=False, place=Place("next", "st", None, Extent("open"), each=True))
            return [*steps[:index], Each([every, replace(corner, place=replace(corner.place, extent=Extent("open")))], span=side.span), *steps[index + 2:]]
    return steps


def _from_corner(steps) -> bool:
    """Whether steps go into a corner, and along one edge besides."""
    places = [step.place for step in steps if isinstance(step, (Stitch, Group)) and step.place is not None]
    sides = [place for place in places if place.which in ("edge", "row ends")]
    return len(sides) == 1 and sides[0].n in (None, 1) and any(place.of == "corner" or place.of == "sp" and place.which == "next" for place in places)


def work_edge(hand, step):
    """n stitches along each of the edges meant; where no number is said, one for every row that has an end there."""
    count = hand.number(step.n) or 0
    if not hand.memory.get("edges"):
        return along_side(hand, step, count)
    if count == 1 and step.evenly:
        count = _as_many_as_fit(hand)
    count *= hand.number(step.place.n) or 1
    hand.room(count)
    hand.starting = False
    hand.bare_in = None
    hand.make_into(step.kind, FOOT_NONE, count)


def along_side(hand, step, count: int):
    """`count` stitches spread over the stitches up to the next corner space; one in each where no number is said."""
    if hand.lay.corner_cells()[:1] == [0] and hand.cur == 0 and not hand.stitches_made():
        hand.change(hand.lay.rotated(1))  # begun beside a corner, which is then come to at the end
    lay = hand.lay
    stop = next((cell for cell in lay.corner_cells() if cell >= hand.cur), lay.n)
    first = lay.rank(hand.cur)
    there = lay.rank(stop) - first
    count = there if count == 1 and step.evenly else count
    hand.room(count)
    hand.starting = False
    hand.bare_in = None
    for index in range(count):
        hand.make(step.kind, lay.order[first + index * there // count] if there else FOOT_NONE)
    hand.cur, hand.sub, hand.spaces_worked = stop, 0, True


_HANDLES = ("handle", "strap")
_ALL_OF_THEM = ("each", "both", "handles", "straps")


def over_handles(steps, lay) -> list:
    """The steps with "10 sc around each handle" going into the chain spaces of the row below, where it has some: the chains made for handles."""
    if lay.plain:
        return steps
    out = []
    for step in steps:
        place = step.place if isinstance(step, Stitch) else None
        if place is None or place.which != "edge" or not any(word in place.group for word in _HANDLES):
            out.append(step)
            continue
        every = any(word in place.group for word in _ALL_OF_THEM)
        before = out[-1] if out and isinstance(out[-1], Stitch) else None
        if every and before is not None and before.place is not None and before.place.extent is not None and before.place.extent.kind in ("end", "open"):
            parts = [replace(before, place=replace(before.place, n=1, extent=None)), replace(step, place=Place("next", "sp", 1))]
            out[-1] = Each(parts, Extent(), before.span.to(step.span))
        else:
            out.append(replace(step, place=Place("next", "sp", None if every else 1, Extent("open") if every else None, each=every)))
    return out


def _as_many_as_fit(hand) -> int:
    asked = hand.memory.get("stated", 0) - made_so_far(hand)
    if asked > 0:
        return asked
    edge = hand.sequence.row_ends(hand) if hand.sequence is not None else None
    return edge.n if edge is not None else hand.lay.stitches


def corner_places(hand, place) -> list:
    """Corners between edges: they are corners of the piece and lie in no row below."""
    done = hand.memory.get("corners done", 0)
    count = max(CORNERS - done, 1) if place.extent is not None else hand.number(place.n) or 1  # "3 sc in the corner, 20 along each side and 3 in each corner"
    hand.memory["corners done"] = done + count
    return [FOOT_NONE] * count


def far_side(hand, place, asked) -> list:
    """The free side of the chain that the work began with, below the rows: as many places as are asked for, or all its chains, one less than
    was made where the first was passed over. They lie in no row below."""
    whole = hand.sequence.foundation(hand)
    count = (count_of(hand, place, asked) if place.extent is None else None) or max(0, whole - 1)
    if count > whole:
        hand.stuck("no-such-place", wanted="chains", of="ch", have=whole, needed=count)
    return [FOOT_NONE] * count


def on_to_far_edge(hand, body) -> None:
    """A further pass of "*sc to last st, 3 sc in last st, sc along side edge; rep once more" goes along the edge where the work began."""
    first = next((step.place for step in body if isinstance(step, (Stitch, Group)) and step.place is not None), None)
    if hand.lay.onto != "row ends" or hand.left() > 0 or hand.sequence is None or first is None or first.which in ("row ends", "edge"):
        return
    count = hand.sequence.began_with()
    if count:
        hand.change(layout.Layout([kinds.number("sc")] * count, item=[FOOT_NONE] * count))


def round_flat(hand, step: Each) -> bool:
    """"Sc evenly around, working 3 sc in each corner" around flat work: all four sides and four corners. False where it is not that."""
    corners = [part for part in step.parts if part.place.of == "corner"]
    sides = [part for part in step.parts if part not in corners]
    sequence = hand.sequence
    if not corners or len(sides) != 1 or not isinstance(sides[0], Stitch) or sequence is None or not sequence.flat(hand):
        return False
    from .each_kind import work_part

    hand.memory["edges"] = True
    made = made_so_far(hand)
    for _ in range(CORNERS):
        for part in corners:
            work_part(hand, part, FOOT_NONE)
    rows = sequence.row_ends(hand)
    asked = hand.memory.get("stated", 0) - made_so_far(hand)
    count = asked if asked > 0 else 2 * hand.lay.stitches + 2 * (rows.n if rows is not None else 0)
    hand.room(count)
    hand.make_into(sides[0].kind, FOOT_NONE, count)
    hand.cur = hand.lay.n
    return made_so_far(hand) > made
