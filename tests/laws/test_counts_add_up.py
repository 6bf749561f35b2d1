"""Generated pieces whose counts are known beforehand: the counts worked are those, in both dialects, and nothing is blamed."""

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from trees import sized_pieces, worked_pieces

import hookwright
from hookwright.ground import MUST_MEND
from hookwright.notation.spell import spell
from hookwright.notation.tree import Chain, Repeat


@settings(max_examples=60)
@given(worked_pieces(), st.sampled_from(("US", "UK")))
def test_counts_are_those_of_the_plan(piece, terms):
    """Row by row, a piece written out and checked has the stitches it was planned with."""
    text = "\n\n".join(spell(row, terms) for row in piece.rows)
    report = hookwright.check(text, terms=terms).as_dict()
    worked = [next(iter(row["sizes"].values()))["stitches"] for row in report["rows"] if not row["label"].startswith("Foundation")]
    assert worked == piece.counts, text
    assert not [finding["message"] for finding in report["findings"] if finding["grade"] == MUST_MEND], text
    assert not [finding["message"] for finding in report["findings"] if finding["kind"] == "written-reads-otherwise"], text


@settings(max_examples=40)
@given(sized_pieces(), st.sampled_from(("US", "UK")))
def test_counts_in_three_sizes(piece, terms):
    """Size lists in chains, repeats and counts come out in every size."""
    text = "\n\n".join(spell(row, terms) for row in piece.rows)
    report = hookwright.check(text, terms=terms, sizes=("S", "M", "L")).as_dict()
    rows = [row["sizes"] for row in report["rows"] if not row["label"].startswith("Foundation")]
    assert [[row[size]["stitches"] for size in ("S", "M", "L")] for row in rows] == [list(count) for count in piece.counts], text
    assert not [finding["message"] for finding in report["findings"] if finding["grade"] == MUST_MEND], text


@settings(max_examples=30)
@given(worked_pieces(), st.sampled_from(("US", "UK")), st.data())
def test_a_wrong_count_is_found(piece, terms, data):
    """One stated count changed by 1 to 9: that row is found, and no row before it.

    Pieces with chain spaces are left out: there a larger count may be one that counts the chains.
    """
    assume(not any(isinstance(step, Repeat) and isinstance(step.steps[0], Chain) for row in piece.rows for step in row.steps))
    labelled = [row for row in piece.rows if row.numbers]
    wrong = data.draw(st.sampled_from(labelled))
    number, of, chains = wrong.stated[0].items[0]
    wrong.stated[0].items = ((number + data.draw(st.integers(1, 9)), of, chains),)
    text = "\n\n".join(spell(row, terms) for row in piece.rows)
    found = hookwright.check(text, terms=terms).as_dict()["findings"]
    blamed = [finding["row"] for finding in found if finding["grade"] == MUST_MEND]
    assert blamed and blamed[0] == wrong.label(), text
