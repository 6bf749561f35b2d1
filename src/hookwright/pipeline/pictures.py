"""Pictures of a report in its yarn: a still as PNG or a mesh as GLB, of which piece and size, and which of them belong on the sheet."""

import re
from base64 import b64encode
from dataclasses import dataclass

from hookwright.notation import is_plain_heading

from .asked import known_terms
from .charts import fabric_of, one_of, pieces_of
from .surfaces import garment_in, piece_names, sewn, surface

KINDS = ("png", "glb")
PIXELS = 700
SMALL = 520  # pixels of a picture on a sheet
MOST_ON_SHEET = 4
MOST_STITCHES, MORE_STITCHES = 40_000, 6_000  # of the first picture; of the first and those after it together
_HOW_MANY = re.compile(r"\s*\((?:make|work)\b.*\)\s*$", re.I)


@dataclass(frozen=True, slots=True)
class Photo:
    """data: bytes of the file; to: "png" or "glb"; width, height: pixels, 0 for a mesh; title and words: what it shows; stitches drawn."""

    data: bytes
    to: str
    width: int
    height: int
    title: str
    words: str
    stitches: int


def picture(report, piece=None, size=None, *, to: str = "png", pixels: int = PIXELS, terms=None, shown=None, progress=None, cancelled=None) -> Photo:
    """The Photo of a piece in a size (the first ones where not said; a garment sewn of flat pieces is shown whole where no piece is said). pixels: the longer side. shown: "flat", "form", "stuffed", "free"; by
    default as the piece is used. progress(share from 0 to 1) is called as it goes on; cancelled() is asked, and stops the work where true.

    ValueError where there is no such piece, size or kind of file, or nothing to draw; shape.Cancelled where it was cancelled.
    """
    if to not in KINDS:
        raise ValueError(f"a picture is written as {' or '.join(KINDS)}, not {to!r}")
    if isinstance(pixels, bool) or not isinstance(pixels, int) or not 64 <= pixels <= 4000:
        raise ValueError(f"pixels is a whole number from 64 to 4000, not {pixels!r}")
    told = progress or (lambda share: None)
    solved = surface_for(report, piece, size, shown=shown, progress=lambda share: told(0.4 * share), cancelled=cancelled)
    return photo_of(report, solved, to=to, pixels=pixels, terms=terms, progress=lambda share: told(0.4 + 0.6 * share), cancelled=cancelled)


def surface_for(report, piece=None, size=None, *, shown=None, progress=None, cancelled=None):
    """The shape.Surface of a piece; where none is said, of the garment that the pieces are sewn to, or of the first."""
    if piece is None and shown in (None, "form") and (garment := garment_in(report, size)) is not None:
        return sewn(report, garment, size, progress=progress, cancelled=cancelled)
    name = one_of(piece, pieces_of(fabric_of(report, size)), "piece") if piece is not None else None
    size = fabric_of(report, size).size if size is not None else None
    return surface(report, name, size, shown=shown, progress=progress, cancelled=cancelled)


def photo_of(report, solved, *, to="png", pixels=PIXELS, terms=None, progress=None, cancelled=None) -> Photo:
    """The Photo of a surface that was solved before."""
    from hookwright.drawing import mesh_bytes, photo_bytes

    names, _ = _colours(report, solved)
    said = said_of(report, solved, terms)
    stitches = len(solved.at)

    def watch(share):
        if cancelled is not None and cancelled():
            from hookwright.shape import Cancelled

            raise Cancelled
        if progress is not None:
            progress(share)

    if to == "glb":
        data, width, height = mesh_bytes(solved, names, name=said.title, words=said.words, watch=watch), 0, 0
    else:
        data, width, height = photo_bytes(solved, names, pixels, watch, form=to)
    return Photo(data, to, width, height, said.title, said.words, stitches)


def said_of(report, solved, terms=None):
    """What a picture of the surface shows (drawing.PhotoWords)."""
    from hookwright.drawing import photo_words

    _, read = _colours(report, solved)
    return photo_words(solved, terms=known_terms(terms) or report.pattern.terms, title=_title(report, solved),
                       size=solved.size if len(report.fabrics) > 1 else "", colours=read, own=_own_names(report),
                       without=() if solved.piece else [name for name in _all_headings(report, solved) if name not in _headings(solved.rows)])


def pictures_for_sheet(report, terms: str, *, which: str = "all", drawn: dict | None = None, progress=None) -> dict:
    """{name of a piece: drawing.Picture} of pieces in the middle size, or the first where that is very large; first, as "", the garment they are sewn to. which: "all" (of the main pieces), "first" or "none".

    drawn: kept from one sheet to the next, so that nothing is drawn twice.
    """
    drawn = {} if drawn is None else drawn
    fabric, names = _on_sheet(report) if which != "none" else (None, [])
    names = names[:1] if which == "first" else names
    out = {}
    for number, name in enumerate(names):
        if name not in drawn:
            solved = surface(report, name, fabric.size) if name else sewn(report, garment_in(report, fabric.size), fabric.size)
            drawn[name] = solved, photo_of(report, solved, pixels=SMALL, terms=terms, to="jpeg")
            if progress is not None:
                progress((number + 1) / len(names))
        solved, photo = drawn[name]
        out[name] = _on_paper(photo, said_of(report, solved, terms))
    return out


def _on_sheet(report):
    """(fabric, pieces) that are pictured on a sheet: the garment (""), the first pieces, as long as there are not too many stitches to draw."""
    if not report.fabrics or report.work.too_much is not None:
        return None, []
    fabric = report.fabrics[len(report.fabrics) // 2]
    if sum(len(row.kind) for row in fabric.rows) > MORE_STITCHES:
        fabric = report.fabrics[0]
    names, stitches = [], 0
    rows = fabric.rows
    whole = [""] if garment_in(report, fabric.size) is not None else []
    for name in whole + piece_names(report, fabric.size):
        stitches += sum(len(row.kind) for row in rows if row.piece == name or not name)
        if len(names) == MOST_ON_SHEET or stitches > (MOST_STITCHES if not names else MORE_STITCHES):
            break
        names.append(name)
    return fabric, names


def _on_paper(photo: Photo, said):
    """A photo as a picture of the sheet; tall ones get room beside them, so that they are no higher than wide."""
    from hookwright.drawing import Picture

    wide = max(photo.width, photo.height)
    image = (f'<image width="{photo.width}" height="{photo.height}" '
             f'href="data:image/jpeg;base64,{b64encode(photo.data).decode()}"/>')
    return Picture(wide, photo.height, image, said.title, said.words)


def _title(report, solved) -> str:
    title = report.pattern.head.title if report.pattern.head is not None and report.pattern.head.title else ""
    names = _headings(solved.rows)
    if len(names) > 1 and title and names == _all_headings(report, solved):
        return title  # all of it
    if not solved.piece:
        return title
    return ", ".join(names[:-1]) + " and " + names[-1] if len(names) > 1 else names[0] if names else title


def _all_headings(report, solved) -> list[str]:
    return _headings(next(fabric for fabric in report.fabrics if fabric.size == solved.size).rows)


def _headings(rows) -> list[str]:
    """What the pieces of some rows are called, in order, where they have names of their own."""
    return list(dict.fromkeys(_HOW_MANY.sub("", row.piece) for row in rows if row.piece and not is_plain_heading(row.piece)))


def _colours(report, solved) -> tuple[list[str], list[str]]:
    """What each colour of a surface is called, and after them what the yarn is where none is named; and the names as they are read."""
    head = report.pattern.head or report.pattern.front
    known: dict[str, str] = {}
    for yarn in head.yarn if head is not None else ():
        for key, value in yarn.colours.items():
            known.setdefault(key.casefold(), value or key)
            known.setdefault(str(value).casefold(), value)
    names = [known.get(name.casefold(), name) for name in solved.colours]
    main = next(iter(known.values()), "")
    used = sorted(set(solved.colour.tolist()))
    read = []
    for number in used:
        word = names[number] if number >= 0 else main
        if word and word not in read:
            read.append(word)
    return [*names, main], read


def _own_names(report) -> dict:
    own = report.pattern.own.values()
    return {one.kind: one.name for one in own if one.kind and one.name and len(one.name) < 30 and sum(other.kind == one.kind for other in own) == 1}
