"""What stands beside the stitches of a chart: numbers of the rows where they begin, how often rows and stitches are worked."""

from math import cos, radians, sin

from .chart_drawing import Names
from .chart_lines import WORKED, Line
from .chart_repeats import Along
from .picture import text

TYPE = 9.5


def span_of(lines: list[Line], ground) -> tuple[float, float, float, float]:
    """left, top, right, bottom of all tops and feet."""
    points = [ground.point(item.u, item.v) for line in lines for item in line.items] or [(0.0, 0.0)]
    if not ground.around:
        points += [ground.point(item.u, item.v - item.tall) for line in lines[:2] for item in line.items if line.what == WORKED]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def marks(lines, ground, names: Names, along, lettered) -> tuple[str, tuple]:
    """Numbers of the rows (lettered: with their colours) and marks of repeats, and the box (left, top, right, bottom) that all of it takes."""
    left, top, right, bottom = span_of(lines, ground)
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
        if line.numbered_at:
            x, y, way = line.numbered_at
            out.append(_turned_arrow(x, y, way))
            x -= cos(radians(way)) * 12
            y -= sin(radians(way)) * 11
            anchor = "middle" if abs(way) == 90 else "start" if way else "end"
            out.append(text(x, y + 3.3, words, size=TYPE, anchor=anchor, strong=True))
            left, right, top, bottom = min(left, x - wide), max(right, x + wide), min(top, y - TYPE), max(bottom, y + TYPE)
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
        out.append(_box(lines, ground, one, names, bottom))
    bottom += 14 if along else 0
    return "".join(out), (left, top, right, bottom)


def _number(line: Line, coloured: bool) -> str:
    words = str(line.number) if line.number is not None else line.label[:18]
    return f"{words} {line.colours[0]}".strip() if coloured and line.colours and line.colours[0] and len(line.colours[0]) < 3 else words


def _arrow(x: float, y: float, way: int) -> str:
    return f'<path d="M{x - way * 4:.1f} {y:.1f}h{way * 8}m{-way * 2.6:.1f} -2.4l{way * 2.6:.1f} 2.4l{-way * 2.6:.1f} 2.4" fill="none" stroke="currentColor"/>'


def _turned_arrow(x: float, y: float, way: float) -> str:
    return f'<g transform="translate({x:.1f} {y:.1f})rotate({way:.0f})">{_arrow(0, 0, 1)}</g>'


def _box(lines, ground, along: Along, names: Names, low: float) -> str:
    """Dashed lines on both sides of what repeats along the rows, down to `low`, and how often."""
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
        points = [ground.point(*point) for point in (*points, (points[-1][0], points[-1][1] + 6))]
        points = [(points[0][0], low), *points]
        path = "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        out.append(f'<path d="M{path}" fill="none" stroke="currentColor" stroke-width="0.9" stroke-dasharray="4 3"/>')
        feet.append(points[0][0])
    one, other = feet
    out.append(f'<path d="M{one:.1f} {low:.1f}H{other:.1f}" fill="none" stroke="currentColor" stroke-width="0.9" stroke-dasharray="4 3"/>')
    out.append(text((one + other) / 2, low + 11, names.words["along"].format(n=along.times), size=TYPE, anchor="middle"))
    return "".join(out)
