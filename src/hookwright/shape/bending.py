"""How fabric resists being bent: one quadratic form over all hinges, or along the hinges' normals only, which leaves the plane of the fabric free."""

import numpy as np
from scipy import sparse

MOST = 1 / np.tan(np.radians(8))  # a cotangent is no larger: thin triangles of a poor start would rule

THIN = 0.2  # of the usual area: smaller triangles resist no more than that


def hinges(x, faces, columns):
    """(matrix (h, n) of hinge vectors, weight (h,), hinge nodes (h, 4)) of a mesh at places x (n, 3); h inner edges."""
    e = np.concatenate((faces[:, [0, 1, 2]], faces[:, [1, 2, 0]], faces[:, [2, 0, 1]]))
    low, high = e[:, :2].min(1), e[:, :2].max(1)
    key = low * (int(faces.max()) + 1) + high
    order = np.argsort(key, kind="stable")
    same = np.flatnonzero(key[order[1:]] == key[order[:-1]])
    one, two = e[order[same]], e[order[same + 1]]
    x0, x1, x2, x3 = one[:, 0], one[:, 1], one[:, 2], two[:, 2]
    c01, c02 = _cot(x, x0, x1, x2), _cot(x, x0, x1, x3)
    c03, c04 = _cot(x, x1, x0, x2), _cot(x, x1, x0, x3)
    area = _area(x, x0, x1, x2) + _area(x, x0, x1, x3)
    h = len(x0)
    rows = np.tile(np.arange(h), 4)
    values = np.concatenate((c03 + c04, c01 + c02, -c01 - c03, -c02 - c04))
    matrix = sparse.csr_array((values, (rows, np.concatenate((x0, x1, x2, x3)))), shape=(h, columns))
    return matrix, 3.0 / np.maximum(area, THIN * np.median(area) + 1e-9), np.stack((x0, x1, x2, x3), 1)


def bending(x, faces, columns, stiffness):
    """(n, n) matrix of the bending at places x, times its stiffness; None without an inner edge."""
    if len(faces) < 2:
        return None
    matrix, weight, _ = hinges(x, faces, columns)
    weighted = matrix.multiply(np.sqrt(weight * stiffness)[:, None]).tocsr()
    return (weighted.T @ weighted).tocsr()


def _cot(x, at, to, other):
    u, v = x[to] - x[at], x[other] - x[at]
    dot = np.einsum("ij,ij->i", u, v)
    cross = np.sqrt(np.maximum(np.einsum("ij,ij->i", u, u) * np.einsum("ij,ij->i", v, v) - dot * dot, 1e-18))
    return np.clip(dot / cross, -MOST, MOST)


def _area(x, a, b, c):
    u, v = x[b] - x[a], x[c] - x[a]
    return 0.5 * np.sqrt(np.maximum(np.einsum("ij,ij->i", u, u) * np.einsum("ij,ij->i", v, v) - np.einsum("ij,ij->i", u, v) ** 2, 0))
