"""Row labels: every way of heading a row, told from rows that are only spoken of."""

import tomllib
from pathlib import Path

import pytest

from hookwright.ground import PerSize
from hookwright.notation import read
from hookwright.notation.label_search import find_labels
from hookwright.notation.labels import read_label
from hookwright.notation.tree import Row

CASES = tomllib.loads((Path(__file__).parent / "reading" / "labels.toml").read_text("utf-8"))


@pytest.mark.parametrize("case", CASES["label"], ids=lambda case: case["line"][:40])
def test_a_heading_says_which_row_it_is(case):
    """Word, numbers, side, sizes and name are read, and the steps begin where they should."""
    line = case["line"]
    label = read_label(line, 0, len(line))
    assert label is not None and label.core
    word, first, last = case["reads"]
    assert label.word == word
    assert (label.numbers[0], label.numbers[-1]) == (first, last) if first else label.numbers == ()
    assert label.side == case.get("side", "")
    assert label.only == tuple(case.get("only", ()))
    if "name" in case:
        assert label.name == case["name"]
    if "last" in case:
        assert label.last_number == PerSize(case["last"])
    if "count" in case:
        assert label.count_of_rows == PerSize(case["count"])
    if "firsts" in case:
        assert label.first_number == PerSize(case["firsts"])
    assert label.every == case.get("every", "")
    if "remarks" in case:
        assert [line[start:end] for start, end in label.remarks] == case["remarks"]
    if "body" in case:
        assert line[label.end :].startswith(case["body"])


@pytest.mark.parametrize("case", CASES["inside"], ids=lambda case: case["text"][:40])
def test_rows_that_run_on_are_found(case):
    """In a paragraph only the rows that begin are labels, not those referred to."""
    labels = find_labels(case["text"], 0, len(case["text"]))
    assert [label.numbers[0] for label in labels] == case["numbers"]


@pytest.mark.parametrize("case", CASES["prose"], ids=lambda case: case["line"][:40])
def test_a_row_spoken_of_is_prose(case):
    """Sentences about rows stay prose."""
    pattern, _ = read(case["line"], terms="US")
    assert list(pattern.rows()) == []
    assert pattern.pieces[0].items[0].text == case["line"]


def test_a_range_past_all_bounds_is_refused_in_words():
    """Nine milliard rows are not unfolded; the finding names the label."""
    pattern, findings = read("Rows 2-9000000000: sc across", terms="US")
    ((_, row),) = pattern.rows()
    assert isinstance(row, Row) and len(row.numbers) == 1
    assert [finding.kind for finding in findings] == ["too-much-work"]
    assert "Rows 2-9000000000" in findings[0].message
