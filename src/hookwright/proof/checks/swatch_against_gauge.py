"""A stated gauge is not the one of the swatch in the same fabric.

A swatch is counted in whole stitches, so it may be out by one over the width that was measured, and no more. Numbers are found from the
swatch, and the sheet prints the stated gauge: they should be one.

With it::

    ---
    gauge:
      - {stitches: 16, rows: 18, over: 10 cm, in: sc}
    swatches:
      - {of: sc, stitches: 29, width: 20 cm, rows: 36, height: 20 cm}
    ---
    Ch 41.
    Row 1: Sc in 2nd ch from hook and in each ch across. (40 sc)

Without it::

    ---
    gauge:
      - {stitches: 14.5, rows: 18, over: 10 cm, in: sc}
    swatches:
      - {of: sc, stitches: 29, width: 20 cm, rows: 36, height: 20 cm}
    ---
    Ch 41.
    Row 1: Sc in 2nd ch from hook and in each ch across. (40 sc)

Working::

    16 stitches in 10 cm are 32 stitches in 20 cm; 29 were counted, and a reading is out by one at most
    29 / 20 x 10 = 14.5 stitches in 10 cm

What to do: take the gauge of the swatch, or measure it again. Where a gauge is stated `blocked: false` it is held against the swatch before
washing.
"""

from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..wording import number_text

KIND = "swatch-against-gauge"
_READING = 1.0  # a stitch or row: a swatch is counted whole


def find(case: Case):
    gauges, swatches = case.from_head("gauge") or (), case.from_head("swatches") or ()
    for index, gauge in enumerate(gauges):
        for swatch in swatches:
            if not _same_fabric(gauge.in_, swatch.of, len(gauges) == len(swatches) == 1):
                continue
            washed = gauge.blocked is not False
            off = []
            for what, stated, over, counted, length in (
                ("stitches", gauge.stitches, gauge.over_mm, swatch.stitches, washed and swatch.washed_width_mm or swatch.width_mm),
                ("rows", gauge.rows, gauge.rows_over_mm, swatch.rows, washed and swatch.washed_height_mm or swatch.height_mm),
            ):
                if not (stated and counted and length and over):
                    continue
                expected, measured = stated / over * length, counted / length * over
                if abs(expected - counted) > _READING + 1e-6 and not _rounded(stated, measured):
                    off.append((what, stated, over, counted, length, expected, measured))
            if off:
                yield _finding(case, index, gauge, off)


def _finding(case: Case, index: int, gauge, off) -> Finding:
    said = "; ".join(
        f"{number_text(stated)} {what} in {number_text(over / 10)} cm are {number_text(expected)} in the {number_text(length / 10)} cm of the swatch, and {number_text(counted)} were counted"
        for what, stated, over, counted, length, expected, _ in off)
    span = case.span_in_head(f"gauge.{index}")
    return Finding(
        KIND, LOOK, f"the stated gauge{f' in {gauge.in_}' if gauge.in_ else ''} is not that of the swatch: {said}",
        span if span.end else case.span_in_head("gauge"), expected=round(off[0][6], 2), found=off[0][1], whose="the swatch",
        working=(("", "stated", "over", "in the swatch by that", "counted", "the swatch gives"),
                 *((what, number_text(stated), f"{number_text(over / 10)} cm", number_text(expected), number_text(counted), number_text(measured))
                   for what, stated, over, counted, length, expected, measured in off)),
        suggestions=(Suggestion("a gauge of " + " and ".join(f"{number_text(measured)} {what}" for what, *_, measured in off) + f" in {number_text(off[0][2] / 10)} cm", "likely"),
                     Suggestion("measure the swatch again", "your choice")),
    )


def _rounded(stated: float, measured: float) -> bool:
    """Whether the stated figure is the measured one, rounded to a whole or a half."""
    return abs(stated - measured) <= (0.5 if float(stated).is_integer() else 0.25) + 1e-6 and abs(stated - measured) <= 0.03 * measured


def _same_fabric(one: str, other: str, only: bool) -> bool:
    one, other = (" ".join(words.lower().split()).removesuffix(" pattern").removesuffix(" stitch") for words in (one or "", other or ""))
    return one == other or only and not (one and other)
