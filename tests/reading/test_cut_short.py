"""A row that breaks off in the middle of a phrase, as it does while she types: read as far as it goes, and never a traceback."""

import tomllib
from pathlib import Path

import pytest

import hookwright

PATTERNS = Path(__file__).parents[1] / "patterns"
FILES = sorted(PATTERNS.glob("rows_*.toml"))


def rows_of(path: Path) -> list[dict]:
    return [case for cases in tomllib.loads(path.read_text("utf-8")).values() if isinstance(cases, list) for case in cases if isinstance(case, dict) and "text" in case]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_row_cut_short_is_read_as_far_as_it_goes(path):
    """Every row of the file, cut after a word: another word for each row."""
    for number, case in enumerate(rows_of(path)):
        words = case["text"].split(" ")
        for place in {2 + number % 7, 3 + number % 11, len(words) - 1 - number % 5}:
            cut = " ".join(words[: max(2, place)])
            report = hookwright.check(cut, terms=case.get("terms", "US"), below=case.get("below"), in_round=bool(case.get("in_round")), sizes=case.get("sizes"))
            assert report.as_dict()["sizes"]


def test_a_total_at_the_very_end_is_a_count():
    """The words that may follow a total need not be there."""
    report = hookwright.check("rnd 3- *1 dc in next, 2 dc in next* all the way round, join. should be 33", terms="US", below="22 dc", in_round=True)
    assert [row["sizes"]["1"]["stitches"] for row in report.as_dict()["rows"]] == [33]
    assert not report.findings


@pytest.mark.parametrize("text", ["Rnd 6:", "Rnd 6: Repeat", "Rnd 7: Slip", "Rnd 9: Do not", "Round 3: Join A in any dc.", "Row 4: With A,"])
def test_a_row_that_makes_no_stitch_is_pointed_at(text):
    """A label with nothing to work behind it isn't passed over in silence."""
    report = hookwright.check(text, terms="US", below="20 sc", in_round=True)
    assert [finding.grade for finding in report.findings] == ["look at this"]


@pytest.mark.parametrize("text", ["Rnd 12: Fasten off, leaving a long tail.", "Rnd 13: Stuff the head firmly."])
def test_what_is_told_in_a_numbered_line_is_no_fault(text):
    """An end or a hint may have a number of its own."""
    assert not hookwright.check(text, terms="US", below="20 sc", in_round=True).findings


@pytest.mark.parametrize("text", ["9.) With B: sc in each st around (20)", "3) (sc 3, 2 sc in next) x 5 (25)", "Rnd 4) sc around (20)"])
def test_the_bracket_of_a_label_is_none_of_the_row(text):
    """A number with a bracket behind it is a label, and no bracket is left open by it."""
    assert not hookwright.check(text, terms="US", below="20 sc", in_round=True).findings
