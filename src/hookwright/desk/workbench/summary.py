"""What the folder shows of a manuscript: title, sizes, whether it proves, and a small picture."""

from hookwright.desk.report import how_many
from hookwright.ground import LOOK

from .reports import report_of

MOST_SYMBOLS = 900  # of a chart that is told apart at the size of a stamp
MOST_LETTERS = 300_000


def summary(text: str) -> tuple[dict, str | None]:
    """(facts, small picture as SVG or None)."""
    report = report_of(text)
    head = report.pattern.head or report.pattern.front
    look = sum(finding.grade == LOOK for finding in report.findings)
    worked = any(row.row is not None for fabric in report.fabrics for row in fabric.rows)
    picture = small_picture(report) if worked else None
    return {
        "title": getattr(head, "title", "") or "",
        "summary": getattr(head, "summary", "") or "",
        "sizes": [] if report.sizes == ("1",) else list(report.sizes),
        "terms": report.pattern.terms,
        "state": "must mend" if report.must_mend else "look" if look else "proved" if worked else "not read",
        "must_mend": report.must_mend,
        "look": look,
        "said": how_many(report.findings),
        "pictured": picture is not None,
    }, picture


def small_picture(report) -> str | None:
    """The chart of the first piece that is small enough to be one; None where none is."""
    import hookwright

    pieces = dict.fromkeys(row.piece for row in report.fabrics[0].rows if row.row is not None and row.has_height)
    for piece in list(pieces)[:3]:
        try:
            made = hookwright.chart(report, piece or None)
        except ValueError:
            continue
        if made.symbols <= MOST_SYMBOLS:
            drawing = made.picture.svg("small")
            if len(drawing) <= MOST_LETTERS:
                return drawing
    return None
