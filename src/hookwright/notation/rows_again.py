"""Reads rows that were spelt out of a pattern, with that pattern's own stitches and sizes but none of its text."""

from copy import copy
from dataclasses import replace

from hookwright.stitches import translate_prose

from . import tree
from .again_piece import SIDES, plain_name
from .blocks import read_lines
from .drafts import Sorter
from .manuscript import working_text
from .row_read import RowReader
from .words import Lexicon


def read_rows(lines, pattern: tree.Pattern, terms: str) -> list[list[tree.Row]]:
    """For each written row of `lines` the rows read from it in these terms; more or fewer than one where it was not read as one.

    The names of the pattern's own stitches, its sizes and its colours are known; everything else must stand in the words.
    """
    starts, parts, at = [], [], 0
    for line in lines:
        line = line.replace("\n", " ")
        starts.append(at)
        parts.append(line)
        at += len(line) + 2
    text = "\n\n".join(parts)
    work = working_text(text)
    sorter = Sorter(work, len(pattern.sizes), pattern.sizes)
    sorter.pieces = frozenset(plain_name(piece.name) for piece in pattern.pieces if piece.name) | SIDES
    drafts = sorter.sort(read_lines(text, 0))
    head = pattern.head
    like = copy(pattern)
    like.text, like.terms = text, terms
    lexicon = Lexicon(terms, own=_own_in(pattern, terms), sizes=max(1, len(pattern.sizes)), colours=head.colour_names() if head else frozenset())
    blocks = tuple(dict.fromkeys(said.word for said in pattern.conventions if said.word))
    if blocks:
        lexicon = lexicon.but(blocks=blocks)
    reader = RowReader(work, like, [], False, lexicon)
    reader.sides = True
    found: list[list[tree.Row]] = [[] for _ in parts]
    which = 0
    for draft in drafts:
        while which + 1 < len(starts) and draft.start >= starts[which + 1]:
            which += 1
        if draft.kind == "row":
            found[which].extend(reader.rows(draft))
    return found


def _own_in(pattern: tree.Pattern, terms: str) -> dict:
    """Her own stitches, known by the names that they have in these terms as well."""
    if terms == pattern.terms:
        return pattern.own
    put = ((name, own, translate_prose(name, pattern.terms, terms)[0]) for name, own in pattern.own.items())
    return {name: own if words == name else replace(own, spellings=(*own.spellings, words)) for name, own, words in put}
