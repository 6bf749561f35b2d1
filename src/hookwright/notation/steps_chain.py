"""Chains and rings, and what is said of a chain: "ch 3 (counts as dc here and throughout)", "6ch (count as 1tr and 3ch)"."""

from hookwright.ground import Number, PerSize

from .steps_counts_as import ENDS_A_SAYING, CountsAsReading
from .tree import Chain, Counts, Group, Note, Place, Ring, Stitch

_ENDS = frozenset((",", ";", ".", ":", ")", "]", "}", "|", "END", "MARK", "AND", "TURN", "(", "[", "DASH", "QC"))


class ChainReading(CountsAsReading):
    """Reads chains and rings."""

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
        """ "Ch 20, plus 1 for turning", "ch 20 and 3 to turn", "ch 24 (+ 2 turning chains)": how many chains in all."""
        k, at = self.k, self.i
        close = self.match[at] if k[at] in ("(", "[") else -1
        at += k[at] == "," or close > at
        if k[at] not in ("AND", "+") or k[at + 1] != "NUM" or not isinstance(self.v[at + 1], int):
            return number
        more, at = self.v[at + 1], at + 2
        at += k[at] in ("CH", "MORE")
        at += k[at] == "CH"
        at += k[at] in ("FOR", "TO", "AS")
        if k[at] not in ("TURN", "TCH") and self._word(at) != "turning" or close > 0 and at + 1 + (k[at + 1] == "CH") != close or k[at - 1] == "NUM" and k[at] == "TURN":
            return number
        at += 1
        at += k[at] == "CH"
        self.i = at + (close > 0)
        return PerSize(None if one is None else one + more for one in number) if isinstance(number, PerSize) else number + more

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
        if k[self.i] == "BETWEEN" and self.chain_between_all(frame, step):
            return True
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
            if says is not None and says.kind is not None and k[self.i] in ENDS_A_SAYING:
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
