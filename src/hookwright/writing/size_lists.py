"""Numbers per size in the trade's notation: "24 (28, 32)", "-" where a size takes no part, one number where all sizes share it."""

from hookwright.ground import Number, PerSize


def size_list(number: Number | tuple | None, show=str) -> str:
    """The number(s) as printed; `show` turns one value into text.

    >>> size_list(PerSize((24, 28, None))), size_list(PerSize((8, 8))), size_list(5)
    ('24 (28, -)', '8', '5')
    """
    if number is None:
        return "-"
    if not isinstance(number, tuple):
        return show(number)
    shown = ["-" if value is None else show(value) for value in number]
    if not shown:
        return "-"
    if len(set(shown)) == 1:
        return shown[0]
    return f"{shown[0]} ({', '.join(shown[1:])})"


def only_one(number: Number | None) -> bool:
    """Whether a noun after the number stays singular: 1 in every size that takes part."""
    if isinstance(number, PerSize):
        values = {value for value in number if value is not None}
        return values == {1}
    return number == 1


def same_for_all(values) -> bool:
    """Whether all sizes share one value.

    >>> same_for_all(("8", "8")), same_for_all(())
    (True, True)
    """
    return len(set(values)) <= 1
