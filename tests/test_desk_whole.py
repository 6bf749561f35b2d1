"""The command as a whole, on the examples, with nothing stood in for."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
EXAMPLES = sorted(path for path in (ROOT / "examples").glob("*.md") if path.stem != "README")


def hookwright(*words, stdin=None, folder=ROOT):
    """Runs the command as a person does, at a width of 100 columns."""
    environment = {**os.environ, "COLUMNS": "100", "PYTHONIOENCODING": "utf-8"}
    return subprocess.run([sys.executable, "-m", "hookwright.desk.main", *map(str, words)], input=stdin, cwd=folder,
                          env=environment, capture_output=True, text=True, encoding="utf-8", timeout=120)


def test_the_demo_proves_the_examples_and_writes_their_sheets(tmp_path):
    """Six sheets of each, nothing to mend, and the path is told; a second run changes nothing."""
    done = hookwright("demo", ROOT / "examples", "--into", tmp_path / "sheets")
    assert done.returncode == 0, done.stdout + done.stderr
    assert str(tmp_path / "sheets") in done.stdout
    sheets = sorted(path for path in (tmp_path / "sheets").iterdir() if not path.name.startswith("."))
    assert len(sheets) == 6 * len(EXAMPLES) and all(path.stat().st_size > 1000 for path in sheets)
    before = {path: path.read_bytes() for path in sheets}
    again = hookwright("demo", ROOT / "examples", "--into", tmp_path / "sheets")
    assert again.returncode == 0
    assert {path: path.read_bytes() for path in sheets} == before


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_counts_of_an_example_as_json_and_as_a_table_agree(example):
    """The table, the CSV and `check --json` have the same rows."""
    values = json.loads(hookwright("check", example, "--json").stdout)
    table = json.loads(hookwright("count", example, "--json").stdout)
    assert len(table["rows"]) == len(values["rows"]) > 0
    first = values["rows"][0]["sizes"]
    assert table["rows"][0]["stitches"] == {size: counts["stitches"] for size, counts in first.items()}
    assert hookwright("count", example, "--csv").stdout.count("\n") == len(table["rows"]) + 1


def test_a_row_by_itself_from_standard_input():
    """One row over a stated row below: 6 x (1 + 2) = 18 (sum by hand)."""
    done = hookwright("check", "-", "--below", "12 sc", "--in-round", "--json", stdin="Rnd 2: [sc in next st, 2 sc in next st] x 6 (18)\n")
    values = json.loads(done.stdout)
    assert done.returncode == 0
    assert values["rows"][0]["sizes"]["1"]["stitches"] == 18 and values["rows"][0]["sizes"]["1"]["by_kind"] == {"sc": 18}


def test_a_row_that_does_not_come_out_ends_with_1_and_shows_the_sum():
    """5 repeats of 3 do not fill 16 stitches: 16 = 5 x 3 + 1; 24 would be 6 x 4 over 18 (sums by hand)."""
    done = hookwright("check", "-", "--below", "16 sc", "--in-round", stdin="Rnd 2: *2 sc, inc; rep from * around. (24)\n")
    assert done.returncode == 1
    assert "[repeat-leaves-stitches]" in done.stdout and "5 x 3" in done.stdout
    assert all(len(line) <= 100 for line in done.stdout.splitlines())


@pytest.mark.parametrize("words", [("check", "nothing.md"), ("count", "nothing.md"), ("write", "nothing.md"), ("check", "."), ("count", "src")])
def test_what_can_not_be_read_ends_with_2(words):
    """Missing files and folders: words, and no traceback."""
    done = hookwright(*words)
    assert done.returncode == 2
    assert "Traceback" not in done.stdout + done.stderr and "nothing" in done.stdout + done.stderr or "folder" in done.stdout + done.stderr


@pytest.mark.parametrize("data", [b"", b"\xff\xfe", b"---\n", b"---\na: &a [*a]\n---\n", b"(" * 5000, b"Row 1: " + b"[" * 3000, b"\x00\x01"])
def test_odd_files_give_words(tmp_path, data):
    """Empty, half, spoilt and deeply nested files are told of or read, never a traceback."""
    (tmp_path / "odd.md").write_bytes(data)
    for command in (("check",), ("check", "--json"), ("count",)):
        done = hookwright(command[0], tmp_path / "odd.md", *command[1:])
        assert done.returncode in (0, 1, 2), done.stderr
        assert "Traceback" not in done.stderr


def test_written_beside_the_manuscript(tmp_path):
    """A sheet in each terms, told by name; a manuscript without a head, too."""
    (tmp_path / "cuff.md").write_text("Row 1: Ch 13, sc in 2nd ch from hook and in each ch across. (12 sc)\n")
    done = hookwright("write", "cuff.md", "--terms", "us", "--terms", "uk", "--to", "txt", folder=tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "written cuff.us.txt" in done.stdout and "written cuff.uk.txt" in done.stdout
    assert "sc in" in (tmp_path / "cuff.us.txt").read_text("utf-8") and "dc in" in (tmp_path / "cuff.uk.txt").read_text("utf-8")
