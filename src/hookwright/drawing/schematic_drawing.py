"""A schematic: the outline of a piece with its measurements beside it in both units and every size, and an arrow for the direction of the work.

Where there are few sizes the lengths stand at their lines, else letters that a list below tells. One colour; lines of measurement are thin,
with arrowheads, and stand off the outline.
"""

from .picture import Picture, line, number, text
from .schematic_parts import SchematicPart

WIDTH = 380.0  # units, at most
MM_A_UNIT = 0.26  # on paper: type of 13 units is 9.6 pt
TYPE, SMALL, LETTER = 12.0, 11.0, 6.4
_ROOM = 240.0, 190.0  # units for the outline at most
_LEAST = 46.0  # units: a piece that would be smaller is drawn larger
_OFF, _BETWEEN = 12.0, 34.0
_HEAD = 4.5
_BAND = 5  # times as long as wide, or more
_ARROW = 9.0  # units: a shorter arrow of the direction is left out
_IN_PLACE = 3  # sizes whose lengths stand at the lines
_FEW = 34  # letters that such lengths may have
_NAMES = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def schematic(part: SchematicPart, show, *, title: str, legend: str, around: str = "around", scale: float | None = None, foot: str = "", other_scale: str = "", heading: bool = True) -> Picture:
    """The picture of a part. show(values) -> (text in cm, text in inches), units included; legend: what the arrow means; around: the word for
    lengths that go round; foot: a line below all; other_scale: added to it where the piece can't be drawn at `scale`. heading: whether the title stands in the drawing, too.

    scale: units a mm, so that pieces of one pattern stand to each other as they are; None for the largest that fits.
    """
    left, bottom, right, top = part.outline.box
    wide, tall = max(right - left, 1.0), max(top - bottom, 1.0)
    fits = min(_ROOM[0] / wide, _ROOM[1] / tall)
    wanted = scale or fits
    scale = max(min(wanted, fits), min(_LEAST / max(wide, tall) * 1.5, fits))
    if other_scale and not wanted * 0.95 < scale < wanted * 1.05:
        foot = f"{foot} {other_scale}".strip()
    said = [show(dim.values) for dim in part.dims]
    sizes = max((len(dim.values) for dim in part.dims), default=1)
    in_place = sizes <= _IN_PLACE and all(len(words) <= _FEW for both in said for words in both) and not _close(part.dims, scale)
    letter: dict = {}  # lengths that are the same in all sizes go by one letter
    names = [letter.setdefault((both, "around" in dim.name), _NAMES[len(letter) % 26]) for dim, both in zip(part.dims, said, strict=True)]
    said_at = [(f"{around} {cm}", inch) if "around" in dim.name else (cm, inch) for dim, (cm, inch) in zip(part.dims, said, strict=True)]
    labels = [list(both) if in_place else [name] for both, name in zip(said_at, names, strict=True)]
    listed = [] if in_place else list(dict(zip(names, said_at, strict=True)).items())
    return _Drawing(part, scale, labels, listed, title, legend, foot, heading).picture(said)


def _close(dims, scale: float) -> bool:
    """Whether lengths on the right follow each other so closely that two lines of words would not fit beside each."""
    right = [dim for dim in dims if dim.side == "right"]
    return bool(right) and (any(abs(dim.end[1] - dim.start[1]) * scale < 30 for dim in right) or any(dim.side in ("inside", "beside") for dim in dims))


def side_by_side(pictures, *, title: str, wide: float = 2 * WIDTH) -> Picture:
    """Several pictures as one, in rows from left to right."""
    x = y = high = across = 0.0
    body = []
    for one in pictures:
        if x and x + one.width > wide:
            x, y, high = 0.0, y + high + _BETWEEN, 0.0
        body.append(f'<g transform="translate({number(x)} {number(y)})">{one.body}</g>')
        x, high = x + one.width + _BETWEEN, max(high, one.height)
        across = max(across, x - _BETWEEN)
    words = " ".join(f"{one.title}: {one.words}" for one in pictures)
    return Picture(across, y + high, "".join(body), title, words, across * MM_A_UNIT)


def units_a_mm(parts) -> float:
    """The scale at which these fit, so that they can stand side by side; long bands set none where there is anything else."""
    boxes = [part.outline.box for part in parts]
    boxes = [box for box in boxes if max(box[2] - box[0], box[3] - box[1]) < _BAND * min(box[2] - box[0], box[3] - box[1])] or boxes
    return min(min(_ROOM[0] / max(right - left, 1.0), _ROOM[1] / max(top - bottom, 1.0)) for left, bottom, right, top in boxes)


class _Drawing:
    def __init__(self, part, scale, labels, listed, title, legend, foot, heading):
        self.part, self.scale, self.labels, self.listed, self.title, self.legend, self.foot, self.heading = part, scale, labels, listed, title, legend, foot, heading
        left, bottom, right, top = part.outline.box
        self.left, self.top = left, top
        self.wide, self.tall = (right - left) * scale, (top - bottom) * scale
        longest = {side: max((len(words) for dim, label in zip(part.dims, labels, strict=True) if dim.side in ((side, "beside", "inside", "slant") if side == "right" else (side,)) for words in label), default=0)
                   for side in ("left", "right")}
        room = {side: (_OFF + 13 + longest[side] * LETTER if longest[side] else 8.0) for side in longest}
        across = max((len(words) * LETTER for dim, label in zip(part.dims, labels, strict=True) if dim.side in ("below", "above") for words in label), default=0.0)
        spare = max(0.0, (across - self.wide) / 2)
        self.x0 = max(room["left"], spare + 4)
        self.width = self.x0 + self.wide + max(room["right"], spare + 4)
        high = max((len(label) for dim, label in zip(part.dims, labels, strict=True) if dim.side == "above"), default=0)
        self.y0 = (20 if heading else 0) + (_OFF + high * 14 + self._lanes("above") * 16 if high else 6)
        self.below = self.y0 + self.tall

    def _lanes(self, side: str) -> int:
        """Lines of lengths that lie beside each other on a side may need a second line for their words."""
        return 1 if self._crowded(side) else 0

    def _crowded(self, side: str) -> bool:
        spans = sorted((min(dim.start[0], dim.end[0]), max(dim.start[0], dim.end[0]), max(map(len, label)) * LETTER) for dim, label in zip(self.part.dims, self.labels, strict=True) if dim.side == side)
        ends = [((low + high) / 2 * self.scale - words / 2, (low + high) / 2 * self.scale + words / 2) for low, high, words in spans]
        return any(one[1] + 4 > other[0] for one, other in zip(ends, ends[1:], strict=False))

    @property
    def _has_arrow(self) -> bool:
        """Whether there is an arrow, and room for it."""
        arrow = self.part.outline.arrow
        return arrow is not None and (abs(arrow[1][0] - arrow[0][0]) + abs(arrow[1][1] - arrow[0][1])) * self.scale >= _ARROW

    def at(self, point) -> tuple[float, float]:
        return self.x0 + (point[0] - self.left) * self.scale, self.y0 + (self.top - point[1]) * self.scale

    def picture(self, said) -> Picture:
        body = [*([text(0, 13, self.title, size=13, strong=True)] if self.heading else []), *self._outline()]
        turn = 0
        for dim, label in zip(self.part.dims, self.labels, strict=True):
            body.append(self._dim(dim, label, turn if dim.side == "above" and self._crowded("above") else 0))
            turn = 1 - turn if dim.side == "above" else turn
        deep = max((len(label) for dim, label in zip(self.part.dims, self.labels, strict=True) if dim.side == "below"), default=0)
        y = self.below + (_OFF + deep * 14 + 6 if deep else 8)
        lines, y = self._list(y)
        body += lines
        width = max(self.width, max((len(words) * 6.3 for words in self._said), default=0), len(self.title) * 8.3 if self.heading else 0)
        return Picture(width, y, "".join(body), self.title, self._words(said), width * MM_A_UNIT)

    # ------------------------------------------------------------ parts of the drawing

    def _path(self, points, closed: bool = False) -> str:
        return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in map(self.at, points)) + ("Z" if closed else "")

    def _outline(self) -> list[str]:
        outline = self.part.outline  # fills of strips may lie on each other; where there are holes there is one fill
        filled = "".join(self._path(one, True) for one in (*outline.fills, *outline.holes))
        out = [f'<path d="{filled}" fill-opacity="0.08" fill-rule="{"evenodd" if outline.holes else "nonzero"}"/>']
        strokes = "".join(self._path(one, one[0] == one[-1]) for one in self.part.outline.lines)
        out.append(f'<path d="{strokes}" fill="none" stroke="currentColor" stroke-width="1.6" stroke-linejoin="round" stroke-linecap="round"/>')
        out += [f'<path d="{self._path(one)}" fill="none" stroke="currentColor" stroke-width="1" stroke-dasharray="4 3"/>' for one in self.part.outline.dashed]
        if self._has_arrow:
            (x1, y1), (x2, y2) = map(self.at, self.part.outline.arrow)
            out.append(_arrow(x1, y1, x2, y2, width=1.6, head=7.0, both=False))
        return out

    def _dim(self, dim, label, lane: int) -> str:
        (x1, y1), (x2, y2) = self.at(dim.start), self.at(dim.end)
        out = []
        if dim.side == "slant":
            return self._slanted(dim, label)
        narrow = dim.side == "inside" and x2 - x1 < max(map(len, label)) * LETTER + 12
        if dim.side == "beside" or narrow:
            out = [line(x1, y1, x2, y2, width=0.8, dashes="4 3")] if narrow else []
            x = self.x0 + self.wide + _OFF
            return "".join(out) + _guide(x2, y2, x, y2) + "".join(text(x + 4, y2 + 4 - (len(label) - 1) * 7 + at * 14, words, size=TYPE) for at, words in enumerate(label))
        if dim.side in ("below", "above", "inside"):
            y = {"below": self.below + _OFF, "above": self.y0 - _OFF, "inside": y1}[dim.side]
            if dim.side != "inside":
                out += [_guide(x, edge, x, y) for x, edge in ((x1, y1), (x2, y2))]
            out.append(_arrow(x1, y, x2, y))
            middle = (x1 + x2) / 2
            below = dim.side == "below"
            for at, words in enumerate(label):
                base = y + 13 + at * 14 if below else y - 5 - (len(label) - 1 - at) * 14 - lane * 16
                out.append(text(middle, base, words, size=TYPE, anchor="middle"))
        else:
            x = self.x0 - _OFF if dim.side == "left" else self.x0 + self.wide + _OFF
            out += [_guide(edge, y, x, y) for edge, y in ((x1, y1), (x2, y2))]
            out.append(_arrow(x, y1, x, y2))
            middle = (y1 + y2) / 2 + 4 - (len(label) - 1) * 7
            for at, words in enumerate(label):
                out.append(text(x - 6 if dim.side == "left" else x + 6, middle + at * 14, words, size=TYPE, anchor="end" if dim.side == "left" else "start"))
        return "".join(out)

    def _slanted(self, dim, label) -> str:
        """Words along a dashed diagonal, from lower left to upper right, in the middle of its upper half."""
        (x1, y1), (x2, y2) = self.at(dim.start), self.at(dim.end)
        x, y = x1 + (x2 - x1) * 0.66, y1 + (y2 - y1) * 0.66
        if x2 - x1 < 1.6 * max(map(len, label)) * LETTER:  # too small for words inside
            x, y = self.x0 + self.wide + 4, y1 + (y2 - y1) * 0.75
            return _guide(x1 + (x2 - x1) * 0.75, y, x, y) + "".join(text(x + 3, y + 4 - (len(label) - 1) * 7 + at * 14, words, size=TYPE) for at, words in enumerate(label))
        return "".join(text(x - 6, y - 2 - (len(label) - 1 - at) * 14, words, size=TYPE, anchor="end") for at, words in enumerate(label))

    def _list(self, y: float) -> tuple[list[str], float]:
        """What the letters stand for, what the arrow means and the note, one line each."""
        out, self._said = [], []
        for name, (cm, inch) in self.listed:
            both = f"{cm} · {inch}"
            rows = [both] if len(both) * 6.0 < WIDTH - 18 else [cm, inch]
            y += 3
            out.append(text(0, y + 12, name, size=TYPE, strong=True))
            for words in rows:
                y += 14
                out.append(text(16, y - 2, words, size=SMALL))
                self._said.append("   " + words)
        for words in ([self.legend] if self._has_arrow and self.legend else []) + ([self.foot] if self.foot else []):
            y += 17
            if words is self.legend:
                out.append(_arrow(2, y - 4, 14, y - 4, width=1.4, head=5.0, both=False))
            out.append(text(20 if words is self.legend else 0, y, words, size=SMALL))
            self._said.append("    " + words)
        return out, y + 6

    def _words(self, said) -> str:
        told = [f"{name}: {_spoken(both)}" for name, both in zip((dim.name for dim in self.part.dims), said, strict=True)]
        return "; ".join([*told, *([self.foot] if self.foot else [])]) + "."


def _spoken(both) -> str:
    return f"{both[0]} ({both[1]})"


def _guide(x1: float, y1: float, x2: float, y2: float) -> str:
    """The thin line from the outline to its length."""
    return line(x1, y1, x2, y2, width=0.6, opacity=0.45)


def _arrow(x1: float, y1: float, x2: float, y2: float, *, width: float = 0.9, head: float = _HEAD, both: bool = True) -> str:
    """A line with heads at its ends, or at the second alone."""
    long = max(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5, 1e-6)
    ux, uy = (x2 - x1) / long, (y2 - y1) / long
    head = min(head, long / 2 if both else long * 0.7)
    out = [line(x1, y1, x2, y2, width=width)]
    for x, y, way in ((x2, y2, 1), (x1, y1, -1)) if both else ((x2, y2, 1),):
        bx, by = x - way * ux * head, y - way * uy * head
        px, py = -uy * head * 0.42, ux * head * 0.42
        out.append(f'<path d="M{number(x)} {number(y)}L{number(bx + px)} {number(by + py)}L{number(bx - px)} {number(by - py)}Z"/>')
    return "".join(out)


