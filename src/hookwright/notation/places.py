"""Where the hook goes: "in next ch-2 sp", "in each of next 3 sts", "around the post of next dc", "in same st as join"."""

from hookwright.ground import Span

from .extents import ExtentReading
from .nouns import NounReading
from .places_edges import EdgeReading
from .places_special import SpecialPlaceReading
from .places_target import NOUNS, TargetReading
from .tree import Extent, Place

_STARTS = frozenset((
    "NEXT", "EACH", "FIRST", "LAST", "SAME", "ORD", "ALL", "BOTH", "ANY", "REM", "SKIPPED", "MARKER", "CENTER", "TOP", "BASE", "BEG", "TCH", "THIS", "FREELOOPS",
))
_INTO = frozenset(("IN", "OVER", "THROUGH", "AROUND", "ACROSS", "BETWEEN", "AT"))
_CHAINS_OVER = frozenset(("handle", "strap", "thumb", "armhole", "underarm", "buttonhole", "button"))  # openings whose chain is worked around
_WITHOUT_PREPOSITION = frozenset(("NEXT", "EACH", "FIRST", "LAST", "SAME", "ALL", "ACROSS", "AROUND", "BETWEEN", "REM", "OTHER"))

_PIECES = frozenset(("square", "motif", "block", "tile"))
_ENDS_THERE = frozenset((",", ".", ";", "=", "END", "(", ")", "[", "]", "AND", "REP", "TURN", "JOIN", "MARK"))


class PlaceReading(TargetReading, NounReading, ExtentReading, EdgeReading, SpecialPlaceReading):
    """Reads places. `found_loop`, `found_layers` tell what was said of loops and layers beside the place."""

    def place(self, bare: bool = True, to: bool = False) -> Place | None:
        """The place that begins here, or None with nothing read.

        bare: "next st" without "in" will do; to: "to" serves as "in" (slip stitch to top of ch-3).
        A loop said without "of" ("BLO in next st") is left in `found_loop`.
        """
        k = self.k
        start = self.i
        kind = k[start]
        self.found_loop, self.found_layers = "", 1
        if kind == "LOOP":
            self.found_loop = self.v[start]
            self.i += 1
            kind = k[self.i]
            if kind == "OF":
                self.i += 1
                return self._in_loop(start)
        if kind in _INTO or (to and kind == "TO"):
            place = self._after_preposition(kind)
        elif bare and kind in _WITHOUT_PREPOSITION and (kind != "REM" or self._worked_over(start)):
            place = self.target()
        elif kind in ("TO", "UNTIL", "HALF", "TOEND") and not to:
            place = self._as_far_as()
        elif kind == "YOU" and self.last_limit is not None and k[start + 1] in _ENDS_THERE and self._word(start) == "there":
            self.i += 1  # "tr to the last st, 2 tr there"
            place = self._at_the_limit()
        else:
            place = None
        if place is None:
            if not self.found_loop and self.found_layers == 1:
                self.i = start
            return None
        place.span = Span(self.s[start], self.e[self.i - 1])
        self.last_place = place
        return place

    def _at_the_limit(self) -> Place:
        """The place that the last "to" or "until" reached."""
        limit = self.last_limit
        return Place(limit.which if limit.which in ("marked", "last") else "next", limit.of, 1, None, None, limit.chains, limit.group)

    def _worked_over(self, at: int) -> bool:
        """Whether the "remaining" right after a stitch says where it goes ("dc the rest", "sc remaining 8 sts"), not that so many are left."""
        k = self.k
        if k[at - 2] == "NUM" and k[at - 1] != "CH" and self.v[at - 2] != 1 or self._word(at).startswith("remain") and len(self._word(at)) < 8:
            return False
        return not any(kind == "UNWORKED" or kind == "NOT" for kind in k[at:at + 4])

    def _in_loop(self, start: int) -> Place | None:
        loop, self.found_loop = self.found_loop, ""
        place = self.target()
        if place is None:
            self.found_loop = loop
            return None
        place.loop = "" if loop == "both" else loop
        if loop == "bump" and self.first_row and self.moved and place.which in ("next", "", "same") and place.of == "ch" and "bottom loop" in self.text[self.s[start]:self.e[self.i - 1]].lower():
            place.which, place.loop = "other side", ""  # "rotate and sc into the bottom loop of each of the 30 chains"
        place.span = Span(self.s[start], self.e[self.i - 1])
        return place

    def _as_far_as(self) -> Place | None:
        """ "dc to end", "sc to last 2 sts": in each st as far as said."""
        extent = self.extent()
        return Place(n=None, extent=extent) if extent is not None else None

    def _after_preposition(self, kind: str) -> Place | None:
        k = self.k
        start = self.i
        at = start + 1
        while k[at] in ("POST", "OF", "THIS"):
            at += 1
        if k[at] == "JOIN" and k[at + 1] == "ST" and self.v[at + 1] != "slst" and self._word(at) == "joining" and not self.moved:
            self.i = at + 2
            return Place("same", "sp")  # "around joining dc": the loop that stitch closed
        if kind in ("AROUND", "ACROSS"):
            return self._round(kind)
        if kind == "BETWEEN":
            return self._between()
        self.i += 1
        nxt = k[self.i]
        while nxt == "IN" or nxt == "AROUND" and k[self.i + 1] in _STARTS:  # "in around next 2 st"
            self.i += 1
            nxt = k[self.i]
        if kind == "THROUGH" and nxt == "BOTH" and k[self.i + 1] in ("SIDE", "W", "EXTEND", "LOOP") and k[self.i + 1] != "LOOP":
            self.i += 2  # "through both sides"
            self.found_layers = 2
            return None
        if kind == "OVER" and nxt in ("W", "U") and k[self.i + 1] == "CH" and k[self.i + 2] not in ("NUM", "HY") and self._word(self.i) in _CHAINS_OVER:
            self.i += 2
            return Place("next", "sp", 1)  # "30 sc over handle chain"
        if nxt == "LAYERS":
            layers = self.v[self.i]
            self.i += 1
            after = self.i
            place = self.place() if k[after] in _INTO or k[after] in _WITHOUT_PREPOSITION else None
            if place is None:
                self.i = after
            self.found_layers = layers
            return place
        if nxt == "LOOP":
            self.found_loop = self.v[self.i]
            self.i += 1
            if k[self.i] == "OF" and k[self.i + 1] in ("ROW", "ROUND", "AROUND") and k[self.i + 2] == "NUM" and isinstance(self.v[self.i + 2], int):
                self.found_loop = ""  # "in the front loops of round 14": those that the round after it left free
                self.free_row = self.v[self.i + 2]
                self.i += 3
                return Place("free loops", "st", None, self.extent() or Extent(), row=self.free_row)
            if k[self.i] in ("OF", "BETWEEN") and k[self.i] == "OF":
                self.i += 1
                return self._in_loop(start)
            if k[self.i] in _INTO or k[self.i] in _WITHOUT_PREPOSITION or k[self.i] == "LOOP":
                loop = self.found_loop
                after = self.i
                place = self.place()
                if place is None:
                    self.i = after
                self.found_loop = self.found_loop or loop
                return place
            if k[self.i] in ("STN", "ST", "ORD"):
                return self._in_loop(start)
            if k[self.i] == "NUM" and k[self.i + 1] in ("ROW", "ROUND") and k[self.i + 2] == "PREVIOUS" and isinstance(self.v[self.i], int):
                self.i += 3  # "in front loop 2 rows below"
                return Place("below", rows_down=self.v[self.i - 3])
            return None
        if nxt == "BETWEEN":
            return self._between()
        if self.last_limit is not None and nxt == "THIS" and self._word(self.i) == "that" and k[self.i + 1] == "NUM" and self._word(self.i + 1) == "one":
            self.i += 1  # "to the last gap, 2 dc into that one"
        elif nxt == "NUM" and self._word(self.i) == "one":
            nxt = ""
        if nxt == "TOP" and k[self.i + 1] == "OF" and k[self.i + 2] in ("YOU", "THIS") and self._word(self.i + 2) == "it":
            self.i += 2  # "rep to turning ch, 2 tr in top of it"
            nxt = k[self.i]
        if nxt in ("YOU", "THIS") and self._word(self.i) in ("it", "one"):  # "until you reach the ch-3 sp, work 3 dc into it"
            self.i += 1
            return Place("same") if self.last_limit is None else self._at_the_limit()
        if nxt == "HALF" and k[self.i + 1] in ("OF", "YOU", "STN", "ST", "THIS", "W"):
            self.i += 1 + (k[self.i + 1] == "OF")
            self.i += k[self.i] in ("YOU", "STN", "ST", "THIS", "W")
            return Place(n=None, extent=Extent("half"))  # "dc in half of them"
        if nxt == "ALL" and k[self.i + 1] in ("END", ".", ",", ")", "]", ";"):  # "24 sc in all"
            self.i += 1
            return None
        if kind == "IN" and nxt in ("ROW", "ROUND") and k[self.i + 1] == "NUM" and isinstance(self.v[self.i + 1], int) and k[self.i + 2] in (",", ";", ")", "]") and self.moved:
            self.i += 2
            return Place("next", row=self.v[self.i - 1])  # "long sc in row 6": where it reaches, in the place of the next stitch
        place = self.target()
        if place is None:
            self.i = start
        elif kind == "OVER" and place.of == "ch" and place.n is None and place.chains is None:
            place.of = "sp"  # "45 sc over each handle chain"
        return place

    def _round(self, kind: str) -> Place | None:
        """ "around next st" (its post), "around ch-3 sp", "across the 3 ch", "across other side of chain"; else how far."""
        k, start = self.k, self.i
        nxt = k[start + 1]
        if nxt in ("TO", "UNTIL"):
            return self._as_far_as()
        if kind == "ACROSS" and nxt == "NUM" and k[start + 2] in ("STN", "ST") and k[start + 3] in ("AND", ",", "TO", "IN"):
            self.i = start + 1
            return self.target()  # "sl st across 3 dc and into the ch-3 sp"
        leg = self.leg_named(start + 1)
        if leg is not None:  # "11 sc around left leg": one in each of so many
            self.i = leg[1]
            return Place("next", "st", None, group=leg[0])
        if nxt == "CH" and kind == "ACROSS" and self.moved and (self.edges_seen or "SIDE" in k and "corner" in self.v[:start]) and self._word(start + 1).split()[0] in ("foundation", "starting", "beginning", "base", "original"):
            self.i = start + 2
            return Place("edge", group="along the bottom")  # "3 sc in corner, 10 sc along foundation ch, 3 sc in corner, 8 sc up the other side"
        if nxt == "CH" and self.first_row and (not self.moved or kind == "ACROSS") and not (k[start - 2] == "NUM" and self.v[start - 2] != 1) and k[start + 2] not in ("NUM", "HY", "SP", "OF", "X"):
            self.i = start + 2
            return Place("next", "ch", None, Extent())  # "sc around the chain": one in each
        if nxt == "NEXT" and self._word(start + 1) == "following" and k[start + 2] not in NOUNS and k[start + 2] not in ("NUM", "ORD"):
            self.i = start + 1
            return Place(n=None, extent=Extent())  # "across following colors on chart"
        if nxt in ("FIRST", "LAST", "ORD", "OTHER", "NEXT") and k[start + 2] in ("W", "U") and k[start + 3] in ("TO", "UNTIL", "TOEND", ",", ";", ".", "END", "(", "[", ")"):
            return self._as_far_as()  # "across second sleeve to next ch-2 sp"
        if nxt == "SP" and kind == "AROUND" and self.v[start + 1] == "group" and self._word(start + 1) in _PIECES:
            self.i = start + 2
            return Place(n=None, extent=Extent())  # "sc evenly around the square"
        if nxt in ("W", "U") and k[start + 2] == "CH" and k[start + 3] not in ("NUM", "HY") and self._word(start + 1) in _CHAINS_OVER:
            self.i = start + 3
            return Place("next", "sp", 1)  # "30 sc around handle chain"
        if nxt in ("W", "U") and k[start + 2] == "EXTEND":  # "around neck edge"
            self.i = start + 3
            return Place(n=None, extent=Extent())
        if nxt in _STARTS or nxt in NOUNS or nxt in ("SIDE", "OPPOSITE") or (nxt == "NUM" and (k[start + 2] in ("CH", "SP", "HY", "SKIPPED") or k[start + 2] in ("STN", "ST") and (k[start + 3] == "OF" or self._was_skipped(start + 3) or self._post_at(start - 1)))):
            if nxt == "FIRST" and kind == "ACROSS" and k[start + 2] == "NUM":
                return self._as_far_as()
            if nxt == "SIDE" and not self.first_row and self._word(start + 1) == "side" and (k[start + 2] in ("TO", "UNTIL") or self.open_marks and k[start + 2] in (",", ";", ".", ")", "]", "REP", "MARK")):
                return self._as_far_as()
            if nxt == "TOP" or (nxt == "EXTEND" and kind == "AROUND" and not self._word(start + 1).startswith(("row end", "ends of row"))):
                return self._as_far_as()
            self.i += 1
            place = self.target()
            if place is not None:
                if kind == "AROUND" and not place.post and place.of not in ("sp", "corner", "ch", "gap", "st+sp", "group") and place.which in (
                    "next", "same", "first", "last", "nth", "skipped", "marked", "beginning", "below",
                ) and not place.group and not (place.n is None and place.extent is None):
                    place.post = "around"
                return place
            self.i = start
        return self._as_far_as()

    def _post_at(self, at: int) -> bool:
        """Whether the stitch named at token `at` goes round a post ("FPhdc around 1 st")."""
        fact = self.lexicon.fact(self.v[at]) if at >= 0 and self.k[at] == "ST" and isinstance(self.v[at], str) else None
        return fact is not None and bool(fact.post)

    def _inside_group(self, start: int) -> Place | None:
        """ "between the 3rd and 4th dc of next shell", "between the 2 center dc of the shell": its middle; None with nothing read where no group is named."""
        k, at = self.k, start + 1
        if k[at] == "ORD" and k[at + 1] in ("AND", "/", "HY") and k[at + 2] == "ORD":
            at += 3
        elif k[at] == "FIRST" and k[at + 1] in ("AND", "/") and k[at + 2] == "ORD":
            at += 3
        elif k[at:at + 2] == ["NUM", "CENTER"]:
            at += 2
        elif k[at] == "CENTER":
            at += 1 + (k[at + 1] == "NUM")
        else:
            return None
        at += k[at] in ("ST", "STN")
        if k[at] not in ("OF", "IN"):
            return None
        self.i = at + 1
        place = self.target() or self._noun_place()
        if place is None or place.of != "group" or place.part:
            self.i = start + 1
            return None
        place.part = "center"
        return place

    def _between(self) -> Place | None:
        """ "between next 2 sts", "between first st and next group", "in space between shells"."""
        start = self.i
        self.i += 1
        k = self.k
        inside = self._inside_group(start)
        if inside is not None:
            return inside
        which, n = "next", 1
        group = ""
        seen = False
        while True:
            kind = k[self.i]
            if kind in ("NEXT", "FIRST", "LAST", "SAME", "EACH", "ANY"):
                if kind == "EACH":
                    n = None
                elif kind != "NEXT" and not seen:
                    which = kind.lower()
            elif kind == "NUM" and k[self.i + 1] in ("STN", "ST", "SP", "OWN", "HY", "NUM") or kind == "HY":
                pass
            elif not seen and kind in ("CH", "TCH", "BEG", "TOP", "OF") or kind == "NUM" and (k[self.i - 1] in ("CH", "HY") or k[self.i + 1] in ("CH", "HY")) and k[self.i + 1] in ("AND", "CH", "HY"):
                seen = seen or kind in ("CH", "TCH")  # "between ch-3 and next dc"
            elif kind in ("STN", "ST", "OWN", "SP") or kind == "POST" and k[self.i + 1] not in ("STN", "ST", "OF"):
                seen = True
                if kind == "SP" and self.v[self.i] == "group":
                    group = self._word(self.i).rstrip("s")
                elif kind == "ST" and self.v[self.i] in ("shell", "vst", "fan"):
                    group = self.v[self.i]
            elif kind == "AND" and {k[self.i - 1], k[self.i + 1]} == {"FIRST", "LAST"}:
                which, seen = "first", True  # "between first and last petals": where the round began
                self.i += 1
            elif kind == "AND" and k[self.i + 1] in ("NEXT", "FIRST", "LAST", "STN", "ST", "SP", "OWN"):
                pass
            elif kind == "THIS" and self.i == start + 1 and k[self.i + 1] in ("AND", "ST", "STN", "OWN", "SP") and "NEXT" in k[self.i:self.i + 4]:
                pass  # "between this and next shell"
            else:
                break
            self.i += 1
        if not seen:
            self.i = start
            return None
        if n == 1 and "NEXT" not in k[start:self.i] and "NUM" not in k[start:self.i] and "AND" not in k[start:self.i] and which == "next" and self.text[self.e[self.i - 1] - 1] in "sS" and self.extent_ahead():
            n = None  # "hdc between sts around"
        place = Place(which, "gap", n, group=group)
        if n is None:
            place.extent = self.extent() or Extent()
            place.each = True
        return place
