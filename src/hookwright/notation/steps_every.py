"""Shaping told by the number of the stitch: "inc in every 4th st", "inc in the 10th and 20th st", "every 4th and 5th st together"."""

from dataclasses import replace

from .nouns import NO_STITCHES
from .steps_at_ends import AtEndsReading
from .steps_chains_between import ChainsBetweenReading
from .tree import Chain, Either, Extent, Group, Place, Repeat, Skip, Stitch


class EveryReading(AtEndsReading, ChainsBetweenReading):
    """Reads increases and decreases that are told by where they come among plain stitches."""

    def among_plain(self, frame, node: Stitch, start: int) -> bool:
        """ "sc around, inc in every 4th st", "inc in the 10th and 20th st": what stands before goes on between them."""
        k, here = self.k, self.i
        if type(node.n) is not int:
            return False
        self.i += k[here] in ("IN", "OVER")
        if not self._shapes(node) and node.n == 1:
            noun = k[self.i + 2] == "STN" or k[self.i + 2] == "ST" and k[self.i + 3] != "BETWEEN"
            if k[self.i] == "EACH" and (k[self.i + 1] == "OTHER" or k[self.i + 1] == "ORD" and self.v[self.i + 1] == 2) and noun:
                return self._every_other(frame, node, start)
            self.i = here
            return False
        if k[self.i] == "EACH":
            return self._every(frame, node, start, here)
        return self._numbered(frame, node, start, here)

    def every_first(self, frame) -> bool:
        """ "In every second stitch an increase": the place before its stitch; the hook stands at "in" or "every"."""
        k, start = self.k, self.i
        at = start + (k[start] == "IN")
        if k[at] == "EACH" and k[at + 1] == "ORD" and k[at + 2] == "AND":  # "every 5th and 6th sc together"
            kind = self.v[at + 4] if k[at + 4] == "ST" and isinstance(self.v[at + 4], str) else self._usual(frame)
            self.i = at
            if self.together_every(frame, kind, start):
                return True
            self.i = start
        if k[at] == "EACH" and k[at + 1] == "NUM" and self.v[at + 1] == 2 and k[at + 2] in ("STN", "ST") and k[at + 3] == "TOG":  # "every two stitches together"
            base = self.v[at + 2] if k[at + 2] == "ST" and isinstance(self.v[at + 2], str) else self._usual(frame)
            self.i = at + 4
            together = Stitch(f"{base}2tog", 1, Place(n=2), over=True, span=self.span(start))
            return self.put(frame, Repeat([together], extent=self.extent() or Extent(), span=self.span(start)))
        if k[at] != "EACH" or k[at + 1] not in ("ORD", "OTHER") or k[at + 2] != "STN":
            return False
        after = at + 3
        number = self.v[after] if k[after] == "NUM" else 1
        after += k[after] == "NUM"
        if k[after] != "ST" or not isinstance(self.v[after], str) or k[after + 1] in ("IN", "EACH", "TOG") or not isinstance(number, int):
            return False
        kind = "inc" if number == 1 and self._word(after) == "double" else self.v[after]
        node = Stitch(kind, number)
        if number < 2 and not self._shapes(node) or not self.among_plain(frame, node, start):
            self.i = start
            return False
        self.i = after + 1
        return True

    def so_many_in_every(self, frame, number, start: int) -> bool:
        """ "sc in each st, but two in every fourth": the stitch is the one before; the hook stands at the number."""
        k, last = self.k, self.last_step(frame)
        place = last.place if type(last) is Stitch else None
        if k[start + 1] != "IN" or k[start + 2] != "EACH" or k[start + 3] not in ("ORD", "OTHER") or place is None or place.extent is None or not isinstance(number, int) or number < 2:
            return False
        self.i = start + 1
        if self.among_plain(frame, Stitch(last.kind, number), start):
            return True
        self.i = start
        return False

    def together_every(self, frame, kind: str, start: int) -> bool:
        """ "every 4th and 5th st together": from the word "every" on; `kind` is the stitch they are worked in."""
        k, here = self.k, self.i
        at = here + 1 + (k[here] in ("IN", "OVER"))
        if k[at - 1] != "EACH" or k[at] != "ORD" or k[at + 1] != "AND" or k[at + 2] != "ORD":
            return False
        first, second = self.v[at], self.v[at + 2]
        at += 3
        merged = k[at] == "ST" and isinstance(self.v[at], str) and self.v[at].endswith("2tog")  # "6th sc together"
        if merged:
            kind = self.lexicon.fact(self.v[at]).base or kind
        at += k[at] in ("STN", "ST") and not merged
        if kind.endswith("2tog"):  # "sc2tog every 3rd and 4th st"
            kind, merged = self.lexicon.fact(kind).base, k[at] != "TOG"
            at -= merged
        told = merged or k[at] == "TOG"
        if not told and self._word(start)[:3] != "dec" or second != first + 1 or self.lexicon.fact(f"{kind}2tog") is None:
            return False
        self.i = at + told
        base, extent = self._plain_before(frame)
        extent = self.extent() or extent or Extent()
        together = Stitch(f"{kind}2tog", 1, Place(n=2), over=True, span=self.span(start))
        return self._in_turn(frame, [_plain(base or kind, first - 1, self.span(start)), together], base or kind, extent, start)

    def _every(self, frame, node: Stitch, start: int, here: int) -> bool:
        k = self.k
        self.i += 1
        second = k[self.i] == "OTHER"
        if not second and k[self.i] != "ORD" and not (k[self.i] == "NUM" and k[self.i + 1] == "STN" and self._shapes(node) and isinstance(self.v[self.i], int)):  # "inc every 4 sts", too
            self.i = here
            return False
        number, stretch = 2 if second else self.v[self.i], k[self.i] == "NUM"
        self.i += 1
        noun = k[self.i] in ("STN", "ST") or k[self.i] == "NUM" and self._word(self.i) == "one"  # "every fourth one"
        if not noun and (second or k[self.i] not in (",", ".", ";", "END", "(", "[", ")", "TURN", "TOEND")) or k[self.i + 1] == "OF" or number < 2:
            self.i = here
            return False
        self.i += noun
        base, told = self._plain_before(frame)
        extent = self.extent() or told or Extent()
        at = self.i
        while k[at] in (",", ";", "AND"):
            at += 1
        if base is None and k[at] == "ST" and isinstance(self.v[at], str) and self._past_others(at + 1):  # "2 sc in every 2nd st, sc in the others"
            base, self.i = self.v[at], self._past_others(at + 1)
        base = base or node.base or (node.kind if not self._shapes(node) else self._usual(frame))
        span = self.span(start)
        node.place, node.span = Place(), span
        if node.kind in ("dec", "invdec") or node.kind.endswith("tog"):
            node.place, node.over = Place(n=2), True
            if stretch and number == 2:  # "decrease in every 2 sts": one after the other
                return self.put(frame, Repeat([node], extent=extent, span=span))
            before = (number - 2, number - 1) if stretch else (number - 1, number - 2)  # "dec every 4 sts" counts those taken together
            readings = [[Repeat([_plain(base, plain, span), node], extent=extent, span=span)] for plain in before if plain]
            rest = Stitch(base, 1, Place(n=None, extent=Extent()), span=span)
            if len(readings) < 2:
                return self._in_turn(frame, readings[0][0].steps, base, extent, start)
            frame.steps.extend([Either(readings, "the stitches between the decreases may be counted with or without those taken together", span), rest])
            self.moved = True
            return True
        return self._in_turn(frame, [_plain(base, number - 1, span), node], base, extent, start)

    def _every_other(self, frame, node: Stitch, start: int) -> bool:
        """ "puff in every other st with ch 1 between": one is skipped after each."""
        self.i += 3
        node.place = Place(n=None, extent=self.extent() or Extent())
        node.span = self.span(start)
        corners = getattr(self.last_step(frame), "place", None)
        if corners is not None and corners.of == "corner" and corners.each and node.place.extent.kind == "end" and self.k[self.i] != "WITH":
            node.place.each, node.place.extent = True, Extent("open") if corners.extent is not None and corners.extent.kind == "open" else node.place.extent
            return self.put(frame, node)  # "(2 dc, ch 2, 2 dc) in each corner sp, 1 dc in every other st": in all the others
        frame.steps.append(node)
        chained = self.k[self.i] == "WITH" and self.chains_between(frame, node, start)
        if not chained:
            extent, node.place = node.place.extent, Place()
            frame.steps[-1] = Repeat([node], extent=extent, span=self.span(start))
        frame.steps[-1].steps.append(Skip(Place()))
        frame.steps[-1].stop, frame.steps[-1].partial = None, ""
        self.moved = True
        return True

    def skip_every(self, frame, start: int) -> bool:
        """ "sc around, skipping every 4th st": what stands before goes on between them; the hook stands at "skipping"."""
        k, here = self.k, self.i
        number = 2 if k[start + 2] == "OTHER" else self.v[start + 2]
        if not isinstance(number, int) or number < 2 or k[start + 3] not in ("STN", "ST"):
            return False
        self.i = start + 4
        base, before = self._plain_before(frame)
        if base is None and any(type(step) in (Stitch, Group, Repeat) for step in frame.steps):
            self.i = here
            return False
        extent, base = self.extent() or before or Extent(), base or self._usual(frame)
        return self._in_turn(frame, [_plain(base, number - 1, self.span(start)), Skip(Place(), span=self.span(start))], base, extent, start)

    def group_in_every(self, frame, steps, start: int) -> bool:
        """ "[dc, ch 1] in every other st around": the hook stands at "in"."""
        number = 2 if self.k[self.i + 2] == "OTHER" else self.v[self.i + 2]
        self.i += 4
        extent = self.extent() or Extent()
        if type(steps[0]) is Stitch and all(type(step) is Chain for step in steps[1:]):
            steps = [replace(steps[0], place=Place()), *steps[1:]]
        else:
            steps = [Group(list(steps), Place(), span=self.span(start))]
        if number > 1:
            steps = [*steps, Skip(Place(n=number - 1))]
        return self.put(frame, Repeat(steps, extent=extent, span=self.span(start)))

    def positions(self, frame, node: Stitch, start: int) -> bool:
        """ "bobble in sts 5, 10, 15 and 20; sc in all the others": each in the stitch of that number."""
        k, here = self.k, self.i
        if k[here] != "IN" or k[here + 1] != "STN" or k[here + 2] != "NUM" or k[here + 3] not in (",", "AND"):
            return False
        at, numbers = here + 2, []
        while k[at] == "NUM" and isinstance(self.v[at], int):
            numbers.append(self.v[at])
            at += 1
            while k[at] in (",", "AND") and (k[at + 1] == "NUM" or k[at + 1] == "AND"):
                at += 1
        while k[at] in (",", ";", ".", "AND"):
            at += 1
        if k[at] != "ST" or not isinstance(self.v[at], str) or any(b <= a for a, b in zip(numbers, numbers[1:], strict=False)):
            return False
        base, at = self.v[at], at + 1
        at = self._past_others(at)
        if not at:
            return False
        self.i = at
        span, worked = self.span(start), 0
        for number in numbers:
            if number - worked > 1:
                frame.steps.append(_plain(base, number - worked - 1, span))
            frame.steps.append(replace(node, place=Place(), span=span))
            worked = number
        return self.put(frame, Stitch(base, 1, Place(n=None, extent=Extent()), span=span))

    def _past_others(self, at: int) -> int:
        """Where "in all other sts", "in the others", "in rest" at token `at` ends; 0 where it is none."""
        k, others = self.k, at
        while k[at] in ("IN", "ALL", "OTHER", "REM", "OF", "EACH", "STN", "ST", "BETWEEN") or k[at] == "W" and self._word(at) in ("others", "all"):
            at += 1
        return at if any(k[index] in ("OTHER", "REM", "BETWEEN") or self._word(index) == "others" for index in range(others, at)) else 0

    def by_ratio(self, frame, node: Stitch, start: int) -> bool:
        """ "3 sc for every 2 row ends along the edge": so many spread over so many."""
        k, here = self.k, self.i
        if k[here] not in ("FOR", "IN", "OVER", "PER") and k[here] != "EACH" or type(node.n) is not int:
            return False
        at = here + (k[here] != "EACH")
        if k[at] != "EACH" or k[at + 1] != "NUM" or not isinstance(self.v[at + 1], int) or k[at + 2] not in ("EXTEND", "ROW", "STN") or k[here] != "FOR":
            return False
        many, ends = self.v[at + 1], k[at + 2] != "STN"
        if not 0 < many < 20:
            return False
        self.i = at + 3
        while k[self.i] in ("ACROSS", "AROUND", "TO", "W", "U", "EXTEND", "SIDE", "OF", "TOEND", "AT") and k[self.i] not in (",", "."):
            self.i += 1
        span, steps = self.span(start), []
        for index in range(many):
            each = (index + 1) * node.n // many - index * node.n // many
            place = Place("row ends", "st", 1) if ends else Place()
            steps.append(Stitch(node.kind, each, place, span=span) if each else Skip(Place(), span=span))
        return self.put(frame, Repeat(steps, extent=Extent(), span=span))

    def _in_turn(self, frame, steps, base: str, extent: Extent, start: int) -> bool:
        """The steps again and again, and what does not fill a whole repeat worked plainly."""
        span = self.span(start)
        frame.steps.append(Repeat(steps, extent=extent, span=span))
        if extent.kind == "end":
            frame.steps.append(Stitch(base, 1, Place(n=None, extent=Extent()), span=span))
        self.moved = True
        return True

    def _numbered(self, frame, node: Stitch, start: int, here: int) -> bool:
        k, numbers = self.k, []
        while k[self.i] == "ORD":
            numbers.append(self.v[self.i])
            self.i += 1 + (k[self.i + 1] in ("STN", "ST"))
            while k[self.i] in (",", "AND", "IN") and (k[self.i + 1] in ("ORD", "AND", "IN")):
                self.i += 1
        plain = k[self.i - 1] in ("STN", "ST", "ORD") and k[self.i] not in ("OF", "FROM", "CH", "SP")
        if not numbers or not plain or node.kind == "dec" or any(b <= a for a, b in zip(numbers, numbers[1:], strict=False)):
            self.i = here
            return False
        base, extent = self._plain_before(frame)
        if base is None and len(numbers) > 1 and k[self.i] in (".", "END", "(", "[", "=") and not any(type(step) in (Stitch, Group, Repeat) for step in frame.steps):  # "double the 4th, 8th and 12th st (15)"
            base, extent = node.kind if node.n > 1 else self._usual(frame), Extent()
        if base is None:
            self.i = here
            return False
        span, worked = self.span(start), 0
        node.place, node.span = Place(), span
        for number in numbers:
            if number - worked > 1:
                frame.steps.append(_plain(base, number - worked - 1, span))
            frame.steps.append(Stitch(node.kind, node.n, Place(), base=node.base, span=span))
            worked = number
        return self.put(frame, Stitch(base, 1, Place(n=None, extent=extent), span=span))

    def _plain_before(self, frame):
        """The stitch and extent of "sc in each st around" just before, taken out of the steps; (None, None) where there is none."""
        last = frame.steps[-1] if frame.steps else None
        if type(last) is not Stitch or last.n != 1 or self._shapes(last) or last.place is None or last.place.extent is None or last.place.of in NO_STITCHES or last.place.post:
            return None, None
        frame.steps.pop()
        extent = last.place.extent
        return last.kind, Extent() if extent.kind == "open" else extent


def _plain(kind: str, number: int, span) -> Stitch:
    return Stitch(kind, 1, Place(n=number), span=span)
