"""The written rows so far, for those that refer back to them."""

from dataclasses import replace

from hookwright.ground import at
from hookwright.notation.tree import Row, Stitch

from . import kinds
from .changing import between_in_words, blocks_grown, changed_steps, grown_steps, growth_in_words, own_growth, shaped_again, stretched_steps
from .changing_groups import groups_grown, groups_in_words, with_lost
from .even_rows import even_row
from .statement import layout_from


def rows_meant(again, size) -> tuple:
    """The row numbers that a reference means in this size; () where this size has none of them."""
    if again.last_number is None or not again.rows:
        return again.rows
    last = at(again.last_number, size)
    first = at(again.first_number, size) if again.first_number is not None else again.rows[0] if len(again.rows) > 1 else last
    return () if last is None or first is None else tuple(range(first, last + 1))


class Book:
    """The written rows so far, for those that refer back."""

    def __init__(self, sequence):
        self.sequence = sequence
        self.by_number = [{} for _ in sequence.threads]  # one a size: the same number may be another row in each
        self.order = []  # source rows in working order (one entry a written row or worked row of a range)
        self.last_numbers = [None] * len(sequence.threads)
        self.numbers_differ = False  # a label has given each size numbers of its own
        self.cycle_numbers = ()
        self.named = {}
        self.by_size = {}  # size -> source rows as that size worked them, where sizes work different numbers of rows
        self.before = ()
        self.stated = None

    def new_piece(self):
        self.order = []
        self.by_size = {}
        self.last_numbers = [None] * len(self.last_numbers)
        self.numbers_differ = False

    def last_number(self, size):
        """The number after which rows without one go on: this size's own where numbers differ by size, else the same for all; None where there is none."""
        if self.numbers_differ:
            return self.last_numbers[size]
        return max((number for number in self.last_numbers if number is not None), default=None)

    def planned(self, size, sources):
        """Keeps what one size works next."""
        self._of_size(size).extend(sources)

    def _of_size(self, size):
        """The rows as this size works them; rows that are only referred to stand as often as they say."""
        if not self.by_size:
            self.before = tuple(self.order)
        if size not in self.by_size:
            self.by_size[size] = [row for row in self.before for _ in range(min(100, self._often(row, size)))]
        return self.by_size[size]

    def _often(self, row, size):
        if row.count_of_rows is not None:
            return at(row.count_of_rows, size) or 0
        return max(1, len(row.numbers))

    def write(self, row: Row, numbers, size=None):
        """Keeps which row has these numbers, in one size or in all."""
        for by_number in self.by_number if size is None else (self.by_number[size],):
            for number in numbers:
                by_number[number] = row

    def worked_as(self, rows, size):
        """Keeps the (number, source) pairs that one size works, and which number came last."""
        by_number = self.by_number[size]
        last = None
        for number, source in rows:
            if number is not None:
                by_number[number] = source
                last = number
        if last is not None:
            self.last_numbers[size] = last
        return last is not None

    def go_on(self, counts):
        """Rows without numbers, so many in each size, go on counting from the last."""
        lasts = {size: self.last_number(size) for size in counts}
        for size, count in counts.items():
            if lasts[size] is not None:
                self.last_numbers[size] = lasts[size] + count

    def sources(self, again, numbers, size=None):
        """Rows with steps of their own that a reference means, in order; empty where there are none."""
        if again.shaping is not None and again.shaping.kind:
            return self.latest(1, size) or self._stated_below()
        if again.even:
            last = self.latest(1, size) or self._stated_below()
            return [even_row(self.sequence, last[0])] if last else []
        if (again.named or again.piece) and id(again) in self.sequence.meant:
            return self.sequence.meant[id(again)]
        found = []
        wanted = rows_meant(again, size or 0)
        by_number = self.by_number[size or 0]
        for number in wanted:
            row = by_number.get(number)
            if row is not None and not (number in numbers and row.again is not None and not again.piece):
                found.append(row)
        if again.rows:
            if found and len(found) == len(wanted):
                self.cycle_numbers = tuple(wanted)
            return found
        for name in again.named:
            row = self.named.get(name.lower())
            if row is not None:
                found.append(row)
        if found:
            return found
        last = at(again.last, size or 0)
        return self.latest(max(1, last or 1), size)

    def changed(self, source, again, row, index):
        """The source with what the reference changes in it; `index`: which row of the reference, for those that grow."""
        key = ("changed", id(source), id(again), index)
        found = self.sequence.memo.get(key)
        if found is None:
            steps = changed_steps(source.steps, again.changes) if again.changes else None
            if again.same_manner and steps is None:
                steps = blocks_grown(source.steps)
            by = growth_in_words(row) if again.same_manner and steps is None else 0
            if by:
                steps = grown_steps(source.steps, by * (index + 1))
            elif again.same_manner and steps is None and (number := between_in_words(row)):
                steps = stretched_steps(source.steps, number)
            if again.same_manner and steps is None:
                more, between = groups_in_words(row)
                steps = groups_grown(source.steps, more * (index + 1), between) if more or between else None
                steps = with_lost(source.steps, row) if steps is None and not again.changes else steps
                steps = shaped_again(source.steps, index + 1) if steps is None and not again.changes and not again.even and not again.rows else steps
            found = source if steps is None else replace(source, steps=steps, stated=[])
            self.sequence.memo[key] = found
        return found

    def growing(self, row, many):
        """The written row for each of its range; where its words say that its stretches grow on each, those after the first are longer."""
        by = own_growth(row) if many > 1 else 0
        if not by:
            return [row] * many
        key = ("growing", id(row), many)
        found = self.sequence.memo.get(key)
        if found is None:
            grown = [grown_steps(row.steps, by * index) for index in range(1, many)]
            found = self.sequence.memo[key] = [row, *(row if steps is None else replace(row, steps=steps) for steps in grown)]
        return found

    def stitches_now(self, size):
        """Stitches of the row on which the next is worked, None where that is not known."""
        lay = self._standing_on(size)
        return lay.stitches if lay is not None and lay.n else None

    def worked_in(self, size) -> str:
        """The one plain stitch of which the row on which the next is worked is made; "" where it is of several, or of none known by its plain name."""
        lay = self._standing_on(size)
        found = {kinds.NAMES[kind] for kind in lay.kind} if lay is not None else set()
        found = {kinds.plain_of(kind) for kind in found if kind not in kinds.GATHERED} if len(found) < 4 else found
        only = found.pop() if len(found) == 1 else ""
        return only if kinds.takes_makes(only) == (1, 1) else ""

    def _standing_on(self, size):
        """The layout on which the next row is worked, None where there is none."""
        thread = self.sequence.threads[size]
        if thread.lay is None and thread.last < 0 and self.sequence.below:
            return layout_from(self.sequence.below, size)
        return thread.lay

    def growth(self, source, size) -> int:
        """By how many stitches a row worked before is longer than the row below it; 0 where that is not known."""
        rows = self.sequence.threads[size].fabric.rows
        for made in reversed(rows):
            if made.row is not None and made.below >= 0 and made.row.span == source.span:
                return made.stitches - rows[made.below].stitches
        return 0

    def kept(self, key, make):
        """What `make` makes, once."""
        found = self.sequence.memo.get(key)
        if found is None:
            found = self.sequence.memo[key] = make()
        return found

    def latest(self, count, size=None):
        """The last rows worked, in one size where that is said."""
        order = self.order if size is None else self._of_size(size)
        return order[-count:] if order else []

    def _stated_below(self):
        """The row that is said to lie below, where it is made of stitches and not of a chain to begin in."""
        if self.stated is None:
            steps = self.sequence.below or []
            plain = any(isinstance(step, Stitch) for step in steps) and not any(getattr(step, "role", "") == "foundation" for step in steps)
            self.stated = [Row(steps=list(steps))] if plain else []
        return self.stated

    def worked(self, again, size) -> bool:
        return all(number in self.by_number[size] for number in rows_meant(again, size))

    def rows_so_far(self, size) -> int:
        thread = self.sequence.threads[size]
        return sum(1 for row in thread.fabric.rows[thread.piece_start:] if row.has_height)

    def rows_to_measure(self, again, size):
        """Rows that come to the length said, by the row gauge; None where there is no gauge."""
        until, row_height_mm = again.until, self.sequence.row_height_mm
        if not row_height_mm:
            return None
        wanted = until.measure_mm
        if isinstance(wanted, (tuple, list)):
            wanted = wanted[size] if size < len(wanted) else None
        if wanted is None:
            return None
        rows = round(wanted / row_height_mm)
        if "piece" in until.measured_from or not until.measured_from:
            rows -= self.rows_so_far(size)
        elif any(word in until.measured_from for word in ("crown", "center", "centre", "ring")):  # of all rounds, under whatever headings
            fabric, index = self.sequence.threads[size].fabric, self.sequence.threads[size].last
            while index >= 0:
                rows -= fabric.rows[index].has_height
                index = fabric.rows[index].below
        return max(0, rows)

    def parity_for(self, side):
        return None
