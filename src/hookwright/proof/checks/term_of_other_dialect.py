"""A word of the other set of terms stands in a row.

A single crochet (sc) exists in US terms only, a half treble (htr) in UK terms only. The same letters dc and tr stand for different stitches
in the two, so one foreign word makes a maker doubt all of them.

With it::

    ---
    terms: UK
    ---
    Ch 11.
    Row 1: Dc in 2nd ch from hook and in each ch across. (10 dc)
    Row 2: Ch 1, turn, sc in each st across. (10 dc)

Without it::

    ---
    terms: UK
    ---
    Ch 11.
    Row 1: Dc in 2nd ch from hook and in each ch across. (10 dc)
    Row 2: Ch 1, turn, dc in each st across. (10 dc)

Working::

    US sc = UK dc

What to do: write the stitch in the terms of the pattern.
"""

from hookwright.ground import LOOK, Finding, Suggestion
from hookwright.stitches import dialect

from ..case import Case
from ..dialect_words import only_in
from ..wording import count, quoted

KIND = "term-of-other-dialect"


def find(case: Case):
    if not case.pattern.terms_said:
        return
    other = "UK" if case.terms == "US" else "US"
    places = only_in(case, other)
    if not places:
        return
    rows = list(dict.fromkeys(seen.name for seen, _ in places))
    seen, span = places[0]
    word = case.text[span.start : span.end]
    meant = dialect(other).find(word.rstrip("s")) or dialect(other).find(word)
    suggestion = ()
    if meant is not None:
        here = dialect(case.terms).abbr(meant)
        suggestion = (Suggestion(f"write {here}", "likely", text=here, span=span, effect=f"{other} {word} is {case.terms} {here}"),)
    yield Finding(
        KIND,
        LOOK,
        f"{quoted(case.text, span)} in {seen.name} is a word of {other} terms, and the pattern is in {case.terms} terms"
        + (f" ({count(len(places), 'time')} in all)" if len(places) > 1 else ""),
        span,
        seen.name,
        expected=f"{case.terms} terms",
        found=word,
        whose="the terms stated",
        suggestions=suggestion,
        echoes=tuple(rows[1:]),
        sources=(
            "Fun Crochet Designs, Crochet terms by country, http://funcrochetdesigns.com/crochet/tuesday-crochet-tip-crochet-terms-by-country/",
        ),
    )
