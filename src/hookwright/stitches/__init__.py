"""Stitches: the catalogue of facts and the words of each dialect. Everything else goes by the catalogue's ids (US abbreviations).

`stitch(id)` gives the facts, also of "dc3tog" and the like; `CATALOGUE` all that are written down; `dialect("US")` the words that
are read and written; `translate_prose` puts sentences into the other dialect. Tables: catalogue.toml, terms/*.toml.
"""

from .dialect import DIALECTS, Dialect, dialect, fold, plural
from .facts import CATALOGUE, Source, StitchFact, group_steps, leg, loops_of, step_words, stitch

__all__ = [
    "CATALOGUE", "DIALECTS", "Dialect", "Source", "StitchFact", "dialect", "fold", "group_steps", "leg", "loops_of", "plural",
    "step_words", "stitch", "translate_prose",
]


def translate_prose(text: str, source: str, target: str, keep=frozenset()):
    """`text` in `source` terms put into `target` terms, with the changes made: see stitches.prose."""
    from .prose import translate_prose as translate  # built only where prose is translated

    return translate(text, source, target, keep)
