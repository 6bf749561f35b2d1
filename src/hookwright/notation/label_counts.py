"""What a row has, said before its label: "24 sts. Rnd 2: ...", "(102 tr, 2 points) Round 3: ...", "16 dc - Rnd 4: ..."."""

import re

from .label import Label
from .label_numbers import ROW_WORD
from .labels import read_label
from .looks import starts_like_work
from .number_words import CARDINAL_PATTERN, ORDINAL_PATTERN
from .patterns import Lazy

_ROW = rf"(?:{ROW_WORD}\s*(?:#|no\.?)?\s*(?:\d|(?:{CARDINAL_PATTERN})(?![a-z]))|(?:\d{{1,3}}(?:st|nd|rd|th|d)|(?:{ORDINAL_PATTERN}))(?:\s*(?:[-–—&]|and|to)\s*\d{{1,3}}(?:st|nd|rd|th|d)?)?\s+{ROW_WORD})"
_NOUN = r"(?!(?:in|into|ch|chs|chains?|turn|join|skip|miss|x|times|more|rows?|rnds?|rounds?|cm|mm|ins?|inch\w*|to|from|at|of|sl)\b)[a-z][a-z'-]*"
_ITEM = rf"(?:no\s+|(?:\d{{1,4}}|(?:{CARDINAL_PATTERN})(?![a-z]))[\s-]*)(?:ch(?:ain)?-?\s?\d[\s-]+)?(?:{_NOUN})(?:\s+(?:{_NOUN}|in\s+(?:all|total)|ch(?:ain)?-?\d*\s+(?:sps?|spaces?|loops?|lps?))){{0,3}}"
_COUNT_FIRST = Lazy(
    rf"\s*(?:=\s*)?(?:(?:(?:this\s+(?:row|round|rnd)\s+)?(?:has|gives|makes)|total|count|you(?:\s+will|'ll|\s+should)?(?:\s+now)?\s+have)\s*[:=]?\s*(?:of\s+)?)?(?P<count>(?:{_ITEM})(?:\s*(?:,|\+|&|and|/|;)\s*(?:and\s+)?(?:{_ITEM})){{0,3}}|(?<=[:=l]\s)\d{{1,4}}|\d{{1,4}}(?=\s*[-–—]\s))"
    rf"\s*(?:[.,;:=|]|[-–—]{{1,2}})?\s*(?={_ROW})",
    re.I,
)
_BRACKET_FIRST = Lazy(rf"\s*[(\[](?P<count>[^()\[\]\n]{{1,80}})[)\]]\s*(?:[.,;:=|]|[-–—]{{1,2}})?\s*(?={_ROW})", re.I)
_NUMBERING = Lazy(r"\s*(?:no\.?\s*|#)?\d{1,3}\s*", re.I)
_OF_COUNTS = frozenset("0123456789([=TtCcYyOoFfSsEeNn")  # what a count begins with: figures, brackets, number words, "total", "count", "you have"
_ROW_AHEAD = Lazy(r"(?<![a-z])(?:go[- ]?)?r(?:ow|ou?nd|nd|w|d)?s?\.?\s?(?:\d|(?<=[ws.: ])[a-z])|(?:st|nd|rd|th|d)\.?\s+r", re.I)


def read_counted_label(work: str, start: int, end: int, *, sizes: int = 0, size_names: tuple[str, ...] = ()) -> Label | None:
    """The label that follows the count (or a remark in brackets) with which a line begins, both taken for the label; None for any other line."""
    if work[start] not in _OF_COUNTS or work.find("R", start, min(end, start + 110)) < 0 and work.find("r", start, min(end, start + 110)) < 0:
        return None
    bracket = work[start] in "(["
    found = (_BRACKET_FIRST if bracket else _COUNT_FIRST).match(work, start, end)
    if not found:
        return None
    label = read_label(work, found.end(), end, sizes=sizes, size_names=size_names)
    if label is None or label.bare or not label.core or not (label.firm or label.numbers and starts_like_work(work, label.end, end)):
        return None
    if _NUMBERING.fullmatch(found["count"]) and (not label.numbers or int(re.sub(r"\D", "", found["count"])) in label.numbers[:1]):
        return None  # "(3) Row 3:": its number twice
    label.start = start
    label.remarks.append(found.span("count"))
    return label
