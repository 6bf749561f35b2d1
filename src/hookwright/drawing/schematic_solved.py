"""A piece as it stands on a schematic where its counts tell no outline: the silhouette of its solved surface, with lengths of every size."""

import numpy as np

from hookwright.shape import Measuring, silhouette

from .schematic_parts import Dim, Outline, SchematicPart

_CLOSED = 0.34  # of the longest round: a shorter one at an end is closed, or nearly
_FOOT, _TIP = 0.3, 0.62  # of the rows: the arrow goes from the middle of one to the middle of the other
_LONGEST = 0.35  # of the piece
_LIES = 0.08  # of the piece: an arrow shorter than this says nothing
_OUT = ("disc", "motif")


def of_surfaces(surfaces, shown: int, name: str, *, down: bool = False) -> SchematicPart | None:
    """surfaces: shape.Surface in each size, None where a size has none or its shape did not come to rest; shown: the size that is drawn, or else the
    first there is. down: what was begun first is on top where the piece stands, as a sock does. None where there is nothing to draw."""
    seen = [None if one is None else silhouette(one, down=down) for one in surfaces]
    drawn = next((at for at in (shown, *range(len(seen))) if seen[at] is not None), None)
    if drawn is None:
        return None
    mine, surface = seen[drawn], surfaces[drawn]
    wide, tall = mine.size

    def values(of):
        return tuple(None if one is None else of(one) for one in seen)

    dims = [Dim("width", (0.0, 0.0), (wide, 0.0), "below", values(lambda one: one.size[0])), Dim("height", (0.0, 0.0), (0.0, tall), "left", values(lambda one: one.size[1]))]
    dims += _openings(seen, mine)
    if surface.shown != "flat":
        dims += _girths(surfaces, surface, mine)
    outline = Outline(list(mine.outer), [[*loop, loop[0]] for loop in (*mine.outer, *mine.openings)], [], _arrow(surface, mine), list(mine.openings))
    says = "rounds out" if surface.construction in _OUT else "rounds" if any(row.in_round for row in surface.rows) else "rows"
    return SchematicPart(name, outline, dims, says, solved=True)


def _openings(seen, mine) -> list[Dim]:
    """Width and height of each opening, in sizes that have as many."""
    out = []
    for at, loop in enumerate(mine.openings):
        points = np.array(loop)
        (left, low), (right, high) = points.min(0), points.max(0)
        for way, (name, start, end, side) in enumerate((("width", (left, (low + high) / 2), (right, (low + high) / 2), "inside"), ("height", (right, low), (right, high), "right"))):
            out.append(Dim(f"{name} of opening {at + 1}", start, end, side,
                           tuple(None if one is None or len(one.openings) != len(mine.openings) else float(np.ptp(np.array(one.openings[at])[:, way])) for one in seen)))
    return out


def _girths(surfaces, surface, mine) -> list[Dim]:
    """Lengths round the first and the last round of a piece that stands, where it is open there."""
    measured = [None if one is None else Measuring(one) for one in surfaces]

    def rounds(one):
        return [row for row in one.surface.rows if row.in_round and row.has_height and one.along(row)]

    known = {id(one): rounds(one) for one in measured if one is not None}
    here = next(one for one in measured if one is not None and one.surface is surface)
    if len(known[id(here)]) < 2:
        return []
    widest = max(here.along(row) for row in known[id(here)])
    out = []
    for at, says in ((0, "around at the first round"), (-1, "around at the last round")):
        row = known[id(here)][at]
        if here.along(row) < _CLOSED * widest:
            continue
        places = mine.places[here.nodes(row)]
        start, end = places[places[:, 0].argmin()], places[places[:, 0].argmax()]
        out.append(Dim(says, tuple(map(float, start)), tuple(map(float, end)), "beside",
                       tuple(None if one is None or not known[id(one)] else one.along(known[id(one)][at]) for one in measured)))
    return out


def _arrow(surface, mine) -> tuple | None:
    """The direction of the work: from the middle of an early row towards that of a later one, or outwards from the middle."""
    rows = np.unique(surface.row)
    middles = [mine.places[surface.row == rows[int(share * (len(rows) - 1))]].mean(0) for share in (_FOOT, _TIP)]
    large = max(mine.size)
    foot, way = middles[0], middles[1] - middles[0]
    long = float(np.hypot(*way))
    if surface.construction in _OUT or long < _LIES * large:
        if surface.construction not in _OUT:
            return None
        foot, way, long = mine.places[surface.row == rows[0]].mean(0), np.array([0.0, 1.0]), 1.0
        return tuple(map(float, foot)), tuple(map(float, foot + way * 0.2 * large))
    return tuple(map(float, foot)), tuple(map(float, foot + way * min(1.0, _LONGEST * large / long)))
