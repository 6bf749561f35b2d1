"""Lines that say what a word means, where no heading stands over them: "V-st: (dc, ch 1, dc) in next st", "inc = 2 sc in one st"."""

import re

from .looks import STITCH_WORD
from .patterns import Lazy

_SHORTENED = Lazy(r"[\s*]*(?P<name>[A-Za-z][\w'-]*(?:\s+[\w'-]+){0,3})\s*\(\s*(?P<short>[A-Za-z][\w.-]{0,11})\s*\)[\s*]*(?::|=|—|-(?=\s))\s*(?=\S)")
_EQUALS = Lazy(r"[\s*(]*(?P<name>[A-Za-z][\w./+'-]*(?:\s*\(\w{1,4}\)|[ /-][\w./+'-]+){0,3}?)\s*\)?\s*=\s*(?=[A-Za-z(\[]|\d+\s*[a-z])")
_OF_STITCH = Lazy(
    rf"[\s*]*(?:(?:beg(?:inning)?|large|small|left|right|front|back|special|\d+-\w{{2,3}})\s+){{0,2}}(?P<name>{STITCH_WORD}(?:[\s-]+(?:{STITCH_WORD})){{0,2}})[\s*]*:\s*(?=\S)", re.I
)
_SEVERAL = Lazy(r"[\s*(]*[A-Za-z][\w.-]{0,7}(?:\s[a-z]{1,4})?(?:\(s\))?\s*(?::|=|-(?=\s)|–|—)\s*[a-z][a-z'() -]{2,36}(?:\s*[,;/|•·]\s*[A-Za-z][\w.-]{0,7}(?:\s[a-z]{1,4})?(?:\(s\))?\s*(?::|=|-(?=\s)|–|—)\s*[a-z][a-z'() -]{2,36}){1,40}[.)]*\s*$")
_SENTENCE = Lazy(r"[\s*]*[A-Za-z][^.:=*\n]{6,80}[.:]\s+")
_IS = Lazy(r"[\s*]*(?:an?|each|one|the)\s+(?:first\s+)?(?!row|round|rnd|next|last)[a-z][a-z-]{2,14}(?:\s+(?:st|stitch|group|block))?[\s*]+(?:is|means|consists\s+of|is\s+(?:made|worked)(?:\s+(?:up\s+of|of|like\s+this|as\s+follows))?)\s*:\s*(?=\S)", re.I)
_NUMBERED = Lazy(r"(?:rows?|rnds?|rounds?|ch|chain|[a-z]{2,3})\s*\d", re.I)
_NO_NAME = Lazy(r"(?:ch|chain|sc|dc|hdc|htr|tr|sl st|ss)s?$", re.I)


def defines(work: str, start: int, end: int) -> str:
    """The section a line would stand under, "special stitches" or "abbreviations", where it says what a name means; else ""."""
    found = _SHORTENED.match(work, start, end)
    if found and _shortens(found["short"], found["name"]):
        return "special stitches"
    found = _EQUALS.match(work, start, end)
    if found and not _NUMBERED.search(found["name"]):
        return "abbreviations"
    if _SEVERAL.match(work, start, end):  # "mr: magic ring / sc: single crochet"
        return "abbreviations"
    talk = _SENTENCE.match(work, start, end)
    if talk and _SEVERAL.match(work, talk.end(), end):  # "Pattern uses US terms. mr = magic ring, st = stitch"
        return "abbreviations"
    if _IS.match(work, start, end):  # "A block is: sl st in the ch-3 sp, ch 3, 3 dc in the same sp."
        return "special stitches"
    found = _OF_STITCH.match(work, start, end)
    return "special stitches" if found and not _NO_NAME.match(found["name"]) else ""


def _shortens(short: str, name: str) -> bool:
    """Whether the letters of `short` come in `name` in this order, from its first on ("sp" of "space")."""
    letters = re.sub(r"[^a-z0-9]", "", short.lower())
    rest = name.lower()
    if not letters or rest[0] != letters[0]:
        return False
    for letter in letters:
        at = rest.find(letter)
        if at < 0:
            return False
        rest = rest[at + 1 :]
    return True
