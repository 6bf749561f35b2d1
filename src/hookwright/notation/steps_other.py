"""Turning, joining, fastening off, colours, markers, stitches left, and sentences that say where to work."""

from dataclasses import replace

from .tree import (
    Chain,
    Colour,
    Extent,
    FastenOff,
    Go,
    Join,
    JoinYarn,
    Leave,
    Mark,
    NoJoin,
    Note,
    Place,
    Repeat,
    Ring,
    Stitch,
    Turn,
)

_TARGETS = frozenset(("first", "chain top", "beginning", "same"))
_NAME_WORDS = frozenset(("SHADE", "U", "W", "YARN", "COLOUR", "LAST", "FIRST"))


class OtherReading:
    """Reads the steps that make no stitch."""

    def act_turn(self, frame) -> bool:
        start = self.i
        self.i += 1
        if self.k[self.i] == "TO" and self.k[self.i + 1] in ("IN", "ACROSS"):  # "turn to work on other side of chain"
            self.i += 1
            place = self.place()
            if place is not None and place.which in ("other side", "row ends"):
                self.context = place
                return True
            self.i = start + 1
        frame.steps.append(Turn(span=self.span(start)))
        return True

    def act_fasten(self, frame) -> bool:
        k, start = self.k, self.i
        self.i += 1
        after = self.i
        while k[self.i] in ("SHADE", "U", "W", "YARN", "COLOUR", "AND", "ENDING") and self.i - after < 5:
            if k[self.i] == "AND" and k[self.i + 1] not in ("W", "REMARK", "U", "SHADE"):
                break
            self.i += 1
        frame.steps.append(FastenOff(span=self.span(start)))
        return True

    def act_do_not(self, frame) -> bool:
        k, start = self.k, self.i
        kind = k[start]
        self.i += 1
        if kind == "NOT":
            if k[self.i] in ("TURN", "JOIN"):
                self.i += 1
                frame.steps.append(NoJoin(k[self.i - 1] == "TURN", span=self.span(start)))
                return True
            while k[self.i] not in (".", ",", ";", "END", ")", "]"):
                self.i += 1
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        span = self.span(start)
        if kind == "DONOTFASTEN":
            frame.steps.append(Note(self.text[span.start:span.end], span))
        else:
            frame.steps.append(NoJoin(kind == "DONOTTURN", span=span))
            if k[self.i] in ("OR", "AND") and k[self.i + 1] in ("TURN", "JOIN"):
                self.i += 2
                frame.steps.append(NoJoin(k[self.i - 1] == "TURN", span=span))
        return True

    # ------------------------------------------------------------ joining

    def act_join(self, frame) -> bool:
        """ "join with sl st to first dc", "join", "join Green to any dc", "join to form a ring", "attach yarn in next sp"."""
        k, start = self.k, self.i
        yarn = k[start] == "ATTACH"
        standing, colour, place = "", "", None
        kind = "slst"
        self.i += 1
        at = self.i
        while k[self.i] in _NAME_WORDS and self.i - at < 5:
            if k[self.i] in ("W", "U") and self._word(self.i) in ("ends", "pieces", "edges", "next", "motif", "motifs", "square", "squares"):
                break
            if k[self.i] in ("FIRST", "LAST"):
                break
            self.i += 1
        named = range(at, self.i)
        if self.i > at and not any(k[here] in ("YARN", "COLOUR", "SHADE") or self._is_colour_word(here) or k[here] == "U" for here in named) or (
            k[start] == "ATTACH" and k[self.i] in ("FIRST", "LAST", "ORD")
        ):
            while k[self.i] not in (",", ";", ".", "END", ":", ")", "]"):
                self.i += 1
            span = self.span(start)  # "join the arms": told, not worked
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        if self.i > at:
            colour = self._colour_name(at, self.i)
            yarn = True
        if k[self.i] == "LAST" and k[self.i + 1] == "CH":  # "join last ch-2 with sl st to 4th ch of ch-6"
            self.i += 2
            while k[self.i] in ("HY", "NUM", "SP"):
                self.i += 1
        if k[self.i] == "WITH" and (k[self.i + 1] == "CH" and k[self.i + 2] != "TOP" or k[self.i + 1] == "NUM" and k[self.i + 2] == "CH") and frame.steps:
            self.i += 1  # "close with ch 2 and dc in first sc": the last space
            return True
        while True:
            nxt = k[self.i]
            if nxt == "WITH" and k[self.i + 1] in ("ST", "W", "U", "STANDING") and (k[self.i + 1] == "ST" or k[self.i + 2] == "ST"):
                self.i += 1
                if k[self.i] != "ST":
                    self.i += 1
                value = self.v[self.i]
                kind = value if isinstance(value, str) else value.kind
                if kind != "slst":
                    standing = kind
                self.i += 1
                continue
            if nxt == "ST" and self.v[self.i] == "slst" and k[self.i - 1] in ("JOIN", "ATTACH"):
                self.i += 1
                continue
            if nxt in ("WITH", "BY") and place is None and k[self.i + 1] in ("TOP", "FIRST", "NUM", "ORD", "LAST", "BEG", "TCH"):
                self.i += 1
                place = self.target()
                continue
            if nxt == "TO" and k[self.i + 1] in ("FORM", "RING") or nxt == "TO" and k[self.i + 1] == "W" and k[self.i + 2] in ("RING", "W"):
                return self._ring_of_chains(frame, start)
            if nxt in ("IN", "TO", "AT") and k[self.i + 1] in ("RING", "FORM") and not yarn:
                return self._ring_of_chains(frame, start)
            if nxt in ("IN", "TO", "AT", "AROUND", "THROUGH", "LOOP") and place is None:
                here = self.i
                place = self.place(to=True)
                if place is None:
                    self.i = here
                    break
                continue
            break
        span = self.span(start)
        if place is not None and place.which == "any":
            yarn = True
        if yarn or (not any(type(step) in (Stitch, Chain, Repeat) for step in frame.steps) and not self.depth and place is not None and not self.open_marks and place.which != "first"):
            frame.steps.append(JoinYarn(place, colour, standing, span))
            return True
        if frame.steps and all(type(step) in (Chain, Note, Colour) for step in frame.steps) and not self.moved and len(frame.steps) < 4 and (
            k[self.i] == "RING" or k[self.i] == "TO" and k[self.i + 1] in ("FORM", "W") or (place is not None and (place.of == "ch" or place.which == "first")) or self.first_row
        ):
            return self._ring_of_chains(frame, start)
        while k[self.i] in ("TO", "FOR") and k[self.i + 1] in ("JOIN", "W", "FORM", "ROUND", "ROW"):
            self.i += 2
            while k[self.i] in ("ROW", "ROUND", "AROUND"):
                self.i += 1
        frame.steps.append(Join(place, standing or "slst", span))
        return True

    def _ring_of_chains(self, frame, start: int) -> bool:
        k = self.k
        while k[self.i] in ("TO", "IN", "FORM", "W", "RING", "AROUND", "STN", "CH", "FIRST", "U", "MAGIC") and k[self.i] != "END":
            if k[self.i] == "CH" and k[self.i + 1] in ("NUM", "HY"):
                break
            self.i += 1
        frame.steps.append(Ring("chain", self.span(start)))
        self.ring_made = True
        return True

    def slip_stitch_joins(self, frame, start: int, number) -> bool:
        """After the words "slip stitch": whether it closes the round or the ring; the join is put, else nothing is read."""
        k, here = self.k, self.i
        if number not in (None, 1):
            return False
        kind = k[here]
        if kind == "TO" and k[here + 1] == "JOIN":
            self.i += 2
            place = self.place(to=True) if k[self.i] in ("IN", "TO") else None
            frame.steps.append(Join(place, span=self.span(start)))
            self._rest_of_join()
            return True
        if kind == "TO" and k[here + 1] == "FORM" or kind == "JOIN" and k[here + 1] in ("TO", "RING"):
            return self._ring_of_chains(frame, start)
        if kind not in ("TO", "IN", "JOIN"):
            if kind in ("END", ".", ")") and self.in_round and self.moved and not self.depth and not self.open_marks and frame.steps and self._rest_is_tail():
                frame.steps.append(Join(span=self.span(start)))
                return True
            return False
        if kind == "JOIN":
            self.i += 1
            place = self.place(to=True)
            frame.steps.append(Join(place, span=self.span(start)))
            return True
        place = self.place(to=True)
        if place is None:
            self.i = here
            return False
        if k[self.i] == "TO" and (k[self.i + 1] in ("FORM", "RING") or k[self.i + 1] == "W" and k[self.i + 2] == "RING"):
            return self._ring_of_chains(frame, start)
        if k[self.i] == "TO" and k[self.i + 1] == "JOIN":
            self._rest_of_join()
            frame.steps.append(Join(place, span=self.span(start)))
            return True
        ordinary = place.which in _TARGETS or (place.which == "nth" and place.of in ("st", "ch")) or place.of == "join" or (
            place.of == "slst" and place.which != "next"
        )
        made = self.moved or any(type(step) in (Stitch, Repeat) or getattr(step, "steps", None) for step in frame.steps)
        if ordinary and not self.depth and not self.open_marks and made and (kind == "TO" or self.in_round) and self._rest_is_tail():
            if place.which == "same":
                place.which = "first"
            frame.steps.append(Join(place, span=self.span(start)))
            self._rest_of_join()
            return True
        if ordinary and (kind == "TO" or self.in_round) and self.open_marks and made and k[self.i] in ("MARK", ".") and self._rest_is_tail() and place.which in ("first", "chain top"):
            frame.steps.append(Join(place, span=self.span(start)))
            return True
        if ordinary and place.which == "first" and frame.steps and all(type(step) in (Chain, Note, Colour) for step in frame.steps) and kind == "TO":
            return self._ring_of_chains(frame, start)
        self.i = here
        return False

    def _rest_of_join(self) -> None:
        """ "to close the row", "to join", "made"."""
        k = self.k
        if k[self.i] == "(" and self._aside_ahead():
            self.i = self.match[self.i] + 1
        if k[self.i] == "TO" and k[self.i + 1] in ("JOIN", "W"):
            self.i += 2
            while k[self.i] in ("ROW", "ROUND", "AROUND", "W", "RING"):
                self.i += 1

    def _rest_is_tail(self) -> bool:
        """Whether nothing but the end of the row follows: turn, fasten off, counts."""
        k, at = self.k, self.i
        while k[at] != "END":
            kind = k[at]
            if kind in ("(", "[") and self.match[at] > at:
                at = self.match[at]
            elif kind in ("ST", "OWN"):
                if k[at - 1] not in ("NUM", "HY", "STN") or k[at + 1] not in (".", "END", ",", ")", "]", "AND", "DASH", "TURN", "STN", "QC", "HAVE", "TOTAL", "="):
                    return False
            elif kind in ("REP", "SKIP", "INTHISWAY", "CONTINUE"):
                return False
            elif kind == "MARK" and k[at + 1] not in ("END", ".", "MARK"):
                return False
            at += 1
        return True

    # ------------------------------------------------------------ colours

    def _word(self, at: int) -> str:
        return self.text[self.s[at]:self.e[at]].lower()

    def _colour_name(self, first: int, after: int) -> str:
        """The colour in tokens [first, after): without "yarn", "new", "colour"."""
        words = [self.text[self.s[at]:self.e[at]] for at in range(first, after) if self.k[at] not in ("YARN", "COLOUR") and self._word(at) not in ("new", "working", "same")]
        return " ".join(words)

    def act_colour(self, frame) -> bool:
        """ "change to B", "With CC -", "with red,", "switch colour to slate in last st", "B:"."""
        k, start = self.k, self.i
        kind = k[start]
        at = start + 1
        if kind == "SHADE":
            at = start
        elif kind == "COLOUR":
            if k[at] not in ("SHADE", "NUM", "U"):
                return False
        elif kind == "CHANGE":
            if k[at] in ("COLOUR", "YARN"):
                at += 1
            if k[at] in ("TO", "IN"):
                at += 1
            elif k[at] != "SHADE" and k[at - 1] != "COLOUR":
                return False
            elif k[at] not in ("SHADE", "U"):
                return False
        elif k[at] in ("RS", "WS", "BACKFACING"):
            return False
        first = at
        while k[at] in ("SHADE", "U", "COLOUR", "YARN", "FIRST", "ORD") or k[at] == "W" and self._is_colour_word(at) or k[at] == "NUM" and k[at - 1] == "COLOUR":
            at += 1
            if at - first > 4:
                return False
        if at == first or kind == "WITH" and k[first] == "U" and k[at] in ("OF", "ST", "IN") and k[at] != "ST":
            return False
        if all(kind in ("FIRST", "ORD", "YARN") for kind in k[first:at]):
            return False
        name = self._colour_name(first, at)
        if not name:
            name = self.text[self.s[first]:self.e[at - 1]]
        self.i = at
        if kind == "CHANGE":
            while k[self.i] in ("IN", "AT", "LAST", "STN", "ST", "YO", "WITH", "OF", "ROW", "ROUND", "W", "SP", "ENDING", "THIS", "THROUGH", "FINAL", "HOOK") and not (
                k[self.i] == "ST" and k[self.i - 1] not in ("LAST", "IN", "OF", "THIS")
            ):
                self.i += 1
        frame.steps.append(Colour(name, span=self.span(start)))
        if k[self.i] in ("DASH", ":", ","):
            self.i += 1
        return True

    def _is_colour_word(self, at: int) -> bool:
        return self._word(at) in self.lexicon.colour_words()

    # ------------------------------------------------------------ markers, stitches left

    def act_marker(self, frame) -> bool:
        k, start = self.k, self.i
        words = self._word(start)
        act = "move" if words.startswith(("move", "sm", "slip", "replace")) else "remove" if words.startswith("r") else "place"
        self.i += 1
        place = self.place(to=True)
        while k[self.i] in ("W", "THIS", "STN", "U", "IN", "LAST", "FIRST", "OF", "AROUND", "ROW", "ROUND", "MARKER", "TO", "FOR", "BEG", "AS") and place is None:
            self.i += 1
        frame.steps.append(Mark(act, place, self.span(start)))
        return True

    def act_leave(self, frame) -> bool:
        """ "leave rem sts unworked", "leaving last 2 sts unworked", "leaving last loop of each on hook"."""
        k, start = self.k, self.i
        self.i += 1
        if k[self.i] in ("LAST", "FIRST") and k[self.i + 1] == "SP":
            self.i = start
            return self.act_described(frame)
        self.leaving = True
        place = self.target()
        if place is None and k[self.i] in ("W",):
            self.i += 1
            place = self.target()
        self.leaving = False
        while k[self.i] in ("ROW", "ROUND", "OF", "STN", "PREVIOUS", "AROUND", "THIS"):
            self.i += 1
        if k[self.i] != "UNWORKED":
            self.i = start
            return False
        self.i += 1
        number = None if place is None or place.n is None else place.n
        frame.steps.append(Leave(number, span=self.span(start)))
        return True

    # ------------------------------------------------------------ as before, and so on

    def act_go(self, frame) -> bool:
        k, start = self.k, self.i
        self.i += 1
        while k[self.i] in ("GO", "INTHISWAY"):
            self.i += 1
        extent = self.extent()
        frame.steps.append(Go(extent, self.span(start)))
        return True

    def act_continue(self, frame) -> bool:
        """ "continue around", "carry on in this way to end", "continue in sc", "continue in patt"."""
        k, start = self.k, self.i
        self.i += 1
        manner = k[start] == "INTHISWAY"
        while k[self.i] in ("INTHISWAY", "WORKING", "IN", "WITH", "REP", "CONTINUE", "GLUE"):
            manner = manner or k[self.i] in ("INTHISWAY", "REP")
            if k[self.i] in ("IN", "WITH") and k[self.i + 1] not in ("ST", "INTHISWAY", "GO", "OWN"):
                break
            self.i += 1
        kind = k[self.i]
        if kind == "GO":
            return self.act_go(frame)
        if kind == "IN":
            place = self.place()
            if place is not None and place.which in ("other side", "row ends", "ring"):
                self.context = place
                return True
            self.i = start
            return False
        if kind in ("ST", "OWN"):
            keep = self.i
            value = self.v[keep]
            if k[keep - 1] == "IN" and isinstance(value, str):
                self.i += 1
                while k[self.i] == "STN":
                    self.i += 1
                place = self.place()
                if place is None:
                    place = Place(n=None, extent=Extent("open"))
                self.put(frame, Stitch(value, 1, place, span=self.span(start)))
                return True
            return True
        if self.extent_ahead():
            return self.again_extent(frame, True)
        if manner or kind in (",", ".", ";", "END") and k[start] == "CONTINUE":
            return self.bare_repeat(frame, start, extent=Extent(), onward=True)
        return False

    def act_alternate(self, frame) -> bool:
        """ "alternate sc in next st with dc in the one after, all along the row"."""
        from .steps import Frame

        k, start = self.k, self.i
        self.i += 1
        inner = Frame()
        for _ in range(2):
            keep = self.i
            if k[self.i] == "NUM":
                done = self.act_number(inner)
            elif k[self.i] in ("ST", "OWN"):
                done = self.stitch(inner, None, keep)
            else:
                done = False
            if not done:
                return False
            while k[self.i] in ("WITH", "AND", ","):
                if k[self.i] == "," and len(inner.steps) > 1:
                    break
                self.i += 1
        if k[self.i] == ",":
            self.i += 1
        extent = self.extent() or Extent()
        return self.put_repeat(frame, Repeat(inner.steps, extent=extent), start)

    # ------------------------------------------------------------ where to work

    def act_loop(self, frame) -> bool:
        """ "BLO, ...", "Back loop only: ...", "... in BLO." : a loop said for the row, or for the next stitch."""
        k, start = self.k, self.i
        loop = self.v[start]
        if k[start + 1] == "OF":
            return self.act_place_first(frame)
        self.i += 1
        if k[self.i] in ("ST", "OWN", "NUM") and k[start - 1] not in (".", ":") and start:
            before = len(frame.steps)
            done = self.act_number(frame) if k[self.i] == "NUM" else self.stitch(frame, None, self.i)
            if done and len(frame.steps) > before and type(frame.steps[before]) is Stitch:
                frame.steps[before].loop = "" if loop == "both" else loop
            return done
        self.loop_for_row(frame, loop)
        return True

    def loop_for_row(self, frame, loop: str) -> None:
        """A loop said by itself: for all that follows, or at the end of the row for all that went before."""
        loop = "" if loop == "both" else loop
        self.row_loop = loop
        if self._rest_is_tail() and frame.steps:
            self._loop_all(frame.steps, loop)

    def _loop_all(self, steps, loop: str) -> None:
        for step in steps:
            if type(step) is Stitch and not step.loop and step.kind != "slst" and not (step.place is not None and step.place.loop):
                step.loop = loop
            elif getattr(step, "steps", None):
                self._loop_all(step.steps, loop)

    def act_working(self, frame) -> bool:
        """ "working in back loops only", "working through both thicknesses", "working into the spaces just made, ..."."""
        k, start = self.k, self.i
        at = start + 1
        if k[at] in ("NUM", "ST", "OWN") and frame.steps:  # "sc in each st across, working 2 sc in last st"
            number = self.v[at] if k[at] == "NUM" else None
            self.i = at + (k[at] == "NUM")
            before, last = len(frame.steps), self.last_step(frame)
            if k[self.i] in ("ST", "OWN") and not getattr(last, "evenly", False) and self.stitch(frame, number, at):
                if all(getattr(step, "place", None) is not None for step in frame.steps[before:]):
                    return True
                del frame.steps[before:]
            self.i = start
            return self._worked_note(frame, start, at)
        if k[start] == "PLACING":
            return False
        if k[at] in ("(", "[") and self.match[at] > at and frame.steps and self._follows(self.match[at]) == "steps":
            self.i = at  # "dc in each st around, working (dc, ch 1, dc) in each corner"
            return self.act_bracket(frame)
        if "SIDE" in k[at:at + 3] and "OF" in k[at:at + 4] and k[k.index("OF", at) + 1] == "NUM":
            while k[self.i] not in (",", ";", ".", "END", ":"):
                self.i += 1
            return True  # "working on the other side of the 2 chains": the chains that come next
        while (k[at] not in ("IN", "THROUGH", "ACROSS", "OVER", "AROUND", "LOOP", "TO") or k[at - 1] == "THIS") and k[at] not in (",", ";", ".", "END", ":", "(", "ST", "CH") and at - start < 9:
            at += 1
        if k[at] not in ("IN", "THROUGH", "ACROSS", "OVER", "AROUND", "LOOP"):
            return self._worked_note(frame, start, at)
        self.i = at
        place = self.place()
        loop, layers = self.found_loop, self.found_layers
        if place is None and not loop and layers == 1:
            while k[self.i] not in (",", ";", ".", "END", ":", ")", "]"):
                self.i += 1
            return self._worked_note(frame, start, self.i)
        if k[self.i] in ("TO", "W") and k[self.i + 1] in ("W", "REMARK", "JOIN", "U"):
            while k[self.i] not in (",", ";", ".", "END", ":"):
                self.i += 1
        if place is not None and place.loop:
            loop, place = place.loop, None
        if loop:
            self.loop_for_row(frame, loop)
        if layers > 1:
            self.row_layers = layers
        if place is not None and (place.of != "st" or place.which in ("from hook", "other side", "row ends", "ring", "free loops")):
            self.context = place
            if place.extent is not None and place.extent.kind == "open":
                place.extent, place.n = None, 1
        if k[self.i] == "(":
            return True
        return True

    def act_behind(self, frame) -> bool:
        """ "working behind sts just made", "in front of the ch-2 sps": how, not what."""
        return self._worked_note(frame, self.i, self.i + 1)

    def _worked_note(self, frame, start: int, after: int) -> bool:
        k = self.k
        while k[after] not in (",", ";", ".", "END", ":", ")", "]", "(", "SKIP") and not (
            k[after] in ("ST", "NUM") and k[after - 1] in ("MADE", "STN", "SP") and after > start + 2
        ):
            after += 1
        self.i = after
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def act_place_first(self, frame) -> bool:
        """A place before its stitches: "in next loop make 3 dc, ch 2, 3 dc"; or "in BLO", "around" after a comma."""
        k, start = self.k, self.i
        if k[start] == "AT" and self._at_row_end(frame):
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
                    step.place = place
                    self.moved = True
                    return True
                return False
            if type(step) is not Chain:
                return False
        return False

    def act_each_first(self, frame) -> bool:
        """ "Next work 3 dc in ..."; "next st: 2 dc"; "each st: 2 sc"."""
        k, start = self.k, self.i
        place = self.target()
        if place is not None and k[self.i] not in ("IN", "OVER", "AROUND") and self.gather(frame, place, start):
            return True
        if k[start] in ("NEXT", "LAST", "FIRST", "ORD"):
            self.i = start + 1
            while k[self.i] == ",":
                self.i += 1
            return k[self.i] in ("NUM", "ST", "CH", "OWN", "SKIP", "JOIN", "TURN")
        return False

    def act_space(self, frame) -> bool:
        """ "Sp first st" for "skip"; "work blocks across" for "go on with the blocks"."""
        k, start = self.k, self.i
        if self._word(start) == "sp" and k[start + 1] in ("FIRST", "NEXT", "NUM", "ORD", "LAST"):
            return self.act_skip(frame)
        if self.v[start] == "group" and k[start + 1] in ("ACROSS", "AROUND", "TOEND"):
            self.i += 1
            extent = self.extent()
            while k[self.i] in ("ROW", "W", "GO", "THIS", "AROUND", "AS", "ROUND", "IN"):
                self.i += 1
            frame.steps.append(Go(extent, self.span(start)))
            return True
        return False

    def act_reach(self, frame) -> bool:
        """ "When you reach the last st, 2 sc in it": what went before goes only so far."""
        k, start = self.k, self.i
        self.i += 1
        extent = self._limit("TO")
        last = self.last_step(frame)
        if extent is None or extent.kind not in ("last", "place") or last is None:
            return False
        place = getattr(last, "place", None)
        if type(last) in (Go, Repeat):
            last.extent = extent
        elif place is not None and place.extent is not None:
            place.extent = extent
        else:
            self.i = start
            return False
        while k[self.i] in (",", "AND", "BUT"):
            self.i += 1
        return True

    def act_begin(self, frame) -> bool:
        """ "Starting at 1 ch. space on one side, ...", "beginning in the corner": told, not worked."""
        k, start = self.k, self.i
        self.i += 1
        if k[self.i] in ("ST", "OWN"):
            return True  # "beg cl in ring"
        if k[self.i] == "WITH" and k[self.i + 1] in ("MAGIC", "SHADE", "NUM", "ST", "CH"):
            self.i += 1
            if k[self.i] == "SHADE":
                self.i -= 1
            return True
        if k[self.i] not in ("AT", "IN", "WITH", "FROM", "NEXT"):
            return False
        if k[self.i] == "FROM":
            self.i += 1
            place = self.target()
        else:
            place = self.place() if k[self.i] in ("AT", "IN") else None
        if place is not None and place.which == "from hook":
            self.context = place  # "start in 2nd ch from hook: sc 5"
            return True
        while k[self.i] not in (",", ";", "END", ")", "]", ":", "MARK", "AND") and not (k[self.i] == "." and self._ends_sentence()):
            self.i += 1
        span = self.span(start)
        if place is not None and place.of in ("sp", "corner") and place.which in ("next", "any"):
            place.which = "any"
            frame.steps.append(JoinYarn(place, span=span))
        else:
            frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def act_standing(self, frame) -> bool:
        """ "standing dc in any corner": yarn joined with the stitch itself."""
        k, start = self.k, self.i
        self.i += 1
        if k[self.i] != "ST" or not isinstance(self.v[self.i], str):
            return False
        kind = self.v[self.i]
        self.i += 1
        place = self.place(to=True)
        frame.steps.append(JoinYarn(place, "", kind, self.span(start)))
        return True

    def _whole_edge(self) -> Extent:
        extent = self.extent()
        while self.k[self.i] in ("EXTEND", "U", "W") and self.k[self.i - 1] in ("AROUND", "ACROSS", "W", "U"):
            self.i += 1
        return extent

    def row_of(self, frame) -> bool:
        """ "1 row of sc", "work 1 round in dc evenly around": that stitch all along."""
        k, start = self.k, self.i
        at = start + (k[start] == "NUM")
        if k[at] not in ("ROW", "ROUND", "AROUND"):
            return False
        at += 1
        while k[at] in ("OF", "IN", "W"):
            at += 1
        if k[at] != "ST" or not isinstance(self.v[at], str):
            return False
        self.i = at + 1
        if k[self.i] == "EVENLY":
            self.i += 1
        extent = self._whole_edge() if self.extent_ahead() else Extent("open")
        return self.put(frame, Stitch(self.v[at], 1, Place(n=None, extent=extent), span=self.span(start)))

    def act_place(self, frame) -> bool:
        """ "place 3 sc in each corner": the verb is passed over."""
        self.i += 1
        return self.k[self.i] in ("NUM", "ST", "OWN")

    def act_evenly(self, frame) -> bool:
        self.i += 1
        while self.k[self.i] in ("U", "W"):
            self.i += 1
        self.evenly = self.k[self.i] in ("NUM", "ST")
        return self.evenly

    def act_move(self, frame) -> bool:
        """ "jump to the next space and work 3 dc": the place first."""
        k, start = self.k, self.i
        self.i += 1
        place = self.target()
        if place is None:
            return False
        while k[self.i] in ("AND", ","):
            self.i += 1
        return self.gather(frame, place, start)

    def act_all_in(self, frame) -> bool:
        """ "..., all in next st", "..., all into ring"."""
        self.i += 1
        if self.k[self.i] == "MADE":
            self.i += 1
        if self.k[self.i] != "IN" or not frame.steps:
            return False
        place = self.place()
        if place is None:
            return False
        if self.ring_wanted:
            self.make_ring(frame)
        self.all_placed(frame, place)
        return True
