"""Schematics of a report: which pieces are drawn, in which size, and which of them belong on the sheet."""

from hookwright import sizing

from .asked import known_terms

_LONGEST = 60  # letters of a title
_LEAST_ROWS, _LEAST_MM = 4, 60.0  # a piece of fewer rows, or smaller than this either way, needs no drawing on the sheet


def schematic(report, piece: str | None = None, size: str | None = None, terms: str | None = None, *, progress=None):
    """The drawing.Picture of a piece, or of all pieces side by side, drawn in a size (the first where not said), measured in all. progress(share from
    0 to 1) is called while shapes are solved whose outline the counts do not tell.

    ValueError where there is no such piece or size, or no outline can be told.
    """
    from hookwright.drawing import side_by_side

    from .charts import one_of
    from .outlines import outlined

    pieces = _pieces(report)
    if piece is not None:
        name = one_of(piece, list(dict.fromkeys(one.name for one in pieces)), "piece")
        pieces = [one for one in pieces if one.name == name]
    shown = 0 if size is None else report.sizes.index(one_of(size, report.sizes, "size"))
    parts = outlined(report, pieces, shown, upside=_upside(report, pieces), progress=progress)
    made = _drawn(parts, known_terms(terms) or report.pattern.terms, named=piece is not None or len(pieces) > 1)
    if not made:
        raise ValueError("the outline of the pieces can't be told from their counts, and their shape was not solved")
    if len(made) == 1:
        return made[0]
    return side_by_side(made, title=_words(terms or report.pattern.terms)("schematic.title"))


def schematics_for_sheet(report, terms: str) -> tuple:
    """The pictures for the sheet: of all pieces of some size where one of them is more than a rectangle or the sizes differ; () for toys, and
    where no gauge is given."""
    head = report.pattern.head or report.pattern.front
    if not any(fabric.rows for fabric in report.fabrics) or report.must_mend or head is None or not (head.gauge or head.swatches) or "toy" in (head.for_ or ()):
        return ()
    from .outlines import outlined

    pieces = _pieces(report)
    parts = [one for one in outlined(report, pieces, 0, upside=_upside(report, pieces), cheap=True) if _is_shown(*one[:2])]
    if not parts or not any(_tells(*one[:2]) for one in parts):
        return ()
    return tuple(_drawn(parts, terms, named=len(parts) > 1, heading=False))


def _pieces(report) -> list:
    from hookwright.drawing import pieces_of

    if not report.fabrics or not any(fabric.rows for fabric in report.fabrics):
        raise ValueError("there are no worked rows to draw")
    return pieces_of(report.fabrics, report.pattern.head or report.pattern.front, known_terms(report.pattern.terms) or "US")


def _is_shown(piece, part) -> bool:
    known = next((one for one in (piece.plans if piece.in_rows else piece.rounds) if one is not None), None)
    rows = _LEAST_ROWS if known is None else len(known.strips[0].rows) if piece.in_rows else len(known.rows)
    left, bottom, right, top = part.outline.box
    return (rows >= _LEAST_ROWS or part.solved) and max(right - left, top - bottom) >= _LEAST_MM


def _tells(piece, part) -> bool:
    """Whether a drawing tells more than a finished width and length: another outline than a rectangle, or several sizes."""
    differs = any(len({one for one in dim.values if one is not None}) > 1 for dim in part.dims)
    return part.solved or differs or len(part.dims) > 2 or piece.shape not in ("rows", "polygon", "disc")


def _upside(report, pieces) -> bool:
    """Whether closed ends are on top, as a hat is worn."""
    head = report.pattern.head or report.pattern.front
    title = head.title if head is not None and head.title else ""
    return any(sizing.worn_on(words) == "head" for words in (title, *(name for one in pieces for name in one.names)))


def _drawn(made, terms: str, *, named: bool, heading: bool = True) -> list:
    """A picture a piece, all at one scale; made: see outlines.outlined; named: whether its title has the name of the piece."""
    from hookwright.drawing import schematic as draw
    from hookwright.drawing import units_a_mm
    from hookwright.writing import lists_in_both

    if not made:
        return []
    say, scale = _words(terms), units_a_mm([part for _, part, _ in made])
    return [draw(part, lists_in_both, title=say("schematic.title_one", piece=_shortened(", ".join(names))) if named and one.name else say("schematic.title_alone"), legend=say(f"schematic.{part.arrow_says}"),
                 around=say("schematic.around"), scale=scale, other_scale=say("schematic.other_scale"), heading=heading, foot=say("schematic.solved") if part.solved else "") for one, part, names in made]


def _shortened(name: str) -> str:
    return name if len(name) <= _LONGEST else name[: _LONGEST - 1].rstrip() + "…"


def _words(terms: str | None):
    from hookwright.writing import strings

    return strings("en", known_terms(terms) or "US")
