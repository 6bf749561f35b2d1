"""Rows worked again with more groups than before: "as Round 4, with one more group along each side"; and changes that are not understood."""

import re
from dataclasses import dataclass, replace

from hookwright.notation.tree import Chain, Each, FastenOff, Group, Join, Note, Repeat, Row, Stitch, Turn, Unread

from .reaching import made_so_far

_NUMBERS = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8}
_NUMBER = r"(?P<n>\d{1,2}|an?|one|two|three|four|five|six|seven|eight)"
_GROUP = r"(?:\d?-?\s?[a-z-]{2,8}\s+){0,2}?(?:groups?|clusters?|shells?|sets?|v-?sts?|repeats?|blocks?)\b"
_MORE = re.compile(rf"\b(?:{_NUMBER}\s+)?(?:more|extra|additional|further)\s+{_GROUP}", re.I)
_ADDING = re.compile(rf"\b(?:increasing|increase|adding)\s+(?:by\s+)?{_NUMBER}\s+{_GROUP}", re.I)
_BETWEEN = re.compile(rf"\b{_NUMBER}\s+{_GROUP}\s+(?:between|in\s+between)\b", re.I)
_CHANGES = re.compile(r"\b(?:more|extra|additional|further|less|fewer|increas\w*|decreas\w*|instead|revers\w*)\b", re.I)
_AFTERWARDS = (Join, Turn, FastenOff, Note)


@dataclass(slots=True)
class LostChange(Unread):
    """A change of a reference that is not understood: harmless where the row comes to its stated count without it."""


def words_of(row: Row) -> str:
    """What the reference says of the change."""
    return " ".join(note.text for note in row.notes if isinstance(note, Note)) or row.text


def groups_in_words(row: Row) -> tuple[int, int]:
    """(so many groups more each time, so many between the corners), 0 where nothing says so."""
    words = words_of(row)
    found = _MORE.search(words) or _ADDING.search(words)
    if found:
        return _number(found["n"] or "one"), 0
    found = _BETWEEN.search(words)
    return 0, _number(found["n"]) if found else 0


def _number(word: str) -> int:
    return _NUMBERS.get(word.lower()) or int(word)


def groups_grown(steps, more: int, between: int):
    """The steps with the repeats that make the groups of each side worked `more` times more, or `between` times; None where there are none."""
    changed = False
    out = []
    for step in steps:
        if isinstance(step, Repeat):
            if _makes_groups(step):
                step = replace(step, times=between or step.times + more, sense=step.sense if not between else "total")
                changed = True
            else:
                inner = groups_grown(step.steps, more, between)
                if inner is not None:
                    step, changed = replace(step, steps=inner), True
        out.append(step)
    return out if changed else None if between else _sides_grown(steps, more)


def _sides_grown(steps, more: int):
    """The steps with one group between the corners worked `more` times more on each side; None where the sides have not just one."""
    sides = next((step for step in steps if isinstance(step, Repeat) and any(_in_corner(one) for one in step.steps)), None)
    alone = [one for one in sides.steps if _beside(one)] if sides is not None else []
    if len(alone) != 1:
        return None
    at = sides.steps.index(alone[0])
    body = sides.steps[at - 1:at + 1] if at and isinstance(sides.steps[at - 1], Chain) else [alone[0]]
    out, begun = [], False
    for index, step in enumerate(steps):
        if step is sides:
            first = at + 1 - len(body)
            out.append(replace(step, steps=[*step.steps[:first], Repeat(body, times=1 + more, sense="total", span=alone[0].span), *step.steps[at + 1:]]))
        elif _beside(step) and step.place.which == "last":  # "ch 1, 3 dc in last ch-1 sp, ch 1": those before it in the next ones
            out.extend((Repeat([alone[0], *body[:-1]], times=more, sense="total", span=step.span), step))
        elif _beside(step):
            out.extend((step, Repeat(body, times=more, sense="total", span=step.span)))
        elif isinstance(step, (Stitch, Group)) and not _in_corner(step) and step.place is not None and step.place.which == "same" and all(_quiet(one) for one in steps[:index]):
            begun = not any(isinstance(one, Chain) for one in getattr(step, "steps", ())[1:])  # with a chain within it is a corner
            out.append(step)
        else:
            out.append(step)
    if begun:  # a round that begins in the last space of a side comes to the others of it at the end
        at = 1 + max(index for index, step in enumerate(out) if isinstance(step, Repeat) or _in_corner(step))
        out[at:at] = [Repeat(body, times=more, sense="total", span=alone[0].span)]
    return out


def _before_end(steps) -> int:
    """Where the steps that close the row begin."""
    at = len(steps)
    while at and isinstance(steps[at - 1], _AFTERWARDS):
        at -= 1
    return at


def _quiet(step) -> bool:
    return not isinstance(step, (Stitch, Group, Repeat))


def _in_corner(step) -> bool:
    """Whether a group goes into a corner: called so, or made of the same on both sides of a chain."""
    if not isinstance(step, Group) or step.place is None:
        return False
    if step.place.of == "corner":
        return True
    made = [(one.kind, one.n) if isinstance(one, Stitch) else one.n if isinstance(one, Chain) else None for one in step.steps]
    return step.place.of == "sp" and step.place.which == "next" and step.place.n == 1 and len(made) == 3 and isinstance(step.steps[1], Chain) and made == made[::-1]


def _beside(step) -> bool:
    """Whether a step makes one group in the next (or the last) space of a side."""
    return isinstance(step, (Stitch, Group)) and not _in_corner(step) and step.place is not None and step.place.of in ("sp", "gap") and step.place.which in ("next", "last") and step.place.n == 1


def _makes_groups(step: Repeat) -> bool:
    """Whether a repeat makes one group a pass, in the spaces between the corners."""
    if not isinstance(step.times, int) or not all(isinstance(one, (Stitch, Group, Chain)) for one in step.steps):
        return False
    places = [one.place for one in step.steps if isinstance(one, (Stitch, Group))]
    return len(places) == 1 and places[0] is not None and places[0].of in ("sp", "gap", "group") and places[0].which == "next"


def repeats_changed(steps, change: Repeat):
    """ "working [ch 1, 3 tr in next ch-1 sp] 3 times": the repeats of the same steps worked so often; the steps themselves where there are none."""
    out = []
    for step in steps:
        if isinstance(step, Repeat):
            same = isinstance(step.times, int) and step.steps == change.steps
            step = replace(step, times=change.times, sense=change.sense) if same else replace(step, steps=repeats_changed(step.steps, change))
        out.append(step)
    return out


def with_lost(steps, row: Row):
    """The steps with the words of a change that nothing was made of; None where they may well be right as they are."""
    words = words_of(row)
    if not _CHANGES.search(words) or _fits_itself(steps):
        return None
    at = _before_end(steps)
    span = next((note.span for note in row.notes if isinstance(note, Note)), row.span)
    return [*steps[:at], LostChange(words, span=span), *steps[at:]]


def _fits_itself(steps) -> bool:
    """Whether some step goes as far as the row below has places: the row then grows with it."""
    for step in steps:
        place = getattr(step, "place", None)
        if isinstance(step, Each) or place is not None and place.extent is not None:
            return True
        if isinstance(step, Repeat) and (step.times is None or _fits_itself(step.steps)):
            return True
    return False


def work_lost(hand, step, steps, index, after):
    """A change that is not understood stops the row, unless the count that it states is there all the same."""
    if made_so_far(hand) != hand.memory.get("stated"):
        hand.stuck("unread", words=step.text)
