"""How many sizes a text has, where nobody says: from its size lists."""

import re
from collections import Counter

from .number_words import CARDINAL_PATTERN, number_of
from .patterns import Lazy

# "36 (40, 46)", "12 (13-14-15-16)", "8 [10, 12]", "60(64, 68)", "two (three, -)"; dashes stand for sizes that skip the step.
_VALUE = rf"(?:\d{{1,5}}(?:[.,]\d{{1,2}})?(?: ?\d/\d|[½¼¾])?|-|—|{CARDINAL_PATTERN})"
_BRACKETS = Lazy(
    rf"[\(\[]\s*(?P<inner>{_VALUE}(?:\s*(?:,|-|;|/)\s*{_VALUE}){{0,40}})\s*[\)\]](?P<more>(?:\s*[\(\[]\s*{_VALUE}(?:\s*,\s*{_VALUE}){{0,40}}\s*[\)\]]){{0,4}})(?P<after> *[^\s.]{{0,12}})",
    re.I,
)
_SLASHED = Lazy(r"(?<![\w./])\d{1,4}(?:/\d{1,4}){1,20}(?=\s*(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|d?tr|chs?|rows?|rnds?|rounds?|more|times)\b)", re.I)
_DASHES = Lazy(r"\d-\d{1,4}-\d")
_DASHED = Lazy(r"(?<![\w./-])(?<!rows )(?<!rnds )(?<!rounds )\d{1,4}(?:-\d{1,4}){2,20}(?![\w-])", re.I)
_DASHED_AND_SPACE = Lazy(r"(?<![\w./-])\d{1,4}(?:-\d{1,4}){2,20}(?![\w-]) ?", re.I)
_FIRST = Lazy(rf"(?<![\w.])(?:\d{{1,5}}|{CARDINAL_PATTERN})\s?$", re.I)
_UNIT_AFTER = Lazy(r" *(?:sts?|stitch|sc|dc|hdc|htr|d?tr|chs?|rows?|rnds?|rounds?|cm|in|mm)(?![a-z])|\"", re.I)
_SPLIT = Lazy(r"\s*[,;]\s*|\s*/\s*")

_SEVERAL_ROWS = Lazy(
    rf"[ \t>*#]*(?:(?:rows?|rnds?|rounds?|r)\b\.? ?(?:(?P<first>\d{{1,4}}) ?(?:-|to|through|thru) ?(?P<last>\d{{1,4}})(?![\w.])|(?P<list>\d{{1,4}}(?:, ?\d{{1,4}})* ?,? ?(?:and|&) ?\d{{1,4}}))"
    rf"|(?:for )?(?:the )?(?:next|foll(?:owing)?) (?P<next>\d{{1,2}}|{CARDINAL_PATTERN}) (?:rows|rnds|rounds)\b)",
    re.I,
)
_SHAPED = Lazy(r"\b(?:inc|dec)|tog\b|together\b|\b(?:2|two)\s+\w+\s+in\b|\b(?:more|fewer|less)\b", re.I)
_LINE_ENDS = Lazy(r" ?(?:sts?|stitches|[sdh]d?c|htr|tr)?\.? ?[)\]]?\.? *(?:\n|$)", re.I)


def count_sizes(work: str, start: int, end: int) -> int:
    """The number of sizes that the size lists in the text agree on; 0 where there are none.

    >>> count_sizes("Ch 36 (40, 46). 1 sc in each ch. 35 (39, 45) sc.", 0, 50)
    3
    """
    lengths: Counter = Counter()
    position = start
    for found in _BRACKETS.finditer(work, start, min(end, start + 400_000)):
        if not _FIRST.search(work, max(position, found.start() - 14), found.start()):
            continue
        position = found.end()
        length = _length(found)
        if length and not (length > 2 and _one_a_row(work, found, length)):
            lengths[length] += 1
    if not lengths:
        return _slashed_sizes(work, start, end)
    (best, seen), *others = sorted(lengths.items(), key=lambda item: (-item[1], -item[0]))
    if best == 2 and seen == 1:
        # One "8 (10)" alone may be a count after a number.
        return 0
    return best


def _one_a_row(work: str, found: re.Match, length: int) -> bool:
    """Whether the list gives one count a row: "Rows 2-4: ... 2 sc in last st. 22 (24, 26) sts" is shaped, of as many rows, and ends the line."""
    line = work.rfind("\n", 0, found.start()) + 1
    label = _SEVERAL_ROWS.match(work, line, found.start())
    if label is None:
        return False
    if label["first"]:
        rows = int(label["last"]) - int(label["first"]) + 1
    else:
        rows = number_of(label["next"]) if label["next"] else len(re.findall(r"\d+", label["list"]))
    return rows == length and _SHAPED.search(work, label.end(), found.start()) is not None and _LINE_ENDS.match(work, found.end("more")) is not None


def _slashed_sizes(work: str, start: int, end: int) -> int:
    """The number of sizes where lists are written "60/66/72 tr"; 0 where fewer than three such lists are as long as each other."""
    lengths = Counter(found[0].count("/") + 1 for found in _SLASHED.finditer(work, start, min(end, start + 400_000))) if "/" in work else Counter()
    best, seen = max(lengths.items(), key=lambda item: item[1], default=(0, 0))
    return best if seen >= 3 else _dashed_sizes(work, start, end)


def _dashed_sizes(work: str, start: int, end: int) -> int:
    """The number of sizes where lists are written "60-66-72 sts"; 0 where fewer than three lists of three or more are as long as each other."""
    if not _DASHES.search(work, start, end):
        return 0
    lengths = Counter(found[0].count("-") + 1 for found in _DASHED.finditer(work, start, min(end, start + 400_000)))
    best, seen = max(lengths.items(), key=lambda item: item[1], default=(0, 0))
    return best if seen >= 3 else 0


def dashes_as_lists(work: str, start: int, number: int) -> str:
    """`work` with "60-66-72 sts" written "60(66,72)sts", as long as before, where that many sizes are listed so; other texts as they are."""
    if number < 3 or _dashed_sizes(work, start, len(work)) != number:
        return work

    def listed(found: re.Match) -> str:
        numbers = found[0].strip().split("-")
        return f"{numbers[0]}({','.join(numbers[1:])})" if len(numbers) == number and found[0].endswith(" ") else found[0]

    return work[:start] + _DASHED_AND_SPACE.sub(listed, work[start:])


def chains_by_size(work: str, start: int) -> str:
    """`work` with "Size S: ch 21. Size M: ch 25." written "Ch 21 (25) sts.", as long as before; other texts as they are.

    >>> chains_by_size("Size S: ch 21. Size M: ch 25.", 0)
    'Ch 21 (25) sts.              '
    """
    if not (_NEAR_A_SIZE.search(work, start) and _CHAIN_OF_A_SIZE.search(work, start)):
        return work

    def listed(found: re.Match) -> str:
        first, *rest = (int(one["n"]) for one in _CHAIN_OF_A_SIZE.finditer(found[0]))
        if any(number < first for number in rest):
            return found[0]  # not from the smallest size on
        words = f"Ch {first} ({', '.join(map(str, rest))}) sts."
        return words.ljust(len(found[0])) if len(words) <= len(found[0]) else found[0]

    return work[:start] + _CHAINS_OF_SIZES.sub(listed, work[start:])


def _length(found: re.Match) -> int:
    parts = _SPLIT.split(found["inner"].strip())
    if len(parts) == 1:
        dashed = re.split(r"\s*-\s*", found["inner"].strip())
        parts = dashed if len(dashed) > 1 and all(part.strip() for part in dashed) else parts
    if len(parts) == 1 and not _UNIT_AFTER.match(found["after"]):
        return 0  # "inc 6 (18)" is a number and then a count
    length = 1 + len(parts)
    for group in re.findall(r"[\(\[]([^()\[\]]*)[\)\]]", found["more"] or ""):
        length += len(_SPLIT.split(group.strip()))
    return length if length <= 60 else 0


def restricted_count(work: str, start: int, end: int) -> int:
    """The length of a list in brackets alone, "(92-96) sts": the sizes a restricted row is for."""
    found = re.compile(r"(?<![\d\w])[\(\[](\d{1,5}(?:\s*[-,]\s*\d{1,5}){1,20})[\)\]]").search(work, start, end)
    return len(re.split(r"\s*[-,]\s*", found[1])) if found else 0


_SIZE_LINE = Lazy(
    r"^[ \t>*#-]*(?:(?:available |made )?(?:in )?(?:the following )?(?:sizes?|sizing|size range|finished sizes?)|to fit(?: sizes?)?)\b(?: (?:included|available|given|are))?[ \t]*(?:[:=—-]|\n+)?[ \t*]*(?P<names>[^\n]{2,200})$", re.I | re.M
)
_ONE_SIZE = r"(?:[2-9]?X{0,4}-?[SML]|(?:extra[ -]?|x-?)?(?:small|large)|medium|baby|infant|toddler|child(?:ren)?(?:'s)?|kids?|teen(?:ager)?|youth|adult|woman|women|man|men|ladies|mens|womens|newborn|preemie|preteen|tween|junior|little|big)"
_KNOWN_SIZE = rf"{_ONE_SIZE}(?:[ /]{_ONE_SIZE}){{0,2}}"
_MEASURED = Lazy(r"^(?:to\s+fit\s+)?(?:an?\s+)?(?:actual\s+)?(?:approx\w*\.?\s+)?(?:bust|chest|bust/chest|chest/bust|head|waist|hips?|foot|feet|hand|ages?|years?|shoe|wrist)\s*(?:sizes?|circumference|length|measurement)?\s*[:=]?\s*(?=\d)", re.I)  # "To fit bust 81 [86:91]"
_BARE_LINE = Lazy(rf"^[ \t>*-]*{_KNOWN_SIZE}(?:\s*[,;/(\[]\s*{_KNOWN_SIZE}){{1,12}}\s*[)\]]?[ \t*.]*$", re.I | re.M)
_COLUMN_LINE = Lazy(rf"^[ \t>*•-]*(?P<name>{_KNOWN_SIZE})(?:[ \t]*[:=–—-]|[ \t]*\((?=\d)|[ \t]+(?=\d)|[ \t]{{2,}}|[ \t]+to\s+fit\b)[^\n]{{0,80}}$", re.I | re.M)
_NAME = r"(?:\d{1,2} ?- ?\d{1,2}(?: [A-Za-z]{1,8})?|[A-Za-z0-9][\w/+½ ]{0,24}?)"
_NAMES_IN_BRACKETS = Lazy(rf"(?P<first>{_NAME})\s*[\(\[](?P<rest>[^()\[\]]{{1,160}})[\)\]]")
_SPREAD = Lazy(r"(?:(?:age|chest|bust|head|foot)s?[ \t]+)?(?P<names>[\dXSML][\w/-]{0,6}(?:[ \t]{2,}[\dXSML][\w/-]{0,6}){1,12})(?:[ \t]+(?:yrs?|years?|months?|mos?|cm|in|ins))?", re.I)
_UNIT = Lazy(r"(?:cms?|mms?|ins?|inch(?:es)?|years?|yrs?|months?|mths?|\"|sizes?)\.?", re.I)
_OF_A_SIZE = rf"(?:for[ \t]+)?(?:the[ \t]+)?(?:sizes?[ \t]+[\w/-]{{1,12}}(?:[ \t]+only)?[ \t]*[:,=–-]?|{_ONE_SIZE}[ \t]*[:=–-])[ \t]*ch(?:ain)?s?[ \t]*(?P<n>\d{{1,4}})(?![\w(])(?:[ \t]*sts?)?[ \t]*(?:[.,;]|(?=\n|$))"
_CHAIN_OF_A_SIZE = Lazy(rf"(?<![\w-]){_OF_A_SIZE}", re.I)
_CHAINS_OF_SIZES = Lazy(rf"(?<![\w-]){_OF_A_SIZE.replace('?P<n>', '')}(?:[ \t]*(?:and[ \t]+)?{_OF_A_SIZE.replace('?P<n>', '')}){{1,11}}", re.I)
_NEAR_A_SIZE = Lazy(r"[zZ][eE][^\n.;]{1,24}[cC][hH]")  # a quick look whether any chain stands beside a size
_AFTER_NAME = Lazy(r"\s+(?:yrs?|years?(?: old)?|mos?|months?|old|sizes?)\.?$", re.I)


def _named(name: str) -> str:
    """A size's name without what may be left out of it; "3-6 months" says nothing without its months."""
    bare = _AFTER_NAME.sub("", name)
    return bare if re.search(r"[A-Za-z]", bare) else name


def size_names_in(work: str, start: int, number: int) -> tuple[str, ...]:
    """The names of the sizes where a line of the text gives them: "Sizes: S (M, L)", "SIZES" and below it "Baby (Child, Adult)".

    number: how many sizes the lists of the text have (0: not known). Empty where no line gives as many names.

    >>> size_names_in("Sizes: S (M-L-XL)", 0, 4)
    ('S', 'M', 'L', 'XL')
    """
    for found in _SIZE_LINE.finditer(work, start, min(len(work), start + 20_000)):
        words = _MEASURED.sub("", found["names"].strip(" .*"))
        listed = _NAMES_IN_BRACKETS.match(words)
        if listed:
            rest = listed["rest"]
            parts = re.split(r"\s*[,;]\s*", rest) if re.search(r"[,;]", rest) else re.split(r"\s*-\s*|\s+/\s+", rest)
            names = [listed["first"], *parts]
        else:
            names = re.split(r"\s*,\s*(?:and\s+)?|\s+and\s+|\s*;\s*", words)
            if len(names) == 1 and number > 1 and words.count("/") == number - 1:
                names = words.split("/")
            if len(names) == 1 and number > 2 and words.count("-") == number - 1:
                names = words.split("-")
            if len(names) == 1 and number > 1:  # a table: "To fit   Child   Lady   Man"
                columns = [part for part in re.split(r"\s{2,}|\t", words) if part and not _UNIT.fullmatch(part)]
                names = columns if len(columns) == number else names
            elif len(names) == 1 and number > 1 and (spread := _SPREAD.fullmatch(words)):
                names = spread["names"].split()  # "To fit age   2   4   6   years"
        names = [_named(name.strip(" .*")) for name in names]
        if len(names) < 2 or any(not 0 < len(name) <= 24 for name in names) or len({name.lower() for name in names}) != len(names):
            continue
        if number and len(names) != number:
            continue
        if not number and not listed and not all(re.fullmatch(r"(?:[2-9]?X{0,4}[SML]|X{1,4}L|small|medium|large|x-?large|baby|child|adult|\w+)", name, re.I) for name in names):
            continue
        if number or all(re.fullmatch(r"[2-9]?X{0,4}-?[SML]|small|medium|large|extra large|baby|toddler|child|teen|adult|woman|man|newborn", name, re.I) for name in names):
            return tuple(names)
    return _bare_names(work, start, number)


def _bare_names(work: str, start: int, number: int) -> tuple[str, ...]:
    """ "small [medium, large]" on a line by itself: names that are those of sizes and nothing else."""
    for found in _BARE_LINE.finditer(work, start, min(len(work), start + 4_000)):
        names = [name.strip() for name in re.split(r"[,;/()\[\]]", found[0]) if name.strip()]
        if len(names) == number and len({name.lower() for name in names}) == number:
            return tuple(names)
    return _column_of_names(work, start, number)


def _column_of_names(work: str, start: int, number: int) -> tuple[str, ...]:
    """One size a line with what it measures: "Child   18 in", "Woman: 51 cm", as many lines below each other as there are sizes."""
    names: list[str] = []
    after = -1
    for found in _COLUMN_LINE.finditer(work, start, min(len(work), start + 12_000)):
        if found.start() != after:
            if len(names) == number > 1:
                break
            names = []
        names.append(found["name"].strip())
        after = found.end() + 1
    return tuple(names) if len(names) == number > 1 and len({name.lower() for name in names}) == number else ()
