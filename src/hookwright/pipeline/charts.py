"""Charts of a report: of which piece and size, and which of them belong on the sheet."""

import re

from hookwright.fabric import resolved
from hookwright.ground import NOWHERE, Span
from hookwright.notation import OwnNames, is_plain_heading, one_size_row, spell_row
from hookwright.stitches import translate_prose

from .asked import known_terms


def chart(report, piece: str | None = None, size: str | None = None, terms: str | None = None, *, whole: bool = False):
    """The drawing.Chart of a piece in a size (the first ones where not said), its key in US or UK terms (those of the manuscript by default).

    whole: with all rows and stitches, those that only repeat others as well.
    ValueError where there is no such piece or size, or the piece has no stitches.
    """
    fabric = fabric_of(report, size)
    names = pieces_of(fabric)
    if not names:
        raise ValueError("there are no worked rows to draw")
    name = one_of(piece, names, "piece") if piece is not None else names[0]
    made = _drawn(report, fabric, name, known_terms(terms) or report.pattern.terms, shown_size=len(report.fabrics) > 1, in_words=True, whole=whole)
    if made is None:
        raise ValueError(f"{name or 'the pattern'} has no stitches to draw")
    return made


def charts_for_sheet(report, terms: str) -> dict:
    """{name of a piece: Picture} of the pieces whose chart tells more than the rows do and fits a page: motifs, lace and stitch patterns."""
    if not report.fabrics:
        return {}
    fabric, out = report.fabrics[0], {}
    for name in pieces_of(fabric):
        if not _tells(fabric, name):
            continue
        made = _drawn(report, fabric, name, terms, shown_size=len(report.fabrics) > 1)
        if made is not None and made.fits_a_page and made.symbols >= LEAST:
            out[name] = made.picture
    return out


_HOW_MANY = re.compile(r"\s*\((?:make|work)\b.*\)\s*$", re.I)
LEAST = 12  # symbols: fewer need no chart
_PLAIN = ("basic", "increase", "decrease", "extended", "foundation")


def _tells(fabric, name: str) -> bool:
    """Whether there is lace or texture in a piece: chain spaces, groups in one place, or stitches that are not plain."""
    from hookwright.stitches import stitch

    rows = [row for row in fabric.rows if row.piece == name]
    spaces = sum(len(row.spaces) for row in rows)
    kinds = {kind for row in rows for kind in row.by_kind}
    textured = any(fact is not None and fact.kind not in _PLAIN for fact in map(stitch, kinds))
    groups = sum(length > 2 for row in rows for length, _ in row.groups.values())
    return spaces > 2 or textured or groups > 2


def _drawn(report, fabric, name, terms, *, shown_size, in_words=False, whole=False):
    from hookwright.drawing import chart as draw

    own = report.pattern.own.values()
    once = {one.kind for one in own if one.kind and sum(other.kind == one.kind for other in own) == 1}
    legs = {one.kind: one.legs for one in own if one.kind in once and isinstance(one.legs, int)}
    names = {one.kind: one.name for one in own if one.kind in once and one.name and len(one.name) < 30}
    back = report.pattern.shifts.back if report.pattern.shifts else Span._make
    spans = {id(row): tuple(back(row.span)) for _, row in report.pattern.rows()}
    for row in fabric.rows:
        if row.piece == name:
            spans[id(row)] = _steps_in_her_text(report, row, back)
    title = _HOW_MANY.sub("", name) if name and not is_plain_heading(name) else report.pattern.head.title if report.pattern.head is not None else ""
    return draw(fabric, name, terms=terms, title=title or "stitches", size=fabric.size if shown_size else "", legs=legs,
                own=names, spans=spans, told=_rows_in_words(report, name, fabric.size, terms) if in_words else None, whole=whole)


def _rows_in_words(report, piece: str, size: str, terms: str) -> dict:
    """{id of a written row of the piece: the row as it is written in these terms, for one size}."""
    pattern, index, number = report.pattern, report.sizes.index(size), len(report.sizes)
    own = OwnNames(pattern.own, pattern.terms, terms, pattern.text)
    out = {}
    for (where, row), (_, taken) in zip(pattern.rows(), resolved(pattern, report.work).rows(), strict=True):
        if where.name == piece:
            out[id(row)] = spell_row(one_size_row(taken, index, number), terms, own=own, put=lambda words: translate_prose(words, pattern.terms, terms)[0])
    return out


def _steps_in_her_text(report, row, back) -> list:
    """Where the step of each stitch of a worked row is told: (from, to) in her text, None where nowhere."""
    hers = {}
    for span in report.step_spans.get(id(row), ()):
        if span not in hers:
            hers[span] = tuple(back(span)) if span != NOWHERE else None
    return [hers[span] for span in report.step_spans.get(id(row), ())]


def pieces_of(fabric) -> list[str]:
    """Headings under which there are worked stitches."""
    return list(dict.fromkeys(row.piece for row in fabric.rows if len(row.kind) and row.row is not None and row.has_height))


def fabric_of(report, size):
    """The worked fabric of a size, by its name; the first where none is said."""
    if not report.fabrics:
        raise ValueError("there are no worked rows to draw")
    return report.fabrics[0] if size is None else report.fabrics[report.sizes.index(one_of(size, report.sizes, "size"))]


def one_of(asked: str, names, what: str) -> str:
    """The name meant: as it is written in any letter case, or as it begins where only one does."""
    if not isinstance(asked, str):
        raise TypeError(f"{what} is a str, not {type(asked).__name__}")
    word = asked.strip().casefold()
    for fits in (lambda name: name.casefold() == word, lambda name: word and name.casefold().startswith(word), lambda name: word and word in name.casefold()):
        found = [name for name in names if fits(name)]
        if len(found) == 1:
            return found[0]
        if found:
            break
    have = ", ".join(repr(name) for name in names)
    raise ValueError(f"there is {'no' if not found else 'more than one'} {what} {asked!r}; there {'is' if len(names) == 1 else 'are'} {have}")
