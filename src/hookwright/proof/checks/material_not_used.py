"""Something is listed among the materials and the instructions never use it.

With it::

    ---
    materials: [yarn needle, 2 buttons]
    ---
    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

    Weave in ends.

Without it::

    ---
    materials: [yarn needle, 2 buttons]
    ---
    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

    Weave in ends. Sew on the buttons.

Working::

    listed: a needle, 2 buttons; used: a needle

What to do: say in the instructions where it goes, or take it out of the list. Needles and markers are not asked about.
"""

from hookwright.ground import NOTE, Finding, Suggestion

from ..case import Case
from ..materials import first_call, listed, notions

KIND = "material-not-used"
_EVERYWHERE = ("stitch marker", "yarn needle")


def find(case: Case):
    have = listed(case)
    if not have:
        return
    for name, called, listing_words in notions():
        if name in _EVERYWHERE or not listing_words.search(have) or not called.search(have) and name != "stuffing":
            continue
        if first_call(case, called) is not None or first_call(case, listing_words) is not None:
            continue
        yield Finding(
            KIND,
            NOTE,
            f"the materials list {name}, and the instructions never use {'them' if name.endswith('s') else 'it'}",
            case.span_in_head("materials"),
            found=name,
            whose="the materials",
            suggestions=(Suggestion("say where it is used, or take it out of the list", "your choice"),),
        )
