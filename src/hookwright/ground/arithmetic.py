"""Arithmetic in the head: numbers with units, names, + - * / and brackets, nothing else; read by hand, never run as code.

A value is linear in the numbers that are still to be found: `head - 3 cm`, `2 * body + 4`, `(body - 1) / 3`. What is not
linear (a number times a number) is refused in words, and so is a length added to a plain count. Where a number stands, one a size may
stand in the notation of the trade: `head - 4 (5, 6) cm`; a range with a unit, `20-22 cm`, is its middle.
"""

import re
from dataclasses import dataclass
from math import pi

UNITS_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "inch": 25.4, "inches": 25.4, "yd": 914.4, "yard": 914.4, "yards": 914.4, '"': 25.4, "″": 25.4}
LONGEST = 200  # characters
DEEPEST = 20

_UNIT = r"mm\b|cm\b|m\b|inches\b|inch\b|in\b|yards?\b|yd\b|\"|″"
_TOKEN = re.compile(rf"\s*(?:(?P<n>\d+/\d+(?=\s*(?:{_UNIT}))|\d+(?:\.\d+)?(?:\s+\d+/\d+)?|\.\d+)\s*(?P<u>{_UNIT}|%)?|(?P<w>[A-Za-z][A-Za-z0-9]*(?:[ _-][A-Za-z][A-Za-z0-9]*)*)|(?P<o>[-+*/()×÷−–]))")
_SIGNS = {"×": "*", "÷": "/", "−": "-", "–": "-"}
_WORDS = {"plus": "+", "minus": "-", "times": "*", "x": "*", "half": "/ 2", "twice": "2 *"}  # signs that are said in words


class NotArithmetic(ValueError):
    """What is wrong with the words, in words; `start` and `end` are offsets into them; unknown: the name that nothing is known by, "" else."""

    def __init__(self, message: str, start: int = 0, end: int = 0, unknown: str = ""):
        super().__init__(message)
        self.start, self.end, self.unknown = start, end, unknown


@dataclass(frozen=True, slots=True)
class Value:
    """constant + sum of terms[name] * name; `length` tells mm from plain counts, `percent` a share of what stands before it. A bare 0 may be
    either."""

    constant: float = 0.0
    terms: tuple[tuple[str, float], ...] = ()
    length: bool = False
    percent: bool = False

    @property
    def known(self) -> bool:
        """Nothing in it must still be found."""
        return not self.terms

    def times(self, factor: float) -> "Value":
        return Value(self.constant * factor, tuple((name, k * factor) for name, k in self.terms), self.length, self.percent)

    def plus(self, other: "Value") -> "Value":
        terms = dict(self.terms)
        for name, k in other.terms:
            terms[name] = terms.get(name, 0.0) + k
        return Value(self.constant + other.constant, tuple((name, k) for name, k in terms.items() if k), self.length or other.length)


def reckon(words: str, names: dict, size: int = 0, sizes: int = 1) -> Value:
    """The value of the words in the size of this index. names: name -> Value (a body measure, a number already known, or one to be found).

    Raises NotArithmetic, with the place in the words, for anything that is not plain arithmetic over known names.

    >>> reckon("head * 0.4 - 1 in", {"head": Value(560.0, length=True)}).constant
    198.6
    >>> reckon("1/2 yd", {}).constant
    457.2
    >>> reckon("(body - 1) / 3", {"body": Value(0.0, (("body", 1.0),))}).terms
    (('body', 0.3333333333333333),)
    >>> reckon("2 * 9 (9 1/2, 10) cm", {}, size=1, sizes=3).constant
    190.0
    """
    if len(words) > LONGEST:
        raise NotArithmetic(f"this sum is {len(words)} characters long; up to {LONGEST} are read", 0, LONGEST)
    return _Reader(_in_size(words, size, sizes) if "(" in words or "[" in words else words, names).read()


_AMOUNT = r"(?:\d+(?:\.\d+)?(?:\s+\d+/\d+)?|\d+/\d+|\.\d+)"
_LIST = re.compile(rf"(?P<first>{_AMOUNT})\s*(?P<u>{_UNIT}|%)?\s*[(\[](?P<rest>\s*(?:[-−–]?\s*{_AMOUNT}|[-−–])\s*(?:{_UNIT}|%)?(?:\s*[,;]\s*(?:[-−–]?\s*{_AMOUNT}|[-−–])\s*(?:{_UNIT}|%)?)*\s*)[)\]]")


def _in_size(words: str, size: int, sizes: int) -> str:
    """The words with each list of sizes, `9 (10, 11) cm`, replaced by the amount of one size; every other place stays where it is."""
    out, last = [], 0
    for found in _LIST.finditer(words):
        parts = [(found["first"], found.start("first")), *((part[0].strip(), found.start("rest") + part.start()) for part in re.finditer(r"[^,;]+", found["rest"]))]
        if len(parts) != sizes:
            has = f"{sizes} sizes" if sizes != 1 else "one size"
            raise NotArithmetic(f"`{found[0]}` has {len(parts)} values for {has}; give one a size, or one for all", found.start(), found.end())
        amount = parts[size][0]
        if amount in ("-", "−", "–"):
            raise NotArithmetic(f"`{found[0]}` gives nothing for this size", found.start(), found.end())
        before = words[: found.start()].rstrip()
        if size and before[-1:] in ("-", "−", "–"):  # "-1 (-1, -2) cm": the sign before it is that of every size
            amount = amount.lstrip("-−– ")
        unit = found["u"] if found["u"] and not re.search(rf"(?:{_UNIT}|%)$", amount) else ""
        out += [words[last : found.start()], f"{amount} {unit}".strip().ljust(found.end() - found.start())]
        last = found.end()
    return "".join(out) + words[last:]


class _Reader:
    def __init__(self, words: str, names: dict):
        self.words, self.names = words, {name.lower(): value for name, value in names.items()}
        self.tokens, self.index, self.depth = self._split(), 0, 0

    def _split(self) -> list:
        out, at = [], 0
        while at < len(self.words):
            found = _TOKEN.match(self.words, at)
            if found is None:
                if not self.words[at:].strip():
                    break
                start = at + len(self.words[at:]) - len(self.words[at:].lstrip())
                raise NotArithmetic(f"`{self.words[start : start + 12]}` is no number, unit, name or sign", start, min(len(self.words), start + 1))
            out.append(found)
            at = found.end()
        return out

    def read(self) -> Value:
        if not self.tokens:
            raise NotArithmetic("a sum is expected, such as `head - 3 cm`", 0, len(self.words))
        value = self._sum()
        if self.index < len(self.tokens):
            found = self.tokens[self.index]
            raise NotArithmetic(f"a sign is missing before `{found[0].strip()}`", found.start(), found.end())
        return value

    def _sign(self, signs: str) -> str:
        if self.index < len(self.tokens):
            sign = self.tokens[self.index]["o"]
            sign = _SIGNS.get(sign, sign)
            if sign and sign in signs:
                self.index += 1
                return sign
        return ""

    def _sum(self) -> Value:
        value = self._range() or self._product()
        while sign := self._sign("+-"):
            found = self.tokens[self.index] if self.index < len(self.tokens) else None
            other = self._product()
            if other.percent:  # head - 5 %: five per cent of what stands before
                value = value.times(1 + other.constant if sign == "+" else 1 - other.constant)
                continue
            if value.length != other.length and not _nothing(value) and not _nothing(other):
                raise NotArithmetic("a length and a plain number can't be added; give both a unit, or neither", found.start() if found else 0, found.end() if found else 0)
            value = value.plus(other if sign == "+" else other.times(-1.0))
        return value

    def _range(self) -> Value | None:
        """ "20-22 cm" as its middle: a plain number less a length would be no sum."""
        if self.index + 3 > len(self.tokens):
            return None
        low, sign, high = self.tokens[self.index : self.index + 3]
        tight = low.end() == sign.start("o") and sign.end() == high.start("n")
        if not (tight and low["n"] and not low["u"] and _SIGNS.get(sign["o"], sign["o"]) == "-" and high["n"] and high["u"] and high["u"] != "%"):
            return None
        values = _number(low["n"], high["u"]), _number(high["n"], high["u"])
        if not 0 < values[0].constant < values[1].constant:
            return None
        self.index += 3
        return values[0].plus(values[1]).times(0.5)

    def _product(self) -> Value:
        value = self._one()
        while sign := self._sign("*/"):
            found = self.tokens[self.index] if self.index < len(self.tokens) else None
            other = self._one()
            place = (found.start(), found.end()) if found else (0, 0)
            if sign == "/":
                if not other.known:
                    raise NotArithmetic("dividing by a number that is still to be found can't be solved; turn the sum round", *place)
                if other.constant == 0:
                    raise NotArithmetic("this divides by zero", *place)
                if other.length and not value.length:
                    raise NotArithmetic("a plain number divided by a length is no length and no count", *place)
                value = Value(value.constant / other.constant, value.times(1 / other.constant).terms, value.length and not other.length)
            elif value.known:
                value = self._times(other, value, place)
            elif other.known:
                value = self._times(value, other, place)
            else:
                raise NotArithmetic("two numbers that are still to be found can't be multiplied; give one of them", *place)
        return value

    @staticmethod
    def _times(value: Value, factor: Value, place) -> Value:
        if value.length and factor.length:
            raise NotArithmetic("a length times a length is an area; a length or a count is needed", *place)
        return Value(value.constant * factor.constant, value.times(factor.constant).terms, value.length or factor.length)

    def _one(self) -> Value:
        if self._sign("-"):
            return self._one().times(-1.0)
        if self._sign("("):
            self.depth += 1
            if self.depth > DEEPEST:
                raise NotArithmetic(f"brackets stand more than {DEEPEST} deep", 0, len(self.words))
            value = self._sum()
            if not self._sign(")"):
                raise NotArithmetic("a bracket is not closed", 0, len(self.words))
            self.depth -= 1
            return value
        if self.index >= len(self.tokens):
            raise NotArithmetic("the sum breaks off here; a number or a name is missing", len(self.words), len(self.words))
        found = self.tokens[self.index]
        self.index += 1
        if found["n"]:
            return _number(found["n"], found["u"])
        if found["w"]:
            return self._name(found)
        raise NotArithmetic(f"a number or a name is expected before `{found[0].strip()}`", found.start(), found.end())

    def _name(self, found) -> Value:
        word = " ".join(found["w"].lower().replace("_", " ").split())
        if word in self.names:
            return self.names[word]
        if word == "pi":
            return Value(pi)
        from difflib import get_close_matches

        near = get_close_matches(word, self.names, 1)
        said = f"; did you mean `{near[0]}`?" if near else (f"; known here: {', '.join(sorted(self.names)[:12])}" if self.names else "")
        signs = [f"`{_WORDS[one]}` for `{one}`" for one in word.split() if one in _WORDS]
        said = f"; a sum is written in signs, {' and '.join(dict.fromkeys(signs))}" if signs else said
        raise NotArithmetic(f"`{found['w']}` is no measure or number known here{said}", found.start("w"), found.end("w"), word)


def _number(digits: str, unit: str | None) -> Value:
    whole, _, part = digits.partition(" ") if " " in digits or "/" not in digits else ("0", "", digits)
    value = float(whole)
    if part.strip():
        top, bottom = part.strip().split("/")
        value += float(top) / float(bottom) if float(bottom) else 0.0
    if unit == "%":
        return Value(value / 100, percent=True)
    if unit:
        return Value(value * UNITS_MM[unit], length=True)
    return Value(value)


def _nothing(value: Value) -> bool:
    return value.known and value.constant == 0
