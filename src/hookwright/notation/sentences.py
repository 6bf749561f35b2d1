"""Sentences of prose, told from the full stops of abbreviations and numbers."""

import re

from .patterns import Lazy

_END = Lazy(r"(?<=[.!?])[\"')\]]*\s+(?=[\"'(\[*]?[A-Z0-9])|\n\s*\n|\n(?=\s*(?:[-*+]\s|[A-Z\"']|\d))|(?<=[.!?])[\"')\]]*\s*\n")
_ABBREVIATIONS = Lazy(r"(?:\b(?:approx|no|nos|beg|rem|rep|cont|foll|rpt|alt|patt|inc|dec|st|sts|ch|sp|sps|e\.g|i\.e|incl|sk|rnd|rnds|lp|lps)\.)$", re.I)


def sentences(text: str, start: int, end: int) -> list[tuple[int, int]]:
    """Spans of the sentences in [start, end), spaces around them left out."""
    spans = []
    begin = start
    for found in _END.finditer(text, start, end):
        if found[0].strip(" \"')]") == "" and "\n" not in found[0] and _ABBREVIATIONS.search(text, max(begin, found.start() - 8), found.start()):
            following = text[found.end() : found.end() + 1]
            if following.isdigit():
                continue
        _add(spans, text, begin, found.start())
        begin = found.end()
    _add(spans, text, begin, end)
    return spans


def _add(spans, text, start, end) -> None:
    while start < end and text[start] in " \t\n":
        start += 1
    while end > start and text[end - 1] in " \t\n":
        end -= 1
    if end > start:
        spans.append((start, end))
