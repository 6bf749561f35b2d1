"""What stands beside the stitches of a chart: numbers of the rows where they begin, how often rows and stitches are worked."""

from dataclasses import dataclass
from math import cos, radians, sin

from .chart_drawing import Names
from .chart_lines import WORKED, Line
from .chart_repeats import Along
from .picture import text

TYPE = 9.5
LETTER = 5.2
TENS = 10
DASHED = 'fill="none" stroke="currentColor" stroke-width="0.9" stroke-dasharray="4 3"'


@dataclass(frozen=True, slots=True)
class Window:
    """A part of a chart: the rows at `first` to before `last` of its lines, and a rectangle of the drawing."""

    first: int
    last: int
    left: float
    top: float
    right: float
    bottom: float
    over: float = 0.0  # how far over its edge there is something yet

    def holds(self, x: float, y: float, more: float = 0.0) -> bool:
        """Whether a point lies in the rectangle, made larger by `more`."""
        return self.left - more <= x < self.right + more and self.top - more <= y < self.bottom + more


def span_of(lines: list[Line], ground) -> tuple[float, float, float, float]:
    """left, top, right, bottom of all tops and feet."""
    points = [ground.point(item.u, item.v) for line in lines for item in line.items] or [(0.0, 0.0)]
    if not ground.around:
        points += [ground.point(item.u, item.v - item.tall) for line in lines[:2] for item in line.items if line.what == WORKED]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


class Marks:
    """The marks of a chart or of a part of it: `drawn`, and the box (left, top, right, bottom) that all of it takes.

    lettered: numbers of rows with their colours. window: the part that is shown.
    """

    def __init__(self, lines, ground, names: Names, along, lettered, window: Window | None = None):
        self.lines, self.ground, self.names, self.window = lines, ground, names, window
        self.coloured = lettered and len({name for line in lines for name in line.colours if name}) > 1
        left, top, right, bottom = span_of(lines, ground)
        if window is not None:
            left, top, right, bottom = max(left, window.left), max(top, window.top), min(right, window.right), min(bottom, window.bottom)
        self.left, self.top, self.right, self.bottom = left - 6, top, right + 6, bottom + 6
        self.out = []
        if ground.around and not ground.half:
            self._rounds()
        else:
            self._rows()
            if not lettered and not along:
                self._tens()
            self._times()
            for one in along:
                self._box(one)
            self.bottom += 14 if along else 0
        self.drawn = "".join(self.out)
        self.box = self.left, self.top, self.right, self.bottom

    def _shown(self, line: Line, index: int) -> list:
        """The items of a row that are shown."""
        window = self.window
        if window is None:
            return line.items
        if not window.first <= index < window.last:
            return []
        return [item for item in line.items if window.holds(*self.ground.point(item.u, item.v))]

    def _rounds(self):
        for line in self.lines:
            if line.what == WORKED and line.items:
                first = next((item for item in line.items if not item.join), line.items[0])
                before = self.lines[line.below].level if line.below >= 0 else 0.0
                middle = (line.level + before) / 2
                once = self.ground.around_length(middle)
                x, y = self.ground.point(first.u - (first.wide / 2 + 5) / once, middle)
                if self.window is None or self.window.holds(x, y):
                    words = number_of(line, False)
                    if line.times > 1 and line.period == 1 and line.number is not None:
                        words += f"\u2013{line.number + line.times - 1}"
                    self.out.append(text(x, y + 2.8, words, size=TYPE - 1.5, anchor="middle", strong=True))

    def _rows(self):
        for index, line in enumerate(self.lines):
            items = self._shown(line, index) if line.what == WORKED else ()
            if not items:
                continue
            item = items[-1 if line.rtl else 0]
            words = number_of(line, self.coloured)
            if self.ground.around:
                item = items[-1 if line.side == "WS" else 0]
                x, y = self.ground.point(item.u, line.level - 4)
                self.out.append(text(x, y - 9, words, size=TYPE, anchor="middle", strong=True))
                self.top = min(self.top, y - 9 - TYPE)
            elif line.numbered_at:
                self._turned(line, words)
            else:
                cut = self.window is not None and item is not line.items[-1 if line.rtl else 0]
                tall = line.level - (self.lines[line.below].level if line.below >= 0 else 0.0)
                self._beside(item, tall, words, 1 if line.rtl else -1, self.window.over if cut else 0.0)

    def _beside(self, item, tall: float, words: str, sign: int, away: float):
        """A number and an arrow half way up a row that is so tall. sign: 1 at the right, -1 at the left. away: how far off, where it is cut there."""
        x, y = self.ground.point(item.u, item.v - max(tall, 8.0) / 2 if item.tall else item.v)  # a cell is placed by its middle
        x += sign * (10 + away)
        wide = len(words) * LETTER + 18
        self.out.append(_arrow(x + sign * 4, y, -sign))
        self.out.append(text(x + sign * 13, y + 3.3, words, size=TYPE, anchor="start" if sign > 0 else "end", strong=True))
        self.left, self.right = min(self.left, x - wide if sign < 0 else x), max(self.right, x + wide if sign > 0 else x)

    def _turned(self, line: Line, words: str):
        """A number and an arrow in any direction."""
        x, y, way = line.numbered_at
        wide = len(words) * LETTER + 18
        if self.window is not None and not self.window.holds(x, y, 30.0):
            return
        self.out.append(f'<g transform="translate({x:.1f} {y:.1f})rotate({way:.0f})">{_arrow(0, 0, 1)}</g>')
        x -= cos(radians(way)) * 12
        y -= sin(radians(way)) * 11
        anchor = "middle" if abs(way) == 90 else "start" if way else "end"
        self.out.append(text(x, y + 3.3, words, size=TYPE, anchor=anchor, strong=True))
        self.left, self.right, self.top, self.bottom = min(self.left, x - wide), max(self.right, x + wide), min(self.top, y - TYPE), max(self.bottom, y + TYPE)

    def _tens(self):
        """In a grid of cells a stronger line after every tenth stitch, counted from the right, and every tenth row, and the number under it."""
        worked = [line for line in self.lines if line.what == WORKED and line.items]
        cell, first = worked[0].items[-1].wide, worked[0].items[-1].u
        right, left = max(line.items[-1].u for line in worked) + cell / 2, min(line.items[0].u for line in worked) - cell / 2
        top, bottom = -worked[-1].items[0].v - cell / 2, -worked[0].items[0].v + cell / 2
        window = self.window
        if window is not None:
            right, left, top, bottom = min(right, window.right), max(left, window.left), max(top, window.top), min(bottom, window.bottom)
        for count in range(TENS, int((first - left) / cell) + 2, TENS):
            x = first - (count - 0.5) * cell
            if left < x < right:
                self.out.append(line_of(x, top, x, bottom))
                self.out.append(text(x + cell / 2, bottom + TYPE + 1, str(count), size=TYPE - 1.5, anchor="middle"))
        for line in worked:
            y = -line.items[0].v - cell / 2
            if line.number is not None and line.number % TENS == 0 and top < y < bottom:
                self.out.append(line_of(left, y, right, y))
        self.bottom = max(self.bottom, bottom + TYPE + 4)

    def _times(self):
        """Brackets beside rows that are worked again and again."""
        longest = 0
        for index, line in enumerate(self.lines):
            last = index + line.period - 1
            if line.times < 2 or self.window is not None and (last < self.window.first or index >= self.window.last):
                continue
            floor = self.lines[line.below].level if line.below >= 0 else 0
            high, low = self.ground.point(0, self.lines[last].level)[1] + 1, self.ground.point(0, floor)[1] - 1
            ends = ["h3", "h-3"]
            if self.window is not None:
                ends = ["h3" if high >= self.window.top else "m3 0", "h-3" if low <= self.window.bottom else ""]
                high, low = max(high, self.window.top), min(low, self.window.bottom)
            x = self.right + 7
            self.out.append(f'<path d="M{x - 3:.1f} {high:.1f}{ends[0]}V{low:.1f}{ends[1]}" fill="none" stroke="currentColor"/>')
            words = self.names.words["times"].format(n=line.times)
            self.out.append(text(x + 5, (high + low) / 2 + 3, words, size=TYPE))
            longest = max(longest, len(words))
        if longest:
            self.right += 14 + LETTER * longest

    def _box(self, along: Along):
        """Dashed lines on both sides of what repeats along the rows, and how often."""
        lines, ends, window = self.lines, [], self.window
        first, last = (window.first, window.last) if window is not None else (0, len(lines))
        for side in (0, 1):
            points = []
            for line, cut in list(zip(lines, along.cuts, strict=True))[first:last]:
                at = cut[side]
                if not line.items:
                    continue
                one, other = line.items[max(at - 1, 0)], line.items[min(at, len(line.items) - 1)]
                u = line.items[0].u - line.items[0].wide / 2 if at == 0 else line.items[-1].u + line.items[-1].wide / 2 if at >= len(line.items) else (one.u + other.u) / 2
                points.append((u, (one.v + other.v) / 2))
            if not points:
                return
            points = [self.ground.point(*point) for point in (*points, (points[-1][0], points[-1][1] + 6))]
            points = [(points[0][0], self.bottom), *points]
            if window is None or window.left <= points[0][0] < window.right:
                path = "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
                self.out.append(f'<path d="M{path}" {DASHED}/>')
            ends.append(points[0][0])
        one, other = ends
        if window is not None:
            if first or other < window.left or one >= window.right:
                return
            one, other = max(one, window.left), min(other, window.right)
        self.out.append(f'<path d="M{one:.1f} {self.bottom:.1f}H{other:.1f}" {DASHED}/>')
        self.out.append(text((one + other) / 2, self.bottom + 11, self.names.words["along"].format(n=along.times), size=TYPE, anchor="middle"))


def line_of(x1: float, y1: float, x2: float, y2: float) -> str:
    """A strong line of a grid."""
    return f'<path d="M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}" fill="none" stroke="currentColor" stroke-width="1.6"/>'


def number_of(line: Line, coloured: bool) -> str:
    """The number of a row, with the letter of its colour where rows have several."""
    words = str(line.number) if line.number is not None else line.label[:18]
    return f"{words} {line.colours[0]}".strip() if coloured and line.colours and line.colours[0] and len(line.colours[0]) < 3 else words


def _arrow(x: float, y: float, way: int) -> str:
    return f'<path d="M{x - way * 4:.1f} {y:.1f}h{way * 8}m{-way * 2.6:.1f} -2.4l{way * 2.6:.1f} 2.4l{-way * 2.6:.1f} 2.4" fill="none" stroke="currentColor"/>'
