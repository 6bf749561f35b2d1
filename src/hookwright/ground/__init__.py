"""Ground: spans, numbers per size, findings, units. Imports nothing of ours; every other room stands on it."""

from .finding import GRADES, LOOK, MUST_MEND, NOTE, Finding, Suggestion
from .numbers import Number, PerSize, at
from .span import NOWHERE, Lines, Span

__all__ = [
    "GRADES", "LOOK", "MUST_MEND", "NOTE", "NOWHERE", "Finding", "Lines", "Number", "PerSize", "Span", "Suggestion", "at",
]
