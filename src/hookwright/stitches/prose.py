"""Prose from one dialect into the other: stitch names and words of the craft, all in one pass, so that nothing is changed twice."""

import re
from functools import cache
from typing import NamedTuple

from .dialect import Dialect, dialect, fold, plural


class Change(NamedTuple):
    """One place of the prose that was changed: offset in the text that was given, what stood there, what stands there now."""

    at: int
    was: str
    now: str


def translate_prose(text: str, source: str, target: str, keep=frozenset()) -> tuple[str, tuple[Change, ...]]:
    """`text` written in `source` terms put into `target` terms, and the list of changes for the designer to look over.

    keep: words in small letters that stay as they are.

    >>> translate_prose("Skip the dc, check your gauge.", "US", "UK")[0]
    'Miss the tr, check your tension.'
    """
    if source.upper() == target.upper():
        return text, ()
    pattern, becomes = _table(source.upper(), target.upper())
    changes = []

    def put(found: re.Match) -> str:
        was = found[0]
        if keep and was.casefold() in keep:
            return was
        now = _like(was, becomes[fold(was)])
        if now != was:
            changes.append(Change(found.start(), was, now))
        return now

    return pattern.sub(put, text), tuple(changes)


def _like(was: str, now: str) -> str:
    words = was.split()
    if len(words) > 1 and all(word[0].isupper() and not word.isupper() for word in words):  # "Single Crochet" in a title
        return " ".join(word[0].upper() + word[1:] for word in now.split())
    if was[:1].isupper() and now[:1].islower() and not was.isupper():
        return now[0].upper() + now[1:]
    if was.isupper() and len(was) > 3:
        return now.upper()
    return now


@cache
def _table(source: str, target: str):
    here, there = dialect(source), dialect(target)
    becomes = dict(there.prose)
    for word, id in here.words.items():
        replacement = _replacement(here, there, word, id)
        if replacement:
            becomes.setdefault(word, replacement)
            becomes.setdefault(plural(word), replacement if len(replacement) < 4 else plural(replacement))  # "18 trebles" are "18 dc"
    for base in ("sc", "hdc", "dc", "tr", "dtr", "trtr", "fpdc", "bpdc"):
        for number in range(2, 13):
            for name in (here.abbr, here.name_of):
                was = name(f"{base}{number}tog").lower()
                becomes[was] = (there.abbr if name == here.abbr else there.name_of)(f"{base}{number}tog")
    ordered = sorted(becomes, key=len, reverse=True)
    return re.compile(r"(?<![^\W\d])(?<![^\W\d]-)(?:" + "|".join(map(re.escape, ordered)) + r")(?![^\W\d])", re.IGNORECASE), becomes


def _replacement(here: Dialect, there: Dialect, word: str, id: str) -> str | None:
    """What a spelling becomes: abbreviation for abbreviation, name for name; None where both dialects say the same."""
    if word in here.everyday:
        return None
    if there.words.get(word) == id and word != here.abbr(id).lower():
        return None  # understood there as well; an abbreviation still becomes the one that the rows have
    return there.abbr(id) if word == here.abbr(id).lower() else there.name_of(id) if len(word) > 4 and " " in word else there.abbr(id)
