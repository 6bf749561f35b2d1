"""The balls stated hold less yarn than the stitches are likely to take, or far more.

The length of yarn is estimated from the worked stitches, the gauge and the thickness of the yarn, and by a weighed swatch or weighed pieces
where the head has any. An estimate lies in a band: wide where nothing was weighed, narrower where something was. Something is said only where the balls hold
less than the lower end of the band, or where more than a spare ball (and more than a tenth of them) would be left over even at its upper end.
Nothing is said where part of the pattern could not be read or its length is left to the maker.

With it::

    ---
    yarn: {name: moor wool, weight: worsted, metres: 100, grams: 50, balls: 1}
    gauge:
      - {stitches: 14, rows: 16, over: 10 cm, in: sc}
    ---
    Ch 61.
    Row 1: Sc in 2nd ch from hook and in each ch across. (60 sc)
    Rows 2-100: Ch 1, turn, sc in each st across. (60 sc)

Without it::

    ---
    yarn: {name: moor wool, weight: worsted, metres: 100, grams: 50, balls: 4}
    gauge:
      - {stitches: 14, rows: 16, over: 10 cm, in: sc}
    ---
    Ch 61.
    Row 1: Sc in 2nd ch from hook and in each ch across. (60 sc)
    Rows 2-100: Ch 1, turn, sc in each st across. (60 sc)

Working::

    60 sc x 100 rows = 6,000 sc of about 5.4 cm each are 323 m, and with the chains 329 m
    nothing was weighed: from 30 % less to 30 % more, 230 to 428 m
    1 ball holds 100 m

What to do: weigh what you made and write it under `weighed:`, or the weight of your swatch under `swatches:`, and the estimate follows your hand.
Where the balls are right there is nothing to do.
"""

from math import ceil

from hookwright import yarn
from hookwright.ground import NOTE, Finding, Suggestion

from ..case import Case
from ..wording import count, number_text

KIND = "balls-against-estimate"
_SPARE = 0.1  # a ball or a tenth of them to spare; common practice, no source


def find(case: Case):
    yarns = case.from_head("yarn") or ()
    if not case.fabrics or not any(one.balls is not None and one.metres for one in yarns) or _is_open(case):
        return
    found = yarn.estimate(case.pattern, case.fabrics)
    if found is None:
        return
    off: dict = {}
    for stated in yarn.stated_balls(found, case.pattern):
        if stated.metres < stated.needed[1]:
            off.setdefault((stated.yarn, "few"), []).append(stated)
        elif stated.balls > _enough(stated) + max(stated.yarns, _SPARE * _enough(stated)):
            off.setdefault((stated.yarn, "many"), []).append(stated)
    for (index, which), all_of_it in off.items():
        yield _finding(case, found, index, which, all_of_it)


def _finding(case: Case, found, index: int, which: str, off: list) -> Finding:
    worst = (min if which == "few" else max)(off, key=lambda stated: stated.metres / stated.needed[0])
    few, span = which == "few", case.span_in_head(f"yarn.{index}.balls")
    together = " of all colours together" if found.needs[0].colour == "all" else ""
    of_size = f" in size {case.sizes[worst.size]}" if len(case.sizes) > 1 else ""
    enough = _enough(worst)
    message = (
        f"the {count(worst.balls, 'ball')}{together} stated{of_size} hold{'s' if worst.balls == 1 else ''} {number_text(round(worst.metres))} m, and by the estimate it takes "
        f"{number_text(round(worst.needed[1]))} to {number_text(round(worst.needed[2]))} m, so {'a maker may run out' if few else 'a maker may buy more than is used'}"
    )
    return Finding(
        KIND, NOTE, message, span if span.end else case.span_in_head("yarn"), None, case.size_names(sorted({stated.size for stated in off})),
        expected=enough, found=worst.balls, whose="the estimate of the yarn",
        working=(
            ("size", "balls", "they hold", "estimate", "from", "to"),
            *((case.sizes[one.size], str(one.balls), f"{round(one.metres)} m", *(f"{round(metres)} m" for metres in one.needed)) for one in off),
        ),
        suggestions=(
            Suggestion(f"{count(enough, 'ball')}{of_size} would do even at the upper end of the estimate", "likely"),
            Suggestion(f"weigh a finished piece or your swatch and write it into the head: the estimate rests on {found.rests_on}", "your choice"),
        ),
    )


def _enough(stated) -> int:
    """Whole balls that hold the upper end of the estimate, of each of the yarns taken together."""
    return max(ceil(stated.needed[2] / stated.one_each), 1) * stated.yarns


def _is_open(case: Case) -> bool:
    """Whether it is not known how much there is to work: words that could not be read, rows whose range is off, lengths left to the maker."""
    if case.read("cannot-read") or getattr(case.work, "row_troubles", None) or getattr(case.work, "too_much", None) is not None:
        return True
    return any(seen.row.again is not None and seen.row.again.until is not None and seen.row.again.until.desired for seen in case.seen)
