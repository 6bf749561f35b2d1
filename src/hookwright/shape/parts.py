"""Which worked rows hang together as one part, and where a row stands that is worked into other places than the tops of the row below."""

import re
from dataclasses import dataclass, field, fields, is_dataclass

from hookwright.notation.tree import Place

_BOTH = re.compile(r"\bboth (?:layers|thicknesses|edges|sides together)\b|\bthrough (?:two|2) layers\b", re.I)
_MADE = re.compile(r"\s*\((?:make|work)\b.*\)\s*$", re.I)


@dataclass(slots=True)
class Part:
    """Rows that are worked onto each other. rows: their indexes in Fabric.rows, in working order; names: the headings they stand under."""

    rows: list = field(default_factory=list)
    names: list = field(default_factory=list)

    @property
    def name(self) -> str:
        """The heading of its first rows, without how many are made."""
        return _MADE.sub("", self.names[0]) if self.names else ""


def parts_of(fabric) -> list[Part]:
    """The parts of a worked fabric, in the order in which they are begun; parts that hold no stitch are left out."""
    owner: list[Part | None] = []
    out: list[Part] = []
    for index, row in enumerate(fabric.rows):
        part = owner[row.below] if 0 <= row.below < index and not (stands_on_nothing(row) and not _goes_round(fabric.rows, row)) else None
        for other, _ in row.far.values():
            far = owner[other] if 0 <= other < index else None
            if far is not None and part is not None and far is not part:
                part.rows = sorted([*part.rows, *far.rows])
                part.names += [name for name in far.names if name not in part.names]
                for at in far.rows:
                    owner[at] = part
                out.remove(far)
            part = part or far
        if part is None:
            out.append(part := Part())
        part.rows.append(index)
        owner.append(part)
        if row.piece not in part.names:
            part.names.append(row.piece)
    return [part for part in out if any(fabric.rows[at].stitches for at in part.rows)]


def stands_on_nothing(row) -> bool:
    """Whether hardly a stitch of a row has a place it stands on: a border, a band along edges that are only named."""
    if not row.stitches or row.far or row.end.get("onto") or -2 in row.foot:
        return False
    bare = sum(1 for kind, foot in zip(row.kind, row.foot, strict=True) if kind and foot == -1)
    return row.below >= 0 and bare > 0.6 * sum(1 for kind in row.kind if kind)


def _goes_round(rows, row) -> bool:
    """Whether a round that stands on nothing fits round the flat rows before it: a border of that piece, not of several joined."""
    at, high = row.below, 0
    wide = rows[at].stitches
    while at >= 0:
        if rows[at].in_round:
            return False
        high += rows[at].has_height
        at = rows[at].below
    return row.in_round and 0.6 < row.stitches / max(2 * (wide + high), 1) < 1.6


def part_named(fabric, piece: str | None) -> Part:
    """The part with rows under the heading `piece`, or the first one. ValueError where there is none."""
    parts = parts_of(fabric)
    if not parts:
        raise ValueError("there are no worked rows to give a shape to")
    if piece is None:
        return parts[0]
    wanted = _MADE.sub("", piece).strip().lower()
    for part in parts:
        if any(_MADE.sub("", name).strip().lower() == wanted for name in part.names):
            return part
    names = ", ".join(part.name for part in parts if part.name)
    raise ValueError(f"there is no piece called {piece!r}" + (f": there are {names}" if names else ""))


def onto_of(row) -> str:
    """What the stitches of a row go into: "row ends", "layers" (two of the row below at once), "free loops N" of the row with that number, else ""."""
    onto = row.end.get("onto") or ""
    if onto or row.row is None:
        return onto
    steps = row.row.steps
    for place in places_in(steps):
        if place.layers == 2:
            return "layers"
        if place.which == "free loops" and place.row is not None:
            return f"free loops {place.row}"
        if place.which == "edge":
            return "edge"
    return "layers" if row.row.text and _BOTH.search(row.row.text) else ""


def places_in(steps):
    """All Places that some steps name, at any depth."""
    for step in steps:
        if isinstance(step, Place):
            yield step
        elif isinstance(step, (list, tuple)):
            yield from places_in(step)
        elif is_dataclass(step):
            yield from places_in([getattr(step, each.name) for each in fields(step)])


def said_of(pattern, part) -> str:
    """What is written around the rows of a part, lower case, from its headings to the next part: where it is told what is sewn or drawn together.

    Notes of the rows and prose under the part's headings; prose under later headings that name no rows (Finishing, Making up) comes last.
    """
    said, after = [], []
    names = set(part.names)
    for piece in pattern.pieces:
        mine = piece.name in names
        if mine:
            after = []
        for item in piece.items:
            text = getattr(item, "text", "") or ""
            if mine:
                said.append(text)
            elif not any(getattr(other, "steps", None) is not None for other in piece.items):
                after.append(text)
    return " ".join([*said, *after]).lower()
