"""A row is said to be on the right or the wrong side, and the turns made come to the other side.

Each turn brings the other side to face. Where a row is labelled (RS) or (WS), the labels after it are checked against the turns between.

With it::

    Ch 11.
    Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
    Row 2: Ch 1, sc in each st across, turn. (10 sc)
    Row 3 (WS): Ch 1, sc in each st across, turn. (10 sc)

Without it::

    Ch 11.
    Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
    Row 2: Ch 1, sc in each st across, turn. (10 sc)
    Row 3 (RS): Ch 1, sc in each st across, turn. (10 sc)

Working::

    Row 1 RS, turned: Row 2 WS, turned: Row 3 RS

What to do: mend the label, or the turns ("do not turn"), or an odd number of rows between that should be even.
"""

from hookwright.ground import LOOK, MUST_MEND, Finding, Suggestion
from hookwright.notation.tree import FastenOff, JoinYarn, Turn

from ..case import Case
from ..wording import count

KIND = "side-differs"
_OTHER = {"RS": "WS", "WS": "RS"}


def find(case: Case):
    if sum(1 for seen in case.seen if seen.row.side) < 2:
        return
    found = {}
    for size, fabric in enumerate(case.fabrics):
        for row, label, side, turns, anchor, sure in _contradictions(fabric.rows):
            found.setdefault(id(row), (row, label, side, turns, anchor, sure, set()))[-1].add(size)
    for row, label, side, turns, anchor, sure, sizes in found.values():
        name = case.name_of(row, label)
        message = case.says(
            sizes,
            f"{name} is said to be {side}; after {anchor} ({_OTHER[side] if turns % 2 == 0 else side})",
            f"{count(turns, 'turn')} {'brings' if turns == 1 else 'bring'} {_OTHER[side]} to face",
        )
        yield Finding(
            KIND,
            MUST_MEND if sure else LOOK,
            message,
            row.label_span,
            name,
            case.size_names(sizes),
            expected=_OTHER[side],
            found=side,
            whose="the turns made",
            suggestions=(
                Suggestion(f"label {name} ({_OTHER[side]})", "likely", effect=f"{anchor}, {count(turns, 'turn')}: {_OTHER[side]}"),
                Suggestion("say where the work is not turned, or is turned once more", "your choice"),
            ),
        )


def _contradictions(rows):
    """(row, label, side said, turns since, label it is counted from, sure) for each label the turns speak against.

    Counted anew from each label met, so that a wrong one is said once. Sure where every turn between is written out in the rows.
    """
    piece = anchor = anchor_label = None
    turns, written, broken = 0, True, False
    before = None
    for worked in rows:
        row = worked.row
        if row is None:  # the foundation chain
            continue
        if worked.piece != piece:
            piece, anchor = worked.piece, None
        if before is not None and worked.turned:
            turns += 1
            written = written and (_turns(before.row.steps[-3:]) or _turns(row.steps[:3]))
        if before is not None and any(type(step) is FastenOff for step in before.row.steps) or any(type(step) is JoinYarn for step in row.steps[:3]):
            broken = True
        side = getattr(row, "side", "")
        range_goes_on = before is not None and before.row is row  # a label on a range is for its first row
        before = worked
        if side not in _OTHER or range_goes_on:
            continue
        if anchor is not None and not broken:
            here = anchor if turns % 2 == 0 else _OTHER[anchor]
            if here != side:
                yield row, worked.label, side, turns, anchor_label, written
        anchor, anchor_label, turns, written, broken = side, worked.label, 0, True, False


def _turns(steps) -> bool:
    return any(type(step) is Turn for step in steps)
