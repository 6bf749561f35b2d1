"""Shaping as written rows, in the terms of the designer: what `hookwright shape` prints, to be put into a manuscript.

word: the stitch as it is written ("sc", "dc"); decrease: the word for two together. The rows hold their counts, so that they prove themselves.
"""

from .spread import Segment, over_round, staggered


def round_words(changes: int, stitches: int, *, word: str, change: str, eats: int = 1, number: int | None = None) -> str:
    """One round of so many stitches with the changes spread evenly, as written. number: its number, to stagger even rounds.

    >>> round_words(6, 24, word="sc", change="inc")
    '[3 sc, inc] 6 times'
    >>> round_words(6, 24, word="sc", change="inc", number=4)
    '1 sc, inc, [3 sc, inc] 5 times, 2 sc'
    >>> round_words(5, 24, word="sc", change="sc2tog", eats=2)
    '[3 sc, sc2tog] 4 times, 2 sc, sc2tog'
    >>> round_words(5, 6, word="sc", change="inc")
    '1 sc, 5 inc'
    """
    if changes == 0:
        return f"{stitches} {word}"
    first, segments, last = staggered(changes, stitches, number, eats=eats) if number else (-1, *over_round(changes, stitches, eats=eats))
    runs: list = [(first, word), (1, change)] if first >= 0 else []  # (how many, of what), or a group in words
    for segment in segments:
        if segment.plain and segment.times > 1:
            runs.append(_group(segment, word, change))
        else:
            runs += [(segment.plain, word), (segment.times, change)]
    parts: list = []
    for run in [*runs, (last, word)]:
        if isinstance(run, str):
            parts.append(run)
        elif run[0] and parts and isinstance(parts[-1], tuple) and parts[-1][1] == run[1]:
            parts[-1] = (parts[-1][0] + run[0], run[1])
        elif run[0]:
            parts.append(run)
    return ", ".join(part if isinstance(part, str) else change if part == (1, change) else f"{part[0]} {part[1]}" for part in parts)


def _group(segment: Segment, word: str, change: str) -> str:
    return f"[{segment.plain} {word}, {change}] " + ("twice" if segment.times == 2 else f"{segment.times} times")


def rounds_words(counts: list[int], *, word: str, decrease: str, stagger: bool = False) -> list[str]:
    """Rounds with these counts, begun in a ring, as written.

    >>> rounds_words([6, 12, 18, 18, 12], word="sc", decrease="sc2tog")
    ['Round 1: 6 sc in a magic ring. (6 sts)', 'Round 2: 6 inc. (12 sts)', 'Round 3: [1 sc, inc] 6 times. (18 sts)', 'Round 4: 18 sc. (18 sts)', 'Round 5: [1 sc, sc2tog] 6 times. (12 sts)']
    """
    out = []
    before = 0
    for index, count in enumerate(counts, 1):
        if index == 1:
            words = f"{count} {word} in a magic ring"
        elif count == before:
            words = f"{count} {word}"
        elif count > before:
            if count > 2 * before:
                raise ValueError(f"from {before} to {count} sts is more than an increase in every stitch")
            words = round_words(count - before, before, word=word, change="inc", number=index if stagger else None)
        else:
            words = round_words(before - count, before, word=word, change=decrease, eats=2, number=index if stagger else None)
        out.append(f"Round {index}: {words}. ({count} sts)")
        before = count
    return out
