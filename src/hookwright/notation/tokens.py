"""A row's words and marks in order, each with what it is and where it stands. Works on cleaned text (see clean)."""


from .patterns import Lazy
from .size_lists import merge_size_lists
from .spoken import plainly
from .stitch_words import merge_stitch_words
from .token_columns import Tokens
from .words import MOST_WORDS, Lexicon, Meaning

_LETTERS_AND_MARKS = (
    r"(?P<v>[^\W\d_]{2,}(?=[ ,;]))"  # by far the commonest: a word with a space or comma after it
    r"|(?P<o>\d+(?:st|nd|rd|th)\b|(?<!\d)[23]d\b(?!\.))"
    r"|(?P<n>\d+(?:\.\d+)?)"
    r"|(?P<d>(?<![^\W\d_])(?:[A-Za-z]\.){2,})"
    r"|(?P<s>[Ww]/)"
    r"|(?P<w>[^\W\d_]+(?:\u00ad[^\W\d_]+)*(?:'[^\W\d_]+)*(?:\(s\))?)"
    r"|(?P<m>\*+|#+|[†‡§★☆✩✪✭✯✦✧✶✷✸✹❋❊◆◇♦♢△▲○¤※])"
    r"|(?P<p>\S)"
)
_GROUPS = ("", "w", "o", "n", "d", "s", "w", "m", "p")  # of the pattern, by their number
_TOKEN = Lazy(_LETTERS_AND_MARKS)
_PLAIN_TOKEN = Lazy(_LETTERS_AND_MARKS.replace(r"[^\W\d_]", "[A-Za-z]"))  # the same for text in plain letters, which is quicker
_SCANNED = Lazy(  # a scanner's l and O for 1 and 0; begins with the letters themselves, so that a search leaps to them
    r"[lI\d](?<![^\W_].)(?:(?<=l)(?:(?=\s*[,.;)])|(?=\s+[a-z]{2,4}\b))|(?<=[Cc]h I)(?=\s*[,.;(])|(?<=[lI])(?:\d+|O)|(?<=\d)\d*[lIO]\d*)(?![^\W_]|')"
)
_PUNCTUATION = {
    ",": ",", ";": ";", ":": ":", ".": ".", "!": ".", "?": ".", "(": "(", ")": ")", "[": "[", "]": "]", "{": "{", "}": "}", "|": "|", "=": "=",
    "+": "+", "/": "/", "&": "AND", "—": "DASH", "→": "DASH", "⇒": "DASH", "-": "-", "‘": "QO", "“": "QO", "'": "'", '"': "'", "<": "(", ">": ")",
}
_ENDS_A_STEP = frozenset(("TURN", "AROUND", "ACROSS", "TOEND", "JOIN", "FASTEN", "MADE", "STN", "FIRST", "TIMES", "TIMESN", "]", ")", "MAGIC"))
_BEFORE_A_SHADE = frozenset(("WITH", "CHANGE", "ATTACH", "FASTEN", "COLOUR", "YARN", "DROP", "JOIN", "SHADE"))
_PASSED_OVER = frozenset(("the", "a", "your", "an"))
_MAY_LEAD_ON = _PASSED_OVER | {"-", "."}  # what may stand between the words of a phrase
_TAKES_A_LOOK = frozenset(("GLUE", "COLOUR", "TOG", "OWN"))  # words whose token hangs on what stands about them
_ABBREVIATED = frozenset(("ST", "CH", "STN", "SP", "SKIP", "REP", "NEXT", "TOG", "LOOP", "REM", "BEG", "OWN", "FIRST", "PREVIOUS", "ROUND"))
_AFTER_A_LONG = frozenset((",", ";", ".", "in", "into", "on", ")", "]", "*"))
_RUN_INTO = ("into", "in", "the", "of", "from", "and")
_MERGED = frozenset(("cl", "bobble", "popcorn", "puff", "shell", "fan", "dec", "picot", "inc"))  # stitches whose name may have several parts
_NEVER_A_NOUN = frozenset(("UNTIL", "TIMES", "TO", "IN", "FROM", "AND", "OF", "WITH", "TURN", "AROUND", "ACROSS", "THROUGH", "OVER", "BETWEEN", "AT", "TOEND", "TIMESN", "SKIP", "JOIN", "REP", "EACH", "NEXT", "FOR", "AS", "OR", "BUT", "NOT", "LEFT", "LEAVE", "TOG", "EVENLY", "WORKING", "CHANGE", "MADE", "COUNT"))
_BEFORE_A_CHAIN = frozenset(("NUM", "NEXT", "EACH", "LAST", "FIRST", "SAME", "ORD"))  # "in next ch. 2 sc": a chain that is there, and a new sentence
_AFTER_A_COLOUR = frozenset((",", ";", ".", ")", "]", "*", "and"))
_SLIPPED_TO = frozenset(("top", "first", "1st", "beg", "beginning", "join", "2nd", "3rd", "4th", "second", "third", "fourth"))  # "slip to top of ch 3"
_DIGITS = str.maketrans("lIO", "110")
_COUNTED = frozenset(("st", "sts", "stitches"))
_MOST = 10**9  # a longer number is taken as this one, which is refused as too much to work
_ENDS = ("END",) * 8  # after the last token: a phrase may look so far ahead wherever it stands
_NO_VALUES = (None,) * len(_ENDS)
_WHOLE_TENS = frozenset(range(20, 100, 10))
_LOOP_BY_A_HYPHEN = {"ST": "LOOP", "LOOP": "ST"}


def _as_digits(found) -> str:
    return found[0].translate(_DIGITS)


def tokenise(text: str, start: int, end: int, lexicon: Lexicon) -> Tokens:
    """The tokens of `text[start:end]`; offsets are those of `text`. Words of no weight ("the", "work") are left out."""
    words = text[start:end]
    plain = plainly(_SCANNED.sub(_as_digits, words) if _SCANNED.search(words) else words)
    pattern = _PLAIN_TOKEN if words.isascii() else _TOKEN
    if plain is words:
        raw = [(_GROUPS[found.lastindex], found[0], found.start(), found.end()) for found in pattern.finditer(text, start, end)]
    else:
        raw = [(_GROUPS[found.lastindex], found[0], found.start() + start, found.end() + start) for found in pattern.finditer(plain)]
    tokens = Tokens(text)
    reading = _Reading(raw, tokens, lexicon)
    reading.run()
    tokens.push("END", None, end, end)
    if reading.lists_likely or lexicon.sizes > 1:
        merge_size_lists(tokens, lexicon)
    if reading.merge:
        merge_stitch_words(tokens, lexicon)
    tokens.kinds += _ENDS
    tokens.values += _NO_VALUES
    tokens.starts += (end,) * len(_ENDS)
    tokens.ends += (end,) * len(_ENDS)
    return tokens


class _Reading:
    """One pass over the raw pieces."""

    __slots__ = ("raw", "tokens", "lexicon", "merge", "lists_likely")

    def __init__(self, raw, tokens, lexicon):
        self.raw, self.tokens, self.lexicon = raw, tokens, lexicon
        self.merge = self.lists_likely = False

    def run(self) -> None:
        raw, tokens = self.raw, self.tokens
        longer, mixed, known = self.lexicon.words.longer, self.lexicon.own_mixed, self.lexicon.at_a_glance
        kinds, values, starts, ends = tokens.kinds, tokens.values, tokens.starts, tokens.ends
        index = 0
        while index < len(raw):  # a word that is two run into one is taken apart on the way
            group, text, start, end = raw[index]
            if group == "w":
                if mixed:
                    after = self._mixed(index, mixed)
                    if after:
                        index = after
                        continue
                after_word, meaning, plain = known.get(text) or self._look_up(text)
                if after_word is not None and index + 1 < len(raw):
                    second = raw[index + 1][1].lower()
                    if second in after_word or second in _MAY_LEAD_ON or second.endswith("'s"):
                        after = self._phrase(index, after_word)
                        if after:
                            index = after
                            continue
                if plain:
                    kinds.append(meaning.kind)
                    values.append(meaning.value)
                    starts.append(start)
                    ends.append(end)
                    index += 1
                    continue
                small = text.lower()
                if meaning is None or len(text) == 1 or text == "MC" or text == "CC":
                    index = self._odd_word(index, text, meaning, start, end)
                    continue
                kind = meaning.kind
                if kind == "GLUE":
                    index += 1
                    continue
                if small == "slip" and index + 3 < len(raw) and raw[index + 1][1].lower() in ("to", "into", "in") and (raw[index + 2][1].lower() in _SLIPPED_TO or raw[index + 2][1].lower() in _PASSED_OVER and raw[index + 3][1].lower() in _SLIPPED_TO):
                    tokens.push("ST", "slst", start, end)
                    index += 1
                    continue
                if small == "long" and kinds and kinds[-1] == "NUM" and index + 1 < len(raw) and raw[index + 1][1].lower() in _AFTER_A_LONG:
                    tokens.push("ST", "dc", start, end)  # period wording: "1 long, 2 chain"
                    index += 1
                    continue
                if kind == "NUM" and meaning.value in _WHOLE_TENS:
                    index = self._tens(index, meaning.value, start, end)
                    continue
                if kind == "COLOUR" and self._numbered_colour(index, small):
                    tokens.push("SHADE", f"{small} {raw[index + 1][1]}", start, raw[index + 1][3])
                    index += 2
                    continue
                if kind == "TOG" or kind == "OWN" or kind == "ST" and meaning.value in _MERGED:
                    self.merge = True
                kinds.append(kind)
                values.append(meaning.value)
                starts.append(start)
                ends.append(end)
                index += 1
            elif group == "p":
                index = self._mark(index, text, start, end)
            elif group == "n":
                index = self._number(index, text, start, end)
            elif group == "o":
                if text in longer:
                    after = self._phrase(index, longer[text])
                    if after:
                        index = after
                        continue
                number = int(text.rstrip("dhnrst")) if len(text) < 12 else 0
                if text[-2:] == "st" and (number % 10 != 1 or number == 11):
                    tokens.push("NUM", number, start, end - 2)
                    tokens.push("STN", None, end - 2, end)
                else:
                    tokens.push("ORD", number, start, end)
                index += 1
            elif group == "m" and text == "#" and index + 1 < len(raw) and raw[index + 1][1].lower() == "of":
                tokens.push("TOTAL", None, start, end)  # "# of sts: 24"
                index += 2
            elif group == "m":
                if text[0] in "*#†‡§" or sum(other[1] == text for other in raw) > 1:  # others adorn, too
                    tokens.push("MARK", text, start, end)
                index += 1
            elif group == "s":
                tokens.push("WITH", None, start, end)
                index += 1
            else:
                index = self._dotted(index, text, start, end)

    def _look_up(self, text: str):
        """(phrases that begin with a word, its meaning, whether it is no more than that wherever it stands), which the lexicon keeps."""
        lexicon, small = self.lexicon, text.lower()
        meaning = lexicon.meaning(text)
        plain = meaning is not None and len(text) > 1 and text not in ("MC", "CC") and small not in ("slip", "long") and meaning.kind not in _TAKES_A_LOOK and not (
            meaning.kind == "NUM" and meaning.value in _WHOLE_TENS) and not (meaning.kind == "ST" and meaning.value in _MERGED)
        found = lexicon.words.longer.get(small), meaning, plain
        if len(lexicon.at_a_glance) < MOST_WORDS:
            lexicon.at_a_glance[text] = found
        return found

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

    def _phrase(self, index: int, after_word) -> int:
        """Index after the longest phrase that begins here, its token pushed; 0 where none does."""
        raw = self.raw
        count = len(raw)
        at = index + 1
        while at < count and (raw[at][1] == "-" or raw[at][1] == "." and len(raw[at - 1][1]) < 4):
            at += 1
        if at >= count:
            return 0
        second = raw[at][1].lower()
        candidates = after_word.get(second)
        if candidates is None:
            if second in _PASSED_OVER and at + 1 < count:
                candidates = after_word.get(raw[at + 1][1].lower())
            elif second.endswith("'s"):
                candidates = after_word.get(second[:-2])
            if candidates is None:
                return 0
        direct = len(candidates) > 4 and second in after_word and at + 2 < count and raw[at + 1][0] in "wo"
        third = raw[at + 1][1].lower() if direct else "the"
        if third in _PASSED_OVER or third.endswith("'s"):
            third = ""
        for tail, meaning in candidates.items():
            if third and len(tail) > 1 and tail[1] != third:
                continue  # of those that begin "single crochet" there are dozens
            at = index + 1
            for word in tail:
                while at < count:
                    group, text, start, _ = raw[at]
                    if group == "p":
                        if text == "-" or (text == "." and raw[at - 1][3] == start and len(raw[at - 1][1]) < 4):
                            at += 1
                            continue
                    break
                else:
                    break
                small = text.lower()
                if small != word and small in _PASSED_OVER and at + 1 < count:
                    at += 1
                    small = raw[at][1].lower()
                if small == word or (small == word + "'s"):
                    at += 1
                    continue
                break
            else:
                following = raw[at][1].lower() if at < count else ""
                if following in ("end", "ends", "edge", "edges") and meaning.kind == "PREVIOUS" or following == "of" and meaning.kind == "ST" and "around" in tail:
                    continue  # "last row end"; "dc around front post of next dc"
                start, end = raw[index][2], raw[at - 1][3]
                if meaning.kind == "GLUE":
                    return at
                if meaning.kind == "OWN" or meaning.kind == "ST" and meaning.value in _MERGED:
                    self.merge = True
                self.tokens.push(meaning.kind, meaning.value, start, end)
                return at
        return 0

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
        if len(text) == 1 and text.isupper() and "NUM" in (before, *tokens.kinds[-2:-1]) and before in ("NUM", "ST") and (meaning is None or meaning.kind in ("GLUE", "W")) and (following[1] in _AFTER_A_COLOUR or not following[1]):
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
        joined = self._broken(index, text)
        if joined:
            return joined
        if len(text) == 1:
            tokens.push("W" if text.isupper() else "U", None, start, end)
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
        cut = start
        lengths = [len(word) for word in guess.word.split()] if len(guess.meanings) > 1 else [end - start]
        for meaning, length in zip(guess.meanings, lengths, strict=False):
            if meaning.kind != "GLUE":
                tokens.push(meaning.kind, meaning.value, cut, min(end, cut + length))
                if meaning.kind == "TOG" or meaning.kind == "ST" and meaning.value in _MERGED:
                    self.merge = True
            cut += length
        return index + 1

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
            self.merge = self.merge or meaning.value in _MERGED
            self.tokens.push(meaning.kind, meaning.value, start, end)
        return index + 1

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
        if group == "w":
            return text[0].islower() and tokens.kinds[-1] in _ABBREVIATED
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
