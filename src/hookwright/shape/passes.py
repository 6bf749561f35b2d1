"""The passes in which an assembled piece is solved: flat in two coordinates, on a form, filled, or free."""

import numpy as np

from hookwright.fabric import FLAG_CORNER

from .bending import bending
from .rest import facts
from .solving import LARGE, LEVEL, Energy, Load, descend, factored, volume_of
from .unfold import unfolded

CAPS = (120, 120)  # steps of the passes at most
FEW_CAPS = (20, 80)  # of large pieces
ROUGH = 1e-3  # the first pass need not come quite to rest
FULL = 0.06  # strain of the fabric round a filled piece
NOISE = 0.01  # of the width: what lets a flat start leave the plane
POOR = 0.01  # share of all fabric's energy at which a start is poor, and another is looked for
LONG = 1.15  # so many times as long as wide makes an oval
CLINGS = 0.2  # share of its push with which a form holds the fabric in the first pass
HELD = 0.3  # share of its push that the factored matrix reckons with
HELD_LONG = 0.06  # in the last pass of large pieces, whose long folds leave the form: twice as far in as many steps


def solved(piece, told=lambda share: None, cancelled=None):
    """(places of an Assembled piece at rest, whether it came to rest, steps taken). told(share), cancelled() as in `form`."""
    nodes, springs, faces, at, load = piece.nodes, piece.springs, piece.faces, piece.at, piece.load
    width = piece.width
    stiffness = (facts()["stitch"]["fabric_thickness"] * width) ** 2 / 12
    if piece.shown == "flat":
        energy, flat = Energy(springs, Load()), at[:, :2].copy()
        whole, first = float((springs.stiff * springs.rest**2).sum()), energy(flat)[0]
        poor, rough = first > POOR * whole, first > 0.01 * POOR * whole
        if nodes.n < LARGE and poor and piece.construction in ("sheet", "strip"):
            other = unfolded(springs, faces, len(at))
            flat = min(flat, other, key=lambda each: energy(each)[0])
        steps, found, large = 0, None, nodes.n > LARGE
        solve = factored(springs) if large else None
        for smooth, most, low, high in ((5.0, 40, 0.1, 0.3), (0.05, 2 * CAPS[0], 0.3, 0.97)):  # stiff first, so that no triangle stays folded over
            if smooth > 1 and not rough:
                continue
            q = bending(flat, faces, len(flat), smooth * stiffness)
            found = descend(Energy(springs, Load(bending=q)), solve or factored(springs, q), flat, most,
                            tell=lambda share, low=low, high=high: told(low + (high - low) * share), cancelled=cancelled, level=ROUGH if smooth > 1 else LEVEL)
            flat, steps = found.at, steps + found.steps
        flat = _as_laid(nodes, flat, at[:, :2])
        return np.concatenate((flat, np.zeros((len(flat), 1))), 1), found.settled, steps
    merged = merged_faces(faces, piece.pairs, nodes.n)
    if piece.shown == "stuffed":
        closed = _capped(merged)
        inside, _ = volume_of(at, closed)
        if inside < 0:
            closed = closed[:, ::-1]
        around = np.ptp(at[:, :2], axis=0).mean() / 2
        load.volume = (closed, 2 * FULL / max(around, 1e-6) * abs(inside))
    x, steps, settled = at, 0, False
    rng = np.random.default_rng(7)
    large, solve = nodes.n > LARGE, None
    for number, most in enumerate(FEW_CAPS if large else CAPS):
        if solve is None or not large or load.form is not None:
            q = load.bending = bending(x, merged, len(x), stiffness)
            held = None if load.form is None else np.full(len(x), (HELD_LONG if large and number else HELD) * load.form.stiff)
            solve = factored(springs, q if not large or held is not None or load.slack < 1 else None, held)
        if number == 0:
            x = x + NOISE * width * rng.standard_normal(x.shape)
        if load.form is not None:
            load.form.clings = CLINGS if number == 0 else 0.0
        low, high = (0.1, 0.65) if number == 0 else (0.65, 0.97)
        found = descend(Energy(springs, load), solve, x, most, tell=lambda share, low=low, high=high: told(low + (high - low) * share), cancelled=cancelled,
                        level=ROUGH if number == 0 else LEVEL)
        x, steps, settled = found.at, steps + found.steps, found.settled
    if piece.shown != "form":
        x = _facing_front(nodes, _upright(x, at))
    return x, settled, steps


def _as_laid(nodes, flat, at):
    """The flat piece turned in its plane as its rows were laid; a square with its sides level, another polygon with a corner up."""
    a, b = flat - flat.mean(0), at - at.mean(0)
    corners = _corners(nodes)
    if len(corners) > 2:
        place = np.array([a[mine].mean(0) for mine in corners])
        angle = np.arctan2(place[:, 1], place[:, 0]) * len(corners)
        turn = np.arctan2(np.sin(angle).mean(), np.cos(angle).mean()) / len(corners) - (np.pi / 4 if len(corners) == 4 else np.pi / 2)
        cos, sin = np.cos(turn), -np.sin(turn)
    else:
        over = (a * b).sum(), (a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum()
        cos, sin = np.array(over) / max(np.hypot(*over), 1e-12)
    return a @ np.array([[cos, sin], [-sin, cos]])


def _corners(nodes):
    """The nodes of each corner space of the last round that has corners."""
    for index in range(len(nodes.rows) - 1, -1, -1):
        row = nodes.rows[index]
        places = [at for at, flag in enumerate(row.flags) if flag & FLAG_CORNER] if row.in_round else ()
        if len(places) > 2:
            begin, count = nodes.node_of[index]
            return [np.arange(begin[at], begin[at] + count[at]) for at in places if count[at]]
    return []


def _upright(x, at):
    """The solved places turned in space as the piece was laid: solving lets it tip over."""
    a, b = x - x.mean(0), at - at.mean(0)
    u, _, v = np.linalg.svd(a.T @ b)
    turn = np.diag([1.0, 1.0, np.sign(np.linalg.det(u @ v))])
    return a @ (u @ turn @ v) + at.mean(0)


def _facing_front(nodes, x):
    """Turned about the upright axis so that it shows its best side to the front (+x): what was worked out of an opening (a thumb) points aside (+y), and
    so does the long way of an oval."""
    middle = x[:, :2] - x[:, :2].mean(0)
    limbs = [index for index, row in enumerate(nodes.rows) if row.far and row.in_round and nodes.first[index] < nodes.last[index]]
    if limbs:
        aside = middle[nodes.first[limbs[0]]:nodes.last[limbs[0]]].mean(0)
    else:
        size, ways = np.linalg.eigh(middle.T @ middle)
        if size[1] < LONG**2 * size[0]:
            return x
        aside = ways[:, 1] * (1.0 if ways[1, 1] >= 0 else -1.0)
    reach = np.hypot(*aside)
    if reach < 1e-6:
        return x
    sin, cos = aside / reach
    out = x.copy()
    out[:, :2] = x[:, :2] @ np.array([[cos, sin], [-sin, cos]])
    return out


def merged_faces(faces, pairs, n):
    """The faces with sewn nodes as one, so that fabric bends across a seam as elsewhere."""
    if not len(pairs):
        return faces
    to = np.arange(n)
    to[pairs[:, 1]] = to[pairs[:, 0]]
    out = to[faces]
    return out[(out[:, 0] != out[:, 1]) & (out[:, 1] != out[:, 2]) & (out[:, 0] != out[:, 2])]


def _capped(faces):
    """The faces with a fan over every open edge, so that they hold a volume."""
    edges = np.concatenate((faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]))
    have = {(int(a), int(b)) for a, b in edges}
    nxt = {b: a for a, b in have if (b, a) not in have}
    lids, seen = [], set()
    for start in sorted(nxt):
        if start in seen:
            continue
        loop, at = [], start
        while at in nxt and at not in seen:
            seen.add(at)
            loop.append(at)
            at = nxt[at]
        lids += [(loop[0], one, two) for one, two in zip(loop[1:], loop[2:], strict=False)]
    return np.concatenate((faces, np.array(lids, np.int64))) if lids else faces
