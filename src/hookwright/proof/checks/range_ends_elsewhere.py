"""Rows worked again do not end on the row that is said.

"Rep Rows 2-7 8 times" always ends on a Row 7, "Rows 8-20: rep Rows 2-7 twice" names 13 rows for 12. What is said of the end, or of the
number of rows, and what the repeat makes do not agree.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Rows 2-7: Ch 1, turn, sc in each st across. (10 sc)
    Rep Rows 2-7 8 times more, ending with a Row 5.

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Rows 2-7: Ch 1, turn, sc in each st across. (10 sc)
    Rep Rows 2-7 8 times more, ending with a Row 7.

Working::

    7 rows + 8 x 6 rows = 55 rows; the last one is a Row 7

What to do: mend the number of times, the row it ends on, or the numbers in front.
"""

from hookwright.ground import LOOK, MUST_MEND, Finding, Suggestion, at
from hookwright.notation.tree import Again

from ..case import Case
from ..references import rows_named
from ..wording import count, with_article

KIND = "range-ends-elsewhere"


def find(case: Case):
    for seen in case.seen:
        again = seen.row.again
        if again is None:
            continue
        yield from _row_said(case, seen, again)
        yield from _number_of_rows(case, seen, again)
        yield from _side_said(case, seen, again)


def _row_said(case: Case, seen, again: Again):
    """Ends on a row that the repeat never ends on: one outside it, or one inside where whole repeats are counted."""
    until = again.until
    if until is None or until.ending_on is None or not again.rows or again.then is not None:
        return
    ends, inside = again.rows[-1], until.ending_on in again.rows
    numbers = seen.row.numbers
    if inside and again.times is None and len(numbers) > 1 and seen.row.last_number is None:  # "Rows 9-14: Rep Rows 7 and 8, ending with a Row 7"
        ends = again.rows[(len(numbers) - 1) % len(again.rows)]
        if until.ending_on != ends:
            yield _range_ends(seen, again, numbers, ends)
        return
    if until.ending_on == ends or inside and again.times is None:
        return
    word = seen.row.word or "Row"
    rows = f"{word}s {again.rows[0]}-{ends}" if len(again.rows) > 1 else f"{word} {ends}"
    if not inside:
        message = f"{seen.name} is to end on a {word} {until.ending_on}, and repeats {rows}, which never ends there"
        suggestions = [Suggestion(f"write `ending with a {word} {ends}`", "your choice", effect="a row of the repeat")]
    else:
        times = at(again.times, 0) or 0
        upto = again.rows.index(until.ending_on) + 1
        message = f"{seen.name} is to end on a {word} {until.ending_on}, and {rows} worked as a whole end on a {word} {ends}"
        suggestions = [
            Suggestion(f"write `ending with a {word} {ends}`", "likely", effect=f"{times} x {count(len(again.rows), 'row')} end there"),
            Suggestion(
                f"say what is worked after the last whole repeat: {word}s {again.rows[0]}-{until.ending_on} once more",
                "your choice",
                effect=f"{times} x {len(again.rows)} + {upto} = {times * len(again.rows) + upto} rows",
            ),
        ]
    yield Finding(
        KIND,
        MUST_MEND,
        message,
        again.span if again.span.end else seen.row.span,
        seen.name,
        expected=f"{word} {ends}",
        found=f"{word} {until.ending_on}",
        whose="the repeat",
        suggestions=tuple(suggestions),
    )


def _range_ends(seen, again: Again, numbers, ends: int) -> Finding:
    """A numbered range that is said to end on another row of its repeat than it does."""
    word, said = seen.row.word or "Row", again.until.ending_on
    rows = f"{word}s {' and '.join(map(str, again.rows))}" if len(again.rows) == 2 else f"{word}s {again.rows[0]}-{again.rows[-1]}"
    return Finding(
        KIND,
        MUST_MEND,
        f"{seen.name} is to end on a {word} {said}, and {count(len(numbers), 'row')} of {rows} end on a {word} {ends}",
        again.span if again.span.end else seen.row.span,
        seen.name,
        expected=f"{word} {ends}",
        found=f"{word} {said}",
        whose="the repeat",
        suggestions=(
            Suggestion(f"write `ending with a {word} {ends}`", "likely", effect=f"{count(len(numbers), 'row')} end there"),
            Suggestion(f"write {word}s {numbers[0]}-{numbers[-1] - 1} or {numbers[0]}-{numbers[-1] + 1}", "your choice", effect=f"one row less or more ends on a {word} {said}")
            if len(again.rows) == 2 else Suggestion("change the last number of the range", "your choice", effect=f"so that it ends on a {word} {said}"),
        ),
    )


def _number_of_rows(case: Case, seen, again: Again):
    """Row numbers in front and number of repeats name different numbers of rows."""
    row = seen.row
    if not row.numbers or again.times is None or again.until is not None or again.then is not None or again.alternate:
        return
    length = len(again.rows) or again.last
    if not isinstance(length, int):
        return
    named, wanted = {}, {}
    for size in range(len(case.sizes)):
        rows, times = rows_named(row, size), at(again.times, size)
        if rows is None or times is None or rows < 2 or not length:
            continue
        fits = {length * times, length * (times + 1)}  # with the first working, where its rows are in the range too
        if again.sense != "more":
            fits.add(length * (times - 1))
        if rows not in fits:
            named[size], wanted[size] = rows, length * times
    if not named:
        return
    size = min(named)
    times, rows, are = at(again.times, size), named[size], wanted[size]
    word, first = row.word or "Row", row.numbers[0]
    suggestions = [Suggestion(f"write {word}s {first}-{first + are - 1}", "likely", effect=f"{length} x {times} = {are} rows")]
    if rows % length == 0:
        suggestions.append(
            Suggestion(f"repeat {count(rows // length, 'time')} instead of {times}", "likely", effect=f"{length} x {rows // length} = {rows} rows")
        )
    yield Finding(
        KIND,
        LOOK if again.sense == "unclear" else MUST_MEND,
        case.says(
            named,
            f"{seen.name} are {count(rows, 'row')}, and {count(length, 'row')} worked {count(times, 'time')}",
            f"{'is' if are == 1 else 'are'} {are}",
        ),
        row.label_span,
        seen.name,
        case.size_names(named),
        expected=are,
        found=rows,
        whose="the repeat",
        working=(("repeat", "times", "rows", "named"), (count(length, "row"), str(times), str(are), str(rows))),
        suggestions=tuple(suggestions),
    )


def _side_said(case: Case, seen, again: Again):
    """Ends on a side that the last row worked is not."""
    side = again.until.side if again.until is not None else ""
    if side not in ("RS", "WS") or again.until.measure_mm is not None or again.until.desired:
        return
    wrong = set()
    last = None
    for size, fabric in enumerate(case.fabrics):
        for worked in reversed(fabric.rows):
            if worked.row is seen.row:
                if worked.side in ("RS", "WS") and worked.side != side:
                    wrong.add(size)
                    last = worked
                break
    if not wrong:
        return
    message = case.says(wrong, f"{seen.name} is to end on {with_article(f'{side} row')}, and its last row ({last.label}) is {with_article(f'{last.side} row')}")
    yield Finding(
        KIND,
        LOOK,
        message,
        again.span if again.span.end else seen.row.span,
        seen.name,
        case.size_names(wrong),
        expected=side,
        found=last.side,
        whose="the turns made",
        suggestions=(Suggestion("work one row more or fewer, or name the other side", "your choice"),),
    )
