"""The number of rows said is not the number of rows there.

"Rows 6-15 (10 rows)" says how many rows it stands for, and that can be counted from its numbers.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Rows 2-9 (10 rows): Ch 1, turn, sc in each st across. (10 sc)

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Rows 2-9 (8 rows): Ch 1, turn, sc in each st across. (10 sc)

Working::

    9 - 2 + 1 = 8 rows

What to do: mend the number of rows or the numbers of the range. The most frequent slip is to take 9 - 2 and forget the 1.
"""

import re

from hookwright.ground import MUST_MEND, Finding, PerSize, Suggestion

from ..case import Case
from ..wording import count

KIND = "rows-in-range"
_ROWS = re.compile(r"[\[({]?=? ?(\d{1,4}) (?:rows|rounds|rnds)[\])}]?\.?", re.IGNORECASE)


def find(case: Case):
    for seen in case.seen:
        row = seen.row
        if len(row.numbers) < 2 or row.last_number is not None:
            continue
        there = len(row.numbers)
        for said, span in _said(row):
            if isinstance(said, PerSize) or said in (there, row.numbers[-1], None):
                continue
            first, last = row.numbers[0], row.numbers[-1]
            run = last - first + 1 == there
            sum_words = f"{last} - {first} + 1 = {there}" if run else f"{there} are named"
            word = row.word or "Row"
            suggestions = [Suggestion(count(there, "row"), "likely", effect=sum_words)]
            if run:
                suggestions.append(Suggestion(f"{word}s {first}-{first + said - 1}", "likely", effect=f"{first + said - 1} - {first} + 1 = {said}"))
            yield Finding(
                KIND,
                MUST_MEND,
                f"{seen.name} are said to be {count(said, 'row')}; there are {there} ({sum_words})",
                span,
                seen.name,
                expected=said,
                found=there,
                whose="the words in brackets",
                working=(("first", "last", "rows", "said"), (str(first), str(last), str(there), str(said))),
                suggestions=tuple(suggestions),
            )


def _said(row):
    """(number of rows, its place) for every statement of how many rows this is."""
    if row.count_of_rows is not None:
        yield row.count_of_rows, row.label_span
    for note in row.notes:
        number = _ROWS.fullmatch(note.text.strip())
        if number is not None:
            yield int(number[1]), note.span if note.span.end else row.label_span
    for stated in row.stated:
        if stated.per:
            continue
        for item in stated.items:
            if item[1] == "row" and isinstance(item[0], (int, PerSize)):
                yield item[0], stated.span
