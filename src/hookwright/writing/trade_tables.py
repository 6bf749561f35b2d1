"""Hook labels and names of yarn weights, from the tables of this folder."""

import tomllib
from functools import cache
from pathlib import Path


@cache
def _table(name: str) -> dict:
    return tomllib.loads((Path(__file__).parent / "tables" / f"{name}.toml").read_text("utf-8"))


def us_hook(mm: float) -> str:
    """The common US label of a hook, "" where none is usual.

    >>> us_hook(5), us_hook(1.65), us_hook(7)
    ('H-8', 'steel 7', '')
    """
    for size_mm, label in _table("hooks")["yarn_hooks"]:
        if abs(size_mm - mm) < 0.001:
            return label
    for size_mm, label in _table("hooks")["steel_hooks"]:
        if abs(size_mm - mm) < 0.001:
            return f"steel {label}"
    return ""


def yarn_weight(category: int, terms: str) -> str:
    """Name of a yarn weight category (0 to 7) in the words of the market, "" where there is no such category.

    >>> yarn_weight(4, "US"), yarn_weight(4, "UK")
    ('medium', 'aran')
    """
    names = _table("yarn_weights")[terms]
    return names[category] if 0 <= category < len(names) else ""


def caution_table() -> list[dict]:
    """The cautions as they stand in the table."""
    return _table("cautions")["caution"]


def is_caution_heading(title: str) -> bool:
    """Whether a heading of hers stands over words of caution.

    >>> is_caution_heading("Safety"), is_caution_heading("Body")
    (True, False)
    """
    return title.strip().rstrip(":").casefold() in _table("cautions")["headings"]
