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
from dataclasses import replace

from hookwright.ground import LOOK, MUST_MEND, Finding, PerSize, Suggestion, at
from hookwright.notation import tree

from ..case import Case
from ..references import rows_named
from ..wording import count

KIND = "rows-in-range"
_FOR = re.compile(r"(?:for|over|work(?:ed)?)? ?(\d{1,4}) (?:more )?(?:rows|rounds|rnds)(?: (?:in all|in total|total|altogether))?", re.IGNORECASE)  # in the midst of the steps
_ROWS = re.compile(r"[\[({]?=? ?(\d{1,4}) (?:rows|rounds|rnds)[\])}]?\.?", re.IGNORECASE)


def find(case: Case):
    for seen in case.seen:
        for said, span in _said(seen.row):
            finding = _finding(case, seen, said, span)
            if finding is not None:
                yield finding
        if len(seen.row.numbers) > 1:
            for note in seen.row.steps:
                found = _FOR.fullmatch(note.text.strip(" .;,")) if type(note) is tree.Note else None
                finding = _finding(case, seen, int(found[1]), note.span) if found else None
                if finding is not None:  # "Rnds 4-15: Sc around for 11 rounds": a sentence may speak of some of them
                    yield replace(finding, grade=LOOK, whose="the words of the row")

    yield from _references(case)


def _references(case: Case):
    """"Rows 4-9: Rep Row 3 five times": the numbers of the label against the times said."""
    told = {}
    for row, size, kind, facts in getattr(case.work, "row_troubles", None) or ():
        if kind == "rows-in-range" and "cycle" in facts:
            told.setdefault(id(row), (row, {}))[1][size] = facts
    for row, sizes in told.values():
        facts = sizes[min(sizes)]
        yield Finding(
            KIND,
            LOOK,
            case.says(sizes, f"{case.name_of(row)} are {count(facts['expected'], 'row')} by their numbers; as often as is said they come to {facts['found']}"),
            row.label_span if row.label_span.end else row.span,
            row.label(),
            case.size_names(sizes),
            expected=facts["expected"],
            found=facts["found"],
            whose="the numbers of the rows",
            suggestions=(Suggestion("mend the numbers of the rows, or how often they are repeated", "your choice"),),
        )


def _finding(case: Case, seen, said, span) -> Finding | None:
    row = seen.row
    there, stated = {}, {}
    for size in range(len(case.sizes)):
        named, number = rows_named(row, size), at(said, size)
        if named is None or number is None or named < 2 or number in (named, row.numbers[0] + named - 1):
            continue  # as many as are said, or as many as there are so far
        there[size], stated[size] = named, number
    if not there:
        return None
    size = min(there)
    first, last = row.numbers[0], row.numbers[0] + there[size] - 1
    run = row.last_number is not None or row.numbers[-1] - first + 1 == len(row.numbers)
    sum_words = f"{last} - {first} + 1 = {there[size]}" if run else f"{there[size]} are named"
    word = row.word or "Row"
    suggestions = [Suggestion(f"say {count(there[size], 'row')}", "likely", effect=sum_words)]
    if run:
        to = first + stated[size] - 1
        suggestions.append(Suggestion(f"write {word}s {first}-{to}", "likely", effect=f"{to} - {first} + 1 = {stated[size]}"))
    return Finding(
        KIND,
        MUST_MEND,
        case.says(there, f"{seen.name} are said to be {count(stated[size], 'row')}; there are {there[size]} ({sum_words})"),
        span,
        seen.name,
        case.size_names(there),
        expected=stated[size],
        found=there[size],
        whose="the words in brackets",
        working=(("first", "last", "rows", "said"), (str(first), str(last), str(there[size]), str(stated[size]))),
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
