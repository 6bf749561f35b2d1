"""Repeat marks and brackets of a row, as they stand in her text."""

import re
from dataclasses import dataclass, field

from hookwright.ground import Span

from .case import Case, Seen

_CANDIDATE = re.compile(r"[*()\[\]{}]")
_BRACKET = re.compile(r"[()\[\]{}]")
_STAR = re.compile(r"\*+")
_POINTS_AT = re.compile(
    r"(?:\b(?:from|to|at|between|and|with|until|till|rep|repeat|reps|repeats|before|after|first|last|second|next|single|double)|[*–—-])\s*$",
    re.IGNORECASE,
)
_TIMES_BEFORE = re.compile(r"[)\]}\w]\s*$")
_TIMES_AFTER = re.compile(r"\s*\d{1,3}\b(?!\s*[a-z])", re.IGNORECASE)
_BOLD_ENDS = re.compile(r"[\s:.)]*\*\*")
_LABEL_ENDS = re.compile(r"\s*(?:\d{1,4}\s*)?[.:]?\)")  # "9.) With B: ...": of the label
_OF_ROW = re.compile(r"^\s*(?:of|in|on|as)\s+(?:the\s+)?(?:row|rnd|round|previous|prev|last|\d)", re.IGNORECASE)
_CLOSES = {")": "(", "]": "[", "}": "{"}


@dataclass(slots=True)
class Marks:
    """Stars of a row: `set` where a repeat begins or stops, `named` where words point at one; per number of stars. Brackets not paired."""

    seen: Seen
    set: dict = field(default_factory=dict)  # stars -> [Span]
    named: dict = field(default_factory=dict)
    elsewhere: bool = False  # a star of another row is named
    opened: list = field(default_factory=list)
    closed: list = field(default_factory=list)


def marks_of(case: Case) -> list[Marks]:
    """The marks of every row that has any; kept on the case, since several checks ask."""
    kept = case.__dict__.get("_marks")
    if kept is None:
        kept = case.__dict__["_marks"] = [made for seen in case.seen if (made := _marks(case.text, seen)) is not None]
    return kept


def _marks(text: str, seen: Seen) -> Marks | None:
    span = seen.body
    body = text[span.start : span.end]
    if _CANDIDATE.search(body) is None:
        return None
    made = Marks(seen)
    bold = _BOLD_ENDS.match(body)
    if bold is not None and "**" in text[max(0, span.start - 120) : span.start].rpartition("\n")[2]:
        body = " " * bold.end() + body[bold.end() :]  # the end of a label in bold
    if label := _LABEL_ENDS.match(body):
        body = " " * label.end() + body[label.end() :]
    if "*" in body:
        for star in _STAR.finditer(body):
            if star.start() and _TIMES_BEFORE.search(body[max(0, star.start() - 3) : star.start()]) and _TIMES_AFTER.match(body, star.end()):
                continue  # "(2 sc, inc) * 6": times
            here = Span(span.start + star.start(), span.start + star.end())
            if star.start() and body[star.start() - 1] == "\\":
                here = Span(here.start - 1, here.end)
            before = body[max(0, star.start() - 14) : star.start()].rstrip("\\")
            points = _POINTS_AT.search(before) is not None
            if points and _OF_ROW.match(body[star.end() : star.end() + 24]):
                made.elsewhere = True
            (made.named if points else made.set).setdefault(len(star[0]), []).append(here)
    stack = []
    for found in _BRACKET.finditer(body):
        letter, index = found[0], found.start()
        if letter in "([{":
            stack.append((letter, index))
        elif letter in ")]}":
            if stack and stack[-1][0] == _CLOSES[letter]:
                stack.pop()
            elif any(open_letter == _CLOSES[letter] for open_letter, _ in stack):
                while stack[-1][0] != _CLOSES[letter]:
                    made.opened.append(Span(span.start + stack[-1][1], span.start + stack[-1][1] + 1))
                    stack.pop()
                stack.pop()
            else:
                made.closed.append(Span(span.start + index, span.start + index + 1))
    made.opened.extend(Span(span.start + index, span.start + index + 1) for _, index in stack)
    return made
