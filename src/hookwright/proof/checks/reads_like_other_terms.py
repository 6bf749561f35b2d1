"""The turning chains fit the stitch of the other set of terms.

In US terms a row of dc begins with 2 or 3 chains, in UK terms (where dc is a lower stitch) with 1. A pattern said to be in US terms in
which every row of dc begins with ch 1, and which has no lower stitch, reads like UK terms; and the other way round.

With it::

    ---
    terms: US
    ---
    Ch 11.
    Row 1: Dc in 2nd ch from hook and in each ch across, turn. (10 dc)
    Row 2: Ch 1, dc in each st across, turn. (10 dc)
    Row 3: Ch 1, dc in each st across, turn. (10 dc)
    Row 4: Ch 1, dc in each st across, turn. (10 dc)

Without it::

    ---
    terms: US
    ---
    Ch 12.
    Row 1: Dc in 4th ch from hook and in each ch across, turn. (10 dc)
    Row 2: Ch 3 (counts as dc), dc in next st and in each st across, turn. (10 dc)
    Row 3: Ch 3 (counts as dc), dc in next st and in each st across, turn. (10 dc)
    Row 4: Ch 3 (counts as dc), dc in next st and in each st across, turn. (10 dc)

Working::

    US dc is 3 chains high, UK dc 1 chain; 3 of 3 rows begin with ch 1

What to do: look whether `terms:` in the head says what the pattern is written in.
"""

from hookwright.ground import LOOK, Finding, Suggestion, at
from hookwright.notation.tree import Chain, Group, Repeat, Stitch
from hookwright.stitches import stitch

from ..case import Case, walk
from ..tables import table
from ..wording import count, stitch_word

KIND = "reads-like-other-terms"
_ENOUGH = 3  # rows: fewer may be one designer's habit


def find(case: Case):
    if not case.pattern.terms_said:
        return
    rule = table("tell_tales")["turns"]["us_dc_reads_uk" if case.terms == "US" else "uk_dc_reads_us"]
    kinds = {node.kind for _, node in case.nodes(Stitch)}
    plain = {(fact.base or kind) for kind in kinds if (fact := stitch(kind)) is not None and fact.kind in ("basic", "post", "decrease")} - {
        "slst",
        "ch",
    }
    if plain - {rule["stitch"]} or any((fact := stitch(kind)) is not None and fact.post for kind in kinds):
        return  # other heights stand beside it: her chains are her own habit
    begun = []
    for seen in case.seen:
        first = seen.row.steps[0] if seen.row.steps else None
        chain = next((step for step in seen.row.steps[:3] if type(step) is Chain), None)
        if first is None or chain is None or chain.role == "foundation" or seen.index == 0:
            continue
        worked = next(
            (step for step in walk(seen.row.steps) if type(step) in (Stitch, Group, Repeat) and not (type(step) is Stitch and step.kind == "slst")),
            None,
        )
        if worked is None:
            continue
        begun.append((seen, chain, at(chain.n, 0)))
    if len(begun) < _ENOUGH or any(number != rule["chains"] for _, _, number in begun):
        return
    if rule["chains"] > 1 and any(chain.says is None or not chain.says.counts for _, chain, _ in begun):
        return
    seen, chain, number = begun[0]
    other = "UK" if case.terms == "US" else "US"
    word = stitch_word(rule["stitch"], case.terms)
    yield Finding(
        KIND,
        LOOK,
        f"the pattern is said to be in {case.terms} terms; all {count(len(begun), 'row')} of {word} begin with ch {number}, as in {other} terms",
        chain.span if chain.span.end else seen.row.span,
        seen.name,
        expected=f"{case.terms} terms",
        found=f"ch {number} before {word}",
        whose="the terms stated",
        suggestions=(Suggestion(f"look whether the pattern is in {other} terms", "your choice"),),
        sources=("Woolly Kits, Understanding crochet turning chains (US and UK), https://woollykits.com/understanding-crochet-turning-chains",),
    )
