"""What the words of a row mean: the reader's vocabulary, with the dialect's stitches and the designer's own words in it."""

import re
from functools import cache
from typing import NamedTuple

from hookwright.stitches import Dialect, stitch
from hookwright.stitches import dialect as dialect_of

from .tree import OwnStitch
from .vocabulary import (
    Meaning,
    Vocabulary,
    colour_names,
    colour_words,
    parts_of,
    plain_words,
    vocabulary,
    with_plurals,
    word_file,
    words_listed,
)

_GROUPS = ("cl", "bobble", "popcorn", "puff")  # kinds that may have legs of another stitch


class Guess(NamedTuple):
    """A word that is not known, taken for another: what it was taken for, and whether that is only a slip of spacing."""

    word: str
    meanings: tuple[Meaning, ...]
    sure: bool = False


@cache
def _slips() -> frozenset[str]:
    """Words that are known and misspelt."""
    return frozenset(words_listed(word_file()["remarks"]["SLIPS"]))


@cache
def _near_words(terms: str) -> dict[int, tuple[str, ...]]:
    """Words that a slip may have been meant for, by their length: the craft's words of three letters and more."""
    by_length: dict[int, list[str]] = {}
    for word, meaning in vocabulary(terms).singles.items():
        if len(word) > 2 and meaning.kind != "REMARK" and word.isalpha() and word not in _slips():
            by_length.setdefault(len(word), []).append(word)
    return {length: tuple(words) for length, words in by_length.items()}


# letters that a scanner or a hurried eye takes for one another: common practice, no source
_LOOKS = {frozenset(pair) for pair in ("od", "o0", "ce", "co", "il", "1l", "nh", "uv", "5s", "8b", "rn", "ao", "ea", "sz", "ij", "tf", "gq", "cs")}

_SCANNED_AS = (("rn", "m"), ("m", "rn"), ("cl", "d"), ("d", "cl"), ("li", "h"), ("h", "li"), ("ii", "u"), ("vv", "w"), ("ri", "n"))


def _slip(word: str, meant: str) -> float:
    """How far `word` is from `meant` as a slip of the fingers or the scanner: 0 the same, under 1 a likely slip."""
    if word == meant:
        return 0.0
    length, other = len(word), len(meant)
    if abs(length - other) > 2:
        return 9.0
    if length == other:
        wrong = [i for i in range(length) if word[i] != meant[i]]
        if len(wrong) == 1:
            i = wrong[0]
            return 0.3 if frozenset((word[i], meant[i])) in _LOOKS else 0.8 if i else 1.2
        if len(wrong) == 2 and wrong[1] == wrong[0] + 1 and word[wrong[0]] == meant[wrong[1]] and word[wrong[1]] == meant[wrong[0]]:
            return 0.4
        return float(len(wrong))
    short, long = (word, meant) if length < other else (meant, word)
    i = 0
    while i < len(short) and short[i] == long[i]:
        i += 1
    if short[i:] == long[i + len(long) - len(short):]:
        doubled = i and long[i] == long[i - 1]
        return (0.5 if doubled else 0.8) * (len(long) - len(short))
    return 9.0


MOST_WORDS = 20_000  # of a manuscript that are kept with their meaning


class Lexicon:
    """The words known to one pattern.

    terms    "US" or "UK"; own: name -> OwnStitch; sizes: how many sizes number lists have; colours: their names and letters
    only  indexes of the sizes that a shorter list is for (None: all); blocks: her words for the blocks of a piece ("tile")
    """

    __slots__ = ("terms", "dialect", "own", "sizes", "colours", "only", "blocks", "words", "_seen", "at_a_glance", "_guesses", "_nouns", "own_numbered", "own_mixed", "loops", "looked_about")

    def __init__(
        self,
        terms: "str | Dialect" = "US",
        own: dict[str, OwnStitch] | None = None,
        sizes: int = 1,
        colours=frozenset(),
        only: tuple[int, ...] | None = None,
        blocks: tuple[str, ...] = (),
    ):
        self.dialect = terms if isinstance(terms, Dialect) else dialect_of(terms)
        self.terms = self.dialect.name
        self.own = dict(own or {})
        self.sizes = max(1, sizes)
        self.colours = frozenset(colour.lower() for colour in colours)
        self.only = only
        self.blocks = blocks
        base = vocabulary(self.terms)
        self.words = Vocabulary(base.singles, base.longer)
        shared = base if not (own or colours or blocks) else self.words  # without words of her own every lexicon of these terms says the same
        self._seen, self.at_a_glance = shared.seen, shared.at_a_glance
        self._guesses: dict[str, Guess | None] = {}
        self._nouns: dict[str, bool] = {}  # of unknown words: whether the manuscript uses them as nouns
        self.looked_about = False  # whether something was told by more of the text than the words asked about
        self.own_mixed: set[str] = set()  # names of own stitches with digits in one word: "c6f"
        self.loops: dict[str, OwnStitch] = {}  # her words for chains that are also words for the space they leave: "lp = ch 5"
        self.own_numbered: dict[str, dict[str, dict]] = {}
        for own_stitch in self.own.values():
            self._add_own(own_stitch)
        for word in blocks:
            for each in (word, word + "s", word + "es"):
                self.words.add((each,), Meaning("SP", "group"))

    def but(self, **changes) -> "Lexicon":
        """A lexicon with some parts changed (own, sizes, colours, only)."""
        parts = {"terms": self.dialect, "own": self.own, "sizes": self.sizes, "colours": self.colours, "only": self.only, "blocks": self.blocks}
        return Lexicon(**{**parts, **changes})

    def _add_own(self, own: OwnStitch) -> None:
        for spelling in (own.name, *own.spellings):
            words = parts_of(spelling)
            if not words:
                continue
            if words[0][0].isdigit():  # "5-dc shell": a number leads
                key = words[0].rstrip("abcdefghijklmnopqrstuvwxyz")
                rest = (words[0][len(key):], *words[1:]) if words[0] != key else words[1:]
                if not rest:  # "2in1": letters between digits
                    key, *rest = re.findall(r"\d+|[a-z]+", words[0])
                    rest = tuple(rest)
                    if not rest:
                        continue
                after = self.own_numbered.setdefault(key, {})
                after.setdefault(rest[0], {}).setdefault(rest, Meaning("OWN", own))
            elif own.kind and own.kind == self.words.singles.get(words[0], Meaning("")).value and len(words) == 1 and own.legs is None:
                continue
            elif len(words) == 1 and own.takes == 0 and self.words.singles.get(words[0], Meaning("")).kind == "SP":
                self.loops.update(dict.fromkeys((words[0], words[0] + "s", words[0] + "es"), own))  # where it is worked into, it stays a space
            else:
                if len(words) == 1 and any(letter.isdigit() for letter in words[0]):
                    self.own_mixed.add(words[0])
                for each in with_plurals(words) if len(spelling) > 1 else (words,):  # "as" is no plural of "A"
                    self.words.add(each, Meaning("OWN", own))

    # ------------------------------------------------------------ single words

    def meaning(self, word: str) -> Meaning | None:
        """What a single word means, in any letter case, with or without a plural 's; None where it is not known."""
        found = self._seen.get(word, 0)
        if found != 0:
            return found
        small = word.lower().replace("\u00ad", "").removesuffix("(s)")
        found = self.words.singles.get(small)
        if found is None and "'" in small:
            found = self.words.singles.get(small.replace("'", "")) or self.words.singles.get(small.split("'")[0])
        if found is None and small in self.colours and len(small) > 1:
            found = Meaning("SHADE", word)
        if found is not None and found.kind == "OWN" and len(word) == 1 and word == small and found.value.name.isupper():
            found = vocabulary(self.terms).singles.get(small, found)  # "a" and "x" beside an "A" and "X" of hers
        if found is None and small in plain_words():
            found = Meaning("W")
        if len(self._seen) >= MOST_WORDS:
            self._seen.clear()
        self._seen[word] = found
        return found

    def is_colour(self, word: str) -> bool:
        """Whether the word is one of the pattern's colours: by its name, or a single capital letter, or MC and CC."""
        if len(word) == 1:
            return word.isupper()
        return word.lower() in self.colours or word in ("MC", "CC")

    def colour_words(self) -> frozenset[str]:
        """Plain English colour words."""
        return colour_words() | self.colours

    def names_a_colour(self, word: str) -> bool:
        """Whether an unknown word is the name of a colour, which is no slip of another word."""
        return word.lower() in colour_names()

    def guess(self, word: str) -> Guess | None:
        """The word that an unknown one was probably meant for: words run together, the other dialect's, or a slip away."""
        small = word.lower().replace("\u00ad", "")
        if small not in self._guesses:
            if len(self._guesses) > 20_000 or len(small) > 40:
                return None
            self._guesses[small] = self._scanned(small) or self._glued(small) or self._foreign(small) or self._nearest(small)
        return self._guesses[small]

    def is_noun(self, word: str, text: str) -> bool:
        """Whether an unknown word stands as a noun somewhere in `text`: "a tile", "next tile"."""
        self.looked_about = True
        small = word.lower().removesuffix("s")
        if small not in self._nouns:
            if len(self._nouns) > 2_000:
                return False
            pattern = rf"\b(?:an?|each|every|next|last|first|another|same|this|\d+(?:st|nd|rd|th))\s+{re.escape(small)}s?(?![a-z])"
            self._nouns[small] = re.search(pattern, text, re.I) is not None
        return self._nouns[small]

    def _scanned(self, word: str) -> Guess | None:
        """A word with two letters that a scanner takes for one, or one for two: "frorn" for "from", "tum" for "turn", "comer" for "corner"."""
        singles = self.words.singles
        for seen, meant in _SCANNED_AS:
            at = word.find(seen)
            while at >= 0:
                found = word[:at] + meant + word[at + len(seen):]
                if len(word) > 2 and found in singles:
                    return Guess(found, (singles[found],))
                at = word.find(seen, at + 1)
        return None

    def _foreign(self, word: str) -> Guess | None:
        id = self.dialect.foreign.get(word) or self.dialect.foreign.get(word.removesuffix("s"))
        return Guess(word, (Meaning("ST", id),), True) if id else None

    def _glued(self, word: str) -> Guess | None:
        """Two or three words run together ("chscount", "sctbl", "scfp")."""
        singles = self.words.singles
        for cut in range(len(word) - 1, 0, -1):
            head, tail = singles.get(word[:cut]), singles.get(word[cut:])
            if head and tail and _joinable(head, tail, word[:cut], word[cut:]):
                return Guess(f"{word[:cut]} {word[cut:]}", (head, tail), True)
        if word[0] == "x":
            times = singles.get(word[1:]) or (Meaning("ST", self.dialect.foreign[word[1:]]) if word[1:] in self.dialect.foreign else None)
            if times is not None and times.kind in ("ST", "CH", "OWN"):
                return Guess(f"x {word[1:]}", (Meaning("X"), times), True)
        return None

    def _nearest(self, word: str) -> Guess | None:
        singles = self.words.singles
        if len(word) < 3:
            best = min(((_slip(word, m), m) for m in ("sc", "dc", "ch", "tr", "st", "sk", "sp") if m in singles), default=(9.0, ""))
            if len(word) == 2 and best[0] <= 0.3:
                return Guess(best[1], (singles[best[1]],))
            return None
        best, meant = 9.0, ""
        near = _near_words(self.terms)
        for length in (len(word), len(word) - 1, len(word) + 1, len(word) + 2):
            for other in near.get(length, ()):
                if other[0] != word[0] and other[-1] != word[-1]:
                    continue
                far = _slip(word, other)
                if far < best:
                    best, meant = far, other
        limit = 0.4 if len(word) == 3 else 0.8 if len(word) < 7 else 1.6
        if best <= limit:
            one = meant.removesuffix("s")
            if not word.endswith("s") and singles.get(one) == singles[meant]:
                meant = one  # "scc" is no plural
            return Guess(meant, (singles[meant],))
        return None

    def group_of(self, kind: str) -> bool:
        """Whether a stitch kind is made of legs of another stitch."""
        return kind in _GROUPS

    def fact(self, kind: str):
        """The catalogue's facts of a stitch kind."""
        return stitch(kind)


def _joinable(head: Meaning, tail: Meaning, first: str, second: str) -> bool:
    makes = ("ST", "CH", "STN", "OWN")
    if head.kind == "ST" and tail.kind == "ST" and tail.value in ("shell", "cl", "bobble", "fan"):
        return True
    if head.kind == "LOOP" and tail.kind == "ST":  # "BLsc"
        return True
    if head.kind in makes and tail.kind in ("LOOP", "TOG", "COUNT", "IN", "SP", "TURN", "AROUND", "ACROSS", "NEXT", "AND"):
        return len(second) > 1
    if len(first) > 2 and len(second) > 2:
        return "W" not in (head.kind, tail.kind) and "GLUE" not in (head.kind, tail.kind) and "REMARK" not in (head.kind, tail.kind)
    if head.kind in ("IN", "NEXT", "EACH", "SKIP", "TURN", "AND", "TO", "FROM", "FIRST", "LAST", "SAME", "REP"):
        return tail.kind in (*makes, "NEXT", "EACH", "SP", "SAME", "FIRST", "GLUE", "LAST", "AND") and len(second) > 1
    return False
