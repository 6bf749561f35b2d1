"""A round is joined to a stitch or chain that it does not have.

"Join to first hdc" where the round is of sc, or "in 3rd ch of ch-5" where it began with ch 4: the maker looks for a place that is not there.

With it::

    Rnd 1: 12 sc in magic ring, join. (12)
    Rnd 2: Ch 1, sc in each st around, join with sl st to first hdc. (12)

Without it::

    Rnd 1: 12 sc in magic ring, join. (12)
    Rnd 2: Ch 1, sc in each st around, join with sl st to first sc. (12)

Working::

    the round has sc; it is joined to the first hdc

What to do: name the stitch or chain the round begins with.
"""

from hookwright.ground import LOOK, Suggestion, listing

from ..about_row import about_row
from ..case import Case
from ..wording import stitch_word

KIND = "join-differs"


def find(case: Case):
    for off in case.off("join-differs"):
        facts, name = off.facts(), case.name_of(off.row, off.label)
        made, said = facts["made"], facts["said"]
        if isinstance(made, list):
            made, said = listing([stitch_word(kind, case.terms) for kind in made]), f"the first {stitch_word(said, case.terms)}"
        begins = f"name what the round begins with: {made}" if made else "begin the round with that chain, or join it to its first stitch"
        yield about_row(
            case,
            off,
            KIND,
            LOOK,
            case.says_of(off, f"{name} is joined to {said}; the round {f'has {made}' if made else 'does not begin with a chain'}"),
            expected=made or "no chain",
            found=said,
            whose="the words of the row",
            suggestions=(Suggestion(begins, "likely"),),
        )
