"""A row read as a whole: its steps from the first token to the last, and what all of them together turn out to be."""

from bisect import bisect_left
from dataclasses import replace

from hookwright.ground import Span

from .counts import made_by
from .first_cluster import close_first_cluster
from .steps_frame import MAKING, Frame
from .steps_settle import settle
from .tree import Either, Extent, Go, Group, Leave, Mark, Note, Place, Repeat, Ring, Skip, Stitch, Unread

_SORTS = frozenset(("instead", "option", "version", "alternative", "variation", "variant"))
_NO_TITLE = frozenset(("NUM", "IN", "NEXT", "EACH", "(", "[", "MARK", "CH", "SKIP"))


_IN_TITLE = frozenset(("U", "W", "FOR", "AND", "OF", "&"))  # "Divide for Body and Sleeves: ..."


class WholeRowReading:
    """Reads a row from its first token to its last."""

    def whole(self) -> list:
        frame = Frame()
        self._title(frame)
        while True:
            self.sequence(frame, ())
            if self.k[self.i] == "END":
                break
            self.i += 1
        if self.context is not None and self.context.which == "from hook" and isinstance(self.context.ordinal, int) and self.context.ordinal > 1:
            frame.steps.append(Skip(Place("first", "ch", self.context.ordinal - 1)))  # "ch 8, start from 2nd ch from hook."
        if self.between is not None:
            frame.steps = self.with_between(frame.steps)
        steps = settle(frame.steps if self.announced is None else self.without_announced(frame.steps), self)
        if len(steps) > 2 and (self.text.find("tog", self.s[0], self.e[-1]) >= 0 or self.text.find("luster", self.s[0], self.e[-1]) >= 0):
            close_first_cluster(steps)
        self._bare_name(steps)
        if self._word(0) == "always":
            steps = _always(steps)
        self.ends_alone(steps)
        if self.growth is not None:
            steps.append(self.growth)
        return self._perhaps_repeated(steps)

    def _title(self, frame: Frame) -> None:
        """ "Or picots instead: ...", "Border, the scalloped version: ...": what the row is, before its steps."""
        close = self.k.index(":", 0, 8) if ":" in self.k[:8] else 0
        if not close:
            return
        sort = self._word(close - 1) in _SORTS or self._joins_pieces(close)
        named = sort and _NO_TITLE.isdisjoint(self.k[:close] if self._word(close - 1) in _SORTS else self.k[3:close])
        if not named and not ((close > 2 or close == 2 and self.k[0] in ("ST", "OWN")) and _IN_TITLE.issuperset(self.k[self.k[0] in ("ST", "OWN"):close])):
            return
        self.i = close + 1
        frame.steps.append(Note(self.text[self.s[0]:self.e[close - 1]], Span(self.s[0], self.e[close])))
        frame.ended = True

    def _joins_pieces(self, close: int) -> bool:
        """ "To join the two sides: ...", "Joining the squares: ...": what the row is for."""
        k, at = self.k, 1 if self.k[0] == "TO" else 0
        return (at == 1 or self._word(0) in ("joining", "closing")) and k[at] == "JOIN" and "ST" not in k[at:close] and (at == 1 or "YARN" not in k[:close] and "WITH" not in k[:close])

    def _bare_name(self, steps: list) -> None:
        """ "Rnds 4-6: sc (18)": the name of a stitch and nothing else is that stitch in every one."""
        if len(steps) > 6:
            return
        made = [step for step in steps if type(step) in MAKING or type(step) in (Skip, Unread, Ring, Go, Leave, Mark)]
        alone = made[0] if len(made) == 1 else None
        if type(alone) is not Stitch or alone.n != 1 or alone.place is not None or alone.legs is not None or alone.kind in ("inc", "dec", "invdec", "slst") or alone.kind.endswith("tog"):
            return
        at = bisect_left(self.s, alone.span.start)
        if (self.e[at] == alone.span.end or alone.loop) and self.k[at] == "ST" and self.k[at - 1] != "NUM":
            alone.place = Place(n=None, extent=Extent(span=alone.span))

    def _perhaps_repeated(self, steps: list) -> list:
        """ "1 sc, inc (21)": a repeat that is not written at all, where only the count shows how often."""
        stated = self.read.stated
        if not (0 < len(steps) < 7 and len(stated) == 1 and len(stated[0].items) == 1):
            return steps
        spread = self.perhaps_evenly(steps)
        if spread is not None:
            return spread
        if not all(type(step) is Stitch and step.place is None for step in steps):
            return self._perhaps_all_repeated(steps)
        number, of, _ = stated[0].items[0]
        made = made_by(steps)
        last = steps[-1]
        if self.times_said is not None and last.n == self.times_said and len(steps) > 1 and made != number:
            again = [Repeat([*steps[:-1], replace(last, n=1)], last.n, span=steps[0].span.to(last.span))]
            if made_by(again) == number:
                return [Either([again, list(steps)], "\"x n\" may repeat only the last stitch or all of them", again[0].span)]
        shaped = any(step.kind in ("inc", "dec", "invdec") or step.kind.endswith("tog") for step in steps)
        if not shaped or made is None or not isinstance(number, int) or made >= number or of in ("row", "sp") or stated[0].per:
            return steps
        span = steps[0].span.to(steps[-1].span)
        why = "the count shows that the steps are repeated, though the row does not say so"
        return [Either([list(steps), [Repeat(list(steps), extent=Extent(), span=span)]], why, span)]

    def _perhaps_all_repeated(self, steps: list) -> list:
        """ "sc in next 2 sts, sc2tog x 6", "sc2tog, sc in next 2 sts 6 times": where the last stitch alone can't come to the count, all of them are repeated."""
        last, number = steps[-1], self.read.stated[0].items[0][0]
        if len(steps) == 1:
            return steps
        if type(last) is Stitch and last.n == self.times_said and last.place is None:
            one, times = replace(last, n=1), last.n
        elif type(last) is Repeat and not last.mark and len(last.steps) == 1 and last.sense == "total" and last.ending is None:
            one, times = last.steps[0], last.times
        else:
            return steps
        whole = [*steps[:-1], one]
        if not isinstance(times, int) or any(not _plainly_made(step) or step.place is not None and (step.place.which != "next" or step.place.extent is not None) for step in whole):
            return steps
        again = [Repeat(whole, times, span=steps[0].span.to(last.span))]
        if made_by(steps) == number or made_by(again) != number:
            return steps
        return [Either([again, list(steps)], "\"n times\" may repeat only the last stitch or all of them", again[0].span)]


def _plainly_made(step) -> bool:
    """A stitch, or her own word for some in one place ("inc = 2 sc in one st")."""
    return type(step) is Stitch or type(step) is Group and bool(step.name) and len(step.steps) == 1 and type(step.steps[0]) is Stitch


def _always(steps: list) -> list:
    """ "Always 1 sc, 1 inc (18)", "always crochet 2 together": what is always done goes on to the end of the round."""
    steps = [step for step in steps if type(step) is not Note]
    made = [step for step in steps if type(step) is Stitch]
    if not made or len(made) < len(steps) and steps[: len(made)] != made or any(step.place is not None and (step.place.extent is not None or step.place.which != "next") for step in made):
        return steps
    return [Repeat(made, extent=Extent(), span=made[0].span.to(made[-1].span)), *steps[len(made) :]]
