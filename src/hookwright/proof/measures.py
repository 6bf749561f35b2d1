"""Measures in her prose that are given in two units side by side."""

import re
from dataclasses import dataclass
from functools import cache

from hookwright.ground import Span

from .tables import table

_GLYPH = {"¼": 0.25, "½": 0.5, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875, "⅓": 1 / 3, "⅔": 2 / 3}
_FRACTION = "[¼½¾⅛⅜⅝⅞⅓⅔]"
_NUMBER = rf"(?:\d+(?:[.,]\d+)?(?:(?:[ -]\d/\d{{1,2}})| ?{_FRACTION})?|\d/\d{{1,2}}|{_FRACTION})"
_ONE = rf"(?:{_NUMBER}(?: ?(?:[-–]|to) ?{_NUMBER})?)"
_LIST = rf"(?:{_ONE}(?: ?[(\[]{_ONE}(?:, ?{_ONE})*[)\]])?)"


@dataclass(frozen=True, slots=True)
class Pair:
    """One measure in two units: the values (one a size, or one), the words of the units, what it measures."""

    first: tuple[float, ...]
    first_unit: str
    second: tuple[float, ...]
    second_unit: str
    of: str  # "length", "yardage", "weight"
    span: Span
    ranges: bool = False  # then each size has two values, low and high


@cache
def _units() -> dict[str, str]:
    """Unit word -> what it measures, in which base value."""
    return {word: of for of, entry in table("units").items() if isinstance(entry, dict) for word in entry["units"]}


@cache
def _pattern() -> re.Pattern:
    words = sorted(_units(), key=len, reverse=True)
    unit = "(?:" + "|".join(re.escape(word) for word in words) + r")(?![A-Za-z])"
    between = r"(?:[(\[/,=~]|or |approx\.? |about )+ ?(?:approx\.? |about |~|= ?)?"
    return re.compile(rf"(?<![\w.,/])(?P<a>{_LIST})[ -]?(?P<u>{unit})(?:\.(?! +(?-i:[A-Z])))? ?{between}(?P<b>{_LIST})[ -]?(?P<v>{unit})", re.IGNORECASE)


@cache
def _near_unit() -> re.Pattern:
    """A number with a unit behind it: without one there is no measure, and this is told much sooner than the whole pattern."""
    words = sorted(_units(), key=len, reverse=True)
    firsts = re.escape("".join(sorted({word[0] for word in words})))  # tried before the words: most letters begin none
    return re.compile(rf"[\d¼½¾⅛⅜⅝⅞⅓⅔\])][ -]?(?=[{firsts}])(?:{'|'.join(re.escape(word) for word in words)})(?![A-Za-z])", re.IGNORECASE)


def value(text: str) -> float:
    """A number as written, with fractions.

    >>> value("4 1/2"), value("17½"), value("2,5")
    (4.5, 17.5, 2.5)
    """
    text = text.strip()
    total = 0.0
    for glyph, part in _GLYPH.items():
        if glyph in text:
            total += part
            text = text.replace(glyph, "")
    fraction = re.search(r"(\d)/(\d{1,2})$", text)
    if fraction:
        total += int(fraction[1]) / int(fraction[2]) if int(fraction[2]) else 0
        text = text[: fraction.start()].rstrip(" -")
    return total + (float(text.replace(",", ".")) if text.strip() else 0)


def pairs(text: str, offset: int = 0):
    """Every measure given in two units that measure the same thing.

    >>> [(pair.first, pair.second_unit) for pair in pairs("about 12 in (30 cm) wide")]
    [((12.0,), 'cm')]
    """
    if _near_unit().search(text) is None:
        return
    for found in _pattern().finditer(text):
        first_unit, second_unit = found["u"].lower(), found["v"].lower()
        of = _units().get(first_unit)
        if of is None or of != _units().get(second_unit) or factor(first_unit) == factor(second_unit):
            continue
        first, second = _values(found["a"]), _values(found["b"])
        ranges = len(first) > len(re.findall(_ONE, found["a"]))
        if ranges != (len(second) > len(re.findall(_ONE, found["b"]))):
            continue  # one figure beside a range
        yield Pair(first, first_unit, second, second_unit, of, Span(offset + found.start(), offset + found.end("v")), ranges)


def factor(unit: str) -> float:
    """What one of the unit is in the base of its table."""
    return table("units")[_units()[unit]]["units"][unit]


def _values(words: str) -> tuple[float, ...]:
    return tuple(value(number) for number in re.findall(_NUMBER, words))
