"""Toys whose rows are written in capitals with no legend: "R3: (X, V)*6 [18]", X a single crochet, V an increase."""

import re

from . import tree
from .patterns import Lazy
from .vocabulary import letters

_OTHER = r"(?:[TF]?[VA]|[WMTF])"
_SIGNS = Lazy(
    rf"(?<![\w.])\d*X\s*[,;+]?\s*\d*{_OTHER}(?!\w)|(?<![\w.])\d*{_OTHER}\s*[,;+]?\s*\d*X(?!\w)"  # "(2X, V)", "7X, 2A, 7X"
    r"|(?<![\w.])\d+[XVA][ \t]*(?:[(\[]\s*\d+\s*(?:sts?)?\s*[)\]]|=\s*\d)"  # "R2: 6V (12)"
)
_ONLY = Lazy(r"\d[VA][ \t]*(?:[(\[]|=)")
_LABEL = Lazy(r"[ \t*]*(?:r(?:oun|n)?ds?|rows?|r)?[ \t.]*\d", re.I)


def letter_stitches(work: str, own: dict) -> dict[str, tree.OwnStitch]:
    """The letters of such rows as stitches, those left out that she explains herself; none where the rows are written otherwise."""
    if "X" not in work and not _ONLY.search(work) or not any(_LABEL.match(work, work.rfind("\n", 0, found.start()) + 1) for found in _SIGNS.finditer(work)):
        return {}
    hers = {spelling for stitch in own.values() for spelling in (stitch.name, *stitch.spellings)}
    return {letter: _stitch(letter, means) for letter, means in letters().items() if letter not in hers}


def _stitch(letter: str, means: str) -> tree.OwnStitch:
    number, _, kind = means.rpartition(" ")
    if number:
        return tree.OwnStitch(letter, steps=[tree.Stitch(kind, n=int(number))], group=True, words=f"{means} in one stitch")
    return tree.OwnStitch(letter, steps=[tree.Stitch(kind)], kind=kind, words=kind)
