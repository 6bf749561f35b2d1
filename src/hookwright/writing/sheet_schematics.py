"""The outlines of the pieces with their measurements, near the end of the sheet."""

from .document import Figure, Paragraph, Section
from .sheet import Sheet


def schematics(sheet: Sheet) -> Section | None:
    """A figure a piece, and what the lengths are; None where there are none."""
    made = sheet.facts.schematics
    if not made:
        return None
    legend = sheet.strings("sizes.legend", list=sheet.size_list_example()) if sheet.several() else ""
    blocks = [Figure(picture, f"schematic-{place}", told=False) for place, picture in enumerate(made, 1)]  # first, so that the heading stays with one
    blocks.append(Paragraph((sheet.strings("schematic.by_gauge", list=legend).strip(),), "legend"))
    return Section("schematics", sheet.strings("sections.schematics"), tuple(blocks))
