"""For each example a twin with one fault: the fault is found, by its own name, in its own row and sizes, and nothing else is wrong."""

import re
import tomllib
from pathlib import Path

import pytest

import hookwright

ROOT = Path(__file__).resolve().parents[1]
FOLDER = ROOT / "tests" / "faulty"
TWINS = tomllib.loads((FOLDER / "twins.toml").read_text("utf-8"))["twin"]
EXAMPLES = sorted(path.name for path in (ROOT / "examples").glob("*.md") if path.name != "README.md")


@pytest.mark.parametrize("twin", TWINS, ids=lambda twin: twin["file"])
def test_differs_by_that_fault_only(twin):
    """The twin is the example with one phrase changed, and that phrase stands in it once."""
    example = (ROOT / "examples" / twin["file"]).read_text("utf-8")
    assert example.count(twin["was"]) == 1
    assert (FOLDER / twin["file"]).read_text("utf-8") == example.replace(twin["was"], twin["now"])


@pytest.mark.parametrize("twin", TWINS, ids=lambda twin: twin["file"])
def test_fault_is_found(twin):
    """The finding has the expected kind, names the row and exactly the sizes concerned, and stands at the fault."""
    text = (FOLDER / twin["file"]).read_text("utf-8")
    worked = hookwright.check(text).as_dict()
    graver = [finding for finding in worked["findings"] if finding["grade"] != "for your information"]
    told = [(finding["kind"], finding["row"], finding["sizes"]) for finding in graver]
    fitting = [finding for finding in graver if finding["kind"] == twin["kind"] and twin["row"] in ("", re.sub(" of .*", "", finding["row"] or ""))]
    assert fitting, f"{twin['fault']}: found only {told}"
    if twin["sizes"]:
        assert sorted(fitting[0]["sizes"]) == sorted(twin["sizes"]), told
    assert fitting[0]["grade"] == twin.get("grade", "must mend")
    line = text[: text.index(twin["now"])].count("\n") + 1
    assert abs(fitting[0]["line"] - line) <= twin.get("lines_off", 0), (fitting[0]["line"], line)


@pytest.mark.parametrize("twin", TWINS, ids=lambda twin: twin["file"])
def test_said_once(twin):
    """One fault gives one thing to mend: what follows from it is folded into it or left out."""
    worked = hookwright.check((FOLDER / twin["file"]).read_text("utf-8")).as_dict()
    graver = [(finding["kind"], finding["row"], finding["message"]) for finding in worked["findings"] if finding["grade"] == "must mend"]
    assert len(graver) <= twin.get("at_most", 1), graver


def test_every_example_has_its_twin():
    """No example is without a faulty twin."""
    assert sorted({twin["file"] for twin in TWINS}) == EXAMPLES
    assert sorted(path.name for path in FOLDER.glob("*.md")) == EXAMPLES
