"""What the folder shows of a manuscript: title, sizes, whether it proves, and a small picture."""

from collections import Counter

import hookwright
from hookwright.desk.report import how_many
from hookwright.ground import LOOK

from .reports import report_of

PIXELS = 320
MOST_STITCHES = 12_000  # of a piece that is pictured in its yarn at the size of a stamp
MOST_SYMBOLS = 900  # of a chart that is told apart at that size
MOST_LETTERS = 300_000


def summary(text: str) -> dict:
    """The facts of a card."""
    report = report_of(text)
    head = report.pattern.head or report.pattern.front
    look = sum(finding.grade == LOOK for finding in report.findings)
    worked = any(row.row is not None for fabric in report.fabrics for row in fabric.rows)
    return {
        "title": getattr(head, "title", "") or "",
        "summary": getattr(head, "summary", "") or "",
        "sizes": [] if report.sizes == ("1",) else list(report.sizes),
        "terms": report.pattern.terms,
        "state": "must mend" if report.must_mend else "look" if look else "proved" if worked else "not read",
        "must_mend": report.must_mend,
        "look": look,
        "said": how_many(report.findings),
        "pictured": worked,
    }


def small_picture(text: str) -> bytes | None:
    """The largest piece in its yarn as PNG; else, as SVG, the chart of a piece that is small enough to be one; None where there is neither."""
    report = report_of(text)
    stitches = Counter()
    for row in report.fabrics[0].rows if report.fabrics else ():
        if row.row is not None and row.has_height:
            stitches[row.piece] += len(row.kind)
    for piece, count in stitches.most_common():
        if count <= MOST_STITCHES:
            try:
                return hookwright.picture(report, piece or None, pixels=PIXELS).data
            except ValueError:
                continue
    for piece in stitches:
        try:
            made = hookwright.chart(report, piece or None)
        except ValueError:
            continue
        drawing = made.picture.svg("small") if made.symbols <= MOST_SYMBOLS else ""
        if 0 < len(drawing) <= MOST_LETTERS:
            return drawing.encode()
    return None


def pieces(text: str) -> dict:
    """{"pieces": with a chart, "shaped": with a surface, "sizes"}."""
    report = report_of(text)
    rows = report.fabrics[0].rows if report.fabrics else ()
    named = list(dict.fromkeys(row.piece for row in rows if row.row is not None and row.has_height))
    try:
        shaped = hookwright.shaped_pieces(report)
    except ValueError:
        shaped = []
    return {"pieces": named, "shaped": list(shaped), "sizes": [] if report.sizes == ("1",) else list(report.sizes)}
