"""Counts told as a sum, and counts with a word to the reader after them: "4 x 5 + 3 = 23", "30 sc, my dears."."""

from hookwright.ground import Span

_IN_SUMS = frozenset(("NUM", "X", "+", "AND", "DASH", "HY", "MARK", "TIMES", "(", ")", "STN"))
_TALK = frozenset(("W", "U", "YOU", "THIS", "REMARK", "HAVE", "FOR", "OF", "AND", "SEE", "ALL", "AS", "OR", "NOT", "WITH", "BUT", "ANY", "AT", "BEG", "ALWAYS", "MORE", "SAME"))  # words of talk


class CountSumReading:
    """Reads what stands about a count."""

    def sum_told(self, start: int) -> bool:
        """ "4 x 5 + 3 = 23.", "4n + 3 = 23": a sum that comes to the row's count; the hook stands at its first number."""
        k, at = self.k, start + 1
        while k[at] in _IN_SUMS:
            at += 1
        if k[at] != "=" or k[at + 1] != "NUM" or k[start - 1] not in (".", ",", ";", "(", "TURN") or "NUM" not in k[start + 1:at]:
            return False
        stated = self.count(at + 1)
        if stated is None or not self._count_ends():
            self.i = start
            return False
        stated.span = Span(self.s[start], self.e[self.i - 1])
        self.read.stated.append(stated)
        return True

    def _talk_after(self, at: int) -> int:
        """Index after words that end the row behind a comma at token `at` ("30 sc, my dears.", "36 sc remain, which is plenty"); 0 where work may be told."""
        k = self.k
        if k[at] != ",":
            return 0
        here = at + 1
        while k[here] in _TALK or k[here] == "," and k[here + 1] in _TALK:
            here += 1
        ends = k[here] == "END" or k[here] == "." and k[here + 1] == "END"
        return here if here > at + 1 and ends and not (k[here - 1] == "THIS" or k[at + 1] in ("YOU", "HAVE") and "NUM" in k[at:here]) else 0
