"""A piece of worked fabric to its surface."""

import numpy as np

from .assembling import assembled
from .passes import solved
from .ripples import at_gauge
from .surface import Surface

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
    made = assembled(fabric, piece, pattern=pattern, shown=shown, head_mm=head_mm)
    told(0.08)
    found, settled, steps = solved(made, told, cancelled)
    found = at_gauge(made, found, pattern) if settled else found
    told(1.0)
    return _surface(fabric, made, found, settled, steps)


class _Told:
    """Progress that never goes back, told at most a hundred times."""

    def __init__(self, progress):
        self.progress, self.at = progress, -1.0

    def __call__(self, share):
        if self.progress is not None and share >= self.at + 0.01 or share >= 1.0 and self.at < 1.0 and self.progress is not None:
            self.at = min(share, 1.0)
            self.progress(self.at)


def _surface(fabric, piece, found, settled, steps):
    nodes, springs, faces = piece.nodes, piece.springs, piece.faces
    at = np.ascontiguousarray(found[: nodes.n])
    weight, base = np.bincount(nodes.foot_node, minlength=nodes.n), at.copy()
    place = (1 - nodes.foot_t)[:, None] * found[nodes.foot_a] + nodes.foot_t[:, None] * found[nodes.foot_b]
    stands = weight > 0
    for axis in range(3):
        base[stands, axis] = np.bincount(nodes.foot_node, place[:, axis], nodes.n)[stands] / weight[stands]
    for number, index in enumerate(nodes.rings):
        base[(nodes.row == index) & nodes.in_ring] = found[nodes.n + number]
    start, of, share = _feet(nodes, weight)
    strain, worst = _strain(nodes, springs, found, piece.load.slack < 1)
    return Surface(
        piece=piece.part.name, size=fabric.size, kinds=fabric.kinds, rows=nodes.rows, colours=nodes.colours, at=at, base=base, normal=normals_of(at, faces),
        row=nodes.row, place=nodes.place, kind=np.where(nodes.kind == 1, 0, nodes.kind).astype(np.uint16), before=nodes.before, width=nodes.width,
        height=nodes.height, towards=nodes.towards, colour=nodes.colour, foot_start=start, foot_of=of, foot_share=share, faces=faces, seams=piece.pairs,
        shown=piece.shown, construction=piece.construction, settled=settled, steps=steps, strain={**strain, "worst": worst}, yarn_mm=piece.sizes_of(piece.part.names[0]).yarn_mm)


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


def normals_of(at, faces):
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
