"""The row below a fragment, in plain written notation, in the order in which it was worked.

"20 dc", "ch 3 (counts as dc), 19 dc", "[3 dc, ch 1] x 7, 3 dc, ch 2", "(2 dc, ch 2, 2 dc) in one st", "ring", "65 ch", "22 row ends",
"20 (24, 28) dc", "16 sc of leg 1, 16 sc of leg 2". A ring becomes Ring(), "65 ch" Chain(65, role="foundation"), row ends
Stitch(kind="row end", n=22).
"""

import re

from hookwright.ground import LOOK, Finding, Span

from . import tree
from .number_words import listed_number
from .patterns import Lazy

_RING = Lazy(r"\s*(?:(?:in\s+|a\s+|the\s+)?(?:magic\s+|adjustable\s+|ch(?:ain)?\s+)?ring(?:\s+of\s+\d+\s*ch\w*)?|magic\s+(?:circle|loop)|MR)\s*(?:,\s*(?:hook\s+)?(?:joined|closed)[^,]*)?\.?\s*", re.I)
_CHAIN_ONLY = Lazy(r"\s*(?:(?:a\s+)?(?P<n>\d{1,7})(?P<list>\s*[\(\[][^()\[\]]{0,120}[\)\]])?\s*(?:ch|chs|chains?|foundation\s+ch\w*)|ch(?:ain)?\s*(?P<m>\d{1,7})(?P<list2>\s*[\(\[][\d\s,;-]{0,120}[\)\]])?)\s*\.?\s*", re.I)
_ROW_ENDS = Lazy(r"(?:(?P<n>\d{1,7})(?P<list>\s*[\(\[][\d\s,;-]{0,120}[\)\]])?\s*)?row\s*-?\s*ends?", re.I)
_STARTS = Lazy(r"\s*row\s*-?\s*ends?\s*\.?\s*", re.I)
_LIST = Lazy(r"\b\d{1,7}\s*\(\s*(?:\d{1,7}|-)(?:\s*[,;]\s*(?:\d{1,7}|-))*\s*\)")
_FROM = Lazy(r"\s+of\s+(?:the\s+)?(?:leg|piece|arm|ear|side|part|motif|panel|strap|wing)\s*\w*", re.I)
_ONE = Lazy(r"\s+(?:all\s+)?in\s+(?:the\s+|one\s+|a\s+)?(?:same\s+|one\s+|single\s+)?(?:st(?:itch)?|sp(?:ace)?|place|ch)\b", re.I)


def _uneven_list(work: str, sizes: int) -> Finding | None:
    """ "20 (24) sc" for three sizes: said, and not taken for another row."""
    for found in _LIST.finditer(work) if sizes > 1 else ():
        numbers = len(re.findall(r"\d+|-", found[0]))
        if numbers != sizes:
            message = f"`{found[0]}` in the row below gives {numbers} numbers for {sizes} sizes, so it was not used; write one for each size"
            return Finding("below-not-read", LOOK, message, Span(*found.span()), expected=sizes, found=numbers)
    return None


def _one_group(repeat: tree.Repeat) -> None:
    """ "[3 dc] x 12": why the bracket, if not since they stand together? Groups side by side, with gaps between them."""
    only = repeat.steps[0]
    if isinstance(only, tree.Stitch) and isinstance(only.n, int) and 1 < only.n < 8 and only.place is None and only.kind in ("hdc", "dc", "tr"):
        repeat.steps = [tree.Group([only], tree.Place(n=1), span=only.span)]


def read_below(text: str, lexicon) -> tuple[list, list[Finding]]:
    """The steps that made the row below, and findings for what could not be read."""
    from .clean import clean
    from .steps import read_steps

    if isinstance(lexicon, tree.Pattern):
        from .words import Lexicon

        lexicon = Lexicon(lexicon.terms, lexicon.own, len(lexicon.sizes) or 1)
    findings: list[Finding] = []
    work = clean(text.replace("\r", " ").replace("\n", " "))
    if len(work) > 100_000:
        findings.append(Finding("too-much-text", LOOK, f"the row below is {len(work):,} characters long; up to 100,000 are read", Span(100_000, len(work))))
        work = work[:100_000]
    if _RING.fullmatch(work):
        return [tree.Ring()], findings
    found = _CHAIN_ONLY.fullmatch(work)
    if found:
        number = listed_number(found["n"] or found["m"], found["list"] or found["list2"])
        return [tree.Chain(number, role="foundation", span=Span(0, len(text)))], findings
    found = _ROW_ENDS.fullmatch(work.strip(" ."))
    if found:
        number = listed_number(found["n"], found["list"]) if found["n"] else None
        return [tree.Stitch("row end", n=number, span=Span(0, len(text)))], findings
    uneven = _uneven_list(work, lexicon.sizes)
    if uneven is not None:
        findings.append(uneven)
        return [], findings
    work = _FROM.sub(lambda match: " " * len(match[0]), work)
    read = read_steps(work, 0, len(work), lexicon, in_round=False)
    steps: list = []
    for step in read.steps:
        if isinstance(step, tree.Note):
            continue
        if isinstance(step, tree.Repeat) and len(step.steps) == 1:
            _one_group(step)
        steps.append(step)
    unread = [step for step in steps if isinstance(step, tree.Unread)]
    for step in unread:
        findings.append(
            Finding(
                "below-not-read", LOOK,
                f"`{step.text.strip()[:80]}` in the row below could not be read; write it as it was worked, for instance `ch 3 (counts as dc), 19 dc`",
                step.span,
            )
        )
    findings.extend(finding for finding in read.findings if not unread or finding.kind != "cannot-read")
    return [step for step in steps if not isinstance(step, tree.Unread)], findings
