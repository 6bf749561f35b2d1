"""What can be told of a row by looking at its steps: does it join, turn, begin a piece, work anything."""

from dataclasses import replace

from hookwright.notation.tree import (
    Chain,
    Each,
    Either,
    Extent,
    Go,
    Group,
    Join,
    JoinYarn,
    Leave,
    NoJoin,
    Note,
    Place,
    Repeat,
    Ring,
    Skip,
    Stitch,
    Turn,
    Unread,
)

from . import kinds
from .starting import BEFORE, first_stitch

LOOKS_BACK = ("unworked", "row ends", "which='below'", "which='edge'", "which='skipped'", "JoinYarn(", "free loops", "Go(", *(f", row={digit}" for digit in range(1, 10)))


def works_something(steps) -> bool:
    """Whether the steps make, skip or leave anything."""
    return any(isinstance(step, (Stitch, Group, Repeat, Each, Either, Chain, Ring, Skip, Go, Leave, Unread)) for step in steps)


def goes_on(steps) -> bool:
    return any(isinstance(step, Go) for step in steps)


def starts_fresh(row) -> bool:
    """Whether a piece begins with a chain, a ring or foundation stitches of its own."""
    if _into_ring(row.steps):
        return True
    for step in row.steps:
        if isinstance(step, (Ring, Chain)):
            return isinstance(step, Ring) or step.says is None and is_foundation(row)
        if isinstance(step, Stitch):
            return kinds.takes_makes(step.kind)[0] == 0 and step.kind != "picot" or step.place is not None and step.place.which in ("ring", "from hook")
        if isinstance(step, Group) and step.place is not None and step.place.which == "ring":
            return True
        if isinstance(step, (Repeat, JoinYarn)):
            return False
    return False


def _into_ring(steps) -> bool:
    """Whether the first stitches go into a ring."""
    for step in steps:
        place = getattr(step, "place", None)
        if isinstance(step, Repeat):
            return _into_ring(step.steps)
        if isinstance(step, (Stitch, Group)):
            return place is not None and place.which == "ring"
    return False


def is_foundation(row) -> bool:
    rest = [step for step in row.steps if not isinstance(step, BEFORE)]
    if len(rest) == 1 or row.name.lower().startswith("foundation"):
        return True
    if isinstance(rest[1], (Ring, Join)):
        return True
    first = rest[1] if isinstance(rest[1], Stitch) and rest[1].place is not None and rest[1].place.which == "from hook" else first_stitch(rest[1:])  # "ch 13, 2 sl st from 2nd ch on"
    place = first.place if first is not None else None
    if place is not None and (place.which in ("from hook", "ring") or place.of == "ch" and place.which in ("next", "first", "nth")):
        return True
    return bool(row.numbers) and row.numbers[0] == 1 and row.word != "Round" and len(rest) > 1 and isinstance(rest[0], Chain) and \
        isinstance(rest[0].n, int) and rest[0].n > 6


def flat_ring(steps) -> bool:
    return any(isinstance(step, (Turn, NoJoin)) for step in steps)


def ring_start(steps) -> bool:
    for step in steps:
        if isinstance(step, Ring):
            return True
        if isinstance(step, (Stitch, Group)):
            if step.place is not None and step.place.which == "ring":
                return True
            return isinstance(step, Stitch) and step.place is not None and step.place.which == "from hook" and isinstance(step.n, int) and step.n > 3
    return False


def joins_round(steps) -> bool:
    real = [step for step in steps if not isinstance(step, BEFORE)]
    if any(isinstance(step, Join) for step in real):
        return True
    if not real or len(real) < 2:
        return False
    last = real[-1]
    return isinstance(last, Stitch) and last.kind == "slst" and last.place is not None and last.place.which in ("first", "chain top", "beginning")


def turns_work(steps) -> bool:
    return any(isinstance(step, Turn) for step in steps)


def turns_at_start(steps) -> bool:
    for step in steps:
        if isinstance(step, Turn):
            return True
        if not isinstance(step, BEFORE) and not isinstance(step, (Chain, JoinYarn, NoJoin)):
            return False
    return False


def first_plain(steps):
    """The first plain stitch named in the steps, looking into groups and repeats."""
    for step in steps:
        if isinstance(step, Stitch):
            if step.base and step.kind in ("inc", "dec"):
                return step.base
            if step.kind not in ("inc", "dec", "slst", "picot") and step.kind not in kinds.GATHERED:
                return kinds.plain_of(step.kind)
        elif isinstance(step, (Group, Repeat, Each)):
            found = first_plain(step.parts if isinstance(step, Each) else step.steps)
            if found:
                return found
    return None


def without_shaping(steps):
    """The steps of a row as set; where they are one plain stitch but for increases and decreases, that stitch in each: shaping is no part of the pattern."""
    worked = [step for step in steps if not isinstance(step, BEFORE) and not isinstance(step, (Chain, Join))]
    if not all(isinstance(step, Stitch) for step in worked):
        return steps
    plain = [step for step in worked if step.kind not in ("inc", "dec", "invdec") and not step.kind.endswith("tog")]
    if len(plain) == len(worked) or len({step.kind for step in plain}) != 1 or plain[0].kind in kinds.GATHERED or plain[0].kind == "slst":
        return steps
    even = replace(plain[0], n=1, place=Place(extent=Extent(), n=None), over=False, evenly=False)
    at = steps.index(worked[0])
    return [*steps[:at], even, *(step for step in steps[at:] if not isinstance(step, Stitch))]


def label_of(row, source, number) -> str:
    word = row.word or source.word or "Row"
    if number is not None:
        return f"{word} {number}"
    return row.label()


def makes_foundation(row) -> bool:
    """Whether a row begins a piece with a chain or ring of its own: its words can't be worked over another row."""
    return starts_fresh(row)


def unread_in(steps) -> bool:
    """Whether words that could not be read, or remarks that may change what is worked, stand among these steps, in repeats and groups too."""
    for step in steps:
        if isinstance(step, Unread) or isinstance(step, Note) and step.tells or isinstance(step, (Repeat, Group)) and unread_in([*step.steps, *(getattr(step, "ending", None) or ())]):
            return True
        if isinstance(step, Either) and any(unread_in(reading if isinstance(reading, list) else [reading]) for reading in step.readings):
            return True
    return False
