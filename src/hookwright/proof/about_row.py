"""A finding about a row that does not come out, with what all of these have: its place, name, sizes, and the rows off for the same reason."""

from hookwright.ground import Finding, Span

from .case import Case
from .sums import with_echoes
from .troubles import Off


def about_row(case: Case, off: Off, kind: str, grade: str, message: str, *, span: Span | None = None, **parts) -> Finding:
    """The finding; `span` where other words than those of the trouble are meant, `parts` are further fields of Finding."""
    name = case.name_of(off.row, off.label)
    return Finding(kind, grade, message, span or off.span, name, case.size_names(off.at), echoes=with_echoes(case, off), **parts)
