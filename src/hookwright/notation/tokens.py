"""A row's words and marks in order, each with what it is and where it stands. Works on cleaned text (see clean)."""

from .patterns import Lazy
from .size_lists import merge_size_lists
from .spoken import plainly
from .stitch_words import SEVERAL_PARTS, merge_stitch_words
from .token_columns import Tokens
from .token_marks import NumbersAndMarks
from .token_words import OddWords
from .words import MOST_WORDS, Lexicon

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
    r"|0(?<=[a-z]0)(?=[a-z]{2})"
)
_PASSED_OVER = frozenset(("the", "a", "your", "an"))
_MAY_LEAD_ON = _PASSED_OVER | {"-", "."}  # what may stand between the words of a phrase
_TAKES_A_LOOK = frozenset(("GLUE", "COLOUR", "TOG", "OWN"))  # words whose token hangs on what stands about them
_AFTER_A_LONG = frozenset((",", ";", ".", "in", "into", "on", ")", "]", "*"))
_SLIPPED_TO = frozenset(("top", "first", "1st", "beg", "beginning", "join", "2nd", "3rd", "4th", "second", "third", "fourth"))  # "slip to top of ch 3"
_POPPED_IN = frozenset(("a", "the", "some", "your", "his", "her", "it", "them", "both", "that", "those", "any", "more", "another"))
_DIGITS = str.maketrans("lIO", "110")
_ENDS = ("END",) * 8  # after the last token: a phrase may look so far ahead wherever it stands
_NO_VALUES = (None,) * len(_ENDS)
_WHOLE_TENS = frozenset(range(20, 100, 10))


def _as_digits(found) -> str:
    return found[0].translate(_DIGITS) if found[0] != "0" else "o"


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


class _Reading(OddWords, NumbersAndMarks):
    """One pass over the raw pieces."""

    __slots__ = ("raw", "tokens", "lexicon", "merge", "lists_likely", "after_phrase")

    def __init__(self, raw, tokens, lexicon):
        self.raw, self.tokens, self.lexicon = raw, tokens, lexicon
        self.merge = self.lists_likely = False

    def run(self) -> None:
        raw, tokens = self.raw, self.tokens
        longer, mixed, known = self.lexicon.words.longer, self.lexicon.own_mixed, self.lexicon.at_a_glance
        kinds, values, starts, ends = tokens.kinds, tokens.values, tokens.starts, tokens.ends
        index, count = 0, len(raw)
        while index < count:  # a word that is two run into one is taken apart on the way
            group, text, start, end = raw[index]
            if group == "w":
                if mixed:
                    after = self._mixed(index, mixed)
                    if after:
                        index = after
                        continue
                after_word, meaning, plain = known.get(text) or self._look_up(text)
                if after_word is not None and index + 1 < count:
                    second = raw[index + 1][1].lower()
                    if second in after_word or second in _MAY_LEAD_ON or "'" in second:
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
                    index, count = self._odd_word(index, text, meaning, start, end), len(raw)
                    continue
                kind = meaning.kind
                if kind == "GLUE":
                    index += 1
                    continue
                if small == "slip" and index + 3 < count and raw[index + 1][1].lower() in ("to", "into", "in") and (raw[index + 2][1].lower() in _SLIPPED_TO or raw[index + 2][1].lower() in _PASSED_OVER and raw[index + 3][1].lower() in _SLIPPED_TO):
                    tokens.push("ST", "slst", start, end)
                    index += 1
                    continue
                if small == "pop" and index + 1 < count and raw[index + 1][1].lower() in _POPPED_IN:
                    tokens.push("REMARK", "clause", start, end)  # "Pop some stuffing in now"
                    index += 1
                    continue
                if small == "long" and kinds and kinds[-1] == "NUM" and index + 1 < count and raw[index + 1][1].lower() in _AFTER_A_LONG:
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
                if kind == "TOG" or kind == "OWN" or kind == "ST" and meaning.value in SEVERAL_PARTS:
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
                if text[-2:] == "st" and (number % 10 != 1 or number == 11 or kinds[-1:] == ["="]):
                    tokens.push("NUM", number, start, end - 2)
                    tokens.push("STN", None, end - 2, end)
                else:
                    tokens.push("ORD", number, start, end)
                index += 1
            elif group == "m" and text == "#" and index + 1 < count and raw[index + 1][1].lower() == "of":
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
            meaning.kind == "NUM" and meaning.value in _WHOLE_TENS) and not (meaning.kind == "ST" and meaning.value in SEVERAL_PARTS)
        found = lexicon.words.longer.get(small), meaning, plain
        if len(lexicon.at_a_glance) >= MOST_WORDS:
            lexicon.at_a_glance.clear()
        lexicon.at_a_glance[text] = found
        return found

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
                if meaning.kind == "OWN" or meaning.kind == "ST" and meaning.value in SEVERAL_PARTS:
                    self.merge = True
                self.tokens.push(meaning.kind, meaning.value, start, end)
                return at
        return 0
