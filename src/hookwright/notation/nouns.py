"""What a place is made of: stitches, chain spaces, single chains, corners, groups; and the rows it belongs to."""

from typing import NamedTuple

from hookwright.ground import Number

from .stitch_words import Named
from .tree import Place

GROUP_KINDS = frozenset(("shell", "vst", "fan"))
NO_STITCHES = frozenset(("sp", "ch", "st+sp", "corner", "group", "join", "gap"))  # what a place may be that is no single stitch


class Noun(NamedTuple):
    """A kind of place: `of`, `chains` and `group` as in Place; n where a number stands inside ("next 2 ch-1 sps")."""

    of: str
    chains: Number | None = None
    group: str = ""
    n: Number | None = None


class NounReading:
    """Reads nouns."""

    def noun(self) -> Noun | None:
        """The noun that begins here, or None with nothing read."""
        k, v, at = self.k, self.v, self.i
        kind = k[at]
        if kind == "STN":
            self.i += 1
            return Noun("st")
        if kind == "ST" or kind == "OWN":
            return self._stitch_noun(v[at])
        if kind == "SP":
            return self._space(v[at])
        if kind == "CH":
            return self._chain_noun()
        if kind == "NUM":
            if self._group_number(at):  # "3-dc group"
                while k[self.i] != "SP":
                    self.i += 1
                self.i += 1
                return Noun("corner") if v[self.i - 1] == "corner" else Noun("group", None, "group")
            return self._numbered_chain()
        if kind == "EXTEND":
            self.i += 1
            return Noun("row end")
        if kind == "POST":
            self.i += 1
            return Noun("st")
        if kind == "JOIN":
            self.i += 1
            return Noun("join")
        if kind == "PLACE":
            self.i += 1
            return Noun("st")
        if kind == "HY" and k[at + 1] in ("SP", "STN"):
            self.i += 1
            return self.noun()
        return None

    def _stitch_noun(self, value) -> Noun:
        self.i += 1
        if self.k[self.i] == "HY" and self.k[self.i + 1] == "STN":
            self.i += 1
        if self.k[self.i] == "STN":
            self.i += 1
        if isinstance(value, str):
            return Noun("group", None, value) if value in GROUP_KINDS else Noun(value)
        if isinstance(value, Named):
            return Noun("group", None, value.kind) if value.kind in GROUP_KINDS else Noun(value.kind)
        if value.name.lower().rstrip("s") == "corner":
            return Noun("corner")  # "to next corner", with a corner of hers told in the notes
        if value.group or not value.kind:
            return Noun("group", None, value.name)
        return Noun(value.kind)

    def _space(self, value: str) -> Noun:
        k = self.k
        self.i += 1
        if value == "corner":
            chains = None
            if k[self.i - 1] == "SP" and k[self.i] in ("CH", "NUM") and (" " in self.text[self.s[self.i - 1]:self.e[self.i - 1]] or self.text[self.e[self.i - 1]:self.s[self.i]].strip()):
                return Noun("corner")  # "in corner sp ch 3, ...", "in first corner work ch 3, ...": the chain is another step
            if k[self.i] == "HY":
                self.i += 1
            if k[self.i] == "CH":
                inner = self._chain_noun()
                chains = inner.chains
            elif k[self.i] == "NUM" and k[self.i + 1] in ("CH", "HY") and self._chain_number(self.i):
                chains = self._numbered_chain().chains
            elif k[self.i] == "SP" or k[self.i] == "STN":
                self.i += 1
            elif k[self.i] == "ST" and isinstance(self.v[self.i], str) and k[self.i + 1] in (",", ";", ".", ":", ")", "]", "END", "MARK", "REP", "AROUND", "ACROSS", "(", "TURN", "AND"):
                self.i += 1  # "corner sc"
            return Noun("corner", chains)
        if value == "sp":
            words = self.text[self.s[self.i - 1]:self.e[self.i - 1]].lower()
            if words[0] == "l" and (self.first_row and k[self.i] not in ("OF", "AROUND") or k[self.i] == "FROM" and k[self.i + 1] == "HOOK"):
                return Noun("ch")  # "3 sc in last loop" of a foundation chain
            return Noun("sp")
        if value == "leg":
            at = self.i
            if k[at] == "NUM" and self.v[at] in (1, 2) and k[at + 1] not in ("ST", "OWN", "CH", "HY", "STN", "MORE"):
                self.i += 1
                return Noun("st", None, f"leg {self.v[at]}")
            return Noun("st", None, "leg")
        word = self.text[self.s[self.i - 1]:self.e[self.i - 1]].lower()
        return Noun("group", None, next((block for block in self.lexicon.blocks if word.startswith(block)), word.strip().removesuffix("'s").rstrip("s")))

    def _chain_noun(self) -> Noun:
        """ "ch", "ch-3 sp", "ch sp", "ch 3", "ch-2 corner sp"."""
        k, v = self.k, self.v
        self.i += 1
        at = self.i
        if k[at] == "HY":
            at += 1
        if k[at] == "NUM":
            after = at + 1
            if k[after] == "HY":
                after += 1
            if k[after] in ("W", "U") and self._word(after) == "turning" and k[after + 1] == "SP" and v[after + 1] == "sp":
                self.i = after + 2  # "ch-2 turning space"
                return Noun("sp", v[at])
            if k[after] == "SP" and v[after] in ("sp", "corner"):
                self.i = after + 1
                if k[self.i] == "SP" and v[after] == "corner":
                    self.i += 1
                return Noun("corner" if v[after] == "corner" else "sp", v[at])
            if k[after] == "CH" and k[at - 1] == "HY" and k[after + 1] not in ("NUM", "HY"):
                self.i = after + 1  # "over each ch-6 chain"
                return Noun("sp", v[at])
            if k[after] in ("ST", "OWN", "CH"):  # "in next ch 3 dc": the number is another step's
                return Noun("ch")
            self.i = at + 1
            return Noun("sp", v[at])
        if k[at] == "SP" and v[at] in ("sp", "corner"):
            self.i = at + 1
            return Noun("corner" if v[at] == "corner" else "sp")
        if k[self.i] == "STN":
            self.i += 1
        return Noun("ch")

    def _numbered_chain(self) -> Noun | None:
        """ "3-ch sp", "2ch space", "2 ch-1 sps", "1 ch. space"."""
        k, v, at = self.k, self.v, self.i
        after = at + 1
        joined = k[after] == "HY"
        if joined:
            after += 1
        if k[after] != "CH":
            return None
        number = v[at]
        self.i = after
        here = after + 1
        if k[here] == "." and k[here + 1] == "SP":
            here += 1
        if k[here] == "HY" and k[here + 1] == "SP":
            here += 1
        if k[here] == "SP" and v[here] in ("sp", "corner"):
            self.i = here + 1
            many = self.text[self.e[here] - 1] == "s"
            of = "corner" if v[here] == "corner" else "sp"
            return Noun(of, None, "", number) if many and not joined and self.e[at] != self.s[after] else Noun(of, number)
        inner = self._chain_noun()
        return inner._replace(n=number) if inner.of != "ch" or not joined else Noun("sp", number)

    def _group_number(self, at: int) -> bool:
        """Whether the number at `at` belongs to the name of a group ("3-dc group")."""
        k = self.k
        here = at + 1 + (k[at + 1] == "HY")
        if k[at] != "NUM" or k[here] not in ("ST", "STN") or here == at + 1 and self.e[at] != self.s[here]:
            return False
        after = here + 1 + (k[here + 1] == "HY")
        return k[after] == "SP" and self.v[after] in ("group", "corner")

    def _chain_number(self, at: int) -> bool:
        """Whether the number at `at` belongs to a chain space ("3-ch sp", "2ch sp") and does not say how many."""
        k, v = self.k, self.v
        after = at + 1
        joined = k[after] == "HY" or self.e[at] == self.s[after]
        if k[after] == "HY":
            after += 1
        if k[after] != "CH":
            return False
        here = after + 1
        if k[here] == "." and k[here + 1] == "SP":
            here += 1
        if k[here] == "HY" and k[here + 1] == "SP":
            here += 1
        if k[here] != "SP" or v[here] not in ("sp", "corner"):
            return k[at + 1] == "HY" and self.text[self.e[after] - 1] != "s"  # "center ch of next 5-ch"
        return joined or self.text[self.e[here] - 1] != "s"

    # ------------------------------------------------------------ of which row, of which group

    def leg_named(self, at: int) -> tuple[str, int] | None:
        """Which leg stands here, "leg 1" or "leg 2", and the token after it: "first leg", "left leg", "leg 2"."""
        k, v = self.k, self.v
        word = self._word(at).lower() if k[at] in ("W", "U", "LEFT") else ""
        second = k[at] in ("LAST", "OTHER", "NEXT") or k[at] == "ORD" and v[at] == 2 or word in ("right", "other")
        if k[at] in ("FIRST", "LAST", "OTHER", "NEXT", "ORD") or word in ("right", "left"):
            at += 1
        if k[at] != "SP" or v[at] != "leg":
            return None
        if k[at + 1] == "NUM" and v[at + 1] in (1, 2):
            return f"leg {v[at + 1]}", at + 2
        return ("leg 2" if second else "leg 1"), at + 1

    def _of(self, place: Place) -> bool:
        """ "of next shell", "of Rnd 4", "from row below", "of first leg": False with nothing read where it is something else."""
        k, start = self.k, self.i
        self.i += 1
        kind = k[self.i]
        leg = self.leg_named(self.i) if kind in ("LEFT", "W", "OTHER") else None
        if leg is not None:
            place.group, self.i = leg
            return True
        if kind in ("ROW", "ROUND", "AROUND") and k[self.i + 1] == "NUM":
            number = self.v[self.i + 1]
            place.row = number if isinstance(number, int) else None
            self.i += 2
            return True
        if kind in ("PREVIOUS", "ROW", "ROUND"):
            self.i += 1
            while k[self.i] in ("ROW", "ROUND", "AROUND", "PREVIOUS"):
                self.i += 1
            return True
        if kind == "BEG" and k[self.i + 1] in ("ROW", "ROUND", "OF", ",", "."):
            self.i += 1
            return True
        if k[start] == "FROM":
            self.i = start
            return False
        inner = self.target() or self._noun_place()
        if inner is None:
            self.i = start
            return False
        if inner.of == "group" and place.of == "corner":
            return True  # "in the corner of the second square": a corner, whichever piece it is of
        if inner.of == "group":
            if place.part == "center" and place.of == "sp":
                place.part = ""  # "center sp of next shell" is simply its space
            if place.of in ("sp", "group") and not place.part:
                if place.of == "sp":
                    place.part = "sp"
                    place.of = "group"
            place.group = inner.group
            if inner.which not in ("next", "nth"):
                place.which = inner.which
            place.n, place.extent, place.each = inner.n, inner.extent, inner.each
        elif inner.group in ("leg 1", "leg 2"):
            place.group = inner.group
        elif inner.group == "leg":
            place.group = "leg 2" if inner.ordinal == 2 or inner.which == "last" else "leg 1"
        elif place.part == "center":
            place.chains = inner.chains
            place.of = inner.of
            if inner.each and inner.extent is not None and place.of == "corner":  # "in center st of each corner"
                place.n, place.extent, place.each = inner.n, inner.extent, True
        elif inner.which in ("next", "first", "last") and place.of == "st" and place.n == 1:
            place.of, place.n, place.extent, place.each, place.chains = inner.of, inner.n, inner.extent, inner.each, inner.chains
            place.which = inner.which if place.which == "next" else place.which
        return True
