"""Where a row can be read in two ways: try the readings, take the one that agrees with the counts."""

from heapq import heappop, heappush

from .worked import Assumption

SOFT = frozenset({"named-otherwise", "join-differs", "passed-over", "other-space", "left-differs", "side-differs", "loop-twice", "third-loop-of", "post-of-chain", "texture-side", "below-unknown"})
PATTERN_WIDE = ("tch", "skipped", "counted", "foundation-skip")
LIMIT = 48
STEPS = 200_000  # steps that may be spent on trying readings of one row


def pattern_wide(key) -> bool:
    """Whether a choice is a convention of the whole pattern and not of one row."""
    return isinstance(key, tuple) and key[0] in PATTERN_WIDE


def hard(rows) -> int:
    """How many troubles of the rows of all sizes are more than remarks."""
    return sum(1 for row in rows for trouble in row.troubles if trouble.kind not in SOFT)


def settle(work, taken, spent=lambda: 0):
    """The best reading of a row: (rows, choices, asked, default rows are good).

    work(choices) -> (rows of all sizes, asked). taken: conventions already held; they are not tried the other way.
    Readings are tried from the cheapest on, at most LIMIT of them and
    for as long as `spent()` steps stay under STEPS.
    """
    rows, asked = work({})
    if not hard(rows):
        return rows, {}, asked, True
    best = (hard(rows), 0, rows, {}, asked)
    heap, seen, order = [], {frozenset()}, 0
    structural = [t.kind for row in rows for t in row.troubles]

    def push(cost, choices, asked):
        nonlocal order
        for key, (count, price, *_) in asked.items():
            if key in choices or pattern_wide(key) and key in taken:
                continue
            for option in range(1, count):
                more = {**choices, key: option}
                mark = frozenset(more.items())
                if mark not in seen:
                    seen.add(mark)
                    order += 1
                    heappush(heap, (cost + price + (option - 1), order, more))

    push(0, {}, asked)
    tries = 0
    while heap and tries < LIMIT:
        cost, _, choices = heappop(heap)
        if cost > 5 or spent() > STEPS:
            break
        tries += 1
        rows, asked_now = work(choices)
        found = hard(rows)
        if not found:
            return rows, choices, {**asked, **asked_now}, False
        if found < best[0] and not structural:
            best = (found, cost, rows, choices, asked_now)
        push(cost, choices, asked_now)
    return best[2], best[3], {**asked, **best[4]}, False


def assumptions(choices, asked):
    """Assumptions for the local choices taken other than by default."""
    out = []
    for key, option in choices.items():
        if pattern_wide(key) or not option:
            continue
        count, cost, words, span = asked.get(key, (2, 1, "", None))
        kind = key[1] if isinstance(key, tuple) else key
        if isinstance(words, tuple):  # one wording for each answer
            words = words[min(option, len(words) - 1)]
        out.append(Assumption(str(kind), words or str(kind), span, cost))
    return out
