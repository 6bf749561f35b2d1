"""A finding: one thing to say to the designer, as a value that is shown later."""

from dataclasses import dataclass, field, replace
from typing import Any

from .span import NOWHERE, Span

MUST_MEND = "must mend"
LOOK = "look at this"
NOTE = "for your information"
GRADES = (MUST_MEND, LOOK, NOTE)


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A way out: `text` replaces the words at `span` (or says what to do where span is None)."""

    says: str
    sure: str = "likely"  # certain / likely / your choice
    text: str | None = None
    span: Span | None = None
    effect: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found. `message` stands alone and names row and size where there are any.

    working: the sum as rows of cells, first row the headings, so that it can be redone on paper.
    labels: (span, words) pairs that point at further places. echoes: rows off for the same reason.
    """

    kind: str
    grade: str
    message: str
    span: Span = NOWHERE
    row: str | None = None
    sizes: tuple[str, ...] = ()
    expected: Any = None
    found: Any = None
    whose: str = ""
    working: tuple[tuple[str, ...], ...] = ()
    labels: tuple[tuple[Span, str], ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    sources: tuple[str, ...] = ()
    echoes: tuple[str, ...] = field(default=())

    def but(self, **changes) -> "Finding":
        """A copy with some parts changed."""
        return replace(self, **changes)
