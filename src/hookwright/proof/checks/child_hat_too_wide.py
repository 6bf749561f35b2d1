"""A hat for a baby or a child is wider than an adult's head.

With it::

    ---
    title: Pebble Hat
    sizes: [Baby, Toddler, Child]
    gauge:
      - {stitches: 15, rows: 16, over: 10 cm, in: sc}
    finished: {circumference: 40 (44, 84) cm}
    ---
    Ch 61 (67, 127).
    Row 1: Sc in 2nd ch from hook and in each ch across. (60 (66, 126) sc)

Without it::

    ---
    title: Pebble Hat
    sizes: [Baby, Toddler, Child]
    gauge:
      - {stitches: 15, rows: 16, over: 10 cm, in: sc}
    finished: {circumference: 40 (44, 48) cm}
    ---
    Ch 61 (67, 73).
    Row 1: Sc in 2nd ch from hook and in each ch across. (60 (66, 72) sc)

Working::

    heads of surveyed adults: 56.8 cm in the middle
    heads of children of 5 years: 50.3 cm in the middle, hardly one over 55 cm

What to do: look at the measure and the stitches once more; two digits may have changed places, or inches stand for centimetres. Where the
hat is meant to be so wide, silence this finding with the reason.
"""

from hookwright import sizing
from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..wording import number_text
from ..worn import is_child, is_hat, main_measure

KIND = "child-hat-too-wide"


def find(case: Case):
    if not case.from_head("finished") or not is_hat(case):
        return
    worn = main_measure(case)
    if worn is None:
        return
    adults = sizing.adult_heads().mean_mm
    off = {size: finished for size in range(len(case.sizes)) if (finished := worn.measure.at(size)) and finished[0] > adults and is_child(case, size)}
    if not off:
        return
    size, finished = min(off.items())
    span = case.span_in_head(f"finished.{worn.name}")
    widest = sizing.children_heads(60, 60).span_mm()[1]
    yield Finding(
        KIND, LOOK,
        case.says(off, f"the hat is {number_text(finished[0] / 10)} cm round, and the heads of adults are {number_text(adults / 10)} cm in the middle; this is for a child"),
        span if span.end else case.span_in_head("finished"), None, case.size_names(off), expected=round(widest), found=round(finished[0]), whose="heads as measured",
        working=(("size", "finished", "adult heads", "children of 5 years, at most about"),
                 *((case.sizes[one], f"{number_text(pair[0] / 10)} cm", f"{number_text(adults / 10)} cm", f"{number_text(widest / 10)} cm") for one, pair in off.items())),
        suggestions=(Suggestion("look at the measure and its unit once more", "your choice"),),
        sources=(sizing.adult_heads().source, sizing.children_heads(60, 60).source),
    )
