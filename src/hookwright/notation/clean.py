"""Look-alike characters made plain, character for character, so that every offset still holds."""

import re

from .patterns import Lazy

_SPACES = "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\t\v\f\\•▪◦●■□►▶·‣⁃✿❀❁❥❖➤➢✓✔☑☐☞▸➔➜⟡✧✦"
_JOINERS = "\u00ad\u200b\u200c\u200d\u200e\u200f\u2060\ufeff\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
_PAIRS = (
    # Cyrillic and Greek letters that look Latin (scans, translated pages)
    ("авекмнорстухіѕјԁ", "abekmhopctyxisjd"),
    ("АВЕКМНОРСТУХІЅЈ", "ABEKMHOPCTYXISJ"),
    ("αορνικτυχε", "aopviktuxe"),
    ("ΑΒΕΖΗΙΚΜΝΟΡΤΥΧ", "ABEZHIKMNOPTYX"),
    ("ıİſɩ", "iIsi"),
    # multiplication signs
    ("×✕✖⨯∗✱＊⁎", "xxxx****"),
    # dashes: the long ones stay long, since a long dash never joins words; the rest become hyphens
    ("‐‑‒–−﹣－～〜∼", "----------"),
    ("—―⸺⸻", "————"),
    # quotes and primes: opening ones stay, since they serve as brackets in some patterns
    ("’‛ʼ′´", "'''''"),
    ("”„″〃", '""""'),
    ("«»", '""'),
    ("⁄∕／", "///"),
    ("…", "."),
    ("（）［］｛｝｜，．：；＝＋", "()[]{}|,.:;=+"),
    ("❨❩⟨⟩", "()()"),
    ("∣│¦", "|||"),
)


def _table() -> dict[int, str]:
    table = {code: " " for code in range(32) if code not in (10, 13)}
    table.update(dict.fromkeys(range(127, 160), " "))
    table.update((ord(char), " ") for char in _SPACES)
    table.update((ord(char), "\u00ad") for char in _JOINERS)
    for look, plain in _PAIRS:
        table.update((ord(a), b) for a, b in zip(look, plain, strict=True))
    for offset in range(10):
        table[0xFF10 + offset] = str(offset)
    for offset in range(26):
        table[0xFF21 + offset] = chr(65 + offset)
        table[0xFF41 + offset] = chr(97 + offset)
    table.update(dict.fromkeys((*range(0x1F300, 0x1FB00), 0x2764, 0x2665, 0x2661, 0x2728, 0x2B50, 0xFE0F), " "))  # little pictures adorn
    table[0x0D] = "\n"
    return table


_TABLE = _table()
_ARROW = Lazy(r"^[ \t]*→", re.M)  # one that points at a row; within a row it points at what comes of it
_PLUS = Lazy(r"(?<=[a-z)] )\+(?= (?:in )?(?:each|every|next|last|hdc|sp|dc in|sc in)\b)")  # "in 2nd ch from hook + each ch across"


def clean(text: str) -> str:
    """`text` with look-alikes made plain; as long as before, so that offsets into one are offsets into the other.

    Cyrillic and Greek look-alikes become Latin letters, all multiplication signs "x" or "*", short dashes "-", long dashes "—",
    closing quotes and primes ' and ", no-break and tab spaces plain spaces, invisible joiners a soft hyphen; line ends stay.

    >>> clean("Ос × 3\u00a0– 8")
    'Oc x 3 - 8'
    """
    if " + " in text:
        text = _PLUS.sub("&", text)
    if text.isascii() and "\t" not in text and "\\" not in text and text.isprintable():
        return text
    return (_ARROW.sub(lambda found: " " * len(found[0]), text) if "→" in text else text).translate(_TABLE)
