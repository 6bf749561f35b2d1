"""Which rows a reference means: "Rows 2-7", "the last 2 rows", "Rows (a) and (b)", "Dec Row"; and the reference as it is read."""

import re
from dataclasses import dataclass

from hookwright.ground import Number

from . import again_words as words
from . import tree
from .label_numbers import read_numbers
from .number_words import listed_number, number_of


@dataclass(slots=True)
class AgainRead:
    """What was read: the reference, where its words end, how many rows it stands for where said ("for 5 rows"), clauses that
    tell a change as spans to be read as steps, words kept as notes."""

    again: tree.Again
    end: int
    count_of_rows: Number | None = None
    changes: list = None
    notes: list = None
    stitch: tuple[int, int] | None = None  # "work even in hdc": where the stitch is named


def rows_meant(work: str, at: int, end: int, again: tree.Again, sizes: int) -> int | None:
    """Reads which rows are meant into `again`; where they end, or None."""
    found = words.LAST.match(work, at, end)
    if found:
        which = found["which"].lower()
        number = listed_number(found["n"].split("(")[0].split("[")[0].strip(), found["list"]) if found["n"] else None
        plural = found["word"].rstrip(".").lower().endswith("s")
        again.last = number or (2 if which in ("both", "these", "those") and plural else 1)
        return _of_piece(work, found.end(), end, again)
    found = words.ROW_PATTERN.match(work, at, end)
    if found:  # "the 3-row pattern"
        again.last = number_of(found["n"])
        return found.end()
    found = words.ONE_BEFORE.match(work, at, end)
    if found:
        again.last = 1
        return found.end()
    found = words.ROWS.match(work, at, end)
    if found:
        numbers = read_numbers(work, found.end(), end, sizes=0, plural=True)
        if numbers:
            again.rows, again.first_number, again.last_number = numbers.numbers, numbers.first_number, numbers.last_number
            return _of_piece(work, numbers.end, end, again)
    found = words.ORDINALS.match(work, at, end)
    if found:
        numbers = read_numbers(work, found.end(), end)
        after = re.compile(rf"\s+(?:{words.WORD})", re.I).match(work, numbers.end, end) if numbers else None
        if after:
            again.rows, again.first_number, again.last_number = numbers.numbers, numbers.first_number, numbers.last_number
            return _of_piece(work, after.end(), end, again)
    called = words.CALLED.match(work, at, end)
    if called:
        return rows_meant(work, called.end(), end, again, sizes)
    found = words.LETTERS.match(work, at, end)
    if found:
        letters = [found[key] for key in ("a", "b", "c", "d") if found[key]]
        again.named = tuple(f"Row ({letter.lower()})" for letter in letters)
        return found.end()
    found = words.NAMED.match(work, at, end)
    if found:
        again.named = (" ".join(found["name"].split()).capitalize(),)
        of_piece = words.OF_PIECE.match(work, found.end(), end)  # a named row is the latest of that name
        return of_piece.end() if of_piece else found.end()
    found = words.PIECE_ONLY.match(work, at, end)
    if found:  # "Rounds 1-2: Work as for First Motif.": its rows with the same numbers
        again.piece = found["name"]
        return found.end()
    return None


def _of_piece(work: str, at: int, end: int, again: tree.Again) -> int:
    found = words.OF_PIECE.match(work, at, end)
    if found:
        again.named = (*again.named, found["name"])
        return found.end()
    return at
