"""A bracket is opened and not closed, or closed and not opened.

With it::

    Ch 13.
    Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
    Row 2: Ch 1, turn, (sc in next 2 sts, 2 sc in next st 4 times. (16 sc)

Without it::

    Ch 13.
    Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
    Row 2: Ch 1, turn, (sc in next 2 sts, 2 sc in next st) 4 times. (16 sc)

Working::

    2 brackets are opened, 1 is closed: where the repeat ends can only be guessed

What to do: put the missing bracket where the group or the repeat ends.
"""

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..marks import marks_of

KIND = "bracket-left-open"
_MATES = {"(": ")", "[": "]", "{": "}", ")": "(", "]": "[", "}": "{"}


def find(case: Case):
    for marks in marks_of(case):
        for spans, said, missing in ((marks.opened, "opened and not closed", "close"), (marks.closed, "closed and not opened", "open")):
            for span in spans[:1]:
                letter = case.text[span.start : span.end]
                yield Finding(
                    KIND,
                    LOOK,
                    f"a bracket `{letter}` of {marks.seen.name} is {said}",
                    span,
                    marks.seen.name,
                    found=letter,
                    expected=_MATES[letter],
                    suggestions=(Suggestion(f"{missing} it with `{_MATES[letter]}`", "your choice"),),
                )
