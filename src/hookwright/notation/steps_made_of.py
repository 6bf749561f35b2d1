"""Groups named and told in one: "shell (5 dc) in next st", "V-st of (dc, ch 1, dc) in next sp", "half shell (3 dc in last st)"."""

from .nouns import GROUP_KINDS
from .steps_frame import Frame
from .stitch_words import Named
from .tree import Chain, Group, Note, Stitch

_MEANS = frozenset(("means", "is", "equals", "are", "mean"))
_STEP_WORDS = frozenset(("NUM", "ST", "OWN", "CH", ",", "AND", "HY", "SP", "STN", "IN", "SAME", "NEXT", "LAST", "FIRST", "EACH", "(", ")", "[", "]", "=", "THIS", "ALL", "W", "+", "/"))

_CLOSED = frozenset(("JOIN", "TOG", "W", "U", "IN", "NEXT", "SAME", "STN", "AS", "MADE", "ALL", "WORKOFF", ",", ".", "AT", "TOP", "THIS", "SP"))  # how legs are closed, and where
_UNCLOSED = ("unfinished", "incomplete", "unclosed", "open", "partial", "part-worked")


class MadeOfReading:
    """Reads what a named group is made of where it stands beside its name."""

    def meaning_told(self, frame) -> bool:
        """ "So an inc means 2 hdc in the same stitch. (hdc x 21, inc) x 5": what a word of the row means is told in a sentence, not worked."""
        k, start = self.k, self.i
        if k[start + 1] == "=" and frame.ended and frame.steps and not self.depth and self.v[start] not in ("inc", "dec", "invdec"):
            return self._stands_for(frame, start)
        if self.v[start] not in ("inc", "dec", "invdec") or self.depth or self.open_marks or k[start + 1] != "=" and self._word(start + 1) not in _MEANS:
            return False
        if start and k[start - 1] not in (".", ":", "W", "U", ",", "REMARK"):
            return False
        stop = start + 2
        while k[stop] not in (".", "END", "(", "[", "MARK", ":"):
            stop += 1
        told = "ST" in k[start + 2:stop] and k[start + 2] in ("NUM", "ST", "W", "WORKING")
        work = {"ST", "CH"}.intersection(k[stop:])
        if not told or k[stop] not in (".", "END") or (k[start + 1] == "=" or start and k[start - 1] == ",") and not (work and all(type(step) in (Chain, Note) for step in frame.steps)) or not work and not frame.steps:
            return False
        self.i = stop
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span, ".", k[stop] == "."))
        return True

    def _stands_for(self, frame, start: int) -> bool:
        """ "..., dc in last sc. Cl = dc3tog in one sp.": what a name stands for, told in a sentence after the steps; "sc = 24" counts."""
        k = self.k
        if k[start + 2] == "NUM" and k[start + 3] in ("END", ".", ")", ","):
            return False
        while k[self.i] != "END" and not (k[self.i] == "." and self._ends_sentence()):
            self.i += 1
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def names_a_group(self, at: int) -> bool:
        """Whether token `at` names stitches worked into one place, which count one by one."""
        value = self.v[at]
        if self.k[at] == "OWN":
            return bool(value.group)
        return self.k[at] == "ST" and (value in GROUP_KINDS or isinstance(value, Named) and value.kind in GROUP_KINDS)

    def legs_in_brackets(self, value: str):
        """ "bobble (5 dc)", "cluster (3 tr closed together)", "puff (4 hdc tog in one st)": the stitch with its legs; `value` with nothing read where they are not told."""
        k, start = self.k, self.i
        close, at = self.match[start], start + 1
        while k[at] in ("=", "W", "THIS", ":", "MADE", "OF") and at < close:
            at += 1
        first = at + 1 + (k[at] == "NUM" and self._word(at + 1) in _UNCLOSED)
        legs, base, told = (self.v[at], self.v[first], first + 1) if k[at] == "NUM" and k[first] == "ST" else (None, self.v[at], at + 1)
        if at >= close or k[told - 1] != "ST" or not all(k[here] in _CLOSED or k[here] == "NUM" and self.v[here] == 1 for here in range(told, close)):
            return value
        if isinstance(base, Named) and legs is None and base.legs:
            legs, base = base.legs, base.base
        fact = self.lexicon.fact(base) if isinstance(base, str) else None
        if fact is not None and fact.kind == "decrease" and legs is None:  # "bobble (5 dc tog)"
            legs, base = fact.legs, fact.base
        if fact is None and not isinstance(base, str) or legs is None or close > told and fact is not None and fact.kind not in ("basic", "extended", "decrease"):
            return value
        self.i = close + 1
        return Named(value, legs, base)

    def made_of(self, name: str):
        """The group told after its name, which has just been read, with its place where that is told too; None with nothing read."""
        k, start = self.k, self.i
        at = start + (k[start] in ("OF", "=", ":", ",") and k[start + 1] in ("(", "["))
        close = self.match[at] if k[at] in ("(", "[") else -1
        if close > at:
            group = self._told_in_brackets(at, close, name)
        elif k[start] == "OF" and k[start + 1] == "NUM" and k[start + 2] == "ST" and isinstance(self.v[start + 2], str):
            group = Group(self._listed(start + 1), name=name)
        else:
            group = None
        if group is None:
            self.i = start
        return group

    def _listed(self, at: int) -> list:
        """The stitches of "of 1 hdc, 1 dc and 1 hdc in next sp" at token `at`, all of them where a place follows; else the first."""
        k, steps, after = self.k, [], at
        while k[at:at + 2] == ["NUM", "ST"] and isinstance(self.v[at + 1], str):
            steps.append(Stitch(self.v[at + 1], self.v[at]))
            at += 2
            after = after if len(steps) > 1 else at
            while k[at] in (",", "AND", "+") and k[at + 1] in ("NUM", "AND"):
                at += 1
        if k[at] in ("IN", "ALL"):
            self.i = at
            return steps
        self.i = after
        return steps[:1]

    def told_of_last(self, frame, start: int, close: int) -> bool:
        """ "fan in next sp (fan = 1 hdc, 1 dc, 1 hdc)": what the group just worked is made of; the bracket opens at `start`."""
        last = self.last_step(frame)
        if type(last) is not Group or not last.name:
            return False
        group = self._told_in_brackets(start + 1, close, last.name)
        if group is None:
            return False
        last.steps = group.steps
        self.named = {**(self.named or {}), last.name: group.steps}
        return True

    def _told_in_brackets(self, at: int, close: int, name: str):
        k = self.k
        if not _STEP_WORDS.issuperset(k[at + 1:close]) or "ST" not in k[at + 1:close] or self._gloss_ahead_at(at):
            return None
        if k[at + 1] == "NUM" and k[at + 2] == "ST" and close == at + 3 and k[close + 1] not in ("IN", "OVER", "AROUND", "EACH", "BETWEEN", "NEXT", "ALL"):
            return None  # what the shell is, told before a count or the end: no place follows, so it may be a count
        if k[close + 1] == "NUM" and k[close + 2] in ("TIMES", "MORE") or k[close + 1] in ("TIMESN", "X", "REP"):
            return None
        inner, findings = Frame(), len(self.read.findings)
        self.i = at + 1 + (k[at + 1] == "=")
        self.depth += 1
        marks, self.open_marks = self.open_marks, []
        limit, self.limit = self.limit, close
        self.sequence(inner, ())
        self.open_marks, self.limit = marks, limit
        self.depth -= 1
        steps, place = inner.steps, None
        if len(steps) == 1 and type(steps[0]) is Group:  # "shell ((2 dc, ch 2, 2 dc) in next sp)"
            steps, place = steps[0].steps, steps[0].place
        if not steps or any(type(step) not in (Stitch, Chain) for step in steps) or not any(type(step) is Stitch for step in steps):
            del self.read.findings[findings:]
            return None
        places = [step.place for step in steps if type(step) is Stitch and step.place is not None]
        if any(found.extent is not None or found.n != 1 and found.which != "same" for found in places) or len({(found.which, found.of) for found in places if found.which != "same"}) > 1:
            return None
        place = place or next((found for found in places if found.which != "same"), None)
        for step in steps:
            if type(step) is Stitch:
                step.place = None
        self.i = close + 1
        return Group(steps, None if k[self.i] in ("IN", "OVER", "AROUND", "BETWEEN") else place, name=name)

    def _gloss_ahead_at(self, at: int) -> bool:
        keep, self.i = self.i, at
        found = self._gloss_ahead()
        self.i = keep
        return found
