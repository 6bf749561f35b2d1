"""Rows worked even: one stitch of a kind in each stitch, and what the row began and ended with."""

from hookwright.notation.tree import Chain, Extent, Join, Place, Row, Stitch, Turn

from .row_signs import first_plain


def even_row(sequence, source: Row) -> Row:
    """A row of the last row's main stitch, one in each stitch ("work even")."""
    return even_row_in(sequence, source, first_plain(source.steps) or "sc", climbs=True)


def even_row_in(sequence, source: Row, kind: str, climbs: bool = False) -> Row:
    """A row of one stitch, one in each, that ends as the source does; climbs: it begins with its turning chain, too."""
    key = ("even", id(source), kind, climbs)
    found = sequence.memo.get(key)
    if found is None:
        steps = [step for step in source.steps if climbs and isinstance(step, (Chain, Turn)) and source.steps.index(step) == 0]
        steps.append(Stitch(kind, 1, Place(extent=Extent(), n=None)))
        steps += [step for step in source.steps if isinstance(step, (Join, Turn))]
        found = Row(source.word, (), name="even", steps=steps, span=source.span)
        sequence.memo[key] = found
    return found
