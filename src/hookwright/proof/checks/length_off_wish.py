"""A number that was found comes to a length far from the one that is wanted.

A number must be whole, so its length is off by up to half a stitch, or by half a repeat where it must fit one. Here it is off by more: other
wishes pull it away, or the repeat is so coarse that its half is more than two centimetres and a twentieth of the length.

With it::

    ---
    sizes: [{name: S, to fit: 50 cm}]
    gauge:
      - {stitches: 10, rows: 10, over: 10 cm, in: sc}
    numbers:
      around: {want: to fit, count: stitches, multiple: 20}
    ---
    Ch {around + 1}.
    Row 1: Sc in 2nd ch from hook and in each ch across.

Without it::

    ---
    sizes: [{name: S, to fit: 50 cm}]
    gauge:
      - {stitches: 10, rows: 10, over: 10 cm, in: sc}
    numbers:
      around: {want: to fit, count: stitches, multiple: 4}
    ---
    Ch {around + 1}.
    Row 1: Sc in 2nd ch from hook and in each ch across.

Working::

    multiples of 20: 40 stitches are 40 cm, 60 are 60, both 10 cm off; of 4: 48 or 52

What to do: take a smaller repeat, other ease, or give up the wish that pulls it away.
"""

from hookwright import sizing
from hookwright.ground import LOOK, NOTE, Finding, Suggestion, listing, of_size

from ..case import Case
from ..wished import step_of
from ..wording import number_text

KIND = "length-off-wish"
_COARSE_MM, _COARSE_SHARE = 20.0, 0.05  # common practice, no source


def find(case: Case):
    outcome = case.sized.outcome if case.sized is not None else None
    if not isinstance(outcome, sizing.Answer):
        return  # a clash is said where it is found
    problem = case.sized.asked.problem
    told = [finding.message for finding in case.read("not-made-to-measure")]
    for wish in problem.wishes:
        offs = outcome.off_mm.get(wish.name)
        if offs is None or any(message.startswith(f"`{wish.name}` ") for message in told):
            continue
        if any(isinstance(condition, sizing.Within) and condition.number == wish.name for condition in problem.conditions):
            continue  # she has said how far off it may be
        repeat = step_of(problem, wish.name)
        off, far = {}, False
        for size, length_off in enumerate(offs):
            if length_off is None:
                continue
            unit, number = wish.unit_mm[size], outcome.numbers[wish.name][size]
            wanted = unit * number - length_off
            pulled = abs(length_off) > unit * repeat / 2 + 0.01
            coarse = abs(length_off) > max(_COARSE_MM, _COARSE_SHARE * wanted)
            if pulled or coarse:
                off[size] = (number, unit * number, wanted, length_off, pulled)
                far = far or coarse
        if off:
            yield _finding(case, problem, wish, repeat, off, LOOK if far else NOTE)  # a little off, by her own wish, is only told


def _finding(case: Case, problem, wish, repeat: int, off: dict, grade: str) -> Finding:
    size, (number, length, wanted, length_off, pulled) = max(off.items(), key=lambda item: abs(item[1][3]))
    sizes = tuple(problem.sizes[one] for one in off) if len(problem.sizes) > 1 else ()
    step = f"a repeat of {repeat}" if repeat > 1 else "a stitch" if wish.counts == "sts" else "a row"
    others = [condition.words for condition in problem.conditions if condition.number == wish.name and condition.words and not isinstance(condition, (sizing.Multiple, sizing.OneOf))]
    why = f"more than half {step}, so another wish pulls it there" + (f" ({listing(others)})" if others else "") if pulled else f"{step} allows nothing nearer"
    span = case.span_in_head(f"numbers.{wish.name}")
    in_size = f" in {of_size(problem.sizes[size])}" if len(problem.sizes) > 1 else ""
    return Finding(
        KIND, grade,
        f"`{wish.name}` comes to {number} {wish.counts}{in_size}, {number_text(length / 10)} cm where {number_text(wanted / 10)} cm are wanted: "
        f"off by {number_text(abs(length_off) / 10)} cm, {why}",
        span, None, sizes, expected=round(wanted, 1), found=round(length, 1), whose="the wish",
        working=(("size", "wanted", "number", "comes to", "off"),
                 *((problem.sizes[one], f"{number_text(want / 10)} cm", str(n), f"{number_text(got / 10)} cm", f"{gone / 10:+.1f} cm") for one, (n, got, want, gone, _) in off.items())),
        suggestions=(Suggestion("give up the wish that pulls it away" if pulled else "take a smaller repeat, or other ease", "your choice"),),
    )
