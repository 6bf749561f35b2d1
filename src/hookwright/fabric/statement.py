"""The row below stated in words: "ch 3 (counts as dc), 19 dc", as places."""

from hookwright.ground import at
from hookwright.notation.tree import Chain, Group, Repeat, Ring, Stitch

from . import kinds, layout
from .kinds import CHAINS, FOUNDATION, ROW_END


def layout_from(steps, size: int) -> layout.Layout:
    """The stated row as a Layout in the order it was worked; raises nothing (what says nothing is left out)."""
    kind, chains, groups, tops, corners = [], [], [], [], []
    if any(isinstance(step, Ring) for step in steps):
        return layout.ring()
    _add(steps, size, kind, chains, groups, tops, corners, False)
    length = max((chains[c] for c in corners), default=0)
    return layout.Layout(kind, chains, None, groups,
                         [i for i, k in enumerate(kind) if k == CHAINS and chains[i] == length] if corners else (), tops)


def stated_below(steps, size: int) -> tuple[dict, list[int]]:
    """(stitches by kind, chains of each space) of a stated row, as they are counted in a worked one."""
    lay = layout_from(steps, size)
    by_kind: dict[str, int] = {}
    for kind in lay.kind:
        if kind != CHAINS:
            by_kind[kinds.NAMES[kind]] = by_kind.get(kinds.NAMES[kind], 0) + 1
    return by_kind, [length for kind, length in zip(lay.kind, lay.size) if kind == CHAINS]


def _add(steps, size, kind, chains, groups, tops, corners, inside):
    for step in steps:
        if isinstance(step, Stitch):
            count = at(step.n, size) or 0
            if step.place is not None and step.place.n not in (None, 1) and step.place.which == "next":
                count *= at(step.place.n, size) or 1
            number = ROW_END if step.kind == "row end" else kinds.number(step.kind)
            if step.place is not None and not inside and step.kind != "row end" and step.place.which in ("next", "same") and step.place.of == "st" and step.place.extent is None:
                each = at(step.n, size) or 0  # "3 sc in one st"
                if 1 < each <= 60:
                    groups.extend((start, start + each, "") for start in range(len(kind), len(kind) + min(count, 2_000_000), each))
            kind.extend([number] * min(count, 2_000_000))
            chains.extend([0] * min(count, 2_000_000))
        elif isinstance(step, Chain):
            count = at(step.n, size) or 0
            if step.role == "foundation":
                kind.extend([FOUNDATION] * min(count, 2_000_000))
                chains.extend([0] * min(count, 2_000_000))
            elif step.says is not None and step.says.counts:
                tops.append(len(kind))
                kind.append(kinds.number(step.says.kind or "dc"))
                chains.append(count - step.says.chains)
                if step.says.chains:
                    kind.append(CHAINS)
                    chains.append(step.says.chains)
            elif step.says is None and count:
                if inside:
                    corners.append(len(kind))
                kind.append(CHAINS)
                chains.append(count)
        elif isinstance(step, Repeat):
            times = at(step.times, size) if step.times is not None else 1
            for _ in range(min((times or 0) + (step.sense == "more"), 100_000)):
                if len(kind) > 2_000_000:
                    break
                _add(step.steps, size, kind, chains, groups, tops, corners, inside)
        elif isinstance(step, Group):
            start = len(kind)
            _add(step.steps, size, kind, chains, groups, tops, corners, True)
            if len(kind) - start > 1:
                groups.append((start, len(kind), step.name))
