"""The solved surface of one piece in one size: what the solver gives and everything that shows or measures it reads."""

from dataclasses import dataclass, field

import numpy as np


@dataclass(slots=True)
class Surface:
    """A piece as it lies, hangs or is stuffed. All lengths in mm; n nodes, one a stitch top, one a chain of a run of chains, in working order.

    Columns of the nodes:
      at        (n, 3) float64: place of the node, the top of its stitch
      base      (n, 3) float64: where its foot stands (mean of the places it is worked into); its own place where it stands on nothing
      normal    (n, 3) float64: unit normal of the fabric towards its right side
      row       (n,) int32: index into `rows`
      place     (n,) int32: index in the columns of that WorkedRow
      kind      (n,) uint16: number in `kinds` (0: a chain)
      before    (n,) int64: node worked before it that it hangs on by the yarn, -1 where the yarn was joined
      width     (n,) float64: rest width along the row; height (n,) float64: rest height above its foot
      towards   (n,) int8: +1 where the right side faced the worker as it was made, -1 the wrong side
      colour    (n,) int16: index into `colours`, -1 where no colour is said
    Feet: node i is worked into nodes foot_of[foot_start[i]:foot_start[i + 1]], with weights foot_share that add to 1.
    faces     (f, 3) int64: triangles of nodes, wound so that their normals face the right side.

    What is no node: turning chains and joining slip stitches that are no stitch, foundation chains never worked into, seam rows (they are `seams`), rings:
    stitches worked into a ring have the middle of the ring as their base. A counted turning chain is one node of the kind it counts as; chains of a
    foundation have kind 0. The tops of the stitches at the ends of a row lie half a width within the edge of the fabric. Pinned flat, the right
    side is up (+z) and z is 0. What is not flat stands upright along z with its front to +x: a thumb or the long way of an oval points along y; a hat has
    its crown up, and the top of its head is the origin.
    """

    piece: str
    size: str
    kinds: list
    rows: list  # WorkedRow of this piece, in working order
    colours: list  # names of colours
    at: np.ndarray
    base: np.ndarray
    normal: np.ndarray
    row: np.ndarray
    place: np.ndarray
    kind: np.ndarray
    before: np.ndarray
    width: np.ndarray
    height: np.ndarray
    towards: np.ndarray
    colour: np.ndarray
    foot_start: np.ndarray
    foot_of: np.ndarray
    foot_share: np.ndarray
    faces: np.ndarray
    seams: np.ndarray = field(default_factory=lambda: np.empty((0, 2), np.int64))  # (s, 2) pairs of nodes sewn or joined together
    shown: str = "flat"  # "flat" pinned flat, "form" on a form, "stuffed", "free"
    construction: str = "sheet"  # "sheet", "tube", "disc", "ball", "motif", "strip", "garment", "sleeved garment" (flat pieces together)
    settled: bool = True  # whether the solver came to rest
    steps: int = 0  # steps it took
    strain: dict = field(default_factory=dict)  # rms, p95, max of the strain of courses and wales; "worst": [(row index, place, strain)]
    yarn_mm: float = 4.0  # thickness of the yarn in the fabric
