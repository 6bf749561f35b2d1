"""Which words of the manuscript each stitch comes from: the pattern worked once more by a hand that keeps the step of every stitch.

The columns of a fabric do not hold it, so that checking costs nothing for it; it is asked for where a stitch is to be shown in the text.
"""

from .conventions import work_pattern
from .hand import Hand


class RecordingHand(Hand):
    """A Hand that keeps the span of the step that made each stitch: `spans`, beside the other columns."""

    __slots__ = ("spans",)

    def __init__(self, *args, **named):
        super().__init__(*args, **named)
        self.spans = []

    def _keep(self):
        self.spans.extend([self.span] * (len(self.kind) - len(self.spans)))

    def make(self, kind, cell, flags=1, loop=""):
        super().make(kind, cell, flags, loop)
        self._keep()

    def make_run(self, kind, first, count, loop=""):
        super().make_run(kind, first, count, loop)
        self._keep()

    def make_into(self, kind, cell, count, loop=""):
        super().make_into(kind, cell, count, loop)
        self._keep()

    def make_chains(self, count, flags=0):
        before = len(self.kind)
        super().make_chains(count, flags)
        self._keep()
        if count > 0 and before == len(self.kind) and self.span.start >= self.spans[-1].start:
            self.spans[-1] = self.spans[-1].to(self.span)  # "ch 2, ch 1" is one run of chains

    def tiled(self, ends, passes):
        spans, at = [], 0
        for end, span in ends:
            spans.extend([span] * (end - at))
            at = end
        self.spans.extend(spans * passes)

    def unmake(self, start):
        super().unmake(start)
        del self.spans[start:]

    def freeze(self):
        return (super().freeze(), list(self.spans))

    def thaw(self, frozen, snap):
        columns, spans = frozen
        self.spans = list(spans)
        super().thaw(columns, snap)


class Record:
    """Spans of the steps by the columns of the rows that they made. hand: the class of the hands that keep them."""

    hand = RecordingHand

    def __init__(self):
        self._kept = {}  # id of a row's kinds -> (the kinds, spans); holding them keeps the id theirs

    def keep(self, made, hand):
        if len(hand.spans) == len(made.kind):
            self._kept[id(made.kind)] = (made.kind, hand.spans)
            made.end["begun"] = hand.memory.get("foundation span")

    def of(self, row) -> list:
        kept = self._kept.get(id(row.kind))
        return kept[1] if kept is not None else []


def step_spans(pattern, work, *, below=None, in_round=False, row_height_mm=None) -> dict:
    """{id of a worked row of `work`: [Span of the step that made each of its stitches, in the text of the pattern]}.

    below, in_round, row_height_mm: as the work was done with. Rows that do not come out alike the second time are left out; a step that
    stands nowhere in the text (an even row between shaped ones) has NOWHERE.
    """
    record = Record()
    again = work_pattern(pattern, below=below, in_round=in_round, sizes=[fabric.size for fabric in work.fabrics], limit=work.limit,
                         row_height_mm=row_height_mm, record=record)
    out = {}
    for fabric, other in zip(work.fabrics, again.fabrics, strict=True):
        for index, (row, like) in enumerate(zip(fabric.rows, other.rows, strict=False)):
            spans = record.of(like)
            if not spans:  # a foundation, told alone or with the row after it
                told = like if like.row is not None else other.rows[index + 1] if index + 1 < len(other.rows) else None
                span = told.end.get("begun") if told is not None else None
                spans = [span] * len(like.kind) if span else []
            if spans and row.kind == like.kind:
                out[id(row)] = spans
    return out

