"""Counts in brackets and after a dash: "(24 dc, 6 ch-1 sps)", "= 36 sc"."""

from dataclasses import replace

from hookwright.ground import PerSize, Span

from .count_words import LEADS, LENGTH_UNITS
from .tree import Chain, Stated

_OVER_BEFORE = frozenset(("ACROSS", "AROUND", "TOEND", ".", "TURN", "STN", "CH", "ST", "SP", "TIMES", "MARK", "JOIN"))
_TRAILS = frozenset(("TOTAL", "MADE", "THIS", "ROW", "ROUND", "IN", "AROUND", "FOR", "W", "AT", "ENDING", "NOW", "COUNT", "STN", "UNWORKED", "ALL", "HERE", "TOEND", "ACROSS", "OF", "MORE", "LEFT", "REM", "HAVE"))


class BracketedCountReading:
    """Reads counts that fill a bracket or stand behind a dash."""

    def act_dash(self, frame) -> bool:
        """After a dash or "=": a count, or the name of what has just been made; else nothing."""
        told = frame.steps[-1] if frame.steps else None
        if type(told) is Chain and told.says is not None and self.i and told.says.span.end == self.e[self.i - 1] and self.k[self.i] == "DASH":
            self.i += 1  # "ch 3 - that's your first tr - 2 tr, ...": an aside between dashes
            return True
        k, start = self.k, self.i
        if self.read.stated and (end := self.growth_ends(start)) and self.s[start] - self.read.stated[-1].span.end < 4 and self.e[start] == self.s[start + 1]:
            self.i = end  # "= 30 -6": six fewer than before
            return True
        self.i += 1
        while k[self.i] in ("DASH", "=", ":"):
            self.i += 1
        if k[self.i] in ("NUM", "TOTAL", "YOU", "HAVE") and not self.depth and frame.steps:
            at = self.i
            while k[at] in LEADS:
                at += 1
            self.i = at
            if k[at] == "NUM":
                stated = self.count(at)
                if stated is not None and (self._count_ends() or self._closed_after(frame, at, k[start] == "=")) and k[at + 1] not in ("TIMES", "MORE"):
                    stated.span = Span(self.s[start], self.e[self.i - 1])
                    self.put_stated(frame, stated)
                    return True
            self.i = start + 1
        if self.naming(frame):
            return True
        if k[self.i] == "COUNT" and self.depth:  # "(ch 3, dc2tog - counts as cluster)"
            says = self.counts_as()
            if says is not None and says.counts and says.kind is not None and self.first_closed(frame, says.kind):
                return True
        self.i = start + 1
        return True

    def count_in_brackets(self, opening: int, close: int) -> Stated | None:
        """The count that fills the bracket [opening, close], or None."""
        k = self.k
        at = opening + 1
        while at < close and k[at] in LEADS:
            at += 1
        if at < close and k[at] in ("STN", "W") and k[at + 1] in ("COUNT", ":", "=", "TOTAL", "NUM"):
            while at < close and k[at] in ("STN", "COUNT", "W", "=", ":", "TOTAL"):
                at += 1
        if k[at] == "COUNT":  # "(count them, 34 dc)"
            at += 1
            while at < close and k[at] in ("W", "THIS", "U", "YOU", ",", ":", "DASH"):
                at += 1
        if at >= close or k[at] not in ("NUM", "ORD", "DASH", "+", "ST"):
            return None
        if "=" in k[at:close]:  # "[4 clusters of 3tr = 12tr]", "(6 x 3 = 18 sts)": what it comes to
            after = close - 1 - k[at:close][::-1].index("=") + 1
            while k[after] in LEADS:
                after += 1
            stated = self.count(after) if k[after] == "NUM" else None
            if stated is not None and self.i == close:
                stated.span = Span(self.s[opening], self.e[close])
                return stated
            stated = self.count(at) if k[at] == "NUM" and k[after] in ("FIRST", "LAST", "SP", "W", "THIS", "BEG") and not {",", "CH", "IN"} & set(k[at:close]) else None
            if stated is not None and k[self.i] == "=" and {"SP", "W"} & set(k[self.i:close]):  # "(4 hdcs = first block)"
                self.i = close
                stated.span = Span(self.s[opening], self.e[close])
                return stated
        if k[at] == "NUM" and k[at + 1] in ("W", "U") and at + 2 == close and (self._word(at + 1)[-1] == "s" or self._word(at + 1) in LENGTH_UNITS):
            return None  # "(3 buttonholes)": no stitches
        if k[at] == "+" and k[at + 1] == "NUM":
            stated = self.count(at + 1)
            if stated is not None and k[self.i] in ("EACH", "IN", "ON", "FOR"):  # "(+8 hdc each round)"
                self.i += 1
                while self.i < close and k[self.i] in ("EACH", "THIS", "ROW", "ROUND", "AROUND"):
                    self.i += 1
            if stated is not None and self.i == close:
                stated.span = Span(self.s[opening], self.e[close])
                if len(stated.items) > 1:  # "(+6, 42 sts)"
                    self.read.stated.append(replace(stated, items=stated.items[:1], per="more"))
                    return replace(stated, items=stated.items[1:])
                stated.per = "more"
                return stated
            return None
        if k[at] == "ST" and k[at + 1:at + 3] == ["X", "NUM"] and at + 3 == close:
            return self._times_so_many(opening, close)
        if k[at] == "ST" and (self.v[at] not in ("inc", "dec") or k[at + 1] != "NUM"):
            return None
        if k[at] == "ST":  # "(inc 6, 24 sts)"
            at += 2
            while k[at] in (",", ";"):
                at += 1
            if at >= close:
                return None
        stated = self.count(at)
        if stated is None:
            return None
        while self.i < close and (
            k[self.i] in _TRAILS or k[self.i] in ("EACH", "IN") and self._each_row(self.i) and self._every_row(stated)
            or k[self.i] in (",", ";", ".") or k[self.i] == "EXTEND" and k[self.i - 1] in ("AT", "IN")
            or k[self.i] == "NUM" and k[self.i - 1] in ("ROW", "ROUND", "AROUND", "EXTEND")
        ):
            self.i += 1
        if self.i < close and ("COUNT" in k[self.i - 1:close] or k[self.i] == "INCLUDE" or self._word(close - 1) in ("included", "counted") and k[self.i] in ("TCH", "BEG", "FIRST", "CH", ",") or k[self.i] == "WITH" and self._chain_beside(self.i + 1) == close):  # "(85 dc, counting turning ch as 1 dc)"
            self.i = close
        if self.i != close:
            return None
        if len({item[1:] for item in stated.items}) < len(stated.items) and any(item[1] == "ch" for item in stated.items):
            return None  # "(3 tr, 2 ch, 3 tr)" is worked
        stated.span = Span(self.s[opening], self.e[close])
        return stated

    def only_count(self) -> Stated | None:
        """The count that all these words are; None where anything in them is no part of one."""
        k, at = self.k, 0
        while k[at] in LEADS or k[at] == "W" and k[at + 1] == "NUM":
            at += 1
        stated = self.count(at) if k[at] == "NUM" else None
        while k[self.i] in _TRAILS or k[self.i] in (".", ",", ";"):
            self.i += 1
        return stated if k[self.i] == "END" else None

    def _times_so_many(self, opening: int, close: int) -> Stated | None:
        """ "sc across (sc x 30)": so many of the stitch, where the row is over."""
        k, number, of = self.k, self.v[close - 1], self.v[close - 3]
        over = k[close + 1] in ("END", "TURN") or k[close + 1] in (".", ",", ";") and k[close + 2] in ("END", "TURN", "JOIN", "FASTEN", "DONOTTURN", "DONOTJOIN")
        if not over or not isinstance(of, str) or of in ("inc", "dec") or k[opening - 1] not in _OVER_BEFORE or not isinstance(number, PerSize | int) or isinstance(number, int) and number < 4:
            return None
        self.i = close
        return Stated(((number, of, None),), span=Span(self.s[opening], self.e[close]))
