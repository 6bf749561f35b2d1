"""A row is for a size that the pattern does not have.

With it::

    ---
    sizes: [S, M, L]
    ---
    Ch 36 (40, 44).
    Row 1: Sc in 2nd ch from hook and in each ch across. (35 (39, 43) sc)
    Size XL only: Row 2: Ch 1, turn, sc in each st across.

Without it::

    ---
    sizes: [S, M, L]
    ---
    Ch 36 (40, 44).
    Row 1: Sc in 2nd ch from hook and in each ch across. (35 (39, 43) sc)
    Size L only: Row 2: Ch 1, turn, sc in each st across.

Working::

    the sizes are S, M and L

What to do: name a size as it is named in the head.
"""

from difflib import get_close_matches

from hookwright.ground import MUST_MEND, Finding, Suggestion

from ..case import Case
from ..wording import listing

KIND = "no-such-size"


def find(case: Case):
    known = {size.casefold(): size for size in case.sizes if size}
    if len(known) < 2:
        return
    for seen in case.seen:
        for name in seen.row.only:
            if name.casefold() in known:
                continue
            near = get_close_matches(name.casefold(), known, 1, 0.5)
            yield Finding(
                KIND,
                MUST_MEND,
                f"{seen.name} is for size {name}, and the sizes are {listing(case.sizes)}",
                seen.row.label_span,
                seen.name,
                expected=listing(case.sizes, "or"),
                found=name,
                whose="the sizes",
                suggestions=tuple(Suggestion(f"size {known[one]}", "your choice") for one in near),
            )
