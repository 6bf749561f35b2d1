"""How a chart is laid out, and what of a large piece is left out: repeats are shown once, a piece that goes on and on only from its beginning."""

from math import pi

from .chart_lines import FOUNDATION, RING, WORKED, Line
from .chart_oval import is_oval
from .chart_repeats import Along, fold_along, keep_end
from .chart_ripples import are_ripples
from .chart_rows import rows
from .symbols import chain_length

PAGE_WIDE, PAGE_HIGH = 565.0, 720.0  # units that a page takes, on A4 and on Letter
MOST_IN_RING = 12  # chains of a ring that is worked into as such
FLATTEST = 0.42  # of a flat circle as high, how long the widest round is at least: a cone or a leg is a tube
MOST_ROUNDS = 60  # drawn as rings
HALF_ROWS = 8  # of a shawl that grows on and on


def in_rings(lines: list[Line]) -> bool:
    """Whether it is drawn as rings: rounds about a ring that grow."""
    if is_oval(lines):
        return True
    worked = [line for line in lines if line.what == WORKED]
    base = lines[0]
    if not all(line.in_round for line in worked) or base.what not in (RING, "foundation") or not base.items or any(line.below < 0 for line in worked):
        return False
    if base.what != RING and len(base.items) > MOST_IN_RING and not _yoke(worked):
        return False
    if max(_reaches(line) for line in worked) < FLATTEST * 2 * pi * sum(max((item.tall for item in line.items), default=0.0) for line in worked):
        return False
    return len(worked) <= MOST_ROUNDS and (_grows(worked) or not any(len(item.feet) > 1 for line in worked for item in line.items))


def _yoke(worked: list[Line]) -> bool:
    """Whether rounds about a long chain grow as rounds that lie flat do: a yoke, a doily about a hole."""
    wide = [sum(item.wide for item in line.items) for line in worked]
    return len(worked) > 1 and wide[-1] - wide[0] > 4 * sum(max((item.tall for item in line.items), default=0) for line in worked[1:])


def _grows(worked: list[Line]) -> bool:
    """Whether no row is much narrower than one before it, with its runs of chains laid out."""
    wide = [_reaches(line) for line in worked]
    return all(later >= 0.75 * max(wide[: index + 1]) for index, later in enumerate(wide))


def _reaches(line: Line) -> float:
    """How wide a row is with its runs of chains laid out."""
    return sum(max(item.wide, item.chains * chain_length() * 0.8 if item.space else 0.0) for item in line.items)


def in_half_rings(lines: list[Line]) -> bool:
    """Whether it is drawn as rows about half of the ring they begin in: to and fro, and growing."""
    worked = [line for line in lines if line.what == WORKED]
    in_ring = lines[0].what == RING or lines[0].what == FOUNDATION and worked and all(foot < 0 for item in worked[0].items for _, foot in item.feet)
    if not in_ring or len(worked) < 2 or any(line.in_round or line.below < 0 or any(item.join for item in line.items) for line in worked):
        return False
    wide = [sum(item.wide for item in line.items) for line in worked]
    return wide[-1] > 1.5 * wide[0] and _grows(worked)


def cut_off(lines: list[Line], rows: int) -> int:
    """Leaves all but the first rows out, where the others only go on as they do; how many."""
    gone = max(len(lines) - 1 - rows, 0)
    if not gone or not _goes_on(lines, 1 + rows):
        return 0
    del lines[1 + rows :]
    return gone


def _goes_on(lines: list[Line], first: int) -> bool:
    """Whether all lines from `first` on are told as rows worked again, or by the words of rows before them."""
    before = {id(line.row) for line in lines[:first]}
    return all(line.row is not None and (line.row.again is not None or id(line.row) in before) for line in lines[first:])


def made_small(lines: list[Line]) -> tuple[list[Along], int, bool]:
    """Leaves out what repeats along wide rows, and the last rows of a piece that goes on and on: the repeats, how many rows were left out, and
    whether only an end of the rows is left."""
    wide = max(sum(item.wide for item in line.items) for line in lines)
    rows(lines)  # so that the straightest of the cuts that would do can be found
    along = fold_along(lines, 3, are_ripples(lines)) if wide > PAGE_WIDE else fold_along(lines, 5, are_ripples(lines), 0.6)
    cut = 0
    if not along and max(sum(item.wide for item in line.items) for line in lines) > PAGE_WIDE:
        fits = next((index for index, line in enumerate(lines) if sum(item.wide for item in line.items) > PAGE_WIDE), len(lines))
        if fits > 2 and _goes_on(lines, fits):
            cut = len(lines) - fits
            del lines[fits:]
    ended = not cut and max(sum(item.wide for item in line.items) for line in lines) > 2 * PAGE_WIDE and keep_end(lines, PAGE_WIDE)
    return [] if ended else along, cut, ended
