"""Width and height of the stitches: from swatches and gauges of the head, else from what is usual for the yarn and hook."""

from hookwright import sizing
from hookwright.sizing import plain_kind, usual_width_cm

from .lengths import Geometry, facts, ratio, thickness_cm


def metres_per_g(yarn) -> float | None:
    """Length of one gram: of the ball as it is labelled, else what yarns of the weight have on average."""
    if yarn.metres and yarn.grams:
        return yarn.metres / yarn.grams
    if yarn.weight is not None:
        low, high = facts()["metres_per_100g"]["by_weight"][yarn.weight]
        return (low + high) / 200
    return None


def weight_of(metres_in_g: float) -> int:
    """The category of yarn weight that this length of a gram is usual for.

    >>> weight_of(1.9), weight_of(4.2), weight_of(1.1)
    (4, 1, 5)
    """
    middles = [(low + high) / 200 for low, high in facts()["metres_per_100g"]["by_weight"]]
    return min(range(len(middles)), key=lambda at: (abs(metres_in_g / middles[at] - 1), -at))


def geometry_of(head, terms: str, yarn, mean_ratio: float, legs: dict) -> tuple[Geometry, str] | None:
    """(the geometry for one yarn, what it rests on: "gauge" or "yarn"); None where neither a gauge nor the thickness is known.

    mean_ratio: `ratio` of the fabric's rows on average, for gauges that are of a stitch pattern.
    """
    gauges = sizing.gauges_of(head)
    first = next((gauge for gauge in gauges if gauge.stitch_mm), None)
    rows = next((gauge for gauge in gauges if gauge.row_mm), None)
    length = metres_per_g(yarn)
    if length is None and first is not None:
        length = _metres_of_gauge(first, terms)
    if length is None:
        return None
    thick = thickness_cm(length, yarn.fibre, yarn.strands)
    if first is None:
        hook = next((hook.mm for hook in head.hook if hook.mm), None)
        width = usual_width_cm(yarn.weight if yarn.weight is not None and yarn.strands == 1 else weight_of(length / yarn.strands), hook)
        return Geometry(width, width, thick, legs=legs), "yarn"
    measured = {}
    for gauge in reversed(gauges):
        kind = plain_kind(gauge.of, terms)
        if kind and gauge.stitch_mm and gauge.row_mm:
            measured[kind] = (gauge.stitch_mm / 10, gauge.row_mm / 10)
    width, row = first.stitch_mm / 10, None
    if rows is not None:
        kind = plain_kind(rows.of, terms)
        row = rows.row_mm / 10 / (ratio(kind) if kind else mean_ratio)
    return Geometry(width, row or width, thick, measured, legs), "gauge"


def _metres_of_gauge(gauge, terms: str) -> float:
    """Metres in a gram of the yarn weight that this many stitches are usual for."""
    per_10cm = gauge.per_10cm[0]
    middles = [sum(entry["sc_per_10cm"]) / 2 for entry in sizing.table("yarn_weights")["weight"]]
    weight = min(range(len(middles)), key=lambda at: abs(middles[at] - per_10cm))
    low, high = facts()["metres_per_100g"]["by_weight"][weight]
    return (low + high) / 200
