"""A pattern sheet: the parts in the order in which makers look for them."""

import re
import unicodedata
from dataclasses import replace

from hookwright.notation import OwnNames
from hookwright.notation.tree import Pattern
from hookwright.stitches import dialect as words_of

from .document import Document, Section
from .facts import Facts
from .prose import ProseWriter
from .rows import RowWriter
from .sheet import Sheet
from .sheet_ending import cautions, colophon
from .sheet_front import about, after_rows, before_rows, front, level
from .sheet_instructions import finishing, instructions
from .sheet_materials import gauge, materials
from .sheet_notes import abbreviations, multiple, notes, special
from .sheet_schematics import schematics
from .sheet_sizes import sizes
from .strings import Strings
from .strings import strings as words_in

PARTS = (
    about,
    before_rows,
    level,
    sizes,
    materials,
    gauge,
    notes,
    multiple,
    abbreviations,
    special,
    instructions,
    finishing,
    schematics,
    after_rows,
    cautions,
    colophon,
)

# Written in another order than printed: abbreviations are those of the words that stand on the sheet by then.
_LAST = (special, abbreviations)


def compose(pattern: Pattern, facts: Facts | None, terms: str, *, strings: Strings | None = None) -> Document:
    """The sheet of a pattern in `terms` ("US" or "UK"), whatever the terms of the manuscript.

    Rows are spelled from the tree; prose is hers, put into the terms of the sheet, with every change listed in `changes`.
    `strings` are the words that the sheet adds itself (English in these terms where not given).
    """
    terms = terms.upper()
    facts = facts or Facts()
    dialect = words_of(terms)
    say = strings or words_in("en", terms)
    values = {**(getattr(pattern.head, "finished", None) or {}), **(getattr(pattern.head, "numbers", None) or {}), **facts.values}
    prose = ProseWriter(pattern.terms, terms, values, len(pattern.sizes), pattern.sizes)
    own = OwnNames(pattern.own, pattern.terms, terms, pattern.text)
    rows = RowWriter(dialect, say, own, lambda words: prose.line(words, say.named("instructions")))
    sheet = Sheet(pattern, facts, dialect, say, prose, rows)
    head = front(sheet)
    made = {part: part(sheet) for part in PARTS if part not in _LAST}
    made |= {part: part(sheet) for part in _LAST}
    sections = []
    for part in PARTS:
        found = made[part]
        sections += found if isinstance(found, list) else [found] if found is not None else []
    return Document(
        front=head,
        sections=tuple(_with_ids(sections)),
        terms=terms,
        language=say.language,
        designer=sheet.from_head("designer", ""),
        several_sizes=sheet.several(),
        changes=prose.changes,
        words={name: say(name) for name in ("contents", "to_instructions", "page", "of")},
    )


def _with_ids(sections, taken: set | None = None) -> list[Section]:
    taken = set() if taken is None else taken
    out = []
    for section in sections:
        id = unique = _slug(section.title if section.name == "piece" else section.name)
        number = 2
        while unique in taken:
            unique, number = f"{id}-{number}", number + 1
        taken.add(unique)
        blocks = tuple(_with_ids([block], taken)[0] if isinstance(block, Section) else block for block in section.blocks)
        out.append(replace(section, id=unique, blocks=blocks))
    return out


def _slug(title: str) -> str:
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60] or "part"
