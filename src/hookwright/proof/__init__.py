"""Proof: a read and worked pattern in, what does not hold out.

`prove(case) -> list[Finding]` runs every check of CHECKS, applies the manuscript's silences, and orders by place; the reader's findings
are among them. `page(kind)` is the manual page of a kind, PAGES all of them.
"""

from .case import Case
from .checks import (
    abbreviation_undefined,
    abbreviation_unused,
    balls_against_estimate,
    bracket_left_open,
    cannot_read,
    caution_owed,
    child_hat_too_wide,
    circle_not_flat,
    colour_not_listed,
    colour_not_used,
    convention_differs,
    count_differs,
    double_star_unused,
    ease_differs,
    ease_taken_twice,
    ends_otherwise,
    finished_length_differs,
    gauge_against_finished,
    hook_not_listed,
    join_differs,
    last_chain_missing,
    length_off_wish,
    loop_used_twice,
    material_not_listed,
    material_not_used,
    mixed_terms,
    multiple_differs,
    named_otherwise,
    no_such_place,
    no_such_row,
    other_space,
    pattern_not_set,
    post_of_chain,
    range_ends_elsewhere,
    reads_like_other_terms,
    reads_two_ways,
    repeat_leaves_stitches,
    repeat_mark_alone,
    repeat_never_ends,
    repeat_without_end,
    repeat_without_extent,
    repeat_without_star,
    row_below_missing,
    row_from_ahead,
    row_from_itself,
    row_number_missing,
    row_number_twice,
    row_out_of_order,
    row_runs_out,
    row_word_differs,
    rows_in_range,
    seam_counts_differ,
    side_differs,
    silence_unused,
    size_list_all_equal,
    size_list_length,
    size_list_outlier,
    size_step_jumps,
    sizes_alike,
    skipped_chains_differ,
    skips_without_chains,
    stated_counts_differ,
    stitches_left_over,
    stitches_passed_over,
    swatch_against_gauge,
    swatch_unlikely,
    term_of_other_dialect,
    texture_on_other_side,
    third_loop_missing,
    turning_chain_counts_differ,
    units_differ,
    unworked_count_differs,
    unworked_not_said,
    written_reads_otherwise,
    yarn_against_gauge,
)
from .proving import prove_with
from .reader_pages import READER_PAGES
from .sizing_pages import SIZING_PAGES

__all__ = ["CHECKS", "PAGES", "Case", "page", "prove"]

# Kind of finding -> the module whose `find(case)` looks for it and whose docstring is its page. This table is all there is to it.
#
# Not here yet, since they need rooms of the house that are built later:
#   comes with shape   edges that ruffle or cup; seams of unequal length
#   comes with charts  chart against words
CHECKS = {
    # stitches, places and counts, in the worked fabric
    "repeat-leaves-stitches": repeat_leaves_stitches,
    "row-runs-out": row_runs_out,
    "stitches-left-over": stitches_left_over,
    "unworked-not-said": unworked_not_said,
    "unworked-count-differs": unworked_count_differs,
    "no-such-place": no_such_place,
    "other-space": other_space,
    "named-otherwise": named_otherwise,
    "join-differs": join_differs,
    "stitches-passed-over": stitches_passed_over,
    "count-differs": count_differs,
    "convention-differs": convention_differs,
    "stated-counts-differ": stated_counts_differ,
    "repeat-never-ends": repeat_never_ends,
    "pattern-not-set": pattern_not_set,
    "loop-used-twice": loop_used_twice,
    "third-loop-missing": third_loop_missing,
    "post-of-chain": post_of_chain,
    "side-differs": side_differs,
    "texture-on-other-side": texture_on_other_side,
    "reads-two-ways": reads_two_ways,
    "written-reads-otherwise": written_reads_otherwise,
    "cannot-read": cannot_read,
    "skips-without-chains": skips_without_chains,
    "last-chain-missing": last_chain_missing,
    "ends-otherwise": ends_otherwise,
    "skipped-chains-differ": skipped_chains_differ,
    "turning-chain-counts-differ": turning_chain_counts_differ,
    # rows, their numbers and what they refer to
    "range-ends-elsewhere": range_ends_elsewhere,
    "rows-in-range": rows_in_range,
    "repeat-without-end": repeat_without_end,
    "row-number-twice": row_number_twice,
    "row-number-missing": row_number_missing,
    "row-out-of-order": row_out_of_order,
    "row-word-differs": row_word_differs,
    "no-such-row": no_such_row,
    "row-below-missing": row_below_missing,
    "row-from-ahead": row_from_ahead,
    "row-from-itself": row_from_itself,
    # marks of a repeat
    "bracket-left-open": bracket_left_open,
    "repeat-mark-alone": repeat_mark_alone,
    "repeat-without-star": repeat_without_star,
    "repeat-without-extent": repeat_without_extent,
    "double-star-unused": double_star_unused,
    # numbers per size
    "size-list-length": size_list_length,
    "size-list-outlier": size_list_outlier,
    "size-list-all-equal": size_list_all_equal,
    # words
    "abbreviation-undefined": abbreviation_undefined,
    "abbreviation-unused": abbreviation_unused,
    "term-of-other-dialect": term_of_other_dialect,
    "mixed-terms": mixed_terms,
    "reads-like-other-terms": reads_like_other_terms,
    # what is listed, measured and owed
    "colour-not-listed": colour_not_listed,
    "colour-not-used": colour_not_used,
    "material-not-listed": material_not_listed,
    "material-not-used": material_not_used,
    "hook-not-listed": hook_not_listed,
    "units-differ": units_differ,
    "gauge-against-finished": gauge_against_finished,
    "finished-length-differs": finished_length_differs,
    "seam-counts-differ": seam_counts_differ,
    "multiple-differs": multiple_differs,
    "circle-not-flat": circle_not_flat,
    "caution-owed": caution_owed,
    # sizes: bodies, ease, gauge and grading
    "ease-differs": ease_differs,
    "ease-taken-twice": ease_taken_twice,
    "child-hat-too-wide": child_hat_too_wide,
    "size-step-jumps": size_step_jumps,
    "sizes-alike": sizes_alike,
    "length-off-wish": length_off_wish,
    "swatch-against-gauge": swatch_against_gauge,
    "swatch-unlikely": swatch_unlikely,
    "yarn-against-gauge": yarn_against_gauge,
    "balls-against-estimate": balls_against_estimate,
    # silences (found while they are applied)
    "silence-unused": silence_unused,
}

PAGES = {**READER_PAGES, **SIZING_PAGES, **{kind: module.__doc__ for kind, module in CHECKS.items()}}


def prove(case: Case) -> list:
    """All findings of the pattern, in the order of their places; what the manuscript silences is in `case.silenced` with the reason."""
    return prove_with(CHECKS, case)


def page(kind: str) -> str:
    """The manual page of a kind of finding: what it means, a row that has it, the same without it, the sum, what to do.

    KeyError where there is no such kind.
    """
    from inspect import cleandoc

    return cleandoc(PAGES[kind])
