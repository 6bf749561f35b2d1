"""The first part of a sheet: title, terms, byline, what it is and its level."""

from hookwright.notation.tree import Prose

from .document import Figure, Front, Paragraph, Section
from .sheet import Sheet, has_rows


def front(sheet: Sheet) -> Front:
    """Title, terms in plain sight, byline and what it is."""
    say = sheet.strings
    byline = []
    if designer := sheet.from_head("designer"):
        byline.append(say("by", designer=designer))
    if version := sheet.from_head("version"):
        byline.append(say("version", version=version))
    if date := sheet.from_head("date"):
        byline.append(str(date))
    if words := copyright_line(sheet):
        byline.append(words)
    draft = say("draft", n=sheet.facts.must_mend) if sheet.facts.must_mend else ""
    blocks = []
    if summary := sheet.from_head("summary"):
        blocks.append(Paragraph(sheet.prose.inlines(summary, say.named("about")), "lead"))
    if sheet.facts.photos:
        blocks.append(Figure(next(iter(sheet.facts.photos.values())), "photo"))
    return Front(title_of(sheet), say(f"terms_{sheet.dialect.name}"), tuple(byline), draft, tuple(blocks))


def copyright_line(sheet: Sheet) -> str:
    """Her copyright line, with the sign before it where she writes none; "" where there is none."""
    words = str(sheet.from_head("copyright", "")).strip()
    return words if not words or "©" in words or words.lower().startswith(("copyright", "(c)")) else f"© {words}"


def title_of(sheet: Sheet) -> str:
    """The title of the head, else the manuscript's first heading of level 1, else a plain word."""
    if title := sheet.from_head("title"):
        return sheet.prose.title(str(title))
    for piece in sheet.pattern.pieces:
        if piece.level == 1 and piece.name:
            return sheet.prose.title(piece.name)
    return sheet.strings("untitled")


def opening_pieces(sheet: Sheet) -> list:
    """Pieces before the first rows that hold only words: what stands under the title, or under no heading at all."""
    found = []
    for piece in sheet.pattern.pieces:
        if piece.section or has_rows(piece) or piece.level > 1:
            break
        found.append(piece)
    while found and found[-1].name and not found[-1].items and not found[-1].level:
        found.pop()  # "BACK PANEL" right above "Ribbing:" is the heading of what follows
    return found


def about(sheet: Sheet) -> Section | None:
    """Her words about the pattern: those under its title."""
    blocks: list = []
    for piece in opening_pieces(sheet):
        for item in piece.items:
            blocks.extend(sheet.prose_blocks(item, "about", sheet.strings.named("about")))
    return Section("about", sheet.strings("sections.about"), tuple(blocks)) if blocks else None


def further(sheet: Sheet, *, after_rows: bool) -> list[Section]:
    """Parts of her own making that are no instructions ("Care", "Construction"), before or after the rows as she has them."""
    sections, seen_rows = [], False
    for piece in sheet.pattern.pieces:
        seen_rows |= has_rows(piece)
        if piece.section == "about" and seen_rows == after_rows:
            title = sheet.line(piece.name, "about") or sheet.strings("sections.about")
            blocks = [block for item in piece.items if isinstance(item, Prose) for block in sheet.prose_blocks(item, "about", title)]
            if blocks:
                sections.append(Section("about", title, tuple(blocks)))
    return sections


def before_rows(sheet: Sheet) -> list[Section]:
    """Such parts that stand before the rows."""
    return further(sheet, after_rows=False)


def after_rows(sheet: Sheet) -> list[Section]:
    """Such parts that stand after the rows."""
    return further(sheet, after_rows=True)


def level(sheet: Sheet) -> Section | None:
    """The level and what it means."""
    name = str(sheet.from_head("level", "")).strip()
    if not name:
        return None
    key = f"levels.{name.casefold()}"
    words = sheet.strings(key) if sheet.strings.has(key) else sheet.line(name, "level")
    return Section("level", sheet.strings("sections.level"), (Paragraph((words,)),))
