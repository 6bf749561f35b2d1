"""Spreads increases or decreases evenly over rows or over a round, and says it in the trade's words."""

from dataclasses import dataclass

from hookwright.ground import MUST_MEND, Finding, Number, PerSize, Span, in_sizes


def many(n: int, what: str) -> str:
    """So many of a thing.

    >>> many(1, "row"), many(3, "row")
    ('1 row', '3 rows')
    """
    return f"{n} {what}" if n == 1 else f"{n} {what}s"


def _dont(n: int) -> str:
    return "doesn't" if n == 1 else "don't"


def evenly(changes: int, places: int) -> list[int]:
    """Which of the places 1..places take a change, so that they lie as even as whole numbers allow (Bresenham's line):
    place i takes one where floor(i * changes / places) goes up. Raises ValueError where there are fewer places than changes.

    >>> evenly(3, 10)
    [4, 7, 10]
    """
    if not 0 <= changes <= places:
        raise ValueError(f"{many(changes, 'change')} {_dont(changes)} fit into {many(places, 'place')}")
    return [i for i in range(1, places + 1) if i * changes // places > (i - 1) * changes // places]


@dataclass(frozen=True, slots=True)
class Stretch:
    """A change in every `every`-th row, `times` times."""

    every: int
    times: int


def over_rows(changes: int, rows: int, *, step: int = 1) -> list[Stretch]:
    """Changes over rows as at most two stretches, the wider first. step 2: only every other row may be shaped (right-side rows).

    rows = every_wide * times_wide + every_close * times_close + what is left over at the end (fewer than one step a change).
    Raises ValueError where the changes don't fit.

    >>> over_rows(9, 42)
    [Stretch(every=5, times=6), Stretch(every=4, times=3)]
    >>> over_rows(9, 42, step=2)
    [Stretch(every=6, times=3), Stretch(every=4, times=6)]
    """
    if changes == 0:
        return []
    units = rows // step
    if changes > units:
        raise ValueError(f"{many(changes, 'change')} {_dont(changes)} fit into {many(rows, 'row')}" + (" when only every other row is shaped" if step == 2 else ""))
    close, wide_times = divmod(units, changes)
    stretches = [Stretch((close + 1) * step, wide_times), Stretch(close * step, changes - wide_times)]
    return [stretch for stretch in stretches if stretch.times]


def shaped_rows(stretches: list[Stretch], *, after: int = 0) -> list[int]:
    """The row numbers of the changes, counted on from row `after`.

    >>> shaped_rows([Stretch(5, 2), Stretch(4, 1)], after=10)
    [15, 20, 24]
    """
    out, row = [], after
    for stretch in stretches:
        for _ in range(stretch.times):
            row += stretch.every
            out.append(row)
    return out


def ordinal(n: int) -> str:
    """1st, 2nd, 3rd, 4th, 11th ...

    >>> [ordinal(n) for n in (1, 2, 3, 4, 11, 12, 13, 21, 102)]
    ['1st', '2nd', '3rd', '4th', '11th', '12th', '13th', '21st', '102nd']
    """
    ending = "th" if n % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th")
    return f"{n}{ending}"


def _often(times: int) -> str:
    return {1: "once", 2: "twice"}.get(times, f"{times} times")


def in_words(stretches: list[Stretch], what: str = "inc", row: str = "row") -> str:
    """The stretches in the trade's words.

    >>> in_words([Stretch(6, 3), Stretch(4, 6)])
    'inc every 6th row 3 times, then every 4th row 6 times'
    >>> in_words([Stretch(1, 5)], "dec", "rnd")
    'dec every rnd 5 times'
    """
    parts = []
    for stretch in stretches:
        which = {1: f"every {row}", 2: f"every other {row}"}.get(stretch.every, f"every {ordinal(stretch.every)} {row}")
        parts.append(f"{which} {_often(stretch.times)}")
    return f"{what} " + ", then ".join(parts) if parts else ""


@dataclass(frozen=True, slots=True)
class Segment:
    """`plain` stitches and then one change, `times` times."""

    plain: int
    times: int


def over_round(changes: int, stitches: int, *, eats: int = 1) -> tuple[list[Segment], int]:
    """(segments, stitches worked plain at the end) for so many changes in a round of so many stitches. eats: stitches of the round one
    change is worked into: 1 for an increase, 2 for a decrease. Raises ValueError where they don't fit.

    >>> over_round(6, 24)
    ([Segment(plain=3, times=6)], 0)
    >>> over_round(6, 26, eats=2)
    ([Segment(plain=3, times=2), Segment(plain=2, times=4)], 0)
    """
    plain = stitches - changes * eats
    if changes < 0 or plain < 0:
        raise ValueError(f"{many(changes, 'increase' if eats == 1 else 'decrease')} {_dont(changes)} fit into {many(stitches, 'st')}: "
                         + ("each is worked into a stitch of its own" if eats == 1 else f"each takes {eats} of them"))
    if changes == 0:
        return [], stitches
    each, more = divmod(plain, changes)
    return [segment for segment in (Segment(each + 1, more), Segment(each, changes - more)) if segment.times], 0


def staggered(changes: int, stitches: int, round_number: int, *, eats: int = 1) -> tuple[int, list[Segment], int]:
    """(first, segments, last): as over_round, but on even rounds begun half a segment in, so that the changes don't stack up into corners.
    An even round is worked: `first` plain stitches, one change, the segments, `last` plain stitches. On odd rounds first is -1: there is
    no change before the segments.

    >>> staggered(6, 24, 2)
    (1, [Segment(plain=3, times=5)], 2)
    """
    segments, left = over_round(changes, stitches, eats=eats)
    if round_number % 2 or not segments or segments[-1].plain == 0:
        return -1, segments, left
    first = segments[-1].plain // 2
    last = segments[-1]
    kept = [*segments[:-1], Segment(last.plain, last.times - 1)]
    # the last segment is cut: its change comes after `first` stitches, the rest of its plain ones end the round
    return first, [segment for segment in kept if segment.times], last.plain - first


# ---------------------------------------------------------------- in the sizes of a pattern

def per_size(values) -> Number:
    """One whole number where all sizes have the same, else one a size."""
    return values[0] if len(set(values)) == 1 else PerSize(values)


def spread_in(name: str, counts: list[tuple[float, float]], sizes: tuple[str, ...], step: int, span: Span, findings: list) -> dict[str, tuple[int, ...]]:
    """(changes, rows) of each size spread, as columns: every, times, then every, then times, and the rest of the rows after it.

    {} with a number-not-found, once for all sizes with the same fault, where changes don't fit or are no whole number.
    """
    columns, refused = [], {}
    for size, (changes, rows) in zip(sizes, counts):
        stretches = []
        try:
            stretches = over_rows(*(_whole_number(count) for count in (changes, rows)), step=step)
        except ValueError as told:
            refused.setdefault(str(told), []).append(size)
        first, then = (*stretches, Stretch(0, 0), Stretch(0, 0))[:2]
        used = sum(stretch.every * stretch.times for stretch in stretches)
        columns.append((first.every, first.times, then.every, then.times, max(0, round(rows) - used)))
    for told, where in refused.items():
        findings.append(Finding("number-not-found", MUST_MEND, f"the number `{name}` {in_sizes(tuple(where), sizes)}".rstrip() + f": {told}", span, sizes=tuple(where) if len(sizes) > 1 else ()))
    return {} if refused else dict(zip(("every", "times", "then every", "then times", "rest"), zip(*columns)))


def _whole_number(count: float) -> int:
    if abs(count - round(count)) > 1e-6:
        raise ValueError(f"{count:.2f} is no whole number, and so many increases, decreases or rows can't be spread")
    if count < 0:
        raise ValueError(f"{count:g} is less than nothing, and so many can't be spread")
    return round(count)
