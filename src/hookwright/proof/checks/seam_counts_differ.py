"""Two edges that are sewn or worked together have different numbers of stitches.

With it::

    ## Body

    Ch 25.
    Row 1: Sc in 2nd ch from hook and in each ch across. (24 sc)

    ## Finishing

    Sew the 24 sts of the body to the 22 sts of the yoke.

Without it::

    ## Body

    Ch 25.
    Row 1: Sc in 2nd ch from hook and in each ch across. (24 sc)

    ## Finishing

    Sew the 24 sts of the body to the 24 sts of the yoke.

Working::

    24 against 22: two stitches have no partner

What to do: mend one of the counts, or say how the difference is eased in.
"""

import re

from hookwright.ground import LOOK, Finding, Span, Suggestion

from ..case import Case
from ..wording import quoted

KIND = "seam-counts-differ"
_SEAM = re.compile(
    r"\b(?:sew|seam|graft|whip ?stitch|mattress stitch)\b[^.;\n]{0,40}?\b(?P<n>\d{1,4}) ?(?:sts?|stitches|row ends|rows)\b"
    r"[^.;\n]{0,50}?\b(?:to|with|and)\b[^.;\n\d]{0,30}\b(?P<m>\d{1,4}) ?(?:sts?|stitches|row ends|rows)\b[^.;\n]{0,60}",
    re.IGNORECASE,
)
_EASED = re.compile(r"\b(?:eas\w*|gather\w*|evenly|stretch\w*|every other|leav\w*|open)\b", re.IGNORECASE)


def find(case: Case):
    for piece, item in case.prose:
        if piece.section in ("abbreviations", "gauge", "materials"):
            continue
        text = case.text[item.span.start : item.span.end] or item.text
        for found in _SEAM.finditer(text):
            first, second = int(found["n"]), int(found["m"])
            if first == second or _EASED.search(found[0]):
                continue
            span = Span(item.span.start + found.start(), item.span.start + found.end("m"))
            yield Finding(
                KIND,
                LOOK,
                f"{quoted(case.text, span)} brings {first} and {second} stitches together: {abs(first - second)} have no partner",
                span,
                None,
                expected=first,
                found=second,
                whose="the other edge",
                suggestions=(Suggestion("mend one of the counts, or say how the difference is eased in", "your choice"),),
            )
