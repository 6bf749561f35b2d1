"""A hook size is named in the instructions that the head does not list.

With it::

    ---
    hook: 5 mm
    ---
    With 4 mm hook, ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

Without it::

    ---
    hook: [5 mm, 4 mm]
    ---
    With 4 mm hook, ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

Working::

    listed: 5 mm; used: 4 mm

What to do: list every hook that is used, or mend the size.
"""

import re

from hookwright.ground import LOOK, Finding, Span, Suggestion, listing

from ..case import Case
from ..materials import instruction_text, instructions

KIND = "hook-not-listed"
_HOOK = re.compile(r"(\d{1,2}(?:[.,]\d{1,2})?) ?mm[^.;\n]{0,14}?\bhook|\bhook[^.;\n\d]{0,14}(\d{1,2}(?:[.,]\d{1,2})?) ?mm\b", re.IGNORECASE)


def find(case: Case):
    hooks = [hook.mm for hook in case.from_head("hook") or () if hook.mm]
    if not hooks or "mm" not in instruction_text(case):
        return
    hooks += [gauge.hook.mm for gauge in case.from_head("gauge") or () if gauge.hook is not None and gauge.hook.mm]
    told = set()
    for text, span, _ in instructions(case):
        if "mm" not in text:
            continue
        for found in _HOOK.finditer(text):
            size = float((found[1] or found[2]).replace(",", "."))
            if size in told or any(abs(size - hook) < 0.01 for hook in hooks):
                continue
            told.add(size)
            yield Finding(
                KIND,
                LOOK,
                f"a {_size(size)} mm hook is used, and the head lists {listing([_size(hook) + ' mm' for hook in hooks])}",
                Span(span.start + found.start(), span.start + found.end()),
                expected=hooks,
                found=size,
                whose="the head",
                suggestions=(Suggestion(f"add {_size(size)} mm to the hooks, or name one of those listed", "your choice"),),
            )


def _size(value: float) -> str:
    """A hook size, with up to two places."""
    return f"{value:.2f}".rstrip("0").rstrip(".")
