"""A draft: what a stretch of the manuscript was taken for, before it is read; and what names of pieces and sections tell."""

import re
from dataclasses import dataclass

from hookwright.ground import Number

from .label import Label
from .manuscript_words import SECTION_OF
from .number_words import CARDINAL_PATTERN, number_of


@dataclass(slots=True)
class Draft:
    """What was found, in order. kind: "row", "piece", "note" or "prose"; `[start, end)` all of it.

    row: body_start where the steps begin, label (None: no header), foundation the span of "Ch 41." before the label, name of a
    named part ("Handle"). piece: name, level, section, make. note: section it stands in.
    """

    kind: str
    start: int
    end: int
    body_start: int = 0
    label: Label | None = None
    foundation: tuple[int, int] | None = None
    name: str = ""
    level: int = 0
    section: str = ""
    make: Number | None = None
    only: tuple[str, ...] = ()
    remark: tuple[int, int] | None = None  # "(worked in a coil)" after the name of a part
    block: int = 0


MAKE = re.compile(rf"\(?\b(?:make|work|crochet|x)\s*(?P<n>\d{{1,4}}|{CARDINAL_PATTERN}|both)\b\)?|\(\s*x?\s*(?P<x>\d{{1,3}})\s*x?\s*\)|[x×]\s*(?P<y>\d{{1,3}})\s*$", re.I)
CHAIN_ONLY = re.compile(
    r"\s*(?:(?:with|using|in)\s+[\w# ]{1,40}?[,:-]?\s*)?(?:(?:loosely|make\s+an?|work)\s+)*(?:(?:ch|chain)s?\.?\s*-?\s*(?:\d+|\{\w+\})|\d+\s*(?:ch|chain)s?)"
    r"\s*(?:sts?\.?|stitches)?\s*(?:[\(\[][\d\s,;/-]+[\)\]])?\s*(?:loosely)?\s*(?:[,;.]?\s*(?:and\s+)?(?:join|close|ss|sl st|sl\.? ?st|slip st)[^:]{0,90})?\s*[.,;:]?\s*$",
    re.I,
)
RING_ONLY = re.compile(r"\s*(?:(?:make|form|start with|begin with|with)\s+)*(?:an?\s+)?(?:magic|adjustable|sliding)\s+(?:ring|circle|loop|r|c)(?:/(?:ring|circle|loop))?\s*[.,;:]?\s*$", re.I)


def is_foundation(work: str, start: int, end: int) -> bool:
    """True for words that only make a chain, a chain ring or an adjustable ring."""
    return bool(CHAIN_ONLY.match(work, start, end) or RING_ONLY.match(work, start, end))


def section_of(name: str) -> str:
    """The section a heading names ("Notes" -> "notes"), "" for a piece."""
    plain = re.sub(r"\s*\([^)]*\)", "", name).strip(" :.*#-").lower()
    return SECTION_OF.get(plain, "")


def make_of(name: str) -> int | None:
    """How often the piece is to be made: "Ear (make 2)" -> 2."""
    found = MAKE.search(name)
    if not found:
        return None
    word = found["n"] or found["x"] or found["y"]
    return 2 if word.lower() == "both" else number_of(word)
