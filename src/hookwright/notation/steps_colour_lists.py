"""Stitches told by their colours alone: "*4 red, 2 white; rep from * around, all in sc", "Sc [3 A, 3 B] 12 times"."""

from .tree import Colour, Note, Stitch

_ENDS = frozenset((",", ";", ".", ":", ")", "]", "}", "END", "MARK", "AND", "TURN", "REP", "SHADE", "DASH", "NUM", "(", "["))


class ColourListReading:
    """Reads lists of colours with the number of stitches in each."""

    colour_kind = None  # the stitch that the whole row is worked in, None where colours stand beside their stitches

    def told_in_colours(self) -> None:
        """Finds whether the row is told so: numbers that stand before a colour and no stitch, and one stitch named for all of them."""
        k = self.k
        if "SHADE" not in k and "W" not in k:
            return
        told = [k[at - 1] for at in range(len(k) - 2) if k[at] == "NUM" and self._colour_alone(at + 1)]
        if not told or len(told) > 1 and all(before == "ST" for before in told):
            return  # "sc 5 red, sc 3 white": each has its stitch
        kinds = {self.v[at] for at in range(len(k)) if k[at] == "ST" and self.v[at] not in ("slst", "inc", "dec")}
        if len(kinds) == 1 and isinstance(kind := kinds.pop(), str):
            self.colour_kind = kind
        elif not kinds and any(k[at] == "NUM" and k[at + 1] == "STN" and self._colour_alone(at + 1) for at in range(len(k) - 2)):
            self.colour_kind = "sc"  # "12 stitches with blue, 6 decreases with white"

    def _colour_alone(self, at: int) -> bool:
        """Whether a colour stands at `at` with nothing after it that is worked in it; "with A" counts as well."""
        k = self.k
        at += k[at] == "STN"
        at += k[at] in ("WITH", "IN")
        at += k[at] == "COLOUR"
        return (k[at] == "SHADE" or k[at] == "W" and self._is_colour_word(at)) and k[at + 1] in _ENDS

    def stitches_in_colour(self, frame, number, start: int) -> bool:
        """ "4 red": so many of the row's stitch in that colour."""
        at = start + 1
        if self.colour_kind is None:
            return False
        if self.k[at] == "STN" and self.k[at + 1] == "TOEND":  # "13 stitches to the end"
            self.i = at + 2
            return self.put(frame, Stitch(self.colour_kind, number, span=self.span(start)))
        if not self._colour_alone(at):
            return False
        at += self.k[at] == "STN"
        at += self.k[at] in ("WITH", "IN")
        at += self.k[at] == "COLOUR"
        self.i = at + 1
        frame.steps.append(Colour(self._colour_name(at, at + 1), span=self.span(at)))
        return self.put(frame, Stitch(self.colour_kind, number, span=self.span(start)))

    def names_the_stitch(self, frame, start: int) -> bool:
        """ "(all) in sc", "Sc" before a list of colours: says what they are worked in, and nothing is worked by it."""
        k, at = self.k, start
        while k[at] in ("WITH", "IN", "ALL", "WORKING"):
            at += 1
        if self.colour_kind is None or k[at] != "ST":
            return False
        at += 1
        follows = k[at] in ("(", "[", "MARK", ":") or k[at] == "NUM" and self._colour_alone(at + 1)
        if not follows and not (at > start + 1 and k[at] in (".", ",", ";", "END", ")", "]")):
            return False
        self.i = at
        frame.steps.append(Note(self.text[self.s[start]:self.e[at - 1]], self.span(start)))
        return True
