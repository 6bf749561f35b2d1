"""Numerals and marks of punctuation as tokens: decimals, full stops that abbreviate, hyphens and dashes, quotation marks."""

from .vocabulary import Meaning

_PUNCTUATION = {
    ",": ",", ";": ";", ":": ":", ".": ".", "!": ".", "?": ".", "(": "(", ")": ")", "[": "[", "]": "]", "{": "{", "}": "}", "|": "|", "=": "=",
    "+": "+", "±": "+", "/": "/", "&": "AND", "—": "DASH", "→": "DASH", "⇒": "DASH", "-": "-", "‘": "QO", "“": "QO", "'": "'", '"': "'", "<": "(", ">": ")",
}
_ENDS_A_STEP = frozenset(("TURN", "AROUND", "ACROSS", "TOEND", "JOIN", "FASTEN", "MADE", "STN", "FIRST", "TIMES", "TIMESN", "]", ")", "MAGIC"))
_ABBREVIATED = frozenset(("ST", "CH", "STN", "SP", "SKIP", "REP", "NEXT", "TOG", "LOOP", "REM", "BEG", "OWN", "FIRST", "PREVIOUS", "ROUND"))
_BEFORE_A_CHAIN = frozenset(("NUM", "NEXT", "EACH", "LAST", "FIRST", "SAME", "ORD"))  # "in next ch. 2 sc": a chain that is there, and a new sentence
_COUNTED = frozenset(("st", "sts", "stitches"))
_MOST = 10**9  # a longer number is taken as this one, which is refused as too much to work
_LOOP_BY_A_HYPHEN = {"ST": "LOOP", "LOOP": "ST"}


class NumbersAndMarks:
    """Reads numerals and marks for a pass over the raw pieces."""

    __slots__ = ()

    def _number(self, index: int, text: str, start: int, end: int) -> int:
        tokens, raw = self.tokens, self.raw
        own = self.lexicon.own_numbered.get(text)
        if own:
            after = self._phrase(index, own)
            if after:
                return after
        if text == "3" and index + 1 < len(raw) and raw[index + 1][2] == end and raw[index + 1][1].lower() in ("lo", "lp"):
            tokens.push("LOOP", "third", start, raw[index + 1][3])  # "hdc 3LO in each st"
            return index + 2
        if "." in text:
            following = raw[index + 1][1].lower() if index + 1 < len(raw) else ""
            if self.lexicon.words.singles.get(following, Meaning("")).kind in ("ST", "CH", "STN") or following in self.lexicon.words.longer and following != "in":
                whole, part = text.split(".")  # "ch 3.2 dc": a full stop without its space
                tokens.push("NUM", int(whole[:9]), start, start + len(whole))
                tokens.push(".", None, start + len(whole), start + len(whole) + 1)
                tokens.push("NUM", int(part[:9]), start + len(whole) + 1, end)
            else:
                tokens.push("DEC", float(text[:15]), start, end)
            return index + 1
        if tokens.kinds and index + 1 < len(raw) and raw[index + 1][1] in (".", ")") and raw[index + 1][2] == end:
            line = tokens.text.rfind("\n", tokens.ends[-1], start)
            if line >= 0 and not tokens.text[line:start].strip() and tokens.kinds[-1] in (".", ",", ";", ":", ")"):
                return index + 2  # "2." at the beginning of a line: the number of a step
        tokens.push("NUM", int(text) if len(text) <= 9 else _MOST, start, end)
        return index + 1

    def _mark(self, index: int, text: str, start: int, end: int) -> int:
        tokens = self.tokens
        kind = _PUNCTUATION.get(text)
        if kind is None:
            return index + 1
        if text == "/" and tokens.kinds and tokens.kinds[-1] == "ST" and index + 1 < len(self.raw) and self.raw[index + 1][1].lower() in ("rf", "rb"):
            post = f"{self.raw[index + 1][1][1].lower()}p{tokens.values[-1]}"  # "tr/rf": raised to the front
            if self.lexicon.fact(post) is not None:
                tokens.values[-1], tokens.ends[-1] = post, self.raw[index + 1][3]
                return index + 2
        if kind == "." and text == "." and self._abbreviates(index, start, end):
            return index + 1
        if kind == "-":
            kind = self._hyphen(index, start, end)
            if kind == "HY" and tokens.kinds[-1] in _LOOP_BY_A_HYPHEN and self._meaning_kind(index + 1) == _LOOP_BY_A_HYPHEN[tokens.kinds[-1]]:
                return index + 1  # "hdc-blo in first 32": written as one word, read as two
        elif kind == "'":
            before = tokens.text[start - 1] if start else " "
            after = tokens.text[end] if end < len(tokens.text) else " "
            kind = "QO" if not before.isalnum() and before not in ".,)]" and (after.isalnum() or after in "*([") else "QC"
        elif kind in "([{" and tokens.kinds:
            if tokens.kinds[-1] == "NUM":
                self.lists_likely = True
        tokens.push(kind, None, start, end)
        return index + 1

    def _meaning_kind(self, index: int) -> str:
        """What the word at `index` is, "" where it is none or not known."""
        meaning = self.lexicon.meaning(self.raw[index][1]) if index < len(self.raw) and self.raw[index][0] == "w" else None
        return meaning.kind if meaning is not None else ""

    def _abbreviates(self, index: int, start: int, end: int) -> bool:
        """Whether a full stop only marks an abbreviation ("3ch., 2 tr. in next sp."), and no sentence ends."""
        raw, tokens = self.raw, self.tokens
        if not tokens.kinds or raw[index - 1][3] != start or index + 1 >= len(raw) or raw[index - 1][0] not in ("w", "d") or end - raw[index - 1][2] > 6:
            return False
        group, text = raw[index + 1][0], raw[index + 1][1]
        if group != "p" and raw[index - 1][1].lower() in ("patt", "pat") and (group == "n" and tokens.kinds[-1] != "GO" or text[0].islower()):
            return True  # "patt. 40 sts", "work in patt. to last 4 sts"
        if group == "w":
            return text[0].islower() and tokens.kinds[-1] in _ABBREVIATED and not tokens.text[end:raw[index + 1][2]].lstrip()[:1].isupper()  # ". Then it's ch 1": telling was passed over
        if text in (",", ")", "]"):
            return True
        if group == "n" and index + 2 < len(raw) and tokens.kinds[-1] == "CH" and self.lexicon.words.singles.get(raw[index + 2][1].lower(), Meaning("")).kind == "SP":
            return True  # "over each ch. 5 lp."
        if group == "n" and tokens.values[-1] in ("inc", "dec") and index + 2 < len(raw) and raw[index + 2][1].lower() in _COUNTED:
            after = next((raw[at] for at in range(index + 3, len(raw)) if raw[at][1] != "."), ("", ""))
            return after[0] == "w" and after[1][0].islower()  # "dec. 1 st. at each end"
        if group == "n" and len(text) > 1 and index + 2 < len(raw) and raw[index + 2][1].lower() in _COUNTED:
            return False  # "in each underarm ch. 122 sts": a new sentence
        return group == "n" and tokens.kinds[-1] == "CH" and tokens.kinds[-2:][0] not in _BEFORE_A_CHAIN and end - raw[index - 1][2] < 6  # "in the chain. 41 dc": a new sentence

    def _hyphen(self, index: int, start: int, end: int) -> str:
        raw, tokens = self.raw, self.tokens
        if not tokens.kinds:
            return "DASH"
        joined_before = raw[index - 1][3] == start
        joined_after = index + 1 < len(raw) and raw[index + 1][2] == end
        if joined_before and joined_after:
            if tokens.kinds[-1] in _ENDS_A_STEP and raw[index + 1][0] == "n":
                return "DASH"
            return "HY"
        if joined_before and index + 1 < len(raw) and raw[index + 1][0] == "w" and "\n" in tokens.text[end:raw[index + 1][2]]:
            return "HY"
        return "DASH"
