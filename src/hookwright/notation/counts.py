"""Stated counts: "(24 dc, 6 ch-1 sps)", "- 36 sc", "= 20dc's", "You should have 24 sts", "(4 groups of 9 tr)"."""

from dataclasses import replace

from hookwright.ground import PerSize, Span
from hookwright.ground import at as at_size

from .count_growth import GrowthReading
from .count_words import LENGTH_UNITS
from .counts_sums import CountSumReading
from .tree import Chain, Each, Either, FastenOff, Go, Group, Join, Leave, Mark, NoJoin, Note, Repeat, Stated, Stitch, Turn

_LEADS = frozenset(("TOTAL", "=", ":", "YOU", "HAVE", "DASH", "THIS", "FOR", "NOW", "ROW", "ROUND", "MADE", ".", "AT", "ENDING", "WITH", "OF"))
_TRAILS = frozenset(("TOTAL", "MADE", "THIS", "ROW", "ROUND", "IN", "AROUND", "FOR", "W", "AT", "ENDING", "NOW", "COUNT", "STN", "UNWORKED", "ALL", "HERE", "TOEND", "ACROSS", "OF", "MORE", "LEFT", "REM", "HAVE"))


_SHRINKS = ("shrink", "narrow", "less", "decreas", "reduc")


_MAKING = (Stitch, Repeat, Group, Either, Each)


def made_by(steps, size: int = 0) -> int | None:
    """How many stitches plain steps make in a size, where that can be told without the row below: "(1 sc, inc) x 6" 18; else None."""
    total = 0
    for step in steps:
        kind = type(step)
        if kind is Stitch:
            number, places = at_size(step.n, size), 1 if step.place is None or step.over else at_size(step.place.n, size)
            if not isinstance(number, int) or not isinstance(places, int):
                return None
            if places == 2 and (step.kind in ("dec", "invdec") or step.kind.endswith("2tog")):
                places = 1  # "dec over next 2 sts"
            total += (2 if step.kind == "inc" else 0 if step.kind == "slst" else 1) * number * places
        elif kind is Repeat:
            inner, times = made_by(step.steps, size), at_size(step.times, size)
            if inner is None or not isinstance(times, int) or step.sense == "unclear":
                return None
            total += inner * (times + (step.sense == "more"))
        elif kind is Group:
            inner, places = made_by(step.steps, size), 1 if step.place is None else at_size(step.place.n, size)
            if inner is None or not isinstance(places, int):
                return None
            total += inner * places
        elif kind is Either:
            return None
    return total


def _makes(steps, number) -> bool:
    """Whether plain steps make so many, in each size."""
    if isinstance(number, PerSize):
        return all(value is None or made_by(steps, size) == value for size, value in enumerate(number))
    return made_by(steps) == number


def _all_placed(steps) -> bool:
    """Whether every stitch says its place, so that a bare "24 dc" stands out as a count."""
    for step in steps:
        if type(step) is Stitch and step.place is None and step.kind not in ("inc", "dec", "invdec") and not step.kind.endswith("tog") or type(step) is Repeat and not _all_placed(step.steps):
            return False
    return any(type(step) in (Stitch, Repeat, Group, Each) for step in steps)


def _goes_all_the_way(steps) -> bool:
    """Whether the steps repeat along the row, and those after that say where they go: nothing is left for stitches without a place."""
    for step in reversed(steps):
        if type(step) is Repeat or type(step) is Each:
            return True
        place = getattr(step, "place", None)
        if place is not None and (place.extent is not None or place.n is None):
            return True
        if type(step) in (Stitch, Group) and place is None:
            return False
    return False


_OVER_BEFORE = frozenset(("ACROSS", "AROUND", "TOEND", ".", "TURN", "STN", "CH", "ST", "SP", "TIMES", "MARK", "JOIN"))
_ABOUT_A_COUNT = frozenset(("pieces", "pcs", "units", "again", "still", "altogether", "now", "here", "so", "overall", "left", "too"))


class CountReading(CountSumReading, GrowthReading):
    """Reads stated counts."""

    # ------------------------------------------------------------ where a count may stand

    def count_here(self, frame) -> bool:
        """A count without brackets at the end of the row: "18 hdc.", "24 sts."; only after a step that ends the row."""
        k, start = self.k, self.i
        nxt = k[start + 1]
        if start > 1 and k[start - 1] == "CENTER":
            return False  # "like Row 3, and in the middle 2 sc more"
        if nxt not in ("ST", "OWN", "CH", "HY", "SP", "STN") or self.depth or self.open_marks or nxt == "CH" and k[start + 2] not in ("HY", "SP"):
            return False
        if not (start and k[start - 1] == ":" and (self._repeats_to_end(frame) or self._alone_after_colon(frame))) and not self._row_is_done(frame, nxt == "STN") and not self._sentence_of_its_own(frame) and not self._said_at_the_end(frame) and not self._stitches_and_spaces(frame) and not self._reaches_end(frame) and not (
            nxt == "ST" and frame.steps and (frame.ended or type(frame.steps[-1]) is Repeat or type(frame.steps[-1]) is Mark and type(frame.steps[-2:][0]) is Repeat) and _makes(frame.steps, self.v[start])
        ):
            return False
        stated = self.count(start)
        self._past_row_named()
        if stated is None or not self._count_ends() or len(stated.items) > 1 and not self._stitches_and_spaces(frame, start) and nxt != "STN" and k[self.i] not in ("END", ".", "(", "[") and k[self.i:self.i + 2] != [";", "END"]:
            self.i = start
            return False
        if start and k[start - 1] == ":" and k[self.i] not in ("END", ".", ",", ";"):
            self.i = start
            return False
        self._gained(start, stated)
        self.read.stated.append(stated)
        return True

    def _sentence_of_its_own(self, frame) -> bool:
        """ "... dc in next 4 dc . 24 double crochet .": the last sentence, after steps that all have their place."""
        k, at = self.k, self.i + 2
        while k[at] in (".", "STN") or k[at] == "MORE" and self._word(at) == "again":
            at += 1
        at += 2 * (k[at] == "EACH" and k[at + 1] in ("ROW", "ROUND", "AROUND"))  # "25 sc per round."
        at += k[at] == "."
        return (k[at] in ("END", "REMARK") or k[at] == "," and self._talk_after(at)) and frame.ended and self.v[self.i] != 1 and bool(frame.steps) and _all_placed(frame.steps)

    def _said_at_the_end(self, frame) -> bool:
        """ "... cl in last ch-1 sp. 11 clusters in this row. Ch 3, turn.": many of a stitch, with no place, in a sentence by themselves."""
        k, at = self.k, self.i + 1
        if k[self.i - 1] != "." or not frame.ended or not isinstance(self.v[self.i], int) or self.v[self.i] < 2 or not _goes_all_the_way(frame.steps):
            return False
        while k[at] in ("ST", "OWN", "STN"):
            at += 1
        many = self.text[self.s[at - 1]:self.e[at - 1]].lower().endswith("s")
        while k[at] in (",", "AND", "+") and k[at + 1] == "NUM" and self._half_ahead(at + 2):
            at = self._half_ahead(at + 2) + 1  # "12 shells and 2 half-shells."
        here, self.i = self.i, at
        self._past_row_named()
        told, self.i = self.i, here  # "11 cl in this row" is one, too
        many, at = many or told > at, told
        at += k[at] in (".", ",", ";")
        return many and (k[at] in ("TURN", "END", "JOIN", "FASTEN", "DONOTTURN", "DONOTJOIN") or k[at] == "CH" and k[at + 1] == "NUM" and "TURN" in k[at + 2:at + 5])

    def _stitches_and_spaces(self, frame, start: int | None = None) -> bool:
        """ "... 5 sc. 20 sc + 2 loops": a last sentence of nothing but stitches and spaces with their numbers."""
        k, at = self.k, self.i if start is None else start
        if not frame.ended or k[at + 2] not in ("+", ",", "AND") or k[at + 3] != "NUM":
            return False
        spaces = False
        while k[at] in ("NUM", "ST", "STN", "SP", "CH", "HY", "+", ",", "AND") or k[at] in ("W", "U") and k[at + 1] in ("SP", "CH"):
            spaces = spaces or k[at] == "SP" or k[at] == "CH" and k[at - 1] in ("W", "U")
            at += 1
        return spaces and k[at] in (".", "END") and k[at + (k[at] == ".")] == "END"

    def _reaches_end(self, frame) -> bool:
        """ "... rep from * to last st, sc. 21 sc": the stitches after "to last n" are n, and a sentence is over."""
        comma = not frame.ended and self.k[self.i - 1] == "," and self.k[self.i + 2 + (self.k[self.i + 2] == ".")] == "END" and isinstance(self.v[self.i], int) and self.v[self.i] > 6
        if not (frame.ended or comma) or self.v[self.i] == 1:
            return False
        done = 0
        for step in reversed(frame.steps):
            extent = step.extent if type(step) is Repeat else step.place.extent if type(step) is Stitch and step.place is not None else None
            if extent is not None:
                return extent.kind == "last" and extent.n == done
            if type(step) is not Stitch or not isinstance(step.n, int) or step.place is not None and step.place.n != 1:
                return False
            takes = 2 if step.kind in ("dec", "invdec") or step.kind.endswith("2tog") else 3 if step.kind.endswith("3tog") else 1
            done += takes * (step.n if step.place is None else 1)
        return False

    def _alone_after_colon(self, frame) -> bool:
        """ "..., sc in remaining 2 sts: 36 sc": the last words of the row, after a colon that follows a step which has its place."""
        k, at = self.k, self.i + 2
        at += k[at] == "STN"
        at += k[at] in (".", ",", ";")
        last = self.last_step(frame)
        if k[at] not in ("END", "JOIN", "TURN", "FASTEN", "DONOTJOIN", "DONOTTURN") or last is None or last.span.end != self.e[self.i - 2] or not isinstance(self.v[self.i], int) or self.v[self.i] < (6 if frame.explained is not None else 3):
            return False
        return type(last) in (Repeat, Either) or type(last) is Stitch and last.place is not None

    def _repeats_to_end(self, frame) -> bool:
        last = self.last_step(frame)
        return type(last) is Repeat and last.extent is not None and last.extent.kind == "end"

    def bare_count(self, frame) -> bool:
        """ "24 sts", "8 ch-2 sps", a number alone at the very end."""
        start = self.i
        if start > 1 and self.k[start - 1] == "CENTER":
            return False  # "like Row 3, and in the middle 2 sc more"
        if not frame.steps and not self.depth:
            alone = self.k[start + 1] in ("END", ".")
            if alone:
                return False
        stated = self.count(start)
        self._past_row_named()
        if stated is None or not self._count_ends() or self.depth:
            self.i = start
            return False
        if self.k[start + 1] not in ("STN", "ST", "SP", "CH", "OWN", "HY", "ROW", "ROUND") and self.k[self.i] != "END" and self.k[self.i] != "." and not self.growth_ends(self.i):
            self.i = start
            return False
        self._gained(start, stated)
        self.put_stated(frame, stated)
        return True

    def _gained(self, start: int, stated: Stated) -> None:
        """ "sl st, + 8 sts": how many more than before."""
        if start > 1 and self.k[start - 1] == "+" and self.k[start - 2] in (",", ";", ".") and not stated.per:
            stated.per = "more"
        elif start > 1 and not stated.per and self.k[start - 1] == "ASFOLLOWS" and self._word(start - 1) == "by":  # "the row grows by 2 sts"
            stated.per = "fewer" if self._word(start - 2).startswith(_SHRINKS) else "more"

    def _row_is_done(self, frame, plain: bool) -> bool:
        if self.after and not frame.steps:
            return True
        if not any(type(step) in (Stitch, Repeat, Group, Either, Go) for step in frame.steps):
            return False
        chained = False
        for step in reversed(frame.steps):
            while type(step) is Either and step.readings and step.readings[0]:
                step = step.readings[0][-1]  # "sc 2, inc around": read in two ways, and over
            kind = type(step)
            if kind is Note:
                continue
            if kind is Leave and chained:
                return False  # "leave next 7 sts unworked, ch 1, 14 sc": on with the row
            if kind in (Turn, Join, FastenOff, NoJoin, Go, Leave):
                return True
            if kind is Repeat:
                if self._less_than_a_pass(step):
                    return False  # "*3 sc, inc; rep from * across, 2 sc": a step
                return plain or step.times is None and (step.extent is None or step.extent.kind == "end") and not step.ending
            if kind is Chain:
                chained = True
                continue
            if kind is Stitch:
                return plain or bool(step.place is not None and (step.place.extent is not None and step.place.extent.kind != "last" or step.place.which in ("last", "chain top")))
            return plain
        return False

    def _less_than_a_pass(self, step: Repeat) -> bool:
        one = made_by(step.steps)
        return one is not None and isinstance(self.v[self.i], int) and self.v[self.i] < one

    def _past_row_named(self) -> None:
        """Past "at the end of Rnd 9", "in this row", "made", "in total" after a count."""
        k, at = self.k, self.i
        if k[at] in ("MADE", "TOTAL", "NOW", "ACROSS", "AROUND") and k[at + 1] in (".", "END", ",", ";") or k[at] == "YOU" and self._word(at).startswith("this"):
            self.i = at + 1
            return
        each = at + (k[at] in ("IN", "FOR", "ON", "AT"))
        if k[each] == "EACH" and (k[each + 1] in ("ROW", "ROUND", "TIMES") or k[each + 1] == "AROUND" and self._word(each + 1) == "round") and k[each + 2] in (".", "END", ",", ")", "]"):
            self.i = each + 2  # "50 dc each round"
            return
        if k[at] in ("AT", "IN", "FOR", "ON", "ACROSS") and (k[at + 1] == "YOU" and self._word(at + 1).startswith("this") or k[at + 1] in ("ROW", "ROUND") and k[at + 2] in (".", "END", ",")):
            self.i = at + 2
            return
        if k[at] in ("AT", "IN", "AFTER", "FOR") and k[at + 1] == "ENDING" and k[at + 2] == "OF":
            at += 3
        elif k[at] in ("AT", "IN", "FOR"):
            at += 1
        else:
            return
        at += k[at] in ("THIS", "LAST")
        if k[at] in ("ROW", "ROUND", "AROUND") and at > self.i + 1:
            at += 1
            self.i = at + (k[at] == "NUM")

    def _count_ends(self) -> bool:
        k, at = self.k, self.i
        if "\n" in self.text[self.e[at - 1]:self.s[at]]:
            return True  # the line ends with it
        if k[at] in ("END", ".", "(", "[", "MARK"):
            return True
        if k[at] == "," and (k[at + 1] == "INCLUDE" or k[at + 1] == "COUNT" and self._word(at + 1) == "counting"):
            while k[self.i] not in (".", "END", ";"):
                self.i += 1  # "24 dc, including the starting chain."
            return True
        if k[at] == "," and (after := self._talk_after(at)):
            self.i = after
            return True
        if k[at] == "WITH" and k[at + 1] in ("CH", "TCH", "BEG", "THIS") and {"AS", "COUNT", "INCLUDE"}.intersection(k[at + 1:at + 7]):
            while k[self.i] not in (".", "END", ";", ")", "]"):
                self.i += 1  # "25 dc with the ch 4 as one"
            return True
        if k[at] in ("U", "W") and k[at + 1] in ("SIDE", "OPPOSITE", "BASE"):
            return False  # "6 sc down the other side"
        if k[at] in ("TURN", "JOIN", "FASTEN", "DASH", "DONOTTURN", "DONOTJOIN", "DONOTFASTEN", "CH", "REMARK", "CHANGE", "U", "W", "PM"):
            return True
        if k[at] in (",", ";") and (self.growth_ends(at + 1) or self.parts_ahead(at + 1)):
            return True
        return k[at] in (",", ";", "AND") and k[at + 1] in ("TURN", "JOIN", "FASTEN", "CH", "DONOTTURN", "DONOTJOIN", "END", "DONOTFASTEN", "REMARK")

    def _closed_after(self, frame, at: int, equals: bool) -> bool:
        """ "... x 6 = 30, sl st to join", "... around - 30 sc, ss in first sc": a slip stitch closes the round after its count."""
        k, after = self.k, self.i
        if k[after] in ("YOU", "THIS"):
            return equals  # "= 24 sc You should now have ..."
        if equals and k[after] == "AND" and k[after + 1] in ("W", "U", "REMARK", "BEG", "PM", "CHANGE"):
            return any(type(step) in _MAKING for step in frame.steps)  # "... x 6 = 30 and start to fill"
        slips = k[after] in (",", ";", "AND") and k[after + 1] == "ST" and self.v[after + 1] == "slst"
        return slips and (equals or self._row_is_done(frame, True) or made_by(frame.steps) == self.v[at]) and any(type(step) in _MAKING for step in frame.steps)

    def act_count_sentence(self, frame) -> bool:
        """ "You should have 24 sts.", "Total: 24"."""
        k, start = self.k, self.i
        if k[start] == "HAVE" and k[start + 1] == "NUM" and k[start + 2] in ("ST", "OWN") and k[start + 3] == "IN" and k[start + 4] in ("FIRST", "LAST", "EACH", "NEXT", "SAME", "SP", "ORD", "BOTH") or k[start:start + 2] == ["HAVE", "NUM"] and k[start + 3] == "EVENLY":
            return self.act_working(frame)  # "sc across, making 2 sc in last st"
        if k[start] == "YOU" and not frame.steps and not self.after and k[start + 1] in (":", "W") and self._word(start).startswith("this"):
            self.i = start + 1 + (k[start + 1] == "W")  # "BLO this round only: 48 sc": nothing is worked yet that could be counted
            return True
        while k[self.i] in _LEADS:
            self.i += 1
        while k[self.i] == "W" and self.i - start < 6:
            self.i += 1
        if k[self.i] != "NUM" or self.i == start:
            self.i = start
            return False
        if self._length_ahead(self.i):
            while k[self.i] != "END" and not (k[self.i] == "." and self._ends_sentence()):
                self.i += 1
            span = self.span(start)  # "The band should be about 18 (19, 20) inches long"
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        things = self._other_things(self.i + 1)
        if things:  # "You should see three sweet little scallops"
            self.i = things
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        stated = self.count(self.i)
        if stated is None:
            self.i = start
            return False
        while k[self.i] not in (".", "END", ")", "]", "(", "[", ";") and (k[self.i] not in ("CH", "ST", "TURN", "JOIN") or k[self.i] == "CH" and k[self.i - 1] in ("+", "AND") and "SP" in k[self.i:self.i + 5]):
            self.i += 1  # "24 sc + the ch-8 thumb hole"
        stated.span = Span(self.s[start], self.e[self.i - 1])
        self.put_stated(frame, stated)
        return True

    def _other_things(self, at: int) -> int:
        """The token after words from `at` on that name things which are no stitches and end the sentence; 0 where they are none."""
        k, begin = self.k, at
        while k[at] in ("W", "U") and at - begin < 5:
            at += 1
        at += at > begin and k[at] == "SP" and self.v[at] == "group"
        return at if at > begin and k[at] in (".", "END") and not self._loose_word(begin) else 0

    def things_made(self, frame, start: int) -> bool:
        """ "5 buttonholes made.", "2 armholes formed.": a sentence that counts what is no stitch."""
        k, at = self.k, start + 1
        while k[at] in ("W", "U") and at - start < 4:
            at += 1
        if k[at] not in ("MADE", "FORM") or k[at + 1] not in (".", "END", "TURN", ")", "(") or self._loose_word(start + 1):
            return False
        self.i = at + 1
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def _loose_word(self, at: int) -> bool:
        """Whether a word after a number may tell of stitches or of how they are counted ("24 again", "24 altogether")."""
        return not self._word(at).isalpha() or self._word(at) in _ABOUT_A_COUNT

    def _length_ahead(self, at: int) -> bool:
        """Whether the number at `at` is a length and no count."""
        k, at = self.k, at + 1
        word = self._word(at) if k[at] != "END" else ""
        return word in LENGTH_UNITS or word in ("in", "ins") and k[at + 1] in (".", "END", "(", "[", "/", "W", ",", "ASFOLLOWS", "NOW")

    def put_stated(self, frame, stated: Stated) -> None:
        """A count found in the row; a mark in the steps tells whether stitches follow it."""
        self.read.stated.append(stated)

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
            while k[at] in _LEADS:
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
        if k[at] == "COUNT":  # "(count them, 34 dc)"
            at += 1
            while at < close and k[at] in ("W", "THIS", "U", "YOU", ",", ":", "DASH"):
                at += 1
        if at >= close or k[at] not in ("NUM", "ORD", "DASH", "+", "ST"):
            return None
        if "=" in k[at:close]:  # "[4 clusters of 3tr = 12tr]", "(6 x 3 = 18 sts)": what it comes to
            after = close - 1 - k[at:close][::-1].index("=") + 1
            while k[after] in _LEADS:
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

    def _every_row(self, stated: Stated) -> bool:
        """ "(12 sc per row)", "(2 shells in each row)": what every row has; "(1 sc per row)" is how they are spread along its edge."""
        at = self.i + (self.k[self.i] == "IN")
        if self.k[at] != "EACH" or self.k[at + 1] not in ("ROW", "ROUND", "AROUND"):
            return False
        many, of = stated.items[-1][:2]
        if not isinstance(many, int) or many > 4 or of.startswith("group"):
            self.i = at
            return True
        return False

    def only_count(self) -> Stated | None:
        """The count that all these words are; None where anything in them is no part of one."""
        k, at = self.k, 0
        while k[at] in _LEADS or k[at] == "W" and k[at + 1] == "NUM":
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

    # ------------------------------------------------------------ the count itself
