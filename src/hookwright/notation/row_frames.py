"""Rows set in marks of her own: "Rnd 5 | sc 6, dec | 18", "~R3~ ... ~10~", "Round 4 // ... // 24", "R2 >> ... >> 12".

The mark after the label is taken for a colon and the one before the count for "=", each in its place, so that every offset still holds.
"""

import re

from .label_numbers import ROW_WORD
from .patterns import Lazy

_MARKS = ("|", "~", "//", " / ", ">>", "::", "^")  # looked for before anything is matched
_MARK = r"(?:\|{1,2}|~{1,2}|/{2,3}|(?<=\s)/(?=\s)|>{2,3}|:{2,3}|\^)"
_NUMBERS = r"\d{1,3}(?:\s*(?:[-–—&,]|to|and)\s*\d{1,3})?"
_LABEL = rf"(?:[^\n|~/:>=\^*()\[\]]{{0,30}}?(?<![a-z])(?:{ROW_WORD}\s*(?:no\.?\s*|\#\s*)?{_NUMBERS}|\d{{1,3}}(?:st|nd|rd|th)\s+{ROW_WORD}|{ROW_WORD})|{_NUMBERS}\s*(?:{ROW_WORD})?)\s*[.:)]?"
_BODY = rf"(?!\s*(?:\d[\d\s,&/-]*(?:[/:.|~]|$)|(?:{ROW_WORD})\s*\d))[^\n]*"  # no further number of the label
_COUNT = r"\s*=?\s*(?:\d{1,4}|\(\s*\d{1,4}[^()\n]{0,12}\))\s*(?:(?:sts?|stitches|sc|dc|hdc|htr|tr)\b\.?)?\s*"
_FRAMED = Lazy(rf"^(?P<lead>[ \t]*(?:{_MARK})?[ \t]*)(?P<label>{_LABEL})\s*(?P<first>{_MARK})(?P<body>{_BODY})$", re.I | re.M)
_COUNT_ENDS = Lazy(rf"(?P<mark>{_MARK})(?P<count>{_COUNT})(?:(?P<close>{_MARK})(?!\s*\d)|$|(?=[.;,]\s*(?:[A-Z]|$)))")
_LABELLED = Lazy(rf"^[ \t]*(?:{_LABEL})[^\n]*$", re.I | re.M)
_TABLE = Lazy(r"^[ \t]*\|?[ \t]*:?-+:?[ \t]*\|[ \t:|-]*$", re.M)


def without_frames(work: str) -> str:
    """`work` with such marks made plain; as long as before.

    >>> without_frames("Rnd 5 | sc 6, dec | 7")
    'Rnd 5 : sc 6, dec = 7'
    """
    if not any(mark in work for mark in _MARKS) or "|" in work and _TABLE.search(work):
        return work
    work = _FRAMED.sub(_plain_label, work)
    return _LABELLED.sub(_plain_count, work)


def _wide(sign: str, mark: str) -> str:
    return sign + " " * (len(mark) - 1)


def _plain_label(found: re.Match) -> str:
    lead, label, first = found["lead"], found["label"], found["first"]
    between = found[0][len(lead) + len(label) : found.start("first") - found.start()]
    sign = " " if label.rstrip()[-1:] in ":.)" else ":"
    return f"{' ' * len(lead)}{label}{between}{_wide(sign, first)}{found['body']}"


def _plain_count(found: re.Match) -> str:
    line = found[0]
    ends = list(_COUNT_ENDS.finditer(line))
    at = ends[-1] if ends else None
    if at is None or not re.search(r"[a-z]", line[: at.start()], re.I):
        return line
    before = line[: at.start()].rstrip()
    if at["mark"].startswith("/") and len(at["mark"]) == 1 and re.search(r"\d\s*(?:sts?|stitches)?$", before):
        return line  # "6 / 8" are numbers of two sizes
    close = at["close"] or ""
    count = at["count"]
    if count.lstrip(" =").startswith("("):
        return f"{line[: at.start()]}{' ' * len(at['mark'])}{count}{' ' * len(close)}{line[at.end():]}"
    if close:
        return f"{line[: at.start()]}{' ' * (len(at['mark']) - 1)}({count}){' ' * (len(close) - 1)}{line[at.end():]}"
    return f"{line[: at.start()]}{_wide('=', at['mark'])}{count}{line[at.end():]}"
