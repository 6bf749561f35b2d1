"""A child's hat is made smaller than the trade's chart of heads, which is small already.

The chart that the trade goes by (baby 35.5 cm, toddler 40.5 cm, child 45.5 cm) is far below heads as they are measured: it is close to a
snug finished hat. A hat that is made smaller than it once more does not go over a head.

With it::

    ---
    title: Pebble Hat
    sizes: [{name: Baby, to fit: 35.5 cm}, {name: Toddler, to fit: 40.5 cm}]
    ease: -3 cm
    gauge:
      - {stitches: 15, rows: 16, over: 10 cm, in: sc}
    finished: {circumference: 32.5 (37.5) cm}
    ---
    Ch 50 (57).
    Row 1: Sc in 2nd ch from hook and in each ch across. (49 (56) sc)

Without it::

    ---
    title: Pebble Hat
    sizes: [{name: Baby, to fit: 38-40 cm}, {name: Toddler, to fit: 46-48 cm}]
    ease: -3 cm
    gauge:
      - {stitches: 15, rows: 16, over: 10 cm, in: sc}
    finished: {circumference: 36 (44) cm}
    ---
    Ch 55 (67).
    Row 1: Sc in 2nd ch from hook and in each ch across. (54 (66) sc)

Working::

    toddler by the chart: 40.5 cm; children of 1 to 3 years as measured: 47.5 cm in the middle
    40.5 - 3 = 37.5 cm, 10 cm less than the head

What to do: take heads as they are measured (`body: heads` with ages such as `6-12 months` or `3 years`), or leave the ease out and make the
hat as wide as the chart says.
"""

from hookwright import sizing
from hookwright.ground import LOOK, Finding, Suggestion

from ..case import Case
from ..wording import number_text
from ..worn import is_hat, main_measure

KIND = "ease-taken-twice"
_AGES = {"baby": (1, 6), "toddler": (12, 36), "child": (36, 60)}  # months, as the trade uses the words; the chart itself gives no ages (common practice, no source)
_SAME_MM = 4.0  # 35.5 and 36 cm, 14 in: one figure, rounded
_EASE_MM = -10.0


def find(case: Case):
    if not is_hat(case):
        return
    worn = main_measure(case)
    ease = case.from_head("ease")
    off = {}
    for size, body in enumerate(worn.bodies if worn is not None else ()):
        finished = worn.measure.at(size)
        chart = _by_chart(case, size, body)
        if chart is None or finished is None:
            continue
        taken = ease.at(size)[1] if ease is not None and ease.at(size) else finished[1] - body[0]
        if taken <= _EASE_MM and finished[1] <= body[0] + _EASE_MM:
            off[size] = (chart, finished)
    if not off:
        return
    size, ((name, chart_mm), finished) = min(off.items())
    measured = sizing.children_heads(*_AGES[name])
    span = case.span_in_head("ease") if ease is not None else case.span_in_head(f"finished.{worn.name}")
    yield Finding(
        KIND, LOOK,
        case.says(off, f"{number_text(chart_mm / 10)} cm is the trade's chart of heads, which is close to a snug hat already; heads of {measured.name} are "
                  f"{number_text(measured.mean_mm / 10)} cm in the middle as measured, and the hat is {number_text(finished[1] / 10)} cm"),
        span, None, case.size_names(off), expected=round(measured.mean_mm), found=round(finished[1]), whose="heads as measured",
        working=(("size", "chart", "heads as measured", "finished"),
                 *((case.sizes[one], f"{number_text(chart / 10)} cm", f"{number_text(sizing.children_heads(*_AGES[word]).mean_mm / 10)} cm", f"{number_text(pair[1] / 10)} cm")
                   for one, ((word, chart), pair) in off.items())),
        suggestions=(Suggestion("take the heads of children as measured: `body: heads` with ages", "likely"), Suggestion("leave the ease out", "your choice")),
        sources=(measured.source,),
    )


def _by_chart(case: Case, size: int, body) -> tuple[str, float] | None:
    """(word, mm) where the body of a child's size is the figure of the trade's chart."""
    if body is None or body[1] - body[0] > _SAME_MM:
        return None
    names = [case.sizes[size].lower()]
    head_body = case.from_head("body")
    if head_body is not None and size < len(head_body.sizes):
        names.append(head_body.sizes[size].lower())
    for one in sizing.table("heads")["trade"]["sizes"]:
        if one["name"] in _AGES and abs(one["cm"] * 10 - body[0]) <= _SAME_MM and any(one["name"] in name for name in names):
            return one["name"], one["cm"] * 10
    return None
