"""What a manuscript without a head says in the lines before its rows: title, designer, terms, sizes, yarn, hook, gauge.

Each such line is kept as values, like those of a head, and the prose it stands in remembers that it was told (`Prose.told`),
so that a sheet gives it once and in its place. A line that is not plainly one of these stays prose.
"""

import re

from hookwright.ground import Span

from . import tree
from .head import Head, Hook, Measure, Yarn
from .head_parts import gauge_from_words
from .head_values import LEVELS, OLD_LEVELS, hook
from .manuscript_words import word_table
from .patterns import Lazy

MOST_LINES = 400  # looked at before the first row
_TERMS = Lazy(
    r"(?:(?:this|the)\s+)?(?:pattern\s+)?(?:is\s+|was\s+)?(?:(?:written|worked|given)\s+)?(?:(?:in|with|uses?|using)\s+)?(?:standard\s+)?"
    r"(?:US|U\.S\.|USA|American|UK|U\.K\.|British|English)\s+(?:crochet\s+)?(?:terms|terminology|abbreviations|stitch names)"
    r"(?:\s+(?:are|is))?(?:\s+used)?(?:\s+(?:throughout|in this pattern|here))*\s*[.!]?",
    re.I,
)
_LABELLED = Lazy(r"(?P<key>[A-Za-z][A-Za-z ]{1,28}?)\s*(?:[:=]|\s[–—-]\s)\s*(?P<value>\S.{0,300})")
_BY = Lazy(
    r"(?i:(?:(?:a|an)\s+)?(?:(?:free|original)\s+)?(?:crochet\s+)?(?:(?:pattern|design|designed|written|created|copyright)\s+)?by:?\s+)(?P<name>[A-Z][\w.'’&-]*(?:\s+[\w.'’&-]+){0,5}?)\s*"
    r"(?P<copyright>(?i:©|\(c\)|copyright)\s*.{0,60})?\.?",
)
_COPYRIGHT = Lazy(r"(?:©|\(c\)|copyright\b)\s*\S.{0,160}", re.I)
_TITLE = Lazy(r"[A-Z0-9“\"'‘][^:;|={}<>]{1,70}?")
_MARKS = Lazy(r"^[\s>#*_•+-]*|[\s*_#]*$")
_PAIRED = Lazy(r"([*_]{2})([^*_\n]+)\1|(?<=[^\s*_])[*_]{2}(?=\s|$)")  # "**Mat** (US)", its first marks gone
_YEARS = Lazy(r"\b(?:to|and|or|years?|yrs?|months?|mos?|old|sizes?|available|only)\b", re.I)
_ENDS = Lazy(r"[.,;:]$|[.!?]\s+[A-Z]")


def read_front(pattern: tree.Pattern, start: int) -> None:
    """Fills `pattern.front` from the lines before the first row; `start` is where the manuscript begins to say anything."""
    reader = _Front(pattern, start)
    pattern.front = reader.head
    seen, rows = 0, False
    for piece in pattern.pieces:
        if not rows:
            reader.begin(piece)
        for item in piece.items:
            rows = rows or isinstance(item, tree.Row)
            if isinstance(item, tree.Prose) and seen < MOST_LINES:
                seen += reader.prose(piece, item, before_rows=not rows)


class _Front:
    """Takes lines one by one; `head` holds what they said."""

    def __init__(self, pattern: tree.Pattern, start: int):
        self.pattern, self.first = pattern, start
        self.head = Head(present=False)
        self.keys = {word: key for key, words in word_table()["front"].items() for word in words}
        self.lines = 0  # seen since the title

    def begin(self, piece: tree.Piece) -> None:
        """The first heading of all is the title, whatever its level, unless it names a section or one part of several."""
        if self.head.title or not piece.name or piece.section or piece.span.start > self.first + 12:
            return
        others = any(other is not piece and other.name and other.level == piece.level and not other.section for other in self.pattern.pieces)
        has_rows = any(isinstance(item, tree.Row) for item in piece.items)
        if not (has_rows and others):
            self.head.title = piece.name

    def prose(self, piece: tree.Piece, item: tree.Prose, *, before_rows: bool) -> int:
        """Looks at the lines of one stretch of prose; gives how many there are. Behind the rows only a copyright is looked for."""
        at, told, count = item.span.start, [], 0
        for line in item.text.split("\n"):
            count += 1
            words = _MARKS.sub("", line)
            take = self._line if before_rows else self._copyright
            words = _PAIRED.sub(r"\2", words)
            if words and len(words) <= 340 and take(piece, words.strip(), at):
                told.append(Span(at, at + len(line)))
            at += len(line) + 1
        item.told = tuple(told)
        return count

    def _line(self, piece: tree.Piece, words: str, at: int) -> bool:
        """Takes a line if it says one of the things of a head; whether it did."""
        self.lines += 1
        if not self.head.title and at <= self.first + 3:
            self.lines = 0
            if _TITLE.fullmatch(words) and not _ENDS.search(words) and not _TERMS.fullmatch(words):
                self.head.title = words
                return True
        if _TERMS.fullmatch(words):
            self.head.terms = self.pattern.terms
            return True
        if self.lines <= 4 and not self.head.designer:
            found = _BY.fullmatch(words)
            if found:
                self.head.designer = found["name"].rstrip(".")
                if found["copyright"]:
                    words = " ".join(found["copyright"].split()).rstrip(".")
                    self.head.copyright = words if re.search(r"[A-Za-z]{3}", words.replace("copyright", "")) else f"{words} {self.head.designer}"
                return True
        if self._copyright(piece, words, at):
            return True
        if piece.section in ("", "about") and any(at <= own.span.start < at + len(words) for own in self.pattern.own.values() if own.words):
            return True  # a stitch of hers: it stands with the special stitches
        if piece.section == "about" and self.keys.get(" ".join(piece.name.lower().split())) == "sizes" and self._sizes_alone(words):
            return True
        found = _LABELLED.fullmatch(words)
        key = self.keys.get(" ".join(found["key"].lower().split())) if found else None
        return bool(key) and getattr(self, f"_{key}")(found["key"].strip(), found["value"].strip())

    def _copyright(self, piece: tree.Piece, words: str, at: int) -> bool:
        if self.head.copyright or not _COPYRIGHT.fullmatch(words):
            return False
        self.head.copyright = words.rstrip(".")
        return True

    # ------------------------------------------------------------ keys

    def _title(self, key: str, value: str) -> bool:
        self.head.title = value
        return True

    def _designer(self, key: str, value: str) -> bool:
        self.head.designer = value
        return True

    def _level(self, key: str, value: str) -> bool:
        plain = value.lower().strip(" .")
        self.head.level = OLD_LEVELS.get(plain, plain if plain in LEVELS else value)
        return True

    def _terms(self, key: str, value: str) -> bool:
        """ "Terms: UK" was read when the terms were settled."""
        return bool(re.fullmatch(r"(?:US|U\.S\.|USA|UK|U\.K\.|American|British)\.?(?:\s+(?:terms|terminology))?\.?", value, re.I))

    def _sizes(self, key: str, value: str) -> bool:
        sizes = self.pattern.sizes
        if len(sizes) > 1 and all(re.search(rf"(?<!\w){re.escape(size)}(?!\w)", value, re.I) for size in sizes):
            rest = value
            for size in sizes:
                rest = re.sub(rf"(?<!\w){re.escape(size)}(?!\w)", " ", rest, count=1, flags=re.I)
            if not re.search(r"\d|[A-Za-z]{2,}", _YEARS.sub("", rest)):
                return True
        return self._finished(key, value)

    def _sizes_alone(self, words: str) -> bool:
        """ "2 (4, 6) yrs" under "SIZES": nothing but the names."""
        before = dict(self.head.finished)
        told = self._sizes("sizes", words)
        kept, self.head.finished = self.head.finished == before, before
        return told and kept

    def _finished(self, key: str, value: str) -> bool:
        if key in self.head.finished:
            return False
        self.head.finished[key[:1].upper() + key[1:].lower()] = Measure((None,), value.rstrip("."))
        return True

    def _hook(self, key: str, value: str) -> bool:
        found = hook(value)
        plain = re.fullmatch(r"(?:US\s+)?(?:[A-Z](?:[/-]\d{1,2})?\s*[/(,]?\s*)?\d{1,2}(?:\.\d{1,2})?\s*mm\)?(?:\s*\([^()]{1,16}\)|\s*/\s*(?:US\s+)?[A-Z0-9-]{1,6})?(?:\s+(?:crochet\s+)?hook)?\.?", value)
        self.head.hook = (*self.head.hook, found if plain and found.mm else Hook(None, value.rstrip(".")))
        return True

    def _yarn(self, key: str, value: str) -> bool:
        self.head.yarn = (*self.head.yarn, Yarn(value.rstrip(".")))
        return True

    def _notions(self, key: str, value: str) -> bool:
        self.head.materials = (*self.head.materials, *(part.strip() for part in re.split(r"\s*[,;]\s*(?:and\s+)?", value.rstrip(".")) if part.strip()))
        return True

    def _gauge(self, key: str, value: str) -> bool:
        found = gauge_from_words(value)
        if found is not None:
            self.head.gauge = (*self.head.gauge, found)
        return found is not None
