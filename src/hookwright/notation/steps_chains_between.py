"""Chains between stitches that are told all at once: "sc in center dc of each fan with ch 6 between", "dc in each st around, ch 1 after each"."""

from dataclasses import replace

from .steps_frame import Frame
from .steps_settle import SPACES
from .tree import Chain, Extent, Group, Repeat, Skip, Stitch

_ONE_BY_ONE = frozenset(("popcorn", "puff", "bobble", "cl"))  # stitches of several legs, which stand by themselves


class ChainsBetweenReading:
    """Reads the chains that go between stitches worked all along."""

    def chain_after_each(self, frame, chain: Chain) -> bool:
        """ "dc in each st around, ch 1 after each": the chain goes into what is repeated; the hook stands at "after"."""
        k = self.k
        last = self.last_step(frame)
        if k[self.i] != "REMARK" or self._word(self.i) != "after" or k[self.i + 1] != "EACH" or last is None or frame.steps[-1] is not last:
            return False
        at = self.i + 2 + (k[self.i + 2] in ("ST", "STN", "OWN"))
        if k[at] not in (",", ".", ";", "END", ")", "]", "TURN", "JOIN", "AROUND", "ACROSS"):
            return False
        if not self._goes_in(last, frame, chain):
            return False
        self.i = at
        return True

    def chain_between_all(self, frame, chain: Chain) -> bool:
        """ "3 dc in each sp, ch 1 between groups": as after each, but none after the last of a row; the hook stands at "between"."""
        k, last = self.k, self.last_step(frame)
        if last is None or type(last) is Repeat and last.times is not None:
            return False
        if frame.steps[-1] is not last and (self.text[frame.steps[-1].span.start:frame.steps[-1].span.end].lower() != "always" or frame.steps[-2] is not last):
            return False
        at = self.i + 1
        while at < self.i + 5 and (k[at] in ("EACH", "THIS", "STN", "ST", "OWN", "SP", "NUM", "OF") or k[at] in ("W", "U") and self._word(at) in ("them", "these", "pairs", "two")):
            at += 1
        if k[at] not in (",", ".", ";", "END", ")", "]", "TURN", "JOIN", "AROUND", "ACROSS", "AND") or k[at] == "AND" and k[at + 1] in ("ST", "NUM") and not self._closes(at + 1):
            return False
        place = getattr(last, "place", None)
        if type(last) is Stitch and last.kind in _ONE_BY_ONE and isinstance(last.n, int) and 1 < last.n < 5 and place is not None and place.of in SPACES and place.n in (None, 1):
            one = replace(last, n=1, place=None)  # "2 popcorns in each sp with ch 3 between them"
            frame.steps[frame.steps.index(last)] = Group([part for index in range(last.n) for part in ((one, chain) if index < last.n - 1 else (one,))], place, span=last.span)
            self.i = at
            return True
        if self.in_round and type(last) in (Stitch, Group) and place is not None and place.of in SPACES and (place.extent is not None or place.each):
            self.between = chain  # after every group of the round
            self.i = at
            return True
        del frame.steps[frame.steps.index(last) + 1:]
        if not self._goes_in(last, frame, chain):
            return False
        self.i = at
        if not self.in_round:
            repeat = frame.steps[-1]
            repeat.stop, repeat.partial = len(repeat.steps) - 1, "last"
        return True

    def with_between(self, steps: list) -> list:
        """The groups of a round, each with the chain after it that was told of all of them."""
        chain, out = self.between, []
        placed = [step for step in steps if type(step) in (Stitch, Group) and getattr(step, "kind", "") != "slst"]
        if len(placed) == 1 and placed[0].place is not None and placed[0].place.extent is not None:
            frame = Frame()
            frame.steps = [placed[0]]
            self._goes_in(placed[0], frame, chain)
            return [frame.steps[0] if step is placed[0] else step for step in steps]
        for step in steps:
            place = getattr(step, "place", None)
            if type(step) in (Stitch, Group) and place is not None and place.of in SPACES and getattr(step, "kind", "") not in ("slst", "picot"):
                inner = step.steps if type(step) is Group else [replace(step, place=None)]
                step = Group([*inner, chain], place, span=step.span)
            out.append(step)
        return out

    def _closes(self, at: int) -> bool:
        return self.k[at] == "ST" and self.v[at] == "slst"

    def _goes_in(self, last, frame, chain: Chain) -> bool:
        """Puts the chain into what is repeated; False where nothing is."""
        if type(last) is Repeat and last.times is None:
            where = next((index for index, step in enumerate(last.steps) if type(step) is Skip), len(last.steps))
            last.steps.insert(where, chain)
        elif type(last) in (Stitch, Group) and last.place is not None and last.place.extent is not None:
            extent, last.place.extent, last.place.n, last.place.each = Extent(span=last.place.extent.span), None, 1, False
            frame.steps[-1] = Repeat([last, chain], extent=extent, span=last.span)
        else:
            return False
        return True

    def chains_between(self, frame, node, start: int) -> bool:
        """ "sc in center dc of each fan with ch 6 between": a chain after each of them."""
        k, here = self.k, self.i
        at = here + 1
        if k[at] == "CH":
            at += 1 + (k[at + 1] == "HY")
            number, at = (self.v[at], at + 1) if k[at] == "NUM" else (1, at)
        elif k[at] == "NUM" and k[at + 1 + (k[at + 1] == "HY")] == "CH":
            number, at = self.v[at], at + 2 + (k[at + 1] == "HY")
        else:
            return False
        while k[at] == "STN":
            at += 1
        if k[at] == "REMARK":
            self.i = at  # "puff in every ch-1 sp with ch 1 after each"
            if self.chain_after_each(frame, Chain(number)):
                return True
            self.i = here
            return False
        place = getattr(node, "place", None)
        if k[at] == "BETWEEN" and (type(node) is Repeat or self.in_round and place is not None and place.of in SPACES):
            self.i = at
            if self.chain_between_all(frame, Chain(number)):
                return True
            self.i = here
        if k[at] != "BETWEEN" or k[at + 1] in ("NEXT", "NUM") or place is None or place.extent is None or place.extent.kind not in ("end", "open") or frame.steps[-1] is not node:
            return False
        self.i = at + 1
        while k[self.i] in ("EACH", "THIS", "STN", "ST", "SP") and k[self.i - 1] in ("BETWEEN", "EACH", "THIS"):
            self.i += 1
        extent, place.extent, place.n, place.each = Extent(span=place.extent.span), None, 1, False
        repeat = Repeat([node, Chain(number)], extent=extent, span=self.span(start))
        if not self.in_round:
            repeat.stop, repeat.partial = 1, "last"
        frame.steps[-1] = repeat
        return True
