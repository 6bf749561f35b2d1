"""Shaping told by the number of the stitch: "inc in every 4th st", "inc in the 10th and 20th st", "every 4th and 5th st together"."""

from .tree import Chain, Either, Extent, Place, Repeat, Skip, Stitch


class EveryReading:
    """Reads increases and decreases that are told by where they come among plain stitches."""

    def among_plain(self, frame, node: Stitch, start: int) -> bool:
        """ "sc around, inc in every 4th st", "inc in the 10th and 20th st": what stands before goes on between them."""
        k, here = self.k, self.i
        if type(node.n) is not int:
            return False
        self.i += k[here] in ("IN", "OVER")
        if not self._shapes(node) and node.n == 1:
            if k[self.i] == "EACH" and k[self.i + 1] == "OTHER" and k[self.i + 2] == "STN":
                return self._every_other(frame, node, start)
            self.i = here
            return False
        if k[self.i] == "EACH":
            return self._every(frame, node, start, here)
        return self._numbered(frame, node, start, here)

    def together_every(self, frame, kind: str, start: int) -> bool:
        """ "every 4th and 5th st together": from the word "every" on; `kind` is the stitch they are worked in."""
        k, here = self.k, self.i
        at = here + 1
        if k[at] != "ORD" or k[at + 1] != "AND" or k[at + 2] != "ORD":
            return False
        first, second = self.v[at], self.v[at + 2]
        at += 3 + (k[at + 3] in ("STN", "ST"))
        if k[at] != "TOG" or second != first + 1 or self.lexicon.fact(f"{kind}2tog") is None:
            return False
        self.i = at + 1
        base, extent = self._plain_before(frame)
        extent = self.extent() or extent or Extent()
        together = Stitch(f"{kind}2tog", 1, Place(n=2), over=True, span=self.span(start))
        return self._in_turn(frame, [_plain(base or kind, first - 1, self.span(start)), together], base or kind, extent, start)

    def _every(self, frame, node: Stitch, start: int, here: int) -> bool:
        k = self.k
        self.i += 1
        second = k[self.i] == "OTHER"
        if not second and k[self.i] != "ORD":
            self.i = here
            return False
        number = 2 if second else self.v[self.i]
        self.i += 1
        if k[self.i] not in ("STN", "ST") or k[self.i + 1] == "OF" or number < 2:
            self.i = here
            return False
        self.i += 1
        base, before = self._plain_before(frame)
        extent = self.extent() or before or Extent()
        base = base or node.base or (node.kind if not self._shapes(node) else self._usual(frame))
        span = self.span(start)
        node.place, node.span = Place(), span
        if node.kind in ("dec", "invdec") or node.kind.endswith("tog"):
            node.place, node.over = Place(n=2), True
            readings = [[Repeat([_plain(base, plain, span), node], extent=extent, span=span)] for plain in (number - 1, number - 2) if plain]
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
        frame.steps.append(node)
        chained = self.k[self.i] == "WITH" and self.chains_between(frame, node, start)
        if not chained:
            extent, node.place = node.place.extent, Place()
            frame.steps[-1] = Repeat([node], extent=extent, span=self.span(start))
        frame.steps[-1].steps.append(Skip(Place()))
        frame.steps[-1].stop, frame.steps[-1].partial = None, ""
        self.moved = True
        return True

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

    def chains_between(self, frame, node, start: int) -> bool:
        """ "sc in center dc of each fan with ch 6 between": a chain after each of them."""
        k, here = self.k, self.i
        at = here + 1
        if k[at] == "CH":
            at += 1 + (k[at + 1] == "HY")
            number, at = (self.v[at], at + 1) if k[at] == "NUM" else (1, at)
        elif k[at] == "NUM" and k[at + 1 + (k[at + 1] == "HY")] == "CH":
            number, at = self.v[at], at + 2 + (k[at + 1] == "HY")
        else:
            return False
        while k[at] == "STN":
            at += 1
        place = getattr(node, "place", None)
        if k[at] != "BETWEEN" or k[at + 1] in ("NEXT", "NUM") or place is None or place.extent is None or place.extent.kind not in ("end", "open") or frame.steps[-1] is not node:
            return False
        self.i = at + 1
        while k[self.i] in ("EACH", "THIS", "STN", "ST", "SP") and k[self.i - 1] in ("BETWEEN", "EACH", "THIS"):
            self.i += 1
        extent, place.extent, place.n, place.each = Extent(span=place.extent.span), None, 1, False
        repeat = Repeat([node, Chain(number)], extent=extent, span=self.span(start))
        if not self.in_round:
            repeat.stop, repeat.partial = 1, "last"
        frame.steps[-1] = repeat
        return True

    def _plain_before(self, frame):
        """The stitch and extent of "sc in each st around" just before, taken out of the steps; (None, None) where there is none."""
        last = frame.steps[-1] if frame.steps else None
        if type(last) is not Stitch or last.n != 1 or self._shapes(last) or last.place is None or last.place.extent is None or last.place.of != "st" or last.place.post:
            return None, None
        frame.steps.pop()
        extent = last.place.extent
        return last.kind, Extent() if extent.kind == "open" else extent


def _plain(kind: str, number: int, span) -> Stitch:
    return Stitch(kind, 1, Place(n=number), span=span)
