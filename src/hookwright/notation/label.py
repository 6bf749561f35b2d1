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
    name: str = ""
    count_of_rows: Number | None = None
    side: str = ""
    only: tuple[str, ...] = ()
    remarks: list = field(default_factory=list)
    firm: bool = False
    every: str = ""
    every_until: int | None = None
    letter: str = ""
    all_sizes: bool = False
    core: bool = True
    bare: bool = False
    too_long: bool = False
    separator: str = ""
