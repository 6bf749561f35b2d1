"""A colour is listed and never used.

With it::

    ---
    yarn: {name: sock wool, colours: {MC: grey, CC: lemon}}
    ---
    Rnd 1: With MC, 6 sc in magic ring. (6)
    Rnd 2: Inc x 6. (12)

Without it::

    ---
    yarn: {name: sock wool, colours: {MC: grey, CC: lemon}}
    ---
    Rnd 1: With MC, 6 sc in magic ring, change to CC. (6)
    Rnd 2: Inc x 6. (12)

Working::

    listed: MC, CC; used: MC

What to do: say where it is used, or take it out of the list, so that nobody buys it for nothing.
"""

import re

from hookwright.ground import NOTE, Finding, Suggestion

from ..case import Case
from ..materials import colours_listed, instruction_text

KIND = "colour-not-used"


def find(case: Case):
    known = colours_listed(case)
    if len(known) < 2:
        return
    text = instruction_text(case)
    for key, value in known.items():
        flags = 0 if len(key) == 1 else re.IGNORECASE
        if (
            re.search(r"(?<!\w)(?:" + re.escape(key) + r")(?!\w)", text, flags)
            or value
            and re.search(r"(?<!\w)" + re.escape(value) + r"(?!\w)", text, re.IGNORECASE)
        ):
            continue
        yield Finding(
            KIND,
            NOTE,
            f"colour {key}{f' ({value})' if value else ''} is listed and no row uses it",
            _place(case),
            found=key,
            whose="the head",
            suggestions=(Suggestion("say where it is used, or take it out of the list", "your choice"),),
        )


def _place(case: Case):
    """The list of colours in the head, or the yarns where that is not known."""
    span = case.span_in_head("yarn.0.colours")
    return span if span.end else case.span_in_head("yarn")
