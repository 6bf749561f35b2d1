"""Stitches: "3 dc in next ch-2 sp", "sc 4", "2 hdc in each of next 3 sts", "FPdc around next st", "dec over next 2 sts"."""

from dataclasses import replace

from hookwright.ground import Number

from .nouns import GROUP_KINDS
from .steps_every import EveryReading
from .steps_skip import SkipReading
from .steps_special import SpecialStitchReading
from .stitch_words import Named
from .tree import Chain, Extent, Group, Note, Place, Repeat, Stitch

_PLACE_STARTS = frozenset(("IN", "OVER", "THROUGH", "AROUND", "ACROSS", "BETWEEN", "NEXT", "EACH", "FIRST", "LAST", "SAME", "ALL", "TOEND", "LOOP", "TO", "UNTIL", "HALF", "AT"))
_AFTER_A_NUMBER = frozenset((",", ";", ".", ":", ")", "]", "}", "|", "END", "MARK", "(", "[", "AND", "IN", "OVER", "AROUND", "QC", "TURN", "STN", "DASH", "LOOP", "JOIN", "EVENLY", "SKIP", "REP", "NEXT", "TOG", "THROUGH", "ACROSS", "BETWEEN", "WITH", "FROM", "EACH", "SAME", "FIRST", "LAST", "TO", "TOEND", "REMARK", "CHANGE", "PM", "="))


def node_place(node) -> Place | None:
    """The place of a stitch or group, None where it has none."""
    return getattr(node, "place", None)


class StitchReading(SkipReading, SpecialStitchReading, EveryReading):
    """Reads stitches with their number and place."""

    def act_stitch(self, frame) -> bool:
        return self.stitch(frame, None, self.i)

    def act_number(self, frame) -> bool:
        """A number first: of stitches, of chains, of times, or a count."""
        k, start = self.k, self.i
        if self.count_here(frame):
            return True
        number = self.v[start]
        at = start + 1
        if k[at] == "MORE" and k[at + 1] in ("ST", "OWN", "CH", "LOOP"):
            at += 1
        if k[at] == "HY" and k[at + 1] in ("ST", "OWN", "CH"):
            at += 1
        kind = k[at]
        if kind in ("ROW", "ROUND", "AROUND") and number == 1 and self.row_of(frame):
            return True
        if kind == "LOOP" and k[at + 1] in ("ST", "OWN"):
            loop = self.v[at]
            self.i = at + 1
            done = self.stitch(frame, number, start)
            if done and frame.steps and type(frame.steps[-1]) is Stitch:
                frame.steps[-1].loop = loop
            return done
        if kind in ("ST", "OWN"):
            self.i = at
            return self.stitch(frame, number, start)
        if kind == "CH":
            return self.numbered_chain(frame, number, at)
        if kind == "X":
            return self._times_first(frame, number, at + 1)
        if kind in ("TIMES", "MORE"):
            return self.again_times(frame)
        if kind == "SHAPED" or kind == "STN" and k[at + 1] == "SHAPED":  # "1 st dec'd"
            self.i = at + 1 + (kind == "STN")
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        if kind == "IN" and k[at + 1] == "EACH" and frame.steps and getattr(frame.steps[-1], "evenly", False):
            while k[self.i] not in (",", ";", ".", "END", ")", "]"):
                self.i += 1
            span = self.span(start)  # "1 in each row end"
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        if kind == "STN" and k[at + 1] in _PLACE_STARTS and self.last_step(frame) is not None or kind == "STN" and k[at + 1] in ("IN", "EVENLY"):
            self.i = at
            return self._unnamed(frame, number, start)
        return self.bare_count(frame)

    # ------------------------------------------------------------ the stitch itself

    def stitch(self, frame, number: Number | None, start: int) -> bool:
        """A stitch phrase from the stitch's name on; `number` stood before it, `start` is its first token."""
        k = self.k
        value = self.v[self.i]
        self.i += 1
        while k[self.i] == "STN" or k[self.i] == "HY" and k[self.i + 1] == "STN":  # "dc sts", "puff-st"
            self.i += 1
        said = number
        if value in ("dc", "sc") and number is None and k[self.i] == "EACH" and k[self.i + 1] == "STN" and self._word(self.i - 1) == "double":
            value = "inc"  # "double every stitch"
        if k[self.i] in ("(", "[") and value in ("cl", "bobble", "popcorn", "puff") and self.match[self.i] == self.i + 3 and k[self.i + 1] == "NUM" and (
            k[self.i + 2] == "ST" and isinstance(self.v[self.i + 2], str)
        ):
            value = Named(value, self.v[self.i + 1], self.v[self.i + 2])  # "bobble (5 dc)"
            self.i += 4
        elif k[self.i] in ("(", "[") and value in ("cl", "bobble", "popcorn", "puff") and self.match[self.i] == self.i + 2 and k[self.i + 1] == "ST":
            fact = self.lexicon.fact(self.v[self.i + 1]) if isinstance(self.v[self.i + 1], str) else None
            if fact is not None and fact.kind == "decrease":  # "bobble (5 dc tog)"
                value = Named(value, fact.legs, fact.base)
                self.i += 3
        if k[self.i] == "(" and self._gloss_ahead():
            self.i = self.match[self.i] + 1
        value = self._either_terms(value)
        increase = self._increase_after(value)
        if increase:
            node = Stitch(value, increase)
            self._placed(frame, node, start, increase)
            if frame.steps and frame.steps[-1] is node and node.place is None:
                node.place = Place()  # "dc2inc": two in one stitch
            return True
        if number is None:
            number = self._number_after()
        elif k[self.i] == "MADE":
            self.i += 1
        if isinstance(value, Named) and value.kind == "inc" and number in (None, 1):
            node = Stitch(value.base, 2)  # "dc inc": two in one stitch
            self._placed(frame, node, start, 2)
            if frame.steps and frame.steps[-1] is node and node.place is None:
                node.place = Place()
            return True
        node = self._node(value, 1 if number is None else number)
        if node is None:
            return False
        if type(node) is Stitch and node.kind == "slst" and self.slip_stitch_joins(frame, start, said):
            return True
        loop, self.loop_after = self.loop_after, ""
        done = self._placed(frame, node, start, number)
        if loop and type(node) is Stitch:
            node.loop = "" if loop == "both" else loop
        return done

    def _number_after(self) -> Number | None:
        """ "sc 3", "sc x 3", "Fhdc-10", "inc 1": the number that stands after its stitch."""
        k = self.k
        at = self.i
        if at >= self.limit:
            return None
        if k[at] == "X" and k[at + 1] == "NUM":
            self.i = at + 2
            if k[self.i] == "TIMES":
                self.i += 1
            self.times_said = self.v[at + 1]
            return self.v[at + 1]
        if k[at] == "MARK" and self.v[at] == "*" and not self.open_marks and k[at + 1] == "NUM" and k[at + 2] not in ("ST", "CH", "OWN", "HY", "MORE", "X"):
            self.i = at + 2  # "dec * 7 (7)"
            return self.v[at + 1]
        if k[at] == "HY":
            at += 1
        loop = ""
        if k[at] == "LOOP" and k[at + 1] == "NUM":  # "scblo 10"
            loop = self.v[at]
            at += 1
        if k[at] != "NUM":
            return None
        after = k[at + 1]
        if after in ("ST", "OWN", "HY", "X", "MORE", "TIMES"):
            if after not in ("ST", "OWN") or not self.numbers_after:
                return None
        elif after == "CH":
            if k[at + 2] != "NUM" and not (k[at + 2] == "HY" and k[at + 3] == "NUM"):
                return None
        elif after not in _AFTER_A_NUMBER:
            return None
        elif k[at - 1] == "DASH":
            return None
        self.i = at + 1
        if k[self.i] == "STN":
            self.i += 1
        self.loop_after = loop
        return self.v[at]

    @property
    def numbers_after(self) -> bool:
        """Whether this row writes its numbers after the stitch ("sc 3, inc 1")."""
        k = self.k
        after = sum(1 for at in range(1, len(k) - 1) if k[at] == "NUM" and k[at - 1] in ("ST", "CH") and k[at + 1] in (",", ")", "]", "MARK"))
        before = sum(1 for at in range(len(k) - 1) if k[at] == "NUM" and k[at + 1] in ("ST", "CH") and (at == 0 or k[at - 1] in (",", "(", "[", "MARK")))
        return after > before

    def _node(self, value, number: Number):
        """The node for a token's value: Stitch, or Group for stitches whose parts count one by one."""
        if isinstance(value, str):
            if value in GROUP_KINDS:
                return self._usual_group(value, None, None, number)
            return Stitch(value, number)
        if isinstance(value, Named):
            if value.kind in GROUP_KINDS:
                return self._usual_group(value.kind, value.legs, value.base, number)
            return Stitch(value.kind, number, legs=value.legs, base=value.base)
        own = value
        if own.steps and any(getattr(step, "place", None) is not None for step in own.steps):
            return Repeat(list(own.steps), number, mark="")  # it goes over several places: a filet block, a pair of crossed stitches
        if own.group or not own.kind:
            return Group(list(own.steps), name=own.name) if number == 1 else Repeat([Group(list(own.steps), name=own.name)], number, mark="")
        return Stitch(own.kind, number, legs=own.legs, base=own.base or None)

    def _usual_group(self, kind: str, legs: int | None, base: str | None, number: Number):
        """A shell, fan or V-stitch that the pattern has not said: the catalogue's make-up."""
        own = self.lexicon.own.get(kind) or next((own for own in self.lexicon.own.values() if own.kind == kind and own.steps), None)
        base = base or "dc"
        if own is not None and own.steps and legs is None:
            steps = list(own.steps)
        elif kind == "vst":
            steps = [Stitch(base), Chain(1), Stitch(base)]
        else:
            fact = self.lexicon.fact(kind)
            steps = [Stitch(base, legs or (fact.makes if fact is not None and fact.makes > 1 else 5))]
        group = Group(steps, name=own.name if own is not None else kind)
        return group if number == 1 else Repeat([group], number, mark="")

    # ------------------------------------------------------------ its places

    def _placed(self, frame, node, start: int, number: Number | None) -> bool:
        """The places of a stitch, and what follows them."""
        k = self.k
        if k[self.i] == "TOG" and type(node) is Stitch:
            self.i += 1
        if type(node) is Stitch and node.kind == "slst" and self._travels(frame, node, start):
            return True
        if type(node) is Stitch and node.kind in ("inc", "dec") and self._at_each_end(frame, node, start):
            return True
        if k[self.i] == "THATMANY":
            return self._that_many(frame, node, start)
        evenly = self.evenly
        self.evenly = False
        if k[self.i] == "EVENLY":
            evenly = True
            self.i += 1
        if k[self.i] in ("(", "[") and self._aside_ahead() and k[self.match[self.i] + 1] in ("IN", "AND", "OVER", "AROUND", "ACROSS", "NEXT"):
            self.i = self.match[self.i] + 1
        if k[self.i] == "," and k[self.i + 1] == "IN" and k[self.i + 2] in ("NEXT", "SAME", "FIRST") and type(node) is Stitch:
            self.i += 1  # a stray comma: "dc, in next sc"
        if type(node) is Stitch and (k[self.i] == "EACH" or k[self.i] == "IN" and k[self.i + 1] in ("EACH", "ORD")):
            if self.among_plain(frame, node, start) or k[self.i] == "EACH" and self.together_every(frame, node.kind, start):
                return True
        if k[self.i] in ("IN", "OVER") and k[self.i + 1] == "ORD" and k[self.i + 2] in (",", "AND") and type(node) is Stitch and self._ordinals(frame, node, start):
            return True
        if k[self.i] == "ALL" and k[self.i + 1] == "IN":  # "ss, ch 3, 3 hdc all in same space"
            node.span = self.span(start)
            frame.steps.append(node)
            return self.act_all_in(frame)
        self.found_loop, self.found_layers = "", 1
        bracket_loop = self._loop_in_brackets()
        place = self.place() if k[self.i] in _PLACE_STARTS else None
        loop, layers = self.found_loop or bracket_loop, self.found_layers
        if place is None and loop and k[self.i] == "EVENLY":
            self.i += 1
        if self.ring_wanted:
            self.make_ring(frame)
        if evenly and place is None:
            place = Place(n=None, extent=Extent())
        if place is None and self.context is not None and self.context.which == "from hook" and type(node) is Stitch and isinstance(node.n, int) and node.n > 1:
            self.put(frame, Stitch(node.kind, 1, self.context, span=self.span(start)))  # "start in 2nd ch from hook: 5 sc"
            self.context = None
            node.n -= 1
        if type(node) is Stitch and place is not None and place.n is None and not place.each and self._shapes(node) and place.extent is not None and (
            place.extent.kind == "end" and place.which == "next" and place.of == "st" and len(frame.steps) > self._head(frame.steps) and self._goes_before(frame)
        ):
            node.span = self.span(start)
            frame.steps.append(node)
            return self.around_all(frame, place.extent, start)
        if type(node) is Stitch and place is not None and place.n is None and not place.each and not evenly and not (isinstance(node.n, int) and node.n < 4):
            if place.which == "row ends":
                evenly = True
            elif place.which == "next" and place.of == "st" and place.extent is not None and place.extent.kind == "end" and not place.post:
                place = None  # "24 sc around": so many in all, one in each
        self._set_place(node, place, loop, layers)
        if type(node) is Stitch and node.kind == "slst" and self._picot(frame, node):
            return True
        if k[self.i] == "THROUGH" and k[self.i + 1] == "LAYERS" and node_place(node) is not None:
            node_place(node).layers = self.v[self.i + 1]
            self.i += 2
        if type(node) is Stitch:
            node.evenly = evenly
            self._together(node)
        if k[self.i] == "EVENLY" and type(node) is Stitch:
            node.evenly = True
            self.i += 1
            if node.place is None:
                more = self.place()
                if more is not None:
                    node.place = more
        node.span = self.span(start)
        if type(node) is Stitch and node.evenly and self._shapes(node) and frame.steps:
            last = frame.steps[-1]  # "hdc in each st around, inc 6 sts evenly": the increases are among those stitches
            if type(last) is Stitch and last.n == 1 and last.place is not None and last.place.extent is not None and not self._shapes(last):
                frame.steps.pop()
                node.base, node.place = node.base or last.kind, last.place
                node.span = last.span.to(node.span)
        if type(node) is Stitch and place is not None and place.which == "row ends" and not evenly and frame.steps:
            last = frame.steps[-1]
            if type(last) is Stitch and last.evenly and last.kind == node.kind and last.place is not None and last.place.which == "row ends":
                frame.steps.append(Note(self.text[node.span.start:node.span.end], node.span))  # how the evenly spread stitches come to lie
                return True
        self.put(frame, node)
        if place is None:
            return self._after_stitch(frame, node, start)
        self._more_places(frame, node)
        return self._after_stitch(frame, frame.steps[-1], start)

    def _set_place(self, node, place: Place | None, loop: str, layers: int) -> None:
        if type(node) is Repeat:  # "2 shells in next sp", "5 V-sts"
            if type(node.steps[0]) is Group:
                node.steps[0].place = place
            return
        layers = layers if layers > 1 else self.row_layers
        if layers > 1 and type(node) is Stitch:
            if place is None:
                place, node.n = Place(n=node.n), 1
            place.layers = layers
        place = self._in_context(node, place)
        node.place = place
        if type(node) is not Stitch:
            if loop and place is not None:
                place.loop = "" if loop == "both" else loop
            return
        if loop in ("third", "bump", "one") and place is not None and node.kind != "slst":
            place.loop = loop
        elif loop:
            node.loop = loop if loop != "both" else ""
        elif self.row_loop in ("third", "bump", "one") and place is not None and not place.loop and node.kind != "slst":
            place.loop = self.row_loop
        elif self.row_loop and node.kind != "slst" and not (place is not None and place.loop):
            node.loop = self.row_loop
        if place is not None:
            fact = self.lexicon.fact(node.kind)
            if place.post and fact is not None and fact.post:
                place.post = ""
            elif place.post in ("front", "back") and fact is not None and fact.kind == "basic":
                pass

    def _in_context(self, node, place: Place | None) -> Place | None:
        """A place said before ("working along row ends", "working across other side of chain") put to use."""
        context = self.context
        if context is None or self.depth and place is None:
            return place
        if context.which == "other side":
            if place is not None and place.which in ("next", "first", "last") and place.of in ("st", "ch") and not place.group:
                place.which, place.of = "other side", "ch"
            elif place is None and type(node) is Stitch and node.kind not in ("slst", "picot"):
                place, node.n = Place("other side", "ch", node.n), 1
            return place
        if context.which == "free loops" and place is not None and place.which == "next" and place.of == "st":
            place.which, place.row = "free loops", context.row
            return place
        if place is None and context.which in ("ring", "from hook", "free loops") and type(node) is Stitch:
            if context.which == "from hook":
                self.context = None
            return replace(context)
        if context.which == "row ends" and type(node) is Stitch and (place is None or place.of == "st" and place.extent is not None):
            self.context = None
            return replace(context)
        if place is None and context.of == "sp" and type(node) is Stitch and node.n != 1 and not self.depth and not self.open_marks:
            return replace(context)
        return place

    def _together(self, node: Stitch) -> None:
        """ "sc next 2 sts tog", "dec over next 2 sts", "dc in next 3 sts together"; decreases and groups over several places."""
        place = node.place
        if self.k[self.i] == "TOG":
            if place is not None and isinstance(place.n, int) and 2 <= place.n <= 12 and node.n == 1:
                kind = f"{node.kind}{place.n}tog"
                if node.kind == "dec":
                    self.i += 1
                elif self.lexicon.fact(kind) is not None:
                    node.kind = kind
                    self.i += 1
                node.over = True
                return
            self.i += 1
        if place is None:
            return
        if node.legs is not None or node.kind in ("cl", "dec", "invdec") or node.kind.endswith("tog"):
            several = isinstance(place.n, int) and place.n > 1 or place.which == "from hook"
            spoken = self.text[place.span.start:place.span.start + 4].lower()
            if several and (spoken == "over" or node.kind.endswith("tog") or node.kind in ("dec", "invdec")):
                node.over = True

    def _more_places(self, frame, node) -> None:
        """ "and in next sp", "and the next 22 sts", "and next 2 ch", "and across": the same stitch again."""
        k = self.k
        while True:
            at = self.i
            if k[at] == "," and k[at + 1] == "AND":
                self.i += 1
            elif k[at] == "(" and self._foundation_says(frame.steps[-1]):
                continue
            if k[self.i] == "AND" and k[self.i + 1] == "CH" and getattr(node_place(node), "each", False) and node_place(node).n is None:
                self.i += 1
                place = self._noun_place()  # "dc in each st and ch across"
                if place is not None and place.of == "ch":
                    place.n, place.each, place.extent = None, True, self.extent() or Extent("open")
                    self.put(frame, replace(node, place=place))
                    return
                self.i = at
            if k[self.i] == "AND" and self._space_after(frame, node):
                continue
            if k[self.i] != "AND" or k[self.i + 1] not in ("IN", "NEXT", "EACH", "AROUND", "ACROSS", "OVER", "ALL", "LAST", "SAME", "REM", "TOEND", "ORD"):
                self.i = at
                return
            first = self.i + 1
            self.i += 1
            if k[self.i] in ("ORD", "REM"):
                place = self.target()
            else:
                place = self.place()
            if place is None or self._place_begins_anew(place):
                self.i = at
                return
            again = replace(node)
            if type(again) is Group:
                again.steps = list(node.steps)
            self._set_place(again, place, self.found_loop or getattr(node, "loop", ""), self.found_layers)
            again.span = self.span(first)
            if place.extent is not None and place.of == "st" and type(node) is Stitch and node.place is not None and node.place.which == "from hook" and place.which == "next":
                place.of = "ch"
            self.put(frame, again)

    def _space_after(self, frame, node) -> bool:
        """ "sl st in next dc and ch-1 sp": the space beside it, too."""
        k, start, told = self.k, self.i, node_place(node)
        if k[start + 1] not in ("CH", "NUM", "SP") or told is None or told.which not in ("next", "same") or told.extent is not None or told.of in ("sp", "corner"):
            return False
        self.i += 1
        noun = self.noun()
        if noun is None or noun.of not in ("sp", "corner") or noun.n is not None or k[self.i] not in (",", ".", ";", "END", ")", "]", "TURN", "MARK"):
            self.i = start
            return False
        self.put(frame, replace(node, n=1 if node.kind == "slst" else node.n, place=Place("next", noun.of, 1, chains=noun.chains), span=self.span(start + 1)))
        return True

    def _place_begins_anew(self, place: Place) -> bool:
        """Whether a place read after "and" belongs to the next stitch ("and in next sp work 2 dc")."""
        k = self.k
        return k[self.i] in ("ST", "OWN", "(", "[") and not (k[self.i] in ("(", "[") and self._not_steps(self.i)) or (
            k[self.i] == "NUM" and k[self.i + 1] in ("ST", "OWN", "CH")
        )

    def _after_stitch(self, frame, node, start: int) -> bool:
        """ "3 times", "twice", "as follows: ...", "keeping last loop ...", "around" after a single place."""
        k = self.k
        if k[self.i] == "(" and type(node) is Stitch and self._foundation_says(node):
            pass
        kind = k[self.i]
        if (kind == "INCLUDE" or kind == "," and k[self.i + 1] == "INCLUDE") and node_place(node) is not None and node_place(node).extent is not None:
            at = self.i
            self.i += 1 + (kind == ",")
            noun = self.noun()
            if noun is not None and noun.of in ("sp", "corner", "ch"):
                node_place(node).of = "st+sp"  # "sc in each st around, including the ch-1 sps"
            else:
                self.i = at
            kind = k[self.i]
        if kind in (",", ".", ";", "AND") and type(node) is Stitch and node.n != 1 and self.dropped_loop(frame, node):
            return True
        if kind == "HOLD" and type(node) is Stitch:
            self.held_loops(frame, node)
            kind = k[self.i]
        if kind == "ASFOLLOWS" or kind == "AS" and k[self.i + 1] == "U":
            self.skip_description(node)
            kind = k[self.i]
        if kind in ("NUM", "TIMESN", "X", "("):
            times = self.times_after_stitch()
            if times is not None:
                frame.steps.pop()
                if type(node) is Stitch and node.n == 1 and node.place is None:
                    self.times_said = node.n = times
                    frame.steps.append(node)
                else:
                    frame.steps.append(Repeat([node], times, span=self.span(start)))
                return True
        if kind in ("AROUND", "ACROSS", "TOEND") and getattr(node, "place", None) is not None and node.place.extent is None:
            return self.bare_around(frame)
        return True

    def times_after_stitch(self) -> Number | None:
        """ "3 times", "(3 times)", "twice", "x 3" after a stitch with its place."""
        k, start = self.k, self.i
        if start >= self.limit:
            return None
        at = start
        bracket = k[at] == "("
        if bracket:
            at += 1
        if k[at] == "TIMESN":
            number, after = self.v[at], at + 1
        elif k[at] == "NUM" and k[at + 1] == "TIMES":
            number, after = self.v[at], at + 2
        elif k[at] == "X" and k[at + 1] == "NUM":
            number, after = self.v[at + 1], at + 2
        else:
            return None
        if k[after] == "MORE" or k[after] == "OVER":
            return None
        if bracket:
            if k[after] != ")":
                return None
            after += 1
        self.i = after
        return number

    def _either_terms(self, value):
        """ "dc (UK)/sc (US)": the name in these terms; both mean the same."""
        k = self.k
        if k[self.i] != "/" or k[self.i + 1] != "ST":
            return value
        first = self.text[self.s[self.i - 1]:self.e[self.i - 1]] if k[self.i - 1] != ")" else self.text[self.e[self.match[self.i - 1]]:self.s[self.i - 1]]
        second = self.v[self.i + 1]
        self.i += 2
        if k[self.i] == "(" and self._gloss_ahead():
            self.i = self.match[self.i] + 1
        ours = "uk" if self.lexicon.terms == "UK" else "us"
        return value if ours in first.lower() or not first.lower().startswith(("uk", "us")) else second

    def _increase_after(self, value) -> int:
        """ "dc2inc", "sc3inc": how many into one stitch; 0 where it is not said so."""
        k, at = self.k, self.i
        if k[at] == "NUM" and k[at + 1] == "ST" and self.v[at + 1] == "inc" and self.s[at] == self.e[at - 1] and self.s[at + 1] == self.e[at]:
            if isinstance(value, str) and isinstance(self.v[at], int) and 1 < self.v[at] < 12:
                self.i = at + 2
                return self.v[at]
        return 0

    def _loop_in_brackets(self) -> str:
        """ "sc (BLO) in next 3 sts": the loop, its bracket read; "" where none stands here."""
        k, at = self.k, self.i
        if k[at] in ("(", "[") and k[at + 1] == "LOOP" and self.match[at] == at + 2:
            self.i = at + 3
            return self.v[at + 1]
        return ""

    def _gloss_ahead(self) -> bool:
        """Whether the bracket at hand only gives the stitch's abbreviation: "double crochet (dc)"."""
        close = self.match[self.i]
        return close == self.i + 2 and self.k[self.i + 1] in ("ST", "CH", "OWN") or (
            close > self.i and all(kind in ("ST", "CH", "OWN", "W", "U", "/", "HOOK", "OVER", "TIMES") for kind in self.k[self.i + 1:close]) and close - self.i < 4
        )

    # ------------------------------------------------------------ skipping
