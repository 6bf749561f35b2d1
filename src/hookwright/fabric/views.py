"""What a row at work may ask of the rows before it."""

from hookwright.notation.tree import FastenOff, Stitch

from . import layout
from .corner_blocks import blocks_across
from .even_rows import even_row
from .kinds import FOUNDATION
from .row_signs import goes_on, makes_foundation, without_shaping
from .rowwork import layout_of


class View:
    """What a row at work may ask of the rows before it."""

    __slots__ = ("sequence", "thread", "source")

    def __init__(self, sequence, thread, source):
        self.sequence, self.thread, self.source = sequence, thread, source

    def row_ends(self, hand):
        rows = self._rows_of_piece()
        return layout.row_ends(len(rows)) if rows else None

    def seams(self) -> int:
        """Rows of the piece that close it, worked through both layers: whether their ends are row ends, too, is not plain."""
        return sum(1 for row in self._rows_of_piece() if any(getattr(getattr(step, "place", None), "layers", 1) == 2 for step in row.row.steps))

    def _rows_of_piece(self) -> list:
        """The rows of the piece at work; of the one before it, where it begins along the side of that."""
        worked = self.thread.fabric.rows
        rows = [row for row in worked[self.thread.piece_start:] if row.has_height]
        if not rows and worked:
            rows = [row for row in worked if row.has_height and row.piece == worked[-1].piece]
            first = next((index for index, row in enumerate(worked) if row.piece == worked[-1].piece and row.number), 0)
            while first > 0 and worked[first].number == (worked[first - 1].number or 0) + 1:  # its rows go on counting from a part before it
                first -= 1
                rows += [worked[first]] if worked[first].has_height and worked[first] not in rows else []
        return rows

    def free_loops(self, hand, place):
        rows = self.thread.fabric.rows
        meant = [row for row in rows if place.row is None or row.number == place.row]
        if len(meant) > 1:  # the same number in several pieces: the one that was worked on in one loop only
            half = {row.below for row in rows if row.loops and any(loop in ("back", "front") for loop in row.loops.values())}
            meant = [row for index, row in enumerate(rows) if index in half and row in meant] or meant
        return layout_of(meant[-1]) if meant else None

    def began_with(self) -> int:
        """Stitches of the first row of the piece."""
        return next((row.stitches for row in self._rows_of_piece()), 0)

    def earlier_row(self, place):
        """The row that a place names by its number, or by how far below it lies; None where there is no such row, or it is the row below."""
        rows, at = self.thread.fabric.rows, self.thread.last
        if place.row is not None:
            while at >= 0 and rows[at].number != place.row:
                at = rows[at].below
        else:
            for _ in range(place.rows_down - 1):
                at = rows[at].below if at >= 0 else -1
        return layout_of(rows[at]) if at >= 0 and at != self.thread.last else None

    def lies_below(self, number: int) -> bool:
        """Whether the row of that number is the one below; so, too, where nothing is known of it."""
        rows, at, own = self.thread.fabric.rows, self.thread.last, self.source.numbers
        below = rows[at].number if at >= 0 else None
        return below == number if below else not own or own[0] == number + 1

    def flat(self, hand):
        """Whether the rows before were worked flat, so that a round now goes along all sides of them: those of the piece, or where a border is
        headed as a piece of its own those that it goes on from."""
        rows = self.thread.fabric.rows
        if self.thread.in_round:
            return False
        return any(row.row is not None for row in rows[self.thread.piece_start:]) or self.thread.last >= 0 and not rows[self.thread.last].in_round

    def fastened_off(self, hand):
        """Whether the yarn was cut after the row before."""
        order = self.sequence.book.order
        return bool(order) and any(isinstance(step, FastenOff) for step in order[-1].steps)

    def foundation(self, hand) -> int:
        """Chains of the first foundation of the work; 0 where it began otherwise."""
        for row in self.thread.fabric.rows:
            if row.kind and row.kind[0] == FOUNDATION:
                return len(row.kind)
        return 0

    def unworked(self, hand, number=None):
        """The stitches left last; those of the row with this number, where it is said and such are left."""
        rests, rows = self.thread.rests, self.thread.fabric.rows
        if number is not None:
            return next((rest for rest in reversed(rests) if rest.home is not None and rows[rest.home].number == number), None)
        return rests[-1] if rests else None

    def established(self, hand):
        """Steps of the row that comes next in the pattern as set: the one before the last."""
        book = self.sequence.book
        order = [row for row in book.order if row.steps and not goes_on(row.steps) and not makes_foundation(row)]
        if order:
            steps = (order[-2] if len(order) >= 2 else order[-1]).steps
            key = ("without shaping", id(steps))
            found = self.sequence.memo.get(key)
            if found is None:
                found = self.sequence.memo[key] = without_shaping(steps)
            return found
        plain = [row for row in book.order if row.steps and not goes_on(row.steps)]
        if not plain:
            return None  # nothing is set
        blocks = blocks_across(plain[-1].steps)
        if blocks is not None:
            return [blocks]
        return [step for step in even_row(self.sequence, plain[-1]).steps if isinstance(step, Stitch)]


def copy_layout(lay):
    """The same places as a Layout of its own, so that where they belong can be noted on it."""
    return layout.Layout(lay.kind, lay.size, lay.item, lay.groups, lay.corners, lay.tops, lay.ring, lay.joined)
