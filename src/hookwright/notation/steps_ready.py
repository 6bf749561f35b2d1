"""Stand-in until the reader of steps is there."""

from types import SimpleNamespace

from hookwright.ground import Span

from . import tree


def read_steps(work, start, end, lexicon, **keywords):
    """See steps.read_steps."""
    try:
        from .steps import read_steps as real
    except ImportError:
        words = work[start:end].strip()
        return SimpleNamespace(steps=[tree.Unread(words, span=Span(start, end))] if words else [], stated=[], notes=[], findings=[])
    return real(work, start, end, lexicon, **keywords)
