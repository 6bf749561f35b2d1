"""Whether a row's count would hold if its turning chain were counted the other way: then it goes against the rest of the pattern."""

from dataclasses import dataclass, field

from hookwright.fabric import FLAG_COUNTS, FLAG_TURNING
from hookwright.notation.tree import Chain

from .case import Case
from .troubles import Off, stated_total

_FEW_ROWS = 3  # in more rows than these, one count that leaves the chain out is a habit; in fewer nothing tells


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

    worked: its first worked row; chains, counts: the chain as held; stated: the count; said: the row says itself what the chain
    counts as; agree: other written rows with this chain that don't count so; noted: the notes say what the chain counts as.
    """

    worked: object
    chains: int
    counts: bool
    stated: int
    said: bool
    sizes: set = field(default_factory=set)
    agree: int = 0
    noted: bool = False


def uneven_rows(case: Case) -> list[Uneven]:
    """Rows whose count holds only with the turning chain taken otherwise than it is held; kept on the case, since two checks ask.

    Among them are rows of the smaller party where some count the chain and some do not; rows that say what their chain counts as and
    then count it otherwise; rows in which a single chain would have to count; and a row that stands alone, with no other to tell.
    """
    kept = case.__dict__.get("_uneven_rows")
    if kept is None:
        kept = case.__dict__["_uneven_rows"] = _uneven_rows(case)
    return kept


def _uneven_rows(case: Case) -> list[Uneven]:
    held: dict[tuple, set] = {}  # chain and stitch -> written rows that come out exactly
    shifted: dict[tuple, dict[int, Uneven]] = {}
    exact = []
    for size, fabric in enumerate(case.fabrics):
        for index, worked in enumerate(fabric.rows):
            stated = case.total_stated(size, index)
            if stated is None or worked.troubles:
                continue
            if abs(stated - worked.stitches) == 1:
                chain = turning_chain(worked)
                if chain is None or stated - worked.stitches != (-1 if chain[1] else 1) or (size, index) in case.echoing:
                    continue
                said = _said(worked.row)
                rows = shifted.setdefault((*chain, _first_kind(worked), said), {})
                rows.setdefault(id(worked.row), Uneven(worked, *chain, stated, said)).sizes.add(size)
            elif stated == worked.stitches:
                exact.append(worked)
    if not shifted:
        return []
    for worked in exact:
        chain = turning_chain(worked)
        if chain is not None:
            held.setdefault((*chain, _first_kind(worked)), set()).add(id(worked.row))
    out = []
    for (chains, counts, kind, said), rows in shifted.items():
        agree = held.get((chains, counts, kind), set()) - set(rows)
        noted = _noted(case, chains, counts)
        alone = len(rows) == 1 and not agree and len(case.seen) <= _FEW_ROWS
        if said or noted or len(agree) >= len(rows) or chains <= 1 and not counts or alone:
            for row in rows.values():
                row.agree, row.noted = len(agree), noted
                out.append(row)
    return out


def _noted(case: Case, chains: int, counts: bool) -> bool:
    """Whether the notes say of a chain of this length, or of every turning chain, that it counts so."""
    return any(
        said.kind == "tch" and said.says is not None and said.chains in (None, chains) and said.says.counts == counts and said.stitch is None
        for said in case.pattern.conventions
    )


def _first_kind(worked) -> int:
    """The kind of the stitch after the turning chain: the same chain may count before one stitch and not before another."""
    return worked.kind[1] if len(worked.kind) > 1 else 0


def _said(row) -> bool:
    return any(type(step) is Chain and step.says is not None for step in row.steps[:3])
