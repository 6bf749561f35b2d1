"""Measures of the pieces: by their counts and the gauge, and by the solved shape where there is one."""

from dataclasses import dataclass, field
from math import sqrt

from .asked import known_terms
from .measuring_shape import Shapes, solved_piece

_FLAT = ("disc", "oval", "polygon")
_ALIKE = 0.01  # girths nearer than this share are told once


@dataclass(slots=True)
class Measured:
    """One measure of a piece. counted, solved: mm in each size, None where it is not known; settled: whether the solver came to rest."""

    name: str
    counted: tuple
    solved: tuple = ()
    settled: tuple = ()


@dataclass(slots=True)
class PieceMeasures:
    """piece: its heading; shape: "rows", "disc", "polygon", "ball", "cap", "tube" or "other"; rounds: of one size, what each does, where it is a disc or cap."""

    piece: str
    shape: str
    measures: list = field(default_factory=list)
    rounds: list = field(default_factory=list)


@dataclass(slots=True)
class Measures:
    """Measures of all pieces. sizes: names; rests_on: "gauge", or "yarn" where no gauge is given and the usual one of the yarn and hook was taken.

    finished: name of a finished measure of the head -> its length in mm in each size (the middle of a range), None where it has none.
    """

    sizes: tuple
    pieces: list
    rests_on: str = "gauge"
    finished: dict = field(default_factory=dict)

    def as_dict(self) -> dict:
        """As plain values for JSON: lengths in mm."""
        def by_size(values):
            return {size: None if one is None else round(one, 1) for size, one in zip(self.sizes, values, strict=True)}

        return {
            "sizes": list(self.sizes), "rests_on": self.rests_on, "finished_mm": {name: by_size(values) for name, values in self.finished.items()},
            "pieces": [{
                "piece": one.piece, "shape": one.shape,
                "measures": [{"name": each.name, "counted_mm": by_size(each.counted), "solved_mm": by_size(each.solved or (None,) * len(self.sizes)),
                              "settled": dict(zip(self.sizes, each.settled or (None,) * len(self.sizes), strict=True))} for each in one.measures],
                "rounds": list(one.rounds)} for one in self.pieces],
        }


def measures(report, piece: str | None = None, size: str | None = None, *, at_mm=(), head_mm: float | None = None, solved: bool = True) -> Measures:
    """The measures of every piece in every size, or of one piece or size. at_mm: heights at which girths are wanted too. head_mm: how large the head
    is that hats are put on, by default as large as they are; solved: False leaves out the solver.

    ValueError where there is no such piece or size, or nothing was worked.
    """
    from hookwright.drawing import pieces_of

    from .charts import one_of

    if not report.fabrics or not any(fabric.rows for fabric in report.fabrics):
        raise ValueError("there are no worked rows to measure")
    chosen = list(range(len(report.fabrics))) if size is None else [report.sizes.index(one_of(size, report.sizes, "size"))]
    fabrics = [report.fabrics[at] for at in chosen]
    head = report.pattern.head or report.pattern.front
    terms = known_terms(report.pattern.terms) or "US"
    found = pieces_of(fabrics, head, terms)
    if piece is not None:
        name = one_of(piece, list(dict.fromkeys(one.name for one in found)), "piece")
        found = [one for one in found if one.name == name]
    shapes = Shapes(fabrics, report.pattern, head_mm) if solved else None
    made = [_piece(one, shapes, head, terms, at_mm) for one in found]
    stated = {name: tuple(None if (span := measure.at(size)) is None else sum(span) / 2 for size in chosen) for name, measure in (head.finished if head is not None else {}).items()}
    return Measures(tuple(fabric.size for fabric in fabrics), [one for one in made if one.measures], next((one.rest for one in found), "gauge"), stated)


def _piece(piece, shapes, head, terms: str, at_mm) -> PieceMeasures:
    counted = _measured(piece, at_mm)
    if shapes is not None:
        again, settled = solved_piece(piece, shapes)
        beside = {**dict(_measured(again, at_mm, like=piece)), **_spread(piece, shapes)}
        made = [Measured(name, values, beside.get(name, ()), settled if name in beside else ()) for name, values in counted]
        made += _as_used(piece, shapes, at_mm)
    else:
        made = [Measured(name, values) for name, values in counted]
    name = (piece.heading if len(piece.names) < 2 else ", ".join(piece.names)) or (head.title if head is not None and head.title else "")
    return PieceMeasures(name, piece.shape, made, _flat(piece, head, terms))


# ---------------------------------------------------------------- lengths of a piece

def _measured(piece, at_mm, like=None) -> list[tuple[str, tuple]]:
    """(name, mm in each size) of a piece. like: the piece by its counts, whose measures are taken."""
    shape, first = (like or piece).shape, next((one for one in (like or piece).rounds if one is not None), None)
    if shape == "rows":
        part = piece.part(0) if piece.in_rows else None
        return [(dim.name, dim.values) for dim in part.dims] if part is not None else []
    if first is None:
        return []

    def of(function):
        return tuple(None if one is None else function(one) for one in piece.rounds)

    if shape == "disc":
        return [("diameter", of(lambda one: 2 * one.out[-1])), ("around the edge", of(lambda one: one.around[-1]))]
    if shape == "oval":
        return [("length", of(lambda one: 2 * one.out[-1] + one.base_mm / 2)), ("width", of(lambda one: 2 * one.out[-1])), ("around the edge", of(lambda one: one.around[-1]))]
    if shape.startswith("half"):
        root = sqrt(2) if first.corners else 1.0
        return [("along the edge", of(lambda one: 2 * one.out[-1] * root)), ("deep", of(lambda one: one.out[-1] * root))]
    if shape == "polygon":
        side = of(lambda one: one.around[-1] / max(one.corners, 1))
        four = first.corners == 4
        return [("side", side), *([("diagonal", tuple(None if one is None else one * sqrt(2) for one in side))] if four else []), ("from the middle to a side", of(lambda one: one.out[-1]))]
    out = []
    ends = [*([("around at the first round", of(lambda one: one.around[0]))] if not first.ring else []),
            *([("around at the last round", of(lambda one: one.around[-1]))] if shape == "tube" or shape == "cap" and first.ring else [])]
    widest = first.widest_mm
    if all(abs(end - widest) > _ALIKE * widest for end in ([first.around[0]] if not first.ring else []) + ([first.around[-1]] if ends else [])):
        out.append(("widest around", of(lambda one: one.widest_mm)))
    out += [*ends, ("length along the fabric", of(lambda one: one.out[-1]))]
    for height in at_mm:
        out.append((f"around {height / 10:g} cm from the {'last' if first.ring else 'first'} round", of(lambda one, height=height: _around_at(one, height))))
    return out


def _spread(piece, shapes) -> dict:
    """Lengths across what lies flat and is round or half of it, from edge to edge."""
    names = {"disc": ("diameter",), "half square": ("along the edge", "deep"), "half disc": ("along the edge", "deep")}.get(piece.shape, ())
    found = [shapes.of(size, piece.heading) for size in range(len(shapes.fabrics))] if names else []
    if not names or any(one is not None and one.surface.shown != "flat" for one in found):
        return {}
    return {name: tuple(None if one is None else one.spread()[at] for one in found) for at, name in enumerate(names)}


def _as_used(piece, shapes, at_mm) -> list[Measured]:
    """What the shape alone tells: hats on the head and off it, filled pieces, tubes sewn from rows."""
    sizes = range(len(shapes.fabrics))
    worn = [shapes.of(size, piece.heading) for size in sizes]
    first = next((one for one in worn if one is not None), None)
    if first is not None and piece.shape == "other" and first.surface.shown == "flat":
        settled = tuple(None if one is None else one.surface.settled for one in worn)
        return [Measured(name, (None,) * len(worn), tuple(None if one is None else one.spread()[at] for one in worn), settled) for at, name in enumerate(("across, as it lies", "deep, as it lies"))]
    if first is None or first.surface.construction not in ("tube", "ball") or piece.name not in (first.surface.piece, piece.heading) or first.surface.piece != piece.name:
        return []
    shown = first.surface.shown
    states = [("on the head", worn), ("off the head", [shapes.of(size, piece.heading, "free") for size in sizes])] if shown == "form" else [("filled", worn)] if shown == "stuffed" else []
    if not states and piece.shape == "rows":
        states = [("as it hangs", worn)]
    out = []
    for says, found in states:
        settled = tuple(None if one is None else one.surface.settled for one in found)

        def add(name, function, found=found, settled=settled, says=says):
            values = tuple(None if one is None else function(one) for one in found)
            if any(one is not None for one in values):
                out.append(Measured(f"{name} {says}", (None,) * len(values), values, settled))

        if shown != "stuffed":
            add("around the edge,", lambda one: one.edge())
            add("around halfway up,", lambda one: one.around_at(one.height / 2))
        else:
            add("widest around,", lambda one: max((each for each in (one.around_at(one.height * at / 12) for at in range(2, 11)) if each), default=None))
        add("height,", lambda one: one.height)
        for height in at_mm:
            add(f"around {height / 10:g} cm above the edge,", lambda one, height=height: one.around_at(height))
    return out


def _around_at(rounds, height: float) -> float | None:
    """Length of the round at this height: from the open edge, which is the last round of a piece begun in a ring and else the first."""
    along = rounds.out[-1] - height if rounds.ring else height
    if not 0 <= along <= rounds.out[-1]:
        return None
    before = 0.0
    for place, out in enumerate(rounds.out):
        if along <= out:
            low = rounds.around[place - 1] if place else rounds.around[0]
            share = (along - before) / (out - before) if out > before else 1.0
            return low + (rounds.around[place] - low) * share
        before = out
    return rounds.around[-1]


def _flat(piece, head, terms: str) -> list[dict]:
    """What each round of a piece begun in the middle does, by its counts, in the first size that has it."""
    from hookwright.shape import flare, rest_sizes

    size, mine = next(((at, one) for at, one in enumerate(piece.rounds) if one is not None), (0, None))
    if mine is None or not mine.ring or mine.half or mine.lace:  # of lace the counts tell too little
        return []
    fabric = piece.fabrics[size]
    sizes = rest_sizes(head, terms, fabric.rows, fabric.kinds, piece.heading)
    rows = set(mine.rows)
    return [{"row": fabric.rows[one.row].label, "piece": fabric.rows[one.row].piece, "stitches": one.stitches, "does": one.words, "flare": round(one.phi, 2), "to_lie_flat": one.to_flat if piece.shape in _FLAT else 0}
            for one in flare(fabric.rows, sizes, fabric.kinds) if one.row in rows]
