"""What a piece is put on to be shown: a head for hats. Places inside it are pushed out along its own surface."""

import numpy as np


class Head:
    """A half ball on a cylinder, upright: the crown at z = 0, everything else below. radius in mm; stiff: of the push; weight: (n,) pull downwards
    on each place, for there is no friction; clings: share of the push that also pulls back what stands off, to begin with."""

    def __init__(self, radius: float, weight, stiff: float = 2.0):
        self.radius, self.weight, self.stiff, self.clings = radius, weight, stiff, 0.0

    def put_on(self, at, deep, gap):
        """The places of a piece whose rounds go about the z axis, laid over the head: each as far from the crown as its way over the fabric."""
        out, angle = self.radius + gap, np.arctan2(at[:, 1], at[:, 0])
        bend = np.minimum(deep / out, np.pi / 2)
        low = np.maximum(deep - out * np.pi / 2, 0.0)
        r = out * np.sin(bend)
        return np.stack((r * np.cos(angle), r * np.sin(angle), out * (np.cos(bend) - 1) - low + gap), 1)

    def __call__(self, x):
        """(energy, slope) of being inside: exact distance to the surface."""
        d = x.copy()
        np.maximum(x[:, 2] + self.radius, 0.0, out=d[:, 2])  # under the middle of the ball the cylinder: only the distance from the axis counts
        length = np.sqrt(d[:, 0] ** 2 + d[:, 1] ** 2 + d[:, 2] ** 2)
        inside = self.radius - length
        push = np.where(inside > 0, self.stiff, self.clings * self.stiff) * inside
        energy = 0.5 * float(np.einsum("i,i->", push, inside))
        push /= -np.maximum(length, 1e-9)
        for at in range(3):
            d[:, at] *= push
        d[:, 2] += self.weight
        return energy + float(np.einsum("i,i->", self.weight, x[:, 2])), d
