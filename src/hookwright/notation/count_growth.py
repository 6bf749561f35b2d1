"""By how many a round has grown, told beside its count: "= 42 (+6)", "36 sts, ±0", "+6 (42)", "30 -6"."""

from .count_words import CountWordReading


class GrowthReading(CountWordReading):
    """Reads growth told with a sign."""

    def growth_told(self, frame) -> bool:
        """ "..., 42 sts, +6", "... +6 (42)": by how many the round has grown, at its end."""
        start = self.i
        end = self.growth_ends(start)
        if not end or self.depth or self.open_marks or not frame.steps:
            return False
        stated = self.count(start + 1)
        self.i = end
        if stated is not None:
            stated.per = "more"
            stated.span = self.span(start)
            self.put_stated(frame, stated)
        return True

    def sum_ends(self, at: int) -> int:
        """Index of what "48 sc + 8 = 56" comes to; 0 where no sum stands at token `at`."""
        k, terms = self.k, 0
        while k[at] == "NUM":
            at += 1 + (k[at + 1] in ("ST", "STN"))
            terms += 1
            if k[at] == "=":
                return at + 1 if terms > 1 and k[at + 1] == "NUM" else 0
            if k[at] != "+":
                return 0
            at += 1
        return 0

    def growth_ends(self, at: int) -> int:
        """Index after "+6", "- 6 sts", "(+6)" at the end of a row or before its count; 0 where none stands at `at`."""
        k = self.k
        inner = k[at] in ("(", "[")
        sign, after = at + inner, at + inner + 2
        if k[sign] not in ("+", "DASH", "HY") or k[sign + 1] != "NUM" or k[sign] != "+" and self.e[sign] < self.s[sign + 1]:
            return 0
        if k[after] in ("STN", "ST") and (k[after] == "STN" or self.text[self.e[after] - 1] == "s"):
            after += 1
        if inner:
            return after + 1 if k[after] in (")", "]") else 0
        if k[after] in ("END", "(", "[", "{", "=", ")", "]"):
            return after
        return after if k[after] in (".", ",", ";", ":", "/") and (k[after + 1] == "END" or k[after + 1] == "NUM" and k[after + 2] in ("STN", "END")) else 0
