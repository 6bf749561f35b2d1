"""Reading a manuscript whose head leaves numbers to be found: sizes are solved first, then the rows are read with them.

A number that must fit a piece is solved twice: the rows of the piece, read with the first answer, say for which foundation counts they
come out; that set is then a condition like any other.
"""

from dataclasses import dataclass, field
from math import gcd

from hookwright.fabric import foundation_counts
from hookwright.ground import LOOK, MUST_MEND, Finding, Value
from hookwright.notation import Measure, read
from hookwright.sizing import Answer, Asked, Bound, Clash, Multiple, OneOf, as_numbers, asked_of, clash_finding, finished_of, solve


@dataclass(slots=True)
class Sized:
    """What was asked and found: asked (Asked), outcome (Answer or Clash, None where nothing was to be found)."""

    asked: Asked | None = None
    outcome: Answer | Clash | None = None
    extra: list = field(default_factory=list)

    @property
    def answer(self) -> Answer | None:
        """The numbers used: those found, or on a clash the nearest way out."""
        if isinstance(self.outcome, Clash):
            return self.outcome.ways[0][1] if self.outcome.ways else None
        return self.outcome


def read_sized(text: str, *, terms=None, sizes=None, in_round=False, change=None, restrict=None):
    """(Pattern, findings, Sized). change: may alter the head before its numbers are found, and restrict the
    Problem made of it (made to measure)."""
    sized = Sized()

    def find(head, findings):
        if change is not None:
            change(head)
        sized.asked = asked_of(head, findings)
        if restrict is not None:
            restrict(sized.asked.problem)
        numbers = {}
        if head.wishes:
            sized.asked.problem.conditions += sized.extra
            sized.outcome = solve(sized.asked.problem)
            if isinstance(sized.outcome, Clash):
                findings.append(clash_finding(sized.outcome, sized.asked.problem))
            numbers = as_numbers(sized.answer) if sized.answer else {}
        for name, lengths in finished_of(head, {**head.numbers, **numbers}, findings).items():
            head.finished[name] = Measure(tuple((mm, mm) for mm in lengths), head.finished_sums[name])
        return numbers

    pattern, findings = read(text, terms=terms, sizes=sizes, in_round=in_round, find_numbers=find)
    if sized.asked and sized.asked.fits and sized.answer:
        extra, more = _fitting(pattern, sized)
        if extra and not _met(extra, sized.answer):
            sized.extra = extra
            pattern, findings = read(text, terms=terms, sizes=sizes, in_round=in_round, find_numbers=find)
        findings = [*findings, *more]
    return pattern, findings, sized


def _fitting(pattern, sized) -> tuple[list, list]:
    """Conditions from the pieces that numbers must fit, and findings where a piece can't say."""
    extra, findings = [], []
    for name, piece, span in sized.asked.fits:
        found = foundation_counts(pattern, piece)
        if found is None:
            names = ", ".join(f"`{one.name}`" for one in pattern.pieces if one.name)
            findings.append(Finding("number-not-found", MUST_MEND, f"the number `{name}`: `fits: {piece}` names no piece that begins with a plain foundation; pieces here are {names}", span))
            continue
        counts, holds, written = found
        mine = sized.answer.numbers[name]
        offsets = {count - value for count, value in zip(written, mine) if count is not None}
        if not holds:
            findings.append(Finding("number-not-found", LOOK, f"the number `{name}`: no foundation from {counts[0]} to {counts[-1]} chains lets all rows of {piece} come out; the rows say why",
                                    span))
            continue
        if len(offsets) != 1:
            findings.append(Finding("number-not-found", MUST_MEND, f"the number `{name}`: the foundation of {piece} isn't made from it in every size; write it as `{{{name}}}`, or as a sum with it", span))
            continue
        extra += _as_conditions(name, piece, counts, holds, offsets.pop(), len(sized.asked.problem.sizes), span)
    return extra, findings


def _as_conditions(name, piece, counts, holds, offset, sizes, span) -> list:
    """A multiple with a least count where the counts that hold are one; else the counts themselves."""
    ordered = sorted(holds)
    step = 0
    for a, b in zip(ordered, ordered[1:]):
        step = gcd(step, b - a)
    words = f"`{name}` fits the rows of {piece}"
    if step and [n for n in counts if n >= ordered[0] and (n - ordered[0]) % step == 0] == ordered:
        least = ordered[0] - offset
        plain = f"{words}: a multiple of {step}" + (f", plus {least % step}" if least % step else "")
        return [Multiple(name, step, least % step, plain, span), Bound(name, 1, (Value(float(least)),) * sizes, f"{words}: at least {least}", span)] if step > 1 else [
            Bound(name, 1, (Value(float(least)),) * sizes, f"{words}: at least {least}", span)]
    return [OneOf(name, tuple(ordered), offset, f"{words}: one of {', '.join(str(n - offset) for n in ordered[:8])}", span)]


def _met(conditions, answer) -> bool:
    """Whether the answer already meets them."""
    for condition in conditions:
        for index, value in enumerate(answer.numbers[condition.number]):
            if isinstance(condition, Multiple) and (value < condition.plus or (value - condition.plus) % condition.of):
                return False
            if isinstance(condition, Bound) and value < condition.values[index].constant:
                return False
            if isinstance(condition, OneOf) and value + condition.offset not in condition.counts:
                return False
    return True
