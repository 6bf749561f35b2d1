"""A repeat from a star is asked for, and there is no star.

With it::

    Ch 13.
    Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
    Row 2: Ch 1, turn, sc in next 2 sts, 2 sc in next st; rep from * across. (16 sc)

Without it::

    Ch 13.
    Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
    Row 2: Ch 1, turn, *sc in next 2 sts, 2 sc in next st; rep from * across. (16 sc)

Working::

    from the start of the row or from the first sc: with an edge stitch before it that makes a difference

What to do: set the star where the repeat begins.
"""

import re

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..marks import marks_of

KIND = "repeat-without-star"
_BRACKET_REPEATED = re.compile(r"[)\]}][ ,.;]*(?:rep\w*) (?:from )?$", re.IGNORECASE)


def find(case: Case):
    for marks in marks_of(case):
        if marks.elsewhere:
            continue
        for stars, spans in marks.named.items():
            pair = len(marks.set.get(1, ())) > 1  # "**" said of a pair of stars
            if marks.set.get(stars) or stars > 1 and pair or _after_bracket(case.text, spans[0].start):
                continue
            sign = "*" * stars
            yield Finding(
                KIND,
                LOOK,
                f"{marks.seen.name} points at `{sign}`, and no `{sign}` is set in it",
                spans[0],
                marks.seen.name,
                found=sign,
                suggestions=(
                    Suggestion(f"set `{sign}` where the repeat begins" if stars == 1 else f"set `{sign}` where it is to stop", "your choice"),
                ),
            )


def _after_bracket(text: str, at: int) -> bool:
    """Whether the words that point at the star stand right behind a bracket: then the bracket is what is repeated."""
    return _BRACKET_REPEATED.search(text[max(0, at - 24) : at]) is not None
