"""A piece of worked fabric to its surface: nodes, springs and faces in columns, a first place for each, and the solver's passes."""

import numpy as np

from hookwright.fabric import FLAG_CORNER
from hookwright.sizing import bodies_of

from .bending import bending
from .forms import Head
from .joins import drawn_of, for_size, seams_of, unstuffed, use_of
from .nodes import nodes_of
from .parts import part_named, said_of
from .rest import facts, rest_sizes
from .solving import LARGE, LEVEL, Energy, Load, descend, factored
from .springs import springs_of
from .start import start_of
from .strands import stand_on_row_ends, strands_of
from .surface import Surface
from .unfold import unfolded
from .webs import faces_of, lid_over

FEW_CAPS = (30, 60)  # of large pieces
CAPS = (120, 120)  # steps of the passes at most
ROUGH = 1e-3  # the first pass need not come quite to rest
FULL = 0.06  # strain of the fabric round a filled piece
NOISE = 0.01  # of the width: what lets a flat start leave the plane
PUCKER = 0.3  # stiffness of gathered fabric against being pressed: it puckers inside the stitches
WORN = 1.03  # girth of a head against that of the hat, where nothing is said of heads
POOR = 0.01  # share of all fabric's energy at which a start is poor, and another is looked for
WEIGHT = 0.0006  # pull downwards on a stitch, against what stretches it to twice its width
CLINGS = 0.2  # share of its push with which a form holds the fabric in the first pass
SHOWN = ("flat", "form", "stuffed", "free")


def form(fabric, piece: str | None = None, *, pattern=None, shown: str | None = None, head_mm: float | None = None, progress=None, cancelled=None) -> Surface:
    """The surface of a piece of one size's worked Fabric, solved from the gauge of its pattern's head.

    piece: a heading (the first piece where not said). shown: "flat" pinned flat, "form" on a form, "stuffed", "free"; by default as the piece is
    used: hats on a head (head_mm round, by default as large as they are), flat pieces flat, toys stuffed. progress(share from 0 to 1) is called
    as it goes on; cancelled() is asked between steps. ValueError for a piece that is not there or another `shown`; Cancelled where it was.
    """
    if shown is not None and shown not in SHOWN:
        raise ValueError(f"shown is {', '.join(SHOWN[:-1])} or {SHOWN[-1]}, not {shown!r}")
    told = _Told(progress)
    part = part_named(fabric, piece)
    head, terms = (pattern.head or pattern.front, pattern.terms) if pattern is not None else (None, "US")
    mine = [fabric.rows[at] for at in part.rows]
    known = {}

    def sizes_of(name):
        if name not in known:
            known[name] = rest_sizes(head, terms, mine, fabric.kinds, name)
        return known[name]

    nodes = nodes_of(fabric, part, sizes_of)
    if not nodes.n:
        raise ValueError(f"{part.name or 'the pattern'} has no stitches to give a shape to")
    strands = strands_of(nodes)
    stand_on_row_ends(nodes, strands)
    said = for_size(said_of(pattern, part), fabric.size, pattern.sizes) if pattern is not None else ""
    seams = seams_of(nodes, said)
    pairs = np.concatenate([each for _, each in seams]) if seams else np.empty((0, 2), np.int64)
    drawn = drawn_of(nodes, strands, seams, said)
    faces = _faces(nodes, strands, drawn)
    use = use_of(pattern, part, said)
    at, construction, deep = start_of(nodes, strands, seams, _end_drawn(nodes, seams, drawn), {"vessel": "open up", "hand": "closed up"}.get(use, ""))
    springs = springs_of(nodes, strands, pairs, drawn)
    if shown is None:
        shown = _shown(construction, use, said)
    load = Load(slack=PUCKER if any(len(set(nodes.row[group].tolist())) > 1 for group in drawn) else 1.0)
    if shown == "form":
        load.form = Head((head_mm or _head_mm(pattern, fabric.size) or WORN * _girth(at)) / (2 * np.pi),
                         np.concatenate((WEIGHT * nodes.width, np.zeros(springs.anchors))))
        if not np.isnan(deep).any():
            at = load.form.put_on(at, deep, 0.25 * float(nodes.width.mean()))
    at = np.concatenate((at, [at[group].mean(0) for group in _anchored(nodes, drawn)])) if springs.anchors else at
    told(0.08)
    found, settled, steps = _solved(nodes, springs, faces, pairs, at, shown, load, told, cancelled)
    told(1.0)
    return _surface(fabric, part, nodes, springs, faces, pairs, found, shown, construction, settled, steps, sizes_of, load.slack < 1)


class _Told:
    """Progress that never goes back, told at most a hundred times."""

    def __init__(self, progress):
        self.progress, self.at = progress, -1.0

    def __call__(self, share):
        if self.progress is not None and share >= self.at + 0.01 or share >= 1.0 and self.at < 1.0 and self.progress is not None:
            self.at = min(share, 1.0)
            self.progress(self.at)


def _faces(nodes, strands, drawn):
    faces = faces_of(nodes, strands)
    rounds = [group for group in drawn if nodes.rows[nodes.row[group[0]]].in_round and len(set(nodes.row[group].tolist())) == 1]
    lids = [lid_over(nodes, strands, int(nodes.row[group[0]])) for group in rounds]
    return np.concatenate((faces, *lids)) if lids else faces


def _end_drawn(nodes, seams, drawn) -> str:
    """Which end of sideways rows is drawn together: "first" where right-side rows end there ... told by where the group lies in its rows."""
    for group in drawn:
        rows = set(nodes.row[group].tolist())
        if len(rows) > 1 and seams:
            node = group[len(group) // 2]
            row = nodes.row[node]
            at_end = node == nodes.last[row] - 1
            left = at_end == (nodes.towards[node] > 0)  # right-side rows are laid leftwards
            return "first" if left else "last"
    return ""


def _anchored(nodes, drawn):
    return [np.flatnonzero((nodes.row == index) & nodes.in_ring) for index in nodes.rings] + list(drawn)


def _shown(construction, use, said) -> str:
    if construction in ("sheet", "strip", "disc", "motif"):
        return "flat"
    if use == "hat":
        return "form"
    if construction == "ball" or use == "toy":
        return "free" if unstuffed(said) else "stuffed"
    return "free"


def _solved(nodes, springs, faces, pairs, at, shown, load, told, cancelled):
    width = float(nodes.width[nodes.kind > 0].mean()) if (nodes.kind > 0).any() else float(nodes.width.mean())
    stiffness = (facts()["stitch"]["fabric_thickness"] * width) ** 2 / 12
    if shown == "flat":
        energy, flat = Energy(springs, Load()), at[:, :2].copy()
        whole, first = float((springs.stiff * springs.rest**2).sum()), energy(flat)[0]
        poor, rough = first > POOR * whole, first > 0.01 * POOR * whole
        if nodes.n < LARGE and poor:
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
    merged = _merged(faces, pairs, nodes.n)
    if shown == "stuffed":
        closed = _capped(merged)
        from .solving import volume_of

        inside, _ = volume_of(at, closed)
        if inside < 0:
            closed = closed[:, ::-1]
        around = np.ptp(at[:, :2], axis=0).mean() / 2
        load.volume = (closed, 2 * FULL / max(around, 1e-6) * abs(inside))
    x, steps, settled = at, 0, False
    rng = np.random.default_rng(7)
    large, solve = nodes.n > LARGE, None
    for number, most in enumerate(FEW_CAPS if large else CAPS):
        if solve is None or not large:
            q = load.bending = bending(x, merged, len(x), stiffness)
            held = None if load.form is None else np.full(len(x), 0.3 * load.form.stiff)
            solve = factored(springs, q if not large or held is not None or load.slack < 1 else None, held)
        if number == 0:
            x = x + NOISE * width * rng.standard_normal(x.shape)
        if load.form is not None:
            load.form.clings = CLINGS if number == 0 else 0.0
        low, high = (0.1, 0.65) if number == 0 else (0.65, 0.97)
        found = descend(Energy(springs, load), solve, x, most, tell=lambda share, low=low, high=high: told(low + (high - low) * share), cancelled=cancelled,
                        level=ROUGH if number == 0 else LEVEL)
        x, steps, settled = found.at, steps + found.steps, found.settled
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


def _merged(faces, pairs, n):
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


def _girth(at) -> float:
    """Girth of a piece whose rounds go about the z axis, where it is wide."""
    return 2 * np.pi * float(np.percentile(np.hypot(at[:, 0], at[:, 1]), 80))


def _head_mm(pattern, size) -> float | None:
    """Girth of the head a size is for, by the measures of the pattern's head; None where they say nothing of heads."""
    head = pattern.head if pattern is not None else None
    if head is None or size not in pattern.sizes:
        return None
    known = bodies_of(head, [])
    index = pattern.sizes.index(size)
    found = next((known[index][name] for name in ("head", "to fit") if index < len(known) and name in known[index]), None)
    return sum(found) / 2 if found else None


def _surface(fabric, part, nodes, springs, faces, pairs, found, shown, construction, settled, steps, sizes_of, puckers):
    at = np.ascontiguousarray(found[: nodes.n])
    weight, base = np.bincount(nodes.foot_node, minlength=nodes.n), at.copy()
    place = (1 - nodes.foot_t)[:, None] * found[nodes.foot_a] + nodes.foot_t[:, None] * found[nodes.foot_b]
    stands = weight > 0
    for axis in range(3):
        base[stands, axis] = np.bincount(nodes.foot_node, place[:, axis], nodes.n)[stands] / weight[stands]
    for number, index in enumerate(nodes.rings):
        base[(nodes.row == index) & nodes.in_ring] = found[nodes.n + number]
    start, of, share = _feet(nodes, weight)
    strain, worst = _strain(nodes, springs, found, puckers)
    return Surface(
        piece=part.name, size=fabric.size, kinds=fabric.kinds, rows=nodes.rows, colours=nodes.colours, at=at, base=base, normal=_normals(at, faces),
        row=nodes.row, place=nodes.place, kind=np.where(nodes.kind == 1, 0, nodes.kind).astype(np.uint16), before=nodes.before, width=nodes.width,
        height=nodes.height, towards=nodes.towards, colour=nodes.colour, foot_start=start, foot_of=of, foot_share=share, faces=faces, seams=pairs,
        shown=shown, construction=construction, settled=settled, steps=steps, strain={**strain, "worst": worst}, yarn_mm=sizes_of(part.names[0]).yarn_mm)


def _feet(nodes, weight):
    """Feet as (start, nodes, shares) in the form of the Surface."""
    two = nodes.foot_b != nodes.foot_a
    node = np.concatenate((nodes.foot_node, nodes.foot_node[two]))
    of = np.concatenate((nodes.foot_a, nodes.foot_b[two]))
    share = np.concatenate((1 - nodes.foot_t, nodes.foot_t[two])) / weight[node]
    share[: len(two)][~two] = 1.0 / weight[nodes.foot_node[~two]]
    order = np.argsort(node, kind="stable")
    start = np.concatenate(([0], np.cumsum(np.bincount(node, minlength=nodes.n)))).astype(np.int64)
    return start, of[order].astype(np.int64), share[order]


def _normals(at, faces):
    normal = np.zeros_like(at)
    if len(faces):
        p, q, r = at[faces[:, 0]], at[faces[:, 1]], at[faces[:, 2]]
        each = np.cross(q - p, r - p)
        where = faces.T.ravel()
        for axis in range(3):
            normal[:, axis] = np.bincount(where, np.tile(each[:, axis], 3), len(at))
    length = np.linalg.norm(normal, axis=1)
    bare = length < 1e-9
    normal[bare] = (0.0, 0.0, 1.0)
    return normal / np.where(bare, 1.0, length)[:, None]


def _strain(nodes, springs, x, puckers):
    """Strain of courses and wales; where fabric is gathered what is pressed puckers inside the stitches and counts for nothing."""
    d = springs.matrix @ x
    strain = (np.linalg.norm(d, axis=1) - springs.rest) / springs.rest
    strain = np.maximum(strain, 0.0) if puckers else strain
    which = np.flatnonzero(springs.plain)
    size = np.abs(strain[which])
    if not len(which):
        return {"rms": 0.0, "p95": 0.0, "max": 0.0, "over": 0}, []
    top = which[np.argsort(-size, kind="stable")[:5]]
    worst = [(int(nodes.row[springs.node[at]]), int(nodes.place[springs.node[at]]), float(strain[at])) for at in top]
    return {"rms": float(np.sqrt((strain[which] ** 2).mean())), "p95": float(np.percentile(size, 95)), "max": float(size.max()),
            "over": int((size > 0.15).sum())}, worst
