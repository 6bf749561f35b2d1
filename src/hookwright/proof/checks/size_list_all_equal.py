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
from ..size_lists import lists_in_text

KIND = "size-list-all-equal"


def find(case: Case):
    if len(case.sizes) < 2:
        return
    for seen, span, numbers in lists_in_text(case):
        if len(numbers) != len(case.sizes) or len(set(numbers)) != 1:
            continue
        yield Finding(
            KIND,
            NOTE,
            f"a list of {seen.name} gives {numbers[0]} for every size",
            span,
            seen.name,
            found=numbers[0],
            suggestions=(Suggestion(f"write {numbers[0]} alone", "likely", text=numbers[0], span=span, effect="one number holds for all sizes"),),
        )
