"""A finished measure is not the body it is to fit with the stated ease.

Finished = body + ease. Ease is less than nothing for a close fit, and then the piece is smaller than the body. Where the body is a range
the finished measure may lie anywhere over it. A stitch or a row more or less is rounding.

With it::

    ---
    sizes: [{name: S, to fit: 80 cm}, {name: M, to fit: 90 cm}]
    ease: 8 cm
    gauge:
      - {stitches: 15, rows: 16, over: 10 cm, in: sc}
    finished: {chest: 88 (92) cm}
    ---
    Ch 133 (139).
    Row 1: Sc in 2nd ch from hook and in each ch across. (132 (138) sc)

Without it::

    ---
    sizes: [{name: S, to fit: 80 cm}, {name: M, to fit: 90 cm}]
    ease: 8 cm
    gauge:
      - {stitches: 15, rows: 16, over: 10 cm, in: sc}
    finished: {chest: 88 (98) cm}
    ---
    Ch 133 (148).
    Row 1: Sc in 2nd ch from hook and in each ch across. (132 (147) sc)

Working::

    S: 80 + 8 = 88 cm
    M: 90 + 8 = 98 cm, and 92 are stated

What to do: mend the finished measure, the body or the ease, whichever is old. A measure written as a sum over the numbers
(`chest: around * stitch`) follows from them by itself.
"""

from hookwright.ground import LOOK, Finding, Suggestion, of_size

from ..case import Case
from ..wording import number_text
from ..worn import finest_mm, main_measure

KIND = "ease-differs"
_ROUNDING_MM = 5.0  # finished measures are printed to the half centimetre or quarter inch; common practice, no source


def find(case: Case):
    stated = case.from_head("ease") is not None or case.from_head("ease_share")
    worn = main_measure(case) if stated else None
    if worn is None:
        return
    off = {}
    for size, body in enumerate(worn.bodies):
        if body is None:
            continue
        added, finished = _added(case, size, body), worn.measure.at(size)
        if added is None or finished is None:
            continue
        allowed = max(_ROUNDING_MM, finest_mm(case)) + _solved_off(case, worn.name, size)
        low, high = body[0] + added[0], body[1] + added[1]
        if finished[1] < low - allowed or finished[0] > high + allowed:
            off[size] = (body, added, finished)
    if not off:
        return
    size, (body, added, finished) = min(off.items())
    wanted = (body[0] + added[0], body[1] + added[1])
    smaller = added[0] > 0 and finished[1] < body[0]
    message = case.says(
        off, f"{worn.name} is {_cm(finished)} finished for a body of {_cm(body)},",
        f"which is smaller than the body, and an ease of {_cm(added)} is stated" if smaller else f"and with the stated ease of {_cm(added)} it would be {_cm(wanted)}",
    )
    span = case.span_in_head(f"finished.{worn.name}")
    yield Finding(
        KIND, LOOK, message, span if span.end else case.span_in_head("finished"), None, case.size_names(off),
        expected=round(sum(wanted) / 2, 1), found=round(sum(finished) / 2, 1), whose="the ease",
        working=(("size", "body", "ease", "body and ease", "finished"),
                 *((case.sizes[one], _cm(body), _cm(added), _cm((body[0] + added[0], body[1] + added[1])), _cm(finished)) for one, (body, added, finished) in off.items())),
        suggestions=(Suggestion(f"{worn.name} {_cm(wanted)}" + (f" in {of_size(case.sizes[size])}" if len(case.sizes) > 1 else ""), "your choice"),
                     Suggestion(f"an ease of {_cm((finished[0] - body[1], finished[1] - body[0]))}", "your choice")),
    )


def _added(case: Case, size: int, body):
    """The ease of this size as (low_mm, high_mm): a length, or a share of the body."""
    ease, shares = case.from_head("ease"), case.from_head("ease_share") or ()
    if ease is not None:
        return ease.at(size)
    share = shares[0] if len(shares) == 1 else shares[size] if size < len(shares) else None
    return None if share is None else tuple(sorted((body[0] * share, body[1] * share)))


def _solved_off(case: Case, name: str, size: int) -> float:
    """How far a number of which the measure is made lies from what was wanted of it: that is said where the numbers are looked at."""
    words = (case.from_head("finished_sums") or {}).get(name, "")
    answer = case.sized.answer if words and case.sized is not None else None
    return max((abs(offs[size]) for number, offs in answer.off_mm.items() if number in words and size < len(offs) and offs[size] is not None), default=0.0) if answer else 0.0


def _cm(pair) -> str:
    low, high = (number_text(value / 10) for value in pair)
    return f"{low} cm" if low == high else f"{low}-{high} cm" if pair[0] >= 0 else f"{low} to {high} cm"
