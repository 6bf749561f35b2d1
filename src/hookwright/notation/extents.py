"""How far: "across", "around", "to last 3 sts", "to next corner", "until 2 sts remain"."""

from hookwright.ground import Span

from .tree import Extent, Place

_ON_HOOK = frozenset(("HOOK", "DROP", "DRAW", "YO", "WORKOFF", "CHANGE"))
_NO_STITCH = frozenset(("repeat", "sp", "ch", "corner", "group", "row"))
_FAR = frozenset(("ACROSS", "AROUND", "TOEND", "HALF", "TO", "UNTIL"))
_CALLS_A_MARKER = frozenset(("W", "U", "SIDE", "CENTER", "FIRST", "NEXT", "LAST", "ORD", "OTHER", "LEFT", "OPPOSITE", "EXTEND"))
_NAMING_A_PART = frozenset(("W", "U", "LEFT", "FIRST", "LAST", "ORD", "OTHER", "NEXT", "REM"))


class ExtentReading:
    """Reads extents."""

    def extent_ahead(self) -> bool:
        """Whether words of extent begin here."""
        kind = self.k[self.i]
        if kind in ("ACROSS", "AROUND", "TOEND"):
            return True
        if kind in ("TO", "UNTIL", "HALF"):
            keep = self.i
            found = self.extent()
            self.i = keep
            return found is not None
        return False

    def extent(self) -> Extent | None:
        """The extent that begins here, or None with nothing read."""
        k = self.k
        kind = k[self.i]
        if kind not in _FAR:
            if kind == "BUT" and k[self.i + 1] == "LAST":
                start = self.i
                self.i += 1
                return self._spanned(self._last(), start)
            return None
        start = self.i
        if kind == "TOEND":
            self.i += 1
            return self._spanned(Extent(), start)
        if kind == "HALF":
            if k[self.i + 1] in ("AROUND", "ACROSS", "END", ",", ".", ";"):
                self.i += 1 + (k[self.i + 1] in ("AROUND", "ACROSS"))
                return self._spanned(Extent("half"), start)
            return None
        if kind in ("ACROSS", "AROUND"):
            return self._spanned(self._across(), start)
        self.i += 1
        extent = self._limit(kind)
        if extent is None:
            self.i = start
            return None
        return self._spanned(extent, start)

    def _spanned(self, extent: Extent, start: int) -> Extent:
        extent.span = Span(self.s[start], self.e[self.i - 1])
        if extent.place is not None:
            self.last_limit = extent.place
        elif extent.kind == "last" and extent.n == 1 and extent.of not in _NO_STITCH:
            self.last_limit = Place("last")  # "until one stitch is left, 2 dc in it", "dc to last dc, 2 dc in it"
        return extent

    def over_so_many(self) -> Extent | None:
        """ "over first 31 sts", "on 31 sts": across so many; None with nothing read where no number of stitches follows."""
        k, start = self.k, self.i
        at = start + 1 + (k[start + 1] in ("FIRST", "NEXT"))
        if k[at] != "NUM" or k[at + 1] not in ("STN", "ST"):
            return None
        self.i = at + 1
        noun = self.noun()
        return self._spanned(Extent("until", self.v[at], noun.of if noun else "st"), start)

    def _across(self) -> Extent:
        k = self.k
        self.i += 1
        nxt = k[self.i]
        if nxt in ("TO", "UNTIL"):
            keep = self.i
            self.i += 1
            extent = self._limit(nxt)
            if extent is not None:
                return extent
            self.i = keep
        elif nxt == "TOEND":
            self.i += 1
        elif nxt in ("FIRST", "NEXT") and k[self.i + 1] == "NUM":
            number = self.v[self.i + 1]
            self.i += 2
            noun = self.noun()
            return Extent("until", number, noun.of if noun else "st")
        elif nxt == "HALF":
            self.i += 1
            return Extent("half")
        elif nxt == "BUT" and k[self.i + 1] == "LAST":
            self.i += 1
            return self._last()
        elif nxt == "ALL" and k[self.i + 1] == "NUM" and k[self.i + 2] == "SIDE":
            self.i += 3  # "along all 4 sides"
        elif nxt == "NUM" and k[self.i + 1] in ("SIDE", "EXTEND") and self.v[self.i] == 1:
            self.i += 2  # "along one side"
        elif nxt in ("SIDE", "TOP", "ROW", "ROUND", "RING"):
            self.i += 1
            while k[self.i] in ("OF", "SP", "ROW", "ROUND", "STN", "PREVIOUS"):
                self.i += 1
            if k[self.i] in ("TO", "UNTIL") and k[self.i - 1] == "SIDE":  # "across side to next corner"
                keep = self.i
                self.i += 1
                extent = self._limit(k[keep])
                if extent is not None:
                    return extent
                self.i = keep
        elif nxt == "THIS" and k[self.i + 1] in ("ROW", "ROUND", "SIDE", "AROUND"):
            self.i += 2
        elif nxt == "EXTEND":
            self.i += 1
            self._skip_of_noun()
        elif nxt == "AROUND":
            self.i += 1
        elif nxt == "CHANGE" and self._word(self.i) == "back to":  # "across back to next ch-2 sp": the back of a garment
            keep = self.i
            self.i += 1
            extent = self._limit("TO")
            if extent is not None:
                return extent
            self.i = keep
        elif nxt in _NAMING_A_PART and (extent := self._along_a_part()) is not None:
            return extent
        elif nxt in ("W", "U"):  # "around entire blanket"
            at = self.i
            while k[at] in ("W", "U", "EXTEND", "SP", "OF", "TOP") and at - self.i < 5:
                at += 1
            if k[at] in (",", ".", ";", "END", "(", "[", ")", "]") or k[at] == "WITH" and k[at + 1] in ("NUM", "(", "[", "ST"):
                self.i = at
        return Extent()

    def _along_a_part(self) -> Extent | None:
        """ "across left front to next ch-2 sp", "across second sleeve": the part that is gone along, and how far; None with nothing read."""
        k, at = self.k, self.i
        while k[at] in _NAMING_A_PART or k[at] in ("EXTEND", "SP", "OF", "TOP", "STN") and at > self.i or k[at] == "NUM" and k[at - 1] in ("W", "U") and k[at + 1] in ("TO", "UNTIL", ",", ";", "."):
            at += 1
            if at - self.i > 5:
                return None
        if "W" not in k[self.i:at] and "U" not in k[self.i:at]:
            return None
        if k[at] in ("TO", "UNTIL"):
            keep, self.i = self.i, at + 1
            extent = self._limit(k[at])
            if extent is None:
                self.i = keep
            return extent
        if k[at] not in (",", ".", ";", "END", "(", "[", ")", "]", "TOEND"):
            return None
        self.i = at + (k[at] == "TOEND")
        return Extent()

    def _limit(self, word: str) -> Extent | None:
        """What follows "to" or "until"."""
        k, v = self.k, self.v
        kind = k[self.i]
        while kind in ("IN", "UNTIL", "TO") and k[self.i + 1] in ("LAST", "NUM", "NEXT"):  # "to within last 2"
            self.i += 1
            kind = k[self.i]
        if kind == "LAST" and (k[self.i + 1] == "REP" or k[self.i + 1] in ("W", "U", "PATTERN", "MANNER") and k[self.i + 2] == "REP"):
            self.i += 2 if k[self.i + 1] == "REP" else 3  # "to last repeat": the steps after it are that repeat
            return Extent("last", 1, "repeat")
        if kind == "LAST":
            return self._until_last() if word == "UNTIL" else self._last()
        if kind == "BEG" and (k[self.i + 1] in (".", ",", ";", "END", "(", "[", "JOIN") or k[self.i + 1] in ("OF", "ROUND", "ROW", "AROUND") and k[self.i + 2] not in ("CH", "TCH")):
            self.i += 1
            while k[self.i] in ("OF", "ROUND", "ROW", "AROUND", "THIS"):
                self.i += 1
            return Extent()  # "to beg of rnd": all the way
        if kind == "ENDING" or kind == "REM" and word == "TO" or kind in ("TOP", "BASE") and k[self.i + 1] in (".", ",", "END", ")", "(", "["):
            self.i += 1
            return Extent()
        if kind == "NUM" and not self._chain_number(self.i):
            extent = self._before_place()
            if extent is not None:
                return extent
        if kind == "ONEAFTER" or word == "UNTIL" and kind == "NUM" and k[self.i + 1] == "SP" and not _ON_HOOK.isdisjoint(k[self.i + 2:self.i + 8]) and self._word(self.i + 1)[0] == "l":
            return None  # "sc in last st until 2 loops remain, drop A and pull B through"
        if kind in _CALLS_A_MARKER and "MARKER" in k[self.i + 1:self.i + 5] and self._named_marker():
            return Extent("place", place=Place("marked"))
        if word == "UNTIL":
            return self._until()
        if kind in ("NEXT", "FIRST", "ORD", "SP", "MARKER", "CH", "SAME", "BEG", "CENTER", "TCH", "TOP") or (
            kind == "NUM" and self._chain_number(self.i)
        ) or (kind == "ST" and v[self.i] in ("shell", "vst")):
            place = self.target() or self._noun_place()
            if place is not None and (place.of in ("sp", "corner", "group", "gap") or place.which in ("next", "first") and place.of not in ("st", "ch", "join") and place.n == 1 or place.which in ("marked", "chain top", "beginning") or place.part):
                return Extent("place", place=place)
        return None

    def _before_place(self) -> Extent | None:
        """ "2 sts before marker", "1 st of ch-2 sp" (to within): so many left before that place."""
        k, start = self.k, self.i
        number = self.v[start]
        self.i += 1
        noun = self.noun()
        if k[self.i] == "OF" or k[self.i] == "REMARK" and self._word(self.i) == "before":
            self.i += 1
            if k[self.i] == "ENDING" or k[self.i] == "BEG" and k[self.i + 1] not in ("CH", "TCH"):  # "to 2 sts before end of row"
                self.i += 1
                while k[self.i] in ("OF", "ROW", "ROUND", "AROUND", "THIS"):
                    self.i += 1
                return Extent("last", number, noun.of if noun else "st")
            if self._named_marker():
                return Extent("place", number, noun.of if noun else "st", Place("marked"))
            place = self.target() or self._noun_place()
            if place is not None and (place.of in ("sp", "corner", "group", "gap") or place.which == "marked"):
                return Extent("place", number, noun.of if noun else "st", place)
        self.i = start
        return None

    def _named_marker(self) -> bool:
        """ "marker", "toe marker", "first side marker", "red marker": read past it, whatever it is called."""
        k, at = self.k, self.i
        while k[at] in _CALLS_A_MARKER and at - self.i < 4:
            at += 1
        if k[at] != "MARKER" or k[at + 1] in ("STN", "ST", "SP"):
            return False
        self.i = at + 1
        return True

    def _last(self) -> Extent:
        """ "last 3 (4, 5) sts", "last st", "last"."""
        k = self.k
        self.i += 1
        number = 1
        if k[self.i] == "NUM" and not self._chain_number(self.i):
            number = self.v[self.i]
            self.i += 1
        noun = self.noun()
        of = noun.of if noun is not None else "st"
        if noun is not None and noun.n is not None:
            number = noun.n
        if number == 1 and of in ("sp", "corner"):
            self._past_edge_stitch()
            return Extent("place", place=Place("last", of, chains=noun.chains))
        if k[self.i] in ("OF", "IN") and k[self.i + 1] in ("ROW", "ROUND", "PREVIOUS"):
            self.i += 2
        if k[self.i] == "REMARK" and self._word(self.i) == "before":  # "to last dc before ch-2 sp": so many before that place
            at = self.i
            self.i += 1
            place = self.target() or self._noun_place()
            if place is not None and place.of in ("sp", "corner", "group") or place is not None and place.which == "marked":
                return Extent("place", number, of, place)
            self.i = at
        return Extent("last", number, of)

    def _past_edge_stitch(self) -> None:
        """ "to last ch-1 sp and sc": the stitch that stands after the space is left with it."""
        k, at = self.k, self.i + 1
        if k[self.i] not in ("AND", "+"):
            return
        at += k[at] == "LAST"
        at += k[at] == "NUM" and self.v[at] == 1
        if k[at] in ("STN", "ST") and k[at + 1] in (",", ".", ";", ")", "]") and self.depth == 0 and isinstance(self.v[at], str | None):
            self.i = at + 1

    def _until_last(self) -> Extent:
        """ "until last 2 sts", "until last block is joined": that one, too."""
        extent, k = self._last(), self.k
        at = self.i + (k[self.i] in ("W", "HAVE", "U"))
        if at == self.i or k[at] not in ("JOIN", "MADE"):
            return extent
        self.i = at + 1
        return Extent()

    def _until(self) -> Extent | None:
        """ "until 2 sts remain", "until you have 40 sts", "until you reach the marked st", "until next corner"."""
        k = self.k
        have = False
        while k[self.i] in ("YOU", "HAVE", "TOTAL", "THIS"):
            have = have or k[self.i] in ("HAVE", "TOTAL") or self._word(self.i).endswith("'ve")
            self.i += 1
        at = self.i
        while k[at] == "W" and self._word(at) in ("just", "only", "single", "lone"):
            at += 1
        if at > self.i and k[at] in ("STN", "ST") and k[at + 1] in ("LEFT", "REM"):  # "until there's a single stitch left"
            self.i = at
            noun = self.noun()
            self.i += 1
            return Extent("last", 1, noun.of if noun else "st")
        if k[self.i] == "W":  # "until you reach", "until there are only", "until you come to"
            self.i += 1
            self.i += k[self.i] in ("TO", "AT") and k[self.i + 1] in ("LAST", "NEXT", "FIRST", "SP", "CH", "MARKER", "ENDING")
        if k[self.i] in ("ST", "OWN") and k[self.i + 1] == "IN":  # "until there is a dc in the last space"
            self.i += 2
            place = self.target()
            return Extent() if place is not None and place.which == "last" else None
        at = self.i + (k[self.i] == "AT")  # "until you are back at the beginning"
        if k[at] == "BEG" and k[at + 1] in (".", ",", ";", "END", "(", "[", ")", "]", "OF") or k[at] == "FIRST" and k[at + 1] in ("END", "."):
            self.i = at + 1
            while k[self.i] in ("OF", "ROUND", "ROW", "AROUND", "AGAIN", "THIS"):
                self.i += 1
            return Extent()
        if k[self.i] == "NUM" and not self._chain_number(self.i):
            number = self.v[self.i]
            self.i += 1
            noun = self.noun()
            of = noun.of if noun is not None else "st"
            at = self.i
            if k[at] in ("W", "HAVE", "GLUE"):
                at += 1
            if k[at] in ("REM", "LEFT", "UNWORKED"):
                self.i = at + 1
                if k[self.i] == "UNWORKED":
                    self.i += 1
                return Extent("last", number, of)
            if have or k[at] == "MADE":
                self.i = at + (k[at] == "MADE")
                if k[self.i] == "TOTAL":
                    self.i += 1
                return Extent("until", number, of)
            if noun is not None:
                return Extent("last", number, of)
            return None
        if k[self.i] == "LAST":
            return self._until_last()
        if k[self.i] == "ENDING":
            self.i += 1
            return Extent()
        if k[self.i] == "SP" and self.v[self.i] == "sp":
            return None  # "until hole closes"
        place = self.target() or self._noun_place()
        return Extent("place", place=place) if place is not None else None
