"""The cautions a pattern owes its makers, from the table of cautions."""

import re
from functools import cache

from .document import Caution
from .trade_tables import caution_table


@cache
def _words(name: str):
    entry = next(entry for entry in caution_table() if entry["name"] == name)
    return re.compile(r"(?<!\w)(?:" + "|".join(map(re.escape, entry["words"])) + r")(?!\w)", re.IGNORECASE)


def cautions_owed(uses, text: str) -> tuple[str, ...]:
    """Names of the cautions owed by a piece for these `uses` (of the head) whose manuscript says `text`.

    >>> cautions_owed(("child",), "Sew on the button.")
    ('child', 'small-parts')
    """
    wanted = {use.strip().casefold() for use in uses}
    return tuple(
        entry["name"]
        for entry in caution_table()
        if wanted & set(entry["for"]) and ("words" not in entry or _words(entry["name"]).search(text))
    )


def caution_blocks(names) -> tuple[Caution, ...]:
    """The cautions with these names, as blocks. Where each comes from is kept in the table: it means nothing to a maker."""
    blocks = []
    for entry in caution_table():
        if entry["name"] in names:
            blocks.append(Caution(entry["title"], tuple(entry["points"])))
    return tuple(blocks)
