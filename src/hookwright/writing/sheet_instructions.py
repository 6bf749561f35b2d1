"""The instructions: pieces in order, rows with their labels and counts, her words between them; and the finishing."""

import re

from hookwright.notation import is_plain_heading
from hookwright.notation.tree import Piece, Prose, Row

from .document import Figure, Paragraph, Rows, Section, words_of
from .sheet import Sheet, has_rows
from .sheet_front import opening_pieces, title_of
from .size_lists import size_list
from .trade_tables import is_caution_heading

_OFTEN = re.compile(r"\b(?:make|work)\b|[x×] ?\d|\d ?[x×]", re.IGNORECASE)  # the name itself says how many are made
_DASH = re.compile(r"\b(?:dash(?:es)?|hyphens?)\b", re.IGNORECASE)


def piece_blocks(sheet: Sheet, piece: Piece, part: str) -> tuple:
    """All that stands in a piece, in order: rows that follow each other in one block, prose as blocks."""
    facts = sheet.row_facts()
    blocks: list = []
    run: list = []
    sheet.rows.begin_piece()

    def close() -> None:
        if run:
            blocks.append(Rows(tuple(run)))
            run.clear()

    for item in piece.items:
        if isinstance(item, Row):
            row = sheet.rows.row(item, facts.get(id(item)))
            sheet.written += [row.label, row.count]
            run.append(row)
            sheet.row_texts.append(row.text)
        elif isinstance(item, Prose):
            close()
            blocks.extend(sheet.prose_blocks(item, piece.section, sheet.strings.named(part)))
    close()
    sheet.written.append(words_of(blocks))
    return tuple(blocks)


def is_piece(piece: Piece) -> bool:
    """Whether it belongs to the instructions."""
    return piece.section == "" and (has_rows(piece) or not is_caution_heading(piece.name))


def instructions(sheet: Sheet) -> Section | None:
    """One section a piece, under one heading."""
    say = sheet.strings
    opening = opening_pieces(sheet)
    pieces = [piece for piece in sheet.pattern.pieces if is_piece(piece) and piece not in opening]
    title = title_of(sheet)
    top = min((piece.level for piece in pieces if piece.name), default=0)
    blocks: list = []
    deepest, charts = 2, dict(sheet.facts.charts)
    under = _under_heads(pieces)
    photos = dict(list(sheet.facts.photos.items())[1:])  # the first stands on the front
    for piece in pieces:
        name = sheet.line(piece.name, "instructions") if piece.name else ""
        inside = list(piece_blocks(sheet, piece, name or "instructions"))
        if piece.make is not None and not _OFTEN.search(piece.name):
            inside.insert(0, Paragraph((say("piece.make", list=size_list(piece.make)),), "legend"))
        if photo := photos.pop(piece.name, None):
            inside.append(Figure(photo, f"photo-{len(photos)}"))
        if picture := charts.pop(piece.name, None):
            inside.append(Figure(picture, f"chart-{len(charts)}"))
        if name and not is_plain_heading(piece.name) and title not in (name, sheet.prose.title(piece.name)):
            level = min(3 + max(piece.level - top, 0) + (id(piece) in under), deepest + 1, 6)
            deepest = level
            blocks.append(Section("piece", name, tuple(inside), level))
        else:
            blocks.extend(inside)
    if not blocks:
        return None
    if sheet.several() and any(_skips(block) for block in blocks) and not _tells_of_dash(sheet):
        blocks.insert(0, Paragraph((say("sizes.legend_skip"),), "legend"))
    return Section("instructions", say("sections.instructions"), tuple(blocks))


def _under_heads(pieces: list[Piece]) -> set[int]:
    """Ids of the pieces that stand under a heading in capitals with nothing of its own ("BACK PANEL", then "Ribbing:"), where no marks tell the levels."""
    found: set[int] = set()
    headed = False
    for piece in pieces:
        if piece.level or not piece.name:
            continue
        if piece.name.isupper():
            headed = not piece.items
        elif headed:
            found.add(id(piece))
    return found


def _skips(block) -> bool:
    if isinstance(block, Section):
        return any(_skips(inside) for inside in block.blocks)
    return isinstance(block, Rows) and any("(-" in row.text or ", -" in row.text or "- (" in row.text for row in block.rows)


def _tells_of_dash(sheet: Sheet) -> bool:
    """Whether her notes say what a dash in a list of sizes stands for."""
    return any(_DASH.search(item.text) for piece in sheet.pieces("notes") for item in piece.items if isinstance(item, Prose))


def finishing(sheet: Sheet) -> Section | None:
    """Her words on finishing, and rows that stand among them."""
    blocks: list = []
    for piece in sheet.pieces("finishing"):
        blocks.extend(piece_blocks(sheet, piece, "finishing"))
    return Section("finishing", sheet.strings("sections.finishing"), tuple(blocks)) if blocks else None
