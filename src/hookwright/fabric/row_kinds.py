"""The stitch that gives each row of a piece its height: the tallest plain stitch worked in it."""

from hookwright.notation.tree import Each, Either, Group, Repeat, Row, Stitch
from hookwright.stitches import stitch

from .kinds import plain_of


def row_kinds(pattern, piece: str) -> list[str] | None:
    """Kinds of the rows of a piece, one a row: of the rows that are worked again where there are such, else of all; None where there is no
    piece of that name."""
    rows = [row for one, row in pattern.rows() if one.name.lower().partition(" (")[0] == piece.lower().partition(" (")[0]]
    if not rows:
        return None
    again = next((row.again.rows for row in rows if row.again is not None and row.again.rows), ())
    chosen = [row for row in rows if row.numbers and row.numbers[0] in again] or [row for row in rows if row.steps]
    kinds = [_tallest(row) for row in chosen]
    return [kind for kind in kinds if kind] or None


def _tallest(row: Row) -> str:
    found = {plain_of(kind) for kind in _kinds(row.steps)}
    heights = {kind: stitch(kind).height_ch for kind in found if stitch(kind) is not None and stitch(kind).height_ch}
    return max(heights, key=heights.get) if heights else ""


def _kinds(steps):
    for step in steps:
        if isinstance(step, Stitch):
            yield step.base or step.kind
        elif isinstance(step, (Group, Repeat)):
            yield from _kinds(step.steps)
        elif isinstance(step, Each):
            yield from _kinds(step.parts)
        elif isinstance(step, Either) and step.readings:
            first = step.readings[0]
            yield from _kinds(first if isinstance(first, list) else [first])
