"""Yarn beside the rows that is asked for in words: "2 pompoms 8 cm", "fringe 60 strands 20 cm", or an extra of the head by its name."""

import re

from hookwright.notation import Extra, measure_from_words

_KINDS = {"pompom": "pompoms", "pom-pom": "pompoms", "pom pom": "pompoms", "fringe": "fringe", "seam": "seams", "border": "border", "edging": "border", "end": "ends", "tail": "ends"}
_LENGTH = re.compile(r"(\d+(?:[.,]\d+)?(?: \d/\d+)?|\d/\d+)\s*(mm|cm|m|in(?:ch(?:es)?)?|\"|yds?|yards?|metres?|meters?)(?!\w)", re.I)
_ROUNDS = re.compile(r"(\d{1,3})\s*(?:rounds?|rnds?|rows?)\b(?:\s*(?:of|in)\s+([\w ]{2,30}?)(?=$|,| \d))?", re.I)
_WRAPS = re.compile(r"(\d{1,4})\s*wraps?\b", re.I)
_COLOUR = re.compile(r"\bin (?:colou?r )?([A-Z]\w?)\b")
_NUMBER = re.compile(r"(?<![\d.,/])(\d{1,5})(?![\d.,/])")
WORDS = '"pompom 8 cm", "2 pompoms 6 cm", "fringe 60 strands 20 cm", "seams 1 m", "border 2 rounds 180 cm" or "ends 12"'


def extra_from_words(words: str, known=()) -> Extra:
    """The extra that is meant: one of `known` (the head's) where only its name is given, else a new one.

    ValueError where it is none, or lacks its length or number.

    >>> made = extra_from_words("2 pompoms 8 cm in B")
    >>> made.kind, made.number, made.length.at(0), made.colour
    ('pompoms', 2, (80.0, 80.0), 'B')
    """
    kind = kind_from_words(words)
    length, rest = _LENGTH.search(words), words
    made = Extra(kind)
    if length:
        made.length = measure_from_words(length[0], 0)
        rest = rest.replace(length[0], " ", 1)
    if rounds := _ROUNDS.search(rest):
        made.rows, made.in_ = int(rounds[1]), (rounds[2] or "").strip()
        rest = rest.replace(rounds[0], " ", 1)
    if wraps := _WRAPS.search(rest):
        made.wraps = int(wraps[1])
        rest = rest.replace(wraps[0], " ", 1)
    if colour := _COLOUR.search(rest):
        made.colour = colour[1]
    if number := _NUMBER.search(rest):
        made.number = int(number[1])
    said = next((extra for extra in known if extra.kind == kind), None)
    if made.length is None and made.number is None and said is not None:
        return said
    if (made.number if kind == "ends" else made.length) is None:
        raise ValueError(f"{words.strip()!r} lacks {'how many' if kind == 'ends' else 'a length'}: write {WORDS}")
    return made


def kind_from_words(words: str) -> str:
    """Which extra words name; ValueError where none.

    >>> kind_from_words("the pom-poms"), kind_from_words("Tails")
    ('pompoms', 'ends')
    """
    low = words.lower()
    found = [(low.find(word), kind) for word, kind in _KINDS.items() if re.search(rf"\b{word}", low)]
    if not found:
        raise ValueError(f"{words.strip()!r} names nothing that takes yarn beside the rows: write {WORDS}")
    return min(found)[1]
