"""Brackets: groups worked into one place, repeats, counts, remarks, what counts as a stitch. Which it is, what follows tells."""

from dataclasses import replace

from hookwright.ground import Span

from .steps_asides import AsideReading
from .steps_frame import MAKING, MOST_DEPTH, Frame
from .steps_gather import GatherReading
from .tree import Chain, Either, Extent, Group, Note, Place, Repeat, Skip, Stitch, Unread

_AFTER_MORE = frozenset(("TIMES", ",", ".", ";", "END", "IN", "(", "[", "AROUND", "ACROSS"))


class GroupReading(GatherReading, AsideReading):
    """Reads brackets and lists of steps in one place."""

    def act_bracket(self, frame) -> bool:
        k, start = self.k, self.i
        close = self.match[start]
        if close < start:
            return self._unclosed(frame)
        if k[start + 1] in ("YO", "DRAW") and self.act_described(frame) and self.i > start:
            return True
        self.i = start
        if k[start + 1] in ("LEAVE", "HOLD") and k[start + 2] == "LAST" and k[start + 3] == "SP":  # "(leaving last loop of each on hook, 1 tr in next 2 sts, yoh, through all loops)"
            self.i = start + 1
            if self.act_described(frame) and self.i <= close:
                self.i = close + 1
                return True
            self.i = start
        if "AS" in k[start:close]:
            told = next((at for at in range(start + 1, min(start + 5, close)) if k[at] in ("COUNT", "W", "U", "HAVE") and self.counting_told(at) == close and not self._counts_its_chain(start, at)), 0)
            if told:  # "(counting each ch-1 sp as a st)"
                self.i = close + 1
                frame.steps.append(Note(self.text[self.e[start]:self.s[close]].strip(), Span(self.s[start], self.e[close])))
                return True
        if k[start + 2] == "=" and self.names_a_group(start + 1) and self.told_of_last(frame, start, close):
            return True
        follows = self._follows(close)
        if (follows != "steps" or k[start + 1] == "COUNT") and self.says_in_brackets(frame, close):
            return True
        if self._is_times(frame, start, close) or k[start + 1] == "REP" and self._is_repeat(frame, start, close):
            return True
        if follows != "steps" or k[start + 1] == "NUM" and close == start + 2:
            stated = self.count_in_brackets(start, close)
            worked = any(kind == "ST" for kind in k[start:close])
            if stated is not None and not (worked and (follows == "steps" or not self.depth and not self._made_before(frame, start))):
                self.i = close + 1
                if self.depth == 0 or stated.items[0][1] == "row":
                    self.put_stated(frame, stated)
                return True
        if self._is_remark(frame, start, close, follows):
            return True
        return self._steps_in_brackets(frame, start, close)

    def _counts_its_chain(self, start: int, at: int) -> bool:
        """ "(24 dc, counting ch 3 as dc)": a count with its turning chain, and no word about the spaces of a mesh."""
        k = self.k
        return k[start + 1] == "NUM" and k[at + 1] == "CH" and "SP" not in k[at:at + 6] and "EACH" not in k[at:at + 3]

    def _made_before(self, frame, start: int) -> bool:
        """Whether anything has been worked before in this row, so that a bracket may hold its count."""
        if start == 0 and not frame.steps and self.k[self.match[0] + 1] == ":":
            return True  # "Row 2 - (19 hdc): ..."
        if start == 0 and not frame.steps and self.k[(close := self.match[0]) + 1] in ("CH", "MAGIC", "ST", "NUM", "WORKING", "IN", "JOIN", "MARK"):
            opening, words = self.s[close + 1 + (self.k[close + 1] == "MARK")], self.text[self.s[0]:self.e[close]]
            if self.k[close - 1] == "." or self.text[opening].isupper() and not words.isupper():
                return True  # "(Eight single crochet.) Chain 2, ...", "(8 sc) Ch 2, ..."
        return self.after or any(type(step) not in (Chain, Note) for step in frame.steps) or bool(self.open_marks)

    def _unclosed(self, frame) -> bool:
        """A bracket that is never closed: "(24 sts" at the end is a count; any other is passed over."""
        start = self.i
        end = self.k.index("END", start)
        stated = self.count_in_brackets(start, end)
        if stated is not None and not self.depth:
            self.put_stated(frame, stated)
            self.i = end
            return True
        times = self._times_ahead(start)
        if times < 0:
            self.i = start + 1
            return True
        inner = Frame()
        outer, self.limit = self.limit, times
        self.i = start + 1
        self.sequence(inner, ())
        self.limit = outer
        if not inner.steps or self.i != times:
            self.i = start + 1
            return True
        return self._after_brackets(frame, inner, start, self.k[start])

    def _times_ahead(self, start: int) -> int:
        """Index of the "3 times" before which an open bracket is meant to be closed, -1 where none comes."""
        k = self.k
        for at in range(start + 1, min(len(k) - 1, start + 60)):
            if k[at] in (".", "MARK", "REP", ")", "]"):
                return -1
            if k[at] == "NUM" and k[at + 1] == "TIMES" or k[at] == "TIMESN" or k[at] == "X" and k[at + 1] == "NUM":
                return at
        return -1

    def _follows(self, close: int) -> str:
        """ "steps" where what follows a bracket shows that it holds steps (a place, how often), else ""."""
        k = self.k
        at = close + 1
        if k[at] == "," and k[at + 1] in ("ALL",) and k[at + 2] in ("IN",):
            return "steps"
        kind = k[at]
        if kind == "ALL" and (k[at + 1] in ("IN", "AROUND") or k[at + 1] == "MADE" and k[at + 2] == "IN"):
            return "steps"
        if kind in ("IN", "OVER", "AROUND", "ACROSS", "TOEND", "X", "TIMESN", "EACH", "BETWEEN", "TIMES"):
            return "steps"
        if kind == "MARK" and k[at + 1] == "NUM" and k[at + 2] not in ("ST", "CH", "OWN", "HY"):
            return "steps"
        if kind == "AT" and self._at_corner(at):
            return "steps"
        if kind == "NUM" and k[at + 1] in ("TIMES", "MORE", "X") or kind == "MORE" and k[at + 1] == "NUM" and k[at + 2] == "TIMES":
            return "steps"
        if kind == "DASH" and k[at + 1] == "NUM" and k[at + 2] in ("TIMES", "X"):
            return "steps"
        if kind in ("TO", "UNTIL") and k[at + 1] in ("LAST", "NUM", "ENDING", "NEXT"):
            return "steps"
        if kind == "REP" and k[at + 1] in ("NUM", "AROUND", "ACROSS", "TOEND", "TO", "TIMESN", "X", "MORE", "(", "UNTIL", "IN"):
            return "steps"
        if kind == "DASH" and k[at + 1] in ("FIRST",) and k[at + 2] in ("ST", "OWN") or self._names_the_first(at):
            return "steps"
        if kind in ("ST", "OWN") and k[at + 1] in ("IN", "OVER", "AROUND") and self.names_a_group(at):  # "(5 dc) shell in next st"
            return "steps"
        return ""

    def _at_corner(self, at: int) -> bool:
        """Whether "at the corner", "at each corner" begins at token `at`."""
        at += 1
        while self.k[at] in ("EACH", "ALL", "NEXT", "NUM", "OF", "THIS", "FIRST", "SAME"):
            at += 1
        return self.k[at] == "SP" and self.v[at] == "corner"

    # ------------------------------------------------------------ steps in brackets

    def _steps_in_brackets(self, frame, start: int, close: int) -> bool:
        if self.depth >= MOST_DEPTH:
            return False
        findings = len(self.read.findings)
        self.i = start + 1
        place = self._place_leads(close)
        if self.context is not None and self.context.which == "from hook" and isinstance(self.context.ordinal, int) and self.context.ordinal > 1 and self._follows(close):
            self.put(frame, Skip(Place("first", "ch", self.context.ordinal - 1), span=self.context.span))  # "starting in 2nd ch from hook, [sc, dc] 8 times": its first pass alone
            self.context = None
        inner = self.inside_brackets(self.i - 1, close)
        steps = inner.steps
        if self._explains(frame, steps, start, close):
            return True
        mark = self.k[start]
        unworked = all(type(step) in (Note, Unread) for step in steps)
        if place is not None and not unworked:
            frame.steps.append(Group(steps, place, span=self.span(start)))
            return True
        if unworked:  # nothing that is worked: a remark ("(under the chain, not in it)")
            del self.read.findings[findings:]
            frame.steps.append(Note(self.text[self.e[start]:self.s[close]].strip(), self.span(start)))
            return True
        return self._after_brackets(frame, inner, start, mark)

    def _explains(self, frame, steps: list, start: int, close: int) -> bool:
        """ "dec (dc the first 2 sts together)", "inc (2 sc in first st)": how the increase or decrease before the bracket is made."""
        told = frame.steps[-1] if frame.steps else None
        if type(told) is not Stitch or told.kind not in ("inc", "dec") or told.n != 1 or told.place is not None or self.k[start - 1] != "ST" or len(steps) != 1 or self._follows(close):
            return False
        how = steps[0]
        if type(how) is not Stitch or not isinstance(how.kind, str) or not (
            how.kind.endswith("2tog") or how.kind == "dec" if told.kind == "dec" else how.n == 2 and how.place is not None and how.place.n == 1
        ):
            return False
        if told.kind == "dec" and how.kind != "dec":
            told.kind, told.base, told.over = how.kind, None, how.over
        elif told.kind == "inc":
            told.base = how.kind
        if how.place is not None and how.place.which in ("first", "last"):
            told.place = how.place
        told.span = told.span.to(self.span(start))
        return True

    def inside_brackets(self, start: int, close: int):
        """The frame of the steps after token `start` up to the closing bracket, which is passed."""
        inner = Frame()
        self.i = start + 1
        self.depth += 1
        marks, self.open_marks = self.open_marks, []
        while True:
            self.sequence(inner, (self.k[close],))
            if self.k[self.i] == "END" or self.i >= close:
                break
            self.i += 1
        self.open_marks = marks
        self.depth -= 1
        self.i = close + 1
        return inner

    def _place_leads(self, close: int) -> Place | None:
        """ "(in corner - dc, ch 1, dc)": the place said first."""
        if self.k[self.i] != "IN":
            return None
        keep = self.i
        place = self.place()
        if place is not None and self.k[self.i] in ("DASH", ":", ","):
            self.i += 1
            return place
        self.i = keep
        return None

    def _after_brackets(self, frame, inner, start: int, mark: str) -> bool:
        """What is done with the steps of a bracket: so often, as far as, into a place."""
        k, steps = self.k, inner.steps
        if k[self.i] == "MARK" and k[self.i + 1] == "NUM" and k[self.i + 2] not in ("ST", "CH", "OWN", "HY"):
            self.i += 2
            return self._repeated(frame, steps, self.v[self.i - 1], start, mark)
        if k[self.i] == "REP":
            return self.bracket_repeat(frame, steps, start, mark)
        times = self.times_in_all()
        if times is None and k[self.i:self.i + 3:2] == ["MORE", "TIMES"] and k[self.i + 1] == "NUM" and isinstance(self.v[self.i + 1], int):
            begun = any(type(step) in (Stitch, Group, Repeat) or type(step) is Chain and (step.n != 1 or step.says is not None and step.says.counts) for step in frame.steps)
            times = self.v[self.i + 1] + (not begun)  # "another 5 times"
            self.i += 3
        if times is None and k[self.i] == "NUM" and k[self.i + 1] == "MORE" and k[self.i + 2] in _AFTER_MORE and isinstance(self.v[self.i], int):
            # "ch 3, 2 dc in ring, (ch 2, 3 dc in ring) 3 more times": what stands before is the first of them
            begun = any(type(step) in (Stitch, Group, Repeat) or type(step) is Chain and (step.n != 1 or step.says is not None and step.says.counts) for step in frame.steps)
            times = self.v[self.i] + (not begun)
            self.i += 2 + (k[self.i + 2] == "TIMES")
        if times is not None:
            return self._repeated(frame, steps, times, start, mark)
        if k[self.i] == "ALL" and (k[self.i + 1] == "IN" or k[self.i + 1] == "MADE" and k[self.i + 2] == "IN"):
            self.i += 1 + (k[self.i + 1] == "MADE")
        if k[self.i] == "YOU" and self.last_limit is not None and self._word(self.i) == "there" and self.last_limit.which in ("next", "last", "marked"):  # "dc to the centre sp, (2 dc, ch 2, 2 dc) there"
            self.i += 1
            return self._placed_group(frame, steps, replace(self.last_limit, n=1, extent=None), start)
        here = self.i
        named = self.v[here] if k[here] in ("ST", "OWN") and k[here + 1] in ("IN", "OVER", "AROUND") and self.names_a_group(here) else None
        if named is not None:
            self.i += 1
            place = self.place()
            if place is not None:
                name = named if isinstance(named, str) else getattr(named, "name", "") or named.kind
                return self.put(frame, Group(steps, place, name=name, span=self.span(start)))
            self.i = here
        if k[here] == "IN" and k[here + 1] == "EACH" and k[here + 2] in ("OTHER", "ORD") and k[here + 3] == "STN" and k[here + 4] != "OF":
            return self.group_in_every(frame, steps, start)
        if k[here] == "ACROSS" and k[here + 1] == "SIDE" and "corner" in self.v:
            return self.put_repeat(frame, Repeat(steps, extent=self._along_side(), mark=mark), start)
        place = self.place() if k[here] in ("IN", "OVER", "EACH", "AROUND", "BETWEEN", "ACROSS", "NEXT") or k[here] == "AT" and self._at_corner(here) else None
        if self.ring_wanted:
            self.make_ring(frame)
        if place is not None and not (place.which == "next" and place.n is None and place.of == "st" and k[here] in ("ACROSS", "AROUND")):
            if self.found_loop:
                place.loop = self.found_loop
            if len(steps) == 1 and type(steps[0]) is Group and steps[0].makes and steps[0].place is None:  # "(ch 3, dc2tog - counts as cluster) in same sp"
                steps[0].place = place
                return self.put(frame, steps[0])
            return self._placed_group(frame, steps, place, start)
        self.i = here
        if k[here] in (",", ";") and k[here + 1] in ("TO", "UNTIL") and k[here + 2] == "LAST" and len(steps) > 1:
            self.i += 1  # "(sc in 3 sts, bobble), to last st, sc"
        extent = self.extent()
        if extent is not None:
            return self.put_repeat(frame, Repeat(steps, extent=extent, mark=mark), start)
        self.i = here
        named = self._names_the_first(self.i)
        if named and self._closes_first(steps):
            self.i = named - 1  # "(ch 3, 3 dc in ring) - counts as first popcorn"
            return self._named_group(frame, steps, start)
        if k[self.i] in ("DASH", "=") and k[self.i + 1] in ("FIRST", "BEG", "ST", "OWN") and self._closes_first(steps):
            return self._named_group(frame, steps, start)
        if self.context is not None and self.context_is_space() and not any(getattr(step, "place", None) for step in steps) and len(steps) > 1:
            place = self._context_place()
            frame.steps.append(Group(steps, place, span=self.span(start)))
            return True
        if len(steps) == 1 and type(steps[0]) is Group and steps[0].makes and steps[0].place is None:
            steps[0].place = self._begun_in(frame)
        ends = self.i + (k[self.i] in (",", ";"))
        if k[ends] == "ENDING" and k[ends + 1] in ("WITH", "ST", "NUM") and len(steps) > 1 and not self.depth:
            return self.put_repeat(frame, Repeat(steps, extent=Extent(), mark=mark), start)  # "[sc, dc], ending with a sc"
        frame.bracket = (len(frame.steps), len(frame.steps) + len(steps))
        if len(steps) > 1 and not any(getattr(step, "place", None) for step in steps) and self._group_like(steps):
            frame.steps.append(Group(steps, None, span=self.span(start)))
            frame.bracket = (len(frame.steps) - 1, len(frame.steps))
            return True
        if mark in "([" and any(type(step) in MAKING for step in steps) and self._may_explain(frame, start):
            words = self.text[self.e[start]:self.s[self.i - 1]].strip()
            span = self.span(start)
            frame.bracket = None
            frame.steps.append(Either([steps, [Note(words, span)]], f"({words}) may be worked here, or tell in other words what stands before it", span))
            return True
        frame.steps.extend(steps)
        return True

    def _may_explain(self, frame, start: int) -> bool:
        """Whether a bracket with no number of times and no place stands right behind a stitch or its place, where it may explain that."""
        before = self.last_step(frame)
        return type(before) in (Stitch, Repeat) and before.span.end <= self.s[start] and self.k[start - 1] not in (",", ";", ".", ":", "DASH", "MARK", "AND", "]", ")", "+", "/")

    def _along_side(self) -> Extent:
        """ "along side", "across side to next corner" in a round with corners: up to the next of them."""
        k, start = self.k, self.i
        self.i += 2
        while k[self.i] in ("OF", "SP", "THIS") and self.v[self.i] != "corner":
            self.i += 1
        if k[self.i] in ("TO", "UNTIL"):
            extent = self.extent()
            if extent is not None:
                return extent
        return Extent("place", place=Place("next", "corner"), span=self.span(start))

    def _begun_in(self, frame) -> Place | None:
        """The space that was slip stitched into just before: the first cluster goes there."""
        last = self.last_step(frame)
        inside = type(last) is Stitch and last.kind == "slst" and last.place is not None and last.place.of in ("sp", "corner")
        return Place("same", last.place.of) if inside else None

    def _group_like(self, steps) -> bool:
        return any(type(step) is Chain for step in steps) and type(steps[0]) is Stitch and type(steps[-1]) is Stitch and all(
            type(step) in (Chain, Stitch) for step in steps
        )

    def context_is_space(self) -> bool:
        """Whether the place said before is a space: "working in next ch-3 sp", "working in ch 3 space of each block"."""
        return self.context.of in ("sp", "gap") or self.context.part == "sp"

    def _context_place(self) -> Place:
        return replace(self.context)

    def in_spaces(self, steps: list) -> list:
        """Steps of a repeat; where "working into the spaces" was said before and they have no place, all into one space."""
        if self.context is None or not self.context_is_space() or any(getattr(step, "place", None) for step in steps):
            return steps
        return [Group(steps, self._context_place(), span=steps[0].span.to(steps[-1].span))]

    def _names_the_first(self, at: int) -> int:
        """Where the name begins in "counts as first popcorn" or "- counts as first cluster" behind a bracket; 0 where there is none."""
        k = self.k
        at += k[at] in ("DASH", ",", "=")
        if k[at] != "COUNT" or k[at + 1] != "AS" or k[at + 2] != "FIRST" or k[at + 3] not in ("ST", "OWN"):
            return 0
        fact = self.lexicon.fact(self.v[at + 3]) if k[at + 3] == "ST" else None
        return at + 2 if fact is None or fact.kind not in ("basic", "post") else 0

    def _closes_first(self, steps) -> bool:
        return type(steps[0]) is Chain and len(steps) > 1

    def _named_group(self, frame, steps, start: int) -> bool:
        """ "(ch 3, 4 dc in loop) - first popcorn stitch"."""
        place = None
        last = steps[-1]
        if type(last) is Stitch and last.place is not None:
            place, last.place = last.place, None
        frame.steps.append(Group(steps, place or self._begun_in(frame), span=self.span(start)))
        self.i += 1
        self.naming(frame, True)
        return True

    def _repeated(self, frame, steps, times, start: int, mark: str) -> bool:
        """ "(...) 3 times", perhaps with a place for all of it: "(pop, ch 3) x 2 in each ch sp around"."""
        k = self.k
        step = Repeat(self.in_spaces(steps), times, mark=mark)
        step.span = self.span(start)
        if k[self.i] in ("IN", "EACH") or k[self.i] == "ALL" and k[self.i + 1] == "IN":
            keep = self.i
            if k[self.i] == "ALL":
                self.i += 1
            place = self.place()
            if self.ring_wanted:
                self.make_ring(frame)
            if place is not None:
                frame.steps.append(Group([step], place, span=self.span(start)))
                return True
            self.i = keep
        frame.steps.append(step)
        self.repeat_tail(frame, step)
        return True

    def _placed_group(self, frame, steps, place: Place, start: int) -> bool:
        """ "(2 dc, ch 2, 2 dc) in next ch-2 sp [and in next sp]"."""
        k = self.k
        if place.which == "same" and self.context is not None and self.context_is_space() and not self.moved:
            place = self._context_place()
        step = Group(steps, place, span=self.span(start))
        self.put(frame, step)
        self.moved = True
        while k[self.i] == "AND" and k[self.i + 1] in ("IN", "NEXT"):
            keep = self.i
            self.i += 1
            again = self.place()
            if again is None or self._place_begins_anew(again):
                self.i = keep
                break
            frame.steps.append(Group(list(steps), again, span=self.span(start)))
        times = self.times_after_stitch()
        if times is not None:
            group = frame.steps.pop()
            frame.steps.append(Repeat([group], times, mark="(", span=self.span(start)))
        elif k[self.i] in ("AROUND", "ACROSS", "TOEND") and place.extent is None:
            return self.bare_around(frame)
        return True
