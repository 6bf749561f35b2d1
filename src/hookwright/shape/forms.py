"""What a piece is put on to be shown: a head for hats. Places inside it are pushed out along its own surface."""

import numpy as np


class Head:
    """A half ball on a cylinder, upright: the crown at z = 0, everything else below. radius in mm; stiff: of the push."""

    def __init__(self, radius: float, stiff: float = 2.0):
        self.radius, self.stiff = radius, stiff

    def __call__(self, x):
        """(energy, slope) of being inside: exact distance to the surface."""
        middle = np.array([0.0, 0.0, -self.radius])
        d = x - middle
        d[:, 2] = np.maximum(d[:, 2], 0.0)  # under the middle of the ball the cylinder: only the distance from the axis counts
        length = np.sqrt(np.einsum("ij,ij->i", d, d))
        inside = np.maximum(self.radius - length, 0.0)
        energy = 0.5 * self.stiff * float(np.einsum("i,i->", inside, inside))
        return energy, -(self.stiff * inside / np.maximum(length, 1e-9))[:, None] * d
