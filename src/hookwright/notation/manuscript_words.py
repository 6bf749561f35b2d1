"""The word lists of manuscript_words.toml, read once."""

import tomllib
from functools import cache
from pathlib import Path


@cache
def word_table() -> dict:
    """The whole table."""
    return tomllib.loads(Path(__file__).with_name("manuscript_words.toml").read_text("utf-8"))


def _section_names() -> dict[str, str]:
    return {name: section for section, names in word_table()["sections"].items() for name in names}


SECTION_OF: dict[str, str] = _section_names()
REFERENCE_BEFORE: frozenset[str] = frozenset(word_table()["references"]["before"])
REFERENCE_AFTER: frozenset[str] = frozenset(word_table()["references"]["after"])
PROSE_STARTERS: frozenset[str] = frozenset(word_table()["prose"]["starters"])
PROSE_LEAD_INS: frozenset[str] = frozenset(word_table()["prose"]["lead_ins"])
PLAIN_HEADINGS: frozenset[str] = frozenset(word_table()["plain_headings"])
