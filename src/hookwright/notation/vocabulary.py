"""The words of a dialect and what each of them is: single words and phrases, with their plurals and verbs."""

import tomllib
from functools import cache
from pathlib import Path
from typing import NamedTuple

from hookwright.stitches import dialect as dialect_of


class Meaning(NamedTuple):
    """What a word is: its part in a sentence and which one it is (a stitch id, a number, a loop ...)."""

    kind: str
    value: object = None


def parts_of(phrase: str) -> tuple[str, ...]:
    """The words of a phrase as they are looked up: small letters, hyphens and dots dropped."""
    return tuple(phrase.lower().replace("-", " ").replace(".", " ").split())


def with_plurals(words: tuple[str, ...]) -> list[tuple[str, ...]]:
    """The words of a phrase, and of its plurals."""
    before, last = words[:-1], words[-1]
    if last[-1] in "hsx":
        return [words, (*before, last + "s"), (*before, last + "es")]
    if len(words) > 2 and words[1] in ("without", "with", "of", "in"):  # "columns without yarn over"
        return [words, (*before, last + "s"), (words[0] + "s", *words[1:])]
    return [words, (*before, last + "s")]


def _as_verbs(words: tuple[str, ...]) -> list[tuple[str, ...]]:
    """The name of a stitch as a verb that goes on: "double crocheting", "trebling"."""
    before, last = words[:-1], words[-1]
    if last in ("crochet", "stitch"):
        return [(*before, last + "ing")] if before else []
    return [(*before, last[:-1] + "ing")] if last == "treble" else []


class Vocabulary:
    """singles: word -> Meaning; longer: first word -> {second word: {words from the second on: Meaning}}, the longest first.

    seen, at_a_glance: what was found of words asked about before (see Lexicon.meaning and tokens).
    """

    __slots__ = ("singles", "longer", "seen", "at_a_glance", "_owned")

    def __init__(self, singles=None, longer=None):
        self.singles: dict[str, Meaning] = dict(singles or {})
        self.longer: dict[str, dict[str, dict[tuple[str, ...], Meaning]]] = dict(longer or {})
        self.seen: dict[str, Meaning | None] = {}
        self.at_a_glance: dict[str, tuple] = {}
        self._owned: set[str] = set()  # first words whose phrases are not shared with another vocabulary

    @classmethod
    def of(cls, phrases) -> "Vocabulary":
        """A vocabulary of (words, Meaning) pairs; of two for the same words the first counts. Sorted once, since there are thousands."""
        made = cls()
        singles, longer = made.singles, made.longer
        for words, meaning in sorted(phrases, key=_shorter):
            if len(words) == 1:
                singles.setdefault(words[0], meaning)
            else:
                longer.setdefault(words[0], {}).setdefault(words[1], {}).setdefault(words[1:], meaning)
        return made

    def add(self, words: tuple[str, ...], meaning: Meaning) -> None:
        """Learn the words of a phrase over what they meant."""
        if len(words) == 1:
            self.singles[words[0]] = meaning
            return
        first, second, tail = words[0], words[1], words[1:]
        if first not in self._owned:
            self.longer[first] = dict(self.longer.get(first, {}))
            self._owned.add(first)
        after = self.longer[first]
        known = {**after.get(second, {}), tail: meaning}
        after[second] = dict(sorted(known.items(), key=_shorter))


def _shorter(entry) -> int:
    return -len(entry[0])


@cache
def word_file() -> dict:
    return tomllib.loads(Path(__file__).with_name("words.toml").read_text("utf-8"))


def words_listed(text: str):
    return (word.strip() for word in text.split(",") if word.strip())


def _common():
    """Phrases that mean the same in every dialect, as (words, Meaning)."""
    file = word_file()
    for section in ("phrases", "kinds", "stitches"):
        for kind, listed in file[section].items():
            for phrase in words_listed(listed):
                yield parts_of(phrase), Meaning(kind)
    for section, kind, value in (
        ("places", "SP", str), ("loops", "LOOP", str), ("posts", "POST", str), ("thickness", "LAYERS", int), ("numbers", "NUM", int), ("ordinals", "ORD", int),
        ("often", "TIMESN", int),
    ):
        for key, listed in file[section].items():
            for phrase in words_listed(listed):
                yield parts_of(phrase), Meaning(kind, value(key))


def _of_dialect(terms: str):
    """Phrases of one dialect, as (words, Meaning)."""
    words = dialect_of(terms).words
    meanings = {id: Meaning("ST", id) for id in {*words.values()}}
    for spelling, id in words.items():
        if id != "ch" and spelling != "plain":
            for phrase in (*with_plurals(parts_of(spelling)), *_as_verbs(parts_of(spelling))):
                yield phrase, meanings[id]
    for word in ("double", "doubles"):  # period wording: "1 double in each of next 3 stitches"
        yield (word,), Meaning("ST", "dc" if terms == "US" else "sc")
    for phrase in words_listed(word_file()["remarks"]["BEGIN"]):
        yield parts_of(phrase), Meaning("REMARK")
    for phrase in words_listed(word_file()["remarks"]["CLAUSE"]):
        yield parts_of(phrase), Meaning("REMARK", "clause")


@cache
def plain_words() -> frozenset[str]:
    return frozenset(word_file()["remarks"]["PLAIN"].split())


@cache
def letters() -> dict[str, str]:
    """What capitals stand for in the rows of toys: letter -> stitch id, or a number and one ("3 sc") for so many in one stitch."""
    return dict(word_file()["letters"])


@cache
def colour_words() -> frozenset[str]:
    return frozenset(words_listed(word_file()["colours"]["PLAIN"]))


@cache
def colour_names() -> frozenset[str]:
    return frozenset(words_listed(word_file()["colours"]["NAMES"]))


@cache
def vocabulary(terms: str) -> Vocabulary:
    return Vocabulary.of((*_common(), *_of_dialect(terms)))
