"""Stated counts: "(24 dc, 6 ch-1 sps)", "- 36 sc", "= 20dc's", "You should have 24 sts", "(4 groups of 9 tr)"."""


from hookwright.ground import PerSize
from hookwright.ground import at as at_size

from .count_growth import GrowthReading
from .counts_bracketed import BracketedCountReading
from .counts_sums import CountSumReading
from .counts_told import ToldCountReading
from .tree import Chain, Each, Either, FastenOff, Go, Group, Join, Leave, Mark, NoJoin, Note, Repeat, Stated, Stitch, Turn

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




class CountReading(BracketedCountReading, ToldCountReading, CountSumReading, GrowthReading):
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

    def put_stated(self, frame, stated: Stated) -> None:
        """A count found in the row; a mark in the steps tells whether stitches follow it."""
        self.read.stated.append(stated)

    # ------------------------------------------------------------ in brackets

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

    # ------------------------------------------------------------ the count itself
