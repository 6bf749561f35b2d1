"""The place a stitch is to go into is not there.

The row asks for a space, a corner, a stitch of one kind or a group that the row below does not have at that point.

With it::

    Ch 17.
    Row 1: Sc in 2nd ch from hook and in each ch across. (16 sc)
    Row 2: Ch 1, turn, sc in next 2 sts, dc in next ch-2 sp, sc in next 13 sts.

Without it::

    Ch 17.
    Row 1: Sc in 2nd ch from hook and in each ch across. (16 sc)
    Row 2: Ch 1, turn, sc in next 2 sts, dc in next st, sc in next 13 sts. (16 sts)

Working::

    Row 1 is 16 sc without a chain: it has no ch-2 space

What to do: look at what the row below makes in this place, and name that.
"""

from hookwright.fabric import stated_below
from hookwright.ground import LOOK, Suggestion, listing

from ..about_row import about_row
from ..case import Case
from ..wording import counted, with_article

KIND = "no-such-place"


def find(case: Case):
    for off in case.off("no-such-place"):
        size, (index, worked, trouble) = min(off.at.items())
        facts = trouble.facts
        name = case.name_of(off.row, off.label)
        below = case.same_row(size, index)[size][1]
        wanted = str(facts.get("wanted") or facts.get("of") or "the place named")
        message = case.says_of(off, name, f"asks for {_named(wanted, facts)}, and", _what_is_there(case, below, size))
        doubtful = below is not None and (below.troubles or below.assumed)
        yield about_row(
            case,
            off,
            KIND,
            LOOK if doubtful else case.grade(off),
            message,
            expected=wanted,
            found=facts.get("have"),
            suggestions=(Suggestion(_way_out(below, facts), "your choice"),),
            labels=((off.span, "not in the row below"),) if off.span.end else (),
        )


def _way_out(below, facts: dict) -> str:
    """What could be meant: another space that is there, or a stitch."""
    runs = sorted(set(below.spaces)) if below is not None and facts.get("of") == "sp" else []
    if runs:
        return f"name the space that is there ({listing([f'ch-{run} sp' for run in runs], 'or')}), or look whether the count of them is right"
    return "name a place that the row below has here, or make that place in the row below"


def _named(wanted: str, facts: dict) -> str:
    """The place with its article, or its number where more than one is asked for."""
    needed, of = facts.get("needed"), facts.get("of")
    if of not in ("sp", "corner", "group", "ch"):
        return f"the {wanted}"
    if isinstance(needed, int) and needed > 1 or of == "ch":
        return f"{needed} {wanted}" if of == "ch" else counted(needed, "sp", "US") if wanted == "space" else f"{needed} {wanted}s"
    return with_article(wanted)


def _what_is_there(case: Case, below, size: int) -> str:
    if below is not None:
        by_kind, spaces, label = below.by_kind, below.spaces, below.label or "the row below"
    elif case.below:
        by_kind, spaces = stated_below(case.below, size)
        label = "the row below, as it is given,"
    else:
        return "it is not there"
    parts = [counted(number, kind, case.terms) for kind, number in by_kind.items() if number]
    chains = {}
    for run in spaces:
        chains[run] = chains.get(run, 0) + 1
    parts += [counted(number, "sp", case.terms, run) for run, number in sorted(chains.items())]
    has = listing(parts[:6]) if parts else "no stitch"
    none = "" if chains else " and no chain space"
    return f"{label} has {has}{none}" + (", of which none is left here" if chains else "")
