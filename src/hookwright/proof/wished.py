"""In which steps a number that was found can go: shared by the checks of wishes."""

from fractions import Fraction
from math import lcm

from hookwright import sizing


def step_of(problem, name: str) -> int:
    """The step in which the number can go: what its multiples, and the numbers that follow from it alone, have in common; of single counts the
    widest gap."""
    steps = [1]
    gap = 1
    for condition in problem.conditions:
        if isinstance(condition, sizing.Follows):
            steps += [Fraction(terms[0][1]).limit_denominator(1000).denominator for value in condition.values[:1] if len(terms := value.terms) == 1 and terms[0][0] == name]
        if condition.number != name:
            continue
        if isinstance(condition, sizing.Multiple):
            steps.append(condition.of)
        elif isinstance(condition, sizing.OneOf):
            gap = max((after - before for before, after in zip(condition.counts, condition.counts[1:])), default=1)
    return max(lcm(*steps), gap)
