"""Numbers written as words, cardinal and ordinal, up to ninety-nine, and times words (once, twice)."""

import re

from hookwright.ground import Number, PerSize

_UNITS = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split()
_TENS = {20: "twenty", 30: "thirty", 40: "forty", 50: "fifty", 60: "sixty", 70: "seventy", 80: "eighty", 90: "ninety"}
_ORDINAL_UNITS = (
    "zeroth first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth "
    "fifteenth sixteenth seventeenth eighteenth nineteenth"
).split()


def _tables() -> tuple[dict[str, int], dict[str, int]]:
    cardinals = {word: value for value, word in enumerate(_UNITS)}
    ordinals = {word: value for value, word in enumerate(_ORDINAL_UNITS)}
    for tens, word in _TENS.items():
        cardinals[word] = tens
        ordinals[word[:-1] + "ieth"] = tens
        for unit in range(1, 10):
            for joint in ("-", " "):
                cardinals[f"{word}{joint}{_UNITS[unit]}"] = tens + unit
                ordinals[f"{word}{joint}{_ORDINAL_UNITS[unit]}"] = tens + unit
    return cardinals, ordinals


CARDINALS, ORDINALS = _tables()
TIMES_WORDS = {"once": 1, "twice": 2, "thrice": 3}


def _pattern(table: dict[str, int], units: list[str]) -> str:
    """Alternatives for the words of a table but zero: "twenty-one" as a ten and one of `units`, since 72 such words would be long to compile."""
    alone = sorted((word for word, value in table.items() if value and (value <= 20 or value % 10 == 0)), key=len, reverse=True)
    one = "|".join(units[1:10])
    return f"(?:{'|'.join(_TENS.values())})[- ](?:{one})|" + "|".join(alone)  # the longest first, so that "sixty" is not read as "six"


CARDINAL_PATTERN = _pattern(CARDINALS, _UNITS)
ORDINAL_PATTERN = _pattern(ORDINALS, _ORDINAL_UNITS)


def number_of(word: str) -> int | None:
    """The number a word or digits stand for.

    >>> number_of("Twelve"), number_of("21st"), number_of("third"), number_of("twice"), number_of("wool")
    (12, 21, 3, 2, None)
    """
    word = " ".join(word.lower().split())
    digits = word.rstrip("stndrh") if word[:1].isdigit() else word
    if digits.isdecimal() and digits.isascii():
        return int(digits) if len(digits) <= 12 else None
    for table in (CARDINALS, ORDINALS, TIMES_WORDS):
        if word in table:
            return table[word]
    return None


def listed_number(word: str | None, listed: str | None) -> Number | None:
    """A number, or one a size: "8" with "(10, 12)"; only "(8-14)" for the sizes concerned.

    >>> listed_number("two", "(three, -)")
    PerSize((2, 3, None))
    >>> listed_number("10", "(12:14)"), listed_number("10", "-12-14")
    (PerSize((10, 12, 14)), PerSize((10, 12, 14)))
    >>> listed_number("4", "(-)")
    PerSize((4, None))
    """
    values: list = []
    if word:
        values.append(number_of(word))  # None for a dash: a size that does not take part
    groups = re.findall(r"[\(\[]([^()\[\]]*)[\)\]]", listed or "")
    if not groups and listed and listed.strip():
        groups = [listed.strip().lstrip("-–—/")]  # "10-12-14": dashes alone
    for group in groups:
        if group.strip() in ("-", "–", "—"):  # the second of two sizes does not take part
            parts = ["-"]
        elif re.search(r"[,;:/]", group):
            parts = re.split(r"\s*[,;:/]\s*", group)
        else:
            parts = re.split(r"\s*[-–—]\s*", group)
        for part in parts:
            part = part.strip()
            values.append(None if part in ("-", "–", "—", "") else number_of(part))
    if not values:
        return None
    if len(values) == 1 and word:
        return values[0]
    return PerSize(values)
