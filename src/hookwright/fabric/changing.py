"""Rows worked again with a change: "as Row 3 but work 2 dc in last st", "having 1 more sc between incs on each round"."""

import re
from dataclasses import replace

from hookwright.notation.tree import Chain, Group, Note, Repeat, Row, Stitch

MORE = re.compile(r"\b(?:(\d+)\s+)?(?:more|extra|further)\b", re.I)
LESS = re.compile(r"\b(?:(\d+)\s+)?(?:st(?:itch)?\w*\s+)?(?:less|fewer)\b", re.I)


def changed_steps(steps, changes):
    """The steps with those of `changes` in the places they name: the first, the last, or the chains."""
    out = list(steps)
    for change in changes:
        if isinstance(change, Chain):
            out = _with_chains(out, change)
        elif isinstance(change, (Stitch, Group)) and change.place is not None and change.place.which in ("first", "last"):
            out = _with_end(out, change)
    return out


def _with_chains(steps, change):
    """Chain spaces of the repeats made as long as said."""
    out = []
    for step in steps:
        if isinstance(step, Repeat):
            out.append(replace(step, steps=[replace(one, n=change.n) if isinstance(one, Chain) else one for one in step.steps]))
        else:
            out.append(step)
    return out


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


def growth_in_words(row: Row) -> int:
    """How many stitches more (or, below zero, fewer) each plain stretch has from row to row; 0 where nothing says so."""
    words = " ".join(note.text for note in row.notes if isinstance(note, Note)) or row.text
    for pattern, sign in ((LESS, -1), (MORE, 1)):
        found = pattern.search(words)
        if found:
            return sign * int(found[1] or 1)
    return 0


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
        if not isinstance(step.n, int):
            return step
        return replace(step, n=step.n + by) if step.n + by > 0 else None
    if place.which != "next" or place.extent is not None or place.of in ("sp", "corner", "group") or not isinstance(place.n, int) or step.n != 1:
        return step
    return replace(step, place=replace(place, n=place.n + by)) if place.n + by > 0 else None

