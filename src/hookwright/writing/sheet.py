"""What every part of a pattern sheet is written from: the pattern, the facts, and the words to write in."""

import re
from dataclasses import dataclass, field

from hookwright.notation import section_of
from hookwright.notation.tree import Pattern, Piece, Prose, Row
from hookwright.stitches import Dialect, dialect

from .facts import Facts
from .prose import ProseWriter
from .rows import RowWriter
from .size_lists import same_for_all
from .strings import Strings
from .used_words import is_usual

_LEAD_IN = re.compile(r"[\s*_]*([A-Za-z][A-Za-z ]{2,28}?)[*_]*\s*:[\s*_]*(\S)")


@dataclass
class Sheet:
    """One sheet in the making. `head` may be None (a fragment); `written` and `row_texts` collect what is printed."""

    pattern: Pattern
    facts: Facts
    dialect: Dialect
    strings: Strings
    prose: ProseWriter
    rows: RowWriter
    written: list[str] = field(default_factory=list)
    row_texts: list[str] = field(default_factory=list)

    @property
    def head(self):
        """The head, or what the first lines say where there is none; None for a fragment."""
        return self.pattern.head if self.pattern.head is not None else self.pattern.front

    @property
    def sizes(self) -> tuple[str, ...]:
        return self.pattern.sizes

    def from_head(self, name: str, otherwise=None):
        """A value of the head, or of the lines that stand for one; `otherwise` where it is not given."""
        value = getattr(self.head, name, None)
        return otherwise if value is None or value == "" or value == () or value == {} else value

    def line(self, text: str, part: str) -> str:
        """One line of her words in the terms of the sheet."""
        return self.prose.line(text, self.strings.named(part))

    def pieces(self, section: str) -> list[Piece]:
        """The pieces of the manuscript that stand for this section."""
        return [piece for piece in self.pattern.pieces if piece.section == section]

    def prose_of(self, section: str, part: str | None = None) -> tuple:
        """All prose of a section of the manuscript, as blocks. Rows in it are left to the instructions."""
        blocks: list = []
        for piece in self.pieces(section):
            for item in piece.items:
                if isinstance(item, Prose):
                    blocks.extend(self.prose_blocks(item, section, self.strings.named(part or section)))
        return tuple(blocks)

    def prose_blocks(self, item: Prose, section: str, part: str) -> tuple:
        """A stretch of her prose as blocks, without what the head says already and without a lead-in that repeats the section's title."""
        text = item.rest
        if section and (found := _LEAD_IN.match(text)) and section_of(found[1]) == section:
            text = found[2].upper() + text[found.end() :]
        if section == "special stitches":
            source = dialect(self.pattern.terms)
            text = "\n".join(line for line in text.split("\n") if not is_usual(line, source))
        return self.prose.blocks(text, part, listed=section == "materials") if text.strip() else ()

    def row_facts(self) -> dict[int, object]:
        """id of a Row -> its RowFact."""
        return {id(row): fact for (_, row), fact in zip(self.pattern.rows(), self.facts.rows, strict=False)}

    def size_list_example(self) -> str:
        """The sizes as the sheet lists them: "S (M, L)"."""
        return f"{self.sizes[0]} ({', '.join(self.sizes[1:])})"

    def several(self) -> bool:
        """Whether there is more than one size."""
        return len(self.sizes) > 1


def has_rows(piece: Piece) -> bool:
    """Whether any instructions stand in the piece."""
    return any(isinstance(item, Row) for item in piece.items)


def measured_alike(measure, sizes: int) -> bool:
    """Whether a measure of the head is the same in all sizes."""
    return same_for_all([measure.at(size) for size in range(max(sizes, 1))])
