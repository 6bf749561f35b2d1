"""Pieces worked as other ones: which rows "as for Back to armholes" stands for, and which row "Row 2 of Back" is."""

import re
from dataclasses import replace

from hookwright.ground import at
from hookwright.notation import plain_name
from hookwright.notation.tree import JoinYarn, Leave, Note, Ring, Row

from .row_signs import is_foundation, starts_fresh

_SIDE = re.compile(r"\b(?:side|half|shoulder|edge)\b", re.I)
_THESE = re.compile(r"\b(?:this|these|first)\s+(?:\d+\s+)?(?:set\s+of\s+)?(?:sts?|stitches|side|set|shoulder)\b|\bunworked\b", re.I)  # "turn and work on this set of sts only"
_PART = re.compile(r"\b(?:shap\w*|divid\w*|armholes?|raglan|gusset|neck(?:line)? (?:opening|edge)|shoulders?|heel|toe|instep|crown)\b", re.I)


def with_pieces(rows: list, stand_ins: dict) -> tuple[list, dict]:
    """(piece, row) pairs in which a row that stands for a piece is followed by that piece's rows, and id of a reference -> rows it means.

    The rows put in are copies that stand in for the reference: `stand_ins` gets id of the copy -> the row as written.
    """
    if not any(row.again is not None and (row.again.piece or row.again.named or row.again.rows[:1] == (1,)) for _, row in rows):
        return rows, {}
    made, meant, before = [], {}, None
    for index, (piece, row) in enumerate(rows):
        again = row.again
        if again is not None and again.piece and not row.numbers:
            made.append((piece, row))
            sources = _rows_of(rows[:index], piece, again)
            if sources and sources[0].name == "Foundation" and len(made) > 1 and made[-2][0] is piece and made[-2][1].name == "Foundation":
                sources = [replace(source, stated=[]) for source in sources[1:]]  # the piece has made a chain of its own: other counts hold
            for source in sources:
                copy = replace(source)
                stand_ins[id(copy)] = row
                meant[id(copy)] = copy  # kept, so that its id is not given away
                made.append((piece, copy))
            before = piece
            continue
        if again is not None and again.rows and (again.named or again.piece):  # "R1-3: same as head": those rows of that piece
            found = _of_named(rows[:index], again)
            if found:
                meant[id(again)] = found
        if again is not None and again.rows[:1] == (1,) and piece is not before:
            start = _start_of(rows[:index])
            if start is not None:
                copy = replace(start)
                stand_ins[id(copy)] = row
                meant[id(copy)] = copy
                made.append((piece, copy))
        made.append((piece, row))
        before = piece
    return made, meant


def _named(rows, name: str) -> list:
    """(piece, row) pairs from the latest piece of that name to the next main piece."""
    wanted = plain_name(name)
    first = None
    for index, (piece, _) in enumerate(rows):
        if plain_name(piece.name) == wanted and (index == 0 or rows[index - 1][0] is not piece):
            first = index
    if first is None:
        return []
    main = rows[first][0]
    found = []
    for piece, row in rows[first:]:
        if piece is not main and not _is_part(piece, main):
            break
        found.append((piece, row))
    return found


def _is_part(piece, main) -> bool:
    return piece.level > main.level > 0 or not piece.name or bool(_PART.search(piece.name))


def _rows_of(rows, own, again) -> list[Row]:
    found = [(piece, row) for piece, row in _named(rows, again.piece) if piece is not own]
    if not found and _SIDE.search(again.piece):
        return _first_side([row for _, row in rows])
    if again.to in ("row", "rows"):
        last = at(again.last_number, 0) or 0
        stop, reached = 0, 0
        while stop < len(found) and reached < last and (not found[stop][1].numbers or found[stop][1].numbers[0] <= last):
            row = found[stop][1]
            reached = max(reached, *row.numbers, 0)
            stop += 1
            if row.again is not None and row.again.total_rows == again.last_number:
                break
        return [_cut(row, again.last_number) for _, row in found[:stop]]
    if again.to.startswith("end of "):
        return _through(found, again.to.removeprefix("end of "))
    if again.to:
        stem = again.to.lower().removeprefix("start of ").removeprefix("beginning of ").split()[0].rstrip("s")
        stop = next((index for index, (piece, _) in enumerate(found) if stem in piece.name.lower() and piece is not found[0][0]), None)
        return [] if stop is None else [row for _, row in found[:stop]]
    return [row for _, row in found]


def _first_side(rows) -> list[Row]:
    """What is left to work on the second side of a neck: the rows of the first that follow those worked since the yarn was joined anew.

    The first side begins with the row that leaves stitches; [] where no row says that it does.
    """
    joined = next((index for index in range(len(rows) - 1, 0, -1) if any(isinstance(step, JoinYarn) for step in rows[index].steps)), 0)
    first = next((index for index in range(joined - 1, -1, -1) if _leaves(rows[index])), None)
    return rows[first + len(rows) - joined : joined] if first is not None else []


def _leaves(row: Row) -> bool:
    return any(isinstance(step, Leave) or isinstance(step, Note) and _THESE.search(step.text) for step in row.steps)


def _through(found, part: str) -> list[Row]:
    """The rows to the end of the shaping of a part: what is worked even after it is left out."""
    stem = part.lower().split()[0].rstrip("s")
    first = next((index for index, (piece, _) in enumerate(found) if stem in piece.name.lower() and piece is not found[0][0]), None)
    if first is None:
        return []
    stop = first + 1
    while stop < len(found) and found[stop][0] is found[first][0] and not (found[stop][1].again is not None and found[stop][1].again.even):
        stop += 1
    return [row for _, row in found[:stop]]


def _cut(row: Row, last) -> Row:
    """A range that is worked only up to row `last`."""
    final = at(last, 0)
    if isinstance(final, int) and isinstance(last, int) and row.last_number is None and len(row.numbers) > 1 and row.numbers[-1] > final:
        return replace(row, numbers=tuple(number for number in row.numbers if number <= final))
    return row


def _of_named(rows, again) -> list[Row]:
    """The rows with these numbers in the piece named, where each is there with steps of its own."""
    found = []
    for number in again.rows:
        row = next((row for piece, row in _named(rows, again.piece or again.named[-1]) if number in row.numbers), None)
        if row is None or row.again is not None:
            return []
        found.append(row)
    return found


def _start_of(rows) -> Row | None:
    """The chain or ring that stands before the latest Row 1, where Row 1 does not make it itself."""
    for index in range(len(rows) - 1, 0, -1):
        row, before = rows[index][1], rows[index - 1][1]
        if row.numbers[:1] == (1,) and row.again is None:
            return before if not before.numbers and not any(isinstance(step, Ring) for step in row.steps) and (before.name == "Foundation" or is_foundation(before) or starts_fresh(before)) else None
    return None
