"""The label of a row: "Row 4 (WS):", "2nd Round.", "Rnd11-16:", "Sizes A and B only: next row:", "Fr-", "7." ...

`read_label` reads the label that begins at a place; labels in the middle of a paragraph are found by label_search.
"""

import re

from hookwright.ground import Number, PerSize

from .label import Label
from .label_bare import read_bare, read_bare_marked
from .label_every import AND_EVERY, every_of, rows_besides
from .label_numbers import ROW_WORD, read_numbers
from .label_sizes import read_restriction
from .label_tail import REMARK, SEPARATOR, SPACE, WORKS, read_tail, side_of
from .manuscript_words import REFERENCE_BEFORE
from .number_words import CARDINAL_PATTERN, ORDINAL_PATTERN, number_of
from .patterns import Lazy

KNOWN_NAMES = (
    r"foundation(?:\s+ch(?:ain)?)?(?:\s+and)?|foundn?|set[- ]?up|base|beading|edging|border|ribbing|rib|dec(?:rease)?|inc(?:rease)?|final|ridge|eyelet"
    r"|pattern|lace|mesh|closing|finishing|joining|turning|shell|dividing|transition|short|trim|plain|picot|preparation|starting|beginning|chain"
)
_OF_PIECE = Lazy(r"\s+of\s+(?:(?:the|each|your)\s+)?(?:(?-i:[A-Z])[\w' ]{1,24}?|(?!chart|sts?\b|stitch)[a-z]{3,14}(?:\s[a-z]{3,14})?)(?=\s*:)", re.I)
_OF_ALL = Lazy(r"\s+(?:out\s+)?of\s+\d{1,3}(?=\s*[:.–—-])|\s*[\(\[]\s*(?:out\s+)?of\s+\d{1,3}\s*[\)\]]", re.I)  # "Rnd 5 of 12:"
_OF_SLASH = Lazy(r"(?P<n>\d{1,3})/(?P<all>\d{1,3})(?=\s*(?:[:.)–—-]|\s))(?![\d/])")
_ROW_NUMBER = Lazy(rf"(?P<word>{ROW_WORD})\s*[.:]?\s*(?:#|no\.?|number|nr\.?)?\s*(?=\d|(?:{CARDINAL_PATTERN})(?![a-z]))", re.I)
_FROM_ROW = Lazy(rf"from\s+(?={ROW_WORD}\s*\d{{1,4}}\s*(?:[-–—]|to|through|thru|until|till)\s*(?:{ROW_WORD}\s*)?\d{{1,4}}\s*(?:,?\s*incl[a-z.]*\s*)?:)", re.I)
_IN_BRACKETS = Lazy(rf"[\(\[]\s*(?={ROW_WORD}\s*\d{{1,4}}(?:\s*(?:[-–—&,+]|and|to)\s*\d{{1,4}})*\s*[\)\]])", re.I)
_ROW_LETTER = Lazy(rf"(?P<word>{ROW_WORD})(?!\(s\))\s*(?:\(\s*(?P<inside>[a-z])\s*\)|(?P<letter>(?-i:[A-Z]))(?![\w']))", re.I)
_ORDINAL_START = Lazy(rf"(?:the\s+)?(?=\d|(?:{ORDINAL_PATTERN})(?![a-z]))", re.I)
_ROW_AFTER = Lazy(rf"\.?\s*(?P<word>{ROW_WORD})", re.I)
_R_AFTER = Lazy(r"\s?(?P<word>r)(?=\s*[.:)=–—-]|\s+[\d(\[*]|\s+(?:inc|dec|sc|dc|hdc|htr|tr|ch)\b)\.?", re.I)  # "3r: 18 sc", "4-6 r. (2 sc, inc) x 6"
_NEXT = Lazy(
    rf"(?P<which>next|last|final|following|previous)\s+(?:(?P<count>\d{{1,9}}|{CARDINAL_PATTERN})(?P<list>\s*[\(\[][\d\s,;/–—-]{{1,200}}[\)\]])?\s+)?"
    rf"(?P<side>(?:RS|WS|right side|wrong side)\s+)?(?P<word>{ROW_WORD})(?!\s*\d)",
    re.I,
)
_NAMED = Lazy(rf"(?P<name>[a-z][\w'’&/-]*(?:\s+[a-z&][\w'’&/-]*){{0,3}}?)(?:(?<=[dpi](?:ec|at|nc))\.|(?<=patt)\.|(?<=found)\.|(?<=foundn)\.)?\s+(?P<word>{ROW_WORD})(?P<gap>\s*)", re.I)  # "Dec. row:"
_ALL = Lazy(
    rf"(?:(?:all|every)\s+(?:the\s+)?(?:(?:remaining|other|following|foll)\s+)?|(?=(?:even|odd)(?:[- ]?numbered)?\s+{ROW_WORD}\s*[:.–—-]))(?P<which>other|even|odd|alternate|alt|second|2nd|ws|rs|wrong[- ]side|right[- ]side)"
    rf"(?:[- ]?numbered)?\s+(?P<word>{ROW_WORD})",
    re.I,
)
_COUNT_FIRST = Lazy(r"[(\[](?P<count>\s*\d{1,4}\s*(?:sts?|stitch(?:es)?|[a-z]{2,5})?\.?(?:\s+(?:each|in\s+each(?:\s+r\w+)?))?(?:\s*(?:,|\+|and|&)\s*(?:\d{1,4}\s*[a-z][a-z0-9 -]{1,16}|ch\s?\d+)){0,3}\s*)[)\]]\s*(?=r|\d{1,3}(?:st|nd|rd|th)\s)", re.I)  # "(18 sts) Row 2: ..."
_SIDE_FIRST = Lazy(r"[\(\[]?\s*(?P<side>RS|WS|right side|wrong side)\s*[\)\]]?\s*(?:[:,.–—-]\s*)?(?=\w)", re.I)
_SHORT_BASE = Lazy(r"(?:fr|fnd|f\.r\.)\s*(?P<sep>[-:–—)])\s*", re.I)


def is_round(word: str) -> bool:
    """True for round, rnd, rd in any form."""
    word = word.lower()
    return word.startswith(("rou", "rn", "rd", "go", "to", "ron", "ru", "vu", "va", "om", "gi"))


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
    start = at = SPACE.match(text, at, end).end()
    counted = _COUNT_FIRST.match(text, at, end) if text[at : at + 1] in ("(", "[") else None
    if counted:
        label = read_label(text, counted.end(), end, sizes=sizes, size_names=size_names)
        if label is not None and label.numbers and not label.bare:
            label.start, label.remarks = start, [*label.remarks, counted.span("count")]
            return label
    restriction = read_restriction(text, at, end, size_names)
    if restriction:
        at = restriction.end
    side_first = _SIDE_FIRST.match(text, at, end)
    label = None
    if side_first:
        label = _core(text, side_first.end(), end, sizes)
        if label and not label.bare:
            label.side = side_of(side_first["side"])
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
    read_tail(label, text, end, size_names)
    return label


def _core(text: str, at: int, end: int, sizes: int) -> Label | None:
    """The heart of a label: word and numbers, ordinal and word, Next row, a named row, a bare number."""
    bracket = _IN_BRACKETS.match(text, at, end)
    if bracket:
        label = _core(text, bracket.end(), end, 0)
        if label:
            label.start, label.end, label.firm, label.separator = at, SPACE.match(text, label.end, end).end() + 1, True, "."
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
            rows_besides(label, text, end)
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
        return read_bare(text, at, end)
    if first in ("(", "[", "#"):
        return read_bare_marked(text, at, end)
    found = _ALL.match(text, at, end)
    if found:
        return Label(at, found.end(), plain_word(found["word"]), name="", every=every_of(found["which"]))
    found = _NEXT.match(text, at, end)
    if found:
        which = found["which"].capitalize()
        label = Label(at, found.end(), plain_word(found["word"]), name="Next" if which == "Following" else which)
        if found["side"]:
            label.side = side_of(found["side"])
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
        every = AND_EVERY.match(text, numbers.end, end)
        if every and every["which"]:  # "4th and every even row:"
            label = Label(at, numbers.end, plain_word(every["word"]), numbers.numbers, numbers.last_number, first_number=numbers.first_number, too_long=numbers.too_long)
            rows_besides(label, text, end)
            return label
    found = _ROW_AFTER.match(text, numbers.end, end)
    if found and found["word"][0] in "rR" and len(found["word"].strip(".")) > 1:
        after = text[found.end() : found.end() + 1]
        if not numbers.ordinal:
            # "3 row:" is a label, "6 rows of sc" is not.
            separator = SEPARATOR.match(text, found.end(), end)
            remark = REMARK.match(text, found.end(), end)
            if not separator and not (remark and SEPARATOR.match(text, remark.end(), end)):
                return None
            if separator and separator["sep"].startswith((",", ";", "=")):
                return None  # "4 rnds = 2 in": a gauge
        if after.isdigit():
            return None
        label = Label(at, found.end(), plain_word(found["word"]), numbers.numbers, numbers.last_number, first_number=numbers.first_number, too_long=numbers.too_long)
        rows_besides(label, text, end)
        return label
    return None


_CHAINS_AT_ONCE = Lazy(r"ch(?:s|ains?)?\b|\s+ch(?:s|ains?)?\b(?=\s*(?:[,;(]|and\b))", re.I)  # "Foundation row 32ch, 1 tr into ...": no number of the row


_TEXTURED = Lazy(rf"(?:puff|bobble|popcorn|cluster|spike|v-?st(?:itch)?)(?:\s+st(?:itch)?)?\s+{ROW_WORD}(?:\s*\d{{1,3}})?\s*(?:\([^()\n]{{1,30}}\)\s*)?:", re.I)


def _named(text: str, at: int, end: int, sizes: int) -> Label | None:
    """A row with a name: "Foundation row", "Beading Rnd 26", "Decrease Row", "Foundation ch and row 1"."""
    found = _NAMED.match(text, at, end)
    if not found:
        return None
    words = found["name"].lower().split()
    known = re.fullmatch(KNOWN_NAMES, found["name"], re.I)
    if not known and any(word in REFERENCE_BEFORE for word in words):
        return None
    textured = _TEXTURED.match(text, at, end)  # "Puff row: ...": named after its stitch
    if not known and not textured and (any(WORKS.search(word) for word in words) or len(found["name"]) > 40):
        return None
    label = Label(at, found.end("word"), plain_word(found["word"]), name=" ".join(found["name"].split()))
    numbers = read_numbers(text, found.end(), end, sizes=sizes)
    if numbers and not numbers.ordinal and not _CHAINS_AT_ONCE.match(text, numbers.end, end):
        label.numbers, label.last_number, label.first_number, label.too_long = numbers.numbers, numbers.last_number, numbers.first_number, numbers.too_long
        label.end = numbers.end
        label.name = re.sub(r"\s+and$", "", label.name)
    if not known and not SEPARATOR.match(text, label.end, end):
        remark = REMARK.match(text, label.end, end)
        if not (remark and SEPARATOR.match(text, remark.end(), end)):
            return None
    return label


def _count(word: str, listed: str | None) -> Number | None:
    first = number_of(word)
    if not listed or first is None:
        return first
    values = [None if part in ("-", "–", "—") else int(part) for part in re.findall(r"\d{1,9}|(?<![\d])[-–—](?![\d])", listed)]
    return PerSize([first, *values]) if values else first
