"""What is said of a toy between its rows, and works nothing: "Place eyes between rounds 14 and 15, 8 sts apart", "we fasten the nose on row 9"."""

from hookwright.ground import Span

from .tree import Note

_PARTS = frozenset(("eye", "eyes", "nose", "mouth", "smile", "eyebrows", "whiskers", "eyelashes", "cheeks", "stuffing", "filling", "wire"))
_BEFORE = frozenset((".", ",", ";", "DASH", ")", "]", "AND", ":"))
_OPENS = frozenset(("W", "U", "PLACE", "ATTACH", "NOW", "HOLD", "JOIN", "REMARK", "YOU", "AND", "SP", "THIS", "AT", "IN", "ROUND", "ROW", "NUM", "BETWEEN", "BEG", "FASTEN"))
_WORKS = frozenset(("ST", "CH", "OWN"))
_FAR = 6  # words from the start of the clause to what it speaks of


class ToyPartReading:
    """Reads remarks on eyes, noses and filling."""

    def parts_told(self, frame) -> bool:
        """A clause on parts of a toy as a remark; the hook stands where it may begin."""
        start = self.i
        after = self.parts_ahead(start)
        if not after:
            return False
        self.i = after
        span = Span(self.s[start], self.e[after - 1])
        frame.steps.append(Note(self.text[span.start:span.end], span))
        return True

    def parts_ahead(self, start: int) -> int:
        """Index after a clause on parts of a toy that begins at token `start`; 0 where none does."""
        k, at = self.k, start
        if self.depth or self.open_marks or start and k[start - 1] not in _BEFORE or k[start] not in _OPENS:
            return 0
        while at < start + _FAR and k[at] in _OPENS and not self._is_part(at):
            at += 1
        if not self._is_part(at) or k[start] == "NUM" and k[start + 1] in _WORKS:
            return 0
        while k[at] not in ("END", "(", "[", "MARK") and not (k[at] == "." and self.ends_sentence(at)) and not (k[at] in (",", ";", "AND", "DASH") and self._work_begins(at + 1)):
            at += 1
        return at

    def _is_part(self, at: int) -> bool:
        return self.k[at] in _OPENS and self._word(at).rpartition(" ")[2] in _PARTS

    def _work_begins(self, at: int) -> bool:
        k = self.k
        if k[at] in ("AND", "WORKING"):
            at += 1
        if k[at] == "NUM" and k[at + 1] in _WORKS:
            return self._word(at + 2) not in ("apart", "between", "from", "wide", "long", "below", "above")
        return k[at] in _WORKS or k[at] in ("REP", "JOIN", "TURN", "FASTEN", "CHANGE", "SKIP") or k[at] in ("(", "[")

    def ends_sentence(self, at: int) -> bool:
        """Whether the full stop at token `at` ends a sentence."""
        here, self.i = self.i, at
        ends, self.i = self._ends_sentence(), here
        return ends
