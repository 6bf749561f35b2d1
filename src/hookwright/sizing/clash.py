"""What is told of wishes that can't all hold: which of them, in which sizes, and the nearest ways out with what the numbers then come to."""

from dataclasses import replace

from hookwright.ground import MUST_MEND, NOWHERE, Finding, Suggestion, in_sizes, of_size

from .solver import nearest
from .wishes import Grows, Problem, Same, Within


def problem_of_one(problem: Problem, index: int, name: str) -> Problem:
    """The problem of one size alone, by this name; conditions that compare sizes fall away."""
    wishes = [replace(wish, want=wish.want[index : index + 1], unit_mm=wish.unit_mm[index : index + 1]) for wish in problem.wishes]
    kept = []
    for condition in problem.conditions:
        if isinstance(condition, (Grows, Same)):
            continue
        if hasattr(condition, "values"):
            condition = replace(condition, values=condition.values[index : index + 1])
        elif isinstance(condition, Within):
            condition = replace(condition, mm=condition.mm[index : index + 1])
        kept.append(condition)
    return Problem((name,), wishes, kept)


def clash_finding(clash, problem: Problem) -> Finding:
    """Which wishes can't hold together, and the ways out, nearest first."""
    sizes = _sizes_that_clash(clash, problem)
    where = f" {in_sizes(tuple(sizes), problem.sizes)}".rstrip()
    together = "; ".join(_words(condition, problem, sizes) for condition in clash.conditions)
    ways = tuple(Suggestion(f"leave out that {' and that '.join(one.words for one in given_up)}", "your choice", effect=_then(clash, problem, answer)) for given_up, answer in clash.ways)
    none = "" if ways else (". No one of all conditions, and no two of them, can be left out so that the rest holds: the measures or the gauge lie too far from this pattern. "
                            "Change those, or several of the conditions")
    return Finding("wishes-clash", MUST_MEND, f"no numbers meet all that is asked{where}: {together}{none}", clash.conditions[0].span if clash.conditions else NOWHERE,
                   sizes=tuple(sizes) if len(problem.sizes) > 1 else (), suggestions=ways)


def _sizes_that_clash(clash, problem: Problem) -> list[str]:
    """The sizes in which the wishes clash by themselves; [] where they do so only from size to size."""
    only = Problem(problem.sizes, problem.wishes, list(clash.conditions))
    return [size for index, size in enumerate(problem.sizes) if nearest(problem_of_one(only, index, size)) is None]


def _words(condition, problem: Problem, sizes: list) -> str:
    """The condition as she wrote it, and of nearness the length that is wanted in the first size that clashes."""
    if not isinstance(condition, Within) or not sizes:
        return condition.words
    want = next(wish.want[problem.sizes.index(sizes[0])] for wish in problem.wishes if wish.name == condition.number)
    return f"{condition.words}, {want.constant / 10:.1f} cm ({want.constant / 25.4:.1f} in)" if want is not None and want.known else condition.words


def _then(clash, problem: Problem, answer) -> str:
    """What the numbers that clash come to, and how far off they are at most."""
    names = {condition.number for condition in clash.conditions}
    for condition in clash.conditions:
        names |= {name for value in getattr(condition, "values", ()) for name, _ in value.terms}
    shown = [wish.name for wish in problem.wishes if wish.name in names]
    told = ", ".join(f"`{name}` {_per_size(answer.numbers[name])}" for name in shown[:6])
    name, index, off = answer.farthest_off(shown) if any(name in answer.off_mm for name in shown) else answer.farthest_off()
    if not name:
        return told
    size = f", in {of_size(problem.sizes[index])}" if len(problem.sizes) > 1 else ""
    return f"{told}; {'' if name in shown and len(shown) == 1 else f'`{name}` is '}off by {abs(off) / 10:.{2 if abs(off) < 10 else 1}f} cm ({abs(off) / 25.4:.2f} in) at most{size}"


def _per_size(values) -> str:
    return str(values[0]) if len(set(values)) == 1 else f"{values[0]} ({', '.join(map(str, values[1:]))})"
