"""A row number is left out.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Row 4: Ch 1, turn, sc in each st across. (10 sc)
    Row 5: Ch 1, turn, sc in each st across. (10 sc)

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Row 3: Ch 1, turn, sc in each st across. (10 sc)
    Row 4: Ch 1, turn, sc in each st across. (10 sc)

Working::

    after Row 2 comes Row 3

What to do: write the row that is missing, or number the rows without a gap.
"""

from ..case import Case
from ..numbering import about_step, slips, steps

KIND = "row-number-missing"
_FEW = 3  # without a head, a wider gap is a row quoted out of a pattern


def find(case: Case):
    for step in steps(case):
        if step.restart or step.awaited is None or step.first in step.awaited or step.first <= max(step.awaited):
            continue
        gap = step.first - max(step.awaited)
        if case.head is None and gap > (_FEW if case.whole else 1):
            continue
        if not case.whole and step.here.row.again is not None:
            continue  # quoted for what the other refers to
        if step.here.row.only or step.before.row.only or id(step.before.row) in slips(case):
            continue
        word = step.here.row.word or "Row"
        wanted = max(step.awaited)
        missing = f"{word} {wanted}" if gap == 1 else f"{word}s {wanted}-{step.first - 1}"
        slip = slips(case).get(id(step.here.row))
        if slip is not None:
            after = slip[1].here.name
            yield about_step(
                step,
                KIND,
                f"{missing if gap == 1 else f'{word} {wanted}'} is missing: {step.here.name} stands between {step.before.name} and {after}",
                wanted,
                f"call this one {word} {wanted}",
            )
            continue
        yield about_step(
            step,
            KIND,
            f"{missing} {'is' if gap == 1 else 'are'} missing: {step.here.name} follows {step.before.name}",
            wanted,
            f"write {missing}, or call this one {word} {wanted}",
        )
