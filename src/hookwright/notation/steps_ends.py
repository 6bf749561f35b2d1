"""What is worked at the ends of a row: "dec 1 st at each end", "sc2tog at both ends", "first 2 and last 2 sts together", "skip 1 st at beginning and end"."""

from dataclasses import replace

from .nouns import NO_STITCHES
from .tree import Chain, Colour, Extent, Go, Join, Note, Place, Skip, Stitch, Turn

_ENDS = frozenset(("ENDING", "BEG", "EXTEND"))
_OF_ROWS = frozenset(("OF", "ROW", "ROUND", "THIS", "EACH", "AROUND", "ALL", "IN", "NEXT"))
_BESIDES = (Chain, Turn, Note, Colour, Join)


class EndsReading:
    """Reads shaping at the ends of a row."""

    def _at_each_end(self, frame, node: Stitch, start: int) -> bool:
        """ "dec 1 st at each end", "inc at both ends of row", "sc2tog at each end", "2 sc at each end"."""
        k, here = self.k, self.i
        shaping = node.kind in ("inc", "dec")
        gathers = node.kind.endswith("tog") and node.n == 1 and k[here:here + 2] in (["AT", "EACH"], ["AT", "BOTH"])  # of a round, too: "sc around, working sc2tog at each side"
        if not shaping and ((self.in_round or self.first_row) and not gathers or not (node.kind.endswith("tog") and node.n == 1 or node.n in (2, 3) and node.kind != "slst")):
            return False
        at = here + (k[here] in ("IN", "AT"))
        if shaping and k[at] == "EACH" and k[at + 1] in ("ROW", "ROUND", "AROUND"):  # "inc 6 sts each rnd": spread over the round
            self.i = at + 2
            node.evenly, node.place = True, Place(n=None, extent=Extent())
            node.span = self.span(start)
            return self.put(frame, node)
        left = 2 if node.kind == "dec" else self.lexicon.fact(node.kind).legs or 2 if node.kind.endswith("tog") else 1
        named = k[here] == "AT" and k[here + 1] in ("W", "U") and k[here + 2] == "EXTEND"  # "at neck edge": one of the two ends
        if k[here] == "AT" and (k[here + 1] in _ENDS or named) and (node.n == 1 or not shaping):  # "dec 1 st at beg of each row"
            both = k[here + 2 + named] == "AND" and k[here + 3 + named] in _ENDS
            if not shaping and not both:
                return False
            self.i += 2 + named + 2 * both
            where = "both" if both else "first" if k[here + 1] == "BEG" else "last"
        else:
            at = here + (k[here] in ("AT", "IN", "OF"))
            if k[at] not in ("EACH", "BOTH") or k[at + 1] not in ("ENDING", "SIDE", "EXTEND") or not shaping and (k[here] != "AT" or k[at + 1] == "SIDE" and not gathers):  # "inc 1 st each end" without "at", too
                return False
            self.i, where = at + 2, "both"
        while k[self.i] in _OF_ROWS and k[self.i + 1] != "ST":
            self.i += 1
        self.i += k[self.i - 1] == "OF" and k[self.i] in ("W", "U")  # "of the underarm"
        plain = self._stitches_between(frame)
        if where == "first" and plain is None and k[self.i] in (",", "AND") and (k[self.i + 1] in ("ST", "OWN") or k[self.i + 1] == "NUM" and k[self.i + 2] in ("ST", "OWN")):
            node.place, node.over, node.span = Place("first", n=left), left > 1, self.span(start)
            return self.put(frame, node)  # "dec at beg, sc to last 2, dec": what comes between is told
        base = node.base if plain is None or node.base != plain.kind else None
        span = self.span(start)
        number = 1 if shaping else node.n
        first = Stitch(node.kind, number, Place("first", n=left), base=base, over=left > 1, span=span)
        last = Stitch(node.kind, number, Place("last", n=left), base=base, over=left > 1, span=span)
        self._put_ends(frame, plain, None if where == "last" else first, None if where == "first" else last, Extent() if where == "first" else Extent("last", left), span)
        return True

    def _put_ends(self, frame, plain, first, last, extent: Extent, span) -> None:
        """What is worked at the ends, and between them the plain stitches read before or what is set."""
        rest = Go(extent, span) if plain is None else replace(plain, evenly=False, place=replace(plain.place, extent=extent))
        if plain is not None:
            frame.steps.pop()
        frame.steps.extend(step for step in (first, rest, last) if step is not None)
        self.moved = True

    def ends_together(self, frame, at: int, start: int) -> bool:
        """ "sc across, working first 2 and last 2 sts together", "dec over first 2 and last 2 sts": token `at` is the first place."""
        k, legs, which = self.k, [], []
        while k[at] in ("FIRST", "LAST") and k[at + 1] == "NUM" and isinstance(self.v[at + 1], int):
            which.append(k[at].lower())
            legs.append(self.v[at + 1])
            at += 2 + (k[at + 2] == "STN")
            at += k[at] == "AND" and k[at + 1] == "LAST"
        told = k[at] == "TOG" or self._word(start)[:3] == "dec"
        plain = frame.steps[-1] if frame.steps else None
        if not told or which not in (["first"], ["last"], ["first", "last"]) or k[at - 1] != "STN" or len(set(legs)) > 1 or type(plain) is not Stitch:
            return False
        kind = f"{plain.kind}{legs[0]}tog"
        plain = self._stitches_between(frame)
        if plain is None or self.lexicon.fact(kind) is None:
            return False
        self.i = at + (k[at] == "TOG")
        span = self.span(start)
        ends = {one: Stitch(kind, 1, Place(one, n=legs[0]), over=True, span=span) for one in which}
        self._put_ends(frame, plain, ends.get("first"), ends.get("last"), Extent("last", legs[0]) if "last" in ends else Extent(), span)
        return True

    def skip_ends(self, frame) -> bool:
        """ "sc in each st across, skipping 1 st at beginning and end of row", "sk one st at each end": the hook stands at "skip"."""
        k, start = self.k, self.i
        at = start + 1
        number = self.v[at] if k[at] == "NUM" else 1
        at += k[at] == "NUM"
        at += k[at] in ("STN", "ST")
        if k[at] != "AT" or at == start + 1 or self.in_round:
            return False
        if k[at + 1] in _ENDS and k[at + 2] == "AND" and k[at + 3] in _ENDS:
            at += 4
        elif k[at + 1] in ("EACH", "BOTH") and k[at + 2] in ("ENDING", "EXTEND"):
            at += 3
        else:
            return False
        while k[at] in _OF_ROWS and k[at + 1] != "ST":
            at += 1
        self.i = at
        span = self.span(start)
        self._put_ends(frame, self._stitches_between(frame), Skip(Place("first", n=number), span=span), Skip(Place("last", n=number), span=span), Extent("last", number), span)
        return True

    def between_told(self, frame, node: Stitch, start: int) -> bool:
        """ "sc2tog at each end, sc in between", "..., sc the rest": the stitches between two ends that were told without them."""
        k, steps = self.k, frame.steps
        go = steps[-2] if len(steps) > 2 else None
        if type(go) is not Go or go.extent is None or go.extent.kind != "last" or node.n != 1 or self._shapes(node) or go.span != steps[-1].span or go.span != steps[-3].span:
            return False
        at = self.i
        while k[at] in ("IN", "EACH", "ALL", "OTHER", "REM", "STN", "ST", "BETWEEN", "OVER", "ACROSS", "TOEND", "OF", "ROW") or k[at] == "W" and self._word(at) in ("others", "all"):
            at += 1
        if at == self.i or k[at] not in (",", ".", ";", "END", "TURN", "(", "[", ")", "=", "DASH", ":"):
            return False
        self.i = at
        node.place, node.span = Place(n=None, extent=go.extent), self.span(start)
        steps[-2] = node
        return True

    def ends_alone(self, steps: list) -> None:
        """ "Rows 2-7: 2 sc in first and last st of every row": nothing else is told, so that what is set lies between them."""
        made = [step for step in steps if not isinstance(step, _BESIDES)]
        if self.in_round or self.first_row or len(made) != 2 or any(type(step) is not Stitch or step.place is None or step.place.of != "st" for step in made):
            return
        first, last = made
        if first.place.which == "first" and last.place.which == "last" and first.kind == last.kind and first.n == last.n and first.kind != "slst" and first.place.n == last.place.n and isinstance(last.place.n, int) and (
            first.n != 1 or self._shapes(first)
        ):
            steps.insert(steps.index(last), Go(Extent("last", last.place.n), first.span))

    def _plain_throughout(self, frame) -> None:
        """ "sc, dec 1 st at each end", "sc, inc 6 evenly": a stitch that begins the row and says no more is worked in every one."""
        plain = frame.steps[-1] if frame.steps else None
        if type(plain) is Stitch and plain.place is None and plain.n == 1 and not self._shapes(plain) and plain.kind != "slst" and all(type(step) in (Chain, Turn, Note) for step in frame.steps[:-1]):
            plain.place = Place(n=None, extent=Extent("open"))

    def _stitches_between(self, frame) -> Stitch | None:
        """The plain stitches to the end just read: in "hdc across, decreasing 1 st at each end" they lie between the ends."""
        plain = frame.steps[-1] if frame.steps else None
        if type(plain) is Go and (plain.extent is None or plain.extent.kind == "end"):
            frame.steps.pop()  # "work even, inc 1 st at each end": the pattern goes on between the ends
            return None
        self._plain_throughout(frame)
        if type(plain) is not Stitch or plain.n != 1 or self._shapes(plain) or plain.place is None or plain.place.of in NO_STITCHES or plain.place.extent is None:
            return None
        return plain if plain.place.extent.kind in ("end", "open") else None
