"""A row's words into steps of the instruction tree: `read_steps`. Reading is tolerant; what can't be read is kept and said."""

from dataclasses import dataclass, field, replace

from hookwright.ground import MUST_MEND, Finding, Span

from .chains_for_stitches import say_what_counts
from .counts import CountReading
from .places import PlaceReading
from .remarks import keep_whole
from .repeats import RepeatReading
from .repeats_grown import take_growth
from .repeats_last import drop_what_was, say_repeat
from .round_goal import RoundGoal, take_goal
from .shaping_explained import drop_explained
from .steps_acts import acts
from .steps_asides import drop_loop_told
from .steps_chain import ChainReading
from .steps_count_first import CountFirstReading
from .steps_described import DescribedReading
from .steps_frame import MAKING, Frame
from .steps_groups import GroupReading
from .steps_other import OtherReading
from .steps_place_first import to_each
from .steps_stitch import StitchReading
from .steps_unread import UnreadReading
from .steps_where import loops_to_places, told_of_pieces
from .steps_whole import WholeRowReading
from .tokens import tokenise
from .tree import Chain, Either, Note, Stated, Stitch, Unread
from .words import Lexicon

MOST_LETTERS = 60_000
MOST_TOKENS = 4000  # a row of more words than this is not read: no row of a pattern is as long
MOST_NESTING = 60  # lists of steps within one another


class TooMuch(Exception):
    """A row so entangled that reading it would take too long."""


@dataclass(slots=True)
class StepsRead:
    """What a row's words say: its steps, the counts stated in it, remarks, findings of the reading, and what a round is to come down to."""

    steps: list = field(default_factory=list)
    stated: list = field(default_factory=list)
    notes: list = field(default_factory=list)
    findings: list = field(default_factory=list)
    goal: RoundGoal | None = None


def read_steps(text: str, start: int, end: int, lexicon: Lexicon, *, in_round: bool = False, first_row: bool = False, after: bool = False) -> StepsRead:
    """Steps and stated counts of the row body `text[start:end]`; `text` is cleaned (see clean).

    in_round: worked in the round ("slip stitch in first st" at the end joins). first_row: worked into a foundation chain or ring.
    after: the row is worked by what stands before `start` ("As Row 2"), so that a count may follow at once.
    Findings: unknown-word, cannot-read, size-list-length, repeat-mark-alone, row-too-long.
    """
    if end - start > MOST_LETTERS:
        return _not_read(text, start, end, f"it is longer than a row is read to ({MOST_LETTERS:,} letters)")
    tokens = tokenise(text, start, end, lexicon)
    read = StepsRead()
    if len(tokens.kinds) > MOST_TOKENS:
        return _not_read(text, start, end, f"it has more words and marks than a row is read to ({MOST_TOKENS:,})")
    reader = Reader(tokens, lexicon, in_round, first_row, read)
    reader.after = after
    try:
        read.steps = reader.whole()
    except (TooMuch, RecursionError):
        return _not_read(text, start, end, "too many repeats and brackets stand inside one another")
    _so_far(read, tokens.starts[0])
    if "UNTIL" in tokens.kinds and reader.in_round:
        read.goal = take_goal(read.steps, text)
    if "LOOP" in tokens.kinds:
        loops_to_places(read.steps)
    keep_whole(read.steps, tokens, start)
    reader.say_guesses()
    return read


def read_count(text: str, start: int, end: int, lexicon: Lexicon) -> Stated | None:
    """The count that is all of `text[start:end]`, which stands apart from the steps of its row; None where it is none."""
    tokens = tokenise(text, start, end, lexicon)
    return Reader(tokens, lexicon, False, False, StepsRead()).only_count() if len(tokens.kinds) < 60 else None


def _not_read(text: str, start: int, end: int, why: str) -> StepsRead:
    """A row that is given up, with what is said of it."""
    span = Span(start, end)
    words = text[start:min(end, start + 80)].strip()
    finding = Finding("cannot-read", MUST_MEND, f"The row that begins `{words}` is not read: {why}.", span)
    return StepsRead([Unread(words, span=span)], findings=[finding])


def _so_far(read: StepsRead, begin: int) -> None:
    """Counts with stitches after them are of the row so far; one with which the row begins is of all of it."""
    if not read.stated:
        return
    end = max((step.span.end for step in read.steps if type(step) in MAKING and getattr(step, "kind", "") != "slst"), default=-1)
    if len(read.stated) > 1 and any(type(step) is Chain and read.stated[0].span.end <= step.span.start < read.stated[-1].span.start for step in read.steps):
        end = max(end, read.stated[-1].span.start)  # "... sc in each st across (27 sc), ch 2, join. (102 sc)"
    for stated in read.stated:
        if begin < stated.span.start and stated.span.end <= end and not stated.per and stated.items[0][1] != "row" and any(
            step.span.start >= stated.span.end for step in read.steps if type(step) in MAKING or type(step) is Chain
        ):
            stated.per = "so far"


_OPENING = frozenset(("(", "[", "{", "|", "QO"))
_BRACKETS = _OPENING | {")", "]", "}", "QC"}
_CLOSING = frozenset((")", "]", "}"))  # one that nothing opened is passed over
_FAR_FIRST = frozenset(("ACROSS", "OVER", "ON", "FIRST", "NEXT", "NUM", "TO", "TOEND"))  # how far, with no stitch named: "work across 14 sts"
_SEPARATORS = frozenset((",", ";", ".", ":", "AND", "HY", "QO", "QC", "'", "+", "/"))


_SIDES = frozenset(("SIDE", "OPPOSITE", "BASE"))


class Reader(WholeRowReading, PlaceReading, StitchReading, ChainReading, OtherReading, GroupReading, RepeatReading, CountReading, CountFirstReading, DescribedReading, UnreadReading):
    """Reads one row by recursive descent; `i` is the token at hand, k, v, s, e the tokens' kinds, values, starts and ends."""

    def __init__(self, tokens, lexicon: Lexicon, in_round: bool, first_row: bool, read: StepsRead):
        if tokens.kinds.count("MARK") > 3:
            say_repeat(tokens)
        if "LOOP" in tokens.kinds and "(" in tokens.kinds:
            drop_loop_told(tokens)
        if "REPLACE" in tokens.kinds or "INSTEAD" in tokens.kinds:
            say_what_counts(tokens)
        if ("inc" in tokens.values or "dec" in tokens.values or "invdec" in tokens.values) and ("(" in tokens.kinds or "[" in tokens.kinds or "DASH" in tokens.kinds):
            drop_explained(tokens)
        self.replaced = drop_what_was(tokens) if "INSTEAD" in tokens.kinds or "NOT" in tokens.kinds else ()
        self.growth = take_growth(tokens) if "BETWEEN" in tokens.kinds or "MORE" in tokens.kinds else None
        if tokens.text.find("o e", tokens.starts[0], tokens.ends[-1]) >= 0 and "EACH" in tokens.kinds:
            to_each(tokens)
        if "LAYERS" in tokens.kinds:
            told_of_pieces(tokens, in_round)
        self.tokens, self.lexicon, self.in_round, self.first_row = tokens, lexicon, in_round, first_row
        self.text = tokens.text
        self.in_round = in_round or "AROUND" in tokens.kinds and "ACROSS" not in tokens.kinds
        self.k, self.v, self.s, self.e = tokens.kinds, tokens.values, tokens.starts, tokens.ends
        self.i = 0
        self.after = False  # the row is worked by a reference before these words
        self.read = read
        self.depth = self.nesting = 0
        self.work_left = 400 + 12 * len(self.k)  # steps that may be tried: far more than any row needs
        self.moved = False  # a stitch has been worked into a place in this row
        self.ring_made = self.ring_wanted = False
        self.found_loop, self.found_layers = "", 1
        self.loop_after = ""  # the loop of a "scblo 10"
        self.row_loop, self.row_layers = "", 1
        self.leaving = False
        self.gap_told = False  # a gap was told by what lies before or after it
        self.named = None  # groups named in this row, by their names
        self.told_of = None  # the group last told beside its name
        self.times_said = None  # the number of a "sc x 6" without brackets
        self.free_row = None  # number of the row whose free loops were named
        self.last_place = None  # the place read last
        self.last_limit = None  # the place that the last "to" or "until" reached
        self.limit = len(tokens.kinds)  # index before which steps are read (a bracket that is never closed)
        self.context = None  # place said before ("working in ch-3 spaces")
        self.evenly = False
        self.between = None  # the chain told to lie between all groups of a round
        self.sides = not _SIDES.isdisjoint(tokens.kinds) or first_row and tokens.text.find("ottom loop", tokens.starts[0], tokens.ends[-1]) >= 0  # a side is spoken of
        self.held = 0  # last loops kept on the hook: "leaving last loop of each on hook, 3 dc in next st"
        self.open_marks: list[str] = []
        self.bold: set[int] = set()
        self.settled: set[int] = set()
        self.stars: dict[str, list] = {}  # mark -> the steps between a pair of it
        self.closers = ()
        if self.k[:2] in (["SHADE", "NUM"], ["U", "NUM"]) and self.text[self.s[0]:self.e[0]].lower() == "mc" and not lexicon.colours & {"mc"} and self.k[2] in ("(", "[", "END", ".", "=", "DASH", "STN"):
            self.k[0] = "MAGIC"  # "mc 6 (6)"
        self.referred = self._marks_referred()
        self.match = self._match_brackets()
        self.told_in_colours()

    # ------------------------------------------------------------ whole row

    def sequence(self, frame: Frame, closers) -> None:
        """Read steps into `frame` until one of `closers`, a repeat that closes an open mark, or the end."""
        outer, self.closers = self.closers, closers
        self.nesting += 1
        if self.nesting > MOST_NESTING:
            raise TooMuch
        self._sequence(frame, closers)
        self.nesting -= 1
        self.closers = outer

    def _sequence(self, frame: Frame, closers) -> None:
        k = self.k
        while True:
            kind = k[self.i]
            if kind == "END" or kind in closers or self.i >= self.limit:
                return
            self.work_left -= 1
            if self.work_left < 0:
                raise TooMuch
            if kind == "MARK":
                ends = self._mark_ends(frame)
                if ends:
                    return
                if ends is None:
                    continue
            if (kind == "REP" or kind == "FROM" and k[self.i + 1] == "MARK") and self.open_marks and self._repeat_ends():
                return
            if kind in _SEPARATORS or kind in _CLOSING:
                if kind == "+" and self.growth_told(frame):
                    continue
                if kind != "AND" and kind != "HY":
                    frame.clause = len(frame.steps)
                    frame.explained = None
                    if kind == ":" and frame.steps and not self.depth:
                        if self.shaping_announced(frame):
                            continue
                        self.announces(frame.steps)
                    told = self.last_step(frame) if kind == ":" else None
                    if type(told) is Stitch and told.kind in ("inc", "dec", "cl", "invdec") and told.place is not None:
                        frame.explained = told
                if kind == "." and self._ends_sentence():
                    frame.sentence_before, frame.sentence = frame.sentence, len(frame.steps)
                    frame.ended = True
                self.i += 1
                continue
            act = ACTS.get(kind)
            start = self.i
            if kind in _FAR_FIRST and self._after_work(start) and self.works_so_far(frame):
                frame.ended = False
                continue
            if (frame.ended or self.after and not frame.steps) and not self.depth and self.tells_length(frame):
                continue
            if self.sides and (not start or k[start - 1] in _SEPARATORS) and self.act_other_side(frame):
                frame.ended = False
                continue
            if act is not None and act(self, frame) and self.i > start:
                frame.ended = False
                continue
            self.i = start
            self.remark(frame, closers)
            frame.ended = False

    def _after_work(self, at: int) -> bool:
        """Whether the verb "work", a word of no weight, stands just before token `at`."""
        return (not at or self.k[at - 1] in _SEPARATORS) and self.text[self.e[at - 1] if at else max(0, self.s[at] - 9):self.s[at]].rstrip(" the").lower().endswith("work")

    def _ends_sentence(self) -> bool:
        k, at = self.k, self.i
        nxt = k[at + 1]
        if nxt in (",", ";", ".", ")", "]") or nxt == "NUM" and at and self._word(at - 1) == "no":
            return False  # "with No. 2 hook"
        if nxt in ("END", "MARK", "(", "[") or not self.text[self.s[at + 1]].islower():
            return True
        return self.text[self.e[at]:self.s[at + 1]].lstrip()[:1].isupper()  # ". Work the other sides": words of no weight come first

    def _match_brackets(self) -> list[int]:
        """For each bracket the index of its partner, -1 where it has none."""
        k = self.k
        match = [-1] * len(k)
        if _OPENING.isdisjoint(k):
            return match
        stack: list[int] = []
        bar = quote = -1
        for index, kind in enumerate(k):
            if kind not in _BRACKETS:
                continue
            if kind in ("(", "[", "{"):
                stack.append(index)
            elif kind in (")", "]", "}"):
                wanted = {")": "(", "]": "[", "}": "{"}[kind]
                for at in range(len(stack) - 1, max(-1, len(stack) - 6), -1):
                    if k[stack[at]] == wanted:
                        match[index], match[stack[at]] = stack[at], index
                        del stack[at:]
                        break
            elif kind == "|":
                if bar < 0:
                    bar = index
                else:
                    match[index], match[bar] = bar, index
                    bar = -1
            elif kind == "QO":
                quote = index
            elif kind == "QC" and quote >= 0:
                match[index], match[quote] = quote, index
                quote = -1
        return match

    # ------------------------------------------------------------ small things used everywhere

    def span(self, start: int) -> Span:
        """The span of tokens from `start` up to the one at hand."""
        return Span(self.s[start], self.e[self.i - 1])

    def last_step(self, frame: Frame):
        """The last step that is no remark, or None."""
        for step in reversed(frame.steps):
            if type(step) is not Note:
                return step
        return None

    def put(self, frame: Frame, step) -> bool:
        if frame.explained is not None:
            told = frame.explained
            if told is self.last_step(frame) and getattr(step, "place", None) is not None and step.place.n == 1:
                frame.steps.remove(told)  # "inc in next st to turn the corner: (hdc, sc, hdc) in same st" says one thing twice
                if step.place.which == "same" and told.place.which != "same":
                    step.place = told.place
            frame.explained = None
        if type(step) is Stitch and step.n == 2 and step.place is not None and step.place.which == "same" and step.place.of == "st" and frame.steps and self._may_be_next(frame.steps[-1], step):
            step = Either([[step], [replace(step, place=replace(step.place, which="next"))]], "\"in the same st\" may be the stitch worked into just before or the next one", step.span)
        frame.steps.append(step)
        if type(step) is Stitch and step.place is not None and step.kind != "slst":
            self.moved = True
        return True


    def _may_be_next(self, before, step) -> bool:
        """ "4 sc, 2 sc in the same st" of a toy: two in one, after several that say no place."""
        return type(before) is Stitch and before.place is None and before.kind == step.kind and isinstance(before.n, int) and (before.n > 1 or bool(self.open_marks or self.depth))


ACTS = acts(Reader)
