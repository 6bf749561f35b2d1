"""The number of stitches that a row says it has, looked for in its words where the row itself could not be read.

What can't be worked is carried on with the count the designer states; she may state it in a form that is no count by itself
("24 sts, 6 sts increased", "so you end up with 16", "... - 13 left"), and where the words before it are not understood there is no telling it by grammar.
"""

import re

from hookwright.ground import Number, Span

from .number_words import CARDINAL_PATTERN, listed_number
from .patterns import Lazy

_N = rf"(?P<n>\d{{1,5}}(?!\d)|{CARDINAL_PATTERN})(?P<list>\s*[\(\[]\s*\d{{1,5}}(?:\s*[,;/-]\s*\d{{1,5}}){{0,30}}\s*[\)\]])?"
_NOUN = r"(?:sts?\b\.?|stitch(?:es)?|loops?|[hd]?[sd]c\b|[hd]?tr\b|(?:single|double|half[ -]double|half[ -]treble|treble)s?(?:\s+crochets?)?)"
_AFTER = r"(?:left|remain(?:ing|s)?|rem\b\.?|in\s+all|in\s+total|total|now|altogether|so\s+far|each(?:\s+(?:time|row|rnd|round))?|around|all\s+round)"
_AT_END = Lazy(rf"(?:[-–—=~/|>:;,.(\[{{]|\s\s)\s*=?\s*{_N}\s*(?:{_NOUN})?\s*(?:{_AFTER})?\s*[)~|\]}}.!\s]*$", re.I)
_LED = Lazy(
    r"(?:\bhave|\bmakes?|\bmaking|\bgives?(?:\s+you)?|\bgiving(?:\s+you)?|\btotal(?:\s+of)?|\bends?\s+up\s+with|\bup\s+to|\bdown\s+to|\bback\s+(?:to|at)|\b(?:should|will)\s+be|\bleft\s+with|\bthere\s+(?:are|will\s+be)|\bit's|\bleaves?)"
    rf"\s*[:=]?\s+(?:now\s+|a\s+total\s+of\s+|all\s+)?{_N}(?!\s*(?:more|times|x|%|cm|mm|in\b|inch|rows?|rounds?|rnds?|of\b|ch\b|chains?))", re.I
)
_NAMED = Lazy(rf"(?:^|[.;,:—–(=-])\s*(?:total:?\s+)?{_N}\s*{_NOUN}(?=\s*(?:[.;,!)—–-]|$|{_AFTER}|with\b|and\b))(?!\s*(?:increased|decreased|added|more|unworked|skipped))", re.I)


def total_said(text: str, start: int, end: int) -> tuple[Number, Span] | None:
    """The total that `text[start:end]` says, with where it stands; None where no number is plainly one.

    >>> words = "no shaping, 12 each time."
    >>> total_said(words, 0, len(words))[0]
    12
    >>> words = "work two single crochets into every stitch, so you end up with 16."
    >>> total_said(words, 0, len(words))[0]
    16
    >>> words = "24 sts, 6 sts increased evenly"
    >>> total_said(words, 0, len(words))[0]
    24
    """
    words = text[start:end]
    for pattern in (_LED, _NAMED, _AT_END):
        found = None
        for found in pattern.finditer(words):  # noqa: B007 the last one that is said
            pass
        if found is None:
            continue
        number = listed_number(found["n"], found["list"])
        if number is not None and number != 0:
            return number, Span(start + found.start("n"), start + found.end("n"))
    return None
