"""Other rows, sizes and yarn spoken of among the steps of a row: "sc2tog as you did in Row 11", "only Rnd 9 is worked in back loops", "largest size", "B in any corner"."""

from .tree import JoinYarn

_LEADS_TO_IT = frozenset(("AS", "INTHISWAY", "YOU", "HAVE", "W", "MADE", "IN", "FOR", "THIS", "WORKING", "SAME"))
_OVER = frozenset((",", ";", ".", "END", "(", "[", ")", "]", "DASH"))
_SAID_OF_IT = frozenset(("W", "U", "HAVE", "MADE", "IN", "WORKING", "COUNT"))
_WORKED = frozenset(("ST", "OWN", "CH", "NUM", "SKIP", "REP", "TURN", "JOIN"))
_SIZES = ("size", "sizes")


class RowsSpokenOfReading:
    """Reads such words as remarks."""

    def other_row_told(self, frame, start: int) -> bool:
        """Whether a remark on another row begins at token `start`, which is then read."""
        k, at = self.k, start
        if k[start] in ("ROW", "ROUND"):
            if k[start + 1] != "NUM" or k[start + 2] not in _SAID_OF_IT:
                return False
            at = start + 2
            while k[at] not in _OVER:
                if k[at] in _WORKED or at - start > 24:
                    return False
                at += 1
            tells = True
        else:
            while k[at] in _LEADS_TO_IT and at - start < 7:
                at += 1
            if at == start or k[at] not in ("ROW", "ROUND", "PREVIOUS") or "AS" not in k[start:at]:
                return False
            at += 1 + (k[at + 1] == "NUM" and k[at] != "PREVIOUS")
            if k[at] not in _OVER and k[at] != "AND":
                return False
            tells = False
        self.i = at
        self.keep_words(frame, start, at, True)
        frame.steps[-1].tells = tells
        return True

    def sizes_told(self, frame, start: int) -> bool:
        """ "largest size", "two smallest sizes" after a label: for whom the row is."""
        k, at = self.k, start
        while k[at] in ("W", "U", "NUM", "LAST", "FIRST", "AND", "CENTER") and at - start < 4 and self._word(at) not in _SIZES:
            at += 1
        if at == start or k[at] != "W" or self._word(at) not in _SIZES:
            return False
        at += 1
        at += self._word(at) in ("only", "up") or k[at] == "W" and k[at + 1] in _OVER
        if k[at] not in _OVER and k[at] != ":":
            return False
        self.i = at
        self.keep_words(frame, start, at, True)
        return True

    def yarn_in_any(self, frame, start: int) -> bool:
        """ "B in any corner:", "new colour in any ch-1 sp": the yarn joined there."""
        k, at = self.k, start
        while k[at] in ("W", "U", "COLOUR", "YARN", "SHADE", "MORE", "OTHER") and at - start < 4:
            at += 1
        if k[at] != "IN" or k[at + 1] != "ANY":
            return False
        name = self.text[self.s[start]:self.e[at - 1]]
        self.i = at
        place = self.place()
        if place is None:
            self.i = start
            return False
        self.i += k[self.i] in ("DASH", ":", ",", ";")
        return self.put(frame, JoinYarn(place, "" if "new" in name.lower() else name, span=self.span(start)))
