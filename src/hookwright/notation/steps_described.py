"""Stitches that are described where they stand: "draw up a loop in each of next 2 sts, yo, pull through all 3 loops"."""

from .tree import Note, Place, Stitch

_DESCRIBING = frozenset((
    "DRAW", "YO", "WORKOFF", "HOLD", "THROUGH", "ALL", "SP", "HOOK", "NUM", "STN", "IN", "EACH", "NEXT", "OF", "TIMES", "AND", ",", ";", ".", "W", "U", "TO", "LAST", "AT",
    "THIS", "SAME", "ORD", "FIRST", "BOTH", "TIMESN", "HY", "MORE", "REP", "LEFT", "REM", "HAVE", "YOU", "YARN", ":", "AROUND", "FROM", "ST", "ONHOOK", "(", ")", "[", "]", "OVER", "TOG", "FORM", "LOOP",
    "TOP", "POST", "MARK", "DROP", "SHADE", "WITH", "ROW", "PREVIOUS",
))


class DescribedReading:
    """Reads descriptions of stitches."""

    def _description_end(self) -> int:
        """Index after the description that begins here: after the last drawing through all loops; -1 where none ends."""
        k = self.k
        at, end = self.i, -1
        limit = min(len(k) - 1, at + 90)
        while at < limit and k[at] in _DESCRIBING:
            kind = k[at]
            drawn = kind == "LOOP" and self.v[at] == "both" and any(word in ("DRAW", "THROUGH") for word in k[max(self.i, at - 2):at]) or kind == "SP" and any(word in ("ALL", "NUM", "BOTH", "REM") for word in k[max(self.i, at - 3):at]) and any(
                word in ("DRAW", "THROUGH", "YO", "WORKOFF") for word in k[max(self.i, at - 8):at]
            )
            if drawn or kind == "WORKOFF":
                after = at + 1
                while k[after] in ("ALL", "SP", "HOOK", "IN", "AT", "NUM", "TIMES", "TOG", "LEFT", "REM") and (
                    k[after] != "IN" or k[after + 1] == "HOOK"
                ) and (k[after] != "NUM" or k[after + 1] in ("TIMES", "SP")):
                    after += 1
                end = after
                nxt = after
                while k[nxt] in (",", ";", ".", "AND", ")", "]"):
                    nxt += 1
                if k[nxt] == "REP" and k[nxt + 1] == "FROM" and k[nxt + 2] == "MARK":
                    here = nxt + 3
                    while k[here] in ("NUM", "TIMES", "TIMESN", "MORE", ",", ".", ";", "AND"):
                        here += 1
                    if k[here] in ("YO", "DRAW", "WORKOFF", "THROUGH"):
                        nxt = here
                if k[nxt] == "TIMESN" or k[nxt] == "NUM" and k[nxt + 1] == "TIMES":
                    nxt += 1 + (k[nxt] == "NUM")
                    while k[nxt] in (",", ";", ".", "AND", "IN", "SAME", "NEXT", "STN", "SP"):
                        nxt += 1
                if k[nxt] not in ("YO", "DRAW", "WORKOFF", "HOLD", "(", "[", "THROUGH") or k[nxt] in ("(", "[") and k[nxt + 1] not in ("YO", "DRAW"):
                    return end
                at = nxt
                continue
            at += 1
        return end

    def skip_description(self, node=None) -> None:
        """ "as follows: ..." after the stitch it describes: passed over with its "(dec made)"."""
        k, start = self.k, self.i
        self.i += 1
        while k[self.i] in (":", ",", "U", "W"):
            self.i += 1
        end = self._description_end()
        if end < 0:
            self.i = start + 1
            if k[self.i] == ":":
                self.i += 1
            return
        if type(node) is Stitch and node.kind == "dec":
            drawn = self._drawn(self.i, end)
            if drawn is not None and drawn.kind.endswith("tog"):
                node.kind = drawn.kind
        self.i = end
        self._skip_naming()

    def _skip_naming(self):
        """ "(dec made)", "- sc2tog made", "(sc2tog)" after a description: the stitch that is named, or None."""
        k = self.k
        at = self.i
        if k[at] in (",", ".") and k[at + 1] == "(":
            at += 1
        if k[at] == "(" and self.match[at] > at and self.match[at] - at < 6 and any(kind in ("ST", "OWN") for kind in k[at:self.match[at]]) and (
            "MADE" in k[at:self.match[at]] or self.match[at] == at + 2
        ):
            value = next(self.v[here] for here in range(at, self.match[at]) if k[here] in ("ST", "OWN"))
            self.i = self.match[at] + 1
            return value
        if k[at] in ("DASH", "=", ",", ":") and k[at + 1] in ("ST", "OWN", "NUM", "FIRST"):
            here = at + 2 if k[at + 1] in ("NUM", "FIRST") else at + 1
            if k[here] in ("ST", "OWN"):
                after = here + 1
                while k[after] == "STN":
                    after += 1
                if k[after] == "MADE":
                    self.i = after + 1
                    return self.v[here]
        return None

    def held_loops(self, frame, node: Stitch) -> None:
        """ "2 dc in next sc keeping last loop of each on hook, yo and work off all loops": closed together."""
        end = self._description_end()
        k = self.k
        if end < 0:
            while k[self.i] not in (",", ";", ".", "END", ")", "]"):
                self.i += 1
        else:
            self.i = end
        self._close_together(node)
        named = self._skip_naming()
        if isinstance(named, str) and named in ("cl", "bobble", "puff", "popcorn"):
            node.kind = named if node.legs else node.kind

    def _close_together(self, node: Stitch) -> None:
        place = node.place
        if place is not None and isinstance(place.n, int) and place.n > 1 and node.n == 1:
            kind = f"{node.kind}{place.n}tog"
            if self.lexicon.fact(kind) is not None:
                node.kind, node.over = kind, True
            return
        if isinstance(node.n, int) and node.n > 1:
            node.legs, node.base, node.kind, node.n = node.n, node.kind, "cl", 1

    def dropped_loop(self, frame, node: Stitch) -> bool:
        """ "5 dc in next st, drop loop from hook, insert hook in first dc, draw loop through": a popcorn."""
        k = self.k
        at = self.i
        while k[at] in (",", ";", ".", "AND"):
            at += 1
        if k[at] != "DROPLOOP" or not isinstance(node.n, int) or node.n < 2:
            return False
        limit, drawn = at + 40, False
        while at < limit and k[at] != "END":
            words = self.text[self.s[at]:self.e[at]].lower()
            drawn = drawn or k[at] == "THROUGH" or "through" in words
            if drawn and k[at] in (",", ";", ".", ")", "(", "DASH"):
                break
            at += 1
        if not drawn:
            return False
        self.i = at
        if k[at] == "," and k[at + 1] == "CH" and k[at + 2] == "NUM" and self.v[at + 2] == 1:
            self.i = at + 3
            while k[self.i] in ("TO", "JOIN", "W", "U"):
                self.i += 1
        self._skip_naming()
        node.kind, node.legs, node.base, node.n = "popcorn", node.n, node.kind, 1
        return True

    def act_described(self, frame) -> bool:
        """A description that begins a step."""
        k, start = self.k, self.i
        kind = k[start]
        if kind in ("HOLD", "LEAVE"):
            return self._held_before(frame, start)
        if kind == "WORKOFF":
            return self._told(frame)
        end = self._description_end()
        if end < 0:
            return self._told(frame)
        step = self._drawn(start, end)
        self.i = end
        if k[end] == "," and k[end + 1] == "CH" and k[end + 2] == "NUM" and self.v[end + 2] == 1 and (
            k[end + 3] == "(" and "MADE" in k[end + 3:end + 9] or k[end + 3] == "TO" and k[end + 4] in ("JOIN", "W", "U")
        ):
            self.i = end + 3  # the chain that closes it
            while k[self.i] in ("TO", "JOIN", "W", "U"):
                self.i += 1
        named = self._skip_naming()
        if named is not None:
            if isinstance(named, str):
                if named != "dec" or step is None:
                    step = step or Stitch(named)
                    step.kind = named
            else:
                own = getattr(named, "kind", "")
                if own and step is not None:
                    step.kind = own
        if step is None:
            return False
        step.span = self.span(start)
        last = self.last_step(frame)
        if type(last) is Stitch and last.place is None and last.kind in ("dec", step.kind) and not frame.ended and (k[start - 1] in (":", "(", "DASH", ",") or k[start] in ("(", "[")):
            last.place = step.place
            if last.kind == "dec" and step.kind.endswith("tog"):
                last.kind, last.over = step.kind, step.over
            return True
        self.put(frame, step)
        return True

    def _told(self, frame) -> bool:
        """A description that is broken off ("yarn over and insert hook in 2nd st from hook"): told, not worked."""
        k, start = self.k, self.i
        while k[self.i] not in (",", ";", ".", "END", ")", "]", "MARK", "(", "["):
            self.i += 1
        if self.i == start:
            return False
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def _drawn(self, start: int, end: int) -> Stitch | None:
        """The stitch that tokens [start, end) describe: how many loops are drawn up where, with how many yarn overs first."""
        k, v = self.k, self.v
        places: list[Place] = []
        wraps = 0
        drawn = throughs = 0
        at = start
        pending_times = 1
        told = None  # the place said after "4 times"
        while at < end:
            kind = k[at]
            words = self.text[self.s[at]:self.e[at]].lower()
            if kind == "YO" and not places:
                wraps += 1
            elif kind == "DRAW" and ("through" in words or k[at + 1] in ("THROUGH", "ALL") or k[at + 1] == "NUM" and k[at + 2] == "SP"):
                throughs += 1
            elif kind == "DRAW" and k[at + 1] in ("IN", "NEXT", "SAME", "EACH", "FROM", "AROUND", "OVER"):
                self.i = at + 1
                place = self.place()
                if place is not None and self.i <= end:
                    places.append(place)
                    drawn += place.n if isinstance(place.n, int) else 1
                    at = self.i
                    continue
            elif kind == "IN" and k[at + 1] in ("SAME", "NEXT", "FIRST") and k[at - 1] in ("TIMES", "TIMESN"):
                self.i = at + 1
                place = self.target()
                if place is not None:
                    told = place
                    at = self.i
                    continue
            elif kind == "TIMESN" or kind == "NUM" and k[at + 1] in ("TIMES", "MORE") and k[at - 1] != "AT":
                pending_times = v[at] if isinstance(v[at], int) else 1
                if "REP" in k[max(start, at - 4):at]:
                    pending_times += 1
            at += 1
        if not places and told is None:
            return None
        drawn = max(1, drawn) * max(1, pending_times)
        base = "sc" if wraps == 0 else "dc" if throughs > 1 else "hdc"
        first = told or places[0]
        if told is not None and told.which == "same" and places and places[0].which == "next" and "NEXT" in k[start:end]:
            first = places[0]  # "(yo, insert hook in next st, ...) 4 times in same st": all into that one
        if drawn < 2:
            return Stitch(base, 1, first)
        same = told is not None or first.which == "same" or any(place.which == "same" for place in places[1:])
        if same:
            return Stitch("puff" if base == "hdc" else "cl", 1, first if first.which != "same" else Place("same"), legs=drawn, base=base)
        kind = f"{base}{drawn}tog"
        if self.lexicon.fact(kind) is None:
            return None
        first.n = drawn
        first.extent = None
        return Stitch(kind, 1, first, over=True)

    def _held_before(self, frame, start: int) -> bool:
        """ "Leaving last loop of each on hook, work 3 dc in next st, yo and through all loops"."""
        k = self.k
        while k[self.i] not in (",", ";", ".", "END", ")", "NUM") or k[self.i] == "NUM" and k[self.i + 1] not in ("ST", "OWN"):
            self.i += 1
        while k[self.i] in (",", ";", ":"):
            self.i += 1
        before = len(frame.steps)
        done = self.act_number(frame) if k[self.i] == "NUM" else self.stitch(frame, None, self.i) if k[self.i] in ("ST", "OWN") else False
        if not done or len(frame.steps) == before or type(frame.steps[-1]) is not Stitch:
            self.i = start
            return False
        node = frame.steps[-1]
        self._close_together(node)
        at = self.i
        while k[self.i] in (",", ";", ".", "AND"):
            self.i += 1
        if k[self.i] in ("YO", "DRAW", "WORKOFF", "THROUGH"):
            end = self._description_end()
            self.i = end if end > 0 else at
        else:
            self.i = at
        named = self._skip_naming()
        if isinstance(named, str) and named in ("cl", "bobble", "puff", "popcorn") and node.legs:
            node.kind = named
        node.span = self.span(start)
        return True
