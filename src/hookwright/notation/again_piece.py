"""A piece worked as another one: "Work as for Left Front, reversing shaping", "as given for Back to armholes", "as for hem ribbing for 2 rows"."""

import re

from . import tree
from .again import AgainRead
from .label_numbers import read_numbers
from .number_words import listed_number
from .patterns import Lazy

_AS = Lazy(
    r"\s*(?:(?:with|using|in)\s[^,.;]{1,40},\s*)?(?:(?:work(?:ed)?|make|made|complete(?:d)?|crochet|proceed|do)\s+)?(?:this\s+(?:piece\s+)?|it\s+)?(?:exactly\s+|just\s+|in\s+the\s+same\s+way\s+|the\s+)?(?:as|like|same\s+as|to\s+match)\s+"
    r"(?:(?:given|instructions|directions)\s+)?(?:for\s+|on\s+)?(?:the\s+|your\s+)?(?=[A-Za-z])", re.I
)
# "Work Rows 1-12 as for Back", "work first 12 rows of Lower Back": so many of its rows, said first.
_ROWS_AS = Lazy(
    r"\s*(?:(?:with|using|in)\s[^,.;]{1,40},\s*)?(?:work|make|crochet|repeat|rep|do|follow)\s+(?:the\s+)?(?:(?:rows?\s+|rounds?\s+|rnds?\s+|rd?s?\s*)1\s*(?:-|–|to|through|thru)\s*(?P<last>\d{1,3})|first\s+(?P<n>\d{1,3})\s+(?:rows?|rounds?|rnds?))\s+"
    r"(?:exactly\s+|just\s+)?(?:(?:as|like|of|from|same\s+as)\s+)+(?:given\s+)?(?:for\s+|on\s+|in\s+)?(?:the\s+|your\s+)?(?=[A-Za-z])", re.I
)
_LIMIT = Lazy(r"\s*,?\s*(?:(?:for|(?:until|till)(?:\s+(?:you\s+have|there\s+are))?(?:\s+(?:worked|completed))?)\s+(?:the\s+first\s+)?(?P<n>\d{1,4})\s*(?P<list>[\(\[][\d\s,;/:-]+[\)\]]|(?:-\d{1,4}){2,20})?\s*(?:rows?|rounds?|rnds?)(?:\s+(?:have\s+been|are|in\s+all|in\s+total)(?:\s+(?:worked|complete[d]?|done))?)?|(?:(?:up\s+)?to|until|till|through|thru)\s+(?:the\s+)?(?P<through>end\s+of\s+)?(?:the\s+)?(?:(?P<rows>rows?|rounds?|rnds?)\s*(?=\d)|(?P<part>(?:start\s+of\s+|beginning\s+of\s+)?[a-z]+(?:\s+(?:shaping|opening|edge))?)(?P<done>\s+(?:has\s+been|have\s+been|is|are)\s+(?:complete[d]?|worked|done|finished|reached))?))", re.I)
_END = re.compile(r"\s*(?:[.;,:()\[]|$|but\b|reversing\b|and\b|in\b)", re.I)
_MIRRORED = Lazy(r"\s*[,;(]?\s*(?:but\s+|and\s+)?(?:(?:with|in)\s+)?(?:revers\w+|mirror\w*)[^.;]*", re.I)
_NOISE = Lazy(r"\s*\([^)]*\)|\b(?:the|panel|piece|section)\b|[^a-z0-9 ]", re.I)

# "Complete to match first side of neck": no piece, but what was worked before the yarn was joined anew.
SIDES = frozenset(
    f"{which} {what}{of}" for which in ("first", "left", "right", "other", "opposite") for what in ("side", "half", "shoulder", "edge", "neck edge")
    for of in ("", " of neck", " of front", " of back", " of opening", " of neckline")
)
REJOINS = Lazy(r"\b(?:re-?join|re-?attach|join|attach)\b", re.I)


def plain_name(name: str) -> str:
    """The name of a piece without brackets and small words, to tell whether two names are one.

    >>> plain_name("BACK PANEL (make 1)"), plain_name("the Back")
    ('back', 'back')
    """
    return " ".join(_NOISE.sub(" ", name.lower()).split())


def speaks_of_piece(work: str, start: int, end: int) -> bool:
    """Whether a line begins with "work as for" and a name that may be a piece's."""
    return bool(_AS.match(work, start, end) or _ROWS_AS.match(work, start, end))


def read_as_piece(work: str, start: int, end: int, names) -> AgainRead | None:
    """The reference to a piece at the start of [start, end), where one of `names` (as plain_name gives them) follows; else None.

    Words after it that set a limit are kept in `again.to` ("armholes", "Row 28", "2 rows"); where they set one that is not known, None.
    """
    said = _ROWS_AS.match(work, start, end)
    opened = said or _AS.match(work, start, end)
    if not opened or not names:
        return None
    words = list(re.compile(r"[A-Za-z][\w'-]*").finditer(work, opened.end(), min(end, opened.end() + 60)))[:4]
    for count in range(len(words), 0, -1):
        stop = words[count - 1].end()
        name = work[opened.end():stop]
        if plain_name(name) in names:
            break
    else:
        return None
    again = tree.Again(piece=" ".join(name.split()), sense="total")
    limit = _LIMIT.match(work, stop, end) if not said else None
    if said:
        again.last_number, again.to = int(said["last"] or said["n"]), "row" if said["last"] else "rows"
    elif limit:
        stop = limit.end()
        if limit["n"]:
            again.last_number, again.to = listed_number(limit["n"], limit["list"]), "rows"
        elif limit["rows"]:
            numbers = read_numbers(work, stop, end)
            if numbers is None:
                return None
            again.last_number = numbers.last_number if numbers.last_number is not None else numbers.numbers[-1]
            again.to, stop = "row", numbers.end
        else:
            again.to = " ".join(limit["part"].split())
            if limit["through"] or limit["done"]:
                again.to = f"end of {again.to}"  # with the shaping itself
    mirrored = _MIRRORED.match(work, stop, end)
    if mirrored:
        return AgainRead(again, mirrored.end(), changes=[], notes=[(stop, mirrored.end())])
    return AgainRead(again, stop, changes=[], notes=[]) if _END.match(work, stop, end) else None
