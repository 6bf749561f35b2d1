"""Places with a way of their own: chains counted, tops of chains, rings, row ends, free loops, "same st as join"."""

from hookwright.ground import Number

from .tree import Extent, Place


class SpecialPlaceReading:
    """Reads special places."""

    def _special(self, which: str) -> Place | None:
        """Rings, turning chains, row ends, the other side of the chain."""
        k, kind = self.k, self.k[self.i]
        if kind in ("ENDING", "SIDE", "EXTEND") and k[self.i + 1] == "OF" and k[self.i + 2] == "EACH":
            at = self.i + 3 + (k[self.i + 3] in ("ST", "STN"))
            if k[at] in ("ROW", "ROUND"):  # "in the end of each row across", "in side of each dc row"
                self.i = at + 1
                return Place("row ends", "st", None, self.extent() or Extent(), each=True)
        if kind == "RING" or kind == "MAGIC" or (kind == "SHADE" and self.v[self.i] == "MC" and not self.lexicon.colours & {"mc"} and "CC" not in self.v):
            if kind != "RING" and not self.ring_made:
                self.ring_wanted = True
            self.i += 1
            while k[self.i] in ("/", "RING", "OF") and k[self.i + 1] in ("RING", "W", "MAGIC", "CH", "END") and k[self.i] != "END":
                self.i += 1
            return Place("ring", n=1)
        if kind in ("BEG", "TCH") and which in ("", "next", "last"):
            if self._chain_ahead():
                return self._chain_top(None)
            if kind == "BEG" and k[self.i + 1] in ("OF", "END", ",", ".", ";", ")"):
                self.i += 1
                return Place("beginning")
        if kind == "FREELOOPS":
            return self._free_loops()
        if kind == "EXTEND":
            self.i += 1
            self._skip_of_noun()
            return Place("row ends", "st", None, self.extent() or Extent())
        if kind in ("SIDE", "OPPOSITE"):
            numbered = self._along_far_side(True) if self._far_side(self.i) else None
            if numbered is not None:
                return numbered
            self.i += 1
            if k[self.i] == "SIDE":
                self.i += 1
            chains = self._so_many_chains(self.i + 1) if k[self.i] == "OF" else 0
            if chains:  # "in other side of the 3 ch"
                self.i = chains
                return Place("other side", "ch", self.v[self.i - 2])
            on_chain = k[self.i] != "OF" or k[self.i + 1] in ("CH", "BEG", "U", "W", "TCH")
            self._skip_of_noun()
            if on_chain or self.first_row:
                return Place("other side", "ch", None, self.extent() or Extent())
            self.i -= 1
            return None
        return None

    def _so_many_chains(self, at: int) -> int:
        """Where "each of the next 3 ch" at token `at` ends, 0 where no number of chains stands there."""
        while self.k[at] in ("EACH", "NEXT", "OF", "THIS", "ALL", "SAME"):
            at += 1
        return at + 2 if self.k[at] == "NUM" and self.k[at + 1] == "CH" and self.k[at + 2] not in ("SP", "HY") else 0

    def _center_chain(self) -> Place | None:
        """ "center ch of next ch-5": its third."""
        start = self.i
        self.i += 3
        inner = self.target() or self._noun_place()
        if inner is not None and inner.of == "sp" and inner.chains is None:
            return inner  # "center ch of next loop", whose size is not said
        if inner is None or not isinstance(inner.chains, int):
            self.i = start
            return None
        return Place("nth", "ch", inner.n, inner.extent, (inner.chains + 1) // 2, inner.chains)

    def _free_loops(self) -> Place:
        """ "free loops of Rnd 4 around", "free loops of foundation ch"."""
        k = self.k
        self.i += 1
        place = Place("free loops", "st", None, row=self.free_row)
        if k[self.i] in ("OF", "FROM", "IN", "ACROSS"):
            at = self.i + 1
            chains = self._so_many_chains(at)
            if chains:  # "in free loops of next 8 ch"
                self.i = chains
                return Place("other side" if self.first_row else "next", "ch", self.v[chains - 2])
            if self._far_side(at):
                keep, self.i = self.i, at
                side = self._along_far_side()
                if side is not None and side.which == "other side":
                    return side
                self.i = keep
            while k[at] in ("BEG", "THIS"):
                at += 1
            if k[at] in ("ROW", "ROUND", "AROUND") and k[at + 1] == "NUM":
                place.row = self.free_row = self.v[at + 1] if isinstance(self.v[at + 1], int) else None
                self.i = at + 2
            elif k[at] in ("CH", "TCH"):
                place.which, place.of = "other side", "ch"
                self.i = at + 1
                while k[self.i] in ("HY", "NUM") and k[self.i + 1] not in ("ST", "OWN"):
                    self.i += 1
            elif k[at] in ("PREVIOUS", "ST", "STN"):
                self.i = at + 1
        place.extent = self.extent() or Extent()
        return place

    def _skip_of_noun(self) -> None:
        k = self.k
        while k[self.i] in ("OF", "CH", "W", "U", "SP", "BEG", "ROW", "RING", "TCH", "STN", "PREVIOUS", "ROUND"):
            self.i += 1

    def _at_the_base(self) -> Place:
        """ "base of ch1", "st at base of ch-3": where the chain stands."""
        while self.k[self.i] in ("CH", "HY", "NUM", "TCH", "BEG", "OF", "SAME", "STN", "FIRST") and not (
            self.k[self.i] == "NUM" and self.k[self.i + 1] in ("ST", "OWN")
        ):
            self.i += 1
        return Place("same")

    def _begins_on_its_chain(self, ordinal: Number) -> bool:
        """ "Ch 6, sc in 2nd ch and in next 4 chs, sc in each st across": a row made longer, the hook after "2nd ch"."""
        k, at, head = self.k, self.i, 0
        while k[head] in ("TURN", ",", ".", ";", "AND"):
            head += 1
        number = self.v[head + 1] if k[head] == "CH" and k[head + 1] == "NUM" else self.v[head] if k[head] == "NUM" and k[head + 1] == "CH" else 0
        if not isinstance(number, int) or not isinstance(ordinal, int) or number <= ordinal + 1:
            return False
        at += k[at] == "AND"
        return at > self.i and "CH" in k[at:at + 5] and not {",", ";", "."} & set(k[at:k.index("CH", at)])

    def _ordinal(self, which: str, ordinal: Number, n: Number | None, post: str) -> Place | None:
        """ "2nd ch from hook", "3rd ch of ch-5", "3rd dc", "2nd ch of next ch-4", "4th st of ch"."""
        k = self.k
        if k[self.i] == "LOOP" and self.first_row and not self.moved:  # "in the 2nd bump of the chain"
            loop = self.v[self.i]
            self.i += 1
            while k[self.i] in ("OF", "CH", "BEG") or k[self.i] in ("FROM", "HOOK") and (k[self.i + 1] == "HOOK" or k[self.i - 1] == "FROM"):
                self.i += 1
            return Place("from hook", "ch", 1, ordinal=ordinal, loop="" if loop == "both" else loop)
        noun = self.noun()
        of = noun.of if noun is not None else "st"
        kind = k[self.i]
        if kind == "FROM" and k[self.i + 1] == "HOOK":
            self.i += 2
            if of in ("ch", "sp") or of == "st" and (self.first_row or not noun):
                return Place("from hook", "ch", 1, ordinal=ordinal)
            return Place("nth", of, 1, ordinal=ordinal, post=post)
        if kind == "OF" and of not in ("ch", "sp"):
            at = self.i
            self.i += 1
            inner = self.target() or self._noun_place()
            if inner is not None and inner.of == "corner":  # "in 2nd sc of 3-sc corner": its middle
                return Place("next", "corner", inner.n, inner.extent, part="center", post=post, each=inner.each)
            self.i = at
        if kind == "OF" and of in ("ch", "st"):
            self.i += 1
            if k[self.i] in ("NEXT", "EACH", "FIRST", "LAST", "SAME"):
                inner = self.target()
                if inner is not None:
                    chains = inner.chains
                    if chains is None and inner.of == "ch" and isinstance(inner.n, int) and inner.n > 1:
                        chains = inner.n  # "2nd ch of next 4 chs"
                        inner.n = 1
                    if noun is None and chains is not None:
                        of = "ch"  # "2nd of next 3 ch"
                    return Place("nth", of, inner.n, inner.extent, ordinal, chains, inner.group)
            elif self._chain_ahead():
                return self._chain_top(ordinal)
            else:
                inner = self.target() or self._noun_place()
                if inner is not None:
                    return Place("nth", of, 1, None, ordinal, inner.chains, inner.group)
            self.i -= 1
        if of == "ch" and noun.chains is None:
            if not self.moved and (self.first_row or self._begins_on_its_chain(ordinal)):
                return Place("from hook", "ch", 1, ordinal=ordinal)
            if kind == "FROM":
                self._of(Place())
            return Place("chain top", n=1, ordinal=ordinal)
        place = Place("nth" if which in ("", "next") else which, of, 1, ordinal=ordinal, post=post)
        if noun is not None:
            place.chains, place.group = noun.chains, noun.group
        self._tail(place, False)
        return place

    def _noun_place(self) -> Place | None:
        noun = self.noun()
        return Place("next", noun.of, 1, None, None, noun.chains, noun.group) if noun is not None else None

    def _chain_ahead(self, at: int | None = None) -> bool:
        """Whether a beginning or turning chain is named here: "beg ch-3", "ch 3", "3 ch", "turning ch" - not a ch-3 space."""
        k, at = self.k, self.i if at is None else at
        while k[at] in ("BEG", "FIRST", "SAME", "LAST", "THIS", "PREVIOUS") or k[at] == "SKIPPED" and self.first_row:
            at += 1
        if k[at] == "TCH":
            return True
        if k[at] == "NUM":
            at += 1
            if k[at] == "HY":
                at += 1
            return k[at] in ("CH", "TCH") and k[at + 1] != "SP" and not (k[at + 1] == "HY" and k[at + 2] == "SP")
        if k[at] != "CH":
            return False
        at += 1
        if k[at] == "HY":
            at += 1
        if k[at] == "NUM":
            at += 1
            return k[at] != "SP" and not (k[at] == "HY" and k[at + 1] == "SP")
        return k[at] != "SP"

    def _chain_top(self, ordinal: Number | None) -> Place:
        """A beginning or turning chain, read to its end."""
        k = self.k
        chains, turning = None, False
        while k[self.i] in ("BEG", "FIRST", "SAME", "LAST", "THIS", "PREVIOUS"):
            self.i += 1
        turning = k[self.i] == "TCH" and ordinal is None and not self.in_round
        if k[self.i] == "NUM":
            chains = self.v[self.i]
            self.i += 1 + (k[self.i + 1] == "TCH")  # "3rd of 4 turning ch"
        elif k[self.i] == "TCH":
            self.i += 1
            if k[self.i] == "HY" and k[self.i + 1] == "NUM":  # "turning ch-4"
                chains = self.v[self.i + 1]
                self.i += 2
        if k[self.i] == "HY":
            self.i += 1
        if k[self.i] == "CH":
            self.i += 1
            if k[self.i] == "HY":
                self.i += 1
            if k[self.i] == "NUM" and chains is None and k[self.i + 1] not in ("ST", "OWN", "CH"):
                chains = self.v[self.i]
                self.i += 1
        if turning and k[self.i + (k[self.i] == "HY")] == "SP":  # "sp of turning ch" is said "turning ch-4 sp", too
            self.i += 1 + (k[self.i] == "HY")
            return Place("last", "sp", 1, chains=chains)
        place = Place("chain top", n=1, ordinal=ordinal, chains=chains)
        while k[self.i] in ("FROM", "AT", "OF", "IN") and k[self.i + 1] in ("PREVIOUS", "BEG", "ROW", "ROUND"):
            self.i += 2
            while k[self.i] in ("OF", "ROW", "ROUND", "AROUND", "PREVIOUS", "NUM"):
                self.i += 1
        if k[self.i] == "(" and self._aside_ahead():
            self.i = self.match[self.i] + 1
        return place

    def _as(self, place: Place) -> None:
        """ "same st as join", "same sp as first ch-5", "same place as last dc"."""
        k = self.k
        self.i += 1
        at_start = certain = False
        if k[self.i] == "FIRST" and k[self.i + 1] in (".", ",", ";", "END", ")", "(", "[", "JOIN", "DONOTJOIN"):
            self.i += 1  # "2 sc in the same ch as the first"
            place.which = "beginning"
            return
        if k[self.i] == "FIRST" and k[self.i + 1] in ("ST", "OWN") or k[self.i] in ("FIRST", "BEG") and (k[self.i + 1] == "NUM" and k[self.i + 2] in ("ST", "OWN", "STN")):
            self.i += 2 + (k[self.i + 1] == "NUM")  # "same st as first 3 dc"
            while k[self.i] in ("STN", "MADE"):
                self.i += 1
            place.which = "beginning"
            return
        while True:
            kind = k[self.i]
            if kind in ("JOIN", "CH", "BEG", "TCH") or kind == "ST" and self.v[self.i] == "slst":
                at_start = True
                certain = certain or kind == "BEG"
            elif kind == "YOU" and k[self.i + 1] == "JOIN":
                pass  # "the same st as you joined in"
            elif kind == "NUM" and k[self.i + 1] in ("ST", "OWN") and k[self.i - 1] != "CH" or kind == "ST" and at_start and not certain:
                break
            elif kind == "NUM":
                place.chains = self.v[self.i] if certain and place.of != "sp" else place.chains
            elif kind not in ("FIRST", "LAST", "ST", "STN", "SP", "HY", "AT", "OF", "ROUND", "ROW", "MADE", "PREVIOUS", "OWN", "AROUND") and not (
                kind == "IN" and k[self.i + 1] in ("BEG", "PREVIOUS")
            ) or kind == "AROUND" and k[self.i - 1] not in ("OF", "BEG"):
                break
            self.i += 1
        if at_start and k[self.i] in ("IN", "TO") and k[self.i + 1] in (",", ".", ";", "AND"):
            self.i += 1
        if certain or (at_start and self.moved):
            place.which = "beginning"
