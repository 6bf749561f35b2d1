"""The rows a label speaks of besides its own: "Row 2 and all even rows", "all WS rows", "Row 4 onwards", "Row 5 and every row thereafter until ..."."""

import re

from .label import Label
from .label_numbers import ROW_WORD
from .patterns import Lazy

AND_EVERY = Lazy(
    rf"\s*[,(]?\s*(?:and|&|plus)\s+(?:(?:on|for)\s+)?(?:all|every|each)\s+(?:the\s+)?(?:(?:foll(?:owing)?|subsequent)\s+)?"
    rf"(?P<which>other|second|2nd|alternate|alt|even|odd|following|ws|rs|wrong[- ]side|right[- ]side|subsequent)?(?:[- ]?numbered)?\s*(?P<word>{ROW_WORD})"
    rf"(?P<after>\s+(?:thereafter|after|following|onwards?|from here))?(?:\s*(?:to|through|thru|until|up to)\s*(?:{ROW_WORD}\s*)?(?P<until>\d{{1,7}})(?!\d|\s*[\(\[]|\s*(?:-\s*\d+\s*)*[a-z])|\s*,?\s*(?P<goal>until\s[^:;.\n]{{3,80}}(?::\d+[^:;.\n]{{0,40}})*)(?=\s*:))?\s*\)?",
    re.I,
)
_ONWARD = Lazy(r"\s*(?:\+|and\s+(?:up|on|onwards?)\b|onwards?\b|and so on)", re.I)


def rows_besides(label: Label, text: str, end: int) -> None:
    """ "Row 2 and all even rows", "Row 4 onwards": sets which rows besides its own the label means."""
    onward = _ONWARD.match(text, label.end, end)
    if onward:
        label.every, label.end = "onward", onward.end()
        return
    found = AND_EVERY.match(text, label.end, end)
    if found:
        which = (found["which"] or "").lower()
        label.every = every_of(which) if which and which not in ("following", "subsequent") else "onward"
        if label.every == "alternate" and label.numbers:
            label.every = "even" if label.numbers[-1] % 2 == 0 else "odd"
        if found["until"]:
            label.every_until = int(found["until"])
        if found["goal"]:
            label.goal = found.span("goal")
        label.end = found.end()


def every_of(which: str) -> str:
    """ "even", "odd", "WS", "RS" or "alternate", as Label.every has it, for the word used."""
    which = which.lower().replace("-", " ")
    if which in ("even", "odd"):
        return which
    if which in ("ws", "wrong side"):
        return "WS"
    if which in ("rs", "right side"):
        return "RS"
    return "alternate"
