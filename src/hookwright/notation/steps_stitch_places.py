"""Where stitches go: the places said after a stitch, how they are shared out, and what else may follow it ("3 times", "around")."""

import re
from dataclasses import replace

from hookwright.ground import LOOK, Finding, Number, PerSize

from .patterns import Lazy
from .steps_stitch_after import StitchAfterReading
from .tree import Chain, Extent, Go, Group, Note, Place, Repeat, Skip, Stitch

_PLAIN = frozenset(("sc", "hdc", "dc", "tr", "dtr"))
_PLAIN_NOUNS = frozenset(("STN", "CH", "SP"))
_ALONG = frozenset(("IN", "ACROSS"))
_AT_ENDS = frozenset(("AT", "EACH", "BOTH", "IN", "OF"))
PLACE_STARTS = frozenset(("IN", "OVER", "THROUGH", "AROUND", "ACROSS", "BETWEEN", "NEXT", "EACH", "FIRST", "LAST", "SAME", "ALL", "REM", "OTHER", "TOEND", "LOOP", "TO", "UNTIL", "HALF", "AT"))


_ALL_ROUND = Lazy(r"^(?:a?round)\s+(?:all\b|the\s+(?:entire|whole|outer|outside)\b|entire\b|whole\b|outer\b|outside\b)", re.I)


def node_place(node) -> Place | None:
    """The place of a stitch or group, None where it has none."""
    return getattr(node, "place", None)


class StitchPlaceReading(StitchAfterReading):
    """Reads the places of a stitch whose name and number are read."""

    def _simply_next(self, frame, node) -> bool:
        """Whether a plain stitch goes "in next st", "in next 4 sts": by far the commonest place, which none of the turns of phrase below begins with."""
        k, at = self.k, self.i
        return k[at] == "IN" and k[at + 1] == "NEXT" and (k[at + 2] in _PLAIN_NOUNS or k[at + 2] == "ST" and self.v[at + 2] in _PLAIN) and type(node) is Stitch and node.kind in _PLAIN and not (
            len(frame.steps) > 2 and type(frame.steps[-2]) is Go)

    def _along_chains(self, frame, node: Stitch, start: int) -> bool:
        """ "6 sc on the chains", "6 sc along the next chain": one in each of so many chains made in the row below."""
        k, at = self.k, self.i + 1
        at += k[at] in ("NEXT", "OTHER", "THIS")
        if self.first_row or k[at] != "CH" or k[at + 1] in ("NUM", "HY", "SP", "OF") or not (self._word(at) in ("chains", "chs") or k[self.i] == "ACROSS") or not isinstance(node.n, int):
            return False
        self.i = at + 1
        return self.put(frame, Stitch(node.kind, 1, Place("next", "ch", node.n), span=self.span(start)))

    def _placed(self, frame, node, start: int, number: Number | None) -> bool:
        """The places of a stitch, and what follows them."""
        k = self.k
        if self._simply_next(frame, node):
            evenly, self.evenly = self.evenly, False
        else:
            if k[self.i] == "TOG" and type(node) is Stitch:
                self.i += 1
            if type(node) is Stitch and node.kind == "picot" and k[self.i] in ("(", "[") and "CH" in k[self.i + 1:self.i + 3] and k[self.match[self.i] + 1] not in ("X", "TIMES", "NUM", "IN"):
                at = self.i + 1 + (k[self.i + 1] == "CH")  # "picot (ch 3, sl st in 3rd ch from hook)": what it is made of
                if k[at] == "NUM" and isinstance(self.v[at], int):
                    node.legs, node.base = self.v[at], "ch"
                self.i = self.match[self.i] + 1
            if type(node) is Stitch and node.kind == "slst" and self._to_another(frame, start):
                return True
            if type(node) is Stitch and node.kind == "slst" and (self.context is None or self.context.which != "from hook") and self._travels(frame, node, start):
                return True
            if type(node) is Stitch and k[self.i] in _AT_ENDS and self._at_each_end(frame, node, start):
                return True
            if type(node) is Stitch and len(frame.steps) > 2 and type(frame.steps[-2]) is Go and self.between_told(frame, node, start):
                return True
            if type(node) is Stitch and node.kind == "dec" and k[self.i] in ("OVER", "IN") and k[self.i + 1] == "FIRST" and self.ends_together(frame, self.i + 1, start):
                return True
            if k[self.i] == "THATMANY":
                return self._that_many(frame, node, start)
            if type(node) is Stitch and node.n == 1 and self._together_with_number(node):
                node.span = self.span(start)
                return self.put(frame, node)
            evenly = self.evenly
            self.evenly = False
            if type(node) is Stitch and node.n == 1 and self._shapes(node):  # "decrease 6 times evenly around", "inc evenly 6 times"
                at = self.i + (k[self.i] == "EVENLY")
                if k[at] == "NUM" and k[at + 1] == "TIMES" and "EVENLY" in (k[self.i], k[at + 2]):
                    node.n, evenly = self.v[at], True
                    self.i = at + 2 + (k[at + 2] == "EVENLY")
            if k[self.i] == "," and k[self.i + 1] == "EVENLY" and type(node) is Stitch and self._shapes(node) and node.n != 1:
                self.i += 1  # "with 6 increases, evenly spaced"
            if k[self.i] == "EVENLY":
                evenly = True
                self.i += 1
            if k[self.i] in ("(", "[") and self._aside_ahead() and k[self.match[self.i] + 1] in ("IN", "AND", "OVER", "AROUND", "ACROSS", "NEXT"):
                self.i = self.match[self.i] + 1
            if k[self.i] == "W" and k[self.i + 1] == "IN" and self._word(self.i) in ("landing", "going", "falling", "sitting"):
                self.i += 1  # "with the last dc landing in the last st"
            if k[self.i] == "," and k[self.i + 1] == "IN" and k[self.i + 2] in ("NEXT", "SAME", "FIRST") and type(node) is Stitch:
                self.i += 1  # a stray comma: "dc, in next sc"
            if type(node) is Stitch and k[self.i] in ("IN", "FOR", "BETWEEN") and (self.positions(frame, node, start) or self.between_ends(frame, node, start) or self.by_ratio(frame, node, start)):
                return True
            if type(node) is Stitch and (k[self.i] == "EACH" or k[self.i] in ("IN", "OVER") and k[self.i + 1] in ("EACH", "ORD")):
                if self.among_plain(frame, node, start) or self.together_every(frame, node.base or self._usual(frame) if node.kind == "dec" else node.kind, start):
                    return True
            if type(node) is Group and len(node.steps) == 1 and (k[self.i] in ("EACH", "ORD") or k[self.i] in ("IN", "OVER") and k[self.i + 1] in ("EACH", "ORD")):
                told = node.steps[0]  # her own word for an increase: "Double every 4th st", "2in1 in every 5th st"
                if type(told) is Stitch and told.place is None and told.n == 2 and self.among_plain(frame, Stitch(told.kind, 2, legs=told.legs, base=told.base), start):
                    return True
            if k[self.i] in ("IN", "OVER") and k[self.i + 1] == "ORD" and k[self.i + 2] in (",", "AND") and type(node) is Stitch and self._ordinals(frame, node, start):
                return True
            if type(node) is Stitch and node.n != 1 and k[self.i] in _ALONG and "CH" in k[self.i + 1:self.i + 3] and self._along_chains(frame, node, start):
                return True
            if k[self.i] == "ALL" and k[self.i + 1] == "IN":  # "ss, ch 3, 3 hdc all in same space"
                node.span = self.span(start)
                frame.steps.append(node)
                return self.act_all_in(frame)
        self.found_loop, self.found_layers = "", 1
        bracket_loop = self._loop_in_brackets()
        along, around = k[self.i] in ("ACROSS", "AROUND"), k[self.i] == "AROUND"
        so_many = along and k[self.i + 1] in ("FIRST", "NEXT") and k[self.i + 2] == "NUM"
        if k[self.i] in ("W", "U") and self.sides and self.first_row and not self.edges_seen and self._far_side(self.i + 1) and type(node) is Stitch and not evenly and (
            any(getattr(getattr(step, "place", None), "of", "") == "ch" for step in frame.steps)
        ):
            self.i += 1  # "6 sc down the other side"
            side = self._along_far_side(True)
            if side is not None and side.which == "other side":
                self.context = None
                node.n, number = 1, node.n
                self.put(frame, Stitch(node.kind, 1, Place("other side", "ch", number if side.n is None and isinstance(number, int) and number > 1 else side.n, side.extent if number == 1 else None), loop=node.loop, span=self.span(start)))
                self.context = side
                return True
        if along and k[self.i + 1:self.i + 3] == ["EACH", "SIDE"] and "corner" in self.v:
            evenly = True  # "sc along each side and 3 sc in each corner"
        place = self.edge_place() if type(node) is Stitch and (evenly or node.n != 1) else None
        aside = self.another_piece() if place is None and k[self.i] == "THROUGH" else None
        if place is None and aside is None:
            bottom = along and k[self.i + 1] == "BASE"
            place = self.place() if k[self.i] in PLACE_STARTS or self.last_limit is not None and k[self.i] == "YOU" else self.target() if k[self.i] in ("TOP", "ORD") and type(node) is Stitch and node.kind == "slst" else None  # "sl st top of ch 3"
            if bottom and place is not None and place.which == "same" and type(node) is Stitch and isinstance(number, int) and number > 4:
                place, node.n = Place("other side", "ch", number, span=place.span), 1  # "151 sc along the bottom of the starting ch"
        if so_many and place is not None and place.n is None and place.extent is not None and place.extent.kind == "until" and type(node) is Stitch and number in (None, 1):
            place.n, place.of, place.extent = place.extent.n, place.extent.of, None  # "sl st across first 4 sts": one in each
        if along and place is not None and place.which == "next" and not (self.first_row and around) and type(node) is Stitch:
            self._along_chain(frame, node, place, number, around)
        if place is not None and place.which == "edge" and node.n == 1 and _ALL_ROUND.search(place.group):
            place = Place(n=None, extent=Extent(), span=place.span)  # "sc evenly around all edges": on and on
        loop, layers = self.found_loop or bracket_loop, self.found_layers
        if place is not None and place.n is None and place.extent is None and place.group.startswith("leg ") and type(node) is Stitch:
            place.n, node.n = node.n, 1
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
        if place is not None and self.context is not None and self.context.which == "from hook" and type(node) is Stitch and place.which == "next" and place.of in ("st", "ch"):
            loop = loop or self.context.loop
            if node.n == 1 and not self.lexicon.group_of(node.kind):  # "start from 2nd ch from hook, sc in next 9 ch": the first of them there
                first = replace(self.context, span=place.span)
                if place.n == 1:
                    place = first
                elif place.n is None or isinstance(place.n, (int, PerSize)):
                    self.put(frame, Stitch(node.kind, 1, first, loop=loop, span=self.span(start)))
                    place.n = PerSize(number and number - 1 for number in place.n) if isinstance(place.n, PerSize) else place.n and place.n - 1
            elif isinstance(self.context.ordinal, int) and self.context.ordinal > 1:
                self.put(frame, Skip(Place("first", "ch", self.context.ordinal - 1), span=self.context.span))
            self.context = None
        if place is not None and type(node) is Stitch and (node.n != 1 and evenly or isinstance(node.n, int) and node.n > 4 and not place.each) and place.n is None and place.which == "next" and place.of == "st" and place.extent is not None and (
            place.extent.kind == "place" and place.extent.place.of == "corner"
        ):
            words = " ".join(self.text[place.span.start:place.span.end].split())
            place = Place("edge", "st", 1, group=words, span=place.span)  # "58 sc evenly across to next corner": the words tell how many
            self.edges_seen = True
        if place is not None and place.which == "skipped" and place.n is None and not place.each and number is not None and type(node) is Stitch:
            place.n, node.n, place.extent = number, 1, None  # "2 FPtr around skipped sts": one around each
        if number is not None and number != 1 and type(node) is Stitch and place is not None and place.group == "leg" and place.of == "st" and place.n == 1 and place.which in ("first", "nth", "last"):
            group = "leg 2" if place.ordinal == 2 or place.which == "last" else "leg 1"
            place, node.n = Place(n=number, group=group, span=place.span), 1  # "18 sc on the first leg": one in each of its 18
        if number is None and type(node) is Stitch and along and place is not None and place.group[:3] == "leg" and place.of == "st" and place.n == 1 and place.which == "next":
            place.n, place.extent, place.each = None, Extent(), True  # "sc around leg 1": all its stitches
        if number is not None and place is not None and place.group[:3] == "leg" and place.of == "st" and place.n == 1 and place.which == "next":
            place = None  # "12 sc around leg 1": one in each of 12
        if type(node) is Stitch and place is not None and place.n is None and not place.each and not evenly and (self._shapes(node) or number is not None) and place.extent is not None and (
            place.extent.kind == "end" and place.which == "next" and place.of == "st" and len(frame.steps) > self._head(frame.steps) and (self._goes_before(frame) if self._shapes(node) else self._shaped_before(frame, node))
        ):
            node.span = self.span(start)
            frame.steps.append(node)
            return self.around_all(frame, place.extent, start)
        if type(node) is Stitch and place is not None and place.n is None and not place.each and not evenly and (place.which == "other side" and node.n != 1 or not (isinstance(node.n, int) and node.n < 4)):
            if place.which == "row ends":
                evenly = True
            elif place.which == "other side":
                place.n, node.n, place.extent = node.n, 1, None  # "8 sc along other side of chain": one in each of 8
            elif place.which == "next" and place.of == "st" and place.extent is not None and place.extent.kind == "end" and not place.post:
                place = None  # "24 sc around": so many in all, one in each
        if layers > 1 and place is None and type(node) is Stitch and node.n == 1 and k[self.i] in (",", ":") and (
            k[self.i + 1] == "NUM" and k[self.i + 2] == "ST" and self.v[self.i + 2] == node.kind
        ):
            self.row_layers = layers  # "sc through both layers, 4 sc": how the four are worked
            return True
        self._set_place(node, place, loop, layers)
        if type(node) is Stitch and place is not None and place.which == "last" and node.place is place and type(node.n) is int and type(place.n) is int and node.n > 4 and place.n > 4 and node.n != place.n and not place.each:
            self._say_numbers_differ(node, place, start)
        if type(node) is Stitch and (node.kind == "slst" or node.kind == "sc" and node.n == 1 and k[self.i] != "AND") and self._picot(frame, node):
            return True
        if k[self.i] == "THROUGH" and k[self.i + 1] == "LAYERS" and node_place(node) is not None:
            node_place(node).layers = self.v[self.i + 1]
            self.i += 2
        if node_place(node) is not None and node_place(node).layers > 1:
            at = self.i + 2 * (k[self.i:self.i + 2] == ["W", "SIDE"])
            if k[at] in (":", ",") and k[at + 1] in ("FREELOOPS", "LOOP", "BASE", "SIDE", "UNWORKED") and not {"NUM", "ST", "MARK"} & set(k[at + 1:at + 5]):
                self.i = at  # "through both layers along the whole side: the free loops of the chain and the back loops of the last row"
                while k[self.i] not in (".", ";", "(", "[", "END"):
                    self.i += 1
        if type(node) is Stitch:
            node.evenly = evenly
            if evenly and node.kind.endswith("2tog") and (node.n != 1 or number == 1) and self.lexicon.fact(node.kind).base:
                node.base, node.kind = self.lexicon.fact(node.kind).base, "dec"  # "4 sc2tog evenly across": among plain stitches
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
            self._plain_throughout(frame)
            last = frame.steps[-1]  # "hdc in each st around, inc 6 sts evenly": the increases are among those stitches
            if type(last) is Stitch and last.n == 1 and last.place is not None and last.place.extent is not None and not self._shapes(last):
                frame.steps.pop()
                node.base, node.place = node.base or last.kind, last.place
                node.span = last.span.to(node.span)
        if type(node) is Stitch and node.place is not None and node.place.which == "row ends" and not evenly and frame.steps:
            last = frame.steps[-1]
            if type(last) is Stitch and last.evenly and last.kind == node.kind and last.place is not None and last.place.which in ("row ends", "edge"):
                if last.n == 1 and node.place.each and last.place.which == "row ends":
                    frame.steps[-1] = node  # "sc evenly along side edge, working 1 sc in each row end": told exactly
                    return True
                frame.steps.append(Note(self.text[node.span.start:node.span.end], node.span))  # how the evenly spread stitches come to lie
                return True
        self.put(frame, node)
        if aside is not None:
            frame.steps.append(aside)
        if place is None:
            return self._after_stitch(frame, node, start)
        before = len(frame.steps) - 1
        self._more_places(frame, node)
        if type(node) is Stitch and node.kind == "inc" and place.which == "first" and len(frame.steps) > before + 1 and self.set_at_ends(frame, before):
            return True  # "sc across, inc in first and last st"
        return self._after_stitch(frame, frame.steps[-1], start)

    def _say_numbers_differ(self, node, place: Place, start: int) -> None:
        """ "7 dc in last 9": seven in each of nine is meant by nobody, so one of the numbers is likely to be another."""
        span = self.span(start)
        self.read.findings.append(Finding(
            "cannot-read", LOOK,
            f"`{self.text[span.start:span.end]}` names {node.n} stitches for {place.n} places; it is worked as {node.n} in each. If one in each is meant, look at the two numbers", span,
        ))

    def _along_chain(self, frame, node, place: Place, number: Number | None, around: bool) -> None:
        """ "sc along the ch-3": one in each chain; "3 sc along the chain": one in each of 3; "45 dc round the chain": all over it, like a loop."""
        if place.of == "sp" and isinstance(place.chains, int) and number is None and self.k[self.i - 1] == "NUM":
            place.of, place.n, place.chains = "ch", place.chains, None
        elif place.of == "ch" and around and place.which == "next" and place.n == 1 and number is not None and not any(type(step) is Chain and step.n == number for step in frame.steps):
            place.of = "sp"
        elif place.of == "ch" and place.n == 1 and number is not None:
            place.n, node.n = number, 1
        elif place.of == "ch" and place.each and place.n is None and number not in (None, 1):
            place.of = "sp"  # "4 dc across each underarm ch"

    def _set_place(self, node, place: Place | None, loop: str, layers: int) -> None:
        if type(node) is Repeat:  # "2 shells in next sp", "5 V-sts"
            if type(node.steps[0]) is Group:
                node.steps[0].place = place
            elif place is not None and place.which == "next" and place.of == "st" and place.extent is not None and node.times == 1:
                node.times, node.extent = None, place.extent  # "crossed dc across to last st": pair after pair
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
            if place is not None and isinstance(place.n, int) and 2 <= place.n <= 12 and node.n == 1 and place.layers == 1:
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

    def _together_with_number(self, node: Stitch) -> bool:
        """ "sc next 2 sc tog", "dc last 3 dc together": "2 sc tog" is the name of one stitch."""
        k, at = self.k, self.i
        if k[at] in ("IN", "OVER"):
            at += 1
        if k[at] not in ("NEXT", "FIRST", "LAST") or k[at + 1] != "ST" or not isinstance(self.v[at + 1], str) or not self.v[at + 1].endswith("tog"):
            return False
        fact = self.lexicon.fact(self.v[at + 1])
        if fact is None or fact.base != node.kind:
            return False
        node.kind, node.over, self.i = self.v[at + 1], True, at + 2
        node.place = Place(k[at].lower(), n=fact.legs)
        return True

    def _loop_in_brackets(self) -> str:
        """ "sc (BLO) in next 3 sts": the loop, its bracket read; "" where none stands here."""
        k, at = self.k, self.i
        if k[at] in ("(", "[") and k[at + 1] == "LOOP" and self.match[at] == at + 2:
            self.i = at + 3
            return self.v[at + 1]
        return ""
