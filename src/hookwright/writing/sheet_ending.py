"""The end of a sheet: cautions owed and the colophon."""

from .cautions import caution_blocks, cautions_owed
from .document import Caution, Paragraph, Section
from .sheet import Sheet, has_rows
from .sheet_front import copyright_line
from .sheet_instructions import piece_blocks
from .trade_tables import is_caution_heading


def cautions(sheet: Sheet) -> Section | None:
    """Her own cautions, then those owed by what the piece is for; the law comes first, and the sheet says so."""
    say = sheet.strings
    blocks: list = []
    if hers := sheet.from_head("cautions", ()):
        blocks.append(Caution(say("caution.own"), tuple(sheet.line(str(one), "cautions") for one in hers)))
    for piece in sheet.pattern.pieces:
        if piece.section == "" and not has_rows(piece) and is_caution_heading(piece.name):
            blocks.extend(piece_blocks(sheet, piece, "cautions"))
    blocks.extend(caution_blocks(cautions_owed(sheet.from_head("for_", ()), sheet.pattern.text)))
    if not blocks:
        return None
    blocks.append(Paragraph((say("caution.law"),), "legend"))
    return Section("cautions", say("sections.cautions"), tuple(blocks))


def colophon(sheet: Sheet) -> Section | None:
    """What was proved, and the copyright once more."""
    say = sheet.strings
    lines = []
    if sheet.facts.counts_proved and not sheet.facts.must_mend:
        key = {0: "one", 1: "one", 2: "two"}.get(len(sheet.sizes))
        lines.append(say(f"colophon.proved_{key}" if key else "colophon.proved", n=len(sheet.sizes)))
    lines.append(say("colophon.made"))
    head = [str(value) for value in (copyright_line(sheet).rstrip("."), sheet.from_head("date")) if value]
    version = sheet.from_head("version")
    if version:
        head.append(say("version", version=version))
    blocks = [Paragraph((" ".join(lines),), "small")]
    if head:
        blocks.append(Paragraph((". ".join(head) + ".",), "small"))
    return Section("colophon", say("sections.colophon"), tuple(blocks))
