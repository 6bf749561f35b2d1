"""Stitch phrases with a way of their own: picots, "4th, 5th and 6th ch", "dec at each end", "half shell", slip stitches that travel."""

import re
from dataclasses import replace

from hookwright.ground import Number, Span

from .nouns import GROUP_KINDS
from .patterns import Lazy
from .stitch_words import Named
from .tree import Chain, Extent, Group, Note, Place, Repeat, Stitch

SHAPING_ENDS = frozenset((",", ".", ";", ")", "]", "}", "(", "[", "END", "MARK", "X", "REP", "=", "DASH"))

_DRAWS = frozenset(("pull", "pulling", "finish", "finishing", "let", "bring", "complete", "when", "through", "with"))
_THE_ONE = Lazy(r"\b(?:the|that|this)\b", re.I)
_HALVED = Lazy(r"\bhal(?:f|ve|ved|ving)\b|\bdivid\w*\s+(?:\w+\s+){0,3}?(?:by|in|into)\s+(?:two|2)\b|\b(?:in|into)\s+(?:two|2)\b")
_RECKONED = Lazy(r"\b(?:divid\w*|split\w*|thirds?|quarters?|tak(?:e|ing)\s+(?:away|off)|less|minus|subtract\w*|multipl\w*|double|add\w*|plus)\b")


class SpecialStitchReading:
    """Reads stitches that are said in a special way."""

    def _times_first(self, frame, number: Number, at: int) -> bool:
        """ "4 x sc", "3 x (sc, inc)"."""
        k = self.k
        start = self.i
        if k[at] in ("ST", "OWN"):
            self.i = at
            return self.stitch(frame, number, start)
        if k[at] in ("(", "[", "{") and self.match[at] > at:
            before = len(frame.steps)
            if self._steps_in_brackets(frame, at, self.match[at]) and len(frame.steps) > before:
                made = frame.steps[before:]
                inner = made[0].steps if len(made) == 1 and type(made[0]) is Group and made[0].place is None else made
                frame.steps[before:] = [Repeat(inner, number, mark="(", span=self.span(start))]
                return True
        return False

    def _unnamed(self, frame, number: Number, start: int) -> bool:
        """ "2 sts in next st", "2 in the next": of the pattern's own stitch."""
        self.i += 1
        evenly = self.k[self.i] == "EVENLY"
        if evenly:
            self.i += 1
        place = self.place()
        if place is None:
            self.i = start
            return False
        kind = "inc" if number == 2 and place.n == 1 else self._usual(frame)
        step = Stitch(kind, 1 if kind == "inc" else number, place, evenly=evenly, span=self.span(start))
        return self.put(frame, step)

    def _usual(self, frame) -> str:
        for step in reversed(frame.steps):
            if type(step) is Stitch and step.kind not in ("slst", "inc", "dec"):
                return step.kind
        return "sc"

    def act_half(self, frame) -> bool:
        """ "half shell in first st": the first half of its stitches."""
        k, start = self.k, self.i
        value = self.v[start + 1]
        if k[start + 1] != "ST" or not (value in GROUP_KINDS or isinstance(value, Named) and value.kind in GROUP_KINDS):
            return False
        self.i += 1
        before = len(frame.steps)
        if not self.stitch(frame, None, start) or len(frame.steps) == before or type(frame.steps[before]) is not Group:
            return False
        group = frame.steps[before]
        first = group.steps[0]
        if group is self.told_of:  # "half shell (3 dc)"
            pass
        elif len(group.steps) == 1 and type(first) is Stitch and isinstance(first.n, int):
            group.steps = [replace(first, n=(first.n + 1) // 2)]
        else:
            group.steps = [first]
        group.name = f"half {group.name}"
        return True

    def _travels(self, frame, node: Stitch, start: int) -> bool:
        """ "sl st to next ch-1 sp", "sl st over to corner", "SS 2 sts to the first space": along to a place."""
        k, here = self.k, self.i
        at = here
        if k[at] in ("ACROSS", "OVER", "AROUND", "IN") and k[at + 1] == "TO":
            at += 1
        if k[at] in ("ACROSS", "OVER") and k[at + 1] == "AND" and k[at + 2] in ("IN", "TO") and k[at + 3] == "ORD" and isinstance(self.v[at + 3], int) and not self.moved:
            self.i = at + 4 + (k[at + 4] in ("ST", "STN", "OWN"))  # "ss across and into 4th st": one in each up to it
            node.place, node.span = Place(n=self.v[at + 3]), self.span(start)
            return self.put(frame, node)
        if k[at] == "ACROSS" and k[at + 1] in ("EXTEND", "SIDE", "TOP") and k[at + 2] == "OF" and "group" in self.v[at + 3:at + 5]:
            self.i = at + 3 + self.v[at + 3:at + 5].index("group") + 1  # "sl st along the edge of the last block": how it gets to its space
            self.put(frame, node)
            node.span = self.span(start)
            frame.steps.append(Note(self.text[self.s[at]:self.e[self.i - 1]], Span(self.s[at], self.e[self.i - 1])))
            return True
        if k[at] == "ACROSS" and k[at + 1] == "NUM" and k[at + 2] in ("ST", "STN") and k[at + 3] == "OF" and "group" in self.v[at + 4:at + 7] and not self.moved:
            self.i = at + 4 + self.v[at + 4:at + 7].index("group") + 1  # "sl st across the 3 dc of the last block": those it meets first
            node.place = Place(n=self.v[at + 1])
            node.span = self.span(start)
            return self.put(frame, node)
        over = at + 1 + (k[at:at + 2] in (["ACROSS", "NEXT"], ["OVER", "NEXT"]))
        if k[at] in ("ACROSS", "OVER") and k[over:over + 3] in (["NUM", "ST", "TO"], ["NUM", "STN", "TO"]) and k[over + 3] in ("CH", "SP", "NEXT"):
            node.place, node.span, self.i = Place(n=self.v[over]), self.span(start), over + 2  # "sl st across 3 dc to ch-3 sp"
            self.put(frame, node)
            node, here = Stitch("slst"), self.i
            at = here
        if k[at] != "TO":
            return False
        self.i = at
        place = self.place(to=True)
        if place is None or place.of == "st" and place.which == "next":
            self.i = here
            return False
        if node.n != 1:
            self.put(frame, Stitch("slst", node.n, span=self.span(start)))
        self.put(frame, Stitch("slst", 1, place, span=self.span(start)))
        return True

    def _ordinals(self, frame, node: Stitch, start: int) -> bool:
        """ "dc in 4th, 5th and 6th ch from hook", "sc in 2nd and 4th dc"."""
        k, here = self.k, self.i
        at, numbers = here + 1, []
        while k[at] == "ORD":
            numbers.append(self.v[at])
            last = at
            at += 1
            while k[at] in (",", "AND"):
                at += 1
        self.i = last
        place = self.target()
        if len(numbers) < 2 or place is None or place.ordinal is None:
            self.i = here
            return False
        row = all(b == a + 1 for a, b in zip(numbers, numbers[1:], strict=False))
        first = replace(place, ordinal=numbers[0])
        if node.kind.endswith("tog") or node.kind == "dec":  # "dc2tog over 3rd and 4th ch from hook"
            return self.put(frame, replace(node, place=first, over=True, span=self.span(start)))
        if place.which == "from hook" and row:
            places = [first, Place("next", "ch", len(numbers) - 1)]
        else:
            places = [first, *(replace(place, ordinal=number) for number in numbers[1:])]
        for one in places:
            self.put(frame, replace(node, place=one, span=self.span(start)))
        return True

    def _picot(self, frame, node: Stitch) -> bool:
        """ "ch 3, sl st in 3rd ch from hook" on a stitch, "ch 3, sl st in last sc made": a picot."""
        place = node.place
        if place is None or not frame.steps or type(frame.steps[-1]) is not Chain:
            return False
        chain = frame.steps[-1]
        before = [step for step in frame.steps[:-1] if type(step) is not Note]
        if not isinstance(chain.n, int) or chain.n > 8 or chain.says is not None:
            return False
        if not before and not self.depth and not self.open_marks or before and type(before[-1]) not in (Stitch, Group, Repeat):
            return False
        words = self.text[self.s[self.i - 2]:self.e[self.i - 1]].lower()
        back = place.which == "from hook" and place.ordinal in (chain.n, chain.n - 1, chain.n + 1) or place.of == "ch" and place.which == "first"
        if node.kind == "sc":
            back = place.which == "from hook" and place.ordinal == chain.n > 2 and place.n == 1
        back = back or self._back_in(place, before[-1] if before else None, chain.n)
        told = self.k[self.i] == "FOR" and self.k[self.i + 1] == "ST" and self.v[self.i + 1] == "picot"
        if not back and (node.kind == "sc" or not ((words.endswith("made") or told or "base" in self.text[self.s[max(0, self.i - 4)]:self.e[self.i - 1]].lower()) and place.which in ("last", "next", "same"))):
            return False
        if told:
            self.i += 2
        frame.steps[-1] = Stitch("picot", 1, None, legs=chain.n, base="ch", span=chain.span.to(self.span(self.i - 1)))
        if self.k[self.i] == "(" and "MADE" in self.k[self.i:self.match[self.i] + 1] and "picot" in self.v[self.i:self.match[self.i]]:
            self.i = self.match[self.i] + 1
        return True

    def _back_in(self, place: Place, base, chains: int) -> bool:
        """Whether "sl st in that sc", "in the dc", "in same sc" after a few chains goes back into the stitch they stand on."""
        if type(base) is not Stitch or base.kind != "sc" or chains < 3 or place.n != 1 or place.extent is not None or place.of not in ("st", base.kind):
            return False
        if place.which == "same":
            return getattr(base.place, "which", "") != "same"
        return place.which == "next" and _THE_ONE.search(self.text, place.span.start, place.span.end) is not None

    def _shapes(self, node: Stitch) -> bool:
        return node.kind in ("inc", "dec", "invdec") or node.kind.endswith("tog")

    def _goes_before(self, frame) -> bool:
        """Whether a plain stitch without brackets stands before, so that "sc in next 6, inc around" may repeat both."""
        last = frame.steps[-1]
        return type(last) is Stitch and not self._shapes(last) and (last.place is None or last.place.n is not None)

    def _shaped_before(self, frame, node: Stitch) -> bool:
        """Whether an increase or decrease stands before some stitches, so that "dec, sc 2 around" repeats both."""
        last = frame.steps[-1]
        return type(last) is Stitch and self._shapes(last) and last.place is None and last.n == 1 and isinstance(node.n, int) and node.n < 9

    def act_shaping(self, frame, evenly: bool = False) -> bool:
        """ "sc across, decreasing 4 sts evenly": so many decreases among plain stitches."""
        k, start = self.k, self.i
        at = start + 1
        if k[at] == "IN" and k[at + 1] == "EACH" and "MARKER" in k[at + 2:at + 5]:  # "sc around, increasing in each marked st"
            self.i = at
            step = Stitch("dec" if self._word(start).startswith("d") else "inc", 1, self.place())
            step.span = self.span(start)
            return self.put(frame, step)
        if k[at] == "IN" and k[at + 1] in ("ORD", "EACH"):  # "sc around, increasing in the 4th, 8th and 12th st"
            self.i = at
            return self.among_plain(frame, Stitch("dec" if self._word(start).startswith("d") else "inc"), start)
        if k[at] == "IN" and k[at + 1] == "FIRST" and frame.steps:  # "sc across, increasing in first and last st"
            before, kind = len(frame.steps), "dec" if self._word(start).startswith("d") else "inc"
            self.i = at
            if kind == "inc" and self._placed(frame, Stitch(kind), start, 1) and self.set_at_ends(frame, before):
                return True
            del frame.steps[before:]
            self.i = start
        at += k[at] == "ASFOLLOWS" and self._word(at) == "by"
        if k[at] == "TIMESN" and isinstance(self.v[at], int):  # "sc around, increasing once"
            evenly = evenly or k[at + 1] in (",", ".", ";", "END", "(", "[")
        elif k[at] != "NUM":
            return False
        number = self.v[at]
        at += 1 + (k[at + 1] in ("STN", "ST", "TIMES"))
        if number == 1 and k[at] == "IN" and k[at + 1] == "EACH":  # "increasing 1 sc in every 3rd sc"
            self.i = at
            if self.among_plain(frame, Stitch("dec" if self._word(start).startswith("d") else "inc"), start):
                return True
        if k[at] != "EVENLY" and not evenly:
            self.i = at
            if isinstance(number, int) and self._at_each_end(frame, Stitch("dec" if self._word(start).startswith("d") else "inc", number), start):
                return True  # "increasing 1 st at each end"
            self.i = start
            return False
        self.i = at + (k[at] == "EVENLY")
        extent = self.extent() or Extent()
        kind = "dec" if self._word(start).startswith("d") else "inc"
        last = self.last_step(frame)
        base = None
        self._plain_throughout(frame)
        if type(last) is Stitch and last.place is not None and last.place.extent is not None and frame.steps[-1] is last:
            frame.steps.pop()
            base, extent = last.kind, last.place.extent
        return self.put(frame, Stitch(kind, number, Place(n=None, extent=extent), base=base, evenly=True, span=self.span(start)))

    def act_until(self, frame) -> bool:
        """ "until hole closes": told, not worked; how far a repeat goes, in words not known, is said to be unread."""
        k, at = self.k, self.i + 1
        if k[at] == "NUM" and k[at + 1] == "SP" and self._word(at + 1)[0] == "l" and frame.steps and self.finished_so(frame, self.i):
            return True
        while k[at] not in (",", ";", ".", "END", ":", "(", ")", "[", "]", "MARK"):
            at += 1
        last = frame.steps[-1] if frame.steps else None
        if type(last) is Repeat and last.mark and last.times is None and not {"ST", "SP", "OWN"}.isdisjoint(k[self.i:at]):
            start, self.i = self.i, at
            self.keep_unread(frame, self.span(start))
            return True
        return self._worked_note(frame, self.i, self.i + 1)

    def finished_so(self, frame, start: int) -> bool:
        """ "... until 2 loops are on the hook, drop B and pull A through both": how a stitch is finished in another colour, told to the end of it."""
        k, at = self.k, start
        while True:
            while k[at] not in (",", ";", ".", "END", "AND", "(", ")", "[", "]", "MARK"):
                at += 1
            after = at
            while k[after] in (",", ";", "AND", "THIS"):
                after += 1
            if after == at or k[after] not in ("DROP", "DRAW", "YO", "WORKOFF", "CHANGE", "BUT") and self._word(after) not in _DRAWS:
                break
            at = after
        self.i = at
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def last_begun(self, frame, at: int) -> bool:
        """ "Begin the last sc but finish it with A", "work the last sc until 2 loops are left, ...": it is worked; "last" stands at token `at`."""
        k, start = self.k, self.i
        if k[at] != "LAST" or k[at + 1] != "ST" or not isinstance(self.v[at + 1], str) or self.v[at + 1] == "slst" or k[at + 2] not in ("UNTIL", "BUT", "AS", "W") or not frame.steps:
            return False
        if k[at + 2] == "UNTIL" and k[at + 3:at + 5] != ["NUM", "SP"] or k[at + 2] == "W" and self._word(at + 2) not in ("normally", "usually", "halfway"):
            return False
        self.i = at + 2
        self.put(frame, Stitch(self.v[at + 1], 1, Place("last"), span=self.span(start)))
        return self.finished_so(frame, self.i)

    def _that_many(self, frame, node, start: int) -> bool:
        """ "halve the number, dc that many": in half of the stitches."""
        self.i += 1
        said = next((step.text.lower() for step in reversed(frame.steps) if type(step) is Note), "")
        half = _HALVED.search(said) is not None
        if said and not half and _RECKONED.search(said):
            self.i = start
            return False  # another sum of hers: it is told, and not taken for all of them
        node.place = Place(n=None, extent=Extent("half" if half else "end"))
        node.span = self.span(start)
        return self.put(frame, node)
