"""Words of a row could not be read, so the row could not be worked stitch by stitch.

What follows is worked from the count that the row states.

With it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in next 4 sts, flurble 2 and 3, sc in next 6 sts. (10 sc)

Without it::

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in next 4 sts, sc in next 6 sts. (10 sc)

Working::

    `flurble 2 and 3` is no stitch, place or repeat that is known

What to do: look for a slip of the pen. A stitch of your own is explained under "Special stitches" or in the head; a remark to the
maker stands in brackets or in a sentence of its own.
"""

from hookwright.ground import LOOK, Finding, Suggestion
from hookwright.notation.tree import Unread

from ..case import Case
from ..wording import quoted

KIND = "cannot-read"


def find(case: Case):
    told = [finding.span for finding in case.reading]
    rows = set()
    for seen, node in case.nodes(Unread):
        if seen.index in rows or any(span.start < node.span.end and node.span.start < span.end for span in told):
            continue
        rows.add(seen.index)
        words = quoted(case.text, node.span) if node.span.end else f"`{node.text}`"
        suggestions = (Suggestion(f"did you mean `{node.near}`?", "likely", text=node.near, span=node.span),) if node.near else ()
        yield Finding(
            KIND,
            LOOK,
            f"{words} in {seen.name} could not be read, so its stitches are not counted",
            node.span if node.span.end else seen.row.span,
            seen.name,
            found=node.text,
            suggestions=suggestions,
        )
    for off in case.off("unread"):
        if (off.row.again is None or off.row.again.shaping is None) and not any(span.start < off.span.end and off.span.start < span.end for span in told) and not case.is_unread(off.row):
            name = case.name_of(off.row, off.label)
            message = f"`{off.facts()['words']}` in {name} is not understood: what it changes is not worked"
            yield Finding(KIND, LOOK, message, off.span, name, found=off.facts()["words"])
    for row, sizes in case.off_in_rows("not-established"):
        name = case.name_of(row)
        yield Finding(
            KIND,
            LOOK,
            case.says(sizes, f"{name} tells shaping at intervals, and what its rows are worked in, or how often they are shaped, is not known from the rows before; they were not worked, "
                      "and their stated count stands for them"),
            row.again.span if row.again is not None and row.again.span.end else row.span,
            name,
            case.size_names(sizes),
            suggestions=(Suggestion("write the rows out, or say the stitch and the stitches reached: `work in sc, inc 1 st at each end of every 6th row until there are 40 sts`", "your choice"),),
        )
    for row, sizes in case.off_in_rows("count-not-reached"):
        facts = sizes[min(sizes)]
        name = case.name_of(row)
        yield Finding(
            "count-differs",
            LOOK,
            case.says(sizes, f"{name} is to come from {facts['now']} to {facts['goal']} stitches by {facts['by']} at a time, and that leaves {abs(facts['goal'] - facts['now']) % facts['by']} over"),
            row.again.span if row.again is not None and row.again.span.end else row.span,
            name,
            case.size_names(sizes),
            expected=facts["goal"],
            found=facts["now"],
            suggestions=(Suggestion("look at the count it starts from and at the one it is to reach", "your choice"),),
        )
