"""The number of stitches said to be left is not the number left.

With it::

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
    Row 2: Ch 1, turn, sc in next 15 sts, leave remaining 6 sts unworked. (15 sc)

Without it::

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
    Row 2: Ch 1, turn, sc in next 15 sts, leave remaining 5 sts unworked. (15 sc)

Working::

    20 - 15 = 5 are left

What to do: mend one of the two numbers.
"""

from hookwright.ground import LOOK, Suggestion

from ..about_row import about_row
from ..case import Case
from ..sums import sum_table
from ..wording import count

KIND = "unworked-count-differs"


def find(case: Case):
    for off in case.off("left-differs"):
        name = case.name_of(off.row, off.label)
        said, left = off.facts().get("said"), off.facts().get("left")
        message = case.says_of(
            off,
            f"{name} says that {count(said, 'stitch')} {'is' if said == 1 else 'are'} left unworked;",
            f"there {'is' if left == 1 else 'are'} {left}",
        )
        yield about_row(
            case,
            off,
            KIND,
            LOOK,
            message,
            expected=said,
            found=left,
            whose="the row",
            working=sum_table(case, off, {"said to be left": off.each("said"), "left": off.each("left")}),
            suggestions=(
                Suggestion(f"leave {count(left, 'stitch')} unworked", "likely"),
                Suggestion("work more or fewer before", "your choice"),
            ),
        )
