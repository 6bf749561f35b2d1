"""The numbers of a row label: "3", "3-8", "5, 6 & 7", "4th & 5th", "5-12 (14, 16)", "Two"."""

import re
from dataclasses import dataclass

from hookwright.ground import Number, PerSize

from .number_words import CARDINAL_PATTERN, ORDINAL_PATTERN, number_of
from .patterns import Lazy

MOST_NUMBERS = 10_000  # rows one label may stand for: a scarf of 10,000 rows would be longer than 30 m

# The words of other languages that stay in translated patterns count as labels only before a number.
_OTHER_WORDS = r"(?:t(?:oer(?:en)?|ours?)|r(?:ondes?|unden?|ij(?:en)?|eihen?|angs?)|v(?:ueltas?|arv)|hileras?|omg(?:ang)?|gir[oi])(?=\.?\s?\d)"
ROW_WORD = rf"(?:(?:(?:go[- ])?rounds?|rows?|rnds?|rws?|rds?)(?![a-z])|{_OTHER_WORDS}|(?-i:R)(?=\.?\s?\d)|r(?=\.?\d))\.?"
_ONE = rf"(?:(?P<digits>\d{{1,15}})(?P<tail>-?(?:st|nd|rd|th)(?![a-z])|d(?![a-z]))?(?![\d])|(?P<word>{ORDINAL_PATTERN}|{CARDINAL_PATTERN})(?![a-z]))"
_ITEM = Lazy(_ONE, re.I)
_RANGE = Lazy(rf"\s*(?:[-–—]{{1,2}}|~(?=\s?r?\d)|\.{{2,3}}|…|to\b|thru\b|through\b|up to\b|(?:till|until)\b(?!\s*[\w-]+\s*(?:[\(\[][\d\s,;:/-]+[\)\]]\s*)?(?:rows?|rnds?|rounds?|sts?|stitches|cms?|mms?|ins?|inch\w*|[sh]?[sdh]?[dt]?[cr])\b))\s*(?:the\s+(?=\d))?(?:{ROW_WORD}\s*)?(?=\d|[a-z])", re.I)
_AND = Lazy(rf"\s*(?:,\s*and\b|,\s*&|,|and\b|&|\+|/)\s*(?:{ROW_WORD}\s*)?(?=\d|[a-z])", re.I)
_SIZES = Lazy(r"\s*[\(\[]\s*((?:\d{1,6}|-)(?:\s*[,;/–-]\s*(?:\d{1,6}|-))*)\s*[\)\]]")
_SIZE_ITEM = r"\d{1,6}(?:\s*[-–—]\s*\d{1,6})?|-"
_SIZE_RANGES = Lazy(rf"\s*[\(\[]\s*((?:{_SIZE_ITEM})(?:\s*[,;/]\s*(?:{_SIZE_ITEM})){{0,40}})\s*[\)\]]")
_SLASHED = Lazy(r"\d{1,6}(?:\s*[-–—]\s*\d{1,6})?(?:\s*/\s*\d{1,6}(?:\s*[-–—]\s*\d{1,6})?){1,40}(?![\d/])")
_TELLS_TIMES = Lazy(r"\s*(?:more\b|further\b|additional\b|times?\b|x\b)", re.I)
_INCLUSIVE = Lazy(r"\s*,?\s*(?:\(\s*inclusive\s*\)|incl(?:usive(?:ly)?)?\b\.?)", re.I)
_ENDS_WELL = Lazy(r"\s*(?:[:.;=>)\]\n,(\[*]|[-–—]|$)")
# A number followed by one of these counts stitches and not rows.
_COUNTS = Lazy(
    r"\s*(?:(?:[fb]p|e|f|r|i)?(?:sc|dc|hdc|htr|d?tr|ttr|trtr)\w*|chs?\b|chain|sts?\b|stitch|inc|dec|sl\b|ss\b|times\b|more\b|cl\b|clusters?\b"
    r"|single|double|half|treble|triple|slip|front|back|more\b|shells?|puffs?|bobbles?|popcorns?|pc\b|sps?\b|loops?\b|x\s*\d|cm\b|mm\b|inch|in\b(?!\s+(?:patt|colou?r|stripes?\b|the\s+(?:same|foll)|(?-i:[A-H]|MC|CC)\b))|\")",
    re.I,
)
# A word in small letters that does not begin a sentence of its own.
_ANY_WORD = Lazy(r"\s+(?!(?:rep|repeat|rpt|as|work|cont|continue|same|like|follow|rows?|rnds?|rounds?|rws?|rds?)\b)(?-i:[a-z])", re.I)


@dataclass(slots=True)
class LabelNumbers:
    """Numbers of a label and where they end; `ordinal` tells "3rd" from "3"; `too_long` a range past the limit."""

    numbers: tuple[int, ...]
    end: int
    last_number: Number | None = None
    first_number: Number | None = None  # where the first differs by size, too
    ordinal: bool = False
    too_long: bool = False
    ranged: bool = False


def read_numbers(text: str, at: int, end: int, *, sizes: int = 0, plural: bool = False) -> LabelNumbers | None:
    """The numbers that begin at `at`; None where there is none. Stops before a number that counts stitches.

    >>> read_numbers("3-5, 7 & 9: sc", 0, 14).numbers
    (3, 4, 5, 7, 9)
    """
    found = _ITEM.match(text, at, end)
    if not found:
        return None
    if sizes > 1 and "/" in text[at : at + 16]:
        slashed = _SLASHED.match(text, at, end)
        if slashed and slashed[0].count("/") + 1 == sizes:
            return _by_slashes(slashed)
    pieces = [(_value(found), None)]
    ends = [found.end()]
    ordinal = bool(found["tail"]) or (found["word"] is not None and number_of(found["word"]) is not None and _is_ordinal(found["word"]))
    position = found.end()
    while len(pieces) < 60:
        ranged = _RANGE.match(text, position, end)
        joint = ranged or _AND.match(text, position, end)
        following = joint and _ITEM.match(text, joint.end(), end)
        if not following:
            break
        if ranged and pieces[-1][1] is not None:
            if _value(following) != pieces[-1][0] + 1:
                break
            ranged = None  # "5-6-7" is a list
        if ranged:
            pieces.append((_value(following), pieces[-1][0]))
        else:
            pieces.append((_value(following), None))
        position = following.end()
        inclusive = ranged and "ncl" in text[position : position + 8] and _INCLUSIVE.match(text, position, end)
        ends.append(inclusive.end() if inclusive else position)
    # "Row 2 - 3 dc in next": the last number counts stitches, so the label ends before it.
    while len(pieces) > 1 and not _ENDS_WELL.match(text, ends[-1], end):
        spaced = " " in text[ends[-2] : ends[-1]].strip(" ") and pieces[-1][1] is not None
        counts = _COUNTS.match(text, ends[-1], end)
        if not counts and not (spaced and not plural and _ANY_WORD.match(text, ends[-1], end)):
            break
        if counts and plural and pieces[-1][1] is not None and not spaced:
            break
        pieces.pop()
        ends.pop()
    listed = _SIZES.match(text, ends[-1], end) if len(pieces) > 1 else None
    if listed and _TELLS_TIMES.match(text, listed.end(), end):  # "Row 2, 60 (64, 70) times more"
        pieces.pop()
        ends.pop()
    if len(pieces) > 1 and pieces[-1][1] is not None and pieces[-1][0] <= pieces[-1][1] and " " in text[ends[-2] : ends[-1]]:
        pieces.pop()
        ends.pop()
    result = LabelNumbers((), ends[-1], ordinal=ordinal)
    numbers: list[int] = []
    for value, first in pieces:
        if first is None:
            numbers.append(value)
            continue
        result.ranged = True
        if value < first:
            value = _shortened(first, value)
        if value < first:
            numbers.append(value)
        elif value - first > MOST_NUMBERS or len(numbers) + value - first > MOST_NUMBERS:
            result.too_long = True
        else:
            numbers.extend(range(first + 1, value + 1))
    if len(numbers) > MOST_NUMBERS:
        numbers, result.too_long = numbers[:MOST_NUMBERS], True
    result.numbers = tuple(numbers)
    if text[result.end : result.end + 2].lstrip()[:1] not in ("(", "["):
        return result
    if _take_ranges(result, text, end, sizes):
        return result
    _take_sizes(result, text, end, sizes)
    if isinstance(result.last_number, PerSize) and len(numbers) == 1:
        _sized_range(result, text, end, sizes)
    return result


def _by_slashes(found: re.Match) -> LabelNumbers | None:
    """ "Rnds 10-18/10-20/10-22", "Row 19/21/23": one for each size."""
    ends = [[int(number) for number in re.findall(r"\d+", item)] for item in found[0].split("/")]
    if any(not pair[0] <= pair[-1] <= pair[0] + MOST_NUMBERS for pair in ends):
        return None
    numbers = tuple(range(ends[0][0], ends[0][-1] + 1))
    made = LabelNumbers(numbers, found.end(), PerSize(pair[-1] for pair in ends), ranged=len(ends[0]) > 1)
    if made.ranged:
        made.first_number = PerSize(pair[0] for pair in ends)
    return made


def _sized_range(result: LabelNumbers, text: str, end: int, sizes: int) -> None:
    """ "Rows 12 (14, 16) - 20 (22, 24)": first and last differ by size."""
    joint = _RANGE.match(text, result.end, end)
    last = joint and _ITEM.match(text, joint.end(), end)
    if not last:
        return
    first, low, value = result.last_number, result.numbers[0], _value(last)
    further = LabelNumbers((value,), last.end())
    _take_sizes(further, text, end, sizes)
    lasts = further.last_number if isinstance(further.last_number, PerSize) else PerSize([value] * len(first))
    if not low <= value <= low + MOST_NUMBERS or len(lasts) != len(first):
        return
    result.numbers, result.last_number, result.end, result.ranged = tuple(range(low, value + 1)), lasts, further.end, True
    result.first_number = first


def _take_ranges(result: LabelNumbers, text: str, end: int, sizes: int) -> bool:
    """Takes "(3-6, 3-8)" after "Rows 3-4": each further size has its own first and last row."""
    if not result.numbers or result.numbers != tuple(range(result.numbers[0], result.numbers[-1] + 1)):
        return False
    found = _SIZE_RANGES.match(text, result.end, end)
    if not found or not re.search(r"\d\s*[-–—]", found[1]) or _TELLS_TIMES.match(text, found.end(), end):
        return False
    items = re.split(r"\s*[,;/]\s*", found[1])
    if sizes > 1 and len(items) + 1 != sizes:
        return False
    firsts, lasts = [result.numbers[0]], [result.numbers[-1]]
    for item in items:
        ends = [int(number) for number in re.findall(r"\d+", item)]
        if ends and not (ends[0] <= ends[-1] <= ends[0] + MOST_NUMBERS and abs(ends[0] - firsts[0]) <= 2000):
            return False
        firsts.append(ends[0] if ends else None)
        lasts.append(ends[-1] if ends else None)
    result.first_number, result.last_number, result.end, result.ranged = PerSize(firsts), PerSize(lasts), found.end(), True
    return True


def _take_sizes(result: LabelNumbers, text: str, end: int, sizes: int) -> None:
    """Takes "(14, 16)" after the last number as the last row number of the further sizes."""
    found = _SIZES.match(text, result.end, end)
    if not found or not result.numbers or _TELLS_TIMES.match(text, found.end(), end):
        return
    values = [None if part == "-" else int(part) for part in re.split(r"\s*[,;/–-]\s*", found[1]) if part]
    last = result.numbers[-1]
    one = len(values) == 1 and (found.start() != result.end - 0 or text[result.end : result.end + 1].isspace())
    if sizes > 1 and len(values) + 1 != sizes:
        return
    if sizes <= 1 and one and not result.ranged:
        return  # "Row 4 (24):" states a count
    if any(value is not None and not last - 2000 <= value <= last + 2000 for value in values):
        return
    result.last_number = PerSize([last, *values])
    result.end = found.end()


def _shortened(first: int, last: int) -> int:
    """ "Rows 118-24" may mean 118 to 124."""
    scale = 10 ** len(str(last))
    whole = first // scale * scale + last
    return whole if whole >= first and len(str(first)) > len(str(last)) and whole - first < 100 else last


def _value(found: re.Match) -> int:
    return int(found["digits"]) if found["digits"] else (number_of(found["word"]) or 0)


def _is_ordinal(word: str) -> bool:
    from .number_words import ORDINALS

    return " ".join(word.lower().split()) in ORDINALS
