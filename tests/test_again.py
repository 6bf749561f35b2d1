"""Rows worked by reference: how often, until when, how they end, what differs."""

import tomllib
from pathlib import Path

import pytest

from hookwright.ground import PerSize
from hookwright.notation.again import read_again
from hookwright.notation.tree import Again, Until

CASES = tomllib.loads((Path(__file__).parent / "reading" / "again.toml").read_text("utf-8"))


def _number(value):
    return PerSize(value) if isinstance(value, list) else value


@pytest.mark.parametrize("case", CASES["again"], ids=lambda case: case["text"][:40])
def test_a_reference_is_read_whole(case):
    """The reference equals what the case says, and only what belongs to it is taken."""
    text = case["text"]
    read = read_again(text, 0, len(text))
    assert read is not None
    until = None
    if "until" in case:
        facts = {key: tuple(value) if key == "measure_mm" else _number(value) for key, value in case["until"].items()}
        until = Until(**facts)
    wanted = Again(
        rows=tuple(case.get("rows", ())), last=case.get("last", 0), named=tuple(case.get("named", ())), times=_number(case.get("times")), sense=case["sense"],
        total_rows=_number(case.get("total_rows")), until=until, even=case.get("even", False), alternate=case.get("alternate", False),
        same_manner=case.get("same_manner", False), then=Again(rows=tuple(case["then"]), times=1, sense="more") if "then" in case else None,
    )
    assert read.again == wanted
    assert read.count_of_rows == case.get("count_of_rows")
    assert text[read.end :].strip() == case.get("rest", "")


@pytest.mark.parametrize("case", CASES["steps"], ids=lambda case: case["text"][:40])
def test_steps_are_no_reference(case):
    """Words that repeat inside a row, or tell how far to work, are left to the steps."""
    assert read_again(case["text"], 0, len(case["text"])) is None
