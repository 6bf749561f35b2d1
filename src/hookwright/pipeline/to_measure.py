"""A finished manuscript made to a maker's own gauge and measures: her numbers found anew, the rows worked, proved and written like any other.

What the head finds by wishes is found for her; a count that is typed as a list of sizes stays that of the size nearest to her, and a
row that then doesn't come out says so.
"""

import re
from dataclasses import dataclass, field, replace

from hookwright import sizing
from hookwright.fabric import LIMIT, work_pattern
from hookwright.ground import LOOK, MUST_MEND, NOTE, NOWHERE, Finding, PerSize, at
from hookwright.notation import Body, Gauge, Measure, SizeFact, Yarn, gauge_from_words, length_from_words, one_size, weight_from_words

from .asked import known_terms
from .sized import read_sized

NAME = "made to measure"
_LEAST, _MOST = 0.6, 1.6  # of the smallest and the largest size: beyond that a measure is asked about; common practice, no source
TO_FIT = ("head", "chest", "bust", "hand", "foot")  # measures that `to fit` may stand for


@dataclass(slots=True)
class Asking:
    """What a maker gives: measures (name -> mm), gauge (notation.Gauge, or None), the size to start from ("" = the nearest), the yarn in
    her words and its weight (0 to 7, None where nothing is said)."""

    measures: dict = field(default_factory=dict)
    gauge: Gauge | None = None
    size: str = ""
    yarn: str = ""
    weight: int | None = None


def asking(measures=None, gauge: str | None = None, size: str | None = None, yarn: str | None = None) -> Asking:
    """The maker's words as values. measures: {"head": "57 cm"}; gauge: "15 sts and 11 rows to 10 cm"; yarn: "dk".

    Raises ValueError, in words, for what can't be understood.
    """
    found = {}
    for name, words in (measures or {}).items():
        pair = length_from_words(words) if isinstance(words, str) else None
        if pair is None or pair[0] <= 0:
            raise ValueError(f"the measure {name!r} should be a length with its unit, such as '57 cm', not {words!r}")
        found[_plain(name)] = sum(pair) / 2
    made = None
    if gauge:
        made = gauge_from_words(gauge)
        if made is None:
            raise ValueError(f"the gauge should say stitches, rows and what they are measured over, such as '15 sts and 11 rows to 10 cm', not {gauge!r}")
    weight = weight_from_words(yarn) if yarn else None
    if yarn and weight is None:
        raise ValueError(f"the yarn should say its weight, a category from 0 to 7 or its word such as 'dk' or 'worsted', not {yarn!r}")
    return Asking(found, made, size or "", yarn or "", weight)


def _plain(words: str) -> str:
    """Names of measures as the tables have them."""
    return " ".join(words.lower().replace("centre", "center").split())


def make(text: str, *, measures=None, gauge: str | None = None, size: str | None = None, yarn: str | None = None, terms: str | None = None,
         limit: int = LIMIT):
    """The Report of the pattern for one maker; `write` and `sheet` take it like any other.

    measures: {"head": "57 cm"} (a body measure that the head uses; "to fit" is the one under `sizes`). gauge: "15 sts and 11 rows to
    10 cm". size: the size to start from; else the one whose measures are nearest. yarn: "dk"; where no gauge is given it is estimated from
    the standard gauges of the two weights, and that is said. ValueError for arguments that can't be understood.
    """
    from . import Report, held, proved, row_height_mm

    asked, terms = asking(measures, gauge, size, yarn), known_terms(terms)
    if not (asked.measures or asked.gauge or asked.size or asked.yarn):
        raise ValueError("nothing is given that it could be made to: give a measure such as 'head 57 cm', a gauge, a yarn, or the size it is to be")
    hers, _, _ = read_sized(text, terms=terms)  # its counts settle what is left open; there are none for the maker's numbers yet
    original = Report(text, hers, work_pattern(hers, sizes=tuple(hers.sizes) or ("1",), limit=limit, row_height_mm=row_height_mm(hers)))
    base = _Base(asked)
    pattern, findings, sized = read_sized(text, terms=terms, change=base.change, restrict=base.restrict)
    if pattern.head is None:
        findings = [*findings, Finding("not-made-to-measure", MUST_MEND, "the manuscript has no head, so there is nothing its numbers could be found from; "
                                       "give it one with gauge, body and numbers", NOWHERE)]
    sized.one_maker, sized.idle = True, base.idle
    if sized.asked is not None:
        sized.asked.bodies = sized.asked.bodies[base.index : base.index + 1]
    for _, row in pattern.rows():
        row.stated = [stated for stated in row.stated if _still_holds(stated, pattern.shifts)]
    one = one_size(pattern, base.index, base.fact) if pattern.sizes else pattern
    one.conventions = [*one.conventions, *held(original)]
    told = _lengths_that_stay(one, hers.text) if asked.gauge is not None or asked.weight is not None else []
    return proved(text, one, [*findings, *base.findings, *_nearest(sized), *told], sized, limit=limit)


_LENGTH = re.compile(r"\d(?:[\d.,/½¼¾ ]*)(?:cm|mm|in|inch|inches)\b(?! hook)", re.I)
_ROWS_OR_STS = re.compile(r"\b(?:rows?|rounds?|rnds?|sts?|stitch(?:es)?|wave|repeat|measures?|wide|high|deep|long|width|length|height)\b", re.I)


def _lengths_that_stay(pattern, original: str) -> list:
    """A finding for lengths in her sentences that another gauge may change: those that are typed, and not reckoned as `{5 * row}`."""
    told = []
    for piece in pattern.pieces:
        for item in piece.items:
            for sentence in re.split(r"(?<=[.;:!?])\s+", getattr(item, "text", "") if not hasattr(item, "steps") else ""):
                words = " ".join(sentence.split())
                if _LENGTH.search(words) and _ROWS_OR_STS.search(words) and words in " ".join(original.split()):
                    told.append(words)
    if not told:
        return []
    said = "; ".join(f"`{words[:90]}`" for words in told[:4]) + (f"; and {len(told) - 4} more" if len(told) > 4 else "")
    return [Finding("not-made-to-measure", LOOK, f"lengths typed in words stay as they are though the gauge is another: {said}. Write such a length as a sum, as in `{{5 * row}}`, and it is reckoned", NOWHERE)]


def _still_holds(stated, shifts) -> bool:
    """Whether a stated count is the maker's, too: one that names the numbers, or that is the same in all sizes. A list typed for the sizes is
    theirs; the sheet says what hers comes to."""
    if not any(isinstance(number, PerSize) for number, *_ in stated.items):
        return True
    return bool(shifts) and any(stated.span.start <= start < stated.span.end for start in shifts.starts)


class _Base:
    """The size it starts from, and the head changed to the maker's."""

    def __init__(self, asked: Asking):
        self.asked, self.index, self.fact, self.findings, self.idle, self.bodies, self.nearest = asked, 0, None, [], False, [], ""

    def change(self, head) -> None:
        """Puts the maker's measures and gauge into the head."""
        self.index = self._index(head)
        self.bodies, self.nearest = sizing.bodies_of(head, []), ""
        if not head.wishes and not self.asked.size and (found := self._by_finished(head)) is not None:
            self.index = found
        self.findings.clear()  # the head is read more than once where rows must be known first
        fit = next((self.asked.measures[name] for name in ("to fit", *TO_FIT) if name in self.asked.measures), None)
        before = head.sizes[self.index] if head.sizes else SizeFact(NAME)
        self.fact = SizeFact(NAME, (fit, fit) if fit else before.to_fit_mm, "" if fit else before.to_fit)
        if head.sizes:
            head.sizes = tuple(replace(one, to_fit_mm=(fit, fit)) if fit else one for one in head.sizes)
        for name, mm in self.asked.measures.items():
            if name == "to fit":
                continue
            if head.body is None:
                head.body = Body()
            for called in (sizing.also_called(name), name):
                if called == name or called not in self.asked.measures:
                    head.body.measures[called] = Measure(((mm, mm),), f"{mm / 10:g} cm")
        words = _plain(" ".join([wish.follows + " " + " ".join(wish.keys.values()) for wish in head.wishes.values()]))
        fits = "to fit" in words
        unused = [name for name in self.asked.measures
                  if not re.search(rf"\b(?:{re.escape(name)}|{re.escape(sizing.also_called(name))})\b", words) and not (fits and name in TO_FIT)]
        known, rest = set(), words
        for measure in sorted((name for body in sizing.bodies_of(head, [])[self.index : self.index + 1] for name in body), key=len, reverse=True):
            without = re.sub(rf"(?<!\w){re.escape(measure)}(?!\w)", " ", rest)  # "back waist length" is no waist
            known |= {measure} if without != rest else set()
            rest = without
        if unused and head.wishes:
            self.idle = len(unused) == len(self.asked.measures) and not (self.asked.gauge or self.asked.size or self.asked.yarn)
            by = sorted(known - set(unused))
            self.findings.append(Finding("not-made-to-measure", MUST_MEND if self.idle else LOOK, f"no number of this pattern is found from {', '.join(f'`{name}`' for name in unused)}, so it changes nothing"
                                         + (f"; its numbers are found from {', '.join(f'`{name}`' for name in by)}" if by else "")
                                         + (". Nothing else was asked, so nothing is made to measure" if self.idle else ""), NOWHERE))
        if head.wishes and not self.idle:
            self._kept(head, before.name if head.sizes else "", known)
        self._far_off()
        mine = self.asked.gauge or self._of_yarn(head)
        if not head.wishes:
            self._as_it_stands(head, before, mine)
        if mine is None and self.asked.weight is not None and not (self.asked.measures or self.asked.size):
            self.idle = True
        if self.asked.weight is not None:
            head.yarn = (Yarn(self.asked.yarn, self.asked.weight, colours=head.yarn[0].colours if head.yarn else {}),)
        if mine is not None:
            self._put_gauge(head, mine)

    def _as_it_stands(self, head, before, mine: Gauge | None) -> None:
        """A pattern with typed counts: they stay those of a size, and it says which size is nearest; finished measures stand for its own gauge only."""
        size = f"size {before.name}" if head.sizes else "the pattern"
        nearest = self.nearest and f" At this gauge its {self.nearest[0]} comes to about {_both(self.nearest[1])}, where {_both(self.nearest[2])} would be right; no size comes nearer."
        left_out = ""
        if mine is not None and head.finished:
            left_out = " Its finished measures are left out, since at another gauge they are others."
            head.finished = {}
        self.findings.append(Finding("not-made-to-measure", MUST_MEND if self.asked.measures else LOOK, f"no number of this pattern says what it is found from, so its counts stay those of {size}."
                                     f"{nearest}{left_out} To have them found write under `numbers:` what each is to come to, such as `{{want: head - 3 cm, count: rows}}`", NOWHERE))

    def _by_finished(self, head) -> int | None:
        """The size of a pattern with typed counts that comes nearest at the maker's gauge: its finished measure in that gauge against her body
        and the ease that the size has; None where the head doesn't tell these. Reckoned across the stitches, which most pieces lie round the body by."""
        fabrics = sizing.gauges_of(head)
        given = next((self.asked.measures[name] for name in ("to fit", *TO_FIT) if name in self.asked.measures), None)
        fit = sizing.fitting_of(head, self.bodies, head.title, with_people=False) if head.sizes and given else None
        gauge = self.asked.gauge
        if fit is None or not fit.finished or gauge is None or not gauge.stitches or not fabrics or not fabrics[0].stitch_mm:
            return None
        scale = gauge.over_mm / gauge.stitches / fabrics[0].stitch_mm
        near = [(abs(made - right), index, made, right) for index, one in enumerate(fit.sizes) if one.finished_mm and one.body_mm
                for made, right in [(one.finished_mm * scale, given + one.finished_mm - sum(one.body_mm) / 2)]]
        if not near:
            return None
        _, index, made, right = min(near)
        self.nearest = (fit.finished, made, right)
        return index

    def _far_off(self) -> None:
        """Tells of measures that are far from those of every size: a digit or a unit may be wrong."""
        for name, mm in self.asked.measures.items():
            there = [pair for body in self.bodies for pair in (body.get(name), body.get(sizing.also_called(name)), body.get("to fit") if name in TO_FIT else None) if pair]
            low, high = min((pair[0] for pair in there), default=mm), max((pair[1] for pair in there), default=mm)
            if not low * _LEAST <= mm <= high * _MOST:
                self.findings.append(Finding("not-made-to-measure", LOOK, f"`{name}` {mm / 10:g} cm ({mm / 25.4:.1f} in) is far from those of the pattern's sizes, {low / 10:g} to {high / 10:g} cm "
                                             f"({low / 25.4:.1f} to {high / 25.4:.1f} in); look for a digit or a unit", NOWHERE))

    def _put_gauge(self, head, mine: Gauge) -> None:
        """The maker's gauge in the place of that of the fabric it is of (the first where it names none), the others in the same proportion."""
        fabrics = sizing.gauges_of(head)
        named = next((index for index, one in enumerate(fabrics) if mine.in_ and one.of.lower() == mine.in_.lower()), None)
        first = fabrics[named or 0] if fabrics else None
        if mine.in_ and named is None and first is not None and first.of:
            self.findings.append(Finding("not-made-to-measure", NOTE, f"the gauge given in {mine.in_} is taken for that of `{first.of}`, since the pattern has "
                                         f"{'none' if len(fabrics) == 1 else 'no gauge'} of {mine.in_}", NOWHERE))
        hooks = {one.in_: one.hook for one in head.gauge} | {one.of: one.hook for one in head.swatches}
        head.swatches = ()
        if first is not None and not mine.rows and mine.stitches and first.row_mm and first.stitch_mm:
            row_mm = first.row_mm * (mine.over_mm / mine.stitches) / first.stitch_mm
            mine = replace(mine, rows=100 / row_mm, rows_over_mm=100.0)
            self.findings.append(Finding("not-made-to-measure", LOOK, f"the gauge given tells of no rows; they are taken in the proportion of the pattern's, {mine.rows:.1f} rows to 10 cm (4 in). "
                                         "Count the rows of the swatch to be sure", NOWHERE))
        made = [replace(mine, in_=one.of or mine.in_) if one is first else _scaled(one, first, mine) for one in fabrics] or [mine]
        head.gauge = tuple(replace(one, hook=one.hook or hooks.get(one.in_)) for one in made)

    def _kept(self, head, size: str, known: set) -> None:
        """Tells what was not made to measure: measures she did not give, and numbers that are typed."""
        given = {called for name in self.asked.measures for called in (name, sizing.also_called(name))}
        lacking = sorted(name for name in known if name not in given and not (name == "to fit" and given & set(TO_FIT)))
        typed = [f"`{name}` {at(number, self.index)}" for name, number in head.numbers.items() if at(number, self.index) is not None]
        of = f" of size {size}" if size else " of the pattern"
        parts = [f"it starts from size {size}"] if size else []
        if lacking:
            parts.append(f"measures that were not given are those{of}: {', '.join(lacking)}")
        if typed:
            parts.append(f"numbers that are typed stay those{of}: {', '.join(typed[:8])}" + (f" and {len(typed) - 8} more" if len(typed) > 8 else ""))
        if parts:
            self.findings.append(Finding("not-made-to-measure", NOTE, "; ".join(parts), NOWHERE))

    def _of_yarn(self, head) -> Gauge | None:
        """The gauge to be expected with another weight of yarn: hers in the proportion of the standard gauges in single crochet."""
        weight, before = self.asked.weight, next((yarn.weight for yarn in head.yarn if yarn.weight is not None), None)
        if weight is None:
            return None
        if weight == before:
            self.findings.append(Finding("not-made-to-measure", LOOK, f"the pattern is for yarn of weight {weight} already, so the yarn changes nothing; where hers works up to another gauge, give that", NOWHERE))
            return None
        stated = next((gauge for gauge in sizing.gauges_of(head) if gauge.stitch_mm), None)
        middles = [sum(sizing.standard_gauge(one)) / 2 if one is not None else 0.0 for one in (before, weight)]
        if stated is None or not all(middles):
            self.findings.append(Finding("not-made-to-measure", MUST_MEND, f"what another yarn does can't be estimated here, since the head gives no {'gauge' if stated is None else 'weight of yarn'}; "
                                         "give the gauge of a swatch in the yarn", NOWHERE))
            return None
        scale = middles[1] / middles[0]
        stitches, rows = stated.per_10cm
        made = Gauge(stitches * scale, rows * scale if rows else None, 100.0, 100.0, stated.of)
        told = f"{made.stitches:.1f} sts" + (f" and {made.rows:.1f} rows" if made.rows else "")
        self.findings.append(Finding("not-made-to-measure", LOOK, f"with yarn of weight {weight} instead of {before} the gauge is estimated at {told} to 10 cm (4 in), from the standard "
                                     "gauges of the two weights. Work a swatch in it and give its gauge before you begin", NOWHERE))
        return made

    def _index(self, head) -> int:
        names = [one.name.lower() for one in head.sizes]
        if self.asked.size:
            if self.asked.size.lower() not in names:
                raise ValueError(f"there is no size {self.asked.size!r} to start from; the sizes are {', '.join(one.name for one in head.sizes) or 'not named'}")
            return names.index(self.asked.size.lower())
        bodies, best = sizing.bodies_of(head, []), []
        for index, body in enumerate(bodies[: len(head.sizes)]):
            off = []
            for name, mm in self.asked.measures.items():
                pair = body.get(name) or body.get(sizing.also_called(name)) or (body.get("to fit") if name in TO_FIT else None)
                if pair:
                    off.append(max(pair[0] - mm, mm - pair[1], 0.0) or abs(sum(pair) / 2 - mm) / 100)  # within the range all are near
            best.append((sum(off), index))
        return min(best)[1] if best else 0

    def restrict(self, asked):
        """What is asked by this maker alone, in place: wishes that compare sizes fall away."""
        problem, at = asked.problem, slice(self.index, self.index + 1)
        if problem.sizes:
            asked.problem = sizing.problem_of_one(problem, self.index, NAME)
            asked.spreads = [replace(one, changes=one.changes[at], rows=one.rows[at]) for one in asked.spreads]


def _both(mm: float) -> str:
    return f"{mm / 10:.1f} cm ({mm / 25.4:.1f} in)"


def _scaled(gauge, before, mine: Gauge) -> Gauge:
    """Another fabric's gauge (a FabricGauge, as before), in the proportion in which the maker's first one differs from the pattern's."""
    across = mine.stitches / mine.over_mm * before.stitch_mm if mine.stitches and before.stitch_mm else 1.0
    up = mine.rows / mine.rows_over_mm * before.row_mm if mine.rows and before.row_mm else 1.0
    return Gauge(100 * across / gauge.stitch_mm if gauge.stitch_mm else None, 100 * up / gauge.row_mm if gauge.row_mm else None, 100.0, 100.0, gauge.of)


def _nearest(sized) -> list:
    """How near the lengths came that were wanted."""
    answer = sized.answer
    if answer is None or isinstance(sized.outcome, sizing.Clash):
        return []
    out = []
    for name, offs in answer.off_mm.items():
        off = offs[0]
        if off is not None and abs(off) > 10:
            out.append(Finding("not-made-to-measure", NOTE, f"`{name}` comes to {answer.numbers[name][0]}, which is {_both(abs(off))} "
                               f"{'more' if off > 0 else 'less'} than is wanted: nothing nearer meets all that is asked of it", NOWHERE, found=answer.numbers[name][0]))
    return out

