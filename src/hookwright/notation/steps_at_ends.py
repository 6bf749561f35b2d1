"""What is worked otherwise at the ends of a plain row: "2 sc in first and last st, sc in between", "1 sc in each st except the last, which gets 2".

Also the stitches between spaces, which part what goes into the spaces: "2 dc in each of next 5 sps with 1 dc in each dc between".
"""

from dataclasses import replace

from .tree import Extent, Place, Repeat, Stitch


class AtEndsReading:
    """Reads what goes into the first and last stitch beside what goes into those between."""

    def between_ends(self, frame, node: Stitch, start: int) -> bool:
        """ "2 sc in first and last st, sc in between": the plain stitches go between the two."""
        k, steps = self.k, frame.steps
        at = self.i + (k[self.i] == "IN")
        if k[at + 2] == "BETWEEN" and self._between_spaces(frame, node, start, at):
            return True
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

    def _between_spaces(self, frame, node: Stitch, start: int, at: int) -> bool:
        """ "2 tr in each of next 18 holes with 1 tr on each tr between and one on the tr following": space and stitch by turns.

        at: the token "each".
        """
        k, steps = self.k, frame.steps
        filled = steps[-1] if steps else None
        place = filled.place if type(filled) is Stitch else None
        if k[at] != "EACH" or k[at + 1] not in ("STN", "ST") or node.n != 1 or place is None or place.of != "sp" or place.which != "next" or type(place.n) is not int or place.n < 2:
            return False
        at += 3
        at += k[at] == "W" and self._word(at) == "them"
        after = 0  # "between and after", "between and one on the tr following"
        if k[at] == "AND" and k[at + 1] == "REMARK" and self._word(at + 1) == "after":
            after = at + 2
        elif k[at:at + 3] == ["AND", "NUM", "IN"] and self.v[at + 1] == 1 and {k[at + 3], k[at + 4]} in ({"NEXT", "ST"}, {"NEXT", "STN"}):
            after = at + 5
        self.i = after or at
        span = self.span(start)
        node.place, node.span = replace(self._only_one(place), of="st", chains=None), span
        fill = replace(filled, place=self._only_one(place))
        steps[-1:] = [Repeat([fill, node], times=place.n - 1, span=filled.span.to(span)), replace(fill), *([replace(node)] if after else ())]
        self.moved = True
        return True

    @staticmethod
    def _only_one(place: Place) -> Place:
        """The place as one of its places."""
        return replace(place, n=1, each=False)

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
