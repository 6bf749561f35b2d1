"""Sorts the lines of a manuscript into rows, pieces, notes and prose, before any row is read.

A row begins with a label, or is a line that can only be an instruction; it goes on over the lines after it until
something else begins. Nothing is dropped: what is no row, heading or note is prose.
"""

import re

from .again_words import IN_COLOUR, ONLY_COLOUR
from .blocks import Line
from .definitions import defines
from .draft import BEGINS_ROW, ENDS_ROW, Draft, is_foundation, make_of, section_of
from .drafts_going_on import FINISHED, GoingOnSorting
from .drafts_labels import LabelSorting
from .drafts_parts import PartSorting
from .drafts_tables import TableSorting
from .label import Label, RowBudget
from .label_search import speaks_of_row
from .labels import read_label
from .looks import after_talk, is_lead_in, is_seam, looks_like_work, starts_like_prose, starts_like_work, works_again
from .notes import settles_something
from .patterns import Lazy
from .run_on import run_on
from .sentences import sentences

_TURNS = Lazy(r"(?:do\s+not|don't|without)\s+turn(?:ing)?\b\s*[.,;]", re.I)  # "Do not turn. Rotate work and place 1 sc in each row end"
# "Do not stuff. Fold in half and work 6 sc through both walls.": a seam that closes the piece, in a line of talk.
_SEAM = Lazy(
    r"(?:(?<=^)|(?<=[.;!)]))\s*(?P<talk>(?:(?:now|we|you)\s+)*)(?:pinch|flatten|fold|press|close|squash|squeeze|align)\b[^.;\n]{0,60}?(?:\band|\bthen|,|\bwith)\s+(?:(?:work|crochet|knit|make|close|join|sew|seam)\s+)?(?:it\s+|them\s+|(?:the|both)\s+\w+\s+)?"
    r"(?:up\s+|shut\s+|together\s+)?(?:with\s+)?\d{1,3}\s*(?:sc|dc|single\s+crochets?|double\s+crochets?)\b[^.;\n]{0,40}?\b(?:through|both)\b",
    re.I,
)
_ASKS = Lazy(r"(?:To\s+(?:make|adjust|change|customi[sz]e|resize|alter)|For\s+(?:a|an|any|other|different))\b[^.:*\n]{3,120}\bmultiples?\s+of\s+\d|[\s*_]*[A-Z][^.:;*()\n]{3,90}\?[*_]*(?=\s|$)")  # "Want to go bigger? Just keep going! Every round has one more cluster along each side."
_LEAD = Lazy(r"[^:;.*(\[]{3,60}:\s+")


class Sorter(PartSorting, TableSorting, LabelSorting, GoingOnSorting):
    """Goes through the lines once; `drafts` holds what it found. `work` is the cleaned text, all offsets are into it."""

    def __init__(self, work: str, sizes: int = 0, size_names: tuple[str, ...] = (), all_rows: bool = False):
        self.work = work
        self.all_rows = all_rows
        self.sizes = sizes
        self.size_names = size_names
        self.drafts: list[Draft] = []
        self.open: Draft | None = None
        self.only: tuple[str, ...] = ()
        self.section = ""
        self.section_block = 0  # the section is a lead-in that lasts for this block only
        self.section_level = 0  # level of the heading that began the section
        self.number: int | None = None  # of the row before
        self.bare = False
        self.edits: list[tuple[int, str]] = []
        self.budget = RowBudget()
        self.pieces: frozenset[str] = frozenset()  # names of pieces that are known besides
        self.widest = self.broken = 0  # lines broken in mid-phrase: the width of the widest, and how many
        self.too_many = False  # more rows than are read: the rest was taken as prose

    def sort(self, lines: list[Line]) -> list[Draft]:
        """All drafts in order."""
        for index, line in enumerate(lines):
            if self.budget.labels <= 0:
                self.too_many = True
                self._prose(line.raw_start, lines[-1].end, line.block)
                break
            if self.section_block and line.block != self.section_block:
                self.section, self.section_block = "", 0
            if line.kind == "heading":
                self._heading(line)
            elif line.kind == "kept":
                if self._table_rows(line):
                    continue
                self._prose(line.raw_start, line.end, line.block)
            else:
                self._line(line, lines, index)
        self.open = None
        return run_on(self.drafts, self.work, self.sizes, self.size_names, self.budget)

    # ------------------------------------------------------------ one line

    def _heading(self, line: Line) -> None:
        label = read_label(self.work, line.start, line.end, sizes=self.sizes, size_names=self.size_names)
        if label and label.core and not label.bare and (label.numbers or label.firm) and not speaks_of_row(self.work, label, line.end):
            self._row(label, line)
            return
        self.open = None
        name = " ".join(self.work[line.start : line.end].strip("*: ").split())
        section = section_of(name)
        if not section and self.section and 0 < self.section_level < line.level:
            section = self.section  # a heading under "Special stitches" names one of them
        else:
            self.section_level = line.level if section else 0
        self.section, self.section_block, self.only, self.number, self.bare = section, 0, (), None, False
        self.drafts.append(Draft("piece", line.raw_start, line.raw_end, name=name, level=line.level, section=section, make=make_of(name), block=line.block))

    def _line(self, line: Line, lines: list[Line], index: int) -> None:
        work, start, end = self.work, line.start, line.end
        if self._section_lead(line):
            return
        label = self._step_label(line) or self._label(line, lines, index)
        if self.all_rows and label is None and not self.section and (self.open is None or line.gap):
            if self.open is None or not self._goes_on(line, lines, index):
                self._row(None, line)
                lead = _LEAD.match(work, start, end)
                if lead and not looks_like_work(work, start, lead.end()):
                    self.open.body_start = lead.end()  # "Row six is the easy one: chain 3, then ..."
            else:
                self._extend(line)
            return
        if label is None and (self._speaks_then_works(line, lines, index) or (self.open is None or line.gap) and self._numbered_part(line, lines, index)):
            return
        if label is not None:
            if not label.core:
                if label.end >= end:
                    self.only, self.open = label.only, None
                    self._keep_only_line(line)
                    return
                # "Size M only: sc across." has no label of a row.
            self._end_section(label, line)
            if not (self.section and self.section != "finishing"):
                self._row(label, line)
                return
        if self.section and self.section != "finishing":
            if not self._begins_rows(line, lines, index):
                speaks = self.section == "materials" and line.gap and not line.mark and settles_something(work, start, end)
                self._note(line, "notes" if speaks else "")
                return
            self.section, self.section_block = "", 0
            if not self._heading_like(line, lines, index):
                self.drafts.append(Draft("piece", line.start, line.start))
            if label is not None and label.core:
                self._row(label, line)
                return
        meant = "" if self.open is not None and not line.gap else defines(work, start, end)
        if meant:
            self._note(line, meant)
            return
        if self._broken(line) or self._begins_below(line):
            self._extend(line)
            return
        talk = after_talk(work, start, end) if work[start].isupper() else start
        if talk > start:
            line = Line(talk, end, line.raw_start, line.raw_end, gap=line.gap, block=line.block)
            start = talk
        if (self.open is None or line.gap) and _ASKS.match(work, start, end):
            self._prose(line.raw_start, end, line.block)
            return
        if (settles_something(work, start, end) or is_seam(work, start, end)) and (self.open is None or line.gap or is_seam(work, start, end) and FINISHED.search(work, self.open.body_start, self.open.end)):
            self._prose(line.raw_start, end, line.block)
            return
        if work[end - 1 : end] == ":" and index + 1 < len(lines) and self._in_colour(lines[index + 1], True):
            self._prose(line.raw_start, end, line.block)  # "Repeat Row 2 in the following stripe sequence:", and below it "2 rows B"
            return
        if self._in_colour(line) or works_again(work, start, end) or self.as_piece(start, end) or (self.open is None or line.gap) and (
            is_foundation(work, start, end) or starts_like_prose(work, start, end) and is_foundation(work, start, self._sentence_end(start, end))
        ):
            self._row(None, line)
            return
        if self._talks_then_repeats(line, lines, index) or self._seam(line):
            return
        if self.drafts and self.drafts[-1].kind == "row" and self.drafts[-1].body_start < self.drafts[-1].end and ENDS_ROW.match(work, start, self._sentence_end(start, end)) and not self._for_all_sizes(line) and not self._heads_capitals(line, lines, index):
            line = self._take_endings(line)
            if line is None:
                return
            start = line.start
        if BEGINS_ROW.match(work, start, end) and (self.open is None or line.gap or FINISHED.search(work, self.open.body_start, self.open.end)):
            self.open = None
            self.drafts.append(Draft("before", line.raw_start, end, start, block=line.block))
            return
        if self.open is not None and self._goes_on(line, lines, index):
            self._extend(line)
            return
        if self._part(line, lines, index):
            return
        if self.section == "finishing":
            self._prose(line.raw_start, end, line.block)
            return
        star = line.mark == "*" and not work.startswith("*", start)
        if self.all_rows:
            self._row(None, line)
            return
        if not star and looks_like_work(work, start, min(end, start + 100)) and not is_lead_in(work, start, end) and not (
            starts_like_prose(work, start, end) and not starts_like_work(work, start, end) and not _TURNS.match(work, start, end)
        ):
            self._row(None, line)
            return
        self._prose(line.raw_start, end, line.block)

    def _in_colour(self, line: Line, labelled: bool = False) -> bool:
        """Whether a line only says how many rows are worked in which colour ("2 rows B"; labelled: "Rows 3-4: B"), and there are rows before it."""
        label = read_label(self.work, line.start, line.end, sizes=self.sizes, size_names=self.size_names) if labelled else None
        if label is not None and label.numbers and label.word:
            return bool(ONLY_COLOUR.match(self.work, label.end, line.end))
        found = IN_COLOUR.match(self.work, line.start, line.end)
        if not found or not (found["verb"] or re.fullmatch(r"[\s.;,]*", self.work[found.end() : line.end])):
            return False
        return next((draft.kind != "piece" for draft in reversed(self.drafts) if draft.kind in ("piece", "row")), False)

    def _talks_then_repeats(self, line: Line, lines: list[Line], index: int) -> bool:
        """ "Now the back. Work 30 rows as row 2.": words about the work and then whole rows again, on one line. Sorts both where it is that."""
        work, start, end = self.work, line.start, line.end
        if self.open is not None and not line.gap or " row" not in work[start:end] and " r" not in work[start:end] or looks_like_work(work, start, self._sentence_end(start, end)):
            return False
        at = next((first for first, last in sentences(work, start, end)[1:] if works_again(work, first, last)), None)
        if at is None or looks_like_work(work, start, at):
            return False
        self._prose(line.raw_start, at, line.block)
        self._line(Line(at, end, at, line.raw_end, gap=True, block=line.block), lines, index)
        return True

    def _seam(self, line: Line) -> bool:
        """A line of talk with a seam through both layers in it: the seam is a row of its own."""
        at = _SEAM.search(self.work[line.start : line.end]) if "th" in self.work[line.start : line.end] else None
        if at is None or looks_like_work(self.work, line.start, line.start + at.start()):
            return False
        begin = line.start + at.end("talk")
        if begin > line.start:
            self._prose(line.raw_start, begin, line.block)
        self._row(None, Line(begin, line.end, begin, line.raw_end, gap=True, block=line.block))
        return True

    def _speaks_then_works(self, line: Line, lines: list[Line], index: int) -> bool:
        """ "2nd row forms patt. Work 22 more rows in patt.": a sentence about a row, and then work. Sorts both where it is that."""
        work, start, end = self.work, line.start, line.end
        label = read_label(work, start, end, sizes=self.sizes, size_names=self.size_names)
        if label is None or not speaks_of_row(work, label, end) or label.bare:
            return False
        spans = sentences(work, start, end)
        if self.open is not None and not FINISHED.search(work, self.open.body_start, self.open.end):
            return False
        self._prose(line.raw_start, spans[0][1], line.block)
        if len(spans) > 1:
            self._line(Line(spans[1][0], end, spans[1][0], line.raw_end, gap=True, block=line.block), lines, index)
        return True

    # ------------------------------------------------------------ what it becomes

    def _row(self, label: Label | None, line: Line) -> None:
        body = label.end if label else line.start
        if label and label.all_sizes:
            self.only = ()
        only = label.only if label and label.only else self.only
        self.open = Draft("row", label.start if label else line.start, line.end, min(body, line.end), label, only=only, block=line.block)
        self.drafts.append(self.open)
        if label is None:
            self.budget.labels -= 1
        else:
            self.budget.take(label)
        if label is not None and label.numbers:
            self.number, self.bare = label.numbers[-1], label.bare

    def _prose(self, start: int, end: int, block: int) -> None:
        self.open = None
        last = self.drafts[-1] if self.drafts else None
        if last is not None and last.kind == "prose" and last.block == block:
            last.end = end
            return
        self.drafts.append(Draft("prose", start, end, block=block))

    def _note(self, line: Line, section: str = "") -> None:
        """A line of the section that is open, or of the one named."""
        self.open = None
        section = section or self.section
        last = self.drafts[-1] if self.drafts else None
        if last is not None and last.kind == "note" and last.block == line.block and last.section == section:
            last.end = line.end
            return
        self.drafts.append(Draft("note", line.raw_start, line.end, line.start, section=section, block=line.block))

    def _keep_only_line(self, line: Line) -> None:
        self.drafts.append(Draft("prose", line.raw_start, line.end, block=line.block, name="only", only=self.only))
