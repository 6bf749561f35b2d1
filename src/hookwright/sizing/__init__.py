"""Sizing: from bodies, ease, swatches and wishes to the numbers of every size; shaping spread evenly; which share of people a size fits.

`solve(Problem)` finds the numbers of all sizes at once; `measures(table, size)` gives body measures; `gauge_of(Swatch)` a gauge and how
sure it is; `children_heads`, `adult_heads`, `surveyed` are populations; `over_rows`, `over_round`, `crown`, `ball`, `taper` spread shaping.
Facts stand in tables/*.toml with their sources. Lengths are mm.
"""

from .asked import Asked, Spread, as_numbers, asked_of, bodies_of, clash_finding, finished_of, gauges_of, spread_numbers
from .bodies import age_in_months, also_called, measures, sizes_of, table_name
from .fitting import SOME, Fitting, People, SizeFit, fitting_of, goes_round, stretch_of, worn_on
from .found import Found, found_numbers
from .growth import Population, adult_heads, children_heads, head_mm, surveyed
from .rounds import ball, ball_diameter_mm, crown, increases_per_round, taper
from .shapes import Raglan, Triangle, border_stitches, crescent_increases, raglan, triangle, triangle_increases
from .solve import nearest, solve
from .spread import evenly, in_words, over_round, over_rows, shaped_rows, staggered
from .swatch import FabricGauge, Swatch, chain_allowance, gauge_of, mixed_row_mm, standard_gauge, washing
from .tables_read import table
from .wishes import Answer, Bound, Clash, Follows, Grows, Multiple, OneOf, Problem, Same, Wish, Within
from .written import round_words, rounds_words

__all__ = [
    "Answer", "Asked", "Bound", "Clash", "FabricGauge", "Fitting", "Follows", "Found", "Grows", "Multiple", "OneOf", "People", "Population", "Problem",
    "Raglan", "SOME", "Same", "SizeFit", "Spread", "Swatch", "Triangle", "Wish", "Within", "adult_heads", "age_in_months", "also_called", "as_numbers",
    "asked_of", "ball", "ball_diameter_mm", "bodies_of", "border_stitches", "chain_allowance", "children_heads", "clash_finding", "crescent_increases",
    "crown", "evenly", "finished_of", "fitting_of", "found_numbers", "gauge_of", "gauges_of", "goes_round", "head_mm", "in_words", "increases_per_round",
    "measures", "mixed_row_mm", "nearest", "over_round", "over_rows", "raglan", "round_words", "rounds_words", "shaped_rows", "sizes_of", "solve",
    "spread_numbers", "staggered", "standard_gauge", "stretch_of", "surveyed", "table", "table_name", "taper", "triangle", "triangle_increases",
    "washing", "worn_on",
]
