"""A first place for every node from the distances through the fabric alone, where the way the rows are laid gives a poor one."""

import numpy as np
from scipy import sparse
from scipy.sparse.csgraph import dijkstra

PIVOTS = 16


def unfolded(springs, faces, n: int) -> np.ndarray:
    """(n, 2) places in the plane: distances over the springs to some far-apart nodes, and the plane that holds them best; right side up."""
    joined = springs.matrix.tocsr()
    two = np.flatnonzero(np.diff(joined.indptr) == 2)
    first = joined.indptr[two]
    a, b = joined.indices[first], joined.indices[first + 1]
    size = joined.shape[1]
    length = springs.rest[two]
    graph = sparse.coo_array((length, (a, b)), shape=(size, size)).tocsr()
    graph = graph.maximum(graph.T)
    pivot, far, rows = 0, np.full(size, np.inf), []
    for _ in range(min(PIVOTS, n)):
        distance = dijkstra(graph, directed=False, indices=pivot)
        rows.append(distance[:n])
        far = np.minimum(far, distance)
        reach = np.where(np.isfinite(far[:n]), far[:n], -1.0)
        pivot = int(reach.argmax())
    d = np.stack(rows, 1)
    if not np.isfinite(d).all():
        d = np.where(np.isfinite(d), d, d[np.isfinite(d)].max())
    if n < 2:
        return np.zeros((n, 2))
    square = d * d
    centred = -0.5 * (square - square.mean(0) - square.mean(1)[:, None] + square.mean())
    values, vectors = np.linalg.eigh(centred.T @ centred)
    at = centred @ vectors[:, [-1, -2]]
    at /= np.maximum(np.sqrt(np.abs(values[[-1, -2]])), 1e-12) ** 0.5
    ends = (a < n) & (b < n)
    i, j, rest = a[ends], b[ends], length[ends]
    for _ in range(3):  # the scale of either direction at which the springs are nearest to rest
        step = at[i] - at[j]
        near = np.linalg.norm(step, axis=1)
        at *= float((near * rest).sum() / max((near * near).sum(), 1e-12))
    p, q, r = at[faces[:, 0]], at[faces[:, 1]], at[faces[:, 2]]
    if ((q - p)[:, 0] * (r - p)[:, 1] - (q - p)[:, 1] * (r - p)[:, 0]).sum() < 0:
        at[:, 0] *= -1
    return at
