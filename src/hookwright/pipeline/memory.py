"""What earlier checks of a manuscript found, so that the next one, of nearly the same text, is quick."""

from hookwright.notation import ReadBefore


class Memory:
    """Given to `check` with each new text of one manuscript. A report made with it is good until the next check with it, which takes its tree over.

    rows: rows read before. told_alike: written rows that were read back as the same row before.
    """

    __slots__ = ("rows", "told_alike")

    def __init__(self):
        self.rows = ReadBefore()
        self.told_alike: dict = {}
