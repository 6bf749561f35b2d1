"""Whether stitches left at the end of a row look meant: two checks share the question."""

from hookwright.ground import at

from .case import Case
from .troubles import Off


def meant(case: Case, off: Off) -> bool:
    """True where the row comes out as it states in every size concerned, or states nothing."""
    for size, (index, worked, _) in off.at.items():
        if any(trouble.kind == "count" for trouble in worked.troubles):
            return False
        stated = case.total_stated(size, index)
        if stated is not None and stated != worked.stitches or not _spaces_hold(off.row, worked, size):
            return False
    return True


def _spaces_hold(row, worked, size: int) -> bool:
    """Whether as many chain spaces are made as the row states."""
    for stated in row.stated:
        for number, of, *more in stated.items if not stated.per and not stated.series else ():
            if of != "sp" or not isinstance(at(number, size), int):
                continue
            chains = more[0] if more else None
            made = sum(1 for run in worked.spaces if chains is None or run == chains)
            if made != at(number, size):
                return False
    return True
