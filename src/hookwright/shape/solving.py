"""The shape at rest: least energy of springs, bending, filling and what the piece is put on, found by L-BFGS with a matrix factored once.

Energy = sum of stiff (|spring| - rest)^2 / 2 + D/2 x'Qx - c ln(volume) + form. The first guess at the inverse Hessian is that of the springs and
the bending held fixed, factored once a pass, which takes three to ten times fewer steps than any diagonal one. Bending reaches two stitches far; there
it is put on the diagonal, so that the factor fills no more than that of the springs, half of what it would, and as few steps are taken.
"""

from dataclasses import dataclass, field

import numpy as np
from scipy.sparse import csc_array, csr_array, diags_array, eye_array
from scipy.sparse.linalg import splu

MEMORY = 6
LEVEL = 2e-4  # the energy fell by less than this share over the last steps: at rest
LOOK = 10
LARGE = 50_000  # nodes from which the factored matrix is held in half the room, and factored once only
_SYMMETRIC = {"permc_spec": "MMD_AT_PLUS_A", "diag_pivot_thresh": 0.0, "options": {"SymmetricMode": True}}


class Cancelled(Exception):
    """The work was asked to stop."""


@dataclass(slots=True)
class Load:
    """What acts on the springs. bending: (n, n) matrix already times its stiffness, or None; volume: (faces, c) of a filling; form: a shape the nodes
    are pushed out of; pinned: solved flat, in two coordinates."""

    bending: object = None
    volume: tuple | None = None
    form: object = None
    slack: float = 1.0  # stiffness of a pressed spring against a stretched one


@dataclass(slots=True)
class Found:
    at: np.ndarray
    steps: int
    settled: bool
    energy: float
    fell: list = field(default_factory=list)


class Energy:
    """Energy and slope at places x (n, d), d = 2 or 3."""

    def __init__(self, springs, load):
        self.matrix, self.back = _narrow(springs.matrix), _narrow(springs.matrix.T.tocsr())
        self.rest, self.stiff, self.load = springs.rest, springs.stiff, load
        self.bending = None if load.bending is None else _narrow(load.bending)
        self.length, self.off, self.pull = (np.empty(len(springs.rest)) for _ in range(3))  # held, since getting the room takes as long as filling it

    def __call__(self, x):
        d = self.matrix @ x
        length, off, pull = self.length, self.off, self.pull
        columns = range(d.shape[1])  # by columns, thrice as fast as a loop over two or three in each row
        np.multiply(d[:, 0], d[:, 0], out=length)
        for at in columns[1:]:
            length += np.multiply(d[:, at], d[:, at], out=off)
        np.sqrt(length, out=length)
        np.subtract(length, self.rest, out=off)
        if self.load.slack == 1.0:
            np.multiply(self.stiff, off, out=pull)
        else:
            np.minimum(off, 0.0, out=pull)
            pull *= self.load.slack - 1.0
            pull += off
            pull *= self.stiff
        energy = 0.5 * float(np.einsum("i,i->", pull, off))
        pull /= np.maximum(length, 1e-12, out=length)
        for at in columns:
            d[:, at] *= pull
        slope = self.back @ d
        load = self.load
        if self.bending is not None:
            bent = self.bending @ x
            energy += 0.5 * float(np.einsum("ij,ij->", bent, x))
            slope += bent
        if load.volume is not None:
            faces, c = load.volume
            inside, by = volume_of(x, faces)
            if inside <= 0:
                return np.inf, slope
            energy -= c * np.log(inside)
            slope -= (c / inside) * by
        if load.form is not None:
            more, by = load.form(x)
            energy += more
            slope += by
        return energy, slope


def _narrow(matrix):
    """The matrix with indices of half the room: it is read in every step."""
    return csr_array((matrix.data, matrix.indices.astype(np.int32), matrix.indptr.astype(np.int32)), shape=matrix.shape)


def volume_of(x, faces):
    """(volume inside the faces, its slope by the places): divergence theorem, for surfaces that are closed or nearly."""
    p, q, r = x[faces[:, 0]], x[faces[:, 1]], x[faces[:, 2]]
    qr, rp, pq = _cross(q, r), _cross(r, p), _cross(p, q)
    volume = float(np.einsum("ij,ij->", p, qr)) / 6
    slope = np.empty_like(x)
    where = faces.T.ravel()
    for axis in range(3):
        slope[:, axis] = np.bincount(where, np.concatenate((qr[:, axis], rp[:, axis], pq[:, axis])), len(x)) / 6
    return volume, slope


def _cross(u, v):
    return np.stack((u[:, 1] * v[:, 2] - u[:, 2] * v[:, 1], u[:, 2] * v[:, 0] - u[:, 0] * v[:, 2], u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]), 1)


def factored(springs, bending=None, held=None):
    """x -> K^-1 x of the springs (and the bending) held fixed. held: (n,) stiffness of what keeps the places where they are (a form)."""
    weighted = springs.matrix.multiply(np.sqrt(springs.stiff)[:, None]).tocsr()
    k = (weighted.T @ weighted).tocsc()
    if bending is not None:
        k = (k + _within(k, bending)).tocsc()
    mean = float(k.diagonal().mean()) or 1.0  # a stitch alone has no springs
    if held is not None:
        k = k + diags_array(held, format="csc")
    if not np.isfinite(mean):
        raise ValueError("the stitches of this piece hang together in a way whose shape can't be solved")
    k = csc_array(k + 1e-5 * mean * eye_array(k.shape[0], format="csc"))
    if k.shape[0] < LARGE:
        return splu(k, **_SYMMETRIC).solve
    solver = splu(k.astype(np.float32), **_SYMMETRIC)  # a guess at the inverse need not be finer, and half as much has to be moved
    return lambda q: solver.solve(q.astype(np.float32)).astype(np.float64)


def _within(k, bending):
    """The bending where k has entries; what is elsewhere is put on the diagonal with its size, which makes it stiffer, never less than nothing."""
    pattern = csc_array((np.ones(k.nnz), k.indices, k.indptr), shape=k.shape)
    on = bending.multiply(pattern).tocsc()
    return on + diags_array(np.asarray(abs(bending - on).sum(axis=1)).ravel(), format="csc")


def descend(energy, solve, x, most, *, tell=None, cancelled=None, level=LEVEL) -> Found:
    """L-BFGS from x, at most `most` steps. tell(share) is told the progress, cancelled() asked between steps."""
    value, slope = energy(x)
    steps_back, fell = [], [value]
    settled, done, room = False, 0, np.empty_like(x)
    for step in range(most):
        if cancelled is not None and cancelled():
            raise Cancelled
        if tell is not None:
            tell(step / most)
        q = slope.copy()
        marks = []
        for s, y, rho in reversed(steps_back):
            a = rho * _dot(s, q)
            q -= np.multiply(y, a, out=room)
            marks.append(a)
        r = solve(q)
        for (s, y, rho), a in zip(steps_back, reversed(marks), strict=True):
            r += np.multiply(s, a - rho * _dot(y, r), out=room)
        down = _dot(slope, r)
        if down <= 0:
            steps_back.clear()
            r = solve(slope)
            down = _dot(slope, r)
            if down <= 0:
                settled = True
                break
        size, tried = 1.0, 0
        while True:
            trial = x - size * r
            now, at = energy(trial)
            if now <= value - 1e-4 * size * down or tried > 12:
                break
            size, tried = size / 2, tried + 1
        done = step + 1
        if tried > 12:
            settled = True
            break
        s, y = trial - x, at - slope
        curve = _dot(s, y)
        if curve > 1e-12 * _dot(y, y):
            steps_back.append((s, y, 1.0 / curve))
            del steps_back[:-MEMORY]
        x, value, slope = trial, now, at
        fell.append(value)
        scale = abs(value) + 1e-12
        if len(fell) > LOOK and fell[-LOOK - 1] - value < level * scale:
            settled = True
            break
    return Found(x, done, settled, value, fell)


def _dot(a, b) -> float:
    return float(np.einsum("ij,ij->", a, b))
