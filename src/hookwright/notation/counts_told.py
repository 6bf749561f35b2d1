"""Counts told in a sentence: "You should have 24 sts.", "There are again 60 dc"; and numbers that count other things."""

from hookwright.ground import Span

from .count_words import LEADS, LENGTH_UNITS
from .tree import Note

_ABOUT_A_COUNT = frozenset(("pieces", "pcs", "units", "again", "still", "altogether", "now", "here", "so", "overall", "left", "too"))


class ToldCountReading:
    """Reads sentences that tell a count."""

    def act_count_sentence(self, frame) -> bool:
        """ "You should have 24 sts.", "Total: 24"."""
        k, start = self.k, self.i
        if k[start] == "HAVE" and k[start + 1] == "NUM" and k[start + 2] in ("ST", "OWN") and k[start + 3] == "IN" and k[start + 4] in ("FIRST", "LAST", "EACH", "NEXT", "SAME", "SP", "ORD", "BOTH") or k[start:start + 2] == ["HAVE", "NUM"] and k[start + 3] == "EVENLY":
            return self.act_working(frame)  # "sc across, making 2 sc in last st"
        if k[start] == "YOU" and not frame.steps and not self.after and k[start + 1] in (":", "W") and self._word(start).startswith("this"):
            self.i = start + 1 + (k[start + 1] == "W")  # "BLO this round only: 48 sc": nothing is worked yet that could be counted
            return True
        while k[self.i] in LEADS:
            self.i += 1
        while k[self.i] == "W" and self.i - start < 6:
            self.i += 1
        if k[self.i] != "NUM" or self.i == start:
            self.i = start
            return False
        if self._length_ahead(self.i):
            while k[self.i] != "END" and not (k[self.i] == "." and self._ends_sentence()):
                self.i += 1
            span = self.span(start)  # "The band should be about 18 (19, 20) inches long"
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        things = self._other_things(self.i + 1)
        if things:  # "You should see three sweet little scallops"
            self.i = things
            span = self.span(start)
            frame.steps.append(Note(self.text[span.start:span.end], span))
            return True
        stated = self.count(self.i)
        if stated is None:
            self.i = start
            return False
        while k[self.i] not in (".", "END", ")", "]", "(", "[", ";") and (k[self.i] not in ("CH", "ST", "TURN", "JOIN") or k[self.i] == "CH" and k[self.i - 1] in ("+", "AND") and "SP" in k[self.i:self.i + 5]):
            self.i += 1  # "24 sc + the ch-8 thumb hole"
        stated.span = Span(self.s[start], self.e[self.i - 1])
        self.put_stated(frame, stated)
        return True

    def _other_things(self, at: int) -> int:
        """The token after words from `at` on that name things which are no stitches and end the sentence; 0 where they are none."""
        k, begin = self.k, at
        while k[at] in ("W", "U") and at - begin < 5:
            at += 1
        at += at > begin and k[at] == "SP" and self.v[at] == "group"
        return at if at > begin and k[at] in (".", "END") and not self._loose_word(begin) else 0

    def things_made(self, frame, start: int) -> bool:
        """ "5 buttonholes made.", "2 armholes formed.": a sentence that counts what is no stitch."""
        k, at = self.k, start + 1
        while k[at] in ("W", "U") and at - start < 4:
            at += 1
        if k[at] not in ("MADE", "FORM") or k[at + 1] not in (".", "END", "TURN", ")", "(") or self._loose_word(start + 1):
            return False
        self.i = at + 1
        span = self.span(start)
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def _loose_word(self, at: int) -> bool:
        """Whether a word after a number may tell of stitches or of how they are counted ("24 again", "24 altogether")."""
        return not self._word(at).isalpha() or self._word(at) in _ABOUT_A_COUNT

    def _length_ahead(self, at: int) -> bool:
        """Whether the number at `at` is a length and no count."""
        k, at = self.k, at + 1
        word = self._word(at) if k[at] != "END" else ""
        return word in LENGTH_UNITS or word in ("in", "ins") and k[at + 1] in (".", "END", "(", "[", "/", "W", ",", "ASFOLLOWS", "NOW")
