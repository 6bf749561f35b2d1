"""Steps on the way out: each node of the instruction tree as the trade writes it today."""

from dataclasses import replace

from .spell_counts import in_brackets, note_words
from .spell_numbers import more_times, number, number_of_times, times
from .spell_places import Manner, counted, counts_words, extent_words, kind_word, place_words, target
from .spell_stitches import stitch_words
from .spell_unplaced import CLOSING, goes_on, must_be_told, said_before
from .tree import (
    Chain,
    Colour,
    Each,
    Either,
    Extent,
    FastenOff,
    Go,
    Group,
    Join,
    JoinYarn,
    Leave,
    Mark,
    NoJoin,
    Note,
    Place,
    Repeat,
    Ring,
    Skip,
    Stitch,
    Turn,
    Unread,
)

_BRACKETS = ("[]", "{}")


def steps_words(manner: Manner, steps: list, depth: int = 0, starred: bool = False) -> str:
    """Steps one after the other, set off by commas. depth: repeats in brackets around them; starred: inside a star repeat.

    At the top of a row what is fastened off, and what she said as a sentence of its own, stands as a sentence.
    """
    top = not depth and not starred
    told = must_be_told(steps, top)
    line = _Line()
    before = None
    for index, step in enumerate(steps):
        kind = type(step)
        if (kind is Stitch or kind is Group) and step.place is not None:
            for words in said_before(manner, step):
                line.add(words)
        if kind is Note:
            _remark(manner, line, step, top)
        elif kind is Stitch and step.place is None and index in told:
            line.add(stitch_words(manner, replace(step, n=1, place=Place(n=step.n))))
        elif kind is Stitch and type(before) is Stitch and goes_on(before, step):
            line.on(f"and {place_words(manner, step.place)}")
        elif kind is Repeat:
            line.add(_repeat(manner, step, depth, starred))
            if step.ending is not None and index + 1 < len(steps) and type(steps[index + 1]) not in CLOSING:
                line.stop()  # lest what follows is taken for part of the ending
        elif kind is Colour and not index and top and not step.late:
            line.add(f"with {step.name}")
        elif kind is FastenOff and top:
            line.stop()
            line.add("fasten off")
            line.stop()
        elif kind is Stitch and type(before) is Stitch and before.place is None and _one_in_each_of_several(step):
            line.add(stitch_words(manner, step, True))
        else:
            line.add(_SPELL[kind](manner, step))
        before = step
    return line.words


def _one_in_each_of_several(step: Stitch) -> bool:
    """Whether it is "dc in next 3 sts", which might be shared with a "sc, hdc" before it."""
    place = step.place
    return step.n == 1 and place is not None and place.which == "next" and type(place.n) is int and place.n > 1 and not step.over


class _Line:
    """Words put one after the other, with a comma between them or a full stop."""

    __slots__ = ("words", "stopped")

    def __init__(self):
        self.words, self.stopped = "", False

    def add(self, words: str) -> None:
        """Words after a comma, or as a new sentence where the last has ended."""
        if not self.words:
            self.words = words
        elif self.stopped:
            self.words += f". {large(words)}"
        else:
            self.words += f", {words}"
        self.stopped = False

    def on(self, words: str, pause: str = "") -> None:
        """Words that go on in the sentence, though it could have ended."""
        self.words += f"{pause} {words}" if self.words else words
        self.stopped = False

    def stop(self) -> None:
        """A sentence ends here."""
        self.stopped = bool(self.words)


def _remark(manner: Manner, line: _Line, note: Note, top: bool) -> None:
    """A remark as she placed it where it is read back so, else in brackets."""
    text, lead = manner.put(note.text), manner.as_placed.get(id(note))
    if lead is None:
        line.add(note_words(text))
    elif lead == "(":
        line.on(in_brackets(text))
    elif lead == "." and top:
        line.stop()
        line.add(text)
    else:
        line.on(text, "" if lead == " " else ",")
    if note.stop and top and lead is not None:
        line.stop()


def large(words: str) -> str:
    """Words as they begin a sentence."""
    return words[0].upper() + words[1:] if words[0].islower() else words


# ---------------------------------------------------------------- chains, skips and groups


def _chain(manner: Manner, step: Chain) -> str:
    words = f"ch {number(step.n)}"
    if step.role == "turning":
        words += " to turn"
    return words if step.says is None else f"{words} ({counts_words(manner, step.says)})"


def _skip(manner: Manner, step: Skip) -> str:
    words = f"{'miss' if manner.dialect.name == 'UK' else 'skip'} {target(manner, step.place)}"
    return words if step.says is None else f"{words} ({counts_words(manner, step.says)})"


def _group(manner: Manner, step: Group) -> str:
    hers = bool(step.name) and manner.own.is_group(step.name, step.steps)
    if hers:
        words = kind_word(manner, step.name)
    else:
        words = f"({steps_words(manner, step.steps, 1, True)})"
    if step.place is not None:
        words += f" {place_words(manner, step.place)}"
    if step.makes:
        words += f" (first {kind_word(manner, step.makes)} made)"
    elif step.name and not hers and step.name != "corner":
        words += f" ({kind_word(manner, step.name)} made)"
    return words


# ---------------------------------------------------------------- repeats

def _repeat(manner: Manner, step: Repeat, depth: int, starred: bool) -> str:
    plain = step.stop is None and not step.partial and step.ending is None
    if plain and step.times is not None and step.sense == "total":
        return f"{_bracketed(manner, step, depth, starred)} {times(step.times)}"
    if plain and step.times is None and step.extent is not None and (starred or depth):
        return f"{_bracketed(manner, step, depth, starred)} {extent_words(manner, step.extent)}"
    mark = "#" if _holds_star(step) else "*"
    return f"{mark}{_marked(manner, step, depth, mark)}; rep from {mark} {_how_often(manner, step, mark)}".rstrip()


def _bracketed(manner: Manner, step: Repeat, depth: int, starred: bool) -> str:
    opening, closing = _BRACKETS[depth % 2]
    return f"{opening}{steps_words(manner, step.steps, depth + 1, starred)}{closing}"


def _holds_star(step: Repeat) -> bool:
    """Whether a repeat inside must be written with a star, so that this one needs another mark."""
    for inner in step.steps:
        if type(inner) is Repeat and (_needs_star(inner) or _holds_star(inner)):
            return True
    return False


def _needs_star(step: Repeat) -> bool:
    if step.stop is not None or step.partial or step.ending is not None:
        return True
    return step.sense != "total" if step.times is not None else step.extent is None


def _marked(manner: Manner, step: Repeat, depth: int, mark: str) -> str:
    """The steps of a star repeat, with ** (## in a # repeat) where the last pass stops."""
    if step.stop is None:
        return steps_words(manner, step.steps, depth, True)
    first = steps_words(manner, step.steps[:step.stop], depth, True)
    rest = steps_words(manner, step.steps[step.stop:], depth, True)
    return f"{first}{mark * 2}, {rest}" if rest else f"{first}{mark * 2}"


def _how_often(manner: Manner, step: Repeat, mark: str) -> str:
    if step.times is not None:
        if step.sense == "more":
            words = more_times(step.times)
        elif step.sense == "total":
            words = f"for a total of {number_of_times(step.times)}"
        else:
            words = times(step.times)
    elif step.extent is not None:
        words = extent_words(manner, step.extent)
    else:
        words = ""
    if step.ending is not None:
        words += f", ending with {steps_words(manner, step.ending, 1, True)}"
    if step.partial == "last":
        words += f", ending last rep at {mark * 2}"
    elif step.partial == "again":
        words += f", then from {mark} to {mark * 2} once more"
    return words.lstrip(", ")


# ---------------------------------------------------------------- the rest

def _join(manner: Manner, step: Join) -> str:
    words = f"join with {kind_word(manner, step.kind)}"
    return words if step.place is None else f"{words} {place_words(manner, step.place)}"


def _join_yarn(manner: Manner, step: JoinYarn) -> str:
    words = f"join {step.colour or 'yarn'}"
    if step.standing:
        words += f" with standing {kind_word(manner, step.standing)}"
    if step.place is None:
        return words
    where = place_words(manner, step.place)
    if step.place.which == "free loops":  # nothing has been worked into them yet: there is no next one
        manner.free_loop = True
        where = where.replace("next", "any" if manner.in_round else "first", 1)
    return f"{words} {where}"


def _mark(manner: Manner, step: Mark) -> str:
    if step.place is None:
        return f"{step.act} marker"
    return f"{step.act} marker {place_words(manner, step.place, preposition='to' if step.act == 'move' else 'in')}"


def _leave(manner: Manner, step: Leave) -> str:
    if step.n is None:
        return "leave rem sts unworked"
    return f"leave next {counted(manner, step.n, 'st')} unworked"


def _each(manner: Manner, step: Each) -> str:
    """ "sc in each st, 2 sc in each ch-1 sp and (sc, ch 2, sc) in each corner sp around". """
    parts = [_SPELL[type(part)](manner, replace(part, place=replace(part.place, n=None, extent=Extent("open")))) for part in step.parts]
    if step.parts[0].place.of == "st+sp" and len(parts) > 1:
        return f"{parts[0]} {extent_words(manner, step.extent)}, working {' and '.join(parts[1:])}"
    words = parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
    return f"{words} {extent_words(manner, step.extent)}"


def _go(manner: Manner, step: Go) -> str:
    return "continue in patt" if step.extent is None else f"continue in patt {extent_words(manner, step.extent)}"


def _either(manner: Manner, step: Either) -> str:
    """The likeliest reading: what is written out has one meaning."""
    reading = step.readings[0]
    return steps_words(manner, reading if isinstance(reading, list) else [reading], 1, True)


def _ring(manner: Manner, step: Ring) -> str:
    return "make a magic ring" if step.kind == "magic" else f"join with {kind_word(manner, 'slst')} to form a ring"


_SPELL = {
    Stitch: stitch_words,
    Chain: _chain,
    Skip: _skip,
    Group: _group,
    Repeat: lambda manner, step: _repeat(manner, step, 1, True),
    Each: _each,
    Either: _either,
    Turn: lambda manner, step: "turn",
    Join: _join,
    NoJoin: lambda manner, step: "do not turn" if step.turn else "do not join",
    Ring: _ring,
    Colour: lambda manner, step: f"changing to {step.name} in last st" if step.late else f"change to {step.name}",
    JoinYarn: _join_yarn,
    FastenOff: lambda manner, step: "fasten off",
    Mark: _mark,
    Leave: _leave,
    Go: _go,
    Unread: lambda manner, step: step.text,
}
