"""Notation: the written manuscript to its instruction tree, and the way back.

`read(text, terms=, sizes=, in_round=)` gives the Pattern and the findings made in reading; `read_below` the row below a fragment;
`Head` and its parts are the values of the YAML head. The tree itself is `hookwright.notation.tree`.
"""

from .again_piece import plain_name
from .below import read_below
from .draft import is_plain_heading, section_of
from .head import Body, Extra, Gauge, Head, Hook, Measure, Silence, SizeFact, Swatch, Yarn
from .head_parts import gauge_from_words, gauge_of_prose
from .head_values import length_value as length_from_words
from .head_values import measure as measure_from_words
from .head_values import weight as weight_from_words
from .manuscript import head_end, read
from .one_size import one_size, one_size_row
from .read_before import ReadBefore
from .row_words import row_words
from .rows_again import read_rows
from .spell import spell_body, spell_label, spell_parts, spell_row, spell_stated
from .spell_own import OwnNames
from .tree import Pattern

__all__ = [
    "Body", "Extra", "Gauge", "Head", "Hook", "Measure", "OwnNames", "Pattern", "ReadBefore", "Silence", "SizeFact", "Swatch", "Yarn", "gauge_from_words", "gauge_of_prose",
    "head_end", "is_plain_heading", "length_from_words", "measure_from_words", "one_size", "one_size_row", "plain_name", "read", "read_below", "read_rows", "row_words", "section_of", "spell_body", "spell_label", "spell_parts", "spell_row",
    "spell_stated", "weight_from_words",
]
