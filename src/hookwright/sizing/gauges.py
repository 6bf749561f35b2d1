"""The gauges of a head by fabric: which there are, which one a wish means, and the lengths that sums can name by them.

The head is taken as plain values (see notation.Head): gauge, swatches.
"""

from hookwright.ground import Value

from .swatch import FabricGauge, gauge_of


def gauges_of(head) -> list[FabricGauge]:
    """All gauges of a head, swatches first (they are measured), each by its fabric."""
    made = [gauge_of(swatch) for swatch in head.swatches]
    for gauge in head.gauge:
        made.append(FabricGauge(gauge.in_, gauge.over_mm / gauge.stitches if gauge.stitches else None, gauge.rows_over_mm / gauge.rows if gauge.rows else None))
    return made


def gauge_lengths(gauges) -> dict[str, Value]:
    """The lengths that sums can name: "stitch" and "row" of the first gauge, "stitch of ribbing" and so on of each."""
    names = {}
    for gauge in reversed(gauges):
        for word, mm in (("stitch", gauge.stitch_mm), ("row", gauge.row_mm)):
            if mm:
                names[word] = Value(mm, length=True)
                if gauge.of:
                    names[f"{word} of {gauge.of.lower()}"] = Value(mm, length=True)
    return names


def gauge_in(gauges, fabric: str) -> FabricGauge | None:
    """The gauge of this fabric: by its name, by its name less "pattern", or one whose name holds the word; the first where no fabric is said."""
    wanted = fabric.lower()
    for meant in (lambda of: not wanted or wanted in (of, of.removesuffix(" pattern")), lambda of: wanted in of):
        found = next((gauge for gauge in gauges if meant(gauge.of.lower())), None)
        if found is not None:
            return found
    return None
