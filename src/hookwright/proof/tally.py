"""How much was proved: the counts that were compared, for the line that ends a clean run."""

from hookwright.ground import at

from .case import Case
from .materials import instructions
from .measures import pairs


def tally(case: Case) -> dict[str, int]:
    """How many worked rows, sizes, stated counts compared, counts that disagree, and measures given in two units there are."""
    counts = disagree = rows = 0
    for size, fabric in enumerate(case.fabrics):
        for worked in fabric.rows:
            if worked.row is None:
                continue
            rows += 1
            for stated in worked.row.stated:
                counts += sum(1 for item in stated.items if item[1] != "row" and (not isinstance(item[0], tuple) or at(item[0], size) is not None))
            disagree += sum(1 for trouble in worked.troubles if trouble.kind == "count")
    measured = sum(1 for text, span, _ in instructions(case) if "(" in text for _ in pairs(text, span.start))
    return {"rows": rows, "sizes": len(case.sizes), "counts": counts, "disagree": disagree, "measures": measured}
