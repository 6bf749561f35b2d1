"""Lengths in her sentences in both units: "a tail of 40 cm" gets "(15¾ in)" after it, where the other unit does not stand there already.

A hook, a button or an eye goes by millimetres everywhere, so millimetres are left alone. Temperatures likewise get degrees Fahrenheit.
"""

import re

from .measures import centimetres, inches, number
from .size_lists import size_list

_SMALL = {"½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8, "⅓": 1 / 3, "⅔": 2 / 3}
_GLYPH = "[" + "".join(_SMALL) + "]"
_ONE = rf"(?:\d{{1,4}}(?:\.\d{{1,2}})?(?: ?{_GLYPH}|[ -]\d/\d{{1,2}})?|\d/\d{{1,2}}|{_GLYPH})"
_SPAN = rf"{_ONE}(?:(?: ?[–-] ?| to ){_ONE})?"
_LIST = rf"{_SPAN}(?: ?[(\[](?:{_SPAN}|[-–])(?:, ?(?:{_SPAN}|[-–])){{0,40}}[)\]])?"
_LETTERS = r"centimet(?:re|er)s?|cms?|met(?:re|er)s?|m|inch(?:es)?|ins?|yards?|yds?"
_UNIT = rf"(?:{_LETTERS})(?![A-Za-z])|[\"″”]"
_LENGTH = re.compile(rf"(?<![\w.,/−–-])(?P<all>{_LIST}(?: ?(?:x|×|by) ?{_LIST})?)(?P<gap>[ \u00a0-]?)(?P<unit>{_UNIT})")
# "2 in next st" is no length: after a bare "in" something must follow that cannot be a place.
_AFTER_IN = re.compile(
    r"\.?(?:\s*[,;:)\].!?/(\[]|\s*$|\s+(?:long|wide|deep|high|tall|thick|across|square|apart|from|below|above|around|round|and|or|by|to|of|at|is|for|before|after|"
    r"x|tail|tails|end|ends|more|less|smaller|larger|longer|shorter|beyond|past|up|down|total|circumference|diameter)\b)"
)
_BESIDE = re.compile(rf"\s*(?:[(\[/=]|or\b|,)\s*(?:about |approx\.? |or |= ?)?[−-]?(?:{_LIST})[ \u00a0-]?(?P<unit>{_UNIT})")
_BEFORE = re.compile(rf"(?P<unit>{_UNIT})\.?\s*(?:[(\[/=]|or\b)\s*(?:about |approx\.? |or |= ?)?$")
_DEGREES = re.compile(r"(?<![\w.−-])(?P<low>\d{2,3})(?:–(?P<high>\d{2,3}))? ?°? ?C(?![\w])(?!\s*[(/]\s*\d)")
_DOT = re.compile(r"\.(?= [a-z]|[,;)])")  # of "3 in. wide", which is no full stop
_PARTS = re.compile(rf"(?P<one>{_ONE})")
_MM = {"c": 10.0, "m": 1000.0, "i": 25.4, '"': 25.4, "″": 25.4, "”": 25.4, "y": 914.4}  # international yard and inch, 1959, exact
_TRADE = {25: 1, 50: 2, 75: 3, 100: 4, 125: 5, 150: 6, 200: 8, 250: 10, 300: 12}  # mm -> inches, as the trade takes them for the same


def both_units(text: str, *, in_brackets: bool = False) -> str:
    """The text with every length in both units; `in_brackets` where it will stand between brackets.

    >>> both_units("Leave a tail of 20 cm, then work 2 in next st.")
    'Leave a tail of 20 cm (8\\xa0in), then work 2 in next st.'
    >>> both_units("It is 92 (160) cm wide (a 4-in square is 10 cm).")
    'It is 92 (160) cm [36¼ (63)\\xa0in] wide (a 4-in / 10-cm square is 10 cm / 4\\xa0in).'
    """
    if not any(letter.isdigit() or letter in _SMALL for letter in text):
        return text
    out, at = [], 0
    for found in _LENGTH.finditer(text):
        told = _told(text, found, in_brackets)
        if told:
            end = found.end() + bool(_DOT.match(text, found.end()))
            out += [text[at:end], told]
            at = end
    return _DEGREES.sub(_with_fahrenheit, "".join([*out, text[at:]]))


def _told(text: str, found: re.Match, in_brackets: bool) -> str:
    """What is added after a length, "" where nothing is owed."""
    unit = found["unit"]
    if unit in ("in", "ins") and found["gap"] != "-" and not _AFTER_IN.match(text, found.end()):
        return ""
    if unit in "\"″”" and _quoted(text[: found.start()]):
        return ""  # it ends what is quoted
    metric = unit[0] in "cm"
    beside = _BESIDE.match(text, found.end())
    before = _BEFORE.search(text[max(0, found.start() - 24) : found.start()])
    if any(other and (other["unit"][0] in "cm") != metric for other in (beside, before)):
        return ""
    scale = _MM[unit[0]]
    parts = re.split(r"( ?(?:x|×|by) ?)", found["all"])
    long = scale > 900
    show = _yards if unit[0] == "m" else _metres if unit[0] == "y" else _inches if metric else _centimetres
    words = "".join(part if at % 2 else _converted(part, scale, show) for at, part in enumerate(parts))
    name = ("yd" if metric else "m") if long else "in" if metric else "cm"
    words = f"{words}-{name}" if found["gap"] == "-" else f"{words}\u00a0{name}"
    before = text[: found.start()]
    if in_brackets or before.count("(") > before.count(")") or before.count("[") > before.count("]"):
        return f" / {words}"
    return f" [{words}]" if "(" in words else f" ({words})"


def _quoted(before: str) -> bool:
    """Whether a quotation is still open; a mark after a digit is inches."""
    open_ = False
    for found in re.finditer(r"[\"“”]", before):
        inches_ = before[found.start() - 1 : found.start()].isdigit() or before[found.start() - 1 : found.start()] in tuple(_SMALL)
        open_ = found[0] != "”" and not open_ and not inches_
    return open_


def _converted(words: str, scale: float, show) -> str:
    """The numbers of a length, or of a list of them, in the other unit."""
    values = [value * scale for value in map(_value, _PARTS.findall(words))]
    first, bracket, rest = words.partition("(") if "(" in words else words.partition("[")
    if not bracket:
        if show is _inches and len(values) == 1 and round(values[0], 3) in _TRADE:
            return str(_TRADE[round(values[0], 3)])
        return _span(words, scale, show)
    sizes = [first, *rest.rstrip(")]").split(",")]
    return size_list(tuple(None if size.strip() in ("-", "–") else size for size in sizes), lambda size: _span(size.strip(), scale, show))


def _span(words: str, scale: float, show) -> str:
    numbers = _PARTS.findall(words)
    shown = [show(_value(one) * scale) for one in numbers[:2]]
    if len(shown) == 1 or shown[0] == shown[1]:
        return shown[0]
    return f"{shown[0]}{' to ' if ' to ' in words else '–'}{shown[1]}"


def _value(words: str) -> float:
    total = 0.0
    for whole, glyph, top, bottom in re.findall(rf"(\d+(?:\.\d+)?)(?![\d/])|({_GLYPH})|(\d)/(\d{{1,2}})", words):
        total += float(whole) if whole else _SMALL[glyph] if glyph else float(top) / max(float(bottom), 1.0)
    return total


def _inches(mm: float) -> str:
    """To the quarter from one inch on: sentences tell lengths more roughly than tables."""
    return inches(round(mm / 25.4 * 4) / 4 * 25.4 if mm >= 25.4 else mm)


def _centimetres(mm: float) -> str:
    """To the half from 25 mm on."""
    return number(round(mm / 5) / 2) if mm >= 25 else centimetres(mm)


def _yards(mm: float) -> str:
    yards = mm / 914.4
    return str(round(yards)) if yards >= 10 else number(round(yards * 2) / 2)


def _metres(mm: float) -> str:
    metres = mm / 1000
    return str(round(metres)) if metres >= 10 else number(round(metres * 2) / 2)


def _with_fahrenheit(found: re.Match) -> str:
    shown = "–".join(str(round(int(found[part]) * 9 / 5 + 32)) for part in ("low", "high") if found[part])
    return f"{found[0]} ({shown}\u00a0°F)"
