"""Chains between stitches that are told all at once: "sc in center dc of each fan with ch 6 between", "dc in each st around, ch 1 after each"."""

from .tree import Chain, Extent, Group, Repeat, Skip, Stitch


class ChainsBetweenReading:
    """Reads the chains that go between stitches worked all along."""

    def chain_after_each(self, frame, chain: Chain) -> bool:
        """ "dc in each st around, ch 1 after each": the chain goes into what is repeated; the hook stands at "after"."""
        k = self.k
        last = self.last_step(frame)
        if k[self.i] != "REMARK" or self._word(self.i) != "after" or k[self.i + 1] != "EACH" or last is None or frame.steps[-1] is not last:
            return False
        at = self.i + 2 + (k[self.i + 2] in ("ST", "STN", "OWN"))
        if k[at] not in (",", ".", ";", "END", ")", "]", "TURN", "JOIN", "AROUND", "ACROSS"):
            return False
        if type(last) is Repeat and last.times is None:
            where = next((index for index, step in enumerate(last.steps) if type(step) is Skip), len(last.steps))
            last.steps.insert(where, chain)
        elif type(last) in (Stitch, Group) and last.place is not None and last.place.extent is not None:
            extent, last.place.extent, last.place.n, last.place.each = Extent(span=last.place.extent.span), None, 1, False
            frame.steps[-1] = Repeat([last, chain], extent=extent, span=last.span)
        else:
            return False
        self.i = at
        return True

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
