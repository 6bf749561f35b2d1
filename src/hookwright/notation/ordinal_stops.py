"""Rows numbered as many languages write ordinals, with a full stop: "4. - 21. row: repeat 2. and 3. row", "as 2. row".

They are put into the words that the reader knows ("rows 4-21", "rows 2 and 3", "row 2"), filled up with blanks, so that every offset still holds.
A number with a stop that only ends the sentence before ("... in last 4. Row 5: ...") is left alone.
"""

import re

from .patterns import Lazy

_ROW = r"(?:rows?|rounds?|rnds?)(?![a-z])"
_OF_TWO = Lazy(
    rf"(?<![\d.,/-])(?P<a>\d{{1,3}})\.\s*(?:(?P<word>{_ROW})\s*)?(?P<between>-|–|—|to\b|until\b|till\b|and\b|&|\+|,)\s*(?:the\s+)?(?P<b>\d{{1,3}})\.\s*(?P<after>(?-i:rows?|rounds?|rnds?)(?![a-z]))(?!\s*\d+\s*[:.)])", re.I
)
_OF_ONE = Lazy(r"(?<=[a-z] )(?P<n>\d{1,3})\.\s(?P<word>rows?|rounds?|rnds?)(?![a-z:])(?!\s*[\d:])")
_RANGES = frozenset(("-", "–", "—", "to", "until", "till"))


def without_stops(work: str) -> str:
    """`work` with such ordinals made plain; as long as before.

    >>> without_stops("4. - 6. row: as 2. and 3. row")
    'rows 4-6   : as rows 2 and 3 '
    """
    if ". ro" not in work and ". rnd" not in work and ".row" not in work:
        return work
    return _OF_ONE.sub(_one, _OF_TWO.sub(_two, work))


def _two(found: re.Match) -> str:
    between = "-" if found["between"].lower() in _RANGES else " and "
    plain = f"{found['after'].rstrip('s')}s {found['a']}{between}{found['b']}"
    return plain.ljust(len(found[0])) if len(plain) <= len(found[0]) else found[0]


def _one(found: re.Match) -> str:
    return f"{found['word'].rstrip('s')} {found['n']}".ljust(len(found[0]))
