"""A chart on paper: PDF, tagged (PDF/UA-1), each page of it at the size at which it can be read, and after the pages all of it in words."""

import json
from pathlib import Path

from hookwright.drawing import pages

from .letters import tidy
from .pdf import _PAPER, _Data, _fonts

_HERE = Path(__file__).parent


def chart_pdf(chart, paper: str = "A4", *, designer: str = "") -> bytes:
    """The PDF of a drawing.Chart on A4 or Letter. ValueError where it would take more pages than anybody prints."""
    import typst

    data = _Data()
    laid = chart.laid
    made = pages(chart, paper)
    content = {
        "title": data.text(laid.title),
        "author": data.text(designer),
        "paper": _PAPER[paper.upper()],
        "words": laid.names.words["in_words"],
        "pages": [
            {
                "svg": data.letters(page.picture.svg(f"chart-{at}")),
                "alt": tidy(page.picture.title),
                "caption": data.text(page.words),
                "mm": round(page.picture.mm, 1),
                "landscape": page.landscape,
            }
            for at, page in enumerate(made)
        ],
        "told": [data.text(words) for words in (*laid.notes, *laid.told)],
    }
    inputs = {"chart": json.dumps(content, ensure_ascii=False)}
    compiler = typst.Compiler(str(_HERE / "chart.typ"), root=str(_HERE), font_paths=_fonts(), sys_inputs=inputs)
    return compiler.compile(format="pdf", pdf_standards="ua-1", timestamp=0)
