"""One number of a list falls out of the progression of the sizes.

Foundation chains, measures and named numbers grow (or shrink) from size to size. Here one of them goes the other way, or one alone breaks
steps that are otherwise all alike.

With it::

    ---
    sizes: [XS, S, M, L, XL]
    ---
    Ch 36 (40, 54, 48, 52).
    Row 1: Sc in 2nd ch from hook and in each ch across. (35 (39, 53, 47, 51) sc)

Without it::

    ---
    sizes: [XS, S, M, L, XL]
    ---
    Ch 36 (40, 44, 48, 52).
    Row 1: Sc in 2nd ch from hook and in each ch across. (35 (39, 43, 47, 51) sc)

Working::

    36, 40, 54, 48, 52: steps of +4, +14, -6, +4
    with 44: +4, +4, +4, +4

What to do: look at the number once more. Where it is meant, silence this finding with the reason.
"""

from hookwright.ground import LOOK, Finding, Suggestion, of_size

from ..case import Case
from ..size_lists import foundation_chain, size_lists
from ..wording import number_text, size_list

KIND = "size-list-outlier"


def find(case: Case):
    if len(case.sizes) < 3:
        return
    for each in size_lists(case):
        if each.what != "chains" or not _foundation(each):
            continue
        yield from _finding(case, list(each.values), f"the chains of {each.seen.name}", each.span, each.seen.name)
    for name, measure in (case.from_head("finished") or {}).items():
        values = [None if pair is None else (pair[0] + pair[1]) / 20 for pair in measure.mm]
        yield from _finding(case, values, f"the finished {name}", case.span_in_head(f"finished.{name}"), None, " cm")
    for name, values in (case.from_head("numbers") or {}).items():
        if isinstance(values, tuple) and f"numbers.{name}" in case.head.spans:  # not what follows from shaping spread over rows, which goes up and down
            yield from _finding(case, list(values), f"the number `{name}`", case.span_in_head(f"numbers.{name}"), None)


def _foundation(each) -> bool:
    """True for the chain a piece begins with."""
    chain = foundation_chain(each.seen.row)
    return chain is not None and chain.n is each.values and min((n for n in each.values if n), default=0) >= 8


def _finding(case: Case, values: list, what: str, span, row, unit: str = ""):
    if len(values) != len(case.sizes) or None in values or len(set(values)) < 3:
        return
    odd = _odd_one(values)
    if odd is None:
        return
    index, better = odd
    shown = size_list([number_text(value) for value in values])
    steps = ", ".join(f"{after - before:+.4g}" for before, after in zip(values, values[1:], strict=False))
    suggestions = ()
    if better is not None:
        mended = [better if other == index else value for other, value in enumerate(values)]
        suggestions = (
            Suggestion(
                f"write {number_text(better)}{unit} in {of_size(case.sizes[index])}",
                "your choice",
                effect="steps of " + ", ".join(f"{after - before:+.4g}" for before, after in zip(mended, mended[1:], strict=False)),
            ),
        )
    yield Finding(
        KIND,
        LOOK,
        f"{of_size(case.sizes[index])} falls out of {what}: {shown}{unit}, in steps of {steps}",
        span,
        row,
        (case.sizes[index],),
        expected=better,
        found=values[index],
        whose="the other sizes",
        suggestions=suggestions,
    )


def _odd_one(values: list):
    """(index, the value that would fit or None) of the one value that breaks the progression, None where none or several do."""
    steps = [after - before for before, after in zip(values, values[1:], strict=False)]
    falls = [index for index, step in enumerate(steps) if step < 0]
    rises = [index for index, step in enumerate(steps) if step > 0]
    minority = falls if len(falls) <= len(rises) else rises
    candidates = range(len(values))
    if minority:
        fitting = [index for index in candidates if _ordered(values[:index] + values[index + 1 :])]
        if not fitting:
            return None
        even = [(index, better) for index in fitting if (better := _even_without(values, index)) is not None]
        return even[0] if len(even) == 1 else (fitting[-1] if len(fitting) == 1 else fitting[len(fitting) // 2], None)
    if len(values) < 5:
        return None
    even = [(index, better) for index in candidates[1:-1] if (better := _even_without(values, index)) is not None and abs(better - values[index]) > 1e-6]
    return even[0] if len(even) == 1 else None


def _ordered(values: list) -> bool:
    pairs = list(zip(values, values[1:], strict=False))
    return all(a <= b for a, b in pairs) or all(a >= b for a, b in pairs)


def _even_without(values: list, index: int):
    """The value that makes all steps alike, where the others already are; else None."""
    others = [(position, value) for position, value in enumerate(values) if position != index]
    (p0, v0), (p1, v1) = others[0], others[-1]
    step = (v1 - v0) / (p1 - p0)
    if step == 0 or any(abs(v0 + step * (position - p0) - value) > 1e-9 for position, value in others):
        return None
    better = v0 + step * (index - p0)
    return int(better) if float(better).is_integer() else better
