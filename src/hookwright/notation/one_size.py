"""A pattern of many sizes as the pattern of one of them: every number, length and list of sizes becomes that size's."""

import re
from dataclasses import fields, is_dataclass, replace

from hookwright.ground import PerSize

from .head import Measure, SizeFact
from .tree import Pattern, Piece, Prose, Row

_LIST = re.compile(r"(?P<first>\d+(?:[.,]\d+)?|-)\s*[(\[](?P<rest>\s*(?:\d+(?:[.,]\d+)?|[-–—])(?:\s*[,;/:]\s*(?:\d+(?:[.,]\d+)?|[-–—]))*\s*)[)\]]")


def one_size(pattern: Pattern, index: int, size: SizeFact | None = None) -> Pattern:
    """The pattern of the size with this index; `size` gives it another name. Rows for other sizes only are left out."""
    number = len(pattern.sizes)
    name = pattern.sizes[index] if number else ""
    known = {one.lower(): at for at, one in enumerate(pattern.sizes)}
    pieces = []
    for piece in pattern.pieces:
        items = []
        for item in piece.items:
            if isinstance(item, Row) and item.only and name.lower() not in (one.lower() for one in item.only) and any(one.lower() in known for one in item.only):
                continue
            item = _one(item, index, number)
            if isinstance(item, Row):
                item.only = ()
            items.append(item)
        pieces.append(replace(_one(replace(piece, items=[]), index, number), items=items))
    made = replace(pattern, pieces=pieces or [Piece()], sizes=(size.name if size else name,) if number else ())
    if pattern.head is not None:
        facts = size or (pattern.head.sizes[index] if index < len(pattern.head.sizes) else None)
        head = made.head = replace(_one(replace(pattern.head, sizes=()), index, number), sizes=(facts,) if facts else ())
        if number > 1 and len(head.ease_share) == number:
            head.ease_share = head.ease_share[index : index + 1]
        if head.body is not None and number > 1 and len(head.body.sizes) == number:
            head.body = replace(head.body, sizes=head.body.sizes[index : index + 1])
    return made


def one_size_row(row: Row, index: int, number: int) -> Row:
    """A row of a pattern in `number` sizes as that of the size with this index, for whichever sizes it is."""
    row = _one(row, index, number) if number > 1 else replace(row)
    row.only = ()
    return row


def in_one(words: str, index: int, number: int) -> str:
    """Words in which every list of all the sizes is that size's value.

    >>> in_one("catch 18 (20, 22) row ends", 1, 3)
    'catch 20 row ends'
    """
    if number < 2:
        return words

    def taken(found):
        values = [found["first"], *re.split(r"\s*[,;/:]\s*", found["rest"].strip())]
        return values[index] if len(values) == number else found[0]

    return _LIST.sub(taken, words)


def _one(value, index: int, number: int):
    """A value with everything in it that differs by size taken for this size."""
    if isinstance(value, PerSize):
        return value[index] if index < len(value) else None
    if isinstance(value, Measure):
        return Measure((value.mm[0] if len(value.mm) == 1 else value.mm[index] if index < len(value.mm) else None,), in_one(value.text, index, number))
    if isinstance(value, Prose):
        return replace(value, text=in_one(value.text, index, number))
    if is_dataclass(value) and not isinstance(value, type):
        changed = {part.name: _part(part.name, getattr(value, part.name), index, number) for part in fields(value) if part.init}
        return replace(value, **changed)
    if isinstance(value, dict):
        return {key: _one(part, index, number) for key, part in value.items()}
    if isinstance(value, list):
        return [_one(part, index, number) for part in value if not _left_out(part, index)]
    if type(value) is tuple:
        return tuple(_one(part, index, number) for part in value)
    return value


def _left_out(step, index: int) -> bool:
    """Whether this size skips the step."""
    return any(isinstance(number, PerSize) and (number[index] if index < len(number) else None) is None for number in (getattr(step, "n", 0), getattr(step, "times", 0)))


def _part(name: str, value, index: int, number: int):
    if name in ("text", "words") and isinstance(value, str):
        return in_one(value, index, number)
    if name == "measure_mm" and type(value) is tuple and len(value) == number:
        return value[index]
    return value if name in ("span", "label_span", "spans", "shifts") else _one(value, index, number)
