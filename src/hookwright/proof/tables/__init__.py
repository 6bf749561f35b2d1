"""Facts of the trade that the checks go by, as tables with their sources."""

import tomllib
from functools import cache
from pathlib import Path


@cache
def table(name: str) -> dict:
    """One table by its file name without the ending."""
    return tomllib.loads((Path(__file__).parent / f"{name}.toml").read_text("utf-8"))
