"""Places that a stitch can't have, looked up in the worked fabric: a third loop that is not there, the post of a chain, a taken loop."""

from dataclasses import dataclass, field

from hookwright.fabric import CHAINS, FLAG_TURNING, KIND_NAMES
from hookwright.ground import Finding, Span, Suggestion
from hookwright.notation.tree import Stitch
from hookwright.stitches import stitch

from .case import Case
from .wording import sentence


@dataclass(slots=True)
class Flaw:
    """One written row: in which sizes, how many of its stitches, the kind they stand on, whether all that ask for it are concerned."""

    row: object
    label: str
    sizes: set = field(default_factory=set)
    count: int = 0
    below: str = ""
    every: bool = True


def third_loops(case: Case) -> list[Flaw]:
    """Rows that go into the third loop of stitches without a yarn over."""
    return _gather(
        case, "third", lambda fact, flags: fact is not None and fact.kind in ("basic", "decrease") and fact.yo == 0 and fact.id != "ch"
    )


def posts_of_chains(case: Case) -> list[Flaw]:
    """Rows with post stitches around chains that are no turning chain."""
    if not any(node.kind.startswith(("fp", "bp")) for _, node in case.nodes(Stitch)):
        return []
    found: dict[int, Flaw] = {}
    posts = {number for number, name in enumerate(KIND_NAMES) if (fact := stitch(name)) is not None and fact.post}
    for size, fabric in enumerate(case.fabrics):
        for worked in fabric.rows:
            if worked.below < 0 or not posts.intersection(worked.kind):
                continue
            below = fabric.rows[worked.below]
            hits = [
                foot
                for kind, foot in zip(worked.kind, worked.foot, strict=False)
                if kind in posts and 0 <= foot < len(below.kind) and below.kind[foot] == CHAINS and not below.flags[foot] & FLAG_TURNING
            ]
            if hits:
                flaw = found.setdefault(id(worked.row), Flaw(worked.row, worked.label))
                flaw.sizes.add(size)
                flaw.count = len(hits)
    return list(found.values())


def _gather(case: Case, loop: str, lacks) -> list[Flaw]:
    found: dict[int, Flaw] = {}
    for size, fabric in enumerate(case.fabrics):
        for worked in fabric.rows:
            if not worked.loops or worked.below < 0 or loop not in worked.loops.values():
                continue
            below = fabric.rows[worked.below]
            asked = [index for index, which in worked.loops.items() if which == loop and index not in worked.far]
            hits = []
            for index in asked:
                foot = worked.foot[index] if index < len(worked.foot) else -1
                if 0 <= foot < len(below.kind):
                    name = KIND_NAMES[below.kind[foot]]
                    if lacks(stitch(name), below.flags[foot]):
                        hits.append(name)
            if hits:
                flaw = found.setdefault(id(worked.row), Flaw(worked.row, worked.label))
                flaw.sizes.add(size)
                flaw.count, flaw.below, flaw.every = len(hits), hits[0], flaw.every and len(hits) == len(asked)
    return list(found.values())


def loops_taken(case: Case) -> list[Flaw]:
    """Rows worked into the free loops of an earlier row of which another row took both loops."""
    if not any(node.place is not None and node.place.which == "free loops" for _, node in case.nodes(Stitch)):
        return []
    found: dict[int, Flaw] = {}
    for size, fabric in enumerate(case.fabrics):
        above: dict[int, list[int]] = {}
        for index, worked in enumerate(fabric.rows):
            above.setdefault(worked.below, []).append(index)
        for index, worked in enumerate(fabric.rows):
            if not worked.far:
                continue
            taken = 0
            for row_index, place in worked.far.values():
                for other in above.get(row_index, ()):
                    earlier = fabric.rows[other]
                    if other < index and _both_loops(earlier, place):
                        taken += 1
            if taken and taken == len(worked.far):
                flaw = found.setdefault(id(worked.row), Flaw(worked.row, worked.label))
                flaw.sizes.add(size)
                flaw.count = taken
    return list(found.values())


def _both_loops(worked, place: int) -> bool:
    return any(foot == place and index not in worked.loops for index, foot in enumerate(worked.foot))


def finding_of(case: Case, flaw: Flaw, kind: str, grade: str, says: str, way_out: str) -> Finding:
    """The finding for one flaw; `says` ends the message after the row's name."""
    name = case.name_of(flaw.row, flaw.label)
    message = sentence(case.in_sizes(flaw.sizes), name, says)
    span: Span = flaw.row.span
    return Finding(
        kind,
        grade,
        message[0].upper() + message[1:],
        span,
        name,
        case.size_names(flaw.sizes),
        found=flaw.below or None,
        suggestions=(Suggestion(way_out, "your choice"),),
    )
