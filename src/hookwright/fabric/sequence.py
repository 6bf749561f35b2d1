"""The whole pattern row by row in every size: what lies below each row, which side faces, what is held over."""

from array import array
from dataclasses import replace

from hookwright.ground import NOWHERE, PerSize, at
from hookwright.notation.tree import (
    Chain,
    Each,
    Either,
    Extent,
    Go,
    Group,
    Join,
    JoinYarn,
    Leave,
    NoJoin,
    Place,
    Repeat,
    Ring,
    Row,
    Skip,
    Stitch,
    Turn,
    Unread,
)

from . import kinds, layout
from .amount import amount
from .choosing import assumptions, hard, pattern_wide, settle
from .counting import compare
from .hand import Hand, TooMuch
from .kinds import FOUNDATION
from .ranges import plan
from .rowwork import layout_of, work
from .starting import BEFORE, first_stitch
from .worked import FLAG_TURNING, FOOT_NONE, Assumption, Fabric, Trouble, WorkedRow

LIMIT = 2_000_000


class Thread:
    """One size on its way through the pattern."""

    __slots__ = ("fabric", "lay", "last", "side", "carried", "in_round", "rests", "piece_start", "numbers", "turned_end")

    def __init__(self, size):
        self.fabric = Fabric(size, kinds.NAMES)
        self.lay = None  # Layout of the last row in the order it was worked; None at the start of a piece
        self.last = -1
        self.side = ""
        self.carried = None
        self.in_round = None
        self.rests = []  # layouts of stitches left unworked, to be rejoined
        self.piece_start = 0
        self.turned_end = False


class Book:
    """The written rows so far, for those that refer back."""

    def __init__(self, sequence):
        self.sequence = sequence
        self.by_number = {}
        self.order = []  # source rows in working order (one entry a written row or worked row of a range)
        self.last_number = None
        self.cycle_numbers = ()
        self.named = {}

    def new_piece(self):
        self.order = []
        self.last_number = None

    def write(self, row: Row, numbers):
        for number in numbers:
            self.by_number[number] = row

    def sources(self, again, numbers):
        """Rows with steps of their own that a reference means, in order; empty where there are none."""
        if again.even:
            last = self.latest(1)
            return [self.sequence.even_row(last[0])] if last else []
        found = []
        for number in again.rows:
            row = self.by_number.get(number)
            if row is not None and not (number in numbers and row.again is not None):
                found.append(row)
        if again.rows and len(found) == len(again.rows):
            self.cycle_numbers = tuple(again.rows)
            return found
        if again.rows:
            return found if found else []
        for name in again.named:
            row = self.named.get(name.lower())
            if row is not None:
                found.append(row)
        if found:
            return found
        if again.same_manner:
            return self.latest(max(1, again.last or 1))
        return self.latest(max(1, again.last or 1))

    def latest(self, count):
        return self.order[-count:] if self.order else []

    def worked(self, again) -> bool:
        return all(number in self.by_number for number in again.rows)

    def next_in_cycle(self, again):
        return again.rows[0] if again.rows else None

    def rows_so_far(self, size) -> int:
        thread = self.sequence.threads[size]
        return sum(1 for row in thread.fabric.rows[thread.piece_start:] if row.row is not None)

    def rows_to_measure(self, again, size):
        return self.sequence.rows_to_measure(again.until, size)

    def parity_for(self, side):
        return None


class Sequence:
    """Works a Pattern. After `go`, threads hold the fabrics; marks of the pattern: `agree`, `conflict` per convention."""

    def __init__(self, pattern, settings, *, below=None, in_round=False, sizes=("1",), limit=LIMIT, row_height_mm=None,
                 counts=True, cycles=None):
        self.pattern = pattern
        self.settings = settings
        self.sizes = tuple(sizes)
        self.below = below  # steps of the stated row below
        self.in_round = in_round
        self.limit = limit
        self.row_height_mm = row_height_mm
        self.threads = [Thread(size) for size in self.sizes]
        self.book = Book(self)
        self.asked, self.agree, self.conflict = {}, {}, {}
        self.memo = {}
        self.made = 0
        self.restart = False
        self.row_troubles = []  # (row, size indexes, kind, facts): about ranges and references
        self.current = None
        self.too_much = None
        self.sources = {}
        self.reference_only = set()
        self.undecided_used, self.locked = set(), set()
        self.budget = [3 * limit]
        self.choices = {}
        self.pending = []
        self.stand_ins = {}  # id of a row worked with steps of the line before it -> the row as written
        self.counts = counts  # False: stated counts are left out (for deriving multiples)
        self.stop_at_trouble = self.stopped = False
        self.cycles = cycles  # at most so many rows of a range are worked, None all

    # ------------------------------------------------------------ the way through

    def go(self):
        """Works every row of every size; raises nothing (what can't be done is kept as troubles)."""
        rows = list(self.pattern.rows())
        self._reference_rows(rows)
        first = True
        piece_before = None
        try:
            for piece, row in rows:
                if id(row) in self.reference_only:
                    self.book.write(row, row.numbers)
                    self.book.order.append(row)
                    if row.name:
                        self.book.named[row.name.lower()] = row
                    continue
                if piece is not piece_before:
                    self._piece(piece, row, first)
                    piece_before = piece
                self._written(piece, row, first)
                first = False
                if self.restart or self.stopped:
                    return
        except TooMuch as problem:
            self.too_much = (problem.wanted, problem.span if problem.span != NOWHERE else (self.current.span if self.current else NOWHERE))
        except RecursionError:
            self.too_much = (self.limit + 1, self.current.span if self.current else NOWHERE)

    def _reference_rows(self, rows):
        """With a stated row below and a last row that refers back, the rows before it are only what it refers to."""
        if self.below is None or len(rows) < 2:
            return
        last = rows[-1][1]
        if last.again is None and not _goes_on(last.steps):
            return
        for _, row in rows[:-1]:
            if row.again is None:
                self.reference_only.add(id(row))

    def _piece(self, piece, row, first):
        if first and self.below is not None:
            return
        if not first:
            self.book.new_piece()
        fresh = _starts_fresh(row)
        for thread in self.threads:
            thread.piece_start = len(thread.fabric.rows)
            if fresh or thread.lay is None:
                thread.lay, thread.last, thread.side, thread.carried = None, -1, "", None
                thread.in_round = None

    def _written(self, piece, row: Row, first):
        self.current = row
        if row.again is None and not _works(row.steps):
            self._aside(row)
            return
        row = self._with_pending(row)
        asks = amount(row.steps, self.limit)
        if asks > self.limit:
            raise TooMuch(asks, row.span)
        wanted = self._for_sizes(row)
        plans = {}
        for size in wanted:
            made = plan(row, size, self.book)
            if self.cycles is not None:
                made.rows = made.rows[:self.cycles]
            plans[size] = made
            for kind, facts in made.troubles:
                self.row_troubles.append((row, size, kind, facts))
            estimate = len(made.rows) * max(1, self.threads[size].lay.n if self.threads[size].lay is not None else 1)
            if self.made + estimate > self.limit * max(1, len(self.sizes)) or estimate > self.limit:
                raise TooMuch(self.made + estimate, row.span)
        longest = max((len(made.rows) for made in plans.values()), default=0)
        if row.again is None:
            self.book.write(row, row.numbers)
            if row.name:
                self.book.named[row.name.lower()] = row
        stopped = set()
        for nth in range(longest):
            groups = {}
            for size, made in plans.items():
                if nth < len(made.rows) and size not in stopped:
                    number, source = made.rows[nth]
                    last = nth == len(made.rows) - 1
                    groups.setdefault((id(source), last), (source, []))[1].append((size, number))
            for source, members in groups.values():
                self._one(piece, row, source, members, nth, plans, first and nth == 0)
                if self.restart or self.stopped:
                    return
            for size, made in plans.items():
                if made.stop_stitches is not None and size not in stopped:
                    if self.threads[size].fabric.rows[-1].stitches == made.stop_stitches or nth > 1990:
                        stopped.add(size)
            if len(stopped) == len(plans):
                break
        any_plan = next(iter(plans.values()), None)
        if any_plan is not None:
            self.book.order.extend(source for _, source in any_plan.rows[-12:])
            last = [number for number, _ in any_plan.rows if number is not None]
            if last:
                self.book.last_number = last[-1]
                for number, source in any_plan.rows:
                    if number is not None:
                        self.book.by_number[number] = source
            elif self.book.last_number is not None and any_plan.rows and (row.again is not None or row.name.lower().startswith("next")):
                self.book.last_number += len(any_plan.rows)

    def _aside(self, row):
        """A line that works nothing ("Fasten off.", "Join B in any corner."): what it begins with belongs to the row after it."""
        joins = [step for step in row.steps if isinstance(step, JoinYarn) and step.place is not None]
        if joins:
            self.pending = joins
        if any(isinstance(step, Turn) for step in row.steps):
            for thread in self.threads:
                thread.turned_end = True

    def _with_pending(self, row):
        if not self.pending or row.again is not None or any(isinstance(step, JoinYarn) for step in row.steps[:2]):
            self.pending = []
            return row
        key = ("pending", id(row))
        made = self.memo.get(key)
        if made is None:
            made = self.memo[key] = replace(row, steps=[*self.pending, *row.steps])
            self.stand_ins[id(made)] = row
        self.pending = []
        return made

    def _for_sizes(self, row):
        if not row.only:
            return range(len(self.sizes))
        names = {name.strip().lower(): index for index, name in enumerate(self.sizes)}
        found = [names[name.strip().lower()] for name in row.only if name.strip().lower() in names]
        return found or range(len(self.sizes))

    # ------------------------------------------------------------ one row

    def _one(self, piece, row, source, members, nth, plans, first):
        in_round = self._is_round(row, source, self.threads[members[0][0]])
        prepared = []
        for size, number in members:
            thread = self.threads[size]
            prepared.append((size, number, thread, *self._below(thread, source, row, in_round, first)))
        series = len(plans[members[0][0]].rows)
        last_of_range = nth == series - 1
        stated = self._stated(row, source, nth, series, last_of_range)

        def attempt(choices):
            rows, asked = [], {}
            for size, number, thread, lay, turned, carried in prepared:
                made, seen = self._work(source, row, lay, size, in_round, choices, stated, nth, series, thread, carried)
                rows.append(made)
                asked.update(seen)
                if choices and hard([made]):
                    break
            return rows, asked

        chosen = {key: option for key, option in self.settings.taken.items()}
        if self.stop_at_trouble:  # one reading only: the one held
            rows, asked = attempt(chosen)
            choices = {}
        else:
            rows, choices, asked, by_default = settle(lambda more: attempt({**chosen, **more}), self.settings.taken, self._spent_from(self.budget[0]))
        if len(rows) < len(prepared):
            rows, asked_now = attempt({**chosen, **choices})
            if len(rows) < len(prepared):
                rows, asked_now = attempt(dict(chosen))
        if self.stop_at_trouble and hard(rows):
            self.stopped = True
            return
        self._vote(asked, choices, rows, stated, chosen, attempt)
        if self.restart:
            return
        taken = assumptions(choices, asked)
        if not stated and not hard(rows):
            taken += self._both_ways(asked, choices)
        if choices:
            self.choices.setdefault(id(source), choices)
        for (size, number, thread, lay, turned, carried), made in zip(prepared, rows):
            self._keep(piece, row, source, size, number, thread, lay, turned, made, taken, in_round, stated)

    def _stated(self, row, source, nth, series, last_of_range):
        """Counts said of this row of a range: those of the range hold at its end, a series one by one, else those of the source."""
        if not self.counts:
            return []
        own = row.stated
        if row.again is None:
            return own if last_of_range or series <= 1 else [said for said in own if said.series]
        if own:
            said = [s for s in own if s.series or last_of_range]
            if said or len(own):
                return said
        grows = row.again.changes is not None or row.again.same_manner
        if source.stated and not grows and len(source.numbers) and source is not row:
            return [] if self._grows(source) else source.stated
        return []

    def _grows(self, source) -> bool:
        """Whether a row made again gives another count than it states: its stated count held over another row below."""
        for thread in self.threads:
            for made in reversed(thread.fabric.rows):
                if made.row is source or made.row is not None and made.row.span == source.span:
                    below = thread.fabric.rows[made.below].stitches if made.below >= 0 else None
                    return below is not None and below != made.stitches or below is None
        return True

    def _work(self, source, row, lay, size, in_round, choices, stated, nth, series, thread, carried):
        steps = source.steps if source.steps else row.steps
        key = None
        if lay is not None:
            sign, varies, own = self._signature(source, steps)
            key = None if sign is None else (sign, lay.key(), size if varies else -1, in_round, id(carried) if carried is not None else 0,
                   nth if any(s.series for s in stated) else -1, self._stated_sign(stated, size), own if choices else 0,
                   frozenset(choices.items()) if choices else None)
            found = self.memo.get(key) if key is not None else None
            if found is not None:
                made, asked, whose = found
                if whose is source:
                    return made.again(), asked
                if not made.troubles:  # the same words over the same places: the same fabric
                    return made.again(), {k: v for k, v in asked.items() if pattern_wide(k)}
                key = None
        hand = Hand(lay if lay is not None else layout.Layout([]), size, self.settings, in_round=in_round, base=self._base(source, thread),
                    choices=choices, limit=self.limit)
        hand.sequence = View(self, thread, source)
        hand.budget = self.budget
        hand.memory["stated"] = self._total_stated(stated, size)
        if in_round is False and _flat_ring(source.steps):
            hand.memory["flat ring"] = True
        made = work(steps, lay, hand, carried=carried)
        made.turned = hand.turned_at_end
        made.assumed = list(made.assumed)
        if not any(t.kind not in ("other-space", "left-differs") for t in made.troubles) and stated:
            below = thread.fabric.rows[thread.last] if thread.last >= 0 else None
            made.troubles.extend(compare(made, stated, size, self.settings, hand, below, nth, series))
            if not hard([made]):
                made.troubles = [t for t in made.troubles]
        made.loops = hand.loops
        asked = hand.asked
        hand.memory.pop("detour", None)
        made.far = dict(hand.far)
        extra = {"carried": hand.carried, "joined": hand.joined_at_end, "left_said": hand.left_said,
                 "rest": self._rest(hand), "openings": hand.left_cells, "home": hand.lay.home,
                 "took rest": hand.memory.get("unworked") and hand.lay.home is not None, "foundation": hand.memory.get("foundation"), "unknown": hand.memory.get("unknown below"),
                 "unsaid": hand.memory.get("skip unsaid"),
                 "base": hand.lay if lay is None and not made.kind and not made.troubles and (hand.lay.ring or hand.lay.n) else None}
        made.end = extra
        made.in_round = hand.in_round
        if key is not None:
            self.memo[key] = (made, asked, source)
            return made.again(), asked
        return made, asked

    def _rest(self, hand):
        """What the row left of the row below, for a later rejoining."""
        lay = hand.lay
        if lay.ring or hand.cur >= lay.n or hand.other_side is not None:
            return None
        cur = hand.cur
        item = lay.item or range(lay.n)
        return layout.Layout(lay.kind[cur:], lay.size[cur:], list(item[cur:]), (), (), [t - cur for t in lay.tops if t >= cur])

    def _signature(self, source, steps):
        """(what the steps say, whether that differs by size, who says it)."""
        known = self.sources.get(id(source))
        if known is None:
            words = repr(steps)
            place = self.sources.setdefault(words, len(self.sources))
            if any(mark in words for mark in _LOOKS_BACK):
                place = None  # worked over more than the row below: never taken from another row
            known = self.sources[id(source)] = (place, "PerSize" in words, id(source))
        return known

    def _stated_sign(self, stated, size):
        return tuple((at(number, size) if not isinstance(number, tuple) or isinstance(number, PerSize) else number, of, *rest, said.per)
                     for said in stated for number, of, *rest in said.items)

    def _total_stated(self, stated, size):
        for said in stated:
            for number, of, *_ in said.items:
                if of == "st" or len(said.items) == 1:
                    value = at(number, size) if not isinstance(number, tuple) or isinstance(number, PerSize) else None
                    if isinstance(value, int):
                        return value
        return 0

    def _base(self, source, thread) -> str:
        """The plain stitch "inc" and "dec" are made of in this row: its own first one, else the row below's, else sc."""
        first = _first_plain(source.steps)
        if first is not None:
            return first
        if thread.last >= 0:
            counts = thread.fabric.rows[thread.last].by_kind
            if counts:
                return kinds.plain_of(max(counts, key=counts.get))
        elif thread.lay is not None and thread.lay.n:
            stitches = [k for k in thread.lay.kind if k >= kinds.FIRST_STITCH]
            if stitches:
                return kinds.plain_of(kinds.NAMES[max(set(stitches), key=stitches.count)])
        return "sc"

    # ------------------------------------------------------------ what lies below

    def _is_round(self, row, source, thread) -> bool:
        if self.in_round:
            return True
        steps = source.steps or row.steps
        word = row.word or source.word
        joined, turns = _joins(steps), _turns(steps)
        if self.below is not None and thread.last < 0 and not joined:
            return word == "Round" and False or self.in_round
        if joined:
            return True
        if word == "Round":
            return not (turns and thread.in_round is False)
        if turns:
            return thread.in_round is True and word != "Row"
        if thread.in_round is not None and word == "Row":
            return thread.in_round if not any(c.kind == "turn" for c in self.settings.said) else False
        if thread.in_round is None:
            return _ring_start(steps) and word != "Row"
        return bool(thread.in_round)

    def _below(self, thread, source, row, in_round, first):
        """(layout as this row meets it, whether the work was turned, chain carried over)."""
        lay, carried = thread.lay, thread.carried
        if first and self.below is not None and thread.last < 0:
            from .statement import layout_from

            size = self.threads.index(thread)
            lay = layout_from(self.below, size)
            ended = self.settings.end_chain()
            if ended is not None and carried is None:
                carried = Chain(ended.chains or 1, ended.says)
        if lay is None:
            return None, False, None
        steps = source.steps or row.steps
        turned = False
        foundation = lay.kind[:1] == [FOUNDATION] or lay.kind[:1] == [kinds.ROW_END] or lay.ring
        if not foundation:
            said = thread.turned_end or _turns_first(steps)
            stays = any(isinstance(step, NoJoin) and step.turn for step in steps)
            if in_round:
                turned = said
            else:
                turned = True if thread.in_round is not True or said else bool(said)
                if getattr(thread, "side", None) == "no turn" or stays:
                    turned = False
            if turned:
                lay = self._turned(lay)
        if carried is not None and in_round and not turned:
            carried = None
        if in_round and not turned and not lay.plain:
            lay = layout.closing_loop(lay)
        return lay, turned, carried

    def _turned(self, lay):
        key = ("turned", id(lay))
        found = self.memo.get(key)
        if found is None or found[0] is not lay:
            found = (lay, lay.turned())
            self.memo[key] = found
        return found[1]

    # ------------------------------------------------------------ keeping it

    def _vote(self, asked, choices, rows, stated, chosen, attempt):
        """Holds conventions that the counts of this row decide; sends the work back where an earlier row read them otherwise."""
        wide = [key for key in asked if pattern_wide(key)]
        if not wide:
            return
        good = not hard(rows)
        for key in wide:
            self.asked.setdefault(key, asked[key])
            option = choices.get(key, chosen.get(key, 0))
            if good and stated:
                self.agree.setdefault(key, [0, 0])[0] += 1
                if key not in self.settings.taken:
                    self.settings.taken[key] = option
                    if option and key in self.undecided_used:
                        self.restart = True
                        return
            elif good and option:
                self.settings.taken.setdefault(key, option)
            elif not good and stated:
                self.agree.setdefault(key, [0, 0])[1] += 1
                if key in self.settings.taken and key not in self.locked:
                    flipped = {**chosen, key: 1 - self.settings.taken[key]}
                    other, _ = attempt(flipped)
                    if len(other) == len(rows) and not hard(other):
                        self.conflict[key] = self.conflict.get(key, 0) + 1
            if key not in self.settings.taken:
                self.undecided_used.add(key)

    def _spent_from(self, start):
        return lambda: start - self.budget[0]

    def _both_ways(self, asked, choices):
        """Phrases with two readings of which no stated count says which is meant."""
        out = []
        for key, (count, cost, words, span) in asked.items():
            if isinstance(key, tuple) and key[1] == "either" and not choices.get(key):
                out.append(Assumption("either", words, span, cost))
        return out

    def _keep(self, piece, row, source, size, number, thread, lay, turned, made, taken, in_round, stated):
        extra = made.end
        made.assumed = made.assumed + taken
        made.row, made.piece, made.number = self.stand_ins.get(id(row), row), piece.name if piece is not None else "", number
        made.label = _label(row, source, number)
        made.below = thread.last
        turned_end = made.turned
        made.turned = turned
        if made.in_round and in_round is False and not thread.fabric.rows:
            in_round = made.in_round
        in_round = made.in_round or in_round
        made.in_round = in_round
        if extra.get("foundation") and thread.last < 0:
            if extra.get("base") is not None and not extra["base"].ring:  # a row that is the foundation and nothing else
                self._foundation_columns(made, extra["foundation"])
            else:
                thread.last = self._foundation_row(thread, extra["foundation"], piece)
                made.below = thread.last
        if not thread.side:
            thread.side = "RS"
            if row.side:
                thread.side = row.side
        elif turned:
            thread.side = "WS" if thread.side == "RS" else "RS"
        made.side = thread.side
        if row.side and row.side != made.side and row.again is None:
            made.troubles = made.troubles + [Trouble("side-differs", row.label_span if row.label_span != NOWHERE else row.span,
                                                     {"said": row.side, "found": made.side})]
            thread.side = made.side = row.side
        self.made += len(made.kind)
        if self.made > self.limit * max(1, len(self.sizes)) or len(made.kind) > self.limit:
            raise TooMuch(self.made, row.span)
        thread.fabric.rows.append(made)
        thread.last = len(thread.fabric.rows) - 1
        thread.in_round = in_round
        thread.turned_end = turned_end
        thread.carried = extra.get("carried")
        if extra.get("took rest") and thread.rests:
            thread.rests.pop()
        rest = extra.get("rest")
        if extra.get("home") is not None:
            made.below = extra["home"]
        if rest is not None and rest.n:
            rest = copy_layout(rest)
            rest.home = made.below
            thread.rests.append(rest)
        for opening, cells, chain in extra.get("openings") or ():
            opening = copy_layout(opening)
            opening.home = made.below
            if chain is not None:
                opening.far = {cell: (thread.last, chain) for cell in range(cells, opening.n)}
            thread.rests.append(opening)
        total = self._total_stated(stated, size)
        broken = [t for t in made.troubles if t.kind not in ("count", "other-space", "left-differs", "side-differs", "left-over")]
        if broken and total and total != made.stitches:
            main = max(made.by_kind, key=made.by_kind.get) if made.by_kind else kinds.plain_of(self._base(source, thread))
            thread.lay = layout.plain(main, min(total, self.limit))
        elif extra.get("base") is not None:
            thread.lay = extra["base"]
            thread.in_round = True if thread.lay.joined else None
        elif broken and not made.kind and lay is not None:
            pass  # nothing of it could be worked: the row below stays what it was
        else:
            thread.lay = self._layout(made)

    def _layout(self, made):
        key = ("lay", id(made.kind))
        found = self.memo.get(key)
        if found is None or found[0] is not made.kind:
            found = (made.kind, layout_of(made))
            self.memo[key] = found
        return found[1]

    def _foundation_row(self, thread, chains, piece) -> int:
        """The foundation chain as a row of its own, so that the first row's stitches stand on something."""
        base = WorkedRow("Foundation", None, None, piece.name if piece is not None else "")
        self._foundation_columns(base, chains)
        thread.fabric.rows.append(base)
        return len(thread.fabric.rows) - 1

    @staticmethod
    def _foundation_columns(row, chains):
        row.kind, row.foot = array("H", [FOUNDATION]) * chains, array("i", [FOOT_NONE]) * chains
        row.chains, row.flags = array("H", [1]) * chains, array("B", [FLAG_TURNING]) * chains

    # ------------------------------------------------------------ asked by the row at work

    def even_row(self, source: Row) -> Row:
        """A row of the last row's main stitch, one in each stitch ("work even")."""
        key = ("even", id(source))
        found = self.memo.get(key)
        if found is None:
            kind = _first_plain(source.steps) or "sc"
            steps = [step for step in source.steps if isinstance(step, (Chain, Turn)) and source.steps.index(step) == 0]
            steps.append(Stitch(kind, 1, Place(extent=Extent(), n=None)))
            steps += [step for step in source.steps if isinstance(step, (Join, Turn))]
            found = Row(source.word, (), name="even", steps=steps, span=source.span)
            self.memo[key] = found
        return found

    def rows_to_measure(self, until, size):
        """Rows that come to the length said, by the row gauge; None where there is no gauge."""
        if not self.row_height_mm:
            return None
        wanted = until.measure_mm
        if isinstance(wanted, (tuple, list)):
            wanted = wanted[size] if size < len(wanted) else None
        if wanted is None:
            return None
        rows = round(wanted / self.row_height_mm)
        if "piece" in until.measured_from or not until.measured_from:
            rows -= self.book.rows_so_far(size)
        return max(0, rows)


class View:
    """What a row at work may ask of the rows before it."""

    __slots__ = ("sequence", "thread", "source")

    def __init__(self, sequence, thread, source):
        self.sequence, self.thread, self.source = sequence, thread, source

    def row_ends(self, hand):
        rows = [row for row in self.thread.fabric.rows[self.thread.piece_start:] if row.row is not None]
        return layout.row_ends(len(rows)) if rows else None

    def free_loops(self, hand, place):
        for row in reversed(self.thread.fabric.rows):
            if place.row is None or row.number == place.row:
                return layout_of(row)
        return None

    def unworked(self, hand):
        return self.thread.rests[-1] if self.thread.rests else None

    def established(self, hand):
        """Steps of the row that comes next in the pattern as set: the one before the last."""
        order = [row for row in self.sequence.book.order if row.steps and not _goes_on(row.steps)]
        if len(order) >= 2:
            return order[-2].steps
        return order[-1].steps if order else None


def copy_layout(lay):
    """The same places as a Layout of its own, so that where they belong can be noted on it."""
    return layout.Layout(lay.kind, lay.size, lay.item, lay.groups, lay.corners, lay.tops, lay.ring, lay.joined)


# ---------------------------------------------------------------- looking at steps

_LOOKS_BACK = ("unworked", "row ends", "free loops", "Go(")


def _works(steps) -> bool:
    """Whether the steps make, skip or leave anything."""
    return any(isinstance(step, (Stitch, Group, Repeat, Each, Either, Chain, Ring, Skip, Go, Leave, Unread)) for step in steps)


def _goes_on(steps) -> bool:
    return any(isinstance(step, Go) for step in steps)


def _starts_fresh(row) -> bool:
    """Whether a piece begins with a chain, a ring or foundation stitches of its own."""
    for step in row.steps:
        if isinstance(step, (Ring, Chain)):
            return isinstance(step, Ring) or step.says is None and _is_foundation(row)
        if isinstance(step, Stitch):
            return kinds.takes_makes(step.kind)[0] == 0 and step.kind != "picot" or step.place is not None and step.place.which in ("ring", "from hook")
        if isinstance(step, Group) and step.place is not None and step.place.which == "ring":
            return True
        if isinstance(step, (Repeat, JoinYarn)):
            return False
    return False


def _is_foundation(row) -> bool:
    rest = [step for step in row.steps if not isinstance(step, BEFORE)]
    if len(rest) == 1 or row.name.lower().startswith("foundation"):
        return True
    if isinstance(rest[1], (Ring, Join)):
        return True
    first = first_stitch(rest[1:])
    place = first.place if first is not None else None
    if place is not None and (place.which in ("from hook", "ring") or place.of == "ch" and place.which in ("next", "first", "nth")):
        return True
    return bool(row.numbers) and row.numbers[0] == 1 and row.word != "Round" and len(rest) > 1 and isinstance(rest[0], Chain) and \
        isinstance(rest[0].n, int) and rest[0].n > 6


def _flat_ring(steps) -> bool:
    return any(isinstance(step, (Turn, NoJoin)) for step in steps)


def _ring_start(steps) -> bool:
    for step in steps:
        if isinstance(step, Ring):
            return True
        if isinstance(step, (Stitch, Group)):
            if step.place is not None and step.place.which == "ring":
                return True
            return isinstance(step, Stitch) and step.place is not None and step.place.which == "from hook" and isinstance(step.n, int) and step.n > 3
    return False


def _joins(steps) -> bool:
    real = [step for step in steps if not isinstance(step, BEFORE)]
    if any(isinstance(step, Join) for step in real):
        return True
    if not real or len(real) < 2:
        return False
    last = real[-1]
    return isinstance(last, Stitch) and last.kind == "slst" and last.place is not None and last.place.which in ("first", "chain top", "beginning")


def _turns(steps) -> bool:
    return any(isinstance(step, Turn) for step in steps)


def _turns_first(steps) -> bool:
    for step in steps:
        if isinstance(step, Turn):
            return True
        if not isinstance(step, BEFORE) and not isinstance(step, (Chain, JoinYarn, NoJoin)):
            return False
    return False


def _first_plain(steps):
    """The first plain stitch named in the steps, looking into groups and repeats."""
    for step in steps:
        if isinstance(step, Stitch):
            if step.base and step.kind in ("inc", "dec"):
                return step.base
            if step.kind not in ("inc", "dec", "slst", "picot") and step.kind not in kinds.GATHERED:
                return kinds.plain_of(step.kind)
        elif isinstance(step, (Group, Repeat, Each)):
            found = _first_plain(step.parts if isinstance(step, Each) else step.steps)
            if found:
                return found
    return None


def _label(row, source, number) -> str:
    word = row.word or source.word or "Row"
    if number is not None:
        return f"{word} {number}"
    return row.label()
