"""Counts round by round for discs, crowns and balls, from gauge."""

from math import ceil, pi, sin

from .spread import evenly

SLACK = 0.96  # a disc that gains up to a twenty-fifth fewer a round than it should still blocks flat
OVER = 1.08  # and up to so many times what it should lies flat enough for a plain round to be spared


def increases_per_round(stitch_mm: float, row_mm: float) -> float:
    """Stitches a flat disc gains each round: its circumference grows by 2 * pi * row height, so that is 2 * pi * row_mm / stitch_mm.

    >>> round(increases_per_round(100 / 13, 100 / 14), 1)  # sc at 13 sts and 14 rows to 10 cm
    5.8
    """
    return 2 * pi * row_mm / stitch_mm


def crown(stitches: int, stitch_mm: float, row_mm: float, *, per_round: int | None = None) -> list[int]:
    """Stitch counts of the rounds of a flat crown that ends on `stitches`: the disc has the hat's circumference when its diameter is
    circumference / pi. Every increase round gains the same whole number and the last what is left: per_round, or the one that the gauge asks
    for, and then a plain round stands between them wherever that many would be too much.

    >>> crown(72, 100 / 13, 100 / 14)
    [6, 12, 18, 24, 30, 36, 42, 48, 54, 60, 66, 72]
    >>> crown(36, 7, 6)  # the gauge asks for 5.4 a round: 6, and one round is plain
    [6, 12, 18, 24, 24, 30, 36]
    >>> crown(60, 7, 7, per_round=12)
    [12, 24, 36, 48, 60]
    """
    if stitches < 3:
        raise ValueError("a crown has 3 stitches at least")
    flat = increases_per_round(stitch_mm, row_mm)
    gain = per_round or max(3, ceil(flat * SLACK))
    wider = [*range(gain, stitches, gain), stitches]
    rounds = len(wider) if gain <= flat * OVER or per_round else max(len(wider), round(stitches / flat))
    plain = rounds - len(wider)
    between = {1 + (2 * k + 1) * (rounds - 1) // (2 * plain) for k in range(plain)}  # each in the middle of an equal share of the rounds
    growing = iter(wider)
    counts: list[int] = []
    for place in range(rounds):
        counts.append(counts[-1] if place in between else next(growing))
    return counts


def ball(around: int, stitch_mm: float, row_mm: float, *, multiple: int = 1) -> list[int]:
    """Stitch counts of the rounds of a ball with `around` stitches at its middle, by the sine rule:
    round k of n has around * sin(pi * (k - 1/2) / n) stitches, n = around * stitch_mm / (2 * row_mm) (half the circumference over the row
    height). Rounded to `multiple`, never under 3; both halves alike.

    >>> ball(24, 7.0, 7.0)
    [3, 9, 15, 19, 22, 24, 24, 22, 19, 15, 9, 3]
    """
    rounds = max(4, round(around * stitch_mm / (2 * row_mm)))
    least = multiple if multiple >= 3 else 3
    return [max(least, round(around * sin(pi * (k - 0.5) / rounds) / multiple) * multiple) for k in range(1, rounds + 1)]


def workable(counts: list[int], *, multiple: int = 1) -> list[int]:
    """The counts of a ball with no round more than twice the one beside it, since an increase in every stitch doubles a round: the rounds at
    either end are raised where the rule asks for a steeper start, and the first round is not worked again plain, which would make a tip.

    >>> workable([3, 9, 15, 19, 19, 15, 9, 3])
    [5, 9, 15, 19, 19, 15, 9, 5]
    >>> workable([6, 6, 12, 18, 18, 12, 6, 6], multiple=6)
    [6, 12, 12, 18, 18, 12, 12, 6]
    """
    out = list(counts)
    if len(out) > 4 and out[0] == out[1] < out[len(out) // 2]:
        out[1] = out[-2] = min(2 * out[0], out[len(out) // 2])
    for low in range((len(out) + 1) // 2 - 2, -1, -1):
        out[low] = out[len(out) - 1 - low] = max(out[low], -(-out[low + 1] // (2 * multiple)) * multiple)
    return out


def ball_diameter_mm(around: int, stitch_mm: float) -> float:
    """Diameter of a ball with so many stitches at its middle: circumference / pi."""
    return around * stitch_mm / pi


def taper(start: int, end: int, rows: int, *, each: int = 2) -> list[int]:
    """Counts of the rows of a piece that goes from start to end stitches in `rows` rows, changing by `each` in a shaping row (2: one
    at either side), the shaping spread evenly. Raises ValueError where the difference is no multiple of `each` or doesn't fit.

    >>> taper(40, 34, 6)
    [40, 38, 38, 36, 36, 34]
    """
    changes, odd = divmod(abs(end - start), each)
    if odd:
        raise ValueError(f"from {start} to {end} is {abs(end - start)} sts, which is no multiple of the {each} taken or made in a shaping row")
    shaped = set(evenly(changes, rows))
    sign = 1 if end > start else -1
    counts, now = [], start
    for row in range(1, rows + 1):
        now += sign * each if row in shaped else 0
        counts.append(now)
    return counts
