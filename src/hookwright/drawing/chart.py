"""A chart of one piece: its stitches in the trade's symbols, row by row, with numbers, repeats, a key, and all of it in words."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from hookwright.stitches import dialect as words_of

from . import chart_places as places
from .chart_drawing import Names, colours_of, stitches
from .chart_grid import grid, is_colour_work, only_cells
from .chart_key import key
from .chart_lines import RING, WORKED, Line, lines_of
from .chart_repeats import Along, fold_along, keep_end
from .picture import Picture, text

MM = 0.3  # of paper to a unit
PAGE_WIDE, PAGE_HIGH = 560.0, 720.0  # units that a page takes
LEAST_WIDE = 360.0
HALF_ROWS = 8  # of a shawl that grows on and on
EDGE, TYPE = 8.0, 9.5


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


def chart(fabric, piece: str, *, terms: str = "US", title: str = "", size: str = "", legs=None, own=None, spans=None) -> Chart | None:
    """The chart of a piece of one worked fabric, None where it has no rows.

    terms: of the names in the key. title: the piece's name as it is to be shown. legs: {kind: legs of one group}, own: {kind: her own name},
    spans: places in the manuscript, {id of a written row: (from, to)} and {id of a worked row: [(from, to) of the step of each stitch]}.
    """
    found = lines_of(fabric, piece, legs)
    lines = found.lines
    if not any(line.what == WORKED for line in lines):
        return None
    names = Names(words_of(terms), own or {}, _words(), spans or {})
    begun = names.spans.get(id(lines[0].worked), ())
    for item in lines[1].items if begun else ():
        if item.index < 0:  # chains of the foundation that stand up beside the first row
            item.told = begun[0]
    cells, around, half = is_colour_work(lines), _in_rings(lines), _in_half_rings(lines)
    along, cut, ended = [], 0, False
    if cells:
        only_cells(lines)
        along, cut, ended = _made_small(lines)
        ground = grid(lines)
    elif around:
        ground = places.rounds(lines)
    elif half:
        cut = _cut_off(lines, HALF_ROWS)
        ground = places.half_rounds(lines)
    else:
        along, cut, ended = _made_small(lines)
        ground = places.rows(lines)
    colours = colours_of(lines)
    field = stitches(lines, ground, names, colours, cells)
    marks, box = _marks(lines, ground, names, along, not cells)
    left, top, right, bottom = box
    left, top, right, bottom = left - EDGE, top - EDGE - 4, right + EDGE, bottom + EDGE
    width = max(right - left, LEAST_WIDE)
    shift = -left + (width - (right - left)) / 2
    notes = _notes(lines, names, ground, along, cut, found.rows_in_all, colours, cells)
    if ended:
        notes.insert(1, names.words["began"])
    several = sum(bool(name) for name in colours) > 1  # then the key shows them
    signs, low = key(lines, names, colours, width, bottom - top + 10, cells)
    for note in notes[:-1] if several else notes:
        for part in _folded(note, int(width / 4.75)):
            low += 12.5
            signs += text(0, low, part, size=TYPE)
    body = (f'<g transform="translate({shift:.1f} {-top:.1f})"><g fill="none" stroke="currentColor" stroke-width="1.1" stroke-linecap="round" '
            f'stroke-linejoin="round">{field}</g>{marks}</g>{signs}')
    words = " ".join([*notes, *_said(lines, names)])
    name = names.words["title_size" if size else "title"].format(piece=title or piece, size=size)
    picture = Picture(width, low + 8, body, name, words, mm=width * MM)
    drawn = sum(line.what == WORKED for line in lines for _ in line.items)
    return Chart(picture, drawn, bool(along) or cut > 0 or ended or any(line.times > 1 for line in lines), not ended and width <= PAGE_WIDE * 1.12 and low <= PAGE_HIGH, right - left, bottom - top)


def _in_rings(lines: list[Line]) -> bool:
    """Whether it is drawn as rings: rounds about a ring that grow."""
    worked = [line for line in lines if line.what == WORKED]
    base = lines[0]
    if not all(line.in_round for line in worked) or base.what not in (RING, "foundation") or not base.items or any(line.below < 0 for line in worked):
        return False
    if base.what != RING and len(base.items) > 12:
        return False
    wide = [sum(item.wide for item in line.items) for line in worked]
    return all(later >= 0.75 * max(wide[: index + 1]) for index, later in enumerate(wide)) and len(worked) <= 24


def _in_half_rings(lines: list[Line]) -> bool:
    """Whether it is drawn as rows about half of the ring they begin in: to and fro, and growing."""
    worked = [line for line in lines if line.what == WORKED]
    if lines[0].what != RING or len(worked) < 2 or any(line.in_round or line.below < 0 or any(item.join for item in line.items) for line in worked):
        return False
    wide = [sum(item.wide for item in line.items) for line in worked]
    return wide[-1] > 1.5 * wide[0] and all(later >= 0.75 * max(wide[: index + 1]) for index, later in enumerate(wide))


def _cut_off(lines: list[Line], rows: int) -> int:
    """Leaves all but the first rows out; how many."""
    gone = max(len(lines) - 1 - rows, 0)
    del lines[1 + rows :]
    return gone


def _made_small(lines: list[Line]) -> tuple[list[Along], int, bool]:
    """Leaves out what repeats along wide rows, and the last rows of a piece that goes on and on: the repeats, how many rows were left out, and
    whether only an end of the rows is left."""
    wide = max(sum(item.wide for item in line.items) for line in lines)
    places.rows(lines)  # so that the straightest of the cuts that would do can be found
    along = fold_along(lines) if wide > PAGE_WIDE else fold_along(lines, least=5)
    cut = 0
    if not along and max(sum(item.wide for item in line.items) for line in lines) > PAGE_WIDE:
        fits = next((index for index, line in enumerate(lines) if sum(item.wide for item in line.items) > PAGE_WIDE), len(lines))
        if fits > 2:
            cut = len(lines) - fits
            del lines[fits:]
    ended = not cut and max(sum(item.wide for item in line.items) for line in lines) > 2 * PAGE_WIDE and keep_end(lines, PAGE_WIDE)
    return [] if ended else along, cut, ended


# ---------------------------------------------------------------- numbers and boxes

def _marks(lines, ground, names: Names, along, lettered) -> tuple[str, tuple]:
    """Numbers of the rows (lettered: with their colours) and marks of repeats, and the box (left, top, right, bottom) that all of it takes."""
    left, top, right, bottom = places.span_of(lines, ground)
    left, right, bottom = left - 6, right + 6, bottom + 6
    coloured, out = lettered and len({name for line in lines for name in line.colours if name}) > 1, []
    if ground.around and not ground.half:
        for line in lines:
            if line.what == WORKED and line.items:
                first = next((item for item in line.items if not item.join), line.items[0])
                before = lines[line.below].level if line.below >= 0 else 0.0
                middle = (line.level + before) / 2
                once = ground.around_length(middle)
                x, y = ground.point(first.u - (first.wide / 2 + 5) / once, middle)
                out.append(text(x, y + 2.8, _number(line, False), size=TYPE - 1.5, anchor="middle", strong=True))
        return "".join(out), (left, top, right, bottom)
    for line in lines:
        if line.what != WORKED or not line.items:
            continue
        item = line.items[-1 if line.rtl else 0]
        words = _number(line, coloured)
        wide = len(words) * 5.2 + 18
        sign = 1 if line.rtl else -1
        if ground.around:
            sign = 1 if line.side == "WS" else -1
            item = line.items[-1 if sign > 0 else 0]
            x, y = ground.point(item.u, line.level - 4)
            y -= 9
            out.append(text(x, y, words, size=TYPE, anchor="middle", strong=True))
            top = min(top, y - TYPE)
            continue
        x, y = ground.point(item.u, item.v - item.tall / 2)
        x += sign * 10
        out.append(_arrow(x + sign * 4, y, -sign))
        out.append(text(x + sign * 13, y + 3.3, words, size=TYPE, anchor="start" if line.rtl else "end", strong=True))
        left, right = min(left, x - wide if sign < 0 else x), max(right, x + wide if sign > 0 else x)
    for index, line in enumerate(lines):
        if line.times > 1:
            last = lines[index + line.period - 1]
            high = ground.point(0, last.level)[1] + 1
            low = ground.point(0, lines[line.below].level if line.below >= 0 else 0)[1] - 1
            x = right + 7
            out.append(f'<path d="M{x - 3:.1f} {high:.1f}h3V{low:.1f}h-3" fill="none" stroke="currentColor"/>')
            words = names.words["times"].format(n=line.times)
            out.append(text(x + 5, (high + low) / 2 + 3, words, size=TYPE))
    if any(line.times > 1 for line in lines):
        right += 14 + 5.2 * max(len(names.words["times"].format(n=line.times)) for line in lines if line.times > 1)
    for one in along:
        out.append(_box(lines, ground, one, names))
    bottom += 14 if along else 0
    return "".join(out), (left, top, right, bottom)


def _number(line: Line, coloured: bool) -> str:
    words = str(line.number) if line.number is not None else line.label[:18]
    return f"{words} {line.colours[0]}".strip() if coloured and line.colours and line.colours[0] and len(line.colours[0]) < 3 else words


def _arrow(x: float, y: float, way: int) -> str:
    return f'<path d="M{x - way * 4:.1f} {y:.1f}h{way * 8}m{-way * 2.6:.1f} -2.4l{way * 2.6:.1f} 2.4l{-way * 2.6:.1f} 2.4" fill="none" stroke="currentColor"/>'


def _box(lines, ground, along: Along, names: Names) -> str:
    """Dashed lines on both sides of what repeats along the rows, and how often."""
    out, feet = [], []
    for side in (0, 1):
        points = []
        for line, cut in zip(lines, along.cuts, strict=True):
            at = cut[side]
            if not line.items:
                continue
            one, other = line.items[max(at - 1, 0)], line.items[min(at, len(line.items) - 1)]
            if at == 0:
                u = line.items[0].u - line.items[0].wide / 2
            elif at >= len(line.items):
                u = line.items[-1].u + line.items[-1].wide / 2
            else:
                u = (one.u + other.u) / 2
            points.append((u, (one.v + other.v) / 2))
        if not points:
            return ""
        points = [(points[0][0], points[0][1] - 8), *points, (points[-1][0], points[-1][1] + 6)]
        path = "L".join(f"{x:.1f} {y:.1f}" for x, y in (ground.point(*point) for point in points))
        out.append(f'<path d="M{path}" fill="none" stroke="currentColor" stroke-width="0.9" stroke-dasharray="4 3"/>')
        feet.append(ground.point(*points[0]))
    (one, low), (other, _) = feet
    out.append(f'<path d="M{one:.1f} {low:.1f}H{other:.1f}" fill="none" stroke="currentColor" stroke-width="0.9" stroke-dasharray="4 3"/>')
    out.append(text((one + other) / 2, low + 11, names.words["along"].format(n=along.times), size=TYPE, anchor="middle"))
    return "".join(out)


# ---------------------------------------------------------------- in words

def _notes(lines, names: Names, ground, along, cut, rows_in_all, colours, cells) -> list[str]:
    """What holds for the whole chart, in sentences."""
    words = names.words
    half = getattr(ground, "half", False)
    in_round = all(line.in_round for line in lines if line.what == WORKED)
    out = [words["half" if half else "rounds" if ground.around else "tube" if in_round else "rows"]]
    if cells:
        kind = next(item.kind for line in lines if line.what == WORKED for item in line.items)
        out = [words["grid"].format(stitch=names.short(kind))]
    for index, line in enumerate(lines):
        if line.times > 1:
            last = lines[index + line.period - 1]
            known = {"first": line.label, "last": last.label, "n": line.times}
            out.append(words["again_one" if line.period == 1 else "again"].format(**known))
    for one in along:
        out.append(words["along_said"].format(n=one.times))
    if cut:
        shown = sum(line.row is not None for line in lines)
        out.append(words["not_shown"].format(n=shown, all=rows_in_all))
    if any(line.side == "WS" and any(item.loop in ("front", "back") or item.kind[:2] in ("fp", "bp") for item in line.items) for line in lines):
        out.append(words["seen"])
    if sum(bool(name) for name in colours) > 1:
        out.append(words["colours"].format(colours=", ".join(name for name in colours if name)))
    return out


def _said(lines, names: Names) -> list[str]:
    """Each row with what is in it, from the counts."""
    out = []
    for line in lines:
        row = line.row
        if row is None or line.what != WORKED or not line.label:
            continue
        counts = {}
        for item in line.items:
            if item.flags & 1:
                counts[item.kind] = counts.get(item.kind, 0) + 1
        spaces = sum(item.space for item in line.items)
        parts = [f"{number} {names.short(kind)}" for kind, number in counts.items()]
        if spaces:
            parts.append(names.words["space" if spaces == 1 else "spaces"].format(n=spaces))
        out.append(names.words["line_side" if line.side and not line.in_round else "line"].format(label=line.label, side=line.side, counts=", ".join(parts) or "-") + ".")
    return out


def _folded(words: str, most: int) -> list[str]:
    out, line = [], ""
    for word in words.split():
        if line and len(line) + 1 + len(word) > most:
            out.append(line)
            line = word
        else:
            line = f"{line} {word}".strip()
    return [*out, line] if line else out
