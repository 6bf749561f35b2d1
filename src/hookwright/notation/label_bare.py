"""Labels that are a number and no word: "7.", "7)", "(4) sc in each st", "#4: sc", "12 48 sc"."""

import re

from .label import Label
from .label_numbers import read_numbers
from .label_tail import SPACE, TAIL_OF_REPEAT
from .patterns import Lazy

_BARE = Lazy(
    r"(?P<list>\d{1,4}(?:\s*[-–—]\s*\d{1,4}(?:\s*[\(\[]\d{1,4}(?:\s*[,;/]\s*\d{1,4}){0,12}[\)\]])?|(?:\s*[,&]\s*\d{1,4}){1,8})?)\s*(?P<sep>[.)](?!\d)\s*-?|[:>]\s*|[-–—](?=\s*[a-z(\[*{|\d])|,(?=\s))\s*(?=\S)", re.I
)
_BARE_MARKED = Lazy(r"(?:[\(\[](?P<list>\d{1,3}(?:\s*[-–—]\s*\d{1,3})?)[\)\]]\s*[:.–—-]?|#\s?(?P<hash>\d{1,3}(?:\s*[-–—]\s*\d{1,3})?)\s*[:.)–—-]|(?P<slash>\d{1,3})/(?=\s))\s*(?=[a-z\d(\[*])", re.I)  # "(4) sc in each st", "#4: ...", "4/ ..."
_BARE_SPACE = Lazy(r"(?P<list>\d{1,3})\s+(?=\d|[\(\[{*|]|(?:inc|dec|sc|dc|hdc|htr|tr|ch)\b)", re.I)
_GROUP_TIMES = Lazy(r"\s*[\(\[{](?=[^()\[\]{}]*[a-z])[^()\[\]{}]{1,200}[\)\]}]\s*(?:[x×*]\s*\d|\d{1,4}\s*(?:times|x\b))", re.I)


def read_bare(text: str, at: int, end: int) -> Label | None:
    """A number with no word: "7." "7)" "7:" "7-" "7>"."""
    found = _BARE.match(text, at, end)
    if found:
        numbers = read_numbers(text, at, found.end("list"))
        if numbers and numbers.end == found.end("list") and numbers.numbers and numbers.numbers[0] > 0:
            label = Label(at, found.end(), "", numbers.numbers, numbers.last_number, first_number=numbers.first_number, bare=True, too_long=numbers.too_long)
            label.firm, label.separator = True, found["sep"].strip()
            return label
    return read_bare_marked(text, at, end)


def read_bare_marked(text: str, at: int, end: int) -> Label | None:
    """A number in a mark of its own: "(4) sc in each st", "#4: sc", "4/ sc"."""
    found = _BARE_MARKED.match(text, at, end)
    which = found and next(name for name in ("list", "hash", "slash") if found[name])
    numbers = read_numbers(text, found.start(which), found.end(which)) if found else None
    if not numbers or numbers.end != found.end(which) or numbers.numbers[0] < 1 or TAIL_OF_REPEAT.match(text, found.end(), end):
        return None
    label = Label(at, found.end(), "", numbers.numbers, numbers.last_number, first_number=numbers.first_number, bare=True, too_long=numbers.too_long)
    label.firm, label.separator = True, ")"
    return label


def read_spaced_number(text: str, at: int, end: int) -> Label | None:
    """A bare number and then nothing, "12 48 sc": a label only where the rows before and after say so."""
    at = SPACE.match(text, at, end).end()
    found = _BARE_SPACE.match(text, at, end)
    if not found:
        return None
    return Label(at, found.end(), "", (int(found["list"]),), bare=True)


def numbers_a_group(text: str, label: Label, end: int) -> bool:
    """True for "10 (7 sc, inc) x 6 (54)": the group says itself how often it is worked, so the number before it is the row's."""
    return bool(_GROUP_TIMES.match(text, label.end, end))
