"""Twins that differ by one slip of a tired hand: the wrong one is found in its own row, the right one is not blamed for anything.

tests/faulty/pairs.toml says beside them where the figures come from: worked out by hand (common practice, no source).
"""

import tomllib
from pathlib import Path

import pytest

import hookwright

PAIRS = tomllib.loads((Path(__file__).parent / "faulty" / "pairs.toml").read_text("utf-8"))["pair"]
UPPER_GRADES = {"must mend", "look at this"}
CODES = {
    "count_mismatch", "leftover", "runs_out", "ambiguous", "missing_step", "wrong_reference", "wrong_repeat_count", "wrong_repeat_content", "repeat_marks",
    "shape_drift", "numbering", "tch_convention", "wrong_range", "wrong_multiple", "size_list", "punctuation", "mixed_terms",
}


def found(pair: dict, which: str) -> list[dict]:
    """The findings of the upper two grades in one of the twins."""
    text = pair["text"].replace("{}", pair[which])
    terms = None if text.startswith("---") else pair.get("terms", "US")
    report = hookwright.check(text, terms=terms, below=pair.get("below"), in_round=pair.get("in_round", False), sizes=pair.get("sizes")).as_dict()
    return [finding for finding in report["findings"] if finding["grade"] in UPPER_GRADES]


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: pair["name"])
def test_the_right_twin_is_not_blamed(pair):
    """Nothing to mend and nothing to look at."""
    assert [finding["message"] for finding in found(pair, "right")] == []


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: pair["name"])
def test_the_slip_is_found_in_its_row(pair):
    """Something to mend or to look at, in the row that was changed."""
    rows = [finding["row"] for finding in found(pair, "wrong")]
    assert rows
    assert not pair["row"] or pair["row"] in rows, rows


@pytest.mark.parametrize("pair", [pair for pair in PAIRS if pair["code"] != "missing_step"], ids=lambda pair: pair["name"])
def test_the_slip_is_said_in_one_row_only(pair):
    """What follows from it in later rows is folded into it; a step that is missing may show twice."""
    rows = {finding["row"] for finding in found(pair, "wrong")}
    assert len(rows) == 1, rows


def test_all_sorts_of_slips_are_there():
    """Every sort is met at least once and the names are their own."""
    assert {pair["code"] for pair in PAIRS} == CODES
    assert len({pair["name"] for pair in PAIRS}) == len(PAIRS) > 60
