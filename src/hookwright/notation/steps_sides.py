"""Going on along the other side of a chain: "rotate to work along the bottom of the chain", "continuing along the opposite side, ..."."""

from .tree import Extent, Place

TURNS_TO_A_SIDE = frozenset(("CONTINUE", "TURN", "REMARK", "SIDE", "OPPOSITE", "BASE", "ACROSS", "W", "U", "MOVE"))
_LEADING = frozenset(("CONTINUE", "TURN", "REMARK", "W", "U", "MOVE", "WORKING", "AND", "TO", "THIS", "AROUND", "SO", "YOU"))
_LEADING_WORDS = frozenset((
    "rotate", "rotating", "flip", "flipping", "pivot", "pivoting", "back", "down", "up", "piece", "upside", "going", "go", "it", "around", "way", "swivel", "moving", "move", "crochet",
    "spin", "degrees",
))
_ALONG = frozenset(("ACROSS", "IN", "TO", "AROUND", "OVER", "AT"))
_AFTER = frozenset((",", ":", ".", ";", "DASH", "NUM", "ST", "OWN", "(", "[", "MARK", "SKIP", "AND", "IN"))


class SideReading:
    """Reads sentences that lead to the other side of the foundation chain."""

    def other_side(self, frame) -> bool:
        """ "turn to other side of chain, sc 28": what follows goes into the free side; False with nothing read where it is something else."""
        k, start = self.k, self.i
        at = start
        along = False
        while at - start < 9:
            kind = k[at]
            if kind in _ALONG and k[at + 1] in ("SIDE", "OPPOSITE", "BASE", "OTHER"):
                at, along = at + 1, True
                break
            if kind in ("SIDE", "OPPOSITE", "BASE"):
                along = along or at > start
                break
            if kind == "TURN" and at > start or kind not in _LEADING and kind not in _ALONG or kind in ("W", "U", "REMARK") and self._word(at) not in _LEADING_WORDS:
                return False
            at += 1
        else:
            return False
        if k[at] == "OTHER":
            at += 1
        if k[at] == "OPPOSITE":
            at += 1
        base = k[at] == "BASE"
        if k[at] not in ("SIDE", "BASE", "EXTEND"):
            return False
        at += 1
        if base and k[at] in ("EXTEND", "SIDE"):
            at += 1
        of_chain = False
        if k[at] == "OF":
            here = at + 1
            while k[here] in ("BEG", "U", "W", "THIS") and here - at < 3:
                here += 1
            if k[here] not in ("CH", "TCH"):
                return False
            of_chain, at = True, here + 1
        if not of_chain and (base or not self.first_row or not along):
            return False
        if k[at] not in _AFTER or not frame.steps or not of_chain and k[at] == "IN":
            return False
        self.i = at
        span = self.span(start)
        if k[at] in ("AND", "IN"):
            self.i += k[at] == "AND"
        self.context = Place("other side", "ch", None, Extent(), span=span)
        return True
