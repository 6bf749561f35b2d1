"""Writes every row out in both dialects, reads it back, and sees that it is the same row."""

from copy import copy
from dataclasses import replace

from hookwright.fabric import resolved, work_pattern
from hookwright.notation import OwnNames, read_rows, spell_parts
from hookwright.notation.tree import Note, Piece, Row

DIALECTS = ("US", "UK")


def read_back(case):
    """{dialect: rows that do not read back as the same fabric, as (row as read first, words written, rows read)}.

    A row whose tree comes back equal needs no working: equal trees make equal fabric. Where one does not, the rows as read back
    are worked and the fabrics compared column by column. Rows that came back alike in an earlier text, after the same row, are not told again.
    """
    work = case.work
    if work is None or work.too_much is not None:
        return {}
    pattern = resolved(case.pattern, work)
    pairs = [(seen, row) for (_, seen), (_, row) in zip(case.pattern.rows(), pattern.rows())]
    signs = None if case.told_alike is None else _signs(pattern, pairs)
    out, worked = {}, {}
    for dialect in DIALECTS:
        known = frozenset() if signs is None else case.told_alike.get(dialect, frozenset())
        told = _told(pattern, pairs, dialect, range(len(pairs)) if not known else _anew(signs, known))
        again = [told[index][1] if index in told else [row] for index, (_, row) in enumerate(pairs)]
        odd = [(*pairs[index], words, rows) for index, (words, rows) in told.items() if not same_row(pairs[index][1], rows)]
        if signs is not None:
            other = {id(seen) for seen, *_ in odd}
            case.told_alike[dialect] = frozenset(sign for sign, (seen, _) in zip(signs, pairs) if id(seen) not in other)
        out[dialect] = odd and _differing(case, pattern, pairs, again, odd, worked)
    return out


def _told(pattern, pairs, dialect, which) -> dict:
    """{index of a row: (the words written, the rows read from them)} for these rows."""
    own = OwnNames(pattern.own, pattern.terms, dialect, pattern.text)
    written = _written(pairs, which, dialect, own)
    first, lines = {}, []  # rows of the same words but for their numbers are read once
    for index, words in written.items():
        if first.setdefault(_words_apart_from_number(pairs[index][1], words), index) == index:
            lines.append(words)
    once = iter(read_rows(lines, pattern, dialect))
    read = {key: next(once) for key in first}
    out = {}
    for index, words in written.items():
        key = _words_apart_from_number(pairs[index][1], words)
        rows = read[key]
        out[index] = words, rows if first[key] == index or len(rows) != 1 else [replace(rows[0], numbers=pairs[index][1].numbers)]
    return out


def _written(pairs, which, dialect, own) -> dict:
    """{index of a row: the words it is written in}; what stands after the label is written once for rows that say the same."""
    out, known = {}, {}
    for index in which:
        row = pairs[index][1]
        like = known.setdefault((row.word, row.text.partition(":")[2]), [])
        body = next((words for other, words in like if _says_the_same(row, other)), None)
        label, words = spell_parts(row, dialect, own=own, body=body)
        if body is None:
            like.append((row, words))
        out[index] = f"{label}: {words}" if label and words else label or words
    return out


def _says_the_same(row: Row, other: Row) -> bool:
    """Whether all that is written after the label is the same."""
    return row.steps == other.steps and row.stated == other.stated and row.notes == other.notes and row.again is other.again is None and \
        not row.only and not other.only and row.name == other.name and bool(row.numbers) == bool(other.numbers)


def _signs(pattern, pairs) -> list[int]:
    """For each row what it says, after which row, in a pattern with these stitches and words: equal signs are told alike."""
    colours = sorted(pattern.head.colour_names()) if pattern.head is not None else ()
    about = hash((pattern.terms, pattern.sizes, repr(pattern.own), repr(pattern.conventions), tuple(colours), tuple(piece.name for piece in pattern.pieces)))
    said = [about, *(hash(_said(seen, row)) for seen, row in pairs)]
    return [hash((about, before, row)) for before, row in zip(said, said[1:])]


def _said(seen, row):
    """What tells a row from others: its own words where it says itself how it is read, else all that it was taken for."""
    if row is not seen or not row.text:
        return repr(row)
    return row.text, row.name, row.word, row.numbers, row.side, row.only, len(row.steps)


def _anew(signs, known) -> list[int]:
    """The rows that must be told, each with the row before it, on which it may lean."""
    return sorted({index for at, sign in enumerate(signs) if sign not in known for index in (at - 1, at) if index >= 0})


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


def _differing(case, pattern, pairs, again, odd, worked):
    """Of the rows whose tree came back otherwise, those whose fabric did so too. worked: what was worked again for another dialect."""
    spoilt = [(seen, words, rows) for seen, row, words, rows in odd if len(rows) != 1 or case.is_unread(seen)]
    known = {id(seen) for seen, _, _ in spoilt}
    if len(known) == len(odd):
        return spoilt  # what is not understood as she wrote it can't come back better
    alike = repr([(id(seen), rows) for seen, _, _, rows in odd])
    if alike not in worked:
        worked[alike] = again, _work_again(case, pattern, pairs, again)
    again, fabrics = worked[alike]
    if fabrics is None:
        return spoilt
    came_back = {id(seen): rows for (seen, _), rows in zip(pairs, again)}
    for seen, _, words, rows in odd:
        if id(seen) not in known and not _same_fabric(case, seen, came_back[id(seen)][0], fabrics):
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
