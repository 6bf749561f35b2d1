"""Whether a row's count would hold if its turning chain were counted the other way: then it goes against the rest of the pattern."""

from dataclasses import dataclass, field

from hookwright.fabric import FLAG_COUNTS, FLAG_TURNING
from hookwright.notation.tree import Chain

from .case import Case
from .troubles import Off, stated_total


@dataclass(frozen=True, slots=True)
class OtherWay:
    """A row that holds only with its turning chain counted the other way. chains: its length; counts: as held; agree: rows that hold so."""

    chains: int
    counts: bool
    agree: int


def turning_chain(worked) -> tuple[int, bool] | None:
    """(chains, counts) of the chain a worked row begins with, None where it has none."""
    flags = worked.flags
    for index in range(min(2, len(flags) if flags is not None else 0)):
        if flags[index] & FLAG_TURNING:
            return worked.chains[index] if worked.chains is not None else 0, bool(flags[index] & FLAG_COUNTS)
    return None


def other_way(case: Case, off: Off) -> OtherWay | None:
    """The convention that a row with a count trouble goes against, None where the difference is not of that sort.

    Only where nothing in the row says what its chain counts as, the difference is one stitch in every size concerned, and at least
    two other rows that begin with the same chain come out as stated.
    """
    size, (_, first, trouble) = min(off.at.items())
    chain = turning_chain(first)
    if chain is None or _said(off.row) or stated_total(trouble, off.row) is None:
        return None
    wanted = -1 if chain[1] else 1
    if any(trouble.facts["expected"] - trouble.facts["found"] != wanted for _, _, trouble in off.at.values()):
        return None
    agree = sum(
        1
        for index, worked in enumerate(case.fabrics[size].rows)
        if not worked.troubles and worked.row is not off.row and turning_chain(worked) == chain and case.total_stated(size, index) == worked.stitches
    )
    return OtherWay(chain[0], chain[1], agree) if agree >= 2 else None


@dataclass(slots=True)
class Uneven:
    """A written row without a trouble whose count takes its turning chain the other way: it was let pass as a habit of counting.

    worked: its first worked row; stated: the count it states; sizes concerned; agree: written rows that don't count so.
    """

    worked: object
    chains: int
    counts: bool
    stated: int
    sizes: set = field(default_factory=set)
    agree: int = 0


def uneven_rows(case: Case) -> list[Uneven]:
    """Rows of the smaller party where some rows count the turning chain and some do not; kept on the case, since two checks ask.

    A chain of one that would have to count is among them even where no other row speaks against it.
    """
    kept = case.__dict__.get("_uneven_rows")
    if kept is None:
        kept = case.__dict__["_uneven_rows"] = _uneven_rows(case)
    return kept


def _uneven_rows(case: Case) -> list[Uneven]:
    held: dict[tuple, set] = {}  # chain and stitch -> written rows that come out exactly
    shifted: dict[tuple, dict[int, Uneven]] = {}
    waiting = []
    for size, fabric in enumerate(case.fabrics):
        for index, worked in enumerate(fabric.rows):
            stated = case.total_stated(size, index)
            if stated is None or worked.troubles:
                continue
            if abs(stated - worked.stitches) == 1:
                chain = turning_chain(worked)
                if (size, index) in case.echoing:
                    continue
                if chain is not None and stated - worked.stitches == (-1 if chain[1] else 1) and not _said(worked.row):
                    rows = shifted.setdefault((*chain, _first_kind(worked)), {})
                    rows.setdefault(id(worked.row), Uneven(worked, *chain, stated)).sizes.add(size)
            elif stated == worked.stitches:
                waiting.append(worked)
    if not shifted:
        return []
    for worked in waiting:
        chain = turning_chain(worked)
        if chain is not None and not _said(worked.row):
            held.setdefault((*chain, _first_kind(worked)), set()).add(id(worked.row))
    out = []
    for key, rows in shifted.items():
        agree = held.get(key, set()) - set(rows)
        if len(agree) >= max(1, len(rows)) or key[0] <= 1 and not key[1]:
            for row in rows.values():
                row.agree = len(agree)
                out.append(row)
    return out


def _first_kind(worked) -> int:
    """The kind of the stitch after the turning chain: the same chain may count before one stitch and not before another."""
    return worked.kind[1] if len(worked.kind) > 1 else 0


def _said(row) -> bool:
    return any(type(step) is Chain and step.says is not None for step in row.steps[:3])
