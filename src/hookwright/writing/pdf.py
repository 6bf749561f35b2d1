"""The sheet as PDF: tagged (PDF/UA-1), A4 or Letter, with its fonts inside. The same document gives the same bytes."""

import json
from functools import cache
from pathlib import Path

from hookwright.ground import NOTE, Finding, Suggestion

from .document import (
    Break,
    Caution,
    Definitions,
    Document,
    Emphasis,
    Figure,
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
from .letters import covered, tidy, together

_HERE = Path(__file__).parent
_PAPER = {"A4": "a4", "LETTER": "us-letter"}


def write_pdf(document: Document, paper: str = "A4", large_print: bool = False) -> tuple[bytes, tuple[Finding, ...]]:
    """The PDF, in type of 10.5 points or in large print of 18, and a finding where letters are missing in the fonts: each such letter stands there as an empty box."""
    data = _Data()
    language, _, region = document.language.partition("-")
    front = document.front
    content = {
        "title": data.text(front.title) or " ",
        "author": data.text(document.designer),
        "lang": language,
        "region": region.lower(),
        "paper": _PAPER[paper.upper()],
        "large": large_print,
        "terms": data.text(front.terms),
        "byline": [data.text(line) for line in front.byline],
        "draft": data.text(front.draft),
        "words": {name: data.text(words) for name, words in document.words.items()},
        "front": data.blocks(front.blocks),
        "sections": data.blocks(document.sections),
    }
    return _set(content), data.findings()


_AIR = (1.0, 0.88, 0.76, 0.66)  # how close the sheet may be set, the widest first
_FILLED = 0.45  # of the height of a last page, its margin included, lest it look like a leftover


def _set(content: dict) -> bytes:
    """The pages, set a little closer where that saves a last page with only a few lines on it."""
    first = None
    for air in _AIR:
        made, pages, used = _pages(content | {"air": air})
        if first is None:
            first = made, pages
            if pages == 1 or used >= _FILLED:
                break
        elif pages < first[1]:
            return made
    return first[0]


def _pages(content: dict) -> tuple[bytes, int, float]:
    """The PDF, how many pages it has, and what part of the last one is used."""
    import typst  # 34 MB of library, only for PDF

    inputs = {"document": json.dumps(content, ensure_ascii=False)}
    compiler = typst.Compiler(str(_HERE / "sheet.typ"), root=str(_HERE), font_paths=_fonts(), sys_inputs=inputs)
    made = compiler.compile(format="pdf", pdf_standards="ua-1", timestamp=0)
    end = json.loads(compiler.query("<end>", field="value", one=True))  # from what was just set: no second pass
    return made, end["page"], end["used"]


@cache
def _fonts():
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(_HERE / "fonts")])


class _Data:
    """Turns blocks into plain data for the layout, and remembers the letters that the fonts lack."""

    def __init__(self):
        self.missing: dict[str, str] = {}  # letter -> the first text it stands in

    def text(self, text: str) -> str:
        return together(self.letters(text))

    def letters(self, text: str) -> str:
        shown, missing = covered(text)
        for letter in missing:
            self.missing.setdefault(letter, text)
        return shown

    def findings(self) -> tuple[Finding, ...]:
        if not self.missing:
            return ()
        letters = sorted(self.missing)
        named = ", ".join(f"`{letter}`" for letter in letters[:12]) + (f" and {len(letters) - 12} more" if len(letters) > 12 else "")
        place = " ".join(self.missing[letters[0]].split())[:60]
        return (
            Finding(
                "letter-not-in-font",
                NOTE,
                f"the fonts of the PDF do not have {named}: an empty box stands in its place, first in `{place}`",
                found=letters,
                suggestions=(Suggestion("use another letter or a word there; the page (HTML) shows it as it is", "your choice"),),
            ),
        )

    # ------------------------------------------------------------ inlines

    def inlines(self, inlines) -> list:
        if isinstance(inlines, str):
            return [self.text(inlines)]
        return [self._inline(part) for part in inlines]

    def _inline(self, part):
        if isinstance(part, str):
            return self.text(part)
        if isinstance(part, Break):
            return {"kind": "break"}
        if isinstance(part, Link):
            return {"kind": "link", "href": part.href, "inlines": self.inlines(part.inlines)}
        kind = {Strong: "strong", Emphasis: "emphasis"}[type(part)]
        return {"kind": kind, "inlines": self.inlines(part.inlines)}

    # ------------------------------------------------------------ blocks

    def blocks(self, blocks) -> list[dict]:
        return [_WRITERS[type(block)](self, block) for block in blocks if not _empty(block)]

    def paragraph(self, block: Paragraph) -> dict:
        return {"kind": "paragraph", "role": block.role, "inlines": self.inlines(block.inlines)}

    def listing(self, block: Listing) -> dict:
        return {"kind": "listing", "ordered": block.ordered, "start": block.start, "items": [self.blocks(item) for item in block.items]}

    def definitions(self, block: Definitions) -> dict:
        role = block.role or ("long" if any(len(plain(meaning)) > 240 or len(plain(term)) > 24 for term, meaning in block.items) else "")
        return {
            "kind": "definitions",
            "role": role,
            "items": [[self.inlines(term), self.inlines(meaning)] for term, meaning in block.items],
        }

    def table(self, block: Table) -> dict:
        columns = max([len(block.head), *(len(row) for row in block.rows)])
        rows = [[self.inlines(cell) for cell in row] + [[""]] * (columns - len(row)) for row in block.rows]
        head = [self.text(cell) for cell in block.head] + [""] * (columns - len(block.head))
        weights = [_weight(head[at], [row[at] for row in block.rows if at < len(row)]) for at in range(columns)]
        return {"kind": "table", "caption": self.text(block.caption), "head": head, "rows": rows, "weights": weights}

    def rows(self, block: Rows) -> dict:
        return {
            "kind": "rows",
            "rows": [
                {
                    "label": self.letters(row.label),
                    "text": self.text(row.text),
                    "count": [self.text(line) for line in count_lines(row.count)],
                    "only": self.text(row.only),
                }
                for row in block.rows
            ],
        }

    def note(self, block: Note) -> dict:
        return {"kind": "note", "blocks": self.blocks(block.blocks)}

    def caution(self, block: Caution) -> dict:
        points = [self.text(point) for point in block.points]
        return {"kind": "caution", "title": self.text(block.title), "points": points}

    def figure(self, block: Figure) -> dict:
        picture = block.picture
        title = self.text(picture.title)
        return {"kind": "figure", "svg": self.letters(picture.svg(block.id)), "alt": tidy(f"{picture.title}. {picture.words}"), "title": title, "mm": round(picture.mm, 1)}

    def section(self, block: Section) -> dict:
        return {
            "kind": "section",
            "name": block.name,
            "title": self.text(block.title) or " ",
            "level": block.level,
            "blocks": self.blocks(block.blocks),
        }


def _weight(head: str, cells) -> int:
    """How much of the width a column asks for: its longest line in letters, within reason, and the gap beside it."""
    lines = [*head.split(" ")] + [line for cell in cells for line in plain(cell).split("\n")]
    return min(max(map(len, lines), default=0), 28) + 4


def _empty(block) -> bool:
    return (
        isinstance(block, Listing)
        and not block.items
        or isinstance(block, Definitions)
        and not block.items
        or isinstance(block, Rows)
        and not block.rows
    )


_WRITERS = {
    Paragraph: _Data.paragraph,
    Listing: _Data.listing,
    Definitions: _Data.definitions,
    Table: _Data.table,
    Rows: _Data.rows,
    Note: _Data.note,
    Caution: _Data.caution,
    Figure: _Data.figure,
    Section: _Data.section,
}
