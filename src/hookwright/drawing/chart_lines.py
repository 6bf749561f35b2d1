"""The rows of one piece as lines of stitches from left to right, each with the places it stands on: what a chart is laid out from."""

from dataclasses import dataclass, field

from hookwright.fabric import FLAG_COUNTS, FLAG_GROUP, FLAG_JOIN, FLAG_TURNING, KIND_NAMES
from hookwright.notation.tree import Group, Repeat, Stitch

from .row_folding import Folded, fold
from .symbols import chain_length, height_of

ENDS, RING, BELOW, FOUNDATION, WORKED = "row ends", "ring", "row below", "foundation", "worked"
_FOOT_RING = -2
_SWAPPED = {"front": "back", "back": "front"}
GATHERED = ("bobble", "popcorn", "puff", "cl")
BESIDE = 3  # stitches of the row below a piece that are shown beside those that are worked into
FANNED = 8.8  # room of a tall stitch that shares its place with the one beside it
_CHORDS = (0, 9, 14, 18, 21, 23)  # room a run of chains takes, by their number; longer ones arch higher


@dataclass(slots=True, eq=False)
class Item:
    """One symbol: kind a catalogue id ("ch" for a run of `chains`), feet (line, item) places it stands on, u and v where its top is.

    loop: front or back as seen from the right side. index: its number in the row's columns; -1 where it stands for no column.
    """

    kind: str
    feet: tuple = ()
    chains: int = 0
    flags: int = 0
    loop: str = ""
    colour: str = ""
    legs: int = 0
    index: int = -1
    u: float = 0.0
    v: float = 0.0
    rise: float = 0.0  # of an arch of chains, how far it stands over its ends
    wide: float = 10.0
    tall: float = 10.0
    cornered: bool = False  # it lies round a corner of the shape
    ends: tuple = ()  # of a run of chains, the items before and after it
    drawn_at: tuple = ()  # (foot, top), each (u, v), where it stands by itself
    shown: int = -1  # of its chains, how many are drawn where it is; -1 all
    told: tuple = ()  # where in the manuscript it is told, where it stands for no column

    @property
    def turning(self) -> bool:
        return bool(self.flags & FLAG_TURNING)

    @property
    def join(self) -> bool:
        return bool(self.flags & FLAG_JOIN)

    @property
    def space(self) -> bool:
        """A run of chains that lies between two stitches."""
        return self.kind == "ch" and not self.flags & FLAG_TURNING

    def sign(self) -> tuple:
        """What it looks like, without where."""
        return self.kind, self.chains, self.flags & (FLAG_TURNING | FLAG_JOIN | FLAG_GROUP | FLAG_COUNTS), self.loop, self.colour, self.legs


@dataclass(slots=True, eq=False)
class Line:
    """One row. what: WORKED, or what the first row stands on. rtl: worked from right to left. times: how often the rows from here on are
    worked (period rows together) where only the first time is shown."""

    what: str
    items: list
    label: str = ""
    number: int | None = None
    side: str = ""
    rtl: bool = True
    in_round: bool = False
    row: object = None
    worked: object = None  # the fabric's row that its columns are of
    below: int = -1
    times: int = 1
    period: int = 0
    colours: tuple = ()
    level: float = 0.0
    wide: float = 0.0  # of a ring that is drawn as a line, how long it is
    numbered_at: tuple = ()  # (x, y, way of the arrow in degrees) of its number in the drawing, where that does not stand beside the row
    ahead: int = 0  # symbols at its start that stand for no column of the row, or (below 0) columns that were taken away there


@dataclass(slots=True)
class Lines:
    """All lines of a piece from the first; rows_in_all: how many rows were worked."""

    lines: list = field(default_factory=list)
    rows_in_all: int = 0


def lines_of(fabric, piece: str, legs=None, *, whole: bool = False) -> Lines:
    """The piece's worked rows as lines, after one for what its first row stands on. legs: {kind: legs of one group} where she says so.
    whole: with the rows that only repeat others.
    """
    shown = [index for index, row in enumerate(fabric.rows) if row.piece == piece and len(row.kind)]
    if not shown:
        return Lines()
    out, line_of, colour = Lines(rows_in_all=sum(fabric.rows[index].has_height for index in shown)), {}, ""
    for index in shown:
        legs = {**_legs_in(fabric.rows[index].row.steps), **(legs or {})} if fabric.rows[index].row is not None else legs
    for at in range(shown[0]):
        colour = fabric.rows[at].colours[-1][1] if fabric.rows[at].colours else colour
    for row in fabric.rows:  # a colour named where there are no stitches yet
        if row.piece == piece and not len(row.kind) and row.colours:
            colour = row.colours[-1][1]
    signs, begun = [], []
    for index in shown:
        row = fabric.rows[index]
        begun.append(colour)
        signs.append(_row_sign(row, index, colour))
        colour = row.colours[-1][1] if row.colours else colour
    folded = Folded(list(range(len(signs)))) if whole else fold(signs, begins={place for place, index in enumerate(shown) if _begins_range(fabric.rows, index)})
    for place in folded.kept:
        row = fabric.rows[shown[place]]
        if not out.lines and not _is_foundation(row):
            base = _base(fabric, row)
            if base is not None:
                out.lines.append(base)
                if base.what == BELOW:
                    line_of[row.below] = 0
        line = _line(row, line_of, out.lines, begun[place], legs)
        line.times, line.period = folded.times.get(place, (1, 0))
        line_of[shown[place]] = len(out.lines)
        out.lines.append(line)
        for other, like in folded.same.items():
            if like == place:
                line_of[shown[other]] = line_of[shown[place]]
        if len(out.lines) == 2 and out.lines[0].what == FOUNDATION:
            _stand_up(out.lines[0], line)
    if out.lines and out.lines[0].what == BELOW:
        _only_what_is_worked_into(out.lines)
    return out


def _only_what_is_worked_into(lines) -> None:
    """Leaves out, in place, what of the row below a piece lies further off than a few stitches."""
    feet = [foot for line in lines[1:] for item in line.items for below, foot in item.feet if below == 0]
    if not feet:
        return
    first, last = max(min(feet) - BESIDE, 0), max(feet) + 1 + BESIDE
    lines[0].items[:] = lines[0].items[first:last]
    for line in lines[1:] if first else ():
        for item in line.items:
            item.feet = tuple((below, foot - first if below == 0 and foot >= 0 else foot) for below, foot in item.feet)


def _begins_range(rows, index: int) -> bool:
    """Whether a row is the first that a line of the manuscript for several rows stands for."""
    row = rows[index].row
    return row is not None and len(row.numbers) > 1 and (not index or rows[index - 1].row is not row)


def _row_sign(row, index: int, colour: str) -> tuple:
    """All that a row is in a chart, with where its stitches stand, as seen from it: alike for two rows that are drawn alike."""
    for at, name in row.colours:
        if at == 0:
            colour = name
    changes = tuple((at, name) for at, name in row.colours if 0 < at < len(row.kind))
    far = tuple((at, other - index, place) for at, (other, place) in row.far.items())
    return (colour, row.side, row.in_round, row.below - index, row.kind.tobytes(), row.foot.tobytes(), row.chains.tobytes(), row.flags.tobytes(),
            tuple(row.feet.items()), tuple(row.loops.items()), changes, far)


def _is_foundation(row) -> bool:
    return KIND_NAMES[row.kind[0]] == "foundation ch"


def _base(fabric, row) -> Line | None:
    """What the first row of a piece stands on where it makes no foundation of its own; None where it stands on nothing."""
    rtl = row.side != "WS"
    most = max(row.foot, default=-1)
    if any(foot == _FOOT_RING for foot in row.foot):
        return Line(RING, [Item("ring")], in_round=row.in_round)
    if most < 0:
        return None
    if row.row is not None and _along_ends(row.row.steps) or row.below < 0 or most >= len(fabric.rows[row.below].kind):
        items = [Item("row end", index=index, wide=17) for index in range(most + 1)]
        return Line(ENDS, items[::-1] if rtl else items, rtl=rtl)
    below = fabric.rows[row.below]
    line = _line(below, {}, [], "", {})
    return line if _is_foundation(below) else _as_base(line)


def _as_base(line: Line) -> Line:
    line.what = BELOW
    for item in line.items:
        item.feet, item.colour = (), ""
        item.flags &= ~FLAG_GROUP
        if item.turning and not item.flags & FLAG_COUNTS:
            item.wide = 1.0
    return line


def _along_ends(steps) -> bool:
    """Whether some step works along row ends."""
    for step in steps:
        place = getattr(step, "place", None)
        if place is not None and place.which == "row ends":
            return True
        if isinstance(step, (Group, Repeat)) and _along_ends(step.steps):
            return True
    return False


def _line(row, line_of, lines, colour, legs) -> Line:
    rtl = row.side != "WS"
    count = len(row.kind)
    below = line_of.get(row.below, 0 if lines and lines[0].what in (ENDS, RING, FOUNDATION) else -1)
    under = lines[below] if 0 <= below < len(lines) else None
    swap = row.side == "WS"
    own_legs = {**(legs or {}), **_legs_in(row.row.steps)} if row.row is not None else legs or {}
    changes = dict(row.colours)
    items, colours = [], []
    for index in range(count):
        if index in changes:
            colour = changes[index]
        if not colours or colours[-1] != colour:
            colours.append(colour)
        kind = KIND_NAMES[row.kind[index]]
        feet = _feet(row, index, below, under, line_of, lines)
        loop = row.loops.get(index, "")
        if swap:
            loop = _SWAPPED.get(loop, loop)
            kind = seen_from_right_side(kind)
        item = Item(kind, feet, row.chains[index], row.flags[index], loop, colour, own_legs.get(kind, 0), index)
        item.wide, item.tall = _room(item)
        items.append(item)
    _fanned(items)
    if rtl:
        items.reverse()
    what = FOUNDATION if count and _is_foundation(row) else WORKED
    return Line(what, items, _label(row), row.number, row.side, rtl, row.in_round, row.row, row, below, colours=tuple(colours))


def _label(row) -> str:
    """The row's name; a row that is only told to be worked again has none of its own."""
    written = row.row
    return row.label if written is None or row.number is not None or written.word or written.name else ""


def seen_from_right_side(kind: str) -> str:
    """A post stitch of a wrong-side row as the right side shows it: the other way round."""
    if kind[:2] in ("fp", "bp"):
        return ("bp" if kind[0] == "f" else "fp") + kind[2:]
    return kind


def _feet(row, index, below, under, line_of, lines) -> tuple:
    places = [row.far.get(index, (row.below, row.foot[index]))]
    places += [(row.below, place) for place in row.feet.get(index, ())]
    out = []
    for other, place in places:
        if place == _FOOT_RING:
            if under is not None and under.what == RING:
                out.append((below, 0))
            elif under is not None and under.what == FOUNDATION and under.items:
                out.append((below, -1))  # into the ring of chains
            continue
        at = line_of.get(other, below if other == row.below else -1)
        line = lines[at] if 0 <= at < len(lines) else None
        if line is not None and 0 <= place < len(line.items):
            place += line.ahead
            if 0 <= place < len(line.items):
                out.append((at, len(line.items) - 1 - place if line.rtl else place))
    return tuple(dict.fromkeys(out))


def _legs_in(steps) -> dict:
    """How many legs the groups of a row have, by kind, where its words say so."""
    found = {}
    for step in steps:
        if isinstance(step, Stitch) and getattr(step, "legs", None):
            found[step.kind] = step.legs
        if isinstance(step, (Group, Repeat)):
            found.update(_legs_in(step.steps))
    return {kind: number for kind, number in found.items() if isinstance(number, int)}


def _room(item: Item) -> tuple[float, float]:
    """How wide and how tall an item is, in units."""
    if item.kind in ("ch", "foundation ch") or item.turning:
        if item.turning and item.kind != "foundation ch":
            return 8.0, (item.chains or 1) * chain_length()
        if item.kind == "foundation ch":
            return chain_length() + 0.6, 4.0
        return float(_CHORDS[min(item.chains, len(_CHORDS) - 1)]) + max(0, item.chains - 5) * 1.2, 2.0
    if item.join:
        return 5.0, 5.0
    tall = height_of(item.kind)
    if item.kind == "picot":
        return 1.0, tall
    return (14.0 if item.kind in GATHERED else 10.5 if len(item.feet) < 3 else 13.0), tall


def _fanned(items) -> None:
    """Tall stitches that fan out of one place stand closer, and so do the chains between them."""
    for one, other in zip(items, items[1:], strict=False):
        if one.feet and one.feet == other.feet and min(one.tall, other.tall) > 15 and not one.turning and one.kind not in GATHERED:
            one.wide = min(one.wide, FANNED)
            other.wide = min(other.wide, FANNED)
    for one, item, other in zip(items, items[1:], items[2:], strict=False):
        if item.space and item.chains < 4 and one.feet and one.feet == other.feet and min(one.tall, other.tall) > 15:
            item.wide *= 0.85


def _stand_up(base: Line, first: Line) -> None:
    """The chains skipped at the start of the first row stand up beside it: they leave the foundation and become its turning chain."""
    if first.in_round or not base.items:
        return
    order = base.items[::-1] if base.rtl else base.items
    at = {id(item): place for place, item in enumerate(order)}
    working = first.items[::-1] if first.rtl else first.items
    turning = working[0] if working and working[0].turning else None
    feet = [at[id(base.items[foot])] for item in working if item is not turning for line, foot in item.feet if line == 0 and foot >= 0]
    skipped = min(feet, default=0)
    if turning is not None and turning.flags & FLAG_COUNTS and turning.chains:
        skipped = min(turning.chains, skipped)
    if not skipped:
        return
    keep = order[skipped - 1 :]
    keep[0].kind, keep[0].wide = "corner", 4.0
    if turning is None:
        turning = Item("ch", (), skipped, FLAG_TURNING)
        turning.wide, turning.tall = _room(turning)
        turning.colour = working[0].colour if working else ""
        first.items.insert(len(first.items) if first.rtl else 0, turning)
        first.ahead = 1
    new = keep[::-1] if base.rtl else keep
    place = {id(item): index for index, item in enumerate(new)}
    for item in first.items:
        item.feet = tuple((line, place[id(base.items[foot])]) if line == 0 and foot >= 0 and id(base.items[foot]) in place else (line, foot)
                          for line, foot in item.feet if line != 0 or foot < 0 or id(base.items[foot]) in place)
    turning.feet = ((0, place[id(keep[0])]),)
    base.items[:] = new
    base.ahead = 1 - skipped
