"""The label of a row: "Row 4 (WS):", "2nd Round.", "Rnd11-16:", "Sizes A and B only: next row:", "Fr-", "7." ...

`read_label` reads the label that begins at a place; labels in the middle of a paragraph are found by label_search.
"""

import re

from hookwright.ground import Number, PerSize

from .label import Label
from .label_numbers import ROW_WORD, read_numbers
from .label_sizes import SIZE_ONLY, read_restriction, sizes_meant, split_size_names
from .manuscript_words import REFERENCE_BEFORE
from .number_words import CARDINAL_PATTERN, ORDINAL_PATTERN, number_of
from .patterns import Lazy

KNOWN_NAMES = (
    r"foundation(?:\s+ch(?:ain)?)?(?:\s+and)?|found|set[- ]?up|base|beading|edging|border|ribbing|rib|dec(?:rease)?|inc(?:rease)?|final|ridge|eyelet"
    r"|pattern|lace|mesh|closing|finishing|joining|turning|shell|dividing|transition|short|trim|plain|picot|preparation|starting|beginning|chain"
)
_OF_PIECE = Lazy(r"\s+of\s+(?:(?:the|each|your)\s+)?(?:(?-i:[A-Z])[\w' ]{1,24}?|(?!chart|sts?\b|stitch)[a-z]{3,14}(?:\s[a-z]{3,14})?)(?=\s*:)", re.I)
_OF_ALL = Lazy(r"\s+(?:out\s+)?of\s+\d{1,3}(?=\s*[:.–—-])|\s*[\(\[]\s*(?:out\s+)?of\s+\d{1,3}\s*[\)\]]", re.I)  # "Rnd 5 of 12:"
_OF_SLASH = Lazy(r"(?P<n>\d{1,3})/(?P<all>\d{1,3})(?=\s*(?:[:.)–—-]|\s))(?![\d/])")
_SPACE = Lazy(r"\s*")
_ROW_NUMBER = Lazy(rf"(?P<word>{ROW_WORD})\s*[.:]?\s*(?:#|no\.?|number|nr\.?)?\s*(?=\d|(?:{CARDINAL_PATTERN})(?![a-z]))", re.I)
_FROM_ROW = Lazy(rf"from\s+(?={ROW_WORD}\s*\d{{1,4}}\s*(?:[-–—]|to|through|thru|until|till)\s*(?:{ROW_WORD}\s*)?\d{{1,4}}\s*(?:,?\s*incl[a-z.]*\s*)?:)", re.I)
_IN_BRACKETS = Lazy(rf"[\(\[]\s*(?={ROW_WORD}\s*\d{{1,4}}(?:\s*(?:[-–—&,+]|and|to)\s*\d{{1,4}})*\s*[\)\]])", re.I)
_ROW_LETTER = Lazy(rf"(?P<word>{ROW_WORD})\s*(?:\(\s*(?P<inside>[a-z])\s*\)|(?P<letter>(?-i:[A-Z]))(?![\w']))", re.I)
_ORDINAL_START = Lazy(rf"(?:the\s+)?(?=\d|(?:{ORDINAL_PATTERN})(?![a-z]))", re.I)
_ROW_AFTER = Lazy(rf"\.?\s*(?P<word>{ROW_WORD})", re.I)
_R_AFTER = Lazy(r"\s?(?P<word>r)(?=\s*[.:)=–—-]|\s+[\d(\[*]|\s+(?:inc|dec|sc|dc|hdc|htr|tr|ch)\b)\.?", re.I)  # "3r: 18 sc", "4-6 r. (2 sc, inc) x 6"
_NEXT = Lazy(
    rf"(?P<which>next|last|final|following|previous)\s+(?:(?P<count>\d{{1,9}}|{CARDINAL_PATTERN})(?P<list>\s*[\(\[][\d\s,;/–—-]{{1,200}}[\)\]])?\s+)?"
    rf"(?P<side>(?:RS|WS|right side|wrong side)\s+)?(?P<word>{ROW_WORD})(?!\s*\d)",
    re.I,
)
_NAMED = Lazy(rf"(?P<name>[a-z][\w'’&/-]*(?:\s+[a-z&][\w'’&/-]*){{0,3}}?)\s+(?P<word>{ROW_WORD})(?P<gap>\s*)", re.I)
_ALL = Lazy(
    rf"(?:(?:all|every)\s+(?:the\s+)?(?:(?:remaining|other|following|foll)\s+)?|(?=(?:even|odd)(?:[- ]?numbered)?\s+{ROW_WORD}\s*[:.–—-]))(?P<which>other|even|odd|alternate|alt|second|2nd|ws|rs|wrong[- ]side|right[- ]side)"
    rf"(?:[- ]?numbered)?\s+(?P<word>{ROW_WORD})",
    re.I,
)
_AND_EVERY = Lazy(
    rf"\s*[,(]?\s*(?:and|&|plus)\s+(?:(?:on|for)\s+)?(?:all|every|each)\s+(?:the\s+)?(?:(?:foll(?:owing)?|subsequent)\s+)?"
    rf"(?P<which>other|second|2nd|alternate|alt|even|odd|following|ws|rs|wrong[- ]side|right[- ]side|subsequent)?(?:[- ]?numbered)?\s*(?P<word>{ROW_WORD})"
    rf"(?P<after>\s+(?:thereafter|after|following|onwards?|from here))?(?:\s*(?:to|through|thru|until|up to)\s*(?:{ROW_WORD}\s*)?(?P<until>\d{{1,7}})(?!\d|\s*[\(\[]|\s*(?:-\s*\d+\s*)*[a-z])|\s*,?\s*(?P<goal>until\s[^:;.\n]{{3,80}}(?::\d+[^:;.\n]{{0,40}})*)(?=\s*:))?\s*\)?",
    re.I,
)
_ONWARD = Lazy(r"\s*(?:\+|and\s+(?:up|on|onwards?)\b|onwards?\b|and so on)", re.I)
_SIDE_FIRST = Lazy(r"[\(\[]?\s*(?P<side>RS|WS|right side|wrong side)\s*[\)\]]?\s*(?:[:,.–—-]\s*)?(?=\w)", re.I)
_SIDE = Lazy(r"(?<![a-z])(?P<side>RS|WS|right[- ]side|wrong[- ]side)(?![a-z])", re.I)
_SIDE_WORD = Lazy(r"\s*[,–—-]?\s*(?P<side>(?-i:RS|WS)|right side|wrong side)(?![a-z])(?=\s*[:.,;=–—-])", re.I)
_REMARK = Lazy(r"\s*[\(\[](?P<inner>[^()\[\]\n]{0,200}(?:\([^()\n]{0,80}\)[^()\[\]\n]{0,100})?)[\)\]]", re.I)
_SEPARATOR = Lazy(r"\s*(?P<sep>(?:[:=;>!]|\)(?!\s*x\s*\d)|[.](?!\d)|[,](?=\s)|[-–—]{1,2}(?!\d*\s*[,)]))(?:\s*[:.=>–—-])?)\s*")
_BARE = Lazy(
    r"(?P<list>\d{1,4}(?:\s*[-–—]\s*\d{1,4}(?:\s*[\(\[]\d{1,4}(?:\s*[,;/]\s*\d{1,4}){0,12}[\)\]])?|(?:\s*[,&]\s*\d{1,4}){1,8})?)\s*(?P<sep>[.)](?!\d)\s*-?|[:>]\s*|[-–—](?=\s*[a-z(\[*{|\d])|,(?=\s))\s*(?=\S)", re.I
)
_BARE_MARKED = Lazy(r"(?:[\(\[](?P<list>\d{1,3}(?:\s*[-–—]\s*\d{1,3})?)[\)\]]\s*[:.–—-]?|#\s?(?P<hash>\d{1,3}(?:\s*[-–—]\s*\d{1,3})?)\s*[:.)–—-]|(?P<slash>\d{1,3})/(?=\s))\s*(?=[a-z\d(\[*])", re.I)  # "(4) sc in each st", "#4: ...", "4/ ..."
_BARE_SPACE = Lazy(r"(?P<list>\d{1,3})\s+(?=\d|[\(\[{*|]|(?:inc|dec|sc|dc|hdc|htr|tr|ch)\b)", re.I)
_GROUP_TIMES = Lazy(r"\s*[\(\[{](?=[^()\[\]{}]*[a-z])[^()\[\]{}]{1,200}[\)\]}]\s*(?:[x×*]\s*\d|\d{1,4}\s*(?:times|x\b))", re.I)
_SHORT_BASE = Lazy(r"(?:fr|fnd|f\.r\.)\s*(?P<sep>[-:–—)])\s*", re.I)
_WORKS = Lazy(
    r"\d\s*(?:sts?|sc|dc|hdc|htr|tr|ch)\b|\b(?:sc|dc|hdc|htr|d?tr|ttr|ch|sl st|ss|sk|skip|miss|slst|inv dec|puff|bobble|shell|v-?st|fpdc|bpdc)\b|\bst\b", re.I
)
_BEFORE_SIZES = Lazy(r"\s*(?P<mark>[,–—-])?\s*(?=(?P<for>for\s)?(?:sizes?|all|only|for|two|three|first|last|(?-i:[2-9]?X{0,4}[SML]))(?![a-z]))", re.I)
_NUMBER_REMARK = Lazy(rf"\s*(?P<word>{ROW_WORD})\s*(?P<first>\d{{1,4}})(?:\s*[-–—]\s*(?P<last>\d{{1,4}}))?\s*(?:[,;–—-]?\s*(?P<side>RS|WS|right side|wrong side))?\s*", re.I)
_INC_REMARK = Lazy(r"\s*(?:inc|dec)\w*\.?\s*(?:row|rnd|round|rd)?\.?\s*", re.I)
_TAIL_OF_REPEAT = Lazy(r"\s*(?:[x×*]\s*\d|\d+\s*(?:times|x\b|more)|rep|in\b|into\b|around|across|to\b|twice|once|all\b|from\b|until)", re.I)


def is_round(word: str) -> bool:
    """True for round, rnd, rd in any form."""
    word = word.lower()
    return word.startswith(("rou", "rn", "rd", "go"))


def plain_word(word: str) -> str:
    """ "Round" / "Row" / "" (R alone says neither)."""
    word = word.strip(". \t").lower()
    if word == "r" or not word:
        return ""
    return "Round" if is_round(word) else "Row"


def read_label(text: str, at: int, end: int, *, sizes: int = 0, size_names: tuple[str, ...] = ()) -> Label | None:
    """The label that begins at `at` (spaces before it allowed), or None.

    Whether what follows is indeed an instruction is for the caller to weigh where `firm` is False.

    >>> label = read_label("Rnds 3-5 (RS): sc around", 0, 24)
    >>> label.word, label.numbers, label.side, label.end
    ('Round', (3, 4, 5), 'RS', 15)
    """
    start = at = _SPACE.match(text, at, end).end()
    restriction = read_restriction(text, at, end, size_names)
    if restriction:
        at = restriction.end
    side_first = _SIDE_FIRST.match(text, at, end)
    label = None
    if side_first:
        label = _core(text, side_first.end(), end, sizes)
        if label and not label.bare:
            label.side = _side(side_first["side"])
        else:
            label = None
    if label is None:
        label = _core(text, at, end, sizes)
    if label is None:
        if restriction:
            restriction.start = start
            return restriction
        return None
    label.start = start
    if restriction:
        label.only, label.all_sizes = restriction.only, restriction.all_sizes
    _tail(label, text, end, size_names)
    return label


def _core(text: str, at: int, end: int, sizes: int) -> Label | None:
    """The heart of a label: word and numbers, ordinal and word, Next row, a named row, a bare number."""
    bracket = _IN_BRACKETS.match(text, at, end)
    if bracket:
        label = _core(text, bracket.end(), end, 0)
        if label:
            label.start, label.end, label.firm, label.separator = at, _SPACE.match(text, label.end, end).end() + 1, True, "."
            return label
    if text[at : at + 5].lower() == "from ":
        lead = _FROM_ROW.match(text, at, end)
        at = lead.end() if lead else at
    found = _ROW_NUMBER.match(text, at, end)
    if found:
        word = found["word"]
        if sizes < 2 and "/" in text[found.end() : found.end() + 4]:
            of_all = _one_of(text, found, end)
            if of_all:
                return Label(at, of_all.end(), plain_word(word), (int(of_all["n"]),))
        numbers = read_numbers(text, found.end(), end, sizes=sizes, plural=word.rstrip(".").lower().endswith("s"))
        if numbers:
            label = Label(at, numbers.end, plain_word(word), numbers.numbers, numbers.last_number, first_number=numbers.first_number, too_long=numbers.too_long)
            of_piece = _OF_PIECE.match(text, label.end, end)
            if of_piece:
                label.end = of_piece.end()
            of_all = _OF_ALL.match(text, label.end, end) if len(label.numbers) == 1 else None
            if of_all:
                label.end = of_all.end()
            _second_numbering(label, text, end)
            return label
    first = text[at : at + 1]
    found = _ROW_LETTER.match(text, at, end)
    if found:
        letter = (found["inside"] or found["letter"]).lower()
        return Label(at, found.end(), plain_word(found["word"]), name=f"Row ({letter})", letter=letter)
    found = _ORDINAL_START.match(text, at, end)
    if found:
        label = _ordinal(text, found.end(), end, sizes)
        if label:
            return label
    if first.isdigit():
        return _bare(text, at, end)
    if first in ("(", "[", "#"):
        return _bare_marked(text, at, end)
    found = _ALL.match(text, at, end)
    if found:
        return Label(at, found.end(), plain_word(found["word"]), name="", every=_every(found["which"]))
    found = _NEXT.match(text, at, end)
    if found:
        which = found["which"].capitalize()
        label = Label(at, found.end(), plain_word(found["word"]), name="Next" if which == "Following" else which)
        if found["side"]:
            label.side = _side(found["side"])
        if found["count"]:
            label.count_of_rows = _count(found["count"], found["list"])
        return label
    found = _SHORT_BASE.match(text, at, end)
    if found:
        return Label(at, found.start("sep"), "", name="Foundation")
    return _named(text, at, end, sizes)


def _one_of(text: str, found: re.Match, end: int) -> re.Match | None:
    """ "Rnd 5/12:": the fifth of twelve, where the second number is far off or other rows are of as many; "Rows 2/4:" are two rows."""
    of_all = _OF_SLASH.match(text, found.end(), end)
    if not of_all or found["word"].strip(". ").lower().endswith("s"):
        return None
    number, all_of = int(of_all["n"]), int(of_all["all"])
    others = len(set(re.findall(rf"(?<![a-z])(?:{ROW_WORD})\s*(\d{{1,3}})/{all_of}(?![\d/])", text[:200_000], re.I)))
    return of_all if number <= all_of and (others > 2 or others == 2 and number > 1 or all_of > number + 2 and number > 1) else None


def _second_numbering(label: Label, text: str, end: int) -> None:
    """ "Row 5 (Round 3):" and "Rnd 5 / Row 3:" keep the first number; nothing to do but step over a plural number word."""
    onward = _ONWARD.match(text, label.end, end)
    if onward:
        label.every, label.end = "onward", onward.end()
        return
    found = _AND_EVERY.match(text, label.end, end)
    if found:
        which = (found["which"] or "").lower()
        label.every = _every(which) if which and which not in ("following", "subsequent") else "onward"
        if label.every == "alternate" and label.numbers:
            label.every = "even" if label.numbers[-1] % 2 == 0 else "odd"
        if found["until"]:
            label.every_until = int(found["until"])
        if found["goal"]:
            label.goal = found.span("goal")
        label.end = found.end()


def _ordinal(text: str, at: int, end: int, sizes: int) -> Label | None:
    """ "4th & 5th Rounds", "10-15 row", "Third round", "5. Round 3"."""
    numbers = read_numbers(text, at, end, sizes=sizes)
    if not numbers:
        return None
    if not numbers.ordinal:
        # "5. Round 3:" has two numberings: the one with the word counts.
        double = re.compile(rf"\s*[.):]\s*(?={ROW_WORD}\s*\d)", re.I).match(text, numbers.end, end)
        if double:
            return _core(text, double.end(), end, sizes)
    short = _R_AFTER.match(text, numbers.end, end) if text[numbers.end : numbers.end + 2].lstrip()[:1] in ("r", "R") else None
    if short:
        return Label(at, short.end(), "", numbers.numbers, numbers.last_number, first_number=numbers.first_number, too_long=numbers.too_long)
    if numbers.ordinal and numbers.ranged and len(numbers.numbers) > 1 and text[numbers.end : numbers.end + 1] == ":":  # "sixth through eleventh: ..."
        return Label(at, numbers.end, "", numbers.numbers, numbers.last_number, first_number=numbers.first_number, too_long=numbers.too_long)
    if numbers.ordinal:
        every = _AND_EVERY.match(text, numbers.end, end)
        if every and every["which"]:  # "4th and every even row:"
            label = Label(at, numbers.end, plain_word(every["word"]), numbers.numbers, numbers.last_number, first_number=numbers.first_number, too_long=numbers.too_long)
            _second_numbering(label, text, end)
            return label
    found = _ROW_AFTER.match(text, numbers.end, end)
    if found and found["word"][0] in "rR" and len(found["word"].strip(".")) > 1:
        after = text[found.end() : found.end() + 1]
        if not numbers.ordinal:
            # "3 row:" is a label, "6 rows of sc" is not.
            separator = _SEPARATOR.match(text, found.end(), end)
            remark = _REMARK.match(text, found.end(), end)
            if not separator and not (remark and _SEPARATOR.match(text, remark.end(), end)):
                return None
            if separator and separator["sep"].startswith((",", ";", "=")):
                return None  # "4 rnds = 2 in": a gauge
        if after.isdigit():
            return None
        label = Label(at, found.end(), plain_word(found["word"]), numbers.numbers, numbers.last_number, first_number=numbers.first_number, too_long=numbers.too_long)
        _second_numbering(label, text, end)
        return label
    return None


def _bare(text: str, at: int, end: int) -> Label | None:
    """A number with no word: "7." "7)" "7:" "7-" "7>"."""
    found = _BARE.match(text, at, end)
    if found:
        numbers = read_numbers(text, at, found.end("list"))
        if numbers and numbers.end == found.end("list") and numbers.numbers and numbers.numbers[0] > 0:
            label = Label(at, found.end(), "", numbers.numbers, numbers.last_number, first_number=numbers.first_number, bare=True, too_long=numbers.too_long)
            label.firm, label.separator = True, found["sep"].strip()
            return label
    return _bare_marked(text, at, end)


def _bare_marked(text: str, at: int, end: int) -> Label | None:
    """A number in a mark of its own: "(4) sc in each st", "#4: sc", "4/ sc"."""
    found = _BARE_MARKED.match(text, at, end)
    which = found and next(name for name in ("list", "hash", "slash") if found[name])
    numbers = read_numbers(text, found.start(which), found.end(which)) if found else None
    if not numbers or numbers.end != found.end(which) or numbers.numbers[0] < 1 or _TAIL_OF_REPEAT.match(text, found.end(), end):
        return None
    label = Label(at, found.end(), "", numbers.numbers, numbers.last_number, first_number=numbers.first_number, bare=True, too_long=numbers.too_long)
    label.firm, label.separator = True, ")"
    return label


def read_spaced_number(text: str, at: int, end: int) -> Label | None:
    """A bare number and then nothing, "12 48 sc": a label only where the rows before and after say so."""
    at = _SPACE.match(text, at, end).end()
    found = _BARE_SPACE.match(text, at, end)
    if not found:
        return None
    return Label(at, found.end(), "", (int(found["list"]),), bare=True)


_CHAINS_AT_ONCE = Lazy(r"ch(?:s|ains?)?\b|\s+ch(?:s|ains?)?\b(?=\s*(?:[,;(]|and\b))", re.I)  # "Foundation row 32ch, 1 tr into ...": no number of the row


def numbers_a_group(text: str, label: Label, end: int) -> bool:
    """True for "10 (7 sc, inc) x 6 (54)": the group says itself how often it is worked, so the number before it is the row's."""
    return bool(_GROUP_TIMES.match(text, label.end, end))


def _named(text: str, at: int, end: int, sizes: int) -> Label | None:
    """A row with a name: "Foundation row", "Beading Rnd 26", "Decrease Row", "Foundation ch and row 1"."""
    found = _NAMED.match(text, at, end)
    if not found:
        return None
    words = found["name"].lower().split()
    known = re.fullmatch(KNOWN_NAMES, found["name"], re.I)
    if not known and any(word in REFERENCE_BEFORE for word in words):
        return None
    if not known and (any(_WORKS.search(word) for word in words) or len(found["name"]) > 40):
        return None
    label = Label(at, found.end("word"), plain_word(found["word"]), name=" ".join(found["name"].split()))
    numbers = read_numbers(text, found.end(), end, sizes=sizes)
    if numbers and not numbers.ordinal and not _CHAINS_AT_ONCE.match(text, numbers.end, end):
        label.numbers, label.last_number, label.first_number, label.too_long = numbers.numbers, numbers.last_number, numbers.first_number, numbers.too_long
        label.end = numbers.end
        label.name = re.sub(r"\s+and$", "", label.name)
    if not known and not _SEPARATOR.match(text, label.end, end):
        remark = _REMARK.match(text, label.end, end)
        if not (remark and _SEPARATOR.match(text, remark.end(), end)):
            return None
    return label


def _tail(label: Label, text: str, end: int, size_names: tuple[str, ...]) -> None:
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
    for _ in range(5):
        if not label.firm:
            word = _SIDE_WORD.match(text, at, end)
            if word:
                label.side, at = _side(word["side"]), word.end()
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
        separator = _SEPARATOR.match(text, at, end)
        again = label.firm and label.separator not in ("", ".") and not remarks
        if separator and not again and (not label.firm or separator["sep"][0] in ".:-–—="):
            remarks = 0
            label.firm = True
            label.separator += separator["sep"].strip()
            at = separator.end()
            continue
        break
    label.end = _SPACE.match(text, at, end).end()


def _remark(text: str, at: int, end: int, *, strict: bool) -> re.Match | None:
    """A comment in brackets, told from a group or a repeat; strict after the separator, where a group is likelier."""
    found = _REMARK.match(text, at, end)
    if not found:
        return None
    inner = found["inner"]
    if _TAIL_OF_REPEAT.match(text, found.end(), end):
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
    plain = words and len(words) <= 6 and not any(word.isdigit() for word in words) and not _WORKS.search(inner)
    if plain and not strict and not re.fullmatch(r"\s*(?:inc|dec)\s*", inner, re.I):
        return found
    if plain and strict and re.search(r"\b(?:rows?|rounds?|rnds?|side)\b", inner, re.I):
        return found
    return None


def _number_remark(label: Label, text: str, at: int, end: int) -> re.Match | None:
    """ "Next rnd (Rnd 5):": the number of a row that is told by its place."""
    found = _REMARK.match(text, at, end) if label.name in ("Next", "Last", "Final", "Previous") and not label.numbers else None
    return found if found and _NUMBER_REMARK.fullmatch(found["inner"]) else None


def _sizes_remark(text: str, at: int, end: int, size_names: tuple[str, ...]) -> re.Match | None:
    """ "(sizes M and L)", "(M, L)": a comment that names sizes and nothing else."""
    if not size_names or text[at : at + 2].lstrip()[:1] not in ("(", "["):
        return None
    found = _REMARK.match(text, at, end)
    return found if found and not _TAIL_OF_REPEAT.match(text, found.end(), end) and _sizes_told(found["inner"], size_names) else None


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
        label.side = label.side or (_side(number["side"]) if number["side"] else "")
        return found.end()
    side = _SIDE.search(inner)
    rest = inner
    if side and not label.side:
        label.side = _side(side["side"])
        rest = _SIDE.sub("", inner, count=1)
    only = re.fullmatch(r"\s*(?:for\s+)?(?P<word>sizes?\s+)?(?P<names>.*?)\s*\bonly\s*", inner, re.I)
    names = split_size_names(only["names"], size_names) if only else ()
    if only and (only["word"] or (names and all(name in size_names for name in names))):
        label.only = names
        rest = ""
    told = _sizes_told(inner, size_names) if size_names and not (label.only and all(name in size_names for name in label.only)) else ()
    if told:
        label.only, rest = told, ""
    every = _AND_EVERY.fullmatch(f" {inner.strip()}") if re.match(r"\s*(?:and|&)", inner, re.I) else None
    if every and not label.every:
        which = (every["which"] or "").lower()
        label.every = _every(which) if which and which not in ("following", "subsequent") else "onward"
        if label.every == "alternate" and label.numbers:
            label.every = "even" if label.numbers[-1] % 2 == 0 else "odd"
        rest = ""
    if re.search(r"\w", rest):
        label.remarks.append((found.start("inner"), found.end("inner")))
    return found.end()


def _every(which: str) -> str:
    which = which.lower().replace("-", " ")
    if which in ("even", "odd"):
        return which
    if which in ("ws", "wrong side"):
        return "WS"
    if which in ("rs", "right side"):
        return "RS"
    return "alternate"


def _side(word: str) -> str:
    return "RS" if word.strip().lower().startswith("r") else "WS"


def _count(word: str, listed: str | None) -> Number | None:
    first = number_of(word)
    if not listed or first is None:
        return first
    values = [None if part in ("-", "–", "—") else int(part) for part in re.findall(r"\d{1,9}|(?<![\d])[-–—](?![\d])", listed)]
    return PerSize([first, *values]) if values else first
