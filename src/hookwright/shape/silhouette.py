"""The outline of a solved surface: its silhouette as it lies, or from the side where it stands, with its few larger openings."""

from dataclasses import dataclass

import numpy as np
from scipy import ndimage

from hookwright.fabric import FLAG_COUNTS, FLAG_JOIN, FLAG_TURNING

_FINE, _LEAST, _MOST = 5.0, 150, 900  # pixels to a stitch, and along a side at least and at most
_CLOSE = 1.2  # stitches: what is not farther apart hangs together (chain spaces, the room between faces)
_OPENING = 3.0  # stitches: an opening is at least so wide, what is smaller is lace
_FEW = 4  # more openings than that are lace, too
_ACROSS = 0.5  # of a stitch: lines stray no farther than this
_SMALL = 0.01  # the same of the size of a small piece
_BEND = np.cos(np.radians(42))  # gentler turns of the line belong to a curve
_SAMPLES = 7
_TUBE = 0.1  # of its width: so far at least its first rounds lead in some direction
_TURNED = 1.25  # times as large as the smallest rectangle: a piece lies askew


@dataclass(slots=True)
class Silhouette:
    """outer: closed lines [(x, y)] in mm, y up, from 0, 0 lower left; openings: the same of its holes; places: (n, 2), the nodes of the surface in
    that plane."""

    outer: list
    openings: list
    places: np.ndarray
    area: float  # mm², openings left out

    @property
    def size(self) -> tuple[float, float]:
        """(width, height) in mm."""
        points = np.concatenate([np.array(loop) for loop in self.outer])
        return float(np.ptp(points[:, 0])), float(np.ptp(points[:, 1]))


def silhouette(surface, *, down: bool = False) -> Silhouette | None:
    """The silhouette of a shape.Surface: from above where it lies flat, else from the side that shows most of it, what was begun first below, or on
    top (down); None where it has no area."""
    if len(surface.at) < 3:
        return None
    at, base, along = _plane(surface, down)
    stitch = float(np.median(surface.width[surface.width > 0])) if (surface.width > 0).any() else 4.0
    points = _covered(surface, at, base, along)
    low, high = points.min(0), points.max(0)
    large = float((high - low).max())
    pixel = max(min(stitch / _FINE, large / _LEAST), large / _MOST)
    if (high - low).min() < pixel:
        return None
    pad = int(_CLOSE * stitch / pixel) + 3
    cells = ((points - low) / pixel).astype(int) + pad
    mask = np.zeros(cells.max(0)[::-1] + pad + 1, bool)
    mask[cells[:, 1], cells[:, 0]] = True
    mask = _closed(mask, _CLOSE * stitch / pixel)
    whole = ndimage.binary_fill_holes(mask)
    whole = _largest(whole, (2 * stitch / pixel) ** 2)
    holes = _openings(whole & ~mask, _OPENING * stitch / pixel)
    outer = [_line(loop, pixel, stitch) for loop in _loops(whole)]
    inner = [_line(loop, pixel, stitch) for hole in holes for loop in _loops(hole)]
    outer, inner = ([loop for loop in some if len(loop) > 2] for some in (outer, inner))
    if not outer:
        return None
    first = np.concatenate([np.array(loop) for loop in outer]).min(0)
    outer, inner = ([[(x - first[0], y - first[1]) for x, y in loop] for loop in some] for some in (outer, inner))
    places = at - low + pad * pixel - first
    return Silhouette(outer, inner, places, float(whole.sum() - sum(hole.sum() for hole in holes)) * pixel * pixel)


def _plane(surface, down: bool):
    """(tops, feet, direction along the row) of all nodes in the plane that is looked at."""
    along = _along(surface)
    if surface.shown == "flat":
        at, base, way = surface.at[:, :2], surface.base[:, :2], along[:, :2]
        turn = _turn(at)
        return (at, base, way) if turn is None else (at @ turn, base @ turn, way @ turn)
    up = _upright(surface) * (-1 if down else 1)
    first = np.cross(up, np.eye(3)[np.abs(up).argmin()])
    first /= np.linalg.norm(first)
    second = np.cross(up, first)
    way = max((first * np.cos(angle) + second * np.sin(angle) for angle in np.linspace(0, np.pi, 24, endpoint=False)), key=lambda one: np.ptp(surface.at @ one))
    side = np.array([way, up]).T
    return surface.at @ side, surface.base @ side, along @ side


def _upright(surface):
    """The unit direction in which a piece that is begun as a tube goes on; upwards where it is none or is worn on a form."""
    rows = [number for number, row in enumerate(surface.rows) if row.in_round and (surface.row == number).sum() > 2]
    if surface.shown == "free" and surface.construction == "tube" and len(rows) > 3:
        low, high = (surface.at[surface.row == rows[at]] for at in (0, len(rows) // 5 + 1))
        way, across = high.mean(0) - low.mean(0), float(np.ptp(low, axis=0).max())
        if np.linalg.norm(way) > _TUBE * across:
            return way / np.linalg.norm(way)
    return np.array([0.0, 0.0, 1.0])


def _turn(at):
    """The turn that lays a piece straight that lies askew; None where it lies straight."""
    best, area = 0.0, None
    for angle in np.linspace(0, np.pi / 2, 90, endpoint=False):
        turned = at @ _rotation(angle)
        here = float(np.ptp(turned[:, 0]) * np.ptp(turned[:, 1]))
        if area is None:
            area = first = here
        if here < area * 0.999:
            best, area = angle, here
    return _rotation(best) if area is not None and first > _TURNED * area else None


def _rotation(angle: float):
    return np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])


def _along(surface):
    """(n, 3) unit directions along the row, from the neighbours of each node in it; 0 where it has none."""
    out = np.zeros_like(surface.at)
    order = np.lexsort((np.arange(len(surface.row)), surface.row))
    rows = surface.row[order]
    at = surface.at[order]
    step = np.zeros_like(at)
    same = rows[1:] == rows[:-1]
    step[1:][same] += (at[1:] - at[:-1])[same]
    step[:-1][same] += (at[1:] - at[:-1])[same]
    long = np.linalg.norm(step, axis=1, keepdims=True)
    out[order] = step / np.maximum(long, 1e-9)
    return out


def _covered(surface, at, base, along):
    """Points all over what the fabric covers: every stitch from foot to top as wide as it is, and every face."""
    idle = np.zeros(len(at), bool)
    for number, row in enumerate(surface.rows):
        mine = np.flatnonzero(surface.row == number)
        if len(mine) and len(row.flags):
            flags = np.frombuffer(row.flags, np.uint8)[np.minimum(surface.place[mine], len(row.flags) - 1)]
            idle[mine] = (flags & FLAG_JOIN != 0) | ((flags & FLAG_TURNING != 0) & (flags & FLAG_COUNTS == 0))
    across, up = np.meshgrid(np.linspace(-0.5, 0.5, _SAMPLES), np.linspace(0, 1, _SAMPLES))
    mine = ~idle
    half = along[mine] * np.minimum(surface.width[mine], 1.3 * max(float(np.median(surface.width)), 1e-6))[:, None]
    out = [at[mine][:, None] * (1 - up.ravel())[None, :, None] + base[mine][:, None] * up.ravel()[None, :, None] + half[:, None] * across.ravel()[None, :, None]]
    if len(surface.faces):
        first, second = np.meshgrid(np.linspace(0, 1, _SAMPLES), np.linspace(0, 1, _SAMPLES))
        within = (first + second) <= 1.0 + 1e-9
        u, v = first[within], second[within]
        p, q, r = (at[surface.faces[:, corner]] for corner in range(3))
        out.append(p[:, None] + (q - p)[:, None] * u[None, :, None] + (r - p)[:, None] * v[None, :, None])
    return np.concatenate([some.reshape(-1, 2) for some in out])


def _closed(mask, radius: float):
    """What lies nearer to each other than twice the radius is joined; edges stay where they are."""
    grown = ndimage.distance_transform_edt(~mask) <= radius
    return (ndimage.distance_transform_edt(grown) > radius) | mask


def _largest(mask, least: float):
    """The mask without specks."""
    number, count = ndimage.label(mask)
    if count < 2:
        return mask
    sizes = np.bincount(number.ravel())
    sizes[0] = 0
    return np.isin(number, np.flatnonzero(sizes >= min(least, sizes.max())))


def _openings(empty, wide: float) -> list:
    """Masks of the openings that are wide enough both ways, where they are few."""
    number, count = ndimage.label(empty)
    out = []
    for at, box in enumerate(ndimage.find_objects(number), 1):
        hole = number[box] == at
        if min(hole.shape) >= wide and ndimage.distance_transform_edt(np.pad(hole, 1)).max() * 2 >= wide:
            full = np.zeros_like(empty)
            full[box] = hole
            out.append(full)
    return out if len(out) <= _FEW else []


def _loops(mask) -> list:
    """Closed lines along the outer edges of the pixels of a mask without holes, the longest first: (k, 2) arrays of corners."""
    full = np.pad(mask, 1)
    follow: dict = {}
    for (dy, dx), (first, second) in {(-1, 0): ((0, 0), (1, 0)), (0, 1): ((1, 0), (1, 1)), (1, 0): ((1, 1), (0, 1)), (0, -1): ((0, 1), (0, 0))}.items():
        ys, xs = np.nonzero(full & ~np.roll(full, (-dy, -dx), (0, 1)))
        for y, x in zip(ys.tolist(), xs.tolist(), strict=True):
            follow.setdefault((x + first[0], y + first[1]), []).append((x + second[0], y + second[1]))
    out = []
    while follow:
        start = here = next(iter(follow))
        loop = []
        while here in follow:
            loop.append(here)
            ways = follow[here]
            here = ways.pop()
            if not ways:
                del follow[loop[-1]]
            if here == start:
                break
        out.append(np.array(loop, float) - 1)
    return sorted(out, key=len, reverse=True)


def _line(loop, pixel: float, stitch: float) -> list:
    """The loop in mm as straight runs with corners and rounded curves."""
    points = loop * pixel
    middle = (points + np.roll(points, -1, 0)) / 2  # the stairs of pixels lie about the edge
    far = int(((middle - middle.mean(0)) ** 2).sum(1).argmax())
    middle = np.roll(middle, -far, 0)
    other = int(((middle - middle[0]) ** 2).sum(1).argmax())
    near = max(min(_ACROSS * stitch, _SMALL * float(np.ptp(middle, axis=0).max())), pixel)
    kept = [*_simplified(middle[: other + 1], near)[:-1], *_simplified(np.concatenate((middle[other:], middle[:1])), near)[:-1]]
    return _rounded(kept)


def _simplified(points, near: float) -> list:
    """The points without which the line would go astray by more than `near` (Douglas and Peucker)."""
    keep, stack = {0, len(points) - 1}, [(0, len(points) - 1)]
    while stack:
        low, high = stack.pop()
        if high - low < 2:
            continue
        way = points[high] - points[low]
        long = float(np.hypot(*way))
        inside = points[low + 1 : high] - points[low]
        off = np.abs(inside[:, 0] * way[1] - inside[:, 1] * way[0]) / long if long > 1e-9 else np.hypot(inside[:, 0], inside[:, 1])
        at = int(off.argmax())
        if off[at] > near:
            keep.add(low + 1 + at)
            stack += [(low, low + 1 + at), (low + 1 + at, high)]
    return [points[place] for place in sorted(keep)]


def _rounded(points: list) -> list:
    """Gentle turns cut twice, corners kept."""
    for _ in range(2):
        out = []
        for before, here, after in zip([points[-1], *points[:-1]], points, [*points[1:], points[0]], strict=True):
            one, other = here - before, after - here
            long = float(np.hypot(*one) * np.hypot(*other))
            if long > 1e-9 and float(one @ other) / long > _BEND and float(one @ other) / long < 0.999:
                out += [here - one * 0.25, here + other * 0.25]
            else:
                out.append(here)
        points = out
    return [(float(x), float(y)) for x, y in points]
