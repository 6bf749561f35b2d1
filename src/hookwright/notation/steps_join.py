"""Joining: closing the round, joining chains into a ring, joining yarn."""

from dataclasses import replace

from .tree import (
    Chain,
    Colour,
    FastenOff,
    Group,
    Join,
    JoinYarn,
    Note,
    Place,
    Repeat,
    Ring,
    Stitch,
)

_TARGETS = frozenset(("first", "chain top", "beginning", "same"))
_SOMEWHERE = frozenset(("IN", "TO", "AT", "W", "U", "BETWEEN", "BASE", "SIDE"))
_NAME_WORDS = frozenset(("SHADE", "U", "W", "YARN", "COLOUR", "LAST", "FIRST"))


def _made(steps: list) -> bool:
    """Whether stitches have been worked (into a ring, too, where none of them says a place)."""
    return any(type(step) in (Repeat, Group) or type(step) is Stitch and step.kind != "slst" for step in steps)


class JoinReading:
    """Reads joins."""

    def act_join(self, frame) -> bool:
        """ "join with sl st to first dc", "join", "join Green to any dc", "join to form a ring", "attach yarn in next sp"."""
        k, start = self.k, self.i
        if self._closed_with(frame, start + 1):
            return True
        if k[start + 1] == "ANY" and any(type(step) is FastenOff for step in frame.steps) and self._word(start).startswith("clos"):
            return False  # "Fasten off and close any little gaps with the tail"
        if k[start + 1] == "WITH" and k[start + 2] == "NUM" and k[start + 3] == "ST" and self.v[start + 2] != 1 and {"THROUGH", "BOTH", "LAYERS"} & set(k[start + 4:start + 8]):
            self.i = start + 2  # "close with 6 sc through both layers"
            return True
        yarn = k[start] == "ATTACH"
        standing, colour, place = "", "", None
        kind = "slst"
        self.i += 1
        if k[self.i] == "SP" and self.v[self.i] == "leg" or k[self.i] in ("BOTH", "NUM") and k[self.i + 1] == "SP" and self.v[self.i + 1] == "leg":
            while k[self.i] not in (",", ";", ".", "END", ":", ")", "]"):
                self.i += 1
            span = self.span(start)  # "join the legs": told, the steps after it do it
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        if k[self.i] in ("EACH", "ALL") and (k[self.i + 1] in ("ROUND", "ROW") or k[self.i + 1] == "AROUND" and self._word(self.i + 1) == "round"):
            self.i += 2  # "joining each round with sl st to first sc"
        self.i += k[self.i] in ("NEXT", "LAST", "FIRST", "SAME") and k[self.i + 1] in ("COLOUR", "YARN", "SHADE")  # "join last colour to any dc"
        at = self.i
        while k[self.i] in _NAME_WORDS and self.i - at < 5:
            if k[self.i] in ("W", "U") and self._word(self.i) in ("ends", "pieces", "edges", "next", "motif", "motifs", "square", "squares"):
                break
            if k[self.i] in ("FIRST", "LAST"):
                break
            self.i += 1
        named = range(at, self.i)
        if k[self.i] == "ANY" and k[self.i + 1] == "NUM" or k[self.i] == "NUM" and k[self.i + 1] in ("SP", "W") and not yarn:
            while k[self.i] not in (",", ";", ".", "END", ":", ")", "]"):
                self.i += 1
            span = self.span(start)  # "join any 2 squares with sc": told, not worked
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
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
            chains = None
            while k[self.i] in ("HY", "NUM", "SP"):
                chains = self.v[self.i] if k[self.i] == "NUM" else chains
                self.i += 1
            before = frame.steps[-1] if frame.steps else None
            if chains is not None and type(before) is Repeat and before.ending is None and before.steps and type(before.steps[0]) is Chain and type(before.steps[-1]) is not Chain:
                frame.steps.append(Chain(chains, span=self.span(start)))  # "* ch 2, 4 dc in next sp. Repeat around. Join last ch-2 to ...": it is made here
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
            if nxt == "WITH" and not standing and k[self.i + 1] == "NUM" and self.v[self.i + 1] == 1 and k[self.i + 2] == "ST" and k[self.i + 3] in ("IN", "TO") and isinstance(self.v[self.i + 2], str):
                standing = self.v[self.i + 2] if self.v[self.i + 2] != "slst" else ""  # "close with 1 dc in first sc"
                self.i += 3
                continue
            if nxt in ("WITH", "BY") and place is None and k[self.i + 1] in ("TOP", "FIRST", "NUM", "ORD", "LAST", "BEG", "TCH"):
                self.i += 1
                place = self.target()
                continue
            if nxt == "TO" and k[self.i + 1] in ("FORM", "RING") or nxt == "TO" and k[self.i + 1] == "W" and k[self.i + 2] in ("RING", "W"):
                return self._ring_of_chains(frame, start)
            if nxt in ("IN", "TO", "AT") and k[self.i + 1] in ("RING", "FORM") and not yarn:
                return self._ring_of_chains(frame, start)
            if nxt in ("IN", "TO", "AT", "AROUND", "THROUGH", "LOOP", "BETWEEN") and place is None:
                here = self.i
                place = self.place(to=True)
                if place is None:
                    self.i = here
                    break
                if yarn and place.which == "chain top" and place.chains is None and place.ordinal is not None:
                    place = replace(place, which="nth", of="ch")  # "join yarn in 4th ch at underarm"
                if yarn and not standing and place.ordinal is None and place.of != "ch" and place.which != "free loops" and (k[self.i] == "OF" or k[self.i] == "SP" and self.v[self.i] == "corner"):  # "to the corner of one long side": told where, at an edge
                    self.i, place = here, None
                    break
                if place.which == "other side":  # "at underside of thumb opening"
                    place = None
                    while k[self.i] not in (",", ";", ".", "END", ":", ")", "]"):
                        self.i += 1
                    yarn = True
                    break
                continue
            break
        span = self.span(start)
        if place is not None and place.group[:3] == "leg" and (not yarn or not colour and any(type(step) is Chain for step in frame.steps)):  # "join to first leg with a sc": the legs come together, the round goes on
            if place.group == "leg":
                place.group = "leg 2" if place.ordinal == 2 or place.which == "last" else "leg 1"
            if standing:
                return self.put(frame, Stitch(standing, 1, replace(place, which="next", of="st", n=1, extent=None, ordinal=None), span=span))
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        if place is not None and place.which == "any":
            yarn = True
        if yarn and colour and place is not None and place.which == "last" and self.moved and not standing and self._word(start) == "joining":
            frame.steps.append(Colour(colour, True, span))  # "sc across, joining A in last sc"
            return True
        if yarn or (not any(type(step) in (Stitch, Chain, Repeat, Group) for step in frame.steps) and not self.depth and place is not None and not self.open_marks and (place.which != "first" or standing)):
            if place is not None and place.which == "same" and k[self.i] == "W":  # "at the base of the strap": no stitch of the row
                place = None
            frame.steps.append(JoinYarn(place, colour, standing, span))
            if place is None and k[self.i] in _SOMEWHERE:
                self._told_to_comma(frame)
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

    def _told_to_comma(self, frame) -> None:
        """ "at one of the side seams": where the yarn is joined, in words that name no stitch."""
        k, start = self.k, self.i
        while k[self.i] not in (",", ";", ".", "END", ":", ")", "]", "CH", "ST", "OWN") and not (k[self.i] == "AND" and k[self.i + 1] not in ("SIDE", "U")):
            self.i += 1
        if self.i > start:
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))

    def _closed_with(self, frame, at: int) -> bool:
        """ "(close) both sides together with 6 sc", "close it with 6 sc", from the words after the verb on: stitches through both layers."""
        k, start = self.k, self.i
        both = k[at] in ("BOTH", "LAYERS")
        what = at
        while at - what < 5 and k[at] in ("BOTH", "LAYERS", "SIDE", "EXTEND", "YOU", "SP", "W", "U", "TOP", "LAYER", "TOG"):
            at += 1
        if at == what or k[at] not in ("WITH", "ASFOLLOWS", ":") or not (both and "TOG" in k[what:at] or k[start] == "JOIN" and k[what] in ("YOU", "SP", "W", "TOP")):
            return False
        at += 1
        if k[at] != "NUM" or k[at + 1] != "ST" or k[at - 1] == "WITH" and k[at + 1] == "CH":
            return False
        self.i = at
        before, layers = len(frame.steps), self.row_layers
        self.row_layers = 2
        done = self.act_number(frame) and len(frame.steps) > before
        self.row_layers = layers
        if not done:
            self.i = start
        return done

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
        if kind == "TOEND" and self._word(here).lower().endswith("finish") and k[here + 1] in (".", ",", "END", "(", "[") and frame.steps:
            self.i += 1  # "sl st to finish"
            frame.steps.append(Join(span=self.span(start)))
            return True
        if kind in ("TO", "IN") and k[here + 1] == "TOP" and k[here + 2] in (".", ",", ";", "END", "(", "[", ")", "DASH") and self.in_round and self.moved and self._rest_is_tail():
            self.i += 2  # "sl st to top": of what the round began with
            frame.steps.append(Join(span=self.span(start)))
            return True
        if kind == "TO" and k[here + 1] == "JOIN":
            self.i += 2
            place = self.place(to=True) if k[self.i] in ("IN", "TO") else None
            frame.steps.append(Join(place, span=self.span(start)))
            self._rest_of_join()
            return True
        if kind == "TO" and k[here + 1] == "FORM" or kind == "JOIN" and k[here + 1] in ("TO", "RING"):
            return self._ring_of_chains(frame, start)
        if kind not in ("TO", "IN", "JOIN"):
            if kind == "W" and self._word(here) in ("closed", "shut") and self.in_round and frame.steps and not self.depth and not self.open_marks and k[here + 1] in (".", ",", ";", "END", "(", "[", ")"):
                self.i += 1  # "and slip stitch closed"
                frame.steps.append(Join(span=self.span(start)))
                return True
            if (kind in ("END", ".", ")") or kind == "," and k[here + 1] == "FASTEN" or kind in ("(", "[") and k[here + 1] == "NUM" and self.match[here] > 0 and k[self.match[here] + 1] in ("END", ".")) and self.in_round and (self.moved or _made(frame.steps)) and not self.depth and not self.open_marks and frame.steps and self._rest_is_tail():
                frame.steps.append(Join(span=self.span(start)))
                return True
            if kind == "," and frame.steps and not self.depth and not self.open_marks and (
                number == 1 and k[here + 1:here + 3] == ["NUM", "CH"] or k[here + 1:here + 3] == ["CH", "NUM"] and self.in_round and self.moved
            ):
                self.i = here + 3  # "1 ss, 1 ch", "sl st, ch 1" at the end of a round: joined, and the chain of the next
                if self._rest_is_tail():
                    self.i = here
                    frame.steps.append(Join(span=self.span(start)))
                    return True
                self.i = here
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
        if place.which == "ring" and not self.ring_made and self.last_step(frame) is not None and all(type(step) in (Chain, Note) for step in frame.steps):
            return self._ring_of_chains(frame, start)  # "ch 4, sl st into a ring": nothing is worked into it yet
        if (kind == "TO" or self._rest_is_tail()) and place.which == "next" and place.extent is None and self.in_round and self.moved and (
            place.of == "ch" and isinstance(place.n, int) and place.n > 1 or place.of == "sp" and place.n == 1 and isinstance(place.chains, int) and "SP" not in k[here:self.i]
        ):
            place = Place("chain top", n=1, chains=place.n if place.of == "ch" else place.chains, span=place.span)  # "ss to 3ch": to the chain the round began with
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
        if ordinary and place.which == "first" and kind == "TO" and all(type(step) in (Chain, Note, Colour) for step in frame.steps) and any(type(step) is Chain for step in frame.steps):
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
                if k[at - 1] not in ("NUM", "HY", "STN") or k[at + 1] not in (".", "END", ",", ")", "]", "AND", "DASH", "TURN", "STN", "QC", "HAVE", "TOTAL", "=", "|", "+", "/", ":") and not self._each_row(at + 1):
                    return False
            elif kind in ("REP", "SKIP", "INTHISWAY", "CONTINUE"):
                return False
            elif kind == "MARK" and k[at + 1] not in ("END", ".", "MARK"):
                return False
            at += 1
        return True

    def _each_row(self, at: int) -> bool:
        """Whether "each round", "in each row" stands at token `at`: the count before it is that of every row."""
        at += self.k[at] in ("IN", "FOR", "ON")
        return self.k[at] == "EACH" and (self.k[at + 1] in ("ROW", "ROUND", "TIMES") or self.k[at + 1] == "AROUND" and self._word(at + 1) == "round")

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
