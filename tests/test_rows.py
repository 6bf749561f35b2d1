"""Rows as designers write them, one at a time: worked counts as keyed by hand, no blame where none is due, every fault found.

The data files say beside the rows where the figures come from: worked out by hand (common practice, no source).
"""

import tomllib
from pathlib import Path

import pytest

import hookwright

FILES = sorted((Path(__file__).parent / "patterns").glob("rows_*.toml"))
ROWS = [row for path in FILES for row in tomllib.loads(path.read_text("utf-8"))["row"]]
SOUND = [row for row in ROWS if "fault" not in row]
FAULTY = [row for row in ROWS if "fault" in row]
UPPER_GRADES = {"must mend", "look at this"}


def name_of(row: dict) -> str:
    return row["name"]


def checked(row: dict) -> dict:
    """The report on the row after its notes and the rows that it refers to."""
    notes = ["Notes: " + " ".join(row["notes"]), ""] if "notes" in row else []
    text = "\n".join([*notes, *row.get("rows_before", []), row["text"]])
    return hookwright.check(text, terms=row["terms"], below=row.get("below"), in_round=row.get("in_round", False), sizes=row.get("sizes")).as_dict()


def test_the_rows_are_there_and_each_has_a_name_of_its_own():
    """There are sound rows and faulty ones, and no name stands for two rows."""
    assert len(SOUND) > 300
    assert len(FAULTY) > 50
    assert len({row["name"] for row in ROWS}) == len(ROWS)


@pytest.mark.parametrize("row", SOUND, ids=name_of)
def test_a_sound_row_has_the_count_keyed_by_hand_and_is_not_blamed(row):
    """Stitches in every size, chain spaces in working order where they are keyed, nothing that must be mended."""
    report = checked(row)
    assert [finding["message"] for finding in report["findings"] if finding["grade"] == "must mend"] == []
    worked = list(report["rows"][-1]["sizes"].values())
    keyed = row["stitches"] if isinstance(row["stitches"], list) else [row["stitches"]] * len(worked)
    assert [size["stitches"] for size in worked] == keyed
    if "spaces" in row:
        assert [size["spaces"] for size in worked] == [row["spaces"]] * len(worked)


@pytest.mark.parametrize("row", FAULTY, ids=name_of)
def test_the_fault_of_a_faulty_row_is_found(row):
    """A row with a fault has something to mend or to look at."""
    assert [finding for finding in checked(row)["findings"] if finding["grade"] in UPPER_GRADES] != [], row["fault"]
