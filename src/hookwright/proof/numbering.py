"""How the rows of a piece are numbered, for the checks that look at it."""

from dataclasses import dataclass
from itertools import pairwise

from hookwright.ground import LOOK, Finding, PerSize, Suggestion
from hookwright.notation.tree import FastenOff, JoinYarn, Prose, Row

from .case import Case, Seen


@dataclass(frozen=True, slots=True)
class Step:
    """One numbered row after the one before it in the same piece.

    awaited: the numbers it could bear and be the next (None where what stands between can't be counted);
    close: nothing stands between the two; restart: it begins to count anew.
    """

    before: Seen
    here: Seen
    last: int
    first: int
    awaited: frozenset | None
    close: bool
    restart: bool


def about_step(step: Step, kind: str, message: str, expected: int, way_out: str) -> Finding:
    """A finding about the number of a row, with the row before it pointed at."""
    return Finding(
        kind,
        LOOK,
        message,
        step.here.row.label_span,
        step.here.name,
        expected=expected,
        found=step.first,
        whose="the row before",
        labels=((step.before.row.label_span, "the row before"),),
        suggestions=(Suggestion(way_out, "your choice"),),
    )


def slips(case: Case) -> dict[int, tuple[Step, Step]]:
    """Rows with one wrong number between two that are two apart ("2, 5, 4"): row (by id) -> (step to it, step after it); kept on the case."""
    kept = case.__dict__.get("_slips")
    if kept is None:
        kept = case.__dict__["_slips"] = {}
        for one, other in pairwise(steps(case)):
            alone = len(one.here.row.numbers) == 1 and one.here is other.before and one.close and other.close
            if alone and not one.restart and one.first != one.last + 1 and other.first == one.last + 2 and one.first != other.first:
                kept[id(one.here.row)] = one, other
    return kept


def steps(case: Case) -> list[Step]:
    """Every numbered row of the pattern with the one before it in its piece; gathered once."""
    kept = case.__dict__.get("_steps")
    if kept is None:
        kept = case.__dict__["_steps"] = list(_steps(case))
    return kept


def _steps(case: Case):
    for piece, rows in case.by_piece:
        at = {id(seen.row): seen for seen in rows}
        before: Seen | None = None
        awaited: set | None = set()
        between = False
        for item in piece.items:
            if isinstance(item, Prose):
                between = True
                continue
            if not isinstance(item, Row) or id(item) not in at:
                continue
            here = at[id(item)]
            if not item.numbers:
                between = True
                awaited = _after_unnumbered(item, awaited)
                continue
            if before is not None:
                first = item.numbers[0]
                joined = _ends(before.row) or any(type(step) is JoinYarn for step in item.steps[:3])
                yield Step(
                    before,
                    here,
                    before.row.numbers[-1],
                    first,
                    None if awaited is None else frozenset(awaited),
                    not between and not joined,
                    first <= 1 or joined and first <= before.row.numbers[-1],
                )
            before, between = here, False
            awaited = {item.numbers[-1] + 1}
            if isinstance(item.last_number, PerSize):
                awaited |= {last + 1 for last in item.last_number if last}
            elif item.last_number is not None:
                awaited.add(item.last_number + 1)


def _ends(row: Row) -> bool:
    return any(type(step) is FastenOff for step in row.steps[-3:])


def _after_unnumbered(row: Row, awaited: set | None) -> set | None:
    """The numbers that may follow once an unnumbered row stands between: it may have been counted or not."""
    if awaited is None:
        return None
    again = row.again
    if again is None:
        if row.count_of_rows is not None:
            more = {row.count_of_rows} if isinstance(row.count_of_rows, int) else set(row.count_of_rows) - {None}
        else:
            more = {1}
    elif again.times is None or again.then is not None or again.until is not None or not (again.rows or again.last):
        return None
    else:
        length = len(again.rows) or again.last
        if not isinstance(length, int):
            return None
        times = {again.times} if isinstance(again.times, int) else set(again.times) - {None}
        more = {length * number for number in times} | {length * (number - 1) for number in times if again.sense != "more"}
    return awaited | {number + add for number in awaited for add in more}
