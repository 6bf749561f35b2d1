"""Repeats without marks: "Repeat around.", "4 times.", "continue around", "2 sc in next st around"."""

import re
from copy import copy
from dataclasses import replace

from hookwright.ground import Number

from .patterns import Lazy
from .tree import Chain, Colour, Either, Extent, FastenOff, Group, Join, JoinYarn, Note, Place, Repeat, Ring, Skip, Stitch, Turn

_THEN = Lazy(r"\b(?:then|now|from\s+here)\b", re.I)
BEGINNING = (Chain, Turn, Join, JoinYarn, Colour, Note, Ring)


def _once(steps: list) -> list:
    """One of the equal stretches that the steps are made of: "sc, inc, sc, inc, and so on" has two of "sc, inc"."""
    for length in range(1, len(steps) // 2 + 1):
        if len(steps) % length == 0 and steps == steps[:length] * (len(steps) // length):
            return steps[:length]
    return steps


def _broken_off(steps: list) -> tuple[list, list] | None:
    """ "skip 1, dc, ch 1, skip 1, dc, and so on": what comes first, and what follows it again and again; None where nothing was begun anew."""
    for length in range(2, len(steps) - 1):
        begun = len(steps) % length
        if begun and len(steps) > length + 1 and all(steps[at] == steps[at - length] for at in range(length, len(steps))):
            again = steps[begun:length] + steps[:begun]
            return (steps[:begun], again) if any(type(step) in (Chain, Skip) for step in again) else None
    return None


def _anchored(steps: list) -> bool:
    """Whether a stitch in the first place, what goes into spaces, and the same stitch in the next place stand there: "sc in first sc, 5 dc in next sp, sc in next sc"."""
    first, last = steps[0], steps[-1]
    if len(steps) < 3 or type(first) is not Stitch or type(last) is not Stitch or first.kind != last.kind or first.place is None or last.place is None:
        return False
    return first.place.which in ("first", "same") and last.place.which == "next" and last.place.n == 1 and any(getattr(getattr(step, "place", None), "of", "") in ("sp", "group") for step in steps[1:-1])


def _begun_apart(steps: list) -> bool:
    """Whether stitches in the first few places stand before what passes some over: "hdc in first 2 sts, skip 1, 2 hdc in next"."""
    place = getattr(steps[0], "place", None)
    return len(steps) > 2 and type(steps[0]) is Stitch and place is not None and place.which == "first" and isinstance(place.n, int) and place.n > 1 and type(steps[1]) is Skip


def _as_many_again(steps: list) -> bool:
    """Whether the steps pass some over and make as many more in the next: "skip 1, 2 hdc in next", which is a repeat by itself."""
    if len(steps) != 2 or type(steps[0]) is not Skip or type(steps[1]) is not Stitch or steps[1].place is None or steps[1].place.n != 1:
        return False
    passed = steps[0].place.n
    return isinstance(passed, int) and steps[1].n == passed + 1


_TIMES_SAID = frozenset(("TIMES", "TIMESN", "X", "NUM"))


class BareRepeatReading:
    """Reads repeats whose beginning is not marked."""

    def act_again_extent(self, frame) -> bool:
        """ "..., across", "... to end", "twice", "x 6" as words of their own."""
        if self.k[self.i] == "ACROSS" and self.act_other_sides(frame):
            return True
        if self.k[self.i] == "ACROSS" and self.k[self.i + 1] == "NUM" and self.so_many_worked_in(frame, self.i + 1):
            return True
        if self.k[self.i] in ("ACROSS", "TOEND"):
            return self.again_extent(frame)
        k, at = self.k, self.i
        if k[at] == "MORE" and k[at + 1] == "ST" and at and k[at - 1] in (",", ";", ".", "AND") and k[at + 2] in (",", ";", ".", "END", "(", "[", "IN", "TURN"):
            self.i = at + 1  # "dec, sc to last 2, again dec": one more of them
            return self.act_stitch(frame)
        return self.again_times(frame)

    def again_times(self, frame) -> bool:
        """ "4 times.", "x 6", "twice more" after steps: all of them again."""
        start, last = self.i, self.last_step(frame)
        if self.k[start] == "NUM" and self.k[start + 1] == "REP" and self.k[start + 2] in (".", "END") and type(last) is Repeat and last.times is None and last.extent is not None:
            self.i = start + 2  # "4 repeats.": how often the repeat came out
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        times, sense, extent, _ = self.how_often("total")
        if times is None or not frame.steps or type(frame.steps[-1]) is FastenOff:  # "Fasten off, and make five more"
            self.i = start
            return False
        if sense == "more" and self._then_more(frame, start, times):
            return True
        return self.bare_repeat(frame, start, times, sense, None)

    def _then_more(self, frame, start: int, times) -> bool:
        """ "1 tr, ch 1, then 2 tr, ch 1 another five times": only what stands after "then" is worked so often, in all."""
        steps = frame.steps
        for index in range(len(steps) - 1, 0, -1):
            if self._word(start) == "another" and re.search(r"\bthen\b", self.text[steps[index - 1].span.end:steps[index].span.start], re.I):
                steps[index:] = [Repeat(steps[index:], times, span=self.span(start))]
                self.moved = True
                return True
        return False

    def again_extent(self, frame, onward: bool = False, lately: bool = False) -> bool:
        """ "around", "to last 3 sts" by itself: the steps before as far as that; nothing new where they go so far already."""
        start = self.i
        extent = self.extent()
        last = self.last_step(frame)
        if extent is None or last is None:
            self.i = start
            return False
        if not onward and (self.k[self.i] == "TIMESN" or self.k[self.i] == "NUM" and self.k[self.i + 1] == "TIMES") and self.i > start and type(last) is not Repeat:
            return self.bare_repeat(frame, start, self.times_in_all())  # "3 sc, inc, all round six times"
        if not onward:
            if type(last) in (Either, Join, Turn) or type(last) is Repeat and (last.times is None or extent.kind == "end" and self.k[start] == "AROUND" and self.k[start - 1] in _TIMES_SAID):
                return True  # so, too, "(sc, inc) 6 times all round", which is told twice
            place = getattr(last, "place", None)
            if place is not None and place.extent is not None:
                return True
        return self.bare_repeat(frame, start, None, "total", extent, onward, lately=lately)

    def _head(self, steps: list) -> int:
        """Index of the first step that is repeated: chains, joins and travelling at the beginning are not."""
        head = 0
        while head < len(steps):
            step = steps[head]
            if type(step) in BEGINNING or type(step) is Stitch and step.kind == "slst" and head < len(steps) - 1:
                head += 1
            else:
                break
        last = steps[-1] if steps else None
        if head and head == len(steps) - 1 and type(steps[head - 1]) is Chain and type(last) is Stitch and last.kind in ("sc", "slst") and last.n == 1 and isinstance(steps[head - 1].n, int) and steps[head - 1].n > 2 and steps[head - 1].says is None:
            head -= 1  # "chain 5, sc between petals; repeat all around": a loop each time
        if head == len(steps):  # nothing but a chain: that is repeated
            head = max(0, head - 1)
        return head

    def bare_repeat(
        self, frame, start: int, times: Number | None = None, sense: str = "total", extent: Extent | None = None, onward: bool = False,
        this: bool = False, lately: bool = False,
    ) -> bool:
        """Repeat the row's steps so far (or the last sentence, where that is less): the likelier first.

        lately: "do that all the way": rather the last sentence. onward: "continue in this way": where a star was met, what stands before it is not repeated.
        """
        steps = frame.steps
        if not steps:
            return False
        if times is None and all(type(step) in BEGINNING for step in steps):
            return True  # "ch 1, across ...": nothing yet that could be repeated
        span = self.span(start)
        head = self._head(steps)
        if onward and head < len(steps) - 1 and getattr(getattr(steps[head], "place", None), "which", "") == "first" and type(steps[head]) is Stitch and not steps[head].place.group and steps[head].place.of not in ("sp", "corner", "group") and steps[head].place.extent is None \
                and all(getattr(getattr(step, "place", None), "of", "st") != "st" or type(step) is Chain for step in steps[head + 1:]) and any(getattr(getattr(step, "place", None), "of", "") == "sp" for step in steps[head + 1:]):
            head += 1  # "sc in first dc, 2 sc in the hole, sc in the dc, over and over": the first comes but once
        marked = onward and next((index for index, step in enumerate(steps) if type(step) is Repeat and step.mark and step.times is None and not (step.mark in ("(", "[", "{") and step.extent is not None and step.extent.kind == "place")), None)
        if type(marked) is int:
            head = marked
        if 0 < head < len(steps) - 1 and times is None and type(steps[head]) is Skip and type(steps[head - 1]) is Chain and steps[head - 1].says is None and not any(type(step) is Chain for step in steps[head:]) and isinstance(steps[head - 1].n, int) and steps[head - 1].n > 3:
            head -= 1  # "ch 4, miss 2, sc in next, all round": without the chain there would be no arches
        sentence = frame.sentence if frame.sentence < len(steps) else frame.sentence_before
        sentence = max(sentence, head)
        if sentence >= len(steps):
            sentence = head
        if this:  # "repeat this": the sentence just said
            head = sentence
        before, whole = steps[:head], steps[head:]
        if not whole:
            return False
        if times is None and len(whole) == 1 and type(whole[0]) is Stitch and whole[0].place is not None and whole[0].place.which == "from hook":
            self.put(frame, replace(whole[0], place=Place("next", "ch", None, extent or Extent()), span=span))  # "sc in 2nd ch from hook; rep across"
            return True
        if times is None:
            whole = _once(whole)
        if onward and times is None and (parts := _broken_off(whole)):
            steps[:] = [*before, *parts[0], self._bare(parts[1], [None], None, sense, extent, span)]
            self.moved = True
            frame.sentence = frame.sentence_before = len(steps)
            return True
        if sense == "unclear" and times is not None:
            sense = "total"
        everything = [*before, self._bare(whole, steps[:head], times, sense, extent, span)]
        then = False
        if onward and marked is None and sentence > head and len(steps) - sentence > 1:  # "Miss 2. Then 1 tr, 3 ch, miss 2, and carry on like that": rather from "then" on
            then = _THEN.search(self.text, steps[sentence - 1].span.end, steps[sentence].span.start) is not None
            lately, onward = lately or then, False
        if sentence > head and len(steps) - sentence >= 1 and (not onward or lately):
            part = [*steps[:sentence], self._bare(steps[sentence:], [None], times, sense, extent, span)]
            why = "\"repeat\" may mean all steps so far or only the last sentence"
            readings = [everything[len(before):], part[len(before):]]
            if then or lately and getattr(getattr(steps[head], "place", None), "which", "") in ("first", "same"):
                steps[:] = part  # "sc in first st. Now ch 1, skip 1, sc in next, and we do that to the end"
            else:
                steps[:] = [*before, Either(readings[::-1] if lately else readings, why, span)]
        elif times is None and (not onward and _anchored(whole) or _begun_apart(whole)):
            rest = [whole[0], self._bare(whole[1:], [None], times, sense, extent, span)]  # "sc in first sc, 5 dc in next sp, sc in next sc, repeat across"
            steps[:] = [*before, *rest] if _as_many_again(whole[1:]) else [*before, Either([rest, everything[len(before):]], "the stitch in the first place may be repeated or not", span)]
        else:
            steps[:] = everything
        self.moved = True
        last = steps[-1]
        if type(last) is Repeat:
            self.repeat_tail(frame, last)
        frame.sentence = frame.sentence_before = len(steps)
        return True

    def this_so_often(self, frame, start: int, times: Number, sense: str) -> bool:
        """ "1 dc in next 3 dc, ch 2, skip 2 dc, 1 dc in next dc, do this 18 times": the last sentence, what begins with the last chain, or all steps so far."""
        steps, span = frame.steps, self.span(start)
        head = self._head(steps)
        sentence = frame.sentence if frame.sentence < len(steps) else frame.sentence_before
        whole = steps[head:]
        if sense == "total" and len(once := _once(whole)) < len(whole):
            steps[head:] = [self._bare(once, steps[:head], times, sense, None, span)]  # "two plain, increase; two plain, increase; do that six times": shown twice, and so often in all
            self.moved = True
            return True
        chain = next((index for index in range(len(steps) - 1, head, -1) if type(steps[index]) is Chain and type(steps[index - 1]) is not Chain), head)
        begins = []
        for begin in (sentence, chain, head):
            if head <= begin < len(steps) and begin not in begins:
                begins.append(begin)
        readings = [[*steps[head:begin], self._bare(steps[begin:], [None] if begin > head else steps[:head], times, sense, None, span)] for begin in begins]
        steps[head:] = readings[0] if len(readings) == 1 else [Either(readings, "\"this\" may be all steps so far, the last sentence, or what begins with the last chain", span)]
        self.moved = True
        frame.sentence = frame.sentence_before = len(steps)
        return True

    def bare_around(self, frame) -> bool:
        """ "sc in same st, 2 sc in next st around": the last step, or all of them, as far as said."""
        start = self.i
        extent = self.extent()
        return True if extent is None else self.around_all(frame, extent, start)

    def around_all(self, frame, extent: Extent, start: int) -> bool:
        """The last step, or all of them, as far as `extent`."""
        k, steps = self.k, frame.steps
        last = steps[-1]
        span = self.span(start)
        head = self._head(steps)
        clause = max(frame.clause, head)
        readings, before = [], steps[:head]
        if 1 < len(steps) - clause < len(steps) - head:
            steps[clause:] = [self._bare(steps[clause:], [None], None, "total", extent, span)]
            self.moved = True
            return True  # "skip 3 sts and 4 tr in next all round": what the "and" joins
        readings.append([self._bare(steps[head:], before, None, "total", extent, span)])
        if len(steps) - 1 > head:
            readings.append([*steps[head:-1], self._last_alone(last, extent, span)])
        if len(readings) == 1:
            steps[:] = [*before, *readings[0]]
        else:
            why = f"\"{self.text[self.s[start]:self.e[self.i - 1]]}\" may repeat only the last step or all steps before it"
            steps[:] = [*before, Either(readings, why, span)]
        self.moved = True
        if k[self.i] == "(" and type(steps[-1]) is Repeat:
            self.repeat_tail(frame, steps[-1])
        return True

    def _last_alone(self, last, extent: Extent, span):
        """The last step by itself as far as said: "2 sc in next st around" as 2 sc in each st."""
        return Repeat([copy(last)], extent=extent, span=span)

    def _bare(self, steps: list, before: list, times, sense: str, extent, span) -> Repeat:
        """A repeat of `steps`; "first" and "same st" at its head are the next stitch in every pass, unless a chain stands on the first."""
        steps = list(steps)
        tall = any(type(step) is Chain and not (isinstance(step.n, int) and step.n < 2) for step in before)
        first = steps[0]
        if not tall and type(first) in (Stitch, Group) and first.place is not None and first.place.which in ("first", "same") and first.place.n == 1 and None not in before:
            steps[0] = replace(first, place=replace(first.place, which="next", chains=first.place.chains))
        elif not tall and times is None and type(first) is Stitch and first.place is not None and first.place.which == "first" and isinstance(first.place.n, int) and None not in before:
            steps[0] = replace(first, place=replace(first.place, which="next"))  # "sc in first 5 sts, 2 sc in the 6th, and so on"
        return Repeat(steps, times, sense, extent if times is None else None, span=span)
