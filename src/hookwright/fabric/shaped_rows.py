"""Rows shaped at intervals: which rows the sentence stands for, shaped ones and the even ones between them."""

from dataclasses import dataclass
from itertools import product

from hookwright.ground import at
from hookwright.notation.tree import Extent, Group, Join, Place, Repeat, Row, Stitch, Turn, Unread

from .even_rows import even_row_in
from .stated import total_stated

MOST_ROWS = 2_000


@dataclass(slots=True)
class Shaped:
    """The source rows in order; assumed: words for what was taken where nothing says it; troubles as (kind, facts)."""

    rows: list
    assumed: str = ""
    troubles: tuple = ()


def shaped_rows(row, again, room, size, book) -> Shaped:
    """The rows that `again.shaping` stands for in this size. room: how many rows its label or words give it, None where they say nothing."""
    shaping = again.shaping
    now = book.stitches_now(size)
    stated = total_stated(book.sequence, row.stated, size) or None
    below = book.sources(again, (), size) if shaping.kind else _named_row(again, book, size)
    kind = shaping.stitch or book.worked_in(size)
    intervals = [(interval, at(interval.every, size), at(interval.first, size)) for interval in shaping.intervals]
    intervals = [(interval, every, first) for interval, every, first in intervals if every]
    if not kind or now is None or not shaping.kind and not below:
        return Shaped([_not_known(row, book)], troubles=(("not-established", {}),))
    if not shaping.kind:
        return _again_at_intervals(row, intervals, room, size, book, below[-1], kind, stated, now)
    chosen = None
    for where, extra in product(_wheres(shaping, size), _readings(intervals)):
        grows = where[1] * (1 if shaping.kind == "inc" else -1)
        found = _schedule(intervals, size, room, now, grows, stated, extra)
        if found is None:
            continue
        whole = stated is None or now + grows * len(found[0]) == stated
        if chosen is None or whole:
            chosen = (where, extra, *found)
        if whole:
            break
    if chosen is None:
        return Shaped([_not_known(row, book)], troubles=(("not-established", {}),))
    where, extra, shaped, last, troubles = chosen
    ends = _ends(below[-1]) if below else []
    steps = _steps(shaping.kind, where, kind)
    if steps is None:
        return Shaped([_not_known(row, book)], troubles=(("not-established", {}),))
    made = book.kept(("shaped", id(row), where, kind), lambda: Row(row.word, (), name="shaped", steps=[*steps, *ends], span=row.span))
    even = book.kept(("even between", id(row), kind), lambda: Row(row.word, (), name="even", steps=[Stitch(kind, 1, Place(extent=Extent(), n=None)), *ends], span=row.span))
    rows = [made if index in shaped else even for index in range(1, last + 1)]
    words = []
    if not shaping.where and shaping.n is None:
        words.append("one stitch at each end of a shaped row" if where[0] == "ends" else "one stitch in a shaped row")
    if extra:
        words.append("the times come after the first shaped row")
    return Shaped(rows, "; ".join(words), troubles)


def _named_row(again, book, size) -> list:
    """The row that is the shaped one: the last, or the latest of that name ("Increase Row", "Row 2 (inc row)")."""
    latest = book.latest(40, size)
    if not again.named:
        return latest[-1:]
    word = again.named[0].lower()[:3]
    for row in reversed(latest):
        said = [row.name, *(note.text for note in row.notes if note.lead == ":")]
        if any(name.lower().startswith(word) for name in said):
            return [row]
    sign = {"inc": 1, "dec": -1}.get(word, 0)
    return next(([row] for row in reversed(latest) if row.numbers[:1] != (1,) and _growth(book, row, size) * sign > 0), [])  # the first row grows out of its chain


def _growth(book, source, size) -> int:
    """By how many stitches a row changes the count: as it was worked before, else as its steps say where that is plain; 0 where it is not known."""
    return book.growth(source, size) or _said_growth(source.steps, size) or 0


def _said_growth(steps, size) -> int | None:
    total = 0
    for step in steps:
        if isinstance(step, Repeat):
            times, inner = at(step.times, size), _said_growth(step.steps, size)
            if inner is None or inner and (not isinstance(times, int) or step.sense != "total"):
                return None
            total += inner * (times or 0)
        elif isinstance(step, Group):
            return None
        elif isinstance(step, Stitch):
            number, place = at(step.n, size), step.place
            if step.kind == "inc":
                total += number
            elif step.kind in ("dec", "invdec") or step.kind.endswith("tog"):
                legs = int(step.kind[-4]) if step.kind.endswith("tog") and step.kind[-4:-3].isdigit() else 2
                total -= (legs - 1) * number
            elif place is not None and place.extent is None and place.n == 1 and number > 1:
                total += number - 1
    return total


def _not_known(row, book):
    words = " ".join(row.text.split())
    return book.kept(("not known", id(row)), lambda: Row(row.word, (), name=row.name, steps=[Unread(words, span=row.again.span)], span=row.span))


def _wheres(shaping, size) -> list:
    """(where, stitches of a shaped row) in the order in which they are likely."""
    number = at(shaping.n, size) if shaping.n is not None else None
    if shaping.where == "ends":
        return [("ends", 2 * (number or 1))]
    if shaping.where:
        return [(shaping.where, number or 1)]
    if number is None:
        return [("ends", 2), ("first", 1)]
    return [("first", 1)] if number == 1 else [("ends", 2)] if number == 2 else [("evenly", number)]


def _readings(intervals) -> list[int]:
    """Whether "5th and every foll 6th row 4 times" is four rows in all (0) or four after the first (1), where either may be meant."""
    return [0, 1] if any(interval.first is not None and interval.times is not None and not interval.after for interval, _, _ in intervals) else [0]


def _schedule(intervals, size, room, now, grows, stated, extra):
    """(which rows are shaped, how many rows there are, troubles); None where nothing says how many."""
    shaped, position, troubles = set(), 0, []
    for nth, (interval, every, first) in enumerate(intervals):
        goal = at(interval.stitches, size) if interval.stitches is not None else None
        times = at(interval.times, size) if interval.times is not None else None
        if interval.times is not None:
            times = (times or 0) + (1 if interval.after or extra and interval.first is not None else 0)
        elif goal is None and nth == len(intervals) - 1 and room is not None:
            times = max(0, (room - position - (first or every)) // every + 1)
        else:
            goal = goal if goal is not None else stated
            if goal is None:
                return None
            times, left = divmod(goal - now - grows * len(shaped), grows)
            if left or times < 0:
                troubles.append(("count-not-reached", {"goal": goal, "now": now + grows * len(shaped), "by": abs(grows)}))
                times = max(0, times)
        if times > MOST_ROWS or position + every * times > 50 * MOST_ROWS:
            return None
        start = position + (first or every)
        shaped.update(range(start, start + every * times, every))
        position = start + every * (times - 1) if times else position
    if room is not None and position > room:
        troubles.append(("rows-in-range", {"expected": room, "found": position, "cycle": 1}))
    return shaped, max(position, room or 0), tuple(troubles)


def _again_at_intervals(row, intervals, room, size, book, source, kind, stated, now) -> Shaped:
    """A row worked again at intervals, even rows between."""
    grown = _growth(book, source, size)
    if not grown:
        return Shaped([_not_known(row, book)], troubles=(("not-established", {}),))
    found = None
    for extra in _readings(intervals):
        found = _schedule(intervals, size, room, now, grown, stated, extra) or found
        if found is not None and (stated is None or now + grown * len(found[0]) == stated):
            break
    if found is None:
        return Shaped([_not_known(row, book)], troubles=(("not-established", {}),))
    shaped, last, troubles = found
    even = even_row_in(book.sequence, source, kind)
    return Shaped([source if index in shaped else even for index in range(1, last + 1)], "", troubles)


def _steps(kind: str, where: tuple, stitch: str):
    """The steps of a shaped row; None where it is not known how so many are made at one place."""
    place, number = where
    left = 2 if kind == "dec" else 1
    if place == "evenly":
        return [Stitch(kind, number, Place(n=None, extent=Extent()), base=stitch, evenly=True)]
    at_each = number // 2 if place == "ends" else number
    if at_each != 1 and kind == "dec":
        return None
    first, last = (_shaping(kind, at_each, Place(which, n=left), stitch) for which in ("first", "last"))
    middle = Stitch(stitch, 1, Place(extent=Extent("end") if place == "first" else Extent("last", left), n=None))
    return [first, middle] if place == "first" else [middle, last] if place == "last" else [first, middle, last]


def _shaping(kind, number, place, stitch):
    if number > 1:
        return Stitch(stitch, number + 1, place)
    return Stitch(kind, 1, place, base=stitch, over=place.n > 1)


def _ends(source):
    return [step for step in source.steps if isinstance(step, (Join, Turn))]
