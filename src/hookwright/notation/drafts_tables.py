"""A table of rows: the first cell of each line is a row's label, the second what is worked, a third the count or a remark.

| Row   | Work                                  | Stitches |
| ----- | ------------------------------------- | -------- |
| Row 3 | Ch 1, sc in each st across, turn      | 35 sc    |

Any other table is kept as it stands.
"""

import re
from typing import NamedTuple

from .blocks import Line
from .label import Label
from .labels import read_label
from .patterns import Lazy

MOST_LINES = 2_000
_RULE = Lazy(r"[ \t]*\|?[ \t]*:?-+:?[ \t]*(?:\|[ \t]*:?-+:?[ \t]*)*\|?[ \t]*$")
_ENDED = ".!?"
_WORDS = {"row": "Row", "r": "Row", "round": "Round", "rnd": "Round", "rd": "Round"}
_NUMBERS = Lazy(r"[*_ ]*(\d{1,4})(?:\s*[-–—]\s*(\d{1,4}))?[*_ .]*")


class _Cell(NamedTuple):
    """One cell: where what it says begins and ends."""

    start: int
    end: int


class TableSorting:
    """Takes tables whose lines are rows."""

    def _table_rows(self, line: Line) -> bool:
        """Whether the block was a table of rows; then each is a draft of its own."""
        found = self._read_table(line)
        if not found:
            return False
        for label, cells in found:
            self._end_section(label, line)
            work, told = cells[1], cells[2:]
            end = work.end
            for at in range(label.end, work.start):
                if self.work[at] == "|":
                    self.edits.append((at, " "))
            if told and told[0].end > told[0].start:
                end = self._in_brackets(work.end, told[0])
            self._row(_ending(label, work.start), Line(cells[0].start, end, cells[0].start, end, gap=True, block=line.block))
            self.open = None
        return True

    def _read_table(self, line: Line) -> list[tuple[Label, list[_Cell]]]:
        """Label and cells of each line below the head; [] where any of them is no row."""
        lines, at = [], line.raw_start
        for words in self.work[line.raw_start : line.end].split("\n")[: MOST_LINES + 1]:
            lines.append((at, at + len(words)))
            at += len(words) + 1
        if len(lines) < 3 or len(lines) > MOST_LINES or not _RULE.match(self.work, *lines[1]):
            return []
        head = _cells(self.work, *lines[0])
        word = _WORDS.get(self.work[head[0].start : head[0].end].strip("*_ ").lower().rstrip("s.")) if head else None
        found = []
        for start, end in lines[2:]:
            cells = _cells(self.work, start, end)
            if not 2 <= len(cells) <= 3 or cells[1].start >= cells[1].end:
                return []
            label = self._numbered(word, cells[0]) or read_label(self.work, cells[0].start, cells[0].end, sizes=self.sizes, size_names=self.size_names)
            if label is None or not label.core or label.bare or label.end < cells[0].end or not (label.numbers or label.name):
                return []
            found.append((label, cells))
        return found

    def _numbered(self, word: str | None, cell: _Cell) -> Label | None:
        """The label of a cell that holds only numbers, under a head that says what they number."""
        found = _NUMBERS.match(self.work, cell.start, cell.end) if word else None
        if not found or found.end() < cell.end:
            return None
        first, last = int(found[1]), int(found[2] or found[1])
        if not first <= last < first + 1_000:
            return None
        return Label(cell.start, cell.end, word=word, numbers=tuple(range(first, last + 1)))

    def _in_brackets(self, before: int, cell: _Cell) -> int:
        """Puts a cell after the row's words into brackets; gives where the row ends."""
        bar = self.work.index("|", before)
        closed = self.work[cell.end : cell.end + 1] in (" ", "|", "\t")
        self.edits.append((bar, "(" if closed else " " if self.work[before - 1] in _ENDED else "."))
        if closed:
            self.edits.append((cell.end, ")"))
        return cell.end + closed


def _cells(text: str, start: int, end: int) -> list[_Cell]:
    """The cells of one line of a table."""
    bars = [found.start() for found in re.compile(r"(?<!\\)\|").finditer(text, start, end)]
    edges = [start - 1, *bars, end]
    cells = []
    for first, last in zip(edges, edges[1:], strict=False):
        words = text[first + 1 : last]
        begin = first + 1 + len(words) - len(words.lstrip())
        cells.append(_Cell(begin, max(begin, first + 1 + len(words.rstrip()))))
    if cells and not text[start : bars[0] if bars else end].strip():
        cells = cells[1:]
    if len(cells) > 1 and cells[-1].start >= cells[-1].end:
        cells = cells[:-1]
    return cells


def _ending(label: Label, end: int) -> Label:
    """The label with what stands between it and the words of the row."""
    label.end, label.firm = end, True
    return label
