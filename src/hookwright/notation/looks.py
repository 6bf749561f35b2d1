"""Does a line look like an instruction? Asked of lines without a label, and of what follows a doubtful one."""

import re

from .intervals import read_intervals
from .manuscript_words import PROSE_LEAD_INS, PROSE_STARTERS
from .number_words import ORDINAL_PATTERN
from .patterns import Lazy
from .spoken import past_telling

STITCH_WORD = (
    r"(?:(?:[fb]p|r[fb]|e|f|f[sp]|bl|fl|x|m|w)?(?:sc|dc|hdc|htr|tr|dtr|ttr|trtr|trc|htc)(?:\d?-?tog|bl|fl|blo|flo|inc|dec)?(?:'?s)?|sc\d?tog|[sdh]\.? ?(?:d\.? ?)?c|tr\.? c"
    r"|(?:single|double|treble|triple|half double|half treble|double treble|half-double|half-treble|single-|double-)\s*(?:crochets?|trebles?)?|trebles?|crochets?"
    r"|sl(?:ip)?[ -]?st(?:itch(?:es)?|s)?\.?|slst|ss|s\.s|chains?|chs?|inc(?:rease)?s?|dec(?:rease)?s?|invdec|cl(?:uster)?s?|puffs?|pufft?-?sts?|bobbles?|popcorns?|pop|pc"
    r"|shells?|fans?|v-?\s?sts?|picots?|picot|fsc|fdc|fhdc|rsc|bs|mb|stitch(?:es)?|sts?)"
)
_WORK = Lazy(
    rf"(?<![a-z])(?:ch|chain|chs)\s*-?\s*\d"
    rf"|\d\s*(?:(?:[a-z]{{2,4}}|foundation)\s)?{STITCH_WORD}(?![a-z])\.?\s*(?:in\b|into\b|to\b|on\b|around\b|across\b|over\b|along\b|evenly\b|for\s+(?:every|each)\b|together\b|tog\b|[,;.*)\]]|[(\[{{]\s*\d|$)"
    rf"|(?<![a-z\d-]){STITCH_WORD}(?![a-z])\.?\s*(?:in\b|into\b|in to\b|around\b|across\b|over\b|to end|each\b|next\b|evenly\b|along\b|-?\d)"
    rf"|\d\s*(?:ch|chain)s?(?![a-z])|r(?:ep(?:eat)?|pt)\.?\s*(?:from\s*)?\*|\*\s*to\s*\*"
    rf"|magic (?:ring|circle|loop)|adjustable ring|\b(?:in|on|with|make)\s+(?:a\s+)?(?:MR|MC|KA)\b|(?<![a-z])(?:MR|MC)\s*\d"
    rf"|[x×]\s*\d+\s*(?:\(|\[|$)|each (?:st|stitch|sc|dc|hdc|htr|tr|ch)\b|fasten off\s*[.!]?\s*$|(?:skip|sk|miss)\s+(?:next\s+)?\d"
    rf"|^[\s*]*(?:turn|join)\s*[.!]?\s*$|^\s*(?:rep|repeat|rpt|work)\s+(?:the\s+)?(?:last|previous|prev|rows?|rnds?|rounds?|r\d)\b|work(?:ing)? even|\d\s+(?:rows?|rounds?|rnds?)\s+(?:of|in)\s+{STITCH_WORD}|^\s*cont(?:inue)?\s+in\s+(?:rows|rounds|rnds|{STITCH_WORD})\b|in (?:est\w*\s+)?patt?(?:ern)?\b|(?<![a-z])patt?\.?\s+\d",
    re.I | re.M,
)
_FIRST_WORDS = Lazy(r"[\s*\"'(\[]*([A-Za-z.]+(?:'[a-z]+)?)(?:\s+([A-Za-z]+))?")
_LEAD_IN = Lazy(r"[\s*_(\[]*([A-Za-z.]+(?: [A-Za-z]+)?)\s*(?:[:\-–—]|\d?\s*:)")
_STARTS_WORK = Lazy(rf"\s*[*(\[{{|\"]*\s*(?:(?:now|then|next),?\s+(?:(?:you|we)(?:\s+will|'ll)?\s+)?(?:work\s+)?(?=[a-z]+\s*\d))?(?:\d+\s*(?:\([\d ,;/-]+\)\s*)?)?{STITCH_WORD}(?![a-z])", re.I)
_SEAMED = Lazy(rf"\s*(?:then\s+)?(?:{STITCH_WORD}|seam|join|sew|whipstitch)\s+(?:the|your|both|these|first)\b[^.;:*\d]{{3,60}}(?:\b(?:together|closed)\b|\b(?:to|and|with)\s+(?:the\s+)?(?:foundation|starting|beginning|first|other|opposite)\s+(?:ch(?:ain)?|row|edge|end)\b)(?![^\n]*\d)", re.I)  # "Sl st the first and last rows together"
_AGAIN = Lazy(
    r"[\s(\[*]*(?:then\s+)?(?:(?:cont(?:inue)?\.?|keep|carry\s+on)\s+(?:to\s+)?(?=rep|rpt))?(?:r(?:ep(?:eating(?=\s))?(?:eat)?|pt)|work)\.?\s+(?:the\s+)?(?:(?:(?:last|previous|these|those|first)(?!\s+(?:\w+\s+)?(?:steps?|instructions?|directions?|stitch(?:es)?|sts?|moves?|actions?)\b)|prev|preceding|above|next|both|prior)\b|[a-z0-9]+[\s-]+rows?\s+(?:patt|repeat|seq)|rows?\b|rnds?\b|rounds?\b|rds?\b|rws?\b|r\s?\d"
    rf"|(?:\d+(?:st|nd|rd|th)|{ORDINAL_PATTERN})(?![a-z])(?:\s*(?:and|to|through|thru|&|,|[-–])\s*(?:the\s+)?(?:\d+(?:st|nd|rd|th)|{ORDINAL_PATTERN})(?![a-z])){{0,6}}\s+(?:rows?|rnds?|rounds?)\b"
    r"|(?:dec(?:rease)?|inc(?:rease)?|(?:pattern|patt|set[- ]?up|foundation|eyelet|ridge|shell|mesh|lace|bobble|cable|base))\s+(?:rows?|rnds?|rounds?)\b(?!\s*[:\d]))"
    r"|\s*(?:then\s+)?(?:work|crochet|cont(?:inue)?)\s+(?:(?:a|for|another|further)\s+)*(?:\d{1,4}|[a-z]{3,9})\s*(?:[\(\[][\d\s,;/-]+[\)\]]\s*)?(?:more\s+)?(?:rows?|rnds?|rounds?)(?:\s+more)?\s*(?:,?\s*rep(?:eat)?ing\b|\s(?:even|straight|without|in\b|of\b|(?:exactly\s+|just\s+|the\s+)?(?:as|like|same\s+as)\s))"
    r"|\s*(?:cont(?:inue|inuing)?\.?|carry\s+on|go\s+on|proceed|keep(?:\s+on)?)\s+(?:(?:to\s+)?(?:dec|inc)\w*|in\s+(?:this|the\s+same|same|that)\s+(?:way|manner|fashion))[^.;\n]{0,120}?\b(?:until|till|for\s+(?:a\s+further\s+|another\s+)?(?:\d|two|three|four|five|six|seven|eight|nine|ten))\b"
    r"|\s*(?:work|cont(?:inue)?)\s+(?:even|straight)\b(?!ly)",
    re.I,
)
# "So now we just keep repeating rows 2 and 3 until ...", "From here, you'll repeat ...": talk before what is repeated.
_CHAT = Lazy(
    r"\s*(?:(?:so|now|and|then|okay|ok|great|next|finally|simply|just|easy|from\s+here(?:\s+on)?|from\s+now\s+on|after\s+that|at\s+this\s+point|all\s+(?:that's\s+left|you\s+(?:have|need)\s+to\s+do(?:\s+now)?)\s+(?:to\s+do\s+)?is(?:\s+to)?)\b\s*[,:]?\s+"
    r"|(?:we|you|i)(?:'ll|'re|\s+will|\s+are|\s+can|\s+need\s+to|\s+have\s+to|\s+want\s+to)?\s+(?:(?:be|now|just|simply|going\s+to|then|only|basically)\s+)*)+(?=(?:keep|rep|cont|carry)[a-z]*\s)",
    re.I,
)


def after_talk(text: str, start: int, end: int) -> int:
    """Where the words that repeat rows begin after a chatty start ("Now you'll just repeat Rows 2 and 3 ..."); `start` where there is none."""
    found = _CHAT.match(text, start, end)
    return found.end() if found and works_again(text, found.end(), end) else start


def looks_like_work(text: str, start: int, end: int) -> bool:
    """True where the words hold at least one thing to be worked ("ch 30", "sc in next", "6 hdc")."""
    return bool(_WORK.search(text, start, min(end, start + 4000)))


def starts_like_work(text: str, start: int, end: int) -> bool:
    """True where the words begin with a stitch or a number of stitches."""
    return bool(_STARTS_WORK.match(text, start, end))


def starts_like_prose(text: str, start: int, end: int) -> bool:
    """True where the first word belongs to talk about the work ("The", "You", "Note that", "Measure")."""
    if is_seam(text, start, end):
        return True
    found = _FIRST_WORDS.match(text, start, end)
    if not found or past_telling(text, start, end) > start:  # "So we chain 24."
        return False
    first = found[1].lower().rstrip(".")
    if first in PROSE_STARTERS:
        # "Each" and "All" may begin an instruction of their own kind; "a" may be colour A.
        return not (first == "a" and found[1] == "A")
    return bool(found[2]) and f"{first} {found[2].lower()}" in PROSE_STARTERS


def is_seam(text: str, start: int, end: int) -> bool:
    """True for words that close a piece without working into it stitch by stitch: "Sl st the first and last rows together"."""
    return bool(_SEAMED.match(text, start, end))


def is_lead_in(text: str, start: int, end: int) -> bool:
    """True for "Note:", "Tip -", "NB:" at the start."""
    found = _LEAD_IN.match(text, start, end)
    return bool(found) and found[1].lower().strip(". ") in PROSE_LEAD_INS


def works_again(text: str, start: int, end: int) -> bool:
    """True where the words tell to repeat whole rows ("Rep last row", "Repeat Rows 2 and 3"), or to shape some of them at intervals."""
    return bool(_AGAIN.match(text, start, end)) or read_intervals(text, start, end) is not None
