"""Letters: what may stand in a document at all, and which letters the fonts of the PDF have."""

import re
import tomllib
import unicodedata
from bisect import bisect_right
from functools import cache
from pathlib import Path

MISSING = "\u25a1"  # an empty box, shown for a letter that the fonts do not have

# Control characters say nothing on a page, and marks that turn the direction of writing could make a row look like another one.
_DROPPED = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u00ad\u200b\u200e\u200f\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\ufdd0-\ufdef\ufffe\uffff]"
)
_LONE = re.compile("[\ud800-\udfff]")
_JOINING = re.compile("[\u200c\u200d\ufe00-\ufe0f\U000e0100-\U000e01ef\U000e0000-\U000e007f]")


def tidy(text: str) -> str:
    """The text with letters composed, and without control characters and marks that turn the direction of writing.

    >>> tidy("Ha\\x00t\\u202e")
    'Hat'
    """
    if text.isascii() and text.isprintable():
        return text
    return unicodedata.normalize("NFC", _LONE.sub("\ufffd", _DROPPED.sub("", text)))


_SIZES = re.compile(r"\d[\d.]*[¼½¾⅛⅜⅝⅞]? \((?:[\d.¼½¾⅛⅜⅝⅞–-]{1,8}(?:, |(?=\)))){1,40}\)")
_LONGEST = 26  # letters of a list of sizes that is kept on one line


def together(text: str) -> str:
    """The text with short lists of sizes kept on one line, and the first number of a long one with its bracket.

    >>> together("sc in next 4 (5, 6) sts")
    'sc in next 4\\xa0(5,\\xa06) sts'
    """
    if "(" not in text:
        return text
    return _SIZES.sub(lambda found: found[0].replace(" ", "\u00a0", -1 if len(found[0]) <= _LONGEST else 1), text)


@cache
def _ranges() -> tuple[list[int], list[int]]:
    ranges = tomllib.loads((Path(__file__).parent / "fonts" / "letters.toml").read_text("utf-8"))["ranges"]
    return [low for low, _ in ranges], [high for _, high in ranges]


@cache
def in_fonts(letter: str) -> bool:
    """Whether the fonts of the PDF have this letter."""
    if letter in "\n\t":
        return True
    lows, highs = _ranges()
    at = bisect_right(lows, ord(letter)) - 1
    return at >= 0 and ord(letter) <= highs[at]


def covered(text: str) -> tuple[str, set[str]]:
    """The tidied text with an empty box for every letter that the fonts do not have, and those letters.

    >>> covered("a \\u2605")
    ('a \u25a1', {'\u2605'})
    """
    text = tidy(text)
    if text.isascii():
        return text, set()
    missing = set()
    out = []
    for letter in _JOINING.sub("", text):
        if in_fonts(letter):
            out.append(letter)
        else:
            missing.add(letter)
            if not unicodedata.combining(letter):
                out.append(MISSING)
    return "".join(out), missing


def right_to_left(text: str) -> bool:
    """Whether any letter of the text is written from right to left."""
    return not text.isascii() and any(unicodedata.bidirectional(letter) in ("R", "AL") for letter in text)
