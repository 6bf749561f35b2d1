"""Ground: spans, numbers per size, arithmetic with units, findings. Imports nothing of ours; every other room stands on it."""

from .arithmetic import NotArithmetic, Value, reckon
from .finding import GRADES, LOOK, MUST_MEND, NOTE, Finding, Suggestion
from .numbers import Number, PerSize, at, in_sizes, listing, of_size, of_sizes
from .span import NOWHERE, Lines, Span

__all__ = [
    "GRADES", "LOOK", "MUST_MEND", "NOTE", "NOWHERE", "Finding", "Lines", "NotArithmetic", "Number", "PerSize", "Span", "Suggestion", "Value", "at", "in_sizes", "listing", "of_size", "of_sizes", "reckon",
]
