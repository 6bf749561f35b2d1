"""The pieces measured again on their solved surfaces: the same plans and rounds, with lengths taken from the shape."""

from dataclasses import replace

from hookwright.shape import Measuring, form


class Shapes:
    """Surfaces of a worked pattern, solved as they are asked for and kept."""

    def __init__(self, fabrics, pattern, head_mm: float | None = None):
        self.fabrics, self.pattern, self.head_mm, self._known = fabrics, pattern, head_mm, {}

    def of(self, size: int, piece: str, shown: str | None = None) -> Measuring | None:
        """The measuring of a piece in a size as it is used, or shown another way; None where it has no shape."""
        from hookwright.shape import parts_of

        part = next((one for one in parts_of(self.fabrics[size]) if piece in one.names), None)
        key = (size, None if part is None else part.name, shown)
        if key not in self._known:
            try:
                self._known[key] = None if part is None else Measuring(form(self.fabrics[size], piece or None, pattern=self.pattern, shown=shown, head_mm=self.head_mm))
            except ValueError:
                self._known[key] = None
        return self._known[key]


def solved_piece(piece, shapes: Shapes):
    """(the piece with plans and rounds as solved, whether each size came to rest); sizes without a shape have none."""
    plans, rounds, settled = [], [], []
    for size, (plan, about) in enumerate(zip(piece.plans, piece.rounds, strict=True)):
        found = shapes.of(size, piece.heading) if plan is not None or about is not None else None
        rows = shapes.fabrics[size].rows
        plans.append(None if found is None or plan is None else _plan(plan, found, rows))
        rounds.append(None if found is None or about is None else _rounds(about, found, rows))
        settled.append(None if found is None else found.surface.settled)
    return replace(piece, plans=tuple(plans), rounds=tuple(rounds)), tuple(settled)


def _plan(plan, found: Measuring, rows):
    flat, strips, top = found.surface.shown == "flat" and not plan.edge, [], {-1: 0.0}
    for place, strip in enumerate(plan.strips):
        made, high = [], top.get(strip.on, 0.0)
        for one in strip.rows:
            box, along, up = (found.box(rows[one.row]), None, None) if flat else (None, found.along(rows[one.row]), found.up(rows[one.row]))
            if box is not None:
                made.append(replace(one, left=box[0], right=box[1], low=box[2], high=box[3]))
            elif along is not None and up is not None:
                middle = (one.left + one.right) / 2
                made.append(replace(one, left=middle - along / 2, right=middle + along / 2, low=high, high=high + up))
            else:
                return None
            high = made[-1].high
        top[place] = high
        strips.append(replace(strip, rows=made))
    low = strips[0].rows[0].low
    for strip in strips:
        strip.rows = [replace(one, low=one.low - low, high=one.high - low) for one in strip.rows]
    return replace(plan, strips=strips)


def _rounds(about, found: Measuring, rows):
    around, out, high = [], [], 0.0
    for index in about.rows:
        along, up = found.along(rows[index]), found.up(rows[index])
        if along is None or up is None:
            return None
        around.append(along)
        high += up
        out.append(high)
    return replace(about, around=around, out=out)
