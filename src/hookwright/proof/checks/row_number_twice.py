"""Two rows of one piece bear the same number.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Row 2: Ch 1, turn, 2 sc in first st, sc in each st across. (11 sc)
    Row 3: Ch 1, turn, sc in each st across. (11 sc)

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Row 3: Ch 1, turn, 2 sc in first st, sc in each st across. (11 sc)
    Row 4: Ch 1, turn, sc in each st across. (11 sc)

Working::

    1, 2, 2, 3: there are 4 rows and the last is called Row 3

What to do: number the rows anew from here on, and look at every "rep Row ..." that follows. Rows for other sizes, and a second side worked
after joining the yarn anew, may bear the same numbers and are not reported.
"""

from hookwright.ground import LOOK, MUST_MEND, Finding, Suggestion

from ..case import Case
from ..numbering import steps

KIND = "row-number-twice"


def find(case: Case):
    for step in steps(case):
        if step.restart or step.first > step.last or step.first not in step.before.row.numbers:
            continue
        here, before = step.here.row, step.before.row
        if here.only and before.only and not set(here.only) & set(before.only) or bool(here.only) != bool(before.only):
            continue
        certain = step.close and step.first == step.last and (here.word or "") == (before.word or "") and case.whole
        word = here.word or "Row"
        yield Finding(
            KIND,
            MUST_MEND if certain else LOOK,
            f"{word} {step.first} stands twice: the row after {before.label()} is called {here.label()} too"
            if here.label() == before.label()
            else f"{word} {step.first} stands twice: in {before.label()} and in {here.label()}",
            here.label_span,
            step.here.name,
            expected=step.last + 1,
            found=step.first,
            whose="the row before",
            labels=((before.label_span, f"{word} {step.first} the first time"),),
            suggestions=(Suggestion(f"call it {word} {step.last + 1} and number on from there", "likely", effect="each number stands once"),),
        )
