"""Where the nodes are put before they are solved: rows laid on rows as the piece is worked, rounds as rings, sideways work rolled up."""

from dataclasses import dataclass

import numpy as np

from hookwright.fabric import FLAG_CORNER

STEEP = 0.98  # a row leans outwards at most so far of its height


@dataclass(slots=True)
class _Ring:
    """The frame of rounds: middle, two directions of their plane, the axis they go along, and how far out and along the last one is.

    half: half the straight stretch of an oval. turn: +1 where the right side makes the rounds go counterclockwise in (e1, e2)."""

    middle: np.ndarray
    e1: np.ndarray
    e2: np.ndarray
    axis: np.ndarray
    out: float = 0.0
    along: float = 0.0
    half: float = 0.0
    turn: int = 1
    span: float = 2 * np.pi  # less for rows to and fro about a ring


def start_of(nodes, strands, seams, gathered, upright="") -> tuple[np.ndarray, str, np.ndarray]:
    """((n, 3) places, construction, (n,) way over the fabric from the middle of its rounds or the end drawn together, nan where there is none). seams: list of (row after which it is sewn, (s, 2) pairs) that roll a sheet up; gathered: "first" or "last"
    end of the rows that is drawn together, "" none. upright: "open up" for a vessel, "closed up" for a mitten; "" as it is worked, crown up."""
    return _Laying(nodes, strands, seams, gathered, upright).all()


class _Laying:
    def __init__(self, nodes, strands, seams, gathered, upright):
        self.nodes, self.strands, self.gathered, self.upright = nodes, strands, gathered, upright
        self.at = np.full((nodes.n, 3), np.nan)
        self.ring_of: dict[int, _Ring] = {}
        self.rolled = {after: pairs for after, pairs in seams if len(pairs)}
        self.kinds, self.half = [], False
        self.deep = np.full(nodes.n, np.nan)

    def all(self):
        nodes = self.nodes
        for index in range(len(nodes.rows)):
            if nodes.first[index] < nodes.last[index]:
                self.row(index)
            if index in self.rolled:
                self.roll(index)
        bad = np.isnan(self.at[:, 0])
        self.at[bad] = 0.0
        construction = self.construction()
        if construction == "tube" and (self.upright == "open up") or self.upright == "closed up" and construction == "tube" and self.closed_below():
            self.at *= np.array([1.0, -1.0, -1.0])
        return self.at, construction, self.deep

    def closed_below(self) -> bool:
        """Whether the rounds end lower than they begin, drawn together there: a mitten's fingers belong above."""
        last = max(self.nodes.row.tolist(), default=0)
        ends = [at for at in range(last + 1) if self.nodes.first[at] < self.nodes.last[at]]
        return bool(ends) and self.at[: self.nodes.last[ends[0]], 2].mean() > self.at[:, 2].mean()

    def construction(self) -> str:
        nodes, rows = self.nodes, self.nodes.rows
        if self.rolled:
            return "tube"
        if not any(kind == "round" for kind in self.kinds):
            wide = np.ptp(self.at[:, 0]) + 1e-9
            return "strip" if np.ptp(self.at[:, 1]) > 6 * wide or wide > 6 * np.ptp(self.at[:, 1]) else "sheet"
        counts = [int(nodes.last[at] - nodes.first[at]) for at in range(len(rows)) if rows[at].in_round and nodes.last[at] > nodes.first[at]]
        out = np.hypot(self.at[:, 0], self.at[:, 1])
        deep = np.ptp(self.at[:, 2]) > 0.3 * (0.0 if self.half else np.ptp(out)) + 0.15 * (np.ptp(self.at[:, 0]) if self.half else 0.0) + 1e-9
        if not deep:
            corners = any(flag & FLAG_CORNER for row in rows for flag in row.flags)
            return "motif" if corners else "disc"
        closing = counts[-1] <= 12 and counts[-1] < max(counts) / 2
        return "ball" if closing and nodes.rings else "tube"

    # ---------------------------------------------------------------- one row

    def row(self, index):
        nodes, row = self.nodes, self.nodes.rows[index]
        mine = np.arange(nodes.first[index], nodes.last[index])
        stand = mine[~np.isnan(self.feet_at(mine)[:, 0])]
        if index in nodes.rings and not len(stand):
            self.on_ring(index, mine)
        elif not len(stand):
            self.first_row(index, mine)
        elif row.in_round and len(mine) > 2:
            self.round(index, mine, stand)
        elif nodes.below[index] in self.ring_of and self.ring_of[nodes.below[index]].span < 6:
            self.arc(index, mine, self.ring_of[nodes.below[index]])
        else:
            self.straight(index, mine, stand)
        riders = mine[nodes.rider[mine]]
        if len(riders):
            self.at[riders] = self.at[np.maximum(riders - 1, 0)] + 0.5 * nodes.height[riders, None] * _unit(self.at[np.maximum(riders - 1, 0)] - self.feet_at(riders - 1))

    def feet_at(self, which):
        """Mean place of what each node stands on, nan for nothing."""
        nodes = self.nodes
        if not len(which):
            return np.empty((0, 3))
        base, top = int(which.min()), int(which.max()) + 1
        low, high = np.searchsorted(nodes.foot_node, (base, top))
        node, t = nodes.foot_node[low:high] - base, nodes.foot_t[low:high, None]
        place = (1 - t) * self.at[nodes.foot_a[low:high]] + t * self.at[nodes.foot_b[low:high]]
        legs = np.bincount(node, minlength=top - base)
        with np.errstate(invalid="ignore"):
            mean = np.stack([np.bincount(node, place[:, axis], top - base) for axis in range(3)], 1) / legs[:, None]
        return mean[which - base]

    def first_row(self, index, mine):
        nodes = self.nodes
        strand = self.strands.of[mine[0]]
        if self.strands.cyclic[strand] if strand >= 0 else False:
            ring = _Ring(np.zeros(3), np.array([1.0, 0, 0]), np.array([0, 1.0, 0]), np.array([0, 0, -1.0]))
            ring.out = nodes.width[mine].sum() / (2 * np.pi)
            self.ring_of[index] = ring
            self.kinds.append("round")
            self.at[mine] = self.on_curve(ring, nodes.along[mine], nodes.width[mine].sum(), int(nodes.towards[mine[0]]))
            self.deep[mine] = 0.0
            return
        self.kinds.append("line")
        x = nodes.along[mine] - nodes.width[mine].sum() / 2
        self.at[mine] = 0.0
        self.at[mine, 0] = -x * nodes.towards[mine[0]]

    def on_ring(self, index, mine):
        nodes = self.nodes
        ring = _Ring(np.zeros(3), np.array([1.0, 0, 0]), np.array([0, 1.0, 0]), np.array([0, 0, -1.0]))
        self.ring_of[index] = ring
        if not nodes.rows[index].in_round:
            ring.span = 3.0
            self.kinds.append("arc")
            self.arc(index, mine, ring)
            return
        self.kinds.append("round")
        length = nodes.width[mine].sum()
        ring.out = min(length / (2 * np.pi), _height(nodes, mine))
        self.at[mine] = self.on_curve(ring, nodes.along[mine], length, int(nodes.towards[mine[0]]))
        self.deep[mine] = nodes.height[mine]

    def arc(self, index, mine, ring):
        """Rows to and fro about a ring: the sector of a disc, as wide as the row asks for."""
        nodes = self.nodes
        ring.out += _height(nodes, mine)
        self.ring_of[index] = ring
        length = nodes.width[mine].sum()
        span = min(length / ring.out, 1.6 * np.pi)
        theta = (nodes.along[mine] / length - 0.5) * span * nodes.towards[mine[0]] * ring.turn - np.pi / 2
        self.at[mine] = ring.middle + ring.out * (np.cos(theta)[:, None] * ring.e1 + np.sin(theta)[:, None] * ring.e2)

    def straight(self, index, mine, stand):
        """A flat row over the middle of what it stands on, in the direction in which that lies."""
        nodes, feet = self.nodes, self.feet_at(stand)
        along = nodes.along[mine]
        u = feet[-1] - feet[0]
        third = max(len(feet) // 3, 1)
        if np.linalg.norm(u) < 1e-6 or np.linalg.norm(u) < 0.5 * np.linalg.norm(feet[-third:].mean(0) - feet[:third].mean(0)):
            u = feet[-third:].mean(0) - feet[:third].mean(0)
        u = _unit(u) if np.linalg.norm(u) > 1e-6 else np.array([-1.0, 0, 0]) * nodes.towards[mine[0]]
        normal = np.array([0, 0, 1.0])
        v = np.cross(u, normal) * nodes.towards[mine[0]]
        v = _unit(v) if np.linalg.norm(v) > 1e-6 else np.array([0, 1.0, 0])
        middle = nodes.along[stand].mean()
        self.at[mine] = feet.mean(0) + (along - middle)[:, None] * u + v * _height(nodes, mine)

    def round(self, index, mine, stand):
        nodes, below = self.nodes, self.nodes.below[index]
        ring = self.ring_of.get(below)
        if ring is None or index in nodes.onto or ring.span < 6 or nodes.rows[index].far:
            ring = self.new_ring(index, mine, stand)
        length = nodes.width[mine].sum()
        h = _height(nodes, mine)
        wanted = (length - 4 * ring.half) / (2 * np.pi)
        step = np.clip(wanted - ring.out, -STEEP * h, h)
        made = _Ring(ring.middle, ring.e1, ring.e2, ring.axis, max(ring.out + step, 0.05 * h), ring.along + np.sqrt(max(h * h - step * step, 0.0)), ring.half, ring.turn)
        self.ring_of[index] = made
        self.kinds.append("round")
        feet, way = self.feet_at(stand), int(nodes.towards[mine[0]]) * ring.turn
        self.at[mine] = self.aligned(made, mine, stand, feet, length, way)
        if made.half <= 0 and step > 0.5 * h:
            self.cornered(index, mine, made, length)
        low, high = np.searchsorted(nodes.foot_node, (mine[0], mine[-1] + 1))
        self.deep[mine] = self.deep[nodes.foot_a[low:high]].mean() + h * (-1 if self.backwards(nodes.foot_a[low:high]) else 1)

    def backwards(self, feet) -> bool:
        """Whether rounds go on from the near end of a rolled up sheet, against the way in which its depth was counted."""
        return len(feet) and bool(self.rolled) and self.deep[feet].mean() < np.nanmean(self.deep) - 1e-6

    def cornered(self, index, mine, ring, length):
        """A round with corner spaces laid as a polygon, a corner where each of them lies."""
        begin, count = self.nodes.node_of[index]
        tips = [begin[at] + (count[at] - 1) / 2 for at, flag in enumerate(self.nodes.rows[index].flags) if flag & FLAG_CORNER and count[at]]
        if not 3 <= len(tips) <= 8:
            return
        place = np.arange(len(mine), dtype=float)
        spread = self.at[mine] - ring.middle
        theta = np.unwrap(np.arctan2(spread @ ring.e2, spread @ ring.e1))
        tip = np.array(tips) - mine[0]
        angle = np.interp(tip, place, theta)
        turn = 1.0 if theta[-1] > theta[0] else -1.0
        even = np.arange(len(tips)) * turn * 2 * np.pi / len(tips)
        even += (angle - even).mean()
        out = length / len(tips) / (2 * np.sin(np.pi / len(tips)))
        part = np.interp(place, np.concatenate((tip[-1:] - len(mine), tip, tip[:1] + len(mine))), np.arange(-1, len(tips) + 1))
        low = np.floor(part).astype(int)
        corner = out * np.stack((np.cos(even), np.sin(even)), 1)
        share = (part - low)[:, None]
        flat = (1 - share) * corner[low % len(tips)] + share * corner[(low + 1) % len(tips)]
        self.at[mine] = ring.middle + flat[:, :1] * ring.e1 + flat[:, 1:] * ring.e2 + ring.along * ring.axis

    def aligned(self, ring, mine, stand, feet, length, way):
        """The round turned so that its stitches stand nearest to their feet."""
        nodes = self.nodes
        shifts = np.linspace(0, length, 96, endpoint=False)
        step = max(len(stand) // 48, 1)
        few, to = stand[::step], feet[::step]
        at = self.on_curve(ring, (nodes.along[few][None, :] + shifts[:, None]).ravel(), length, way).reshape(len(shifts), len(few), 3)
        best = shifts[int(np.argmin(((at - to) ** 2).sum((1, 2))))]
        return self.on_curve(ring, nodes.along[mine] + best, length, way)

    def on_curve(self, ring, along, length, way):
        """Places a fraction along / length round a circle, or round an oval with straight sides."""
        part = way * along / length % 1.0
        if ring.half <= 0:
            theta = 2 * np.pi * part
            u, v = ring.out * np.cos(theta), ring.out * np.sin(theta)
        else:
            whole = 4 * ring.half + 2 * np.pi * ring.out
            s = part * whole
            a, bend = 2 * ring.half, np.pi * ring.out
            u, v = np.empty_like(s), np.empty_like(s)
            for low, high, kind in ((0, a, 0), (a, a + bend, 1), (a + bend, 2 * a + bend, 2), (2 * a + bend, whole + 1, 3)):
                here = (s >= low) & (s < high)
                t = s[here] - low
                turn = t / max(ring.out, 1e-9) - np.pi / 2
                u[here] = (-ring.half + t, ring.half + ring.out * np.cos(turn), ring.half - t, -ring.half - ring.out * np.cos(turn))[kind]
                v[here] = (-ring.out + 0 * t, ring.out * np.sin(turn), ring.out + 0 * t, -ring.out * np.sin(turn))[kind]
        return ring.middle + u[:, None] * ring.e1 + v[:, None] * ring.e2 + ring.along * ring.axis

    def new_ring(self, index, mine, stand):
        """The frame of a round on what lies there: round both sides of a chain, round the end of a tube, round an opening."""
        nodes, feet = self.nodes, self.feet_at(stand)
        below = nodes.below[index]
        middle = feet.mean(0)
        line = below >= 0 and nodes.rows[below].stitches == 0 and below not in self.ring_of and index not in nodes.onto
        if line:
            u = _unit(self.at[nodes.last[below] - 1] - self.at[nodes.first[below]])
            ends = feet @ u
            half = max((ends.max() - ends.min()) / 2, 0.0)
            self.half = True
            middle = middle + ((ends.max() + ends.min()) / 2 - middle @ u) * u
            return _Ring(middle, u, np.cross([0, 0, 1.0], u), np.array([0, 0, -1.0]), 0.0, 0.0, half)
        spread = feet - middle
        _, _, axes = np.linalg.svd(spread, full_matrices=False)
        e1, axis = axes[0], axes[-1] if len(axes) > 2 else np.array([0, 0, 1.0])
        placed = self.at[~np.isnan(self.at[:, 0])]
        home = self.ring_of.get(below)
        if home is not None and home.span > 6:  # an opening in a tube: out of its side, leaning the way the tube goes on
            aside = middle - home.middle
            aside = aside - (aside @ home.axis) * home.axis
            axis = _unit(_unit(aside) + 0.5 * home.axis)
            e1 = _unit(e1 - (e1 @ axis) * axis)
        elif axis @ (middle - placed.mean(0)) < 0:
            axis = -axis
        e2 = np.cross(axis, e1)
        theta = np.unwrap(np.arctan2(spread @ e2, spread @ e1))
        turn = (1 if theta[-1] > theta[0] else -1) * int(nodes.towards[mine[0]])
        return _Ring(middle, e1, e2, axis, float(np.linalg.norm(spread, axis=1).mean()), 0.0, 0.0, turn)

    # ---------------------------------------------------------------- sideways work

    def roll(self, index):
        """The sheet so far becomes a tube: its rows run along it, their heights add up to its girth."""
        done = ~np.isnan(self.at[:, 0])
        at = self.at[done]
        x, y = at[:, 0] - at[:, 0].min(), at[:, 1] - at[:, 1].min()
        long = x.max()
        grid = np.linspace(0, long, 64)
        girth, rows = np.zeros(len(grid)), self.nodes.row[done]
        for row in np.unique(rows):
            mine = rows == row
            if self.nodes.rows[row].stitches:
                order = np.argsort(x[mine])
                girth += np.interp(grid, x[mine][order], self.nodes.height[done][mine][order])
        out = girth / (2 * np.pi)
        up = np.full(len(grid) - 1, grid[1])
        if self.gathered:  # from the end drawn together outwards, as fast as the fabric allows
            flip = self.gathered == "last"
            run = out[::-1] if flip else out
            shaped = [0.04 * run.max()]
            for wanted in run[1:]:
                shaped.append(min(wanted, shaped[-1] + 0.9 * grid[1]))
            out = np.array(shaped[::-1] if flip else shaped)
            up = np.sqrt(np.maximum(grid[1] ** 2 - np.diff(out) ** 2, 0.01 * grid[1] ** 2))
        along = np.concatenate(([0.0], np.cumsum(up)))
        radius, height = np.interp(x, grid, out), np.interp(x, grid, along)
        angle = 2 * np.pi * y / (y.max() * (1 + 0.5 / max(len(np.unique(rows)), 1)))
        self.at[done] = np.stack((radius * np.sin(angle), radius * np.cos(angle), height), 1)
        self.deep[done] = long - x if self.gathered == "last" else x
        if self.gathered == "first":
            self.at[done] *= np.array([1.0, -1.0, -1.0])


def _height(nodes, mine) -> float:
    """Height of a row: that of its tall stitches where chains lie between them."""
    kinds = mine[nodes.kind[mine] > 0]
    return float(nodes.height[kinds if len(kinds) else mine].mean())


def _unit(v):
    return v / np.maximum(np.linalg.norm(v, axis=-1, keepdims=True), 1e-12)
