"""The triangles of a surface as a mesh, in parts of two-byte indices: a piece too large to be shown in its yarn, coloured stitch by stitch, or what
lies behind the gaps of one that is on a form or stuffed."""

import numpy as np

from .yarn_mesh import Part

_INSIDE, _DARK = 0.9, 0.16  # of a lining: how far in, in thicknesses of the yarn, and how much light it has
_FACES = 20_000  # of a part: three corners each, most of them shared


def cloth_mesh(surface, turn: np.ndarray, *, lining: bool = False) -> list[Part]:
    """Parts that are lists of triangles, not strips; each triangle has the colour of the stitch it begins with. turn: see Camera.

    lining: a little way in, dark, and all of the colour there is most of.
    """
    middle = (surface.at.min(axis=0) + surface.at.max(axis=0)) / 2
    if lining:
        middle = middle + surface.normal * (_INSIDE * surface.yarn_mm)
    place, normal = (surface.at - middle) @ turn.T, surface.normal @ turn.T
    colour = surface.colour[surface.faces[:, 0]]
    if lining and len(colour):
        known, counts = np.unique(colour, return_counts=True)
        colour = np.full_like(colour, known[counts.argmax()])
    out = []
    for own in np.unique(colour):
        mine = surface.faces[colour == own]
        for at in range(0, len(mine), _FACES):
            used, index = np.unique(mine[at : at + _FACES], return_inverse=True)
            ridge = np.full(len(used), _DARK) if lining else 0.72 + 0.28 * (surface.row[used] % 2)  # rows can be told by their shade
            out.append(Part(place[used], normal[used], ridge, index.ravel().astype(np.uint16), int(own), strip=False))
    return out
