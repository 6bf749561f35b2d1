"""The placed stitches of a chart as SVG: each symbol a group that says what it is, in which row, and where in the manuscript."""

from functools import cache
from math import atan2, degrees, hypot

from hookwright.fabric import FLAG_CORNER

from .chart_grid import cell
from .chart_lines import BELOW, ENDS, RING, WORKED, Item, Line
from .picture import letters
from .symbols import chain_length, drawn, shape, symbol

# Marks for colours in their order: seen on white and on black (3 to 1 at least), and told apart by eyes that see few colours by their lightness.
PALETTE = ("currentColor", "#c2560c", "#2b78c5", "#8a6fd1", "#1f8a5b", "#b8508f", "#8d7b1e", "#6b7785")
LEFT_OUT, FAINT, WHOLE = 0, 1, 2  # how an item is drawn where only a part of a chart is shown
APART = 0.55  # of half the width of a space, how far from its middle a stitch may go into it
CLOSE = 1.2  # between a foot and the top it stands on


class Names:
    """How a chart names things: `dialect` of the sheet, her own names of stitches {kind: name}, words of the chart. spans: places in the
    manuscript, {id of a written row: (from, to)} and {id of a worked row: [(from, to) of the step of each stitch]}."""

    def __init__(self, dialect, own, words, spans):
        self.dialect, self.own, self.words, self.spans = dialect, own, words, spans

    def short(self, kind: str) -> str:
        """The abbreviation, her own name first where she has one."""
        return self.own.get(kind) or self.dialect.abbr(kind)

    @cache  # noqa: B019 - one Names lives as long as one chart
    def title(self, kind: str, loop: str, chains: int, label: str) -> str:
        """What a symbol is and where, escaped."""
        name = f"{self.short('ch')} {chains}" if kind == "ch" and chains else self.short(kind)
        loop = f" {self.words[loop]}" if loop in self.words else ""
        return letters(f"{name}{loop}, {label}" if label else f"{name}{loop}")


def colours_of(lines: list[Line]) -> dict:
    """colour name -> how it is drawn, in the order in which they come."""
    found = dict.fromkeys(item.colour for line in lines for item in line.items if item.index >= 0 and line.what != BELOW)
    return {name: PALETTE[index % len(PALETTE)] for index, name in enumerate(found)}


def stitches(lines: list[Line], ground, names: Names, colours: dict, cells: bool = False, shown=None) -> str:
    """All symbols; cells: as the cells of a grid. shown(line index, item): WHOLE, FAINT or LEFT_OUT, where only a part is drawn."""
    out = []
    for index, line in enumerate(lines):
        part = [shown(index, item) for item in line.items] if shown else None
        if part is not None and not any(part):
            continue
        faint = line.what == BELOW
        row = "" if faint or not line.label else f' data-row="{letters(line.label)}"{at_place(names.spans.get(id(line.row)))}'
        out.append(f'<g{row} opacity="0.45">' if faint else f"<g{row}>")
        steps = names.spans.get(id(line.worked), ())
        for at, item in enumerate(line.items):
            if part is not None and not part[at]:
                continue
            if cells:
                inside = cell(item, *ground.point(item.u, item.v), colours) if line.what == WORKED else ""
            else:
                inside = _inside(lines, line, item, ground, faint)
            if inside:
                drawn_whole = part is None or part[at] == WHOLE
                out.append(_group(inside, item, line, names, colours, steps) if drawn_whole else f'<g opacity="0.3"{_ink(item, colours)}>{inside}</g>')
        out.append("</g>")
    return "".join(out)


def at_place(span) -> str:
    """The attributes that say where in her text something stands."""
    return f' data-from="{span[0]}" data-to="{span[1]}"' if span else ""


def _group(inside, item: Item, line: Line, names: Names, colours, steps) -> str:
    kind = {"foundation ch": "ch"}.get(item.kind, item.kind)
    if kind in ("ring", "row end") or line.what == BELOW:
        return f"<g>{inside}</g>"
    colour = _ink(item, colours)
    label = line.label
    chains = f' data-chains="{item.chains}"' if item.chains else ""
    at = f' data-index="{item.index}"' if item.index >= 0 else ""
    at += at_place(steps[item.index] if 0 <= item.index < len(steps) else item.told)
    kind = "ch" if item.turning else kind
    title = names.title(kind, item.loop, item.chains if kind == "ch" else 0, label)
    return f'<g data-stitch="{letters(kind)}" data-row="{letters(label)}"{at}{chains}{colour}><title>{title}</title>{inside}</g>'


def _ink(item: Item, colours) -> str:
    ink = colours.get(item.colour, "currentColor")
    return f' color="{ink}"' if ink != "currentColor" else ""


def _inside(lines, line: Line, item: Item, ground, faint: bool) -> str:
    if item.kind == "corner":
        return ""
    if line.what == RING and line.wide:
        return f'<path d="M{-line.wide / 2:.1f} {-item.v:.1f}H{line.wide / 2:.1f}"/><circle cx="0" cy="{5 - item.v:.1f}" r="5"/>'
    if line.what == RING:
        return f'<circle cx="0" cy="0" r="{max(line.level, 4.0):.1f}"/>'
    if item.drawn_at:
        return _by_itself(item, *(ground.point(*point) for point in item.drawn_at))
    x, y = ground.point(item.u, item.v)
    if line.what == ENDS:
        return f'<path d="M{x - 7:.1f} {y:.1f}H{x + 7:.1f}M{x - 7:.1f} {y:.1f}v4M{x + 7:.1f} {y:.1f}v4"/>'
    if item.kind == "foundation ch":
        near = ground.point(item.u + 0.001, item.v) if ground.around else (x + 1, y)
        return shape("oval", x, y, degrees(atan2(near[1] - y, near[0] - x)))
    if item.space:
        return _arch(item, ground)
    if item.turning:
        return "" if faint and not item.flags & 1 else shape("tick", x, y) if faint else _standing(lines, line, item, ground)
    if faint:
        return shape("bar", x, y)
    if item.join:
        return shape("dot", x, y)
    sign = symbol(item.kind)
    if sign is None:
        sign = symbol("sc")
    if item.kind == "picot":
        far = ground.point(item.u, item.v + 5)
        return drawn(sign, [(x, y)], far)
    far = ground.point(item.u, item.v + 1)
    return drawn(sign, feet_of(lines, line, item, ground), (x, y), legs=item.legs, loop=item.loop, upright=degrees(atan2(far[0] - x, y - far[1])))


def _by_itself(item: Item, foot, top) -> str:
    """An item that stands nowhere but between two points."""
    if item.kind in ("ch", "foundation ch") or item.turning:
        count = item.chains if item.shown < 0 else item.shown
        return _chains(1 if item.kind == "foundation ch" else count, foot, top)
    if item.join:
        return shape("dot", *top)
    return drawn(symbol(item.kind) or symbol("sc"), [foot], top, legs=item.legs, loop=item.loop)


def _chains(count: int, foot, top) -> str:
    """Chains in a row from one point to another."""
    (fx, fy), (x, y) = foot, top
    turned = degrees(atan2(y - fy, x - fx))
    return "".join(shape("oval", fx + (x - fx) * (at + 0.5) / count, fy + (y - fy) * (at + 0.5) / count, turned) for at in range(count))


def feet_of(lines, line: Line, item: Item, ground) -> list[tuple[float, float]]:
    """The points an item stands on."""
    out = []
    for below, foot in item.feet:
        under = lines[below]
        if under.what == RING:
            out.append(ground.point(item.u, under.level) if ground.around or under.wide else ground.point(0.0, 4.0))
            continue
        if foot < 0:  # into a ring of chains, not into one of them
            out.append(ground.point(item.u, max(under.level - 3, 0)))
            continue
        place = under.items[foot]
        out.append(ground.point(*_in_space(item, place, ground)) if place.space and place.ends else ground.point(place.u, place.v + CLOSE))
    return out or [ground.point(item.u, max(item.v - item.tall, 0.0))]


def _in_space(item: Item, space: Item, ground) -> tuple[float, float]:
    """Where in a space a stitch goes: stitches that share it stand a little apart, along its arch."""
    one, other = space.ends
    half = abs(other.u - one.u) / 2
    aside = item.u - space.u
    if ground.around:
        half, aside = min(half, 0.5 - half), (aside + 0.5) % 1 - 0.5
    if not half:
        return space.u, space.v - 1.5
    (ax, ay), (bx, by) = ground.point(one.u, one.v), ground.point(other.u, other.v)
    narrow = min(1.0, space.chains * chain_length() / (hypot(bx - ax, by - ay) or 1.0))  # chains drawn apart give no more room than they have
    apart = APART * narrow * half * (0.4 if space.flags & FLAG_CORNER else 1.0)
    aside = max(-apart, min(apart, aside))
    return space.u + aside, space.v - 1.5 - (0.0 if space.cornered else space.rise * (aside / half) ** 2)


def _standing(lines, line: Line, item: Item, ground) -> str:
    """Chains that stand up at the start of a row."""
    feet = [lines[below].items[foot].v for below, foot in item.feet if 0 <= foot < len(lines[below].items)]
    foot = feet[0] if feet and lines[item.feet[0][0]].what != RING else lines[line.below].level if feet else max(item.v - min(item.tall, line.level), 0.0)
    fx, fy = ground.point(item.u, foot + 1)
    if feet and not ground.around:
        fx = (fx * 2 + feet_of(lines, line, item, ground)[0][0]) / 3
    return _chains(max(item.chains, 1), (fx, fy), ground.point(item.u, item.v))


def _arch(item: Item, ground) -> str:
    """A run of chains from the top before it to the top after it."""
    one, other = item.ends or (None, None)
    if one is None or one is other:
        half = item.chains * chain_length() / 2 if not ground.around else 0.02
        first, last = ground.point(item.u - half, item.v), ground.point(item.u + half, item.v)
    else:
        first, last = ground.point(one.u, one.v), ground.point(other.u, other.v)
    u = item.u
    if one is not None and other is not None and one is not other:
        gap = other.u - one.u
        if ground.around:
            gap = (gap + 0.5) % 1 - 0.5
        u = one.u + gap / 2
    top = ground.point(u, item.v)
    bend = top if item.cornered else (2 * top[0] - (first[0] + last[0]) / 2, 2 * top[1] - (first[1] + last[1]) / 2)
    out, count = [], item.chains
    for index in range(count):
        t = 0.08 + 0.84 * (index + 0.5) / count
        x, y = ((1 - t) ** 2 * p + 2 * t * (1 - t) * b + t * t * q for p, b, q in zip(first, bend, last, strict=True))
        dx, dy = (2 * (1 - t) * (b - p) + 2 * t * (q - b) for p, b, q in zip(first, bend, last, strict=True))
        out.append(shape("oval", x, y, degrees(atan2(dy, dx))))
    return "".join(out)
