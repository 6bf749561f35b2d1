"""What stands after the preposition: "next st", "each of next 3 ch-1 sps across", "3rd ch of ch-5", and what is said of it."""

from .tree import Extent, Place

_ENDS = frozenset((",", ";", ".", "END", ")", "]", "(", "[", "TURN", "AROUND"))
NOUNS = frozenset(("STN", "ST", "OWN", "CH", "SP", "RING", "MAGIC", "POST", "EXTEND", "JOIN", "PREVIOUS"))

_MANY = frozenset(("loops", "lps", "spaces", "sps", "gaps", "arches", "arcs", "holes", "spcs"))


class TargetReading:
    """Reads a place without its preposition."""

    def _step_begins(self, start: int, at: int) -> bool:
        """Whether the noun at `at` begins the next step, a comma left out: "skip 1 DC 1 in next st", "sc in next 16 CH 30, skip 14"."""
        k = self.k
        if k[at] == "CH":
            return k[at + 2] in ("SKIP", ",", ".", ";", "TURN", "AND", "END") and bool(start) and k[start - 1] in ("IN", "OVER", "SKIP")
        return k[at + 2] == "IN" and k[at + 3] in ("NEXT", "FIRST", "LAST", "EACH", "SAME") and bool(start) and k[start - 1] == "SKIP"

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
                if k[self.i + 1] == "NUM" and v[self.i + 1] == 1 and k[self.i + 2] in _ENDS and self._word(self.i + 1) == "one":  # "inc in every one"
                    self.i += 2
                    return Place(which or "next", n=None, extent=Extent("end"), each=True)
                if k[self.i + 1] == "NUM" and v[self.i + 1] == 1 and k[self.i + 2] == "OF":  # "every one of the next 8 sts"
                    self.i += 1
                    if k[self.i + 2] == "OTHER":
                        which, rest = which or "next", True
                        self.i += 3
                        continue
                if k[self.i + 1] == "OF":
                    self.i += 1
                if k[self.i + 1] == "OTHER" and self._what_is_left(self.i + 1):
                    self.i += 1
                    continue
                if k[self.i + 1] in ("OTHER", "ROW", "ROUND") or k[self.i + 1] == "AROUND" and self._word(self.i + 1) == "round":
                    self.i = start
                    return None
            elif kind in ("ST", "OWN", "SP") and k[self.i + 1] in ("CH", "SP", "NUM", "CENTER") and self.text[self.e[self.i] - 2:self.e[self.i]] in ("'s", "s'") and self.i > start:
                pass  # "in next shell's ch-2 sp"
            elif kind == "FIRST" or kind == "LAST":
                which = kind.lower()
            elif kind == "ENDING" and self._word(self.i) == "end" and k[self.i + 1] in ("CH", "STN", "ST") and self.i == start:
                which = "last"  # "3 sc in end ch"
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
                if k[self.i + 1] in ("ST", "CH") and k[self.i + 2] == "NUM" and self._step_begins(start, self.i + 1):
                    self.i += 1
                    return Place(which or "next", n=n)
                said = said or k[self.i + 1] in NOUNS
                if k[self.i + 1] == "MORE":
                    self.i += 1
                self.i += 1
                if k[self.i] == "OF" and k[self.i + 1] in ("NEXT", "FIRST", "LAST", "REM"):
                    self.i += 1
                continue
            elif kind == "ALL" or kind == "REM" or kind == "OTHER" and self._what_is_left(self.i):
                each = rest = True
                which = which or "next"
                if k[self.i + 1] == "OF":
                    self.i += 1
            elif kind == "BOTH" and k[self.i + 1] == "FIRST" and k[self.i + 2:self.i + 4] == ["AND", "LAST"]:
                pass  # "in both the first and last st"
            elif kind == "BOTH":
                n = 2
                each = each or k[self.i + 1] not in NOUNS  # "sc in both"
            elif kind == "ANY":
                which = "any"
            elif kind in ("OTHER", "OPPOSITE") and k[self.i + 1] == "SP" and self.facing_gap(self.i):
                which = which or "next"  # "sc in the other corner": of an opening
            elif kind == "SKIPPED" or kind == "SKIP" and self.i == start and k[start - 1] in ("IN", "AROUND") and k[self.i + 1] in ("ST", "STN") and self._word(self.i)[:2] in ("sk", "mi"):
                which = "skipped"  # "in sk st": in the one skipped
            elif kind == "MARKER":
                which = "marked"
            elif kind == "CENTER":
                if k[self.i + 1] == "CH" and k[self.i + 2] == "OF":
                    return self._center_chain()
                if self._word(self.i).endswith("of") or k[self.i + 1] == "OF":
                    self.i += k[self.i + 1] == "OF"
                    part = "center"
                elif k[self.i + 1] in ("ST", "STN") or k[self.i + 1] == "SP" and v[self.i + 1] == "sp":
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
            elif kind == "JOIN" and self._word(self.i) == "joining" and k[self.i + 1] == "STN" and not self.moved:
                which = "same"  # "dc in joining st"
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
                last = self.last_place
                if last is not None and last.of in ("sp", "corner", "group") and k[self.i + 1] not in NOUNS:
                    self.i += 1  # "3 tr in next sp, ... in the one after": of the same sort
                    return Place("next", last.of, 1, chains=last.chains, group=last.group)
            elif kind == "SIDE" and k[self.i + 1] == "SP" and self._word(self.i) == "side":
                pass  # "next side space": a space like any other
            elif kind in ("W", "U") and (which or self.i > start or k[start - 1] in ("IN", "TO")) and k[self.i + 1] in ("STN", "SP", "ST", "CH") and self._word(self.i) not in ("made", "just"):
                self.i += 1
                continue
            elif kind == "UNWORKED" and (said or which or n is not None) and not self.leaving:
                part = "free"
            elif kind in ("BEG", "STANDING") and k[self.i + 1] in ("ST", "OWN"):
                which = which or "first"
            elif kind == "BEG" and k[self.i + 1] in ("CH", "NUM") and not self._chain_ahead(self.i):  # "beg ch-2 sp"
                which = which or ("first" if self.in_round else "last")
            else:
                break
            said = said or kind not in ("THIS", "NUM")
            self.i += 1
        if base:
            return self._at_the_base()
        if this and ordinal is not None:
            which, ordinal = which or "next", None  # "in this second stitch": the one that has just been named
        if this and not which and n is None and not self.moved and k[self.i] in ("STN", "CH", "SP") and self.i == start + 1 and not (self.open_marks and k[self.i] == "SP"):  # in every pass it is another
            which = "same"  # "join yarn in next st, sc in that st"
        if ordinal == 1 and not which:
            which, ordinal = "first", None
        place = self._finish(which, n, ordinal, part, post, each, rest, said)
        if place is None:
            self.i = start
        return place

    def _what_is_left(self, at: int) -> bool:
        """Whether the "other" at `at` names what is left: "in each of the other 26 sts", "all the other sts", but not "each other st"."""
        k = self.k
        if k[at - 1] == "IN" and k[at + 1] in ("STN", "CH") and self._word(at + 1) in ("sts", "stitches", "chs", "chains"):
            return True  # "sc in the other chains"
        return k[at + 1] == "NUM" and k[at + 2] in NOUNS or k[at - 1] == "ALL" or k[at - 2:at] == ["EACH", "OF"] or (
            k[at - 1] == "EACH" and k[at + 1] == "SP" and self.v[at + 1] == "sp" and "corner" in self.v[:at]  # "(...) in each corner, 3 dc in every other sp": in those that are no corners
        )

    def _under(self, at: int) -> bool:
        """Whether the place that ends before `at` is "under the next": a loop of chain, since nobody works under a stitch."""
        k = self.k
        while k[at - 1] in ("NEXT", "THIS"):
            at -= 1
        return k[at - 1] == "IN" and self._word(at - 1) == "under"

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
            elif special.which in ("other side", "free loops") and n is not None and special.n is None:  # "each of next 8 unused loops of ch"
                special.n, special.extent = n, None
            return special
        own = self.v[at] if k[at] == "OWN" else None
        noun = self.noun()
        if own is not None and not which and own.name.lower().startswith("beg"):
            which = "first"  # "top of beg puff"
        if noun is None and rest and n is not None and which == "next" and self._word(at - 2) == "other" and self.last_place is not None and self.last_place.of in ("sp", "corner", "gap", "group"):
            last = self.last_place
            return Place("next", last.of, n, chains=last.chains, group=last.group, each=True)  # "2 tr in that sp, 2 tr in each of the other five"
        if noun is None:
            if not said and not post:
                return None
            of, chains, group = "sp" if which == "next" and self._under(at) else "st", None, ""
            last = self.last_place
            if which == "next" and n is None and last is not None and last.of == "sp" and k[at] in (",", ";", ".", "MARK", "REP", "END") and self.text[self.e[at - 2]:self.s[at - 1]].strip().lower() == "the":
                of, chains = "sp", last.chains  # "5 dc in this space, 2 dc in the next": of the same sort
            if k[at] == "AND" or not (which or each or post):
                if not (n is not None and (which or each)) and not post and not which:
                    return None
        else:
            of, chains, group = noun.of, noun.chains, noun.group
            if of == "sp" and self.gap_told and chains is None and self._word(at) in ("gap", "gaps"):
                of = "gap"  # "2 tr in gap before next group, ... 2 tr in last gap"
            if noun.n is not None and n is None:
                n = noun.n
            if of == "ch" and which in ("first", "last") and chains is None and k[self.i] == "OF" and self._chain_ahead(self.i + 1):
                self.i += 1
                top = self._chain_top(1 if which == "first" else None)
                return Place("next", "ch", n) if which == "first" and isinstance(n, int) and n > 1 else top  # "sl st in first 2 ch of ch-5"
        if which == "first" and k[self.i] == "OF" and "SKIPPED" in k[self.i + 1:self.i + 3]:
            self.i += 2 + (k[self.i + 1] == "NUM")  # "to the first of the 8 missed dc"
            self.noun()
            of = "unworked"
        if of == "corner" and not (which or each or post) and n is None and self._word(at).startswith("corner") and self._word(at).endswith("s"):
            each = True  # "3 sc in corners"
        if of in ("sp", "gap") and not (which or each or post or said) and n is None and noun is not None and self._word(self.i - 1) in _MANY:
            each = True  # "5 sc in the loops"
        place = Place(which or "next", of, n, None, None, chains, group, "" if part == "free" else part, "", post)
        if part == "free" and (place.which == "first" or n is not None and place.which == "next"):
            place.of = "unworked"
        if each and n is None:
            place.each = True
        elif n is None and which == "skipped" and k[self.i - 1] == "STN" and self.text[self.e[self.i - 1] - 1] in "sS":
            place.extent = Extent()  # "FPtr around skipped sts": all that were
        elif n is None and of == "corner" and not which and not rest and self._word(self.i - 1) == "corners":
            place.each = True  # "3 sc at the corners": in each of them
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
                    at = self.i + 1
                    while kind == "FROM" and k[at] in ("W", "U", "EXTEND", "SIDE", "LEFT", "FIRST", "LAST") and at - self.i < 4:
                        at += 1
                    if at == self.i + 1 or k[at] not in (",", ".", ";", "END", ")", "AND"):
                        return
                    self.i = at  # "skip next 4 sts from right front"
            elif kind == "AS" and place.which == "same":
                self._as(place)
            elif kind == "NUM" and k[self.i + 1] == "PREVIOUS" and "below" in self._word(self.i + 1):
                place.which, place.rows_down = "below", self.v[self.i] if isinstance(self.v[self.i], int) else 1
                self.i += 2
            elif kind == "MADE" or kind == "PREVIOUS":
                if place.of == "st" and place.which == "next" and place.n == 1 and not self.moved and k[self.i - 2] == "IN" and self._word(self.i) == "below":
                    place.which = "same"  # "ch 3, dc in st below": under the chain
                if kind == "MADE" and place.of == "st" and place.which == "next" and place.n == 1 and self.moved and self._word(self.i) == "worked":
                    place.which = "same"  # "dc again in st just worked"
                self.i += 1
            elif (kind == "LEFT" or kind == "UNWORKED") and not self.leaving:
                self.i += 1 + (k[self.i + 1] == "UNWORKED")
                if place.which == "first":
                    place.of = "unworked"
                while k[self.i] in ("AT", "IN", "FROM", "OF") and k[self.i + 1] in ("W", "U", "ROUND", "ROW", "PREVIOUS", "END") or k[self.i] in ("ROUND", "AROUND", "ROW", "W", "U") and (
                    k[self.i - 1] in ("AT", "IN", "FROM", "OF", "W", "U", "ROUND")
                ):
                    self.i += 1
            elif place.which == "next" and place.of not in ("sp", "corner", "group", "gap") and (after := self._was_skipped(self.i)):
                place.which, self.i = "skipped", after  # "in the st you skipped", "in dc that was just missed"
            elif kind == "REMARK" and self._word(self.i) == "after" and k[self.i + 1] == "THIS":
                self.i += 2  # "2 sc in the stitch after that"
            elif kind in ("W", "YOU") and k[self.i + 1] == "MADE" or kind == "THIS" and k[self.i + 1:self.i + 3] == ["YOU", "MADE"]:  # "just made", "that you made"
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
            elif kind in ("AND", "+") and (each and place.n is None or k[self.i + 1] == "SP" and isinstance(place.n, int) and place.n > 1) and place.of != "st+sp" and self._and_noun(place):
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
            elif kind == "BETWEEN" and place.of == "sp" and place.chains is None and k[self.i + 1] == "SP" and self._word(self.i + 1) in ("petals", "scallops", "points"):
                place.of, place.group = "gap", self._word(self.i + 1)[:-1]  # "sc in sp between petals"
                self.i += 2
            elif kind == "BETWEEN" and place.of == "sp":
                keep = self.i
                between = self._between()
                if between is None:
                    self.i = keep
                    return
                if place.chains is None:
                    place.of = "gap"
                    if between.n is None and place.n == 1 and place.which == "next":
                        place.n, place.extent, place.each = None, between.extent, True  # "in the space between each st around"
            elif kind in ("BETWEEN", "THIS") and place.n == 1 and place.of not in ("corner", "group", "gap") and self._beside_groups():
                pass
            elif kind == "(" and self._aside_ahead():
                self.i = self.match[self.i] + 1
            elif kind in ("AROUND", "ACROSS", "OVER") and place.extent is None and not place.group and self._leg_ahead():
                place.group, self.i = self.leg_named(self.i + 1)
            elif self.sides and self.on_other_side(place):
                pass
            elif kind == "REMARK" and self._word(self.i) in ("before", "after") and k[self.i + 1] in ("NEXT", "FIRST", "LAST", "STN", "ST", "SAME", "EACH", "SP", "ANY"):
                self.i += 1
                self.target() or self._noun_place()
                if place.of == "sp" and place.chains is None:
                    place.of = "gap"
                    self.gap_told = True
            else:
                return

    def _was_skipped(self, start: int) -> int:
        """Where "you skipped", "that was just missed" after a stitch ends, 0 where nothing of the sort stands at this token."""
        at = start
        while self.k[at] in ("YOU", "THIS", "W", "U", "HAVE", "PREVIOUS", "PLAIN") and at - start < 4 and self._word(at) not in ("not", "and", "at"):
            at += 1
        return at + 1 if self.k[at] == "SKIPPED" else 0

    def _beside_groups(self) -> bool:
        """ "dc in dc between shells", "in the dc that separates the shells": told where the stitch lies, which is the next one anyhow."""
        k, start = self.k, self.i
        if k[start] == "THIS":
            if self._word(start) not in ("that", "which") or self._word(start + 1) not in ("separates", "divides", "parts", "lies", "stands", "sits", "is"):
                return False
            self.i += 2
        self.i += k[self.i] == "BETWEEN"
        while k[self.i] in ("EACH", "BOTH", "NEXT", "THIS") or k[self.i] == "NUM" and self.v[self.i] == 2:
            self.i += 1
        noun = self.noun()
        if noun is not None and noun.of == "group" and k[self.i] in (",", ";", ".", ":", "END", ")", "]", "MARK", "AND", "REP", "TURN"):
            return True
        self.i = start
        return False

    def _leg_ahead(self) -> bool:
        """Whether "leg 1", "first leg" stands after the preposition at hand."""
        return self.leg_named(self.i + 1) is not None

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
        if self.k[self.i] in ("W", "U") and self.k[self.i + 1] in ("CH", "SP"):
            self.i += 1  # "each st and each underarm ch"
        noun = self.noun()
        if noun is not None and {place.of, noun.of} & {"sp", "corner"} and noun.of != "ch" and (self.extent_ahead() or self.k[self.i] in (",", ".", ";", "END", "(", "[", "TURN", "JOIN", "WITH", "WORKING", "PLACING")):
            if (place.of == "sp") != (noun.of == "sp"):
                place.of, place.chains = "st+sp", None
                return True
        self.i = keep
        return False
