"""Numbers on the way out: size lists, ordinals, measures in both units, singular and plural."""

from hookwright.ground import Number, PerSize

MM_PER_INCH = 25.4  # by definition (international inch)
_FRACTIONS = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")


def number(value: Number) -> str:
    """A number, or the trade's list of sizes with "-" where a size skips the step; one number where all sizes share it.

    >>> number(PerSize((36, 40, None))), number(PerSize((8, 8)))
    ('36 (40, -)', '8')
    """
    if isinstance(value, PerSize):
        return size_list(["-" if one is None else str(one) for one in value])
    return str(value)


def size_list(words: list[str]) -> str:
    """Words one a size: the first, the others in brackets after it; a single word where all are the same."""
    if not words:
        return "-"
    return words[0] if len(set(words)) == 1 else f"{words[0]} ({', '.join(words[1:])})"


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
    """How often, in all: "once", "twice", "3 times", "2 (3, 4) times"."""
    return _often(value) or number_of_times(value)


def number_of_times(value: Number) -> str:
    """How often, with its number: "1 time", "2 times"."""
    return f"{number(value)} {'time' if is_one(value) else 'times'}"


def more_times(value: Number) -> str:
    """How often again: "once more", "twice more", "3 more times"."""
    often = _often(value)
    return f"{often} more" if often else f"{number(value)} more times"


def _often(value: Number) -> str:
    """ "once", "twice", "" for more and for numbers that differ by size."""
    return ("once", "twice")[value - 1] if value in (1, 2) else ""


def _decimal(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _eighths(value_mm: float) -> str:
    whole, rest = divmod(round(value_mm / MM_PER_INCH * 8), 8)
    if not rest:
        return str(whole)
    return f"{whole or ''}{_FRACTIONS[rest]}"


def measure(value_mm) -> str:
    """A length in both units, exact in the one that stands first. A tuple of mm gives a size list.

    Inches stand first where the length is a whole number of eighths of an inch and not of millimetres.

    >>> measure(200), measure((304.8, 355.6))
    ('20 cm (7⅞ in)', '12 (14) in [30.5 (35.5) cm]')
    """
    values = value_mm if isinstance(value_mm, tuple) else (value_mm,)
    known = [value for value in values if value is not None]
    inches = size_list(["-" if value is None else _eighths(value) for value in values])
    if all(_whole(value / MM_PER_INCH * 8) for value in known) and not all(_whole(value) for value in known):
        first, second = inches + " in", size_list(["-" if value is None else _decimal(round(value / 5) / 2) for value in values]) + " cm"
    else:
        first, second = size_list(["-" if value is None else _decimal(value / 10) for value in values]) + " cm", inches + " in"
    return f"{first} [{second}]" if "(" in first else f"{first} ({second})"


def _whole(value: float) -> bool:
    return abs(value - round(value)) < 1e-6
