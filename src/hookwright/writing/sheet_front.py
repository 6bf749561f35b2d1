"""The first part of a sheet: title, terms, byline, what it is, level, sizes and finished measurements."""

import re

from hookwright.notation.tree import Prose

from .document import Break, Definitions, Front, Paragraph, Section, Table
from .measures import length, lengths, signed_length
from .sheet import Sheet, has_rows, measured_alike


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


def sizes(sheet: Sheet) -> Section | None:
    """Sizes, whom they fit, ease and finished measurements, in both units; a table where there are several sizes."""
    say, head = sheet.strings, sheet.head
    finished = sheet.from_head("finished", {})
    ease_text = _ease(sheet)
    fits = {fact.name: fact for fact in getattr(head, "sizes", ()) or ()}
    blocks: list = []
    if sheet.several():
        table = _size_table(sheet, finished, fits)
        if table:
            blocks.append(table)
    alike = {name: measure for name, measure in finished.items() if not sheet.several() or measured_alike(measure, len(sheet.sizes))}
    pairs = [
        ((sheet.line(_named(name), "finished"),), (lengths([measure.at(0)]) if measure.at(0) else sheet.line(measure.text, "finished"),))
        for name, measure in alike.items()
    ]
    if not sheet.several():
        for name in sheet.sizes:
            fit = _fit(fits.get(name))
            pairs.insert(0, ((say("sizes.size"),), (f"{name}, {say('sizes.to_fit').lower()} {fit}" if fit else name,)))
    if ease_text:
        pairs.append(((say("sizes.ease_name"),), (sheet.line(ease_text, "sizes"),)))
    if pairs:
        blocks.append(Definitions(tuple(pairs)))
    if sheet.several():
        blocks.append(Paragraph((say("sizes.legend", list=sheet.size_list_example()),), "legend"))
    title = say("sections.sizes" if sheet.several() or not finished else "sections.finished")
    return Section("sizes", title, tuple(blocks)) if blocks else None


def _size_table(sheet: Sheet, finished: dict, fits: dict) -> Table | None:
    count = len(sheet.sizes)
    columns = [(name, measure) for name, measure in finished.items() if not measured_alike(measure, count)]
    with_fit = any(_fit(fits.get(name)) for name in sheet.sizes)
    if not columns and not with_fit:
        return None
    head = [sheet.strings("sizes.size")]
    if with_fit:
        head.append(sheet.strings("sizes.to_fit"))
    head += [sheet.line(_named(name), "finished") for name, _ in columns]
    narrow = len(head) > 4  # then inches stand under the centimetres
    rows = []
    for at, name in enumerate(sheet.sizes):
        cells = [(name,)]
        if with_fit:
            cells.append(_cell(_fit(fits.get(name)), narrow))
        cells += [_cell(length(*measure.at(at)) if measure.at(at) else "", narrow) for _, measure in columns]
        rows.append(tuple(cells))
    return Table(sheet.strings("sizes.table" if columns else "sections.sizes"), tuple(head), tuple(rows))


def _cell(text: str, narrow: bool) -> tuple:
    first, gap, rest = text.partition(" (")
    return (first, Break(), f"({rest}") if narrow and gap else (text or "-",)


def _fit(fact) -> str:
    if fact is None:
        return ""
    return length(*fact.to_fit_mm) if fact.to_fit_mm else fact.to_fit


def _ease(sheet: Sheet) -> str:
    """Her words on ease; where they are only a length, in both units."""
    words = sheet.from_head("ease_text", "")
    ease = sheet.from_head("ease")
    only_a_length = not words or not any(len(word) > 2 for word in re.findall(r"[^\W\d_]+", words) if word not in ("inch", "inches"))
    if ease is None or not only_a_length:
        return words
    spans = {ease.at(size) for size in range(max(len(sheet.sizes), 1))} - {None}
    return signed_length(*spans.pop()) if len(spans) == 1 else lengths([ease.at(size) for size in range(len(sheet.sizes))])


def _named(name: str) -> str:
    name = name.replace("_", " ").strip()
    return name[:1].upper() + name[1:]
