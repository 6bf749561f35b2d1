"""Stitches are left over at the end of a row.

The instructions end before the row below does, nothing says that stitches are left, and the count stated at the end of the row is not
reached either. So something is missing from the row.

With it::

    Ch 23.
    Row 1: Sc in 2nd ch from hook and in each ch across. (22 sc)
    Row 2: Ch 1, turn, sc in next 10 sts, 2 sc in next st, sc in next 9 sts. (23 sc)

Without it::

    Ch 23.
    Row 1: Sc in 2nd ch from hook and in each ch across. (22 sc)
    Row 2: Ch 1, turn, sc in next 10 sts, 2 sc in next st, sc in next 11 sts. (23 sc)

Working::

    10 + 1 + 9 = 20 stitches worked of 22: 2 are left
    10 + 2 + 9 = 21 made, 23 stated: the 2 that are left are missing

What to do: say what is worked in the stitches that are left. Where they are meant to stay, write "leave remaining 2 sts unworked".
"""

from hookwright.ground import Suggestion

from ..about_row import about_row
from ..case import Case
from ..sums import sum_table
from ..unworked import meant
from ..wording import counts

KIND = "stitches-left-over"


def find(case: Case):
    for off in case.off("left-over"):
        if meant(case, off):
            continue
        name = case.name_of(off.row, off.label)
        left = sorted({trouble.facts["left"] for _, _, trouble in off.at.values()})
        there = off.facts().get("there")
        message = case.says_of(
            off,
            f"{name} leaves",
            counts(left, "stitch"),
            f"of {there} unworked and does not reach the count it states"
            if isinstance(there, int) and len(left) == 1
            else "unworked and does not reach the count it states",
        )
        yield about_row(
            case,
            off,
            KIND,
            case.grade(off),
            message,
            expected=0,
            found=off.facts()["left"],
            whose="the row below",
            working=sum_table(case, off, {"left over": off.each("left")}),
            suggestions=(
                Suggestion(f"say what is worked in the last {'stitch' if left == [1] else counts(left, 'stitch')}", "likely", effect="every stitch of the row below is used"),
            ),
        )
