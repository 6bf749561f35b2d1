"""A row that is referred to is not there.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Rows 3-8: Rep Row 9.

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Rows 3-8: Rep Row 2.

Working::

    the pattern has Rows 1 to 8

What to do: name the row that is meant. After rows were added or taken out, every reference behind them has to move too.
"""

from hookwright.ground import LOOK, MUST_MEND, Finding, Suggestion, listing

from ..case import Case
from ..references import known_numbers, references

KIND = "no-such-row"


def find(case: Case):
    told = set()
    for finding, row in _by_number(case) if case.whole else ():
        told.add(id(row))
        yield finding
    for row, sizes in case.off_in_rows("no-such-row"):
        if id(row) in told or row.again is not None and set(row.again.rows) & set(row.numbers):
            continue  # said, or worked like itself: see row-from-itself
        name = case.name_of(row)
        yield Finding(
            KIND,
            LOOK,
            case.says(sizes, f"{name} is worked like rows that are not in the text, so its stitches are not counted"),
            row.again.span if row.again is not None and row.again.span.end else row.span,
            name,
            case.size_names(sizes),
            suggestions=(Suggestion("put the rows it refers to in front of it", "your choice"),),
        )


def _by_number(case: Case):
    """(finding, row) for each reference to a number that no row bears."""
    for reference in references(case):
        upto, every = known_numbers(case, reference.seen)
        missing = [number for number in reference.numbers if number not in every]
        if not missing or not every or _counted_on(case, reference.seen, max(missing)):
            continue
        word = reference.seen.row.word or "Row"
        highest = max(every)
        near = [number for number in sorted(upto, key=lambda number: abs(number - missing[0])) if number not in reference.seen.row.numbers][:1]
        finding = Finding(
            KIND,
            MUST_MEND,
            f"{reference.seen.name} refers to {word} {listing(missing)}, and there is none: the {word.lower()}s go up to {highest}"
            if missing[0] > highest
            else f"{reference.seen.name} refers to {word} {listing(missing)}, and no row bears that number",
            reference.span,
            reference.seen.name,
            expected=f"a {word.lower()} up to {highest}",
            found=f"{word} {missing[0]}",
            whose="the pattern",
            suggestions=tuple(Suggestion(f"name {word} {number}", "your choice", effect="the nearest row there is") for number in near),
        )

        yield finding, reference.seen.row


def _counted_on(case: Case, seen, number: int) -> bool:
    """True where rows worked again without numbers may have reached this number."""
    return any(other.row.again is not None and not other.row.numbers and other.index <= seen.index for other in case.seen) and number > 0
