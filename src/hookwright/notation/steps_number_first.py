"""A number first: of stitches, of chains, of times, or a count."""

from hookwright.ground import Number, Span

from .steps_special import SHAPING_ENDS
from .steps_stitch_places import PLACE_STARTS
from .tree import Chain, Note, Place, Repeat, Stitch

_AFTER_A_LEADING = frozenset(("STN", "ST", ".", ":", "DASH"))
_FAR = frozenset(("AROUND", "ACROSS", "TOEND", "TURN", "JOIN"))
_SUMS = frozenset(("X", "+", "AND", "DASH", "HY", "MARK"))
_UNNAMED_IN = frozenset(("NEXT", "SAME", "ONEAFTER", "FIRST", "LAST", "EACH"))


class NumberFirstReading:
    """Reads what a number begins."""

    def act_number(self, frame) -> bool:
        """A number first: of stitches, of chains, of times, or a count."""
        k, start = self.k, self.i
        if k[start + 1] == "ST" and k[start + 2] == "EACH" and self.v[start] in (1, 2, 3) and self._word(start + 2) == "per" and frame.steps:
            return self._worked_note(frame, start, start + 3)  # "work 30 dc around the cuff, 1 dc per row": how they are spread
        if start < 4 and k[start + 1] in _AFTER_A_LEADING and not self.depth and not self.open_marks and self.count_leads(frame):
            return True
        if k[start + 1] in _SUMS and not self.depth and frame.steps and self.sum_told(start):
            return True
        if self.count_here(frame) or not start and "." in k[2:5] and self.heads_the_work():
            return True
        number = self.v[start]
        if frame.ended and not self.depth and k[start + 1] in ("W", "U") and self.things_made(frame, start):
            return True
        if k[start + 1] in (".", "END", ",", "(") and start and self.text[self.e[start - 1]:self.s[start]].strip(" .,;\n").lower() == "make" and frame.steps:
            begin = self.text.lower().rfind("make", 0, self.s[start])  # "Make eight.": so many pieces
            frame.steps.append(Note(self.text[begin:self.e[start]], Span(begin, self.e[start])))
            self.i += 1
            return True
        if self.colour_kind is not None and self.stitches_in_colour(frame, number, start):
            return True
        if not self.depth and k[start + 1] in ("STN", "ST", "EACH") and not self.open_marks and (self.count_first(frame) or k[start + 1] == "STN" and k[start + 2] == "SHAPED" and self.shaped_first(frame)):
            return True
        at = start + 1
        if k[at] == "MORE" and k[at + 1] in ("ST", "OWN", "CH", "LOOP"):
            at += 1
        if k[at] == "HY" and k[at + 1] in ("ST", "OWN", "CH"):
            at += 1
        if k[at] in ("W", "U") and k[at + 1] == "ST" and self._word(at) in ("long", "deep", "elongated", "tall"):
            at += 1  # "1 long dc in st 2 rows below": how far it reaches
        kind = k[at]
        if kind == "IN" and k[at + 1] == "EACH" and self.so_many_in_every(frame, number, start):
            return True
        if kind in ("ROW", "ROUND", "AROUND") and number == 1 and self.row_of(frame):
            return True
        if kind == "STN" and k[at + 1] == "TOG" and number in (2, 3):
            at, kind = at + 1, "TOG"  # "crochet 2 sts together"
        if kind == "TOG" and number in (2, 3) and k[at + 1] in (",", ";", ".", ")", "]", "END", "AROUND", "ACROSS", "TOEND", "(", "X", "NUM", "IN", "OVER", "AT", "REP", "TURN"):
            self.i = at + 1  # "work 2 tog"
            node = Stitch("dec", 1) if number == 2 else Stitch(f"{self._usual(frame)}3tog", 1)
            return self._placed(frame, node, start, 1)
        if kind == "LOOP" and k[at + 1] in ("ST", "OWN"):
            loop = self.v[at]
            self.i = at + 1
            done = self.stitch(frame, number, start)
            if done and frame.steps and type(frame.steps[-1]) is Stitch:
                frame.steps[-1].loop = loop
            return done
        if kind == "SHAPED" or kind in ("STN", "ST") and k[at + 1] == "SHAPED" and (kind == "STN" or start and k[start - 1] in ("DASH", "(", "[") and frame.steps):  # "1 st dec'd", "—1 sc increased"
            self.i = at + 1 + (kind != "SHAPED")
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        if kind == "ST" and self.v[at] in ("inc", "dec") and self.shaping_told(frame, start):
            return True
        if kind in ("ST", "OWN"):
            self.i = at
            return self.stitch(frame, number, start)
        if kind == "CH" or kind == "TCH" and number == 1 and k[at + 1] in (",", ".", ";", "AND"):
            return self.numbered_chain(frame, number, at)
        if kind == "SP" and k[at + 1] == "IN" and k[at + 2] in ("MAGIC", "RING") and self._word(at)[0] == "l":
            self.i = at + 1  # "cast on 6 loops in the amigurumi ring"
            place = self.place()
            if self.ring_wanted:
                self.make_ring(frame)
            return self.put(frame, Stitch(self._usual(frame), number, place, span=self.span(start)))
        if kind == "X" or kind == "MARK" and self.v[at] == "*" and k[at + 1] in ("(", "[") and self.s[at] == self.e[start]:  # "6*(2 sc, inc)"
            return self._times_first(frame, number, at + 1)
        if kind in ("ACROSS", "AROUND", "W", "TOEND") and (self.edges_seen or self.announced is not None) and self._further_edge(frame, number, start):
            return True
        if kind == "TIMES" and k[at + 1] in ("(", "[", "{") and (not start or k[start - 1] in (",", ";", ".", "AND", ":")) and self.match[at + 1] > at and self.count_in_brackets(at + 1, self.match[at + 1]) is None:
            if self._times_first(frame, number, at + 1):  # "6 times (4 sc, inc)"
                return True
        if kind == "REP":  # "5 repeats of (3 sc, dec)", "6 repeats: 2 sc, inc"
            after = at + 1 + (k[at + 1] == "OF")
            if k[at + 1] == ":" and self.following(frame) or self.steps_ahead(after) and self._times_first(frame, number, after):
                return True
            return self.again_times(frame)
        if kind in ("TIMES", "MORE"):
            return k[at + 1] == ":" and self.following(frame) or self.again_times(frame)
        if kind in ("IN", "FOR") and "EACH" in k[at + 1 : at + 6] and frame.steps and getattr(frame.steps[-1], "evenly", False):
            while k[self.i] not in (",", ";", ".", "END", ")", "]"):
                self.i += 1
            span = self.span(start)  # "1 in each row end"
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        of_each = k[at + 1 : at + 3] == ["EACH", "OF"] and k[at + 3] in ("NEXT", "FIRST", "LAST", "REM") and k[at + 4] == "NUM"  # "one in each of the next two"
        if kind == "IN" and k[at + 1] in _UNNAMED_IN and (of_each or (k[at + 1] != "EACH" or k[at + 2] == "NEXT") and number != 1) and any(type(step) is Stitch for step in frame.steps) and self._unnamed(frame, number, start):
            return True  # "1 dc in each of next 3 sts, 2 in next"
        if kind == "IN" and self._same_stitch_in(frame, start) and self._unnamed(frame, number, start):
            return True  # "1 sc in each st and one in each ch-1 sp"
        if kind == "IN" and k[at + 1] == "EACH" and k[at + 2] in ("STN", "ST") and number in (2, 3) and k[at + 3] in SHAPING_ENDS | _FAR and not any(type(step) is Stitch for step in frame.steps):
            return self._unnamed(frame, number, start)  # "two in every stitch": in the stitch that is worked throughout
        if kind == "STN" and k[at + 1] in (",", "AND") and k[at + 2] == "ST" and self.v[at + 2] in ("inc", "dec", "invdec") and number != 1 and (not frame.steps or getattr(self.last_step(frame), "kind", "") in ("inc", "dec", "invdec")):
            self.i = at + 1  # "two stitches, increase, ...": plain ones
            return self.put(frame, Stitch(self._usual(frame), number, span=self.span(start)))
        if kind == "STN" and self.so_many_worked_in(frame, start):
            return True
        if kind == "STN" and k[at + 1] in PLACE_STARTS and self.last_step(frame) is not None or kind == "STN" and k[at + 1] in ("IN", "EVENLY"):
            self.i = at
            return self._unnamed(frame, number, start)
        if kind in (",", "+", "AND") and k[at + 1] == "ST" and self.v[at + 1] in ("inc", "dec", "invdec") and (self.depth or not frame.steps) and k[at + 2] in SHAPING_ENDS or (
            self.depth and kind in (")", "]", ",") and start > 1 and k[start - 1] in (",", "+", "AND") and k[start - 2] == "ST" and self.v[start - 2] in ("inc", "dec", "invdec")
        ):
            self.i = at  # "(5, inc) x 6": so many plain ones
            return self.put(frame, Stitch(self._usual(frame), number, span=self.span(start)))
        return self.bare_count(frame)

    def _same_stitch_in(self, frame, start: int) -> bool:
        """Whether "one in each ch sp", "1 in the next" at `start` is of the stitch just told, with a place of its own."""
        k, at, last = self.k, start + 2, self.last_step(frame)
        if type(last) is not Stitch or last.place is None or last.kind in ("slst", "inc", "dec") or last.place.which == "edge" or k[start - 1] not in ("AND", ",", "MORE", ";"):
            return False
        if k[at] not in ("EACH", "ALL"):
            return k[at] in ("NEXT", "LAST", "TOP", "TCH", "SP", "CENTER") and self._and_ends(start)
        at += 1 + (k[at + 1] == "OF")
        if last.place.which == "from hook" and k[at] in ("CH", "REM"):
            return True
        while k[at] in ("NEXT", "CH", "NUM", "HY", "SKIPPED"):
            at += 1
        return k[at] == "SP" or k[at] in ("STN", "ST") and last.place.of != "st"

    def _and_ends(self, start: int) -> bool:
        """Whether the clause that begins at `start` names no stitch before it ends."""
        k, at = self.k, start + 2
        while k[at] not in (",", ";", ".", ":", "(", "[", ")", "]", "MARK", "AND", "END", "REP"):
            if k[at] in ("ST", "OWN") and k[at - 1] not in ("NEXT", "LAST", "OF", "CENTER") or k[at] == "WITH":
                return False
            at += 1
        return True

    def so_many_worked_in(self, frame, start: int) -> bool:
        """ "work across 32 sts in hdc", "work 32 sts in dc": so many of that stitch, one in each; the hook stands at the number."""
        k, at = self.k, start + 3
        if k[start + 1] != "STN" or k[start + 2] != "IN" or k[at] != "ST" or not isinstance(self.v[at], str) or self.v[start] == 1 or k[at + 1] not in (",", ";", ".", "END", "TURN", "(", "["):
            return False
        self.i = at + 1
        return self.put(frame, Stitch(self.v[at], 1, Place(n=self.v[start]), span=self.span(start)))

    def shaping_told(self, frame, start: int) -> bool:
        """ "- 6 increases made", "(6 decreases)" after the steps that make them: told of the row, not worked once more."""
        k, after = self.k, self.i + 2
        made = k[after] in ("MADE", "TOTAL")
        if made:
            after += 1
        last = self.last_step(frame)
        if k[after] not in (".", ",", ";", ")", "]", "END", "(", "[", "=", "TURN", "JOIN", "DASH") or last is None or type(last) is Chain:
            return False
        if not made:
            far = type(last) is Repeat or getattr(getattr(last, "place", None), "extent", None) is not None
            apart = k[start - 1] in (".", "DASH") or k[start - 1] in ("(", "[") and k[after] in (")", "]")
            if not apart or not far or self._word(start + 1)[:4] not in ("incr", "decr"):
                return False
        self.i = after
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def _further_edge(self, frame, number: Number, start: int) -> bool:
        """ "28 sc across back neck, 10 down left front": the same stitch along the next edge."""
        last = self.last_step(frame)
        if type(last) is not Stitch or last.place is None or last.place.which != "edge" and last is not self.announced:
            return False
        self.i = start + 1
        place = self.edge_place()
        if place is None:
            self.i = start
            return False
        return self.put(frame, Stitch(last.kind, number, place, evenly=last.evenly and last is not self.announced, span=self.span(start)))
