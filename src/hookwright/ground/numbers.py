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


def of_size(name: str) -> str:
    """A size as it is named in a sentence: "size M", and not "size Size 2" where its name says so.

    >>> of_size("M"), of_size("Size 2")
    ('size M', 'Size 2')
    """
    return name if name.lower().startswith("size ") else f"size {name}"


def of_sizes(names) -> list[str]:
    """Sizes for a list after the word "sizes": their names without that word.

    >>> of_sizes(("Size 1", "Size 2"))
    ['1', '2']
    """
    return [name[5:] if name.lower().startswith("size ") and all(other.lower().startswith("size ") for other in names) else name for name in names]


def listing(words, last: str = "and") -> str:
    """ "A, B and C".

    >>> listing(["S", "M", "L"])
    'S, M and L'
    """
    words = [str(word) for word in words]
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def in_sizes(names: tuple[str, ...], of: tuple[str, ...]) -> str:
    """ "in size M", "in sizes M and L", "in every size", or "" where there is only one size."""
    if len(of) < 2 or not names:
        return ""
    if len(names) == len(of):
        return "in every size"
    return f"in {of_size(names[0])}" if len(names) == 1 else f"in sizes {listing(of_sizes(names))}"
