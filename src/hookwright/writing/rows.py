"""Written rows: label, the words of the row spelled from the tree, and the count it ends with."""

from dataclasses import replace

from hookwright.ground import Number, of_sizes
from hookwright.notation import spell_body, spell_label, spell_stated
from hookwright.notation.tree import Chain, Join, Note, Ring, Row, Stated, Turn
from hookwright.stitches import Dialect

from .document import RowText
from .facts import RowFact
from .strings import Strings


class RowWriter:
    """Writes the rows of one pattern in one dialect. `own` are the OwnNames; `put` turns her words in a row into the terms of the sheet."""

    def __init__(self, dialect: Dialect, strings: Strings, own, put=str):
        self.dialect, self.strings, self.own, self.put = dialect, strings, own, put
        self._before: Number | None = None
        self._in_round = False
        self._said: dict[str, str] = {}

    def begin_piece(self) -> None:
        """A new piece begins: its first count is always said."""
        self._before = None
        self._in_round = False

    def row(self, row: Row, fact: RowFact | None) -> RowText:
        """The row as it is printed."""
        row = self._worded(row)
        self._said = {}
        return RowText(self.label(row), self.body(row), self.count(row, fact), self.only(row))

    def _worded(self, row: Row) -> Row:
        """The row with its word: "R2" is a round where it is joined, or where those before it in the piece are."""
        if row.word:
            self._in_round = row.word == "Round"
            return row
        if any(isinstance(step, Turn) for step in row.steps):
            self._in_round = False
        elif any(isinstance(step, (Ring, Join)) for step in row.steps):
            self._in_round = True
        return replace(row, word="Round") if self._in_round and (row.numbers or row.count_of_rows is not None) else row

    def label(self, row: Row) -> str:
        """ "Row 2 (RS)", "Rnds 3–8", "Next row"; "" where the row has none."""
        return spell_label(replace(row, only=()), self.dialect, own=self.own, put=self._in_terms)

    def _in_terms(self, words: str) -> str:
        """Her words in the terms of the sheet. A remark may be spelled more than once before the row is done: it is put only once."""
        if words not in self._said:
            self._said[words] = self.put(words)
        return self._said[words]

    def only(self, row: Row) -> str:
        """The sizes that the row is for, in words; "" where it is for all."""
        if not row.only:
            return ""
        if len(row.only) == 1:
            return self.strings("piece.only", sizes=of_sizes(row.only)[0])
        names = of_sizes(row.only)
        return self.strings("piece.only_many", sizes=", ".join(names[:-1]) + self.strings("piece.and") + names[-1])

    def body(self, row: Row) -> str:
        """What is done in the row, and her remarks in it."""
        return spell_body(replace(row, only=(), stated=[]), self.dialect, in_round=self._in_round, own=self.own, put=self._in_terms)

    def count(self, row: Row, fact: RowFact | None) -> str:
        """The count at the end: hers where she states one (the proof says where the worked one differs), else the total where it changes."""
        stitches = fact.stitches if fact else None
        stated = list(row.stated)
        if not stated and _some(stitches) and stitches != self._before and not _only_chains(row.steps):
            series = bool(fact.each) and all(map(_some, fact.each))  # a ring that stands before the rows told has no count
            stated = [Stated(((fact.each if series else stitches, "st", None),), series=series)]
        if stitches is not None:
            self._before = stitches
        in_round = row.word == "Round"
        told = (spell_stated(one, self.dialect, in_round=in_round, own=self.own) for one in stated)
        return ", ".join(words for words in told if words)


def _some(stitches: Number | None) -> bool:
    """Whether there is something to count in every size that takes part."""
    values = {value for value in (stitches if isinstance(stitches, tuple) else (stitches,)) if value is not None}
    return bool(values) and 0 not in values


def _only_chains(steps) -> bool:
    return bool(steps) and all(isinstance(step, (Chain, Note)) for step in steps)
