"""The key of a chart: every symbol in it with its name."""

from .chart_drawing import Names
from .chart_grid import CELL, square
from .chart_lines import BELOW, ENDS, RING, WORKED, Line
from .picture import text
from .symbols import drawn, height_of, shape, symbol

COLUMN, TYPE, LETTER = 178.0, 9.5, 4.9


def key(lines: list[Line], names: Names, colours: dict, width: float, y: float, cells: bool = False) -> tuple[str, float]:
    """The key from y down, within a width, and where it ends."""
    entries = _cells(lines, names, colours) if cells else _entries(lines, names)
    columns = max(1, int(width // COLUMN))
    each = width / columns
    out, row = [text(0, y + TYPE, names.words["key"], size=TYPE + 1, strong=True)], []
    y += TYPE + 9
    for index in range(0, len(entries), columns):
        row = entries[index : index + columns]
        tall = max(entry[1] for entry in row) + 7
        for column, (sample, high, words) in enumerate(row):
            x = column * each
            out.append(f'<g fill="none" stroke="currentColor" stroke-width="1.1" transform="translate({x + 14:.1f} {y + (tall + high) / 2:.1f})">{sample}</g>')
            most = int((each - 34) / LETTER)
            for at, part in enumerate(_folded(words, most)[:2]):
                out.append(text(x + 32, y + tall / 2 + TYPE * 0.35 + at * (TYPE + 1) - (TYPE / 2 if len(words) > most else 0), part, size=TYPE))
        y += max(tall, 14.0 if all(len(entry[2]) * LETTER < each - 34 for entry in row) else 24.0)
    x = 0.0
    for sample, high, words in () if cells else _colours(colours):  # side by side, as far as they go
        wide = 32 + len(words) * LETTER + 14
        if x and x + wide > width:
            x, y = 0.0, y + 14
        out.append(f'<g fill="none" stroke="currentColor" stroke-width="1.1" transform="translate({x + 14:.1f} {y + 9 + high / 2:.1f})">{sample}</g>')
        out.append(text(x + 32, y + 9 + TYPE * 0.35, words, size=TYPE))
        x += wide
    return "".join(out), y + (16 if x else 0)


def _folded(words: str, most: int) -> list[str]:
    if len(words) <= most:
        return [words]
    at = words.rfind(" ", 0, most + 1)
    at = at if at > 0 else most
    rest = words[at:].strip()
    return [words[:at], rest if len(rest) <= most else rest[: most - 1].rstrip() + "…"]


def _entries(lines, names: Names) -> list[tuple[str, float, str]]:
    """(sample, how tall it is, words) of everything drawn, in the order of height."""
    kinds, loops, out = {}, {}, []
    chain = turning = ring = ends = below = False
    for line in lines:
        ring, ends, below = ring or line.what == RING, ends or line.what == ENDS, below or line.what == BELOW
        if line.what == BELOW:
            continue
        for item in line.items:
            if item.kind in ("ch", "foundation ch"):
                chain = True
            elif item.turning:
                turning = True
            elif item.join:
                kinds.setdefault(("slst", 0))
            elif item.kind not in ("corner", "ring", "row end"):
                kinds.setdefault((item.kind, item.legs))
                if item.loop:
                    loops.setdefault(item.loop)
    words = names.words
    if chain or turning:
        out.append((shape("oval", 0, -2), 4.0, named("ch", 0, names)))
    for kind, legs in sorted(kinds, key=lambda one: (height_of(one[0]), one[0])):
        sign, high = symbol(kind), height_of(kind)
        if sign is None:
            continue
        feet = [(0.0, 0.0)]
        if sign.legs and "tog" in kind or kind in ("invdec", "dec"):
            apart = 9.0 if sign.legs < 4 else 5.0
            feet = [(apart * (index - (sign.legs - 1) / 2), 0.0) for index in range(sign.legs)]
        out.append((drawn(sign, feet, (0.0, -high), legs=legs), high, named(kind, legs, names)))
    for loop in loops:
        sign = symbol("sc")
        if loop in ("front", "back", "third"):
            out.append((drawn(sign, [(0.0, 0.0)], (0.0, -10.0), loop=loop), 10.0, words[f"{loop}_key"]))
    if ring:
        out.append(('<circle cx="0" cy="-5" r="5"/>', 10.0, words["ring"]))
    if ends:
        out.append(('<path d="M-7 -4H7M-7 -4v4M7 -4v4"/>', 4.0, words["row_end"]))
    if below:
        out.append((f'<g opacity="0.45">{shape("bar", 0, -2)}</g>', 4.0, words["below"]))
    return out


def _cells(lines, names: Names, colours) -> list[tuple[str, float, str]]:
    """The cell of each colour, with the stitch that it stands for."""
    kind = next(item.kind for line in lines if line.what == WORKED for item in line.items)
    words = names.words["cell"]
    return [(f'<g color="{ink}">{square(0, -CELL / 2, number)}</g>', CELL, words.format(stitch=names.short(kind), colour=name or "-"))
            for number, (name, ink) in enumerate(colours.items())]


def _colours(colours) -> list[tuple[str, float, str]]:
    """The colours with a dot each, where there are several."""
    named_ones = [name for name in colours if name]
    if len(named_ones) < 2:
        return []
    return [(f'<g color="{colours[name]}">{shape("dot", 0, -2)}{shape("bar", 0, -2)}</g>', 4.0, name) for name in named_ones]


def named(kind: str, legs: int, names: Names) -> str:
    """ "dc: double crochet", her own name before what it is."""
    short, full = names.dialect.abbr(kind), names.dialect.name_of(kind)
    if legs:
        full = names.words["of_legs"].format(name=full, n=legs)
    own = names.own.get(kind)
    if own:
        return f"{own}: {full}" if own.casefold() != full.casefold() else full
    return full if short == full else f"{short}: {full}"
