"""Two edges that are sewn or worked together have different numbers of stitches.

With it::

    ## Body

    Ch 25.
    Row 1: Sc in 2nd ch from hook and in each ch across. (24 sc)

    ## Finishing

    Sew the 24 sts of the body to the 22 sts of the yoke.

Without it::

    ## Body

    Ch 25.
    Row 1: Sc in 2nd ch from hook and in each ch across. (24 sc)

    ## Finishing

    Sew the 24 sts of the body to the 24 sts of the yoke.

Working::

    24 against 22: two stitches have no partner

Where a piece of the pattern is named, its worked rows are looked at, too: "the 22 sts of the body" where no row of it has 22, or two last rows
that are sewn together stitch by stitch.

What to do: mend one of the counts, or say how the difference is eased in.
"""

from hookwright.ground import LOOK, Finding, Suggestion, at

from ..case import Case
from ..seams import Edge, seams, worked_counts
from ..wording import count, quoted, size_list

KIND = "seam-counts-differ"


def find(case: Case):
    for span, edges, by_stitch in seams(case):
        counted = [edge for edge in edges if edge.numbers]
        off = None
        if len(counted) == 2:
            off = _two_counts(case, counted)
        if off is None:
            off = next((finding for edge in counted if (finding := _not_worked(case, edge)) is not None), None)
        if off is None and len(edges) == 2 and (by_stitch or all(edge.last for edge in edges) or counted and any(edge.last for edge in edges)):
            off = _last_rows(case, span, edges)
        if off is not None:
            yield off


def _two_counts(case: Case, edges: list[Edge]) -> Finding | None:
    """Both edges have a number, and they are not the same."""
    first, second = (_by_size(case, edge.numbers) for edge in edges)
    if first is None or second is None or first == second:
        return None
    gaps = [abs(one - other) for one, other in zip(first, second, strict=True)]
    span = edges[0].span._replace(end=edges[1].span.end)
    return _finding(
        f"{quoted(case.text, span)} brings {size_list(first)} and {size_list(second)} stitches together: {size_list(gaps)} have no partner", span,
        size_list(first), size_list(second),
    )


def _not_worked(case: Case, edge: Edge) -> Finding | None:
    """An edge of a piece of the pattern with a number that none of its rows has."""
    numbers = _by_size(case, edge.numbers)
    if edge.piece is None or numbers is None:
        return None
    for size, number in enumerate(numbers):
        last, known = worked_counts(case, edge.piece, size)
        if known and number not in known and last is not None:
            return _finding(
                case.says({size}, f"{quoted(case.text, edge.span)} names {count(number, 'stitch')}, and no row of {edge.piece.name} has so many; its last has {last}"),
                edge.span, last, number,
            )
    return None


def _last_rows(case: Case, span, edges: list[Edge]) -> Finding | None:
    """Two last rows brought together, of which one or both are known from the working."""
    for size in range(len(case.fabrics)):
        both = []
        for edge in edges:
            numbers = _by_size(case, edge.numbers) if edge.numbers else None
            both.append(numbers[size] if numbers else worked_counts(case, edge.piece, size)[0] if edge.piece is not None else None)
        if None not in both and both[0] != both[1]:
            return _finding(
                case.says({size}, f"{quoted(case.text, span)} brings {both[0]} and {both[1]} stitches together, as they are worked: {abs(both[0] - both[1])} have no partner"),
                span, *both,
            )
    return None


def _by_size(case: Case, numbers: tuple) -> list[int] | None:
    """One number for each size; None where there are as many as neither one nor the sizes."""
    sizes = len(case.sizes)
    if len(numbers) not in (1, sizes):
        return None
    return [at(numbers[0] if len(numbers) == 1 else numbers[size], size) for size in range(sizes)]


def _finding(message: str, span, expected, found) -> Finding:
    return Finding(
        KIND, LOOK, message, span, expected=expected, found=found, whose="the other edge",
        suggestions=(Suggestion("mend one of the counts, or say how the difference is eased in", "your choice"),),
    )
