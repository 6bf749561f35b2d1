"""Row ranges and back-references: which written row is worked for every row they stand for."""

from dataclasses import dataclass

from hookwright.ground import PerSize, at
from hookwright.notation.tree import Again, Row

from .book import rows_meant
from .hand import TooMuch
from .shaped_rows import shaped_rows

ROWS_LIMIT = 100_000
_KEPT = 60  # rows a "last n rows" may reach back into one written row


@dataclass(slots=True)
class Plan:
    """Rows to work for one written row in one size: (number or None, source Row) pairs, and what does not come out."""

    rows: list
    troubles: list  # (kind, facts)
    stop_stitches: int | None = None
    cycle: int = 1  # rows of one repeat
    lacks: bool = False
    taken: str = ""  # what was taken where nothing says it, in words


def plan(row: Row, size: int, book) -> Plan:
    """What a written row stands for in this size. `book` knows the rows written so far (sequence.Book)."""
    made = _plan(row, size, book)
    book.planned(size, [source for _, source in made.rows[-_KEPT:]])
    return made


def _plan(row: Row, size: int, book) -> Plan:
    numbers = _numbers(row, size)
    count = at(row.count_of_rows, size) if row.count_of_rows is not None else None
    if row.again is None:
        if not numbers:
            return Plan([(None, row)] * (count if count and count > 0 else 1 if count is None else 0), [])
        made = Plan(list(zip(numbers, book.growing(row, len(numbers)), strict=True)), [])
        if count is not None and count != len(numbers):
            made.troubles.append(("rows-in-range", {"expected": count, "found": len(numbers)}))
        return made
    return _again(row, row.again, numbers, count, size, book)


def _numbers(row: Row, size: int):
    numbers = row.numbers
    if row.last_number is not None and numbers:
        last = at(row.last_number, size)
        if last is None:
            return ()
        first = at(row.first_number, size) if row.first_number is not None else numbers[0]
        if row.first_number is None and len(numbers) == 1 and isinstance(row.last_number, PerSize) and row.last_number[0] == first:
            first = last  # one row, whose number differs by size
        if first is None or last < first:
            return ()
        if last - first > ROWS_LIMIT:
            raise TooMuch(last - first, row.span)
        return tuple(range(first, last + 1))
    return numbers


def _again(row, again: Again, numbers, count, size, book) -> Plan:
    made = Plan([], [])
    if again.shaping is not None:
        return _shaped(row, again, numbers, count, size, book, made)
    sources = book.sources(again, numbers, size)
    if not sources and again.rows and not rows_meant(again, size):
        return made  # a dash stands for this size: it works none of them
    if not sources:
        if row.steps:  # "Row 4: as given": the row's own steps are all there is
            made.rows = [(number, row) for number in numbers or (None,)]
            return made
        made.lacks = True
        made.troubles.append(("no-such-row", {"wanted": again.rows or again.last or again.named}))
        sources = book.latest(1, size)
        if not sources:
            return made
    cycle = made.cycle = len(sources)
    numbered = book.cycle_numbers if again.rows else tuple(source.numbers[-1] for source in sources if source.numbers)
    total = _total(again, cycle, numbers, count, size, book, made, numbered)
    if total > ROWS_LIMIT:
        raise TooMuch(total, row.span)
    queue = [sources[index % cycle] for index in range(total)]
    if again.changes or again.same_manner:
        queue = [book.changed(source, again, row, index) for index, source in enumerate(queue)]
    follow = again.then
    while follow is not None:
        more = book.sources(follow, (), size)
        if not more:
            made.troubles.append(("no-such-row", {"wanted": follow.rows}))
            break
        times = at(follow.times, size) if follow.times is not None else 1
        if times is None:
            times = 0
        if times * len(more) > ROWS_LIMIT:
            raise TooMuch(times * len(more), row.span)
        queue.extend(more * times)
        follow = follow.then
    if again.until is not None and again.until.ending_on is not None and queue:
        last = queue[-1]
        if last.numbers and again.until.ending_on not in last.numbers:
            made.troubles.append(("range-ends", {"ends": last.numbers[-1], "said": again.until.ending_on,
                                                 "rows": len(queue), "cycle": cycle, "can": [n for s in sources for n in s.numbers]}))
    return _numbered(made, queue, again, numbers, size, book)


def _shaped(row, again, numbers, count, size, book, made) -> Plan:
    """Rows shaped at intervals, each of them a row."""
    room = len(numbers) if len(numbers) > 1 else count
    only = again.shaping.intervals[0]
    if room is None and numbers and only.every == 1 and only.first is None and only.times is None and only.stitches is None:
        room = 1  # "Rnd 5: increase 6 sts in each round"
    found = shaped_rows(row, again, room, size, book)
    made.troubles.extend(found.troubles)
    if found.assumed:
        made.taken = found.assumed
    return _numbered(made, found.rows, again, numbers, size, book)


def _numbered(made, queue, again, numbers, size, book) -> Plan:
    """The rows of the queue with their numbers."""
    cycle = made.cycle
    if numbers and len(numbers) == len(queue):
        made.rows = list(zip(numbers, queue))
    elif numbers and len(numbers) > 1:
        if again.times is not None or again.then is not None:
            made.troubles.append(("rows-in-range", {"expected": len(numbers), "found": len(queue), "cycle": cycle}))
        last = numbers[-1]
        made.rows = [(numbers[index] if index < len(numbers) else last + index - len(numbers) + 1, source)
                     for index, source in enumerate(queue)]
    elif numbers:
        made.rows = [(numbers[0] + index, source) for index, source in enumerate(queue)]
    else:
        first = book.last_number(size)
        made.rows = [(None if first is None else first + 1 + index, source) for index, source in enumerate(queue)]
    return made


def _total(again: Again, cycle, numbers, count, size, book, made, numbered) -> int:
    """How many rows the reference stands for before any "then"."""
    times = at(again.times, size) if again.times is not None else None
    if again.times is not None and times is None:
        return 0
    if len(numbers) > 1 and again.then is None:
        if times is not None and times * cycle != len(numbers):
            made.troubles.append(("rows-in-range", {"expected": len(numbers), "found": times * cycle, "cycle": cycle}))
        return len(numbers)
    if again.total_rows is not None:
        wanted = at(again.total_rows, size) or 0
        if again.until is None or not again.until.stitches:
            return max(0, wanted - book.rows_so_far(size))
    if count is not None:
        return max(0, count)
    if times is not None:
        if again.sense == "total" and book.worked(again, size):
            return max(0, (times - 1) * cycle) if not numbers else times * cycle
        return max(0, times * cycle)
    until = again.until
    if until is not None:
        if until.stitches is not None:
            made.stop_stitches = at(until.stitches, size)
            return min(2000, ROWS_LIMIT)
        if until.measure_mm is not None and not until.or_fixed:
            rows = book.rows_to_measure(again, size)
            if rows is not None:
                return _fit(rows, cycle, until, book, numbered)
            made.taken = "no row gauge says how many rows come to that length, so " + _once_through(cycle)
        elif until.desired and until.stitches is None:
            made.taken = "how long it gets is left to the maker, so " + _once_through(cycle)
        return cycle
    return cycle


def _once_through(cycle: int) -> str:
    return "the row is worked once here" if cycle == 1 else f"the {cycle} rows are worked once here"


def _fit(rows: int, cycle: int, until, book, numbers) -> int:
    """The number of rows nearest to `rows` that ends as it is said to (the row of the cycle, or the side); numbers: those of the cycle's rows."""
    if until.ending_on is not None and len(numbers) == cycle:
        if until.ending_on in numbers:
            want = numbers.index(until.ending_on) + 1
            low = (rows - want) // cycle * cycle + want
            return max(want, low if rows - low < low + cycle - rows else low + cycle)
    if until.side:
        parity = book.parity_for(until.side)
        if parity is not None and rows % 2 != parity:
            return rows + 1
    return max(0, rows)
