"""A row whose stitches all go into the same loop says so once."""

from dataclasses import replace

from .spell_places import Manner
from .spell_steps import large, steps_words
from .tree import Chain, Colour, Each, Either, Group, Mark, Note, Repeat, Skip, Stitch, Turn


def row_words(manner: Manner, steps: list) -> str:
    """The steps of a whole row. A loop that all its stitches go into is said once: "working in back loops only, ..."."""
    if any(getattr(getattr(step, "place", None), "which", "") == "from hook" for step in steps):
        manner.chain = "foundation ch"
    manner.flat_corners = any(getattr(getattr(one, "place", None), "which", "") in ("row ends", "edge") for step in steps for one in (step.parts if type(step) is Each else (step,)))
    loop = _loop_of_all(steps)
    if not loop or sum(type(step) in (Stitch, Group, Repeat) for step in steps) < 2:
        return steps_words(manner, steps)
    first = next(index for index, step in enumerate(steps) if type(step) not in (Chain, Turn, Colour, Note, Mark, Skip))
    before = steps_words(manner, steps[:first])
    words = f"working in {_LOOPS_ONLY[loop]}, {steps_words(manner, _without_loops(steps[first:]))}"
    if not before:
        return words
    last = steps[first - 1]
    ended = type(last) is Note and last.stop and id(last) in manner.as_placed
    return f"{before}. {large(words)}" if ended else f"{before}, {words}"


_LOOPS_ONLY = {"back": "back loops only", "front": "front loops only", "third": "3rd loops only", "bump": "back bumps only"}


def _loop_of_all(steps: list) -> str:
    """The loop that every stitch of the row goes into, slip stitches apart; "" where they differ."""
    seen: list[str] = []
    for step in steps:
        kind = type(step)
        if kind is Stitch:
            if step.kind != "slst":
                seen.append(step.loop or (step.place.loop if step.place is not None else ""))
        elif kind is Repeat or kind is Group:
            if kind is Repeat and step.ending:
                return ""
            seen.append(_loop_of_all(step.steps))
        elif kind is Either:
            return ""
        if seen and not seen[-1]:
            return ""
    return seen[0] if seen and seen[0] in _LOOPS_ONLY and len(set(seen)) == 1 else ""


def _without_loops(steps: list) -> list:
    out = []
    for step in steps:
        kind = type(step)
        if kind is Stitch:
            step = replace(step, loop="", place=replace(step.place, loop="") if step.place is not None and step.place.loop else step.place)
        elif kind is Repeat or kind is Group:
            step = replace(step, steps=_without_loops(step.steps))
        out.append(step)
    return out
