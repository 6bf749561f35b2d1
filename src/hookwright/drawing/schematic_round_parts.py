"""Pieces worked in rounds as they stand on a schematic: discs and motifs from above, tubes, caps and balls from the side."""

from math import cos, dist, pi, sin, sqrt

from .schematic_parts import Dim, Outline, SchematicPart, simplified

_POINTS = 96
_STEEP = 0.06  # of a row's height: so much at least a round stands above the one before
_SAME = 0.04  # girths nearer than this share are one
_SLEEVES = 0.25  # one that leaves more than this leaves two sleeves, one at either side
_CORNER = 1.0  # of a stitch: an edge is drawn straight where it is nearer than this to a straight line
_DROP = 0.06  # a round that is shorter by more than this share leaves stitches for something else


def of_rounds(rounds: tuple, shown: int, name: str, *, upside: bool, down: bool = False) -> SchematicPart | None:
    """rounds: schematic_rounds.Rounds in each size, None where a size has none; upside: the closed end is on top, as a hat is worn; down: tubes are
    worked from the top down."""
    drawn = rounds[shown]

    def of(function):
        return tuple(None if one is None else function(one) for one in rounds)

    made = {"disc": _disc, "oval": _oval, "polygon": _polygon, "half square": _half, "half disc": _half}.get(drawn.shape)
    return made(drawn, of, name) if made else _side(drawn, of, name, upside) if drawn.ring else _laid_flat(drawn, of, name, down)


def _disc(drawn, of, name) -> SchematicPart:
    radius = drawn.out[-1]
    ring = [(radius * cos(2 * pi * at / _POINTS), radius * sin(2 * pi * at / _POINTS)) for at in range(_POINTS)]
    dims = [Dim("diameter", (-radius, 0.0), (radius, 0.0), "below", of(lambda one: 2 * one.out[-1]))]
    return SchematicPart(name, Outline([ring], [[*ring, ring[0]]], [], ((0.0, 0.0), (0.0, radius * 0.5))), dims, "rounds out")


def _oval(drawn, of, name) -> SchematicPart:
    radius, half = drawn.out[-1], drawn.base_mm / 4
    turn = [pi * at / _POINTS for at in range(_POINTS + 1)]
    ring = [*((half + radius * sin(one), -radius * cos(one)) for one in turn), *((-half - radius * sin(one), radius * cos(one)) for one in turn)]
    dims = [Dim("length", (-half - radius, -radius), (half + radius, -radius), "below", of(lambda one: 2 * one.out[-1] + one.base_mm / 2)),
            Dim("width", (-half - radius, -radius), (-half - radius, radius), "left", of(lambda one: 2 * one.out[-1]))]
    return SchematicPart(name, Outline([ring], [[*ring, ring[0]]], [[(-half, 0.0), (half, 0.0)]], ((half * 0.5, 0.0), (half * 0.5, radius * 0.6))), dims, "rounds out")


def _half(drawn, of, name) -> SchematicPart:
    """Half a square or disc that hangs from the edge it was begun at the middle of."""
    root = sqrt(2) if drawn.corners else 1.0
    wide = deep = drawn.out[-1] * root
    under = [(wide, 0.0), (0.0, -deep), (-wide, 0.0)] if drawn.corners else [(wide * cos(pi * at / _POINTS), -deep * sin(pi * at / _POINTS)) for at in range(_POINTS + 1)]
    dims = [Dim("along the edge", (-wide, 0.0), (wide, 0.0), "above", of(lambda one: 2 * one.out[-1] * root)), Dim("deep", (wide, -deep), (wide, 0.0), "right", of(lambda one: one.out[-1] * root))]
    return SchematicPart(name, Outline([under], [[*under, under[0]]], [], ((0.0, -deep * 0.1), (0.0, -deep * 0.4))), dims)


def _polygon(drawn, of, name) -> SchematicPart:
    count, side = drawn.corners, drawn.around[-1] / drawn.corners
    radius = side / (2 * sin(pi / count))
    points = [(radius * sin(2 * pi * (at + 0.5) / count), -radius * cos(2 * pi * (at + 0.5) / count)) for at in range(count)]
    low = min(y for _, y in points)
    high = max(y for _, y in points)
    ends = [point for point in points if abs(point[1] - low) < 1e-6]
    dims = [Dim("side", min(ends), max(ends), "below", of(lambda one: one.around[-1] / max(one.corners, 1)))]
    dashed, arrow = [], ((0.0, 0.0), (0.0, side * 0.3))
    if count == 4:
        dashed, arrow = [[min(ends), (-min(ends)[0], high)]], ((0.0, 0.0), (-side * 0.3, 0.0))
        dims.append(Dim("diagonal", min(ends), (-min(ends)[0], high), "slant", of(lambda one: one.around[-1] / 4 * sqrt(2))))
    else:
        dims.append(Dim("across", (-radius, low), (-radius, high), "left", of(lambda one: one.around[-1] / max(one.corners, 1) * (high - low) / side)))
    return SchematicPart(name, Outline([points], [[*points, points[0]]], dashed, arrow), dims, "rounds out")


# ---------------------------------------------------------------- laid flat

def _laid_flat(drawn, of, name, down: bool) -> SchematicPart:
    """A tube as it lies folded, half of each round wide; what a gusset adds stands out at one side. down: worked from the top down."""
    half = [one / 4 for one in drawn.around]
    gusset = _gusset(drawn)
    left = [half[0], *half]
    if gusset is not None and _drop(drawn, gusset[1]) < _SLEEVES:
        begin, end = gusset
        for at in range(begin, end + 1):
            left[at + 1] = half[begin - 1] if begin else half[0]
    ys = [0.0, *drawn.out]
    if down:
        ys = [drawn.out[-1] - y for y in ys]
    right = [2 * whole - one for whole, one in zip([half[0], *half], left, strict=True)]
    outline = Outline()
    near = _CORNER * drawn.around[0] / max(drawn.stitches[0], 1)
    edges = tuple([point[:2] for point in simplified([(way * x, y, at) for at, (x, y) in enumerate(zip(side, ys, strict=True))], near)] for way, side in ((-1, left), (1, right)))
    outline.fills.append([*edges[0], *reversed(edges[1])])
    outline.lines += [*edges, [edges[0][0], edges[1][0]], [edges[0][-1], edges[1][-1]]]
    dims = [Dim("around at the first round", edges[0][0], edges[1][0], "above" if down else "below", of(lambda one: one.around[0]))]
    if drawn.shape == "tube" and abs(drawn.around[-1] - drawn.around[0]) > _SAME * drawn.around[0]:
        dims.append(Dim("around at the last round", edges[0][-1], edges[1][-1], "below" if down else "above", of(lambda one: one.around[-1])))
    if drawn.widest_mm > max(drawn.around[0], drawn.around[-1]) * (1 + _SAME):
        at = drawn.around.index(drawn.widest_mm) + 1
        across = (-left[at], ys[at]), (right[at], ys[at])
        outline.dashed.append(list(across))
        dims.append(Dim("widest around", *across, "beside", of(lambda one: one.widest_mm)))
    wide, tall = max(left), drawn.out[-1]
    dims.append(Dim("length", (-wide, 0.0), (-wide, tall), "left", of(lambda one: one.out[-1])))
    foot, long = (tall * 0.64, -1) if down else (tall * 0.36, 1)
    outline.arrow = ((0.0, foot), (0.0, foot + long * min(tall * 0.26, wide * 1.4)))
    return SchematicPart(name, outline, dims, "rounds")


def _drop(drawn, at: int) -> float:
    """The share by which the round behind this one is shorter."""
    return 1 - drawn.around[at + 1] / drawn.around[at]


def _gusset(drawn) -> tuple[int, int] | None:
    """(first, last) of the rounds of a gusset: girths grow from the first on, and fall at once behind the last, where it is left for a thumb."""
    around = drawn.around
    for at in range(1, len(around) - 1):
        if around[at + 1] < around[at] * (1 - _DROP) and around[at] > around[0] * (1 + _DROP):
            low = around[at + 1] * (1 + _SAME)
            begin = next((one for one in range(at, 0, -1) if around[one - 1] <= low), None)
            return None if begin is None or not all(around[one] >= around[one - 1] for one in range(begin + 1, at + 1)) else (begin, at)
    return None


# ---------------------------------------------------------------- from the side

def profile(drawn, *, dome: bool = False) -> list[tuple[float, float]]:
    """(half width, height above where it begins) in mm, at the beginning and on top of each round: each as a circle that stands on the one before.

    dome: a crown lies on the round of a head, no wider there than half a ball.
    """
    first = drawn.around[0] / (2 * pi)
    height, before = 0.0, (first if drawn.base_mm is None else max(first - drawn.out[0], 0.0) if drawn.base_mm else 0.0, 0.0)
    points, most = [(before[0], 0.0)], drawn.widest_mm / (2 * pi)
    for girth, along in zip(drawn.around, drawn.out, strict=True):
        radius, step = girth / (2 * pi), along - before[1]
        if dome:
            radius = min(radius, most * sin(min(along / most, pi / 2)))
        height += sqrt(max(step * step - (radius - before[0]) ** 2, (_STEEP * step) ** 2))
        points.append((radius, height))
        before = (radius, along)
    return points


def _side(drawn, of, name, upside) -> SchematicPart:
    points = profile(drawn, dome=upside and drawn.ring and drawn.shape == "cap")
    if drawn.shape == "ball":
        points = _filled(points)
    tall = points[-1][1]
    flip = drawn.shape == "cap" and (upside if drawn.ring else not upside)
    line = [(x, tall - y if flip else y) for x, y in points]
    ends_closed = drawn.ring, drawn.shape == "ball" or drawn.shape == "cap" and not drawn.ring
    whole = [*([(0.0, line[0][1])] if ends_closed[0] and line[0][0] > 0 else []), *line, *([(0.0, line[-1][1])] if ends_closed[1] else [])]
    right = _smooth(whole)
    outline = Outline([[*right, *((-x, y) for x, y in reversed(right))]], [right, [(-x, y) for x, y in right]])
    low, high = min(y for _, y in right), max(y for _, y in right)
    dims: list[Dim] = []
    told = 0.0
    for place, at, closed, says in ((0, 0, ends_closed[0], "around at the first round"), (-1, -1, ends_closed[1], "around at the last round")):
        x, y = line[place]
        if closed or x <= 0.02 * drawn.widest_mm:
            continue
        told = max(told, drawn.around[at])
        bottom = y < (low + high) / 2
        outline.dashed.append(_bow(x, y, up=bottom))
        outline.lines.append(_bow(x, y, up=False))
        dims.append(Dim(says, (-x, y), (x, y), "below" if bottom else "above", of(lambda one, at=at: one.around[at])))
    if drawn.widest_mm > told * (1 + _SAME):
        x, y = line[drawn.around.index(drawn.widest_mm) + 1]
        outline.dashed.append(_bow(x, y, up=False))
        dims.append(Dim("widest around", (-x, y), (x, y), "beside", of(lambda one: one.widest_mm)))
    wide = max(x for x, _ in right)
    if drawn.shape != "ball":  # how high it stands is a matter of the filling
        dims.append(Dim("length along the fabric" if drawn.shape == "cap" else "length", (-wide, low), (-wide, high), "left", of(lambda one: one.out[-1])))
    middle, way = (low + high) / 2, -1 if flip else 1
    outline.arrow = ((0.0, middle - way * tall * 0.13), (0.0, middle + way * tall * 0.13))
    return SchematicPart(name, outline, dims, "rounds")


def _filled(points: list) -> list:
    """The outline as filling rounds it: each place the mean of those about it, the ends kept."""
    out = points
    for _ in range(2):
        out = [out[0], *(tuple(sum(one[way] for one in out[max(at - 2, 0) : at + 3]) / len(out[max(at - 2, 0) : at + 3]) for way in (0, 1)) for at in range(1, len(out) - 1)), out[-1]]
    return out


def _smooth(points: list) -> list:
    """The points rounded a little where they turn: each corner is cut twice, by no more than a quarter of its shorter side."""
    kept = points
    for _ in range(2):
        out = [kept[0]]
        for before, here, after in zip(kept, kept[1:], kept[2:], strict=False):
            one, other = dist(before, here), dist(here, after)
            cut = 0.25 * min(one, other)
            if cut < 1e-9:
                out.append(here)
                continue
            out += [tuple(h + (b - h) * cut / one for h, b in zip(here, before, strict=True)), tuple(h + (a - h) * cut / other for h, a in zip(here, after, strict=True))]
        out.append(kept[-1])
        kept = out
    return kept


_FLATTENED = 0.13  # how far a ring is seen from above


def _bow(radius: float, y: float, *, up: bool) -> list:
    """The front of a ring seen from a little above, or its back."""
    return [(radius * cos(pi * at / 32), y + (1 if up else -1) * radius * _FLATTENED * sin(pi * at / 32)) for at in range(33)]
