"""Stitches are left unworked and nothing says so.

The row comes out as stated, but stops before the end of the row below. That may be meant (a short row, a strap, a thumb), and a maker
still wonders whether something is missing.

With it::

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
    Row 2: Ch 1, turn, sc in next 15 sts. (15 sc)

Without it::

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
    Row 2: Ch 1, turn, sc in next 15 sts, leave remaining 5 sts unworked. (15 sc)

Working::

    20 there, 15 worked: 5 are left, and 15 is what the row states

What to do: add "leave remaining 5 sts unworked", or work them.
"""

from hookwright.ground import LOOK, Suggestion, at
from hookwright.notation.tree import Each, Group, Note, Repeat, Stitch, Turn

from ..about_row import about_row
from ..case import Case
from ..sums import sum_table
from ..unworked import meant
from ..wording import counts, size_list

KIND = "unworked-not-said"
_PARTS = frozenset(("handle", "strap", "flap", "earflap", "ear-flap", "tie", "tab", "thumb", "heel", "tongue", "shoulder", "brim", "bib", "visor", "button", "loop"))


def _said_how_far(row, lefts) -> bool:
    """Whether the row's last work goes "to last 4 sts", which are the ones that are left, and its count is stated."""
    makes = [step for step in row.steps if isinstance(step, Stitch | Repeat | Group | Each)]
    place = getattr(makes[-1], "place", None) if makes else None
    extent = place.extent if place is not None else getattr(makes[-1], "extent", None) if makes else None
    return bool(row.stated) and extent is not None and extent.kind == "last" and all(at(extent.n, size) == left for size, left in lefts.items())


def _part_of_its_own(row) -> bool:
    """Whether a Row 1 turns where it says, and states its count or is named after a part: a strap, a flap, a shoulder over some of the stitches there."""
    if any(isinstance(step, Note) and "back and forth" in step.text.lower() for step in row.steps[-2:]):
        return True  # "turn, working back and forth from here"
    named = not _PARTS.isdisjoint(row.name.lower().split())
    return row.numbers[:1] == (1,) and row.word != "Round" and (bool(row.stated) or named) and any(isinstance(step, Turn) for step in row.steps[-3:])


def find(case: Case):
    for off in case.off("left-over"):
        if not meant(case, off) or any(stated.per in ("left", "unworked") for stated in off.row.stated):
            continue
        name = case.name_of(off.row, off.label)
        lefts = off.each("left")
        if _said_how_far(off.row, lefts) or _part_of_its_own(off.row):
            continue
        left = sorted(set(lefts.values()))
        message = case.says_of(
            off,
            f"{name} leaves",
            counts(left, "stitch"),
            "unworked and nothing says that they are left",
        )
        numbers = size_list([lefts.get(size, 0) for size in range(len(case.sizes))]) if len(case.sizes) > 1 else str(left[0])
        yield about_row(
            case,
            off,
            KIND,
            LOOK,
            message,
            expected=0,
            found=off.facts()["left"],
            whose="the row below",
            working=sum_table(case, off, {"left over": lefts}),
            suggestions=(
                Suggestion(
                    f"add `leave remaining {numbers} {'st' if numbers == '1' else 'sts'} unworked` where they are meant to be left",
                    "your choice",
                    effect="the row says what it does",
                ),
            ),
        )
