"""Places passed over: "skip next 3 sts", "miss 2 tr", "skip 3 ch (counts as dc)"."""

from dataclasses import replace

from .tree import Chain, Extent, Group, Join, Leave, Note, Place, Skip, Stitch, Turn

_OF_NO_KIND = frozenset(("st", "ch", "sp", "corner", "group", "gap", "st+sp"))
_AFTER_LIST = frozenset((",", ";", ".", ":", "END", "(", "[", ")", "]", "MARK"))


class SkipReading:
    """Reads skips."""

    def act_skip(self, frame) -> bool:
        """ "skip next 3 sts", "sk 1", "miss 2 tr", "skip 3 ch (counts as dc)", "skip next ch-1 sp and next st"."""
        k, start = self.k, self.i
        if k[start + 1] == "FIRST" and self.all_but_ends(frame):
            return True
        if k[start + 1] == "EACH" and k[start + 2] in ("ORD", "OTHER") and self.skip_every(frame, start):
            return True
        if self.skip_ends(frame):
            return True
        self.i += 1
        if k[self.i] == "TO" and k[self.i + 1] in ("NEXT", "FIRST", "CH", "SP"):
            return self.act_move(frame)  # "skip to the next ch-sp and make a shell in it"
        close = self.match[self.i] if k[self.i] in ("(", "[") else -1
        if close > self.i and all(kind in ("NUM", "ST", "CH", "SP", "STN", ",", "AND", "HY", "NEXT") for kind in k[self.i + 1:close]):
            self.i += 1  # "miss [1 tr, 1 ch]"
            while self.i < close:
                place = self._skipped()
                if place is None:
                    break
                if self.i > start and all(type(step) in (Chain, Turn) for step in frame.steps) and place.of not in ("ch", "sp"):
                    place.which = "first"  # the one the chain stands on
                frame.steps.append(Skip(place, span=self.span(start)))
                while k[self.i] in (",", "AND"):
                    self.i += 1
            self.i = close + 1
            return True
        while True:
            first = self.i
            place = self._part_skipped() or self._skipped() or self._skipped_before(frame)
            if place is None:
                return first != start + 1
            if k[self.i] == "YOU" and self._word(self.i) == "it":  # "miss the tr it grows out of"
                while k[self.i] in ("YOU", "W", "U", "OF", "FROM", "IN"):
                    self.i += 1
                place.which = "first" if place.which == "next" else place.which
            step = Skip(place, span=self.span(start))
            if frame.steps and type(frame.steps[-1]) is Join and place.of in ("ch", "sp") and k[self.i] in (".", "END", "(", "[", ",", ")"):
                span = self.span(start)  # "join to first dc, skipping the ch 2": which stitch is the first
                frame.steps.append(Note(self.text[span.start:span.end], span))
                return True
            if self._the_chain_just_made(frame, place, first):
                span = self.span(start)
                frame.steps.append(Note(self.text[span.start:span.end], span))
                return True
            if self._passed_anyhow(frame, place):
                span = self.span(start)
                frame.steps.append(Note(self.text[span.start:span.end], span))
                if k[self.i] == "AND" and k[self.i + 1] in ("ST", "STN", "CH", "SP"):
                    self.i += 1
                    self._skipped()
                return True
            if k[self.i] == "(":
                keep = self.i
                self.i += 1
                says = self.counts_as()
                if says is not None and k[self.i] == ")":
                    self.i += 1
                    step.says = says
                else:
                    self.i = keep
            frame.steps.append(step)
            at = self.i
            if k[at] == "," and k[at + 1] in ("NEXT", "AND") and self._skipped_on(at + 1 + (k[at + 1] == "AND")):
                self.i = at + 1 + (k[at + 1] == "AND")  # "skip next ch-1 sp, next 26 dc and next ch-1 sp for sleeve"
                continue
            if k[at] == "AND" and k[at + 1] in ("NEXT", "NUM", "CH", "ST", "STN", "FIRST", "LAST"):
                self.i += 1
                probe = self.i
                place = self._skipped()
                if place is not None and place.of == "ch" and place.n == 1 and place.which == "next" and self.i == probe + 1 and step.place.of not in ("ch", "sp") and k[self.i] in (",", ";", ".", ":", "[", "(", "MARK", ")"):
                    return True  # "skip first dc and ch, dc in next dc": the chain beside it
                if place is not None and place.of == "sp" and k[probe] == "CH" and self.text[self.e[self.i - 1] - 1].lower() == "s":
                    return True  # "skip next 3 dc and ch-1 sps": the spaces between them are passed over with them
                if place is not None and k[probe] == "ST" and self.i == probe + 1 and step.place.n == 1 and step.place.of not in _OF_NO_KIND and k[self.i] in _AFTER_LIST:
                    self.i = probe  # "skip the popcorn and dc, ...": both
                    continue
                if place is None or k[self.i] in ("ST", "OWN", "IN", "AROUND", "(") or k[probe] in ("NUM", "ST", "CH") and k[self.i] in ("IN", "AROUND", "OVER"):
                    self.i = at
                    return True
                if k[probe] in ("NUM", "ST", "CH") and place.of != "sp" and not (k[probe] == "NUM" and k[probe + 1] == "CH" and k[self.i] in (",", ";", ".", "MARK", ")")):
                    self.i = at
                    return True
                self.i = probe
                continue
            return True

    def _skipped_on(self, at: int) -> bool:
        """Whether "next 26 dc and next ch-1 sp" after the comma goes on with what is skipped: nothing is worked in it, and the list ends with it."""
        k = self.k
        keep, self.i = self.i, at
        place = self._skipped()
        after, self.i = self.i, keep
        if place is None or place.extent is not None:
            return False
        if k[at - 1] == "AND" and place.of != "sp" or k[at] != "NEXT" and k[at - 1] != "AND":
            return False
        if k[after] == "AND" or k[after] == "," and k[after + 1] == "AND":
            onward = after + 1 + (k[after] == ",")
            return k[onward] == "NEXT" and k[onward + 1] in ("CH", "SP", "NUM") or k[onward] == "CH" and "SP" in k[onward:onward + 4]
        return k[after] in (",", "FOR", ";") and (k[after] == "FOR" or k[after + 1] in ("ST", "NUM", "CH", "SKIP", "NEXT", "OWN")) and (k[at] == "CH" or k[at + 1] in ("CH", "SP", "NUM"))

    def _the_chain_just_made(self, frame, place: Place, first: int) -> bool:
        """ "Ch 1, turn, skip the chain, sl st in blo of each st": what is skipped is the chain the row has begun with, and nothing of the row below."""
        if self.first_row or self.open_marks or self.depth or place.n != 1 or not frame.steps or any(type(step) not in (Chain, Turn, Note) for step in frame.steps):
            return False
        made = [step.n for step in frame.steps if type(step) is Chain]
        if place.of == "ch":
            return bool(made) and place.which in ("next", "", "same") and place.chains is None and self.k[self.i] != "OF" and "NEXT" not in self.k[first:self.i]
        return place.of == "sp" and place.chains is not None and made == [place.chains] and "SP" not in self.k[first:self.i]

    def _passed_anyhow(self, frame, place: Place) -> bool:
        """ "2 sc in each ch-1 sp, skip over the dc and popcorns": what lies between the places that are all worked is passed over by itself."""
        last = self.last_step(frame)
        told = getattr(last, "place", None)
        return (
            type(last) in (Stitch, Group) and told is not None and told.each and told.n is None and told.extent is not None and told.of in ("sp", "gap", "corner")
            and place.which == "next" and place.n in (1, None) and place.of not in ("sp", "gap", "corner") and (place.of != "st" or place.n is None) and not self.open_marks and not self.depth
        )

    def all_but_ends(self, frame) -> bool:
        """ "sc in each st across but skip the first and last st": as far as the last, from the second on."""
        k, start = self.k, self.i
        last = frame.steps[-1] if frame.steps else None
        if type(last) is not Stitch or last.place is None or last.place.extent is None or last.place.extent.kind != "end":
            return False
        at = start + 1
        while k[at] in ("FIRST", "AND", "LAST", "NUM", "STN", "ST") and not (k[at] == "FIRST" and at > start + 1):
            at += 1
        words = k[start + 1:at]
        if words[:1] != ["FIRST"] or "LAST" not in words:
            return False
        number = next((value for kind, value in zip(words, self.v[start + 1:at], strict=True) if kind == "NUM"), 1)
        self.i = at + (k[at] == "UNWORKED")
        frame.steps.insert(-1, Skip(Place("first", n=number), span=self.span(start)))
        last.place.extent = Extent("last", number, span=last.place.extent.span)
        frame.steps.append(Skip(Place(n=number), span=self.span(start)))
        return True

    def rest_unworked(self, frame) -> bool:
        """ "..., remaining 6 sts unworked", "rest are not worked", "other sts left unworked": what is left, told without "leave"."""
        k, start = self.k, self.i
        at = start + 1
        number = self.v[at] if k[at] == "NUM" else None
        at += number is not None
        while k[at] in ("OF", "STN", "ST", "ROW", "ROUND", "HAVE", "LEFT", "W", "AROUND", "LEAVE") and at - start < 9:
            at += 1
        if k[at] == "NOT" and k[at + 1] in ("MADE", "WORKING"):
            at += 1
        elif k[at] != "UNWORKED":
            return False
        self.i = at + 1
        frame.steps.append(Leave(number, span=self.span(start)))
        return True

    def _part_skipped(self) -> Place | None:
        """ "skip second sleeve": that part of the piece, up to where the next step goes."""
        k, at = self.k, self.i
        while k[at] in ("W", "U", "ORD", "OTHER", "NEXT", "LEFT", "FIRST", "LAST"):
            at += 1
        if at == self.i or k[at - 1] not in ("W", "U") or len(self._word(at - 1)) < 4 or k[at] not in (",", ";", ".", "AND", ")", "TO", "END") or self.depth:
            return None
        self.i = at
        extent = self.extent() if k[at] == "TO" else None
        return Place(n=None, extent=extent or Extent("open"), each=True)

    def _skipped_before(self, frame) -> Place | None:
        """ "skip the sleeve sts" where "skip 54 sleeve sts" stands before it: as many."""
        k, at = self.k, self.i
        before = next((step for step in reversed(frame.steps) if type(step) is Skip and step.place.extent is None and step.place.n != 1), None)
        while k[at] in ("W", "U", "ORD", "OTHER", "NEXT"):
            at += 1
        if before is None or at == self.i or k[at] != "STN":
            return None
        self.i = at + 1
        return replace(before.place)

    def _skipped(self) -> Place | None:
        k, start = self.k, self.i
        if k[start] in ("IN", "OVER"):
            self.i += 1
        at = self.i
        if k[at] == "NUM" and k[at + 1] == "CH" and self.e[at] != self.s[at + 1] and k[at + 2] in ("SP", "HY") and k[at + 2 + (k[at + 2] == "HY")] == "SP":
            self.i = at + 3 + (k[at + 2] == "HY")  # "skip 2 ch sps": so many of them
            if not self._word(self.i - 1).endswith("s") and any(k[here] == "NUM" and k[here + 1] == "CH" and self.v[here] == self.v[at] and k[here + 2] not in ("SP", "HY") for here in range(len(k) - 8)):
                return Place("next", "sp", 1, chains=self.v[at], span=self.span(start))  # "2 ch, miss 2 ch sp": a space of so many chains
            return Place("next", "sp", self.v[at], span=self.span(start))
        place = self.target()
        if place is None:
            noun = self.noun()
            if noun is None:
                self.i = start
                if k[start] in (",", ".", ";", ")", "]", "AND", "END"):
                    return Place(n=1)
                if k[start] == "NUM":
                    self.i += 1
                    return Place(n=self.v[start])
                return None
            place = Place("next", noun.of, noun.n or 1, None, None, noun.chains, noun.group)
        if k[start] in ("ALL", "EACH", "STN") and place.of == "st" and k[self.i] in ("OF", "TO"):
            self._skipped_as_far_as(place)
        place.span = self.span(start)
        return place

    def _skipped_as_far_as(self, place: Place) -> None:
        """ "skip all sts of the sleeve to next ch-1 sp": whose they are says nothing; how far, does."""
        k, start = self.k, self.i
        at = start + 2 if k[start] == "OF" and k[start + 1] == "W" else start
        if k[at] != "TO" or k[at + 1] not in ("NEXT", "CH", "FIRST"):
            return
        self.i = at + 1
        extent = self._limit("TO")
        if extent is None:
            self.i = start
        else:
            place.n, place.extent = None, extent
