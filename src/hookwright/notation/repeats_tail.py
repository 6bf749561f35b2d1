"""What is said after a repeat: "ending last rep at **", "ending with dc in last st", "and from * to ** again", "omitting last ch 2"."""

from copy import copy
from dataclasses import replace

from .repeats_last import LastPassReading
from .steps_frame import Frame
from .tree import Chain, Either, Join, Note, Repeat, Skip, Stitch, Turn

_ENDS_OF_CLAUSE = (".", ";", ":", "TURN", "JOIN", "FASTEN", "DONOTJOIN", "DONOTTURN", ")", "]", "}", "DONOTFASTEN", "YOU", "DASH", "=")


def less_by(step, less):
    """The step with so many stitches less; None where it has no more than those, or is no plain stretch."""
    if type(step) is not Stitch or not isinstance(less, int):
        return None
    if step.place is None:
        return replace(step, n=step.n - less) if isinstance(step.n, int) and step.n > less else None
    if step.place.n == 1 and step.place.extent is None and isinstance(step.n, int) and step.n > less:
        return replace(step, n=step.n - less)
    if step.n != 1 or not isinstance(step.place.n, int) or step.place.n <= less:
        return None
    return replace(step, place=replace(step.place, n=step.place.n - less))


class RepeatTailReading(LastPassReading):
    """Reads the ends of repeats."""

    def repeat_tail(self, frame, step: Repeat) -> None:
        """ "ending last rep at **", "ending with dc in last st", "and from * to ** again", "working dc2tog in last 2"."""
        k = self.k
        while True:
            start = self.i
            at = start
            while k[at] in (",", ";", "AND", ".") and at - start < 2:
                at += 1
            kind = k[at]
            if kind in ("WORKING", "PLACING") and k[at + 1] == "LAST" and self.last_one(frame, at + 1, step):
                continue  # "putting your last sc in the ch-2 space"
            if kind in ("SKIP", "BUT") and step.ending is None and self._skips_less(step, at):
                continue
            if kind == "(" and k[at + 1] == "ENDING":
                at += 1
                kind = "ENDING"
            if kind == "ENDING":
                if step.times is not None and step.mark in ("(", "[") and k[at + 1] == "WITH":
                    self.i = start  # "(inc, sc 1) x 3 and finish with sc 10": what comes next
                    return
                if not self._of_last_pass_named(at):
                    if step.extent is not None and step.extent.kind == "last":
                        self.i = start  # "rep from * to last 3 sts, ending with sc in last 3 sts": what comes next
                        return
                    if step.times is not None and frame.steps and frame.steps[-1] is step:
                        self.i = at
                        if self._ended_or_followed(frame, step):
                            return
                self.i = at
                if self._ending(frame, step):
                    continue
            elif kind == "WORKING" and k[at + 1] in ("ST", "NUM", "OWN") and step.ending is None:
                self.i = at + 1
                if self._ending_steps(frame, step, "in"):
                    continue
            elif kind == "LAST" and k[at + 1] in ("ST", "OWN") and k[at + 2] in ("IN", "MADE") and step.ending is None and step.times is None and at > start:
                self.i = at + 1  # "..., last dc in turning chain": where the last of the repeat goes
                if self._ending_steps(frame, step, "in"):
                    continue
            elif kind in ("WITH", "LAST") and step.ending is None and step.times is None and at > start and (self._last_going_in(step, at) or kind == "LAST" and self.only_in_last(step, at)):
                continue
            elif kind in ("FROM", "REP") and step.partial != "again":
                self.i = at
                if self._again_to_stop(step):
                    continue
            elif kind == "SKIP" and self._word(at)[:4] in ("omit", "excl"):
                self.i = at
                if self._omitting(step):
                    continue
            elif kind in ("BUT", "NOT") and (k[at + 1] == "SKIP" or kind == "NOT" and k[at + 1] == "LAST" or k[at + 1] == "NOT" and k[at + 2] == "LAST"):
                self.i = at + (k[at + 1] in ("SKIP", "NOT"))  # "but leave out the last shell", "do not work the last shell"
                if self._omitting(step):
                    continue
            elif kind in ("BUT", "LAST", "ST", "WORKING") and step.ending is None and step.partial == "" and (told := self.what_last_is(at)):
                self.i = told
                if self._ending_steps(frame, step, "instead"):
                    self.past_instead()
                    continue
            elif "LAST" in k[at:at + 3] and kind in ("IN", "BUT", "(") and step.ending is None and self.only_in_last(step, at):
                continue
            elif kind == "BUT" and k[at - 1] != "END":
                self.i = at
                if self._instead(step):
                    continue
            elif kind == "JOIN" and step.ending is None and step.partial == "" and self.last_pass_ahead(at + 1) != self.limit:  # "joining with sl st in first sc at end of last rep"
                self.i = at
                if self._ending_steps(frame, step, "instead"):
                    return
            elif kind == "AT" and k[at + 1] == "MARK":  # "rep from * around, at **"
                self.i = at + 2
                step.partial = "last"
                continue
            if step.ending is None and step.partial == "" and self.last_pass(frame, step, at):
                continue
            self.i = start
            return

    def _skips_less(self, step: Repeat, at: int) -> bool:
        """ "rep from * across, only skip 1 at the end": the last pass ends on a shorter skip than the others."""
        k, here = self.k, at + (self.k[at] == "BUT")
        last = step.steps[-1] if step.steps else None
        if type(last) is not Skip or k[here] != "SKIP" or k[here + 1] != "NUM" or not isinstance(last.place.n, int) or not isinstance(self.v[here + 1], int) or self.v[here + 1] >= last.place.n:
            return False
        number, here = self.v[here + 1], here + 2
        here += k[here] in ("STN", "ST")
        after = self._past_last_pass(here)
        if after == here and k[here] in ("AT", "IN"):
            here += 1 + (k[here + 1] == "W")
            after = here + (k[here] == "ENDING")
        if after == here:
            return False
        after = self._past_last_pass(after + (k[after] == "OF")) if k[after] == "OF" else after
        self.i = after
        step.stop, step.partial, step.ending, step.ending_word = len(step.steps) - 1, "last", [Skip(replace(last.place, n=number), span=self.span(at))], "with"
        return True

    def _of_last_pass_named(self, at: int) -> bool:
        """Whether "ending ..." at `at` names the pass it ends ("ending last rep with", "ending at **")."""
        if self._past_last_pass(at) > at:
            return True
        end = self._clause_end(at + 1, -1)
        return self.k[end] == "MARK" or self.last_pass_ahead(at) != self.limit

    def _ended_or_followed(self, frame, step: Repeat) -> bool:
        """ "rep from * 4 more times, ending with 3 sc": these come after so many passes, or end the last of them."""
        start, before = self.i, len(frame.steps)
        ended = copy(step)
        if not self._ending(frame, ended) or ended.ending is None or ended.ending_word != "with":
            self.i = start
            del frame.steps[before:]
            return False
        span = ended.span
        why = "what the repeat ends with may come after so many passes, or be the end of the last of them"
        frame.steps[before - 1] = Either([[step, *ended.ending], [ended]], why, span)
        return True

    def _ending(self, frame, step: Repeat) -> bool:
        """After the word "ending"."""
        k = self.k
        self.i += 1
        while k[self.i] in ("LAST", "REP", "ROW", "ROUND", "AROUND", "TIMES", "THIS", "W", "EACH", "SIDE"):
            if k[self.i] == "LAST" and k[self.i + 1] not in ("REP", "TIMES", "ROW", "ROUND", "AROUND", "W") or k[self.i] == "W" and self._word(self.i) == "without":
                break
            self.i += 1
        self.i = max(self.i, self._past_last_pass(self.i))
        if k[self.i] == "W" and self._word(self.i) == "without" or k[self.i] == "WITH" and k[self.i + 1] == "W" and self._word(self.i + 1) == "no" or k[self.i] in ("BUT", "SKIP"):
            at = self.i
            self.i += k[at] == "WITH"
            if self._omitting(step):  # "ending last rep without a shell"
                return True
            self.i = at
        if self._word(self.i) == "before" and k[self.i + 1] in ("LAST", "CH", "ST", "OWN", "NUM"):
            return self._omitting(step)
        kind = k[self.i]
        if kind in ("AT", "IN", "TO", "WITH", "W") and k[self.i + 1] == "MARK" or kind == "MARK":
            self.i += 1 if kind == "MARK" else 2
            step.partial = "last"
            if k[self.i] == "WITH" and k[self.i + 2] in ("STN", "ST") and k[self.i + 3] in ("REM", "LEFT", "UNWORKED"):
                self.i += 4
            return True
        if kind in ("RS", "WS") or kind in ("WITH", "IN") and k[self.i + 1] in ("RS", "WS", "ROW"):
            return False
        if kind in ("WITH", "ASFOLLOWS", "IN", ":") and k[self.i + 1] not in ("NEXT", "LAST", "FIRST", "EACH", "SP", "TOP"):
            self.i += 1
        return self._ending_steps(frame, step, "with")

    def _last_going_in(self, step: Repeat, at: int) -> bool:
        """ "..., with the final dc landing in the last st", "the last dc going in the turning chain": where the last stitch of the repeat goes; False with nothing read."""
        k, start = self.k, self.i
        at += k[at] == "WITH"
        if k[at] != "LAST" or k[at + 1] not in ("ST", "STN", "NUM") or k[at + 1] == "NUM" and self.v[at + 1] != 1:
            return False
        made = next((one for one in reversed(step.steps) if type(one) is Stitch), None)
        kind = self.v[at + 1] if k[at + 1] == "ST" else getattr(made, "kind", None)
        here = at + 2
        while k[here] in ("W", "U", "MADE", "WORKING", "HAVE", "PLACING") and here < at + 6:
            here += 1
        if not isinstance(kind, str) or k[here] != "IN":
            return False
        self.i = here
        place = self.place(to=True)
        if place is None:
            self.i = start
            return False
        step.ending, step.ending_word = [Stitch(kind, 1, place, span=self.span(at))], "in"
        return True

    def _ending_steps(self, frame, step: Repeat, word: str) -> bool:
        start = self.i
        inner = Frame()
        depth = self.depth
        marks, self.open_marks = self.open_marks, []
        limit, self.limit = self.limit, self.last_pass_ahead(start + (self.k[start] == "JOIN"))
        if self.k[self.i] == "JOIN":  # "ending last rep by joining with sl st in first sc"
            self.act_join(inner)
        while True:
            self.sequence(inner, (*_ENDS_OF_CLAUSE, "INSTEAD"))
            if self.k[self.i] == "INSTEAD":  # "ending with ch 3, tr in first sc instead of last ch-7 sp"
                while self.k[self.i] not in _ENDS_OF_CLAUSE and self.k[self.i] not in (",", "END", "MARK"):
                    self.i = self.match[self.i] + 1 if self.k[self.i] in ("(", "[") and self.match[self.i] > self.i else self.i + 1
                word = "instead"
            if self.i < self.limit and (self.k[self.i] == "." and not self._ends_sentence() or self.k[self.i] == ":" and self.k[self.i + 1] != "NUM"):
                self.i += 1
                continue
            break
        self.open_marks, self.depth, self.limit = marks, depth, limit
        steps = inner.steps
        if not any(type(one) not in (Note,) for one in steps):
            self.i = start
            return False
        after = []
        if word == "with" and _closes_round(steps[-1], frame.steps):
            steps[-1] = Join(steps[-1].place, span=steps[-1].span)
        while steps and type(steps[-1]) in (Join, Turn):
            after.insert(0, steps.pop())
        if len(steps) > 1 and type(steps[-1]) is Chain and (after and type(after[0]) is Turn or self.k[self.i + (self.k[self.i] in (",", ";"))] == "TURN"):
            after.insert(0, steps.pop())  # "ending with dc in last st, ch 1, turn": the chain is the next row's
        if step.extent is not None and step.extent.kind == "place":
            for index, one in enumerate(steps):
                place = getattr(one, "place", None)
                if place is not None and place.of in ("sp", "corner", "group") and type(one) is not Skip:
                    after = steps[index:] + after
                    del steps[index:]
                    break
        if word == "instead" and len(steps) == 1 and type(steps[0]) is Stitch and steps[0].kind == "slst" and getattr(steps[0].place, "which", "") == "first":
            after, steps = [Join(steps[0].place, span=steps[0].span), *after], []  # "ending with a sl st in first sc instead of last sc"
        if steps and word == "with" and getattr(getattr(steps[0], "place", None), "extent", None) is not None and not self._of_last_pass_named(max(0, start - 2)):
            after, steps = steps + after, []  # "..., ending with sc in each st to end": what comes next
        if steps:
            if word == "instead" or any(self.s[start] < where <= self.e[self.i - 1] for where in self.replaced):
                self.place_of_replaced(step, steps)
            if len(steps) > 1 and all(getattr(one, "place", None) is not None for one in steps[-2:]) and steps[-1].place.which == "chain top" and steps[-2].place.which == "last" and steps[-2].place.of not in ("sp", "corner", "group"):
                steps[-2].place.which = "next"  # "in last st and in top of tch": the last but for the turning chain
            step.ending = steps
            step.ending_word = word
            step.span = step.span.to(steps[-1].span)
        self.past_last_pass_named()
        if not steps and after and type(after[0]) is Join and frame.steps and frame.steps[-1] is step:
            self._joined_instead(frame, step, word, any(self._past_last_pass(at) > at for at in range(max(0, start - 4), start)))
        frame.steps.extend(after)
        return True

    def _joined_instead(self, frame, step: Repeat, word: str, named: bool) -> None:
        """ "*ch 4, skip 2 sts, sc in next st; rep from * around, ending last rep with sl st in first sc": the join stands where the last stitch would."""
        last = step.steps[-1] if step.steps else None
        if type(last) is not Stitch or last.place is None or last.kind == "slst" or len(step.steps) < 2 or step.times is not None:
            return
        cut = replace(step, stop=len(step.steps) - 1, partial="last")
        if word == "instead":
            frame.steps[-1] = cut
            return
        named = named or type(step.steps[0]) is Chain  # arches: the last one is closed by the join
        why = "the join may stand in place of the last stitch of the repeat, or come after it"
        frame.steps[-1] = Either([[cut], [step]] if named else [[step], [cut]], why, step.span)

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
        while k[self.i] in ("LAST", "NUM", "CH", "ST", "STN", "OWN", "SP", "HY", "AT", "ENDING", "IN", "REP", "OF", "THIS", "TIMES", "SKIP", "SKIPPED", "NEXT"):
            self.i += 1
        kinds = k[start:self.i]
        if k[self.i] == "UNWORKED" and step.extent is not None and step.extent.kind == "last":
            self.i = start  # "rep from * to last st, leave last st unworked": what comes next
            return False
        if step.steps and ({"CH", "ST", "STN", "SP", "OWN", "SKIPPED"} & set(kinds) or "SKIP" in kinds[1:] or type(step.steps[-1]) is Skip and "LAST" in kinds):
            for index in range(len(step.steps) - 1, -1, -1):
                if type(step.steps[index]) is not Note:
                    step.stop, step.partial = index, "last"
                    less = next((self.v[at] for at in range(start, self.i) if k[at] == "NUM" and k[at + 1] in ("ST", "STN")), 1 if k[self.i - 1] != "SP" and {"LAST"} & set(kinds) and {"ST", "STN"} & set(kinds) else None)
                    kept = less_by(step.steps[index], less)
                    if kept is not None:
                        step.ending = [kept]  # "omitting 1 dc at end of last rep": one of several
                    return True
        self.i = start
        return False

    def _instead(self, step: Repeat) -> bool:
        """ "but work 3 dc instead of last ch 2", "but end with dc in top of ch-3"."""
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
                index = next((at for at in range(index, -1, -1) if type(step.steps[at]) is Chain), index)
            step.stop, step.partial = index, "last"
            return True
        self.i = start
        return False

    def act_ending(self, frame) -> bool:
        """ "ending with 2 dc in last st" where no repeat clause stands before."""
        k = self.k
        last = self.last_step(frame)
        next_comes = type(last) is Repeat and last.extent is not None and last.extent.kind == "last" and not self._of_last_pass_named(self.i)
        if type(last) is Repeat and last.ending is None and last.times is None and not next_comes:
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


def _closes_round(last, row) -> bool:
    """ "ending with 1 ss into first dc", "into 3rd of 4 ch" in a round that is called a row: to the stitch or chain with which it began itself."""
    if type(last) is not Stitch or last.kind != "slst" or last.n != 1 or last.place is None or last.place.extent is not None:
        return False
    if last.place.which == "first":
        return last.place.n == 1 and last.place.of not in ("sp", "corner", "group", "gap")
    begun = next((step for step in row[:3] if type(step) is Chain), None)
    return last.place.which == "chain top" and begun is not None and last.place.chains == begun.n
