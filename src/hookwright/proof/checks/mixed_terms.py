"""Words of US terms and of UK terms stand in one text, and nothing says which terms it is in.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 2, turn, htr in each st across. (10 htr)

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 2, turn, hdc in each st across. (10 hdc)

Working::

    sc is a US word, htr a UK word: dc and tr could mean either

What to do: say `terms: US` or `terms: UK` in the head, and keep to them.
"""

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..dialect_words import only_in

KIND = "mixed-terms"


def find(case: Case):
    if case.pattern.terms_said:
        return
    us, uk = only_in(case, "US"), only_in(case, "UK")
    if not us or not uk:
        return
    us_word, uk_word = (case.text[span.start : span.end] for _, span in (us[0], uk[0]))
    (seen, span), (other, other_span) = (uk[0], us[0]) if case.terms == "US" else (us[0], uk[0])
    yield Finding(
        KIND,
        LOOK,
        f"`{us_word}` is a word of US terms and `{uk_word}` of UK terms; the text was read in {case.terms} terms",
        span,
        seen.name,
        expected="one set of terms",
        found=f"{us_word}, {uk_word}",
        labels=((other_span, f"the other word, in {other.name}"),),
        suggestions=(Suggestion("say `terms: US` or `terms: UK` in the head, and keep to them", "your choice"),),
    )
