"""Facts of the trade, each with its source, worked by the tool from the words a maker would read."""

import re
import tomllib
from pathlib import Path

import pytest

import hookwright
from hookwright.stitches import stitch

FACTS = tomllib.loads(Path(__file__).with_name("trade_facts.toml").read_text("utf-8"))["fact"]


def named(**wanted):
    return [fact for fact in FACTS if all(key in fact for key in wanted)]


def only_size(row: dict) -> dict:
    (cell,) = row["sizes"].values()
    return cell


def graver(worked: dict) -> list[str]:
    return [finding["message"] for finding in worked["findings"] if finding["grade"] == "must mend"]


def fill(words: str, n: int) -> str:
    return re.sub(r"\{n\+(\d)\}", lambda m: str(n + int(m[1])), words)


@pytest.mark.parametrize("fact", named(for_n=1), ids=lambda fact: fact["name"])
def test_chains(fact):
    """How many stitches a foundation chain gives."""
    for n in fact["for_n"]:
        worked = hookwright.check(fill(fact["text"], n)).as_dict()
        row = next(row for row in worked["rows"] if row["label"] == fact["row"])
        assert only_size(row)["stitches"] == n
        assert only_size(row)["by_kind"] == dict.fromkeys(fact["by_kind"], n)
        assert graver(worked) == []


@pytest.mark.parametrize("fact", named(each_round=1), ids=lambda fact: fact["name"])
def test_circles(fact):
    """A flat circle gains as many stitches in each round as it began with."""
    worked = hookwright.check(fact["text"], in_round=fact["in_round"]).as_dict()
    assert [only_size(row)["stitches"] for row in worked["rows"]] == fact["each_round"]
    first = fact["each_round"][0]
    assert fact["each_round"] == [first * (number + 1) for number in range(len(fact["each_round"]))]
    assert graver(worked) == []


@pytest.mark.parametrize("fact", named(counts=1), ids=lambda fact: fact["name"])
def test_rows_that_fit(fact):
    """Rows over a stated row below come out at the count worked out on paper."""
    for below, count in zip(fact.get("belows") or [fact["below"]], fact["counts"], strict=True):
        worked = hookwright.check(fact["text"], below=below).as_dict()
        row = next(row for row in worked["rows"] if row["label"] == fact["row"])
        assert only_size(row)["stitches"] == count
        assert fact.get("kinds", only_size(row)["by_kind"]) == only_size(row)["by_kind"]
        assert graver(worked) == []


@pytest.mark.parametrize("fact", named(finding=1), ids=lambda fact: fact["name"])
def test_what_cannot_be(fact):
    """What cannot come out is found, with the numbers of the sum."""
    worked = hookwright.check(fact["text"], below=fact.get("below")).as_dict()
    found = [finding for finding in worked["findings"] if finding["kind"] == fact["finding"]]
    assert len(found) == 1, [(finding["kind"], finding["message"]) for finding in worked["findings"]]
    assert found[0]["grade"] == "must mend"
    said = repr(found[0])
    for number in fact.get("numbers", ()):
        assert re.search(rf"\b{number}\b", said), f"{number} is not said: {said}"


@pytest.mark.parametrize("fact", named(rows_in_all=1), ids=lambda fact: fact["name"])
def test_rows_in_all(fact):
    """How many rows a back-reference makes."""
    worked = hookwright.check(fact["text"]).as_dict()
    assert len([row for row in worked["rows"] if row["label"].startswith("Row")]) == fact["rows_in_all"]
    assert graver(worked) == []


def test_loops_of_a_bobble():
    """A bobble of 5 legs is closed by drawing through 6 loops: one of each leg and the working loop.

    Source: Crochetpedia, Bobble stitch, https://crochetpedia.com/bobble-stitch/ ("number of legs + 1" restated).
    """
    assert stitch("bobble").legs + 1 == 6
    text = "Special stitch: Bobble: work 5 dc in the same st up to the last pull-through of each, then draw through all 6 loops.\n\nRow 2: Ch 1, bobble in first st, sc in each of next 4 sts."
    worked = hookwright.check(text, below="5 sc").as_dict()
    assert only_size(worked["rows"][0])["by_kind"] == {"bobble": 1, "sc": 4}


def test_every_fact_has_a_source():
    """No fact without where it comes from."""
    assert all(fact["source"].strip() for fact in FACTS)
    assert len({fact["name"] for fact in FACTS}) == len(FACTS)
