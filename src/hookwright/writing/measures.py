"""Lengths and weights as printed, always in both units. Inside all lengths are mm.

1 in = 25.4 mm, 1 yd = 0.9144 m, 1 oz = 28.349523 g (international yard and pound, 1959, exact).
Rounding of what is printed is common practice: cm to the nearest half from 10 cm on and to the tenth below,
inches to the quarter from 4 in on and to the eighth below.
"""

from fractions import Fraction

from .size_lists import size_list

_GLYPHS = {
    Fraction(1, 8): "⅛",
    Fraction(1, 4): "¼",
    Fraction(3, 8): "⅜",
    Fraction(1, 2): "½",
    Fraction(5, 8): "⅝",
    Fraction(3, 4): "¾",
    Fraction(7, 8): "⅞",
}


def number(value: float, places: int = 1) -> str:
    """A number with at most `places` decimals and no idle zeros.

    >>> number(5.0), number(3.527), number(2.25, 2)
    ('5', '3.5', '2.25')
    """
    text = f"{round(value + 1e-9, places):.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def centimetres(mm: float) -> str:
    """Length in cm, without the unit; with a minus sign where it is less than nothing (ease).

    >>> centimetres(482), centimetres(37), centimetres(-25)
    ('48', '3.7', '−2.5')
    """
    if mm < 0:
        return f"−{centimetres(-mm)}"
    if mm >= 100:
        return number(round(mm / 5) / 2)
    return number(mm / 10)


def inches(mm: float) -> str:
    """Length in inches as whole and fraction, without the unit; with a minus sign where it is less than nothing.

    >>> inches(482), inches(22), inches(101.6), inches(-20)
    ('19', '⅞', '4', '−¾')
    """
    if mm < 0:
        return f"−{inches(-mm)}"
    parts = 4 if mm >= 101.6 else 8
    nearest = Fraction(round(mm / 25.4 * parts), parts)
    whole, rest = divmod(nearest, 1)
    if not rest:
        return str(whole)
    return f"{whole or ''}{_GLYPHS[rest]}"


def span_text(low_mm: float, high_mm: float, show) -> str:
    """ "44" or "38–42"."""
    low, high = show(low_mm), show(high_mm)
    return low if low == high else f"{low}–{high}"


def length(low_mm: float, high_mm: float | None = None) -> str:
    """Length or range of lengths in both units; a number is not parted from its unit at the end of a line.

    >>> length(440), length(380, 420)
    ('44\xa0cm (17¼\xa0in)', '38–42\xa0cm (15–16½\xa0in)')
    """
    high_mm = low_mm if high_mm is None else high_mm
    return f"{span_text(low_mm, high_mm, centimetres)}\u00a0cm ({span_text(low_mm, high_mm, inches)}\u00a0in)"


def signed_length(low_mm: float, high_mm: float) -> str:
    """Ease: a length that may be negative.

    >>> signed_length(-50, -20)
    '−5 to −2\xa0cm (−2 to −¾\xa0in)'
    """
    if low_mm >= 0 and high_mm >= 0:
        return length(low_mm, high_mm)

    def one(mm: float, show) -> str:
        return f"\u2212{show(-mm)}" if mm < 0 and show(-mm) != "0" else show(abs(mm))

    both = [one(low_mm, show) if low_mm == high_mm else f"{one(low_mm, show)} to {one(high_mm, show)}" for show in (centimetres, inches)]
    return f"{both[0]}\u00a0cm ({both[1]}\u00a0in)"


def yards(metres: float) -> str:
    """Whole yards.

    >>> yards(180)
    '197'
    """
    return str(round(metres / 0.9144))


def ounces(grams: float) -> str:
    """Ounces to the tenth.

    >>> ounces(100), ounces(50)
    ('3.5', '1.8')
    """
    return number(grams / 28.349523)


def lengths(values) -> str:
    """A length per size, as (low_mm, high_mm) or None each, in both units.

    >>> lengths([(440, 440), (480, 480)]), lengths([(440, 440)] * 3)
    ('44 (48)\xa0cm [17¼ (19)\xa0in]', '44\xa0cm (17¼\xa0in)')
    """
    both = [size_list(tuple(values), lambda span, show=show: span_text(*span, show)) for show in (centimetres, inches)]
    return f"{both[0]}\u00a0cm [{both[1]}\u00a0in]" if "(" in both[0] else f"{both[0]}\u00a0cm ({both[1]}\u00a0in)"


def lists_in_both(values) -> tuple[str, str]:
    """A length per size in mm, None where a size has none: the list in cm and the list in inches, each with its unit.

    >>> lists_in_both((440.0, 480.0, None))
    ('44 (48, -)\xa0cm', '17¼ (19, -)\xa0in')
    """
    return f"{size_list(tuple(values), centimetres)}\u00a0cm", f"{size_list(tuple(values), inches)}\u00a0in"


def swatch(mm: float) -> str:
    """The side of a swatch; 10 cm and 4 in are taken as the same, as the trade does.

    >>> swatch(100), swatch(50)
    ('10 cm (4 in)', '5 cm (2 in)')
    """
    for cm, inch in ((2.5, 1), (5, 2), (10, 4), (15, 6), (20, 8)):
        if abs(mm - cm * 10) < 0.3 or abs(mm - inch * 25.4) < 0.3:
            return f"{number(cm)} cm ({inch} in)"
    return length(mm)
