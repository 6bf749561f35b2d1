"""Numbers on the way out: size lists, ordinals, measures in both units, singular and plural."""

from hookwright.ground import Number, PerSize

MM_PER_INCH = 25.4  # by definition (international inch)
_FRACTIONS = {0: "", 1: "1/8", 2: "1/4", 3: "3/8", 4: "1/2", 5: "5/8", 6: "3/4", 7: "7/8"}


def number(value: Number) -> str:
    """A number, or the trade's list of sizes with "-" where a size skips the step.

    >>> number(PerSize((36, 40, None)))
    '36 (40, -)'
    """
    if isinstance(value, PerSize):
        return size_list(["-" if one is None else str(one) for one in value])
    return str(value)


def size_list(words: list[str]) -> str:
    """Words one a size: the first, the others in brackets after it."""
    if not words:
        return "-"
    return words[0] if len(words) == 1 else f"{words[0]} ({', '.join(words[1:])})"


def is_one(value: Number) -> bool:
    """Whether it is one in every size that takes part: "1 st", "1 (1, 1) st", but "1 (2, 3) sts"."""
    if isinstance(value, PerSize):
        return all(one is None or one == 1 for one in value)
    return value == 1


def ordinal(value: Number) -> str:
    """A place in a row of things: 2nd, 11th, 3rd (4th, 5th).

    >>> ordinal(22), ordinal(PerSize((3, 4)))
    ('22nd', '3rd (4th)')
    """
    if isinstance(value, PerSize):
        return size_list(["-" if one is None else ordinal(one) for one in value])
    if value % 100 in (11, 12, 13):
        return f"{value}th"
    return f"{value}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(value % 10, 'th')}"


def times(value: Number) -> str:
    """How often, in all: "1 time", "3 times", "2 (3, 4) times"."""
    return f"{number(value)} {'time' if is_one(value) else 'times'}"


def more_times(value: Number) -> str:
    """How often again: "once more", "3 more times"."""
    if value == 1:
        return "once more"
    return f"{number(value)} more {'time' if is_one(value) else 'times'}"


def _decimal(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _eighths(value_mm: float) -> str:
    whole, rest = divmod(round(value_mm / MM_PER_INCH * 8), 8)
    if not rest:
        return str(whole)
    return f"{whole} {_FRACTIONS[rest]}" if whole else _FRACTIONS[rest]


def measure(value_mm) -> str:
    """A length in both units, the one it was given in first: "20 cm [7 7/8 in]". A tuple of mm gives a size list.

    Inches stand first where the length is a whole number of eighths of an inch and not of millimetres.
    """
    values = value_mm if isinstance(value_mm, tuple) else (value_mm,)
    known = [value for value in values if value is not None]
    inches = size_list(["-" if value is None else _eighths(value) for value in values]) + " in"
    centimetres = size_list(["-" if value is None else _decimal(value / 10) for value in values]) + " cm"
    whole_mm = all(abs(value - round(value)) < 1e-6 for value in known)
    in_eighths = all(abs(value / MM_PER_INCH * 8 - round(value / MM_PER_INCH * 8)) < 1e-6 for value in known)
    if in_eighths and not whole_mm:
        return f"{inches} [{size_list(['-' if value is None else _decimal(round(value / 5) / 2) for value in values])} cm]"
    return f"{centimetres} [{inches}]"
