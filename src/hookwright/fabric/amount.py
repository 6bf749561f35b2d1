"""How much a row asks for, told from its words before any of it is worked."""

from hookwright.ground import PerSize
from hookwright.notation.tree import Chain, Each, Either, Group, Repeat, Stitch


def amount(steps, limit: int) -> int:
    """Steps and stitches these steps come to at the least, with every "n times" taken at its word; stops counting past `limit`."""
    total = 0
    for step in steps:
        kind = type(step)
        if kind is Repeat:
            total += (_most(step.times) + (step.sense == "more") if step.times is not None else 1) * amount(step.steps, limit)
        elif kind is Group:
            total += amount(step.steps, limit) * (_most(step.place.n) if step.place is not None else 1)
        elif kind is Each:
            total += amount(step.parts, limit)
        elif kind is Either:
            total += min((amount(reading if isinstance(reading, list) else [reading], limit) for reading in step.readings), default=0)
        elif kind is Stitch:
            total += _most(step.n) * (_most(step.place.n) if step.place is not None else 1)
        elif kind is Chain:
            total += 1 + _most(step.n) // 100
        else:
            total += 1
        if total > limit:
            return total
    return total


def _most(number) -> int:
    """The largest value of a number over the sizes; 1 where none is given."""
    if number is None:
        return 1
    if isinstance(number, PerSize):
        return max((value for value in number if value is not None), default=0)
    return max(0, number)
