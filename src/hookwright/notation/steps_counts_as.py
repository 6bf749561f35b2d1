"""What chains count as: "counts as dc, ch 2", "does not count as a st", "that's your first dc", "(3 sk chs count as dc)"."""

from hookwright.ground import Span

from .tree import Chain, Counts, Note, Skip, Stitch, Turn

_CHAIN_NAMES = frozenset(("NUM", "CH", "STN", "TCH", "THIS", "TURN"))
_THIS_IS = frozenset(("that's", "this is", "it's"))
ENDS_A_SAYING = frozenset((")", "]", ",", ";", ".", ":", "DASH", "END", "HERE", "TOEND", "AND"))
_IS = frozenset(("that's", "thats", "that is", "is", "it's", "this is", "there's"))


class CountsAsReading:
    """Reads what is said to count as a stitch."""

    def counts_as(self) -> Counts | None:
        """ "counts as dc, ch 2", "does not count as a st", "this counts as your first dc", "= 1 dc"; None with nothing read."""
        k, start = self.k, self.i
        counts, said = True, False
        is_at = self._that_is(start)
        if is_at:
            self.i, said = is_at, True
        else:
            self._subject()
        while True:
            kind = k[self.i]
            if kind == "NOT":
                counts = False
            elif kind == "COUNT" or kind == "=" or kind in ("FORM", "HAVE") and self.i > start and k[self.i - 1] in _CHAIN_NAMES:
                said = True  # "counts as", "the 3 skipped ch form the first dc"
            elif not counts and not said and kind in ("STN", "ST") and k[self.i - 1] == "NOT" and k[self.i + 1] in ENDS_A_SAYING:
                said = True  # "(not a st)"
                break
            elif kind == "REMARK" and not counts and not said and self._word(self.i).startswith("count"):
                said = True  # "do not count the ch-2 as a stitch"
            elif kind in ("W", "TO", "YOU", "ALWAYS", "REMARK", "GLUE", "THIS", "HERE") and self.i - start < 8 and not said:
                pass
            elif kind in ("AS", "FOR", "IN") and (said or kind != "IN" and (not counts or k[self.i + 1] in ("FIRST", "ORD", "ST"))):
                said = True
            else:
                break
            self.i += 1
        said = said or k[self.i - 1] == "NOT" and k[self.i] in ("STN", "ST") and k[self.i + 1] in (")", "]", ",", ".", ";")  # "(not a st)"
        if not said or k[start] in ("AS", "FOR") and k[start + 1] not in ("FIRST", "ORD", "ST", "STN"):
            self.i = start
            return None
        says = Counts(counts)
        self._what_counts(says)
        if k[self.i] == "TOEND" and self._word(self.i) == "throughout":
            self.i += 1
            says.onward = True
        if k[self.i] == "HERE" or k[self.i] == "," and k[self.i + 1] == "HERE" or k[self.i] == "AND" and k[self.i + 1] == "HERE":
            self.i += 1 if k[self.i] == "HERE" else 2
            says.onward = True
        if k[self.i] == "[" and self.match[self.i] > self.i and k[self.match[self.i] + 1] == ")":
            self.i = self.match[self.i] + 1
        says.span = self.span(start)
        return says

    def _plain(self, at: int) -> bool:
        """Whether the stitch at token `at` is no group that goes by a name of its own."""
        fact = self.lexicon.fact(self.v[at]) if isinstance(self.v[at], str) else None
        return fact is not None and fact.kind == "basic"

    def _this_is(self, at: int) -> bool:
        """ "that's", "which is", "this is" at token `at`."""
        return self._word(at) in _THIS_IS or self._word(at) in ("that", "which", "this") and self._word(at + 1) == "is"

    def _that_is(self, at: int) -> int:
        """Index after "that's", "which is", "it is" at token `at` where a stitch follows ("that's your first dc plus a ch 1"); 0 for none."""
        k, here = self.k, at
        while k[here] in ("THIS", "W", "YOU") and here - at < 3:
            here += 1
        here += k[here] == "REMARK" and here == at and self._word(at) == "this is"
        if here == at or not self._word(here - 1).lower().endswith(("s", "is")) or self._word(here - 1).lower() not in (*_IS, "this is"):
            return 0
        stitch = here
        while k[stitch] in ("FIRST", "ORD", "YOU") or k[stitch] == "NUM" and self.v[stitch] == 1:
            stitch += 1
        return here if k[stitch] == "ST" and self._plain(stitch) and k[stitch + 1] in (*ENDS_A_SAYING, "+", "MADE", "STN") else 0

    def _subject(self) -> None:
        """ "3 sk chs", "first 2 chs", "this", "beg ch-3", "ch 3" before "count as"."""
        k = self.k
        start = self.i
        while k[self.i] in ("NUM", "CH", "HY", "FIRST", "SKIP", "SKIPPED", "THIS", "BEG", "TCH", "YOU", "STN", "HERE", "TURN", "ORD", "ALL"):
            self.i += 1
        if k[self.i] not in ("COUNT", "NOT", "W", "ALWAYS", "TO", "=", "YOU", "FORM", "HAVE"):
            self.i = start

    def _what_counts(self, says: Counts) -> None:
        k = self.k
        if k[self.i] == "TCH" and says.counts:  # "1 skipped ch = turning ch"
            says.counts = False
            self.i += 1
            return
        while k[self.i] in ("FIRST", "THIS", "ORD", "W", "EACH", "BEG", "LAST"):
            self.i += 1
        if k[self.i] in ("CH", "SP") or k[self.i] == "NUM" and self._chain_number(self.i):
            start = self.i
            space = self.noun()
            if space is not None and space.of in ("sp", "corner") and says.counts:  # "counts as last ch-3 sp"
                says.kind, says.chains = "sp", space.chains if isinstance(space.chains, int) else 0
                return
            self.i = start
        number = None
        if k[self.i] == "NUM":
            number = self.v[self.i]
            self.i += 1
            if k[self.i] == "HY":
                self.i += 1
        if k[self.i] in ("ST", "OWN"):
            value = self.v[self.i]
            says.kind = value if isinstance(value, str) else getattr(value, "kind", None)
            self.i += 1
            while k[self.i] == "STN":
                self.i += 1
            if k[self.i] in ("(", "[") and self._gloss_ahead():
                self.i = self.match[self.i] + 1
        elif k[self.i] == "STN":
            self.i += 1
        elif k[self.i] == "CH" and number is not None:
            self.i += 1
        if number == 0:
            says.counts = False  # "(skipped 2 ch = 0 sts)"
        elif isinstance(number, int):
            says.stitches = number
        at = self.i
        if k[at] in (",", "AND", "+", "/"):
            at += 1
            if k[at] in ("AND", "+"):
                at += 1
        if k[at] in ("CH", "NUM"):
            here = at + 1
            if k[at] == "CH":
                if k[here] == "HY":
                    here += 1
                if k[here] == "NUM" and isinstance(self.v[here], int):
                    says.chains = self.v[here]
                    self.i = here + 1
                elif k[here] in ("SP", ")"):
                    says.chains = 1
                    self.i = here
            else:
                if k[here] == "HY":
                    here += 1
                if k[here] == "CH" and isinstance(self.v[at], int):
                    says.chains = self.v[at]
                    self.i = here + 1
            if k[self.i] == "HY":
                self.i += 1
            if k[self.i] == "SP":
                self.i += 1

    def act_count_verb(self, frame) -> bool:
        """ "Counts as dc." as a sentence of its own after a chain; "count 5 sts from the start" as a remark."""
        if self.k[self.i] == "THIS" and frame.steps and not self.depth and (self.k[self.i + 1] == "NUM" and self.k[self.i + 2] == "TIMES" or self.k[self.i + 1] == "TIMESN"):
            start, self.i = self.i, self.i + 1  # "*3 sc, inc*, make this 6 times"
            times, sense, _, _ = self.how_often("total")
            return self.bare_repeat(frame, start, times, sense)
        if self.k[self.i] in ("THIS", "W", "REMARK") and not self._this_is(self.i) and self.k[self.i + 1] not in ("CH", "TCH", "NUM"):
            return False  # "this chain does not count as a stitch" is one, too
        if self.k[self.i] == "COUNT" and self.k[self.i + 1] == "NUM":
            start = self.i
            while self.k[self.i] not in (",", ";", ".", "END", ")", "]", "AND", ":"):
                self.i += 1
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        if frame.steps and self.k[self.i] in ("THIS", "REMARK") and self._this_is(self.i) and self.k[self.i + 1] == "NUM" and (
            self.k[self.i + 2] in ("ROUND", "ROW", "AROUND") or self.k[self.i + 2] == "ST" and self.v[self.i + 2] in ("inc", "dec")
        ):
            return self._worked_note(frame, self.i, self.i + 3)  # "that's 6 increases", "that's 5 rounds of 18"
        says = self.counts_as()
        last = self.last_step(frame)
        if says is None and self.k[self.i] in ("THIS", "REMARK") and self.k[self.i + 1] == "NUM" and self.k[self.i + 2] in ("STN", "ST") and self._this_is(self.i):
            return self.act_count_sentence(frame)  # "That's 24 sts."
        if says is None or last is None:
            return False
        if type(last) is Turn and len(frame.steps) > 1:  # "Ch 3 and turn. Counts as dc."
            last = frame.steps[frame.steps.index(last) - 1]
        if type(last) is Chain and last.says is None:
            last.says = says
            return True
        return False

    def _foundation_says(self, node) -> bool:
        """ "(3 sk chs count as dc)" after a stitch in a chain from the hook: said of the chains skipped."""
        k, start = self.k, self.i
        place = getattr(node, "place", None)
        if place is None or k[start] not in ("(", "[") or self.match[start] < 0 or place.which not in ("from hook", "chain top"):
            return False
        self.i += 1
        says = self.counts_as()
        if says is None:
            self.i = start
            return False
        self.i = self.match[start] + 1
        place.says = says
        return True

    def says_in_brackets(self, frame, close: int) -> bool:
        """A bracket that only says what counts: of the last chain, or of the chains skipped."""
        start = self.i
        last = self.last_step(frame)
        inner = self.k[start + 1:close]
        if inner[:1] == ["COUNT"] and inner[1:2] in (["W"], [":"], [","], ["YOU"], ["THIS"]) and self._word(start + 1) == "count":
            return False  # "(count them, 34 dc)"
        if inner == ["ST"] and type(last) is Chain and last.says is None and last is frame.steps[0] and isinstance(last.n, int) and 1 < last.n < 6 and isinstance(self.v[start + 1], str) and self._plain(start + 1):
            last.says = Counts(True, self.v[start + 1], span=Span(self.s[start], self.e[close]))  # "ch 3 (dc), 4 dc in ring"
            self.i = close + 1
            return True
        if type(last) is Chain and last.says is None and 2 <= len(inner) <= 3 and inner[0] in ("FIRST", "ORD") and inner[1] == "ST" and inner[2:] in ([], ["MADE"], ["STN"]):
            kind = self.v[start + 2]
            if isinstance(kind, str) and (inner[0] == "FIRST" or self.v[start + 1] == 1):
                last.says = Counts(True, kind, span=Span(self.s[start], self.e[close]))
                self.i = close + 1
                return True
        if len(inner) == 2 and type(last) is Chain and last is frame.steps[-1] and last.says is None and set(inner) == {"NUM", "ST"} and self._follows(close) != "steps":
            stitch, number = (start + 2, start + 1) if inner[0] == "NUM" else (start + 1, start + 2)
            if self.v[number] == 1 and isinstance(self.v[stitch], str) and last.n == self._chains_for(self.v[stitch]) > 1:  # "ch 3 (dc 1)"
                last.says = Counts(True, self.v[stitch], span=Span(self.s[start], self.e[close]))
                self.i = close + 1
                return True
        if type(last) is Chain and last.says is None and inner[:1] in (["FIRST"], ["ORD"]) and inner[1:2] == ["ST"]:
            told = Counts(True, span=Span(self.s[start], self.e[close]))  # "(first dc and ch-1 sp)"
            self.i = start + 1
            self._what_counts(told)
            self.i += self.k[self.i] == "MADE"
            if self.i == close and told.kind is not None:
                last.says = told
                self.i = close + 1
                return True
            self.i = start
        self.i += 1
        says = self.counts_as()
        if says is None or self.i < close - 6 or self.k[start + 1] == "=" and (type(last) is not Chain or says.kind is None):
            self.i = start
            return False
        says.span = self.span(start)
        self.i = close + 1
        if says.counts and says.kind is not None and self.first_closed(frame, says.kind):
            made = frame.steps[-1]
            if made.place is None and self.k[self.i] == "IN":  # "ch 3, dc2tog (counts as cluster) in same sp"
                made.place = self.place()
            return True
        if self.context is not None and self.context.which == "from hook":
            self.context.says = says  # "starting in 4th ch from hook (turning chain counts as 1 tr), tr to end"
            return True
        for step in reversed(frame.steps):
            if type(step) is Stitch and says.stitches > 1 and type(step.n) is int and step.place is not None and step.place.which in ("same", "first"):
                says.stitches = max(1, says.stitches - step.n)  # "ch 3, dc in same st (counts as 2 dc)": both are
            if type(step) is Chain:
                if step.says is None:
                    step.says = says
                return True
            if type(step) is Skip:
                step.says = says
                return True
            if type(step) is Stitch and step.place is not None and step.place.which == "from hook":
                step.place.says = says
                return True
            if type(step) not in (Note, Stitch, Turn):
                break
        frame.steps.append(Note(self.text[self.e[start]:self.s[close]].strip(), says.span))
        return True
