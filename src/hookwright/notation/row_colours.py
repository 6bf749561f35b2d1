"""In which colours rows are worked, where the words beside them say so: "changing to C at the end", "two rows in C and two rows in D", "(B)".

What a step says of colours within its row is a Colour of the tree; here are the words that hold for whole rows.
"""

import re

from . import tree
from .number_words import number_of

MOST = 40  # stripes one line may name
_WORD = re.compile(r"[A-Za-z][A-Za-z'-]*\d?|\d{1,4}|[,;/&+]")
_ROWS = frozenset(("row", "rows", "rnd", "rnds", "round", "rounds"))
_BESIDE = frozenset(("each", "every", "in", "of", "with", "using", "color", "colour", "colors", "colours", "yarn", "the"))
_JOINTS = frozenset((",", "/", "&", "+", "and", "then"))
_BEFORE = frozenset(("in", "with", "using", "color", "colour", "working", "work", "worked", "yarn", "all", "now"))
_CHANGES = ("chang", "switch")
_LAST = frozenset(("at", "in", "on", "end", "the", "of", "row", "round", "rnd", "last", "st", "stitch", "yo", "loop", "yarn", "over", "pull", "through"))


def stripes_in(text: str, lexicon) -> tuple:
    """((rows, colour), ...) of words that say how many rows are worked in which colours; () where they say nothing of the kind.

    "two rows each of A and B in turn" gives ((2, "A"), (2, "B")), "in B" ((1, "B"),): begun again when they are used up.
    """
    words = _WORD.findall(text)
    found, at, rows_said = [], 0, False
    while at < len(words) and len(found) < MOST:
        number = number_of(words[at]) if words[at][0].isalnum() else None
        if number and _name(words, at, lexicon) is None:
            here, rows = at + 1, False
            while here < len(words) and words[here].lower() in _ROWS | _BESIDE:
                rows = rows or words[here].lower() in _ROWS
                here += 1
            names, end = _names(words, here, lexicon)
            if names and (rows or rows_said):
                rows_said = True
                found += [(number, name) for name in names]
                at = end
                continue
        at += 1
    return tuple(found) or _alternating(words, lexicon) or _alone(words, lexicon)


def _alternating(words, lexicon) -> tuple:
    """ "alternating A and B every 2 rows", "alternating colours A and B"."""
    if not words or not words[0].lower().startswith("alternat"):
        return ()
    at = 1
    while at < len(words) and words[at].lower() in _BESIDE | {"between"}:
        at += 1
    names, end = _names(words, at, lexicon)
    if len(names) < 2:
        return ()
    every = next((number_of(word) for word in words[end:] if number_of(word)), None)
    if every is None and any(word.lower() == "other" for word in words[end:]):
        every = 2
    return tuple((every or 1, name) for name in names)


def _alone(words, lexicon) -> tuple:
    """ "in B", "with C", "B": one colour and nothing else."""
    at = 0
    while at < len(words) and words[at].lower() in _BEFORE:
        at += 1
    names, end = _names(words, at, lexicon)
    return ((1, names[0]),) if len(names) == 1 and end == len(words) else ()


def change_in(text: str, lexicon) -> str:
    """The colour that is changed to at the end of the row, "" where none is: "changing to C (at the end)"."""
    words = _WORD.findall(text)
    for at, word in enumerate(words):
        if word.lower().startswith(_CHANGES):
            here = at + 1
            while here < len(words) and words[here].lower() in ("back", "to", "color", "colour", "yarn"):
                here += 1
            name = _name(words, here, lexicon)
            if name is not None and words[here - 1].lower() not in _CHANGES and all(word.lower() in _LAST for word in words[here + name[1] :]):
                return name[0]
    return ""


def _names(words, at: int, lexicon) -> tuple[list, int]:
    """Names of colours one after the other from `at`, and where they end."""
    out, end = [], at
    while at < len(words) and len(out) < MOST:
        name = _name(words, at, lexicon)
        if name is None:
            break
        out.append(name[0])
        at = end = at + name[1]
        while at < len(words) and words[at].lower() in _JOINTS:
            at += 1
    return out, end


def _name(words, at: int, lexicon):
    """(name, how many words) of the colour at `at`, None where there is none."""
    for count in (3, 2, 1):
        words_of = words[at : at + count]
        if len(words_of) < count:
            continue
        name = " ".join(words_of)
        if count == 1:
            if name.islower() and len(name) == 1:
                return None  # "a row"
            if lexicon.is_colour(name) or name.lower() in lexicon.colour_words() or lexicon.names_a_colour(name):
                return name, 1
        elif name.lower() in lexicon.colours:
            return name, count
    return None


def colour_row(row: tree.Row, lexicon, told) -> None:
    """Puts what the words beside a row say of its colours into it. told: the notes that may say so."""
    for note in told:
        if not row.stripes:
            row.stripes = stripes_in(note.text, lexicon)
        if not row.changes_to:
            row.changes_to = change_in(note.text, lexicon)


def notes_on_colours(row: tree.Row):
    """The notes of a row that may speak of its colours: in its label, after a reference to other rows, after the steps of several rows."""
    until = row.again.until if row.again is not None else None
    for note in row.notes:
        if note.lead == ":" or row.again is None or until is None or note.span.start < until.span.start:
            yield note
    if row.again is None and (len(row.numbers) > 1 or row.count_of_rows is not None):
        for step in row.steps[1:]:
            if type(step) is tree.Note:
                yield step
