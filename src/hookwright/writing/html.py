"""The sheet as one HTML page: semantic, printable, with its fonts inside, and without scripts or anything to fetch. All text is escaped."""

import base64
import html
import re
from functools import cache
from pathlib import Path

from .document import (
    Break,
    Caution,
    Definitions,
    Document,
    Emphasis,
    Figure,
    Front,
    Link,
    Listing,
    Note,
    Paragraph,
    Rows,
    Section,
    Strong,
    Table,
    count_lines,
    plain,
)
from .letters import right_to_left, tidy, together

_HERE = Path(__file__).parent
_STYLES = (("Light", 300, "normal"), ("Regular", 400, "normal"), ("Italic", 400, "italic"), ("SemiBold", 600, "normal"))
_PAPER = {"A4": "A4", "LETTER": "letter"}
_SHORT_PARTS = ("level", "sizes", "gauge", "multiple")  # kept on one page in print


def write_html(document: Document, paper: str = "A4") -> tuple[bytes, tuple]:
    """The page as UTF-8, and findings (none: a browser has letters that our fonts lack)."""
    front = document.front
    body = [
        f'<a class="skip" href="#instructions">{_text(document.words["to_instructions"])}</a>' if _has(document, "instructions") else "",
        _front(front),
        _contents(document),
        "<main>",
        *(_section(section) for section in document.sections if section.name != "colophon"),
        "</main>",
        "<footer>",
        *(_blocks(section.blocks) for section in document.sections if section.name == "colophon"),
        "</footer>",
    ]
    title = _text(front.title)
    page = (
        f'<!doctype html>\n<html lang="{html.escape(document.language)}">\n<head>\n<meta charset="utf-8">\n'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:\">\n"
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n<meta name="color-scheme" content="light dark">\n'
        f"<title>{title} ({html.escape(document.terms)})</title>\n"
        f"<style>\n{_style()}{_page_rule(document, paper)}</style>\n</head>\n<body>\n"
        + "\n".join(part for part in body if part)
        + "\n</body>\n</html>\n"
    )
    return page.encode("utf-8"), ()


@cache
def _style() -> str:
    faces = []
    for style, weight, slant in _STYLES:
        data = base64.b64encode((_HERE / "fonts" / "web" / f"HookwrightSans-{style}.woff2").read_bytes()).decode()
        named = f'font-family:"Hookwright Sans";font-weight:{weight};font-style:{slant}'
        faces.append(f'@font-face{{{named};src:url(data:font/woff2;base64,{data}) format("woff2")}}\n')
    return "".join(faces) + (_HERE / "page.css").read_text("utf-8")


def _page_rule(document: Document, paper: str) -> str:
    size = _PAPER[paper.upper()]
    running = _css_string(f"{document.front.title}  ·  {document.front.terms}")
    words = document.words
    count = f"{_css_string(words['page'] + ' ')} counter(page) {_css_string(' ' + words['of'] + ' ')} counter(pages)"
    return (
        f"@page{{size:{size};margin:18mm 17mm 20mm;@bottom-left{{content:{running};font:9pt var(--sans)}}"
        f"@bottom-right{{content:{count};font:9pt var(--sans)}}}}\n"
        '@page:first{@bottom-left{content:""}}\n'
    )


def _css_string(text: str) -> str:
    """A string for a style sheet in which nothing can end the string or the sheet."""
    return (
        '"'
        + "".join(letter if letter.isalnum() and letter.isascii() or letter == " " else f"\\{ord(letter):x} " for letter in tidy(text))
        + '"'
    )


# ---------------------------------------------------------------- parts


def _front(front: Front) -> str:
    lines = [f'<p class="terms">{_text(front.terms)}</p>', f"<h1{_dir(front.title)}>{_text(front.title)}</h1>"]
    lines.append(_blocks(front.blocks))
    if front.byline:
        lines.append('<ul class="byline">' + "".join(f"<li{_dir(line)}>{_text(line)}</li>" for line in front.byline) + "</ul>")
    if front.draft:
        lines.append(f'<p class="draft"><strong>{_text(front.draft)}</strong></p>')
    return "<header>\n" + "\n".join(line for line in lines if line) + "\n</header>"


def _contents(document: Document) -> str:
    sections = [section for section in document.sections if section.name != "colophon"]
    if len(sections) < 4:
        return ""
    links = "".join(f'<li><a href="#{section.id}">{_text(section.title)}</a></li>' for section in sections)
    return f'<nav aria-label="{_text(document.words["contents"])}"><ul>{links}</ul></nav>'


def _has(document: Document, name: str) -> bool:
    return any(section.name == name for section in document.sections)


def _section(section: Section) -> str:
    heading = f'<h{section.level} id="{section.id}-title"{_dir(section.title)}>{_text(section.title)}</h{section.level}>'
    kept = " kept" if section.name in _SHORT_PARTS else ""
    return (
        f'<section id="{section.id}" class="{section.name}{kept}" aria-labelledby="{section.id}-title">\n{heading}\n'
        f'<div class="content">\n{_blocks(section.blocks)}\n</div>\n</section>'
    )


def _blocks(blocks) -> str:
    return "\n".join(_WRITERS[type(block)](block) for block in blocks)


def _paragraph(block: Paragraph) -> str:
    role = f' class="{block.role}"' if block.role else ""
    return f"<p{role}{_dir(block.inlines)}>{_inlines(block.inlines)}</p>"


def _listing(block: Listing) -> str:
    tag = "ol" if block.ordered else "ul"
    start = f' start="{block.start}"' if block.ordered and block.start != 1 else ""
    return f"<{tag}{start}>" + "".join(f"<li>{_tight(item)}</li>" for item in block.items) + f"</{tag}>"


def _tight(blocks) -> str:
    """One paragraph in a list needs no <p> of its own."""
    if len(blocks) == 1 and isinstance(blocks[0], Paragraph) and not blocks[0].role:
        return _inlines(blocks[0].inlines)
    return _blocks(blocks)


def _definitions(block: Definitions) -> str:
    role = f' class="{block.role}"' if block.role else ""
    pairs = "".join(
        f"<div><dt{_dir(term)}>{_inlines(term)}</dt><dd{_dir(meaning)}>{_inlines(meaning)}</dd></div>" for term, meaning in block.items
    )
    return f"<dl{role}>{pairs}</dl>"


def _table(block: Table) -> str:
    caption = f"<caption>{_text(block.caption)}</caption>" if block.caption else ""
    label = _text(block.caption or ", ".join(block.head))
    head = "".join(f'<th scope="col">{_text(cell)}</th>' for cell in block.head)
    rows = "".join(
        "<tr>"
        + "".join(
            f'<th scope="row"{_dir(cell)}>{_inlines(cell)}</th>' if at == 0 else _cell(block, at, cell)
            for at, cell in enumerate(row)
        )
        + "</tr>"
        for row in block.rows
    )
    table = f"<table>{caption}<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"
    if len(block.head) > _WIDEST:  # on a narrow screen its rows stand as blocks, so what each part is must be told in words
        table = _with_roles(table)
    return f'<div class="wide" role="group" tabindex="0" aria-label="{label}">{table}</div>'


_WIDEST = 3  # columns that fit on the narrowest screen
_ROLES = (
    ("<table>", '<table class="stack" role="table">'), ("<thead>", '<thead role="rowgroup">'), ("<tbody>", '<tbody role="rowgroup">'),
    ("<tr>", '<tr role="row">'), ('<th scope="col"', '<th role="columnheader" scope="col"'), ('<th scope="row"', '<th role="rowheader" scope="row"'),
    ("<td", '<td role="cell"'),
)  # fmt: skip


def _with_roles(table: str) -> str:
    """A table that stays one for a voice when its cells are no longer laid out as cells. All text in it is escaped, so tags are tags."""
    for tag, told in _ROLES:
        table = table.replace(tag, told)
    return table


def _cell(block: Table, at: int, cell) -> str:
    head = f' data-head="{_text(block.head[at])}"' if _WIDEST < len(block.head) > at else ""
    lines = ' class="lines"' if not isinstance(cell, str) and any(isinstance(part, Break) for part in cell) else ""
    return f"<td{lines}{head}{_dir(cell)}>{_inlines(cell).replace('<br>', ' <br>')}</td>"


def _rows(block: Rows) -> str:
    lines = []
    for row in block.rows:
        only = f'<em class="only">{_text(row.only)}:</em> ' if row.only else ""
        label = f'<b class="label">{_label(row.label)}:</b> ' if row.label else ""
        count = f' <b class="count">{"<br>".join(map(_text, count_lines(row.count)))}</b>' if row.count else ""
        words = f"{row.text} {row.label}"
        lines.append(f'<li{_dir(words)}>{label}<span class="work">{only}{_text(row.text)}{count}</span></li>')
    return '<ol class="rows" role="list">\n' + "\n".join(lines) + "\n</ol>"


def _label(label: str) -> str:
    """A label whose first part stays on one line, while its brackets may go on below it."""
    first, bracket, rest = html.escape(tidy(label)).partition(" (")
    return f'<span class="whole">{first}</span>{bracket}{rest}' if len(first) <= 22 else f"{first}{bracket}{rest}"


def _note(block: Note) -> str:
    return f'<div class="note" role="note">{_blocks(block.blocks)}</div>'


def _caution(block: Caution) -> str:
    points = "".join(f"<li{_dir(point)}>{_text(point)}</li>" for point in block.points)
    return f'<div class="caution"><h3{_dir(block.title)}>{_text(block.title)}</h3><ul>{points}</ul></div>'


def _figure(block: Figure) -> str:
    picture = block.picture
    if not picture.mm:
        return f'<figure>{picture.svg(block.id)}<figcaption>{_text(picture.title)}</figcaption></figure>'
    # As wide as it must be to be read; on a narrow screen it is moved under a window, which the keyboard must reach, too.
    return (f'<figure class="wide"><div role="region" tabindex="0" aria-label="{_text(picture.title)}" style="--wide:{picture.mm:.0f}mm">'
            f'{picture.svg(block.id)}</div><figcaption>{_text(picture.title)}</figcaption></figure>')


_WRITERS = {
    Paragraph: _paragraph,
    Listing: _listing,
    Definitions: _definitions,
    Table: _table,
    Rows: _rows,
    Note: _note,
    Caution: _caution,
    Figure: _figure,
    Section: _section,
}


# ---------------------------------------------------------------- words


def _text(text: str) -> str:
    return html.escape(together(tidy(text)), quote=True)


def _dir(inlines) -> str:
    return ' dir="auto"' if right_to_left(plain(inlines)) else ""


_SAFE = re.compile(r"(?:https?://|mailto:)", re.IGNORECASE)


def _inlines(inlines) -> str:
    if isinstance(inlines, str):
        return _text(inlines)
    out = []
    for part in inlines:
        if isinstance(part, str):
            out.append(_text(part))
        elif isinstance(part, Break):
            out.append("<br>")
        elif isinstance(part, Strong):
            out.append(f"<strong>{_inlines(part.inlines)}</strong>")
        elif isinstance(part, Emphasis):
            out.append(f"<em>{_inlines(part.inlines)}</em>")
        elif isinstance(part, Link) and _SAFE.match(part.href):
            out.append(f'<a href="{_text(part.href)}" rel="noopener noreferrer">{_inlines(part.inlines)}</a>')
        else:
            out.append(_inlines(part.inlines))
    return "".join(out)
