"""The sheet as plain text: one line a paragraph or row, so that every window wraps it to its width and a voice reads it without stops."""

from .document import Caution, Definitions, Document, Figure, Listing, Note, Paragraph, Rows, RowText, Section, Table, plain
from .letters import tidy


def write_text(document: Document, paper: str = "A4") -> tuple[bytes, tuple]:
    """The text as UTF-8, and findings (none)."""
    front = document.front
    lines = [front.title, "=" * min(len(tidy(front.title)), 60), "", front.terms, *front.byline]
    lines += ["", front.draft] if front.draft else []
    out = ["\n".join(lines), *_blocks(front.blocks)]
    out += [part for section in document.sections for part in _section(section, document.several_sizes)]
    return _finished(out)


def _finished(parts) -> tuple[bytes, tuple]:
    text = "\n\n".join(tidy(part) for part in parts if part.strip()).replace("\u00a0", " ")
    return (text + "\n").encode("utf-8"), ()


def row_line(row: RowText, several_sizes: bool) -> str:
    """A row on one line: "Row 2 (RS): Ch 1, sc in each st across, turn. (24 sts)".

    Where there are size lists the count stands in square brackets, so that brackets do not nest.
    """
    label = ": ".join(part for part in (row.only, row.label) if part)
    words = f"{label}: {row.text}" if label else row.text
    if row.count:
        words += f" [{row.count}]" if several_sizes else f" ({row.count})"
    return words.strip()


def figure_words(figure: Figure) -> str:
    """What a picture shows, in one line: "Back: measurements: width: 35.5 cm (14 in); ..."."""
    return f"{figure.picture.title}. {figure.picture.words[:1].upper()}{figure.picture.words[1:]}"


def _section(section: Section, several_sizes: bool) -> list[str]:
    title = tidy(section.title)
    rule = {2: "-", 3: "."}.get(section.level)
    heading = f"{title}\n{rule * min(len(title), 60)}" if rule else title
    return ["", heading, *_blocks(section.blocks, several_sizes)]


def _blocks(blocks, several_sizes: bool = False) -> list[str]:
    out: list[str] = []
    for block in blocks:
        if isinstance(block, Section):
            out += _section(block, several_sizes)
        elif isinstance(block, Rows):
            out.append("\n".join(row_line(row, several_sizes) for row in block.rows))
        elif not isinstance(block, Figure) or not block.told:  # what else is shown stands in words beside it
            out.append(_block(block))
    return out


def _block(block) -> str:
    if isinstance(block, Paragraph):
        return plain(block.inlines)
    if isinstance(block, Listing):
        return "\n".join(_item(f"{block.start + at}. " if block.ordered else "- ", item) for at, item in enumerate(block.items))
    if isinstance(block, Definitions):
        return "\n".join(f"{plain(term)}: {plain(meaning)}" for term, meaning in block.items)
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Figure):
        return figure_words(block)
    if isinstance(block, Caution):
        return "\n".join([f"{block.title}:", *(f"- {point}" for point in block.points)])
    if isinstance(block, Note):
        return "\n\n".join(_blocks(block.blocks))
    raise TypeError(f"no way to write {type(block).__name__} as text")


def _item(mark: str, blocks) -> str:
    inside = "\n".join(_blocks(blocks))
    return mark + inside.replace("\n", "\n" + " " * len(mark))


def _table(block: Table) -> str:
    """A table as one line a row, each cell with the head of its column."""
    lines = []
    for row in block.rows:
        cells = [f"{head}: {_one_line(cell)}" for head, cell in zip(block.head[1:], row[1:], strict=False)]
        lines.append(f"{block.head[0]} {_one_line(row[0])}. " + "; ".join(cells))
    return "\n".join(([block.caption + ":"] if block.caption else []) + lines)


def _one_line(inlines) -> str:
    return plain(inlines).replace("\n", " ")
