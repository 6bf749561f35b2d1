"""One draft of a row read: label, foundation, steps or a reference to other rows, stated counts."""

from hookwright.ground import Finding, Span

from . import tree
from .drafts import Draft


class RowReader:
    """Reads drafts of rows into tree.Row values; `work` is the cleaned text."""

    def __init__(self, work: str, pattern: tree.Pattern, findings: list[Finding], in_round: bool):
        self.work = work
        self.pattern = pattern
        self.findings = findings
        self.in_round = in_round
        self.lexicon = _lexicon(pattern)

    def rows(self, draft: Draft) -> list:
        """The row or rows of a draft."""
        label = draft.label
        row = tree.Row(span=Span(draft.start, draft.end), text=self.pattern.text[draft.start : draft.end], only=draft.only)
        if label is not None:
            row.word, row.numbers, row.last_number = label.word, label.numbers, label.last_number
            row.name, row.count_of_rows, row.side = label.name, label.count_of_rows, label.side
            row.label_span = Span(label.start, label.end)
            row.notes.extend(tree.Note(self.work[start:end].strip(), Span(start, end)) for start, end in label.remarks)
        elif draft.name:
            row.name = draft.name
        if draft.foundation:
            self._steps(row, *draft.foundation)
        self._steps(row, draft.body_start, draft.end)
        return [row]

    def _steps(self, row: tree.Row, start: int, end: int) -> None:
        if not self.work[start:end].strip():
            return
        read = _read_steps(self.work, start, end, self.lexicon, in_round=self.in_round or row.word == "Round", first_row=False)
        row.steps.extend(read.steps)
        row.stated.extend(read.stated)
        row.notes.extend(read.notes)
        self.findings.extend(read.findings)


def _read_steps(work, start, end, lexicon, **keywords):
    try:
        from .steps import read_steps
    except ImportError:
        from types import SimpleNamespace

        words = work[start:end].strip()
        return SimpleNamespace(steps=[tree.Unread(words, span=Span(start, end))] if words else [], stated=[], notes=[], findings=[])
    return read_steps(work, start, end, lexicon, **keywords)


def _lexicon(pattern):
    try:
        from .words import Lexicon
    except ImportError:
        return None
    return Lexicon(pattern.terms)
