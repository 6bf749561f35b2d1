"""What the head asks of the numbers, as a Problem: sums reckoned per size, conditions read, each with words to say it by.

The head is taken as plain values (see notation.Head): sizes, gauge, swatches, body, ease, finished, numbers, wishes.
Finding kinds: number-not-found (a sum or condition that can't be used), body-not-known (a table or size that there is not).
"""

import re
from dataclasses import dataclass, field

from hookwright.ground import MUST_MEND, NOWHERE, Finding, NotArithmetic, PerSize, Span, Value, at, of_size, reckon

from .bodies import TABLES, measures, sizes_of, table_name
from .spread import Stretch, over_rows
from .swatch import FabricGauge, gauge_of
from .wishes import Bound, Follows, Grows, Multiple, Problem, Same, Wish, Within

_YES = {"yes", "true", "always"}
_LARGEST = 1e7  # mm or stitches: ten kilometres
_UNITS = {"stitches": ("sts", "stitch_mm"), "sts": ("sts", "stitch_mm"), "stitch": ("sts", "stitch_mm"), "chains": ("sts", "stitch_mm"), "rows": ("rows", "row_mm"),
          "row": ("rows", "row_mm"), "rounds": ("rnds", "row_mm"), "rnds": ("rnds", "row_mm")}


@dataclass(frozen=True, slots=True)
class Spread:
    """Shaping to be spread over rows once its numbers are known: changes[i] over rows[i] in size i, in every `step`-th row."""

    name: str
    changes: tuple[Value, ...]
    rows: tuple[Value, ...]
    step: int
    span: Span


@dataclass(slots=True)
class Asked:
    """The problem, which pieces' multiples a number must fit (name, piece, span), the measures per size, the gauges by fabric, what is to be
    spread, the fabrics that no gauge is of, which may be pieces (number, fabric, span), and the names of numbers that could not be reckoned
    or that follow from such a one: they are in no problem."""

    problem: Problem
    fits: list = field(default_factory=list)
    bodies: list = field(default_factory=list)
    gauges: list = field(default_factory=list)
    spreads: list = field(default_factory=list)
    unmeasured: list = field(default_factory=list)
    unread: frozenset = frozenset()


def asked_of(head, findings: list, reckoned=None) -> Asked:
    """The Problem of a head with wishes; what can't be used is said in findings and left out. reckoned: gauges of pieces that follow from
    the heights of their stitches (name -> FabricGauge); None before the rows are known, and then a fabric without a gauge is let pass."""
    return _Asker(head, findings, reckoned).ask()


def spread_numbers(asked: Asked, numbers: dict, findings: list) -> dict:
    """The numbers of what is spread: for `NAME` these are `NAME every`, `NAME times`, `NAME then every`, `NAME then times` and `NAME rest`, the
    rows left after it. numbers: name -> Number, as found."""
    out: dict = {}
    for spread in asked.spreads:
        columns: list[tuple] = []
        for index in range(len(asked.problem.sizes)):
            changes, rows = (_worth(values[index], numbers, index) for values in (spread.changes, spread.rows))
            try:
                stretches = over_rows(changes, rows, step=spread.step)
            except ValueError as refused:
                size = f" in {of_size(asked.problem.sizes[index])}" if len(asked.problem.sizes) > 1 else ""
                findings.append(Finding("number-not-found", MUST_MEND, f"the number `{spread.name}`{size}: {refused}", spread.span))
                stretches = []
            first, then = (*stretches, Stretch(0, 0), Stretch(0, 0))[:2]
            used = sum(stretch.every * stretch.times for stretch in stretches)
            columns.append((first.every, first.times, then.every, then.times, max(0, rows - used)))
        for word, values in zip(("every", "times", "then every", "then times", "rest"), zip(*columns)):
            out[f"{spread.name} {word}"] = values[0] if len(set(values)) == 1 else PerSize(values)
    return out


def _worth(value: Value, numbers: dict, index: int) -> int:
    return round(value.constant + sum(k * (at(numbers[name], index) or 0) for name, k in value.terms if name in numbers))


def finished_of(head, numbers: dict, findings: list, unread=()) -> dict[str, tuple[float, ...]]:
    """The finished measures that the head gives as sums over its numbers: name -> mm, one a size. numbers: name -> Number, as found; unread:
    names of those that could not be reckoned."""
    if not head.finished_sums:
        return {}
    asker = _Asker(head, [])  # what is off in the body or the wishes was said when they were asked
    asker.unread, asker.findings = set(unread), findings
    return asker.finished(numbers)


def gauges_of(head) -> list[FabricGauge]:
    """All gauges of a head, swatches first (they are measured), each by its fabric."""
    made = [gauge_of(swatch) for swatch in head.swatches]
    for gauge in head.gauge:
        made.append(FabricGauge(gauge.in_, gauge.over_mm / gauge.stitches if gauge.stitches else None, gauge.rows_over_mm / gauge.rows if gauge.rows else None))
    return made


def gauge_lengths(gauges) -> dict[str, Value]:
    """The lengths that sums can name: "stitch" and "row" of the first gauge, "stitch of ribbing" and so on of each."""
    names = {}
    for gauge in reversed(gauges):
        for word, mm in (("stitch", gauge.stitch_mm), ("row", gauge.row_mm)):
            if mm:
                names[word] = Value(mm, length=True)
                if gauge.of:
                    names[f"{word} of {gauge.of.lower()}"] = Value(mm, length=True)
    return names


def bodies_of(head, findings: list) -> list[dict[str, tuple[float, float]]]:
    """For each size its measures by name as (low_mm, high_mm): from the table named, then her own, then `to fit`."""
    names = [size.name for size in head.sizes] or ["1"]
    out: list[dict] = [{} for _ in names]
    body = head.body
    if body and (body.table or body.sizes):
        _from_tables(body, names, out, head, findings)
    for index, size in enumerate(head.sizes):
        if size.to_fit_mm:
            out[index]["to fit"] = size.to_fit_mm
    for measure, lengths in (body.measures if body else {}).items():
        for index in range(len(names)):
            found = lengths.at(index)
            if found:
                out[index][measure] = found
    return out


def _from_tables(body, names, out, head, findings) -> None:
    """Puts the measures of each size's table size into `out`."""
    name = table_name(body.table) if body.table else ""
    if name is None:
        findings.append(Finding("body-not-known", MUST_MEND, f"`{body.table}` is no table of body measures; there are {', '.join(TABLES)}", head.spans.get("body.from", body.span)))
        return
    wanted = body.sizes or tuple(names)
    where = head.spans.get("body.sizes", body.span)
    if len(wanted) != len(names):
        findings.append(Finding("body-not-known", MUST_MEND, f"`sizes` of `body` names {len(wanted)} sizes of the table for {len(names)} of the pattern; give one each", where,
                                expected=len(names), found=len(wanted)))
        return
    missing = []
    for index, words in enumerate(wanted):
        table, size = _table_and_size(words, name)
        found = measures(table, size) if table else None
        if found is None:
            missing.append(words)
        else:
            out[index].update(found)
    if missing:
        there = f"the table of {name} has {', '.join(sizes_of(name))}" if name else f"say the table too, such as `women M`; there are {', '.join(TABLES)}"
        ages = ", and ages such as `6-12 months`, `3 years`, or `women`, `men`, `adults`" if name == "heads" else ""
        none = " and ".join(f"`{one}`" for one in missing)
        findings.append(Finding("body-not-known", MUST_MEND, f"there are no body measures of {none}; {there}{ages}. Say which they are by `sizes:` under `body:`", where))


def _table_and_size(words: str, name: str) -> tuple[str, str]:
    """ "women M" as ("women", "M"); words without a table are a size of the table `name`."""
    first, _, rest = words.strip().partition(" ")
    table = table_name(first) if rest else None
    if table and (not name or measures(name, words) is None):
        return table, rest
    return name, words


class _Asker:
    def __init__(self, head, findings: list, reckoned=None):
        self.head, self.findings, self.reckoned = head, findings, reckoned
        self.unread: set[str] = set()
        self.sizes = tuple(size.name for size in head.sizes) or ("1",)
        self.gauges = gauges_of(head)
        self.bodies = bodies_of(head, findings)
        self.names = [self._names(index) for index in range(len(self.sizes))]
        self._begin()

    def _begin(self) -> None:
        self.fits: list = []
        self.unmeasured: list = []
        self.spreads: list = []

    def _names(self, index: int) -> dict[str, Value]:
        head = self.head
        names = {name: Value((low + high) / 2, length=True) for name, (low, high) in self.bodies[index].items()}
        for name, lengths in head.finished.items():
            found = lengths.at(index)
            if found:
                names.setdefault(name.lower(), Value(sum(found) / 2, length=True))
        ease = head.ease.at(index) if head.ease else None
        shares = head.ease_share
        if ease:
            names["ease"] = Value(sum(ease) / 2, length=True)
        elif shares:
            names["ease"] = Value(shares[0] if len(shares) == 1 else shares[index] if index < len(shares) else 0.0, percent=True)
        for name, number in head.numbers.items():
            value = at(number, index)
            if value is not None:
                names[name.lower()] = Value(float(value))
        for name, asked in head.wishes.items():
            if "spread" in asked.keys or "over" in asked.keys:
                continue
            names[name.lower()] = Value(0.0, ((name, 1.0),))
        names.update(gauge_lengths(self.gauges))
        return names

    def finished(self, numbers: dict) -> dict[str, tuple[float, ...]]:
        """The finished measures that follow from numbers, in mm, one a size; numbers: those found, one a size."""
        out = {}
        for name, words in self.head.finished_sums.items():
            values = self._sum(name, words, self.head.spans.get(f"finished.{name}"), length=True)
            if values and all(number in numbers for value in values for number, _ in value.terms):
                out[name] = tuple(value.constant + sum(k * at(numbers[number], index) for number, k in value.terms) for index, value in enumerate(values))
        return out

    def ask(self) -> Asked:
        self.unread = {name for name, number in self.head.numbers.items() if isinstance(number, PerSize) and len(number) != len(self.sizes)}
        said, known = len(self.findings), -1
        while known != len(self.unread):  # what follows from a number that can't be reckoned is not blamed as well
            known = len(self.unread)
            del self.findings[said:]
            self._begin()
            problem = self._problem()
        problem.wishes = [wish for wish in problem.wishes if wish.name not in self.unread]
        problem.conditions = [condition for condition in problem.conditions if condition.number not in self.unread]
        return Asked(problem, self.fits, self.bodies, self.gauges, self.spreads, self.unmeasured, frozenset(self.unread))

    def _problem(self) -> Problem:
        problem = Problem(self.sizes)
        for name, asked in self.head.wishes.items():
            if "spread" in asked.keys or "over" in asked.keys:
                self._spread(name, asked)
                continue
            wish = Wish(name, (None,) * len(self.sizes), (1.0,) * len(self.sizes), said=asked.keys.get("as", ""))
            problem.wishes.append(wish)
            if asked.follows:
                values = self._sum(name, asked.follows, asked.span, length=False)
                if values:
                    problem.conditions.append(Follows(name, values, f"`{name}` is {asked.follows}", asked.span))
                else:
                    self.unread.add(name)
                continue
            self._want(wish, asked)
            if "want" in asked.keys and wish.want[0] is None:
                self.unread.add(name)
            problem.conditions += [condition for condition in self._conditions(wish, asked) if condition is not None]
        return problem

    # ------------------------------------------------------------ sums

    def _sum(self, name: str, words: str, span: Span, *, length: bool | None) -> tuple[Value, ...] | None:
        """The words reckoned in every size; None (with a finding) where that can't be. length: what is needed, None for either."""
        if self.unread and any(re.search(rf"(?<!\w){re.escape(other)}(?!\w)", words, re.I) for other in self.unread if other != name):
            return None  # that one was said
        values = []
        for index, names in enumerate(self.names):
            try:
                value = reckon(words, names)
            except NotArithmetic as problem:
                where = Span(span.start + problem.start, span.start + problem.end) if problem.end > problem.start else span
                in_size = f" in {of_size(self.sizes[index])}" if index and len(self.sizes) > 1 else ""
                self._say(name, f"the sum `{words}`{in_size} can't be reckoned: {problem}", where)
                return None
            if max(abs(value.constant), *(abs(k) for _, k in value.terms), 0.0) > _LARGEST:
                self._say(name, f"the sum `{words[:60]}` comes to more than any piece can have; look for a digit or a unit too many", span)
                return None
            if length is not None and value.length != length and not (value.known and value.constant == 0):
                self._say(name, f"`{words}` is {'a count, and a length is needed here: give it a unit, or a measure of the body' if length else 'a length, and a count is needed here'}", span)
                return None
            values.append(value)
        return tuple(values)

    def _say(self, name: str, message: str, span: Span | None, grade: str = MUST_MEND) -> None:
        kind = "the measure" if name in self.head.finished_sums else "the number"
        self.findings.append(Finding("number-not-found", grade, f"{kind} `{name}`: {message}", span or NOWHERE))

    def _want(self, wish: Wish, asked) -> None:
        words = asked.keys.get("want")
        if not words:
            return
        span = asked.spans["want"]
        counts = asked.keys.get("count", "stitches").lower()
        if counts not in _UNITS:
            self._say(wish.name, f"`count: {asked.keys['count']}` should be stitches, rows or rounds", asked.spans["count"])
            return
        wish.counts, part = _UNITS[counts]
        gauge = self._gauge(wish.name, asked, part)
        if gauge is None:
            return
        wish.fabric = gauge.of
        wish.unit_mm = (getattr(gauge, part),) * len(self.sizes)
        values = self._sum(wish.name, words, span, length=None)
        if values is None:
            return
        if not all(value.length for value in values):  # so many stitches wanted: as long as they are
            values = tuple(value if value.length else Value(value.constant * unit, tuple((n, k * unit) for n, k in value.terms), True)
                           for value, unit in zip(values, wish.unit_mm))
        wish.want = values

    def _spread(self, name: str, asked) -> None:
        """`{spread: incs, over: rows, step: 2}`: shaping spread evenly once both are known."""
        if "want" in asked.keys or "is" in asked.keys:
            self.unread.add(name)
            self._say(name, "`spread` and `over` tell how shaping is spread, and `want` or `is` what a number comes to: one name can't have both. Give the shaping a name of its own", asked.span)
            return
        if "spread" not in asked.keys or "over" not in asked.keys:
            self.unread.add(name)
            self._say(name, "`spread` says how many increases or decreases there are, and `over` how many rows; both are needed", asked.span)
            return
        changes, rows = (self._sum(name, asked.keys[key], asked.spans[key], length=False) for key in ("spread", "over"))
        step = asked.keys.get("step", "1")
        if not step.isdigit() or not 1 <= int(step) <= 100:
            self._say(name, f"`step: {step}` should be a whole number: 2 shapes every other row at most", asked.spans["step"])
            return
        if changes is None or rows is None:
            self.unread.add(name)
        else:
            self.spreads.append(Spread(name, changes, rows, int(step), asked.span))

    def _gauge(self, name: str, asked, part: str) -> FabricGauge | None:
        wanted = asked.keys.get("in", "").lower()
        have = [gauge for gauge in self.gauges if getattr(gauge, part)]
        found = [gauge for gauge in have if not wanted or wanted in (gauge.of.lower(), gauge.of.lower().removesuffix(" pattern"))]
        found = found or [gauge for gauge in have if wanted and (wanted in gauge.of.lower())]
        if found:
            return found[0]
        what = "stitches" if part == "stitch_mm" else "rows"
        if wanted and self.reckoned is None and self.gauges:
            self.unmeasured.append((name, asked.keys["in"], asked.spans.get("in")))  # it may be a piece: its rows will tell
            return have[0] if have else next((FabricGauge(one.of, one.stitch_mm, one.stitch_mm) for one in self.gauges if one.stitch_mm), None)
        if wanted and self.reckoned and wanted in self.reckoned and getattr(self.reckoned[wanted], part):
            return self.reckoned[wanted]
        if wanted and have:
            self._say(name, f"no gauge or swatch of `{asked.keys['in']}` gives its {what}; there is {', '.join(f'`{gauge.of}`' if gauge.of else 'one that names no fabric' for gauge in have)}", asked.spans.get("in"))
        else:
            self._say(name, f"no gauge or swatch in the head gives {what} to a length; measure a swatch and put it under `swatches:`", asked.spans.get("want"))
        return None

    # ------------------------------------------------------------ conditions

    def _conditions(self, wish: Wish, asked):
        name = wish.name
        for key, words in asked.keys.items():
            span = asked.spans[key]
            if key in ("want", "count", "in", "plus", "as"):
                continue
            if key == "is":
                values = self._sum(name, words, span, length=False)
                if values:
                    yield Follows(name, values, f"`{name}` is {words}", span)
                else:
                    self.unread.add(name)
                continue
            if key == "fits":
                self.fits.append((name, words, span))
            elif key in ("even", "odd"):
                if words.lower() in _YES:
                    yield Multiple(name, 2, key == "odd", f"`{name}` is {key}", span)
            elif key == "multiple":
                yield self._multiple(name, words, asked, span)
            elif key in ("at least", "at most"):
                yield self._bound(wish, key, words, span)
            elif key == "same in":
                yield self._same(name, words, span)
            elif key == "grows":
                found = re.search(r"\d+", words)
                by = int(found[0]) if found else 0
                if words.lower() not in ("no", "false"):
                    yield Grows(name, by, f"`{name}` grows by {by} at least from size to size" if by else f"`{name}` never gets smaller", span)
            elif key == "within":
                lengths = self._sum(name, words, span, length=True)
                if lengths:
                    yield Within(name, tuple(abs(value.constant) for value in lengths), f"`{name}` lies within {words} of what is wanted", span)

    def _multiple(self, name, words, asked, span):
        found = re.fullmatch(r"(?:of\s+)?(\d{1,4})\s*(?:(?:\+|plus)\s*(\d{1,4}))?", words.strip(), re.I)
        if not found or not int(found[1]):
            self._say(name, f"`multiple: {words}` should be a whole number, or two such as `6 plus 4`", span)
            return None
        plus = int(found[2] or 0)
        more = asked.keys.get("plus", "")
        if more.isdigit():
            plus = int(more)
        return Multiple(name, int(found[1]), plus, f"`{name}` is a multiple of {found[1]}" + (f", plus {plus}" if plus else ""), span)

    def _bound(self, wish, key, words, span):
        values = self._sum(wish.name, words, span, length=None)
        if values is None:
            return None
        counted = tuple(value.times(1 / unit) if value.length else value for value, unit in zip(values, wish.unit_mm))
        return Bound(wish.name, 1 if key == "at least" else -1, counted, f"`{wish.name}` is {key} {words}", span)

    def _same(self, name, words, span):
        if words.lower() in ("all", "all sizes", "every size"):
            return Same(name, tuple(range(len(self.sizes))), f"`{name}` is the same in all sizes", span)
        wanted = [part.strip().lower() for part in re.split(r"\s*(?:,|;|\band\b)\s*", words) if part.strip()]
        known = [size.lower() for size in self.sizes]
        unknown = [part for part in wanted if part not in known]
        if unknown:
            self._say(name, f"`same in` names {', '.join(f'`{part}`' for part in unknown)}, which is no size here; the sizes are {', '.join(self.sizes)}", span)
            return None
        return Same(name, tuple(known.index(part) for part in wanted), f"`{name}` is the same in {words}", span)


def as_numbers(answer) -> dict:
    """The answer as head numbers: an int where all sizes have the same, else one a size."""
    return {name: values[0] if len(set(values)) == 1 else PerSize(values) for name, values in answer.numbers.items()}


def clash_finding(clash, problem: Problem) -> Finding:
    """Which wishes can't hold together, and the nearest ways out with what each then comes to."""
    together = "; ".join(condition.words for condition in clash.conditions)
    ways = []
    for given_up, answer in clash.ways:
        name, index, off = answer.farthest_off()
        size = f" in {of_size(problem.sizes[index])}" if len(problem.sizes) > 1 else ""
        then = f"then no length is off by more than {abs(off) / 10:.1f} cm ({abs(off) / 25.4:.2f} in): `{name}`{size}" if name else "then all else holds"
        if len(problem.sizes) == 1:
            then += f" ({', '.join(f'`{name}` {values[0]}' for name, values in answer.numbers.items())})"
        ways.append(f"leave out that {' and that '.join(condition.words for condition in given_up)}, {then}")
    out = " Ways out, nearest first: " + "; or ".join(ways) + "." if ways else (
        " No one of all conditions, and no two of them, can be left out so that the rest holds: the measures or the gauge lie too far from this pattern. Change those, or several of the conditions.")
    return Finding("wishes-clash", MUST_MEND, f"no numbers meet all that is asked: {together}.{out}", clash.conditions[0].span if clash.conditions else NOWHERE)



