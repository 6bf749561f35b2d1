"""Rows worked again with a change: "as Row 3 but work 2 dc in last st", "having 1 more sc between incs on each round"."""

import re
from dataclasses import replace

from hookwright.ground import PerSize
from hookwright.notation.tree import Chain, Each, Either, Extent, Go, Group, Note, Repeat, Row, Stitch, Turn

from .changing_groups import repeats_changed

_NUMBERS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10}
_BETWEEN = re.compile(r"\b(\d+|one|two|three|four|five|six|seven|eight|nine|ten)\s+(?:sts?|stitch(?:es)?|[sdh]d?c|h?tr)\s+between\b", re.I)
_HOW_MANY = r"\b(?:(\d+|two|three|four)\s+)?(?:(?:sts?|stitch\w*|[sdh]d?c|h?tr)\s+)?"
MORE = re.compile(_HOW_MANY + r"(?:more|extra|further|additional)\b", re.I)
_GROWING = re.compile(r"\b(?:between|before)\s+(?:each\s+|every\s+|the\s+|these\s+)*(?:inc|dec|[sdh]d?c2tog|h?tr2tog)", re.I)
_MORE_BETWEEN = re.compile(r"\bincreas\w+\s+(?:the\s+)?(?:number\s+of\s+)?(?:sts?|stitches|[sdh]d?c|h?tr)\s+between\b[^.;]*?\bby\s+(\d+|one|two|three)\b", re.I)
_FEWER_BETWEEN = re.compile(_MORE_BETWEEN.pattern.replace("increas", "(?:decreas|reduc)", 1), re.I)
_ADDING = re.compile(r"\badding\s+(?:an?\s+)?(\d+|one|two|three)?\b", re.I)
LESS = re.compile(_HOW_MANY + r"(?:less|fewer)\b", re.I)


def changed_steps(steps, changes):
    """The steps with those of `changes` in the places they name: the first, the last, or the chains."""
    if changes and isinstance(changes[0], Go) and changes[0].extent is not None:
        return _as_far(steps, changes[0].extent) + list(changes[1:])
    out = list(steps)
    if changes and isinstance(changes[0], Repeat) and changes[0].times is None and changes[0].extent is not None:
        return _all_along(out, changes)
    for change in changes:
        if isinstance(change, Chain):
            out = _with_chains(out, change)
        elif isinstance(change, Group) and change.place is not None and change.place.of == "corner" and all(isinstance(one, Chain) for one in change.steps):
            out = [_cornered(step, change.steps[0].n) for step in out]
        elif isinstance(change, (Stitch, Group)) and change.place is not None and change.place.which in ("first", "last"):
            out = _with_end(out, change)
        elif isinstance(change, Repeat) and isinstance(change.times, int):
            out = repeats_changed(out, change)
        elif isinstance(change, Stitch) and _stretch(change) is not None:
            out = _restretched(out, change)
    return out


def _stretch(step):
    """How many of one stitch a plain step works, one in each; None for any other step."""
    if not isinstance(step, Stitch) or step.kind in ("inc", "dec", "slst") or "tog" in step.kind:
        return None
    if step.place is None:
        return step.n if isinstance(step.n, int) else None
    plain = step.n == 1 and step.place.which == "next" and step.place.of in ("st", step.kind) and isinstance(step.place.n, int)
    return step.place.n if plain else None


def _restretched(steps, change):
    """ "As Round 4 but sc in next 6": the one plain stretch of that stitch in the repeats; the steps as they are where there are more."""
    found = [one for step in steps if isinstance(step, Repeat) for one in step.steps if _stretch(one) is not None and one.kind == change.kind]
    if len(found) != 1:
        return steps
    return [replace(step, steps=[change if one is found[0] else one for one in step.steps]) if isinstance(step, Repeat) else step for step in steps]


def _as_far(steps, extent):
    """The steps up to where `extent` ends: the last step that goes to the end of the row goes only so far, and what came after it is left out."""
    for at in range(len(steps) - 1, -1, -1):
        step = steps[at]
        place = getattr(step, "place", None)
        if isinstance(step, Repeat) and step.times is None and step.extent is not None:
            return [*steps[:at], replace(step, extent=extent, ending=None, partial="")]
        if isinstance(step, (Stitch, Group)) and place is not None and place.extent is not None:
            return [*steps[:at], replace(step, place=replace(place, extent=extent))]
    return list(steps)


def _all_along(steps, changes):
    """ "As Row 3, but 2 sc in every 7th st": what goes along the whole row stands for the plain stitches of it; the steps as they are where they are more than those."""
    worked = [at for at, step in enumerate(steps) if isinstance(step, (Stitch, Group, Repeat, Each)) and getattr(step, "kind", "") != "slst"]
    plain = steps[worked[0]] if len(worked) == 1 else None
    if not isinstance(plain, Stitch) or plain.n != 1 or plain.place is None or plain.place.extent is None or plain.place.extent.kind not in ("end", "open"):
        return steps
    return [*steps[:worked[0]], *(change for change in changes if not isinstance(change, Note)), *steps[worked[0] + 1:]]


def _with_chains(steps, change):
    """Chain spaces of the repeats made as long as said, and those like them beside the repeats ("..., ch 6, join")."""
    out, old = [], {one.n for step in steps if isinstance(step, Repeat) for one in step.steps if isinstance(one, Chain)}
    for at, step in enumerate(steps):
        if isinstance(step, Chain) and step.n in old and step.says is None and any(isinstance(one, (Stitch, Group, Repeat)) and getattr(one, "kind", "") != "slst" for one in steps[:at]):
            out.append(replace(step, n=change.n))
        elif isinstance(step, Repeat):
            out.append(replace(step, steps=[replace(one, n=change.n) if isinstance(one, Chain) else one for one in step.steps]))
        else:
            out.append(step)
    return out


def _cornered(step, chains):
    """The step with the chains of its corners as many as said."""
    if isinstance(step, Group) and step.place is not None and (step.place.of == "corner" or any(isinstance(one, Chain) for one in step.steps)):
        return replace(step, steps=[replace(one, n=chains) if isinstance(one, Chain) else one for one in step.steps])
    if isinstance(step, Repeat):
        return replace(step, steps=[_cornered(one, chains) for one in step.steps])
    if isinstance(step, Each):
        return replace(step, parts=[_cornered(one, chains) for one in step.parts])
    if isinstance(step, Either):
        return replace(step, readings=[[_cornered(one, chains) for one in reading] for reading in step.readings])
    return step


def _with_end(steps, change):
    which = change.place.which
    at = next((i for i, step in enumerate(steps) if getattr(getattr(step, "place", None), "which", "") == which), None)
    if at is not None:
        return [*steps[:at], change, *steps[at + 1:]]
    working = [i for i, step in enumerate(steps) if isinstance(step, (Stitch, Group, Repeat))]
    if not working:
        return [*steps, change]
    at = working[0] if which == "first" else working[-1] + 1
    return [*steps[:at], change, *steps[at:]]


def blocks_grown(steps):
    """Corner to corner grows by itself: a block begun on a chain of its own, then one in each block of the row below; None for other rows."""
    real = [step for step in steps if isinstance(step, (Chain, Stitch, Group, Repeat))]
    if len(real) < 3 or not isinstance(real[0], Chain) or not isinstance(real[1], Stitch) or real[1].place is None or real[1].place.which != "from hook":
        return None
    at = next((i for i, step in enumerate(steps) if isinstance(step, Repeat) and step.times is not None), None)
    if at is None:  # the second row has one block beside the one it begins with
        on = [i for i, step in enumerate(steps) if isinstance(step, (Chain, Stitch, Group, Repeat, Turn))]
        slips = next((i for i in on if getattr(steps[i], "kind", "") == "slst" and getattr(steps[i].place, "of", "") in ("sp", "group")), None)
        rest = steps[slips:] if slips is not None else []
        if len(rest) < 3 or not isinstance(rest[1], Chain) or not isinstance(rest[2], (Stitch, Group)) or any(not isinstance(step, (Turn, Note)) for step in rest[3:]):
            return None
        return [*steps[:slips], Repeat(rest[:3], extent=Extent()), *rest[3:]]
    return [*steps[:at], replace(steps[at], times=None, sense="total", extent=Extent()), *steps[at + 1:]]


def growth_in_words(row: Row) -> int:
    """How many stitches more (or, below zero, fewer) each plain stretch has from row to row; 0 where nothing says so."""
    return _growth(" ".join(note.text for note in row.notes if isinstance(note, Note)) or row.text)


def _growth(words: str) -> int:
    for pattern, sign in ((_FEWER_BETWEEN, -1), (_MORE_BETWEEN, 1), (LESS, -1), (MORE, 1), (_ADDING, 1)):
        found = pattern.search(words)
        if found:
            number = (found[1] or "1").lower()
            return sign * (_NUMBERS.get(number) or int(number))
    return 0


def own_growth(row: Row) -> int:
    """As growth_in_words, for a row of a range that says of itself "working 1 more sc between increases on each rnd"; 0 where it does not."""
    last = row.steps[-1] if row.steps else None
    return _growth(last.text) if isinstance(last, Note) and _GROWING.search(last.text) else 0


def between_in_words(row: Row) -> int:
    """The number of "with 3 sts between incs": how long each plain stretch is; 0 where nothing says so."""
    words = " ".join(note.text for note in row.notes if isinstance(note, Note)) or row.text
    found = _BETWEEN.search(words)
    return (_NUMBERS.get(found[1].lower()) or int(found[1])) if found else 0


def stretched_steps(steps, number: int):
    """The steps with the one plain stretch inside their repeats so many stitches long; None where there is no one such stretch."""
    found = [one for step in steps if isinstance(step, Repeat) for one in step.steps if _stretch(one) is not None]
    if len(found) != 1:
        return None
    grown = found[0]
    made = replace(grown, n=number) if grown.place is None else replace(grown, place=replace(grown.place, n=number))
    return [replace(step, steps=[made if one is grown else one for one in step.steps]) if isinstance(step, Repeat) else step for step in steps]


def shaped_again(steps, times: int):
    """ "Continue increasing in this manner" after "*sc in next 2 sts, inc; rep from * around": the stretch of every pass one longer each time, or one
    shorter where it decreases; None for rows that are shaped otherwise."""
    repeats = [step for step in steps if isinstance(step, Repeat)]
    if len(repeats) != 1 or any(isinstance(step, (Stitch, Group, Each, Either)) and getattr(step, "kind", "") != "slst" for step in steps):
        return None
    inner = [step for step in repeats[0].steps if not isinstance(step, Note)]
    plain = [step for step in inner if _stretch(step) is not None]
    shaping = [step for step in inner if _stretch(step) is None]
    if len(plain) != 1 or len(shaping) != 1 or not isinstance(shaping[0], Stitch):
        return None
    kind, place = shaping[0].kind, shaping[0].place
    if kind == "inc" or shaping[0].n == 2 and place is not None and place.n == 1 and place.extent is None and place.of in ("st", plain[0].kind):
        return grown_steps(steps, times)
    if kind not in ("dec", "invdec") and not kind.endswith("2tog"):
        return None
    if _stretch(plain[0]) == times:
        return [replace(step, steps=shaping) if step is repeats[0] else step for step in steps]
    return grown_steps(steps, -times)


def grown_steps(steps, by: int):
    """The steps with every plain stretch inside their repeats `by` stitches longer; None where none would be left or there is none."""
    changed = False
    out = []
    for step in steps:
        if isinstance(step, Repeat):
            inner = []
            for one in step.steps:
                made = _longer(one, by)
                if made is None:
                    return None
                changed = changed or made is not one
                inner.append(made)
            out.append(replace(step, steps=inner))
        else:
            out.append(step)
    return out if changed else None


def _longer(step, by: int):
    """A plain run of stitches made longer; other steps as they are; None where nothing of it would be left."""
    if not isinstance(step, Stitch) or step.kind in ("inc", "dec") or "tog" in step.kind:
        return step
    place = step.place
    if place is None:
        return _with_number(step, "n", step.n, by)
    if place.which != "next" or place.extent is not None or place.of in ("sp", "corner", "group") or step.n != 1:
        return step
    made = _with_number(place, "n", place.n, by)
    return None if made is None else step if made is place else replace(step, place=made)


def _with_number(node, field, number, by):
    """The node with its number, or its number for each size, changed by so much; None where none would be left."""
    if isinstance(number, PerSize):
        numbers = [None if value is None else value + by for value in number]
        if all(value is None or value < 1 for value in numbers):
            return None
        return replace(node, **{field: PerSize(None if value is None else max(1, value) for value in numbers)})  # a size that ends sooner works none of it
    if not isinstance(number, int):
        return node
    return replace(node, **{field: number + by}) if number + by > 0 else None
