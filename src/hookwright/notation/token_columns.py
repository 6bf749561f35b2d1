"""The tokens of a row as columns: what each is, its value, and where it stands."""

from .words import Guess


class Tokens:
    """Columns, one entry a token, with END tokens after the last.

    kinds   what it is: a part of speech (see words.toml), a mark of punctuation, NUM, ORD, DEC, ST, OWN, MARK, SHADE, W (a plain word), U
            (a word that is not known), HY (a hyphen within words), DASH
    values  the stitch id, number, mark ...; starts, ends  offsets into the text
    guesses (start, end, Guess) for words taken for others; lists (start, end, given, wanted) for size lists of another length
    """

    __slots__ = ("text", "kinds", "values", "starts", "ends", "guesses", "lists")

    def __init__(self, text: str):
        self.text = text
        self.kinds: list[str] = []
        self.values: list = []
        self.starts: list[int] = []
        self.ends: list[int] = []
        self.guesses: list[tuple[int, int, Guess]] = []
        self.lists: list[tuple[int, int, int, int]] = []

    def push(self, kind: str, value, start: int, end: int) -> None:
        self.kinds.append(kind)
        self.values.append(value)
        self.starts.append(start)
        self.ends.append(end)

    def words(self, first: int, after: int) -> str:
        """The text of tokens [first, after)."""
        return self.text[self.starts[first]:self.ends[after - 1]] if after > first else ""
