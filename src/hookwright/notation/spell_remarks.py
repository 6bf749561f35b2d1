"""Remarks on the way out: where she placed them, if the row is then read back with the same work and the same remarks."""

from dataclasses import fields, is_dataclass, replace

from hookwright.ground import PerSize

from .clean import clean
from .remarks import remarks_in
from .spell_places import Manner
from .tree import Group, Note, OwnStitch, Pattern, Repeat

_MOST = 8  # remarks in a row that are tried one by one


def with_remarks(manner: Manner, row, label, body) -> str:
    """`body(manner, row)` with as many remarks where she placed them as are read back so; the others in brackets.

    label, body: spell the row's label and the rest of it.
    """
    notes = [*remarks_in(row.steps), *(note for note in row.notes if note.lead != ":")]
    if not notes:
        return body(manner, row)
    reading = _ReadBack(manner, row, label, body)
    every = {id(note): note.lead for note in notes}
    words = reading.words(every)
    if reading.holds(words, notes):
        return words
    kept: dict = {}
    for note in notes[:_MOST]:
        for lead in dict.fromkeys((note.lead, "(")):
            if reading.holds(reading.words({**kept, id(note): lead}), notes):
                kept[id(note)] = lead
                break
    return reading.words(kept)


class _ReadBack:
    """Spells a row with some remarks in their places and reads it."""

    def __init__(self, manner: Manner, row, label, body):
        self.manner, self.row, self.body = manner, row, body
        self.label = label(replace(manner), replace(row, only=()))
        self.like = Pattern("", manner.dialect.name, own=_own(manner), sizes=tuple(map(str, range(_sizes(row.steps)))))
        plain = replace(row, steps=_work(row.steps), notes=[note for note in row.notes if note.lead == ":"])
        self.work = ((plain.steps, row.again, row.stated), self.read(body(replace(manner), plain))[0])  # as it was read, or is read without remarks

    def words(self, placed: dict) -> str:
        return self.body(replace(self.manner, as_placed=placed), self.row)

    def read(self, words: str):
        """What is worked in a row of these words, and the texts of its remarks; (None, ()) where it is not read as one row."""
        from .rows_again import read_rows

        rows = read_rows([f"{self.label}: {words}" if self.label else words], self.like, self.manner.dialect.name)[0]
        if len(rows) != 1:
            return None, ()
        row = rows[0]
        return (_work(row.steps), row.again, row.stated), [note.text for note in (*remarks_in(row.steps), *row.notes)]

    def holds(self, words: str, notes: list[Note]) -> bool:
        """Whether the row in these words is read as the same work with the same remarks."""
        work, texts = self.read(words)
        labels = [note for note in self.row.notes if note.lead == ":"]
        wanted = [self.manner.put(note.text) for note in (*notes, *labels)]
        return work is not None and work in self.work and sorted(map(_plain, texts)) == sorted(map(_plain, wanted))


def _plain(text: str) -> str:
    return " ".join(clean(text).split()).strip(" .").removeprefix("and ").casefold()


def _work(steps: list) -> list:
    """The steps without remarks."""
    kept = []
    for step in steps:
        if type(step) is Group:
            step = replace(step, steps=_work(step.steps))
        elif type(step) is Repeat:
            stop = step.stop
            if stop is not None:
                stop -= sum(type(one) is Note for one in step.steps[:stop])
            step = replace(step, steps=_work(step.steps), stop=stop)
        if type(step) is not Note:
            kept.append(step)
    return kept


def _own(manner: Manner) -> dict:
    """Her own stitches by the names they have in the rows."""
    return {word: OwnStitch(word, steps=manner.own.groups.get(name) or [], group=True) for name, word in manner.own.words.items()}


def _sizes(value) -> int:
    """How many sizes number lists in a tree have."""
    if isinstance(value, PerSize):
        return len(value)
    if isinstance(value, list):
        return max((_sizes(one) for one in value), default=1)
    if is_dataclass(value):
        return max((_sizes(getattr(value, part.name)) for part in fields(value)), default=1)
    return 1
