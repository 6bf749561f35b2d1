"""Turning, joining, fastening off, colours, markers, stitches left, and sentences that say where to work."""

import re

from hookwright.ground import Span

from .patterns import Lazy
from .steps_colour_lists import ColourListReading
from .steps_go_on import GoOnReading
from .steps_join import JoinReading
from .steps_sides import SideReading
from .steps_where import WhereReading
from .tree import (
    Chain,
    Colour,
    FastenOff,
    JoinYarn,
    Leave,
    Mark,
    NoJoin,
    Note,
    Place,
    Skip,
    Stitch,
    Turn,
)

_A_TAIL = Lazy(r"\b(?:tail|end|length|piece)s?\b", re.I)
_CLAUSE_ENDS = frozenset((",", ";", ".", ":", "END", ")", "]", "MARK", "(", "["))
_OF_A_TOOL = frozenset(("NUM", "DEC", "U", "W", "HY", "/", "THIS", "HALF", "SHADE", ".", "(", ")", "[", "]", "YARN", "HOLD", "TOG", "OF", "COLOUR"))
_STEP_WORDS = frozenset(("ST", "OWN", "CH", "NUM", "SKIP", "REP", "JOIN", "FASTEN", "DONOTJOIN", "DONOTTURN"))


_PULLED = frozenset(("pull", "pull through", "pull-through", "through", "yarn over", "draw through"))


class OtherReading(JoinReading, WhereReading, SideReading, ColourListReading, GoOnReading):
    """Reads the steps that make no stitch."""

    def act_turn(self, frame) -> bool:
        start = self.i
        self.i += 1
        if self.k[self.i] == "TO" and self.k[self.i + 1] in ("IN", "ACROSS"):  # "turn to work on other side of chain"
            self.i += 1
            place = self.place()
            if place is not None and place.which in ("other side", "row ends"):
                self.context = place
                return True
            self.i = start + 1
        if self.k[self.i] == "TO" and self.k[self.i + 1] in ("W", "SIDE", "IN", "ACROSS", "U", "EXTEND"):
            return self._worked_note(frame, start, self.i)  # "turn to work down the side": the piece is turned, not the row
        if self.k[self.i] == "HAVE" and any(kind in ("RS", "WS") for kind in self.k[self.i:self.i + 4]):
            frame.steps.append(Turn(span=self.span(start)))
            return self._worked_note(frame, self.i, self.i)  # "turn so that the wrong side faces you; ..."
        after = self._piece_turned(start)
        if after:
            self.i = after
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        frame.steps.append(Turn(span=self.span(start)))
        if self.k[self.i] == "WITH" and self.k[self.i + 1:self.i + 3] in (["NUM", "CH"], ["CH", "NUM"]):
            self.i += 1  # "turn with 3 ch"
        return True

    def _piece_turned(self, start: int) -> int:
        """ "Turn the strip a quarter so that the row ends lie uppermost", "turn inside out": not the turn at a row's end.

        Index after the words, 0 where the row is turned: "turn the work", "turn the square, ch 1".
        """
        k, at = self.k, start + 1
        named = k[at] in ("W", "U") and self.text[self.e[start]:self.s[at]].strip().lower() in ("the", "your")
        while k[at] not in _CLAUSE_ENDS and not (k[at] in ("AND", "WITH") and k[at + 1] in _STEP_WORDS):
            at += 1
        words = range(start + 1, at)
        if any(self._word(index) == "out" for index in words):
            return at
        side = any(k[index] in ("RS", "WS") for index in words)
        return at if named and not side and len(words) > 1 and not (len(words) == 2 and k[at - 1] in ("AROUND", "OVER")) else 0

    def act_fasten(self, frame) -> bool:
        k, start = self.k, self.i
        self.i += 1
        after = self.i
        while k[self.i] in ("SHADE", "U", "W", "YARN", "COLOUR", "AND", "ENDING") and self.i - after < 5:
            if k[self.i] == "AND" and k[self.i + 1] not in ("W", "REMARK", "U", "SHADE"):
                break
            self.i += 1
        frame.steps.append(FastenOff(span=self.span(start)))
        return True

    def act_do_not(self, frame) -> bool:
        k, start = self.k, self.i
        kind = k[start]
        self.i += 1
        if kind == "NOT":
            if k[self.i] in ("TURN", "JOIN"):
                self.i += 1
                frame.steps.append(NoJoin(k[self.i - 1] == "TURN", span=self.span(start)))
                return True
            if frame.steps and self.left_alone(frame, start, self.i):
                return True
            while k[self.i] not in (".", ",", ";", "END", ")", "]"):
                self.i += 1
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        if kind == "DONOTFASTEN":  # "Do not fasten off yet"
            while k[self.i] not in _CLAUSE_ENDS and not (k[self.i] == "AND" and k[self.i + 1] in _STEP_WORDS):
                self.i += 1
        span = self.span(start)
        if kind == "DONOTFASTEN":
            frame.steps.append(Note(self.text[span.start:span.end], span))
        else:
            frame.steps.append(NoJoin(kind == "DONOTTURN", span=span))
            if k[self.i] in ("OR", "AND") and k[self.i + 1] in ("TURN", "JOIN"):
                self.i += 2
                frame.steps.append(NoJoin(k[self.i - 1] == "TURN", span=span))
        return True

    # ------------------------------------------------------------ colours

    def _word(self, at: int) -> str:
        return self.text[self.s[at]:self.e[at]].lower()

    def _colour_name(self, first: int, after: int) -> str:
        """The colour in tokens [first, after): without "yarn", "new", "colour"."""
        words = [self.text[self.s[at]:self.e[at]] for at in range(first, after) if self.k[at] not in ("YARN", "COLOUR") and self._word(at) not in ("new", "working", "same")]
        return " ".join(words)

    def act_colour(self, frame) -> bool:
        """ "change to B", "With CC -", "with red,", "switch colour to slate in last st", "B:"."""
        k, start = self.k, self.i
        kind = k[start]
        at = start + 1
        if kind == "WITH" and (self.names_the_stitch(frame, start) or self.last_one(frame, at)):
            return True
        if kind == "WITH" and k[at] == "ST" and self.v[at] in ("inc", "dec") and k[at + 1] == "IN" and not self.moved:
            self.i = at  # "turn the tip with an increase in next st"
            return True
        if kind == "WITH" and frame.steps and k[at] in ("CH", "NUM") and "BETWEEN" in k[at:at + 5] and self.chains_between(frame, frame.steps[-1], start):
            return True  # "5 dc in each ch-2 sp, with ch 3 between groups"
        if kind == "WITH" and k[at] == "NUM" and self.so_many_in_every(frame, self.v[at], at):
            return True
        if kind == "WITH" and k[at] == "NUM" and k[at + 3] == "EACH" and k[at + 5] == "BETWEEN":
            self.i = at  # "2 tr in each of the next 18 holes with 1 tr on each tr between"
            return True
        if kind == "WITH" and not self.moved and self._with_a_tool(frame, start):
            return True
        if kind == "SHADE":
            at = start
        elif kind == "COLOUR":
            if k[at] not in ("SHADE", "NUM", "U"):
                return False
        elif kind == "CHANGE":
            if k[at] in ("COLOUR", "YARN"):
                at += 1
            if k[at] in ("TO", "IN"):
                at += 1
            elif self._word(start) != "change" and self.text[self.s[start]:self.e[start]].lower().endswith(" to"):  # "back to cream"
                pass
            elif k[at] != "SHADE" and k[at - 1] != "COLOUR":
                return False
            elif k[at] not in ("SHADE", "U"):
                return False
        elif k[at] in ("RS", "WS", "BACKFACING"):
            return False
        elif (k[at] == "NUM" and k[at + 1] in ("ST", "OWN") or k[at] in ("(", "[") and self._follows(self.match[at]) == "steps") and frame.steps and self._reaches_far(frame.steps[-1]):
            return self.act_working(frame)  # "sc in each st around, with 3 sc in each corner"
        first = at
        while k[at] in ("SHADE", "U", "COLOUR", "YARN", "FIRST", "ORD") or k[at] == "W" and self._is_colour_word(at) or k[at] == "NUM" and k[at - 1] == "COLOUR":
            at += 1
            if at - first > 4:
                return False
        if at == first or kind == "WITH" and k[first] == "U" and k[at] in ("OF", "ST", "IN") and k[at] != "ST":
            return False
        if all(kind in ("FIRST", "ORD", "YARN") for kind in k[first:at]):
            return False
        name = self._colour_name(first, at)
        if not name:
            name = self.text[self.s[first]:self.e[at - 1]]
        self.i = at
        if kind == "CHANGE":
            while k[self.i] in ("IN", "AT", "LAST", "STN", "ST", "YO", "WITH", "OF", "ROW", "ROUND", "W", "SP", "ENDING", "THIS", "THROUGH", "FINAL", "HOOK") and not (
                k[self.i] == "ST" and k[self.i - 1] not in ("LAST", "IN", "OF", "THIS")
            ):
                self.i += 1
                self.i += k[self.i] == "NUM" and k[self.i - 1] in ("ROW", "ROUND")  # "in the last st of Rnd 20"
            while k[self.i - 1] != "." and self._word(self.i) in _PULLED:  # "on the last pull through"
                self.i += 1
        if kind == "WITH" and k[at] == "AND" and "HOOK" in k[at:at + 16]:  # "With A and a 4 mm hook, ch 30"
            hook = at + k[at:at + 16].index("HOOK")
            if _OF_A_TOOL.issuperset(k[at + 1:hook]):
                self.i = hook + 1
        if k[self.i] == "IN" and k[self.i + 1] == "ANY" and kind != "CHANGE":  # "colour B in any ch-1 sp: ch 3, ..."
            place = self.place()
            if place is not None:
                self.i += k[self.i] in ("DASH", ":", ",", ";")
                return self.put(frame, JoinYarn(place, name, span=self.span(start)))
        frame.steps.append(Colour(name, kind == "CHANGE" and "LAST" in k[at:self.i], self.span(start)))
        if k[self.i] in ("DASH", ":", ","):
            self.i += 1
        return True

    def _with_a_tool(self, frame, start: int) -> bool:
        """ "With 4.00mm hook make 40 ch", "Using larger hook and 2 strands held together, ch 20": what it is worked with, told."""
        k, at = self.k, start + 1
        if k[at] == "SHADE" and k[at + 1] == "AND":
            return False  # "With A and a 4 mm hook": the colour is for others to read
        while (k[at] in _OF_A_TOOL or k[at] == "AND" and k[at + 1] in ("W", "U", "NUM", "THIS")) and at - start < 18:
            at += 1
        if k[at] != "HOOK" or at == start + 1:
            return False
        at += 1
        if k[at] in ("(", "[") and self.match[at] > at + 2 and _OF_A_TOOL.issuperset(k[at + 1:self.match[at]]) and not {"NUM", "DEC"}.isdisjoint(k[at + 1:self.match[at]]):
            at = self.match[at] + 1  # "larger hook (4 mm)"
        if k[at] == "AND" and k[at + 1] == "SHADE" and k[at + 2] in (",", ".", ";", "CH"):  # "with size H hook and MC, ch 20"
            span = Span(self.s[start], self.e[at - 1])
            frame.steps += [Note(self.text[span.start:span.end], span), Colour(self.text[self.s[at + 1]:self.e[at + 1]], False, Span(self.s[at], self.e[at + 1]))]
            self.i = at + 2 + (k[at + 2] == ",")
            return True
        if k[at] == "AND":
            last = at + 1
            while k[last] in ("NUM", "U", "W", "YARN", "HOLD", "TOG", "OF", "THIS", "COLOUR", "BOTH", "SHADE") and last - at < 9:
                last += 1
            if k[last] != ",":
                return False
            if k[at + 1] != "NUM" and k[at + 1] != "YARN":
                return False  # "and A,": the colour is for others to read
            at = last
        span = Span(self.s[start], self.e[at - 1])
        frame.steps.append(Note(self.text[span.start:span.end], span))
        self.i = at + (k[at] == ",")
        return True

    def act_for(self, frame) -> bool:
        """ "switch to teal for next 10 sc": so many of the running stitch in the colour just taken up."""
        k, start = self.k, self.i
        at = start + 1
        if k[at] == "EACH" and not start:  # "for each loop: sc, hdc, 3 dc, hdc, sc"
            self.i = at
            place = self.target()
            if place is not None and k[self.i] in (":", ",") and self.gather(frame, place, start):
                return True
            self.i = start
        which = {"NEXT": "next", "LAST": "last", "FIRST": "first"}.get(k[at], "")
        at += bool(which)
        last = self.last_step(frame)
        if k[at] == "LAYERS" and type(last) is Stitch and last.place is None:  # "4 sc for both edges"
            last.place, last.n = Place("next", n=last.n, layers=self.v[at]), 1
            self.i = at + 1
            return True
        if not frame.steps or type(frame.steps[-1]) not in (Colour, JoinYarn) or k[at] != "NUM":
            return False
        number, kind, at = self.v[at], self._usual(frame), at + 1
        if k[at] == "ST" and isinstance(self.v[at], str):
            kind, at = self.v[at], at + 1
        elif k[at] == "STN":
            at += 1
        if k[at] not in (",", ";", ".", "AND", "END", "TURN", ")", "]"):
            return False
        self.i = at
        return self.put(frame, Stitch(kind, 1, Place(which or "next", n=number), span=self.span(start)))

    def _reaches_far(self, step) -> bool:
        place = getattr(step, "place", None)
        return place is not None and (place.extent is not None or place.which == "edge")

    def _is_colour_word(self, at: int) -> bool:
        return self._word(at) in self.lexicon.colour_words()

    # ------------------------------------------------------------ markers, stitches left

    def act_marker(self, frame) -> bool:
        k, start = self.k, self.i
        words = self._word(start)
        act = "move" if words.startswith(("move", "sm", "sl", "replace")) else "remove" if words.startswith("r") else "place"
        self.i += 1
        place = self.place(to=True)
        while k[self.i] in ("W", "THIS", "STN", "U", "IN", "LAST", "FIRST", "OF", "AROUND", "ROW", "ROUND", "MARKER", "TO", "FOR", "BEG", "AS") and place is None:
            self.i += 1
        if place is not None and k[self.i] == "OF" and k[self.i + 1] == "NUM":  # "move marker to centre tr of 3"
            self.i += 2 + (k[self.i + 2] in ("ST", "STN", "OWN"))
        frame.steps.append(Mark(act, place, self.span(start)))
        return True

    def act_leave(self, frame) -> bool:
        """ "leave rem sts unworked", "leaving last 2 sts unworked", "leaving last loop of each on hook"."""
        k, start = self.k, self.i
        if k[start + 1] == "FIRST" and self.all_but_ends(frame):
            return True
        if k[start + 1] == "FIRST" and k[start + 2] in ("ST", "STN") and k[start + 3] in (".", ",", ";", "AND") and all(type(step) in (Chain, Turn, Note) for step in frame.steps):
            return self.act_skip(frame)  # "Ch 3 and turn. Leave first dc. ..."
        self.i += 1
        if self._tail_left(frame, start):
            return True
        if k[self.i] in ("ST", "STN") and k[self.i + 1] == "BACKFACING":  # "leave the sc behind it unworked"
            at = self.i + 2
            while k[at] in ("YOU", "THIS", "W", "STN", "ST", "POST"):
                at += 1
            if k[at] == "UNWORKED":
                self.i = at + 1
                return self.put(frame, Skip(Place(), span=self.span(start)))
        if k[self.i] in ("LAST", "FIRST") and k[self.i + 1] == "SP":
            self.i = start
            return self.act_described(frame)
        if k[self.i] == "OTHER":
            self.i += 1  # "leave the other 18 sts for the instep"
        self.leaving = True
        place = self.target()
        if place is None and k[self.i] in ("W",):
            self.i += 1
            place = self.target()
        self.leaving = False
        rest = place is not None and k[self.i - 1] == "REM" and k[self.i] == "FOR"  # "leaving the rest for now"
        counted = rest or place is not None and place.of not in ("sp", "corner", "group") and (k[self.i - 1] in ("STN", "ST", "OWN") or k[self.i - 1] == ")" and place.n is not None)
        while k[self.i] in ("ROW", "ROUND", "OF", "STN", "PREVIOUS", "AROUND", "THIS"):
            self.i += 1
        more = self._left_besides(place) if counted else 0
        if counted and k[self.i] in ("REM", "LEFT") and k[self.i + 1] in ("UNWORKED", ",", ".", ";", "END", "TURN", ")"):
            self.i += 1  # "leaving 4 sc remaining"
        if k[self.i] == "UNWORKED":
            self.i += 1
        elif not counted or k[self.i] not in ("FOR", ",", ".", ";", "END", ")", "]", "TURN", "(") and k[self.i:self.i + 2] != ["DASH", "NUM"] or k[self.i] == "(" and self._follows(self.match[self.i]) == "steps":
            self.i = start
            return self.left_alone(frame, start, start + 1)  # "leave the last two."
        number = None if place is None or place.n is None or k[start + 1] == "THIS" and place.n == 1 else place.n  # "leaving these sts unworked"
        if more:
            number = more + (place.n if isinstance(place.n, int) else 1)
        frame.steps.append(Leave(number, span=self.span(start)))
        return True

    def _left_besides(self, place: Place) -> int:
        """Stitches left besides those just named, "leaving last tr and 3 ch unworked": the chain a row began with is one; the hook is set before "unworked"."""
        k, at, more = self.k, self.i, 0
        if place.which != "last" or k[at] not in ("AND", "+") or "UNWORKED" not in k[at:at + 6]:
            return 0
        at += 1
        while k[at] != "UNWORKED":
            if k[at] == "NUM" and k[at + 1] in ("ST", "STN") and isinstance(self.v[at], int):
                more += self.v[at]
                at += 2
            elif k[at] in ("CH", "TCH"):
                more, at = more + 1, at + 1
            elif k[at] in ("NUM", "HY", "TURN", "BEG"):
                at += 1
            else:
                return 0
        self.i = at
        return more

    def _tail_left(self, frame, start: int) -> bool:
        """ "leaving an 8\" tail for sewing": an end of yarn with its length, which is told."""
        k, at = self.k, self.i
        if k[at] != "NUM":
            return False
        while k[at] not in (",", ";", ".", ":", "(", "[", ")", "]", "END", "ST", "OWN", "CH") and at - start < 12:
            at += 1
        span = Span(self.s[start], self.e[at - 1])
        if not _A_TAIL.search(self.text, span.start, span.end):
            return False
        self.i = at
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    # ------------------------------------------------------------ where to work

    def _from_hook_unsaid(self, place: Place, frame) -> bool:
        """Whether "in second chain" at the head of a first row is counted from the hook; makes the place so."""
        if not self.first_row or place.which != "nth" or place.of != "ch" or place.extent is not None or place.chains is not None or not isinstance(place.ordinal, int) or self.moved:
            return False
        if not 1 < place.ordinal < 8 or any(type(step) not in (Chain, Note) for step in frame.steps):
            return False
        place.which = "from hook"
        return True

    def act_begin(self, frame) -> bool:
        """ "Starting at 1 ch. space on one side, ...", "beginning in the corner": told, not worked."""
        k, start = self.k, self.i
        if k[start + 1] == "LAST" and self.last_begun(frame, start + 1):
            return True
        self.i += 1
        if k[self.i] in ("ST", "OWN"):
            return True  # "beg cl in ring"
        if k[self.i] == "WITH" and k[self.i + 1] == "ST" and k[self.i + 2] in (".", ",", "END", ")", "TURN") and self.last_step(frame) is not None and self.moved:
            self.i += 2  # "alternate 1 dc and 1 sc across, starting with a dc"
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        if k[self.i] == "WITH" and k[self.i + 1] in ("MAGIC", "SHADE", "NUM", "ST", "CH", "STANDING"):
            self.i += 1
            if k[self.i] == "SHADE":
                self.i -= 1
            return True
        if k[self.i] not in ("AT", "IN", "WITH", "FROM", "NEXT"):
            return False
        if k[self.i] == "FROM" or k[self.i] == "WITH" and k[self.i + 1] == "ORD":
            self.i += 1
            place = self.target()
        else:
            place = self.place() if k[self.i] in ("AT", "IN") else None
        if place is not None and (place.which == "from hook" or self._from_hook_unsaid(place, frame)):
            last = self.last_step(frame)
            if type(last) is Stitch and getattr(last.place, "extent", None) is not None and all(type(step) in (Chain, Note) for step in frame.steps[:-1]):
                last.place.which = "next"  # "sc in each ch, starting in 2nd ch from hook"
                frame.steps.insert(-1, Stitch(last.kind, 1, place, loop=last.loop, span=last.span))
                return True
            self.context = place  # "start in 2nd ch from hook: sc 5"
            return True
        if place is not None and place.which == "first" and place.of == "st" and place.n == 1 and k[self.i] in ("ST", "NUM", "OWN") and not self.moved:
            return True  # "starting in first st dc across": where a row begins anyhow
        said = self.i
        while k[self.i] not in (",", ";", "END", ")", "]", ":", "MARK", "AND", "+") and not (k[self.i] == "." and self._ends_sentence()):
            self.i += 1
        span = self.span(start)
        if place is not None and place.of in ("sp", "corner") and place.which in ("next", "any"):
            place.which = "any"
            standing = self.v[self.i - 1] if k[said:self.i] == ["WITH", "STANDING", "ST"] and isinstance(self.v[self.i - 1], str) else ""  # "start in any sp with a standing dc"
            frame.steps.append(JoinYarn(place, standing=standing, span=span))
        else:
            frame.steps.append(Note(self.text[span.start:span.end], span))
        return True
