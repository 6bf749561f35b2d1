"""Whether a row's count would hold if its turning chain were counted the other way: then it goes against the rest of the pattern."""

from dataclasses import dataclass

from hookwright.fabric import FLAG_COUNTS, FLAG_TURNING
from hookwright.notation.tree import Chain

from .case import Case
from .sums import stated_stitches
from .troubles import Off


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
    """The convention a row goes against, None where the difference is not of that sort.

    Only where nothing in the row says what its chain counts as, the difference is one stitch in every size concerned, and at least
    two other rows that begin with the same chain come out as stated.
    """
    _, first, _ = off.first
    chain = turning_chain(first)
    if chain is None or off.facts().get("of") not in ("st", "", None) or off.facts().get("per"):
        return None
    if any(type(step) is Chain and step.says is not None for step in off.row.steps[:3]):
        return None
    wanted = -1 if chain[1] else 1
    for _, _, trouble in off.at.values():
        expected, found = trouble.facts.get("expected"), trouble.facts.get("found")
        if not isinstance(expected, int) or not isinstance(found, int) or expected - found != wanted:
            return None
    size = min(off.at)
    agree = 0
    for index, worked in enumerate(case.fabrics[size].rows):
        if worked.troubles or worked.row is off.row or turning_chain(worked) != chain:
            continue
        key, time = case.occurrences[size][index]
        if stated_stitches(worked.row, size, time) == worked.stitches:
            agree += 1
    return OtherWay(chain[0], chain[1], agree) if agree >= 2 else None
