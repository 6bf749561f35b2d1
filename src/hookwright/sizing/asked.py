"""What the head asks of the numbers, as a Problem: sums reckoned per size, conditions read, each with words to say it by.

The head is taken as plain values (see notation.Head): sizes, gauge, swatches, body, ease, finished, numbers, wishes.
Finding kinds: number-not-found (a sum or condition that can't be used), body-not-known (a table or size that there is not).
"""

import re
from dataclasses import dataclass, field

from hookwright.ground import PerSize, Span, Value, at, of_size

from .body_measures import bodies_of
from .conditions import conditions_of, is_yes
from .gauges import gauge_in, gauges_of
from .spread import per_size, spread_in
from .sums import Sums, is_spread
from .swatch import FabricGauge
from .wishes import MOST, Bound, Follows, Problem, Wish

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
    rows left after it. numbers: name -> Number, as found. What can't be spread is said, and is unread from then on."""
    out: dict = {}
    for spread in asked.spreads:
        counts = [tuple(_worth(values[index], numbers, index) for values in (spread.changes, spread.rows)) for index in range(len(asked.problem.sizes))]
        columns = spread_in(spread.name, counts, asked.problem.sizes, spread.step, spread.span, findings)
        out.update({f"{spread.name} {word}": per_size(values) for word, values in columns.items()})
        if not columns:
            asked.unread |= {spread.name}
    return out


def _worth(value: Value, numbers: dict, index: int) -> float:
    return value.constant + sum(k * (at(numbers[name], index) or 0) for name, k in value.terms if name in numbers)


def finished_of(head, numbers: dict, findings: list, unread=()) -> dict[str, tuple[float, ...]]:
    """The finished measures that the head gives as sums over its numbers: name -> mm, one a size. numbers: name -> Number, as found; unread:
    names of those that could not be reckoned."""
    if not head.finished_sums:
        return {}
    sums = Sums(head, bodies_of(head, []), gauges_of(head), findings, "measure")  # what is off in the body or the wishes was said when they were asked
    sums.unread = set(unread) | refused_numbers(head)
    out = {}
    for name, words in head.finished_sums.items():
        values = sums.reckoned(name, words, head.spans.get(f"finished.{name}"), length=True)
        if values and all(number in numbers for value in values for number, _ in value.terms):
            out[name] = tuple(_worth(value, numbers, index) for index, value in enumerate(values))
    return out


def refused_numbers(head) -> frozenset[str]:
    """Names under `numbers` whose values could not be used: that was said where the head was read."""
    named = {path.removeprefix("numbers.") for path in head.spans if path.startswith("numbers.")}
    return frozenset(name for name in named if name not in head.numbers and name not in head.wishes and "." not in name)


class _Asker:
    def __init__(self, head, findings: list, reckoned=None):
        self.head, self.findings, self.reckoned = head, findings, reckoned
        self.gauges = gauges_of(head)
        self.sums = Sums(head, bodies_of(head, findings), self.gauges, findings)
        self.sizes = self.sums.sizes
        self._begin()

    def _begin(self) -> None:
        self.fits: list = []
        self.unmeasured: list = []
        self.spreads: list = []
        self.sums.causes = set()

    def ask(self) -> Asked:
        unread = self.sums.unread
        unread |= {name for name, number in self.head.numbers.items() if isinstance(number, PerSize) and len(number) != len(self.sizes)} | refused_numbers(self.head)
        said, known = len(self.findings), -1
        while known != len(unread):  # what follows from a number that can't be reckoned is not blamed as well
            known = len(unread)
            del self.findings[said:]
            self._begin()
            problem = self._problem()
        problem.wishes = [wish for wish in problem.wishes if wish.name not in unread]
        problem.conditions = [condition for condition in problem.conditions if condition.number not in unread]
        return Asked(problem, self.fits, self.sums.bodies, self.gauges, self.spreads, self.unmeasured, frozenset(unread))

    def _problem(self) -> Problem:
        problem = Problem(self.sizes)
        for name, asked in self.head.wishes.items():
            if is_spread(asked):
                self._spread(name, asked)
                continue
            called = asked.keys.get("as", "")
            wish = Wish(name, (None,) * len(self.sizes), (1.0,) * len(self.sizes), said=name if is_yes(called) else called)
            problem.wishes.append(wish)
            if asked.follows:
                values = self.sums.reckoned(name, asked.follows, asked.span, length=False)
                if values:
                    problem.conditions.append(Follows(name, values, f"`{name}` is {asked.follows}", asked.span))
                else:
                    self.sums.unread.add(name)
                continue
            self._want(wish, asked)
            if "want" in asked.keys and wish.want[0] is None:
                self.sums.unread.add(name)
            if "fits" in asked.keys:
                self.fits.append((name, asked.keys["fits"], asked.spans["fits"]))
            problem.conditions += conditions_of(wish, asked, self.sums)
        self._say_idle(problem)
        return problem

    def _say_idle(self, problem: Problem) -> None:
        """Says of numbers that nothing tells what they come to: no length, no sum, no least count, and no other number that follows from them."""
        for wish in problem.wishes:
            asked = self.head.wishes[wish.name]
            if asked.follows or {"want", "is"} & set(asked.keys):
                continue
            told = [condition for condition in problem.conditions if condition.number == wish.name and isinstance(condition, Bound) and condition.side > 0]
            named = [other for other in self._sums_of_others(wish.name) if re.search(rf"(?<!\w){re.escape(wish.name)}(?!\w)", other, re.I)]
            if not told and not named:
                self.sums.unread.add(wish.name)
                self.sums.say(wish.name, "nothing tells what it comes to; add the length it is for, such as `want: head - 3 cm`, or the sum it equals after `is`", asked.span)

    def _sums_of_others(self, name: str):
        for other, asked in self.head.wishes.items():
            if other != name:
                yield from (asked.follows, *asked.keys.values())

    # ------------------------------------------------------------ what is wanted

    def _want(self, wish: Wish, asked) -> None:
        words = asked.keys.get("want")
        if not words:
            return
        span = asked.spans["want"]
        counts = asked.keys.get("count", "stitches").lower()
        if counts not in _UNITS:
            self.sums.say(wish.name, f"`count: {asked.keys['count']}` should be stitches, rows or rounds", asked.spans["count"])
            return
        wish.counts, part = _UNITS[counts]
        gauge = self._gauge(wish.name, asked, part)
        if gauge is None:
            return
        wish.fabric = gauge.of
        wish.unit_mm = (getattr(gauge, part),) * len(self.sizes)
        values = self.sums.reckoned(wish.name, words, span, length=None)
        if values is None or not self._possible(wish, words, values, span):
            return
        wish.want = tuple(value if value.length else Value(value.constant * unit, tuple((n, k * unit) for n, k in value.terms), True)  # so many wanted: as long as they are
                          for value, unit in zip(values, wish.unit_mm))

    def _possible(self, wish: Wish, words: str, values, span: Span) -> bool:
        """Whether a piece can have what is wanted; what can't be is said."""
        for size, value, unit in zip(self.sizes, values, wish.unit_mm):
            in_size = f" in {of_size(size)}" if len(self.sizes) > 1 else ""
            if value.percent:
                self.sums.say(wish.name, f"`{words}` is a share, and does not say of what; write it as `bust + 10 %`", span)
                return False
            if not value.known:
                continue
            if value.constant < 0:
                comes = f"{value.constant / 10:.1f} cm" if value.length else f"{value.constant:g}"
                self.sums.say(wish.name, f"`{words}` comes to {comes}{in_size}, and nothing can be less than nothing", span)
                return False
            if value.constant / (unit if value.length else 1) > MOST:
                self.sums.say(wish.name, f"`{words}` comes to more than {MOST:,} {'stitches' if wish.counts == 'sts' else 'rows'}{in_size}; look for a digit or a unit too many", span)
                return False
        return True

    def _spread(self, name: str, asked) -> None:
        """`{spread: incs, over: rows, step: 2}`: shaping spread evenly once both are known."""
        if "want" in asked.keys or "is" in asked.keys:
            self.sums.unread.add(name)
            self.sums.say(name, "`spread` and `over` tell how shaping is spread, and `want` or `is` what a number comes to: one name can't have both. Give the shaping a name of its own", asked.span)
            return
        if "spread" not in asked.keys or "over" not in asked.keys:
            self.sums.unread.add(name)
            self.sums.say(name, "`spread` says how many increases or decreases there are, and `over` how many rows; both are needed", asked.span)
            return
        changes, rows = (self.sums.reckoned(name, asked.keys[key], asked.spans[key], length=False) for key in ("spread", "over"))
        step = asked.keys.get("step", "1")
        if not step.isdigit() or not 1 <= int(step) <= 100:
            self.sums.say(name, f"`step: {step}` should be a whole number: 2 shapes every other row at most", asked.spans["step"])
            return
        if changes is None or rows is None:
            self.sums.unread.add(name)
        else:
            self.spreads.append(Spread(name, changes, rows, int(step), asked.span))

    def _gauge(self, name: str, asked, part: str) -> FabricGauge | None:
        wanted = asked.keys.get("in", "")
        have = [gauge for gauge in self.gauges if getattr(gauge, part)]
        found = gauge_in(have, wanted)
        if found is not None:
            return found
        what = "stitches" if part == "stitch_mm" else "rows"
        if wanted and self.reckoned is None and self.gauges:
            self.unmeasured.append((name, wanted, asked.spans.get("in")))  # it may be a piece: its rows will tell
            return have[0] if have else next((FabricGauge(one.of, one.stitch_mm, one.stitch_mm) for one in self.gauges if one.stitch_mm), None)
        if wanted and self.reckoned and (made := self.reckoned.get(wanted.lower())) and getattr(made, part):
            return made
        if wanted and have:
            named = ", ".join(f"`{gauge.of}`" if gauge.of else "one that names no fabric" for gauge in have)
            self.sums.say(name, f"no gauge or swatch of `{wanted}` gives its {what}; there is {named}", asked.spans.get("in"))
        elif self.gauges or "no gauge" not in self.sums.causes:  # said once where there is none at all
            self.sums.causes.add("no gauge")
            self.sums.say(name, f"no gauge or swatch in the head gives {what} to a length; measure a swatch and put it under `swatches:`", asked.spans.get("want"))
        return None
