"""A row asks for more stitches than there are.

The row below comes to its end before the instructions do.

With it::

    Ch 23.
    Row 1: Sc in 2nd ch from hook and in each ch across. (22 sc)
    Row 2: Ch 1, turn, sc in next 10 sts, 2 sc in next st, sc in next 13 sts. (25 sc)

Without it::

    Ch 23.
    Row 1: Sc in 2nd ch from hook and in each ch across. (22 sc)
    Row 2: Ch 1, turn, sc in next 10 sts, 2 sc in next st, sc in next 11 sts. (23 sc)

Working::

    10 + 1 + 13 = 24 stitches asked for, 22 there: 2 too many

What to do: compare the row with the count of the row below. Often one number is the count of another size or of an earlier version.
"""

from hookwright.ground import Suggestion, listing, of_size

from ..about_row import about_row
from ..case import Case
from ..sums import sum_table
from ..troubles import asked_for
from ..wording import count, quoted, sentence

KIND = "row-runs-out"


def find(case: Case):
    for off in case.off("runs-out"):
        name = case.name_of(off.row, off.label)
        asked = {size: asked_for(trouble) for size, (_, _, trouble) in off.at.items()}
        there = off.each("there")
        size = min(off.at)
        span = off.facts().get("at") or off.span
        words = quoted(case.text, span) if span.end else ""
        pairs = {(asked[one], there[one]) for one in off.at}
        if None in asked.values() or None in there.values():
            said = "asks for more stitches than there are"
        elif len(pairs) == 1:
            said = f"asks for {count(asked[size], 'stitch')} and there {'is' if there[size] == 1 else 'are'} {there[size]}"
        else:
            said = "asks for more stitches than there are: " + listing([f"{asked[one]} of {there[one]} in {of_size(case.sizes[one])}" for one in off.at])
        message = case.says_of(off, name, said)
        left, step = off.facts().get("left"), off.facts().get("step")
        if isinstance(left, int) and isinstance(step, int) and step > left and words and left != there[size]:
            message += "; " + sentence(case.in_sizes([size]) if len(pairs) > 1 else "", _so_many(left), f"left where {words} begins, which takes {step}")
            if isinstance(off.facts().get("pass"), int):
                message += f" (pass {off.facts()['pass']} of {off.facts().get('passes')})"
        short = {one: asked[one] - there[one] for one in off.at if asked[one] is not None and there[one] is not None}
        suggestions = []
        over = short.get(size)
        if over:
            suggestions.append(
                Suggestion(
                    f"{count(over, 'stitch')} fewer" + (f" in or before {words}" if words else ""),
                    "likely",
                    effect=f"{asked[size]} - {over} = {there[size]}, all that there are",
                )
            )
        yield about_row(
            case,
            off,
            KIND,
            case.grade(off),
            message,
            span=span,
            expected=there[size],
            found=asked[size],
            whose="the row below",
            working=sum_table(case, off, {"asked for": asked, "short by": short}),
            suggestions=tuple(suggestions),
        )


def _so_many(left: int) -> str:
    return "none is" if left == 0 else f"{left} {'is' if left == 1 else 'are'}"
