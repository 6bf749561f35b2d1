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
from .chart_marks import TYPE, marks
from .chart_rings import half_rounds, rounds
from .chart_rows import rows
from .chart_told import folded, notes_of, rows_told
from .picture import Picture, text

MM = 0.3  # of paper to a unit
LEAST_WIDE = 360.0
EDGE = 8.0


@dataclass(frozen=True, slots=True)
class Chart:
    """picture; symbols: how many stitches are drawn; repeated: whether a part is shown for many; fits_a_page: whether all of it can be read on
    one page of paper; width and height of the drawing without its key, in units."""

    picture: Picture
    symbols: int
    repeated: bool
    fits_a_page: bool
    width: float
    height: float


@cache
def _words() -> dict:
    return tomllib.loads(Path(__file__).with_name("chart_words.toml").read_text("utf-8"))


def chart(fabric, piece: str, *, terms: str = "US", title: str = "", size: str = "", legs=None, own=None, spans=None, told=None) -> Chart | None:
    """The chart of a piece of one worked fabric, None where it has no rows.

    terms: of the names in the key. title: the piece's name as it is to be shown. legs: {kind: legs of one group}, own: {kind: her own name},
    spans: places in the manuscript, {id of a written row: (from, to)} and {id of a worked row: [(from, to) of the step of each stitch]}.
    told: {id of a written row: the row in words}, for the text that stands in place of the drawing; counts stand there where it is not given.
    """
    found = lines_of(fabric, piece, legs)
    lines = found.lines
    if not any(line.what == WORKED for line in lines):
        return None
    blocks = is_corner_to_corner(lines)
    if blocks and any(line.times > 1 for line in lines):  # no two rows of blocks lie one over the other
        found = lines_of(fabric, piece, legs, whole=True)
        lines = found.lines
    names = Names(words_of(terms), own or {}, _words(), spans or {})
    begun = names.spans.get(id(lines[0].worked), ())
    for item in lines[1].items if begun else ():
        if item.index < 0:  # chains of the foundation that stand up beside the first row
            item.told = begun[0]
    cells, around, half = is_colour_work(lines), in_rings(lines), in_half_rings(lines)
    along, cut, ended = [], 0, False
    if blocks:
        ground = lay_blocks(lines)
    elif cells:
        only_cells(lines)
        along, cut, ended = made_small(lines)
        ground = grid(lines)
    elif around:
        ground = rounds(lines)
    elif half:
        cut = cut_off(lines, HALF_ROWS)
        ground = half_rounds(lines)
    else:
        along, cut, ended = made_small(lines)
        ground = rows(lines)
    colours = colours_of(lines)
    field = stitches(lines, ground, names, colours, cells)
    beside, box = marks(lines, ground, names, along, not cells)
    left, top, right, bottom = box
    left, top, right, bottom = left - EDGE, top - EDGE - 4, right + EDGE, bottom + EDGE
    width = max(right - left, LEAST_WIDE)
    shift = -left + (width - (right - left)) / 2
    notes = notes_of(lines, names, ground, along, cut, found.rows_in_all, colours, cells)
    if ended:
        notes.insert(1, names.words["began"])
    several = sum(bool(name) for name in colours) > 1  # then the key shows them
    signs, low = key(lines, names, colours, width, bottom - top + 10, cells)
    for note in notes[:-1] if several else notes:
        for part in folded(note, int(width / 4.75)):
            low += 12.5
            signs += text(0, low, part, size=TYPE)
    body = (f'<g transform="translate({shift:.1f} {-top:.1f})"><g fill="none" stroke="currentColor" stroke-width="1.1" stroke-linecap="round" '
            f'stroke-linejoin="round">{field}</g>{beside}</g>{signs}')
    words = " ".join([*notes, *rows_told(lines, names, told)])
    name = names.words["title_size" if size else "title"].format(piece=title or piece, size=size)
    picture = Picture(width, low + 8, body, name, words, mm=width * MM)
    drawn = sum(line.what == WORKED for line in lines for _ in line.items)
    return Chart(picture, drawn, bool(along) or cut > 0 or ended or any(line.times > 1 for line in lines), not ended and width <= PAGE_WIDE * 1.12 and low <= PAGE_HIGH, right - left, bottom - top)
