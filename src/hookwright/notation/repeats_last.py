"""How the last pass of a repeat is said to differ: "on last rep work only 1 dc", "(2 dc in last st)", "replacing last shell with 3 dc"."""

from copy import copy

from .tree import Group, Repeat, Stitch

_LEADS = frozenset((",", ";", ":", "WORKING", "CONTINUE", "ENDING", "WITH", "HAVE", "DASH"))
_OMITTED = frozenset(("omit", "excl", "leav", "skip", "miss", "drop"))


def drop_what_was(tokens) -> list[int]:
    """Takes "(instead of 3)", "(not 3)", "rather than 3 dc" out of "2 dc (instead of 3) in last st": what it would have been is no step.

    tokens: those of a row, changed in place; a number is only dropped right after a stitch and before its place or a mark. Gives where each was.
    """
    kinds, dropped = tokens.kinds, []
    at = 1
    while at < len(kinds):
        if kinds[at] in ("INSTEAD", "NOT") and (found := _what_was(kinds, at)):
            first, after = found
            dropped.append(tokens.ends[first - 1])
            for column in (kinds, tokens.values, tokens.starts, tokens.ends):
                del column[first:after]
            at = first
        at += 1
    return dropped


def say_repeat(tokens) -> None:
    """Puts the word in front of a bare "*-* 2 times more", "*to* twice", which is a repeat of what stands between the marks."""
    kinds, at = tokens.kinds, 1
    while at < len(kinds) - 3:
        if kinds[at] == "MARK" and kinds[at + 1] in ("HY", "DASH", "TO") and kinds[at + 2] == "MARK" and kinds[at + 3] in ("NUM", "TIMESN", "X", "MORE", "AROUND", "ACROSS", "TOEND") and kinds[at - 1] in (",", ";", ".", ":", "AND"):
            start = tokens.starts[at]
            for column, value in ((kinds, "REP"), (tokens.values, None), (tokens.starts, start), (tokens.ends, start)):
                column.insert(at, value)
            at += 3
        at += 1


def _what_was(kinds, at: int):
    """Tokens [first, after) of what a stitch stands instead of, or None."""
    bracket = kinds[at - 1] in ("(", "[")
    first = at - bracket
    comma = not bracket and kinds[at] == "NOT" and kinds[first - 1] == ","
    first -= comma
    after = at + 1 + (kinds[at + 1] == "OF")
    if kinds[after] != "NUM" or first < 1 or kinds[first - 1] not in ("ST", "OWN", "CH", "NUM"):
        return None
    if not bracket and not comma and kinds[at] == "NOT":
        return None
    after += 1
    if kinds[after] in ("ST", "OWN", "STN"):
        after += 1
    if bracket:
        if kinds[after] not in (")", "]"):
            return None
        after += 1
    elif comma and kinds[after] == ",":
        after += 1
    if kinds[after] not in ("IN", "AT", ",", ".", ";", ")", "]", "TURN", "END"):
        return None
    return first, after


class LastPassReading:
    """Reads clauses after a repeat that tell its last pass."""

    def last_pass(self, frame, step: Repeat, at: int) -> bool:
        """The clause at token `at`, if it is of the last pass: read into `step`. False with nothing read where it is none."""
        k, start = self.k, self.i
        close = self.match[at] if k[at] in ("(", "[") else -1
        inside = at + 1 if close > at else at
        begin = self._past_last_pass(inside)
        named = begin > inside
        if k[begin] == "BUT" and (close > at or k[begin + 1] in ("WITH", "WORKING", "IN")):
            begin += 1
            begin = self._past_last_pass(begin)
            named = named or begin > inside + 1
        while named and k[begin] in _LEADS:
            begin += 1
        self.i = begin
        done = False
        if named and k[begin] == "AT" and k[begin + 1] == "MARK":  # "last time ending at **"
            self.i, step.partial, done = begin + 2, "last", True
        elif self._word(begin)[:4] in _OMITTED or self._word(begin) == "without" or k[begin] in ("NOT", "BUT") and k[begin + 1] == "SKIP":
            if named or self._of_last_pass(begin, close):
                self.i += k[begin] in ("NOT", "BUT")
                done = self._omitting(step)
        elif k[begin] == "W" and self._word(begin) == "no" and k[begin + 1] in ("CH", "NUM", "ST") and "LAST" in k[begin:self._clause_end(begin, close)]:
            done = self._omitting(step)  # "no ch 1 after last dc"
        elif self._word(begin) in ("replacing", "substituting", "replace", "substitute"):
            done = self._replacing(frame, step)
        elif named:
            done = self._ending_steps(frame, step, "with")
        elif k[begin] in ("WITH", "BUT", "WORKING", "NUM", "ST", "OWN") and (close > at or k[begin] in ("WITH", "BUT") or k[begin] == "NUM" and self._only_so_many(begin)) and self._in_last(begin, close):
            self.i += k[begin] in ("WITH", "BUT", "WORKING")
            self.i += k[self.i] == "WORKING"
            done = self._ending_steps(frame, step, "with")
        if not done:
            self.i = start
            return False
        if close > at and self.i <= close:
            self.i = close + 1
        return True

    def _past_last_pass(self, at: int) -> int:
        """Past "on the last repeat", "for final rep", "at end of last rep", "last time"; `at` itself where it is not said."""
        k, here = self.k, at
        while k[here] in ("IN", "FOR", "AT", "OF", "DURING", "ENDING", "AND", "THIS", "TO"):
            here += 1
        if k[here] == "LAST" and k[here + 1] in ("REP", "TIMES") and k[here + 2] not in ("FROM",):
            return here + 2
        if k[here] == "LAST" and k[here + 1] == "NUM" and self.v[here + 1] == 1 and k[here + 3] == "MARK":  # "finishing the last one at **"
            return here + 2
        return at

    def _of_last_pass(self, at: int, close: int) -> bool:
        """Whether the clause at `at` names the last pass, or what is last where the word (omit, leave out) can't be said of places."""
        if self._word(at)[:4] in ("skip", "miss"):
            return self.last_pass_ahead(at) != self.limit
        return "LAST" in self.k[at:self._clause_end(at, close)]

    def _clause_end(self, at: int, close: int) -> int:
        end = at
        while self.k[end] not in (",", ".", ";", "END", "MARK", "TURN", "JOIN") and end != close:
            end += 1
        return end

    def _in_last(self, at: int, close: int) -> bool:
        """Whether the clause is one stitch (or few) into the last place: "with only 2 dc in last st"."""
        k, end = self.k, self._clause_end(at, close)
        here = at + (k[at] in ("WITH", "BUT", "WORKING"))
        here += k[here] == "WORKING"
        here += k[here] == "NUM"
        if k[here] not in ("ST", "OWN"):
            return False
        here += 1
        if k[here] != "IN" or k[here + 1] != "LAST" or k[here + 2] == "NUM":
            return False
        return "LAST" in k[here:end]

    def what_last_is(self, at: int) -> int:
        """Where the steps begin that stand for the last stitch: "but the very last dc is a ss in first dc", "working a ss in first dc instead of the last dc"; 0 for none."""
        k, here = self.k, at
        if k[at] in ("ST", "WORKING"):
            end = self._clause_end(at, -1)
            where = k.index("INSTEAD", at, end) if "INSTEAD" in k[at:end] else 0
            return at + (k[at] == "WORKING") if where and k[where + 1] == "LAST" and k[where + 2] in ("ST", "STN", "OWN") else 0
        while k[here] in ("BUT", "THIS", "WORKING", "MADE", ",") and here < at + 4:
            here += 1
        if k[here] != "LAST" or k[here + 1] not in ("ST", "STN", "OWN"):
            return 0
        here = after = here + 2
        while k[here] in ("W", "COUNT", "ASFOLLOWS", "REMARK", "REPLACE", "FORM", "WITH", "AS", "MADE") and here < after + 4:
            here += 1
        at = here + (k[here] == "NUM")
        return here if k[at] in ("ST", "JOIN") and (here > after or self.v[at] == "slst") and k[at + 1] in ("IN", "TO") else 0

    def past_instead(self) -> None:
        """Past "instead of the last dc"."""
        if self.k[self.i] == "INSTEAD":
            self.i += 1
            while self.k[self.i] in ("LAST", "ST", "STN", "OWN", "OF", "THIS"):
                self.i += 1

    def _only_so_many(self, at: int) -> bool:
        """Whether "only", "just", words of no weight, stand before the number at `at`."""
        words = self.text[self.e[at - 1]:self.s[at]].lower()
        return "only" in words or "just" in words

    def only_in_last(self, step: Repeat, at: int) -> bool:
        """ "rep from * across, but in the very last st only 2 dc": the place before what ends the last pass; False with nothing read where it is none."""
        k, start = self.k, self.i
        close = self.match[at] if k[at] == "(" else -1
        at += close > at
        but = k[at] == "BUT"
        self.i = at + but
        if step.times is not None or step.extent is not None and step.extent.kind != "end" or k[self.i] not in ("IN", "LAST"):
            self.i = start
            return False
        place = self.place(to=True) if k[self.i] == "IN" else self.target()
        here = self.i
        while k[here] in ("W", "U", "YOU", ",", "HAVE", "BUT"):
            here += 1
        number = self.v[here] if k[here] == "NUM" else 1
        stitch = here + (k[here] == "NUM")
        if place is None or place.which != "last" or k[stitch] != "ST" or not isinstance(self.v[stitch], str) or k[stitch + 1] not in (",", ".", ";", "END", "TURN", "(", "[", "AND", ")", "]", "JOIN", "INSTEAD") or not (
            but or "only" in (told := self.text[self.s[at]:self.s[stitch]].lower()) or "just" in told
        ):
            self.i = start
            return False
        self.i = stitch + 1 + (close == stitch + 1)
        step.ending, step.ending_word = [Stitch(self.v[stitch], number, place, span=self.span(at))], "with"
        return True

    def last_pass_ahead(self, at: int) -> int:
        """Where in the clause at `at` the last pass is named after what is done in it ("in last st of final rep"); the reader's limit if nowhere."""
        end = self._clause_end(at, -1)
        for here in range(at + 1, end):
            if self.k[here] in ("IN", "FOR", "AT", "OF", "DURING") and self._past_last_pass(here) > here:
                return here
        return self.limit

    def past_last_pass_named(self) -> None:
        """Past the pass named after what is done in it."""
        after = self._past_last_pass(self.i)
        if after > self.i:
            self.i = after

    def _replacing(self, frame, step: Repeat) -> bool:
        """ "replacing last 3 dc with 2 dc": the ending stands for the last step."""
        k, start = self.k, self.i
        at = start + 1
        while k[at] in ("LAST", "NUM", "ST", "OWN", "CH", "SP", "HY", "STN", "GROUP", "THIS", "OF", "REP", "IN"):
            at += 1
        if k[at] != "WITH" or "LAST" not in k[start:at]:
            return False
        self.i = at + 1
        return self._ending_steps(frame, step, "instead")

    def place_of_replaced(self, step: Repeat, steps: list) -> None:
        """ "ending with 2 dc instead of 3": they go where the ones they stand for would have gone."""
        last = steps[-1]
        if type(last) is not Stitch or last.place is not None:
            return
        was = next((one for one in reversed(step.steps) if type(one) is Stitch and one.kind == last.kind or type(one) is Group), None)
        if was is not None and was.place is not None and was.place.n == 1 and was.place.extent is None:
            last.place = copy(was.place)
