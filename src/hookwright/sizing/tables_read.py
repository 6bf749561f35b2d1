"""The tables of facts beside this file, each read once when it is first asked for."""

import tomllib
from functools import cache
from pathlib import Path

CM = 10.0  # mm
INCH = 25.4  # mm


@cache
def table(name: str) -> dict:
    """The table tables/NAME.toml as plain values: "heads", "bodies", "hands_and_feet", "household", "yarn_weights", "proportions"."""
    return tomllib.loads((Path(__file__).parent / "tables" / f"{name}.toml").read_text("utf-8"))


def pair(value) -> tuple[float, float]:
    """A published figure or range as (low, high).

    >>> pair(28), pair([71, 76])
    ((28.0, 28.0), (71.0, 76.0))
    """
    low, high = value if isinstance(value, (list, tuple)) else (value, value)
    return float(low), float(high)
