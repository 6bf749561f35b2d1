"""Words of a row that are no step: kept as a remark, or told as not read; and words taken for others, told at the end."""

from hookwright.ground import LOOK, MUST_MEND, NOTE, Finding, Span, Suggestion

from .remarks import tells_of_work
from .rows_spoken_of import RowsSpokenOfReading
from .steps_toy_parts import ToyPartReading
from .tree import Colour, Extent, FastenOff, Leave, Note, Place, Stitch, Unread

_DENIED = frozenset(("OR", "AND", "MORE", "W", "U", "/", "SHAPING", "THIS", "ROUND", "ROW", "ROUND", "IN", "ON", "FOR", "ANY"))
_BEGINS = frozenset(("ST", "OWN", "CH", "SKIP", "TURN", "FASTEN", "REP", "DONOTJOIN", "DONOTTURN", "DONOTFASTEN", "NUM"))
_LEADS = frozenset(("IN", "OF", "FROM", "BETWEEN", "TO", "OVER", "AROUND", "AT", "NEXT", "EACH", "FIRST", "LAST", "SAME", "ORD", "NUM", "THIS", "HY", "AS", "ACROSS", "WITH"))
_DOUBTFUL = frozenset(("W", "U", "SP"))  # words that begin like the name of something worked, and may be a mistyped one
_WORKED = frozenset(("STN", "NEXT", "EACH", "EVENLY", "SP", "RING", "FIRST", "LAST", "SAME", "REM", "NUM", "ORD", "ST", "CH", "OWN"))  # where or what is worked
_GAINING = frozenset(("up", "plus", "adds", "adding", "gain", "gains", "gaining", "grows", "growing", "losing", "loses", "minus", "down"))
_PLACED = frozenset(("STN", "NEXT", "EACH", "EVENLY"))
_BEFORE_A_STEP = frozenset((",", ";", ":", "(", "[", "{", "AND", "MARK", "DASH"))
_COUNTING = frozenset(("count", "counting", "treat", "treating", "regard", "regarding"))
_ONLY_WORDS = frozenset(("W", "U", "YOU"))
_REMARKED = frozenset(("REMARK", "RS", "WS", "YOU", "SEE", "FOR"))
_BEGINS_NO_TALK = frozenset(("(", "[", "{", "|", "=", "DASH", "NUM", "ST", "CH", "JOIN", "TURN", "FASTEN", "SKIP", "MARK", "REP", "SHADE"))
_LETS = frozenset(("let", "letting", "ignore", "ignoring", "rest", "resting"))
_ABOUT = frozenset(("W", "U", "HAVE", "THIS", "YOU", "IN", "ON", "OF", "AT", "AND", "NOW", "SIDE", "RS", "WS", "TOP", "BASE", "EXTEND", "AS", "LIKE", "BACKFACING", "REMARK", "WITH", "FORM", "OTHER", "CENTER"))
_HOW_IT_IS = frozenset(("is", "are", "lies", "lie", "looks", "look", "becomes", "become", "begins", "begin", "shows", "show", "stands", "stand", "forms", "form", "appears", "appear", "curls", "will", "should", "gets", "comes", "sits"))
_WAITS = frozenset(("wait", "rest", "hang", "stay", "sit", "remain"))
_OF_FABRIC = frozenset(("EXTEND", "SIDE", "W", "U"))
_PLAIN = frozenset(("W", "U", "REMARK", "HAVE"))
_LIGHT = frozenset((",", "AND", "OR", "OF", "IN", "AT", "TO", "FROM", "OTHER", "THIS", "SIDE", "NOW", "BUT", "AS", "WITH", "BETWEEN", "NUM", "BEG", "EXTEND", "YOU", "NOT", "FOR", "MORE", "RS", "WS", "CENTER", "TOP", "BASE", "DASH", ";", ":"))
_VERBS = frozenset(("will", "should", "may", "might", "is", "are", "looks", "gets", "can", "has"))
_GOES_ON = _PLAIN | _LIGHT - {"NUM"}
_TALKS = frozenset(("W", "U", "NUM", "THIS", "YOU", "OTHER", "BUT", "AS"))
_WORKS = frozenset(("ST", "STN", "OWN", "CH", "SKIP", "REP", "UNTIL", "CONTINUE", "FASTEN", "TURN", "JOIN", "ATTACH", "CHANGE", "GO", "ROW", "ROUND", "TIMES", "TIMESN", "MARK", "EXTEND"))  # a sentence with one of these works something
_TELLING = frozenset(("W", "U", "REMARK", "ST", "CH", "NUM", "OWN", "STN", "YOU", "DRAW", "WORKOFF", "YO", "HOOK", "RS", "WS", "DROP", "YARN", "SHAPING", "SHAPED", "INCLUDE", "WORKING", "PLACING", "BACKFACING"))


class UnreadReading(ToyPartReading, RowsSpokenOfReading):
    """Reads what is left over."""

    def remark(self, frame, closers) -> None:
        """Words that are no step: kept as a Note, or as Unread where they look like an instruction."""
        k = self.k
        start = self.i
        if k[start] == "REM" and self.rest_is(frame) or self.parts_told(frame):
            return
        if (start == 0 or frame.ended) and self._colour_alone_told(frame):
            return
        if k[start] in ("AS", "ROW", "ROUND") and self.other_row_told(frame, start) or k[start] in ("W", "U", "NUM") and not frame.steps and self.sizes_told(frame, start):
            return
        if k[start] in ("W", "U", "COLOUR") and "ANY" in k[start:start + 6] and self.yarn_in_any(frame, start):
            return
        if k[start] in ("COUNT", "W", "U", "HAVE") and (after := self.counting_told(start)):
            self.i = after
            self.keep_words(frame, start, after, True)
            frame.steps[-1].tells = False  # the stitches are counted so wherever they are worked into
            return
        if k[start] == "W" and self._word(start) in ("pull", "pulling") and "THROUGH" in k[start:start + 5] and type(self.last_step(frame)) is Stitch and self.finished_so(frame, start):
            return
        if k[start] in ("W", "U") and self._word(start) in _LETS and self.left_alone(frame, start, start + 1) or k[start] in ("REM", "OTHER") and self.left_alone(frame, start, start):
            return
        if k[start] in ("W", "U") and k[start + 1] == "WITH" and k[start + 2] in ("ST", "OWN") and start and k[start - 1] in (",", ";", "AND", ":"):
            self.i = start + 2  # "ch 4, anchor with sc in next"
            return
        if k[start] in ("W", "U") and k[start + 1] == "W" and k[start + 2:start + 5] == ["WITH", "NUM", "ST"] and self._word(start + 1) in ("up", "off") and frame.steps and k[start - 1] in (",", ";", "AND"):
            self.i = start + 2  # "sc in each st, doubling up with 2 sc in the turning ch"
            return
        if k[start + 1] in ("OTHER", "REM", "ALL", "THIS") and frame.steps and self.past_other_sides(start + 1)[1]:
            self.i = start + 1  # "complete the other three sides in the same way": whatever the verb
            if self.act_other_sides(frame):
                return
            self.i = start
        if k[start] == "W" and self._word(start) in ("no", "without", "neither"):
            at = start + 1
            while k[at] in _DENIED or k[at] == "ST" and self.v[at] in ("inc", "dec"):
                at += 1
            if "ST" in k[start:at] or "SHAPING" in k[start:at]:  # "no increases or decreases": nothing is worked
                self.i = at
                self.keep_words(frame, start, at, True)
                return
        if k[start] in ("W", "U") and self.patterned(frame):
            return
        if k[start] == "INSTEAD" and k[start + 1] in ("LAST", "THIS", "FIRST", "EACH") and frame.steps:  # "ch 2, dc in first sc instead of last ch-5 loop": what was done before, and not now
            at = start + 1
            while k[at] in ("LAST", "THIS", "FIRST", "EACH", "CH", "HY", "NUM", "SP", "ST", "STN", "OWN"):
                at += 1
            if k[at] in (".", ",", ";", "END", ")", "]"):
                self.i = at
                self.keep_words(frame, start, at, True)
                return
        if k[start] == "W" and self._word(start) in ("fill", "filling") and self.filled(frame):
            return
        if k[start] in ("W", "U") and k[start + 1] == "NUM" and self._word(start) in _GAINING and (after := self._each_time(start + 2)):
            self.i = after
            self.keep_words(frame, start, after, True)
            return
        if k[start] == "W" and self._word(start) == "which" and self.gets_more(frame):
            return
        if k[start] == "W" and self._word(start) in ("let", "letting"):  # "let the loops fall to the back"
            at = start + 1
            while k[at] not in (",", ";", ".", "END", ")", "]", ":") and k[at] not in _BEGINS:
                at += 1
            if k[at] not in _BEGINS:
                self.i = at
                self.keep_words(frame, start, at, True)
                return
        sentence = k[start] in ("REMARK", "YOU", "SEE", "HAVE") or any(type(step) is FastenOff for step in frame.steps)
        if k[start] in ("W", "U") and k[start + 1] == "HAVE":  # "The band should be about 18 inches long"
            at = start + 2
            while k[at] == "W":
                at += 1
            sentence = sentence or k[at] == "NUM" and self._length_ahead(at)
        sentence = sentence or k[start] in ("W", "U", "SP", "THIS", "ALL") and self._told_where(start)
        sentence = sentence or k[start] in ("W", "U") and (not start or k[start - 1] in (".", "(", "[")) and self._word(start) in ("multiple", "mult")  # "Multiple of 2 sts + 2."
        sentence = sentence or k[start] in ("EACH", "ALL") and any(k[at] == "W" and self._word(at) in ("should", "ought") for at in range(start + 1, start + 6))  # "Each sc should land on a dc"
        short = k[start] == "REMARK" and self.v[start] == "clause"  # a remark that ends where a step begins
        if k[start] == "YOU" and start and k[start - 1] not in (".", ":", "(", "[") and "HAVE" not in k[start : start + 4]:
            short = True  # "sl st in next 3 ch so you're in the middle of it, sc in that loop"
        clause = k[start] in ("DROP", "HOLD", "BACKFACING", "RS", "WS", "WITH", "SEE", "FOR")
        self.i += 1
        while True:
            kind = k[self.i]
            if kind == "END" or kind in closers or kind == "MARK":
                break
            if kind == "." and self._ends_sentence():
                break
            if clause and kind == "AND" and "HOOK" in k[self.i:self.i + 6] and not {",", ";", "."}.intersection(k[self.i:self.i + k[self.i:].index("HOOK")]):
                self.i += k[self.i:].index("HOOK") + 1
                continue  # "With worsted weight yarn and a 5 mm hook, ch 21"
            if short and kind == ":" and k[self.i + 1] in ("YOU", "HAVE"):
                break  # "Count your stitches: you should have 17"
            if short and kind in (",", ";", "AND", ":", "DASH") and (k[self.i + 1] in _BEGINS and (k[self.i + 1] != "NUM" or k[self.i + 2] in ("ST", "CH", "OWN", "HY")) or k[self.i + 1] in ("WORKING", "JOIN", "BOTH", "LAYERS", "(", "[", "MARK") or k[self.i + 1] == "PLACE" and k[self.i + 2] in ("NUM", "ST", "OWN")):
                break
            if sentence:
                if kind in (",", ";") and k[start - 1] in ("AND", ",") and start and k[self.i + 1 : self.i + 3] == ["CH", "NUM"]:
                    break  # "With A and safety eyes, ch 12": the work begins
                if kind in ("(", "[") and self.match[self.i] > self.i:
                    after = self.match[self.i] + 1
                    if k[self.i + 1] == "NUM" and after == self.i + 3 and k[after] in (".", "END") and not self.depth:
                        break  # "stuff as you go (30)": the count
                    self.i = after - 1
            elif kind in (",", ";", ":", "AND", "DASH", "(", "[", "{", "|", "=", ".") or (
                not clause and kind in _BEGINS and k[self.i - 1] not in _LEADS and not (kind == "NUM" and k[self.i - 1] == "SP" and self.v[self.i - 1] == "leg")
                and not (kind == "NUM" and "HAVE" in k[start:self.i] and "REMARK" in k[start:self.i])
            ):
                break
            self.i += 1
        self.keep_words(frame, start, self.i, sentence or clause)

    def _colour_alone_told(self, frame) -> bool:
        """ "Milk color. Ch 6.", "Dark brown colour.": a sentence of nothing but the colour that is worked with."""
        k, start = self.k, self.i
        at = start
        while k[at] in ("W", "U", "SHADE") and at - start < 4:
            at += 1
        if at == start or k[at] != "COLOUR" or k[at + 1] != ".":
            return False
        self.i = at + 1
        frame.steps.append(Colour(self.text[self.s[start]:self.e[at - 1]], span=self.span(start)))
        return True

    def counting_told(self, start: int) -> int:
        """Index after "counting each ch-1 sp as a st", "treating chs as sts" at token `start`: how her numbers are meant; 0 where it is none."""
        k, at = self.k, start + 1
        if self._word(start).lower() not in _COUNTING or k[at - 1] == "COUNT" and k[at] == "AS":
            return 0
        spaces = False
        while k[at] in ("EACH", "ALL", "CH", "HY", "NUM", "SP", "AND", "ST", "STN"):
            spaces = spaces or k[at] in ("CH", "SP")
            at += 1
        if not spaces or k[at] != "AS":
            return 0
        at += 1
        while k[at] in ("NUM", "EACH", "STN", "ST", "OWN", "ALSO"):
            at += 1
        return at if k[at - 1] != "AS" and k[at] in (",", ".", ";", ")", "]", "END") else 0

    def _each_time(self, at: int) -> int:
        """Index after "dc each time", "sts every round" at token `at`; 0 where none stands there."""
        k = self.k
        while k[at] in ("ST", "STN", "MORE", "IN", "ON"):
            at += 1
        return at + 2 if k[at] == "EACH" and k[at + 1] in ("TIMES", "ROUND", "ROW", "AROUND") else 0

    def tells_length(self, frame) -> bool:
        """ "By now it should be about 150 cm.", "Mine came out at 60 in long.": a sentence of how long the piece is, and no work in it.

        So is one of words that are none of the craft's: "One edge stays straight, the other leans out."
        """
        k, start, told = self.k, self.i, False
        if k[start] in _BEGINS_NO_TALK and not (k[start] == "NUM" and k[start + 1] in _OF_FABRIC):
            return False
        words, least = int(k[start] == "NUM"), 0
        while k[self.i] != "END" and not (k[self.i] == "." and self._ends_sentence()):
            kind = k[self.i]
            if kind in _WORKS and not (kind == "EXTEND" and self.i == start + 1):
                self.i = start
                return False
            told = told or kind == "NUM" and self._length_ahead(self.i)
            if kind in _PLAIN:
                words += 1
            elif kind not in _LIGHT:
                least = 99  # a word of the craft: perhaps a step mistyped
            self.i += 1
        if not told and (words < 3 or words < least or k[start] not in _TALKS):
            self.i = start
            return False
        self.keep_words(frame, start, self.i, True)
        if told:
            frame.steps[-1].tells = False
        return True

    def left_alone(self, frame, start: int, at: int) -> bool:
        """ "let the other 20 rest where they are", "don't work the remaining sts", "the other 20 sts wait": they are left."""
        k = self.k
        told, number = at > start, None
        others = told and (k[at] == "REM" or k[at] == "W" and self._word(at) == "others")
        if k[at] not in ("OTHER", "REM") and not others and not (told and k[at] in ("LAST", "THIS")):
            return False
        at += others
        while k[at] in ("OTHER", "REM", "LAST", "OF", "THIS"):
            at += 1
        if k[at] == "NUM":
            number, at = self.v[at], at + 1
        at += k[at] in ("STN", "ST")
        if number is None and k[at - 1] not in ("STN", "ST") and not others or not told and self._word(at) not in _WAITS:
            return False
        while k[at] not in (",", ";", ".", "END", ")", "]", "TURN", "AND"):
            if k[at] in ("ST", "CH", "NEXT", "EACH", "IN"):
                return False
            at += 1
        self.i = at
        frame.steps.append(Leave(number, span=self.span(start)))
        return True

    def rest_is(self, frame) -> bool:
        """ "sc2tog, the rest sc", "remaining sts are sc": the stitch in all that is left."""
        k, start = self.k, self.i
        at = start + 1
        while k[at] in ("STN", "HAVE", "IN", "OF", "THIS", "ROUND", "ROW"):
            at += 1
        if k[at] != "ST" or not isinstance(self.v[at], str) or self.v[at] in ("inc", "dec", "slst") or k[at + 1] not in (".", ",", ";", "END", "(", "[", ")", "=", "DASH", ":") or not frame.steps:
            return False
        self.i = at + 1
        return self.put(frame, Stitch(self.v[at], 1, Place(n=None, extent=Extent("end")), span=self.span(start)))

    def _told_where(self, start: int) -> bool:
        """ "Petals are worked into the ch-1 spaces.": a sentence that tells where, and works nothing yet."""
        k = self.k
        for at in range(start + 1, min(start + 5, len(k) - 2)):
            if k[at] in ("HAVE", "W") and self._word(at) in ("are", "is", "will be") and k[at + 1] == "MADE" and k[at + 2] in ("IN", "OVER", "AROUND", "ACROSS", "THROUGH", "BACKFACING", "BETWEEN"):
                return True
        return False

    def keep_words(self, frame, start: int, after: int, surely_remark: bool) -> None:
        """Tokens [start, after) as Note or Unread."""
        kinds = self.k[start:after]
        doubtful = (
            not surely_remark and kinds[0] in _DOUBTFUL and (len(kinds) > 1 or kinds[0] == "U") and not _REMARKED.intersection(kinds)
            and (kinds[0] != "W" or "U" in kinds or _WORKED.intersection(kinds))
            and not self._talk_goes_on(frame, start, kinds) and not self._says_how_it_is(frame, start, after)
            and (start == 0 or self.k[start - 1] in _BEFORE_A_STEP or (self.k[start - 1] == "." and _PLACED.intersection(kinds)))
        )
        if not surely_remark and not doubtful and not any(kind in _TELLING for kind in kinds):
            return
        span = Span(self.s[start], self.e[after - 1])
        words = self.text[span.start:span.end]
        working = doubtful or any(kind in ("ST", "CH", "NUM", "OWN") for kind in kinds)
        if surely_remark or not working:
            of_piece = kinds[0] == "OF" and len(kinds) < 5 and kinds[-1] in ("W", "U", "SP") and getattr(getattr(self.last_step(frame), "place", None), "extent", None) is not None
            frame.steps.append(Note(words, span, tells=tells_of_work(words) or of_piece))  # "each dc of thumb": perhaps no stitches of this row
            return
        self.keep_unread(frame, span)

    def _talk_goes_on(self, frame, start: int, kinds) -> bool:
        """ "Count it now, trust me.": words and nothing else, up to the end of a sentence that began as a remark."""
        said = frame.steps[-1] if frame.steps else None
        if said is not None and len(kinds) > 2 and _GOES_ON.issuperset(kinds[1:]) and self.k[start - 1] in (",", ";", "AND", ":") and any(self._word(at) in _VERBS for at in range(start + 1, start + len(kinds) - 1)):
            return True  # "petals will ruffle"
        if type(said) in (Note, Leave) and self.k[start - 1] in (",", "AND", ";") and _GOES_ON.issuperset(kinds) and (len(kinds) > 1 or self.k[start - 1] == "AND"):
            return True  # "the fabric is thick and cosy, like felt"
        return type(said) is Note and self.k[start - 1] == "," and self.e[start - 2] == said.span.end and self.k[start + len(kinds)] in (".", "END", ",", ")") and _ONLY_WORDS.issuperset(kinds)

    def _says_how_it_is(self, frame, start: int, after: int) -> bool:
        """ "..., so a ridge lies on the outside; 60", "- the handles are born.": a clause of its own about the fabric, after the steps, with no word of the craft that works."""
        k = self.k
        if not frame.steps or self.depth or after - start < 3 or not _ABOUT.issuperset(k[start:after]) or k[after] not in (".", "END", ";", ",", "DASH", "(", "["):
            return False
        return any(self._word(at) in _HOW_IT_IS for at in range(start + 1, min(start + 5, after - 1)))

    def keep_unread(self, frame, span: Span) -> None:
        """The words of `span` as Unread, which is said."""
        words = self.text[span.start:span.end]
        frame.steps.append(Unread(words, span=span))
        self.read.findings.append(Finding(
            "cannot-read", LOOK, f"`{words}` can't be read as a step of this row, so it is left out of the working.", span, found=words,
            suggestions=(Suggestion("Write it in the usual words of a row, or put it in brackets after `Note:` where it is a remark.", "your choice", span=span),),
        ))

    def say_guesses(self) -> None:
        remarks = [step.span for step in self.read.steps if type(step) is Note]
        for start, end, guess in self.tokens.guesses:
            if any(span.start <= start and end <= span.end for span in remarks):
                continue  # a word of a remark is hers
            word = self.text[start:end]
            self.read.findings.append(Finding(
                "unknown-word", LOOK, f"`{word}` is no word of {self.lexicon.terms} terms: it is read as `{guess.word}`.", Span(start, end), expected=guess.word, found=word,
                suggestions=(Suggestion(f"Did you mean `{guess.word}`?", "likely", guess.word, Span(start, end)),),
            ))
        for start, end, given, wanted in self.tokens.lists:
            words = self.text[start:end]
            sizes = "1 size" if wanted == 1 else f"{wanted} sizes"
            self.read.findings.append(Finding(
                "size-list-length", MUST_MEND if wanted > 1 else NOTE, f"`{words}` has {given} numbers, but the pattern has {sizes}.", Span(start, end), expected=wanted, found=given,
            ))
