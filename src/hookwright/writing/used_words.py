"""The abbreviations that a sheet really uses, found in the words that it prints."""

import re
from functools import cache

from hookwright.stitches import CATALOGUE, DIALECTS, Dialect, stitch
from hookwright.stitches import dialect as words_of

from .strings import Strings

_TOGETHER = re.compile(r"(?<![\w-])([a-zA-Z]+?)(\d{1,2})tog(?!\w)")
_TIMES = re.compile(r"\](?:,|\s)*(?:\(?[\d–-]|once|twice|across|around|to|until|as many)")  # a count or how far, not a measure or a remark in brackets
_ENTRY = re.compile(r"[\s*_+-]*([A-Za-z][\w .()/-]{0,20}?)[*_]*\s*(?:[=:]|[–—-])\s*[*_]*(\S.{0,60}?)\s*")


@cache
def _stitch_table(dialect: Dialect) -> dict[str, tuple[str, str]]:
    """Abbreviation in small letters -> (abbreviation, full name), of all stitches whose abbreviation is not their name."""
    table = {}
    others = [words_of(name) for name in DIALECTS if name != dialect.name]  # "sl st" is understood in UK terms as well
    for id in CATALOGUE:
        short, name = dialect.abbr(id), dialect.name_of(id)
        for word in (short, *(words.abbr(id) for words in others if dialect.words.get(words.abbr(id).casefold()) == id)):
            if word.casefold() != name.casefold():
                table.setdefault(word.casefold(), (word, name))
    return table


@cache
def _pattern(words: tuple[str, ...]):
    ordered = sorted(words, key=len, reverse=True)
    return re.compile(r"(?<![A-Za-z])(" + "|".join(map(re.escape, ordered)) + r")(?:es|s)?(?![A-Za-z])", re.IGNORECASE)


def abbreviations_used(text: str, dialect: Dialect, hers: dict[str, str] | None = None) -> tuple[tuple[str, str], ...]:
    """(abbreviation, meaning) of each abbreviation in `text`, in alphabetical order; `hers` are the designer's own.

    >>> from hookwright.stitches import dialect
    >>> abbreviations_used("Ch 1, sc in next 3 sts, sc2tog", dialect("US"))
    (('ch', 'chain'), ('sc', 'single crochet'), ('sc2tog', 'single crochet 2 together'), ('st', 'stitch'))
    """
    found: dict[str, tuple[str, str]] = {}
    bases = {dialect.abbr(id).casefold(): id for id in CATALOGUE}
    for match in _TOGETHER.finditer(text):
        id = f"{bases.get(match[1].casefold(), '?')}{match[2]}tog"
        if stitch(id) is not None:
            found[match[0].casefold()] = (dialect.abbr(id), dialect.name_of(id))
    rest = _TOGETHER.sub(" ", text)
    stitches = _stitch_table(dialect)
    words = {word.casefold(): (word, meaning) for word, meaning in dialect.abbreviations.items()}
    own = {word.casefold(): (word, meaning) for word, meaning in (hers or {}).items()}
    table = {**stitches, **words, **own}
    for match in _pattern(tuple(table)).finditer(rest):
        word = match[1]
        entry = table[word.casefold()]
        if word.casefold() in words and entry[0].isupper() and not word.isupper():
            continue  # "MC" is an abbreviation, "mc" is not
        found.setdefault(entry[0].casefold(), entry)
    return tuple(sorted(found.values(), key=lambda pair: pair[0].casefold()))


def is_usual(line: str, dialect: Dialect) -> bool:
    """Whether a line only says what an abbreviation of the trade stands for, "sl st = slip stitch": the sheet lists those itself.

    >>> from hookwright.stitches import dialect
    >>> is_usual("sl st = slip stitch", dialect("US")), is_usual("sh = 5 dc in one stitch", dialect("US"))
    (True, False)
    """
    found = _ENTRY.fullmatch(line)
    if not found:
        return False
    word, meaning = found[1].replace("(s)", ""), re.sub(r"\([^)]*\)", "", found[2]).strip(" .;,*_")
    id = dialect.find(word)
    usual = {short.casefold(): long.casefold() for short, long in dialect.abbreviations.items()}
    return id is not None and dialect.find(meaning) == id or usual.get(word.casefold()) == meaning.casefold()


def marks_used(text: str, strings: Strings, several_sizes: bool) -> tuple[tuple[str, str], ...]:
    """(mark, how it is read) of each kind of bracket and star in `text`."""
    seen = []
    if _TIMES.search(text):
        seen.append("square")
    if re.search(r"\([^()]*\b[a-z]+[^()]*\) (?:all )?(?:in|into)\b", text):
        seen.append("round")
    if re.search(r"(?<!\*)\*(?!\*)", text):
        seen.append("star")
    if "**" in text:
        seen.append("star_stop")
    if several_sizes:
        seen.append("list")
    return tuple(strings.pair(f"marks.{name}") for name in seen)
