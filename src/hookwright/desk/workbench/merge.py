"""Two changed texts and the one both came from, put together line by line; where both changed the same lines, nothing is decided for her.

The laws it keeps (tested over generated texts): a side that changed nothing leaves the other's text; both sides the same leave that text;
which side is which makes no difference; and of a clean merge no line that either side added is missing.
"""

from dataclasses import dataclass
from difflib import SequenceMatcher

MOST_LINES = 3_000  # where more than so many lies between the first and the last changed line, that is one change


@dataclass(frozen=True, slots=True)
class Merged:
    """text: both put together, None where they clash; clashes: (lines of theirs, lines of yours) at the same place."""

    text: str | None
    clashes: tuple = ()


def merge(base: str, theirs: str, yours: str) -> Merged:
    """Both changes made to `base`, or where they clash."""
    if theirs == yours or theirs == base:
        return Merged(yours)
    if yours == base:
        return Merged(theirs)
    old, one, other = (text.splitlines(keepends=True) for text in (base, theirs, yours))
    out, clashes, at = [], [], 0
    changes_one, changes_other = _changes(old, one), _changes(old, other)
    while changes_one or changes_other:
        group_one, group_other, start, end = _next_group(changes_one, changes_other)
        out += old[at:start]
        mine, thine = _made(old, group_one, start, end), _made(old, group_other, start, end)
        if not group_one:
            out += thine
        elif not group_other or mine == thine:
            out += mine
        else:
            clashes.append(("".join(mine), "".join(thine)))
        at = end
    if clashes:
        return Merged(None, tuple(clashes))
    return Merged("".join(_lines_apart([*out, *old[at:]])))


def _changes(old: list[str], new: list[str]) -> list[tuple[int, int, list[str]]]:
    """What became of which lines: (start, end, lines there now), in order; the last line's missing end is a change like any other."""
    first = 0
    while first < len(old) and first < len(new) and old[first] == new[first]:
        first += 1
    last = 0
    while last < len(old) - first and last < len(new) - first and old[-1 - last] == new[-1 - last]:
        last += 1
    middle, now = old[first : len(old) - last], new[first : len(new) - last]
    if not middle and not now:
        return []
    if len(middle) + len(now) > MOST_LINES:
        return [(first, len(old) - last, now)]
    matcher = SequenceMatcher(None, middle, now, autojunk=False)
    return [(first + a, first + b, now[c:d]) for tag, a, b, c, d in matcher.get_opcodes() if tag != "equal"]


def _next_group(one: list, other: list) -> tuple[list, list, int, int]:
    """The next changes of both sides that lie over or against each other, taken from the fronts of the lists."""
    first = one if not other or one and one[0][:2] <= other[0][:2] else other
    start, end = first[0][0], first[0][1]
    groups = {id(one): [], id(other): []}
    grown = True
    while grown:
        grown = False
        for side in (one, other):
            while side and side[0][0] <= end:
                change = side.pop(0)
                groups[id(side)].append(change)
                end, grown = max(end, change[1]), True
    return groups[id(one)], groups[id(other)], start, end


def _made(old, changes, start: int, end: int) -> list[str]:
    """The lines from start to end as one side has them."""
    out, at = [], start
    for first, after, lines in changes:
        out += old[at:first] + lines
        at = after
    return out + old[at:end]


def _lines_apart(lines: list[str]) -> list[str]:
    """A last line without an end, with something after it now, gets one."""
    return [line if line.endswith(("\n", "\r")) or index == len(lines) - 1 else line + "\n" for index, line in enumerate(lines)]
