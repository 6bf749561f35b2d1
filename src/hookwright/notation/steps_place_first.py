"""The place before its stitches: "in next loop make 3 dc", "each st: 2 sc", "both sides together with 6 sc"; or after them all: "..., all in next st"."""

from dataclasses import replace

from .steps_frame import Frame
from .tree import Chain, Colour, Extent, Go, Group, Note, Place, Repeat, Stitch, Turn

_PLACES = frozenset(("SP", "CH", "ST", "STN", "OWN"))


def to_each(tokens) -> None:
    """ "2 dc to each st", "to each loop: ...": into each of them; "dc in each st to each corner" is as far as."""
    k, words = tokens.kinds, tokens.text
    for at in range(len(k) - 3):
        if k[at] != "TO" or k[at + 1] != "EACH" or k[at + 2] not in _PLACES or words[tokens.starts[at + 2]:tokens.ends[at + 2]].lower().startswith("corner"):
            continue
        before = k[at - 1] if at else "."
        if before in (")", "]") or before in ("ST", "OWN") and (at < 2 or k[at - 2] in ("NUM", "AND", ",", ".", ":", "(", "[", "MARK")) or before in (".", ";", ":", "MARK", "NUM"):
            k[at] = "IN"


class PlaceFirstReading:
    """Reads places that are told apart from their stitches."""

    def act_place_first(self, frame) -> bool:
        """A place before its stitches: "in next loop make 3 dc, ch 2, 3 dc"; or "in BLO", "around" after a comma."""
        k, start = self.k, self.i
        if self.colour_kind is not None and self.names_the_stitch(frame, start):
            return True
        if k[start] == "AT" and k[start + 1] == "LAST" and k[start + 2] == "SP" and k[start + 3] in (",", "NOT") and type(self.last_step(frame)) is Go and self.act_reach(frame):
            return True
        if k[start] in ("AT", "IN") and (change := self._when_changed(start)):
            self.i = change
            return True
        if k[start] == "AT" and self._at_row_end(frame) or k[start] == "IN" and self.every_first(frame):
            return True
        if k[start] == "AROUND" and k[start + 1] in (":", ",") and not self.depth and not self.open_marks and all(type(step) in (Chain, Note) for step in frame.steps):
            return self._all_around(frame)
        if k[start] == "IN" and k[start + 1] == "SHADE" and k[start + 2] in (":", ",", "ST", "NUM", "CH", "(", "[", "DASH"):
            self.i = start + 1
            return self.act_colour(frame)
        if k[start] == "IN" and k[start + 1] == "ST" and self._all_in_one_stitch(frame, start):
            return True
        place = self.place()
        if place is None:
            if self.found_loop:
                self.loop_for_row(frame, self.found_loop)
                return True
            return False
        if k[start] in ("AROUND", "ACROSS") and place.of == "st" and place.n is None and not place.post and place.which == "next":
            self.i = start
            return self.again_extent(frame)
        if self.ring_wanted:
            self.make_ring(frame)
        if k[start] == "IN" and k[start + 1] == "ST" and self.i == start + 2 and isinstance(self.v[start + 1], str) and self.extent_ahead():
            return self.put(frame, Stitch(self.v[start + 1], 1, Place(n=None, extent=self._whole_edge()), span=self.span(start)))  # "in dc all round edge"
        if place.which in ("other side", "row ends"):
            at = self.i + (k[self.i] in (",", ":", "DASH"))
            if k[at] in ("NUM", "ST", "OWN", "(", "[", "MARK", "SKIP"):
                self.context = place
                return True
        if k[self.i] in ("U", "W", "SP") and k[self.i + 1] == ":" and place.of in ("sp", "corner", "gap", "group"):
            self.i += 1  # "in each ch-5 loop make a petal: sc, hdc, ..."
        if self.gather(frame, place, start):
            return True
        if k[self.i] in (",", ":", "DASH") and place.which in ("ring", "other side", "row ends"):
            self.context = place
            return True
        last = frame.steps[-1] if frame.steps else None
        if type(last) is Stitch and last.place is not None and k[start - 1] in (",", ";") and k[self.i] in (",", ";", ".", "END", ")", "]", "MARK", "TURN"):
            self.put(frame, replace(last, place=place, loop=self.found_loop or "", span=self.span(start)))  # "sc in both loops of next 3, in BLO of next 3"
            return True
        if frame.steps and k[start] == "IN" and self._place_late(frame, place):
            return True
        if k[self.i] in (",", ":", "."):
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        return False

    def _all_in_one_stitch(self, frame, start: int) -> bool:
        """ "Work in sc, ch 1, turn", "Work in hdc.": nothing else is worked in the row."""
        k, kind = self.k, self.v[start + 1]
        at = start + 2
        if self.depth or self.open_marks or not isinstance(kind, str) or k[at] not in (",", ".", ";", "END", "TURN", "(", "[", "DASH", "AND"):
            return False
        fact = self.lexicon.fact(kind)
        if fact is None or fact.kind != "basic" or any(type(step) not in (Chain, Note, Colour, Turn) for step in frame.steps):
            return False
        if any(here in ("ST", "OWN", "MARK", "SKIP", "SP", "EACH", "NEXT", "REP") for here in k[at:]):
            return False
        self.i = at
        return self.put(frame, Stitch(kind, 1, Place(n=None, extent=Extent("end")), span=self.span(start)))

    def _all_around(self, frame) -> bool:
        """ "All the way around: sc, ch 1, skip a stitch.": what the sentence says, again and again."""
        start = self.i
        self.i += 2
        inner = Frame()
        self.sequence(inner, (".", ";", "JOIN", "TURN", "(", "DASH", "END"))
        if not inner.steps:
            self.i = start
            return False
        return self.put(frame, Repeat(inner.steps, extent=Extent(), span=self.span(start)))

    def _when_changed(self, start: int) -> int:
        """ "At the end of Rnd 26 change to white", "in the last st of row 9 switch to B": index of the change; 0 where another thing is said."""
        k, at = self.k, start + 1
        while k[at] in ("ENDING", "OF", "THIS", "LAST", "ROW", "ROUND", "AROUND", "PREVIOUS", "STN", ",") or k[at] == "NUM" and k[at - 1] in ("ROW", "ROUND", "AROUND") or k[at] == "ST" and k[at - 1] == "LAST":
            at += 1
        return at if k[at] == "CHANGE" and not {"ROW", "ROUND", "AROUND"}.isdisjoint(k[start:at]) else 0

    def _at_row_end(self, frame) -> bool:
        """ "At the end of the last row there are 24 dc": a count."""
        k, start = self.k, self.i
        at = start + 1
        while k[at] in ("ENDING", "BEG", "OF", "THIS", "LAST", "ROW", "ROUND", "AROUND", "PREVIOUS", "NUM", ",", "EACH"):
            at += 1
        if at == start + 1 or k[at] not in ("YOU", "HAVE"):
            return False
        self.i = at
        if self.act_count_sentence(frame):
            return True
        self.i = start
        return False

    def _place_late(self, frame, place: Place) -> bool:
        """A place after a comma or a chain: it belongs to the last stitch that has none."""
        for step in reversed(frame.steps):
            if type(step) is Stitch:
                if step.place is None:
                    at = len(frame.steps) - 2
                    if place.each and place.extent is not None and (place.of == "sp" or step.n != 1) and frame.steps[at] is step and (not at or getattr(frame.steps[at - 1], "place", 0) is not None):
                        frame.steps[at:] = [Group(frame.steps[at:], place, span=step.span)]  # "3 dc, ch 1 in each ch-1 sp": both, in each
                    else:
                        step.place = place
                    self.moved = True
                    return True
                return False
            if type(step) is not Chain:
                return False
        return False

    def act_as_far(self, frame) -> bool:
        """ "to last 2 sts, ..." at the head of a change: what another row does goes so far."""
        start = self.i
        if start or self.depth or frame.steps:
            return False
        extent = self.extent()
        if extent is None:
            return False
        frame.steps.append(Go(extent, self.span(start)))
        return True

    def act_each_first(self, frame) -> bool:
        """ "Next work 3 dc in ..."; "next st: 2 dc"; "each st: 2 sc"."""
        k, start = self.k, self.i
        if self.last_one(frame, start) or k[start + 1] == "ST" and self.last_begun(frame, start):
            return True
        if k[start] == "EACH" and self.every_first(frame) or k[start] == "NEXT" and self._word(start).startswith("fol") and self.following(frame):
            return True
        place = self.target()
        if place is not None and k[self.i] == "TOG" and place.n == 2:  # "work next 2 sts together"
            self.i += 1
            return self.put(frame, Stitch("dec", 1, place, span=self.span(start)))
        if place is not None and k[self.i] not in ("IN", "OVER", "AROUND") and self.gather(frame, place, start):
            return True
        if k[start] in ("NEXT", "LAST", "FIRST", "ORD"):
            self.i = start + 1
            while k[self.i] == ",":
                self.i += 1
            return k[self.i] in ("NUM", "ST", "CH", "OWN", "SKIP", "JOIN", "TURN")
        return False

    def act_any(self, frame) -> bool:
        """ "Any gap: ch 3, 2 dc": the place first, without its preposition."""
        start = self.i
        place = self.target()
        if place is None or place.of not in ("sp", "gap", "corner") or self.k[self.i] not in (":", "DASH"):
            return False
        return self.gather(frame, place, start)

    def act_move(self, frame) -> bool:
        """ "jump to the next space and work 3 dc": the place first."""
        k, start = self.k, self.i
        self.i += 1
        place = self.target()
        if place is None:
            return False
        while k[self.i] in ("AND", ","):
            self.i += 1
        if self.gather(frame, place, start):
            return True
        if k[self.i] == "MARK" and place.of in ("sp", "corner", "group", "gap"):
            self.context = place  # "moving to ch-3 space of next block, *sl st, ch 3, 3 dc* all in that space"
            return True
        self.last_limit = place  # "..., 5 dc in it"
        return k[self.i] in ("ST", "NUM", "OWN", "(", "[")

    def act_layers(self, frame) -> bool:
        """ "both edges together with 6 sc"."""
        return self._closed_with(frame, self.i)

    def act_all_in(self, frame) -> bool:
        """ "..., all in next st", "..., all into ring"; "both sides together with 6 sc"."""
        if self.colour_kind is not None and self.names_the_stitch(frame, self.i):
            return True
        if self.k[self.i] == "BOTH" and self._closed_with(frame, self.i):
            return True
        self.i += 1
        while self.k[self.i] in ("MADE", "OF", "THIS") or self._word(self.i) in ("it", "them"):
            self.i += 1  # "all of it in next st"
        if self.k[self.i] != "IN" or not frame.steps:
            return False
        place = self.place()
        if place is None:
            return False
        if self.ring_wanted:
            self.make_ring(frame)
        self.all_placed(frame, place)
        return True

    def filled(self, frame) -> bool:
        """ "fill each ch-5 loop with 6 sc": the place before its stitches."""
        start = self.i
        self.i += 1
        place = self.target()
        if place is not None and self.k[self.i] in ("WITH", ":"):
            self.i += 1
            if place.n is None and place.extent is not None and place.extent.kind == "open":
                place.extent = Extent("end", span=place.extent.span)
            if self.gather(frame, place, start):
                return True
        self.i = start
        return False
