"""Puts the rows of a piece in the order in which they are worked.

"Row 2 and all even rows", "Rows 3, 5 and 7" beside "Row 4", "Alternate Row (a) and Row (b)" tell rows out of order or once
for several; here each stands where it is worked.
"""

from dataclasses import replace

from . import tree

MOST_ROWS = 2_000  # rows set one by one between others; a range past it stays a range


def put_in_order(piece: tree.Piece, every: dict) -> None:
    """Reorders `piece.items` in place. every: id of a row -> its Label where it speaks of further rows."""
    _letters(piece)
    for row in [item for item in piece.items if isinstance(item, tree.Row) and id(item) in every]:
        _spread(piece, row, every[id(row)])
    _interleave(piece)


def _letters(piece: tree.Piece) -> None:
    """ "Rows 2-13: Alternate Row (a) and Row (b). Row (a): ... Row (b): ..."."""
    items = piece.items
    for index, row in enumerate(items):
        if not (isinstance(row, tree.Row) and row.again and row.again.named and row.again.named[0].startswith("Row (")):
            continue
        lettered = {item.name: item for item in items if isinstance(item, tree.Row) and item.name in row.again.named}
        if len(lettered) != len(row.again.named):
            continue
        named, numbers = row.again.named, row.numbers
        known = all(lettered[name].numbers for name in named)
        if known:
            row.again.rows = tuple(lettered[name].numbers[0] for name in named)
            row.again.named = ()
            continue
        after = all(items.index(lettered[name]) > index for name in named)
        if not after or len(numbers) < len(named):
            continue
        for name, number in zip(named, numbers):
            lettered[name].numbers, lettered[name].word = (number,), row.word
            lettered[name].side = lettered[name].side or ""
        rest = numbers[len(named) :]
        row.numbers = rest
        row.again = tree.Again(rows=numbers[: len(named)], alternate=True, sense="total", span=row.again.span)
        items.remove(row)
        if rest:
            last = max(items.index(lettered[name]) for name in named)
            items.insert(last + 1, row)
        return


def _spread(piece: tree.Piece, row: tree.Row, label) -> None:
    """Gives the further rows that "Row 2 and all even rows" speaks of their places between the others."""
    if label.every == "onward":
        return
    if sum(len(item.numbers) for item in piece.items if isinstance(item, tree.Row)) > 10 * MOST_ROWS:
        return
    numbered = sorted({number for item in piece.items if isinstance(item, tree.Row) for number in item.numbers if item is not row})
    if not numbered and not row.numbers:
        return
    parity = _parity(piece, row, label)
    first = row.numbers[0] if row.numbers else 1
    highest = label.every_until or (numbered[-1] if numbered else first)
    meant = _referred(piece)
    if label.every_until is None and highest + 1 in meant:
        highest += 1
    if highest - first > MOST_ROWS:
        return
    have = set(numbered) | set(row.numbers)
    missing = [number for number in range(first, highest + 1) if number % 2 == parity and number not in have]
    if not missing:
        return
    source = row.numbers[0] if row.numbers else None
    if source is None:
        piece.items.remove(row)
        row.numbers, source = (missing[0],), missing[0]
        _insert(piece, row)
        missing = missing[1:]
    for number in missing:
        again = tree.Again(rows=(source,), sense="total", span=row.span)
        _insert(piece, tree.Row(row.word, (number,), side=row.side, only=row.only, again=again, span=row.span, label_span=row.label_span))


def _parity(piece: tree.Piece, row: tree.Row, label) -> int:
    if label.every in ("even", "odd"):
        return 0 if label.every == "even" else 1
    if row.numbers:
        return row.numbers[-1] % 2
    side = label.every if label.every in ("RS", "WS") else ""
    for item in piece.items:
        if isinstance(item, tree.Row) and item.numbers and item.side and side:
            return item.numbers[0] % 2 if item.side == side else 1 - item.numbers[0] % 2
    return 1 if side == "RS" else 0


def _referred(piece: tree.Piece) -> set[int]:
    return {number for item in piece.items if isinstance(item, tree.Row) and item.again for number in item.again.rows}


def _insert(piece: tree.Piece, row: tree.Row) -> None:
    """Sets a row behind the last one with a smaller number."""
    place = None
    for index, item in enumerate(piece.items):
        if isinstance(item, tree.Row) and item.numbers:
            if item.numbers[-1] < row.numbers[0]:
                place = index + 1
            elif place is None and item.numbers[0] > row.numbers[0]:
                place = index
                break
    piece.items.insert(len(piece.items) if place is None else place, row)


def _interleave(piece: tree.Piece) -> None:
    """Takes "Rows 3, 5, 7" apart where other rows come between them."""
    items = piece.items
    index = 0
    while index < len(items):
        row = items[index]
        if not (isinstance(row, tree.Row) and len(row.numbers) > 1 and row.numbers != tuple(range(row.numbers[0], row.numbers[-1] + 1)) and len(row.numbers) <= MOST_ROWS):
            index += 1
            continue
        last = index
        high = row.numbers[-1]
        for further in range(index + 1, len(items)):
            item = items[further]
            if isinstance(item, tree.Row) and item.numbers:
                if not (row.numbers[0] < item.numbers[0] < high):
                    break
                last, high = further, max(high, item.numbers[-1])
        group = items[index : last + 1]
        if last == index or sum(len(item.numbers) for item in group if isinstance(item, tree.Row)) > MOST_ROWS:
            index += 1
            continue
        rows = [replace(item, numbers=(number,)) for item in group if isinstance(item, tree.Row) and item.numbers for number in item.numbers]
        rows.sort(key=lambda item: item.numbers[0])
        rest = [item for item in group if not (isinstance(item, tree.Row) and item.numbers)]
        items[index : last + 1] = rows + rest
        index += len(rows) + len(rest)
