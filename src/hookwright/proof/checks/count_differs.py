"""The count a row states is not the count that its instructions make.

Either the instructions or the count has to change; a maker who counts will stop here and write to you.

With it::

    Ch 45.
    Row 1: Sc in 2nd ch from hook and in each ch across. (45 sc)

Without it::

    Ch 45.
    Row 1: Sc in 2nd ch from hook and in each ch across. (44 sc)

Working::

    45 chains, the first is passed over: 44 are worked, one sc in each

What to do: work the row on paper with the numbers in the finding. Where the instructions are right take the count that was worked, which
is given in the words of the row; where the count is right, mend the row (or its foundation).
"""

import re
from functools import cache

from hookwright.fabric import SHAPES
from hookwright.ground import LOOK, MUST_MEND, Finding, Suggestion, at
from hookwright.notation.tree import Stitch
from hookwright.stitches import dialect, plural, stitch

from ..about_row import about_row
from ..case import Case
from ..conventions import other_way, uneven_rows
from ..counting import count_suggestions, made_of, said_and_made
from ..sums import is_foundation, sum_table, two_totals
from ..troubles import stated_total
from ..wording import count, counted

KIND = "count-differs"
_GROUPS = ("group", "edging")


def find(case: Case):
    for off in case.off("count"):
        if other_way(case, off) is not None or two_totals(off.row) is not None:
            continue
        name = case.name_of(off.row, off.label)
        expected, found = off.each("expected"), off.each("found")
        message = case.says_of(off, said_and_made(case, off, name))
        one = len(off.at) == 1 or len(set(expected.values())) == len(set(found.values())) == 1
        yield about_row(
            case,
            off,
            KIND,
            LOOK if _unknown_unit(off, found) or _unnamed(case, off) else case.grade(off),
            message,
            expected=expected[min(expected)] if one else list(expected.values()),
            found=found[min(found)] if one else list(found.values()),
            whose="the stated count",
            working=() if is_foundation(off.first[1]) else sum_table(case, off, _of_kind(off, expected, found)),
            suggestions=tuple(count_suggestions(case, off)),
        )
    yield from _single_chains(case)
    yield from _without_decreases(case)


def _unknown_unit(off, found) -> bool:
    """Whether groups are counted of which none is known in the row, or parts of a motif ("six points"): what she calls so is not known, so it is not blamed."""
    of = off.facts().get("of")
    return isinstance(of, str) and of.startswith("group") and (not any(found.values()) or of[6:] in SHAPES)


def _unnamed(case: Case, off) -> bool:
    """Whether groups are counted by a name that the row doesn't say while it makes them ("(sc, ch 3, sl st in sc) around", "8 picots"): what made one is told by no word."""
    of = off.facts().get("of")
    fact = stitch(of) if isinstance(of, str) else None
    if fact is None or fact.kind not in _GROUPS or of in case.pattern.own or any(own.kind == of for own in case.pattern.own.values()):
        return False
    row = off.row
    words = case.text[row.label_span.end or row.span.start : off.span.start].casefold()
    return not any(re.search(rf"(?<![a-z]){re.escape(name)}(?![a-z])", words) for name in _names(case.pattern.terms, of))


@cache
def _names(terms: str, of: str) -> tuple[str, ...]:
    names = [word for word, id in dialect(terms).words.items() if id == of]
    return tuple({form for name in names for form in (name, plural(name))})


def _single_chains(case: Case):
    """Rows that hold only with a turning chain of one counted as a stitch, which is nobody's custom."""
    for row in uneven_rows(case):
        if row.chains > 1:
            continue
        worked = row.worked
        name = case.name_of(worked.row, worked.label)
        message = case.says(row.sizes, f"{name} states {count(row.stated, 'stitch')}, and {worked.stitches} are worked")
        others = f" and does not in {count(row.agree, 'other row')}" if row.agree else ""
        yield Finding(
            KIND,
            MUST_MEND if row.agree else LOOK,
            message + f" (a ch 1 at the start does not count by custom{others})",
            worked.row.stated[0].span,
            name,
            case.size_names(row.sizes),
            expected=row.stated,
            found=worked.stitches,
            whose="the stated count",
            suggestions=(Suggestion(f"state {worked.stitches}, as the instructions make", "likely"),),
        )


def _without_decreases(case: Case):
    """A single count that names the plain stitch and leaves out the decreases of the row, which are stitches too."""
    asked = {}
    told = {id(off.row) for off in case.off("count")}
    for seen, node in case.nodes(Stitch):
        if id(seen.row) in told:
            continue
        stated = [said for said in seen.row.stated if not said.per and not said.series]
        if _decreases(node.kind) and len(stated) == 1 and len(stated[0].items) == 1:
            asked[id(seen.row)] = (seen, stated[0], {})
    if not asked:
        return
    for size, fabric in enumerate(case.fabrics):
        for worked in fabric.rows:
            entry = asked.get(id(worked.row))
            if entry is None or worked.troubles:
                continue
            number, of = entry[1].items[0][0], entry[1].items[0][1]
            if _others_are_decreases(worked, of, at(number, size)):
                entry[2].setdefault(size, worked)
            elif worked.stitches == at(number, size):
                entry[2].pop(size, None)  # the last row of a range, of which it is said
    for seen, stated, found in asked.values():
        if not found:
            continue
        worked, of = found[min(found)], stated.items[0][1]
        yield Finding(
            KIND,
            LOOK,
            case.says(
                found, f"{seen.name} states {counted(worked.by_kind[of], of, case.terms)}; with the decreases {worked.stitches} stitches are worked"
            ),
            stated.span,
            seen.name,
            case.size_names(found),
            expected=worked.by_kind[of],
            found=worked.stitches,
            whose="the stated count",
            suggestions=(Suggestion(f"state {worked.stitches}: a decrease counts as one stitch", "likely", effect=made_of(case, worked)),),
        )


def _decreases(kind: str) -> bool:
    return kind == "dec" or (fact := stitch(kind)) is not None and fact.kind == "decrease"


def _others_are_decreases(worked, of: str, stated) -> bool:
    by_kind = worked.by_kind
    if stated is None or by_kind.get(of) != stated or worked.stitches == stated:
        return False
    others = [stitch(kind) for kind, number in by_kind.items() if number and kind != of]
    return bool(others) and all(fact is not None and fact.kind == "decrease" and fact.base == of for fact in others)


def _of_kind(off, expected: dict, found: dict) -> dict:
    """Columns for a count of one kind among others; a total needs none, the table has it."""
    if stated_total(off.first[2], off.row) is not None or is_foundation(off.first[1]):
        return {}
    return {"made of it": found, "stated of it": expected}
