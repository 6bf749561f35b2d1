"""Words of a row that belong to US or to UK terms only."""

import re
from functools import cache

from hookwright.ground import Span

from .case import Case, Seen
from .tables import table

_BOTH_GIVEN = re.compile(r"\b(?:US|U\.S\.?|USA|UK|U\.K\.?|American|British|English)\b")


@cache
def _pattern(terms: str) -> re.Pattern:
    return re.compile(r"(?<![A-Za-z-])(?:" + "|".join(table("tell_tales")[terms.lower()]["words"]) + r")(?![A-Za-z])", re.IGNORECASE)


def only_in(case: Case, terms: str) -> list[tuple[Seen, Span]]:
    """Where the rows use words that only these terms have; not where both terms are given side by side."""
    pattern = _pattern(terms)
    out = []
    own = {name.casefold() for name in case.pattern.own}
    for seen in case.seen:
        span = seen.row.span
        for found in pattern.finditer(case.text, span.start, span.end):
            around = case.text[max(span.start, found.start() - 24) : min(span.end, found.end() + 24)]
            if found[0].casefold() in own or _BOTH_GIVEN.search(around):
                continue
            out.append((seen, Span(found.start(), found.end())))
    return out
