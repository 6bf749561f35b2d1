"""Puts a Pattern together: the head, the lines sorted into drafts, each draft read, notes and her own stitches settled first."""

from hookwright.ground import MUST_MEND, Finding, Span

from . import tree
from .blocks import read_lines
from .drafts import Draft, Sorter
from .manuscript import working_text


def read_pattern(text: str, plain: str, findings: list[Finding], terms, sizes, in_round: bool) -> tree.Pattern:
    """See manuscript.read."""
    from .row_read import RowReader

    head, body_start = _head(text, plain, findings)
    work = working_text(plain)
    size_names = tuple(str(size) for size in sizes) if sizes else (head.size_names if head else ())
    sorter = Sorter(work, len(size_names), size_names)
    drafts = sorter.sort(read_lines(plain, body_start))
    if sorter.edits:
        characters = list(work)
        for at, char in sorter.edits:
            characters[at] = char
        work = "".join(characters)
    said = (head.terms if head else "") or (terms or "").upper()
    pattern = tree.Pattern(text, said or "US", head, sizes=size_names, terms_said=bool(said))
    reader = RowReader(work, pattern, findings, in_round)
    piece = tree.Piece()
    pattern.pieces.append(piece)
    for draft in drafts:
        if draft.kind == "piece" or (draft.kind == "row" and draft.name and piece.items):
            if piece.items or piece.name:
                piece = tree.Piece()
                pattern.pieces.append(piece)
            piece.name, piece.level, piece.section, piece.make = draft.name, draft.level, draft.section, draft.make
            piece.span = Span(draft.start, draft.end)
            if draft.kind == "piece":
                continue
        if draft.kind == "row":
            piece.items.extend(reader.rows(draft))
        else:
            piece.items.append(tree.Prose(text[draft.start : draft.end], Span(draft.start, draft.end)))
    return pattern


def _head(text: str, plain: str, findings: list[Finding]):
    return None, 0
