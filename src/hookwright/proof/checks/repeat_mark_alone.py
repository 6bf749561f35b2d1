"""A star begins a repeat, and nothing says that or how often it is repeated.

With it::

    Ch 13.
    Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
    Row 2: Ch 1, turn, *sc in next 2 sts, 2 sc in next st. (16 sc)

Without it::

    Ch 13.
    Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
    Row 2: Ch 1, turn, *sc in next 2 sts, 2 sc in next st; rep from * across. (16 sc)

Working::

    once: 3 stitches taken of 12; 4 times: all 12, and 4 x 4 = 16 made

What to do: add "rep from * across" (or "around", or how often), or take the star out.
"""

import re

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..marks import marks_of

KIND = "repeat-mark-alone"
_SAYS_AGAIN = re.compile(
    r"\b(?:rep\w*|around|across|times?|twice|thrice|again|to (?:the )?(?:end|last)|until|till|in each|all the way|over and over|all along|and so on|do (?:this|that|these|so)|x ?\d|\d ?x)\b", re.IGNORECASE
)


def find(case: Case):
    told = {finding.span.start for finding in case.read(KIND)}
    for marks in marks_of(case):
        for stars, spans in marks.set.items():
            if stars != 1 or len(spans) % 2 == 0 or marks.named.get(stars):
                continue
            first = spans[0]
            if told & {span.start for span in spans}:
                continue
            rest = case.text[first.end : marks.seen.body.end]
            if rest[:1] in "([" and case.text[first.start - 1 : first.start].isdigit():
                continue  # "6*(2 sc, inc)"
            if _SAYS_AGAIN.search(rest) or not any(letter.isalpha() for letter in rest):
                continue
            yield Finding(
                KIND,
                LOOK,
                f"{marks.seen.name} has a star and nothing that is repeated from it",
                first,
                marks.seen.name,
                found="*",
                expected="rep from *",
                suggestions=(Suggestion("add `rep from * across` or how often, or take the star out", "your choice"),),
            )
