"""Words that are more or less than one token: single letters, words not known, broken, dotted, mixed with digits, number words of two parts."""

from .stitch_words import SEVERAL_PARTS
from .vocabulary import Meaning

_BEFORE_A_SHADE = frozenset(("WITH", "CHANGE", "ATTACH", "FASTEN", "COLOUR", "YARN", "DROP", "JOIN", "SHADE"))
_RUN_INTO = ("into", "in", "the", "of", "from", "and")
_BEFORE_A_COUNTED = frozenset(("NUM", "ST", "STN"))  # "10 sts A", "4 in B"
_NEVER_A_NOUN = frozenset(("UNTIL", "TIMES", "TO", "IN", "FROM", "AND", "OF", "WITH", "TURN", "AROUND", "ACROSS", "THROUGH", "OVER", "BETWEEN", "AT", "TOEND", "TIMESN", "SKIP", "JOIN", "REP", "EACH", "NEXT", "FOR", "AS", "OR", "BUT", "NOT", "LEFT", "LEAVE", "TOG", "EVENLY", "WORKING", "CHANGE", "MADE", "COUNT"))
_AFTER_A_COLOUR = frozenset((",", ";", ".", ":", ")", "]", "*", "and"))
_SLIPPED = frozenset(("in", "into", "to", "over", "across", "along", "loosely", "join"))
_BREAKS = frozenset(("", ",", ";", ".", ":", "("))


class OddWords:
    """Reads such words for a pass over the raw pieces."""

    __slots__ = ()

    def _numbered_colour(self, index: int, word: str) -> bool:
        """Whether "Colour 2" stands here, and not a number of stitches after the word."""
        raw = self.raw
        if word not in ("colour", "color") or index + 1 >= len(raw) or raw[index + 1][0] != "n" or len(raw[index + 1][1]) > 2:
            return False
        if index + 2 >= len(raw) or raw[index + 2][0] != "w":
            return True
        meaning = self.lexicon.meaning(raw[index + 2][1])
        return meaning is None or meaning.kind not in ("ST", "STN", "CH", "OWN", "ROW", "ROUND", "TIMES", "MORE", "LOOP", "SP")

    def _mixed(self, index: int, names) -> int:
        """Index after a name of letters and digits ("C6F"), its token pushed; 0 where none begins here."""
        raw, at = self.raw, index + 1
        while at < len(raw) and raw[at][0] in ("w", "n", "o") and raw[at][2] == raw[at - 1][3]:
            at += 1
        word = self.tokens.text[raw[index][2]:raw[at - 1][3]]
        if at == index + 1 or word.lower() not in names:
            return 0
        self.merge = True
        self.tokens.push("OWN", self.lexicon.words.singles[word.lower()].value, raw[index][2], raw[at - 1][3])
        return at

    def _odd_word(self, index: int, text: str, meaning: Meaning | None, start: int, end: int) -> int:
        """A single letter, or a word that is not known."""
        tokens, lexicon = self.tokens, self.lexicon
        before = tokens.kinds[-1] if tokens.kinds else ""
        following = self.raw[index + 1] if index + 1 < len(self.raw) else ("", "", 0, 0)
        if text == "C" and following[0] == "n" and following[2] == end:  # "C2": the second contrasting colour
            tokens.push("SHADE", text + following[1], start, following[3])
            return index + 2
        if (len(text) == 1 or text in ("MC", "CC")) and lexicon.is_colour(text):
            coloured = before in _BEFORE_A_SHADE or (before in ("TO", "AND", ",", "/") and _BEFORE_A_SHADE & set(tokens.kinds[-3:]))
            if coloured or (text.lower() in lexicon.colours and text != "A") or len(text) == 2:
                tokens.push("SHADE", text, start, end)
                return index + 1
        if len(text) == 1 and text.isupper() and (before in _BEFORE_A_COUNTED and "NUM" in tokens.kinds[-2:] or before == "IN" and tokens.kinds[-2:-1] and tokens.kinds[-2] in _BEFORE_A_COUNTED) and (meaning is None or meaning.kind in ("GLUE", "W")) and (following[1] in _AFTER_A_COLOUR or not following[1]):
            tokens.push("SHADE", text, start, end)  # "3 A, 3 B"
            return index + 1
        if meaning is not None:
            if text in "xX" and meaning.kind == "OWN" and following[0] == "n" and before in (")", "]", "}"):
                tokens.push("X", None, start, end)  # "(4X, A) x 3", with a stitch that goes by the same letter
            elif meaning.kind != "GLUE":
                tokens.push(meaning.kind, meaning.value, start, end)
            return index + 1
        if text[-1] in "xX" and following[0] == "n" and following[2] == end:  # "scx4"
            named = lexicon.meaning(text[:-1])
            if named is not None and named.kind == "ST":
                tokens.push(named.kind, named.value, start, end - 1)
                tokens.push("X", None, end - 1, end)
                return index + 1
        if len(text) == 2 and text.lower() == "sl" and following[1].lower() in _SLIPPED:
            tokens.push("ST", "slst", start, end)  # "sl in first sc"
            return index + 1
        joined = self._broken(index, text)
        if joined:
            return joined
        if len(text) == 1 and text in "Rr" and following[0] == "n" and following[2] == end:
            tokens.push("ROUND", None, start, end)  # "in the last stitch of R20"
            return index + 1
        if len(text) == 1:
            tokens.push("W" if text.isupper() else "U", None, start, end)
            return index + 1
        if (before in _BREAKS and following[1] not in ("and", "*") and following[1] in _AFTER_A_COLOUR or before == "NUM" and (following[1] in _AFTER_A_COLOUR or not following[1])) and lexicon.names_a_colour(text):
            tokens.push("SHADE", text, start, end)  # "Ecru, ch 3, 15 dc": the colour by itself
            return index + 1
        if before in ("WITH", "FASTEN", "SHADE", "ATTACH") or self._named_in_passing(index, text, before) or lexicon.names_a_colour(text) or (before == "TO" and tokens.kinds[-2:-1] and tokens.kinds[-2] in ("CHANGE", "COLOUR")):
            tokens.push("U", None, start, end)
            return index + 1
        guess = lexicon.guess(text)
        if guess is not None and not guess.sure and guess.meanings[0].kind in _NEVER_A_NOUN and lexicon.is_noun(text, tokens.text):
            guess = None  # "next tile" is no slip for "till": a noun of hers
        if guess is None:
            small = text.lower()
            for short in _RUN_INTO:
                rest = small[len(short):]
                if small.startswith(short) and rest in lexicon.words.longer:  # "inback loop": a space left out
                    cut = start + len(short)
                    self.raw[index:index + 1] = [("w", text[:len(short)], start, cut), ("w", text[len(short):], cut, end)]
                    return index
            tokens.push("U", None, start, end)
            return index + 1
        if not guess.sure:
            tokens.guesses.append((start, end, guess))
        if len(guess.meanings) == 1 and self._phrase_misspelt(index, guess, start, end):
            return self.after_phrase
        cut = start
        lengths = [len(word) for word in guess.word.split()] if len(guess.meanings) > 1 else [end - start]
        for meaning, length in zip(guess.meanings, lengths, strict=False):
            if meaning.kind != "GLUE":
                tokens.push(meaning.kind, meaning.value, cut, min(end, cut + length))
                if meaning.kind == "TOG" or meaning.kind == "ST" and meaning.value in SEVERAL_PARTS:
                    self.merge = True
            cut += length
        return index + 1

    def _phrase_misspelt(self, index: int, guess, start: int, end: int) -> bool:
        """ "back lopp", "bakc loop": a phrase of two words, one of them mistyped; its token is pushed, `after_phrase` is the index after it."""
        raw, longer, kinds = self.raw, self.lexicon.words.longer, self.tokens.kinds
        before = raw[index - 1] if index else ("", "", 0, 0)
        meaning = longer.get(before[1].lower(), {}).get(guess.word, {}).get((guess.word,)) if before[0] == "w" and kinds and self.tokens.starts[-1] == before[2] else None
        if meaning is not None and meaning.kind == "LOOP":
            for column in (kinds, self.tokens.values, self.tokens.starts, self.tokens.ends):
                column.pop()
            self.tokens.push(meaning.kind, meaning.value, before[2], end)
            self.after_phrase = index + 1
            return True
        following = raw[index + 1] if index + 1 < len(raw) else ("", "", 0, 0)
        small = following[1].lower()
        meaning = longer.get(guess.word, {}).get(small, {}).get((small,)) if following[0] == "w" else None
        if meaning is None or meaning.kind != "LOOP":
            return False
        self.tokens.push(meaning.kind, meaning.value, start, following[3])
        self.after_phrase = index + 2
        return True

    def _named_in_passing(self, index: int, text: str, before: str) -> bool:
        """Whether an unknown word has a capital in mid-sentence, where her other words have none, or right after "join": a name, no slip."""
        if not (text[0].isupper() and text[1:].islower()) or not index:
            return False
        group, last, _, _ = self.raw[index - 1]
        return before == "JOIN" or group == "w" and last.islower() and len(last) > 1 or before == "CHANGE"

    def _broken(self, index: int, text: str) -> int:
        """A word broken at the end of a line ("cro-" / "chet"): index after it, or 0."""
        raw = self.raw
        if index + 2 < len(raw) and raw[index + 1][1] == "-" and raw[index + 2][0] == "w":
            between = self.tokens.text[raw[index + 1][3]:raw[index + 2][2]]
            if "\n" in between:
                meaning = self.lexicon.meaning(text + raw[index + 2][1])
                if meaning and meaning.kind != "GLUE":
                    self.tokens.push(meaning.kind, meaning.value, raw[index][2], raw[index + 2][3])
                    return index + 3
        return 0

    def _tens(self, index: int, tens: int, start: int, end: int) -> int:
        """Number words of two parts: "twenty-four"."""
        raw = self.raw
        at = index + 1
        if at < len(raw) and raw[at][1] == "-":
            at += 1
        if at < len(raw) and raw[at][0] == "w":
            ones = self.lexicon.meaning(raw[at][1])
            if ones and ones.kind == "NUM" and 0 < ones.value < 10:
                self.tokens.push("NUM", tens + ones.value, start, raw[at][3])
                return at + 1
        self.tokens.push("NUM", tens, start, end)
        return index + 1

    def _dotted(self, index: int, text: str, start: int, end: int) -> int:
        """Letters with full stops: "s.c.", "d.c."."""
        meaning = self.lexicon.meaning(text.replace(".", ""))
        if meaning is None:
            self.tokens.push("W", None, start, end)
        elif meaning.kind != "GLUE":
            self.merge = self.merge or meaning.value in SEVERAL_PARTS
            self.tokens.push(meaning.kind, meaning.value, start, end)
        return index + 1
