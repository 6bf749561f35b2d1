"""A row stands before one with a smaller number.

With it::

    Rnd 1: 6 sc in magic ring. (6)
    Rnd 3: [Sc in next st, inc] x 6. (18)
    Rnd 2: Inc x 6. (12)
    Rnd 4: [Sc in next 2 sts, inc] x 6. (24)

Without it::

    Rnd 1: 6 sc in magic ring. (6)
    Rnd 2: Inc x 6. (12)
    Rnd 3: [Sc in next st, inc] x 6. (18)
    Rnd 4: [Sc in next 2 sts, inc] x 6. (24)

Working::

    1, 3, 2, 4: Round 2 comes after Round 3

What to do: put the rows in the order in which they are worked. A second piece that counts from 1 again, or a second side worked after
joining the yarn anew, is not reported.
"""

from ..case import Case
from ..numbering import about_step, slips, steps

KIND = "row-out-of-order"


def find(case: Case):
    for step in steps(case):
        if step.restart or step.first > step.last or step.first in step.before.row.numbers or not step.close:
            continue
        if step.here.row.only or step.before.row.only or id(step.before.row) in slips(case):
            continue
        yield about_step(
            step,
            KIND,
            f"{step.here.name} stands after {step.before.name}",
            step.last + 1,
            "put the rows in the order in which they are worked, or give a new piece a heading",
        )
