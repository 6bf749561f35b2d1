"""A measure is given in two units, and the two don't agree.

With it::

    ## Notes

    Leave a tail of 12 in (38 cm).

    ## Square

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

Without it::

    ## Notes

    Leave a tail of 12 in (30 cm).

    ## Square

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

Working::

    12 in x 2.54 = 30.5 cm; 30 is rounding, 38 is not

What to do: take the unit in which you measured and work out the other: 1 in = 2.54 cm, 1 yd = 0.914 m, 1 oz = 28.35 g.
"""

from hookwright.ground import LOOK, MUST_MEND, Finding, Span, Suggestion

from ..case import Case
from ..measures import factor, pairs
from ..tables import table
from ..wording import number_text, quoted, size_list

KIND = "units-differ"


def find(case: Case):
    for span in (*_in_head(case), *(item.span for piece in case.pattern.pieces for item in piece.items)):
        text = case.text[span.start : span.end]
        if any(letter.isdigit() for letter in text) and ("(" in text or "/" in text or "," in text or " or " in text or "[" in text):
            for pair in pairs(text, span.start):
                finding = _finding(case, pair)
                if finding is not None:
                    yield finding


def _in_head(case: Case):
    """The head as one stretch of text, where there is one."""
    end = case.text.find("\n---", 4) if case.head is not None and case.text.lstrip().startswith("---") else -1
    if end > 0:
        yield Span(0, end)


def _finding(case: Case, pair) -> Finding | None:
    entry = table("units")[pair.of]
    a, b = factor(pair.first_unit), factor(pair.second_unit)
    if len(pair.first) != len(pair.second) and 1 not in (len(pair.first), len(pair.second)) or not pair.first or not pair.second:
        return None
    worst = 0.0
    wrong = []
    for index, first in enumerate(pair.first):
        second = pair.second[index] if len(pair.second) > 1 else pair.second[0]
        apart, size = abs(first * a - second * b), max(first * a, second * b)
        if apart <= entry["least"] or apart <= entry["share"] * size:
            continue
        wrong.append(index)
        worst = max(worst, apart / size)
    if not wrong:
        return None
    index = wrong[0]
    second = pair.second[index] if len(pair.second) > 1 else pair.second[0]
    exact = pair.first[index] * a / b
    back = second * b / a
    rounded = [_rounded(first * a / b, pair.second_unit) for first in pair.first]
    return Finding(
        KIND,
        MUST_MEND if worst > entry["surely"] else LOOK,
        f"{quoted(case.text, pair.span)}: {number_text(pair.first[index])} {pair.first_unit} are {number_text(exact)} {pair.second_unit}, "
        f"not {number_text(second)}",
        pair.span,
        None,
        expected=round(exact, 2),
        found=second,
        whose=f"the {pair.first_unit}",
        working=(
            (pair.first_unit, "is", pair.second_unit, "stated"),
            *(
                (
                    number_text(pair.first[one]),
                    "=",
                    number_text(pair.first[one] * a / b),
                    number_text(pair.second[one] if len(pair.second) > 1 else pair.second[0]),
                )
                for one in wrong
            ),
        ),
        suggestions=(
            Suggestion(f"write {_list(rounded, pair.ranges)} {pair.second_unit}", "likely", effect=f"both are then {number_text(pair.first[index])} {pair.first_unit}"),
            Suggestion(f"write {number_text(back)} {pair.first_unit}", "your choice", effect=f"both are then {number_text(second)} {pair.second_unit}"),
        ),
    )


def _list(values: list[str], ranges: bool) -> str:
    return size_list([f"{low}-{high}" for low, high in zip(values[::2], values[1::2])] if ranges else values)


def _rounded(value: float, unit: str) -> str:
    """As the trade prints it: whole cm, quarter inches, whole yards, metres and grams."""
    if unit.startswith(("in", '"', "″", "”", "''")):
        return number_text(round(value * 4) / 4) if value * 4 % 2 == 0 else f"{round(value * 4) / 4:g}"
    if unit.startswith(("cm", "cent")) and value < 10:
        return number_text(round(value * 2) / 2)
    return number_text(round(value)) if value >= 3 else number_text(value)
