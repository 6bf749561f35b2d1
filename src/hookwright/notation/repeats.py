"""Repeats: "*...; rep from * 5 more times", "*...* around", "(...) rep 3 times", "Repeat around.", "ending last rep at **"."""

from copy import copy

from hookwright.ground import Span

from .repeats_ahead import AheadReading
from .repeats_bare import BareRepeatReading
from .repeats_often import OftenReading
from .repeats_tail import RepeatTailReading
from .tree import Chain, Extent, Group, Note, Place, Repeat, Skip, Stitch, Turn


def _side_and_corner(steps) -> bool:
    """Whether the steps work along a side, as far as it goes, and then into a corner."""
    places = [step.place for step in steps if getattr(step, "place", None) is not None]
    return any(place.of == "corner" for place in places) and any(place.of == "st" and place.extent is not None for place in places)


class RepeatReading(AheadReading, BareRepeatReading, RepeatTailReading, OftenReading):
    """Reads repeats with marks."""

    # ------------------------------------------------------------ marks

    def _marks_referred(self) -> frozenset:
        """Marks that the row goes back to: (word, mark) for "from *", "to **", "at **", "between *"."""
        k = self.k
        if "MARK" not in k:
            return frozenset()
        return frozenset((k[at - 1], self.v[at]) for at in range(1, len(k)) if k[at] == "MARK" and k[at - 1] in ("FROM", "TO", "AT", "REP", "BETWEEN", "HY", "DASH"))

    def _mark_ends(self, frame):
        """At a mark among the steps: True where it closes an open one, None where it has been read (a ** stop), False for an opening one."""
        mark = self.v[self.i]
        if self.i in self.bold:
            self.i += 1
            return None
        if not self.open_marks:
            return False
        if mark in self.open_marks:
            return True
        if ("FROM", mark) in self.referred and not self._means_pair(mark) or ("REP", mark) in self.referred:
            return False
        if len(mark) > 1 or (("TO", mark) in self.referred or ("AT", mark) in self.referred):
            frame.stop = len(frame.steps)
            self.i += 1
            return None
        return False

    def _means_pair(self, mark: str) -> bool:
        """ "Repeat from **" where only single asterisks stand in the row: the pair is meant."""
        return len(mark) == 2 and self.v.count(mark) == sum(1 for word, other in self.referred if other == mark)

    def _repeat_ends(self) -> bool:
        k = self.k
        nxt = k[self.i + 1]
        return not (nxt in ("ROW", "ROUND", "PREVIOUS") or nxt == "THIS" and k[self.i + 2] in ("ROW", "ROUND")) and not (k[self.i] == "REP" and nxt in ("(", "[", "{") and self.steps_ahead(self.i + 1))

    def act_mark(self, frame) -> bool:
        """An asterisk or other mark that opens a repeat (or, in pairs, a group)."""
        from .steps import MOST_DEPTH, Frame

        k, start = self.k, self.i
        mark = self.v[start]
        if self._is_bold(start):
            self.i += 1
            return True
        self.i += 1
        if start and k[start - 1] in (")", "]") and k[self.i] == "NUM" and k[self.i + 1] not in ("ST", "CH", "OWN", "HY") and frame.steps:
            self.i += 1  # "4 sc, 1 dec)*5": a bracket that was never opened
            return self.bare_repeat(frame, start, self.v[self.i - 1])
        while k[self.i] in (",", "."):
            self.i += 1
        if k[self.i] in ("REP", "END", ")", "]") or k[self.i] == "FROM" and k[self.i + 1] == "MARK":
            return True  # a mark after the phrase: "..., *Repeat around"
        if k[self.i] in ("YO", "DRAW"):
            begin, end = self.i, self._description_end()
            if end > 0 and "REP" in k[begin:end] and self.act_described(frame):
                return True
            self.i = begin
        if len(self.open_marks) >= MOST_DEPTH or self.depth >= MOST_DEPTH:
            return True
        if self.context is not None and self.context.which == "from hook" and isinstance(self.context.ordinal, int) and self.context.ordinal > 1:
            self.put(frame, Skip(Place("first", "ch", self.context.ordinal - 1), span=self.context.span))  # "starting in 2nd ch from hook, *sc, dc; rep from * across": its first pass alone
            self.context = None
        inner = Frame()
        self.open_marks.append(mark)
        self.sequence(inner, self.closers)
        self.open_marks.pop()
        steps, stop = inner.steps, inner.stop
        if stop is not None and stop >= len(steps):
            stop = None
        kind = k[self.i]
        if kind == "MARK" and self.v[self.i] == mark:
            self.i += 1
            return self._closed(frame, steps, stop, mark, start)
        if kind == "REP" or kind == "FROM":
            named = self._mark_named()
            if named is None or named == mark or named not in self.open_marks:
                step = self._clause(frame, steps, stop, mark, start)
                if step is not None:
                    return True
        self._put_plain(frame, steps, mark)
        all_along = bool(steps) and getattr(getattr(steps[0], "place", None), "extent", None) is not None  # "*(3 dc, ch 2) in each sp around"
        if steps and type(steps[0]) is Repeat and steps[0].extent is not None and not steps[0].mark:
            steps[0].mark, all_along = mark, True  # "*sc, ch 1, skip 1, over and over to the end"
        if not all_along and not self.open_marks and not any(word in ("FROM", "REP") for word, _ in self.referred):
            self._say_alone(mark, start)
        return True

    def _is_bold(self, at: int) -> bool:
        """Whether ** only sets words in bold type ("**(24)**")."""
        mark = self.v[at]
        if at in self.bold:
            return True
        if len(mark) < 2 or mark[0] != "*" or any(other == mark for _, other in self.referred):
            return False
        k = self.k
        close = next((index for index in range(at + 1, len(k)) if k[index] == "MARK" and self.v[index] == mark), -1)
        if close < 0:
            return k[at + 1] in ("END", ".")
        if k[close + 1] in ("END", ".", ",", "(", "[", "TURN", "JOIN", "FASTEN", ";", "MARK", "NUM") and not (k[close + 1] == "NUM" and k[close + 2] == "TIMES"):
            after = close + 1
            while k[after] in (",", "."):
                after += 1
            if k[after] != "REP":
                self.bold.update((at, close))
                return True
        return False

    def _mark_named(self) -> str | None:
        """The mark that "rep from *" at hand goes back to."""
        k = self.k
        at = self.i + 1 if k[self.i] == "REP" else self.i
        if k[at] == "FROM":
            at += 1
        if k[at] == "MARK":
            return None if self._means_pair(self.v[at]) else self.v[at]
        return None

    def _say_alone(self, mark: str, at: int) -> None:
        from hookwright.ground import LOOK, Finding

        span = Span(self.s[at], self.e[at])
        self.read.findings.append(Finding(
            "repeat-mark-alone", LOOK, f"`{mark}` begins a repeat here, but nothing in the row says how often: the steps after it are worked once.", span,
        ))

    def _put_plain(self, frame, steps, mark: str = "*") -> None:
        frame.star = self.stars[mark] = steps
        frame.steps.extend(steps)

    def _closed(self, frame, steps, stop, mark: str, start: int) -> bool:
        """After a closing mark: "repeat from * to * 3 times", "* 3 times", "* around", "* in each ch-2 sp"."""
        k = self.k
        at = self.i
        while k[at] in (",", ".", ";", ":", "QC") or k[at] == "DASH" and k[at + 1] in ("INTHISWAY", "REP"):
            at += 1
        onward = at
        while k[onward] in ("AND", "CONTINUE"):  # "*dc, ch 1, sk 1* and keep repeating all the way round"
            onward += 1
        if k[onward] == "REP" and self._repeats_this(onward, mark):
            at = onward
        if k[at] == "REP" and self._repeats_this(at, mark) or k[at] in ("FROM", "BETWEEN") and k[at + 1] == "MARK":
            self.i = at
            if self._clause(frame, steps, stop, mark, start) is not None:
                return True
        times = self._this_often(at) if k[at] == "INTHISWAY" else self.times_in_all()
        if times is None and k[self.i] in ("(", "["):
            times = self.times_in_brackets(self.i)  # "*4 sc, inc* (4 times)"
            if times is not None:
                self.i = self.match[self.i] + 1
        if times is not None:
            if type(times) is Extent:
                return self.put_repeat(frame, Repeat(steps, extent=times, stop=stop, mark=mark), start)
            step = Repeat(steps, times, stop=stop, mark=mark)
            return self.put_repeat(frame, step, start)
        if k[self.i] == "ALL" and k[self.i + 1] == "IN":
            self.i += 1
        here = self.i
        if k[here] in ("IN", "EACH", "OVER"):
            place = self.place()
            if self.ring_wanted:
                self.make_ring(frame)
            if place is not None:
                if place.which == "same" and self.context is not None and self.context_is_space():
                    place = self._context_place()
                frame.steps.append(Group(steps, place, span=self.span(start)))
                frame.star = frame.steps[-1:]
                self.moved = True
                return True
            self.i = here
        extent = self.extent()
        if extent is not None:
            return self.put_repeat(frame, Repeat(steps, extent=extent, stop=stop, mark=mark), start)
        if stop is not None and k[at] == "ENDING" and self._of_last_pass_named(at):  # "*..., 5 tr in next st**, 1 dc in next st*, finishing the last one at **"
            return self.put_repeat(frame, Repeat(steps, extent=Extent(), stop=stop, mark=mark), start)
        if self.in_round and not start and k[here] in ("END", ".", "(", "[") and len(steps) > 1 and _side_and_corner(steps):
            return self.put_repeat(frame, Repeat(steps, extent=Extent(), stop=stop, mark=mark), start)  # "*sc in each st along the edge, 3 sc in corner*": all there is of the round
        self._put_plain(frame, steps, mark)
        return True

    def _this_often(self, at: int):
        """ "*...*, do this in each of the 6 sc", "*...*. Do this 4 times": how often, or how far, from "do this" at token `at`."""
        k, here = self.k, self.i
        self.i = at + 1
        if k[at + 1] in ("IN", "FOR", "OVER") and k[at + 2] == "EACH":
            self.i = at + 3 + (k[at + 3] == "OF")
            number = self.v[self.i] if k[self.i] == "NUM" else None
            self.i += number is not None
            if k[self.i] in ("ST", "STN"):
                self.i += 1
                while k[self.i] == "STN":
                    self.i += 1
                return (number or self.extent() or Extent()) if k[self.i] in (",", ".", ";", "END", "(", "[", "AROUND", "ACROSS", "TOEND", ")", "]") else self._back(here)
            return self._back(here)
        return self.times_in_all() or self.extent() or self._back(here)

    def _back(self, at: int) -> None:
        self.i = at

    def _repeats_this(self, at: int, mark: str) -> bool:
        k = self.k
        named = None
        here = at + 1
        if k[here] == "FROM":
            here += 1
        if k[here] == "MARK":
            named = self.v[here]
            if named in self.open_marks and named != mark:
                return False
            return True
        return k[here] not in ("ROW", "ROUND", "PREVIOUS")

    # ------------------------------------------------------------ the repeat clause

    def _clause(self, frame, steps, stop, mark: str, start: int) -> Repeat | None:
        """ "rep from * ...": the repeat is put into the frame; None where the words are no such clause."""
        begin = self.i
        to_mark = self._from_to()
        times, sense, extent, place = self.how_often("unclear")
        if times is None and extent is None and place is None and self.k[self.i] == "UNTIL" and any(type(step) is Turn for step in steps):
            while self.k[self.i] not in (".", "END", ")", "]"):
                self.i += 1
            span = self.span(start)  # rows worked again until something is reached: told, not worked
            step = Note(self.text[span.start:span.end], span)
            frame.steps.append(step)
            return step
        if times is None and extent is None and place is not None and len(steps) > 1 and self.each_has_place(steps):
            extent, place = place.extent or Extent(span=self.span(begin)), None  # "*cl in next sp, ch 3; rep from * in each sp around"
        if times is None and extent is None and place is not None:
            step = Group(steps, place, span=self.span(start))
            if len(steps) == 1 and type(steps[0]) is Group:
                frame.steps.append(steps[0])
                step = copy(steps[0])
                step.place = place
            frame.steps.append(step)
            return step
        if times is None and extent is None:
            extent = Extent(span=self.span(begin))
        step = Repeat(steps, times, sense if times is not None else "total", extent if times is None else None, stop, mark=mark)
        if times is not None and extent is not None:
            step.extent = None
        if stop is None and to_mark and len(to_mark) > 1 and to_mark != mark:
            step.stop = None
        self.put_repeat(frame, step, start)
        return step

    def each_has_place(self, steps) -> bool:
        """Whether what is worked says where, so that "in each sp" after a repeat tells how far it goes."""
        worked = [step for step in steps if type(step) in (Stitch, Group)]
        return bool(worked) and all(step.place is not None for step in worked)

    def _from_to(self) -> str:
        """Read "rep from * to *", "repeat *-*", "rep between *s", "Repeat instructions in brackets"; the mark it goes to."""
        k = self.k
        if k[self.i] == "REP":
            self.i += 1
        to = ""
        while True:
            kind = k[self.i]
            if kind == "FROM" and k[self.i + 1] in ("MARK", "BEG", "FIRST", "THIS"):
                self.i += 2
            elif kind == "MARK" and not (k[self.i - 1] not in ("REP", "FROM", "TO", "HY", "DASH", "BETWEEN", "AND", "MARK", "IN", "AT") and self.i not in self.bold):
                self.i += 1
            elif kind in ("TO", "HY", "DASH", "UNTIL", "AND") and k[self.i + 1] == "MARK":
                to = self.v[self.i + 1]
                self.i += 2
            elif kind in ("BETWEEN",) and k[self.i + 1] == "MARK":
                self.i += 2
                if k[self.i] in ("U", "W") and self.e[self.i] - self.s[self.i] == 1:
                    self.i += 1
            elif kind in ("(", "[") and self.match[self.i] == self.i + 1:
                self.i += 2
            elif kind in ("QC", "QO", "'") and k[self.i - 1] == "MARK":  # "between *'s"
                self.i += 1
                if self.e[self.i] - self.s[self.i] == 1 and k[self.i] in ("U", "W"):
                    self.i += 1
            elif kind == "THIS" and k[self.i + 1] not in ("ROW", "ROUND"):
                self.i += 1
            elif kind == "REP" and k[self.i - 1] == "MARK":  # "from * rep. 6 x"
                self.i += 1
                self.i += k[self.i] == "." and (k[self.i + 1] == "NUM" and k[self.i + 2] in ("TIMES", "X", "MORE") or not self._ends_sentence())
            elif kind in ("W", "U") and (told := self._what_is_marked()):  # "repeat what's in the brackets", "repeat the part between the stars"
                self.i = told
            elif kind in ("STEP",) or kind == "NUM" and k[self.i + 1] == "STN" and k[self.i - 1] == "THIS":
                self.i += 1
            elif kind == "IN" and k[self.i + 1] in ("W", "U") and k[self.i - 1] in ("STEP", "REP"):
                self.i += 2
            else:
                return to

    def _what_is_marked(self, at: int = 0) -> int:
        """Index after "what's in the brackets", "the part inside the parentheses", "everything in brackets"; 0 where other words come."""
        k, at = self.k, at or self.i
        start = at
        while k[at] in ("W", "U", "STEP", "THIS", "ALL", "OF", "MADE", "HAVE") and at < start + 3:
            at += 1
        if k[at] not in ("IN", "BETWEEN"):
            return 0
        at += 1
        while k[at] in ("THIS", "SQUARE", "W", "U") and not self._word(at).startswith(("bracket", "parenth", "star", "aster")) and at < start + 6:
            at += 1
        return at + 1 if self._word(at).startswith(("bracket", "parenth", "aster", "stars")) else 0

    def bracket_repeat(self, frame, steps, start: int, mark: str) -> bool:
        """ "(...) repeat around", "(...) rep 10 times", "(...) rep from *" """
        k = self.k
        if k[self.i + 1] in ("FROM", "MARK") and self.open_marks or self.open_marks and not any(kind == "REP" for kind in k[self.i + 1:]):
            frame.bracket = (len(frame.steps), len(frame.steps) + len(steps))
            frame.steps.extend(steps)
            return True
        self._from_to()
        times, sense, extent, place = self.how_often("total")
        steps = self.in_spaces(steps)
        if times is None and extent is None and place is not None and self.each_has_place(steps):
            extent, place = place.extent or Extent(), None
        if times is None and extent is None and place is not None:
            frame.steps.append(Group(steps, place, span=self.span(start)))
            return True
        if times is None and extent is None:
            extent = Extent()
        return self.put_repeat(frame, Repeat(steps, times, sense if times is not None else "total", extent if times is None else None, mark=mark), start)

    # ------------------------------------------------------------ what is said after it

    def put_repeat(self, frame, step: Repeat, start: int) -> bool:
        step.span = self.span(start)
        frame.steps.append(step)
        self.moved = True
        self.repeat_tail(frame, step)
        step.span = self.span(start)
        if self.k[self.i] == "ALL" and self.k[self.i + 1] == "IN":  # "*3 tr, 3 ch; rep from * twice all into the ring"
            self.act_all_in(frame)
        return True

    # ------------------------------------------------------------ a repeat clause after other steps

    def _last_steps(self, frame) -> bool:
        """ "repeat last 2 steps around", "repeat the last two sts to end": so many of the steps before; False with nothing read where it is none."""
        k, start = self.k, self.i
        at = start + 1 + (k[start + 1] == "THIS")
        if k[at] not in ("LAST", "PREVIOUS", "FIRST") or k[at + 1] != "NUM" or not (k[at + 2] in ("STN", "STEP") or self._word(at + 2) in ("steps", "parts", "instructions")):
            return False
        number = self.v[at + 1]
        first = next((index for index in range(len(frame.steps), -1, -1) if sum(type(step) is not Note for step in frame.steps[index:]) == number), -1)
        if first < 0 or k[at] == "FIRST" and first:
            return False
        self.i = at + 3
        times, sense, extent, _ = self.how_often("total")
        steps = frame.steps[first:]
        if any(type(step) not in (Stitch, Group, Chain, Skip, Note) for step in steps):
            self.i = start
            return False
        if times is not None:
            sense = "more"  # what stands there is worked, and then so often again
        del frame.steps[first:]
        return self.put_repeat(frame, Repeat(steps, times, sense, extent or Extent() if times is None else None, mark="*"), start)

    def _from_hook_on(self) -> bool:
        """ "ch 21, from the 2nd loop from the hook 20 sc": where the stitches after it begin."""
        start = self.i
        self.i += 1
        place = self.target()
        if place is not None and place.which == "from hook":
            self.context = place
            return True
        self.i = start
        return False

    def act_repeat(self, frame) -> bool:
        """ "rep from * ..." where no mark is open, "Repeat around.", "repeat this into each space"."""
        k, start = self.k, self.i
        if k[start] == "FROM" and k[start + 1] != "MARK":
            return k[start + 1] == "ORD" and not self.moved and self._from_hook_on()
        nxt = k[start + 1]
        if nxt in ("ROW", "ROUND", "PREVIOUS", "ORD") or nxt == "THIS" and k[start + 2] in ("ROW", "ROUND"):
            return False
        if self.act_other_sides(frame) or k[start] == "REP" and self.repeat_ahead(frame):
            return True
        if self._last_steps(frame):
            return True
        marked = "MARK" in k[start:start + 3]
        star = frame.star or self.stars.get(self._mark_named() or "*")
        this = k[start + 1] == "THIS"
        self._from_to()
        times, sense, extent, place = self.how_often("unclear" if marked else "total")
        if place is not None and times is None and extent is None:
            last = self.last_step(frame)
            if type(last) is Group or type(last) is Stitch:
                step = copy(last)
                step.place, step.span = place, self.span(start)
                frame.steps.append(step)
                return True
        if times is None and extent is None:
            extent = Extent(span=self.span(start))
        if marked and star is not None:
            return self._star_again(frame, star, times, sense, extent, start)
        if frame.bracket is not None and frame.bracket[1] == len(frame.steps):
            first = frame.bracket[0]
            steps = frame.steps[first:]
            if len(steps) == 1 and type(steps[0]) is Group and steps[0].place is None:
                if self.context is None or not any(type(one) is Stitch and one.kind == "slst" for one in steps[0].steps):
                    steps = steps[0].steps
            del frame.steps[first:]
            return self.put_repeat(frame, Repeat(steps, times, sense if times is not None else "total", extent if times is None else None, mark="("), start)
        return self.bare_repeat(frame, start, times, sense if times is not None else "total", extent if times is None else None, this=this)

    def _star_again(self, frame, steps: list, times, sense, extent, start: int) -> bool:
        """ "... repeat from * to * for next 2 blocks" after the steps between the marks and perhaps others."""
        count = len(steps)
        if frame.steps[-count:] and len(frame.steps) >= count and all(a is b for a, b in zip(frame.steps[-count:], steps, strict=False)):
            del frame.steps[-count:]
            return self.put_repeat(frame, Repeat(steps, times, sense if times is not None else "total", extent if times is None else None, mark="*"), start)
        if times == 1:
            frame.steps.extend(copy(step) for step in steps)
            return True
        step = Repeat(list(steps), times, "total", extent if times is None else None, mark="*")
        return self.put_repeat(frame, step, start)
