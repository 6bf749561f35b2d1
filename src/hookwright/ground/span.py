"""Places in a manuscript: offsets inside, line and column outside."""

from bisect import bisect_right
from typing import NamedTuple


class Span(NamedTuple):
    """Half-open range of character offsets `[start, end)` into the manuscript text."""

    start: int
    end: int

    def to(self, other: "Span") -> "Span":
        """The span from the start of this one to the end of `other`."""
        return Span(self.start, max(self.end, other.end))


NOWHERE = Span(0, 0)


class Lines:
    """Turns offsets into 1-based line and column numbers; built once a manuscript."""

    def __init__(self, text: str):
        self.text = text
        starts = [0]
        found = text.find("\n")
        while found >= 0:
            starts.append(found + 1)
            found = text.find("\n", found + 1)
        self.starts = starts

    def place(self, offset: int) -> tuple[int, int]:
        """(line, column) of an offset, both from 1.

        >>> Lines("ab\\ncd").place(4)
        (2, 2)
        """
        line = bisect_right(self.starts, offset)
        return line, offset - self.starts[line - 1] + 1

    def line(self, number: int) -> str:
        """Text of a line (from 1) without its end."""
        start = self.starts[number - 1]
        end = self.starts[number] - 1 if number < len(self.starts) else len(self.text)
        return self.text[start:end].rstrip("\r")
