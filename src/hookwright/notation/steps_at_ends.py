"""What is worked otherwise at the ends of a plain row: "2 sc in first and last st, sc in between", "1 sc in each st except the last, which gets 2"."""

from .tree import Extent, Place, Repeat, Stitch


class AtEndsReading:
    """Reads what goes into the first and last stitch beside what goes into those between."""

    def between_ends(self, frame, node: Stitch, start: int) -> bool:
        """ "2 sc in first and last st, sc in between": the plain stitches go between the two."""
        k, steps = self.k, frame.steps
        at = self.i + (k[self.i] == "IN")
        if k[at] == "EACH" and k[at + 1] in ("STN", "ST") and k[at + 2] == "BETWEEN":
            at += 2  # "sc in each st between"
        if k[at] == "EACH" and k[at + 1] in ("OTHER", "REM") and k[at + 2] in ("STN", "ST"):
            at += 2  # "sc in each remaining st", "sc in every other st between": of those between
            at += k[at + 1] == "BETWEEN"
        if k[at] == "ALL" and k[at + 1] in ("STN", "ST") and k[at + 2] == "BETWEEN":
            at += 2  # "sc in all the sts between"
        if k[at:at + 2] == ["EACH", "OF"] and self._word(at + 2) == "others":
            at += 2
        told = k[at] == "BETWEEN" and k[at + 1] in (",", ".", ";", "END", "TURN", "(", "[", ")") or k[self.i] == "IN" and (
            k[at] == "ALL" and (k[at + 1] == "OTHER" or self._word(at + 1) == "others") or k[at] == "REM" or self._word(at) == "others" or k[at - 1] in ("OTHER", "REM") or k[at - 2] == "OTHER" and k[at] == "BETWEEN"
        )
        if node.n != 1 or len(steps) < 2 or not told or any(getattr(step, "place", None) is None for step in steps[-2:]):
            return False
        if steps[-2].place.which != "first" or steps[-1].place.which != "last":
            return False
        self.i = at + 1
        while k[self.i] in ("OTHER", "STN", "ST", "W") and k[self.i - 1] != "BETWEEN":
            self.i += 1
        left = steps[-1].place.n if isinstance(steps[-1].place.n, int) else 1
        node.place, node.span = Place(n=None, extent=Extent("last", left)), self.span(start)
        steps.insert(len(steps) - 1, node)
        self.moved = True
        return True

    def gets_more(self, frame) -> bool:
        """ "1 sc in each st except the last, which gets 2": that many in the last."""
        k, at, last = self.k, self.i + 1, self.last_step(frame)
        at += k[at] in ("W", "HAVE")
        place = getattr(last, "place", None)
        extent = last.extent if type(last) is Repeat else place.extent if type(last) is Stitch and place is not None else None
        if k[at] != "NUM" or extent is None or extent.kind != "last" or extent.n != 1:
            return False
        kind = self.v[at + 1] if k[at + 1] == "ST" and isinstance(self.v[at + 1], str) else getattr(last, "kind", "")
        if not kind:
            return False
        number, start, self.i = self.v[at], self.i, at + 1
        while k[self.i] in ("STN", "ST"):
            self.i += 1
        return self.put(frame, Stitch(kind, number, Place("last"), span=self.span(start)))

    def set_at_ends(self, frame, before: int) -> bool:
        """ "sc in each st across, working 2 sc in first and last st": the steps from `before` on go to the ends of the plain stitches before them."""
        steps = frame.steps
        new, plain = steps[before:], steps[before - 1] if before else None
        if type(plain) is not Stitch or plain.n != 1 or plain.place is None or plain.place.extent is None or plain.place.extent.kind not in ("end", "open") or plain.place.of != "st":
            return False
        places = [step.place for step in new if type(step) is Stitch and step.place is not None]
        if not new or len(places) != len(new) or [place.which for place in places] not in (["first"], ["first", "last"]) or any(not isinstance(place.n, int) for place in places):
            return False
        if places[-1].which == "last":
            plain.place.extent = Extent("last", places[-1].n, span=plain.place.extent.span)
        steps[before - 1:] = [new[0], plain, *new[1:]]
        return True
