"""What a row has from its label: word, numbers, name, side, remarks; and findings of labels that can't be so."""

import re

from hookwright.ground import LOOK, MUST_MEND, Finding, Span

from . import tree
from .draft import MAKE
from .label import MOST_ROWS_IN_ALL, Label
from .label_numbers import MOST_NUMBERS
from .notes import read_notes
from .number_words import CARDINAL_PATTERN
from .patterns import Lazy

_A_NUMBER = Lazy(rf"[^\d]*\d|\s*(?!one\b)(?:{CARDINAL_PATTERN})(?![a-z])[\s-]+(?!in\b|all\b|times\b|rows?\b|rounds?\b|rnds?\b|of\b|more\b)[a-z]", re.I)
_EACH_OF_THEM = Lazy(r"\s+(?:each|(?:in|on|for)\s+(?:each|every|all)(?:\s+\w+)?)\s*$", re.I)  # "(60 sts each)"


class RowLabelReading:
    """The part of a row's reading that its label tells."""

    def _labelled(self, row: tree.Row, label: Label, lexicon) -> None:
        row.word, row.numbers, row.last_number, row.first_number = label.word, label.numbers, label.last_number, label.first_number
        row.name, row.count_of_rows, row.side = label.name, label.count_of_rows, label.side
        row.label_span = Span(label.start, self._label_end(label))
        if label.every:
            self.every[id(row)] = label
        for start, end in label.remarks:
            self._remark(row, start, end, lexicon)
        if len(label.numbers) == 2 and label.numbers[1] < label.numbers[0] and re.search(r"\d\s*(?:[-–—]|to\b|through\b|thru\b)", self.work[label.start : label.end]):
            first, last = label.numbers
            self.findings.append(
                Finding(
                    "row-out-of-order", LOOK,
                    f"the rows run from {first} to {last}, backwards; {first - last + 1} rows from {last} to {first} may be meant, or another number for one of them", row.label_span, row.label(),
                    expected=f"{last}-{first}", found=f"{first}-{last}",
                )
            )
        cut = re.search(r"(\d+)\s*(?:[-–—]|to\b|through\b|thru\b)\s*(\d+)(?![\d.])", self.work[label.start : label.end]) if len(label.numbers) > 2 else None
        if cut and 0 < int(cut[1]) - int(cut[2]) < 10 and label.numbers[0] == int(cut[1]) and label.numbers[-1] > int(cut[1]):
            first, last, whole = int(cut[1]), int(cut[2]), label.numbers[-1]
            self.findings.append(
                Finding(
                    "row-out-of-order", LOOK,
                    f"the rows {first} to {last} are read as {first} to {whole}, the last number cut short; if rows {last} to {first} are meant, turn the numbers round", row.label_span, row.label(),
                    expected=f"{first}-{whole}", found=f"{first}-{last}",
                )
            )
        if label.too_long:
            words = " ".join(self.work[label.start : label.end].split())[:60]
            self.findings.append(
                Finding(
                    "too-much-work", MUST_MEND,
                    f"`{words}` stands for more rows than are worked here (up to {MOST_NUMBERS:,} in a label, {MOST_ROWS_IN_ALL:,} in all); only its first row is. Look at its numbers", row.label_span, row.label(),
                    expected=MOST_NUMBERS,
                )
            )

    def _label_end(self, label: Label) -> int:
        end = label.end
        while end > label.start and self.work[end - 1] in " \n":
            end -= 1
        return end

    def _remark(self, row: tree.Row, start: int, end: int, lexicon) -> None:
        """A comment of the label: "(18 sts)" is a count, all else a note."""
        if _A_NUMBER.match(self.work, start, end) and not MAKE.fullmatch(self.work, start, end):
            from .steps import read_count

            each = _EACH_OF_THEM.search(self.work, start, end)
            stated = read_count(self.work, start, each.start() if each else end, lexicon)
            if stated is not None:
                row.stated.append(stated)
                return
            read = self._read(max(0, start - 1), min(len(self.work), end + 1), lexicon, row, False)
            if read.stated and not read.steps:
                row.stated.extend(read.stated)
                return
            if not read.stated and "," in self.work[start:end]:  # "(36 sts, 6 tips)": what is no stitch has no count
                first = self.work.index(",", start, end)
                read = self._read(start, first, lexicon, row, False, True)
                if read.stated and not read.steps:
                    row.stated.extend(read.stated)
        if re.search(r"spiral|coil|continuous", self.work[start:end], re.I):
            self.pattern.conventions.extend(read_notes(self.work, start, end, lexicon.dialect.find))
        row.notes.append(tree.Note(self.work[start:end].strip(), Span(start, end), ":"))
