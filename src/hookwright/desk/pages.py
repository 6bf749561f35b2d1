"""Pages of the kinds of finding, from the docstrings of the checks and from the rooms that report kinds of their own."""

from inspect import cleandoc

from hookwright.desk.open_manuscript import PAGES as OPENING_PAGES
from hookwright.desk.show import fold


def pages() -> dict[str, str]:
    """kind -> its page (plain text), in the order of their names."""
    from hookwright.proof import PAGES as PROOF_PAGES

    known = {**PROOF_PAGES, **OPENING_PAGES}
    return {kind: cleandoc(known[kind]) for kind in sorted(known)}


def page(kind: str, text: str, width: int) -> str:
    """One page within a width: the kind as a heading, paragraphs folded, manuscripts and sums as they stand."""
    parts = []
    for part in text.split("\n\n"):
        if part.startswith((" ", "-")):
            parts.append(part)
        else:
            parts.append("\n".join(fold(part[:-1] if part.endswith("::") else part, width)))
    return "\n\n".join([f"{kind}\n{'=' * len(kind)}", *parts])


def listed(known: dict[str, str], width: int) -> str:
    """All kinds with the first sentence of their page."""
    column = max(map(len, known)) + 2
    out = []
    for kind, text in known.items():
        first = " ".join(text.split("\n\n")[0].split())
        out += fold(first, max(width, column + 30), f"{kind:{column}}", " " * column)
    return "\n".join(out)
