"""The list of abbreviations lacks one that the rows use.

Looked at where the manuscript has a list of its own. (The pattern sheet makes its list from the rows, so there nothing can be missing.)

With it::

    ## Abbreviations

    - ch: chain
    - sc: single crochet
    - st: stitch

    ## Cloth

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 2, turn, hdc in each st across. (10 hdc)

Without it::

    ## Abbreviations

    - ch: chain
    - hdc: half double crochet
    - sc: single crochet
    - st: stitch

    ## Cloth

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 2, turn, hdc in each st across. (10 hdc)

Working::

    used: ch, sc, st, hdc; listed: ch, sc, st

What to do: add it to the list.
"""

import re

from hookwright.ground import LOOK, NOTE, Finding, Suggestion, listing
from hookwright.notation.tree import Chain, Join, Stitch
from hookwright.stitches import dialect

from ..abbreviation_list import entries, is_covered, other_words, row_tokens, short_forms
from ..case import Case

KIND = "abbreviation-undefined"


def find(case: Case):
    listed = entries(case)
    if len(listed) < 3:
        return
    words = dialect(case.terms)
    defined = {id for entry in listed for id in entry.stitches}
    abbrs = {_plain(form) for entry in listed for form in entry.forms} | {part for entry in listed for part in entry.abbr.lower().split()}
    missing, first = [], None
    own = {kind.casefold() for kind in case.pattern.own}
    for id, (seen, span) in _used(case).items():
        if is_covered(id, defined, abbrs) or id.casefold() in own or words.abbr(id).lower() in abbrs:
            continue
        form = short_forms(case.terms).get(id)
        if form is None or form.search(case.text, seen.row.span.start, seen.row.span.end) is None:
            continue
        missing.append(words.abbr(id))
        first = first or (seen, span)
    if missing:
        seen, span = first
        yield _finding(LOOK, missing, span, seen.name, listed)
    tokens = {token.lower() for token in row_tokens(case)}
    others = [abbr for abbr in other_words(case) if abbr.lower() in tokens and abbr.lower() not in abbrs]
    if others:
        yield _finding(NOTE, others, listed[0].span, None, listed)


def _plain(form: str) -> str:
    return re.sub(r"\(e?s\)", "", form.lower()).strip(" .")


def _finding(grade: str, missing: list[str], span, row, listed) -> Finding:
    one = len(missing) == 1
    return Finding(
        KIND,
        grade,
        f"the rows use {listing(missing)}, and the abbreviations do not list {'it' if one else 'them'}",
        span,
        row,
        found=listing(missing),
        whose="the list of abbreviations",
        labels=((listed[0].span, "the list begins here"),),
        suggestions=(Suggestion(f"add {listing(missing)} to the list", "likely"),),
    )


def _used(case: Case) -> dict:
    """Stitch id -> (row, place) of its first use."""
    used: dict[str, tuple] = {}
    for kind in (Stitch, Chain, Join):
        for seen, node in case.nodes(kind):
            id = "ch" if kind is Chain else node.kind
            if id not in used or seen.index < used[id][0].index:
                used[id] = (seen, node.span if node.span.end else seen.row.span)
    return dict(sorted(used.items(), key=lambda item: item[1][0].index))
