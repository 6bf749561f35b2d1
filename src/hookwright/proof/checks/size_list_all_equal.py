"""A list gives the same number for every size.

With it::

    ---
    sizes: [S, M, L]
    ---
    Ch 36 (40, 44).
    Row 1: Sc in 2nd ch from hook and in each ch across. (35 (39, 43) sc)
    Row 2: Ch 1 (1, 1), turn, sc in each st across. (35 (39, 43) sc)

Without it::

    ---
    sizes: [S, M, L]
    ---
    Ch 36 (40, 44).
    Row 1: Sc in 2nd ch from hook and in each ch across. (35 (39, 43) sc)
    Row 2: Ch 1, turn, sc in each st across. (35 (39, 43) sc)

Working::

    1 = 1 = 1: one number alone holds for all sizes

What to do: write the number once, or look whether one of them should differ.
"""

from hookwright.ground import NOTE, Finding, Suggestion

from ..case import Case
from ..size_lists import size_lists

KIND = "size-list-all-equal"


def find(case: Case):
    told = set()
    for each in size_lists(case):
        values = set(each.values)
        if len(values) != 1 or None in values or len(each.values) < 2 or each.span in told:
            continue
        told.add(each.span)
        value = values.pop()
        yield Finding(
            KIND,
            NOTE,
            f"a list of {each.seen.name} gives {value} for every size",
            each.span,
            each.seen.name,
            found=value,
            suggestions=(Suggestion(f"write {value} alone", "likely", effect="one number holds for all sizes"),),
        )
