"""Repeats gone back to: "rep from * 5 more times", "(...) rep 3 times", "repeat last 2 steps around", "Repeat around."; their marks: repeats_marks."""

from copy import copy

from .repeats_ahead import AheadReading
from .repeats_bare import BareRepeatReading
from .repeats_marks import RepeatMarkReading
from .repeats_often import OftenReading
from .repeats_tail import RepeatTailReading
from .tree import Chain, Extent, Group, Note, Repeat, Skip, Stitch, Turn


class RepeatReading(AheadReading, BareRepeatReading, RepeatTailReading, OftenReading, RepeatMarkReading):
    """Reads how repeats are gone back to: "rep from *", "repeat the last 2 steps"."""

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
        if this and times is not None and not marked and frame.steps:
            return self.this_so_often(frame, start, times, sense)
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
