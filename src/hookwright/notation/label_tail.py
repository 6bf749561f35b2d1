"""What follows the core of a label: remarks in brackets, the side that faces, sizes, and the colon or other separator."""

import re

from .label import Label
from .label_every import AND_EVERY, every_of
from .label_numbers import ROW_WORD
from .label_sizes import SIZE_ONLY, read_restriction, sizes_meant, split_size_names
from .looks import STITCH_WORD, looks_like_work, starts_like_prose
from .patterns import Lazy

SPACE = Lazy(r"\s*")
_SIDE = Lazy(r"(?<![a-z])(?P<side>RS|WS|right[- ]side|wrong[- ]side)(?![a-z])", re.I)
_SIDE_WORD = Lazy(r"\s*[,–—-]?\s*(?P<side>(?-i:RS|WS)|right side|wrong side)(?![a-z])(?=\s*[:.,;=–—-])", re.I)
REMARK = Lazy(r"\s*[\(\[](?P<inner>[^()\[\]\n]{0,200}(?:\([^()\n]{0,80}\)[^()\[\]\n]{0,100})?)[\)\]]", re.I)
SEPARATOR = Lazy(r"\s*(?P<sep>(?:[:=;>!]|\)(?!\s*x\s*\d)|[.](?!\d)|[,](?=\s)|[-–—]{1,2}(?!\d*\s*[,)]))(?:\s*[:.=>–—-])?)\s*")
WORKS = Lazy(
    r"\d\s*(?:sts?|sc|dc|hdc|htr|tr|ch)\b|\b(?:sc|dc|hdc|htr|d?tr|ttr|ch|sl st|ss|sk|skip|miss|slst|inv dec|puff|bobble|shell|v-?st|fpdc|bpdc)\b|\bst\b", re.I
)
_BEFORE_SIZES = Lazy(r"\s*(?P<mark>[,–—-])?\s*(?=(?P<for>for\s)?(?:sizes?|all|only|for|two|three|first|last|(?-i:[2-9]?X{0,4}[SML]))(?![a-z]))", re.I)
_NUMBER_REMARK = Lazy(rf"\s*(?P<word>{ROW_WORD})\s*(?P<first>\d{{1,4}})(?:\s*[-–—]\s*(?P<last>\d{{1,4}}))?\s*(?:[,;–—-]?\s*(?P<side>RS|WS|right side|wrong side))?\s*", re.I)
_TOLD = Lazy(r",\s*(?P<inner>[A-Za-z][A-Za-z' !-]{2,36}):\s*(?=\S)")  # "Row 6, super easy: ..."
_NO_REMARK = Lazy(r"(?:with|using|in|change|join|rep|rpt|as|same|work|for|size|sizes|repeat|RS|WS|right|wrong)\b", re.I)
_INC_REMARK = Lazy(r"\s*(?:inc|dec)\w*\.?\s*(?:row|rnd|round|rd)?\.?\s*", re.I)
_SENTENCE = Lazy(r"(?:\s+(?:is|will\s+be)|'s)\s+(?P<said>(?!(?:all\s+|also\s+|just\s+)*(?:worked|made|crocheted|repeated|done|joined|the\s+same|same|as|like|identical|exactly|similar|now\s+complete|complete|finished)\b)[a-z][a-z', -]{2,60}?)\s*(?P<stop>[:!]|[.,](?=\s))\s*", re.I)
_ASIDE = Lazy(r"\s*[,—-]\s*(?:and\s+)?(?:(?:this|that|it|which|here)(?:'s|\s+is|\s+will\s+be)|(?=the\s))\s*(?P<said>(?!(?:all\s+|also\s+|just\s+)*(?:worked|made|crocheted|the\s+same|same|as|like)\b)[a-z][a-z', -]{2,50}?)\s*(?P<stop>[:!])\s*", re.I)
_JUST = Lazy(r"(?:just|so|it's|only|simply|nothing\s+but|with)\b", re.I)
_ANY_STITCH = Lazy(rf"(?<![a-z])(?:{STITCH_WORD}|(?:singles|doubles|crocheting|slip\s+stitching))(?![a-z])", re.I)
TAIL_OF_REPEAT = Lazy(r"\s*(?:[x×*]\s*\d|\d+\s*(?:times|x\b|more)|rep|in\b|into\b|around|across|to\b|twice|once|all\b|from\b|until)", re.I)


def read_tail(label: Label, text: str, end: int, size_names: tuple[str, ...]) -> None:
    """Reads comments, sides and separators after the core."""
    at = label.end
    if text[at - 1 : at] == "." and not label.bare:
        label.firm, label.separator = True, "."
    if label.bare:
        found = _remark(text, at, end, strict=True)
        if found:
            at = _take_remark(label, text, found, size_names)
            label.end = at
        return
    remarks = 0
    if not label.firm and (text[at : at + 3].lower() in (" is", "'s ", " wi") or text[at : at + 2] in (", ", " -", " \u2014")):
        at = _past_sentence(label, text, at, end)
    for _ in range(5):
        if not label.firm:
            word = _SIDE_WORD.match(text, at, end)
            if word:
                label.side, at = side_of(word["side"]), word.end()
                continue
            lead = _BEFORE_SIZES.match(text, at, end)
            only = SIZE_ONLY.match(text, lead.end(), end) if lead else None
            if only and only.start("names") - at < 18:
                label.only, at, label.firm = sizes_meant(only["names"] + " sizes", size_names) or split_size_names(only["names"], size_names), only.end(), True
                continue
            told = read_restriction(text, lead.end(), min(end, at + 90), size_names) if lead and size_names and (lead["mark"] or lead["for"]) else None
            if told and told.only and (told.end < end or told.end == at + 90):
                label.only, at, label.firm, label.separator = told.only, told.end, True, ":"
                continue
        remark = _number_remark(label, text, at, end) or _remark(text, at, end, strict=label.firm) or _sizes_remark(text, at, end, size_names)
        if remark:
            at = _take_remark(label, text, remark, size_names)
            remarks += 1
            continue
        told = _TOLD.match(text, at, end) if not label.firm and text[at : at + 1] == "," else None
        if told and not WORKS.search(told["inner"]) and not _NO_REMARK.match(told["inner"]):
            label.remarks.append(told.span("inner"))
            label.firm, label.separator, at = True, ":", told.end()
            continue
        separator = SEPARATOR.match(text, at, end)
        again = label.firm and label.separator not in ("", ".") and not remarks
        if separator and not again and (not label.firm or separator["sep"][0] in ".:-–—="):
            remarks = 0
            label.firm = True
            label.separator += separator["sep"].strip()
            at = separator.end()
            continue
        break
    label.end = SPACE.match(text, at, end).end()


def _past_sentence(label: Label, text: str, at: int, end: int) -> int:
    """Where the work begins after a sentence about the row: "Round four is the easy one! Dc in each st", "Row 3 is simple, just hdc across"; `at` where none is."""
    found = (_ASIDE if text[at : at + 2] in (", ", " -", " \u2014") else _SENTENCE).match(text, at, end)
    if not found or WORKS.search(found["said"]):
        return at
    plain = found["stop"] in ".," and not (found["stop"] == "," and _JUST.match(text, found.end(), end))
    if plain and (starts_like_prose(text, found.end(), end) or not looks_like_work(text, found.end(), end)) or not _ANY_STITCH.search(text, found.end(), end):
        return at
    label.remarks.append((found.start("said"), found.end("said")))
    label.firm, label.separator = True, ":"
    return found.end()


def _remark(text: str, at: int, end: int, *, strict: bool) -> re.Match | None:
    """A comment in brackets, told from a group or a repeat; strict after the separator, where a group is likelier."""
    found = REMARK.match(text, at, end)
    if not found:
        return None
    inner = found["inner"]
    if TAIL_OF_REPEAT.match(text, found.end(), end):
        return None
    if _SIDE.search(inner) and len(inner) < 60:
        return found
    if re.fullmatch(r"\s*(?:size|sizes)\b.*\bonly\s*|[\w/ ,&+-]{1,40}\bonly\s*", inner, re.I):
        return found
    if _INC_REMARK.fullmatch(inner) and re.search(r"r(?:ow|n?d|ound)", inner, re.I):
        return found
    if re.match(r"\s*(?:n\.?b\.?|note|hint|tip|this row only|this (?:row|round|rnd))\b", inner, re.I):
        return found
    followed = re.match(r"\s*[:=]|\s*[-–—]\s", text[found.end() : found.end() + 4])
    if not strict and followed:
        return found
    words = re.sub(r"[^\w\s]", " ", inner).split()
    plain = words and len(words) <= 6 and not any(word.isdigit() for word in words) and not WORKS.search(inner)
    if plain and not strict and not re.fullmatch(r"\s*(?:inc|dec)\s*", inner, re.I):
        return found
    if plain and strict and re.search(r"\b(?:rows?|rounds?|rnds?|side)\b", inner, re.I):
        return found
    return None


def _number_remark(label: Label, text: str, at: int, end: int) -> re.Match | None:
    """ "Next rnd (Rnd 5):": the number of a row that is told by its place."""
    found = REMARK.match(text, at, end) if label.name in ("Next", "Last", "Final", "Previous") and not label.numbers else None
    return found if found and _NUMBER_REMARK.fullmatch(found["inner"]) else None


def _sizes_remark(text: str, at: int, end: int, size_names: tuple[str, ...]) -> re.Match | None:
    """ "(sizes M and L)", "(M, L)": a comment that names sizes and nothing else."""
    if not size_names or text[at : at + 2].lstrip()[:1] not in ("(", "["):
        return None
    found = REMARK.match(text, at, end)
    return found if found and not TAIL_OF_REPEAT.match(text, found.end(), end) and _sizes_told(found["inner"], size_names) else None


def _sizes_told(inner: str, size_names: tuple[str, ...]) -> tuple[str, ...]:
    """The sizes that a comment names, with the word "size" or by names that are no plain numbers."""
    if len(inner) > 80:
        return ()
    names = sizes_meant(inner, size_names)
    return names if names and (re.search(r"size|only", inner, re.I) or all(not name.isdigit() for name in names) and not re.search(r"\d", inner)) else ()


def _take_remark(label: Label, text: str, found: re.Match, size_names: tuple[str, ...]) -> int:
    inner = found["inner"]
    number = _NUMBER_REMARK.fullmatch(inner) if not label.numbers else None
    if number:
        first, last = int(number["first"]), int(number["last"] or number["first"])
        label.numbers = tuple(range(first, last + 1)) if first <= last <= first + 500 else (first,)
        label.side = label.side or (side_of(number["side"]) if number["side"] else "")
        return found.end()
    side = _SIDE.search(inner)
    rest = inner
    if side and not label.side:
        label.side = side_of(side["side"])
        rest = _SIDE.sub("", inner, count=1)
    only = re.fullmatch(r"\s*(?:for\s+)?(?P<word>sizes?\s+)?(?P<names>.*?)\s*\bonly\s*", inner, re.I)
    names = split_size_names(only["names"], size_names) if only else ()
    if only and (only["word"] or (names and all(name in size_names for name in names))):
        label.only = names
        rest = ""
    told = _sizes_told(inner, size_names) if size_names and not (label.only and all(name in size_names for name in label.only)) else ()
    if told:
        label.only, rest = told, ""
    every = AND_EVERY.fullmatch(f" {inner.strip()}") if re.match(r"\s*(?:and|&)", inner, re.I) else None
    if every and not label.every:
        which = (every["which"] or "").lower()
        label.every = every_of(which) if which and which not in ("following", "subsequent") else "onward"
        if label.every == "alternate" and label.numbers:
            label.every = "even" if label.numbers[-1] % 2 == 0 else "odd"
        rest = ""
    if re.search(r"\w", rest):
        label.remarks.append((found.start("inner"), found.end("inner")))
    return found.end()


def side_of(word: str) -> str:
    """ "RS" or "WS", however the side is written."""
    return "RS" if word.strip().lower().startswith("r") else "WS"
