"""Edges of the work by name: "evenly along long side", "up right front, round neck and down left front", "along side of heel flap".

Nothing of the row below tells how many places such an edge has: the number of stitches stands beside it.
"""

import re

from hookwright.ground import Span

from .manuscript_words import word_table
from .patterns import Lazy
from .tree import Group, Note, Place, Repeat, Stated, Stitch

_WAY = r"(?:along|across|around|round|up|down)"
_NOT_THERE = (
    r"next|last|same|every|st|sts|stitch|stitches|sc|dc|hdc|htr|tr|dtr|ch|chs|chain|sp|sps|space|spaces|row|rows|round|rounds|rnd|rnds|ring|loops?|lps?|posts?|beg|beginning|turning|turn|join|foundation|marker|\d\w*"
)
_MOST_SIDES = {"each side": 4, "each edge": 4, "all sides": 4, "all four sides": 4, "all 4 sides": 4, "each of 4 sides": 4, "each of the 4 sides": 4, "each of the four sides": 4, "each long": 2, "each short": 2, "both long": 2, "both short": 2, "each of 2": 2, "each of the 2": 2, "each of the two": 2, "each of the long": 2, "each of the short": 2, "both sides": 2, "both edges": 2, "both fronts": 2}


def _edge_pattern() -> str:
    nouns = "|".join(sorted(word_table()["edges"]["nouns"], key=len, reverse=True))
    one = (
        rf"{_WAY}\s+(?:the\s+|each\s+(?:of\s+the\s+(?:4|four)\s+)?|both\s+|all\s+(?:(?:4|four)\s+)?)?(?:(?!(?:{_NOT_THERE}|{_WAY}|and|of|to|in|evenly|other|opposite)\b)[a-z][\w'-]*\s+){{0,4}}?"
        rf"(?P<noun%d>(?:{nouns}))(?![\w'-])(?:\s+of\s+(?:the\s+)?(?!(?:{_NOT_THERE})\b)[a-z][\w'-]*(?:\s+(?!(?:{_NOT_THERE}|{_WAY}|and|to|with|working|placing|evenly|then|as|for)\b)[a-z][\w'-]*){{0,2}})?"
    )
    further = "".join(rf"(?:\s*,?\s*(?:(?:and|then)\s+){{0,2}}{one % index})?" for index in (2, 3, 4))
    return rf"(?:{one % 1}){further}(?=\s*(?:[,;.:)(\[\]*]|$|and\b|to\b|with\b|working\b|placing\b|then\b|for\b|turn|join|as\s+follows|thus\b|like\s+this))"


class _Edge:
    """The pattern, built when the first edge is asked for."""

    pattern = None

    @classmethod
    def match(cls, text: str, start: int, end: int):
        if cls.pattern is None:
            cls.pattern = re.compile(_edge_pattern(), re.I)
        return cls.pattern.match(text, start, end)


_OTHER = Lazy(rf"{_WAY}\s+(?:the\s+)?(?:other|opposite|second|remaining|last|final|next|third|fourth)\s+(?:side|edge)(?P<of>\s+of\s+(?:the\s+)?(?!(?:{_NOT_THERE})\b)[a-z][\w'-]*(?:\s+(?!(?:{_NOT_THERE}|{_WAY}|and|to|with|working|placing|then)\b)[a-z][\w'-]*)?)?(?=\s*(?:[,;.:)(\[\]*]|$|and\b|to\b|with\b|working\b|then\b|join|turn))", re.I)
_BARE = Lazy(rf"{_WAY}\s+(?:the\s+)?(?:side\s+)?edges?", re.I)
_ANY = Lazy(rf"{_WAY}\s+(?:the\s+)?(?!(?:{_NOT_THERE}|to|from|and)\b)[a-z][a-z'-]*(?:\s+(?!(?:{_NOT_THERE}|and|to|with|working|placing|then)\b)[a-z][a-z'-]*){{0,3}}(?=\s*(?:[,;.:)(\[\]*]|$|and\b|then\b|to\b|turn|join))", re.I)
_BEGINS = frozenset(("ACROSS", "AROUND", "W"))
_WAYS = frozenset(("along", "across", "around", "round", "up", "down"))


_BOTH_PIECES = Lazy(
    rf"through\s+(?:both\s+)?(?:the\s+)?(?:(?!(?:{_NOT_THERE}|and)\b)[a-z][\w'-]*\s+){{1,3}}and\s+(?:the\s+)?(?!(?:{_NOT_THERE})\b)[a-z][\w'-]*(?:\s+[a-z]+)?(?:\s+(?:together|at\s+once|at\s+the\s+same\s+time))?(?=\s*(?:[,;.)(\[]|$))", re.I
)


_OTHER_PIECE = Lazy(
    r"(?:in|into|to|through|onto)\s+(?:(?:the|any|a)\s+)?(?:[^,;.()*]{0,40}?\s)?(?:of|on)\s+(?:the\s+|a\s+)?(?:(?:first|second|third|last|previous|prev|other|next)\s+(?:motif|hexagon|hexie|medallion|flower|triangle|diamond|octagon)|(?:first|second|third|adjacent|adjoining|neighbou?ring|completed)\s+(?:motif|square|hexagon|hexie|medallion|flower|circle|granny|triangle|diamond|octagon|piece))(?![a-z])"
    r"|(?:in|into|to|through)\s+(?:the\s+)?corresponding\s+[^,;.()*]{2,60}(?=\s*[,;.)*]|\s*$)", re.I
)


class EdgeReading:
    """Reads edges by name."""

    edges_seen = False
    announced = None  # the "sc evenly around neck:" whose parts follow

    def announces(self, steps: list) -> None:
        """At a colon: "50 sc evenly around neck: 14 along right front, ..." tells beforehand what the parts after it come to."""
        last = next((step for step in reversed(steps) if type(step) is not Note), None)
        place = last.place if type(last) is Stitch and last.evenly else None
        if place is not None and (place.which == "edge" or last.n == 1 and place.extent is not None and place.extent.kind in ("end", "open")):
            self.announced = last

    def shaping_announced(self, frame) -> bool:
        """At a colon: "inc 1 st each side of the marker: hdc 14, 2 hdc in next, ..." tells beforehand what the steps after it do."""
        k, at = self.k, self.i
        if at > 14 or k[0] not in ("ST", "SHAPING") or k[0] == "ST" and self.v[0] not in ("inc", "dec") or {"SIDE", "MARKER", "ENDING"}.isdisjoint(k[:at]):
            return False
        if k[at + 1] not in ("ST", "NUM", "OWN", "CH", "(", "[", "MARK") or not {",", "REP"} & set(k[at + 1:]):
            return False
        frame.steps[:] = [Note(self.text[self.s[0]:self.e[at - 1]], Span(self.s[0], self.e[at - 1]))]
        self.i = at + 1
        return True

    def without_announced(self, steps: list) -> list:
        """The steps without the one that told beforehand what its parts come to; as they are where no parts follow it."""
        told = self.announced
        at = next((index for index, step in enumerate(steps) if step is told), -1)
        parts = [step for step in steps[at + 1:] if type(step) in (Stitch, Group, Repeat) and getattr(step, "kind", "") != "slst"]
        if at < 0 or not parts or not any(step.place is not None and step.place.which == "edge" for step in parts if type(step) is not Repeat):
            return steps
        if told.n != 1 and not self.read.stated:
            self.read.stated.append(Stated(((told.n, told.kind, None),), span=parts[-1].span))
        if told.n == 1 or len(parts) > 1:
            return [step for step in steps if step is not told]
        return steps

    def _to_another(self, frame, start: int) -> bool:
        """ "sl st in corresponding ch-5 sp of first motif": joined to a piece made before, no stitch of this one."""
        found = _OTHER_PIECE.match(self.text, self.s[self.i], self.s[-1])
        if found is None:
            return False
        while self.s[self.i] < found.end() and self.k[self.i] != "END":
            self.i += 1
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def where_told(self, frame) -> bool:
        """ "46 sts along the top of the bag", "90 sc along Row 61": where stitches that are counted lie, and no way to repeat them."""
        k, start = self.k, self.i
        if k[start] == "TOEND":
            return False
        if k[start + 1] in ("ROW", "ROUND") and k[start + 2] == "NUM":
            self.i = start + 3
        elif self.edge_place() is None:
            return False
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def another_piece(self) -> Note | None:
        """ "through arm and body together": a piece made before is caught in; None with nothing read."""
        start = self.i
        found = _BOTH_PIECES.match(self.text, self.s[start], self.s[-1])
        if found is None:
            return None
        while self.s[self.i] < found.end() and self.k[self.i] != "END":
            self.i += 1
        return Note(found[0], self.span(start))

    def edge_place(self) -> Place | None:
        """The edge named here, with the words that name it in `group`; None with nothing read."""
        k, at = self.k, self.i
        words = self.text[self.s[at]:self.e[at]].lower()
        top = k[at] == "TOEND" and words.startswith("across") and words.endswith("top") and (self.edges_seen or self.sides)  # "28 sc across the top" of edges
        if not top and (k[at] not in _BEGINS or words not in _WAYS):
            return None
        start, end = self.s[at], self.s[-1]
        found = _Edge.match(self.text, start, end)
        if found is None:
            found = _OTHER.match(self.text, start, end)
            if found is None or not found["of"] and not self.edges_seen:
                found = _ANY.match(self.text, start, end) if self.announced is not None or self.edges_seen else None
            if found is None:
                return None
        elif _BARE.fullmatch(found[0]):
            return None  # "along edge": the row ends
        while self.s[self.i] < found.end() and k[self.i] != "END":
            self.i += 1
        words = " ".join(found[0].split())
        self.edges_seen = True
        what = re.sub(rf"^{_WAY}\s+", "", words, flags=re.I).lower()
        sides = next((number for name, number in _MOST_SIDES.items() if what.startswith(name)), 1)
        return Place("edge", "st", sides, group=words)
