"""Brackets that hold no steps: hints, names of what was made, counts said again, "(3 times)", words aside."""

from hookwright.ground import Span

from .tree import Either, Group, Note, Repeat, Stitch

_REMARKS = frozenset(("REMARK", "YOU", "RS", "WS", "SEE", "OR", "AS", "LEAVE", "BACKFACING", "THIS", "W", "U", "FOR", "TOP", "ENDING", "BUT", "INSTEAD", "HOLD", "UNTIL", "ROW", "ROUND", "NOT"))
_NAMING = frozenset(("MADE", "FIRST", "BEG", "HALF", "ST", "OWN", "STN", "NUM", "HY", "W", "U", "SP", "=", "LAST", "CH", "MORE"))


_SAYING = frozenset(("is", "are", "was", "were", "means", "isn't", "aren't"))  # "(a tr is one and a hole is one)": what is said of stitches works none


_WORKED_INSIDE = frozenset(("ST", "OWN", "CH", "SKIP", "REP", "TIMES", "TIMESN", ",", ";", "MARK", "EACH"))
_IN_OTHER_WORDS = ("that is", "that means", "this means", "meaning", "i.e", "in other words", "so that", "which is", "which means")  # what stands before is told once more
_HOW = frozenset(("W", "U", "WITH", "LOOP", "ENDING", "THROUGH", "DRAW", "YO", "TOP"))  # words of a stitch told, not of steps
_LONGEST_TOLD = 14  # words in brackets that tell which loop is meant


def drop_loop_told(tokens) -> None:
    """Takes "(the bar at the back)" out of "in third loop (the bar at the back) of each st": which loop is meant was said. `tokens` is changed in place."""
    kinds, at = tokens.kinds, 0
    while at < len(kinds) - 3:
        if kinds[at] == "LOOP" and kinds[at + 1] == "(":
            close = next((here for here in range(at + 2, min(at + _LONGEST_TOLD, len(kinds) - 1)) if kinds[here] in (")", "(")), 0)
            if close and kinds[close] == ")" and kinds[close + 1] in ("OF", "EACH", "IN", "NEXT", "ALL", "FIRST") and not _WORKED_INSIDE.intersection(kinds[at + 2:close]):
                for column in (kinds, tokens.values, tokens.starts, tokens.ends):
                    del column[at + 1:close + 1]
        at += 1


class AsideReading:
    """Tells brackets of remarks from brackets of steps."""

    def _is_times(self, frame, start: int, close: int) -> bool:
        """ "(3 times)", "(twice)", "(x 6)", "(4 repeats)" after a step, or a bracket of steps: how often."""
        number = self.times_in_brackets(start)
        last = self.last_step(frame)
        if number is None or last is None:
            return False
        k = self.k
        group = frame.bracket[0] if k[start - 1] in (")", "]", "}") and frame.bracket is not None and frame.bracket[1] == len(frame.steps) else None
        if group is None and k[start + 1] != "TIMESN" and k[start + 2] != "TIMES":
            return self._all_so_often(frame, number, start, close)
        if group is not None:
            steps = frame.steps[group:]
            if len(steps) == 1 and type(steps[0]) is Group and steps[0].place is None:
                steps = steps[0].steps
            frame.steps[group:] = [Repeat(steps, number, mark="(", span=Span(last.span.start, self.e[close]))]
            self.i = close + 1
            return True
        index = max(at for at, step in enumerate(frame.steps) if step is last)
        if type(last) is Stitch and last.place is None and last.n == 1:
            last.n = number
        else:
            frame.steps[index] = Repeat([last], number, span=Span(last.span.start, self.e[close]))
        self.i = close + 1
        return True

    def times_in_brackets(self, start: int):
        """The number of "(3 times)", "(twice)", "[x 6]", "(6x)", "(4 repeats)" at the bracket at token `start`; None where it is none."""
        k, close = self.k, self.match[start]
        if close == start + 2:
            return self.v[start + 1] if k[start + 1] == "TIMESN" else None
        if k[start] == "|" or close != start + 3:
            return None
        if k[start + 1] == "NUM" and k[start + 2] in ("TIMES", "X", "REP"):
            return self.v[start + 1]
        return self.v[start + 2] if k[start + 1] == "X" and k[start + 2] == "NUM" else None

    def _all_so_often(self, frame, number, start: int, close: int) -> bool:
        """ "1 sc, inc (x 6)": all steps so far, or the last of them."""
        head = self._head(frame.steps)
        steps = frame.steps[head:]
        span = Span(steps[0].span.start, self.e[close])
        every = Repeat(steps, number, span=span)
        self.i = close + 1
        if len(steps) == 1:
            frame.steps[head:] = [every]
            return True
        last = [*steps[:-1], Repeat(steps[-1:], number, span=span)]
        frame.steps[head:] = [Either([[every], last], "\"x n\" may repeat only the last stitch or all of them", span)]
        return True

    def _is_repeat(self, frame, start: int, close: int) -> bool:
        """ "1 sc, 1 inc (repeat 6 times)": the steps before, so often."""
        self.i = start + 1
        if frame.steps and self.act_repeat(frame) and self.i <= close:
            self.i = close + 1
            return True
        self.i = start
        return False

    def _is_remark(self, frame, start: int, close: int, follows: str) -> bool:
        """Remarks in brackets: hints, names of what was made, counts said again, alternatives."""
        k = self.k
        inner = k[start + 1:close]
        if not inner:
            self.i = close + 1
            return True
        if self.colour_kind is not None and any(k[at] == "NUM" and self._colour_alone(at + 1) for at in range(start + 1, close)):
            return False  # "[3 A, 3 B]"
        if inner[0] == "LEAVE" and "UNWORKED" in inner and follows != "steps":  # "(leave rest unworked)"
            self.i = start + 1
            if self.act_leave(frame) and self.i <= close:
                self.i = close + 1
                return True
            self.i = start
        text = self.text[self.e[start]:self.s[close]].strip()
        span = Span(self.s[start], self.e[close])
        if follows != "steps" and len(inner) > 2 and self._tells_how(frame, start, close):
            self.i = close + 1
            frame.steps.append(Note(text, span))
            return True
        if text[:5].lower() == "note:":  # how a remark is written that could be taken for work
            self.i = close + 1
            frame.steps.append(Note(text[5:].strip(), span))
            return True
        crossed = inner[0] in ("SKIP", "IN", "WORKING") and "ST" in inner and k[start - 1] in ("ST", "STN", "OWN", "SP") and getattr(self.last_step(frame), "kind", "") in ("cdc", "ctr", "csc", "chdc")
        if crossed or frame.steps and text.lower().startswith(_IN_OTHER_WORDS):  # "cross st over next 2 sc (sk next sc, dc in following sc, dc in skipped sc)"
            self.i = close + 1
            frame.steps.append(Note(text, span))
            return True
        if inner[0] == "LAST" and follows != "steps":  # "(the last sc will go into the ch-2 sp)"
            self.i = start + 1
            if self.last_one(frame, start + 1) and self.i == close:
                self.i = close + 1
                return True
            self.i = start
        if inner[0] in ("OVER", "AROUND", "IN", "AT") and "JOIN" in inner and "NUM" not in inner and "," not in inner and follows != "steps":
            self.i = close + 1  # "2 dc in same lp (over the joining dc)"
            frame.steps.append(Note(text, span))
            return True
        if "SHAPED" in inner and follows != "steps":
            self.i = close + 1
            frame.steps.append(Note(text, span))
            return True
        if "LOOP" in inner and all(kind in ("IN", "LOOP", "WORKING") for kind in inner):
            self.loop_for_row(frame, self.v[start + 1 + inner.index("LOOP")])
            self.i = close + 1
            return True
        if inner[0] in ("DRAW", "YO", "HOLD") and frame.steps and type(frame.steps[-1]) is Stitch and follows != "steps":
            self.i = close + 1
            return True
        if inner[0] == "NUM" and 1 < len(inner) < 4 and self.v[start + 2] in ("inc", "dec") and follows != "steps":
            self.i = start + 1
            if self.shaping_told(frame, start + 1):  # "(6 increases made)"
                frame.steps[-1].span = span
                self.i = close + 1
                return True
            self.i = start
        if inner[0] == "NUM" and len(inner) > 2 and inner[1] in ("ST", "STN") and self._word(start + 3) == "per" and frame.steps:
            self.i = close + 1  # "(1 sc per row)": how they are spread
            frame.steps.append(Note(text, span))
            return True
        if "HAVE" in inner and inner[0] == "NUM":
            self.i = close + 1
            frame.steps.append(Note(text, span))
            return True
        if follows != "steps" and inner[0] == "NUM" and self.v[start + 2] in ("inc", "dec") and "EACH" in inner and inner[-1] in ("SIDE", "ENDING", "EXTEND"):
            self.i = close + 1  # "(1 inc at each side)": where it was shaped
            frame.steps.append(Note(text, span))
            return True
        if inner[0] in ("REMARK", "THIS") and inner[1:2] == ["FIRST"] and len(inner) == 3:  # "(this is your first Cl)"
            start, inner = start + 1, inner[1:]
        named = inner[-1] == "MADE" or ("HALF" in inner or inner[0] in ("FIRST", "BEG") and len(inner) == 2) and inner[-1] in ("ST", "OWN")  # "3 dc in first sc (half shell)"
        named = named or len(inner) == 1 and self.names_a_group(start + 1) and type(self.last_step(frame)) is Group  # "in next sp make 3 dc, ch 2 and 3 dc (shell)"
        if named and follows != "steps" and all(kind in _NAMING for kind in inner):
            self.i = close + 1
            if not self.name_made(frame, start + 1, close):
                frame.steps.append(Note(text, span))
            return True
        if inner[0] in ("YOU", "HAVE", "TOTAL"):
            keep = self.i
            self.i = start + 1
            if self.act_count_sentence(frame):
                self.i = close + 1
                return True
            self.i = keep
        if len(inner) < 4 and ("ROW" in inner or "ROUND" in inner or "AROUND" in inner) and any(value in ("inc", "dec") for value in self.v[start + 1:close]):
            self.i = close + 1  # "(Inc Row)"
            frame.steps.append(Note(text, span))
            return True
        if follows != "steps" and len(inner) in (3, 4) and inner[0] == "NUM" and inner[1] == "STN" and self.v[start + 3] in ("inc", "dec") and inner[3:] in ([], ["."], ["MADE"]):
            self.i = close + 1  # "(1 st dec)" after what decreases it
            frame.steps.append(Note(text, span))
            return True
        restated = "X" in inner and not (k[start - 1] == k[close + 1] == "," and len(inner) == 3) and all(kind in ("NUM", "X", "ST", ",", "CH", "AND", "+", "HY", ";", "=") for kind in inner) and (follows != "steps" and not self._goes_on_so(start, close) or (k[close + 1] in ("IN", "OVER", "EACH") or type(self.last_step(frame)) in (Either, Repeat)) and not any(inner[at] == "X" and inner[at - 1] == "ST" for at in range(1, len(inner))))
        worked = any(kind in ("ST", "CH", "OWN", "SKIP", "REP", "(", "[") for kind in inner)
        tells = inner[0] in _REMARKS or follows != "steps" and any(kind in ("W", "HAVE") and self._word(at) in _SAYING for at, kind in enumerate(inner, start + 1)) or inner[0] == "=" or inner[0] in ("CENTER", "TOP", "BASE", "AT") and "NUM" not in inner and "," not in inner
        if not restated and follows == "steps" and worked and inner[0] not in ("REMARK", "OR", "YOU"):
            return False
        if restated or not worked or tells or self._only_words(inner):
            if self._step_word(inner) and not restated:
                return False
            self.i = close + 1
            frame.steps.append(Note(text, span))
            return True
        return False

    def _goes_on_so(self, start: int, close: int) -> bool:
        """Whether a bracket with chains in it is written as the stitches about it are ("4ch, (tr x 3, 2ch, tr x 3), 1ch, tr x 1"): work, no sum of it."""
        k = self.k
        return "CH" in k[start:close] and any(k[at] == "X" and k[at - 1] == "ST" and k[at + 1] == "NUM" and not start < at < close for at in range(1, len(k) - 1))

    def _tells_how(self, frame, start: int, close: int) -> bool:
        """Whether the bracket tells how the shaping just before it is made: "dec (front loops of next 2 sts, then finish like a sc)"."""
        last = frame.steps[-1] if frame.steps else None
        if type(last) is not Stitch or last.kind not in ("inc", "dec", "invdec") or last.span.end != self.e[start - 1]:
            return False
        inner = self.k[start + 1:close]
        return _HOW.intersection(inner) != set() and inner[0] not in ("OVER", "IN", "AT") and "MARK" not in inner

    def _step_word(self, inner) -> bool:
        """Brackets that hold a step without a stitch: "(turn)", "(do not turn)", "(join)", "(change to B)", "(place marker)"."""
        return inner[0] in ("TURN", "DONOTTURN", "DONOTJOIN", "JOIN", "CHANGE", "PM", "FASTEN") and len(inner) < 8

    def _only_words(self, inner) -> bool:
        """Whether brackets hold a name and no number or place: "(corner)", "(dc)", "(shell)"."""
        if any(kind in ("W", "U", "RS", "WS") for kind in inner) and not any(
            kind in ("NUM", ",", "IN", "NEXT", "EACH", "SKIP", "CH", "OWN", "AROUND", "ACROSS", "COLOUR", "SHADE") for kind in inner
        ):
            return True  # "(tr push to right side)"
        return len(inner) == 1 and inner[0] in ("ST", "CH", "OWN", "STN", "W", "U") or not any(
            kind in ("NUM", "IN", ",", "OWN", "ST", "NEXT", "EACH", "AROUND", "ACROSS", "SKIP") for kind in inner
        )

    def _aside_ahead(self) -> bool:
        """Whether the bracket at hand is only a word aside ("(corner space)", "(3 times over hook)", "(reattach)")."""
        start = self.i
        close = self.match[start]
        if close < start:
            return False
        k = self.k
        inner = k[start + 1:close]
        if not inner:
            return True
        if k[start] == "[" and len(inner) > 1:
            return False
        if inner[0] in ("COUNT", "NOT") or "COUNT" in inner or len(inner) == 1 and self.names_a_group(start + 1):
            return False  # "(3 dc, ch 2, 3 dc) in next sp (shell)" names what was made
        if "HOOK" in inner and "FROM" not in inner:
            return True
        if any(kind in ("NUM", "ORD", "TURN", "MARK", "PM", "CHANGE", "DONOTTURN", "DONOTJOIN") for kind in inner):
            return False
        if "MADE" in inner:
            return False
        if not any(kind in ("ST", "CH", "OWN", "SKIP", "STN", "REP") for kind in inner):
            return True
        return len(inner) == 1 or (inner[0] in ("TOP", "W", "U", "THIS") and "," not in inner)

    def _worked_after_count(self, start: int, close: int) -> bool:
        """ "(ch 3 - counts as a dc, 2 dc, ch 2, 3 dc)": what counts is said of the chain that begins a group."""
        k = self.k
        begins = k[start + 1] == "CH" or k[start + 1:start + 3] == ["NUM", "CH"]
        return begins and sum(k[at] == "," and (k[at + 1] in ("ST", "CH") or k[at + 1] == "NUM" and k[at + 2] in ("ST", "CH")) for at in range(k.index("COUNT", start), close)) > 1

    def _not_steps(self, start: int) -> bool:
        """Whether the bracket at `start` holds a count, a remark or what counts (not steps)."""
        close = self.match[start]
        if close < start:
            return True
        keep = self.i
        self.i = start
        aside = self._aside_ahead()
        named = self.k[close - 1] == "MADE" and all(kind in _NAMING for kind in self.k[start + 1:close]) and self._follows(close) != "steps"
        found = aside or named or "HAVE" in self.k[start:close] or (self._follows(close) != "steps" and (self.count_in_brackets(start, close) is not None or "COUNT" in self.k[start:close] and not self._worked_after_count(start, close)))
        if not found and {"FORM", "NOT", "SKIPPED"}.intersection(self.k[start:close]) and self._follows(close) != "steps":
            self.i = start + 1
            found = self.counts_as() is not None  # "(the 3 skipped ch form the first dc)"
        self.i = keep
        return found
