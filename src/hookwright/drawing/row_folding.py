"""Which rows of a piece are worked again and again: found in their signs, before anything is laid out."""

from dataclasses import dataclass, field

MOST_PERIOD = 16
MOST_FOLDS = 4


@dataclass(slots=True)
class Folded:
    """kept: places of the rows that are shown, in order. times: {place of the first row of a repeat: (times worked, rows of one time)}.
    same: {place of a row left out: place of the shown row it is like}."""

    kept: list
    times: dict = field(default_factory=dict)
    same: dict = field(default_factory=dict)


def fold(signs: list, least: int = 2, begins=frozenset()) -> Folded:
    """Leaves out the rows that repeat those before them, where at least `least` are saved. signs: one comparable value a row. begins: places
    of rows at which a repeat had better begin, where others would save as much.

    >>> fold(list("fabababc"))
    Folded(kept=[0, 1, 2, 7], times={1: (3, 2)}, same={3: 1, 4: 2, 5: 1, 6: 2})
    """
    out, start = Folded(list(range(len(signs)))), 0
    for _ in range(MOST_FOLDS):
        found = _best([signs[place] for place in out.kept], start, {at for at, place in enumerate(out.kept) if place in begins})
        if found is None or found[3] < least:
            break
        at, period, times, gone = found
        first = out.kept[at]
        out.times[first] = times, period
        for step, place in enumerate(out.kept[at + period : at + period + gone]):
            out.same[place] = out.kept[at + step % period]
        del out.kept[at + period : at + period + gone]
        start = at + period
    return out


def _best(signs, start, begins):
    """(first row, period, times, rows saved) of the repeat that saves most; the shortest of those that save as much, and of these one that
    begins where it had better."""
    best, most, count = None, 0, len(signs)
    for period in range(1, min(MOST_PERIOD, (count - start) // 2) + 1):
        at = start
        while at + 2 * period <= count:
            run = 0
            while at + period + run < count and signs[at + run] == signs[at + period + run]:
                run += 1
            gone = run // period * period
            if gone and gone >= most:
                better = next((place for place in range(at + run % period, at - 1, -1) if place in begins), at)
                if gone > most or better in begins and best[0] not in begins and period == best[1]:
                    best, most = (better, period, 1 + run // period, gone), gone
            at += run + 1
    return best
