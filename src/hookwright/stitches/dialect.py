"""The words of one dialect: every spelling that is read, and the one that is written. One table does both."""

import re
import tomllib
from functools import cache, cached_property
from pathlib import Path

from .facts import stitch

DIALECTS = ("US", "UK")
_FOLD = re.compile(r"[\s.]+")
_POST_BASES = ("sc", "hdc", "dc", "tr", "dtr", "trtr")


def fold(spelling: str) -> str:
    """The form in which spellings are looked up: small letters, dots dropped, single spaces.

    >>> fold("Tr. C.")
    'tr c'
    """
    return _FOLD.sub(" ", spelling.replace(". ", " ").replace(".", "")).strip().lower()


class Dialect:
    """Words of one dialect ("US" or "UK").

    words          folded spelling -> id, for every stitch and post stitch
    abbreviations  words of the rows that are no stitches ("sk": "skip"), for the list of a pattern
    prose          (words, replacement) pairs that turn the other dialect's prose into this one's
    everyday       spellings that are everyday words too and are left alone in prose
    """

    def __init__(self, name: str):
        file = tomllib.loads((Path(__file__).parent / "terms" / f"{name.lower()}.toml").read_text("utf-8"))
        self.name = name
        self._official = {id: (spellings[0], spellings[1]) for id, spellings in file["stitches"].items()}
        self._post = file["post"]
        self._together = file["together"]
        self.abbreviations: dict[str, str] = file["abbreviations"]
        self.prose: tuple[tuple[str, str], ...] = tuple((a, b) for a, b in file["prose"]["words"])
        self.everyday = frozenset(file["prose"]["never"])
        self.words: dict[str, str] = {}
        for id, spellings in file["stitches"].items():
            for spelling in spellings:
                self.words.setdefault(spelling.lower(), id)
        self._add_posts(file["stitches"])

    def _add_posts(self, stitches) -> None:
        rule, words = self._post, self.words
        for prefix, side in (("fp", "front"), ("bp", "back")):
            before = [form.lower() for form in rule[side]]
            for base in _POST_BASES:
                id = prefix + base
                for spelling in stitches[base]:
                    spelling = spelling.lower()
                    for form in before:
                        if form[-1] in " -" or " " not in spelling:
                            words.setdefault(form + spelling, id)
                    words.setdefault(before[1] + spelling, id)
                    for form in rule[side + "_after"]:
                        words.setdefault(spelling + form, id)
                    for form in rule[side + "_round"]:
                        words.setdefault(form.format(spelling), id)
                    if side == "front":
                        for form in rule["front_alone"]:
                            words.setdefault(form.format(spelling), id)

    # ------------------------------------------------------------ reading

    def find(self, spelling: str) -> str | None:
        """Id of the stitch with this spelling in this dialect, decreases included ("sc 2 tog"); None where there is none."""
        folded = fold(spelling)
        return self.words.get(folded) or self.together(folded)

    @cached_property
    def _together_pattern(self):
        bases = sorted((word for word, id in self.words.items() if _joins(id)), key=len, reverse=True)
        base = "|".join(map(re.escape, bases))
        number = r"(?P<n{0}>\d{{1,2}}|two|three|four|five|six|seven|eight)"
        tog = r"(?:tog|together|togeth|togs)"
        return re.compile(
            rf"(?P<b1>{base})[ -]?{number.format(1)}[ -]?{tog}"
            rf"|(?:work )?{number.format(2)}[ -]?(?P<b2>{base})s?[ -]?{tog}"
            rf"|(?P<b3>{base})[ -]?(?:tog|together)"
            rf"|(?P<b4>{base})[ -](?:dec|decrease|decr)(?:[ -]?{number.format(4)})?"
            rf"|(?:dec|decrease)[ -](?P<b5>{base})"
        )

    def together(self, spelling: str) -> str | None:
        """Id of a decrease from its folded spelling: "dc2tog", "dc 2 tog", "2dctog", "dc dec", "double crochet 2 together"."""
        return _read_together(self, spelling)

    @cached_property
    def foreign(self) -> dict[str, str]:
        """Spellings that only the other dialect has, with the stitch meant there: in the US table "htr" -> "hdc"."""
        other = dialect("UK" if self.name == "US" else "US")
        return {word: id for word, id in other.words.items() if word not in self.words}

    # ------------------------------------------------------------ writing

    def abbr(self, id: str) -> str:
        """The abbreviation written for a stitch: "sl st" in US terms, "ss" in UK terms. An unknown id is given back as it is."""
        return _abbr(self, id)

    def name_of(self, id: str, n: int = 1) -> str:
        """The full name, for `n` of them: "single crochet", "bobbles", "treble crochet 2 together"."""
        if id in self._official:
            name = self._official[id][1]
            return name if n == 1 else plural(name)
        if id[:2] in ("fp", "bp") and id[2:] in self._official:
            side = self._post["front" if id[0] == "f" else "back"][1]
            name = f"{side} {self._official[id[2:]][1]}"
            return name if n == 1 else plural(name)
        fact = stitch(id)
        if fact is not None and fact.kind == "decrease":
            return f"{self.name_of(fact.base)} {fact.legs} {self._together['name']}"
        return id if n == 1 else plural(id)


def plural(name: str) -> str:
    """More than one of a stitch: "puff stitches", "double crochets", "Solomon's knots"."""
    if name.endswith(("ch", "sh", "s", "x")) and not name.endswith("sts"):
        return name + "es"
    return name + "s"


def _joins(id: str) -> bool:
    fact = stitch(id)
    return fact.kind in ("basic", "extended", "post") and id not in ("ch",)


_NUMBERS = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8}


@cache
def _read_together(dialect: Dialect, spelling: str) -> str | None:
    if not any(mark in spelling for mark in ("tog", "dec")):
        return None
    found = dialect._together_pattern.fullmatch(spelling)
    if not found:
        return None
    parts = found.groupdict()
    base = next(parts[key] for key in ("b1", "b2", "b3", "b4", "b5") if parts[key])
    number = next((parts[key] for key in ("n1", "n2", "n4") if parts[key]), "2")
    id = f"{dialect.words[base]}{_NUMBERS.get(number) or int(number)}tog"
    return id if stitch(id) else None


@cache
def _abbr(dialect: Dialect, id: str) -> str:
    if id in dialect._official:
        return dialect._official[id][0]
    if id[:2] in ("fp", "bp") and id[2:] in dialect._official:
        return dialect._post["front" if id[0] == "f" else "back"][0] + dialect._official[id[2:]][0]
    fact = stitch(id)
    if fact is not None and fact.kind == "decrease":
        base = _abbr(dialect, fact.base)
        return f"{base}{' ' if ' ' in base else ''}{fact.legs}{dialect._together['word']}"
    return id


@cache
def dialect(name: str) -> Dialect:
    """The words of "US" or "UK" terms; small letters are understood."""
    wanted = name.upper()
    if wanted not in DIALECTS:
        raise ValueError(f"terms are {' or '.join(DIALECTS)}, not {name!r}")
    return _load(wanted)


@cache
def _load(name: str) -> Dialect:
    return Dialect(name)
