"""What is asked of the numbers of a pattern: a length to come near, and conditions that must hold, each in words of its own."""

from dataclasses import dataclass, field

from hookwright.ground import Value

MOST = 20_000  # stitches or rows a number may come to


@dataclass(slots=True)
class Wish:
    """A number to be found in every size. want[i]: the length in mm wanted in size i (None: nothing is wanted, it follows).

    unit_mm[i]: what one stitch or row of it measures. A want may hold other numbers times a length. said: what buyers are to know it by on
    the sheet; "" for a number that is only a help in the making.
    """

    name: str
    want: tuple[Value | None, ...]
    unit_mm: tuple[float, ...]
    counts: str = "sts"  # "sts", "rows" or "rnds"
    fabric: str = ""
    said: str = ""


@dataclass(frozen=True, slots=True)
class Multiple:
    """The number is a multiple of `of`, plus `plus`."""

    number: str
    of: int
    plus: int = 0
    words: str = ""
    span: object = None


@dataclass(frozen=True, slots=True)
class OneOf:
    """The number plus `offset` is one of these counts: the ones for which all rows of a piece came out."""

    number: str
    counts: tuple[int, ...]
    offset: int = 0
    words: str = ""
    span: object = None


@dataclass(frozen=True, slots=True)
class Follows:
    """The number equals values[i] in size i; where the sum is no whole number there is no answer."""

    number: str
    values: tuple[Value, ...]
    words: str = ""
    span: object = None


@dataclass(frozen=True, slots=True)
class Bound:
    """The number is at least (side 1) or at most (side -1) values[i]."""

    number: str
    side: int
    values: tuple[Value, ...]
    words: str = ""
    span: object = None


@dataclass(frozen=True, slots=True)
class Same:
    """The number is the same in these sizes (indices)."""

    number: str
    sizes: tuple[int, ...]
    words: str = ""
    span: object = None


@dataclass(frozen=True, slots=True)
class Grows:
    """From size to size the number grows by at least `by` (0: never gets smaller)."""

    number: str
    by: int = 0
    words: str = ""
    span: object = None


@dataclass(frozen=True, slots=True)
class Within:
    """The length that comes out is off by at most mm[i]."""

    number: str
    mm: tuple[float, ...]
    words: str = ""
    span: object = None


Condition = Multiple | OneOf | Follows | Bound | Same | Grows | Within


@dataclass(slots=True)
class Problem:
    """All wishes and conditions of a pattern, over the sizes by name."""

    sizes: tuple[str, ...]
    wishes: list[Wish] = field(default_factory=list)
    conditions: list = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Answer:
    """numbers[name][i]: the count in size i. off_mm[name][i]: how far the length it makes lies from what is wanted (+ is larger)."""

    numbers: dict[str, tuple[int, ...]]
    off_mm: dict[str, tuple[float | None, ...]]

    @property
    def total_off_mm(self) -> float:
        return sum(abs(off) for offs in self.off_mm.values() for off in offs if off is not None)

    def farthest_off(self, names=None) -> tuple[str, int, float]:
        """(number, size index, mm) of the length that is farthest off, among these numbers or all; ("", 0, 0.0) where nothing was wanted."""
        found = [(abs(off), name, index, off) for name, offs in self.off_mm.items() if names is None or name in names for index, off in enumerate(offs) if off is not None]
        return max(found)[1:] if found else ("", 0, 0.0)


@dataclass(frozen=True, slots=True)
class Clash:
    """No numbers meet all that is asked. conditions: a smallest set of those that can't hold together; ways: (conditions given up, Answer
    then), one alone before two together, the nearest first."""

    conditions: tuple
    ways: tuple[tuple[tuple, Answer], ...]
