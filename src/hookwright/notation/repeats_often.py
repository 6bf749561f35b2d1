"""How often and how far a repeat goes: "5 more times", "twice", "x 6", "for a total of 3 times", "around", "for next 2 blocks"."""

from hookwright.ground import Number

from .tree import Extent

_AFTER_REPEATS = frozenset((":", ",", ";", ".", "END", ")", "]", "(", "[", "TOTAL", "DASH", "=", "JOIN"))
_AFTER_IN_ALL = frozenset((",", ".", ";", ":", "END", "(", "[", ")", "]", "DASH", "=", "AND", "JOIN", "TURN", "AROUND", "ACROSS"))


class OftenReading:
    """Reads how often."""

    def how_often(self, plain_sense: str):
        """(times, sense, extent, place) of a repeat; plain_sense is the sense of "3 times" with nothing more said."""
        k, v = self.k, self.v
        times: Number | None = None
        sense, extent, place = plain_sense, None, None
        while True:
            kind = k[self.i]
            if self.sides and extent is None and kind in ("IN", "FOR", "OVER", "ACROSS", "AROUND") and self.past_sides():
                extent = Extent()
            elif kind == "FOR" and (k[self.i + 1] == "TOTAL" or times is None and k[self.i + 1] == "NUM" and k[self.i + 2] in ("TIMES", "MORE")):
                self.i += 1
            elif kind == "TOTAL":
                sense = "total"
                self.i += 1
            elif kind == "AGAIN" and times is None:
                times, sense = 1, "more"  # "once again"
                self.i += 1
            elif kind == "MORE" and k[self.i + 1] == "NUM":
                sense = "more"
                self.i += 1
            elif kind == "MORE" and times is None:
                if k[self.i + 1] == "TIMESN":
                    times, sense = v[self.i + 1], "more"
                    self.i += 2
                else:
                    times, sense = 1, "more"
                    self.i += 1
                    if k[self.i] == "TIMES":
                        self.i += 1
            elif kind == "MORE":
                sense = "more"
                self.i += 1
            elif kind == "NUM" and times is None and k[self.i + 1] in ("TIMES", "MORE", "X", "TOTAL") and not (
                k[self.i + 1] == "X" and k[self.i + 2] in ("ST", "NUM")
            ):
                times = v[self.i]
                self.i += 2 if k[self.i + 1] in ("TIMES", "X") else 1
            elif kind == "NUM" and times is None and k[self.i + 1] in (",", ";", ".", "END", "(") and k[self.i - 1] in ("MORE",):
                times = v[self.i]
                self.i += 1
            elif kind == "NUM" and times is None and k[self.i + 1] == "REP" and k[self.i + 2] in _AFTER_REPEATS:
                times = v[self.i]
                self.i += 2
            elif kind == "TIMESN" and times is None:
                times = v[self.i]
                self.i += 1
            elif kind in ("X", "TIMES") and k[self.i + 1] == "NUM" and times is None:
                times = v[self.i + 1]
                self.i += 2
            elif kind == "MARK" and k[self.i + 1] == "NUM" and k[self.i + 2] not in ("ST", "CH", "OWN") and times is None and k[self.i - 1] == "REP":
                times = v[self.i + 1]
                self.i += 2
            elif kind == "TIMES" and times is not None:
                self.i += 1
            elif kind == "IN" and times is not None and self._in_all():
                sense = "total"
                self.i += 2
            elif kind == "FOR" and times is None and k[self.i + 1] == "NUM" and k[self.i + 2] in ("REP", "TIMES", "MORE"):
                self.i += 1
            elif kind == "FOR" and k[self.i + 1] in ("NEXT", "NUM", "EACH", "OTHER", "REM", "ALL"):
                found = self._for_next()
                if found is None:
                    return times, sense, extent, place
                times, sense = found, "more"
            elif kind == "ACROSS" and extent is None and k[self.i + 1 + (k[self.i + 1] == "ALL")] == "NUM" and k[self.i + 2 + (k[self.i + 1] == "ALL")] in ("ST", "STN"):
                self.i += 3 + (k[self.i + 1] == "ALL")  # "rep from * across the 10 dc"
                extent = Extent()
            elif kind in ("ACROSS", "AROUND", "TOEND", "TO", "UNTIL", "HALF") and extent is None:
                extent = self.extent()
                if extent is None:
                    return times, sense, extent, place
            elif kind in ("IN", "OVER") and k[self.i + 1] in ("EACH", "NEXT", "ALL") and times is None and extent is None:
                place = self.place()
                if place is None:
                    return times, sense, extent, place
                if place.extent is not None and place.extent.kind == "open":
                    place.extent = Extent()
                return times, sense, extent, place
            elif kind == "INTHISWAY":
                self.i += 1
            else:
                return times, sense, extent, place

    def past_sides(self) -> bool:
        """Past "on each side", "along all 4 sides of the square", "for the other sides"; False with nothing read where it is none."""
        k, start = self.k, self.i
        at = self.past_other_sides(start)[0]
        if not at:
            at = start + 1
            if k[at] == "NUM" and k[at + 1] in ("SIDE", "EXTEND") and self.v[at] == 1 or k[at] not in ("EACH", "ALL", "NUM"):
                return False
            at += 1
            at += k[at] == "OF"
            at += k[at] == "NUM"
            if k[at] not in ("SIDE", "EXTEND"):
                return False
            at += 1
        while k[at] in ("OF", "SP", "THIS", "RING") or k[at] == "AND" and k[at + 1] == "SP" and self.v[at + 1] == "corner":
            at += 1
        self.i = at
        return True

    def _for_next(self) -> Number | None:
        """ "for next 2 blocks", "for the other 3 sides"."""
        k, start = self.k, self.i
        self.i += 1
        while k[self.i] in ("NEXT", "OTHER", "REM", "W"):
            self.i += 1
        if k[self.i] == "NUM" and k[self.i + 1] in ("SP", "SIDE", "W", "U", "STN"):
            number = self.v[self.i]
            self.i += 2
            return number
        if k[start + 1] == "NEXT" and k[self.i] in ("SP", "SIDE"):
            self.i += 1
            return 1
        self.i = start
        return None

    def _in_all(self) -> bool:
        """Whether "in all" at hand is of the times ("6 times in all"), and not a place ("in all sts")."""
        k, at = self.k, self.i
        return k[at] == "IN" and k[at + 1] == "ALL" and k[at + 2] in _AFTER_IN_ALL

    def times_in_all(self) -> Number | None:
        """ "3 times [in all]", "six times", "twice", "x 6", "x6 times", "6x" after a bracket: how often in all; None with nothing read."""
        times = self._times_in_all()
        if times is not None and self._in_all():
            self.i += 2
        return times

    def _times_in_all(self) -> Number | None:
        k, v, at = self.k, self.v, self.i
        if k[at] == "FOR" and k[at + 1] == "NUM" and k[at + 2] in ("TIMES", "X"):  # "(4 sc, inc) for 6 times"
            at += 1
        kind = k[at]
        if kind == "TIMESN":
            self.i += 1
            return v[at]
        if kind == "NUM" and (k[at + 1] in ("TIMES", "X") or k[at + 1] == "TOTAL" and k[at - 1] in (")", "]") and k[at + 2] in ("(", "[", "=")) and not (k[at + 1] == "X" and k[at + 2] in ("ST", "NUM", "CH")):
            self.i = at + 2
            if k[self.i] == "TOTAL":
                self.i += 1
            return v[at]
        if kind == "NUM" and k[at - 1] in (")", "]") and self.s[at] == self.e[at - 1] and k[at + 1] in ("(", "[", "=", "DASH", ".", ",", ";", "END"):
            self.i += 1  # "(2 sc, inc)6 (24)"
            return v[at]
        if kind == "X" and k[at + 1] == "NUM" or kind == "TIMES" and k[at + 1] == "NUM" and k[at + 2] not in ("ST", "CH", "OWN", "HY"):
            self.i += 2
            if k[self.i] == "TIMES":
                self.i += 1
            return v[at + 1]
        if kind == "NUM" and k[at + 1] == "REP" and k[at + 2] in _AFTER_REPEATS or kind == "FOR" and k[at + 1] == "NUM" and k[at + 2] in ("TIMES", "REP"):  # "for 5 repeats"
            at += kind == "FOR"
            self.i = at + 2
            return v[at]
        if kind == "FOR" and k[at + 1] == "TOTAL" and k[at + 2] == "NUM":
            self.i += 3
            if k[self.i] == "TIMES":
                self.i += 1
            return v[at + 2]
        return None
