"""A chart on pages of paper: cut between rows and between stitches where it is larger than one, at the size at which it can be read.

Every page shows its part and, faintly, the row below it and the stitches beside it, so that the parts can be joined; arrows name the pages
on which it goes on. First comes a page with the whole in small, the pages marked on it, and the key.
"""

from dataclasses import dataclass
from math import ceil

from .chart import EDGE, MM, Chart, Laid
from .chart_drawing import FAINT, LEFT_OUT, WHOLE
from .chart_lines import WORKED
from .chart_marks import TYPE, Window
from .picture import Picture, letters, line, number, text

PAPER_MM = {"A4": (210.0, 297.0), "LETTER": (215.9, 279.4)}
MARGIN_MM = (15.0, 24.0)  # left and right, above and below; the name of the page stands in it
OVER = 24.0  # how far over its edge a part is shown faintly
BESIDE = OVER + 54.0  # room beside a part for that and for numbers of rows
ABOVE = OVER + 34.0  # room above and below a part for that and for arrows
MOST_PAGES = 400
MOST_IN_SMALL = 4000  # symbols that the whole in small is drawn with; of more only the rows are


@dataclass(frozen=True, slots=True)
class Page:
    """One page: its Picture, as wide and high on paper as it is drawn (0.3 mm a unit), what it shows in words, and whether the paper lies."""

    picture: Picture
    words: str
    landscape: bool = False


def pages(chart: Chart, paper: str = "A4") -> list[Page]:
    """The pages of a chart, in order. paper: "A4" or "Letter". ValueError where there would be more than 400."""
    rooms = {landscape: _room(paper, landscape) for landscape in (False, True)}
    whole = chart.picture
    for landscape, (across, down) in rooms.items():
        if whole.width <= across and whole.height <= down:
            return [Page(whole, "", landscape)]
    laid = chart.laid
    landscape, parts = min(((lies, _parts(laid, *room)) for lies, room in rooms.items()), key=lambda pair: len(pair[1]))
    if len(parts) > MOST_PAGES:
        raise ValueError(f"the chart would take {len(parts)} pages, more than {MOST_PAGES}; draw it without --whole, so that repeats are shown once")
    first = _front(laid, chart, parts, rooms[landscape], landscape)
    return [first, *(_page(laid, parts, index, landscape) for index in range(len(parts)))]


def _room(paper: str, landscape: bool) -> tuple[float, float]:
    """How much of a sheet of paper there is to draw on, in units."""
    if paper.upper() not in PAPER_MM:
        raise ValueError(f"paper is A4 or Letter, not {paper!r}")
    wide, high = PAPER_MM[paper.upper()][:: -1 if landscape else 1]
    return (wide - 2 * MARGIN_MM[0]) / MM, (high - 2 * MARGIN_MM[1]) / MM


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of the chart: its window, and its place among the parts, columns from the left and rows from below."""

    window: Window
    column: int
    row: int


def _parts(laid: Laid, wide: float, high: float) -> list[_Part]:
    """The parts, from below upwards and from right to left, as rows are worked: each fits into the room."""
    left, top, right, bottom = laid.marks().box
    columns = max(1, ceil((right - left - 2 * BESIDE) / (wide - 2 * BESIDE)))
    edges = [left - 1 + (right - left + 2) * at / columns for at in range(columns + 1)]
    bands = _bands(laid, high - 2 * ABOVE, top, bottom)
    return [_Part(Window(first, last, edges[at], upper, edges[at + 1], lower, OVER), at, row)
            for row, (first, last, upper, lower) in enumerate(bands) for at in range(columns - 1, -1, -1)]


def _bands(laid: Laid, high: float, top: float, bottom: float) -> list[tuple]:
    """(first line, last line, top, bottom) of parts one over the other, from below, none higher than `high`."""
    lines, ground = laid.lines, laid.ground
    if ground.around or any(one.numbered_at for one in lines):
        many = max(1, ceil((bottom - top) / high))
        step = (bottom - top + 2) / many
        return [(0, len(lines), bottom + 1 - step * (at + 1), bottom + 1 - step * at) for at in range(many)]
    spans = []
    for one in lines:
        ys = [y for item in one.items for y in (ground.point(item.u, item.v)[1] - 4, ground.point(item.u, item.v - item.tall)[1])]
        spans.append((min(ys, default=0.0), max(ys, default=0.0)))
    once = _filled_from_below(spans, high, len(lines))
    return _filled_from_below(spans, high, ceil(len(lines) / len(once)))  # evenly, so that no page is left with a row or two


def _filled_from_below(spans, high: float, most: int) -> list[tuple]:
    """Bands of as many lines as go into a height, `most` at most."""
    out, first = [], 0
    while first < len(spans):
        last = first + 1
        up, low = spans[first]
        while last < len(spans) and last - first < most and max(low, spans[last][1]) - min(up, spans[last][0]) <= high:
            up, low = min(up, spans[last][0]), max(low, spans[last][1])
            last += 1
        out.append((first, last, up - 2, low + 2))
        first = last
    return out


def _page(laid: Laid, parts: list[_Part], index: int, landscape: bool) -> Page:
    """The page of one part: its stitches, those beside it faintly, numbers, and where it goes on."""
    part = parts[index]
    window, ground = part.window, laid.ground
    by_rows = not ground.around and (window.first, window.last) != (0, len(laid.lines))
    tall = Window(0, 0, window.left, -1e9, window.right, 1e9) if by_rows else window

    def shown(at, item):
        x, y = ground.point(item.u, item.v)
        if not by_rows or window.first <= at < window.last:
            return WHOLE if tall.holds(x, y) else FAINT if tall.holds(x, y, OVER) else LEFT_OUT
        return FAINT if at == window.first - 1 and tall.holds(x, y, OVER) else LEFT_OUT

    beside = laid.marks(window)
    left, top, right, bottom = beside.box
    left, right = min(left, window.left - OVER) - EDGE, max(right, window.right + OVER) + EDGE
    top, bottom = min(top, window.top - OVER) - EDGE - 2 * TYPE, max(bottom, window.bottom + OVER) + EDGE + 2 * TYPE
    arrows = _arrows(parts, part, laid.names.words, left, top, right, bottom)
    body = f'<g transform="translate({-left:.1f} {-top:.1f})">{laid.stitches(shown)}{beside.drawn}{_edges(parts, part, window)}{arrows}</g>'
    words = _told(laid, window, part, parts, index)
    picture = Picture(right - left, bottom - top, body, f"{laid.title}, {words}", words, mm=(right - left) * MM)
    return Page(picture, words, landscape)


def _number_of(parts, part: _Part, columns: int, rows: int) -> int | None:
    """The number of the page beside a part, None where there is none. The page with the whole in small is the first."""
    return next((at + 2 for at, one in enumerate(parts) if (one.column, one.row) == (part.column + columns, part.row + rows)), None)


def _edges(parts, part: _Part, window: Window) -> str:
    """Dashed lines where the chart is cut from top to bottom."""
    out = []
    for way, x in ((-1, window.left), (1, window.right)):
        if _number_of(parts, part, way, 0) is not None:
            out.append(line(x, window.top - 6, x, window.bottom + 6, width=0.6, opacity=0.6, dashes="2 3"))
    return "".join(out)


def _arrows(parts, part: _Part, words, left, top, right, bottom) -> str:
    """On which pages the chart goes on, at the four sides."""
    out, middle = [], (left + right) / 2
    for way, sign, x, y, anchor in (((-1, 0), "\u2190", left + 4, top + TYPE, "start"), ((1, 0), "\u2192", right - 4, top + TYPE, "end"),
                                    ((0, 1), "\u2191", middle, top + TYPE, "middle"), ((0, -1), "\u2193", middle, bottom - 3, "middle")):
        found = _number_of(parts, part, *way)
        if found is not None:
            out.append(text(x, y, words["goes_on"].format(arrow=sign, page=found), size=TYPE - 0.5, anchor=anchor))
    return "".join(out)


def _told(laid: Laid, window: Window, part: _Part, parts, index: int) -> str:
    """What a page shows, in words: which of the parts, and which rows."""
    words = laid.names.words
    out = words["part"].format(n=index + 1, all=len(parts))
    labels = [one.label for one in laid.lines[window.first : window.last] if one.what == WORKED and one.label]
    if labels and (window.first, window.last) != (0, len(laid.lines)):
        out += ", " + (labels[0] if len(labels) == 1 else words["from_to"].format(first=labels[0], last=labels[-1]))
    columns = 1 + max(one.column for one in parts)
    if columns > 1:
        out += ", " + (words["left"] if not part.column else words["right"] if part.column == columns - 1 else words["middle"])
    return out


def _front(laid: Laid, chart: Chart, parts, room, landscape: bool) -> Page:
    """The first page: all of it in small with the pages marked, the key, and what holds for all of it."""
    wide, high = room
    left, top, right, bottom = laid.marks().box
    signs, low = laid.key(wide, 0.0)
    small = min(wide / (right - left + 20), max(high - low - 40, high / 4) / (bottom - top + 20), 0.8)
    inside = laid.stitches() if chart.symbols <= MOST_IN_SMALL else _outline(laid)
    frames = []
    for at, part in enumerate(parts):
        window = part.window
        x, y = window.left, max(window.top, top)
        across, down = window.right - x, min(window.bottom, bottom) - y
        frames.append(f'<path d="M{x:.1f} {y:.1f}h{across:.1f}v{down:.1f}h{-across:.1f}Z" fill="none" stroke="currentColor" stroke-width="{1 / small:.1f}"/>')
        size = min(16 / small, down * 0.5, across * 0.5)
        frames.append(f'<g fill="#b3261e">{text(x + across / 2, y + down / 2 + size * 0.35, str(at + 2), size=size, anchor="middle", strong=True)}</g>')
    tall = (bottom - top) * small
    shift = (wide - (right - left) * small) / 2
    body = (f'<g transform="translate({number(shift - left * small)} {number(6 - top * small)})scale({small:.4f})"><g opacity="0.55">{inside}</g>{"".join(frames)}</g>'
            f'<g transform="translate(0 {tall + 24:.1f})">{signs}</g>')
    words = laid.names.words["overview"].format(n=len(parts))
    return Page(Picture(wide, tall + 24 + low + 8, body, f"{laid.title}, {letters(words)}", words, mm=wide * MM), words, landscape)


def _outline(laid: Laid) -> str:
    """Only the tops of the rows, for charts of very many stitches."""
    out = []
    for one in laid.lines:
        if one.what == WORKED and one.items:
            points = [laid.ground.point(item.u, item.v) for item in one.items[:: max(1, len(one.items) // 200)]]
            out.append(f'<path d="M{"L".join(f"{x:.1f} {y:.1f}" for x, y in points)}" fill="none" stroke="currentColor"/>')
    return "".join(out)
