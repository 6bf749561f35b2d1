"""The way back: from the instruction tree to the written row, in either dialect.

What is spelt is read back as the equal tree. It is ordinary modern phrasing: stars for repeats that run to somewhere, square
brackets for "n times", round brackets for what goes into one place, the count in round brackets after the full stop.
"""

from hookwright.stitches import Dialect
from hookwright.stitches import dialect as dialect_of

from .spell_counts import stated_words
from .spell_loops import row_words
from .spell_own import OwnNames
from .spell_places import Manner
from .spell_rows import body_words, label_words
from .tree import Row, Stated


def manner_of(dialect: "Dialect | str", *, in_round: bool = False, own=(), put=str) -> Manner:
    """How to spell: in which dialect, in rows or rounds, what the designer's own stitches are called, how her remarks are put."""
    return Manner(dialect if isinstance(dialect, Dialect) else dialect_of(dialect), in_round, own if isinstance(own, OwnNames) else OwnNames(own), put)


def spell(what: "Row | list", dialect: "Dialect | str", *, sizes=(), in_round: bool | None = None, own=()) -> str:
    """A row, or a list of steps, as it is written in this dialect.

    sizes: names of the sizes (not needed to spell; taken so that all writers are called alike). in_round: whether it is "around"
    or "across"; a row knows by its label. own: OwnNames, or names of the designer's own stitches, which are
    then written by name.
    """
    if isinstance(what, Row):
        return spell_row(what, dialect, in_round=in_round, own=own)
    return spell_steps(what, dialect, in_round=bool(in_round), own=own)


def spell_steps(steps: list, dialect: "Dialect | str", *, in_round: bool = False, own=()) -> str:
    """Steps as they are written inside a row: "ch 1, sc in each st across, turn"."""
    return row_words(manner_of(dialect, in_round=in_round, own=own), steps)


def spell_label(row: Row, dialect: "Dialect | str", *, own=(), put=str) -> str:
    """The row's label without its colon: "Row 2 (RS)", "" where it has none. put: turns her remarks in it into the words of the dialect."""
    return label_words(manner_of(dialect, in_round=row.word == "Round", own=own, put=put), row)


def spell_body(row: Row, dialect: "Dialect | str", *, in_round: bool | None = None, own=(), put=str) -> str:
    """What is written after the label: steps, full stop and counts. put: turns her remarks into the words of the dialect."""
    return body_words(manner_of(dialect, in_round=row.word == "Round" if in_round is None else in_round, own=own, put=put), row)


def spell_row(row: Row, dialect: "Dialect | str", *, in_round: bool | None = None, own=(), put=str) -> str:
    """The whole row: "Row 2 (RS): Ch 3 (counts as dc), dc in next 4 sts, turn. (5 dc)"."""
    label, body = spell_parts(row, dialect, in_round=in_round, own=own, put=put)
    return f"{label}: {body}" if label and body else label or body


def spell_parts(row: Row, dialect: "Dialect | str", *, in_round: bool | None = None, own=(), put=str, body: str | None = None) -> tuple[str, str]:
    """(label, body) of a row. body: where it is known already, from a row that says the same."""
    manner = manner_of(dialect, in_round=row.word == "Round" if in_round is None else in_round, own=own, put=put)
    return label_words(manner, row), body_words(manner, row) if body is None else body


def spell_stated(stated: Stated, dialect: "Dialect | str", *, in_round: bool = False, own=()) -> str:
    """A count without brackets: "24 dc, 6 ch-1 sps"."""
    return stated_words(manner_of(dialect, in_round=in_round, own=own), stated)
