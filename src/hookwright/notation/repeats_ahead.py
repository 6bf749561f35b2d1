"""Repeats that are said before what is repeated: "repeat (4 sc, inc) 5 times", "repeat the following 6 times: 2 sc, inc"."""

from .repeats_bare import BEGINNING
from .steps_frame import Frame
from .tree import Extent, Group, Join, Repeat, Turn

_BEGINS_A_STEP = frozenset(("ST", "OWN", "CH", "SKIP", "(", "["))
_WORKED = frozenset(("ST", "OWN", "CH"))
_NAMES = frozenset(("THIS", "W", "U", "STEP", "PATTERN", "INTHISWAY"))
_ENDS = (".", ";", "TURN", "JOIN", "FASTEN", "DONOTJOIN", "DONOTTURN", "DONOTFASTEN")


class AheadReading:
    """Reads repeats whose steps come after the word."""

    def steps_ahead(self, at: int) -> bool:
        """Whether at token `at` a bracket of steps, or a pair of marks with steps between, begins."""
        k = self.k
        if k[at] in ("(", "[", "{"):
            return self.match[at] > at + 2 and not _WORKED.isdisjoint(k[at + 1:self.match[at]])
        if k[at] != "MARK" or k[at + 1] not in _BEGINS_A_STEP and not (k[at + 1] == "NUM" and k[at + 2] in _WORKED):
            return False
        close = next((index for index in range(at + 1, len(k)) if k[index] == "MARK" and self.v[index] == self.v[at]), -1)
        return close > 0 and "REP" not in k[at:close]

    def repeat_ahead(self, frame) -> bool:
        """At "repeat": "(4 sc, inc) 5 times", "*4 sc, inc* around", "the following 6 times: ..." after it. False with nothing read where none comes."""
        start = self.i
        at = start + 1
        if not self.steps_ahead(at):
            return self.following(frame)
        self.i = at
        if self.k[at] == "MARK":
            return self.act_mark(frame)
        inner = self.inside_brackets(at, self.match[at])
        times, sense, extent, place = self.how_often("total")
        if times is None and extent is None and place is None and len(inner.steps) < 2 or not inner.steps:
            self.i = start
            return False
        if times is None and extent is None and place is not None:
            return self.put(frame, Group(inner.steps, place, span=self.span(start)))
        if sense == "more" and any(type(step) not in BEGINNING for step in frame.steps):
            sense = "total"  # "sc 4, inc; repeat (sc 4, inc) 5 more times"
        return self.put_repeat(frame, Repeat(self.in_spaces(inner.steps), times, sense, None if times is not None else extent or Extent(), mark="("), start)

    def following(self, frame) -> bool:
        """ "the following 6 times: 2 sc, inc", "repeat around: 2 sc, inc", "6 times: 2 sc, inc"; False with nothing read where it is none."""
        k, start = self.k, self.i
        if k[start] == "REP" and k[start + 1:start + 5] == ["FROM", "MARK", "TO", "MARK"]:
            self.i += 5  # "rep from * to * 6 times: *4 sc, inc*"
        else:
            self.i += k[start] == "REP"
        if k[self.i] == "NEXT" and self._word(self.i).startswith("fol"):  # no "next round:"
            self.i += 1
            while k[self.i] in _NAMES:
                self.i += 1
        elif any(type(step) not in BEGINNING for step in frame.steps):
            self.i = start
            return False
        times, sense, extent, _ = self.how_often("total")
        stated = len(self.read.stated)
        inner = Frame()
        if (times is not None or extent is not None) and k[self.i] in (":", "DASH"):
            self.i += 1
            ends = _ENDS if not self.depth else (*_ENDS, ")", "]", "}")
            self.sequence(inner, ends)
            if k[self.i] == ";" and len(inner.steps) == 1 and k[self.i + 1] not in ("JOIN", "TURN"):  # "6 times: 3 sc; inc."
                self.i += 1
                self.sequence(inner, ends)
        steps, after = inner.steps, []
        while steps and type(steps[-1]) in (Join, Turn):
            after.insert(0, steps.pop())
        if not steps:
            del self.read.stated[stated:]
            self.i = start
            return False
        self.put_repeat(frame, Repeat(steps, times, sense, extent if times is None else None), start)
        frame.steps.extend(after)
        return True
