"""Which finished measure goes round which measure of the body, and who wears it: shared by the checks of finished measures."""

import re
from dataclasses import dataclass

from hookwright import sizing

from .case import Case
from .tables import table

_OLDEST_CHILD = 12 * 12  # months; from the teens on heads are those of adults


@dataclass(frozen=True, slots=True)
class Worn:
    """A finished measure that lies round the body: its name, its lengths (notation.Measure), and for each size the body as (low_mm, high_mm) or None."""

    name: str
    measure: object
    bodies: tuple


def main_measure(case: Case) -> Worn | None:
    """The finished measure that goes round what the sizes are to fit (chest, head, hand ...); None where the head doesn't say which it is."""
    finished = case.from_head("finished") or {}
    going_round = [name for name in finished if sizing.goes_round(name, case.from_head("title") or "")]
    main = [word for word in sizing.table("fit")["names"]["main"] if any(word in _words(name) for name in going_round)]
    if main:
        names = [name for name in going_round if main[0] in _words(name)]
    else:
        names = going_round
    if len(names) != 1:
        return None
    wanted = ("to fit", main[0]) if main else ("to fit", *(("head",) if is_hat(case) else ()))
    bodies = [next((body[word] for word in wanted if word in body), None) for body in bodies_by_size(case)]
    return Worn(names[0], finished[names[0]], tuple(bodies[size] if size < len(bodies) else None for size in range(len(case.sizes))))


def bodies_by_size(case: Case) -> list[dict]:
    """For each size the measures of the body by name, (low_mm, high_mm)."""
    if case.sized is not None and case.sized.asked is not None:
        return case.sized.asked.bodies
    return sizing.bodies_of(case.head, []) if case.head is not None else []


def is_hat(case: Case) -> bool:
    """Whether it is worn on the head: by its title, a piece's name or the body it is made for."""
    head = case.head
    if head is not None and head.body is not None and (head.body.table or "").lower().strip() in ("head", "heads"):
        return True
    names = [case.from_head("title") or "", *(piece.name or "" for piece in case.pattern.pieces), *(case.from_head("finished") or ())]
    return any(sizing.worn_on(name) == "head" or "head" in _words(name) for name in names)


def is_child(case: Case, size: int) -> bool:
    """Whether this size is for a baby or a child: by its name, its age, the body table, or since the whole pattern is."""
    body = case.from_head("body")
    names = [case.sizes[size]]
    if body is not None and size < len(body.sizes):
        names.append(body.sizes[size])
    for name in names:
        age = sizing.age_in_months(name)
        if _words(name) & set(table("worn")["children"]) or age is not None and age[1] <= _OLDEST_CHILD:
            return True
    if body is not None and (body.table or "").lower().strip() in ("children", "child", "babies", "baby"):
        return True
    for_whom = set(case.from_head("for_") or ())
    return bool(for_whom) and for_whom <= {"baby", "child"}


def finest_mm(case: Case) -> float:
    """What a length must be allowed to be off for being made of whole stitches and rows: the largest stitch or row, 0 where no gauge is given."""
    if case.head is None:
        return 0.0
    return max((length for gauge in sizing.gauges_of(case.head) for length in (gauge.stitch_mm, gauge.row_mm) if length), default=0.0)


def _words(name: str) -> set[str]:
    return set(re.findall(r"[a-z]+", name.lower()))
