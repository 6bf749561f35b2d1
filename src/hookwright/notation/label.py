"""What a row label says, as a value."""

from dataclasses import dataclass, field

from hookwright.ground import Number


@dataclass(slots=True)
class Label:
    """A row label. `[start, end)` is the whole label with its separator; remarks are the spans of comments in it.

    firm: a colon or the like stands after it. every: "alternate", "even", "odd", "onward", "RS", "WS" where the label
    speaks of further rows ("Row 2 and all even rows"). letter: the "a" of "Row (a)". all_sizes: "All sizes:" ends a
    restriction. core: False where only a size restriction was read. bare: a number with no word.
    """

    start: int
    end: int
    word: str = ""
    numbers: tuple[int, ...] = ()
    last_number: Number | None = None
    first_number: Number | None = None
    name: str = ""
    count_of_rows: Number | None = None
    side: str = ""
    only: tuple[str, ...] = ()
    remarks: list = field(default_factory=list)
    firm: bool = False
    every: str = ""
    every_until: int | None = None
    goal: tuple[int, int] | None = None  # where "until 12 sts remain" stands, for "Row 5 and every row thereafter until ..."
    letter: str = ""
    all_sizes: bool = False
    core: bool = True
    bare: bool = False
    too_long: bool = False
    separator: str = ""


MOST_ROWS_IN_ALL = 300_000
MOST_LABELS = 20_000


class RowBudget:
    """How many rows all labels of a manuscript may stand for; a label past it is cut to its first row and marked too_long."""

    def __init__(self, rows: int = MOST_ROWS_IN_ALL):
        self.rows = rows
        self.labels = MOST_LABELS

    def take(self, label: Label) -> None:
        """Takes the rows of one label off the budget."""
        self.labels -= 1
        if len(label.numbers) > 1:
            self.rows -= len(label.numbers)
            if self.rows < 0:
                label.numbers, label.too_long = label.numbers[:1], True
