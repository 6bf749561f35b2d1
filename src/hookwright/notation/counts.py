"""Stated counts: "(24 dc, 6 ch-1 sps)", "- 36 sc", "= 20dc's", "You should have 24 sts", "(4 groups of 9 tr)"."""

from hookwright.ground import PerSize, Span

from .nouns import GROUP_KINDS
from .stitch_words import Named
from .tree import Chain, Either, FastenOff, Go, Group, Join, Leave, NoJoin, Note, Repeat, Stated, Stitch, Turn

_LEADS = frozenset(("TOTAL", "=", ":", "YOU", "HAVE", "DASH", "THIS", "FOR", "NOW", "ROW", "ROUND", "MADE", ".", "AT", "ENDING", "WITH", "OF"))
_TRAILS = frozenset(("TOTAL", "MADE", "THIS", "ROW", "ROUND", "IN", "AROUND", "FOR", "W", "AT", "ENDING", "NOW", "COUNT", "STN", "UNWORKED", "ALL", "HERE", "TOEND", "ACROSS", "OF", "MORE", "LEFT", "REM", "HAVE"))
_STOPS = frozenset((".", "END", "TURN", "(", "[", "DONOTTURN", "DONOTFASTEN", "DONOTJOIN", "FASTEN", "MARKER", "PM", ";", "REMARK", ",", "CHANGE"))


def made_by(steps) -> int | None:
    """How many stitches plain steps make, where that can be told without the row below: "(1 sc, inc) x 6" 18; else None."""
    total = 0
    for step in steps:
        kind = type(step)
        if kind is Stitch:
            if not isinstance(step.n, int) or step.place is not None and not isinstance(step.place.n, int):
                return None
            total += (2 if step.kind == "inc" else 0 if step.kind == "slst" else 1) * step.n * (1 if step.place is None or step.over else step.place.n)
        elif kind is Repeat:
            inner = made_by(step.steps)
            if inner is None or not isinstance(step.times, int) or step.sense != "total":
                return None
            total += inner * step.times
        elif kind is Group:
            inner = made_by(step.steps)
            if inner is None or step.place is not None and not isinstance(step.place.n, int):
                return None
            total += inner * (step.place.n if step.place is not None else 1)
        elif kind is Either:
            return None
    return total


class CountReading:
    """Reads stated counts."""

    # ------------------------------------------------------------ where a count may stand

    def count_here(self, frame) -> bool:
        """A count without brackets at the end of the row: "18 hdc.", "24 sts."; only after a step that ends the row."""
        k, start = self.k, self.i
        nxt = k[start + 1]
        if nxt not in ("ST", "OWN", "CH", "HY", "SP", "STN") or self.depth or self.open_marks or nxt == "CH" and k[start + 2] not in ("HY", "SP"):
            return False
        if not (start and k[start - 1] == ":" and self._repeats_to_end(frame)) and not self._row_is_done(frame, nxt == "STN") and not self._sentence_of_its_own(frame) and not (
            nxt == "ST" and frame.steps and type(frame.steps[-1]) is Repeat and made_by(frame.steps) == self.v[start]
        ):
            return False
        stated = self.count(start)
        if stated is None or not self._count_ends() or len(stated.items) > 1 and nxt != "STN" and k[self.i] not in ("END", ".", "(", "["):
            self.i = start
            return False
        if start and k[start - 1] == ":" and k[self.i] not in ("END", "."):
            self.i = start
            return False
        self.read.stated.append(stated)
        return True

    def _sentence_of_its_own(self, frame) -> bool:
        """ "... dc in next 4 dc . 24 double crochet .": the last sentence, after steps that all have their place."""
        k, at = self.k, self.i + 2
        while k[at] in (".", "STN"):
            at += 1
        return k[at] == "END" and frame.ended and self.v[self.i] != 1 and any(type(step) is Stitch for step in frame.steps) and all(
            step.place is not None for step in frame.steps if type(step) is Stitch
        )

    def _repeats_to_end(self, frame) -> bool:
        last = self.last_step(frame)
        return type(last) is Repeat and last.extent is not None and last.extent.kind == "end"

    def bare_count(self, frame) -> bool:
        """ "24 sts", "8 ch-2 sps", a number alone at the very end."""
        start = self.i
        if not frame.steps and not self.depth:
            alone = self.k[start + 1] in ("END", ".")
            if alone:
                return False
        stated = self.count(start)
        if stated is None or not self._count_ends() or self.depth:
            self.i = start
            return False
        if self.k[start + 1] not in ("STN", "ST", "SP", "CH", "OWN", "HY", "ROW", "ROUND") and self.k[self.i] != "END" and self.k[self.i] != ".":
            self.i = start
            return False
        self.put_stated(frame, stated)
        return True

    def _row_is_done(self, frame, plain: bool) -> bool:
        if not any(type(step) in (Stitch, Repeat, Group, Either, Go) for step in frame.steps):
            return False
        for step in reversed(frame.steps):
            kind = type(step)
            if kind is Note:
                continue
            if kind in (Turn, Join, FastenOff, NoJoin, Go, Leave):
                return True
            if kind is Repeat:
                return plain or step.times is None and (step.extent is None or step.extent.kind == "end") and not step.ending
            if kind is Chain:
                continue
            if kind is Stitch:
                return plain or bool(step.place is not None and (step.place.extent is not None or step.place.which in ("last", "chain top")))
            return plain
        return False

    def _count_ends(self) -> bool:
        k, at = self.k, self.i
        if k[at] in ("END", ".", "(", "[", "MARK"):
            return True
        if k[at] in ("TURN", "JOIN", "FASTEN", "DASH", "DONOTTURN", "DONOTJOIN", "DONOTFASTEN", "CH", "REMARK", "CHANGE", "U", "W", "PM"):
            return True
        return k[at] in (",", ";", "AND") and k[at + 1] in ("TURN", "JOIN", "FASTEN", "CH", "DONOTTURN", "DONOTJOIN", "END", "DONOTFASTEN", "REMARK")

    def act_count_sentence(self, frame) -> bool:
        """ "You should have 24 sts.", "Total: 24"."""
        k, start = self.k, self.i
        while k[self.i] in _LEADS:
            self.i += 1
        while k[self.i] == "W" and self.i - start < 6:
            self.i += 1
        if k[self.i] != "NUM" or self.i == start:
            self.i = start
            return False
        stated = self.count(self.i)
        if stated is None:
            self.i = start
            return False
        while k[self.i] not in (".", "END", ")", "]", "(", "[", ";") and k[self.i] not in ("CH", "ST", "TURN", "JOIN"):
            self.i += 1
        stated.span = Span(self.s[start], self.e[self.i - 1])
        self.put_stated(frame, stated)
        return True

    def put_stated(self, frame, stated: Stated) -> None:
        """A count found in the row; a mark in the steps tells whether stitches follow it."""
        self.read.stated.append(stated)

    def act_dash(self, frame) -> bool:
        """After a dash or "=": a count, or the name of what has just been made; else nothing."""
        k, start = self.k, self.i
        self.i += 1
        while k[self.i] in ("DASH", "=", ":"):
            self.i += 1
        if k[self.i] in ("NUM", "TOTAL", "YOU", "HAVE") and not self.depth and frame.steps:
            at = self.i
            while k[at] in _LEADS:
                at += 1
            self.i = at
            if k[at] == "NUM":
                stated = self.count(at)
                if stated is not None and self._count_ends() and k[at + 1] not in ("TIMES", "MORE"):
                    stated.span = Span(self.s[start], self.e[self.i - 1])
                    self.put_stated(frame, stated)
                    return True
            self.i = start + 1
        if self.naming(frame):
            return True
        self.i = start + 1
        return True

    # ------------------------------------------------------------ in brackets

    def count_in_brackets(self, opening: int, close: int) -> Stated | None:
        """The count that fills the bracket [opening, close], or None."""
        k = self.k
        at = opening + 1
        while at < close and k[at] in _LEADS:
            at += 1
        if at < close and k[at] in ("STN", "W") and k[at + 1] in ("COUNT", ":", "=", "TOTAL", "NUM"):
            while at < close and k[at] in ("STN", "COUNT", "W", "=", ":", "TOTAL"):
                at += 1
        if at >= close or k[at] not in ("NUM", "ORD", "DASH", "+", "ST"):
            return None
        if k[at] == "+" and k[at + 1] == "NUM":
            stated = self.count(at + 1)
            if stated is not None and self.i == close:
                stated.per = "more"
                stated.span = Span(self.s[opening], self.e[close])
                return stated
            return None
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
        while self.i < close and k[self.i] in _TRAILS | {",", ";", "."}:
            self.i += 1
        if self.i < close and "COUNT" in k[self.i - 1:close]:  # "(85 dc, counting turning ch as 1 dc)"
            self.i = close
        if self.i != close:
            return None
        stated.span = Span(self.s[opening], self.e[close])
        return stated

    # ------------------------------------------------------------ the count itself

    def count(self, at: int) -> Stated | None:
        """The count that begins at token `at`; `i` is left after it. None where no count stands there."""
        k = self.k
        start = at
        items, per, series, shaped = [], "", False, False
        self.i = at
        while True:
            at = self.i
            number, many = self._count_number()
            if number is None:
                self.i = at
                break
            series = series or many
            of, chains, extra = self._count_noun()
            if of == "times":
                return None
            if of in ("inc", "dec"):
                shaped = True
            else:
                items.append((number, of, chains))
                if extra is not None:
                    items.append(extra)
                    per = "group"
            per = self._count_tail() or per
            here = self.i
            if k[here] in (",", "AND", "+", "|", ";", "/", ":"):
                here += 1
                while k[here] in ("AND", "+", "W") and k[here + 1] == "NUM":
                    here += 1
                if k[here] == "NUM" and self._noun_ahead(here):
                    self.i = here
                    continue
            elif k[here] == "NUM" and self._noun_ahead(here):
                continue
            break
        if not items or shaped and all(item[1] != "st" for item in items):
            return None
        return Stated(tuple(items), per, series, Span(self.s[start], self.e[self.i - 1]))

    def _noun_ahead(self, at: int) -> bool:
        k = self.k
        after = at + 1
        if k[after] == "NUM" and self._chain_number(after):
            return True
        if k[after] == "HY":
            after += 1
        if k[after] not in ("ST", "STN", "OWN", "CH", "SP", "ROW"):
            return False
        return True

    def _count_number(self):
        """The number (a tuple of numbers where one a row is given) and whether it is such a series."""
        k, v = self.k, self.v
        kind = k[self.i]
        if kind == "ORD" and self.text[self.e[self.i] - 2:self.e[self.i]].lower() == "st":
            number = v[self.i]
            self.i += 1
            return number, False
        if kind != "NUM":
            return None, False
        number = v[self.i]
        self.i += 1
        if k[self.i] in ("/", ",", "HY") and k[self.i + 1] == "NUM" and isinstance(number, int) and (k[self.i] == "/" or k[self.i + 2] in (k[self.i], "STN")):
            part = k[self.i]
            numbers = [number]
            at = self.i
            while k[at] == part and k[at + 1] == "NUM" and not (part == "," and self._noun_ahead(at + 1) and len(numbers) < 2):
                numbers.append(v[at + 1])
                at += 2
            if len(numbers) > 2 or (len(numbers) == 2 and part == "/"):
                self.i = at
                if len(numbers) == self.lexicon.sizes:
                    return PerSize(numbers), False
                return tuple(numbers), True
        return number, False

    def _count_noun(self):
        """(of, chains, further item) of what is counted; stitches where nothing is said."""
        k, v = self.k, self.v
        if k[self.i] == "HY" and k[self.i + 1] in ("ST", "SP", "CH", "OWN"):
            self.i += 1
        while k[self.i] in ("MORE", "TOTAL", "REM", "W", "ALL") and k[self.i + 1] in ("ST", "STN", "SP", "CH", "OWN"):
            self.i += 1
        kind = k[self.i]
        if kind in ("TIMES", "TIMESN", "X"):
            return "times", None, None
        if kind == "ROW" or kind == "ROUND":
            self.i += 1
            return "row", None, None
        if kind == "AROUND" and self.text[self.s[self.i]:self.e[self.i]].lower() == "round":
            self.i += 1
            return "row", None, None
        of, chains = "st", None
        if kind in ("STN", "ST", "OWN", "SP", "CH", "NUM"):
            value = v[self.i]
            if kind == "ST" and value in ("inc", "dec"):
                self.i += 1
                return value, None, None
            noun = self._counted_noun()
            if noun is not None:
                of, chains = noun
        extra = None
        if k[self.i] == "OF" and of not in ("st",):
            at = self.i + 1
            if k[at] == "NUM" and k[at + 1] in ("ST", "STN", "CH"):
                number = v[at]
                self.i = at + 1
                inner = self._counted_noun()
                if inner is not None:
                    extra = (number, *inner)
                of = of if of.startswith("group") or of == "sp" else "group"
            elif k[at] in ("ST", "OWN"):
                self.i = at + 1
                of = "group"
        elif of == "group" and k[self.i] == "," and k[self.i + 1] == "NUM" and k[self.i + 2] in ("ST",) and k[self.i + 3] == "IN" and k[self.i + 4] == "EACH":
            number = v[self.i + 1]
            self.i += 2
            inner = self._counted_noun()
            extra = (number, *inner)
            self.i += 2
            self.i += self.k[self.i] == "SP"
        return of, chains, extra

    def _counted_noun(self):
        """(of, chains) of the noun at hand, as stated counts name it."""
        k, v, at = self.k, self.v, self.i
        kind = k[at]
        if kind == "CH":
            after = at + 1
            if k[after] == "HY":
                after += 1
            if k[after] == "NUM" and (k[after - 1] == "HY" or k[after + 1] == "SP" or k[after + 1] == "HY"):
                self.i = after + 1
                if k[self.i] == "HY":
                    self.i += 1
                if k[self.i] == "SP":
                    self.i += 1
                return "sp", v[after]
            if k[after] == "SP":
                self.i = after + 1
                return "sp", None
            self.i += 1
            return "ch", None
        if kind == "ST" and isinstance(v[at], Named):
            self.i += 1
            while k[self.i] == "STN":
                self.i += 1
            return ("group:" + v[at].kind if v[at].kind in GROUP_KINDS else v[at].kind), None
        noun = self.noun()
        if noun is None:
            return None
        if kind == "ST" and k[self.i] == "SP" and v[self.i] == "group":  # "12 dc groups"
            self.i += 1
            return "group", None
        if noun.of == "group":
            if noun.group in ("group", "set", "grp"):
                return "group", None
            return "group:" + noun.group, None
        return noun.of, noun.chains

    def _count_tail(self) -> str:
        """ "in total", "more", "rem", "on each side", "in each rep": what the count is for."""
        k = self.k
        per = ""
        while True:
            kind = k[self.i]
            if kind == "TOTAL" or kind == "MADE" or kind == "HERE":
                pass
            elif kind in ("MORE",):
                per = "more"
            elif kind in ("REM", "LEFT"):
                per = "left"
            elif kind == "UNWORKED":
                per = "left"
            elif kind in ("IN", "EACH", "OF", "FOR", "AT") and self._per_ahead():
                per = self._per_ahead()
                while k[self.i] in ("IN", "EACH", "OF", "FOR", "AT"):
                    self.i += 1
            elif kind == "SIDE" and k[self.i - 1] in ("EACH", "ST", "STN"):
                per = "side"
            elif kind in ("IN", "FOR") and k[self.i + 1] in ("THIS", "ROW", "ROUND", "ALL", "TOTAL"):
                self.i += 1
                if k[self.i + 1] in ("ROW", "ROUND", "AROUND"):
                    self.i += 1
            elif kind == "THIS" and k[self.i + 1] in ("ROW", "ROUND", "AROUND"):
                self.i += 1
            elif kind == "W" and self.text[self.s[self.i]:self.e[self.i]].lower() in ("far", "increased", "added", "so"):
                word = self.text[self.s[self.i]:self.e[self.i]].lower()
                per = "so far" if word == "far" else "more"
            else:
                return per
            self.i += 1

    def _per_ahead(self) -> str:
        k, at = self.k, self.i
        while k[at] in ("IN", "EACH", "OF", "FOR", "AT"):
            at += 1
        if at == self.i:
            return ""
        if k[at] == "SIDE" or k[at] == "EXTEND" and "row" not in self.text[self.s[at]:self.e[at]].lower():
            return "side"
        if k[at] == "REP":
            return "repeat"
        if k[at] == "SP" and self.v[at] == "group" and k[at - 1] == "EACH":
            return "group"
        return ""
