"""How many stitches of each kind a size has in each colour, pieces made twice counted twice.

Counted row by row from what working the rows has counted already, so that nothing is gone through stitch by stitch but rows that change
colour on their way.
"""

from collections import Counter, defaultdict
from itertools import compress

from hookwright.fabric import FLAG_COUNTS, KIND_NAMES, plain_of
from hookwright.ground import at
from hookwright.notation.tree import Group, Repeat, Row, Stitch

from .lengths import GATHERED

CHAIN = "ch"
_UNCOUNTED = bytes(not byte & FLAG_COUNTS for byte in range(256))


class Amount:
    """Of one size: colour -> Counter of kinds (chains under "ch"), and colour -> how often its yarn is begun. `whole` is all colours together.

    rows: plain kind that most of a row is made of -> number of such rows.
    """

    __slots__ = ("begun", "kinds", "rows")

    def __init__(self):
        self.kinds: dict = defaultdict(Counter)
        self.begun: Counter = Counter()
        self.rows: Counter = Counter()

    @property
    def whole(self) -> Counter:
        out: Counter = Counter()
        for kinds in self.kinds.values():
            out.update(kinds)
        return out


def amount_of(fabric, pattern, size: int, colours: dict, memo: dict) -> Amount:
    """The stitches of one size. colours: names and letters in small letters -> letter; a colour of none of them is "" (unknown).

    memo: kept between the sizes, which share rows; it goes by their places in memory, so it is good while the fabrics are there.
    """
    makes = {piece.name: at(piece.make, size) or 1 for piece in pattern.pieces if piece.make is not None}
    main = next(iter(colours.values()), "")
    made, times, now, rows = Amount(), [], main, fabric.rows
    alike: dict = {}  # whole rows of the same columns, colour and times -> [how many, one of them]
    skips_given = pattern.head is None
    for row in rows:
        below = row.below
        often = makes.get(row.piece, 1) if below < 0 or makes else 1
        if makes and below >= 0:
            often = _times(row, rows[below], often, times[below])
        times.append(often)
        if skips_given and row.row is None:
            continue
        if below < 0:
            now = main
            if not (row.colours and row.colours[0][0] == 0):
                made.begun[now] += often
        start = 0
        if row.colours:
            for index, name in row.colours:
                if index > start:
                    _add(made.kinds[now], _counted(row, memo, start, index), often)
                start, before = max(index, start), now
                now = colours.get(name.lower(), "") if colours else ""
                if now != before or below < 0:
                    made.begun[now] += often
        if start:
            if start < len(row.kind):
                _add(made.kinds[now], _counted(row, memo, start), often)
            continue
        key = (id(row.kind), now, often)
        found = alike.get(key)
        if found is None:
            alike[key] = [1, row]
        else:
            found[0] += 1
    for (_, colour, often), (number, row) in alike.items():
        if len(row.kind):
            _add(made.kinds[colour], _counted(row, memo, 0), often * number)
        if row.has_height and row.by_kind:
            made.rows[plain_of(max(row.by_kind, key=row.by_kind.get))] += number
    return made


def _times(row, below, own: int, of_below: int) -> int:
    """How often a row is worked: as often as its piece is made, or the piece that it goes on from."""
    joined = "leg" in below.piece.lower() and row.foot and max(row.foot) >= len(below.kind)  # a body that stands on both legs made before
    return own if joined else max(own, of_below)


def _counted(row, memo: dict, start: int, end: int | None = None) -> dict:
    """Kinds and numbers of a stretch of the row; rows that share their columns are counted once."""
    key = (id(row.kind), start, end)
    found = memo.get(key)
    if found is None:
        if start == 0 and (end is None or end == len(row.kind)):
            found = dict(row.by_kind)
            if row.stitches != len(row.kind):
                rest = Counter(compress(row.kind, row.flags.tobytes().translate(_UNCOUNTED)))
                for kind, number in rest.items():
                    found[KIND_NAMES[kind]] = found.get(KIND_NAMES[kind], 0) + number
        else:
            found = {KIND_NAMES[kind]: number for kind, number in Counter(row.kind[start:end]).items()}
        found.pop("foundation ch", None)  # these are among the chains of the row
        chains = sum(row.chains[start:end] if start or end is not None else row.chains)
        if chains:
            found[CHAIN] = chains
        else:
            found.pop(CHAIN, None)
        memo[key] = found
    return found


def _add(total: Counter, counted: dict, often: int) -> None:
    for kind, number in counted.items():
        total[kind] += number * often


def legs_of(pattern) -> dict[str, tuple[float, str]]:
    """kind -> (legs, their stitch) of clusters, bobbles, puffs and popcorns, as the pattern makes them; on average where there are several."""
    said = defaultdict(list)
    own = [list(stitch.steps) for stitch in pattern.own.values() if stitch.steps]
    for steps in [*own, *(item.steps for piece in pattern.pieces for item in piece.items if isinstance(item, Row) and item.steps)]:
        stack = list(steps)
        while stack:
            step = stack.pop()
            if type(step) in (Group, Repeat):
                stack.extend(step.steps)
                stack.extend(getattr(step, "ending", None) or ())
            elif type(step) is Stitch and step.legs and step.kind in (*GATHERED, "popcorn"):
                said[step.kind].append((step.legs, step.base))
    out = {}
    for kind, all_legs in said.items():
        bases = Counter(base for _, base in all_legs if base)
        base = bases.most_common(1)[0][0] if bases else "hdc" if kind == "puff" else "dc"
        out[kind] = (sum(legs for legs, _ in all_legs) / len(all_legs), base)
    return out
