"""Numbers of the head where the body names them: `{rib}`, or a plain sum such as `{rib + 1}`, put in before anything is read.

Afterwards every number stands as if she had typed it, one a size where they differ: `5 (6, 7)`. Places in the text with the numbers
in it are brought back to her text by Shifts.
"""

from bisect import bisect_right
from dataclasses import dataclass, field

from hookwright.ground import MUST_MEND, Finding, NotArithmetic, Number, PerSize, Span, Suggestion, Value, at, reckon

from .patterns import Lazy

_NAMED = Lazy(r"\{([A-Za-z0-9(](?:[^{}\n]|\n(?!\s*\n)){0,60})\}")


@dataclass(slots=True)
class Shifts:
    """Where the text with numbers differs from hers: starts[i] is the offset of a change in the new text, `hers` and `lengths` the span in
    hers and the length of what stands there now."""

    starts: list[int] = field(default_factory=list)
    hers: list[tuple[int, int]] = field(default_factory=list)
    lengths: list[int] = field(default_factory=list)

    def __bool__(self) -> bool:
        return bool(self.starts)

    def back(self, span: Span) -> Span:
        """The place in her text; a place inside a number is the whole of its braces."""
        return Span(self._back(span.start, False), self._back(span.end, True)) if self.starts and span.start >= 0 else span

    def _back(self, offset: int, is_end: bool) -> int:
        index = bisect_right(self.starts, offset) - 1
        if index < 0:
            return offset
        start, (begin, end), length = self.starts[index], self.hers[index], self.lengths[index]
        if offset < start + length:
            if is_end and offset == start:
                return begin
            return end if is_end else begin
        return offset - start - length + end


def with_numbers(text: str, start: int, numbers: dict, sizes: int, findings: list[Finding]) -> tuple[str, Shifts]:
    """`text` with every named number from offset `start` on written out, and the Shifts back to it.

    Findings: number-not-found for a sum that can't be reckoned or isn't whole in every size, and for a name that is nearly one of hers.
    """
    shifts = Shifts()
    if not numbers or "{" not in text[start:]:
        return text, shifts
    parts, last, length = [], 0, 0
    for found in _NAMED.finditer(text, start):
        now = length + found.start() - last
        number = _number(found, numbers, sizes, Span(now, now + len(found[0])), findings)
        if number is None:
            continue
        words = written(number)
        parts += [text[last : found.start()], words]
        length += found.start() - last
        shifts.starts.append(length)
        shifts.hers.append(found.span())
        shifts.lengths.append(len(words))
        length += len(words)
        last = found.end()
    return "".join(parts) + text[last:], shifts


def written(number: Number) -> str:
    """A number as she would type it.

    >>> written(PerSize((5, None, 7))), written(8)
    ('5 (-, 7)', '8')
    """
    if not isinstance(number, PerSize):
        return str(number)
    values = ["-" if value is None else str(value) for value in number]
    return values[0] if len(values) == 1 else f"{values[0]} ({', '.join(values[1:])})"


def _number(found, numbers: dict, sizes: int, span: Span, findings: list[Finding]) -> Number | None:
    """span: where the braces stand in the text with the numbers before them written out."""
    words = " ".join(found[1].split())
    by_name = {name.lower(): number for name, number in numbers.items()}
    if words.lower() in by_name:
        return by_name[words.lower()]
    if any(sign in words for sign in "+-*/×÷−"):
        return _sum(words, by_name, sizes, span, findings)
    from difflib import get_close_matches

    near = get_close_matches(words.lower(), by_name, 1, 0.75)
    if near:
        findings.append(Finding("number-not-found", MUST_MEND, f"`{{{words}}}` is no number of the head; did you mean `{{{near[0]}}}`?", span,
                                suggestions=(Suggestion(f"write `{{{near[0]}}}`", "likely", f"{{{near[0]}}}", span),)))
    return None


def _sum(words: str, numbers: dict, sizes: int, span: Span, findings: list[Finding]) -> Number | None:
    values = []
    for size in range(max(1, sizes)):
        here = {name: Value(float(at(number, size))) for name, number in numbers.items() if at(number, size) is not None}
        try:
            value = reckon(words, here)
        except NotArithmetic as problem:
            if not any(name in words.lower() for name in numbers):
                return None  # no sum with numbers of hers: a bracket after all
            findings.append(Finding("number-not-found", MUST_MEND, f"the sum `{{{words}}}` can't be reckoned: {problem}", span))
            return None
        if value.length or value.constant < 0 or abs(value.constant - round(value.constant)) > 1e-9:
            findings.append(Finding("number-not-found", MUST_MEND, f"the sum `{{{words}}}` comes to {value.constant:g}, and a whole number is needed here", span, found=value.constant))
            return None
        values.append(round(value.constant))
    return values[0] if len(set(values)) == 1 else PerSize(values)
