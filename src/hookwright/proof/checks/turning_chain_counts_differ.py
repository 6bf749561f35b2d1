"""What a turning chain counts as is said once for all, and said otherwise in one row.

With it::

    ## Notes

    Ch 2 at the beginning of a row does not count as a st.

    ## Cloth

    Ch 12.
    Row 1: Hdc in 3rd ch from hook and in each ch across. (10 hdc)
    Row 2: Ch 2 (counts as hdc), turn, hdc in next st and in each st across. (10 hdc)

Without it::

    ## Notes

    Ch 2 at the beginning of a row does not count as a st.

    ## Cloth

    Ch 12.
    Row 1: Hdc in 3rd ch from hook and in each ch across. (10 hdc)
    Row 2: Ch 2, turn, hdc in each st across. (10 hdc)

Working::

    the notes: ch 2 does not count; Row 2: ch 2 counts as hdc

What to do: keep to one way through the pattern, or take back the sentence in the notes.
"""

from hookwright.ground import LOOK, Finding, Span, Suggestion, at
from hookwright.notation.tree import Chain

from ..case import Case

KIND = "turning-chain-counts-differ"


def find(case: Case):
    held: dict[int | None, tuple[bool, Span, str]] = {}  # chains (None: any) -> (counts, place, where it is said)
    for convention in case.pattern.conventions:
        if convention.kind == "tch" and convention.says is not None and convention.stitch is None and convention.value != "unless":
            held.setdefault(convention.chains, (convention.says.counts, convention.span, "the notes"))
    for seen, chain in case.nodes(Chain):
        says = chain.says
        if says is None or chain is not _first_chain(seen.row):
            continue
        number = at(chain.n, 0)
        earlier = held.get(number) or held.get(None)
        if earlier is None:
            if says.onward:
                held[number] = (says.counts, says.span, seen.name)
            continue
        if earlier[0] == says.counts or says.chains or says.stitches > 1:
            continue
        counts = {True: "counts as a stitch", False: "does not count"}
        yield Finding(
            KIND,
            LOOK,
            f"by {earlier[2]} ch {number} {counts[earlier[0]]}, and {seen.name} says that it {'does' if says.counts else 'does not'}",
            says.span if says.span.end else chain.span,
            seen.name,
            expected=earlier[0],
            found=says.counts,
            whose=earlier[2],
            labels=((earlier[1], "said here for all rows"),) if earlier[1].end else (),
            suggestions=(Suggestion("keep to one way through the pattern, or say here that this row is an exception", "your choice"),),
        )


def _first_chain(row):
    return next((step for step in row.steps if type(step) is Chain), None)
