"""What working a row gives: columns of numbers, the place every stitch stands on, and what went wrong on the way."""

from array import array
from dataclasses import dataclass, field
from operator import attrgetter

from hookwright.ground import NOWHERE, Span

CHAINS = 0  # kind number of a run of chains (a chain space); its length is in `chains`
FOOT_NONE, FOOT_RING, FOOT_SPACE_EDGE = -1, -2, -3


@dataclass(slots=True)
class Trouble:
    """Something that does not come out in one row of one size, for the proof to put into words.

    kind and what `facts` holds (all counts in stitches unless said):
      "repeat-leaves"   there, before, takes, passes, left, after   the repeat leaves stitches over
      "runs-out"        there, needed, at (span of the step)        the row asks for more than there is
      "left-over"       there, left                                 stitches not worked and not said to be left
      "no-such-place"   wanted (words), of, have                    a space/stitch that is not there
      "other-space"     wanted (chains), have (chains)              the space met has another number of chains
      "count"           of, expected, found, chains, per            stated count differs from the worked
      "loop-twice" "third-loop-of" "post-of-chain"                  kind, below
      "crosses"         ... free for later kinds; a check names the facts it reads
    """

    kind: str
    span: Span = NOWHERE
    facts: dict = field(default_factory=dict)


@dataclass(slots=True)
class WorkedRow:
    """One worked row in one size.

    kind    (n,) uint16: number of the stitch kind in Fabric.kinds; CHAINS for a run of chains
    foot    (n,) int32:  index in the row below's columns of the first place it is worked into, or FOOT_*
    feet    {index: tuple of further places}: decreases, clusters over several
    chains  (n,) uint16: number of chains of a run of chains, else 0
    flags   (n,) uint8:  see FLAG_*
    Where a stitch stands in another row than the row below, `far` has {index: (row index, place index)}.
    """

    label: str
    number: int | None
    row: object  # notation Row
    piece: str
    side: str = ""
    in_round: bool = False
    turned: bool = False
    kind: array = None
    foot: array = None
    chains: array = None
    flags: array = None
    feet: dict = field(default_factory=dict)
    far: dict = field(default_factory=dict)
    loops: dict = field(default_factory=dict)  # index -> "back" / "front" / "third" / ...
    groups: dict = field(default_factory=dict)  # index of first stitch -> (length, name)
    colours: list = field(default_factory=list)  # (index from, colour)
    stitches: int = 0
    by_kind: dict = field(default_factory=dict)  # kind id -> number
    spaces: list = field(default_factory=list)  # chains of each chain space in working order
    unworked: int = 0
    troubles: list = field(default_factory=list)
    assumed: list = field(default_factory=list)  # Assumption
    below: int = -1  # index of the row below in the size's list of rows, -1 none
    source: object = None  # notation Row whose steps were worked: `row` itself, or the one it refers to
    end: dict = field(default_factory=dict)  # what the row leaves behind: chain carried over, stitches left, ring joined

    @property
    def has_height(self) -> bool:
        """Whether it is a row of the fabric: a foundation chain is none, though it may be written as one."""
        return self.row is not None and bool(self.stitches or self.spaces)

    def again(self) -> "WorkedRow":
        """The same work for another row: shares the columns, which nobody changes."""
        return WorkedRow(*_columns_of(self))


_columns_of = attrgetter(*WorkedRow.__slots__)

FLAG_COUNTS = 1  # counted as a stitch
FLAG_TURNING = 2  # a turning or beginning chain
FLAG_JOIN = 4  # a joining or travelling slip stitch
FLAG_GROUP = 8  # shares its place with the stitch before it
FLAG_CORNER = 16  # a chain space at a corner
FLAG_TEXTURE = 32  # stands out from the fabric


@dataclass(slots=True)
class Assumption:
    """A reading that was taken where there were two: said to her, and silenced by writing it out."""

    kind: str  # "turning-chain-counts", "repeat-times-in-all", "first-stitch", ...
    words: str
    span: Span = NOWHERE
    cost: int = 1
    evidence: str = ""


@dataclass(slots=True)
class Fabric:
    """The worked fabric of one size: rows in working order. kinds: kind number -> catalogue id (0 is "ch")."""

    size: str
    kinds: list
    rows: list = field(default_factory=list)

    def columns(self):
        """All rows as one set of NumPy columns: row, kind, foot (global), chains, flags, each (N,)."""
        import numpy as np

        count = sum(len(row.kind) for row in self.rows)
        out = {name: np.empty(count, dtype) for name, dtype in
               (("row", np.int32), ("kind", np.uint16), ("foot", np.int64), ("chains", np.uint16), ("flags", np.uint8))}
        starts, at = [], 0
        for index, row in enumerate(self.rows):
            starts.append(at)
            here = slice(at, at + len(row.kind))
            out["row"][here] = index
            out["kind"][here] = np.frombuffer(row.kind, np.uint16) if len(row.kind) else ()
            out["chains"][here] = np.frombuffer(row.chains, np.uint16) if len(row.kind) else ()
            out["flags"][here] = np.frombuffer(row.flags, np.uint8) if len(row.kind) else ()
            foot = np.frombuffer(row.foot, np.int32).astype(np.int64) if len(row.kind) else np.empty(0, np.int64)
            out["foot"][here] = np.where(foot >= 0, foot + (starts[row.below] if row.below >= 0 else 0), foot)
            for index_in_row, (other, place) in row.far.items():
                out["foot"][at + index_in_row] = starts[other] + place
            at += len(row.kind)
        return out
