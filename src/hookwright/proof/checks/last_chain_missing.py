"""The last chain before the join is missing.

All groups of a round stand apart by a chain, and the last one is joined to the first without. Mostly the chain after the last group was
forgotten; the motif then has one corner or one gap fewer than it should.

With it::

    Ch 4, join with sl st to form a ring.
    Rnd 1: Ch 3 (counts as dc), 2 dc in ring, [ch 2, 3 dc in ring] 3 times, join with sl st to top of ch 3.

Without it::

    Ch 4, join with sl st to form a ring.
    Rnd 1: Ch 3 (counts as dc), 2 dc in ring, [ch 2, 3 dc in ring] 3 times, ch 2, join with sl st to top of ch 3.

Working::

    4 groups in a round have 4 gaps between them; 3 chains are made

What to do: add the chain before the join. A round that begins in the middle of a side has a short group at each end, and is not reported.
"""

from hookwright.fabric import CHAINS, FLAG_COUNTS, FLAG_JOIN, FLAG_TURNING
from hookwright.ground import LOOK, Finding, Suggestion
from hookwright.notation.tree import Join

from ..case import Case
from ..wording import count

KIND = "last-chain-missing"
_ENOUGH = 4  # groups: with fewer it can't be seen what is usual


def find(case: Case):
    joined = {id(seen.row): (seen, join) for seen, join in case.nodes(Join)}
    told: dict[int, tuple] = {}
    for size, fabric in enumerate(case.fabrics):
        for worked in fabric.rows:
            if not worked.in_round or id(worked.row) not in joined or len(worked.spaces) < _ENOUGH - 1 or worked.troubles:
                continue
            spaces = set(worked.spaces)
            runs = _runs(worked)
            if len(spaces) == 1 and len(runs) >= _ENOUGH and len(set(runs)) == 1 and len(runs) == len(worked.spaces) + 1:
                told.setdefault(id(worked.row), (worked, runs, spaces.pop(), set()))[-1].add(size)
    for key, (_, runs, chains, sizes) in told.items():
        seen, join = joined[key]
        yield Finding(
            KIND,
            LOOK,
            case.says(
                sizes,
                f"{seen.name} makes {count(len(runs), 'group')} and {count(len(runs) - 1, f'ch-{chains} space')}:",
                "the last group is joined to the first without a chain",
            ),
            join.span if join.span.end else seen.row.span,
            seen.name,
            case.size_names(sizes),
            expected=len(runs),
            found=len(runs) - 1,
            whose="the groups of the round",
            suggestions=(
                Suggestion(f"add `ch {chains}` before the join", "likely", effect=f"{len(runs)} groups and {count(len(runs), f'ch-{chains} space')}"),
            ),
        )


def _runs(worked) -> list[int]:
    """Stitches between chain spaces, from the first stitch to the join; [] where the round does not both begin and end with a stitch."""
    runs, inside = [], False
    last_is_stitch = False
    for kind, flags in zip(worked.kind, worked.flags, strict=False):
        if flags & FLAG_COUNTS:
            if not inside:
                runs.append(0)
            runs[-1] += 1
            inside = last_is_stitch = True
        elif kind == CHAINS and not flags & (FLAG_TURNING | FLAG_JOIN):
            if not runs:
                return []
            inside = last_is_stitch = False
    return runs if last_is_stitch else []
