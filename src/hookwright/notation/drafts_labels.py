"""Which lines of a manuscript begin with the label of a row, and which only with a number, a star or a sentence about a row."""

import re

from .blocks import Line
from .draft import Draft
from .label import Label
from .label_bare import numbers_a_group, read_spaced_number
from .label_counts import read_counted_label
from .label_search import speaks_of_row
from .labels import read_label
from .looks import looks_like_work, starts_like_prose, starts_like_work, works_again
from .number_words import CARDINAL_PATTERN
from .patterns import Lazy

_STEP = Lazy(rf"(?:step|stage)\s+(?:\d{{1,2}}|{CARDINAL_PATTERN})\s*[:.–—-]\s+(?:the\s+|work(?:ing)?\s+(?:the\s+)?)?(?=\S)", re.I)


class LabelSorting:
    """Tells the lines that begin with a label of a row."""

    def _label(self, line: Line, lines: list[Line], index: int) -> Label | None:
        work, start, end = self.work, line.start, line.end
        if line.mark == "*" and re.match(r"\*\s+", work[start:end]):
            # A star as a list mark: only where a label follows it.
            inner = read_label(work, start + 1, end, sizes=self.sizes, size_names=self.size_names)
            if inner and inner.core and not inner.bare and inner.firm:
                self.edits.append((start, " "))
                return inner
            return None
        label = read_label(work, start, end, sizes=self.sizes, size_names=self.size_names)
        if (label is None or label.bare) and (self.open is None or line.gap or work[self.open.end - 1] in ".)]!"):
            counted = read_counted_label(work, start, end, sizes=self.sizes, size_names=self.size_names)
            if counted is not None:
                return counted
        if label is None:
            spaced = read_spaced_number(work, start, end)
            if spaced and self.bare and self.number is not None and spaced.numbers[0] == self.number + 1:
                return spaced
            if spaced and (self.number is None or spaced.numbers[0] == self.number + 1) and numbers_a_group(work, spaced, end):
                return spaced
            if spaced and spaced.numbers[0] == 1 and self.open is None and index + 1 < len(lines):
                following = read_spaced_number(work, lines[index + 1].start, lines[index + 1].end)
                if following and following.numbers[0] == 2:
                    return spaced
            return None
        if not label.core:
            return label
        if label.bare:
            return label if self._bare_is_row(label, line) and not self._in_list(label, lines, index) else None
        if speaks_of_row(work, label, end):
            return None
        if label.firm or label.end >= end:
            if label.end >= end and not label.firm and not (label.numbers or label.name):
                return None
            return label
        rest = (label.end, end)
        if starts_like_work(work, *rest) or works_again(work, *rest) or (looks_like_work(work, *rest) and not starts_like_prose(work, *rest)):
            return label
        if re.match(r"(?:as|same as|cont(?:inue)?|work|make|crochet|knit|r(?:ep(?:eat)?|pt)|join|turn|with|using|change|fasten|\*|\(|\[|\{|\|)(?![a-z])", work[label.end : label.end + 12], re.I):
            return label
        return None

    def _in_list(self, label: Label, lines: list[Line], index: int) -> bool:
        """Whether a number at the head of a line counts the steps of the row that is open ("Row 3:", then "1. ch 1", "2. sc in ...", "3. ..."), or things to do that are no rows ("1. Sew on the beak.")."""
        if not index or (self.open is None and (self.bare or label.numbers[0] < 2)) or self.open is not None and (self.open.label is None or self.open.label.bare):
            return False
        return bool(re.match(rf"\s*{label.numbers[0] - 1}[.)]\s", self.work[lines[index - 1].start : lines[index - 1].end + 1]))

    def _bare_is_row(self, label: Label, line: Line) -> bool:
        work, end = self.work, line.end
        if self.section and self.section != "finishing":
            return False
        if self.open is not None and self.open.label is not None and not self.open.label.bare and self.open.label.numbers:
            if label.numbers[0] != self.open.label.numbers[-1] + 1:
                return False
        if self.section == "finishing":
            return False
        if self.all_rows and label.separator.strip()[-1:] in (")", ":", "."):
            return True
        if starts_like_work(work, label.end, end) or works_again(work, label.end, end):
            return True
        in_order = self.bare and self.number is not None and label.numbers[0] == self.number + 1
        if in_order and not (label.separator == "," and not looks_like_work(work, label.end, end)):
            return looks_like_work(work, label.end, end) or bool(re.match(r"\s*(?:as|rep|rpt|\(|\[|\*|around|repeat)", work[label.end : end], re.I))
        return looks_like_work(work, label.end, end)

    def _step_label(self, line: Line) -> Label | None:
        """ "Step Two: The first row" is the label of a row; another step with a name ends the notes that are open."""
        found = _STEP.match(self.work, line.start, line.end) if line.gap and line.end - line.start < 80 else None
        if not found or self.work[line.end - 1] in ".,;":
            return None
        label = read_label(self.work, found.end(), line.end, sizes=self.sizes, size_names=self.size_names)
        if label is not None and label.core and label.numbers and label.word and label.end >= line.end:
            label.start, label.firm = line.start, True
            return label
        if self.section and self.section != "finishing":
            self.section, self.section_block = "", 0
            self.drafts.append(Draft("piece", line.start, line.start))
        return None
