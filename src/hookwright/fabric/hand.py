"""The hook at work on one row of one size: where it stands on the row below, and what it has made so far."""

from hookwright.ground import NOWHERE, at

from . import kinds
from .kinds import CHAINS
from .layout import Layout
from .worked import (
    FLAG_CORNER,
    FLAG_COUNTS,
    FLAG_GROUP,
    FLAG_JOIN,
    FLAG_TURNING,
    FOOT_NONE,
    FOOT_RING,
    Assumption,
    Trouble,
)


class Stuck(Exception):
    """The row can't go on as written; carries the Trouble. Raised and caught inside the worker only."""

    def __init__(self, trouble: Trouble):
        super().__init__(trouble.kind)
        self.trouble = trouble


class TooMuch(Exception):
    """The work asked for passes the limit; refused in words before it is done."""

    def __init__(self, wanted: int, span=NOWHERE):
        super().__init__(wanted)
        self.wanted = wanted
        self.span = span


class Hand:
    """State of one row being worked.

    cur: cell of the layout the hook stands before; sub: chains of that cell's space already worked into one by one.
    here: (cell, place kind) last worked into; begin: cell in which the row began; bare_in: cell that stitches
    without a place go into (a space the row began in), or None. inside: cell of the group being worked.
    """

    __slots__ = ("lay", "size", "cur", "sub", "here", "begin", "bare_in", "inside", "skipped", "kind", "foot", "chains",
                 "flags", "feet", "loops", "groups", "colours", "troubles", "assumed", "choices", "asked", "settings",
                 "in_round", "base", "limit", "span", "passed", "longest_pass", "last_skip", "tail_left", "left_said",
                 "turned_at_end", "joined_at_end", "carried", "done", "marks", "row_loop", "other_side", "start_kind",
                 "starting", "memory", "budget", "far", "left_cells", "tch_on", "level", "used", "sequence", "spaces_worked", "settled")

    def __init__(self, lay: Layout, size: int, settings, *, in_round=False, base="sc", choices=None, limit=2_000_000):
        self.lay = lay
        self.size = size
        self.settings = settings
        self.in_round = in_round
        self.base = base
        self.choices = choices or {}
        self.asked = {}
        self.limit = limit
        self.cur = self.sub = 0
        self.here = None
        self.begin = 0
        self.bare_in = None
        self.inside = None
        self.skipped = []
        self.kind, self.foot, self.chains, self.flags = [], [], [], []
        self.feet, self.loops, self.groups = {}, {}, {}
        self.colours = []
        self.troubles, self.assumed = [], []
        self.span = NOWHERE
        self.passed = 0  # stitches passed over silently though nothing said so
        self.longest_pass = 0  # the longest run passed silently on the way to a space or a named stitch
        self.last_skip = 0  # stitches last skipped in so many words
        self.tail_left = 0
        self.left_said = False
        self.turned_at_end = self.joined_at_end = False
        self.carried = None
        self.done = False
        self.marks = {}
        self.row_loop = ""
        self.other_side = None
        self.start_kind = None
        self.starting = True
        self.memory = {}
        self.budget = [3 * limit]  # steps that may yet be worked; shared by all rows of a pattern
        self.far = {}
        self.left_cells = []  # layouts of stitches left in the middle of the row, to be rejoined
        self.tch_on = None
        self.level = 0
        self.used = None
        self.sequence = None
        self.spaces_worked = False
        self.settled = 0

    def change(self, lay: Layout, cur: int = 0):
        """Goes on over other places: what was made so far is settled on the ones it was worked into."""
        self.settle()
        self.lay, self.cur, self.sub = lay, cur, 0

    def settle(self):
        """Turns cells into indexes of the row below's columns for all that was made since the last settling."""
        item, far = self.lay.item, self.lay.far
        if far:
            for index in range(self.settled, len(self.foot)):
                if self.foot[index] in far:
                    self.far[index] = far[self.foot[index]]
        if item is not None:
            start = self.settled
            self.foot[start:] = [item[cell] if cell >= 0 else cell for cell in self.foot[start:]]
            for index, places in self.feet.items():
                if index >= self.settled:
                    self.feet[index] = tuple(item[place] if place >= 0 else place for place in places)
        self.settled = len(self.foot)

    # ------------------------------------------------------------ numbers and choices

    def number(self, value, default=1):
        """The value for this size; None (the size skips it) stays None."""
        if value is None:
            return default
        return value if type(value) is int else at(value, self.size)

    def choose(self, key, count: int, cost: int = 1, words: str = "", span=NOWHERE) -> int:
        """Which of `count` readings to take here: 0 unless another was asked for. Every asking is remembered."""
        if key not in self.asked:
            self.asked[key] = (count, cost, words, span)
        return self.choices.get(key, 0)

    def assume(self, kind: str, words: str, cost: int = 1, evidence: str = ""):
        self.assumed.append(Assumption(kind, words, self.span, cost, evidence))

    def stuck(self, trouble: str, **facts):
        raise Stuck(Trouble(trouble, self.span, facts))

    # ------------------------------------------------------------ going back

    def snapshot(self):
        return (self.cur, self.sub, self.here, self.bare_in, self.inside, len(self.kind), len(self.troubles),
                len(self.assumed), self.passed, self.longest_pass, self.last_skip, self.left_said, self.lay,
                list(self.skipped), self.begin, len(self.colours), self.done, self.other_side, self.starting, self.tch_on,
                self.joined_at_end, self.spaces_worked, self.memory.get("detour"), self.memory.get("folded"), len(self.left_cells))

    def restore(self, snap):
        (self.cur, self.sub, self.here, self.bare_in, self.inside, made, troubles, assumed, self.passed,
         self.longest_pass, self.last_skip, self.left_said, self.lay, skipped, self.begin, colours, self.done,
         self.other_side, self.starting, self.tch_on, self.joined_at_end, self.spaces_worked, detour, folded, left_cells) = snap
        for name, value in (("detour", detour), ("folded", folded)):
            if value is None:
                self.memory.pop(name, None)
            else:
                self.memory[name] = value
        del self.left_cells[left_cells:]
        self.skipped = list(skipped)
        self.settled = min(self.settled, made)
        self.unmake(made)
        del self.troubles[troubles:], self.assumed[assumed:], self.colours[colours:]
        for columns in (self.feet, self.loops, self.groups):
            for index in [i for i in columns if i >= made]:
                del columns[index]

    def unmake(self, start: int):
        """Takes out of the columns what was made from index `start` on."""
        del self.kind[start:], self.foot[start:], self.chains[start:], self.flags[start:]

    def tiled(self, ends, passes: int):
        """Told of `passes` passes laid at one go, whose steps end at `ends` [(index within a pass, span)]: for a hand that keeps such things."""

    def freeze(self):
        """All that was made so far, so that `thaw` can go back to any snapshot up to here, again and again."""
        return (list(self.kind), list(self.foot), list(self.chains), list(self.flags), dict(self.feet), dict(self.loops),
                dict(self.groups), list(self.colours), list(self.troubles), list(self.assumed), self.settled)

    def thaw(self, frozen, snap):
        """Back to `snap`, taken at or before `frozen`."""
        (self.kind, self.foot, self.chains, self.flags, self.feet, self.loops, self.groups, self.colours, self.troubles,
         self.assumed, self.settled) = (part.copy() if hasattr(part, "copy") else part for part in frozen)
        self.restore(snap)

    # ------------------------------------------------------------ making

    def room(self, more: int):
        """Refuses in words what would pass the limit."""
        if len(self.kind) + more > self.limit:
            raise TooMuch(len(self.kind) + more, self.span)

    def make(self, kind: str, cell: int, flags: int = FLAG_COUNTS, loop: str = ""):
        """One stitch of `kind` into `cell` (or FOOT_*)."""
        if loop:
            self.loops[len(self.kind)] = loop
        self.kind.append(kinds.number(kind))
        self.foot.append(cell)
        self.chains.append(0)
        self.flags.append(flags if kinds.counted(kind) else flags & ~FLAG_COUNTS)

    def make_run(self, kind: str, first: int, count: int, loop: str = ""):
        """`count` stitches, one in each of the cells first, first+1 ..."""
        self.room(count)
        start = len(self.kind)
        if loop:
            for index in range(start, start + count):
                self.loops[index] = loop
        self.kind.extend([kinds.number(kind)] * count)
        self.foot.extend(range(first, first + count))
        self.chains.extend([0] * count)
        self.flags.extend([FLAG_COUNTS if kinds.counted(kind) else 0] * count)

    def make_into(self, kind: str, cell: int, count: int, loop: str = ""):
        """`count` stitches all into one place."""
        self.room(count)
        start = len(self.kind)
        if loop:
            for index in range(start, start + count):
                self.loops[index] = loop
        counts = FLAG_COUNTS if kinds.counted(kind) else 0
        shares = counts | FLAG_GROUP
        first = shares if start and self.foot[start - 1] == cell and cell >= 0 and not self.flags[start - 1] & FLAG_TURNING else counts
        self.kind.extend([kinds.number(kind)] * count)
        self.foot.extend([cell] * count)
        self.chains.extend([0] * count)
        if count:
            self.flags.append(first)
            self.flags.extend([shares] * (count - 1))

    def make_chains(self, count: int, flags: int = 0):
        """A run of chains."""
        if count <= 0:
            return
        if self.kind and self.kind[-1] == CHAINS and not flags and not self.flags[-1] & FLAG_TURNING:
            self.chains[-1] = min(65535, self.chains[-1] + count)
            return
        self.kind.append(CHAINS)
        self.foot.append(FOOT_NONE)
        self.chains.append(min(65535, count))
        self.flags.append(flags | (FLAG_CORNER if self.inside is not None and self.level == 1 and self.lay.ring is False
                                   and self.in_round and self.inside >= 0 and not flags else 0))

    def into(self) -> int:
        """The foot of what goes into the ring or nothing."""
        return FOOT_RING if self.lay.ring else FOOT_NONE

    def kind_made(self) -> bool:
        """Whether anything but travelling was made in this row."""
        return any(not flag & FLAG_JOIN for flag in self.flags)

    def stitches_made(self) -> bool:
        """Whether any stitch was made in this row."""
        return any(flag & FLAG_COUNTS for flag in self.flags)

    # ------------------------------------------------------------ where the hook stands

    def left(self) -> int:
        """Stitches of the row below from the hook to the end."""
        lay = self.lay
        if lay.plain:
            return lay.n - self.cur
        return lay.left(self.cur)

    def at_end(self) -> bool:
        return self.lay.ring or self.left() <= 0
