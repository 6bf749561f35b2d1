"""Chains and rings, and what is said of a chain: "ch 3 (counts as dc here and throughout)", "6ch (count as 1tr and 3ch)"."""

from hookwright.ground import Number, Span

from .tree import Chain, Counts, Group, Note, Place, Ring, Skip, Stitch, Turn

_CHAIN_NAMES = frozenset(("NUM", "CH", "STN", "TCH", "THIS", "TURN"))
_THIS_IS = frozenset(("that's", "this is", "it's"))
_ENDS_A_SAYING = frozenset((")", "]", ",", ";", ".", ":", "DASH", "END", "HERE", "TOEND", "AND"))
_IS = frozenset(("that's", "thats", "that is", "is", "it's", "this is", "there's"))
_ENDS = frozenset((",", ";", ".", ":", ")", "]", "}", "|", "END", "MARK", "AND", "TURN", "(", "[", "DASH", "QC"))


class ChainReading:
    """Reads chains, rings and what counts."""

    def act_chain(self, frame) -> bool:
        k, start = self.k, self.i
        at = start + 1
        if k[at] in ("HY", "DASH"):
            at += 1
        number: Number = 1
        told = self._multiple(at)
        if told:
            self.i, number = told
            if number is None:
                span = self.span(start)
                frame.steps.append(Note(self.text[span.start:span.end], span))
                return True
            return self._chain(frame, number, start)
        if k[at] == "OF" and k[at + 1] == "NUM":  # "a chain of 87 sts"
            at += 1
        if k[at] == "NUM":
            after = at + 1
            if k[after] == "HY":
                after += 1
            if k[after] == "SP" and self.v[after] != "group" and not (k[after - 1] == "NUM" and k[after + 1] in ("FIRST", "NEXT", "ORD", "NUM")):
                return False
            number = self.v[at]
            self.i = at + 1
            if k[self.i] == "+" and k[self.i + 1] == "NUM" and k[self.i + 2] not in ("ST", "CH", "OWN", "SP") and isinstance(number, int) and isinstance(self.v[self.i + 1], int):
                number += self.v[self.i + 1]  # "ch 15 + 1"
                self.i += 2
            while k[self.i] == "STN":
                self.i += 1
            number = self._with_turning(number)
        elif k[at] == "X" and k[at + 1] == "NUM":
            number = self.v[at + 1]
            self.i = at + 2
        elif k[start + 1] in ("SP", "HY") or k[start + 1] not in _ENDS:
            return False
        else:
            self.i = start + 1
        return self._chain(frame, number, start)

    def _with_turning(self, number: Number) -> Number:
        """ "Ch 20, plus 1 for turning", "ch 20 and 3 to turn": how many chains in all."""
        k, at = self.k, self.i
        at += k[at] == ","
        if k[at] not in ("AND", "+") or k[at + 1] != "NUM" or not isinstance(number, int) or not isinstance(self.v[at + 1], int):
            return number
        more, at = self.v[at + 1], at + 2
        at += k[at] in ("CH", "MORE")
        at += k[at] == "CH"
        if k[at] not in ("FOR", "TO", "AS") or k[at + 1] not in ("TURN", "TCH") and self._word(at + 1) != "turning":
            return number
        self.i = at + 2
        self.i += k[self.i] == "CH"
        return number + more

    def _multiple(self, at: int):
        """ "a multiple of 6 + 2 (I worked 98)": the index after it and the chains made, None where no number tells them; None where it is none."""
        k = self.k
        while k[at] in ("ANY", "EACH", "THIS", "W", "IN") and not self._word(at).startswith("mult"):
            at += 1
        if k[at] not in ("U", "W") or not self._word(at).startswith("mult"):
            return None
        at += 1
        while k[at] in ("OF", "NUM", "+", "AND", "CH", "STN", "X", "W", "U", ",") and not (k[at] == "," and k[at + 1] != "AND" and k[at + 1] != "+"):
            at += 1
        if k[at] in ("(", "[") and self.match[at] > at:
            close = self.match[at]
            numbers = [self.v[here] for here in range(at, close) if k[here] == "NUM"]
            return close + 1, numbers[-1] if numbers else None
        if k[at] in (",", ".", ";", "DASH") or k[at - 1] in (",", "W", "U"):  # "..., I chained 66", ". My sample has 66 ch"
            here = at + (k[at] in (",", ".", ";", "DASH"))
            while k[here] in ("W", "U", "YOU", "CH", "FOR", "MADE", "HAVE", "THIS", "OWN"):
                here += 1
            if k[here] == "NUM" and here > at + 1 and k[here + 1] not in ("ST", "OWN", "X", "TIMES"):
                return here + 1 + (k[here + 1] == "CH"), self.v[here]
        numbers = [self.v[here] for here in range(at, min(at + 4, len(k))) if k[here] == "NUM"] if k[at] in (":", "DASH", "=") else []
        return (at + 1 + k[at:].index("NUM"), numbers[0]) if numbers else (at, None)

    def numbered_chain(self, frame, number: Number, at: int) -> bool:
        """ "3 ch", "3ch": the chain word is at `at`."""
        k, start = self.k, self.i
        after = at + 1
        if k[after] == "." and k[after + 1] == "SP":
            after += 1
        if k[after] == "HY":
            after += 1
        if k[after] == "SP" or (k[after] == "NUM" and k[after - 1] == "HY"):
            return self.bare_count(frame)
        self.i = at + 1
        while k[self.i] == "STN":
            self.i += 1
        return self._chain(frame, number, start)

    def _chain(self, frame, number: Number, start: int) -> bool:
        k = self.k
        step = Chain(number)
        if k[self.i] == "REMARK" and self.chain_after_each(frame, step):
            return True
        if k[self.i] == "TO" and k[self.i + 1] == "TURN" or k[self.i] == "FOR" and k[self.i + 1] in ("TURN", "TCH"):
            self.i += 2
            step.role = "turning"
            if k[self.i] == "CH":
                self.i += 1
        if k[self.i] == "." and k[self.i + 1] == "(":
            keep = self.i
            self.i += 1
            if not self._says(step):
                self.i = keep
        else:
            self._says(step)
        step.span = self.span(start)
        before = frame.steps[-1] if frame.steps else None
        if k[self.i] == "IN" and k[self.i + 1] == "EACH" and type(before) is Stitch and before.place is None and before.n == 1 and before.legs is None and (
            k[start - 1] == "AND" or k[start - 1] == "," and len(frame.steps) == 1
        ):
            place = self.place()
            if place is not None:  # "1 tr and 1 ch into each st"
                frame.steps[-1] = Group([before, step], place, span=before.span.to(self.span(start)))
                return True
        frame.steps.append(step)
        return True

    def _says(self, step: Chain) -> bool:
        """What is said of the chain just read, in brackets or after a comma."""
        k, start = self.k, self.i
        if k[start] in ("(", "["):
            close = self.match[start]
            self.i += 1
            says = self.counts_as() or self._sum(close, step)
            if says is not None:
                if close > self.i:
                    self.i = close
                if k[self.i] in (")", "]"):
                    self.i += 1
                says.span = self.span(start)
                step.says = says
                return True
            self.i = start
            return False
        at = start + 1 if k[start] in (",", "DASH") else start
        if at > start and self._that_is(at):
            self.i = at
            says = self.counts_as()
            if says is not None and says.kind is not None and k[self.i] in _ENDS_A_SAYING:
                step.says = says
                return True
            self.i = start
        if k[at] in ("COUNT", "NOT") or k[at] == "=" and k[at + 1] in ("FIRST", "ORD", "NUM") and k[at + 2] == "ST" or k[at] == "TO" and k[at + 1] == "COUNT" or k[at] in ("AS", "FOR") and k[at + 1] in ("FIRST", "ORD") and k[at + 2] in (
            "ST", "STN",
        ) or k[at] in ("YOU", "THIS", "W") and k[at + 1] in ("COUNT", "NOT") or (k[at] == "FOR" and k[at + 1] == "ST"):
            self.i = at
            says = self.counts_as()
            if says is not None:
                step.says = says
                return True
        self.i = start
        return False

    def _sum(self, close: int, step: Chain) -> Counts | None:
        """ "5 ch (tr + 2 ch)", "ch 4 (dc, ch 1)": a stitch and the chains beside it, where the chain is that long; None with nothing read."""
        k, start = self.k, self.i
        at = start + (k[start] == "NUM" and self.v[start] == 1)
        if k[at] != "ST" or not isinstance(self.v[at], str) or k[at + 1] not in ("+", "AND", ",") or k[close + 1] in ("IN", "X", "TIMESN", "NUM", "AROUND", "ALL"):
            return None
        says = Counts(True)
        self._what_counts(says)
        if self.i + 2 == close and k[self.i] == "+" and k[self.i + 1] == "NUM" and isinstance(self.v[self.i + 1], int):
            says.chains = self.v[self.i + 1]  # "ch 5 (dc + 2)"
            self.i = close
        if self.i != close or not says.chains or says.stitches != 1 or step.n != says.chains + self._chains_for(says.kind):
            self.i = start
            return None
        return says

    def _chains_for(self, kind: str) -> int:
        fact = self.lexicon.fact(kind)
        return fact.tch or 0 if fact is not None else 0

    # ------------------------------------------------------------ what counts

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
            elif not counts and not said and kind in ("STN", "ST") and k[self.i - 1] == "NOT" and k[self.i + 1] in _ENDS_A_SAYING:
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
        return here if k[stitch] == "ST" and self._plain(stitch) and k[stitch + 1] in (*_ENDS_A_SAYING, "+", "MADE", "STN") else 0

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
        if isinstance(number, int):
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
        if self.k[self.i] in ("THIS", "W", "REMARK") and not self._this_is(self.i) and self.k[self.i + 1] not in ("CH", "TCH", "NUM"):
            return False  # "this chain does not count as a stitch" is one, too
        if self.k[self.i] == "COUNT" and self.k[self.i + 1] == "NUM":
            start = self.i
            while self.k[self.i] not in (",", ";", ".", "END", ")", "]", "AND", ":"):
                self.i += 1
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        says = self.counts_as()
        last = self.last_step(frame)
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
        if type(last) is Chain and last.says is None and 2 <= len(inner) <= 3 and inner[0] in ("FIRST", "ORD") and inner[1] == "ST" and inner[2:] in ([], ["MADE"], ["STN"]):
            kind = self.v[start + 2]
            if isinstance(kind, str) and (inner[0] == "FIRST" or self.v[start + 1] == 1):
                last.says = Counts(True, kind, span=Span(self.s[start], self.e[close]))
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
        for step in reversed(frame.steps):
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

    # ------------------------------------------------------------ rings

    def make_ring(self, frame) -> None:
        """An adjustable ring that is spoken of in a place ("6 sc in magic ring") is made first."""
        self.ring_wanted = False
        if not self.ring_made:
            self.ring_made = True
            frame.steps.append(Ring())

    def act_ring(self, frame) -> bool:
        k, start = self.k, self.i
        self.i += 1
        while k[self.i] in ("/", "RING", "OR") and k[self.i + 1] in ("RING", "W", "MAGIC", ",", ".", ":"):
            self.i += 1
        if self.ring_made:
            return True
        self.ring_made = True
        frame.steps.append(Ring(span=self.span(start)))
        if k[self.i] in ("OF", "WITH") and k[self.i + 1] in ("NUM", "ST"):
            self.i += 1
            self.context = Place("ring", n=1)
        if k[self.i] == "NUM" and k[self.i + 1] in ("(", "[", "<", "END", ".", "=", "DASH", ",", "STN"):  # "MR 6 (6)": so many in it
            number = self.v[self.i]
            self.i += 1 + (k[self.i + 1] == "STN")
            self.put(frame, Stitch(self._usual(frame), number, Place("ring", n=1), span=self.span(start)))
        return True
