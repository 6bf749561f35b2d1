"""What follows a stitch and its place: further places ("and in next sp"), "3 times", "around", loops kept on the hook."""

from dataclasses import replace

from hookwright.ground import Number

from .tree import Extent, Group, Note, Place, Repeat, Stitch


def node_place(node) -> Place | None:
    """The place of a stitch or group, None where it has none."""
    return getattr(node, "place", None)


_WORDS_ASIDE = frozenset(("W", "U", "NOT", "FIRST", "LAST", "THIS", "YOU", "REMARK", "HOOK", "FROM", "OF", "AS", "FOR", ".", "SEE", "HAVE", "ALWAYS", "NEXT", "ONEAFTER", "SIDE"))


class StitchAfterReading:
    """Reads what comes after a stitch phrase."""

    def _more_places(self, frame, node) -> None:
        """ "and in next sp", "and the next 22 sts", "and next 2 ch", "and across": the same stitch again."""
        k = self.k
        while True:
            self._loop_between(frame.steps[-1])
            at = self.i
            if k[at] == "," and k[at + 1] == "AND":
                self.i += 1
            elif k[at] == "(" and self._foundation_says(frame.steps[-1]):
                continue
            elif k[at] == "(" and self._said_between(at):
                self.i = self.match[at] + 1
                frame.steps.insert(-1, Note(self.text[self.e[at]:self.s[self.i - 1]].strip(), self.span(at)))
                continue
            chain = self.i + 1 + (k[self.i] == "AND" and k[self.i + 1] in ("W", "U"))
            if k[self.i] == "AND" and k[chain] == "CH" and getattr(node_place(node), "each", False) and node_place(node).n is None:
                self.i = chain
                place = self._noun_place()  # "dc in each st and ch across"
                if place is not None and place.of == "ch":
                    place.n, place.each, place.extent = None, True, self.extent() or Extent("open")
                    self.put(frame, replace(node, place=place))
                    return
                self.i = at
            told = node_place(frame.steps[-1])
            if k[self.i] == "AND" and k[self.i + 1] in ("STN", "ST") and k[self.i + 2] in ("ACROSS", "AROUND", "TOEND") and type(node) is Stitch and told is not None and told.of == "ch" and told.each:
                self.i += 2  # "sc in each ch and st across"
                told.extent = Extent("open")
                self.put(frame, replace(node, place=Place(n=None, extent=self.extent() or Extent(), each=True)))
                return
            if k[self.i] == "AND" and self._space_after(frame, node):
                continue
            of = k[self.i] == "AND" and k[self.i + 1] == "OF" and k[self.i + 2] in ("EACH", "NEXT", "REM", "ALL")  # "in back bump of 2nd ch and of each ch across"
            if of:
                self.i += 1
            elif k[self.i] != "AND" or k[self.i + 1] not in ("IN", "NEXT", "EACH", "AROUND", "ACROSS", "OVER", "ALL", "LAST", "SAME", "REM", "TOEND", "ORD"):
                self.i = at
                return
            first = self.i + 1
            self.i += 1
            if k[self.i] in ("ORD", "REM"):
                place = self.target()
            else:
                place = self.place()
            if place is None or self._place_begins_anew(place):
                self.i = at
                return
            if self._closed_over(node, place):
                node.span = node.span.to(self.span(first))
                continue
            again = replace(node)
            if type(again) is Group:
                again.steps = list(node.steps)
            self._set_place(again, place, self.found_loop or getattr(node, "loop", "") or (of or getattr(node_place(node), "loop", "") == "bump") and node_place(node) is not None and node_place(node).loop or "", self.found_layers)
            again.span = self.span(first)
            told = node_place(node)
            if place.of == "ch" and place.each and type(place.n) is int and told is not None and told.each and told.extent is not None:
                place.chains, place.n, place.extent = place.n, None, Extent("open")  # "sc in each sc and in each of 6 chs around": as they come
            if place.extent is not None and place.of == "st" and type(node) is Stitch and node.place is not None and node.place.which == "from hook" and place.which == "next":
                place.of = "ch"
            self.put(frame, again)

    def _said_between(self, at: int) -> bool:
        """Whether the bracket at `at` only says something between two places: "sc in 2nd ch (not the first!) and in each ch to end"."""
        k, close = self.k, self.match[at]
        return close > at + 1 and k[close + 1] == "AND" and k[close + 2] in ("IN", "EACH") and _WORDS_ASIDE.issuperset(k[at + 1:close])

    def _loop_between(self, node) -> None:
        """ "sc in 2nd ch from hook (back bump) and in each ch across": the loop said between two places is that of both."""
        k, at, place = self.k, self.i, node_place(node)
        bracket = k[at] in ("(", "[")
        if place is None or type(node) is not Stitch or not bracket and k[at] != "IN" or k[at + 1] != "LOOP":
            return
        after = at + 2 + bracket
        if bracket and self.match[at] != at + 2 or k[after] != "AND" or k[after + 1] not in ("IN", "EACH", "NEXT"):
            return
        loop = "" if self.v[at + 1] == "both" else self.v[at + 1]
        if loop in ("third", "bump", "one"):
            place.loop = loop
        else:
            node.loop = loop
        self.i = after

    def _closed_over(self, node, place: Place) -> bool:
        """ "sc2tog over same st and next st", "dc2tog in next st and next ch-1 sp": one stitch that stands on both places."""
        told = node_place(node)
        if type(node) is not Stitch or told is None or not (node.kind == "dec" or node.kind.endswith("tog")) or place.extent is not None or told.extent is not None:
            return False
        fact = self.lexicon.fact(node.kind)
        takes = fact.takes if fact is not None and node.kind != "dec" else 2
        mine, more = told.n if isinstance(told.n, int) else 1, place.n if isinstance(place.n, int) else 1
        if node.n != 1 or mine + more != takes or place.which not in ("next", "last") or told.which not in ("next", "same", "last", "first"):
            return False
        if told.which == "last" and place.which == "next" or place.which == "last" and told.which != "next":
            return False
        both = {told.of, place.of} - {"st"}
        if told.which == "same" and both - {place.of}:
            return False
        told.n, node.over = takes, True
        if both and told.which != "same":
            told.of, told.chains = ("st+sp", None) if both <= {"sp"} and told.of != place.of else (told.of, told.chains)
        if place.which == "last":
            told.which = "last"  # "over next st and last st": the last two
        return True

    def _space_after(self, frame, node) -> bool:
        """ "sl st in next dc and ch-1 sp": the space beside it, too."""
        k, start, told = self.k, self.i, node_place(node)
        if k[start + 1] not in ("CH", "NUM", "SP") or told is None or told.which not in ("next", "same") or told.extent is not None or told.of in ("sp", "corner"):
            return False
        self.i += 1
        noun = self.noun()
        bare = noun is not None and noun.of == "sp" and {"SP", "HY"}.isdisjoint(k[start:self.i])  # "tr in next st, then ch 1": a chain of its own
        if noun is None or bare or noun.of not in ("sp", "corner") or noun.n is not None or k[self.i] not in (",", ".", ";", "END", ")", "]", "TURN", "MARK"):
            self.i = start
            return False
        self.put(frame, replace(node, n=1 if node.kind == "slst" else node.n, place=Place("next", noun.of, 1, chains=noun.chains), span=self.span(start + 1)))
        return True

    def _place_begins_anew(self, place: Place) -> bool:
        """Whether a place read after "and" belongs to the next stitch ("and in next sp work 2 dc")."""
        k = self.k
        return k[self.i] == "TOG" or k[self.i] in ("ST", "OWN", "(", "[") and not (k[self.i] in ("(", "[") and self._not_steps(self.i)) or (
            k[self.i] == "NUM" and k[self.i + 1] in ("ST", "OWN", "CH")
        )

    def _after_stitch(self, frame, node, start: int) -> bool:
        """ "3 times", "twice", "as follows: ...", "keeping last loop ...", "around" after a single place."""
        k = self.k
        if k[self.i] == "(" and type(node) is Stitch and self._foundation_says(node):
            pass
        kind = k[self.i]
        if (kind == "INCLUDE" or kind in (",", "(", "[") and k[self.i + 1] == "INCLUDE") and node_place(node) is not None and node_place(node).extent is not None:
            at = self.i
            self.i += 1 + (kind != "INCLUDE")
            while k[self.i] in ("EACH", "ALL", "IN", "OF") or k[self.i] in ("W", "U") and self.i - at < 5:
                self.i += 1
            noun = self.noun()
            if kind in ("(", "["):
                noun = noun if self.match[at] == self.i else None
                self.i += noun is not None
            if noun is not None and noun.of == "ch" and noun.chains is None and type(node) is Stitch:
                self.put(frame, replace(node, place=Place(of="ch", n=None, extent=Extent("open"), each=True)))  # "sc in each st across, including underarm chs"
            elif noun is not None and noun.of in ("sp", "corner", "ch"):
                node_place(node).of = "st+sp"  # "sc in each st around, including the ch-1 sps"
            else:
                self.i = at
            kind = k[self.i]
        if kind in (",", ".", ";", "AND") and type(node) is Stitch and node.n != 1 and self.dropped_loop(frame, node):
            return True
        comma = kind == ","
        held = k[self.i + comma] == "HOLD" and not comma or k[self.i + comma] in ("HOLD", "LEAVE") and k[self.i + comma + 1] == "LAST" and k[self.i + comma + 2] == "SP"
        if held and type(node) is Stitch:
            self.i += comma + (k[self.i + comma] == "LEAVE")
            self.held_loops(frame, node)
            kind = k[self.i]
        if kind == "ASFOLLOWS" or kind == "AS" and k[self.i + 1] == "U" or kind == "INTHISWAY" and k[self.i + 1] == ":":
            self.announces(frame.steps)
            self.skip_description(node)
            kind = k[self.i]
        if kind in ("NUM", "TIMESN", "X", "(", "FOR"):
            times = self.times_after_stitch()
            if times is not None:
                frame.steps.pop()
                if type(node) is Stitch and node.n == 1 and node.place is None:
                    self.times_said = node.n = times
                    frame.steps.append(node)
                    if k[self.i] == "IN" and k[self.i + 1] in ("NEXT", "SAME", "FIRST", "LAST", "EACH"):  # "sc twice in next st"
                        node.place, self.times_said = self.place(), None
                        node.span = self.span(start)
                else:
                    frame.steps.append(Repeat([node], times, span=self.span(start)))
                return True
        if kind in ("AROUND", "ACROSS", "TOEND") and getattr(node, "place", None) is not None and node.place.extent is None:
            if _by_kinds(frame.steps, node.place):  # "1 dc in every tr, 1 dc in every 1-ch sp and 3 dc in the 2-ch sp across"
                node.place.n, node.place.each, node.place.extent = None, True, self.extent()
                return True
            if node.place.each and node.place.n not in (None, 1) and node.place.which == "next" and len(frame.steps) - self._head(frame.steps) == 1 and kind != "TOEND":
                self.i += 1  # "sc in each of the 151 sts across": that many there are
                return True
            return node.place.n != 1 and self.where_told(frame) or self.bare_around(frame)
        if kind == "WITH":
            self.chains_between(frame, node, start)
        return True

    def times_after_stitch(self) -> Number | None:
        """ "3 times", "(3 times)", "twice", "x 3" after a stitch with its place."""
        k, start = self.k, self.i
        if start >= self.limit:
            return None
        at = start
        bracket = k[at] == "("
        if bracket:
            at += 1
        elif k[at] == "FOR" and k[at + 1] == "NUM" and k[at + 2] == "TIMES":  # "inc for 6 times"
            at += 1
        if k[at] == "TIMESN":
            number, after = self.v[at], at + 1
        elif k[at] == "NUM" and k[at + 1] == "TIMES":
            number, after = self.v[at], at + 2
        elif k[at] == "X" and k[at + 1] == "NUM":
            number, after = self.v[at + 1], at + 2
        else:
            return None
        if k[after] == "MORE" or k[after] == "OVER":
            return None
        if bracket:
            if k[after] != ")":
                return None
            after += 1
        self.i = after
        return number


def _by_kinds(steps: list, place: Place) -> bool:
    """Whether the place of the last step is one more kind of place after stitches in each of other kinds."""
    before = getattr(steps[-2], "place", None) if len(steps) > 2 else None
    further = getattr(steps[-3], "place", None) if before is not None else None
    return place.which == "next" and place.n == 1 and place.of in ("sp", "corner", "ch") and all(
        one is not None and one.each and one.n is None and one.extent is not None and (one.of, one.chains) != (place.of, place.chains) for one in (before, further)
    )
