"""The list of abbreviations, or `stitches:` of the head, explains one that nothing uses.

With it::

    ## Abbreviations

    - ch: chain
    - sc: single crochet
    - tr: treble crochet

    ## Cloth

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

Without it::

    ## Abbreviations

    - ch: chain
    - sc: single crochet
    - st: stitch

    ## Cloth

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)

Working::

    listed: ch, sc, tr; used: ch, sc

What to do: take it out. Makers read the list to see what they need to know. A stitch of your own that nothing uses is not printed.
"""

import re

from hookwright.ground import NOTE, NOWHERE, Finding, Suggestion, listing

from ..abbreviation_list import entries, short_forms
from ..case import Case
from ..materials import instruction_text

KIND = "abbreviation-unused"


def find(case: Case):
    yield from _own(case)
    listed = entries(case)
    if len(listed) < 3 or not case.seen:
        return
    text = instruction_text(case)
    unused = []
    for entry in listed:
        if any(_stands(form, text) for form in entry.forms):
            continue
        if any(form.search(text) for id in entry.stitches if (form := short_forms(case.terms).get(id)) is not None):
            continue
        unused.append(entry)
    if unused:
        words = listing([entry.abbr for entry in unused])
        yield Finding(
            KIND,
            NOTE,
            f"the abbreviations list {words}, and nothing uses {'it' if len(unused) == 1 else 'them'}",
            unused[0].span,
            found=words,
            whose="the list of abbreviations",
            suggestions=(Suggestion(f"take {words} out of the list", "likely"),),
        )


def _own(case: Case):
    """Stitches of the head that stand in no row, in no prose and in no other stitch."""
    stitches = case.from_head("stitches") or {}
    if not stitches or not case.seen:
        return
    text = instruction_text(case)
    for name in stitches:
        own = case.pattern.own.get(re.sub(r"\s*\([^()]*\)\s*$", "", name).strip())
        forms = {part.strip() for part in re.split(r"[()]", name)} | set(own.spellings if own else ())
        others = "\n".join([text, *(words for other, words in stitches.items() if other != name)])
        if any(form and _stands(form, others) for form in forms):
            continue
        yield Finding(
            KIND,
            NOTE,
            f"`{name}` stands under `stitches:` and nothing uses it; the sheet leaves it out",
            case.head.spans.get(f"stitches.{name}", NOWHERE),
            found=name,
            whose="the stitches of the head",
            suggestions=(Suggestion(f"take `{name}` out", "likely"),),
        )


def _stands(form: str, text: str) -> bool:
    bare = re.sub(r"\(e?s\)", "", form).strip().rstrip(".")
    spaced = r"[ -]?".join(re.escape(part) for part in re.split(r"[ -]+", bare) if part)
    return bool(spaced) and re.search(rf"(?<![A-Za-z]){spaced}(?:e?s)?(?![a-z])", text, re.IGNORECASE) is not None
