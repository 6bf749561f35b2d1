"""The length of yarn in one stitch of each kind, in cm: tables/yarn_use.toml says by which rule."""

import math
import tomllib
from functools import cache
from pathlib import Path

from hookwright.sizing import row_ratio as ratio
from hookwright.stitches import leg, stitch

GATHERED = ("cl", "bobble", "puff")  # legs of one stitch under one head
PARTED = ("shell", "fan", "vst")  # groups of whole stitches
_CHAINS = ("ch", "foundation ch")
_WRAPS = ("yo", "up", "tall", "ch", "front")


@cache
def facts() -> dict:
    """The table of yarn use as plain values."""
    return tomllib.loads((Path(__file__).parent / "tables" / "yarn_use.toml").read_text("utf-8"))


def thickness_cm(metres_per_g: float, fibre: str = "", strands: int = 1) -> float:
    """Thickness of the yarn as it lies in fabric; several strands held together are one thicker yarn.

    >>> round(thickness_cm(1.85), 2), round(thickness_cm(1.85, "cotton"), 2)
    (0.26, 0.21)
    """
    rule = facts()["thickness"]
    words = fibre.lower()
    plant = sum(word in words for word in rule["plant"])
    animal = sum(word in words for word in ("wool", "silk", "acrylic", "alpaca", "merino", "polyester", "nylon", "polyamide"))
    share = plant / (plant + animal) if plant else 0.0
    density = rule["g_per_cm3"]["plant"] * share + rule["g_per_cm3"]["wool"] * (1 - share)
    return math.sqrt(4 * strands / (metres_per_g * 100) / (math.pi * density))


class Geometry:
    """What the lengths are made of, in cm. width of a stitch; row: height of a row for a ratio of 1 (see `ratio`); thick: of the yarn.

    measured: plain stitch -> (width, height) where its own gauge is known. legs: (legs, base) of clusters, bobbles, puffs and popcorns.
    """

    __slots__ = ("known", "legs", "measured", "row", "thick", "width")

    def __init__(self, width: float, row: float, thick: float, measured: dict | None = None, legs: dict | None = None):
        self.width, self.row, self.thick, self.measured, self.legs = width, row, thick, measured or {}, legs or {}
        self.known: dict[str, float] = {}  # lengths that were asked for before

    def of_thickness(self, thick: float) -> "Geometry":
        """The same stitches in a yarn of another thickness."""
        return Geometry(self.width, self.row, thick, self.measured, self.legs)

    def of(self, kind: str) -> float:
        """Length of one stitch of this kind, before any correction."""
        length = self.known.get(kind)
        if length is None:
            length = self.known[kind] = kind_cm(kind, self)
        return length


def kind_cm(kind: str, geometry: Geometry) -> float:
    """Length of yarn in one stitch of this kind, in cm.

    >>> worsted = Geometry(width=0.72, row=0.72, thick=0.26)
    >>> [round(kind_cm(kind, worsted), 1) for kind in ("ch", "sc", "hdc", "dc", "dc2tog", "bobble")]
    [3.8, 5.6, 8.6, 10.3, 17.7, 40.8]
    """
    rule, turn = facts()["stitch"], math.pi * geometry.thick
    kind = "ch" if kind in _CHAINS else kind
    fact = stitch(kind)
    if fact is None:
        return kind_cm("sc", geometry)
    if kind in rule["own"]:
        across, along, turns = rule["own"][kind]
        return across * geometry.width + along * ratio(kind) * geometry.row + turns * turn
    if kind == "picot":
        return 3 * geometry.of("ch") + geometry.of("slst")
    if kind == "loopst":
        return geometry.of("sc") + rule["loop_cm"]
    if fact.kind == "foundation":
        return geometry.of(fact.base) + geometry.of("ch")
    if kind in PARTED or kind in ("inc", "popcorn"):
        count, base = _legs(kind, fact, geometry)
        return count * geometry.of(base) + (geometry.of("ch") if kind == "popcorn" else 0.0)
    if kind in GATHERED or fact.kind == "decrease":
        return _gathered(kind, fact, geometry, rule, turn)
    width, height = _size(kind, fact, geometry)
    steps = fact.steps or stitch(fact.base).steps
    yarn_overs, turns = _turns(steps)
    if kind == "spike":
        height *= 2  # down into the row below the next: the usual way, and all the catalogue knows
    return (rule["across"] + yarn_overs) * width + rule["along"] * height + turns * turn


def _gathered(kind, fact, geometry, rule, turn) -> float:
    """Several legs under one head."""
    count, base = (fact.takes, fact.base) if fact.kind == "decrease" and not fact.legs else _legs(kind, fact, geometry)
    plain = stitch(base) or stitch("sc")
    plain = plain if plain.steps else stitch("sc")
    width, height = _size(base, plain, geometry)
    yarn_overs, turns = (1, 2) if kind == "puff" else _turns(leg(plain))
    return count * (yarn_overs * width / 2 + rule["along"] * height + turns * turn) + rule["across"] * width + turn


def _legs(kind: str, fact, geometry) -> tuple[float, str]:
    said = geometry.legs.get(kind)
    if said:
        return said
    base = fact.base if fact.base and fact.base != kind else "sc"
    return fact.legs or (2 if kind in ("inc", "dec") else 3), base


def _size(kind: str, fact, geometry) -> tuple[float, float]:
    """(width, height) of a stitch: as measured of its plain stitch, else from the row's height by the proportions of stitches."""
    width, height = geometry.measured.get(kind) or geometry.measured.get(fact.base) or (geometry.width, None)
    if not height:
        return width, ratio(kind) * geometry.row
    return width, height * ratio(kind) / ratio(kind if kind in geometry.measured else fact.base)


def _turns(steps) -> tuple[int, int]:
    """(yarn overs before the hook goes in, half turns of the yarn) of steps of the catalogue."""
    return steps.count("yo"), sum(step in _WRAPS or step[0] == "d" and step[1:].isdigit() for step in steps)
