"""Works a whole pattern: conventions that are not said are inferred from its counts, then held for all of it."""

from dataclasses import dataclass, field

from hookwright.ground import NOWHERE, at
from hookwright.notation.tree import Chain, Either

from . import kinds
from .choosing import hard
from .sequence import LIMIT, Sequence
from .settings import Settings
from .starting import BEFORE, first_stitch
from .statement import layout_from
from .worked import Assumption

ROUNDS = 6  # at most so many times is the pattern worked anew with another convention


@dataclass(slots=True)
class Convened:
    """A convention taken: what it says in words, how many rows with a stated count agree and how many don't."""

    key: tuple
    option: int
    words: str
    agree: int = 0
    against: int = 0
    span: object = NOWHERE

    @property
    def counts(self) -> bool | None:
        """For a turning or skipped chain: whether it counts as a stitch under the option taken."""
        if self.key[0] not in ("tch", "skipped"):
            return None
        chains, kind = self.key[1], self.key[2]
        height, habit = kinds.turning(kind)
        if self.key[0] == "tch" and kinds.height(kind) <= 1:
            return bool(self.option)
        by_custom = habit == "yes" if chains == height else chains > height
        return by_custom != bool(self.option)

    def says(self, abbreviation=str) -> str:
        """The convention in words; "" where custom was followed and nothing is to be said. abbreviation: id -> word of the dialect."""
        what = self.key[0]
        if what in ("tch", "skipped"):
            chain = f"ch {self.key[1]} at the start of a row" if what == "tch" else "the skipped chain" if self.key[1] == 1 else f"the {self.key[1]} skipped chains"
            kind = abbreviation(self.key[2])
            several = what == "skipped" and self.key[1] != 1
            return f"{chain} {'count' if several else 'counts'} as {kind}" if self.counts else f"{chain} {'do' if several else 'does'} not count before {kind}"
        return self.words if self.option else ""


@dataclass(slots=True)
class Work:
    """A worked pattern: one Fabric per size, conventions taken, troubles of ranges and references, work refused."""

    fabrics: list
    settings: Settings
    conventions: list = field(default_factory=list)
    row_troubles: list = field(default_factory=list)
    too_much: tuple | None = None
    book: object = None
    standing: dict = field(default_factory=dict)  # id of a written row -> {size index: Layout} for sizes that work none of it
    choices: dict = field(default_factory=dict)  # id of a written row -> readings taken in it
    limit: int = LIMIT


def work_pattern(pattern, *, below=None, in_round=False, sizes=None, limit=LIMIT, row_height_mm=None, record=None) -> Work:
    """Works every row in every size under one set of conventions, the one under which most rows hold.

    Where a stated row below was laid under a last row that refers back, and the counts do not come out so, it is laid under the first; so, too,
    where the rows before the last come out over it by their own counts. Where they don't, and what was given has the very count that the last of
    them states, it is taken for that row as it was worked.
    """
    score, refers, made = _worked(pattern, below, in_round, sizes, limit, row_height_mm, True, record)
    if not refers and below is not None and _stated_just_before(pattern, made, below):
        other, refers, under_last = _worked(pattern, below, in_round, sizes, limit, row_height_mm, "all", record)
        if other:
            return made
        made = under_last
    elif refers:
        other, _, under_all = _worked(pattern, below, in_round, sizes, limit, row_height_mm, False, record)
        if other < score or _earlier_rows_hold(pattern, under_all):
            return under_all
    if refers:
        for fabric in made.fabrics:
            if fabric.rows:
                first = fabric.rows[0]
                first.assumed = [*first.assumed, Assumption("fragment", "it lies on the row below that was given; the rows before it are only what it refers to", first.row.span if first.row is not None else NOWHERE)]
    return made


def _stated_just_before(pattern, work, below) -> bool:
    """Whether the rows before the last do not come out over the row below that was given, and it has as many stitches as the last of them states."""
    rows = [row for _, row in pattern.rows()]
    if len(rows) < 2 or rows[-1].again is not None or not rows[-2].stated:
        return False
    said = rows[-2].stated[-1].items[0][0]
    for size, fabric in enumerate(work.fabrics):
        early = [worked for worked in fabric.rows if worked.row is not None and worked.row is not rows[-1]]
        if not early or early[-1].stitches == at(said, size) or at(said, size) != layout_from(below, size).stitches:
            return False
    return bool(work.fabrics)


def _earlier_rows_hold(pattern, work) -> bool:
    """Whether all rows before the last come out over the row below that was given, and at least two of them state a count: one alone may be chance."""
    rows = [row for _, row in pattern.rows()]
    last = rows[-1]
    early = [worked for fabric in work.fabrics for worked in fabric.rows if worked.row is not None and worked.row is not last]
    return sum(bool(row.stated) for row in rows[:-1]) > 1 and bool(early) and not hard(early)


def _worked(pattern, below, in_round, sizes, limit, row_height_mm, refers, record):
    """(troubles, whether rows were only referred to, Work); refers: rows before a last row that refers back may be only what it refers to."""
    sizes = tuple(sizes if sizes is not None else pattern.sizes) or ("1",)
    settings = Settings(list(pattern.conventions))
    for steps in [below or [], *(row.steps for _, row in pattern.rows())]:
        _said_in_row(steps, settings)
    taken, best = {}, None
    tried = set()
    locked = set()
    budget = [3 * limit]
    for _ in range(ROUNDS):
        settings.taken = dict(taken)
        sequence = Sequence(pattern, settings, below=below, in_round=in_round, sizes=sizes, limit=limit, row_height_mm=row_height_mm, refers=refers,
                            record=record)
        sequence.locked, sequence.budget = locked, budget
        sequence.go()
        if sequence.restart:
            mark = frozenset(settings.taken.items())
            if mark in tried:
                locked |= set(settings.taken)
                sequence.undecided_used = set()
                taken = dict(settings.taken)
                tried.add(mark)
                continue
            tried.add(mark)
            taken = dict(settings.taken)
            continue
        score = sum(hard(thread.fabric.rows) for thread in sequence.threads)
        if best is None or score < best[0]:
            best = (score, sequence, dict(settings.taken))
        turn = [key for key, votes in sequence.conflict.items() if votes > sequence.agree.get(key, [0])[0] and key not in locked]
        if not score or not turn:
            break
        key = max(turn, key=lambda k: sequence.conflict[k])
        locked.add(key)
        taken = {**settings.taken, key: 1 - settings.taken.get(key, 0)}
    if best is None:  # restarted to the end: take it as it stands
        settings.taken = taken
        sequence = Sequence(pattern, settings, below=below, in_round=in_round, sizes=sizes, limit=limit, row_height_mm=row_height_mm, refers=refers,
                            record=record)
        sequence.locked = set(taken)
        sequence.go()
        sequence.restart = False
        best = (0, sequence, dict(settings.taken))
    score, sequence, taken = best
    settings.taken = taken
    work = Work([thread.fabric for thread in sequence.threads], settings, _convened(sequence, taken), sequence.row_troubles,
                sequence.too_much, sequence.book, sequence.standing, sequence.choices, limit)
    return score, bool(sequence.reference_only), work


def _said_in_row(steps, settings):
    """What a row, or the row below a fragment, says of its own chain holds for the same chain in rows that say nothing."""
    for index, step in enumerate(steps):
        if isinstance(step, Either):
            continue
        if isinstance(step, Chain):
            if step.says is not None:
                first = first_stitch(steps, index + 1)
                kind = step.says.kind or (kinds.plain_of(first.kind) if first is not None else "sc")
                if isinstance(step.n, int):
                    settings.onward.setdefault((step.n, kind), step.says)
                    if step.says.onward:
                        settings.by_n.setdefault(step.n, step.says)
            break
        if not isinstance(step, BEFORE):
            break


def _convened(sequence, taken):
    out = []
    for key, (_, _, words, span) in sequence.asked.items():
        agree, against = sequence.agree.get(key, (0, 0))
        out.append(Convened(key, taken.get(key, 0), words, agree, against, span))
    return out
