"""One size on its way through the pattern: its fabric so far, what lies below, which side faces, what is held over."""

from . import kinds
from .worked import Fabric


class Thread:
    """One size on its way through the pattern."""

    __slots__ = ("fabric", "lay", "last", "side", "carried", "in_round", "rests", "piece_start", "numbers", "turned_end", "ended")

    def __init__(self, size):
        self.fabric = Fabric(size, kinds.NAMES)
        self.lay = None  # Layout of the last row in the order it was worked; None at the start of a piece
        self.last = -1
        self.side = ""
        self.carried = None
        self.in_round = None
        self.rests = []  # layouts of stitches left unworked, to be rejoined
        self.piece_start = 0
        self.turned_end = False
        self.ended = []  # (piece, its last layout) of the pieces before
