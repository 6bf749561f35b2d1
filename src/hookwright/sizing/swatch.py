"""Gauge from swatches: stitches and rows over a measured width and height, and how sure that is.

A swatch is counted in whole stitches, so its reading is out by up to one stitch over the width measured: the wider the swatch, the
surer the gauge. gauge = stitches / width, uncertainty = 1 stitch / width; the same for rows. A swatch is taken as it stands in the head
(see notation.Swatch): lengths in mm, None where it was not measured.
"""

from dataclasses import dataclass

from .tables_read import table


@dataclass(frozen=True, slots=True)
class FabricGauge:
    """Stitch width and row height in mm of one fabric, each with the most it can be out; None where it isn't known.

    said: where it comes from ("swatch, washed", "gauge", "from the height of its stitches").
    """

    of: str
    stitch_mm: float | None = None
    row_mm: float | None = None
    stitch_out: float = 0.0  # share of one: 0.03 is 3 %
    row_out: float = 0.0
    said: str = "gauge"

    @property
    def per_10cm(self) -> tuple[float | None, float | None]:
        """(stitches, rows) to 10 cm."""
        return (100 / self.stitch_mm if self.stitch_mm else None, 100 / self.row_mm if self.row_mm else None)


def gauge_of(swatch) -> FabricGauge:
    """The gauge of a swatch, after washing where that was measured: 32 stitches over 200 mm are 16 to 10 cm, out by 1 in 32 at most."""
    width = swatch.washed_width_mm or swatch.width_mm
    height = swatch.washed_height_mm or swatch.height_mm
    washed = bool(swatch.washed_width_mm or swatch.washed_height_mm)
    return FabricGauge(
        swatch.of,
        width / swatch.stitches if width and swatch.stitches else None,
        height / swatch.rows if height and swatch.rows else None,
        1 / swatch.stitches if swatch.stitches else 0.0,
        1 / swatch.rows if swatch.rows else 0.0,
        "swatch, washed" if washed else "swatch",
    )


def washing(swatch) -> tuple[float | None, float | None]:
    """(width, height) after washing against before, 1.05 for 5 % more; None where one was not measured."""
    return (swatch.washed_width_mm / swatch.width_mm if swatch.washed_width_mm and swatch.width_mm else None,
            swatch.washed_height_mm / swatch.height_mm if swatch.washed_height_mm and swatch.height_mm else None)


def mixed_row_mm(kinds: list[str], stitch_mm: float, rows_mm: dict[str, float] | None = None) -> tuple[float, bool]:
    """(mean height in mm of rows of these kinds, whether each was measured).

    kinds: the stitch each row of a block is mostly made of. rows_mm: measured row heights by kind; the others follow from the
    published proportions of row height to stitch width (tables/proportions.toml), scaled to a measured kind where there is one.

    >>> mixed_row_mm(["sc", "hdc"], 6.0, {"sc": 5.0})[1]
    False
    """
    over = table("proportions")["row_height"]["over_stitch_width"]
    rows_mm = {kind: height for kind, height in (rows_mm or {}).items() if height}
    known = [kind for kind in kinds if kind in rows_mm and kind in over]
    unit = sum(rows_mm[kind] / over[kind] for kind in known) / len(known) if known else stitch_mm
    heights = [rows_mm[kind] if kind in rows_mm else over.get(kind, over["dc"]) * unit for kind in kinds]
    return sum(heights) / len(heights), all(kind in rows_mm for kind in kinds)


@dataclass(frozen=True, slots=True)
class ChainAllowance:
    """What to do about a foundation chain that is tighter than the fabric: chains to make more and undo, or a larger hook."""

    chains: int
    wanted_mm: float
    longer_mm: tuple[float, float]
    spare: tuple[int, int]


def chain_allowance(chains: int, stitch_mm: float) -> ChainAllowance:
    """For this many chains under a fabric of this stitch width: the length wanted, how much longer the chain must lie to be no
    tighter (half an inch to an inch, common practice), and how many spare chains that is.

    >>> chain_allowance(40, 7.0).spare
    (2, 4)
    """
    facts = table("proportions")["foundation_chain"]
    low, high = facts["spare_mm"]
    return ChainAllowance(chains, chains * stitch_mm, (low, high), (max(1, round(low / stitch_mm)), max(1, round(high / stitch_mm))))


def standard_gauge(weight: int) -> tuple[float, float]:
    """Single crochet stitches to 10 cm of a standard yarn weight, 0 to 7, from fewest to most (tables/yarn_weights.toml).

    >>> standard_gauge(4)
    (11.0, 14.0)
    """
    low, high = table("yarn_weights")["weight"][weight]["sc_per_10cm"]
    return float(low), float(high)
