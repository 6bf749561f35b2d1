"""What the rule of yarn use gives for a published figure."""

from hookwright.notation import Gauge, Head, Hook, Yarn
from hookwright.yarn import facts
from hookwright.yarn.gauge import geometry_of, metres_per_g

INCH, YARD = 2.54, 91.44  # cm


def predicted(fact: dict, typical: float | None = None) -> float:
    """The yarn of one entry of yarn_facts.toml in the unit it was published in."""
    yarn = Yarn(weight=fact["weight"], fibre=fact.get("fibre", ""))
    gauge = fact.get("gauge")
    kinds = fact.get("kinds") or {fact["of"]: 1}
    kind = next(iter(kinds))
    head = Head(
        yarn=(yarn,), hook=(Hook(fact["hook_mm"]),) if "hook_mm" in fact else (),
        gauge=(Gauge(gauge["stitches"], gauge["rows"], 101.6, 101.6, kind),) if gauge else (),
    )
    geometry, _ = geometry_of(head, "US", yarn, 1.0, {})
    width, height = geometry.measured.get(kind, (geometry.width, None))
    if "strip" in fact:
        kinds = {kind: fact["strip"] * INCH / width}
    elif "cover" in fact:
        from hookwright.yarn.lengths import ratio

        height = height or ratio(kind) * geometry.row
        kinds = {kind: fact["cover"][0] * INCH / width * fact["cover"][1] * INCH / height}
    length = sum(number * geometry.of(each) for each, number in kinds.items()) * (facts()["stitch"]["typical"] if typical is None else typical)
    unit = fact["published"][1]
    return length / 100 / metres_per_g(yarn) if unit == "g" else length / {"in": INCH, "yd": YARD, "m": 100}[unit]
