"""The pieces of a worked pattern with their plans or rounds in every size: what a schematic and a table of measures both go by."""

import re
from dataclasses import dataclass

from hookwright.shape import rest_sizes

from .schematic_parts import SchematicPart, of_plans
from .schematic_plan import parts_of, plan
from .schematic_round_parts import of_rounds
from .schematic_rounds import rounds_of

_FROM_THE_TOP = re.compile(r"\b(?:yoke|neck|raglan|top[- ]down)\b", re.I)
_MADE = re.compile(r"\s*\((?:make|work)\b.*\)\s*$", re.I)


@dataclass(slots=True)
class Piece:
    """heading: as it stands over the rows; plans, rounds: one a size, None where a size has none or it is worked the other way; fabrics: of all sizes."""

    heading: str
    plans: tuple
    rounds: tuple
    fabrics: list
    rest: str = "gauge"  # what the sizes of the stitches rest on: "gauge" or "yarn"

    @property
    def name(self) -> str:
        """The heading without how many are made."""
        return _MADE.sub("", self.heading)

    @property
    def names(self) -> list[str]:
        """The headings that it is worked under, without how many are made: a hat's crown, body and brim. Parts of the outline have their own lengths
        and are left out: a front's shoulders."""
        known = next((one for one in self.rounds if one is not None), None)
        return [self.name] if known is None else list(dict.fromkeys(_MADE.sub("", name) for name in known.names))

    @property
    def in_rows(self) -> bool:
        return any(one is not None for one in self.plans)

    @property
    def shape(self) -> str:
        """ "rows", the shape of its rounds (see Rounds.shape), or "other" for what the counts alone do not tell."""
        if self.in_rows:
            return "rows"
        known = next((one for one in self.rounds if one is not None), None)
        return "other" if known is None else known.shape

    def part(self, size: int, *, upside: bool = True) -> SchematicPart | None:
        """What stands on a schematic, drawn in this size or the first that has it; None where the counts alone do not tell the outline.

        upside: closed ends on top, as a hat is worn; else below, as a basket stands.
        """
        known = self.plans if self.in_rows else self.rounds
        shown = next((at for at in (size, *range(len(known))) if known[at] is not None), None)
        if shown is None:
            return None
        return of_plans(list(self.plans), self.fabrics, shown) if self.in_rows else of_rounds(self.rounds, shown, self.heading, upside=upside, down=bool(_FROM_THE_TOP.search(" ".join(self.names))))


def pieces_of(fabrics, head, terms: str) -> list[Piece]:
    """The pieces, in the order in which they are begun. head: notation.Head or None."""
    found: dict = {}
    for size, fabric in enumerate(fabrics):
        times: dict = {}
        for part in parts_of(fabric):
            heading = fabric.rows[part[0]].piece
            key = (heading, times.setdefault(heading, 0))
            times[heading] += 1
            sizes = rest_sizes(head, terms, fabric.rows, fabric.kinds, heading)
            kept = found.setdefault(key, ([None] * len(fabrics), [None] * len(fabrics), [], []))
            kept[0][size], kept[1][size] = plan(fabric, part, sizes), rounds_of(fabric, part, sizes)
            kept[2].append(sizes.said)
    return [Piece(heading, tuple(plans), tuple(rounds), list(fabrics), said[0]) for (heading, _), (plans, rounds, said, _) in found.items()]
