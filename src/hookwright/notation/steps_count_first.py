"""Rows that say only how many stitches they have: "24 sts, 6 sts increased evenly", "24 sts, no inc or dec", "33 sc each round"."""

from hookwright.ground import Span

from .counts import made_by
from .tree import Chain, Colour, Either, Extent, FastenOff, Go, Join, NoJoin, Note, Place, Stated, Stitch, Turn

_STOPS = frozenset((".", "END", ",", ";", "(", "[", ")", "]", "DASH", "WITH", "AND", "=", ":"))
_WORKS = frozenset(("ST", "OWN", "CH", "NUM", "MARK", "REP", "SKIP", "SP", "TIMES", "TIMESN", "X", "IN"))
_TURNING = 5  # a chain that a row begins with has no more chains
_ALL_OF_IT = frozenset(("MARK", "REP", "EACH", "AROUND", "ACROSS", "TOEND", "TIMES"))  # words of work that takes up a row
_BESIDES = (Note, Colour, Join, NoJoin, Turn, FastenOff, Chain)
_LEADS_ON = frozenset(("MARK", "(", "[", "ST", "CH", "NUM", "WORKING", "IN", "SKIP", "JOIN", "ATTACH", "TURN", "MAGIC", "WITH", "CHANGE"))
_EACH_ONE = 6  # of so many stitches and more, "33 sc each" speaks of rounds and not of the stitches they are worked into


class CountFirstReading:
    """Reads what a row has instead of what is worked."""

    def count_first(self, frame) -> bool:
        """A number with which the row begins and that counts all of it."""
        k, start = self.k, self.i
        if any(type(step) not in (Note, Colour, Go) for step in frame.steps) or not isinstance(self.v[start], int):
            return False
        at = start + 1
        plain = k[at] != "ST"
        stitch = None if plain else self.v[at]
        at += k[at] == "ST"
        while k[at] == "STN":
            at += 1
        each = self._each_round(at)
        if each and (plain and (at > start + 1 or self.after or self.v[start] >= _EACH_ONE) or not plain and self.v[start] >= _EACH_ONE or k[each - 1 - (k[each - 1] in (")", "]"))] in ("TIMES", "ROUND", "ROW")):
            at = each
            counted = True
        else:
            counted = k[start + 1] == "STN"
        if k[at] not in _STOPS and k[at] not in ("GO", "SHAPING", "REMARK"):
            return False
        shaped = self._shaped_after(at)
        if shaped is not None:
            step, after = shaped
            self._state(start, at)
            step.span = Span(self.s[start], step.span.end)  # the count is of the whole row, not of what stands before the step
            self.i = after
            frame.steps.append(step)
            return True
        if not counted or not self._nothing_more(at):
            return False
        self._state(start, at)
        self.i = at
        while self.after and (k[self.i] in ("GO", "SHAPING", "OR", "AND", "(", ")", ",") or k[self.i] == "ST" and self.v[self.i] in ("inc", "dec") or self._word(self.i) in ("no", "without")):
            self.i += 1  # that nothing is shaped was read before
        if not any(type(step) is Go for step in frame.steps) and not self.after:
            span = Span(self.s[start], self.e[at - 1])
            even = Go(None, span) if stitch is None or not isinstance(stitch, str) else Stitch(stitch, 1, Place(n=None, extent=Extent("end")), span=span)
            frame.steps.append(even)
        return True

    def count_leads(self, frame) -> bool:
        """A count with which the row begins, before its steps: "24 sts. Sc in next 2 sts, ...", "24 sts: *sc ...", "24 - sc ..."."""
        k, start = self.k, self.i
        if any(type(step) not in (Note, Colour) for step in frame.steps) or not _WORKS.isdisjoint(k[:start]):
            return False
        at = start + 1
        while k[at] in ("STN", "ST"):
            at += 1
        after = at + 1
        named = k[at - 1] == "ST"
        if k[at] not in (":", "DASH") and (named or k[at] != ".") or named and not isinstance(self.v[at - 1], str):
            return False
        if k[after] not in _LEADS_ON or k[after] == "NUM" and k[after + 1] not in ("ST", "CH") or after < len(k) and k[at] == "DASH" and k[after] == "NUM":
            return False
        if not any(kind in ("ST", "OWN") for kind in k[after:]):
            return False
        of = self.v[at - 1] if named else "st"
        self.read.stated.append(Stated(((self.v[start], of, None),), "", False, Span(self.s[start], self.e[at - 1])))
        self.i = after
        return True

    def heads_the_work(self) -> bool:
        """ "46 V. 3 ch, skip 2, *V in next ...": the count as a sentence of its own before the turning chain and all the work."""
        k, start, at = self.k, 0, 2
        while k[at] in ("ST", "STN", "OWN"):
            at += 1
        if k[at] != "." or k[1] not in ("ST", "OWN", "STN") or k[at + 1:at + 3] not in (["CH", "NUM"], ["NUM", "CH"]):
            return False
        chains = self.v[at + 2] if k[at + 1] == "CH" else self.v[at + 1]
        group = k[start + 1] != "STN" and (k[start + 1] == "OWN" and len(self.v[start + 1].steps or ()) > 1 or self.names_a_group(start + 1) or self.v[start + 1] in ("cl", "bobble", "popcorn", "puff") or getattr(self.v[start + 1], "kind", "") in ("cl", "bobble", "popcorn", "puff"))
        if not isinstance(chains, int) or chains > _TURNING or not _ALL_OF_IT.intersection(k[at + 3:]) or not group and "SKIP" in k[at + 3:at + 5]:
            return False
        stated = self.count(start)
        if stated is None or self.i != at:
            self.i = start
            return False
        self.read.stated.append(stated)
        return True

    def _state(self, start: int, after: int) -> None:
        of = self.v[start + 1] if self.k[start + 1] == "ST" else "st"
        self.read.stated.append(Stated(((self.v[start], of, None),), "", False, Span(self.s[start], self.e[after - 1])))

    def _each_round(self, at: int) -> int:
        """Index after "each", "each time", "in every round", "per round"; 0 where none of them ends the clause."""
        k = self.k
        told = k[at] in ("(", "[", "IN", "ON", "FOR")
        at += told
        if k[at] != "EACH" or told and k[at - 1] == "IN" and k[at + 1] not in ("TIMES", "ROUND", "ROW"):
            return 0
        at += 1
        at += k[at] in ("TIMES", "ROUND", "ROW", "AROUND")
        at += k[at] in (")", "]")
        return at if k[at] in _STOPS else 0

    def _shaped_after(self, at: int):
        """The step of "6 sts increased evenly", "with 6 increases evenly", "decrease 6 evenly" at token `at`, and where it ends; None for none."""
        k, begin = self.k, at
        while k[at] in (",", ";", "WITH", "(", "[", "DASH", "AND", "=", ":"):
            at += 1
        opened = at > begin and k[at - 1] in ("(", "[")
        number, kind, evenly, words = None, "", False, at
        while k[at] not in (".", "END", ",", ";", ")", "]") and at - words < 8:
            if k[at] == "NUM" and number is None:
                number = self.v[at]
            elif k[at] == "ST" and self.v[at] in ("inc", "dec") or k[at] == "SHAPED":
                told = self._word(at)[:3]
                if kind or told not in ("inc", "dec"):
                    return None
                kind = told
            elif k[at] == "EVENLY":
                evenly = True
            elif k[at] not in ("STN", "MADE", "W", "AROUND", "ACROSS", "THIS", "ROUND", "ROW"):
                return None
            at += 1
        after = at + (opened and k[at] in (")", "]"))
        if number is None or not kind or not (evenly or opened and after > at) or not self._nothing_more(after):
            return None
        step = Stitch(kind, number, Place(n=None, extent=Extent("end")), evenly=True, span=Span(self.s[words], self.e[at - 1]))
        return step, after

    def shaped_first(self, frame) -> bool:
        """ "6 sts increased evenly", "increased 6 sts evenly" where nothing else is worked: at the number or the word."""
        if any(type(step) not in (Note, Colour) for step in frame.steps) or self.depth:
            return False
        shaped = self._shaped_after(self.i)
        if shaped is None:
            return False
        frame.steps.append(shaped[0])
        self.i = shaped[1]
        return True

    def perhaps_evenly(self, steps: list) -> list | None:
        """ "Increase 6 (24)": six in the next six stitches, or six along the row, as the count will tell; None where more is worked."""
        made = [step for step in steps if type(step) not in _BESIDES]
        only = made[0] if len(made) == 1 else None
        if type(only) is not Stitch or only.kind not in ("inc", "dec", "invdec") or not isinstance(only.n, int) or only.n < 2 or only.place is not None or only.evenly:
            return None
        number_first = self.text[only.span.start].isdigit()
        apart = only.kind == "inc" and " " in self.text[only.span.start:only.span.end] and self.in_round and "TURN" not in self.k
        if number_first and not apart or not self._more_than(self.read.stated[0].items[0][0], only):
            return None  # "inc x 6 (12)", "2 inc, turn (1)"; "3dec" is one of several steps
        spread = Stitch("inc" if only.kind == "inc" else "dec", only.n, Place(n=None, extent=Extent("end")), evenly=True, span=only.span)
        told = Either([[only], [spread]], "the increases or decreases may lie side by side or be spread over the row", only.span)
        return [told if step is only else step for step in steps]

    @staticmethod
    def _more_than(stated, only: Stitch) -> bool:
        """Whether the count says that more is worked than the increases or decreases alone, in some size."""
        made = max(made_by([only]) or 0, 3 * only.n - 1)  # spread, each has stitches about it
        return any(isinstance(number, int) and number > made for number in (stated if isinstance(stated, tuple) else (stated,)))

    def _nothing_more(self, at: int) -> bool:
        """Whether no stitches are told after token `at`: only that there is no shaping, and remarks."""
        k = self.k
        for here in range(at, len(k)):
            if k[here] == "END":
                return True
            if k[here] == "REMARK" and k[here - 1] in (".", ",", ";"):
                return True
            if k[here] == "NUM" and (k[here + 1] == "STN" or k[here + 1] in (")", "]", "END")):
                continue  # "6 sts increased evenly, 24 sts": how many there are
            if k[here] in _WORKS and not (k[here] == "ST" and self.v[here] in ("inc", "dec") and self._denied(here)):
                return False
        return True

    def _denied(self, at: int) -> bool:
        """Whether "inc" at token `at` is one of "no inc or dec"."""
        k = self.k
        while at and k[at - 1] in ("OR", "AND", "/", "ST"):
            at -= 1
        return bool(at) and (k[at - 1] == "GO" or self._word(at - 1) in ("no", "without", "neither", "not"))
