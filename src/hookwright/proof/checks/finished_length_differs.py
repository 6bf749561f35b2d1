"""A finished length, height or diameter that nothing of the pattern comes to at the stated gauge.

A piece is as long as its rows are high together: each row by the gauge of its stitch, or in proportion to the one that is measured. A circle is as
wide as two times its rounds. Here a length is stated that no piece, no two or three pieces one on the other, no width of a piece and no
circle comes to, not by a fifth more or less. So the gauge, the measure or the number of rows is of an earlier version.

With it::

    ---
    gauge:
      - stitches: 16
        rows: 20
        over: 10 cm
        in: sc
    finished: {width: 10 cm, length: 150 cm}
    ---
    Ch 17.
    Row 1: Sc in 2nd ch from hook and in each ch across. (16 sc)
    Rows 2-100: Ch 1, turn, sc in each st across. (16 sc)

Without it::

    ---
    gauge:
      - stitches: 16
        rows: 20
        over: 10 cm
        in: sc
    finished: {width: 10 cm, length: 150 cm}
    ---
    Ch 17.
    Row 1: Sc in 2nd ch from hook and in each ch across. (16 sc)
    Rows 2-300: Ch 1, turn, sc in each st across. (16 sc)

Working::

    100 rows at 20 in 10 cm are 100 / 20 x 10 = 50 cm
    150 cm would be 150 / 10 x 20 = 300 rows

Widths are looked at by `gauge-against-finished`. What is stuffed, folded, gathered or hangs is left alone; `hookwright measure` tells what the
solved shape comes to.

What to do: measure the piece and count its rows again, and mend whichever is old.
"""

import re
from itertools import combinations
from math import pi, sqrt

from hookwright import sizing
from hookwright.ground import LOOK, Finding, Suggestion, of_size

from ..case import Case
from ..wording import number_text, sentence

KIND = "finished-length-differs"
_NAMES = re.compile(r"^(?:finished |total |overall )?(?:length|height|depth|diameter)$", re.IGNORECASE)
_OTHERWISE = re.compile(r"\b(?:fold\w*|turn(?:ed)? (?:up|back|over)|turn-up|stretch\w*|gather\w*|stuff\w*|drawstring|fringe|tassel\w*|pleat\w*|smock\w*|heel|gusset|hood)\b", re.IGNORECASE)
_ALLOWED = 0.2  # edgings, blocking and what a fabric weighs; common practice, no source
_MANY, _FEW = 40, 8  # lengths looked at, and put together, at most


def find(case: Case):
    head = case.head
    finished = {name: measure for name, measure in (case.from_head("finished") or {}).items() if _NAMES.match(name.replace("_", " ").strip())}
    if not finished or head is None or not case.fabrics or not any(gauge.row_mm and gauge.stitch_mm for gauge in sizing.gauges_of(head)) or _is_open(case):
        return
    from hookwright.shape import rest_sizes

    sizes = [rest_sizes(head, case.terms, fabric.rows, fabric.kinds) for fabric in case.fabrics]
    for name, measure in finished.items():
        off, lengths = {}, [_lengths(fabric, each, name.endswith("diameter")) for fabric, each in zip(case.fabrics, sizes, strict=True)]
        for size, known in enumerate(lengths):
            wanted = measure.at(size)
            if wanted is None or not known:
                continue
            if not any(wanted[0] * (1 - _ALLOWED) <= one <= wanted[1] * (1 + _ALLOWED) for one in known):
                off[size] = wanted, min(known, key=lambda one, wanted=wanted: abs(one - wanted[0]))
        if off and len(off) == sum(measure.at(size) is not None for size in range(len(lengths))):
            yield _finding(case, name, off)


def _finding(case: Case, name: str, off: dict) -> Finding:
    size, (wanted, near) = min(off.items())
    span = case.span_in_head(f"finished.{name}")
    in_size = f" of {of_size(case.sizes[size])}" if len(case.sizes) > 1 else ""
    return Finding(
        KIND, LOOK,
        sentence(f"nothing comes to the finished {name.replace('_', ' ')} of {_cm(wanted[0])}{in_size}:", f"by the rows and the gauge the nearest is {_cm(near)}"),
        span if span.end else case.span_in_head("finished"), None, case.size_names(off), expected=round(wanted[0]), found=round(near), whose="the gauge",
        working=(("size", "finished", "nearest by rows and gauge"), *((case.sizes[one], _cm(pair[0]), _cm(nearest)) for one, (pair, nearest) in off.items())),
        suggestions=(Suggestion("measure the piece and count its rows again; `hookwright measure` shows what each piece comes to", "your choice"),),
    )


def _cm(mm: float) -> str:
    return f"{number_text(round(mm / 10, 1))} cm"


def _is_open(case: Case) -> bool:
    """Whether it is not known how long it gets, or the words tell that it is used otherwise than it lies."""
    if set(case.from_head("for_") or ()) & {"toy"} or case.read("cannot-read") or getattr(case.work, "row_troubles", None) or getattr(case.work, "too_much", None) is not None:
        return True
    if any(seen.row.again is not None and seen.row.again.until is not None for seen in case.seen):
        return True
    return bool(_OTHERWISE.search(" ".join([case.from_head("title") or "", *(piece.name or "" for piece in case.pattern.pieces), *(prose.rest for _, prose in case.prose)])))


def _lengths(fabric, sizes, across: bool) -> set[float]:
    """Lengths in mm that the fabric may be measured to have: of what stands row on row, of two or three of these together, and of rows.
    across: of circles, from edge to edge."""
    rows, top, ends = fabric.rows, {}, set()
    for index, row in enumerate(rows):
        below = top.get(row.below, 0.0) if row.below >= 0 else 0.0
        kind = max(row.by_kind.items(), key=lambda item: (item[1] * (item[0] != "slst"), item[0]))[0] if row.by_kind else ""
        top[index] = below + (sizes.height(kind) if kind and row.has_height else 0.0)
        ends.discard(row.below)
        ends.add(index)
    last: dict = {}  # the last row of every piece: what stands on it may be a border
    for index, row in enumerate(rows):
        last[row.piece] = index
    parts = [top[index] for index in sorted({*ends, *last.values()}) if top[index]][:_MANY]
    wide = {(row.stitches + more) * sizes.width_mm for row in rows if row.stitches for more in {0, sum(row.spaces)}}
    if across:
        return {2 * one for one in parts} | {one / pi for one in wide}
    out = set(parts)
    for number in (2, 3):
        out |= {sum(some) for some in combinations(parts[:_FEW], number)}
    if any(row.in_round for row in rows) or any(-2 in row.foot[:2] for row in rows[:3]):  # from the middle: to both sides, or along a diagonal
        out |= {one * times for one in parts for times in (2, sqrt(2), 2 * sqrt(2))}
    return out | {one * times for one in wide for times in (1, 0.5, 0.25, 1 / sqrt(2))}
