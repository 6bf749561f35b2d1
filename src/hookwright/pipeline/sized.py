"""Reading a manuscript whose head leaves numbers to be found: sizes are solved first, then the rows are read with them.

A number that must fit a piece is solved twice: the rows of the piece, read with the first answer, say for which foundation counts they
come out; that set is then a condition like any other.
"""

import re
from dataclasses import dataclass, field
from math import gcd

from hookwright import sizing
from hookwright.fabric import MOST_FOUNDATION, foundation_counts, row_kinds
from hookwright.ground import LOOK, MUST_MEND, NOTE, Finding, Value, listing
from hookwright.notation import Head, Measure, head_end, read
from hookwright.notation.tree import Row
from hookwright.stitches import dialect

_BRACES = re.compile(r"\{([^{}\n]{1,80})\}")


@dataclass(slots=True)
class Sized:
    """What was asked and found: asked (sizing.Asked), outcome (sizing.Answer or sizing.Clash, None where nothing was to be found), one_maker
    (it was made to one maker's measures), unworked (the number that the rows name and that could not be found: so none was worked)."""

    asked: "sizing.Asked | None" = None
    outcome: "sizing.Answer | sizing.Clash | None" = None
    extra: list = field(default_factory=list)
    one_maker: bool = False
    unworked: str = ""
    idle: bool = False  # nothing that one maker asked for changes any number
    reckoned: dict | None = None  # gauges of pieces that follow from the heights of their stitches, once the rows are known

    @property
    def answer(self) -> "sizing.Answer | None":
        """The numbers used: those found, or on a clash the nearest way out."""
        if isinstance(self.outcome, sizing.Clash):
            return self.outcome.ways[0][1] if self.outcome.ways else None
        return self.outcome


def read_sized(text: str, *, terms=None, sizes=None, in_round=False, change=None, restrict=None, before=None, all_rows=False):
    """(Pattern, findings, Sized). change: may alter the head before its numbers are found, and restrict what
    is asked of it (made to measure). before: a notation.ReadBefore. all_rows: see notation.read."""
    sized = Sized()

    def find(head, findings):
        if change is not None:
            change(head)
        elif not (head.wishes or head.finished_sums or head.swatches or head.body):
            return {}  # nothing to be found: the room of sizing is not even opened
        sized.asked = sizing.asked_of(head, findings, sized.reckoned)
        head.lengths = sizing.gauge_lengths(sized.asked.gauges)
        if restrict is not None:
            restrict(sized.asked)
        numbers = {}
        if sized.asked.problem.wishes:
            sized.asked.problem.conditions += sized.extra
            sized.outcome = sizing.solve(sized.asked.problem)
            if isinstance(sized.outcome, sizing.Clash):
                findings.append(sizing.clash_finding(sized.outcome, sized.asked.problem))
            numbers = sizing.as_numbers(sized.answer) if sized.answer else {}
        numbers.update(sizing.spread_numbers(sized.asked, {**head.numbers, **numbers}, findings))
        for name, lengths in sizing.finished_of(head, {**head.numbers, **numbers}, findings, sized.asked.unread).items():
            head.finished[name] = Measure(tuple((mm, mm) for mm in lengths), head.finished_sums[name])
        return numbers

    pattern, findings = read(text, terms=terms, sizes=sizes, in_round=in_round, find_numbers=find, before=before, all_rows=all_rows)
    if sized.asked and sized.asked.unmeasured:
        sized.reckoned, more = _reckoned(pattern, sized.asked)
        pattern, findings = read(text, terms=terms, sizes=sizes, in_round=in_round, find_numbers=find, before=before, all_rows=all_rows)
        findings = [*findings, *more]
    lost = sized.asked.unread if sized.asked else sizing.refused_numbers(pattern.head) if pattern.head is not None and "numbers" in pattern.head.spans else frozenset()
    if isinstance(sized.outcome, sizing.Clash) and sized.answer is None:
        lost |= {wish.name for wish in sized.asked.problem.wishes}
    if lost and (named := _named_in_rows(text, lost)):
        sized.unworked, end = named
        return pattern, [finding for finding in findings if finding.span.start < end], sized
    if sized.asked and sized.asked.fits and sized.answer:
        extra, more = _fitting(pattern, sized)
        if extra and not _met(extra, sized.answer):
            sized.extra = extra
            pattern, findings = read(text, terms=terms, sizes=sizes, in_round=in_round, find_numbers=find, before=before, all_rows=all_rows)
        findings = [*findings, *more]
    return pattern, findings, sized


def _named_in_rows(text: str, unread) -> tuple[str, int] | None:
    """The first number in braces after the head that could not be reckoned, and where the head ends; None where none stands there."""
    end, names = head_end(text), {name.lower() for name in unread}
    for found in _BRACES.finditer(text, end):
        inner = " ".join(found[1].lower().split())
        for name in names:
            if re.search(rf"(?<!\w){re.escape(name)}(?!\w)", inner):
                return name, end
    return None


def _reckoned(pattern, asked) -> tuple[dict, list]:
    """Gauges of pieces that no swatch is of: their stitches are as wide as in the first gauge, their rows as high as the stitches in them."""
    rows_mm, find = {}, dialect(pattern.terms).find
    for gauge in asked.gauges:
        kind = find(gauge.of) if gauge.of and gauge.row_mm else None
        if kind:
            rows_mm.setdefault(kind, gauge.row_mm)
    width = next((gauge.stitch_mm for gauge in asked.gauges if gauge.stitch_mm), None)
    out, findings = {}, []
    for _, piece, span in asked.unmeasured:
        kinds = row_kinds(pattern, piece)
        if kinds is None or width is None or piece.lower() in out:
            continue
        height, measured = sizing.mixed_row_mm(kinds, width, rows_mm)
        out[piece.lower()] = sizing.FabricGauge(piece, width, height, said="from the heights of its stitches")
        words = listing([dialect(pattern.terms).abbr(kind) for kind in dict.fromkeys(kinds)])
        by = "as measured in the swatches of these stitches" if measured else "by the proportions of published gauges"
        findings.append(Finding("row-gauge-reckoned", NOTE, f"no swatch is of {piece}, so its rows are reckoned from their stitches ({words}), {by}: "
                                f"{100 / height:.1f} rows to 10 cm (4 in). Measure a swatch of it to be sure", span))
    return out, findings


def _fitting(pattern, sized) -> tuple[list, list]:
    """Conditions from the pieces that numbers must fit, and findings where a piece can't say."""
    extra, findings = [], []
    for name, piece, span in sized.asked.fits:
        found = foundation_counts(pattern, piece)
        if found is None:
            findings.append(Finding("number-not-found", MUST_MEND, f"the number `{name}`: {_no_foundation(pattern, piece, sized.answer.numbers[name])}", span))
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


def _no_foundation(pattern, name: str, numbers) -> str:
    """Why no multiple could be derived from the rows of a piece."""
    worked = [piece.name for piece in pattern.pieces if piece.name and any(isinstance(item, Row) for item in piece.items)]
    there = name.lower() in (one.lower() for one in worked) or name.lower() in (one.lower().partition("(")[0].strip() for one in worked)
    if there and numbers and max(numbers) >= MOST_FOUNDATION - 10:
        return (f"it comes to {max(numbers):,}, and the rows of {name} are tried over {MOST_FOUNDATION:,} chains at most, which would be too much work: "
                "say the multiple itself, as in `multiple: 12 plus 1`, or look at the length that is wanted")
    if there:
        return (f"{name} begins with no plain foundation, that is, a chain whose every chain is worked (a ring worked into the middle of is none), so no multiple can be derived from its rows: "
                "say it yourself, as in `multiple: 12 plus 1`")
    return f"`fits: {name}` names no piece that begins with a plain foundation; {'the piece with rows here is' if len(worked) == 1 else 'pieces with rows here are'} {', '.join(f'`{one}`' for one in worked)}"


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
        return [sizing.Multiple(name, step, least % step, plain, span), sizing.Bound(name, 1, (Value(float(least)),) * sizes, f"{words}: at least {least}", span)] if step > 1 else [
            sizing.Bound(name, 1, (Value(float(least)),) * sizes, f"{words}: at least {least}", span)]
    return [sizing.OneOf(name, tuple(ordered), offset, f"{words}: one of {', '.join(str(n - offset) for n in ordered[:8])}", span)]


def _met(conditions, answer) -> bool:
    """Whether the answer already meets them."""
    for condition in conditions:
        for index, value in enumerate(answer.numbers[condition.number]):
            if isinstance(condition, sizing.Multiple) and (value < condition.plus or (value - condition.plus) % condition.of):
                return False
            if isinstance(condition, sizing.Bound) and value < condition.values[index].constant:
                return False
            if isinstance(condition, sizing.OneOf) and value + condition.offset not in condition.counts:
                return False
    return True


# ---------------------------------------------------------------- what is told of it

def fitting(report):
    """Whom each size fits (sizing.Fitting), None where nothing tells it. One maker's size is not set against other people."""
    head, asked = report.pattern.head, report.sized.asked
    if not isinstance(head, Head):
        return None
    bodies = asked.bodies if asked is not None else sizing.bodies_of(head, [])
    if len(bodies) != max(len(head.sizes), 1):
        return None
    words = " ".join([head.title, *(piece.name for piece in report.pattern.pieces)])
    return sizing.fitting_of(head, bodies, words, with_people=not report.sized.one_maker)


def numbers_as_values(numbers) -> dict:
    """The numbers found as plain values: name -> {"values", "wanted_mm", "off_mm"}, one a size; None where no length was wanted."""
    def tenths(lengths):
        return [None if mm is None else round(mm, 1) + 0.0 for mm in lengths]

    return {one.name: {"values": list(one.values), "wanted_mm": tenths(one.wanted_mm), "off_mm": tenths(one.off_mm)} for one in numbers}


def gauges_in_words(report) -> list[dict]:
    """Each gauge taken from a swatch, with how far it can be out: for the designer."""
    out = []
    for swatch in report.pattern.head.swatches if report.pattern.head is not None else ():
        made = sizing.gauge_of(swatch)
        told = []
        for per, share, counted, kind in ((made.per_10cm[0], made.stitch_out, swatch.stitches, "st"), (made.per_10cm[1], made.row_out, swatch.rows, "row")):
            if per:
                told.append(f"{per:.1f} {kind}s to 10 cm ({per * 1.016:.1f} to 4 in), give or take {per * share:.1f}, since 1 {kind} in {counted:g} may be misread")
        if told:
            washed = "after washing" if made.said.endswith("washed") else "before washing"
            out.append({"words": f"gauge of {swatch.of or 'the swatch'} {washed}: {'; '.join(told)}"})
    return out
