"""Two sizes are worked alike, stitch for stitch, though their measures differ.

The step from one size to the next is smaller than a repeat (or than a stitch), so that both come to the same numbers. One of them is not
needed, or the measures promise what is not there. Where the sizes differ by hook or gauge nothing is said.

With it::

    ---
    sizes: [S, M, L]
    gauge:
      - {stitches: 15, rows: 16, over: 10 cm, in: sc}
    finished: {width: 40 (44, 48) cm}
    ---
    Ch 61 (67, 67).
    Row 1: Sc in 2nd ch from hook and in each ch across. (60 (66, 66) sc)
    Row 2: Ch 1, turn, sc in each st across. (60 (66, 66) sc)

Without it::

    ---
    sizes: [S, M, L]
    gauge:
      - {stitches: 15, rows: 16, over: 10 cm, in: sc}
    finished: {width: 40 (44, 48) cm}
    ---
    Ch 61 (67, 73).
    Row 1: Sc in 2nd ch from hook and in each ch across. (60 (66, 72) sc)
    Row 2: Ch 1, turn, sc in each st across. (60 (66, 72) sc)

Working::

    M: 66 stitches are 44 cm
    L: 66 stitches are 44 cm, and 48 are stated

What to do: leave one of the sizes out, part them further, or take a smaller repeat.
"""

import re

from hookwright import sizing
from hookwright.ground import LOOK, NOTE, Finding, Suggestion

from ..case import Case
from ..wished import step_of
from ..wording import count, number_text
from ..worn import bodies_by_size

KIND = "sizes-alike"
_LIST = re.compile(r"(?P<first>\d[\d.]*|-) ?[(\[](?P<rest>[\d., -]+)[)\]]")
_LEAST_MM = 5.0  # measures that lie closer are one measure, printed twice; common practice, no source
_FOUND_MM = 20.0  # wanted lengths that lie nearer may come to one number


def find(case: Case):
    if len(case.fabrics) < 2 or case.fabrics[0].rows == [] or _by_hook(case):
        return
    told = False
    for size, (one, other) in enumerate(zip(case.fabrics, case.fabrics[1:])):
        differs = _differs(case, size)
        if differs is None or not _worked_alike(one, other) or _told_apart(case, size):
            continue
        told = True
        name, before, after = differs
        span = case.span_in_head(f"finished.{name}") if name else case.span_in_head("sizes")
        said = f"{name} is {number_text(before / 10)} cm in the one and {number_text(after / 10)} cm in the other" if name else \
            f"they are to fit {number_text(before / 10)} cm and {number_text(after / 10)} cm"
        stitches = max(row.stitches for row in one.rows)
        yield Finding(
            KIND, LOOK,
            f"sizes {case.sizes[size]} and {case.sizes[size + 1]} are worked alike in every row (the widest has {count(stitches, 'stitch')} in both), and {said}",
            span, None, case.sizes[size : size + 2], expected=None, found=stitches, whose="the other size",
            working=(("", case.sizes[size], case.sizes[size + 1]), (name or "to fit", f"{number_text(before / 10)} cm", f"{number_text(after / 10)} cm"),
                     ("widest row", str(stitches), str(stitches)), ("rows", str(len(one.rows)), str(len(other.rows)))),
            suggestions=(Suggestion("leave one of these sizes out, or part them by a repeat at least", "your choice"),),
        )
    if not told:
        yield from _found_alike(case)


def _found_alike(case: Case):
    """Numbers that come to the same in two sizes since their repeat is coarser than the step between these."""
    outcome = case.sized.outcome if case.sized is not None else None
    if not isinstance(outcome, sizing.Answer):
        return
    problem = case.sized.asked.problem
    for wish in problem.wishes:
        offs, numbers = outcome.off_mm.get(wish.name), outcome.numbers[wish.name]
        repeat = step_of(problem, wish.name)
        if offs is None or repeat < 3:
            continue
        shared = {size for condition in problem.conditions if isinstance(condition, sizing.Same) and condition.number == wish.name for size in condition.sizes}
        for size in range(len(problem.sizes) - 1):
            if numbers[size] != numbers[size + 1] or None in offs[size : size + 2] or {size, size + 1} <= shared:
                continue
            wanted = [wish.unit_mm[one] * numbers[one] - offs[one] for one in (size, size + 1)]
            if abs(wanted[1] - wanted[0]) < _FOUND_MM:
                continue
            yield Finding(
                KIND, NOTE,
                f"`{wish.name}` comes to {numbers[size]} {wish.counts} in sizes {problem.sizes[size]} and {problem.sizes[size + 1]} alike, though {number_text(wanted[0] / 10)} cm and "
                f"{number_text(wanted[1] / 10)} cm are wanted: it goes in steps of {repeat}, which are {number_text(repeat * wish.unit_mm[size] / 10)} cm",
                case.span_in_head(f"numbers.{wish.name}"), None, problem.sizes[size : size + 2], expected=None, found=numbers[size], whose="the wish",
                working=(("size", "wanted", "comes to"), *((problem.sizes[one], f"{number_text(want / 10)} cm", f"{number_text(wish.unit_mm[one] * numbers[one] / 10)} cm")
                                                          for one, want in zip((size, size + 1), wanted))),
                suggestions=(Suggestion("a smaller repeat, or fewer sizes", "your choice"),),
            )
            break


def _worked_alike(one, other) -> bool:
    """The same rows with the same stitches in them."""
    return len(one.rows) == len(other.rows) and all(
        a is b or a.stitches == b.stitches and a.row is b.row and dict(a.by_kind) == dict(b.by_kind) and list(a.spaces) == list(b.spaces) for a, b in zip(one.rows, other.rows))


def _told_apart(case: Case, size: int) -> bool:
    """Whether a number of the head or any list of sizes in the text is another for the next size ("make 9 (20, 35) squares")."""
    for values in (case.from_head("numbers") or {}).values():
        if isinstance(values, tuple) and values[size : size + 1] != values[size + 1 : size + 2]:
            return True
    for piece in case.pattern.pieces:
        for item in piece.items:
            for found in _LIST.finditer(case.text, item.span.start, item.span.end):
                values = [found["first"], *(part.strip() for part in found["rest"].split(","))]
                if len(values) == len(case.sizes) and values[size] != values[size + 1]:
                    return True
        if isinstance(piece.make, tuple) and piece.make[size : size + 1] != piece.make[size + 1 : size + 2]:
            return True
    return False


def _differs(case: Case, size: int):
    """(name or "", mm, mm) of a finished measure, or else the body, that is another in the next size; None where none is."""
    for name, measure in (case.from_head("finished") or {}).items():
        before, after = measure.at(size), measure.at(size + 1)
        if before and after and abs(sum(after) - sum(before)) / 2 >= _LEAST_MM:
            return name, sum(before) / 2, sum(after) / 2
    if case.from_head("finished"):
        return None
    bodies = bodies_by_size(case)
    if size + 1 < len(bodies) and "to fit" in bodies[size] and "to fit" in bodies[size + 1]:
        before, after = (sum(bodies[one]["to fit"]) / 2 for one in (size, size + 1))
        return ("", before, after) if abs(after - before) >= _LEAST_MM else None
    return None


def _by_hook(case: Case) -> bool:
    """Whether the sizes may be made with different hooks or yarns and the same stitches: then several stand in the head, or gauges of one fabric."""
    gauges = [(gauge.in_ or "").lower() for gauge in case.from_head("gauge") or ()]
    return len(case.from_head("hook") or ()) > 1 or len(gauges) > len(set(gauges))
