"""Whether stitches left at the end of a row look meant: two checks share the question."""

from .case import Case
from .troubles import Off


def meant(case: Case, off: Off) -> bool:
    """True where the row comes out as it states in every size concerned, or states nothing."""
    for size, (index, worked, _) in off.at.items():
        if any(trouble.kind == "count" for trouble in worked.troubles):
            return False
        stated = case.total_stated(size, index)
        if stated is not None and stated != worked.stitches:
            return False
    return True
