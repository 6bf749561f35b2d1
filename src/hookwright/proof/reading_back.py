"""Writes every row out in both dialects, reads it back, and sees that it is the same row."""

from copy import copy
from dataclasses import replace

from hookwright.fabric import resolved, work_pattern
from hookwright.notation import OwnNames, read_rows, spell_row
from hookwright.notation.tree import Note, Piece, Row

DIALECTS = ("US", "UK")


def read_back(case):
    """{dialect: rows that do not read back as the same fabric, as (row as read first, words written, rows read)}.

    A row whose tree comes back equal needs no working: equal trees make equal fabric. Where one does not, the rows as read back
    are worked and the fabrics compared column by column.
    """
    work = case.work
    if work is None or work.too_much is not None:
        return {}
    pattern = resolved(case.pattern, work)
    pairs = [(seen, row) for (_, seen), (_, row) in zip(case.pattern.rows(), pattern.rows())]
    out = {}
    for dialect in DIALECTS:
        own = OwnNames(pattern.own, pattern.terms, dialect, pattern.text)
        written = [spell_row(row, dialect, own=own) for _, row in pairs]
        first, lines = {}, []  # rows of the same words but for their numbers are read once
        for index, ((_, row), words) in enumerate(zip(pairs, written)):
            if first.setdefault(_words_apart_from_number(row, words), index) == index:
                lines.append(words)
        once = iter(read_rows(lines, pattern, dialect))
        read = {key: next(once) for key in first}
        again = []
        for index, ((_, row), words) in enumerate(zip(pairs, written)):
            key = _words_apart_from_number(row, words)
            rows = read[key]
            again.append(rows if first[key] == index or len(rows) != 1 else [replace(rows[0], numbers=row.numbers)])
        odd = [(seen, row, words, rows) for (seen, row), words, rows in zip(pairs, written, again) if not same_row(row, rows)]
        out[dialect] = odd and _differing(case, pattern, pairs, again, odd)
    return out


def _words_apart_from_number(row: Row, words: str):
    """The written row without its own number, where it has just one: "Row 4: sc across" and "Row 6: sc across" are told alike."""
    if len(row.numbers) != 1 or row.last_number is not None or row.again is not None:
        return words
    return row.word, words.replace(str(row.numbers[0]), "", 1)


def same_row(row: Row, rows) -> bool:
    """Whether exactly this row came back."""
    if len(rows) != 1:
        return False
    other = rows[0]
    return (
        row.numbers == other.numbers
        and _plain(row.steps) == _plain(other.steps)
        and row.again == other.again
        and row.last_number == other.last_number
        and row.side == other.side
    )


def _plain(steps):
    """The steps without remarks, which make no stitch."""
    return [step for step in steps if type(step) is not Note]


def _differing(case, pattern, pairs, again, odd):
    """Of the rows whose tree came back otherwise, those whose fabric did so too."""
    spoilt = [(seen, words, rows) for seen, row, words, rows in odd if len(rows) != 1]
    known = {id(seen) for seen, _, _ in spoilt}
    fabrics = _work_again(case, pattern, pairs, again)
    if fabrics is None:
        return spoilt
    for seen, _, words, rows in odd:
        if id(seen) not in known and not _same_fabric(case, seen, rows[0], fabrics):
            spoilt.append((seen, words, rows))
    return spoilt


def _work_again(case, pattern, pairs, again):
    """The fabrics of the pattern with every row that came back as one row put in its place."""
    put = {id(row): (rows[0] if len(rows) == 1 else row) for (_, row), rows in zip(pairs, again)}
    other = copy(pattern)
    other.pieces = []
    for piece in pattern.pieces:
        made = Piece(piece.name, piece.level, [put.get(id(item), item) for item in piece.items], piece.make, piece.section)
        other.pieces.append(made)
    worked = work_pattern(other, below=case.below, in_round=case.in_round, sizes=case.sizes, limit=case.work.limit, row_height_mm=case.row_height_mm)
    return None if worked.too_much is not None else worked.fabrics


def _same_fabric(case, seen, row, fabrics) -> bool:
    for first, second in zip(case.fabrics, fabrics):
        before = [worked for worked in first.rows if worked.row is seen]
        after = [worked for worked in second.rows if worked.row is row]
        if len(before) != len(after):
            return False
        for one, other in zip(before, after):
            if one.kind != other.kind or one.foot != other.foot or one.chains != other.chains:
                return False
    return True
