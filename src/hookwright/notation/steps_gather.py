"""Groups that are not in brackets, and the names of what has been made: "in next loop make 3 dc, ch 2 and 3 dc", "(first popcorn made)"."""

from .steps_frame import Frame
from .tree import Chain, Counts, Group, Note, Place, Repeat, Skip, Stitch

_GOES = frozenset(("go", "goes", "come", "comes", "belong", "belongs", "sit", "sits"))  # "into each space go 3 dc"


def _in_place(step, place: Place):
    step.place = place
    return step


class GatherReading:
    """Reads groups without brackets."""

    def naming(self, frame, group: bool = False) -> bool:
        """ "first popcorn stitch", "sc2tog made": the name of what has just been made, after a dash."""
        k, start = self.k, self.i
        at = start
        while k[at] in ("FIRST", "THIS", "W", "YOU") or k[at] == "NUM" and self.v[at] == 1 and k[at + 1] in ("ST", "OWN"):
            at += 1
        if k[at] == "SP" and k[at + 1] == "MADE":  # "petal made"
            self.i = at + 2
            frame.steps.append(Note(self.text[self.s[start]:self.e[at + 1]], self.span(start)))
            return True
        if k[at] not in ("ST", "OWN"):
            return False
        after = at + 1
        while k[after] == "STN":
            after += 1
        if k[after] != "MADE" and not group and k[start] != "FIRST" and not (k[start] == "THIS" and k[at - 1] == "FIRST"):
            return False
        if k[after] == "MADE":
            after += 1
        self.name_made(frame, start, after)
        self.i = after
        return True

    def name_made(self, frame, first: int, after: int) -> bool:
        """Give the last group the name that tokens [first, after) hold; True where it has been used."""
        last = self.last_step(frame)
        value = next((self.v[at] for at in range(first, after) if self.k[at] in ("ST", "OWN")), None)
        if value is None or last is None:
            return False
        kind = value if isinstance(value, str) else getattr(value, "kind", "") or getattr(value, "name", "")
        half = any(self.text[self.s[at]:self.e[at]].lower() in ("half", "beg", "beginning") for at in range(first, after) if self.k[at] in ("HALF", "BEG"))
        first_of = any(self.k[at] in ("FIRST", "BEG") for at in range(first, after))
        if first_of and type(last) is Group and type(last.steps[0]) is Stitch and self.first_closed(frame, kind):
            return True
        if type(last) is Group and not half:
            if type(last.steps[0]) is Chain or last.makes:
                last.makes = kind
            else:
                last.name = kind
                self.named = {**(self.named or {}), kind: last.steps}
            return True
        if first_of and self.first_closed(frame, kind):
            return True
        if type(last) is Stitch and (last.kind == kind or kind == "dec" and last.kind.endswith("tog")):
            return True
        return False

    def first_closed(self, frame, kind: str) -> bool:
        """ "ch 3, dc2tog in same sp (counts as first cluster)": chain and stitches are one stitch of `kind`."""
        steps = frame.steps
        closed = kind in ("cl", "popcorn", "bobble", "puff") or kind.endswith("tog")  # "ch 3, dc2tog (counts as dc3tog)"
        if closed and steps and type(steps[-1]) is Group and type(steps[-1].steps[0]) is Chain and not steps[-1].makes and len(steps[-1].steps) == 2:
            steps[-1].makes = kind  # "(ch 3, dc2tog) in same sp (counts as cluster)"
            return True
        if closed and len(steps) > 1 and type(steps[-1]) is Group and type(steps[-2]) is Chain and type(steps[-1].steps[0]) is Stitch and all(type(step) is Chain for step in steps[-1].steps[1:]):
            group, chain = steps[-1], steps[-2]  # "ch 3, (dc2tog, ch 3) in same sp (first cluster made)": what is chained after it stays apart
            chain.says = None
            group.steps[0].place = None
            steps[-2:] = [Group([chain, group.steps[0]], group.place, makes=kind, span=chain.span.to(group.span)), *group.steps[1:]]
            return True
        if not closed or len(steps) < 2 or type(steps[-1]) is not Stitch or type(steps[-2]) is not Chain:
            return False
        chain, last = steps[-2:]
        if last.n != 1 and not last.kind.endswith("tog") or kind.endswith("tog") and not last.kind.endswith("tog"):
            return False  # "3ch, 2tr in same sp (this is your first cluster)": stitches side by side
        if kind.endswith("tog") and last.over and last.place is not None and last.place.which == "next":  # over several: its first leg stands on the first stitch
            chain.says = Counts(False)
            steps.insert(-1, Skip(Place("first", n=1), span=last.span))
            return True
        place, last.place = last.place, None
        if chain.says is not None:
            chain.says = None
        steps[-2:] = [Group([chain, last], place, makes=kind, span=chain.span.to(last.span))]
        return True

    def _one_each(self, frame, place: Place, start: int) -> bool:
        """ "In the last 2 sts do 1 sc each", "last 2 sts: 1 sc in each of them": one in each of several places."""
        k, at = self.k, self.i
        while k[at] in (":", ",", "DASH"):
            at += 1
        number = self.v[at] if k[at] == "NUM" else 1
        at += k[at] == "NUM"
        if k[at] != "ST" or not isinstance(self.v[at], str):
            return False
        after = at + 1 + (k[at + 1] == "IN")
        if k[after] not in ("EACH", "BOTH"):
            return False
        after += 1
        while k[after] in ("OF", "THIS", "YOU", "STN"):
            after += 1
        if k[after] not in (",", ".", ";", "END", "(", "[", ")", "]", "TURN", "AND"):
            return False
        self.i = after
        return self.put(frame, Stitch(self.v[at], number, place, span=self.span(start)))

    def gather(self, frame, place: Place, start: int) -> bool:
        """Steps after their place: "in next loop make 3 dc, ch 2 and 3 dc"."""
        k = self.k
        inner = Frame()
        loop = self.found_loop
        begin = self.i
        if place.which == "from hook" and k[begin] in ("(", "[") and self.match[begin] > begin:  # "in the 4th ch from hook (the 3 chs count as a dc) do 1 dc"
            self.i += 1
            says = self.counts_as()
            if says is not None:
                place.says = says
                begin = self.match[begin] + 1
            self.i = begin
        if isinstance(place.n, int) and place.n > 1 and self._one_each(frame, place, start):
            return True
        if k[self.i] == "W" and self._word(self.i) in _GOES or k[self.i] == "YOU":
            self.i += 1
            if k[self.i] not in ("NUM", "ST", "OWN", "CH", "(", "["):
                self.i = begin
        while k[self.i] in (":", ",", "DASH") and k[self.i + 1] in ("NUM", "ST", "OWN", "CH", "(", "["):
            self.i += 1
        if k[self.i] in ("(", "[") and self.match[self.i] > self.i and (not self._not_steps(self.i) or self._list_of_steps(frame, self.i)):
            if k[self.match[self.i] + 1] in ("IN", "ALL"):
                self.i = begin
                return False  # the bracket has a place of its own
            before = len(frame.steps)
            if self._steps_in_brackets(frame, self.i, self.match[self.i]):
                made = frame.steps[before:]
                if all(type(step) is Note for step in made):
                    del frame.steps[before:]  # "... each ch-1 sp to end (don't forget the last)"
                    self.i = begin
                    return False
                if len(made) == 1 and type(made[0]) is Group and made[0].place is None:
                    made[0].place = place
                elif len(made) == 1 and type(made[0]) is Repeat and not any(getattr(step, "place", None) for step in made[0].steps):
                    frame.steps[before:] = [Group(made, place, span=self.span(start))]
                elif made and not any(getattr(step, "place", None) for step in made):
                    frame.steps[before:] = [Group(made, place, span=self.span(start))]
                frame.bracket = None
            return True
        joined = False
        while True:
            keep = self.i
            if k[keep] not in ("NUM", "ST", "OWN", "CH"):
                break
            count = len(inner.steps)
            done = self.act_number(inner) if k[keep] == "NUM" else self.act_chain(inner) if k[keep] == "CH" else self.stitch(inner, None, keep)
            new = inner.steps[count:]
            if not done or not new or any(getattr(step, "place", None) is not None or type(step) is Repeat for step in new):
                del inner.steps[count:]
                self.i = keep
                break
            after = self.i
            joined = joined or k[after] == "+"
            while k[self.i] in ("+", "AND") or k[self.i] == "," and not joined:  # "ch 3 + 2 dc, ch 1": what is joined goes in, what comes after the comma does not
                self.i += 1
            if k[self.i] not in ("NUM", "ST", "OWN", "CH") or joined and self.i == after:
                self.i = after
                break
        steps = inner.steps
        if not steps or all(type(step) is Chain for step in steps):
            self.i = begin
            return False
        several = place.of == "st" and place.n not in (None, 1) and not place.each
        if several and len(steps) > 1 and k[start] == "OVER":
            frame.steps.extend(steps)  # "over the next 8 sts: 3 sc, 2 hdc, 3 sc": along them, not into them
            self.moved = True
            return True
        if several and len(steps) == 1 and type(steps[0]) is Stitch and steps[0].n == place.n and k[self.i] != "EACH":
            steps[0].n = 1  # "over the first 18 sts: sc 18": one in each
        steps_after = []
        if len(steps) > 1 and type(steps[-1]) is Chain and type(steps[0]) is Stitch and not (place.each and (place.extent is not None or place.n not in (None, 1))):
            steps_after = [steps.pop()]  # "in next sp 3 dc, ch 2": the chain lies after the group; "in each of the next 3 sps 3 dc, ch 1" has one after each
        if len(steps) == 1 and type(steps[0]) is Stitch:
            steps[0].place = place
            if loop:
                steps[0].loop = loop
            steps[0].span = self.span(start)
            self.put(frame, steps[0])
        else:
            if place.which == "ring":
                while type(steps[0]) is Chain:
                    frame.steps.append(steps.pop(0))  # "into ring work ch 1, 8 dc"
            frame.steps.append(Group(steps, place, span=self.span(start)) if len(steps) > 1 else _in_place(steps[0], place))
            self.moved = True
        frame.steps.extend(steps_after)
        return True

    def _list_of_steps(self, frame, start: int) -> bool:
        """ "Into each 4-ch loop work (1dc, 1htr, 3tr, 1htr, 1dc)" where nothing is worked yet: no count could come, and none names a stitch twice."""
        inside = self.k[start + 1:self.match[start]]
        if len(inside) < 3 or any(kind not in ("NUM", "ST", "CH", "OWN", ",", "AND", "HY") for kind in inside) or "ST" not in inside:
            return False
        named = [self.v[at] for at in range(start, self.match[start]) if self.k[at] == "ST"]
        return len(set(map(str, named))) < len(named) or not self.after and all(type(step) in (Chain, Note, Skip) or getattr(step, "kind", "") == "slst" for step in frame.steps)

    def all_placed(self, frame, place: Place) -> None:
        """ "..., all into ring": the steps before that have no place get this one."""
        if place.which == "ring":
            self._place_all(frame.steps, place)
            return
        if place.which == "same" and self.context is not None and self.context_is_space() and not any(type(step) is Group for step in frame.steps):
            place = self._context_place()
        first = len(frame.steps)
        while first > frame.sentence and (getattr(frame.steps[first - 1], "place", 0) is None or type(frame.steps[first - 1]) in (Chain, Repeat)):
            first -= 1
        run = frame.steps[first:]
        if run:
            frame.steps[first:] = [Group(run, place, span=run[0].span.to(run[-1].span))]

    def _place_all(self, steps, place: Place) -> None:
        for step in steps:
            if type(step) is Repeat:
                self._place_all(step.steps, place)
            elif type(step) in (Stitch, Group) and step.place is None:
                step.place = place
            elif type(step) is Skip:
                continue
