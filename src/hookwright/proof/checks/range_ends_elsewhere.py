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

from hookwright.ground import LOOK, MUST_MEND, Finding, PerSize, Suggestion
from hookwright.notation.tree import Again

from ..case import Case
from ..wording import count, sentence

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
    """Ends on a row that whole repeats never end on."""
    until = again.until
    if until is None or until.ending_on is None or again.times is None or not again.rows or again.then is not None:
        return
    ends = again.rows[-1]
    if until.ending_on == ends:
        return
    word = seen.row.word or "Row"
    inside = until.ending_on in again.rows
    times = again.times if isinstance(again.times, int) else max((value for value in again.times if value), default=0)
    message = f"{seen.name} is to end on a {word} {until.ending_on}, and {word}s {again.rows[0]}-{ends} worked as a whole end on a {word} {ends}"
    suggestions = [Suggestion(f"ending with a {word} {ends}", "likely", effect=f"{times} x {count(len(again.rows), 'row')} end there")]
    if inside:
        upto = again.rows.index(until.ending_on) + 1
        suggestions.append(
            Suggestion(
                f"say what is worked after the last whole repeat: {word}s {again.rows[0]}-{until.ending_on} once more",
                "your choice",
                effect=f"{times} x {len(again.rows)} + {upto} = {times * len(again.rows) + upto} rows",
            )
        )
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


def _number_of_rows(case: Case, seen, again: Again):
    """Row numbers in front and number of repeats name different numbers of rows."""
    row = seen.row
    if not row.numbers or row.last_number is not None or again.times is None or again.until is not None or again.then is not None:
        return
    if isinstance(again.times, PerSize) or not (again.rows or again.last) or len(row.numbers) < 2:
        return
    length = len(again.rows) or again.last
    named, wanted = len(row.numbers), length * again.times
    fits = {wanted}
    if again.sense != "more":  # "Rows 2-7: as written. Rep 3 times" may count the first working in
        fits |= {length * (again.times - 1), length * (again.times + 1)}
    if named in fits or again.alternate:
        return
    message = sentence(
        f"{seen.name} are {count(named, 'row')}, and",
        f"{count(length, 'row')} worked {count(again.times, 'time')}",
        f"{'is' if wanted == 1 else 'are'} {wanted}",
    )
    word = row.word or "Row"
    first = row.numbers[0]
    yield Finding(
        KIND,
        LOOK if again.sense == "unclear" else MUST_MEND,
        message,
        row.label_span,
        seen.name,
        expected=wanted,
        found=named,
        whose="the repeat",
        working=(("repeat", "times", "rows", "named"), (count(length, "row"), str(again.times), str(wanted), str(named))),
        suggestions=(
            Suggestion(f"{word}s {first}-{first + wanted - 1}", "likely", effect=f"{length} x {again.times} = {wanted} rows"),
            *(
                [
                    Suggestion(
                        f"{count(named // length, 'time')} instead of {again.times}",
                        "likely",
                        effect=f"{length} x {named // length} = {named} rows",
                    )
                ]
                if named % length == 0
                else []
            ),
        ),
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
    message = case.says(wrong, f"{seen.name} is to end on a {side} row, and its last row ({last.label}) is a {last.side} row")
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
