"""The stated multiple and the foundation chain do not agree.

With it::

    ## Notes

    The pattern is worked over a multiple of 6 chains plus 4.

    ## Scarf

    Ch 45.
    Row 1: Sc in 2nd ch from hook and in each ch across. (44 sc)

Without it::

    ## Notes

    The pattern is worked over a multiple of 6 chains plus 4.

    ## Scarf

    Ch 46.
    Row 1: Sc in 2nd ch from hook and in each ch across. (45 sc)

Working::

    45 - 4 = 41, and 41 = 6 x 6 + 5; 46 - 4 = 42 = 7 x 6

What to do: mend the chain or the multiple. For which chains all rows hold is printed with the pattern.
"""

import re

from hookwright.ground import LOOK, Finding, Span, Suggestion, at, listing

from ..case import Case
from ..size_lists import foundation_chain
from ..wording import count, quoted

KIND = "multiple-differs"
_LONG = 8  # fewer chains are a ring or a turning chain
_OF_ROWS = re.compile(r" ?(?:rows|rounds|rnds|cm|in|inches|points|rep)\b", re.IGNORECASE)
_ROWS_BEFORE = re.compile(r"\b(?:rows|rounds|rnds)\b[^.;:]*$", re.IGNORECASE)
_WHAT = "sts?|stitches|chs?|chains"
_MULTIPLE = re.compile(
    rf"\bmultiples? of (?P<n>\d{{1,3}})(?: ?(?P<of>{_WHAT})\b)?(?:,? ?(?:plus|\+|and|add|with) ?(?P<plus>\d{{1,3}})(?: ?(?P<more>{_WHAT})\b)?)?(?P<chain>,? ?\(?(?:plus|\+|and|add|with) ?(?:\d{{1,2}}|one|two|three|four) ?(?:(?:more|extra|{_WHAT}) )?(?:for|as|to make) (?:the |a )?(?:foundation|base|turning|starting|beginning|turn))?",
    re.IGNORECASE,
)

_DERIVED = re.compile(r"any multiple of (\d+)(?:, plus (\d+))? chains?\b")


def find(case: Case):
    chains = _foundations(case)
    if not chains:
        return
    rows = [(seen.piece, seen.row) for seen in case.seen]
    for piece, item in (*case.prose, *rows):
        text = case.text[item.span.start : item.span.end] or item.text
        if "ultiple" not in text:
            continue
        own = [found for found in chains if found[0].piece is piece]
        if piece.section == "" and not own or not own and len(chains) > 1:
            continue  # which of several foundations is meant is not said
        seen, chain = (own or chains)[0]
        for found in _MULTIPLE.finditer(text):
            step, plus = int(found["n"]), int(found["plus"] or 0)
            if step < 2:
                continue
            begins = item.span.start + found.start()
            if _OF_ROWS.match(case.text, item.span.start + found.end()) or _ROWS_BEFORE.search(case.text, max(0, begins - 40), begins):
                continue
            span = Span(begins, item.span.start + found.end())
            if found["chain"]:  # "plus 1 for the foundation": what is said before is of the stitches of the first row
                further = re.search(r"\d+|one|two|three|four", found["chain"])[0]
                plus += int(further) if further.isdigit() else {"one": 1, "two": 2, "three": 3, "four": 4}[further.lower()]
            of_chains = bool(found["chain"]) or (found["of"] or found["more"] or "?")[0].lower() == "c" or item is seen.row  # said of the chain itself
            finding = _finding(case, seen, chain, step, plus, of_chains, span) or _of_rows(case, seen, chain, step, plus, of_chains, span)
            if finding is not None:
                yield finding


def _foundations(case: Case):
    """(row, chain) where a piece begins with a chain of some length that is not joined to a ring."""
    out = []
    for _, rows in case.by_piece:
        chain = foundation_chain(rows[0].row)
        if chain is not None and (at(chain.n, 0) or 0) >= _LONG:
            out.append((rows[0], chain))
    return out


def _finding(case: Case, seen, chain, step: int, plus: int, of_chains: bool, span: Span) -> Finding | None:
    off = {}
    for size in range(len(case.sizes)):
        number = at(chain.n, size)
        if number is None:
            continue
        first = None if of_chains else _first_stitches(case, seen, size)
        if (number - plus) % step and (first is None or (first - plus) % step):
            off[size] = number
    if not off:
        return None
    size, number = min(off.items())
    over = (number - plus) % step
    near = [value for value in (number - over, number - over + step) if value > plus]
    said = f"a multiple of {step}" + (f" plus {plus}" if plus else "")
    return Finding(
        KIND,
        LOOK,
        case.says(
            off,
            f"the foundation of {count(number, 'chain')} is not {said}:",
            f"{number} - {plus} = {number - plus}, and {number - plus} = {(number - plus) // step} x {step} + {over}",
        )
        if plus
        else case.says(off, f"the foundation of {count(number, 'chain')} is not {said}: {number} = {number // step} x {step} + {over}"),
        span,
        seen.name,
        case.size_names(off),
        expected=said,
        found=number,
        whose="the stated multiple",
        labels=((chain.span, f"{quoted(case.text, chain.span)} stands here"),),
        suggestions=(
            Suggestion(
                f"chain {listing(near, 'or')}",
                "your choice",
                effect="; ".join(f"{value} = {plus} + {(value - plus) // step} x {step}" for value in near),
            ),
        ),
    )


def _of_rows(case: Case, seen, chain, step: int, plus: int, of_chains: bool, span: Span) -> Finding | None:
    """The stated multiple against the one that was derived by working the rows at many counts."""
    words = next((words for of, words in case.multiples if of == seen.piece.name), None)
    derived = _DERIVED.match(words) if words else None
    number, first = at(chain.n, 0), _first_stitches(case, seen, 0)
    if derived is None or number is None:
        return None
    needs, over = int(derived[1]), int(derived[2] or 0)
    pluses = [plus] if of_chains or first is None else [plus, plus + number - first]
    if step % needs == 0 and any((each - over) % needs == 0 for each in pluses):
        return None
    said = f"a multiple of {step}" + (f" plus {plus}" if plus else "")
    fails = next((value for value in range(plus, plus + step * needs + 1, step) if value >= over and (value - over) % needs), number)
    return Finding(
        KIND,
        LOOK,
        f"{said} is stated, and the rows of {seen.piece.name or 'the pattern'} hold for {words}: {fails} chains, say, would not do",
        span,
        seen.name,
        expected=words,
        found=said,
        whose="the rows worked at many counts",
        labels=((chain.span, f"{quoted(case.text, chain.span)} does for both"),),
        suggestions=(Suggestion(f"state {words}", "likely"),),
    )


def _first_stitches(case: Case, seen, size: int) -> int | None:
    """Stitches of the first row worked into this foundation."""
    if size >= len(case.fabrics):
        return None
    begun = False
    for worked in case.fabrics[size].rows:
        begun = begun or worked.row is seen.row
        if begun and worked.stitches:
            return worked.stitches
    return None
