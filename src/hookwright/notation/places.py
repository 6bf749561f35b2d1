"""Where the hook goes: "in next ch-2 sp", "in each of next 3 sts", "around the post of next dc", "in same st as join"."""

from hookwright.ground import Span

from .extents import ExtentReading
from .nouns import NounReading
from .places_special import SpecialPlaceReading
from .tree import Extent, Place

_STARTS = frozenset((
    "NEXT", "EACH", "FIRST", "LAST", "SAME", "ORD", "ALL", "BOTH", "ANY", "REM", "SKIPPED", "MARKER", "CENTER", "TOP", "BASE", "BEG", "TCH", "THIS", "FREELOOPS",
))
_NOUNS = frozenset(("STN", "ST", "OWN", "CH", "SP", "RING", "MAGIC", "POST", "EXTEND", "JOIN", "PREVIOUS"))
_INTO = frozenset(("IN", "OVER", "THROUGH", "AROUND", "ACROSS", "BETWEEN", "AT"))
_WITHOUT_PREPOSITION = frozenset(("NEXT", "EACH", "FIRST", "LAST", "SAME", "ALL", "ACROSS", "AROUND", "BETWEEN"))


class PlaceReading(NounReading, ExtentReading, SpecialPlaceReading):
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
        elif bare and kind in _WITHOUT_PREPOSITION:
            place = self.target()
        elif kind in ("TO", "UNTIL", "HALF", "TOEND") and not to:
            place = self._as_far_as()
        else:
            place = None
        if place is None:
            if not self.found_loop and self.found_layers == 1:
                self.i = start
            return None
        place.span = Span(self.s[start], self.e[self.i - 1])
        return place

    def _in_loop(self, start: int) -> Place | None:
        loop, self.found_loop = self.found_loop, ""
        place = self.target() or self._bare_noun()
        if place is None:
            self.found_loop = loop
            return None
        place.loop = "" if loop == "both" else loop
        place.span = Span(self.s[start], self.e[self.i - 1])
        return place

    def _bare_noun(self) -> Place | None:
        return None

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
            return None
        if nxt == "BETWEEN":
            return self._between()
        if nxt == "YOU" and self._word(self.i) == "it":  # "until you reach the ch-3 sp, work 3 dc into it"
            self.i += 1
            limit = self.last_limit
            return Place("next", limit.of, 1, None, None, limit.chains, limit.group) if limit is not None else Place("same")
        if nxt == "ALL" and k[self.i + 1] in ("END", ".", ",", ")", "]", ";"):  # "24 sc in all"
            self.i += 1
            return None
        place = self.target()
        if place is None:
            self.i = start
        return place

    def _round(self, kind: str) -> Place | None:
        """ "around next st" (its post), "around ch-3 sp", "across the 3 ch", "across other side of chain"; else how far."""
        k, start = self.k, self.i
        nxt = k[start + 1]
        if nxt in ("TO", "UNTIL"):
            return self._as_far_as()
        if nxt in ("W", "U") and k[start + 2] == "EXTEND":  # "around neck edge"
            self.i = start + 3
            return Place(n=None, extent=Extent())
        if nxt in _STARTS or nxt in _NOUNS or nxt in ("SIDE", "OPPOSITE") or (nxt == "NUM" and (k[start + 2] in ("CH", "SP", "HY") or k[start + 2] in ("STN", "ST") and k[start + 3] == "OF")):
            if nxt == "FIRST" and kind == "ACROSS" and k[start + 2] == "NUM":
                return self._as_far_as()
            if nxt == "TOP" or (nxt == "EXTEND" and kind == "AROUND"):
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

    def _between(self) -> Place | None:
        """ "between next 2 sts", "between first st and next group", "in space between shells"."""
        start = self.i
        self.i += 1
        k = self.k
        which, n = "next", 1
        group = ""
        seen = False
        while True:
            kind = k[self.i]
            if kind in ("NEXT", "FIRST", "LAST", "SAME", "EACH"):
                if kind == "EACH":
                    n = None
                elif kind != "NEXT" and not seen:
                    which = kind.lower()
            elif kind == "NUM" and k[self.i + 1] in ("STN", "ST", "SP", "OWN", "HY", "NUM") or kind == "HY":
                pass
            elif kind in ("STN", "ST", "OWN", "SP"):
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
            else:
                break
            self.i += 1
        if not seen:
            self.i = start
            return None
        place = Place(which, "gap", n, group=group)
        if n is None:
            place.extent = self.extent() or Extent()
            place.each = True
        return place

    # ------------------------------------------------------------ what stands after the preposition

    def target(self) -> Place | None:
        """A place without its preposition: "next st", "each of next 3 ch-1 sps across", "3rd ch of ch-5"."""
        k, v = self.k, self.v
        start = self.i
        which, n, ordinal, part, post = "", None, None, "", ""
        each = rest = this = False
        said = False
        base = False
        while True:
            kind = k[self.i]
            if kind == "NEXT":
                which = which or "next"
            elif kind == "EACH":
                each = True
                if k[self.i + 1] == "OF":
                    self.i += 1
                if k[self.i + 1] in ("OTHER", "ROW", "ROUND", "AROUND"):
                    self.i = start
                    return None
            elif kind == "FIRST" or kind == "LAST":
                which = kind.lower()
            elif kind == "SAME":
                which = "same"
            elif kind == "ORD" and ordinal is None:
                ordinal = v[self.i]
            elif kind == "NUM" and n is None and not self._chain_number(self.i) and not self._group_number(self.i):
                n = v[self.i]
                if k[self.i + 1] in (",", ";", ".", "END", ")", "]", "(", "[", "MARK", "TURN") and not which and start and k[start - 1] in ("IN", "OVER"):
                    self.i += 1  # "sc in 7, hdc in 3"
                    return Place(n=n)
                if n == 1 and k[self.i + 1] == "SP" and self._word(self.i + 1) in ("loop", "lp") and not which:
                    self.i += 2  # "5 hdc in one loop": in one stitch
                    return Place(n=1)
                said = said or k[self.i + 1] in _NOUNS
                if k[self.i + 1] == "MORE":
                    self.i += 1
                self.i += 1
                if k[self.i] == "OF" and k[self.i + 1] in ("NEXT", "FIRST", "LAST", "REM"):
                    self.i += 1
                continue
            elif kind == "ALL" or kind == "REM":
                each = rest = True
                which = which or "next"
                if k[self.i + 1] == "OF":
                    self.i += 1
            elif kind == "BOTH":
                n = 2
            elif kind == "ANY":
                which = "any"
            elif kind == "SKIPPED":
                which = "skipped"
            elif kind == "MARKER":
                which = "marked"
            elif kind == "CENTER":
                if k[self.i + 1] == "CH" and k[self.i + 2] == "OF":
                    return self._center_chain()
                if self._word(self.i).endswith("of") or k[self.i + 1] == "OF":
                    self.i += k[self.i + 1] == "OF"
                    part = "center"
                elif k[self.i + 1] in ("ST", "STN"):
                    part = "center"  # but "center ch-2 sp" is simply that space
            elif kind == "TOP" and k[self.i + 1] in ("STN", "CH") and k[self.i + 2] == "OF" and self._chain_ahead(self.i + 3):
                self.i += 3
                return self._chain_top(None)
            elif kind == "TOP" and k[self.i + 1] in ("OF", "SP"):
                if k[self.i + 1] == "OF":
                    self.i += 1
                    if self._chain_ahead(self.i + 1):
                        self.i += 1
                        return self._chain_top(None)
                said = True
            elif kind == "BASE":
                if k[self.i + 1] == "OF":
                    self.i += 1
                base = True
            elif kind == "POST":
                post = v[self.i]
                said = True
                if k[self.i + 1] == "OF":
                    self.i += 1
            elif kind == "THIS":
                this = True
            elif kind == "ONEAFTER":
                which = which or "next"
            elif kind in ("W", "U") and (which or self.i > start or k[start - 1] in ("IN", "TO")) and k[self.i + 1] in ("STN", "SP", "ST") and self._word(self.i) not in ("made", "just"):
                self.i += 1
                continue
            elif kind == "UNWORKED" and said | bool(which):
                part = "free"
            elif kind in ("BEG", "STANDING") and k[self.i + 1] in ("ST", "OWN"):
                which = which or "first"
            else:
                break
            said = said or kind not in ("THIS", "NUM")
            self.i += 1
        if base:
            return self._at_the_base()
        if this and ordinal is not None:
            which, ordinal = which or "next", None  # "in this second stitch": the one that has just been named
        if ordinal == 1 and not which:
            which, ordinal = "first", None
        place = self._finish(which, n, ordinal, part, post, each, rest, said)
        if place is None:
            self.i = start
        return place

    def _finish(self, which, n, ordinal, part, post, each, rest, said) -> Place | None:
        k = self.k
        at = self.i
        if ordinal is not None:
            return self._ordinal(which, ordinal, n, post)
        special = self._special(which)
        if special is not None:
            if special.which in ("row ends", "free loops") and not each and (which or n is not None):
                special.n, special.extent = 1 if n is None else n, None
                if special.which == "row ends" and which in ("last", "first"):
                    special.which, special.of = which, "row end"
            elif special.which == "row ends":
                special.each = each
            return special
        own = self.v[at] if k[at] == "OWN" else None
        noun = self.noun()
        if own is not None and not which and own.name.lower().startswith("beg"):
            which = "first"  # "top of beg puff"
        if noun is None:
            if not said and not post:
                return None
            of, chains, group = "st", None, ""
            if k[at] == "AND" or not (which or each or post):
                if not (n is not None and (which or each)) and not post and not which:
                    return None
        else:
            of, chains, group = noun.of, noun.chains, noun.group
            if noun.n is not None and n is None:
                n = noun.n
            if of == "ch" and which in ("first", "last") and chains is None and k[self.i] == "OF" and self._chain_ahead(self.i + 1):
                self.i += 1
                return self._chain_top(1 if which == "first" else None)
        place = Place(which or "next", of, n, None, None, chains, group, "" if part == "free" else part, "", post)
        if part == "free" and place.which == "first":
            place.of = "unworked"
        if each and n is None:
            place.each = True
        elif n is None and not rest:
            place.n = 1
        elif each:
            place.each = True
        if place.which == "same" and place.of == "sp" and self.free_row is not None:
            place.of = "st"  # "same loop": a loop left free
        self._tail(place, each or rest)
        if place.n is None and place.extent is None and place.which != "same":
            place.extent = self.extent() or Extent("open")
        return place

    def _tail(self, place: Place, each: bool) -> None:
        """What follows the noun: "of next shell", "from Rnd 4", "2 rows below", "as join", "across to last 3 sts"."""
        k = self.k
        if place.of in ("sp", "corner") and place.which == "next" and not self.moved and self._just_formed():
            place.which = "same"  # "in sp formed by joining hdc": where the last round ended
        while True:
            kind = k[self.i]
            if kind == "OF" or kind == "FROM":
                if not self._of(place):
                    return
            elif kind == "AS" and place.which == "same":
                self._as(place)
            elif kind == "NUM" and k[self.i + 1] == "PREVIOUS" and "below" in self._word(self.i + 1):
                place.which, place.rows_down = "below", self.v[self.i] if isinstance(self.v[self.i], int) else 1
                self.i += 2
            elif kind == "MADE" or kind == "PREVIOUS":
                self.i += 1
            elif (kind == "LEFT" or kind == "UNWORKED") and not self.leaving:
                self.i += 1 + (k[self.i + 1] == "UNWORKED")
                if place.which == "first":
                    place.of = "unworked"
                while k[self.i] in ("AT", "IN", "FROM", "OF") and k[self.i + 1] in ("W", "U", "ROUND", "ROW", "PREVIOUS", "END") or k[self.i] in ("ROUND", "AROUND", "ROW", "W", "U") and (
                    k[self.i - 1] in ("AT", "IN", "FROM", "OF", "W", "U", "ROUND")
                ):
                    self.i += 1
            elif kind == "W" and k[self.i + 1] == "MADE":  # "just made"
                self.i += 2
            elif kind == "AT" and k[self.i + 1] == "BASE":  # "in st at base of 3ch"
                self.i += 2 + (k[self.i + 2] == "OF")
                self._at_the_base()
                place.which = "same"
            elif kind == "AT" and k[self.i + 1] == "BEG" and place.which != "same":
                self.i += 2
                while k[self.i] in ("OF", "ROW", "ROUND", "AROUND"):
                    self.i += 1
                place.which = "first" if place.which == "next" else place.which
            elif kind == "AND" and each and place.of != "st+sp" and self._and_noun(place):
                pass
            elif kind == "IN" and k[self.i + 1] in ("ROW", "ROUND", "PREVIOUS", "THIS", "AROUND") and k[self.i + 1] != "AROUND":
                self.i += 2
                if k[self.i] == "NUM":
                    place.row = self.v[self.i] if isinstance(self.v[self.i], int) else None
                    self.i += 1
                elif k[self.i] in ("ROW", "ROUND", "AROUND"):
                    self.i += 1
            elif kind == "NUM" and k[self.i + 1] in ("ROW", "ROUND", "AROUND") and k[self.i + 2] == "PREVIOUS":
                place.which, place.rows_down = "below", self.v[self.i] if isinstance(self.v[self.i], int) else 1
                self.i += 3
            elif kind == "BETWEEN" and place.of == "sp":
                keep = self.i
                between = self._between()
                if between is None:
                    self.i = keep
                    return
                if place.chains is None:
                    place.of = "gap"
            elif kind == "(" and self._aside_ahead():
                self.i = self.match[self.i] + 1
            elif kind == "REMARK" and self._word(self.i) in ("before", "after") and k[self.i + 1] in ("NEXT", "FIRST", "LAST", "STN", "ST", "SAME", "EACH"):
                self.i += 1
                self.target() or self._noun_place()
                if place.of == "sp" and place.chains is None:
                    place.of = "gap"
            else:
                return

    def _just_formed(self) -> bool:
        """ "just made", "formed by joining hdc", "formed by last round's join" after a space: read, and whether it stands there."""
        k, start = self.k, self.i
        at = start + (k[start] in ("W", "U") and self._word(start) in ("just", "you", "that", "which"))
        if k[at] not in ("MADE", "FORM"):
            return False
        at += 1
        if k[at] in ("WITH", "ASFOLLOWS", "U", "W") and self._word(at) in ("by", "with", "using"):
            at += 1
            while k[at] in ("JOIN", "ST", "STN", "LAST", "PREVIOUS", "ROUND", "HY", "BEG", "CLOSING", "U", "W") and at - start < 7:
                at += 1
        self.i = at
        return True

    def _and_noun(self, place: Place) -> bool:
        """ "each st and ch-1 sp across": both kinds of place in turn."""
        keep = self.i
        self.i += 1
        if self.k[self.i] == "IN":
            self.i += 1
        if self.k[self.i] == "EACH":
            self.i += 1
        noun = self.noun()
        if noun is not None and {place.of, noun.of} & {"sp", "corner"} and noun.of != "ch" and (self.extent_ahead() or self.k[self.i] in (",", ".", ";", "END", "(", "[", "TURN")):
            if (place.of == "sp") != (noun.of == "sp"):
                place.of, place.chains = "st+sp", None
                return True
        self.i = keep
        return False
