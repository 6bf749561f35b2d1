"""Arithmetic in the head: numbers with units, names, + - * / and brackets, nothing else; read by hand, never run as code.

A value is linear in the numbers that are still to be found: `head - 3 cm`, `2 * body + 4`, `(body - 1) / 3`. What is not
linear (a number times a number) is refused in words, and so is a length added to a plain count.
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


class NotArithmetic(ValueError):
    """What is wrong with the words, in words; `start` and `end` are offsets into them."""

    def __init__(self, message: str, start: int = 0, end: int = 0):
        super().__init__(message)
        self.start, self.end = start, end


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


def reckon(words: str, names: dict) -> Value:
    """The value of the words. names: name -> Value (a body measure, a number already known, or one to be found).

    Raises NotArithmetic, with the place in the words, for anything that is not plain arithmetic over known names.

    >>> reckon("head * 0.4 - 1 in", {"head": Value(560.0, length=True)}).constant
    198.6
    >>> reckon("1/2 yd", {}).constant
    457.2
    >>> reckon("(body - 1) / 3", {"body": Value(0.0, (("body", 1.0),))}).terms
    (('body', 0.3333333333333333),)
    """
    if len(words) > LONGEST:
        raise NotArithmetic(f"this sum is {len(words)} characters long; up to {LONGEST} are read", 0, LONGEST)
    return _Reader(words, names).read()


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
        value = self._product()
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
        raise NotArithmetic(f"`{found['w']}` is no measure or number known here{said}", found.start("w"), found.end("w"))


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
