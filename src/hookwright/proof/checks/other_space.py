"""A space is called by another number of chains than it has.

The row says "ch-2 sp", and the space met there was made of another number of chains. The stitches come out all the same, but a maker
who looks for a space of two chains does not find one.

With it::

    Ch 4, join with sl st to form a ring.
    Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 3, *3 dc in ring, ch 3; rep from * 2 times more, join. (12 dc)
    Rnd 2: Sl st in next 2 sts and in ch-2 sp, ch 3 (counts as dc), 5 dc in same sp, *6 dc in next ch-2 sp; rep from * around, join. (24 dc)

Without it::

    Ch 4, join with sl st to form a ring.
    Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 3, *3 dc in ring, ch 3; rep from * 2 times more, join. (12 dc)
    Rnd 2: Sl st in next 2 sts and in ch-3 sp, ch 3 (counts as dc), 5 dc in same sp, *6 dc in next ch-3 sp; rep from * around, join. (24 dc)

Working::

    Rnd 1 makes 4 spaces of 3 chains and none of 2

What to do: call the space by the chains it was made of, or mend the row that made it.
"""

from hookwright.ground import LOOK, MUST_MEND, Suggestion

from ..about_row import about_row
from ..case import Case
from ..wording import count, quoted

KIND = "other-space"


def find(case: Case):
    seen = set()
    for off in case.off("other-space"):
        facts = off.facts()
        wanted, have = facts.get("wanted"), facts.get("have")
        if (id(off.row), wanted, have) in seen:
            continue
        seen.add((id(off.row), wanted, have))
        size, (index, worked, _) = min(off.at.items())
        below = case.same_row(size, index)[size][1]
        name = case.name_of(off.row, off.label)
        message = case.says_of(
            off,
            f"{name} goes into a space of {count(wanted, 'chain') if isinstance(wanted, int) else wanted};",
            f"the space there has {count(have, 'chain') if isinstance(have, int) else have}",
        )
        none_like_it = below is not None and wanted not in below.spaces and not below.troubles and not below.assumed
        off_too = any(trouble.kind != "other-space" for trouble in worked.troubles)
        old = case.text[off.span.start : off.span.end]
        new = old.replace(str(wanted), str(have), 1) if isinstance(wanted, int) and isinstance(have, int) else old
        suggestion = Suggestion(
            f"write `ch-{have} sp`" if new == old else f"write {quoted(new, off.span._replace(start=0, end=len(new)))}",
            "likely",
            text=None if new == old else new,
            span=None if new == old else off.span,
            effect="the place is called what it is",
        )
        yield about_row(
            case,
            off,
            KIND,
            MUST_MEND if none_like_it and off_too else LOOK,
            message,
            expected=have,
            found=wanted,
            whose="the row below",
            suggestions=(suggestion,),
        )
