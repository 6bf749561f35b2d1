"""The words of a stated count: "24 dc, 6 ch-1 sps", "4 groups of 9 tr", "32/40/48 sts"."""

from hookwright.ground import PerSize, Span

from .nouns import GROUP_KINDS
from .stitch_words import Named
from .tree import Stated

LEADS = frozenset(("TOTAL", "=", ":", "YOU", "HAVE", "DASH", "THIS", "FOR", "NOW", "ROW", "ROUND", "MADE", ".", "AT", "ENDING", "WITH", "OF"))

LENGTH_UNITS = frozenset(("inch", "inches", "cm", "cms", "mm", "centimetres", "centimeters", '"', "yards", "metres", "feet"))


_BLOCKS = frozenset(("bl", "bls", "blk", "blks"))
_AFTER_SINGLES = frozenset((",", ";", ".", ")", "]", "AND", "+", "/", "END"))
_CHAIN_LEADS = frozenset(("TCH", "BEG", "FIRST", "SKIPPED", "THIS"))


class CountWordReading:
    """Reads the count itself."""

    def count(self, at: int) -> Stated | None:
        """The count that begins at token `at`; `i` is left after it. None where no count stands there."""
        k = self.k
        start = at
        items, per, series, shaped = [], "", False, False
        if k[at + 1] in ("+", "ST", "STN") and (summed := self.sum_ends(at)):
            at = summed
        self.i = at
        while True:
            at = self.i
            number, many = self._count_number()
            if number is None:
                self.i = at
                break
            series = series or many
            half = self._half_ahead(self.i)
            self.i = half or self.i
            of, chains, extra = self._count_noun()
            if of == "times":
                return None
            if of in ("inc", "dec") or k[self.i] == "SHAPED":
                shaped = True
                if k[self.i] == "SHAPED":  # "24 sts; 2 sts increased"
                    if self.text[self.s[self.i]].lower() == "i" and items:
                        self.read.stated.append(Stated(((number, of, chains),), "more", False, Span(self.s[at], self.e[self.i])))
                    self.i += 1
            elif not half:  # "12 shells and 2 half-shells": of halves nothing can be told
                items.append((number, of, chains))
                if extra is not None:
                    items.append(extra)
                    per = "group"
            per = self._count_tail() or ("more" if self.more else per)
            if k[self.i] == "BETWEEN" and len(items) > 1 and (close := self._between_ends(self.i)):
                del items[-1]  # "[8 shells, 24 dc between]": of all the row's dc nothing is told
                self.i = close
            if per == "side" and len(items) > 1 and self._few_at_edges(items):
                del items[-1]  # "15 clusters + 1 tr at each side": of what edges the row nothing more is told
                per = ""
            here = self.i
            if k[here] in (",", "AND", "+", "|", ";", "/", ":") or k[here] in ("DASH", "=") and {"(", "["} & set(k[max(0, start - 2):start]):  # "(6 petals - 42 tr)"
                here += 1
                if k[here] == "+" and self.growth_ends(here):
                    break  # "42 sts, +6 sts"
                while k[here] in ("AND", "+", "W") and k[here + 1] == "NUM":
                    here += 1
                if items and k[here] in ("ST", "OWN") and k[here - 1] in ("AND", "+") and k[here + 1] in (".", "END", ")", "]") and self.text[self.e[here - 1]:self.s[here]].split()[:1] in (["a"], ["an"]):
                    self.i = here  # "21 V-sts and a lonely treble"
                    noun = self._counted_noun()
                    if noun is not None:
                        items.append((1, *noun))
                    break
                beside = self._chain_beside(here) if items else 0
                if beside:
                    items.append((1, "tch", None))  # "19 dc and tch"
                    self.i = beside
                    break
                if k[here] == "CH" and k[here + 1] == "HY" and k[here + 2] == "NUM" and k[here + 3] in (")", "]"):  # "19 dc + ch-3"
                    items.append((self.v[here + 2], "ch", None))
                    self.i = here + 3
                    continue
                if k[here] == "CH" and k[here + 1] == "NUM" and k[here + 2] in (")", "]"):  # "20 sc + ch 4"
                    items.append((self.v[here + 1], "ch", None))
                    self.i = here + 2
                    continue
                if k[here] == "NUM" and self._noun_ahead(here):
                    self.i = here
                    continue
                self.i = self._things(here) or self.i  # "40 dc, 2 handles"
            elif k[here] == "NUM" and self._noun_ahead(here):
                continue
            break
        if not items or shaped and all(item[1] != "st" for item in items):
            return None
        return Stated(tuple(items), per, series, Span(self.s[start], self.e[self.i - 1]))

    def _chain_beside(self, at: int) -> int:
        """Index after a chain that stands for a stitch beside those counted, to the end of the count: "tch", "beg ch-3", "the skipped 3 ch"; 0 for none."""
        k, after = self.k, at
        if k[at:at + 2] == ["NUM", "CH"] and self.v[at] == 1:
            at = after = at + 1
        if k[at] == "CH":
            number = at + 1 + (k[at + 1] == "HY")
            begun = 1 + (k[1] == "HY") if k[0] == "CH" else 0
            same = k[number] == "NUM" and self.v[number] == self.v[begun] and {k[0], k[begun]} == ({"CH", "NUM"} if begun else {"NUM"}) and "CH" in k[:2]
            return number + 1 if same and k[number + 1] in (")", "]", ".", "END") and k.count("CH") < 4 else 0  # "19 dc + ch 3" of a row that begins with ch 3
        if k[at] not in _CHAIN_LEADS:
            return 0
        while k[after] in _CHAIN_LEADS or k[after] in ("CH", "HY", "NUM"):
            after += 1
        return after if k[after] in (")", "]", ".", "END") and ("TCH" in k[at:after] or "CH" in k[at:after]) else 0

    def _between_ends(self, at: int) -> int:
        """Index of the bracket that closes after "between" at `at`, alone or with what it lies between ("between shells"); 0 for none."""
        k, after = self.k, at + 1
        after += k[after] == "THIS"
        after += k[after] in ("ST", "STN", "OWN", "SP")
        return after if k[after] in (")", "]", "}") else 0

    def _things(self, at: int) -> int:
        """Index after a number of things that are no stitches, where it ends the count: "2 handles", "4 buttonholes", "2 handles of 40 ch each", "two ch-40 straps"; else 0."""
        k = self.k
        if k[at] in ("W", "U") and k[at + 1] in (")", "]") and self._word(at)[-1:] == "s" and self._word(at) not in LENGTH_UNITS:
            return at + 1  # "(64 sc and the handles)"
        if k[at] == "W" and k[at + 1] in ("SP", "CH", "ST") and k[at + 2] in (".", "END", ")", "]") and self._word(at) == "no":
            return at + 2  # "24 dc, no spaces"
        if k[at] != "NUM":
            return 0
        at += 1
        length = k[at:at + 3] in (["CH", "HY", "NUM"], ["NUM", "HY", "CH"])
        if length or k[at:at + 2] in (["CH", "NUM"], ["NUM", "CH"]):
            at += 3 if length else 2
        if k[at] not in ("W", "U", "REMARK") or self._word(at)[-1:] != "s" or self._word(at) in LENGTH_UNITS:
            return 0
        at += 1
        if k[at] == "OF" and k[at + 1] == "NUM" and k[at + 2] in ("CH", "STN", "ST"):
            at += 3 + (k[at + 3] == "EACH")
        return at if k[at] in (".", "END", ")", "]") else 0

    def _half_ahead(self, at: int) -> int:
        """Index of the noun after "half" at `at` ("half-shells"), 0 where it is none."""
        k = self.k
        noun = at + 1 + (k[at + 1] == "HY")
        return noun if k[at] == "HALF" and (k[noun] in ("ST", "OWN") or k[noun] == "SP" and self.v[noun] == "group") else 0

    def _noun_ahead(self, at: int) -> bool:
        k = self.k
        if self._half_ahead(at + 1):
            return True
        after = at + 1
        if k[after] == "NUM" and (self._chain_number(after) or self._group_number(after)):
            return True
        if k[after] == "HY":
            after += 1
        if k[after] in ("W", "U") and k[after + 1] in ("CH", "SP"):  # "54 sc + 2 underarm chains"
            after += 1
        return k[after] in ("ST", "STN", "OWN", "CH", "SP", "ROW", "TCH") or self._block(after) or self._singles(after)

    def _block(self, at: int) -> bool:
        """Whether the word counted at `at` is filet's short one for a block ("6 sps, 2 bls"), which elsewhere is a back loop or a loop stitch."""
        k = self.k
        return k[at] in ("LOOP", "ST", "U", "W", "OWN") and self._word(at).lower() in _BLOCKS and k[at - 1] == "NUM" and k[at + 1] in (",", ";", ")", "]", ".", "+", "AND", "END", "/", "DASH") \
            and (self._word(at).lower().startswith("blk") or any(kind == "SP" and self.v[i] == "sp" for i, kind in enumerate(k[:at + 8])))

    def _singles(self, at: int) -> bool:
        """Whether "single" at token `at` is short for the stitch ("20 single, 2 double"), and not "20 single stitches"."""
        return self.k[at] in ("W", "U") and self.lexicon.terms == "US" and self.k[at + 1] in _AFTER_SINGLES and self._word(at) in ("single", "singles")

    def _count_number(self):
        """The number (a tuple of numbers where one a row is given) and whether it is such a series."""
        k, v = self.k, self.v
        kind = k[self.i]
        if kind == "ORD" and self.text[self.e[self.i] - 2:self.e[self.i]].lower() == "st":
            number = v[self.i]
            self.i += 1
            return number, False
        if kind != "NUM":
            return None, False
        number = v[self.i]
        self.i += 1
        if isinstance(number, PerSize) and len(number) > 2 and len(number) != self.lexicon.sizes and self.lexicon.only is None and None not in number:
            return tuple(number), True  # "Rows 2-7: ... 22 (20, 18, 16, 14, 12) sts": one a row
        if k[self.i] in ("/", ",", "HY") and k[self.i + 1] == "NUM" and isinstance(number, int) and (k[self.i] == "/" or k[self.i + 2] in (k[self.i], "STN") or k[self.i] == "," and k[self.i + 2] == "AND" and k[self.i + 3] == "NUM"):
            part = k[self.i]
            numbers = [number]
            at = self.i
            while k[at] == part and k[at + 1] == "NUM" and not (part == "," and self._noun_ahead(at + 1) and len(numbers) < 2):
                numbers.append(v[at + 1])
                at += 2
            if part == "," and k[at + (k[at] == ",")] == "AND" and k[at + 1 + (k[at] == ",")] == "NUM" and k[at + 2 + (k[at] == ",")] in ("STN", ")", "]", ".", "END"):
                at += 1 + (k[at] == ",")  # "32, 40 and 48 sts"
                numbers.append(v[at])
                at += 1
            if len(numbers) > 2 or (len(numbers) == 2 and part == "/"):
                self.i = at
                if len(numbers) == self.lexicon.sizes:
                    return PerSize(numbers), False
                return tuple(numbers), True
        return number, False

    def _count_noun(self):
        """(of, chains, further item) of what is counted; stitches where nothing is said."""
        k, v = self.k, self.v
        if k[self.i] == "HY" and k[self.i + 1] in ("ST", "SP", "CH", "OWN"):
            self.i += 1
        self.more = k[self.i] == "MORE"
        while k[self.i] in ("MORE", "TOTAL", "REM", "W", "ALL") and k[self.i + 1] in ("ST", "STN", "SP", "CH", "OWN"):
            self.i += 1
        kind = k[self.i]
        if kind in ("TIMES", "TIMESN", "X"):
            return "times", None, None
        if kind == "ROW" or kind == "ROUND":
            self.i += 1
            return "row", None, None
        if kind == "AROUND" and self.text[self.s[self.i]:self.e[self.i]].lower() == "round":
            self.i += 1
            return "row", None, None
        of, chains = "st", None
        if self._singles(self.i):
            self.i += 1
            return "sc", None, None
        if kind in ("STN", "ST", "OWN", "SP", "CH", "NUM", "TCH") or self._block(self.i):
            value = v[self.i]
            if kind == "ST" and value in ("inc", "dec"):
                self.i += 1
                return value, None, None
            noun = self._counted_noun()
            if noun is not None:
                of, chains = noun
        extra = None
        if k[self.i] == "OF" and of not in ("st",):
            at = self.i + 1
            if k[at] == "NUM" and k[at + 1] in ("ST", "STN", "CH"):
                number = v[at]
                self.i = at + 1
                inner = self._counted_noun()
                if inner is not None:
                    extra = (number, *inner)
                of = of if of.startswith("group") or of == "sp" else "group"
            elif k[at] in ("ST", "OWN"):
                self.i = at + 1
                of = "group"
        elif of == "group" and k[self.i] == "," and k[self.i + 1] == "NUM" and k[self.i + 2] in ("ST",) and k[self.i + 3] == "IN" and k[self.i + 4] == "EACH":
            number = v[self.i + 1]
            self.i += 2
            inner = self._counted_noun()
            extra = (number, *inner)
            self.i += 2
            self.i += self.k[self.i] == "SP"
        return of, chains, extra

    def _counted_noun(self):
        """(of, chains) of the noun at hand, as stated counts name it."""
        k, v, at = self.k, self.v, self.i
        kind = k[at]
        if self._block(at):
            self.i += 1
            return "group:block", None
        if kind == "TCH":
            self.i += 1
            return "tch", None
        if kind == "CH":
            after = at + 1
            if k[after] == "HY":
                after += 1
            if k[after] == "NUM" and (k[after - 1] == "HY" or k[after + 1] == "SP" or k[after + 1] == "HY"):
                self.i = after + 1
                if k[self.i] == "HY":
                    self.i += 1
                if k[self.i] == "SP":
                    self.i += 1
                return "sp", v[after]
            if k[after] == "SP":
                self.i = after + 1
                return "sp", None
            if k[after] == "NUM" and k[after + 1] in (")", "]") and k[at - 1] in ("NUM", "HY"):  # "(16 sc, 15 ch 1)"
                self.i = after + 1
                return "sp", v[after]
            self.i += 1
            return "ch", None
        if kind == "ST" and isinstance(v[at], Named):
            self.i += 1
            while k[self.i] == "STN":
                self.i += 1
            return ("group:" + v[at].kind if v[at].kind in GROUP_KINDS else v[at].kind), None
        noun = self.noun()
        if noun is None:
            return None
        if kind == "ST" and k[self.i] == "SP" and v[self.i] == "group":  # "12 dc groups"
            self.i += 1
            return "group", None
        if noun.of == "group":
            if noun.group in ("group", "set", "grp"):
                return "group", None
            return "group:" + noun.group, None
        if noun.of == "sp" and noun.chains is None and "CH" not in k and self._word(self.i - 1) in ("loops", "loop"):
            return "st", None  # "24 loops" of a row without a chain: its stitches
        return noun.of, noun.chains

    def _count_tail(self) -> str:
        """ "in total", "more", "rem", "on each side", "in each rep": what the count is for."""
        k = self.k
        per = ""
        while True:
            kind = k[self.i]
            if kind == "TOTAL" or kind == "MADE" or kind == "HERE":
                pass
            elif kind in ("MORE",):
                per = per if self._word(self.i) == "again" else "more"  # "41 dc again": as many as before
            elif kind in ("W", "U") and self._word(self.i) in ("fewer", "less"):
                per = "fewer"
                if self._word(self.i + 1) == "than":  # "2 sts less than before"
                    while k[self.i + 1] not in (".", ",", ";", ")", "]", "END", "TURN", "JOIN"):
                        self.i += 1
            elif kind in ("REM", "LEFT") or kind == "HAVE" and k[self.i + 1] in ("REM", "LEFT"):
                per = "left"
                self.i += kind == "HAVE"
            elif kind == "UNWORKED":
                per = "unworked"
            elif kind in ("IN", "EACH", "OF", "FOR", "AT") and self._per_ahead():
                per = self._per_ahead()
                while k[self.i] in ("IN", "EACH", "OF", "FOR", "AT"):
                    self.i += 1
            elif kind == "SIDE" and k[self.i - 1] in ("EACH", "ST", "STN"):
                per = "side"
            elif kind in ("IN", "FOR") and k[self.i + 1] in ("THIS", "ROW", "ROUND", "ALL", "TOTAL"):
                self.i += 1
                if k[self.i + 1] in ("ROW", "ROUND", "AROUND"):
                    self.i += 1
            elif kind == "THIS" and k[self.i + 1] in ("ROW", "ROUND", "AROUND"):
                self.i += 1
            elif kind == "W" and self.text[self.s[self.i]:self.e[self.i]].lower() in ("far", "increased", "added", "so"):
                word = self.text[self.s[self.i]:self.e[self.i]].lower()
                per = "so far" if word == "far" else "more"
            elif kind in ("AT", "ASFOLLOWS", "REMARK", "IN", "ON", "AFTER") and self._after_row():
                self.i = self._after_row() - 1
            elif kind in ("U", "W") and k[self.i - 1] in ("ST", "STN", "SP", "CH", "OWN", "NUM") and k[self.i + 1] in (")", "]", ",") and self._in_brackets():
                pass  # "(114 dc, 2 ch-4 underarms)"
            else:
                return per
            self.i += 1

    @staticmethod
    def _few_at_edges(items) -> bool:
        """Whether the last of several counts is the one or two stitches that edge what the others count."""
        first, last = items[0][0], items[-1][0]
        return isinstance(first, int) and isinstance(last, int) and last < 3 and first > 4

    def _after_row(self) -> int:
        """Index after "at the end of Row 28", "by the end of the last row", "after Row 28" where that ends a count; 0 where it does not."""
        k, at = self.k, self.i + 1
        if k[at] in ("EXTEND", "ENDING", "ROW", "ROUND", "PREVIOUS"):
            at += 1
            while k[at] in ("OF", "ROW", "ROUND", "AROUND", "NUM", "LAST", "PREVIOUS", "THIS") or k[at] == "YOU" and self._word(at).startswith("this"):
                at += 1
            if k[at] in (".", "END", ")", "]", ",") and k[at - 1] != "OF":
                return at
        return 0

    def _in_brackets(self) -> bool:
        return self.k[self.i + 1] in (")", "]") or any(kind in (")", "]") for kind in self.k[self.i + 1:self.i + 8])

    def _per_ahead(self) -> str:
        k, at = self.k, self.i
        while k[at] in ("IN", "EACH", "OF", "FOR", "AT"):
            at += 1
        if at == self.i:
            return ""
        if k[at] == "SIDE" or k[at] == "ENDING" and k[at - 1] == "EACH" or k[at] == "EXTEND" and "row" not in self.text[self.s[at]:self.e[at]].lower():
            return "side"
        if k[at] == "REP":
            return "repeat"
        if k[at] == "SP" and self.v[at] == "group" and k[at - 1] == "EACH":
            return "group"
        return ""
