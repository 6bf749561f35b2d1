"""The whole pattern row by row in every size: what lies below each row, which side faces, what is held over."""

from dataclasses import replace

from hookwright.ground import NOWHERE, PerSize
from hookwright.notation.tree import JoinYarn, Row, Turn

from . import layout
from .amount import amount
from .as_piece import with_pieces
from .book import Book
from .choosing import SOFT, assumptions, hard, pattern_wide, settle
from .counting import compare
from .edges import ends_unsaid
from .hand import Hand, TooMuch
from .keeping import keep, rest_of
from .ranges import plan
from .row_below import base_of, below_of, is_round, turns_of
from .row_signs import LOOKS_BACK, flat_ring, goes_on, starts_fresh, works_something
from .rowwork import work
from .stated import stated_of, stated_sign, total_stated
from .stripes import in_its_colours, says_colours
from .thread import Thread
from .unknown_below import MOST_TRIES, begins_in_the_middle, fit, needs_shape
from .views import View
from .voting import both_ways, vote
from .worked import Assumption

LIMIT = 2_000_000


class Sequence:
    """Works a Pattern. After `go`, threads hold the fabrics; marks of the pattern: `agree`, `conflict` per convention."""

    def __init__(self, pattern, settings, *, below=None, in_round=False, sizes=("1",), limit=LIMIT, row_height_mm=None,
                 counts=True, cycles=None, refers=True, record=None):
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
        self.standing = {}  # id of a row -> {size: Layout it stands on} for sizes that do not work it
        self.choices = {}
        self.pending = []
        self.meant = {}  # id of a reference to a row of a piece -> the rows meant
        self.stand_ins = {}  # id of a row worked with steps of the line before it -> the row as written
        self.counts = counts  # False: stated counts are left out (for deriving multiples)
        self.stop_at_trouble = self.stopped = False
        self.stopped_by = (None, ())  # the row at which it stopped, as written and as worked in each size
        self.refers = refers  # whether rows before a last one that refers back may be only what it refers to; "all": before any last row
        self.record = record  # a recording.Record that keeps the step of every stitch; None where nobody asks
        self.hand = Hand if record is None else record.hand
        self.cycles = cycles  # at most so many rows of a range are worked, None all

    # ------------------------------------------------------------ the way through

    def go(self):
        """Works every row of every size; raises nothing (what can't be done is kept as troubles)."""
        rows, self.meant = with_pieces(list(self.pattern.rows()), self.stand_ins)
        self._reference_rows(rows)
        first = True
        piece_before = None
        try:
            asks = amount(self.below or [], self.limit)
            if asks > self.limit:
                raise TooMuch(asks, NOWHERE)
            for piece, row in rows:
                if id(row) in self.reference_only:
                    self.book.write(row, row.numbers)
                    self.book.order.append(row)
                    if row.name:
                        self.book.named[row.name.lower()] = row
                    continue
                if row.again is not None and row.again.piece and not row.numbers:
                    continue  # the rows of that piece follow it
                if piece is not piece_before:
                    self._piece(piece, row, first, piece_before)
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
        if self.below is None or len(rows) < 2 or not self.refers:
            return
        last = rows[-1][1]
        if last.again is None and not goes_on(last.steps) and self.refers != "all":
            return
        for _, row in rows[:-1]:
            if row.again is None:
                self.reference_only.add(id(row))

    def _piece(self, piece, row, first, before):
        if first and self.below is not None:
            return
        if not first:
            self.book.new_piece()
        sources = self.book.sources(row.again, (), 0) if row.again is not None else ()
        fresh = starts_fresh(sources[0] if sources else row)
        for thread in self.threads:
            if before is not None:
                thread.ended.append((before, thread.lay))
            thread.piece_start = len(thread.fabric.rows)
            if fresh or thread.lay is None:
                thread.lay, thread.last, thread.side, thread.carried = None, -1, "", None
                thread.in_round = None

    def _written(self, piece, row: Row, first):
        self.current = row
        asks = amount(row.steps, self.limit)
        if asks > self.limit:
            raise TooMuch(asks, row.span)
        if row.again is None and not works_something(row.steps):
            self._aside(row)
            return
        row = self._with_pending(row)
        wanted = self._for_sizes(row)
        plans = {}
        for size in wanted:
            made = plan(row, size, self.book)
            if self.cycles is not None:
                made.rows = made.rows[:self.cycles]
            plans[size] = made
            for kind, facts in made.troubles:
                self.row_troubles.append((self.stand_ins.get(id(row), row), size, kind, facts))
            estimate = len(made.rows) * max(1, self.threads[size].lay.n if self.threads[size].lay is not None else 1)
            if self.made + estimate > self.limit * max(1, len(self.sizes)) or estimate > self.limit:
                raise TooMuch(self.made + estimate, row.span)
        longest = max((len(made.rows) for made in plans.values()), default=0)
        for size, made in plans.items():
            if not made.rows and longest and self.threads[size].lay is not None:
                self.standing.setdefault(id(row), {})[size] = self.threads[size].lay
        if row.again is None:
            if row.last_number is None:
                for size in plans:
                    self.book.write(row, row.numbers, size)
            if row.name and (row.word or row.name != "Foundation"):
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
                if made.stop_stitches is not None and size not in stopped and self._reached(self.threads[size].fabric.rows, made, nth):
                    stopped.add(size)
            if len(stopped) == len(plans):
                break
        any_plan = next(iter(plans.values()), None)
        if any_plan is not None:
            self.book.order.extend(source for _, source in any_plan.rows[-12:])
            self.book.numbers_differ |= isinstance(row.last_number, PerSize)
            goes_on_counting = row.again is not None or row.name.lower().startswith("next")
            unnumbered = {size: len(made.rows) for size, made in plans.items() if not self.book.worked_as(made.rows, size)}
            if goes_on_counting:
                self.book.go_on(unnumbered)

    def _reached(self, rows, made, nth) -> bool:
        """Whether "until there are n stitches" is reached: they are there, or passed, or the rows do not come nearer any more."""
        now, wanted = rows[-1].stitches, made.stop_stitches
        if now == wanted or nth > 1990:
            return True
        cycle = made.cycle
        if nth + 1 < cycle or len(rows) <= 2 * cycle:
            return False
        before = rows[-1 - cycle].stitches
        return (before < wanted < now or before > wanted > now or abs(now - wanted) >= abs(before - wanted)) and (nth + 1) % cycle == 0

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
        in_round = is_round(self, row, source, self.threads[members[0][0]])
        prepared = []
        turns = turns_of(source.steps or row.steps)
        for size, number in members:
            thread = self.threads[size]
            prepared.append((size, number, thread, *below_of(self, thread, source, row, in_round, first, turns)))
        series = len(plans[members[0][0]].rows)
        last_of_range = nth == series - 1
        stated = stated_of(self, row, source, nth, series, last_of_range)

        def attempt(choices, every=False):
            rows, asked = [], {}
            for size, _, thread, lay, _, carried in prepared:
                made, seen = self._work(source, row, lay, size, in_round, choices, stated, nth, series, thread, carried)
                rows.append(made)
                asked.update(seen)
                if choices and not every and hard([made]):
                    break
            return rows, asked

        chosen = dict(self.settings.taken)
        if self.stop_at_trouble:  # one reading only: the one held
            rows, asked = attempt(chosen)
            choices = {}
        else:
            rows, choices, asked, by_default = settle(lambda more: attempt({**chosen, **more}), self.settings.taken, self._spent_from(self.budget[0]))
        if len(rows) < len(prepared):
            rows, _ = attempt({**chosen, **choices}, every=True)
        if self.stop_at_trouble and hard(rows):
            self.stopped, self.stopped_by = True, (source, rows)
            return
        vote(self, asked, choices, rows, stated, chosen, attempt)
        if self.restart:
            return
        taken = assumptions(choices, asked)
        if not stated and not hard(rows):
            taken += both_ways(self, asked, choices)
        if nth == 0 and plans[members[0][0]].taken:
            taken = [*taken, Assumption("rows", plans[members[0][0]].taken, row.again.span)]
        if choices:
            self.choices.setdefault(id(source), choices)
        coloured = says_colours(row)
        for (size, number, thread, lay, turned, _), made in zip(prepared, rows):
            if coloured:
                in_its_colours(made, row, source, nth, last_of_range, size)
            keep(self, piece, row, source, size, number, thread, lay, turned, made, taken, in_round, stated)

    def _work(self, source, row, lay, size, in_round, choices, stated, nth, series, thread, carried, wide=0):
        steps = source.steps if source.steps else row.steps
        key = None
        if lay is not None:
            sign, varies, own = self._signature(source, steps)
            key = None if sign is None else (sign, lay.key(), size if varies else -1, in_round, id(carried) if carried is not None else 0,
                   nth if any(s.series for s in stated) else -1, stated_sign(self, stated, size), own if choices else 0,
                   frozenset(choices.items()) if choices else None)
            found = self.memo.get(key) if key is not None else None
            if found is not None:
                made, asked, whose = found
                if whose is source:
                    return made.again(), asked
                if not made.troubles and self.record is None:  # the same words over the same places: the same fabric
                    return made.again(), {k: v for k, v in asked.items() if pattern_wide(k)}
                key = None
        hand = self.hand(lay if lay is not None else layout.Layout([]), size, self.settings, in_round=in_round, base=base_of(self, source, thread, lay),
                    choices=choices, limit=self.limit)
        hand.sequence = View(self, thread, source)
        hand.budget = self.budget
        hand.memory["stated"] = total_stated(self, stated, size)
        hand.left_said = any(said.per == "unworked" for said in stated)
        if in_round is False and flat_ring(source.steps):
            hand.memory["flat ring"] = True
        if lay is None and thread.last < 0:
            hand.memory["wide"] = wide
            hand.memory["middle"] = begins_in_the_middle(source, steps)
        made = work(steps, lay, hand, carried=carried)
        made.turned = hand.turned_at_end
        made.assumed = list(made.assumed)
        if not any(t.kind not in SOFT for t in made.troubles) and stated:
            below = thread.fabric.rows[thread.last] if thread.last >= 0 else None
            made.troubles.extend(compare(made, stated, size, self.settings, hand, below, nth, series))
        made.loops = hand.loops
        asked = hand.asked
        hand.memory.pop("detour", None)
        made.far = dict(hand.far)
        extra = {"carried": hand.carried, "joined": hand.joined_at_end, "left_said": hand.left_said,
                 "rest": rest_of(self, hand), "openings": hand.left_cells, "home": hand.lay.home,
                 "took rest": hand.memory.get("unworked") and hand.lay.home is not None, "foundation": hand.memory.get("foundation"),
                 "unsaid": hand.memory.get("skip unsaid"), "likely": not stated and ends_unsaid(steps), "onto": hand.lay.onto,
                 "base": hand.lay if lay is None and not made.kind and all(t.kind == "count" for t in made.troubles) and (hand.lay.ring or hand.lay.n) else None}
        made.end = extra
        made.in_round = hand.in_round
        if self.record is not None:
            self.record.keep(made, hand)
        if key is not None:
            self.memo[key] = (made, asked, source)
            return made.again(), asked
        if hand.memory.get("unknown below") or lay is None and thread.last < 0 and source.numbers[:1] > (1,) and needs_shape(steps):
            tries = self.memo.setdefault(("widths", id(source)), [MOST_TRIES])
            return fit(lambda width: self._work(source, row, lay, size, in_round, choices, stated, nth, series, thread, carried, width),
                       made, asked, hand, steps, total_stated(self, stated or source.stated, size), series, tries)
        return made, asked

    def _signature(self, source, steps):
        """(what the steps say, whether that differs by size, who says it)."""
        known = self.sources.get(id(source))
        if known is None:
            words = repr(steps)
            place = self.sources.setdefault(words, len(self.sources))
            if any(mark in words for mark in LOOKS_BACK):
                place = None  # worked over more than the row below: never taken from another row
            known = self.sources[id(source)] = (place, "PerSize" in words, id(source))
        return known

    def _spent_from(self, start):
        return lambda: start - self.budget[0]
