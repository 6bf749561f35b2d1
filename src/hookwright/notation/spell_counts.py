"""What is written in brackets beside the steps: counts and remarks."""

import re

from .spell_numbers import is_one, number
from .spell_places import Manner, kind_word, noun
from .tree import Place

_LIKE_WORK = re.compile(r"\d(?!\d)(?!\.?\d*[½¼¾⅛⅜⅝⅞⅓⅔]?\s*(?:mm|cm|m|in|inch|inches|g)\b)|\b(?:rows?|rounds?|rnds?|sts?|stitch|stitches|hook|insert|yarn over|inc|dec|increase|decrease)\b", re.I)
_OTHER_UNIT = re.compile(r"\s\(([\d½¼¾⅛⅜⅝⅞⅓⅔.,–\s-]+(?:cm|in|m|yd))\)")


def in_brackets(text: str) -> str:
    """A remark in round brackets; a length that stands in its own brackets is set off by a stroke: "(a tail of 20 cm / 8 in)"."""
    if text.startswith("(") and text.endswith(")"):
        text = text[1:-1].strip()
    if text.count("(") != text.count(")"):
        text = text.replace("(", "").replace(")", "")
    text = _OTHER_UNIT.sub(r" / \1", text.removeprefix("and "))
    return f"({text})"


def note_words(text: str) -> str:
    """A remark in brackets, said to be one where it could be taken for an instruction or a count."""
    words = in_brackets(text)
    return f"(note: {words[1:]}" if _LIKE_WORK.search(words) and not words.lower().startswith("(note") else words


def stated_words(manner: Manner, stated) -> str:
    """A count as it is printed after a row: "24 dc, 6 ch-1 sps", "4 sts more"."""
    words = ", ".join(_stated_item(manner, item, stated.series) for item in stated.items)
    if stated.row is not None:
        words += f" after row {stated.row}"
    return words + _PER.get(stated.per, f" in each {stated.per}" if stated.per else "")


_PER = {"": "", "repeat": " in each rep", "side": " each side", "more": " more", "fewer": " fewer", "left": " rem", "unworked": " left unworked", "group": " in each group", "so far": " so far"}


def _stated_item(manner: Manner, item: tuple, series: bool) -> str:
    count, of = item[0], item[1]
    chains = item[2] if len(item) > 2 else None
    if series and isinstance(count, tuple):
        many, words = True, "/".join(number(one) for one in count)
    else:
        many, words = not is_one(count), number(count)
    if of == "tch":
        return f"{words} turning chain{'s' * many}"
    if of.startswith("group:"):
        return f"{words} {kind_word(manner, of[6:], many)}"
    if of in ("row", "group", "rnd"):
        return f"{words} {of}{'s' * many}"
    return f"{words} {noun(manner, Place(of=of, chains=chains), many)}"
