"""A chart of one piece: its stitches in the trade's symbols, row by row, with numbers, repeats, a key, and all of it in words."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from hookwright.stitches import dialect as words_of

from .chart_corner import is_corner_to_corner, lay_blocks
from .chart_drawing import Names, colours_of, stitches
from .chart_fit import HALF_ROWS, PAGE_HIGH, PAGE_WIDE, cut_off, in_half_rings, in_rings, made_small
from .chart_grid import grid, is_colour_work, only_cells
from .chart_key import key
from .chart_lines import WORKED, lines_of
from .chart_marks import TYPE, Marks
from .chart_rings import half_rounds, rounds
from .chart_rows import rows
from .chart_told import folded, notes_of, rows_told
from .chart_tube import is_tube, lay_tube, one_part
from .picture import Picture, text

MM = 0.3  # of paper to a unit
LEAST_WIDE = 360.0
EDGE = 8.0
SMALLER = 1.06  # times a page, how wide a chart may be that is set a little smaller on the sheet


@dataclass(slots=True)
class Laid:
    """A chart laid out: lines whose items have their places on `ground`, how things are named, and what is said of it in words."""

    lines: list
    ground: object
    names: Names
    colours: dict
    cells: bool
    along: list
    title: str
    notes: list
    told: list
    left_out: int = 0
    ended: bool = False

    def stitches(self, shown=None) -> str:
        """The symbols; shown: see chart_drawing.stitches."""
        inside = stitches(self.lines, self.ground, self.names, self.colours, self.cells, shown)
        return f'<g fill="none" stroke="currentColor" stroke-width="1.1" stroke-linecap="round" stroke-linejoin="round">{inside}</g>'

    def marks(self, window=None) -> Marks:
        """Numbers and marks of repeats, of all of it or of a Window."""
        return Marks(self.lines, self.ground, self.names, self.along, not self.cells, window)

    def key(self, width: float, y: float) -> tuple[str, float]:
        """Key and notes from y down, within a width, and where they end."""
        several = sum(bool(name) for name in self.colours) > 1  # then the key shows them
        signs, low = key(self.lines, self.names, self.colours, width, y, self.cells)
        for note in self.notes[:-1] if several else self.notes:
            for part in folded(note, int(width / 4.75)):
                low += 12.5
                signs += text(0, low, part, size=TYPE)
        return signs, low


@dataclass(frozen=True, slots=True)
class Chart:
    """picture; symbols: how many stitches are drawn; repeated: whether a part is shown for many; fits_a_page: whether all of it can be read on
    one page of paper; width and height of the drawing without its key, in units; laid: what it is drawn from."""

    picture: Picture
    symbols: int
    repeated: bool
    fits_a_page: bool
    width: float
    height: float
    laid: Laid


@cache
def _words() -> dict:
    return tomllib.loads(Path(__file__).with_name("chart_words.toml").read_text("utf-8"))


def chart(fabric, piece: str, *, terms: str = "US", title: str = "", size: str = "", legs=None, own=None, spans=None, told=None, whole: bool = False) -> Chart | None:
    """The chart of a piece of one worked fabric, None where it has no rows.

    terms: of the names in the key. title: the piece's name as it is to be shown. legs: {kind: legs of one group}, own: {kind: her own name},
    spans: places in the manuscript, {id of a written row: (from, to)} and {id of a worked row: [(from, to) of the step of each stitch]}.
    told: {id of a written row: the row in words}, for the text that stands in place of the drawing; counts stand there where it is not given.
    whole: with all that only repeats what is shown.
    """
    names = Names(words_of(terms), own or {}, _words(), spans or {})
    name = names.words["title_size" if size else "title"].format(piece=title or piece, size=size)
    laid = _lay_out(fabric, piece, names, name, legs, told, whole)
    if laid is None:
        return None
    lines, beside = laid.lines, laid.marks()
    left, top, right, bottom = beside.box
    left, top, right, bottom = left - EDGE, top - EDGE - 4, right + EDGE, bottom + EDGE
    width = max(right - left, LEAST_WIDE)
    shift = -left + (width - (right - left)) / 2
    signs, low = laid.key(width, bottom - top + 10)
    body = f'<g transform="translate({shift:.1f} {-top:.1f})">{laid.stitches()}{beside.drawn}</g>{signs}'
    picture = Picture(width, low + 8, body, name, " ".join([*laid.notes, *laid.told]), mm=width * MM)
    drawn = sum(line.what == WORKED for line in lines for _ in line.items)
    repeated = bool(laid.along) or laid.left_out > 0 or laid.ended or any(line.times > 1 for line in lines)
    fits = not laid.ended and width <= PAGE_WIDE * SMALLER and low <= PAGE_HIGH
    return Chart(picture, drawn, repeated, fits, right - left, bottom - top, laid)


def _lay_out(fabric, piece: str, names: Names, title: str, legs, told, whole: bool) -> Laid | None:
    found = lines_of(fabric, piece, legs, whole=whole)
    if not any(line.what == WORKED for line in found.lines):
        return None
    blocks = is_corner_to_corner(found.lines)
    if blocks and any(line.times > 1 for line in found.lines):  # no two rows of blocks lie one over the other
        found = lines_of(fabric, piece, legs, whole=True)
    lines = found.lines
    begun = names.spans.get(id(lines[0].worked), ())
    for item in lines[1].items if begun and len(lines) > 1 else ():
        if item.index < 0:  # chains of the foundation that stand up beside the first row
            item.told = begun[0]
    cells = not blocks and is_colour_work(lines)
    along, cut, ended = [], 0, False
    if cells:
        only_cells(lines)
    if blocks:
        ground = lay_blocks(lines)
    elif not cells and in_rings(lines):
        ground = rounds(lines)
    elif not cells and in_half_rings(lines):
        cut = 0 if whole else cut_off(lines, HALF_ROWS)
        ground = half_rounds(lines)
    elif not cells and is_tube(lines):
        wide = max(sum(item.wide for item in line.items) for line in lines)
        along = one_part(lines) if wide > PAGE_WIDE and not whole else []
        ground = lay_tube(lines)
    else:
        along, cut, ended = made_small(lines) if not whole else ([], 0, False)
        ground = grid(lines) if cells else rows(lines)
    colours = colours_of(lines)
    notes = notes_of(lines, names, ground, along, cut, found.rows_in_all, colours, cells)
    if ended:
        notes.insert(1, names.words["began"])
    return Laid(lines, ground, names, colours, cells, along, title, notes, rows_told(lines, names, told), cut, ended)
