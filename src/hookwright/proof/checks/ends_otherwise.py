"""A row is said to end with one stitch and ends with another.

With it::

    Ch 12.
    Row 1: Sc in 2nd ch from hook, *sc in next ch, hdc in next ch; rep from * across, and be sure to finish with a sc.

Without it::

    Ch 12.
    Row 1: Sc in 2nd ch from hook, *hdc in next ch, sc in next ch; rep from * across, and be sure to finish with a sc.

Working::

    11 stitches: sc, then 5 times sc and hdc; the last one is a hdc

What to do: mend the repeat (often its two stitches stand the wrong way round) or the number of stitches it goes over.
"""

import re

from hookwright.fabric import FLAG_COUNTS, FLAG_JOIN, KIND_NAMES, plain_of
from hookwright.ground import LOOK, Finding, Span, Suggestion
from hookwright.notation.tree import Join, Note
from hookwright.stitches import dialect

from ..case import Case
from ..wording import stitch_word

KIND = "ends-otherwise"
_ENDS_WITH = re.compile(
    r"\b(?:finish|finishing|end|ending|ends|finishes)\s+(?:off\s+|up\s+)?(?:the row\s+)?with\s+(?:an?\s+|one\s+|1\s+)?", re.IGNORECASE
)
_WORDS = re.compile(r"[A-Za-z][A-Za-z0-9.-]*(?: [A-Za-z][A-Za-z0-9.-]*){0,3}")


def find(case: Case):
    for seen, note in case.nodes(Note):
        said = _ENDS_WITH.search(note.text)
        if said is None or any(type(step) is Join for step in seen.row.steps):
            continue
        kind = _stitch_in(note.text[said.end() :], case.terms)
        if kind is None:
            continue
        last = {}
        for size, fabric in enumerate(case.fabrics):
            for worked in fabric.rows:
                if worked.row is seen.row and not worked.troubles:
                    made = _last(worked)
                    if made is not None and made != kind and plain_of(made) != plain_of(kind):
                        last[size] = made
        if not last:
            continue
        made = stitch_word(last[min(last)], case.terms)
        wanted = stitch_word(kind, case.terms)
        yield Finding(
            KIND,
            LOOK,
            case.says(last, f"{seen.name} is said to end with {wanted}, and its last stitch is {made}"),
            note.span if note.span.end else Span(seen.body.start, seen.body.end),
            seen.name,
            case.size_names(last),
            expected=wanted,
            found=made,
            whose=seen.name,
            suggestions=(Suggestion("look whether the stitches of the repeat stand the right way round", "your choice"),),
        )


def _stitch_in(text: str, terms: str) -> str | None:
    """The stitch that the text begins with."""
    words = _WORDS.match(text)
    if words is None:
        return None
    parts = words[0].split(" ")
    for length in range(len(parts), 0, -1):
        kind = dialect(terms).find(" ".join(parts[:length]).rstrip("."))
        if kind is not None:
            return kind
    return None


def _last(worked) -> str | None:
    for index in range(len(worked.kind) - 1, -1, -1):
        if worked.flags[index] & FLAG_COUNTS and not worked.flags[index] & FLAG_JOIN:
            return KIND_NAMES[worked.kind[index]]
    return None
