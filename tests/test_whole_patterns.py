"""Whole patterns as they are pasted, with prose, lists and slips: stitches after every row in every size, nothing blamed.

Beside each pattern stands its key, worked out by hand (common practice, no source).
"""

import tomllib
from pathlib import Path

import pytest

import hookwright

PATTERNS = sorted((Path(__file__).parent / "patterns" / "whole").glob("*.md"))


def counts_of(words: str) -> list[int]:
    """Stitches row by row from a key's line: `12 24*3` is 12 and then three rows of 24."""
    counts = []
    for word in words.split():
        stitches, _, times = word.partition("*")
        counts += [int(stitches)] * int(times or 1)
    return counts


def test_the_patterns_are_there_and_each_has_its_key():
    """Every pattern has a key with a line of counts for each of its sizes."""
    assert len(PATTERNS) >= 4
    for pattern in PATTERNS:
        key = tomllib.loads(pattern.with_suffix(".toml").read_text("utf-8"))
        assert len(key["counts"]) == max(1, len(key["sizes"]))


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.stem)
def test_a_whole_pattern_comes_to_its_stitches_row_by_row(pattern):
    """Each size's rows, chains to begin with left aside, have the keyed stitches; nothing of a sound pattern must be mended."""
    key = tomllib.loads(pattern.with_suffix(".toml").read_text("utf-8"))
    report = hookwright.check(pattern.read_text("utf-8"), terms=key["terms"], sizes=key["sizes"] or None)
    worked = [[row.stitches for row in fabric.rows if row.row is not None and row.label != "Foundation"] for fabric in report.fabrics]
    assert worked == [counts_of(words) for words in key["counts"]]
    assert [finding["message"] for finding in report.as_dict()["findings"] if finding["grade"] == "must mend"] == []
