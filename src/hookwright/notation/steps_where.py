"""How and where stitches go, said apart from them: "working in back loops only", "working behind sts just made", "1 round of dc evenly around"."""

import re

from .patterns import Lazy
from .steps_place_first import PlaceFirstReading
from .tree import (
    Chain,
    Each,
    Either,
    Extent,
    Go,
    Group,
    Note,
    Place,
    Repeat,
    Ring,
    Stitch,
)

_PIECES = Lazy(r"\b(?:pieces|squares|circles|motifs|panels|hexagons|pentagons|triangles|discs|hearts|stars|front\s+and\s+(?:the\s+)?back)\b", re.I)
_FACING = Lazy(r"\b(?:wrong\s+sides?|right\s+sides?|ws|rs)\s+(?:tog|facing|to\b|in\b|out|touching)", re.I)
_FOLDED = Lazy(r"\b(?:fold\w*|flat\w*|half|pinch\w*|squash\w*|press\w*|opening)\b", re.I)


def told_of_pieces(tokens, in_round: bool) -> None:
    """ "through both layers" of two pieces that lie on each other, and not of one that is folded: each stitch of it is a pair as it is."""
    words = tokens.text[tokens.starts[0]:tokens.ends[-1]]
    if _FOLDED.search(words) or not (_PIECES.search(words) or in_round and "AROUND" in tokens.kinds and _FACING.search(words)):
        return
    tokens.values[:] = [3 if kind == "LAYERS" else value for kind, value in zip(tokens.kinds, tokens.values, strict=True)]


def loops_to_places(steps: list) -> None:
    """The loop of a stitch that says its place is told with the place, however it was said: "sc BLO in next st", "sc in BLO of next st"."""
    for step in steps:
        kind = type(step)
        if kind is Stitch:
            place = step.place
            if step.loop and place is not None and not (place.loop or place.post or step.over or step.evenly or place.which == "edge"):
                place.loop, step.loop = step.loop, ""
        elif kind is Repeat or kind is Group:
            loops_to_places(step.steps)
            if kind is Repeat and step.ending:
                loops_to_places(step.ending)
        elif kind is Each:
            loops_to_places(step.parts)
        elif kind is Either:
            for reading in step.readings:
                loops_to_places(reading if isinstance(reading, list) else [reading])


class WhereReading(PlaceFirstReading):
    """Reads where the stitches of a phrase go."""

    def act_loop(self, frame) -> bool:
        """ "BLO, ...", "Back loop only: ...", "... in BLO." : a loop said for the row, or for the next stitch."""
        k, start = self.k, self.i
        loop = self.v[start]
        if k[start + 1] == "OF":
            return self.act_place_first(frame)
        self.i += 1
        if k[self.i] in ("ST", "OWN", "NUM") and (k[start - 1] not in (".", ":") and start or self.e[start] == self.s[self.i]):
            before = len(frame.steps)
            done = self.act_number(frame) if k[self.i] == "NUM" else self.stitch(frame, None, self.i)
            if done and len(frame.steps) > before and type(frame.steps[before]) is Stitch:
                frame.steps[before].loop = "" if loop == "both" else loop
            return done
        self.loop_for_row(frame, loop)
        return True

    def loop_for_row(self, frame, loop: str) -> None:
        """A loop said by itself: for all that follows, or at the end of the row for all that went before."""
        loop = "" if loop == "both" else loop
        self.row_loop = loop
        if self._rest_is_tail() and frame.steps:
            self._loop_all(frame.steps, loop)

    def _loop_all(self, steps, loop: str) -> None:
        for step in steps:
            if type(step) is Stitch and not step.loop and step.kind != "slst" and not (step.place is not None and step.place.loop):
                step.loop = loop
            elif getattr(step, "steps", None):
                self._loop_all(step.steps, loop)

    def act_working(self, frame) -> bool:
        """ "working in back loops only", "working through both thicknesses", "working into the spaces just made, ..."."""
        k, start = self.k, self.i
        at = start + 1
        if self.last_one(frame, at):
            return True
        if k[at] in ("FIRST", "LAST") and k[at + 1] == "NUM" and self.ends_together(frame, at, start):
            return True
        if k[at] == "IN" and k[at + 1] == "W" and self._word(at + 1) in ("front", "back"):
            return self._worked_note(frame, start, at + 2)  # "working in front, FPtr around skipped sts": how, not where
        if k[at] == "EACH" and k[at + 1] == "ORD":  # "sc around, working every 4th and 5th st together"
            self.i = at
            last = self.last_step(frame)
            if self.together_every(frame, last.kind if type(last) is Stitch else self._usual(frame), start):
                return True
            self.i = start
        if k[at] in ("NUM", "ST", "OWN") and frame.steps:  # "sc in each st across, working 2 sc in last st"
            number = self.v[at] if k[at] == "NUM" else None
            self.i = at + (k[at] == "NUM")
            before, last = len(frame.steps), self.last_step(frame)
            if k[self.i] in ("ST", "OWN") and not (getattr(last, "evenly", False) and last.n != 1 and getattr(last.place, "which", "") != "edge") and self.stitch(frame, number, at):
                new = frame.steps[before:]
                if self.set_at_ends(frame, before):
                    return True
                if not new:
                    return True  # "sc around, working 4 decs evenly spaced": now one step with the stitches before it
                place = getattr(new[0], "place", None)
                if place is not None and getattr(last, "evenly", False) and last.kind == getattr(new[0], "kind", "") and (
                    place.which == "edge" or place.which == "row ends" and place.each and (last.place is None or last.place.which == "row ends" or not self.in_round)
                ):
                    frame.steps.remove(last)  # "sc evenly around, working 58 sc along each side": said once more, with the number
                if all(getattr(step, "place", None) is not None for step in new):
                    place, told = new[-1].place, getattr(last, "place", None)
                    if told is not None and told.extent is not None and place.which == "next" and (place.n == 1 and place.of in ("sp", "corner") or place.of == "ch" and place.each):
                        place.chains = place.n if place.of == "ch" else place.chains
                        place.n, place.extent, place.each = None, Extent("open"), True  # "sc around, working 4 sc in ch-4 sp": wherever one comes
                    return True
                del frame.steps[before:]
            self.i = start
            return self._worked_note(frame, start, at)
        if k[at] == "LAST" and k[at + 1] in ("ST", "STN") and k[at + 2] in ("IN", "AT", "ON"):
            return self._worked_note(frame, start, at)  # "placing the last tr in top of 3 ch"
        if k[start] == "PLACING" and k[at] not in ("(", "["):
            return False
        further = k[at] == "MORE"
        at += further
        if k[at] in ("(", "[") and self.match[at] > at and frame.steps and self._follows(self.match[at]) == "steps":
            if further:  # "working a further (ch 1, dc) in last st": in the place just worked into
                self.i, before = at, len(frame.steps)
                done = self.act_bracket(frame)
                for step in frame.steps[before:]:
                    if getattr(step, "place", None) is not None and step.place.which == "last":
                        step.place.which = "same"
                return done
            self.i = at  # "dc in each st around, working (dc, ch 1, dc) in each corner"
            return self.act_bracket(frame)
        after = at + 1 if k[at] == "BACKFACING" else at + 2 if k[at] == "IN" and k[at + 1] == "W" and self._word(at + 1) in ("front", "back") else 0
        if after and k[after] in ("ST", "OWN", "NUM") and k[after + 1] in ("AROUND", "IN", "ST"):
            self.i = after  # "working in front FPtr around 2 skipped sts": how it passes the others
            return True
        if "SIDE" in k[at:at + 3] and "OF" in k[at:at + 4] and k[k.index("OF", at) + 1] == "NUM":
            return self._worked_note(frame, start, at)  # "working on the other side of the 2 chains": the chains that come next
        while (k[at] not in ("IN", "THROUGH", "ACROSS", "OVER", "AROUND", "LOOP", "TO") or k[at - 1] == "THIS") and k[at] not in (",", ";", ".", "END", ":", "(", "ST", "CH") and at - start < 9:
            at += 1
        if k[at] not in ("IN", "THROUGH", "ACROSS", "OVER", "AROUND", "LOOP"):
            return self._worked_note(frame, start, at)
        self.i = at
        place = self.place()
        loop, layers = self.found_loop, self.found_layers
        if place is not None and k[self.i] == ":" and place.each and place.of in ("sp", "corner", "gap", "group") and self.gather(frame, place, start):
            return True  # "working in each ch-3 loop around: sc, hdc, 2 dc, hdc, sc"
        if place is None and not loop and layers == 1:
            while k[self.i] not in (",", ";", ".", "END", ":", ")", "]"):
                self.i += 1
            return self._worked_note(frame, start, self.i)
        if k[self.i] in ("TO", "W") and k[self.i + 1] in ("W", "REMARK", "JOIN", "U"):
            while k[self.i] not in (",", ";", ".", "END", ":"):
                self.i += 1
        while k[self.i] == "TOEND" or k[self.i] in ("ROW", "ROUND") and k[self.i - 1] in ("TOEND", "THIS"):
            self.i += 1  # "working in BLO throughout row"
        if place is not None and place.loop:
            loop, place = place.loop, None
        if loop:
            self.loop_for_row(frame, loop)
        if layers > 1:
            self.row_layers = layers
        if place is not None and (place.of != "st" or place.which in ("from hook", "other side", "row ends", "ring", "free loops")):
            self.context = place
            if place.extent is not None and place.extent.kind == "open":
                place.extent, place.n = None, 1
        if k[self.i] == "(":
            return True
        return True

    def act_behind(self, frame) -> bool:
        """ "working behind sts just made", "in front of the ch-2 sps": how, not what."""
        return self._worked_note(frame, self.i, self.i + 1)

    def _worked_note(self, frame, start: int, after: int) -> bool:
        k = self.k
        while k[after] not in (",", ";", ".", "END", ":", ")", "]", "(", "SKIP", "MARK") and not (
            k[after] in ("ST", "NUM") and k[after - 1] in ("MADE", "STN", "SP") and after > start + 2
        ) and not (k[after] in ("ST", "OWN") and k[after + 1] in ("AROUND", "IN", "NEXT", "OVER") and (k[start] == "BACKFACING" or k[start + 1:start + 3] == ["IN", "W"])):
            after += 1
        self.i = after
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def act_space(self, frame) -> bool:
        """ "Sp first st" for "skip"; "work blocks across" for "go on with the blocks"; "corner in next st" where she says what one is."""
        k, start = self.k, self.i
        if k[start + 1] == "OF" and k[start + 2] in ("(", "[") and self.match[start + 2] > 0 and (not start or k[start - 1] not in ("IN", "EACH", "NEXT", "OF", "SAME", "LAST", "FIRST")):
            self.i += 2  # "corner of (2 dc, ch 1, 2 dc) in next ch sp"
            return True
        if self.v[start] == "corner" and "corner" in self.lexicon.own and k[start + 1] in ("IN", "X", "TIMESN", ",", ".", "AROUND"):
            k[start], self.v[start] = "OWN", self.lexicon.own["corner"]
            return self.act_stitch(frame)
        if self._word(start) in ("v", "vs") and k[start + 1] in ("OVER", "IN"):  # "V over V around", "a V in each V"
            k[start], self.v[start] = "ST", "vst"
            if k[start + 1] == "OVER" and self._word(start + 2) in ("v", "vs"):
                k[start + 2], self.v[start + 2] = "ST", "vst"
            return self.act_stitch(frame)
        if self._word(start) == "loop" and self.first_row and not frame.steps and k[start + 1] in (",", ";", ".", "AND") and self.text[:self.s[start]].rstrip().lower().endswith((" a", "\na")):
            self.i += 1  # "make a loop, ch 1, 6 sc in loop"
            frame.steps.append(Ring("magic", self.span(start)))
            self.ring_made = True
            return True
        told = self.lexicon.loops.get(self._word(start))
        if told is not None:  # "lp, skip 1, sc in next" where "lp = ch 5"
            self.i += 1
            return self.put(frame, Chain(told.steps[0].n, span=self.span(start)))
        if self._word(start) == "sp" and k[start + 1] in ("FIRST", "NEXT", "NUM", "ORD", "LAST"):
            return self.act_skip(frame)
        if self.v[start] == "group" and k[start + 1] in ("ACROSS", "AROUND", "TOEND"):
            self.i += 1
            extent = self.extent()
            while k[self.i] in ("ROW", "W", "GO", "THIS", "AROUND", "AS", "ROUND", "IN"):
                self.i += 1
            if k[self.i] in ("UNTIL", "TO"):
                extent = self.extent() or extent
            frame.steps.append(Go(extent, self.span(start)))
            return True
        return False

    def _whole_edge(self) -> Extent:
        extent = self.extent()
        while self.k[self.i] in ("EXTEND", "U", "W") and self.k[self.i - 1] in ("AROUND", "ACROSS", "W", "U"):
            self.i += 1
        return extent

    def row_of(self, frame) -> bool:
        """ "1 row of sc", "work 1 round in dc evenly around": that stitch all along."""
        k, start = self.k, self.i
        at = start + (k[start] == "NUM")
        if k[at] not in ("ROW", "ROUND", "AROUND"):
            return False
        at += 1
        while k[at] in ("OF", "IN", "W"):
            at += 1
        if k[at] != "ST" or not isinstance(self.v[at], str):
            return False
        self.i = at + 1
        if k[self.i] in ("ASFOLLOWS", ":") and k[self.i + 1] not in ("END", "."):  # "work 1 round of dc as follows: 1 ch, ..."
            self.i += 1 + (k[self.i + 1] in (":", ","))
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end].rstrip(" :,"), span))
            return True
        if k[self.i] == "EVENLY":
            self.i += 1
        extent = self._whole_edge() if self.extent_ahead() else Extent("open")
        return self.put(frame, Stitch(self.v[at], 1, Place(n=None, extent=extent), span=self.span(start)))

    def act_place(self, frame) -> bool:
        """ "place 3 sc in each corner": the verb is passed over."""
        if self.parts_told(frame):
            return True
        self.i += 1
        return self.k[self.i] in ("NUM", "ST", "OWN")

    def act_evenly(self, frame) -> bool:
        self.i += 1
        while self.k[self.i] in ("U", "W"):
            self.i += 1
        if self.k[self.i] == "SHAPING":  # "hdc around, evenly increasing 4 sts"
            return self.act_shaping(frame, True)
        self.evenly = self.k[self.i] in ("NUM", "ST")
        return self.evenly
