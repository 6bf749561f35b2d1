"""Rows shaped at intervals on the way out: "inc 1 st at each end of 5th and every foll 6th row 4 times, then every 4th row 3 times"."""

from hookwright.ground import PerSize

from .spell_numbers import is_one, number, number_of_times, ordinal
from .spell_places import Manner, kind_word
from .tree import Interval, Shaping

_WHERE = {"ends": "at each end of", "first": "at beg of", "last": "at end of", "evenly": "evenly"}


def shaping_words(manner: Manner, shaping: Shaping, which: str) -> str:
    """The shaping in words. which: the row referred to, where that is the shaped one."""
    if not shaping.kind:
        words = f"rep {which}"
    else:
        words = f"work in {kind_word(manner, shaping.stitch)}, {shaping.kind}" if shaping.stitch else shaping.kind
        if shaping.n is not None:
            words += f" {number(shaping.n)} st{'' if is_one(shaping.n) else 's'}"
        if shaping.where:
            words += f" {_WHERE[shaping.where]}"
    if shaping.where in ("", "evenly") and shaping.intervals[0].first is not None:
        words += " on"
    row = manner.row_word.lower()
    return f"{words} {', then '.join(_interval(row, interval) for interval in shaping.intervals)}"


def _interval(row: str, interval: Interval) -> str:
    if interval.every == 1:
        which = f"every {row}"
    elif interval.every == 2:
        which = f"every {'foll alt' if interval.first is not None else 'other'} {row}"
    else:
        which = f"every {'foll ' if interval.first is not None else ''}{ordinal(interval.every)} {row}"
    if interval.first is not None:
        which = f"{'next' if interval.first == 1 else ordinal(interval.first)} and {which}"
    if interval.stitches is not None:
        return f"{which} until there are {number(interval.stitches)} sts"
    if interval.times is None:
        return which
    return f"{which} {_more(interval)}" if interval.after else f"{which} {number_of_times(interval.times)}"


def _more(interval: Interval) -> str:
    many = isinstance(interval.times, PerSize) or interval.times != 1
    return f"{number(interval.times)} more time{'s' if many else ''}"
