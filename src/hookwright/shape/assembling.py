"""A piece made ready to be solved: nodes, strands, springs, faces, what acts on them, and a first place for each node."""

from dataclasses import dataclass

import numpy as np

from hookwright.sizing import bodies_of

from .forms import Head
from .joins import drawn_of, for_size, seams_of, unstuffed, use_of
from .nodes import nodes_of
from .parts import part_named, said_of
from .rest import rest_sizes
from .solving import Load
from .springs import springs_of
from .start import start_of
from .strands import stand_on_row_ends, strands_of
from .webs import faces_of, lid_over

PUCKER = 0.3  # stiffness of gathered fabric against being pressed: it puckers inside the stitches
SHALLOW = 0.4  # depth of an open part against its width under which it is sewn on rather than filled
WORN = 1.03  # girth of a head against that of the hat, where nothing is said of heads
WEIGHT = 0.0006  # pull downwards on a stitch, against what stretches it to twice its width


@dataclass(slots=True)
class Assembled:
    """A piece before it is solved. at: (n + anchors, 3) first places; pairs: (s, 2) nodes sewn together; sizes_of: heading -> RestSizes."""

    part: object
    nodes: object
    strands: object
    springs: object
    faces: np.ndarray
    pairs: np.ndarray
    at: np.ndarray
    construction: str
    shown: str
    load: Load
    sizes_of: object

    @property
    def width(self) -> float:
        """Mean width of a stitch in mm."""
        nodes = self.nodes
        stitches = nodes.kind > 0
        return float(nodes.width[stitches].mean()) if stitches.any() else float(nodes.width.mean())


def assembled(fabric, piece=None, *, pattern=None, shown=None, head_mm=None) -> Assembled:
    """See `form`. ValueError for a piece that is not there or has no stitches."""
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
    shown = shown or _shown(construction, use, said, at)
    load = Load(slack=PUCKER if any(len(set(nodes.row[group].tolist())) > 1 for group in drawn) else 1.0)
    if shown == "form":
        load.form = Head((head_mm or _head_mm(pattern, fabric.size) or WORN * _girth(at)) / (2 * np.pi),
                         np.concatenate((WEIGHT * nodes.width, np.zeros(springs.anchors))))
        if not np.isnan(deep).any():
            at, deep = _crown_up(at, deep, float(nodes.height.mean()))
            at = load.form.put_on(at, deep, 0.25 * float(nodes.width.mean()))
    at = np.concatenate((at, [at[group].mean(0) for group in _anchored(nodes, drawn)])) if springs.anchors else at
    return Assembled(part, nodes, strands, springs, faces, pairs, at, construction, shown, load, sizes_of)


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


def _shown(construction, use, said, at) -> str:
    if construction in ("sheet", "strip", "disc", "motif"):
        return "flat"
    if use == "hat":
        return "form"
    if construction == "ball" or use == "toy":
        shallow = construction != "ball" and np.ptp(at[:, 2]) < SHALLOW * np.ptp(at[:, 0])
        return "free" if unstuffed(said) or shallow else "stuffed"
    return "free"


def _crown_up(at, deep, height):
    """(places, way over the fabric from the crown) of a hat that may have been begun at its brim. height: of a stitch, from the crown to the last round."""
    deep = deep - deep.min() + height
    out = np.hypot(at[:, 0], at[:, 1])
    near, far = out[deep <= np.percentile(deep, 12)].mean(), out[deep >= np.percentile(deep, 88)].mean()
    if far < near:
        deep = deep.max() - deep + height
    falls = np.corrcoef(deep, at[:, 2])[0, 1] <= 0
    return at if falls else at * np.array([1.0, -1.0, -1.0]), deep


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
