"""The examples are what they say: every manuscript proves clean, and the fabric has the counts worked out by hand."""

import tomllib
from pathlib import Path

import pytest

import hookwright

ROOT = Path(__file__).resolve().parents[1]
FOLDER = ROOT / "examples"
EXAMPLES = sorted(path for path in FOLDER.glob("*.md") if path.name != "README.md")
BY_HAND = tomllib.loads((ROOT / "tests" / "patterns" / "example_counts.toml").read_text("utf-8"))


def report(path: Path) -> dict:
    return hookwright.check(path.read_text("utf-8")).as_dict()


def rows_of(worked: dict, piece: str, label: str) -> list[dict]:
    return [row for row in worked["rows"] if row["piece"].startswith(piece) and row["label"] == label]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_nothing_to_mend(path):
    """No example has anything to mend or to look at."""
    worked = report(path)
    found = [f"{finding['line']}: {finding['message']}" for finding in worked["findings"] if finding["grade"] != "for your information"]
    assert found == []
    assert worked["rows"]


@pytest.mark.parametrize("name", sorted(BY_HAND))
def test_worked_by_hand(name):
    """The counts of chosen rows, in every size, are those worked out on paper from the pattern alone."""
    worked = report(FOLDER / f"{name}.md")
    expected = BY_HAND[name]
    sizes = expected.get("sizes", [])
    if sizes:
        assert worked["sizes"] == sizes
    for want in expected["rows"]:
        piece, label = want["piece"], want["row"]
        found = rows_of(worked, piece, label)
        assert found, f"{name}: no {label} in {piece}; there are {[(row['piece'], row['label']) for row in worked['rows']]}"
        got: dict[str, dict] = {}
        for row in found:
            got.update(row["sizes"])
        counts = [got[size]["stitches"] if size in got else None for size in (sizes or list(got))]
        # -1: the range ends earlier in that size, which then stands with its own last row
        assert [c for c, count in zip(counts, want["stitches"]) if count >= 0] == [count for count in want["stitches"] if count >= 0], f"{name}, {piece}, {label}"
        for kind, numbers in want.get("by_kind", {}).items():
            assert [got[size]["by_kind"].get(kind, 0) for size in (sizes or list(got))] == numbers, f"{name}, {piece}, {label}: {kind}"
        if "spaces" in want:
            assert [len(got[size]["spaces"]) for size in (sizes or list(got))] == want["spaces"], f"{name}, {piece}, {label}: spaces"


def test_the_table_names_every_example():
    """The list of examples leaves none out and names none that is not there."""
    words = (FOLDER / "README.md").read_text("utf-8")
    for path in EXAMPLES:
        assert f"({path.name})" in words, f"{path.name} is not in the table"
    assert words.count(".md)") == len(EXAMPLES)


def test_by_hand_covers_every_example():
    """Each example has rows worked out by hand."""
    assert sorted(BY_HAND) == [path.stem for path in EXAMPLES]
