"""Which edges of the pieces of a garment lie on each other on the form: those are sewn."""

import numpy as np
from scipy.spatial import cKDTree

CLOSE = 1.8  # stitches: edges that are no farther apart are sewn
AWAY = 6  # stitches along the edge from which a piece may be sewn to itself
LEAST = 4  # pairs: fewer in a row are chance


def seams_between(at, faces, piece, size) -> np.ndarray:
    """(s, 2) pairs of nodes. at (n, 3); piece (n,): which one each node belongs to; size (n,): of the stitches there, mm. Pairs follow each other along
    an edge."""
    loops = _edges(faces)
    if not loops:
        return np.empty((0, 2), np.int64)
    nodes, loop = np.concatenate(loops), np.repeat(np.arange(len(loops)), [len(one) for one in loops])
    place = np.concatenate([np.arange(len(one)) for one in loops])
    near, which = cKDTree(at[nodes]).query(at[nodes], k=min(12, len(nodes)))
    own = piece[nodes]
    around = np.abs(place[which] - place[:, None])
    around = np.minimum(around, np.bincount(loop)[loop][:, None] - around)
    fits = (near < CLOSE * size[nodes][:, None]) & ((own[which] > own[:, None]) | (own[which] == own[:, None]) & (loop[which] == loop[:, None])
                                                    & (around > AWAY) & (place[which] > place[:, None]))
    has = fits.any(1)
    other = which[np.arange(len(nodes)), fits.argmax(1)]
    found = np.flatnonzero(has)
    runs = np.split(found, np.flatnonzero((np.diff(found) > 2) | (np.diff(own[other[found]]) != 0)) + 1)
    kept = [run for run in runs if len(run) >= LEAST]
    return np.concatenate([np.stack((nodes[run], nodes[other[run]]), 1) for run in kept]) if kept else np.empty((0, 2), np.int64)


def _edges(faces) -> list:
    """The edges of the surface, each a run of nodes one after the other."""
    sides = np.concatenate((faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]))
    inner = set(map(tuple, sides[:, ::-1].tolist()))
    after = {first: last for first, last in sides.tolist() if (first, last) not in inner}
    loops, seen = [], set()
    for start in sorted(after):
        one, node = [], start
        while node in after and node not in seen:
            seen.add(node)
            one.append(node)
            node = after[node]
        if len(one) > AWAY:
            loops.append(np.array(one))
    return loops
