"""Sentences that speak of the work beside the rows stay prose, though persons before a verb of the work are passed over in rows."""

import tomllib
from pathlib import Path

import pytest

import hookwright
from hookwright.notation import spoken

TEXT = """# Pot holder

{before}

Row 1: Ch 21, sc in 2nd ch from hook and in each ch across. (20)
Row 2: Ch 1, turn, sc in each st across. (20)

{between}

Row 3: Ch 1, turn, sc in each st across. (20)
"""
SAID = (
    "I chain 1 at the start of every row and it never counts as a stitch.",
    "So I chain 1 at the start of every row.",
    "I single crochet over the ends as I go.",
    "We will work 3 double crochets into each corner of the border later on.",
    "We start with the head and make the arms later.",
    "Let's talk about the turning chain: I chain 1 and don't count it.",
    "We double crochet the two sides together at the end.",
)


@pytest.mark.parametrize("said", SAID)
@pytest.mark.parametrize("place", ["before", "between"])
def test_how_she_works_is_no_row(said, place):
    """Three rows are worked and nothing is said of them, wherever the sentence stands."""
    report = hookwright.check(TEXT.format(**{"before": "", "between": "", place: said}), terms="US").as_dict()
    assert [[size["stitches"] for size in row["sizes"].values()] for row in report["rows"]] == [[20], [20], [20]]
    assert [finding["message"] for finding in report["findings"] if finding["grade"] != "for your information"] == []


def test_terse_rows_have_no_telling_to_take_out():
    """The quick look that lets terse rows pass never passes over a turn of speech: tried on every row of the case files, and on its words alone."""
    terse = 0
    for path in sorted((Path(__file__).parent / "patterns").glob("rows_*.toml")):
        for row in tomllib.loads(path.read_text("utf-8"))["row"]:
            text = row["text"].partition(":")[2].strip() or row["text"]
            if spoken.is_terse(text.lower()):
                terse += 1
                assert spoken._untold(text, text.lower()) == text
    assert terse > 250
