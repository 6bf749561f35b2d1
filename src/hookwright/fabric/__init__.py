"""Fabric: a Pattern worked stitch by stitch, one fabric per size, with what went wrong on the way.

`work_pattern(pattern, below=..., in_round=..., sizes=...) -> Work`. The fabric is columns of numbers; every stitch knows the
place it stands on. Conventions that the pattern leaves unsaid are inferred from its counts and held.
"""

from .conventions import Convened, Work, work_pattern
from .counting import SHAPES
from .kinds import NAMES as KIND_NAMES
from .kinds import plain_of
from .multiples import MOST_FOUNDATION, derive_multiples, foundation_counts
from .recording import step_spans
from .resolving import resolved
from .row_kinds import row_kinds
from .sequence import LIMIT
from .settings import Settings
from .statement import stated_below
from .worked import (
    CHAINS,
    FLAG_CORNER,
    FLAG_COUNTS,
    FLAG_GROUP,
    FLAG_JOIN,
    FLAG_TEXTURE,
    FLAG_TURNING,
    Assumption,
    Fabric,
    Trouble,
    WorkedRow,
)

__all__ = [
    "CHAINS", "FLAG_CORNER", "FLAG_COUNTS", "FLAG_GROUP", "FLAG_JOIN", "FLAG_TEXTURE", "FLAG_TURNING", "KIND_NAMES", "LIMIT",
    "MOST_FOUNDATION", "SHAPES", "Assumption", "Convened", "Fabric", "Settings", "Trouble", "Work", "WorkedRow", "derive_multiples", "foundation_counts", "plain_of", "resolved", "row_kinds", "stated_below", "step_spans",
    "work_pattern",
]
