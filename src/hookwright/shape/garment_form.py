"""A plain form for garments, and flat pieces laid round it: a body that is an oval cylinder closed over the shoulders, and arms that taper.

Rows go round the form as long as they are and columns down it as long as they are, so that nothing is stretched but where the shoulders slope and
where a sleeve bends at the armhole. The form stands upright along z with its front to +x; the shoulder seams at the neck are at z = 0. Lengths in mm.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import ellipeinc

DEEP = 0.5  # depth of a half of the body against half of its width laid flat
ROLL = 1.0  # how far down the shoulders round off, against that depth
LEVELS = 0.6  # of what the middle takes more to come over the shoulders than the sides: so much is evened down to the hem
SLOPE = 0.24  # of shoulders
REACH = 0.5  # depth of half an armhole against the half of the body, at most
OPENS = 1.5  # so much sooner than at the shoulder an armhole is as deep as that
HANGS = np.radians(33.0)  # arms, under the level
BENDS = 2.2  # a sleeve has the round of the arm so far from the armhole, against the radius of its top
SHOULDER = 0.12  # of its height: what ends so near to the top of a piece is shoulder
PINNED = 0.1  # edges that differ by less are the same length, and were solved a little apart
NARROWS = 0.06  # of the width: where a piece narrows by so much above its lower half, the armholes begin
EASES = 0.65  # shoulders are as narrow as if they were at least so deep, against the body: the fabric eases in
SAGS = 0.3  # so far a straight neck falls open in front, against half its width
_STEPS = 48


@dataclass(slots=True)
class Panel:
    """A flat piece: at, base (n, 2) with its middle at x = 0, the way it is worn up. levels (k,) and half (k,): half its width at each height, edges
    included. top: its highest edge; columns (c,), tops (c,): where the shoulders are at each distance from the middle; neck: half its width, 0 where
    none is shaped; underarm: the height where it narrows for armholes, NaN where it does not."""

    at: np.ndarray
    base: np.ndarray
    levels: np.ndarray
    half: np.ndarray
    top: float
    columns: np.ndarray
    tops: np.ndarray
    neck: float
    underarm: float

    @property
    def height(self) -> float:
        """From its lower edge to the top."""
        return self.top - float(self.levels[0])

    def half_at(self, y) -> np.ndarray:
        """Half its width at these heights."""
        return np.interp(y, self.levels, self.half)

    def top_at(self, x) -> np.ndarray:
        """The height of its top edge at these distances from the middle, over the neck that of the shoulders beside it."""
        return np.interp(np.abs(x), self.columns, self.tops)


def panel_of(surface, turned: bool = False) -> Panel:
    """The Panel of a shape.Surface pinned flat; turned: upside down."""
    at, base = surface.at[:, :2], surface.base[:, :2]
    up = (at - base).sum(0)
    up = up / (np.linalg.norm(up) or 1.0) * (-1 if turned else 1)
    if abs(up[1]) > 0.98:  # pinned straight already
        up = np.array((0.0, np.sign(up[1])))
    turn = np.array(((up[1], up[0]), (-up[0], up[1])))
    at, base = at @ turn, base @ turn
    stitch, high = float(np.median(surface.width)), float(np.median(surface.height[surface.height > 0]))
    low, top = float(min(at[:, 1].min(), base[:, 1].min())), float(at[:, 1].max())
    count = max(int(round((top - low) / (2 * high))), 2)  # two rows each, so that none is without a whole one
    level = np.clip(((at[:, 1] - low) / (top - low) * count).astype(int), 0, count - 1)
    left, right = np.full(count, np.inf), np.full(count, -np.inf)
    np.minimum.at(left, level, at[:, 0])
    np.maximum.at(right, level, at[:, 0])
    has = np.isfinite(left)
    levels = (low + (np.arange(count) + 0.5) * (top - low) / count)[has]
    left, right = left[has] - stitch / 2, right[has] + stitch / 2
    middle = float(np.median((left + right)[: max(len(left) // 2, 1)])) / 2
    at, base = at - (middle, 0), base - (middle, 0)
    half = (right - left) / 2
    columns, tops, neck = _shoulders(at, top, stitch, float(half.max()), SHOULDER * (top - low))
    return Panel(at, base, levels, half, top, columns, tops, neck, _underarm(levels, half))


def match(back: Panel, front: Panel) -> None:
    """Draws the edges of two panels that are sewn together out to each other, as they are when pinned out: where one is nearly as wide as the other
    at the same distance from the top."""
    down = np.linspace(0, min(back.height, front.height), 4 * len(back.levels))
    halves = [panel.half_at(panel.top - down) for panel in (back, front)]
    wide = np.where(np.abs(halves[0] - halves[1]) < PINNED * np.maximum(*halves), np.maximum(*halves), 0)
    for panel, half in zip((back, front), halves, strict=True):
        share = np.where(wide > 0, wide, half) / half

        def drawn_out(y, top=panel.top, share=share):
            return np.interp(top - y, down, share)

        panel.at, panel.base = (np.stack((points[:, 0] * drawn_out(points[:, 1]), points[:, 1]), 1) for points in (panel.at, panel.base))
        panel.half = panel.half * drawn_out(panel.levels)


def _shoulders(at, top, stitch, half, near):
    count = max(int(half / stitch), 2)
    column = np.clip((np.abs(at[:, 0]) / half * count).astype(int), 0, count - 1)
    high = np.full(count, -np.inf)
    np.maximum.at(high, column, at[:, 1])
    where = np.flatnonzero(high > top - near)
    tops = np.maximum.accumulate(high[where][::-1])[::-1]  # outwards they only fall
    low = np.flatnonzero(high[: where[-1] + 1] < top - near / 4)
    inner = low[low < where[np.argmax(high[where])]]
    columns = (np.arange(count) + 0.5) * half / count
    return columns[where], tops, float(columns[inner[-1]]) if len(inner) > 1 else 0.0


def _underarm(levels, half) -> float:
    """The height from which on a piece is narrower by NARROWS than a little below, above its lower third and below its shoulders."""
    widest = np.maximum.accumulate(half[::-1])[::-1]  # at each height the widest above
    for at in range(max(len(half) // 3, 1), int(0.8 * len(half))):
        if widest[at] < (1 - NARROWS) * half[max(at - 3, 0) : at].max():
            return float(levels[max(at - 1, 0)])
    return float("nan")


@dataclass(slots=True)
class Body:
    """A form for pieces that go together. deep: how far down the armholes reach from the shoulders; neck: half its width; slope of the shoulders."""

    deep: float
    neck: float
    slope: float

    def laid(self, panel: Panel, points, side: int) -> np.ndarray:
        """(n, 3): points (n, 2) of a panel on the front (side 1) or the back (-1) of the form."""
        x, y = points.T
        half = self._half(panel, y)
        down = np.maximum(panel.top_at(x) - y, 0.0)
        if side > 0 and not panel.neck:  # a straight neck falls open in front
            down = down + SAGS * self.neck * np.clip(1 - (x / self.neck) ** 2, 0, 1) * np.clip(1 - down / self.deep, 0, 1)
        deep, edge = DEEP * half, np.minimum(panel.half_at(y) / half, 1.0)
        opening = np.clip(1 - down / self.deep, 0.0, 1.0)
        wanted = REACH * np.sin(np.pi / 2 * np.minimum(OPENS * opening, 1.0))
        angle = np.minimum(np.pi / 2, np.arccos(wanted) / np.maximum(edge, 0.3))
        share = x / half
        full = deep * np.maximum(np.cos(angle * share), 0.0)
        depth, fallen = _over(full, ROLL * deep, down)
        fallen += LEVELS * (down - fallen) * np.clip((down - 1.6 * deep) / np.maximum(panel.height - 1.6 * deep, 1), 0, 1)
        middle, _ = _over(deep, ROLL * deep, down)
        across = half / angle * ellipeinc(angle * share, np.minimum((np.maximum(middle, EASES * deep) * angle / half) ** 2, 0.98))
        fade = np.clip(1 - down / panel.height, 0, 1)
        z = panel.top_at(x) - panel.top - fallen - self.slope * np.maximum(np.abs(across) - self.neck, 0) * fade
        return np.stack((side * depth, side * across, z), 1)

    def _half(self, panel, y):
        """Half the width of the form at these heights of a panel: its own, above the armholes that below them."""
        under = panel.underarm if np.isfinite(panel.underarm) else panel.top - self.deep
        return panel.half_at(np.minimum(y, under))

    def edge(self, panel: Panel, side: int, hand: int) -> np.ndarray:
        """(m, 3): the edge of an armhole from underarm to shoulder; hand: 1 at +y, -1 at -y."""
        under = panel.underarm if np.isfinite(panel.underarm) else panel.top - self.deep
        y = np.linspace(under, panel.top, _STEPS)
        x = panel.half_at(y)
        y = np.minimum(y, panel.top_at(x))
        return self.laid(panel, np.stack((side * hand * x, y), 1), side)


def _over(deep, roll, down):
    """(depth, height below the top) at the way `down` over a quarter of an oval `deep` and `roll` large, and straight down from its end."""
    turn = np.linspace(0, np.pi / 2, _STEPS + 1)
    y, z = deep[:, None] * np.sin(turn), roll[:, None] * (1 - np.cos(turn))
    way = np.zeros_like(y)
    np.cumsum(np.hypot(np.diff(y), np.diff(z)), axis=1, out=way[:, 1:])
    at = np.clip((way < down[:, None]).sum(1) - 1, 0, _STEPS - 1)
    rows = np.arange(len(down))
    before, after = way[rows, at], way[rows, at + 1]
    part = np.clip((down - before) / np.maximum(after - before, 1e-9), 0, 1)
    beyond = np.maximum(down - way[:, -1], 0)
    return y[rows, at] + part * (y[rows, at + 1] - y[rows, at]), z[rows, at] + part * (z[rows, at + 1] - z[rows, at]) + beyond


def ring_of(front: np.ndarray, back: np.ndarray, hand: int, count: int = 97) -> np.ndarray:
    """(count, 3): an armhole from the underarm over the shoulder and back to the underarm, evenly, as the right side of a sleeve goes round it."""
    first, last = (front, back) if hand > 0 else (back, front)
    low, high = (front[0] + back[0]) / 2, (front[-1] + back[-1]) / 2
    line = np.concatenate((low[None], first[1:-1], high[None], last[-2:0:-1], low[None]))
    half = len(first) - 1  # the shoulder is in the middle of it, however long its two sides are
    way = np.concatenate(([0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))))
    where = np.where(np.arange(len(way)) <= half, way / way[half] / 2, 0.5 + (way - way[half]) / (way[-1] - way[half]) / 2)
    even = np.linspace(0, 1, count)
    return np.stack([np.interp(even, where, line[:, axis]) for axis in range(3)], 1)


def sleeve_laid(panel: Panel, points, ring: np.ndarray, hand: int) -> np.ndarray:
    """(n, 3): points (n, 2) of a sleeve, its top up, round an arm from the armhole `ring` (see ring_of)."""
    x, y = points.T
    widest = int(np.argmax(panel.half >= 0.995 * panel.half.max()))
    for at in range(len(panel.half) - 1, -1, -1):  # the last of the widest rows, for above it is the cap
        if panel.half[at] >= 0.99 * panel.half.max():
            widest = at
            break
    crown = panel.levels[widest] if panel.top - panel.levels[widest] > 0.04 * panel.height else panel.top
    half = panel.half_at(np.minimum(y, crown))
    round_it = np.clip(0.5 + x / (2 * half), 0.0, 1.0)
    cap = panel.top - crown
    edge = crown + cap * np.sin(np.pi * round_it) ** 2
    out = np.maximum(edge - y, 0.0)
    along = crown - y + cap / 2
    radius, large = half / np.pi, panel.half.max() / np.pi
    way = np.array((0.0, hand * np.cos(HANGS), -np.sin(HANGS)))
    upward = np.array((0.0, hand * np.sin(HANGS), np.cos(HANGS)))
    turn = 2 * np.pi * round_it
    middle = ring[:-1].mean(0)
    arm = (middle + way * along[:, None] - (radius * np.cos(turn))[:, None] * upward + (hand * radius * np.sin(turn))[:, None] * np.array((1.0, 0.0, 0.0)))
    even = np.linspace(0, 1, len(ring))
    start = np.stack([np.interp(round_it, even, ring[:, axis]) for axis in range(3)], 1) + way * out[:, None]
    bent = np.clip(out / (BENDS * large), 0, 1)
    bent = (bent * bent * (3 - 2 * bent))[:, None]
    return (1 - bent) * start + bent * arm
