"""The sheet as Markdown (CommonMark with tables). Her text is escaped, so that a star in a row stays a star."""

import re

from .document import Break, Caution, Definitions, Document, Emphasis, Figure, Link, Listing, Note, Paragraph, Rows, Section, Strong, Table, plain
from .letters import tidy
from .plain_text import figure_words, row_line

_MARKS = re.compile(r"([\\`*_\[\]<>|~&#])")
_AT_START = re.compile(r"^(\s*)([-+=]|\d+(?=[.)](?:\s|$)))")


def escaped(text: str) -> str:
    """Text in which no letter is taken for a mark.

    >>> escaped("*sc in next st; rep from * 3 times")
    '\\\\*sc in next st; rep from \\\\* 3 times'
    """
    text = _MARKS.sub(r"\\\1", tidy(text))
    return _AT_START.sub(lambda found: f"{found[1]}{found[2]}\\" if found[2].isdigit() else f"{found[1]}\\{found[2]}", text)


def write_markdown(document: Document, paper: str = "A4") -> tuple[bytes, tuple]:
    """The Markdown as UTF-8, and findings (none)."""
    front = document.front
    parts = [f"# {_line(front.title)}", f"**{_line(front.terms)}**"]
    if front.byline:
        parts.append(" · ".join(_line(line) for line in front.byline))
    if front.draft:
        parts.append(f"**{_line(front.draft)}**")
    parts += _blocks(front.blocks, document.several_sizes)
    for section in document.sections:
        parts += _section(section, document.several_sizes)
    text = "\n\n".join(part for part in parts if part).replace("\u00a0", " ")
    return f"{text}\n".encode(), ()


def _line(text: str) -> str:
    return escaped(" ".join(text.split()))


def _section(section: Section, several_sizes: bool) -> list[str]:
    return [f"{'#' * section.level} {_line(section.title)}", *_blocks(section.blocks, several_sizes)]


def _blocks(blocks, several_sizes: bool) -> list[str]:
    out: list[str] = []
    for block in blocks:
        if isinstance(block, Section):
            out += _section(block, several_sizes)
        elif not isinstance(block, Figure) or not block.told:  # what else is shown stands in words beside it
            out.append(_block(block, several_sizes))
    return out


def _block(block, several_sizes: bool) -> str:
    if isinstance(block, Paragraph):
        return _inlines(block.inlines)
    if isinstance(block, Rows):
        return "\n\n".join(_row(row, several_sizes) for row in block.rows)
    if isinstance(block, Listing):
        marks = (f"{block.start + at}. " if block.ordered else "- " for at in range(len(block.items)))
        return "\n".join(_hung(mark, "\n\n".join(_blocks(item, several_sizes))) for mark, item in zip(marks, block.items, strict=True))
    if isinstance(block, Definitions):
        return "\n".join(f"- **{_inlines(term)}**: {_inlines(meaning)}" for term, meaning in block.items)
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Figure):
        return _line(figure_words(block))
    if isinstance(block, Caution):
        return "\n\n".join([f"**{_line(block.title)}**", "\n".join(f"- {_line(point)}" for point in block.points)])
    if isinstance(block, Note):
        return "\n".join(f"> {line}".rstrip() for line in "\n\n".join(_blocks(block.blocks, several_sizes)).split("\n"))
    raise TypeError(f"no way to write {type(block).__name__} as Markdown")


def _row(row, several_sizes: bool) -> str:
    whole = row_line(row, several_sizes)
    label = ": ".join(part for part in (row.only, row.label) if part)
    if not label:
        return escaped(whole)
    return f"**{escaped(label)}:** {escaped(whole[len(label) + 1 :].strip())}"


def _hung(mark: str, text: str) -> str:
    return mark + text.replace("\n", "\n" + " " * len(mark))


def _table(block: Table) -> str:
    lines = ["| " + " | ".join(_line(head) for head in block.head) + " |", "|" + " --- |" * len(block.head)]
    for row in block.rows:
        lines.append("| **" + _inlines(row[0]) + "** | " + " | ".join(_inlines(cell).replace("\\\n", " ") for cell in row[1:]) + " |")
    return "\n".join(lines)


def _inlines(inlines) -> str:
    if isinstance(inlines, str):
        return escaped(inlines)
    out = []
    for at, part in enumerate(inlines):
        if isinstance(part, str):
            out.append(escaped(part) if at == 0 else _MARKS.sub(r"\\\1", tidy(part)))
        elif isinstance(part, Break):
            out.append("\\\n")
        elif isinstance(part, Strong) and plain(part.inlines).strip():
            out.append(f"**{_inlines(part.inlines).strip()}**{' ' if plain(part.inlines).endswith(' ') else ''}")
        elif isinstance(part, Emphasis) and plain(part.inlines).strip():
            out.append(f"*{_inlines(part.inlines).strip()}*{' ' if plain(part.inlines).endswith(' ') else ''}")
        elif isinstance(part, Link):
            out.append(f"[{_inlines(part.inlines)}](<{part.href.replace('>', '%3E').replace('<', '%3C')}>)")
    return "".join(out)
