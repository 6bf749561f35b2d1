"""Width and height of every stitch at rest, in mm: from the gauges of the head, else from what is usual for the yarn and hook."""

import tomllib
from collections import Counter
from functools import cache
from pathlib import Path

from hookwright.sizing import gauges_of, plain_kind, row_ratio, usual_width_cm
from hookwright.stitches import stitch


@cache
def facts() -> dict:
    """tables/fabric.toml as plain values."""
    return tomllib.loads((Path(__file__).parent / "tables" / "fabric.toml").read_text("utf-8"))


class RestSizes:
    """Sizes of stitches in mm. width_mm of a plain stitch; unit_mm: height of a row whose ratio (sizing.row_ratio) is 1.

    measured: plain stitch -> (width, height) in mm where a gauge of its own is known. said: "gauge" or "yarn", where the sizes come from.
    """

    __slots__ = ("_heights", "_widths", "measured", "said", "unit_mm", "width_mm")

    def __init__(self, width_mm: float, unit_mm: float | None = None, measured: dict | None = None, said: str = "gauge"):
        self.width_mm, self.unit_mm, self.measured, self.said = width_mm, unit_mm or width_mm, measured or {}, said
        self._widths: dict[str, float] = {}
        self._heights: dict[str, float] = {}

    def width(self, kind: str) -> float:
        """Room that one stitch of this kind takes along its row."""
        found = self._widths.get(kind)
        if found is None:
            found = self._widths[kind] = self._of(kind)[0] * facts()["stitch"].get({"ch": "chain"}.get(kind, kind), 1.0)
        return found

    def height(self, kind: str) -> float:
        """Height of a row of this kind."""
        found = self._heights.get(kind)
        if found is None:
            fact = stitch(kind)
            found = self._heights[kind] = self._of(kind)[1] * (facts()["stitch"]["post"] if fact is not None and fact.post else 1.0)
        return found

    def _of(self, kind: str) -> tuple[float, float]:
        fact = stitch(kind)
        base = fact.base if fact is not None else kind
        known = self.measured.get(kind) or self.measured.get(base)
        width, height = known or (self.width_mm, None)
        if height:
            return width, height * row_ratio(kind) / row_ratio(kind if kind in self.measured else base)
        return width, row_ratio(kind) * self.unit_mm

    @property
    def yarn_mm(self) -> float:
        """Thickness of the yarn as it lies in fabric of this gauge."""
        return facts()["stitch"]["yarn_thickness"] * self.width_mm


def rest_sizes(head, terms: str = "US", rows=(), kinds=(), named: str = "") -> RestSizes:
    """The sizes for the rows of a piece. head: notation.Head or None; rows: fabric.WorkedRow; kinds: number -> catalogue id; named: heading
    of the rows, since a gauge may be "of" one part ("ribbing") only."""
    gauges = gauges_of(head) if head is not None else []
    first = _gauge_named(gauges, named) or next((gauge for gauge in gauges if gauge.stitch_mm), None)
    if first is None or not first.stitch_mm:
        return RestSizes(_usual_mm(head), said="yarn")
    measured = {}
    for gauge in reversed(gauges):
        kind = plain_kind(gauge.of, terms)
        if kind and gauge.stitch_mm and gauge.row_mm:
            measured[kind] = (gauge.stitch_mm, gauge.row_mm)
    by_rows = first if first.row_mm else next((gauge for gauge in gauges if gauge.row_mm), None)
    unit = None
    if by_rows is not None:
        kind = plain_kind(by_rows.of, terms)
        unit = by_rows.row_mm / (row_ratio(kind) if kind else mean_ratio(rows, kinds))
    return RestSizes(first.stitch_mm, unit, measured)


def mean_ratio(rows, kinds) -> float:
    """Mean over rows of `row_ratio` of the kind each is mostly made of; of a single crochet where there are none.

    What a gauge of a stitch pattern says of its rows is divided by this.
    """
    found, known = Counter(), {}
    for row in rows:
        if not row.stitches or not row.by_kind:
            continue
        key = id(row.kind)
        kind = known.get(key)
        if kind is None:
            kind = known[key] = max(row.by_kind.items(), key=lambda item: (item[1] * (item[0] != "slst"), item[0]))[0]
        found[kind] += 1
    total = sum(found.values())
    return sum(row_ratio(kind) * count for kind, count in found.items()) / total if total else row_ratio("sc")


def _gauge_named(gauges, named: str):
    """The gauge that is of the part with this heading; None where none is."""
    words = set(named.lower().replace("(", " ").split())
    for gauge in gauges[1:]:
        said = gauge.of.lower().split()
        if said and gauge.stitch_mm and any(word in words for word in said if len(word) > 3):
            return gauge
    return None


def _usual_mm(head) -> float:
    yarn = head.yarn[0] if head is not None and head.yarn else None
    hook = next((hook.mm for hook in head.hook if hook.mm), None) if head is not None else None
    weight = yarn.weight if yarn is not None and yarn.weight is not None else 4
    return usual_width_cm(weight, hook) * 10
