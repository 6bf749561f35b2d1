"""A surface too large to be shown in its yarn as a plain cloth: its triangles, coloured stitch by stitch, in parts of two-byte indices."""

import numpy as np

from .yarn_mesh import Part

_FACES = 20_000  # of a part: three corners each, most of them shared


def cloth_mesh(surface, turn: np.ndarray) -> list[Part]:
    """Parts that are lists of triangles, not strips; each triangle has the colour of the stitch it begins with. turn: see Camera."""
    middle = (surface.at.min(axis=0) + surface.at.max(axis=0)) / 2
    place, normal = (surface.at - middle) @ turn.T, surface.normal @ turn.T
    colour = surface.colour[surface.faces[:, 0]]
    out = []
    for own in np.unique(colour):
        mine = surface.faces[colour == own]
        for at in range(0, len(mine), _FACES):
            used, index = np.unique(mine[at : at + _FACES], return_inverse=True)
            ridge = 0.72 + 0.28 * (surface.row[used] % 2)  # rows can be told by their shade
            out.append(Part(place[used], normal[used], ridge, index.ravel().astype(np.uint16), int(own), strip=False))
    return out
