"""A repeat passes stitches over and nothing takes their place.

Each repeat skips stitches, makes no chain over them and does not put several stitches into one place. So the row comes out half as wide as
the one below. Often a "ch 1" is missing from the repeat.

With it::

    Ch 32.
    Row 1: Sc in 2nd ch from hook and in each ch across. (31 sc)
    Row 2: Ch 3 (counts as dc), turn, *skip next st, puff st in next st; rep from * across.

Without it::

    Ch 32.
    Row 1: Sc in 2nd ch from hook and in each ch across. (31 sc)
    Row 2: Ch 3 (counts as dc), turn, *ch 1, skip next st, puff st in next st; rep from * across.

Working::

    each repeat takes 2 stitches and makes 1, with no chain between

What to do: where the row should keep its width add the chain ("ch 1, skip next st"); where it is meant to draw in, leave it.
"""

from hookwright.ground import LOOK, Finding, Suggestion
from hookwright.notation.tree import Chain, Repeat, Skip, Stitch
from hookwright.stitches import stitch

from ..case import Case, walk
from ..sums import takes_and_makes
from ..wording import count, quoted

KIND = "skips-without-chains"
_GATHERED = ("cl", "bobble", "puff", "popcorn")


def find(case: Case):
    for seen, repeat in case.nodes(Repeat):
        if repeat.times == 1:
            continue
        inner = list(walk(repeat.steps))
        skips = [step for step in inner if type(step) is Skip]
        if not skips or any(type(step) is Chain for step in inner) or any(type(step) is Repeat for step in inner):
            continue
        gathered = any(type(step) is Stitch and (step.kind in _GATHERED or (fact := stitch(step.kind)) and fact.kind == "decrease") for step in inner)
        if seen.row.stated and not gathered:
            continue  # the narrowing is counted: it is meant
        takes, makes = takes_and_makes(repeat.steps, 0) or (0, 0)
        if not makes or makes * 2 > takes:
            continue
        yield Finding(
            KIND,
            LOOK,
            f"each repeat of {seen.name} takes {count(takes, 'stitch')} and makes {makes} with no chain over what is skipped, "
            "so the row comes out narrower",
            repeat.span,
            seen.name,
            expected=takes,
            found=makes,
            whose="the row below",
            labels=((skips[0].span, f"{quoted(case.text, skips[0].span)} leaves a gap with nothing over it"),) if skips[0].span.end else (),
            suggestions=(
                Suggestion("add a chain for each stitch skipped", "likely", effect=f"{makes} + {takes - makes} = {takes} in each repeat"),
                Suggestion("leave it where the row is meant to draw in", "your choice"),
            ),
        )
