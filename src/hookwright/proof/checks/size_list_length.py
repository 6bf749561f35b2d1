"""A list of numbers per size has more or fewer numbers than there are sizes.

With it::

    ---
    sizes: [S, M, L]
    ---
    Ch 36 (40, 44).
    Row 1: Sc in 2nd ch from hook, sc in next 4 (5, 6, 7) ch and in each ch across. (35 (39, 43) sc)

Without it::

    ---
    sizes: [S, M, L]
    ---
    Ch 36 (40, 44).
    Row 1: Sc in 2nd ch from hook, sc in next 4 (5, 6) ch and in each ch across. (35 (39, 43) sc)

Working::

    3 sizes: S, M, L; the list has 4 numbers

What to do: give one number for each size, in the order of the sizes, with - where a size does not work the step; or one number for all.
"""

from hookwright.ground import Finding, Suggestion, listing

from ..case import Case
from ..size_lists import WrongList, wrong_lists
from ..sums import with_echoes
from ..wording import count, quoted

KIND = "size-list-length"


def retells(case: Case, finding: Finding) -> bool:
    """Whether a finding of the reader is said here, with what follows from it."""
    return finding.kind == KIND or finding.kind == "head-value" and any(each.name and each.span == finding.span for each in wrong_lists(case))


def find(case: Case):
    for each in wrong_lists(case):
        if len(case.sizes) < 2 or not each.rows:
            yield each.told
        else:
            yield _finding(case, each)


def _finding(case: Case, each: WrongList) -> Finding:
    sizes, length = case.sizes, len(each.numbers)
    row = each.rows[0]
    who = f"`{each.name}` of the head" if each.name else row.name
    off = case.roots.get(id(row.row))
    cells = [*each.numbers, *["-"] * (len(sizes) - length)]
    names = [*sizes, *["-"] * (length - len(sizes))]
    return Finding(
        KIND,
        each.grade,
        f"{who} gives {count(length, 'number')} for {len(sizes)} sizes ({listing(sizes)}): {quoted(case.text, each.span)}",
        each.span,
        row.name,
        expected=len(sizes),
        found=length,
        whose="the sizes",
        working=(("size", "number"), *zip(names, cells, strict=True)),
        labels=((row.row.label_span, "used here"),) if each.name and row.row.label_span.end else (),
        suggestions=(Suggestion(f"give {len(sizes)} numbers in the order of the sizes, - where a size does not work this; or one number for all", "your choice"),),
        echoes=with_echoes(case, off) if off is not None and off.span == each.span else (),
    )
