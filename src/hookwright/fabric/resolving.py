"""The pattern with one reading everywhere: the one that was worked. It is what gets written out."""

from copy import copy

from hookwright.notation.tree import Either, Group, Repeat


def resolved(pattern, work):
    """A Pattern in which every Either is the reading taken and every repeat says plainly how often; the same where nothing is unclear."""
    taken = work.choices
    out = copy(pattern)
    out.pieces = []
    for piece in pattern.pieces:
        other = copy(piece)
        other.items = [_row(item, taken.get(id(item), {}), work) if hasattr(item, "steps") else item for item in piece.items]
        out.pieces.append(other)
    return out


def _row(row, choices, work):
    steps = _steps(row.steps, choices, work)
    if steps is row.steps:
        return row
    made = copy(row)
    made.steps = steps
    return made


def _steps(steps, choices, work):
    out, changed = [], False
    for step in steps:
        if type(step) is Either:
            changed = True
            if step.readings:
                reading = step.readings[min(choices.get((id(step), "either"), 0), len(step.readings) - 1)]
                out.extend(_steps(reading if isinstance(reading, list) else [reading], choices, work))
            continue
        if type(step) in (Repeat, Group):
            inner = _steps(step.steps, choices, work)
            ending = _steps(step.ending, choices, work) if type(step) is Repeat and step.ending else None
            unclear = type(step) is Repeat and step.sense == "unclear"
            if inner is not step.steps or unclear or ending is not None and ending is not step.ending:
                step, before = copy(step), step
                step.steps = inner
                if type(step) is Repeat:
                    step.ending = ending
                    if unclear:
                        more = work.settings.repeat_sense != "total"
                        step.sense = "more" if more != bool(choices.get((id(before), "times"), 0)) else "total"
                changed = True
        out.append(step)
    return out if changed else steps
