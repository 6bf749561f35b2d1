"""Sizing: from bodies, ease, swatches and wishes to the numbers of every size; shaping spread evenly; which share of people a size fits.

`solve(Problem)` finds the numbers of all sizes at once; `measures(table, size)` gives body measures; `gauge_of(swatch)` a gauge and how
sure it is; `children_heads`, `adult_heads`, `surveyed` are populations; `over_rows`, `over_round`, `crown`, `ball`, `taper` spread shaping.
Facts stand in tables/*.toml with their sources. Lengths are mm.
"""

from importlib import import_module

# Which module each name is from: loaded when it is first asked for, since most manuscripts leave no number to be found.
_FROM = {
    "asked": "Asked Spread asked_of finished_of refused_numbers spread_numbers",
    "bodies": "age_in_months also_called measures sizes_of table_name",
    "body_measures": "bodies_of",
    "clash": "clash_finding problem_of_one",
    "fitting": "Fitting People SOME SizeFit fitting_of goes_round stretch_of worn_on",
    "found": "Found as_numbers found_numbers",
    "gauges": "gauge_in gauge_lengths gauges_of",
    "growth": "Population adult_heads children_heads head_mm surveyed",
    "rounds": "ball ball_diameter_mm crown increases_per_round taper workable",
    "shapes": "Raglan Triangle border_stitches corner_gain crescent_increases raglan triangle triangle_increases",
    "solver": "nearest solve",
    "stitch_sizes": "plain_kind row_ratio usual_width_cm",
    "spread": "evenly in_words many over_round over_rows shaped_rows staggered",
    "swatch": "FabricGauge chain_allowance gauge_of mixed_row_mm standard_gauge washing",
    "tables_read": "table",
    "wishes": "Answer Bound Clash Follows Grows Multiple OneOf Problem Same Wish Within",
    "written": "round_words rounds_words",
}
_MODULE_OF = {name: module for module, names in _FROM.items() for name in names.split()}

__all__ = sorted(_MODULE_OF)


def __getattr__(name: str):
    if name not in _MODULE_OF:
        raise AttributeError(f"module 'hookwright.sizing' has no attribute {name!r}")
    value = globals()[name] = getattr(import_module(f".{_MODULE_OF[name]}", __name__), name)
    return value
