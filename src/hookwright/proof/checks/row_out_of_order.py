"""A row stands before one with a smaller number.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 3: Ch 1, turn, sc in each st across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Row 4: Ch 1, turn, sc in each st across. (10 sc)

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Row 3: Ch 1, turn, sc in each st across. (10 sc)
    Row 4: Ch 1, turn, sc in each st across. (10 sc)

Working::

    1, 3, 2, 4: Row 2 comes after Row 3

What to do: put the rows in the order in which they are worked. A second piece that counts from 1 again, or a second side worked after
joining the yarn anew, is not reported.
"""

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..numbering import steps

KIND = "row-out-of-order"


def find(case: Case):
    for step in steps(case):
        if step.restart or step.first > step.last or step.first in step.before.row.numbers or not step.close:
            continue
        if step.here.row.only or step.before.row.only:
            continue
        yield Finding(
            KIND,
            LOOK,
            f"{step.here.name} stands after {step.before.name}",
            step.here.row.label_span,
            step.here.name,
            expected=step.last + 1,
            found=step.first,
            whose="the row before",
            labels=((step.before.row.label_span, "the row before"),),
            suggestions=(Suggestion("put the rows in the order in which they are worked, or give a new piece a heading", "your choice"),),
        )
