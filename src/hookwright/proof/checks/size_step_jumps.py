"""One step between two sizes is far larger than all the others.

From size to size measures and numbers grow by about the same. Here one step alone is three times as large as any other, so that some number
may stand for another size. Where the bodies or the other measures jump there too, and from the last child's size to the first adult's,
nothing is said.

With it::

    ---
    sizes: [XS, S, M, L, XL]
    finished:
      chest: 84 (88, 92, 112, 116) cm
      length: 52 (53, 54, 55, 56) cm
    ---
    Ch 127 (133, 139, 169, 175).
    Row 1: Sc in 2nd ch from hook and in each ch across. (126 (132, 138, 168, 174) sc)

Without it::

    ---
    sizes: [XS, S, M, L, XL]
    finished:
      chest: 84 (88, 92, 96, 100) cm
      length: 52 (53, 54, 55, 56) cm
    ---
    Ch 127 (133, 139, 145, 151).
    Row 1: Sc in 2nd ch from hook and in each ch across. (126 (132, 138, 144, 150) sc)

Working::

    84, 88, 92, 112, 116: steps of 4, 4, 20, 4

What to do: look at the sizes on both sides of the step. Where it is meant (two groups of sizes, say), silence this finding with the reason.
"""

from hookwright.ground import LOOK, Finding, Suggestion, of_size

from ..case import Case
from ..wording import number_text, size_list
from ..worn import bodies_by_size, is_child

KIND = "size-step-jumps"
_TIMES = 3.0  # as large as the largest other step; common practice, no source
_LEAST_MM = 30.0
_LEAST_COUNT = 6


def find(case: Case):
    if len(case.sizes) < 4:
        return
    measures = {name: [None if measure.at(size) is None else sum(measure.at(size)) / 2 for size in range(len(case.sizes))]
                for name, measure in (case.from_head("finished") or {}).items()}
    bodies = _bodies(case)
    for name, values in measures.items():
        others = [*(other for key, other in measures.items() if key != name), *bodies]
        yield from _finding(case, values, others, _LEAST_MM, f"the finished {name}", case.span_in_head(f"finished.{name}"), 10.0, " cm")
    for name, values in (case.from_head("numbers") or {}).items():
        if isinstance(values, tuple) and len(values) == len(case.sizes):
            yield from _finding(case, list(values), [*measures.values(), *bodies], _LEAST_COUNT, f"the number `{name}`", case.span_in_head(f"numbers.{name}"), 1.0, "")


def _finding(case, values, others, least, what, span, scale, unit):
    at = _jump(values, least)
    if at is None or is_child(case, at) != is_child(case, at + 1) or any(_jumps_at(other, at) for other in others):
        return
    steps = [(after - before) / scale for before, after in zip(values, values[1:])]
    shown = size_list([number_text(value / scale) for value in values])
    yield Finding(
        KIND, LOOK,
        f"from {of_size(case.sizes[at])} to size {case.sizes[at + 1]} {what} grows by {number_text(abs(steps[at]))}{unit}, and between the other sizes by "
        f"{number_text(max(abs(step) for index, step in enumerate(steps) if index != at))}{unit} at most: {shown}{unit}",
        span, None, (case.sizes[at], case.sizes[at + 1]), expected=None, found=round(values[at + 1] / scale, 1), whose="the other sizes",
        working=(("from", "to", "step"), *((before, after, f"{step:+g}{unit}") for before, after, step in zip(case.sizes, case.sizes[1:], (round(step, 2) for step in steps)))),
        suggestions=(Suggestion(f"look at sizes {case.sizes[at]} and {case.sizes[at + 1]} once more", "your choice"),),
    )


def _jump(values, least: float) -> int | None:
    """Index of the size before the one step that is far larger than all others, which go the same way; else None."""
    if None in values:
        return None
    steps = [after - before for before, after in zip(values, values[1:])]
    if any(step < 0 for step in steps) and any(step > 0 for step in steps):
        return None  # out of order: that has a finding of its own
    steps = [abs(step) for step in steps]
    at = max(range(len(steps)), key=steps.__getitem__)
    rest = max(step for index, step in enumerate(steps) if index != at)
    return at if rest > 0 and steps[at] >= _TIMES * rest and steps[at] - rest >= least else None


def _jumps_at(values, at: int) -> bool:
    """Whether another list makes a step there that is twice its next largest, too."""
    if None in values or len(values) < 4:
        return False
    steps = [abs(after - before) for before, after in zip(values, values[1:])]
    return steps[at] > 0 and steps[at] >= 2 * max(step for index, step in enumerate(steps) if index != at)


def _bodies(case: Case) -> list[list]:
    """The measures of the body as lists over the sizes, where all sizes have them."""
    bodies = bodies_by_size(case)
    names = set.intersection(*(set(body) for body in bodies)) if bodies and len(bodies) == len(case.sizes) else set()
    return [[sum(body[name]) / 2 for body in bodies] for name in sorted(names)]
