"""A yarn of this weight is hardly ever worked at this gauge, or with this hook.

The standard yarn weights go with ranges of gauge and hook. They are guidelines, and a pattern's own gauge rules: nothing is said before the
gauge belongs to a yarn two weights away; where a gauge is given the hook is held against the gauge, and not against the yarn. Nothing is said
of things that are worked tight on purpose (toys, things for the house).

With it::

    ---
    yarn: {name: moor wool, weight: bulky}
    hook: 3 mm
    gauge:
      - {stitches: 26, rows: 28, over: 10 cm, in: sc}
    ---
    Ch 41.
    Row 1: Sc in 2nd ch from hook and in each ch across. (40 sc)

Without it::

    ---
    yarn: {name: moor wool, weight: sock}
    hook: 3 mm
    gauge:
      - {stitches: 26, rows: 28, over: 10 cm, in: sc}
    ---
    Ch 41.
    Row 1: Sc in 2nd ch from hook and in each ch across. (40 sc)

Working::

    bulky (5): 8 to 11 sc in 10 cm with a hook of 6.5 to 9 mm
    26 sc in 10 cm is a gauge of super fine (1): 21 to 32

What to do: look at the weight, the gauge and the hook; inches may stand for centimetres, or the weight be that of another yarn. Where it is
meant so there is nothing to do.
"""

from hookwright import sizing
from hookwright.ground import NOTE, Finding, Suggestion, listing

from ..case import Case
from ..tables import table as words_of
from ..wording import number_text

KIND = "yarn-against-gauge"
_BASIC = ("sc", "hdc", "dc", "single crochet", "half double crochet", "double crochet")
_BASIC_UK = ("dc", "htr", "tr", "double crochet", "half treble crochet", "treble crochet", "half treble", "treble")
_SLACK = 0.1  # of the range at either end: the published ranges leave gaps between them
_APART = 2  # weights: the next one is common practice
_HELD = ("held double", "held together", "strands", "double strand")


def find(case: Case):
    weights = sorted({yarn.weight for yarn in case.from_head("yarn") or () if yarn.weight is not None})
    if not weights or set(case.from_head("for_") or ()) & set(words_of("worn")["tight_on_purpose"]):
        return
    basic = _BASIC_UK if case.terms == "UK" else _BASIC
    gauges = [(index, gauge) for index, gauge in enumerate(case.from_head("gauge") or ()) if gauge.stitches and gauge.over_mm and (gauge.in_ or "").lower() in basic]
    hooks = [hook.mm for hook in case.from_head("hook") or () if hook.mm]
    if gauges:
        for index, gauge in gauges:
            per = gauge.stitches / gauge.over_mm * 100
            near = _weights_at("sc_per_10cm", per)
            if near and _apart(weights, near) >= _APART and not _held(case):
                yield _finding(case, weights, near, "sc_per_10cm", f"{number_text(per)} stitches in 10 cm", _span(case, f"gauge.{index}", "gauge"), per)
                return
            if near and hooks and _apart(_of_hooks(hooks) or near, near) >= _APART:
                yield _finding(case, near, _of_hooks(hooks), "hook_mm", _hooks_in_words(hooks), _span(case, "hook", "hook"), hooks[0],
                               who=f"{number_text(per)} stitches in 10 cm are a gauge of")
                return
    elif hooks and not case.from_head("gauge") and not case.from_head("swatches") and 0 not in weights:
        near = _of_hooks(hooks)
        if near and _apart(weights, near) >= _APART and not _held(case):
            yield _finding(case, weights, near, "hook_mm", _hooks_in_words(hooks), _span(case, "hook", "hook"), hooks[0])


def _of_hooks(hooks) -> list[int]:
    """The weights that go with any of these hooks."""
    return sorted({weight for hook in hooks for weight in _weights_at("hook_mm", hook)})


def _hooks_in_words(hooks) -> str:
    return f"a hook of {listing([number_text(hook) for hook in hooks], 'or')} mm"


def _finding(case: Case, weights, near, key: str, what: str, span, found: float, who: str = "the yarn is") -> Finding:
    said = {weight["number"]: weight for weight in sizing.table("yarn_weights")["weight"]}
    mine = listing([f"{said[weight]['name']} ({weight})" for weight in weights])
    theirs = listing([f"{said[weight]['name']} ({weight})" for weight in near], "or")
    unit = "mm" if key == "hook_mm" else "stitches in 10 cm"
    return Finding(
        KIND, NOTE, f"{who} {mine} and {what} {'goes' if key == 'hook_mm' else 'is a gauge'} by the standard {'with' if key == 'hook_mm' else 'of'} {theirs}; your gauge rules, so this is only to look at",
        span, expected=list(said[weights[0]][key]), found=round(found, 1), whose="the standard yarn weights",
        working=(("weight", unit), *((f"{said[weight]['name']} ({weight})", f"{number_text(said[weight][key][0])} to {number_text(said[weight][key][1])}") for weight in (*weights, *near))),
        suggestions=(Suggestion("look at the weight of the yarn and the gauge once more", "your choice"),), sources=tuple(sizing.table("yarn_weights")["source"][:1]),
    )


def _held(case: Case) -> bool:
    """Whether several strands may be worked as one."""
    text = case.text.lower()
    return any(words in text for words in _HELD)


def _weights_at(key: str, value: float) -> list[int]:
    """The weights whose range of gauge or hook holds the value, with a little slack."""
    return [weight["number"] for weight in sizing.table("yarn_weights")["weight"] if weight[key][0] * (1 - _SLACK) <= value <= weight[key][1] * (1 + _SLACK)]


def _apart(weights, near) -> int:
    return min(abs(one - other) for one in weights for other in near)


def _span(case: Case, name: str, whole: str):
    span = case.span_in_head(name)
    return span if span.end else case.span_in_head(whole)
