"""A piece as it stands on a schematic: its outline in mm and the lengths measured along it, one a size."""

from dataclasses import dataclass, field

from .schematic_plan import Plan

_CORNER = 1.3  # of a stitch: an edge is drawn straight where it is nearer than this to a straight line
_LACE_CORNER = 3.5  # the same for lace, whose edges go in and out with its groups
_STEP = 1.6  # stitches at once make a step in an edge, not a slope
_LEVEL = 0.07  # of the height: turns of the outline nearer than this are one
_SAME = 1.2  # stitches: widths nearer than this are one width


@dataclass(slots=True)
class Dim:
    """A length beside an outline, from one place to another (mm, y up). side: "below", "above", "left", "right" or "inside"; name: what it is;
    values: its length in mm in each size, None where a size has none."""

    name: str
    start: tuple[float, float]
    end: tuple[float, float]
    side: str
    values: tuple


@dataclass(slots=True)
class Outline:
    """fills: closed polygons; lines: open ones that are drawn; dashed: lines within; arrow: (foot, tip) of the direction in which it is worked;
    holes: closed polygons that the fills leave out."""

    fills: list = field(default_factory=list)
    lines: list = field(default_factory=list)
    dashed: list = field(default_factory=list)
    arrow: tuple | None = None
    holes: list = field(default_factory=list)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """(left, bottom, right, top) in mm."""
        points = [point for polygon in (*self.fills, *self.lines) for point in polygon]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return min(xs), min(ys), max(xs), max(ys)


@dataclass(slots=True)
class SchematicPart:
    """name: heading of the piece; outline of the size shown; dims of all sizes. arrow_says: "rows" or "rounds"; note: more to be said of it;
    solved: the outline is that of the solved surface."""

    name: str
    outline: Outline
    dims: list
    arrow_says: str = "rows"
    note: str = ""
    solved: bool = False


# ---------------------------------------------------------------- pieces worked in rows

def of_plans(plans: list, fabrics, shown: int) -> SchematicPart:
    """A piece worked in rows. plans: its Plan in each size, None where a size has none; shown: the size that is drawn."""
    drawn = plans[shown]
    first = drawn.strips[0]
    outline = _outline(drawn)
    names = (drawn.names[0],)
    levels = _levels(first, drawn)
    return SchematicPart(names[0], outline, [*_widths(plans, shown), *_between(plans, fabrics, shown, levels), *_heights(plans, fabrics, shown, levels)])


def edges(strip, stitch_mm: float, lace: bool = False) -> tuple[list, list]:
    """(left edge, right edge) of a strip from the bottom up, as corners [(x, y, row it stands on top of, -1 at the foot)], straight between them."""
    out = []
    for side in ("left", "right"):
        points = [(getattr(strip.rows[0], side), strip.rows[0].low, -1)]
        for place, row in enumerate(strip.rows):
            x = getattr(row, side)
            if place and not lace and abs(x - points[-1][0]) > _STEP * stitch_mm:
                points.append((x, row.low, place - 1))
            points.append((x, row.high, place))
        out.append(simplified(points, (_LACE_CORNER if lace else _CORNER) * stitch_mm))
    return out[0], out[1]


def simplified(points: list, near: float) -> list:
    """The corners without which the line would go astray by more than `near`."""
    if len(points) < 3:
        return points
    keep, stack = {0, len(points) - 1}, [(0, len(points) - 1)]
    while stack:
        low, high = stack.pop()
        (x0, y0, _), (x1, y1, _) = points[low], points[high]
        far, at = near, None
        for place in range(low + 1, high):
            x, y, _ = points[place]
            share = (y - y0) / (y1 - y0) if y1 != y0 else 0.0
            off = abs(x - (x0 + (x1 - x0) * share))
            if off > far:
                far, at = off, place
        if at is not None:
            keep.add(at)
            stack += [(low, at), (at, high)]
    return [points[place] for place in sorted(keep)]


def _outline(drawn: Plan) -> Outline:
    out = Outline()
    for at, strip in enumerate(drawn.strips):
        left, right = edges(strip, drawn.stitch_mm, drawn.lace)
        left, right = [point[:2] for point in left], [point[:2] for point in right]
        out.fills.append([*left, *reversed(right)])
        covered = sorted((max(other.rows[0].left, left[-1][0]), min(other.rows[0].right, right[-1][0])) for other in drawn.strips if other.on == at)
        out.lines.append(left)
        out.lines.append(right)
        if strip.on < 0:
            out.lines.append([left[0], right[0]])
        x, y = left[-1][0], left[-1][1]
        for low, high in covered:
            if low > x:
                out.lines.append([(x, y), (low, y)])
            x = max(x, high)
        if right[-1][0] > x:
            out.lines.append([(x, y), (right[-1][0], y)])
    first = drawn.strips[0].rows
    tall = first[-1].high
    low = next((row for row in first if row.high >= tall * 0.3), first[0])
    high = next((row for row in first if row.high >= tall * 0.55), first[-1])
    x, long = (high.left + high.right) / 2, min(tall * 0.3, max(_wide(low), _wide(high), tall * 0.2) * 0.5)
    out.arrow = ((x, tall * 0.3), (x, tall * 0.3 + long))
    return out


def _levels(strip, drawn: Plan) -> list[int]:
    """Rows of the first strip on top of which its outline turns, shoulders begin or it ends; turns close to another count as one."""
    left, right = edges(strip, drawn.stitch_mm, drawn.lace)
    turns = sorted({point[2] for edge in (left, right) for point in edge[1:-1]} | {len(strip.rows) - 1})
    kept: list[int] = []
    least = max(drawn.height_mm * _LEVEL, 1.0)
    for place in turns:
        high = strip.rows[place].high
        if place != turns[-1] and (high - strip.rows[0].low < least or strip.rows[-1].high - high < least):
            continue
        if kept and high - strip.rows[kept[-1]].high < least:
            if not _steps(strip, kept[-1], drawn.stitch_mm):
                kept[-1] = place
        else:
            kept.append(place)
    return kept


def _steps(strip, place: int, stitch_mm: float) -> bool:
    """Whether the outline has a step on top of a row, such as an armhole or a neck begins with."""
    if place + 1 >= len(strip.rows):
        return False
    one, other = strip.rows[place], strip.rows[place + 1]
    return max(abs(one.left - other.left), abs(one.right - other.right)) > _STEP * stitch_mm


def _widths(plans: list, shown: int) -> list[Dim]:
    drawn = plans[shown]
    first, out = drawn.strips[0], []
    bottom, top = first.rows[0], first.rows[-1]
    alike = [one if one is not None and len(one.strips) == len(drawn.strips) and [strip.on for strip in one.strips] == [strip.on for strip in drawn.strips] else None for one in plans]

    def values(of):
        return tuple(None if one is None else of(one) for one in alike)

    out.append(Dim("width", (bottom.left, bottom.low), (bottom.right, bottom.low), "below", values(lambda one: _wide(one.strips[0].rows[0]))))
    above = [at for at, strip in enumerate(drawn.strips) if strip.on >= 0 and not any(other.on == at for other in drawn.strips)]
    same = _SAME * drawn.stitch_mm
    if above:
        order = sorted(above, key=lambda at: drawn.strips[at].rows[-1].left)
        for place, at in enumerate(order):
            row = drawn.strips[at].rows[-1]
            out.append(Dim(f"top of {_heading(drawn.strips[at].name, place)}", (row.left, row.high), (row.right, row.high), "above", values(lambda one, at=at: _wide(one.strips[at].rows[-1]))))
            if place + 1 < len(order):
                nxt = order[place + 1]
                other = drawn.strips[nxt].rows[-1]
                if other.left - row.right > same:
                    high = max(row.high, other.high)
                    out.append(Dim("opening", (row.right, high), (other.left, high), "above",
                                   values(lambda one, at=at, nxt=nxt: max(one.strips[nxt].rows[-1].left - one.strips[at].rows[-1].right, 0.0))))
    elif any(abs(_wide(one.strips[0].rows[-1]) - _wide(one.strips[0].rows[0])) > same for one in alike if one is not None):
        out.append(Dim("width at the top", (top.left, top.high), (top.right, top.high), "above", values(lambda one: _wide(one.strips[0].rows[-1]))))
    widest = max(first.rows, key=_wide)
    if _wide(widest) > max(_wide(bottom), _wide(top)) + same:
        out.append(Dim("widest", (widest.left, widest.high), (widest.right, widest.high), "inside", values(lambda one: max(map(_wide, one.strips[0].rows)))))
    return out


def _between(plans: list, fabrics, shown: int, levels: list[int]) -> list[Dim]:
    """Widths of the stretches that go straight up between two turns of the outline, where they are no width told before."""
    drawn = plans[shown]
    rows, same = drawn.strips[0].rows, _SAME * drawn.stitch_mm
    told, out, before = [_wide(rows[0]), _wide(rows[-1]), max(map(_wide, rows))], [], 0
    for level in levels:
        inside = rows[before : level + 1]
        middle = inside[len(inside) // 2]
        straight = len(inside) > 2 and max(abs(row.left - middle.left) + abs(row.right - middle.right) for row in inside[len(inside) // 4 : len(inside) - len(inside) // 4]) < same
        if straight and all(abs(_wide(middle) - one) > same for one in told):
            told.append(_wide(middle))
            at = before + len(inside) // 2
            values = tuple(None if place is None else _wide(plans[size].strips[0].rows[place]) for size, place in enumerate(_places(plans, fabrics, shown, at)))
            out.append(Dim(f"width of section {len(out) + 1} between", (middle.left, middle.low), (middle.right, middle.low), "inside", values))
        before = level + 1
    return out


def _heading(name: str, place: int) -> str:
    """What a strip is called: by its own heading."""
    return name.lower() if name else f"part {place + 1}"


def _wide(row) -> float:
    return row.right - row.left


def _heights(plans: list, fabrics, shown: int, levels: list[int]) -> list[Dim]:
    drawn = plans[shown]
    left, right = drawn.span
    tall = drawn.height_mm
    out = [Dim("height", (left, 0.0), (left, tall), "left", tuple(None if one is None else one.height_mm for one in plans))]
    marks = [_same_row(plans, fabrics, shown, level) for level in levels]
    ys = [drawn.strips[0].rows[level].high for level in levels]
    if ys[-1] < tall - 1.0:  # shoulders go on above
        ys.append(tall)
        marks.append(tuple(None if one is None else one.height_mm for one in plans))
    if len(ys) < 2:
        return out
    low, before, section = 0.0, tuple(0.0 for _ in plans), 0
    for y, high in zip(ys, marks, strict=True):
        values = tuple(None if high[size] is None or before[size] is None else high[size] - before[size] for size in range(len(plans)))
        section += 1
        out.append(Dim(f"height of section {section} from the bottom", (right, low), (right, y), "right", values))
        low, before = y, high
    return out


def _same_row(plans: list, fabrics, shown: int, level: int) -> tuple:
    """How high the top of the same written row stands in every size."""
    return tuple(None if place is None else plans[size].strips[0].rows[place].high for size, place in enumerate(_places(plans, fabrics, shown, level)))


def _places(plans: list, fabrics, shown: int, level: int) -> tuple:
    """The place of the same written row in every size: its last time, or the time it is in the size shown; None where a size has it not."""
    def written(size):
        return [id(fabrics[size].rows[row.row].row) for row in plans[size].strips[0].rows]

    mine = written(shown)
    which, time = mine[level], mine[: level + 1].count(mine[level])
    last = time == mine.count(which)
    out = []
    for size, one in enumerate(plans):
        if one is None:
            out.append(None)
            continue
        rows = one.strips[0].rows
        if level == len(mine) - 1:
            out.append(len(rows) - 1)
            continue
        found = [place for place, row in enumerate(written(size)) if row == which]
        out.append(None if not found else found[-1] if last else found[time - 1] if time <= len(found) else None)
    return tuple(out)
