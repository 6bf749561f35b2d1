"""The marks of a repeat: which asterisk opens one and which closes it, and what is said just after the closing one: "*...* 3 times", "*...* around", "*...* in each ch-2 sp"."""

from hookwright.ground import Span

from .steps_frame import MOST_DEPTH, Frame
from .tree import Extent, Group, Place, Repeat, Skip


def _side_and_corner(steps) -> bool:
    """Whether the steps work along a side, as far as it goes, and then into a corner."""
    places = [step.place for step in steps if getattr(step, "place", None) is not None]
    return any(place.of == "corner" for place in places) and any(place.of == "st" and place.extent is not None for place in places)


class RepeatMarkReading:
    """Reads the marks that open and close repeats."""

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
        if at == self.i + 1 and k[self.i] == "," and (k[at] in ("AROUND", "ACROSS", "TOEND", "TIMESN") or k[at] == "NUM" and k[at + 1] == "TIMES"):
            self.i = at  # "*1 dc on the next, 2 ch, skip one*, around"
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
        if k[here] in (",", ";", "DASH") and k[at] in ("TO", "UNTIL", "ACROSS", "AROUND", "TOEND"):
            self.i = at  # "*bobble, sc in 3 sts*, to last st, sc"
        extent = self.extent()
        if extent is not None:
            return self.put_repeat(frame, Repeat(steps, extent=extent, stop=stop, mark=mark), start)
        self.i = here
        if stop is not None and k[at] == "ENDING" and self._of_last_pass_named(at):  # "*..., 5 tr in next st**, 1 dc in next st*, finishing the last one at **"
            return self.put_repeat(frame, Repeat(steps, extent=Extent(), stop=stop, mark=mark), start)
        closes = self.in_round and (k[at] == "JOIN" or k[at] == "ST" and self.v[at] == "slst") and start > 0  # "ch 3, dc in next, *2 dc in next, dc in next*; join"
        if (closes or k[at] == "ENDING" and k[at + 1] in ("WITH", "ST", "NUM")) and len(steps) > 1 and not any(word in ("FROM", "REP") and other == mark for word, other in self.referred):
            return self.put_repeat(frame, Repeat(steps, extent=Extent(), stop=stop, mark=mark), start)  # "*sc in next st, dc in next st*, ending with a sc"
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
