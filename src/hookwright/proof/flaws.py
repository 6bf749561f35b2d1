"""Places that a stitch can't have, looked up in the worked fabric: a third loop that is not there, the post of a chain, a taken loop."""

from dataclasses import dataclass, field

from hookwright.fabric import CHAINS, FLAG_TURNING, KIND_NAMES
from hookwright.ground import Finding, Span, Suggestion
from hookwright.notation.tree import Group, Stitch
from hookwright.stitches import stitch

from .case import Case


@dataclass(slots=True)
class Flaw:
    """One written row: in which sizes, how many of its stitches (0 where not known), the kind they stand on."""

    row: object
    label: str
    sizes: set = field(default_factory=set)
    count: int = 0
    below: str = ""


def third_loops(case: Case) -> list[Flaw]:
    """Rows that go into the third loop of stitches without a yarn over."""
    return _told(case, "third-loop-of")


def posts_of_chains(case: Case) -> list[Flaw]:
    """Rows with post stitches around chains that are no turning chain."""
    found = {id(flaw.row): flaw for flaw in _told(case, "post-of-chain")}
    if not any(node.kind.startswith(("fp", "bp")) for _, node in case.nodes(Stitch)):
        return list(found.values())
    posts = {number for number, name in enumerate(KIND_NAMES) if (fact := stitch(name)) is not None and fact.post}
    for size, fabric in enumerate(case.fabrics):
        for worked in fabric.rows:
            if worked.below < 0 or not posts.intersection(worked.kind):
                continue
            below = fabric.rows[worked.below]
            if not _has_chains(below):
                continue
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


def _has_chains(row) -> bool:
    """Whether there are chains in a row besides its turning chain."""
    kind, at = row.kind, -1
    for _ in range(kind.count(CHAINS)):
        at = kind.index(CHAINS, at + 1)
        if not row.flags[at] & FLAG_TURNING:
            return True
    return False


def _told(case: Case, kind: str) -> list[Flaw]:
    """Rows of which the worker says so."""
    return [Flaw(off.row, off.label, set(off.at), below=off.facts().get("below") or "") for off in case.off(kind)]


def loops_taken(case: Case) -> list[Flaw]:
    """Rows worked into the free loops of an earlier row of which another row took both loops."""
    found = {id(flaw.row): flaw for flaw in _told(case, "loop-twice")}
    asking = {id(seen.row): row for kind in (Stitch, Group) for seen, node in case.nodes(kind) if (row := _free_loops_of(node.place)) is not None}
    if not asking:
        return list(found.values())
    for size, fabric in enumerate(case.fabrics):
        for index, worked in enumerate(fabric.rows):
            wanted = asking.get(id(worked.row))
            if wanted is None:
                continue
            base = next((at for at in range(index - 1, -1, -1) if fabric.rows[at].number == wanted), None)
            first = next((row for row in fabric.rows[base + 1 : index] if row.below == base), None) if base is not None else None
            # "the free loops of Rnd 1" are those that Rnd 2 left, or those that Rnd 1 left below it
            if first is not None and first.stitches and not first.loops and not fabric.rows[base].loops:
                flaw = found.setdefault(id(worked.row), Flaw(worked.row, worked.label))
                flaw.sizes.add(size)
    return list(found.values())


def _free_loops_of(place) -> int | None:
    """The number of the row whose free loops are worked into."""
    if place is None or place.row is None:
        return None
    if place.which != "free loops" and place.group != "unworked" and place.loop not in ("front", "back"):
        return None
    return place.row


def finding_of(case: Case, flaw: Flaw, kind: str, grade: str, says: str, way_out: str) -> Finding:
    """The finding for one flaw; `says` ends the message after the row's name."""
    name = case.name_of(flaw.row, flaw.label)
    message = case.says(flaw.sizes, name, says)
    span: Span = flaw.row.span
    return Finding(
        kind,
        grade,
        message,
        span,
        name,
        case.size_names(flaw.sizes),
        found=flaw.below or None,
        suggestions=(Suggestion(way_out, "your choice"),),
    )
