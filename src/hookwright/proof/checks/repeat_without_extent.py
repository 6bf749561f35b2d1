"""A repeat from a star does not say how far it goes.

"Rep from *" with nothing after it is mostly read as "across" or "around", and it was worked so. A maker may ask all the same.

With it::

    Ch 13.
    Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
    Row 2: Ch 1, turn, *sc in next 2 sts, 2 sc in next st; rep from *. (16 sc)

Without it::

    Ch 13.
    Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
    Row 2: Ch 1, turn, *sc in next 2 sts, 2 sc in next st; rep from * across. (16 sc)

Working::

    12 = 4 x 3: it comes out when it goes to the end

What to do: add "across", "around", or how often.
"""

import re

from hookwright.ground import NOTE, Finding, Suggestion, listing

from ..case import Case
from ..marks import marks_of

KIND = "repeat-without-extent"
_REPEAT_BEFORE = re.compile(r"\brep\w*\.? (?:from )?\\?$", re.IGNORECASE)
_NOTHING_AFTER = re.compile(r"\s*(?:$|[.;,]?\s*(?:$|[(\[{]|[–—-] ?\d|join\b|turn\b|sl st\b|ss\b|fasten\b|ch 1, turn))", re.IGNORECASE)


def find(case: Case):
    found = []
    for marks in marks_of(case):
        for span in marks.named.get(1, ()):
            if _REPEAT_BEFORE.search(case.text[max(0, span.start - 16) : span.start]) is None:
                continue
            if _NOTHING_AFTER.match(case.text[span.end : min(marks.seen.body.end, span.end + 24)]) is not None:
                found.append((marks.seen, span))
    if not found:
        return
    seen, span = found[0]
    others = [other.name for other, _ in found[1:]]
    yield Finding(
        KIND,
        NOTE,
        f"the repeat of {listing([seen.name, *others])} does not say how far it goes; it was worked to the end",
        span,
        seen.name,
        suggestions=(Suggestion("add `across`, `around` or how often", "your choice"),),
        echoes=tuple(others),
    )
