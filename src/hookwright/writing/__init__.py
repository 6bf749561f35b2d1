"""Writing: from a pattern and the facts of its worked fabric to the sheet a designer sells.

`compose(pattern, facts, terms)` gives a Document in US or UK terms, free of any file format; `write(document, to)` turns it into
the bytes of a file, `written` also says what could not be shown. WRITERS is the whole list of formats.
`chart_pdf(chart, paper)` writes a chart on pages. `row_facts` takes the counts of each written row from the worked fabrics, `cautions_owed` says which cautions a piece calls for,
`us_hook` gives the US label of a hook.
"""

from typing import NamedTuple

from .cautions import cautions_owed
from .chart_paper import chart_pdf
from .compose import compose
from .document import Change, Document, Figure, Table, plain
from .facts import Facts, RowFact
from .html import write_html
from .markdown import write_markdown
from .measures import lists_in_both
from .pdf import write_pdf
from .plain_text import write_text
from .row_facts import row_facts
from .strings import LANGUAGES, Strings, strings
from .trade_tables import us_hook

__all__ = [
    "LANGUAGES",
    "PAPERS",
    "WRITERS",
    "Change",
    "Document",
    "Facts",
    "Figure",
    "RowFact",
    "Strings",
    "Table",
    "Written",
    "cautions_owed",
    "chart_pdf",
    "compose",
    "lists_in_both",
    "plain",
    "row_facts",
    "strings",
    "us_hook",
    "write",
    "written",
]

# Ending of the file -> what writes it: document, paper -> (bytes, findings).
WRITERS = {"html": write_html, "pdf": write_pdf, "md": write_markdown, "txt": write_text}

PAPERS = ("A4", "Letter")


class Written(NamedTuple):
    """The bytes of a file, and findings about what it could not show."""

    data: bytes
    findings: tuple


def written(document: Document, to: str, *, paper: str = "A4", large_print: bool = False) -> Written:
    """The document as "html", "pdf", "md" or "txt", on "A4" or "Letter" paper. large_print: the PDF in type of 18 points; what else there is is read in any size."""
    if to not in WRITERS:
        raise ValueError(f"sheets are written as {', '.join(WRITERS)}, not {to!r}")
    if paper.casefold() not in {name.casefold() for name in PAPERS}:
        raise ValueError(f"paper is {' or '.join(PAPERS)}, not {paper!r}")
    return Written(*(write_pdf(document, paper, True) if large_print and to == "pdf" else WRITERS[to](document, paper)))


def write(document: Document, to: str, *, paper: str = "A4") -> bytes:
    """The bytes of `written`."""
    return written(document, to, paper=paper).data
