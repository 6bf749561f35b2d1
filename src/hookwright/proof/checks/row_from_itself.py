"""A row is defined by working itself.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Rep Row 2.

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Row 3: Rep Row 2.

Working::

    Row 2 says "as Row 2", and nothing else says what Row 2 is

What to do: name the row that is meant, mostly the one before.
"""

from hookwright.ground import MUST_MEND, Finding, Suggestion, listing
from hookwright.notation.tree import Group, Repeat, Stitch

from ..case import Case, walk
from ..references import references

KIND = "row-from-itself"


def find(case: Case):
    for reference in references(case):
        row = reference.seen.row
        own = [number for number in reference.numbers if number in row.numbers]
        if not own or not reference.works:
            continue
        if any(type(step) in (Stitch, Group, Repeat) for step in walk(row.steps)):
            continue  # its first part says what it is: "Row 4: sc in each st. Rep Row 4 to the end"
        before = [other for other in case.seen if other.index < reference.seen.index]
        named = reference.seen.row.again is not None and (reference.seen.row.again.named or reference.seen.row.again.piece)
        if any(set(own) <= set(other.row.numbers) for other in before) or named and set(own) <= {number for other in before for number in other.row.numbers}:
            continue  # those of an earlier piece
        word = row.word or "Row"
        yield Finding(
            KIND,
            MUST_MEND,
            f"{reference.seen.name} is to be worked like {word} {listing(own)}, that is like itself",
            reference.span,
            reference.seen.name,
            found=f"{word} {own[0]}",
            whose="the row itself",
            suggestions=(Suggestion(f"name {word} {own[0] - 1}", "likely", effect="the row before it"),) if own[0] > 1 and before else (),
        )
