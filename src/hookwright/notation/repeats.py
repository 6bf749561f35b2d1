"""Repeats: "*...; rep from * 5 more times", "*...* around", "(...) rep 3 times", "Repeat around.", "ending last rep at **"."""

from copy import copy

from hookwright.ground import Number, Span

from .repeats_bare import BareRepeatReading
from .tree import Extent, Group, Join, Note, Repeat, Skip, Stitch, Turn

_ENDS_OF_CLAUSE = (".", ";", ":", "TURN", "JOIN", "FASTEN", "DONOTJOIN", "DONOTTURN", ")", "]", "}", "DONOTFASTEN", "YOU", "DASH", "=")


class RepeatReading(BareRepeatReading):
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
        return not (nxt in ("ROW", "ROUND", "PREVIOUS") or nxt == "THIS" and k[self.i + 2] in ("ROW", "ROUND"))

    def act_mark(self, frame) -> bool:
        """An asterisk or other mark that opens a repeat (or, in pairs, a group)."""
        from .steps import MOST_DEPTH, Frame

        k, start = self.k, self.i
        mark = self.v[start]
        if self._is_bold(start):
            self.i += 1
            return True
        self.i += 1
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
        if not self.open_marks and not any(word in ("FROM", "REP") for word, _ in self.referred):
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
        while k[at] in (",", ".", ";", ":", "QC"):
            at += 1
        if k[at] == "REP" and self._repeats_this(at, mark) or k[at] == "FROM" and k[at + 1] == "MARK":
            self.i = at
            if self._clause(frame, steps, stop, mark, start) is not None:
                return True
        times = self.times_in_all()
        if times is not None:
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
                if place.which == "same" and self.context is not None and self.context.of in ("sp", "gap"):
                    place = self._context_place()
                frame.steps.append(Group(steps, place, span=self.span(start)))
                frame.star = frame.steps[-1:]
                self.moved = True
                return True
            self.i = here
        extent = self.extent()
        if extent is not None:
            return self.put_repeat(frame, Repeat(steps, extent=extent, stop=stop, mark=mark), start)
        self._put_plain(frame, steps, mark)
        return True

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
            elif kind == "(" and k[self.i + 1] == ")":
                self.i += 2
            elif kind == "THIS" and k[self.i + 1] not in ("ROW", "ROUND"):
                self.i += 1
            elif kind in ("STEP",) or kind == "NUM" and k[self.i + 1] == "STN" and k[self.i - 1] == "THIS":
                self.i += 1
            elif kind == "IN" and k[self.i + 1] in ("W", "U") and k[self.i - 1] in ("STEP", "REP"):
                self.i += 2
            else:
                return to

    def how_often(self, plain_sense: str):
        """(times, sense, extent, place) of a repeat; plain_sense is the sense of "3 times" with nothing more said."""
        k, v = self.k, self.v
        times: Number | None = None
        sense, extent, place = plain_sense, None, None
        while True:
            kind = k[self.i]
            if kind == "FOR" and k[self.i + 1] == "TOTAL":
                self.i += 1
            elif kind == "TOTAL":
                sense = "total"
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
            elif kind == "TIMESN" and times is None:
                times = v[self.i]
                self.i += 1
            elif kind == "X" and k[self.i + 1] == "NUM" and times is None:
                times = v[self.i + 1]
                self.i += 2
            elif kind == "MARK" and k[self.i + 1] == "NUM" and k[self.i + 2] not in ("ST", "CH", "OWN") and times is None and k[self.i - 1] == "REP":
                times = v[self.i + 1]
                self.i += 2
            elif kind == "TIMES" and times is not None:
                self.i += 1
            elif kind == "FOR" and k[self.i + 1] in ("NEXT", "NUM", "EACH", "OTHER", "REM", "ALL"):
                found = self._for_next()
                if found is None:
                    return times, sense, extent, place
                times, sense = found, "more"
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

    def times_in_all(self) -> Number | None:
        """ "3 times", "six times", "twice", "x 6", "x6 times", "6x" after a bracket: how often in all; None with nothing read."""
        k, v, at = self.k, self.v, self.i
        kind = k[at]
        if kind == "TIMESN":
            self.i += 1
            return v[at]
        if kind == "NUM" and k[at + 1] in ("TIMES", "X") and not (k[at + 1] == "X" and k[at + 2] in ("ST", "NUM", "CH")):
            self.i += 2
            if k[self.i] == "TOTAL":
                self.i += 1
            return v[at]
        if kind == "X" and k[at + 1] == "NUM":
            self.i += 2
            if k[self.i] == "TIMES":
                self.i += 1
            return v[at + 1]
        if kind == "FOR" and k[at + 1] == "TOTAL" and k[at + 2] == "NUM":
            self.i += 3
            if k[self.i] == "TIMES":
                self.i += 1
            return v[at + 2]
        return None

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
        return True

    def repeat_tail(self, frame, step: Repeat) -> None:
        """ "ending last rep at **", "ending with dc in last st", "and from * to ** again", "working dc2tog in last 2"."""
        k = self.k
        while True:
            start = self.i
            at = start
            while k[at] in (",", ";", "AND", ".") and at - start < 2:
                at += 1
            kind = k[at]
            if kind == "(" and k[at + 1] == "ENDING":
                at += 1
                kind = "ENDING"
            if kind == "ENDING":
                self.i = at
                if self._ending(frame, step):
                    continue
            elif kind == "WORKING" and k[at + 1] in ("ST", "NUM", "OWN") and step.ending is None:
                self.i = at + 1
                if self._ending_steps(frame, step, "in"):
                    continue
            elif kind in ("FROM", "REP") and step.partial != "again":
                self.i = at
                if self._again_to_stop(step):
                    continue
            elif kind == "SKIP" and self.text[self.s[at]:self.s[at] + 4].lower() == "omit":
                self.i = at
                if self._omitting(step):
                    continue
            elif kind == "BUT" and k[at - 1] != "END":
                self.i = at
                if self._instead(step):
                    continue
            elif kind == "AT" and k[at + 1] == "MARK":  # "rep from * around, at **"
                self.i = at + 2
                step.partial = "last"
                continue
            self.i = start
            return

    def _ending(self, frame, step: Repeat) -> bool:
        """After the word "ending"."""
        k = self.k
        self.i += 1
        while k[self.i] in ("LAST", "REP", "ROW", "ROUND", "AROUND", "TIMES", "THIS", "W", "EACH", "SIDE"):
            if k[self.i] == "LAST" and k[self.i + 1] not in ("REP", "TIMES", "ROW", "ROUND", "AROUND", "W"):
                break
            self.i += 1
        kind = k[self.i]
        if kind in ("AT", "IN", "TO", "WITH", "W") and k[self.i + 1] == "MARK" or kind == "MARK":
            self.i += 1 if kind == "MARK" else 2
            step.partial = "last"
            if k[self.i] == "WITH" and k[self.i + 2] in ("STN", "ST") and k[self.i + 3] in ("REM", "LEFT", "UNWORKED"):
                self.i += 4
            return True
        if kind in ("RS", "WS") or kind in ("WITH", "IN") and k[self.i + 1] in ("RS", "WS", "ROW"):
            return False
        if kind in ("WITH", "BY", "IN", ":") and k[self.i + 1] not in ("NEXT", "LAST", "FIRST", "EACH", "SP", "TOP"):
            self.i += 1
        return self._ending_steps(frame, step, "with")

    def _ending_steps(self, frame, step: Repeat, word: str) -> bool:
        from .steps import Frame

        start = self.i
        inner = Frame()
        depth = self.depth
        marks, self.open_marks = self.open_marks, []
        while True:
            self.sequence(inner, _ENDS_OF_CLAUSE)
            if self.k[self.i] == "." and not self._ends_sentence() or self.k[self.i] == ":" and self.k[self.i + 1] != "NUM":
                self.i += 1
                continue
            break
        self.open_marks, self.depth = marks, depth
        steps = inner.steps
        if not any(type(one) not in (Note,) for one in steps):
            self.i = start
            return False
        after = []
        while steps and type(steps[-1]) in (Join, Turn):
            after.insert(0, steps.pop())
        if step.extent is not None and step.extent.kind == "place":
            for index, one in enumerate(steps):
                place = getattr(one, "place", None)
                if place is not None and place.of in ("sp", "corner", "group") and type(one) is not Skip:
                    after = steps[index:] + after
                    del steps[index:]
                    break
        if steps:
            step.ending = steps
            step.ending_word = word
            step.span = step.span.to(steps[-1].span)
        frame.steps.extend(after)
        return True

    def _again_to_stop(self, step: Repeat) -> bool:
        """ "and from * to ** again", "then from * to ** once", "rep from * to ** once more"."""
        k, start = self.k, self.i
        if k[self.i] == "REP":
            self.i += 1
        if k[self.i] == "FROM" and k[self.i + 1] == "MARK" and k[self.i + 2] in ("TO", "HY", "DASH") and k[self.i + 3] == "MARK" and step.stop is not None:
            if len(self.v[self.i + 3]) == len(step.mark or "*") and k[start] == "REP":
                self.i = start
                return False
            self.i += 4
            while k[self.i] in ("MORE", "AGAIN") or k[self.i] == "TIMESN" and self.v[self.i] == 1:
                self.i += 1
            step.partial = "again"
            return True
        self.i = start
        return False

    def _omitting(self, step: Repeat) -> bool:
        """ "omitting last ch 2", "omit final sc on last rep"."""
        k, start = self.k, self.i
        self.i += 1
        while k[self.i] in ("LAST", "NUM", "CH", "ST", "STN", "OWN", "SP", "HY", "AT", "ENDING", "IN", "REP", "OF", "THIS", "TIMES", "SKIP", "NEXT"):
            self.i += 1
        kinds = k[start:self.i]
        if step.steps and {"CH", "ST", "STN", "SP", "OWN"} & set(kinds):
            for index in range(len(step.steps) - 1, -1, -1):
                if type(step.steps[index]) is not Note:
                    step.stop, step.partial = index, "last"
                    return True
        self.i = start
        return False

    def _instead(self, step: Repeat) -> bool:
        """ "but work 3 dc instead of last ch 2", "but end with dc in top of ch-3"."""
        from .steps import Frame

        k, start = self.k, self.i
        self.i += 1
        if k[self.i] == "ENDING":
            return self._ending(Frame(), step)
        inner = Frame()
        self.sequence(inner, (*_ENDS_OF_CLAUSE, "INSTEAD", "FOR"))
        if k[self.i] in ("INSTEAD", "FOR") and inner.steps and step.steps:
            self.i += 1
            while k[self.i] not in _ENDS_OF_CLAUSE and k[self.i] not in (",", "END", "MARK"):
                self.i += 1
            kinds = k[start:self.i]
            step.ending, step.ending_word = inner.steps, "instead"
            index = len(step.steps) - 1
            if "CH" in kinds[-3:]:
                from .tree import Chain

                index = next((at for at in range(index, -1, -1) if type(step.steps[at]) is Chain), index)
            step.stop, step.partial = index, "last"
            return True
        self.i = start
        return False

    # ------------------------------------------------------------ a repeat clause after other steps

    def act_repeat(self, frame) -> bool:
        """ "rep from * ..." where no mark is open, "Repeat around.", "repeat this into each space"."""
        k, start = self.k, self.i
        if k[start] == "FROM" and k[start + 1] != "MARK":
            return False
        nxt = k[start + 1]
        if nxt in ("ROW", "ROUND", "PREVIOUS", "ORD") or nxt == "THIS" and k[start + 2] in ("ROW", "ROUND"):
            return False
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

    def act_ending(self, frame) -> bool:
        """ "ending with 2 dc in last st" where no repeat clause stands before."""
        k = self.k
        last = self.last_step(frame)
        if type(last) is Repeat and last.ending is None and last.times is None:
            return self._ending(frame, last)
        start = self.i
        self.i += 1
        while k[self.i] in ("ROW", "ROUND", "LAST", "REP", "WITH", "IN", "BY", "THIS", "TIMES", "AROUND", "TO", "SIDE") and not (
            k[self.i] == "IN" and k[self.i + 1] in ("LAST", "TOP", "NEXT", "WS", "RS")
        ):
            self.i += 1
        if k[self.i] in ("ST", "NUM", "OWN", "CH", "(", "[", "SKIP", "IN"):
            return True
        self.i = start
        return False

