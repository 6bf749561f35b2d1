"""Colours of whole rows, from the words beside them: stripes of a range, a change at the end, colours said before or after a reference."""

from itertools import chain, repeat

from hookwright.ground import at
from hookwright.notation.tree import Colour


def says_colours(row) -> bool:
    """Whether the written row says more of its colours than the steps that are worked do."""
    return bool(row.stripes or row.changes_to or row.again is not None and any(type(step) is Colour for step in row.steps))


def in_its_colours(made, row, source, nth: int, last: bool, size: int) -> None:
    """Gives the worked row, the `nth` of those that a written row stands for, the colours that its words say; `last`: it is the last of them.

    What the row referred to says of the ends of its rows is left out then: it was said of other rows.
    """
    colours, end = list(made.colours), len(made.kind)
    if row.stripes:
        colours = [(index, name) for index, name in colours if 0 < index < end]
        rows = sum(at(number, size) or 1 for number, _ in row.stripes)
        order = list(chain.from_iterable(repeat(name, at(number, size) or 1) for number, name in row.stripes)) if rows < 10_000 else [row.stripes[0][1]]
        colour = order[nth % len(order)]
        if nth == 0 or order[(nth - 1) % len(order)] != colour or colours:
            colours.insert(0, (0, colour))
    if source is not row and row.again is not None:
        said = [step for step in row.steps if type(step) is Colour]
        here = [step.name for step in said if step.span.start < row.again.span.start or not step.late]
        after = [step.name for step in said if step.name not in here]
        if here and nth == 0:
            colours = [(0, here[0]), *(one for one in colours if one[0] > 0)]
        if after and last:
            colours = [*(one for one in colours if one[0] < end), (end, after[-1])]
    if row.changes_to and last:
        colours = [*(one for one in colours if one[0] < end), (end, row.changes_to)]
    made.colours = colours
