"""The sums of a head, reckoned in every size over body measures, finished measures, ease, gauges and numbers.

The head is taken as plain values (see notation.Head). Finding kind: number-not-found (a sum that can't be used).
"""

import re

from hookwright.ground import MUST_MEND, NOWHERE, Finding, NotArithmetic, Span, Value, at, of_size, reckon

from .bodies import is_measure
from .gauges import gauge_lengths

_LARGEST = 1e7  # mm or stitches: ten kilometres


class Sums:
    """Reckons sums and says what is off in them. unread: names of numbers that can't be reckoned, so that what follows from them is not
    blamed as well. what: "number" or "measure", whichever the sums are for."""

    def __init__(self, head, bodies: list[dict], gauges: list, findings: list, what: str = "number"):
        self.head, self.findings, self.what = head, findings, what
        self.sizes = tuple(size.name for size in head.sizes) or ("1",)
        self.unread: set[str] = set()
        self.causes: set[str] = set()  # what could not be used and was said to be the cause already
        self.bodies = bodies
        self.names = [_names(head, bodies[index], index) for index in range(len(self.sizes))]
        for names in self.names:
            names.update(gauge_lengths(gauges))

    def reckoned(self, name: str, words: str, span: Span | None, *, length: bool | None) -> tuple[Value, ...] | None:
        """The words in every size; None (with a finding, or where the cause was said) where that can't be. name: the number or measure they
        are for; in its own sum it stands for the measure of the body of that name. length: what is needed, None for either."""
        if self.unread and any(_names_it(words, other) for other in self.unread if other != name):
            return None  # that one was said
        span, values = span or NOWHERE, []
        for index, names in enumerate(self.names):
            try:
                value = reckon(words, self._but(name, names, index), index, len(self.sizes))
            except NotArithmetic as problem:
                self._refused(name, words, span, index, problem)
                return None
            if max(abs(value.constant), *(abs(k) for _, k in value.terms), 0.0) > _LARGEST:
                self.say(name, f"the sum `{words[:60]}` comes to more than any piece can have; look for a digit or a unit too many", span)
                return None
            if length is not None and value.length != length and not (value.known and value.constant == 0):
                self.say(name, _other_kind(words, length), span)
                return None
            values.append(value)
        return tuple(values)

    def say(self, name: str, message: str, span: Span | None, grade: str = MUST_MEND) -> None:
        self.findings.append(Finding("number-not-found", grade, f"the {self.what} `{name}`: {message}", span or NOWHERE))

    def _but(self, name: str, names: dict, index: int) -> dict:
        """The names that a sum for `name` can use: a number can't be found from itself, but from the measure that goes by the same name."""
        if self.what == "measure":  # a finished measure may have the name of the number that it is made of
            return names
        key = name.lower()
        measure = self.bodies[index].get(key)
        without = {other: value for other, value in names.items() if other != key}
        return {**without, key: _middle(measure)} if measure else without

    def _refused(self, name: str, words: str, span: Span, index: int, problem: NotArithmetic) -> None:
        where = Span(span.start + problem.start, span.start + problem.end) if problem.end > problem.start and span is not NOWHERE else span
        in_size = f" in {of_size(self.sizes[index])}" if index and len(self.sizes) > 1 else ""
        if problem.unknown and problem.unknown == name.lower() and self.what == "number":
            self.say(name, f"`{words}` would find it from itself; say what it comes to by a length or by other numbers", where)
            return
        cause, because = self._cause(problem.unknown, index)
        if cause in self.causes:
            return
        if cause:
            self.causes.add(cause)
        self.say(name, f"the sum `{words}`{in_size} can't be reckoned{', since ' + because if cause else f': {problem}'}", where)

    def _cause(self, unknown: str, index: int) -> tuple[str, str]:
        """(what in the head could not be used, in words why this name is not known); ("", "") where it is no name of the head's."""
        head = self.head
        if not unknown:
            return "", ""
        if unknown == "ease" and "ease" in head.spans:
            return "ease", f"`ease: {head.ease_text}` tells no length and no per cent" + (f" for {of_size(self.sizes[index])}" if head.ease or head.ease_share else "")
        if head.body is not None and unknown in head.body.measures:
            return f"body.{unknown}", f"`{unknown}` under `body` has no value for {of_size(self.sizes[index])}"
        if any(unknown in body for body in self.bodies):
            return f"body {unknown} {index}", f"the body gives no `{unknown}` for {of_size(self.sizes[index])}; give it yourself under `body`"
        if f"body.{unknown}" in head.spans:
            return f"body.{unknown}", f"`{unknown}` under `body` could not be used as it is written"
        if "body" in head.spans and is_measure(unknown) and not self.bodies[index]:
            return "body", "no measures were found for `body` as it is written" + (f" in {of_size(self.sizes[index])}" if any(self.bodies) else "")
        number = next((path.removeprefix("numbers.") for path in head.spans if path.lower() == f"numbers.{unknown}"), "")
        if number and number not in head.numbers and number not in head.wishes:
            return f"numbers.{number}", f"the number `{number}` could not be used as it is written"
        return "", ""


def _names(head, body: dict, index: int) -> dict[str, Value]:
    """What sums can name in the size of this index."""
    names = {name: _middle(pair) for name, pair in body.items()}
    names.update({name.replace("center", "centre"): value for name, value in names.items() if "center" in name})
    for name, lengths in head.finished.items():
        found = lengths.at(index)
        if found:
            names.setdefault(name.lower(), _middle(found))
    ease = head.ease.at(index) if head.ease else None
    shares = head.ease_share
    if ease:
        names["ease"] = _middle(ease)
    elif len(shares) == 1 or index < len(shares):
        names["ease"] = Value(shares[0] if len(shares) == 1 else shares[index], percent=True)
    for name, number in head.numbers.items():
        value = at(number, index)
        if value is not None:
            names[name.lower()] = Value(float(value))
    for name, asked in head.wishes.items():
        if not is_spread(asked):
            names[name.lower()] = Value(0.0, ((name, 1.0),))
    return names


def is_spread(asked) -> bool:
    """Whether a wish tells how shaping is spread, and not what a number comes to."""
    return "spread" in asked.keys or "over" in asked.keys


def _middle(pair) -> Value:
    return Value((pair[0] + pair[1]) / 2, length=True)


def _names_it(words: str, name: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(name)}(?!\w)", words, re.I) is not None


def _other_kind(words: str, length: bool) -> str:
    if length:
        return f"`{words}` is a count, and a length is needed here: multiply it by `stitch` or `row`, or give it a unit"
    return f"`{words}` is a length, and a count is needed here: to have the count found that comes to this length write `{{want: {words}, count: stitches}}`, or `count: rows`"
