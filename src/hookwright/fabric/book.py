"""The written rows so far, for those that refer back to them."""

from dataclasses import replace

from hookwright.notation.tree import Row

from .changing import changed_steps, grown_steps, growth_in_words


class Book:
    """The written rows so far, for those that refer back."""

    def __init__(self, sequence):
        self.sequence = sequence
        self.by_number = {}
        self.order = []  # source rows in working order (one entry a written row or worked row of a range)
        self.last_number = None
        self.cycle_numbers = ()
        self.named = {}

    def new_piece(self):
        self.order = []
        self.last_number = None

    def write(self, row: Row, numbers):
        for number in numbers:
            self.by_number[number] = row

    def sources(self, again, numbers):
        """Rows with steps of their own that a reference means, in order; empty where there are none."""
        if again.even:
            last = self.latest(1)
            return [self.sequence.even_row(last[0])] if last else []
        found = []
        for number in again.rows:
            row = self.by_number.get(number)
            if row is not None and not (number in numbers and row.again is not None):
                found.append(row)
        if again.rows and len(found) == len(again.rows):
            self.cycle_numbers = tuple(again.rows)
            return found
        if again.rows:
            return found if found else []
        for name in again.named:
            row = self.named.get(name.lower())
            if row is not None:
                found.append(row)
        if found:
            return found
        if again.same_manner:
            return self.latest(max(1, again.last or 1))
        return self.latest(max(1, again.last or 1))

    def changed(self, source, again, row, index):
        """The source with what the reference changes in it; `index`: which row of the reference, for those that grow."""
        key = ("changed", id(source), id(again), index)
        found = self.sequence.memo.get(key)
        if found is None:
            steps = changed_steps(source.steps, again.changes) if again.changes else None
            by = growth_in_words(row) if again.same_manner and steps is None else 0
            if by:
                steps = grown_steps(source.steps, by * (index + 1))
            found = source if steps is None else replace(source, steps=steps, stated=[])
            self.sequence.memo[key] = found
        return found

    def latest(self, count):
        return self.order[-count:] if self.order else []

    def worked(self, again) -> bool:
        return all(number in self.by_number for number in again.rows)

    def next_in_cycle(self, again):
        return again.rows[0] if again.rows else None

    def rows_so_far(self, size) -> int:
        thread = self.sequence.threads[size]
        return sum(1 for row in thread.fabric.rows[thread.piece_start:] if row.row is not None)

    def rows_to_measure(self, again, size):
        return self.sequence.rows_to_measure(again.until, size)

    def parity_for(self, side):
        return None
