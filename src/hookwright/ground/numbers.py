"""Whole numbers that may differ by size."""


class PerSize(tuple):
    """One value a size, in the order of the sizes; None where a size skips the step.

    >>> at(PerSize((36, 40, None)), 1)
    40
    """

    __slots__ = ()

    def __repr__(self) -> str:
        return f"PerSize({tuple(self)!r})"


Number = int | PerSize


def at(number: "Number | None", size: int):
    """The value for the size with this index: an int, or None where that size skips it.

    A list shorter than the sizes answers None for the sizes it does not reach (the proof reports the list).
    """
    if isinstance(number, PerSize):
        return number[size] if size < len(number) else None
    return number
