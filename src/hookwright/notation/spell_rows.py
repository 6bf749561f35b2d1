"""Rows on the way out: label, rows worked again, what they are worked until, and the row as a whole."""

import re
from dataclasses import fields, is_dataclass, replace

from hookwright.ground import PerSize, Span, of_sizes

from .counts import made_by
from .spell_counts import in_brackets, note_words, stated_words
from .spell_intervals import shaping_words
from .spell_loops import row_words
from .spell_numbers import is_one, measure, more_times, number, times
from .spell_places import Manner, extent_words
from .spell_remarks import with_remarks
from .spell_steps import large, steps_words
from .tree import Again, FastenOff, Go, Note, Place, Row, Stitch, Until

_SAYS_HOW = re.compile(r"(?:but|except|working|having|making|with|only|increasing|decreasing)\b", re.I)
_ROW_IN_NAME = re.compile(r"\b(?:row|round|rnd)", re.I)


def label_words(manner: Manner, row: Row) -> str:
    """The label without its colon: "Row 2 (RS)", "Rnds 3–8 (10, 12)", "Sizes M and L only: Next 4 rows"; "" where there is none."""
    words = _numbered(manner, row)
    said = [manner.put(note.text) for note in row.notes if note.lead == ":"]
    beside = next((text for text in said if row.side and text.startswith(f"{row.side},")), row.side)
    for text in (beside, *(text for text in said if text != beside)):
        words += f" ({text})" if text else ""
    if row.only:
        names = of_sizes(row.only)
        sizes = f"Size {names[0]} only" if len(names) == 1 else f"Sizes {_listed(names)} only"
        return f"{sizes}: {words}" if words else sizes
    return words


def _numbered(manner: Manner, row: Row) -> str:
    word = "Rnd" if row.word == "Round" else "Row"
    name = row.name
    if row.numbers or row.last_number is not None:
        words = _number_words(word, row.numbers, row.last_number, row.first_number)
        return f"{name} {words}" if name and not _ROW_IN_NAME.search(name) else words
    if row.count_of_rows is not None:
        return f"{name or 'Next'} {_so_many_rows(row)}"
    if not name or (name == "Foundation" and not row.word):
        return word if row.word else ""
    if not row.word or name.lower().rstrip(" s").endswith(("row", "round", "rnd")):
        return name
    return f"{name} {word.lower()}"


def _so_many_rows(row: Row) -> str:
    word = "rnd" if row.word == "Round" else "row"
    return f"{number(row.count_of_rows)} {word}{'' if is_one(row.count_of_rows) else 's'}"


def _number_words(word: str, numbers: tuple, last=None, first=None) -> str:
    """ "Row 3", "Rows 2–7", "Rnds 3 and 5", "Rnds 3–8 (10, 12)", "Row 15 (17, 17)". """
    if first is not None:
        return f"{word} {number(first)}" if last is None or last == first else f"{word}s {number(first)}–{number(last)}"
    if isinstance(last, PerSize) and len(numbers) == 1 and last[0] == numbers[0]:
        return f"{word} {number(last)}"
    if last is not None:
        return f"{word}s {numbers[0] if numbers else 1}–{number(last)}"
    if len(numbers) == 1:
        return f"{word} {numbers[0]}"
    first, end = numbers[0], numbers[-1]
    if len(numbers) > 2 and numbers == tuple(range(first, end + 1)):
        return f"{word}s {first}–{end}"
    return f"{word}s {_listed(numbers)}"


def _listed(things) -> str:
    words = [str(thing) for thing in things]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


# ---------------------------------------------------------------- again

def again_words(manner: Manner, again: Again, remarks=()) -> str:
    """Rows worked by reference: "rep Rows 2–7 another 8 times, then rep Row 9 once more". remarks: what she said of it besides."""
    if again.shaping is not None:
        return shaping_words(manner, again.shaping, _which_rows(manner, again)) + "".join(_clause(manner, note) for note in remarks)
    which = _which_rows(manner, again) if not (again.last == 1 and (again.even or again.same_manner) and again.times is None) else ""
    if again.even:
        words = "work even" if manner.dialect.name == "US" else "work straight"
        words += f" as {which}" if which else ""
    elif again.same_manner:
        words = f"rep {which}" if which else "continue in same manner"
    elif which:
        words = which if again.piece and again.rows else f"work as for {which[3:]}" if again.piece else f"rep {which}"
    else:
        words = "rep"
    if again.alternate:
        words += " alternately"
    words += _again_often(manner, again)
    before = [note for note in remarks if again.until is None or note.span.start < again.until.span.start]
    for note in before:
        words += _clause(manner, note)
    if again.until is not None:
        until = until_words(manner, again.until)
        words += until if until.startswith(",") else f" {until}"
    for note in remarks[len(before):]:
        words += _clause(manner, note)
    if again.changes and isinstance(again.changes[0], Go) and again.changes[0].extent is not None and len(again.changes) > 1:
        words = words.replace("rep ", "work as ", 1)
        words += f" {extent_words(manner, again.changes[0].extent)}, {steps_words(manner, again.changes[1:], 1, True)}"
    elif again.changes is not None:
        words += f", but working {steps_words(manner, again.changes, 1, True)}"
    if again.then is not None:
        words += f", then {again_words(manner, again.then)}"
    return words


def _clause(manner: Manner, note: Note) -> str:
    lead = manner.as_placed[id(note)]
    text = manner.put(note.text)
    return f" {in_brackets(text)}" if lead == "(" else f"{'' if lead == ' ' else ','} {text}"


def _again_often(manner: Manner, again: Again) -> str:
    if again.total_rows is not None:
        word = "rnd" if manner.in_round else "row"
        return f" for a total of {number(again.total_rows)} {word}{'' if is_one(again.total_rows) else 's'}"
    if again.times is None:
        return ""
    if again.sense == "more":
        return f" {more_times(again.times)}" if again.times in (1, 2) else f" another {times(again.times)}"
    if again.sense == "total":
        return f" {times(again.times)} in all"
    return f", {times(again.times)}"


def _which_rows(manner: Manner, again: Again) -> str:
    word = manner.row_word
    if again.piece:
        if again.to == "rows":
            return f"as {again.piece} for {number(again.last_number)} {word.lower()}s"
        if again.to == "row":
            return f"as {again.piece} through {word} {number(again.last_number)}"
        return f"as {again.piece} to {again.to}" if again.to else f"as {again.piece}"
    if again.named and not again.rows:
        return _listed([name if name.startswith("Row (") or word.lower() in name.lower() else f"{name} {word}" for name in again.named])
    if again.named:
        return f"{_number_words(word, again.rows, again.last_number, again.first_number)} of {_listed(again.named)}"
    if again.last:
        return f"last {word.lower()}" if again.last == 1 else f"last {number(again.last)} {word.lower()}s"
    return _number_words(word, again.rows, again.last_number, again.first_number) if again.rows else ""


def until_words(manner: Manner, until: Until) -> str:
    """What rows are worked until: "until piece measures 20 cm [7 7/8 in] from beg, ending with a WS row"."""
    parts = []
    if until.measure_mm is not None:
        words = f"until {manner.put(until.measured) or 'piece'} measures {measure(until.measure_mm)}"
        parts.append(f"{words} {manner.put(until.measured_from)}" if until.measured_from else words)
    if until.stitches is not None:
        parts.append(f"until there are {number(until.stitches)} {'st' if is_one(until.stitches) else 'sts'}")
    if until.desired:
        parts.append(f"{'or ' if parts or until.or_fixed else ''}until desired length")
    words = " ".join(parts)
    if until.side:
        words += f", ending with a {until.side} row"
    if until.ending_on is not None:
        words += f", ending with a {manner.row_word} {until.ending_on}"
    return words


# ---------------------------------------------------------------- the whole row

def body_words(manner: Manner, row: Row) -> str:
    """All of a row but its label, first letter large, full stop, counts in brackets after it."""
    if row.only:
        row = for_sizes(row)
    return with_remarks(manner, row, label_words, _body)


def _body(manner: Manner, row: Row) -> str:
    words = ""
    steps, remarks = row.steps, [note for note in row.notes if note.lead != ":"]
    if row.again is not None:
        said = [note for note in remarks if id(note) in manner.as_placed]
        remarks = [note for note in remarks if id(note) not in manner.as_placed]
        if row.again.same_manner and (said or remarks):  # her words say what differs: they stay part of the sentence
            her = said or remarks
            told = next((at for at, note in enumerate(her) if _SAYS_HOW.match(note.text.removeprefix("and "))), 0)
            how = " ".join(manner.put(note.text) for note in her[:told + 1])
            del her[:told + 1]
            words = again_words(manner, row.again, said)
            words += f", {how}" if told or _SAYS_HOW.match(how) else f", working {how}"
        else:
            words = again_words(manner, row.again, said)
    elif not (row.word or row.name not in ("", "Foundation") or row.numbers):
        while steps and type(steps[0]) is Note and id(steps[0]) not in manner.as_placed:  # a row without a label begins with its work
            remarks.append(steps[0])
            steps = steps[1:]
    if steps:
        done = row_words(manner, _side_by_side(steps, row.stated))
        first = steps[0]
        apart = type(first) is FastenOff or type(first) is Note and manner.as_placed.get(id(first)) == "."
        words = f"{words}{'. ' if apart else ', '}{large(done) if apart else done}" if words else done
    if words:
        words = f"{large(words)}."
    counts = " ".join(f"({stated_words(manner, stated)})" for stated in row.stated)
    notes = " ".join(note_words(manner.put(note.text)) for note in remarks)
    return " ".join(part for part in (words, counts, notes) if part)


def _side_by_side(steps: list, stated: list) -> list:
    """The steps with their places said of a lone "2 inc" whose count is another: else it might be taken for two spread over the row."""
    shaped = [at for at, step in enumerate(steps) if type(step) is Stitch and step.kind == "inc" and type(step.n) is int and step.n > 1 and step.place is None and not step.evenly]
    if len(shaped) != 1 or not stated or stated[0].items[0][0] == made_by(steps):
        return steps
    step = steps[shaped[0]]
    return [*steps[:shaped[0]], replace(step, n=1, place=Place(n=step.n)), *steps[shaped[0] + 1:]]


def for_sizes(row: Row) -> Row:
    """A row for some of the sizes only, its size lists without the sizes that are left out: "Sizes M and L only: ... 3 (5) sc"."""
    return _narrowed(row, len(row.only))


def _narrowed(value, count: int):
    if isinstance(value, PerSize):
        known = [one for one in value if one is not None]
        return PerSize(known) if len(known) == count else value
    if isinstance(value, list):
        return [_narrowed(one, count) for one in value]
    if isinstance(value, tuple):
        return tuple(_narrowed(one, count) for one in value) if not isinstance(value, Span) else value
    if is_dataclass(value):
        return replace(value, **{part.name: _narrowed(getattr(value, part.name), count) for part in fields(value)})
    return value
