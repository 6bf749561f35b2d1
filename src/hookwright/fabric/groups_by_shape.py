"""Groups of a row below that is told by its stitches alone: "[sc, ch 1, 2 dc, ch 2, 2 dc, ch 1] x 6" has six of her shells, which are (2 dc, ch 2, 2 dc)."""

from hookwright.notation.tree import Chain, Group, Note, Repeat, Skip, Stitch

from .kinds import CHAINS, FIRST_STITCH
from .layout import Layout

_PETALS = frozenset(("petal", "scallop", "leaf", "shell", "fan", "point", "wave"))


def with_groups_named(lay: Layout, steps, own: dict, size: int, in_round: bool) -> Layout:
    """The same places with the groups that the row's words name, where the row below has such stitches; `lay` itself where it has none.

    own: name -> OwnStitch of the pattern. A round has no seam: its last group may be whole only with the stitches it begins with.
    """
    if lay.groups or not lay.n or lay.ring:
        return lay
    named, into = _named(steps, own)
    for name, made in named.items():
        found = _like(lay, made, size, in_round, name)
        if len(found) > 1:
            return _with(lay, found)
    petal = next((name for name in into if name in _PETALS), "")
    found = petal and (in_round and _in_turn(lay, petal) or _runs(lay, petal))
    return _with(lay, found) if found else lay


def _with(lay: Layout, groups) -> Layout:
    made = Layout(lay.kind, lay.size, lay.item, groups, lay.corners, lay.tops, lay.ring, lay.joined)
    made.hook_chain, made.far_chain, made.closed = lay.hook_chain, lay.far_chain, lay.closed
    return made


def _in_turn(lay: Layout, name: str) -> list:
    """The petals of a round: what comes again and again in it, three times or more, if it is more than one stitch."""
    n, made = lay.n, list(zip(lay.kind, lay.size, strict=True))
    for length in range(3, n // 3 + 1):
        if n % length == 0 and made[length:] == made[:-length]:
            return [(start, start + length, name) for start in range(0, n, length)] if len(set(made)) > 1 else []
    return []


def _runs(lay: Layout, name: str) -> list:
    """The shells of a row told by its stitches: stretches of one kind that are of one length and stand between others ("sc, [5 dc, sc] x 4")."""
    if not lay.plain:
        return []  # chains tell them apart, or lie within them
    runs, start = {}, 0
    for cell in range(1, lay.n + 1):
        if cell == lay.n or lay.kind[cell] != lay.kind[start]:
            if lay.kind[start] >= FIRST_STITCH and cell - start > 2:
                runs.setdefault(lay.kind[start], []).append((start, cell, name))
            start = cell
    for found in runs.values():
        whole = [run for run in found if run[1] - run[0] == max(end - begin for begin, end, _ in found)]
        if len(whole) > 1 and all(run in whole or not run[0] or run[1] == lay.n for run in found):
            return whole
    return []


def _named(steps, own: dict) -> tuple[dict, list]:
    """Names of groups that the row works into, with the steps they are made of; and all such names."""
    from .next_places import same_name

    into, made = [], {stitch.name: stitch.steps for stitch in own.values() if stitch.group}
    pending = list(steps)
    while pending:
        step = pending.pop()
        place = getattr(step, "place", None)
        for where in (place, getattr(getattr(place, "extent", None), "place", None), getattr(getattr(step, "extent", None), "place", None)):
            if where is not None and where.group:
                into.append(where.group)
        if isinstance(step, Group) and step.name:
            made.setdefault(step.name, step.steps)
        if isinstance(step, (Group, Repeat)):
            pending.extend(step.steps)
    return {name: parts for name, parts in made.items() if any(same_name(name, other) for other in into) and all(isinstance(part, (Stitch, Chain)) for part in parts)}, into


def _like(lay: Layout, steps, size: int, in_round: bool, name: str) -> list:
    """(first cell, end cell, name) of each stretch made as these steps make it."""
    from .statement import layout_from

    shape = layout_from(steps, size)
    n, length = lay.n, shape.n
    if not 1 < length <= n:
        return []
    run = shape.plain
    return (not run and _found(lay, shape, in_round, name, apart=True)) or _found(lay, shape, in_round, name)


def _found(lay: Layout, shape: Layout, in_round: bool, name: str, apart: bool = False) -> list:
    """apart: only stretches with no like stitch before or behind, so that "2 dc, ch 2, 3 dc" holds none of (2 dc, ch 2, 2 dc)."""
    n, length, run = lay.n, shape.n, shape.plain
    found, at = [], 0
    if in_round and not run:  # cut by the start of the round: the part with its space stands for it
        for cut in range(1, length):
            if _same(lay, shape, n - cut) and not (apart and _goes_on(lay, shape, n - cut, in_round)):
                if CHAINS in lay.kind[:length - cut]:
                    found.append((0, length - cut, name))
                    at = length - cut
                break
    while at < n and (at + length <= n or in_round and not run):
        if _same(lay, shape, at) and not ((run or apart) and _goes_on(lay, shape, at, in_round)):
            if at + length <= n or not found or found[0][0]:
                found.append((at, min(at + length, n), name))
            at += length
        else:
            at += 1
    return [group for group in found if run or CHAINS in lay.kind[group[0]:group[1]]]


def _same(lay: Layout, shape: Layout, at: int) -> bool:
    return all(lay.kind[(at + i) % lay.n] == shape.kind[i] and (shape.kind[i] != CHAINS or lay.size[(at + i) % lay.n] == shape.size[i]) for i in range(shape.n))


def _goes_on(lay: Layout, shape: Layout, at: int, in_round: bool = False) -> bool:
    """Whether stitches of the same kind stand before or behind: then it is no telling where a group would begin."""
    before, behind = at - 1, at + shape.n
    if in_round and not shape.plain:  # the end of the round stands before its beginning
        return lay.kind[before] == shape.kind[0] or lay.kind[behind % lay.n] == shape.kind[-1]
    return before >= 0 and lay.kind[before] == shape.kind[0] or behind < lay.n and lay.kind[behind] == shape.kind[-1]


def passed_whole(lay: Layout, steps) -> bool:
    """Whether the row goes from group to group and takes between them just the stitches that stand there: "*ch 1, dc in next dc, ch 1, shell in next shell"."""
    if lay.plain or len(lay.groups) < 2:
        return False
    for step in steps:
        if isinstance(step, Repeat) and step.extent is not None and step.extent.kind == "end":
            taken = groups = 0
            for part in _one_by_one(step.steps):
                place = getattr(part, "place", None)
                if isinstance(part, (Stitch, Group)) and place is not None and place.which == "next" and place.of == "group" and place.part in ("", "sp", "center") and place.n == 1:
                    groups += 1
                elif isinstance(part, (Stitch, Skip)) and place is not None and place.which in ("next", "last") and place.of not in ("sp", "corner", "gap", "ch") and place.extent is None and isinstance(place.n, int):
                    taken += place.n
                elif not isinstance(part, Chain) and not (isinstance(part, Stitch) and place is not None and place.of == "sp"):
                    return False
            if groups == 1:
                return all(lay.rank(after[0]) - lay.rank(group[1]) == taken for group, after in zip(lay.groups, lay.groups[1:]))
    return False


def _one_by_one(steps):
    """The steps with those of "(tr in next tr, ch 1) 9 times" written out."""
    for step in steps:
        if isinstance(step, Repeat) and step.extent is None and isinstance(step.times, int) and step.sense == "total" and step.times < 100:
            for _ in range(step.times):
                yield from step.steps
        elif not isinstance(step, Note):
            yield step
