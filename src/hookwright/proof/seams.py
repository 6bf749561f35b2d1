"""Edges that the words bring together, and the stitches that were worked along them."""

import re
from dataclasses import dataclass

from hookwright.ground import Span

from .case import Case
from .sums import places_of

_LIST = r"\d{1,4}(?: ?[(\[][\d, -]{1,60}[)\]])?"
_THINGS = r"sts?|stitches|sc|dc|hdc|htr|tr|row ends|rows|rnds|rounds|chs?|chains"
_VERB = r"sew|seam|graft|whip ?stitch|mattress stitch|join|slip stitch|sl st|crochet"
_COUNTED = re.compile(rf"(?P<list>{_LIST}) (?:{_THINGS})\b(?P<of> (?:of|from|along|at|on) (?:the )?(?P<place>[^.;,()\d]{{2,60}}))?", re.IGNORECASE)
_ENDS = re.compile(r"\b(?:last|final|top) (?:row|rnd|round|edge)s? of (?:the |each |both )?(?P<place>[^.;,()\d]{2,40}?)(?=[.;,()\d]| (?:to|with|and|onto)\b|$)", re.IGNORECASE)
_SEAM = re.compile(rf"\b(?:{_VERB})\b[^.;\n]{{3,220}}", re.IGNORECASE)
_ROWS_BETWEEN = re.compile(r"\b(?:between|from)\s+(?:the\s+)?\d{1,3}(?:st|nd|rd|th)?\s*(?:and|to|[-–])\s*\d{1,3} (?:rows|rnds|rounds)", re.IGNORECASE)  # where it lies, by the numbers of rows
_EASED = re.compile(r"\b(?:eas\w*|gather\w*|evenly|stretch\w*|every other|leav\w*|open\w*|shorter|longer|fold\w*)\b", re.IGNORECASE)
_TOGETHER = re.compile(r"\b(?:to|with|and|onto)\b", re.IGNORECASE)
_BY_STITCH = re.compile(r"\b(?:stitch (?:for|by|to) stitch|st (?:for|by|to) st|matching (?:the )?(?:sts|stitches))\b", re.IGNORECASE)


@dataclass(slots=True)
class Edge:
    """One edge as named: its numbers by size ((), where none are stated), the piece (None: not one of the pattern), its place in the text.

    last: the words mean the last row of the piece.
    """

    numbers: tuple
    piece: object
    span: Span
    last: bool = False


def seams(case: Case):
    """(place of the sentence, edges, whether it goes stitch by stitch) of each seam in the prose; not those of which a difference is eased."""
    for piece, item in case.prose:
        if piece.section in ("abbreviations", "gauge", "materials", "special stitches"):
            continue
        text = case.text[item.span.start : item.span.end] or item.text
        for found in _SEAM.finditer(text):
            edges = list(_edges(case, text, found.start(), found.end(), item.span.start))
            if edges and not _EASED.search(found[0]):
                span = Span(item.span.start + found.start(), item.span.start + found.end())
                yield span, edges, bool(_BY_STITCH.search(found[0]))


def _edges(case: Case, text: str, start: int, stop: int, at: int):
    """The edges of one sentence, in order: counted ones, and last rows of pieces."""
    named = [(found, False) for found in _COUNTED.finditer(text, start, stop)] + [(found, True) for found in _ENDS.finditer(text, start, stop)]
    taken = -1
    for found, last in sorted(named, key=lambda pair: pair[0].start()):
        if found.start() < taken or not last and _ROWS_BETWEEN.search(text, max(start, found.start() - 24), found.end()):
            continue
        place = found["place"] or ""
        cut = _TOGETHER.search(place)
        place = place[: cut.start()] if cut else place
        taken = found.end() if not cut or not found["place"] else found.start("place") + cut.start()
        span = Span(at + found.start(), at + taken)
        numbers = () if last else tuple(int(number) for number in re.findall(r"\d+", found["list"]))
        inner = _ENDS.search(found[0]) if not last else None
        yield Edge(numbers, _piece_of(case, inner["place"] if inner else place), span, last or inner is not None)


def _piece_of(case: Case, words: str):
    """The piece that is named in these words, None where none is or several could be meant."""
    words = f" {' '.join(re.findall(r'[a-z]+', words.casefold()))} "
    hits = []
    for piece, _ in case.by_piece:
        name = " ".join(re.findall(r"[a-z]+", re.sub(r"\(.*?\)", "", piece.name or "").casefold()))
        if name and (f" {name} " in words or f" {name}s " in words or f" {name.removesuffix('s')} " in words):
            hits.append(piece)
    return hits[0] if len(hits) == 1 else None


def worked_counts(case: Case, piece, size: int) -> tuple[int | None, set[int]]:
    """(stitches of the piece's last row, every number that an edge of it can have) in one size."""
    if size >= len(case.fabrics):
        return None, set()
    rows = [row for row in case.fabrics[size].rows if row.piece == piece.name]
    stitched = [row for row in rows if row.stitches]
    counts = {row.stitches for row in rows} | {places_of(row) for row in rows} | {len(stitched), 2 * len(stitched)}
    counts |= {row.unworked for row in rows} | {row.stitches + sum(row.spaces) for row in rows}
    return (stitched[-1].stitches if stitched else None), counts - {0}
