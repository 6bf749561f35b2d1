"""A row is to be worked like one that comes later.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Rep Row 4.
    Row 3: Ch 1, turn, sc in each st across. (10 sc)
    Row 4: Ch 1, turn, sc in each st across. (10 sc)

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Row 3: Rep Row 2.
    Row 4: Ch 1, turn, sc in each st across. (10 sc)

Working::

    Row 4 is written after Row 2

What to do: name a row that has been worked, or write the instructions where they are first used.
"""

from hookwright.ground import LOOK, Finding, Suggestion, listing

from ..case import Case
from ..references import known_numbers, references

KIND = "row-from-ahead"


def find(case: Case):
    if not case.whole:
        return
    for reference in references(case):
        upto, every = known_numbers(case, reference.seen)
        ahead = [number for number in reference.numbers if number in every and number not in upto]
        if not ahead:
            continue
        word = reference.seen.row.word or "Row"
        yield Finding(
            KIND,
            LOOK,
            f"{reference.seen.name} refers to {word} {listing(ahead)}, which comes later",
            reference.span,
            reference.seen.name,
            found=f"{word} {ahead[0]}",
            whose="the order of the rows",
            suggestions=(Suggestion("name a row that stands before this one", "your choice"),),
        )
