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


def length_words(mm: list[float]) -> str:
    """Lengths as she would type them, to the half centimetre from 10 cm on and to the tenth below (common practice).

    >>> length_words([50.0, 50.0]), length_words([84.0, 123.0])
    ('5 cm', '8.4 (12.5) cm')
    """
    values = [f"{round(one / 5) / 2 if one >= 100 else round(one / 10, 1):g}" for one in mm]
    return (values[0] if len(set(values)) == 1 else f"{values[0]} ({', '.join(values[1:])})") + " cm"


def written(number: Number | str) -> str:
    """A number as she would type it.

    >>> written(PerSize((5, None, 7))), written(8)
    ('5 (-, 7)', '8')
    """
    if not isinstance(number, PerSize):  # a number, or a length in words
        return str(number)
    values = ["-" if value is None else str(value) for value in number]
    return values[0] if len(values) == 1 else f"{values[0]} ({', '.join(values[1:])})"


def _number(found, numbers: dict, sizes: int, span: Span, findings: list[Finding]) -> Number | str | None:
    """span: where the braces stand in the text with the numbers before them written out."""
    words = " ".join(found[1].split())
    by_name = {name.lower(): number for name, number in numbers.items()}
    if words.lower() in by_name and not isinstance(by_name[words.lower()], Value):
        return by_name[words.lower()]
    if words.lower() in by_name or any(sign in words for sign in "+-*/×÷−"):
        return _sum(words, by_name, sizes, span, findings)
    from difflib import get_close_matches

    near = get_close_matches(words.lower(), by_name, 1, 0.75)
    if near:
        findings.append(Finding("number-not-found", MUST_MEND, f"`{{{words}}}` is no number of the head; did you mean `{{{near[0]}}}`?", span,
                                suggestions=(Suggestion(f"write `{{{near[0]}}}`", "likely", f"{{{near[0]}}}", span),)))
    return None


def _sum(words: str, numbers: dict, sizes: int, span: Span, findings: list[Finding]) -> Number | str | None:
    """The sum as a number, or where it is a length as words ("5 (6) cm"); None, with a finding, where it is neither."""
    values, lengths = [], []
    for size in range(max(1, sizes)):
        here = {name: number if isinstance(number, Value) else Value(float(at(number, size))) for name, number in numbers.items() if isinstance(number, Value) or at(number, size) is not None}
        try:
            value = reckon(words, here, size, max(1, sizes))
        except NotArithmetic as problem:
            if not any(name in words.lower() for name in numbers):
                return None  # no sum with numbers of hers: a bracket after all
            findings.append(Finding("number-not-found", MUST_MEND, f"the sum `{{{words}}}` can't be reckoned: {problem}", span))
            return None
        if value.length and value.constant >= 0:
            lengths.append(value.constant)
            continue
        if value.length or value.constant < 0 or abs(value.constant - round(value.constant)) > 1e-9:
            findings.append(Finding("number-not-found", MUST_MEND, f"the sum `{{{words}}}` comes to {value.constant:g}, and a whole number is needed here", span, found=value.constant))
            return None
        values.append(round(value.constant))
    if lengths:
        return length_words(lengths)
    return values[0] if len(set(values)) == 1 else PerSize(values)
