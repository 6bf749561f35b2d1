"""The steps read so far between two brackets or of a row, and which steps make stitches."""

from .tree import Each, Either, Group, Repeat, Stitch

MOST_DEPTH = 24  # brackets within brackets
MAKING = (Stitch, Group, Repeat, Each, Either)


class Frame:
    """The steps read so far between two brackets (or of the whole row), and where the sentence at hand began in them."""

    __slots__ = ("steps", "sentence", "sentence_before", "bracket", "star", "stop", "ended", "clause", "explained")

    def __init__(self):
        self.steps: list = []
        self.sentence = self.sentence_before = 0
        self.bracket = None  # (first, after) of a bracket's steps put in without a repeat
        self.star = None  # steps of the last pair of asterisks
        self.stop = None  # index of the ** mark
        self.ended = False  # a full stop has just been read
        self.explained = None  # an increase or decrease that a colon after it explains
        self.clause = 0  # where the clause at hand began
