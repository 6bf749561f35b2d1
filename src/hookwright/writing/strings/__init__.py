"""The words of the sheet: one table file a language."""

import re
import tomllib
from functools import cache
from pathlib import Path

_HOLE = re.compile(r"\{(\w+)\}")


class Strings:
    """The texts of one language. `terms` ("US" or "UK") picks between the two sets of words of the craft.

    >>> words = strings("en", "UK")
    >>> words("sections.gauge"), words("materials.balls", n=2, list="1 (2)")
    ('Tension', '1 (2)\\xa0balls')
    """

    def __init__(self, table: dict, terms: str):
        self._table = table
        self._differs = table.get(terms, {})
        self.terms = terms
        self.language = table[f"{terms}_language"]

    def has(self, key: str) -> bool:
        """Whether there is such a text."""
        return self._find(self._table, key) is not None

    def __call__(self, key: str, n: int = 0, **values) -> str:
        """The text with this key, filled in; where it is a pair, the first for n = 1 and the second for all else."""
        text = self._find(self._differs, key)
        if text is None:
            text = self._find(self._table, key)
        if text is None:
            raise KeyError(key)
        if isinstance(text, list):
            text = text[0 if n == 1 else 1]
        if "{" not in text:
            return text
        values["n"] = n
        return _HOLE.sub(lambda hole: str(values.get(hole[1], hole[0])), text)  # one pass: her own braces stay as they are

    def named(self, part: str) -> str:
        """The name of a part of the sheet; a name that is not in the table (a piece of hers) is given back as it is."""
        return self(f"parts.{part}") if self.has(f"parts.{part}") else part

    def pair(self, key: str) -> tuple[str, str]:
        """Both texts of a pair."""
        first, second = self._find(self._table, key)
        return first, second

    @staticmethod
    def _find(table: dict, key: str):
        for part in key.split("."):
            if not isinstance(table, dict) or part not in table:
                return None
            table = table[part]
        return table


@cache
def _table(language: str) -> dict:
    return tomllib.loads((Path(__file__).parent / f"{language}.toml").read_text("utf-8"))


LANGUAGES = ("en",)


def strings(language: str = "en", terms: str = "US") -> Strings:
    """The words of a language in US or UK terms."""
    if language not in LANGUAGES:
        raise KeyError(f"there is no table of words for {language!r}")
    return Strings(_table(language), terms)
