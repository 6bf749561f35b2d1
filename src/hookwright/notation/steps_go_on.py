"""Going on as before: "continue in this way", "the other sides the same", "in pattern over first 31 sts", "alternate ... with ..."."""

from copy import copy

from .repeats_tail import less_by
from .steps_frame import Frame
from .tree import (
    Chain,
    Each,
    Extent,
    Go,
    Group,
    Join,
    Note,
    Place,
    Repeat,
    Stitch,
)

_STOPS = frozenset((",", ".", ";", "END", "(", "[", ")", "]", "TURN", "JOIN", "LEAVE", "AND", "DASH", "DONOTTURN"))
_SO_FAR = frozenset(("ACROSS", "OVER", "ON", "IN", "FIRST", "NEXT", "NUM", "TO", "TOEND"))
_PATTERN_WORDS = frozenset(("patt", "pat", "pattern", "work", "working"))
_AFTER_ALTERNATING = frozenset((",", ".", ";", "END", "(", "[", ")", "]", "TURN", "JOIN"))


class GoOnReading:
    """Reads sentences that go on with what was said."""

    def act_go(self, frame) -> bool:
        k, start = self.k, self.i
        self.i += 1
        if frame.steps and type(frame.steps[-1]) is Join and self._word(start).startswith("as ") and frame.steps[-1].span.end <= self.s[start] and k[start - 1] not in (",", ";", "."):
            span = self.span(start)  # "join with ss as before": how it is joined
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        told = frame.steps[-1] if frame.steps else None
        if type(told) is Stitch and told.place is None and told.n != 1 and told.span.end <= self.s[start] and k[start - 1] in ("ST", "STN", "NUM") and self._word(start).startswith(("without", "with no", "no ")):
            span = self.span(start)  # "29 sc without changes": so many, and no more
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        while k[self.i] in ("GO", "INTHISWAY") or k[self.i] in ("OR", "AND", "/") and k[self.i + 1] == "ST" and self.v[self.i + 1] in ("inc", "dec"):
            self.i += 1 + (k[self.i] in ("OR", "AND", "/"))  # "no decreases or increases"
        if k[self.i] == "," and k[self.i + 1] in ("ACROSS", "OVER") and k[self.i + 2] in ("FIRST", "NEXT", "NUM", "TO"):
            self.i += 1  # "keeping pattern correct, work across first 28 sts"
        if k[self.i] == "IN" and k[self.i + 1] == "ST" and isinstance(self.v[self.i + 1], str) and k[self.i + 2] in (",", ";", ".", "END", "(", "[", "ACROSS", "AROUND", "TOEND", "TURN"):
            self.i += 2  # "work even in sc"
            return self.put(frame, Stitch(self.v[self.i - 1], 1, Place(n=None, extent=self.extent() or Extent("open")), span=self.span(start)))
        if k[self.i] in ("OVER", "ON", "IN", "FOR", "ACROSS"):  # "in pattern over first 31 sts", "in pattern on 31 sts"
            extent = self.over_so_many() or self.extent()
        else:
            extent = self.extent()
        frame.steps.append(Go(extent, self.span(start)))
        return True

    def works_so_far(self, frame, verb: bool = False) -> bool:
        """ "work across next 14 sts, turn", "work 14 sts, turn", "patt to last 2 sts": no stitch is named, so it is the one that is set; the hook stands after the verb.

        verb: the verb says that it is in pattern, so that a bare number is one of stitches ("patt 40, turn").
        """
        k, start = self.k, self.i
        at, told = start, k[start] in ("ACROSS", "OVER", "ON", "IN")
        if k[start] not in _SO_FAR or self.depth or self.open_marks:
            return False
        at += told
        at += k[at] in ("FIRST", "NEXT")
        if k[at] == "NUM" and (k[at + 1] == "STN" or verb and k[at + 1] in _STOPS and not self._chain_number(at)):
            end = at + 1 + (k[at + 1] == "STN")
            only = "only" in self.text[self.e[end - 1]:self.s[end]]
            end += k[end] == "GO" and not told  # "work 40 sts in patt, turn"
            if not told and not only and k[end + (k[end] in (",", ";", "."))] not in ("TURN", "LEAVE"):
                return False  # "work 24 sts" may be a count
            extent = Extent("until", self.v[at], "st")
        elif k[at] in ("TO", "TOEND") and (k[start] == "ACROSS" or not told):
            if any(type(step) in (Repeat, Group, Each) or type(step) is Stitch and step.kind != "slst" for step in frame.steps):
                return False  # what was worked goes on
            extent = self.extent()
            if extent is None or extent.kind not in ("last", "end"):
                self.i = start
                return False
            end = self.i
        else:
            return False
        if k[end] not in _STOPS:
            self.i = start
            return False
        self.i = end
        extent.span = self.span(start)
        last = self.last_step(frame)
        if type(last) is Go and last.extent is None:  # "keeping in pattern, work 14 sts"
            last.extent = extent
        else:
            frame.steps.append(Go(extent, self.span(start)))
        return True

    def patterned(self, frame) -> bool:
        """ "Pattern across 14 sts", "patt 14": the word is the verb."""
        if self._word(self.i) not in _PATTERN_WORDS:
            return False
        self.i += 1
        if self.works_so_far(frame, verb=self._word(self.i - 1)[0] == "p"):
            return True
        self.i -= 1
        return False

    def act_continue(self, frame) -> bool:
        """ "continue around", "carry on in this way to end", "continue in sc", "continue in patt"."""
        k, start = self.k, self.i
        self.i += 1
        manner = k[start] == "INTHISWAY"
        if manner and self._word(start).split()[0] in ("over", "again") and frame.steps and not self.depth:
            return self.bare_repeat(frame, start, extent=self.extent() or Extent())  # "over and over to the end": the last sentence, or all
        if manner and k[self.i] in ("NUM", "TIMESN") and frame.steps and not frame.sentence and not self.depth and all(type(step) is Stitch and step.place is None for step in frame.steps) and self.again_times(frame):
            return True  # "2 sc, 1 inc, work this 7 times"
        if manner and k[self.i] == "AS" and self.other_row_told(frame, start):
            return True
        if manner and k[self.i] == ":":
            return True  # "sc evenly around neck thus: ..."
        if manner and (k[self.i] == "TIMESN" or k[self.i] == "TOTAL" or k[self.i] == "FOR" and k[self.i + 1] in ("NUM", "TOTAL") or k[self.i] == "NUM" and k[self.i + 1] in ("TIMES", "MORE")) and frame.steps and not self.depth and not self.open_marks:
            times, sense, extent, _ = self.how_often("total")
            if times is not None and extent is None:
                return self.this_so_often(frame, start, times, sense)
            self.i = start + 1
        if k[self.i] == "REP" and self._what_is_marked(self.i + 1):
            return self.act_repeat(frame)  # "keep repeating what's in the brackets across"
        at = self.i + (k[self.i] == "INTHISWAY")
        told = self.past_other_sides(at)[0]
        if not told and self.sides and manner and k[at] in ("IN", "FOR", "OVER", "ACROSS", "AROUND"):
            self.i = at
            told = self.past_sides() and self.i  # "do this on all four sides"
            self.i = start + 1
        if told and frame.steps and not self.depth:  # "continue like this on the remaining sides"
            self.i = told
            return self.bare_repeat(frame, start, extent=Extent(), onward=True)
        if (manner or at > self.i) and k[at] in ("IN", "OVER") and k[at + 1] in ("EACH", "ALL", "NEXT") and self._again_in(frame, start, at):
            return True
        if k[self.i] == "TO" and k[self.i + 1] in ("ST", "OWN") or k[self.i] == "WITH" and k[self.i + 1] == "NUM" and k[self.i + 2] in ("ST", "OWN"):
            self.i += 1  # "continue to sc2tog around", "carry on with 3 tr in each space"
            return True
        while k[self.i] in ("INTHISWAY", "WORKING", "IN", "WITH", "REP", "CONTINUE", "GLUE", "ALTERNATE"):
            manner = manner or k[self.i] in ("INTHISWAY", "REP", "ALTERNATE")
            if k[self.i] == "ALTERNATE" and k[self.i + 1] in ("NUM", "ST", "OWN", "BETWEEN"):
                return self.act_alternate(frame)
            if k[self.i] in ("IN", "WITH") and k[self.i + 1] not in ("ST", "INTHISWAY", "GO", "OWN"):
                break
            self.i += 1
        kind = k[self.i]
        if kind == "GO":
            return self.act_go(frame)
        if kind == "IN":
            place = self.place()
            if place is not None and place.which in ("other side", "row ends", "ring"):
                self.context = place
                return True
            self.i = start
            return False
        if kind in ("ST", "OWN"):
            keep = self.i
            value = self.v[keep]
            if k[keep - 1] == "IN" and isinstance(value, str):
                self.i += 1
                while k[self.i] == "STN":
                    self.i += 1
                place = self.place()
                if place is None:
                    place = Place(n=None, extent=Extent("open"))
                self.put(frame, Stitch(value, 1, place, span=self.span(start)))
                return True
            return True
        if self.extent_ahead():
            at = self.i
            extent = self.extent()
            if k[self.i] == "HAVE" and k[self.i + 1] == "SP" and k[self.i + 2] == "GO":  # "continue across making blocks as before"
                self.i += 3
                frame.steps.append(Go(extent, self.span(start)))
                return True
            self.i = at
            return self.again_extent(frame, True, self._word(start).lower().startswith(("do ", "this", "that")) or "repeating that" in self.text[self.s[start]:self.s[at]])
        if manner or kind in (",", ".", ";", "END") and k[start] == "CONTINUE":
            return self.bare_repeat(frame, start, extent=Extent(), onward=True, lately=self._word(start).lower().startswith("do "))
        return False

    def act_other_sides(self, frame) -> bool:
        """ "work the other sides in this way", "remaining 3 sides the same", "repeat for the other sides": go on like that to the end."""
        k, start = self.k, self.i
        at = start + (k[start] == "REP")
        while k[start] == "REP" and k[at] in ("THIS", "STEP", "SAME", "IN", "PATTERN", "STN"):
            at += 1  # "repeat these instructions for the other three sides", "repeat the same on ..."
        told, manner = self.past_other_sides(at - (k[at - 1] == "IN"))
        if not told and k[start] != "REP":
            return self.rest_unworked(frame)
        if not told or not frame.steps or self.depth or not manner and k[start] != "REP":
            return False
        self.i = told
        return self.bare_repeat(frame, start, extent=Extent(), onward=True)

    def past_other_sides(self, at: int) -> tuple[int, bool]:
        """Where "on the remaining 3 sides", "for the other sides the same" at token `at` ends, 0 where it is none; and whether a manner is said."""
        k, start = self.k, at
        while k[at] in ("THIS", "IN", "FOR", "ACROSS", "AROUND", "ALL", "ON", "OVER", "TO") and at - start < 4:
            at += 1
        if k[at] not in ("OTHER", "REM"):
            return 0, False
        counted = k[at + 1] == "NUM"
        at += 1 + counted
        if k[at] not in ("SIDE", "EXTEND") and not (k[at] == "SP" and self.v[at] == "corner" and not counted):
            return 0, False
        told = at + 1
        while k[told] in ("INTHISWAY", "SAME", "AS", "IN", "FIRST", "SIDE", "TOEND", "AND", "SP", "OF", "EXTEND") and told - at < 6:
            told += 1
        return (told if k[told] in (".", ",", ";", "END", "(", "[", "JOIN", ")") else 0), told > at + 1

    def _again_in(self, frame, start: int, at: int) -> bool:
        """ "(sl st, ch 2, 3 tr, ch 2, sl st) all in first sp, do the same in every space around": what went into one place into others."""
        last = self.last_step(frame)
        before = frame.steps[-2] if len(frame.steps) > 1 else None
        if type(last) is Chain and type(before) in (Stitch, Group) and before.place is not None and before.place.n == 1:
            self.i = at  # "treble three times into next space, chain 1, and do that in every space"
            place = self.place()
            if place is not None and place.extent is not None and place.of == before.place.of:
                return self.bare_repeat(frame, start, extent=Extent(), onward=True)
            self.i = start
            return False
        if type(last) is not Group and type(last) is not Stitch or last.place is None:
            return False
        self.i = at
        place = self.place()
        if place is None:
            self.i = start
            return False
        if place.extent is not None and place.extent.kind == "open":
            place.extent = Extent()
        if isinstance(place.n, int) and place.n > 1 and self.k[at + 2] == "OF" and last.place.which == "next" and last.place.n == 1 and len(frame.steps) == 1:
            last.place = place  # "(...) in next sc. Do this in each of the 6 sc.": the first is one of them
            last.span = self.span(start)
            return True
        step = copy(last)
        step.place, step.span = place, self.span(start)
        return self.put(frame, step)

    def act_alternate(self, frame) -> bool:
        """ "alternate sc in next st with dc in the one after, all along the row"."""
        k, start = self.k, self.i
        self.i += 1
        self.i += k[self.i] == "INTHISWAY"
        if frame.steps and (k[self.i] in _AFTER_ALTERNATING or self.extent_ahead()):
            head = self._head(frame.steps)
            by_turns = frame.steps[head:]
            if len(by_turns) > 2 and len(by_turns) % 2 and all(type(step) is Stitch for step in by_turns) and by_turns[0].kind == by_turns[-1].kind:
                extent = self.extent() or Extent()  # "sc in first st, dc in next, sc in next, alternating like that across": from the second on
                frame.steps[head + 1:] = [Repeat(by_turns[1:], extent=extent, span=self.span(start))]
                self.moved = True
                return True
            return self.bare_repeat(frame, start, extent=self.extent() or Extent(), onward=True)  # "fpdc in first st, bpdc in next, alternating around"
        while k[self.i] in ("BETWEEN", "WITH"):
            self.i += 1
        inner = Frame()  # "alternate sc and dc", "alternate sc / dc"
        for _ in range(2):
            keep = self.i
            if k[self.i] == "NUM":
                done = self.act_number(inner)
            elif k[self.i] in ("ST", "OWN"):
                done = self.stitch(inner, None, keep)
            else:
                done = False
            if not done:
                return False
            if k[self.i] in ("IN", "WITH") and k[self.i + 1] in ("SHADE", "W", "U") and k[self.i + 2] in ("AND", "AROUND", "ACROSS", "TOEND", ",", ".", "END", "WITH"):
                self.i += 2  # "alternate 3 sc in blue and 3 sc in green"
            self.i += k[self.i] in ("IN", "WITH") and k[self.i + 1] == "AND"  # "in A and": the letter is taken for a word
            while k[self.i] in ("WITH", "AND", ",", "/"):
                if k[self.i] == "," and len(inner.steps) > 1:
                    break
                self.i += 1
        if k[self.i] == "," and k[self.i + 1] not in ("ENDING", "BUT"):
            self.i += 1
        extent = self.extent()
        last = inner.steps[-1]
        if extent is None and type(last) is Stitch and last.place is not None and last.place.extent is not None and last.place.of == "st" and not last.place.each:
            extent, last.place = last.place.extent, None  # "alternate 1 sc and 1 tr across"
        extent = extent or Extent()
        return self.put_repeat(frame, Repeat(inner.steps, extent=extent), start)

    def last_one(self, frame, at: int, of: Repeat | None = None) -> bool:
        """ "dc in each dc across, the last one going in top of ch-3", "your last dc goes in the turning chain": where the last of what was worked before lies.

        of: the repeat whose last it is, where that is known; "working the last dc in 3rd ch of ch-4" needs no verb then.
        """
        k, start, last = self.k, self.i, of or self.last_step(frame)
        named = k[at + 1] == "ST" and isinstance(self.v[at + 1], str)
        if k[at] != "LAST" or not named and (k[at + 1] != "NUM" or self.v[at + 1] != 1):
            return False
        after = at + 2
        while k[after] in ("W", "MADE", "WORKING", "U", "HAVE") and after < at + 6:
            after += 1
        if type(last) is Each:
            last = last.parts[-1]
        whole = last
        if type(last) is Repeat and (named or last.steps) and last.ending is None and not last.partial:
            last = Stitch(self.v[at + 1]) if named else last.steps[-1]
        said = k[after] in ("IN", "OVER", "TO") or self.text[self.e[after - 1]:self.s[after]].split()[:2] == ["worked", "in"]
        told = "go" in self.text[self.e[at + 1]:self.s[at + 2]]  # "the last sc goes in the top": a verb passed over
        if type(last) is not Stitch or not said or named and (after == at + 2 and of is None and not told or last is whole and (last.kind != self.v[at + 1] or last.place is None)):
            return False
        self.i = after
        place = self.place(to=True) if k[after] in ("IN", "OVER", "TO") else self.target()
        if place is None:
            self.i = start
            return False
        step = Stitch(last.kind, 1, place, loop=last.loop, span=self.span(start))
        if whole is last:
            return self.put(frame, step)
        before = less_by(whole.steps[-1], 1) if whole.times is not None and getattr(whole.steps[-1], "kind", "") == step.kind else None
        whole.ending, whole.ending_word = [step] if before is None else [before, step], "with"  # "[..., dc in next 2] 6 times": one of the two
        whole.span = whole.span.to(step.span)
        return True

    def act_reach(self, frame) -> bool:
        """ "When you reach the last st, 2 sc in it": what went before goes only so far."""
        k, start = self.k, self.i
        self.i += 1
        extent = self._limit("TO")
        last = self.last_step(frame)
        if extent is None or extent.kind not in ("last", "place") or last is None:
            return False
        place = getattr(last, "place", None)
        if type(last) in (Go, Repeat):
            last.extent = extent
        elif place is not None and place.extent is not None:
            place.extent = extent
        else:
            self.i = start
            return False
        while k[self.i] in (",", "AND", "BUT"):
            self.i += 1
        if extent.kind == "last":
            self.last_limit = Place("next")  # "... the last st, work 2 sc in it"
        return True
