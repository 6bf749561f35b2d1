"""Lengths measured on a solved surface, in mm: along rows, along wales, and round it where a level plane cuts it."""

import numpy as np

from hookwright.fabric import FLAG_COUNTS, FLAG_JOIN, FLAG_TURNING

_STEP, _STEPS = 4.0, 12  # mm from level to level near an edge, and how many at most
_WHOLE = 1.08  # a level that is longer than the last by less than this cuts all of the edge


class Measuring:
    """Measures one Surface. Rows go by their WorkedRow, so that what was counted of a row can be set beside what is measured."""

    def __init__(self, surface):
        self.surface = surface
        self._nodes: dict = {}
        order = np.argsort(surface.row, kind="stable")
        starts = np.searchsorted(surface.row[order], np.arange(len(surface.rows) + 1))
        for at, row in enumerate(surface.rows):
            mine = order[starts[at] : starts[at + 1]]
            if not len(mine):
                continue
            flags = np.frombuffer(row.flags, np.uint8)[surface.place[mine]]
            idle = (flags & FLAG_JOIN != 0) | ((flags & FLAG_TURNING != 0) & (flags & FLAG_COUNTS == 0))
            self._nodes[id(row)] = mine[~idle]

    def nodes(self, row) -> np.ndarray:
        """Nodes of a row's stitches and chain spaces in working order, without joins and turning chains; none where the row is not of this piece."""
        return self._nodes.get(id(row), np.empty(0, np.int64))

    def along(self, row) -> float | None:
        """Length of a row from edge to edge, of a round all the way round."""
        mine = self.nodes(row)
        if len(mine) < 2:
            return None
        at = self.surface.at[mine]
        steps = np.linalg.norm(np.diff(at, axis=0), axis=1).sum()
        return float(steps + (np.linalg.norm(at[0] - at[-1]) if row.in_round else self.surface.width[mine].mean()))

    def up(self, row) -> float | None:
        """How far the tops of a row lie from where it stands, on average."""
        mine = self.nodes(row)
        mine = mine[self.surface.kind[mine] > 0]
        return float(np.linalg.norm(self.surface.at[mine] - self.surface.base[mine], axis=1).mean()) if len(mine) else None

    def box(self, row) -> tuple[float, float, float, float] | None:
        """(left, right, foot, top) of a row on a surface that lies flat: its ends, and the mean heights of its feet and tops."""
        mine = self.nodes(row)
        if not len(mine):
            return None
        at, base, half = self.surface.at[mine], self.surface.base[mine], float(self.surface.width[mine].mean()) / 2
        return float(at[:, 0].min()) - half, float(at[:, 0].max()) + half, float(base[:, 1].mean()), float(at[:, 1].mean())

    @property
    def height(self) -> float:
        """How high the surface stands."""
        return float(np.ptp(self.surface.at[:, 2]))

    def edge(self) -> float | None:
        """Length round its lowest edge: at the first level that cuts all of it, since an edge does not lie level."""
        before = None
        for step in range(1, _STEPS):
            here = self.around_at(step * _STEP)
            if here is None or before is not None and here < before * _WHOLE:
                break
            before = here
        return before

    def spread(self) -> tuple[float, float]:
        """(long, short) side of the smallest rectangle it lies in, seen from above; rows are taken to their edges."""
        at, half = self.surface.at[:, :2], float(self.surface.width.mean())
        best = None
        for turn in np.linspace(0, np.pi / 2, 90, endpoint=False):
            way = np.array([np.cos(turn), np.sin(turn)])
            sides = float(np.ptp(at @ way)) + half, float(np.ptp(at @ np.array([-way[1], way[0]]))) + half
            if best is None or sides[0] * sides[1] < best[0] * best[1]:
                best = sides
        return max(best), min(best)

    def around_at(self, height: float) -> float | None:
        """Length all the way round at this height above its lowest place; None over its top."""
        surface = self.surface
        level = float(surface.at[:, 2].min()) + height
        at = surface.at.copy()
        for one, other in surface.seams:  # sewn edges lie on each other
            at[one] = at[other] = (at[one] + at[other]) / 2
        corners = at[surface.faces]
        over = corners[:, :, 2] > level
        cut = np.flatnonzero(over.any(1) & ~over.all(1))
        if not len(cut):
            return None
        total = 0.0
        for face in cut:
            points = []
            for one, other in ((0, 1), (1, 2), (2, 0)):
                low, high = corners[face, one], corners[face, other]
                if (low[2] > level) != (high[2] > level):
                    points.append(low + (high - low) * (level - low[2]) / (high[2] - low[2]))
            total += float(np.linalg.norm(points[0] - points[1]))
        return total
