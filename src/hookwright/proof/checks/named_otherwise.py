"""A row names a stitch that the row below does not have.

"Hdc in each sc across" over a row of dc can only mean the dc. It is worked so, but the name shows that one of the two rows was changed and
the other not.

With it::

    Ch 12.
    Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)
    Row 2: Ch 1, turn, sc in each hdc across. (11 sc)

Without it::

    Ch 12.
    Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)
    Row 2: Ch 1, turn, sc in each sc across. (11 sc)

Working::

    the row names hdc; the row below has sc and nothing else

What to do: name the stitch that is there, or say "st".
"""

from hookwright.ground import LOOK, Suggestion

from ..about_row import about_row
from ..case import Case
from ..wording import stitch_word

KIND = "named-otherwise"


def find(case: Case):
    for off in case.off("named-otherwise"):
        facts, name = off.facts(), case.name_of(off.row, off.label)
        said, there = (stitch_word(facts[key], case.terms) for key in ("said", "there"))
        yield about_row(
            case,
            off,
            KIND,
            LOOK,
            case.says_of(off, f"{name} names {said}; the row below has {there} and no other stitch"),
            expected=there,
            found=said,
            whose="the words of the row",
            suggestions=(Suggestion(f"write {there}", "likely"), Suggestion("look whether another row is meant to lie below", "your choice")),
        )
