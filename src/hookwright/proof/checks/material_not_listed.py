"""The instructions need something that the list of materials does not have.

Looked at where there is a list of materials: markers, a needle for sewing up, buttons, stuffing, eyes, beads, ribbon, elastic, a zip.

With it::

    ---
    materials: [2 stitch markers]
    ---
    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

    Sew on 2 buttons.

Without it::

    ---
    materials: [yarn needle, 2 buttons]
    ---
    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

    Sew on 2 buttons.

Working::

    needed: a needle, buttons; listed: markers

What to do: add it to the materials, with number and size.
"""

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..materials import first_call, listed, markers_used, notions
from ..wording import quoted

KIND = "material-not-listed"


def find(case: Case):
    have = listed(case)
    if not have:
        return
    for name, called, listing_words in notions():
        if listing_words.search(have):
            continue
        call = first_call(case, called)
        if call is None and not (name == "stitch marker" and markers_used(case)):
            continue
        span = call[0] if call is not None else case.span_in_head("materials")
        said = f" ({quoted(case.text, span)})" if call is not None else ""
        yield Finding(
            KIND,
            LOOK,
            f"the instructions need {'' if name in ('stuffing', 'elastic', 'buttons', 'beads', 'safety eyes', 'ribbon') else 'a '}{name}"
            f"{said}, and the materials do not list {'them' if name.endswith('s') else 'it'}",
            span,
            found=name,
            whose="the instructions",
            labels=((case.span_in_head("materials"), "what is listed"),),
            suggestions=(Suggestion(f"add {name} to the materials", "likely"),),
        )
