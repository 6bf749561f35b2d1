"""Stitches: "3 dc in next ch-2 sp", "sc 4", "2 hdc in each of next 3 sts", "FPdc around next st", "dec over next 2 sts"."""

from copy import copy

from hookwright.ground import Number, Span

from .nouns import GROUP_KINDS
from .steps_ends import EndsReading
from .steps_every import EveryReading
from .steps_made_of import MadeOfReading
from .steps_number_first import NumberFirstReading
from .steps_skip import SkipReading
from .steps_special import SHAPING_ENDS, SpecialStitchReading
from .steps_stitch_places import StitchPlaceReading
from .stitch_words import Named
from .tree import Chain, Colour, Either, Group, Note, Place, Repeat, Stitch

_AFTER_A_NUMBER = frozenset((",", ";", ".", ":", ")", "]", "}", "|", "END", "MARK", "(", "[", "AND", "IN", "OVER", "AROUND", "QC", "TURN", "STN", "DASH", "LOOP", "JOIN", "EVENLY", "SKIP", "REP", "NEXT", "TOG", "THROUGH", "ACROSS", "BETWEEN", "WITH", "FROM", "EACH", "SAME", "FIRST", "LAST", "TO", "TOEND", "REMARK", "CHANGE", "PM", "=", "AT", "BOTH", "ALL"))


class StitchReading(NumberFirstReading, StitchPlaceReading, SkipReading, SpecialStitchReading, EveryReading, EndsReading, MadeOfReading):
    """Reads stitches with their number."""

    def act_stitch(self, frame) -> bool:
        if self.colour_kind is not None and self.names_the_stitch(frame, self.i):
            return True
        if self.k[self.i + 1] in ("W", "=", "U") and self.meaning_told(frame):
            return True
        return self.stitch(frame, None, self.i)

    # ------------------------------------------------------------ the stitch itself

    def stitch(self, frame, number: Number | None, start: int) -> bool:
        """A stitch phrase from the stitch's name on; `number` stood before it, `start` is its first token."""
        k = self.k
        value = self.v[self.i]
        self.i += 1
        while k[self.i] == "STN" or k[self.i] == "HY" and k[self.i + 1] == "STN":  # "dc sts", "puff-st"
            self.i += 1
        said = number
        if number is None and self._word(start) == "double" and (k[self.i] in ("COUNT", "TOTAL") or k[self.i] == "W" and self._word(self.i) in ("number", "amount")):
            self.i += 1
            while k[self.i] in ("OF", "STN", "ASFOLLOWS", "WORKING", "WITH", "COUNT"):
                self.i += 1
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))  # "Double the stitch count by working 2 hdc in every stitch"
            return True
        if value == "dc2tog" and k[self.i] in ("OVER", "IN") and k[self.i + 1:self.i + 3] == ["NEXT", "NUM"] and self.v[self.i + 2] == 3 and self._word(self.i - 1).startswith("double dec"):
            value = f"{self._usual(frame)}3tog"  # "double dec over next 3 sts": two fewer, in the stitch at hand
        if value in ("dc", "sc") and number is None and self._word(self.i - 1) == "double" and self._doubled():
            value = "inc"  # "double every stitch", "double every 2nd st"
        if k[self.i] in ("(", "[") and value in ("cl", "bobble", "popcorn", "puff"):
            value = self.legs_in_brackets(value)
        if k[self.i] == "(" and self._gloss_ahead():
            self.i = self.match[self.i] + 1
        value = self._either_terms(value)
        increase = self._increase_after(value)
        if increase:
            node = Stitch(value, increase)
            self._placed(frame, node, start, increase)
            if frame.steps and frame.steps[-1] is node and node.place is None:
                node.place = Place()  # "dc2inc": two in one stitch
            return True
        shaped_in = None
        if number is None and value in ("inc", "dec") and k[self.i] == "ASFOLLOWS" and k[self.i + 1] == "NUM" and self._word(self.i) == "by":
            self.i += 1  # "increase by 6 sts"
        if number is None and value in ("inc", "dec") and k[self.i] == "NUM" and k[self.i + 1] == "ST" and isinstance(self.v[self.i + 1], str) and self._shaping_named(self.i + 2):
            number, shaped_in = self.v[self.i], self.v[self.i + 1]  # "dec 1 sc at both ends"
            self.i += 2
        if number is None and k[self.i] in ("BOTH", "LAYERS") and self._closed_with(frame, self.i):
            return True  # "sc both edges together with 6 sc"
        if number is None:
            number = self._number_after()
            if number is not None and k[self.i] in ("SHADE", "W") and self._colour_alone(self.i):  # "sc 5 ecru, sc 3 red"
                frame.steps.append(Colour(self._colour_name(self.i, self.i + 1), span=Span(self.s[self.i], self.e[self.i])))
                self.i += 1
        if k[self.i] == "MADE" and (said is not None or k[self.i + 1] == "IN"):
            self.i += 1
        if said is not None and k[self.i] in SHAPING_ENDS and self._comma_left_out(frame, value, said, start):
            return True
        if isinstance(value, Named) and value.kind == "inc" and number in (None, 1) and k[self.i] != "EVENLY":
            node = Stitch(value.base, 2)  # "dc inc": two in one stitch
            self._placed(frame, node, start, 2)
            if node.place is None and frame.steps and (frame.steps[-1] is node or type(frame.steps[-1]) is Repeat and frame.steps[-1].steps == [node]):
                node.place = Place()
            return True
        node = self._node(value, 1 if number is None else number)
        if node is None:
            return False
        if shaped_in is not None and type(node) is Stitch:
            node.base = shaped_in
        if type(node) is Group:
            told = self.made_of(node.name)
            if told is not None:
                self.told_of = node = told
                if not self.lexicon.own.get(told.name):
                    self.named = {**(self.named or {}), told.name: told.steps}
                if node.place is not None:
                    node.span = self.span(start)
                    return self.put(frame, node)
        if type(node) is Stitch and node.kind == "slst" and self.slip_stitch_joins(frame, start, said):
            return True
        loop, self.loop_after = self.loop_after, ""
        done = self._placed(frame, node, start, number)
        if loop and type(node) is Stitch:
            node.loop = "" if loop == "both" else loop
        return done

    def _comma_left_out(self, frame, value, number: Number, start: int) -> bool:
        """ "3sc inc", "6 sc dec": a comma left out between them, or so many increases in that stitch."""
        words = self._word(self.i - 1).split()
        kind = words[-1] if len(words) == 2 and words[-1] in ("inc", "dec") else ""
        base = value.base if isinstance(value, Named) else value.removesuffix("2tog") if isinstance(value, str) and value.endswith("2tog") else ""
        if not kind or not base:
            return False
        span = self.span(start)
        apart = [Stitch(base, number, span=span), Stitch(kind, 1, span=span)]
        made = Stitch(kind, number, base=base, span=span)
        return self.put(frame, Either([apart, [made]] if self.depth or self.open_marks or self.k[self.i] in (",", "X", "REP", "NUM") else [[made], apart], "the shaping may come after the stitches or be made of them", span))

    def _shaping_named(self, at: int) -> bool:
        """Whether the stitch before token `at` names what is increased: "inc 6 sc evenly", "inc 1 sc in next st", "dec 1 sc over next 2 sts"."""
        k = self.k
        if k[at] in ("AT", "EACH", "BOTH", "EVENLY") or k[at] in (",", "AROUND", "ACROSS") and k[at + 1] == "EVENLY" or k[at] == "IN" and k[at + 1] in ("EACH", "BOTH") and k[at + 2] in ("SIDE", "ENDING", "EXTEND"):
            return True
        if self.v[at - 2] != 1 or k[at] not in ("IN", "OVER"):
            return False
        return k[at + 1] in ("FIRST", "LAST", "SAME") or k[at + 1] == "NEXT" and (k[at + 2] in ("ST", "STN") or k[at] == "OVER")

    def _doubled(self) -> bool:
        """Whether the stitches to be doubled follow ("every stitch", "all sts", "each sc", "every other stitch")."""
        k, at = self.k, self.i
        if k[at] not in ("EACH", "ALL"):
            return False
        at += 1 + (k[at + 1] in ("ORD", "OTHER"))
        return k[at] in ("STN", "ST")

    def _number_after(self) -> Number | None:
        """ "sc 3", "sc x 3", "Fhdc-10", "inc 1": the number that stands after its stitch."""
        k = self.k
        at = self.i
        if at >= self.limit:
            return None
        if k[at] == "X" and k[at + 1] == "NUM":
            self.i = at + 2
            if k[self.i] == "TIMES":
                self.i += 1
            self.times_said = self.v[at + 1]
            return self.v[at + 1]
        if k[at] == "MARK" and self.v[at] == "*" and not self.open_marks and k[at + 1] == "NUM" and k[at + 2] not in ("ST", "CH", "OWN", "HY", "MORE", "X"):
            self.i = at + 2  # "dec * 7 (7)"
            self.times_said = self.v[at + 1]
            return self.v[at + 1]
        if k[at] == "HY":
            at += 1
        loop = ""
        if k[at] == "LOOP" and k[at + 1] == "NUM":  # "scblo 10"
            loop = self.v[at]
            at += 1
        if k[at] != "NUM":
            return None
        after, more = k[at + 1], 0
        if after == "MORE" and k[at + 2] in _AFTER_A_NUMBER:  # "sc 11 more around leg 1"
            more, after = 1, "IN"
        if after in ("ST", "OWN", "HY", "X", "MORE", "TIMES"):
            if after not in ("ST", "OWN") or not self.numbers_after:
                return None
        elif after == "CH":
            if k[at + 2] != "NUM" and not (k[at + 2] == "HY" and k[at + 3] == "NUM"):
                return None
        elif after not in _AFTER_A_NUMBER and not (after == "W" and self._word(at + 1) in ("up", "down") or after in ("W", "SHADE") and self._colour_alone(at + 1)):  # "sc 10 down left front"
            return None
        elif k[at - 1] == "DASH":
            return None
        self.i = at + 1 + more
        if k[self.i] == "STN":
            self.i += 1
        self.loop_after = loop
        return self.v[at]

    @property
    def numbers_after(self) -> bool:
        """Whether this row writes its numbers after the stitch ("sc 3, inc 1")."""
        k = self.k
        after = sum(1 for at in range(1, len(k) - 1) if k[at] == "NUM" and k[at - 1] in ("ST", "CH") and (
            k[at + 1] in (",", ")", "]", "MARK") or k[at + 1] == "ST" and self.s[at] == self.e[at - 1] and self.s[at + 1] > self.e[at]  # "sc5 inc sc8"
        ))
        before = sum(1 for at in range(len(k) - 1) if k[at] == "NUM" and k[at + 1] in ("ST", "CH") and (at == 0 or k[at - 1] in (",", "(", "[", "MARK")))
        return after > before

    def _node(self, value, number: Number):
        """The node for a token's value: Stitch, or Group for stitches whose parts count one by one."""
        if isinstance(value, str):
            if value in GROUP_KINDS:
                return self._usual_group(value, None, None, number)
            return Stitch(value, number)
        if isinstance(value, Named):
            if value.kind in GROUP_KINDS:
                return self._usual_group(value.kind, value.legs, value.base, number)
            return Stitch(value.kind, number, legs=value.legs, base=value.base)
        own = value
        if own.steps and any(getattr(step, "place", None) is not None for step in own.steps):
            return Repeat(list(own.steps), number, mark="")  # it goes over several places: a filet block, a pair of crossed stitches
        if own.group or not own.kind:
            return Group(list(own.steps), name=own.name) if number == 1 else Repeat([Group(list(own.steps), name=own.name)], number, mark="")
        return Stitch(own.kind, number, legs=own.legs, base=own.base or None)

    def _usual_group(self, kind: str, legs: int | None, base: str | None, number: Number):
        """A shell, fan or V-stitch that the pattern has not said: the catalogue's make-up."""
        own = self.lexicon.own.get(kind) or next((own for own in self.lexicon.own.values() if own.kind == kind and own.steps), None)
        base = base or "dc"
        if self.named and kind in self.named and legs is None:
            steps = [copy(step) for step in self.named[kind]]  # told earlier in this row
        elif own is not None and own.steps and legs is None:
            steps = list(own.steps)
        elif kind == "vst":
            steps = [Stitch(base), Chain(1), Stitch(base)]
        else:
            fact = self.lexicon.fact(kind)
            steps = [Stitch(base, legs or (fact.makes if fact is not None and fact.makes > 1 else 5))]
        group = Group(steps, name=own.name if own is not None else kind)
        return group if number == 1 else Repeat([group], number, mark="")

    def _either_terms(self, value):
        """ "dc (UK)/sc (US)": the name in these terms; both mean the same."""
        k = self.k
        if k[self.i] != "/" or k[self.i + 1] != "ST":
            return value
        first = self.text[self.s[self.i - 1]:self.e[self.i - 1]] if k[self.i - 1] != ")" else self.text[self.e[self.match[self.i - 1]]:self.s[self.i - 1]]
        second = self.v[self.i + 1]
        self.i += 2
        if k[self.i] == "(" and self._gloss_ahead():
            self.i = self.match[self.i] + 1
        ours = "uk" if self.lexicon.terms == "UK" else "us"
        return value if ours in first.lower() or not first.lower().startswith(("uk", "us")) else second

    def _increase_after(self, value) -> int:
        """ "dc2inc", "sc3inc": how many into one stitch; 0 where it is not said so."""
        k, at = self.k, self.i
        if k[at] == "NUM" and k[at + 1] == "ST" and self.v[at + 1] == "inc" and self.s[at] == self.e[at - 1] and self.s[at + 1] == self.e[at]:
            if isinstance(value, str) and isinstance(self.v[at], int) and 1 < self.v[at] < 12:
                self.i = at + 2
                return self.v[at]
        return 0

    def _gloss_ahead(self) -> bool:
        """Whether the bracket at hand only gives the stitch's abbreviation: "double crochet (dc)"."""
        close = self.match[self.i]
        if close == self.i + 2 and self.names_a_group(self.i + 1) and self.i and not self.names_a_group(self.i - 1) and self.k[close + 1] in (",", ";", ".", "REP", "END", "AND", "MARK"):
            return False  # "in next sp make 3 dc, ch 2 and 3 dc (shell)" names all of it
        return close == self.i + 2 and self.k[self.i + 1] in ("ST", "CH", "OWN") or (
            close > self.i and all(kind in ("ST", "CH", "OWN", "W", "U", "/", "HOOK", "OVER", "TIMES") for kind in self.k[self.i + 1:close]) and close - self.i < 4
        )
