"""Width and height of stitches where no swatch tells: by the proportions of stitches and by what is usual for a yarn and hook."""

from functools import cache

from hookwright.stitches import dialect, stitch

from .tables_read import table


@cache
def row_ratio(kind: str) -> float:
    """Height of a row of this kind over the width of a stitch: published for the plain stitches, between and beyond them by their nominal heights.

    >>> row_ratio("sc"), row_ratio("dc"), round(row_ratio("esc"), 3)
    (0.89, 1.7, 1.145)
    """
    over = table("proportions")["row_height"]["over_stitch_width"]
    if kind in over:
        return over[kind]
    fact = stitch(kind)
    height = fact.height_ch if fact is not None else 1.0
    steps = [(stitch(each).height_ch, value) for each, value in over.items()]
    for (low, at_low), (high, at_high) in zip(steps, steps[1:], strict=False):
        if height <= high or (high, at_high) == steps[-1]:
            return at_low + (at_high - at_low) * (height - low) / (high - low)
    return over["sc"]


def usual_width_cm(weight: int, hook_mm: float | None = None) -> float:
    """Width of a single crochet usual for a yarn weight: the middle of its range, or where the hook lies in the range of hooks.

    >>> round(usual_width_cm(4), 2), round(usual_width_cm(4, 5.0), 3)
    (0.8, 0.714)
    """
    entry = table("yarn_weights")["weight"][weight]
    few, many = entry["sc_per_10cm"]
    small, large = entry["hook_mm"]
    loose = 0.5 if hook_mm is None else min(max((hook_mm - small) / (large - small), 0.0), 1.0)
    return 10 / max(many - (many - few) * loose, 1.0)


def plain_kind(words: str, terms: str) -> str:
    """The stitch that a swatch or gauge is of, "" where it is of a stitch pattern.

    >>> plain_kind("half double crochet", "US"), plain_kind("dc", "UK"), plain_kind("shell pattern", "US")
    ('hdc', 'sc', '')
    """
    found = dialect(terms or "US").find(words) if words else None
    return found if found and stitch(found).kind in ("basic", "extended", "post") and found not in ("ch", "slst") else ""
