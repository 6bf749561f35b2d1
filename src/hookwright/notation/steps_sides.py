"""Going on along the other side of a chain, however it is said: "turn to other side of chain", "continue down the opposite side"."""

from .tree import Extent, Place

_ON_THE_WAY = frozenset(("TURN", "CONTINUE", "WORKING", "MOVE", "REMARK", "W", "U", "IN", "TO", "ACROSS", "AROUND", "OVER", "ROUND", "NUM", "AT", "AND", "YARN", "BUT", "BEG", "FREELOOPS"))
_TOWARDS = frozenset(("MOVE", "IN", "TO", "ACROSS", "AROUND", "OVER", "W", "WORKING"))
_FAR_SIDES = frozenset(("other side", "opposite side", "bottom side", "underside", "free side", "opposite", "bottom", "base"))
_CHAIN_WORDS = frozenset(("OF", "CH", "BEG", "W", "TCH", "STN", "SP", "RING", "FIRST", "THIS"))


class SideReading:
    """Reads words that lead to the other side of the chain."""

    def act_other_side(self, frame) -> bool:
        """A clause that turns to the other side of the chain; what follows is worked there. False with nothing read where it is none."""
        k, start = self.k, self.i
        at = start
        while k[at] in _ON_THE_WAY and at - start < 10 and not self._far_side(at):
            at += 1
        heads = at == start and frame.ended and frame.steps  # "Other side of the chain: sc in next 9 ch"
        if not self._far_side(at) or not heads and (at == start or k[at - 1] not in _TOWARDS and not self._after_work(at)):
            return False
        self.i = at
        place = self._along_far_side()
        if place is None:
            self.i = start
            return False
        if place.which == "other side":
            self.context = place
        if k[self.i] in ("WITH", "ASFOLLOWS") and k[self.i + 1] in ("NUM", "ST", "OWN", ":", "CH"):
            self.i += 1
        return True

    def _far_side(self, at: int) -> bool:
        if self.k[at] == "LOOP":  # "now work in the bottom loops of the chain"
            return self.first_row and self.moved and self._word(at) in ("bottom loops", "bottom loop") and self.k[at + 1:at + 3] == ["OF", "CH"]
        return self.k[at] in ("SIDE", "OPPOSITE", "BASE") and self._word(at) in _FAR_SIDES and not (self.k[at + 1] == "SP" and self.facing_gap(at))

    def facing_gap(self, at: int) -> bool:
        """Whether what follows token `at` is a corner or a gap, of which an opening has two: "the opposite corner", "the other gap"."""
        return self.v[at + 1] == "corner" or self._word(at + 1) in ("gap", "space", "sp")

    def _along_far_side(self, there: bool = False) -> Place | None:
        """The far side at hand with its chain: "other side of foundation chain", "opposite side"; None with nothing read.

        Chains told by their number ("the 3 ch") are those made in this row or passed in the one before: they come next by themselves.
        there: a stitch is worked into it, so that the number of a foundation's chains is that of the places.
        """
        k, start = self.k, self.i
        self.i += 1 + (k[start + 1] in ("SIDE", "EXTEND") and k[start] in ("OPPOSITE", "BASE"))
        of = k[self.i] == "OF"
        at = self.i + of
        if of and (there or not self.first_row) and self._so_many_chains(at):
            at = self._so_many_chains(at) - 2
        while of and k[at] in _CHAIN_WORDS:
            at += 1
        named = of and "CH" in k[self.i:at] or "TCH" in k[self.i:at]
        numbered = None
        if of and k[at] in ("NUM", "HY") and k[at + 1] not in ("ST", "OWN") and (named or k[at + 1 + (k[at + 1] == "HY")] == "CH"):
            at += k[at] == "HY"
            numbered = self.v[at]
            at += 1
            if not named:
                at += 1 + (k[at] == "HY")
            while k[at] in ("STN", "SP", "HY"):
                at += 1
        if k[start] == "BASE" and not named or not (named or numbered is not None or self.first_row and (not of or k[at - 1] in ("W", "U"))):
            self.i = start
            return None
        if of:
            self.i = at
        if numbered is not None and not self.first_row:
            return Place("next", "ch", numbered)
        if numbered is not None and there:
            return Place("other side", "ch", numbered)
        return Place("other side", "ch", None, self.extent() or Extent())

    def on_other_side(self, place: Place) -> bool:
        """ "sc in next 8 ch along the other side of the chain": where those places are."""
        k, start = self.k, self.i
        if k[start] not in _TOWARDS or not self._far_side(start + 1) or place.of not in ("st", "ch") or place.which not in ("next", "first", "last") or place.extent is not None:
            return False
        self.i += 1
        side = self._along_far_side()
        if side is None or side.which != "other side":
            self.i = start
            return False
        place.which, place.of = "other side", "ch"
        if place.n is None:
            place.extent = side.extent  # "each ch along the underside"
        return True
