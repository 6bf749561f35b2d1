"""Conventions held by the counts of the rows: votes for and against, and readings no count decides."""

from .choosing import hard, pattern_wide
from .worked import Assumption


def vote(sequence, asked, choices, rows, stated, chosen, attempt):
    """Holds conventions that the counts of this row decide; sends the work back where an earlier row read them otherwise."""
    wide = [key for key in asked if pattern_wide(key)]
    if not wide:
        return
    good = not hard(rows)
    for key in wide:
        sequence.asked.setdefault(key, asked[key])
        option = choices.get(key, chosen.get(key, 0))
        if good and stated:
            sequence.agree.setdefault(key, [0, 0])[0] += 1
            if key not in sequence.settings.taken:
                sequence.settings.taken[key] = option
                if option and key in sequence.undecided_used:
                    sequence.restart = True
                    return
        elif good and option:
            sequence.settings.taken.setdefault(key, option)
        elif not good and stated:
            sequence.agree.setdefault(key, [0, 0])[1] += 1
            if key in sequence.settings.taken and key not in sequence.locked:
                flipped = {**chosen, key: 1 - sequence.settings.taken[key]}
                other, _ = attempt(flipped)
                if len(other) == len(rows) and not hard(other):
                    sequence.conflict[key] = sequence.conflict.get(key, 0) + 1
        if key not in sequence.settings.taken:
            sequence.undecided_used.add(key)


def both_ways(sequence, asked, choices):
    """Phrases with two readings of which no stated count says which is meant."""
    out = []
    for key, (_, cost, words, span) in asked.items():
        if isinstance(key, tuple) and key[1] == "either" and not choices.get(key):
            out.append(Assumption("either", words[0] if isinstance(words, tuple) else words, span, cost))
    return out
