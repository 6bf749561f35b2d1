"""Rows that point at other rows, for the checks that follow them."""

from dataclasses import dataclass

from hookwright.ground import Span, at
from hookwright.notation.tree import Group, Mark, Place, Skip, Stitch

from .case import Case, Seen


@dataclass(frozen=True, slots=True)
class Reference:
    """`seen` points at the rows `numbers` at `span`; `works`: it works them again (and not only goes into them)."""

    seen: Seen
    numbers: tuple[int, ...]
    span: Span
    works: bool


def references(case: Case) -> list[Reference]:
    """Every reference by number, in order."""
    found = []
    for seen in case.seen:
        again = seen.row.again
        while again is not None:
            if again.rows and not again.piece:
                found.append(Reference(seen, tuple(again.rows), again.span if again.span.end else seen.row.span, True))
            again = again.then
    for kind in (Stitch, Skip, Group, Mark):
        for seen, node in case.nodes(kind):
            place: Place | None = node.place
            if place is not None and place.row is not None:
                found.append(Reference(seen, (place.row,), place.span if place.span.end else node.span, False))
    return found


def known_numbers(case: Case, seen: Seen) -> tuple[set[int], set[int]]:
    """(numbers of rows up to and with this one in its piece, or in any piece before it; all numbers of the pattern)."""
    upto: set[int] = set()
    every: set[int] = set()
    for other in case.seen:
        row = other.row
        last = row.last_number if isinstance(row.last_number, int) else max((x for x in row.last_number if x), default=0) if row.last_number else 0
        numbers = set(row.numbers) | (set(range(row.numbers[0], last + 1)) if row.numbers and last and last - row.numbers[0] < 10_000 else set())
        every |= numbers
        if other.index <= seen.index:
            upto |= numbers
    return upto, every


def rows_named(row, size: int) -> int | None:
    """How many rows the numbers of a row stand for in one size ("Rows 9-72 (88, 120)"); None where it bears no numbers there."""
    if not row.numbers:
        return None
    if row.last_number is None:
        return len(row.numbers)
    last = at(row.last_number, size)
    first = row.numbers[0] if row.first_number is None else at(row.first_number, size)
    return None if last is None or first is None else last - first + 1
