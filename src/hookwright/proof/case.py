"""What the checks look at: the pattern, its worked fabrics, and views of them that are made once and shared."""

from collections import defaultdict
from dataclasses import dataclass, field
from functools import cached_property

from hookwright.ground import LOOK, MUST_MEND, Finding, Lines, Span, in_sizes
from hookwright.notation.tree import Each, Either, Group, Pattern, Piece, Prose, Repeat, Row, Unread
from hookwright.stitches import stitch

from .troubles import Off, gather
from .wording import quoted


@dataclass(slots=True)
class Seen:
    """A written row where it stands: `index` among all rows, the piece it belongs to, its `name` in findings."""

    index: int
    piece: Piece
    row: Row
    name: str

    @property
    def body(self) -> Span:
        """The row's text after its label."""
        label, whole = self.row.label_span, self.row.span
        return Span(label.end, whole.end) if whole.start <= label.end <= whole.end and label.end else whole


@dataclass
class Case:
    """One pattern to prove.

    fabrics  one worked fabric per size, in the order of the sizes; none where nothing could be worked
    reading  what the reader found
    derive   gives `multiples`: asked only where a check needs them, since many rows are worked for them
    work     the whole of the work (fabric.Work), where there is more to it than the fabrics
    sized    what was asked of the numbers and found: `.asked` (sizing.Asked), `.outcome` (sizing.Answer or Clash), `.answer`; None without a head
    silenced  filled by `prove`: findings that the manuscript silences, each with the reason given
    """

    pattern: Pattern
    fabrics: list = field(default_factory=list)
    reading: list = field(default_factory=list)
    derive: object = None
    work: object = None
    sized: object = None
    silenced: list = field(default_factory=list)
    below: list | None = None  # steps of the row below a fragment, as stated
    in_round: bool = False
    row_height_mm: float | None = None
    told_alike: dict | None = None  # rows that were read back alike in earlier texts (see reading_back), None where nothing is remembered
    read_back: str | None = None  # set by the check that reads back what was written, for the line of what was proved

    @cached_property
    def multiples(self) -> list:
        """(of what, the multiple in words), as derived for each foundation; what was there before any check ran is what they are derived from."""
        return self.derive() if self.derive is not None else []

    @property
    def text(self) -> str:
        return self.pattern.text

    @property
    def terms(self) -> str:
        return self.pattern.terms

    @property
    def head(self):
        return self.pattern.head

    def from_head(self, name: str, otherwise=None):
        """A value of the head, or `otherwise` where there is no head or it is not given."""
        value = getattr(self.pattern.head, name, None)
        return otherwise if value is None else value

    def span_in_head(self, name: str) -> Span:
        """Where a key of the head stands; the start of the manuscript where that is not known."""
        spans = getattr(self.pattern.head, "spans", None) or {}
        return spans.get(name) or Span(0, 0)

    @cached_property
    def sizes(self) -> tuple[str, ...]:
        """Names of the sizes, in order; one name (often empty) where the pattern has a single size."""
        return tuple(fabric.size for fabric in self.fabrics) or tuple(self.pattern.sizes) or ("",)

    def size_names(self, indices) -> tuple[str, ...]:
        """The names of these sizes, none where there is one size only."""
        return tuple(self.sizes[index] for index in sorted(indices)) if len(self.sizes) > 1 else ()

    def in_sizes(self, indices) -> str:
        """ "in size M" and so on, for the start of a message."""
        return in_sizes(self.size_names(indices), self.sizes)

    def says(self, sizes, *parts: str) -> str:
        """The parts as one sentence that begins with the sizes concerned, where these matter."""
        words = " ".join(part for part in (self.in_sizes(sizes), *parts) if part)
        return words[:1].upper() + words[1:]

    def says_of(self, off: Off, *parts: str) -> str:
        """The same for a row that does not come out; says so where part of it could not be read."""
        doubt = " (what it is worked into is not given)" if self.stands_on_nothing(off) else " (part of it could not be read)" if self.is_doubtful(off) else ""
        return self.says(off.at, *parts) + doubt

    def grade(self, off: Off, grade: str = MUST_MEND) -> str:
        """The grade of a finding about a row: never "must mend" where the row or the one below could not be read as a whole."""
        return LOOK if self.is_doubtful(off) or self.stands_on_nothing(off) else grade

    def stands_on_nothing(self, off: Off) -> bool:
        """Whether the row below is not given and the row's own words don't tell how many stitches it takes."""
        unknown = [trouble.facts for trouble in off.first[1].troubles if trouble.kind == "below-unknown"]
        return bool(unknown) and unknown[0]["taken"] is None and not unknown[0]["fixed"]

    def is_doubtful(self, off: Off) -> bool:
        """Whether words of the row, or of the row it is worked into, could not be read: then the sum may be ours and not hers."""
        _, worked, _ = off.first
        if worked.end.get("stated") is not None or any(note.tells for note in off.row.notes):
            return True
        below = self.fabrics[min(off.at)].rows[worked.below].row if worked.below >= 0 else None
        return id(off.row) in self._not_read or below is not None and id(below) in self._not_read and not below.stated

    def is_unread(self, row: Row) -> bool:
        """Whether some words of the row could not be read."""
        return id(row) in self._not_read

    @cached_property
    def _not_read(self) -> set[int]:
        spans = [finding.span for finding in self.reading if finding.kind == "cannot-read"]
        rows = {id(seen.row) for seen, _ in self.nodes(Unread)}
        if spans:
            rows |= {id(seen.row) for seen in self.seen if any(seen.row.span.start <= span.start < seen.row.span.end for span in spans)}
        return rows

    @cached_property
    def lines(self) -> Lines:
        return Lines(self.text)

    @cached_property
    def seen(self) -> list[Seen]:
        """All written rows in order. Where two pieces share a label the name says which piece is meant."""
        rows = [(piece, row, self._label(row)) for piece, row in self.pattern.rows()]
        pieces_with = defaultdict(set)
        for piece, _, label in rows:
            pieces_with[label].add(id(piece))
        return [
            Seen(index, piece, row, f"{label} of {piece.name}" if piece.name and len(pieces_with[label]) > 1 else label)
            for index, (piece, row, label) in enumerate(rows)
        ]

    def _label(self, row: Row) -> str:
        """The row's label; its words where it has none and only works other rows again."""
        again = row.again
        if again is None or row.word or row.name or not again.span.end:
            return row.label()
        return f"the line {quoted(self.text, again.span, 40)}"

    @cached_property
    def seen_by_row(self) -> dict[int, Seen]:
        return {id(seen.row): seen for seen in self.seen}

    @cached_property
    def by_piece(self) -> list[tuple[Piece, list[Seen]]]:
        """The rows of each piece that has any."""
        out: list[tuple[Piece, list[Seen]]] = []
        for seen in self.seen:
            if not out or out[-1][0] is not seen.piece:
                out.append((seen.piece, []))
            out[-1][1].append(seen)
        return out

    @cached_property
    def prose(self) -> list[tuple[Piece, Prose]]:
        """Words between rows, with the piece each stands in."""
        return [(piece, item) for piece in self.pattern.pieces for item in piece.items if isinstance(item, Prose)]

    @cached_property
    def _nodes(self) -> dict[type, list]:
        found = defaultdict(list)
        for seen in self.seen:
            steps = seen.row.steps
            again = seen.row.again
            if again is not None and again.changes:
                steps = [*steps, *again.changes]
            for node in walk(steps):
                found[type(node)].append((seen, node))
        return found

    def nodes(self, kind: type) -> list[tuple[Seen, object]]:
        """Every step of one sort in the whole pattern, with its row, in the order written."""
        return self._nodes.get(kind, [])

    @cached_property
    def whole(self) -> bool:
        """True for a pattern from its beginning; False for a few rows out of the middle, whose references can't be followed."""
        if self.pattern.head is not None:
            return True
        numbers = [seen.row.numbers[0] for seen in self.seen if seen.row.numbers]
        return bool(numbers) and numbers[0] <= 1 and len(self.seen) > 1

    @cached_property
    def occurrences(self) -> list[list[tuple[int, int]]]:
        """For each fabric, for each worked row: (id of the written row, which time it is worked, from 0)."""
        out = []
        for fabric in self.fabrics:
            times: dict[int, int] = {}
            keys = []
            for worked in fabric.rows:
                which = id(worked.row)
                time = times.get(which, 0)
                times[which] = time + 1
                keys.append((which, time))
            out.append(keys)
        return out

    @cached_property
    def _worked_at(self) -> list[dict]:
        return [{key: index for index, key in enumerate(keys)} for keys in self.occurrences]

    @cached_property
    def _totals(self) -> dict[int, object]:
        """Written row -> the total it states: a number, a list per size, a series ("series", numbers), or None."""
        return {id(seen.row): stated_number(seen.row) for seen in self.seen}

    def total_stated(self, size: int, index: int) -> int | None:
        """The number of stitches that a worked row states for all of it, None where it states none: of a range the last row has the count."""
        row = self.fabrics[size].rows[index].row
        total = self._totals.get(id(row))
        if total is None:
            return None
        if type(total) is not tuple or total[0] != "series":
            which, time = self.occurrences[size][index]
            if (which, time + 1) in self._worked_at[size]:
                return None
        if type(total) is int:
            return total
        if total[0] == "series":
            time = self.occurrences[size][index][1]
            return total[1][time] if time < len(total[1]) and isinstance(total[1][time], int) else None
        return total[size] if size < len(total) else None

    def same_row(self, size: int, index: int) -> list:
        """The same row in every size, as worked: [(worked row, the one below or None, its index) or None]."""
        key = self.occurrences[size][index]
        out = []
        for other, fabric in enumerate(self.fabrics):
            at = self._worked_at[other].get(key)
            if at is None:
                out.append(None)
                continue
            worked = fabric.rows[at]
            out.append((worked, fabric.rows[worked.below] if worked.below >= 0 else None, at))
        return out

    @cached_property
    def roots(self) -> dict[int, Off]:
        """Written row (by id) -> what is known to put it off before it is worked: a list that does not give one number a size."""
        from .size_lists import wrong_lists  # which looks at a case itself

        found: dict[int, Off] = {}
        for each in wrong_lists(self):
            if each.grade == MUST_MEND and each.rows and len(self.sizes) > 1:
                off = Off("size-list", each.rows[0].row, each.rows[0].name, each.span)
                for seen in each.rows:
                    found.setdefault(id(seen.row), off)
        return found

    @cached_property
    def _gathered(self):
        return gather(self.fabrics, self.total_stated, self.roots)

    @property
    def echoing(self) -> set[tuple[int, int]]:
        """(size, index) of worked rows that are off only because an earlier one is."""
        return self._gathered[1]

    @cached_property
    def _off(self) -> dict[str, list[Off]]:
        by_kind = defaultdict(list)
        for off in self._gathered[0]:
            by_kind[off.kind].append(off)
        return by_kind

    def off(self, *kinds: str) -> list[Off]:
        """Rows in which something of these kinds does not come out, one entry for all sizes concerned."""
        return [off for kind in kinds for off in self._off.get(kind, ())]

    def off_in_rows(self, *kinds: str) -> list[tuple[Row, dict[int, dict]]]:
        """Written rows whose range or reference does not come out: (row, {size index: facts})."""
        found: dict[int, tuple[Row, dict[int, dict]]] = {}
        for row, size, kind, facts in getattr(self.work, "row_troubles", None) or ():
            if kind in kinds:
                found.setdefault(id(row), (row, {}))[1].setdefault(size, facts)
        return list(found.values())

    def name_of(self, row: Row, label: str = "") -> str:
        """How a row is called in findings; `label` the worked row's own where a range stands for several."""
        seen = self.seen_by_row.get(id(row))
        if seen is None:
            return label or row.label()
        if label and label != row.label():
            return label + seen.name[len(row.label()) :] if seen.name.startswith(row.label()) else label
        return seen.name

    def read(self, kind: str) -> list[Finding]:
        """The reader's findings of one kind."""
        return [finding for finding in self.reading if finding.kind == kind]


def stated_number(row: Row):
    """The total a row states: a number, a list per size, ("series", numbers) for a count a row, None where there is none.

    A total by name comes first; else the stitches stated by kind are added up ("(4 dc, 2 sc, 1 ch-2 sp)": 6).
    """
    for stated in row.stated:
        if stated.per or not stated.items:
            continue
        named = [item[0] for item in stated.items if item[1] in ("st", "")]
        kinds = [item[0] for item in stated.items if item[1] not in ("st", "", "sp", "ch")]
        if not named and (not kinds or any(stitch(item[1]) is None for item in stated.items if item[1] not in ("sp", "ch"))):
            continue
        if stated.series and isinstance((named or kinds)[0], tuple):
            return ("series", (named or kinds)[0])
        return named[0] if named else _added(kinds)
    return None


def _added(numbers: list):
    """The sum of numbers of which some may be lists per size."""
    if len(numbers) == 1:
        return numbers[0]
    lists = [number for number in numbers if isinstance(number, tuple)]
    if not lists:
        return sum(numbers)
    sums = []
    for size in range(min(len(each) for each in lists)):
        parts = [number[size] if isinstance(number, tuple) else number for number in numbers]
        sums.append(sum(part for part in parts if part) if any(part is not None for part in parts) else None)
    return tuple(sums)


def walk(steps):
    """Every step in a list of steps, those inside groups and repeats too; of an unclear phrase its likeliest reading."""
    stack = list(reversed(steps)) if steps else []
    while stack:
        node = stack.pop()
        yield node
        kind = type(node)
        if kind is Repeat:
            if node.ending:
                stack.extend(reversed(node.ending))
            stack.extend(reversed(node.steps))
        elif kind is Group:
            stack.extend(reversed(node.steps))
        elif kind is Each:
            stack.extend(reversed(node.parts))
        elif kind is Either and node.readings:
            first = node.readings[0]
            stack.extend(reversed(first if isinstance(first, (list, tuple)) else [first]))
