"""Lengths and amounts as written: "44 (48, 54) cm", "38-42 cm", "12 (13-14)\" [30.5 (33-35.5) cm]", "3 1/2 in", "4½"."""

import re
from dataclasses import dataclass

from .patterns import Lazy

MM_OF = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "yd": 914.4, "ft": 304.8}  # the inch is 25.4 mm exactly: international yard and pound agreement of 1959
_UNIT_WORDS = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm", "cm": "cm", "cms": "cm", "centimetre": "cm", "centimetres": "cm",
    "centimeter": "cm", "centimeters": "cm", "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "in": "in", "ins": "in", "inch": "in",
    "inches": "in", '"': "in", "''": "in", "”": "in", "″": "in", "yd": "yd", "yds": "yd", "yard": "yd", "yards": "yd", "ft": "ft", "foot": "ft", "feet": "ft",
}
_FRACTIONS = {"½": 1 / 2, "⅓": 1 / 3, "⅔": 2 / 3, "¼": 1 / 4, "¾": 3 / 4, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8, "⅕": 1 / 5, "⅖": 2 / 5, "⅗": 3 / 5, "⅘": 4 / 5, "⅙": 1 / 6, "⅚": 5 / 6}
_VULGAR = "".join(_FRACTIONS)
NUMBER = rf"(?:\d{{1,7}}[ -]\d{{1,2}}/\d{{1,2}}|\d{{1,2}}/\d{{1,2}}|\d{{1,7}}(?:[.,]\d{{1,4}}(?!\d))?[{_VULGAR}]|\d{{1,9}}(?:\.\d{{1,6}})?|[{_VULGAR}]|\.\d{{1,4}})"
_NUMBER = Lazy(NUMBER)
_RANGE = Lazy(rf"(?P<low>{NUMBER})(?:\s*(?:-|–|—|\bto\b)\s*(?P<high>{NUMBER}))?")
_BRACKET = Lazy(r"\s*[\(\[](?P<inner>[^()\[\]\n]{0,300})[\)\]]")
_UNIT = Lazy(r"""\s*-?\s*(?P<unit>millimet(?:re|er)s?|centimet(?:re|er)s?|met(?:re|er)s?|inches|inch|yards?|yds?|feet|foot|ft|cms?|mm|ins?(?![a-z])|m|"|''|”|″)(?![a-z])\.?""", re.I)
_OTHER_UNIT = Lazy(r"\s*(?:[/=]\s*(?:approx\.?\s*)?|[\[\(]\s*(?:approx\.?\s*|about\s*)?)(?=[\d½¼¾.])")


@dataclass(slots=True)
class Amounts:
    """Values one a size (low, high), None for a dash; where they end; the unit in mm, None where none is written."""

    values: tuple
    end: int
    unit_mm: float | None = None
    unit: str = ""

    def in_mm(self) -> tuple:
        """The values in mm, rounded to a thousandth."""
        scale = self.unit_mm or 1.0
        return tuple(None if value is None else (round(value[0] * scale, 3), round(value[1] * scale, 3)) for value in self.values)


def number_value(words: str) -> float:
    """The value of a written number.

    >>> number_value("3 1/2"), number_value("4½"), number_value("2.5"), number_value("1-1/4")
    (3.5, 4.5, 2.5, 1.25)
    """
    words = words.strip()
    if "/" in words:
        whole, _, fraction = words.replace("-", " ").rpartition(" ")
        top, _, bottom = fraction.partition("/")
        part = int(top) / int(bottom) if int(bottom) else 0.0
        return (float(whole) if whole.strip() else 0.0) + part
    if words and words[-1] in _FRACTIONS:
        return (float(words[:-1].replace(",", ".")) if words[:-1] else 0.0) + _FRACTIONS[words[-1]]
    return float(words.replace(",", "."))


def read_amounts(text: str, start: int, end: int, *, sizes: int = 0, unit_needed: bool = False) -> Amounts | None:
    """Amounts one a size from `start` on: a number or range, and further sizes in brackets or with dashes; then a unit.

    >>> read_amounts("44 (48, 54) cm", 0, 14).in_mm()
    ((440.0, 440.0), (480.0, 480.0), (540.0, 540.0))
    """
    position = start
    while position < end and text[position] in " \t":
        position += 1
    values: list = []
    first = _first(text, position, end, sizes)
    unit = None
    if first:
        values, position = first
        unit = _UNIT.match(text, position, end)
        if unit:
            position = unit.end()
    elif not re.match(r"[\(\[]\s*[\d½¼¾-]", text[position : position + 8]):
        return None
    while len(values) < 200:
        found = _BRACKET.match(text, position, end)
        more = _listed(found["inner"], sizes - len(values) if sizes else 0) if found else None
        if not more or (unit and _UNIT.search(found["inner"]) and not _same_unit(unit["unit"], found["inner"])):
            break
        inner_unit = _UNIT.search(found["inner"])
        values.extend(more)
        position = found.end()
        if inner_unit and unit is None:
            unit = inner_unit
    after = _UNIT.match(text, position, end)
    if after and unit is None:
        unit, position = after, after.end()
    elif after and len(values) > 1:
        position = after.end()
    if not values or (unit_needed and unit is None):
        return None
    name = _UNIT_WORDS.get(unit["unit"].lower(), "") if unit else ""
    return Amounts(tuple(values), position, MM_OF.get(name), name)


def skip_other_unit(text: str, position: int, end: int, sizes: int = 0) -> int:
    """Steps over the same length in the other unit: "[30.5 (33) cm]", "/ 12 in"."""
    found = _OTHER_UNIT.match(text, position, end)
    if not found:
        return position
    amounts = read_amounts(text, found.end(), end, sizes=sizes, unit_needed=True)
    if amounts is None:
        return position
    after = amounts.end
    closing = re.compile(r"\s*[\)\]]").match(text, after, end)
    if closing and any(mark in found[0] for mark in "(["):
        return closing.end()
    return after


def _first(text: str, position: int, end: int, sizes: int):
    """The value of the first size, or a list with dashes only ("12-14-16")."""
    found = _RANGE.match(text, position, end)
    none = re.compile(r"[-–—](?=\s*[\(\[]\s*[-–—\d½¼¾])").match(text, position, end) if not found else None
    if none:
        return [None], none.end()  # "- (-, 40) cm": the first sizes have none
    if not found:
        return None
    run = re.compile(rf"{NUMBER}(?:\s*-\s*{NUMBER}){{2,60}}").match(text, position, end)
    if run:
        numbers = [number_value(part) for part in _NUMBER.findall(run[0])]
        return [(value, value) for value in numbers], run.end()
    low = number_value(found["low"])
    high = number_value(found["high"]) if found["high"] else low
    if found["high"] and high < low:
        return [(low, low)], found.end("low")
    return [(low, high)], found.end()


def _listed(inner: str, left: int) -> list | None:
    """Values inside brackets; None where they are no list of numbers. left: how many sizes are still without a value (0: not known)."""
    bare = _UNIT.sub(" ", inner).strip()
    if not bare or re.search(r"[A-Za-z:=+]", re.sub(r"\bto\b", "", bare)):
        return None
    if re.search(r"[,;]", bare) and not re.fullmatch(r"\s*\d{1,3},\d{1,2}\s*", bare):
        parts = [part.strip() for part in re.split(r"[,;]", bare) if part.strip()]
        values = []
        for part in parts:
            if part in ("-", "–", "—", "0"):
                values.append(None if part != "0" else (0.0, 0.0))
                continue
            found = _RANGE.fullmatch(part)
            if found is None:
                return None
            low = number_value(found["low"])
            values.append((low, number_value(found["high"]) if found["high"] else low))
        return values
    found = _RANGE.fullmatch(bare)
    if found and found["high"] and left == 1:
        return [(number_value(found["low"]), number_value(found["high"]))]
    parts = [part for part in re.split(r"\s*[-–—/]\s*|\s+", bare) if part] if "/" not in bare or " / " in bare else re.split(r"\s*[-–—]\s*", bare)
    if parts and all(_NUMBER.fullmatch(part) for part in parts):
        return [(number_value(part), number_value(part)) for part in parts]
    return None


def _same_unit(unit: str, inner: str) -> bool:
    other = _UNIT.search(inner)
    return bool(other) and _UNIT_WORDS.get(other["unit"].lower()) == _UNIT_WORDS.get(unit.lower())
