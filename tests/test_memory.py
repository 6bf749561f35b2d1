"""A check that remembers earlier texts of the manuscript finds what a check of the text alone finds."""

import random
import re
from pathlib import Path

import pytest

import hookwright

ROOT = Path(__file__).resolve().parents[1]
MANUSCRIPTS = sorted((ROOT / "examples").glob("*.md")) + sorted((ROOT / "tests" / "patterns" / "whole").glob("*.md")) + sorted((ROOT / "tests" / "sized").glob("*.md"))
EDITS = 5


def edited(text: str, chance: random.Random) -> str:
    """The text as it stands a moment later: a word half typed, a number changed, a line gone or come, a word gone."""
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    kind = chance.randrange(6)
    if kind == 0:
        lines[at] = lines[at][: chance.randrange(len(lines[at]) + 1)]
    elif kind == 1:
        lines[at] = re.sub(r"\d+", lambda found: str(int(found[0]) + 1), lines[at], count=1)
    elif kind == 2:
        del lines[at]
    elif kind == 3:
        lines.insert(at, chance.choice(["Turn the work over.", "", "Row 99: Ch 1, sc in each st across, turn.", "A — “remark” with an é."]))
    elif kind == 4:
        words = lines[at].split(" ")
        del words[chance.randrange(len(words))]
        lines[at] = " ".join(words)
    else:
        lines[at] = lines[at].replace("sc", "dc", 1)
    return "\n".join(lines)


@pytest.mark.parametrize("path", MANUSCRIPTS, ids=lambda path: path.stem)
def test_what_is_remembered_changes_nothing(path):
    """Edit after edit, the report with a memory is the report without one, and so is the sheet."""
    chance, memory = random.Random(path.stem), hookwright.Memory()
    text = path.read_text("utf-8")
    hookwright.check(text, memory=memory)
    for _ in range(EDITS):
        text = edited(text, chance)
        with_memory = hookwright.check(text, memory=memory)
        alone = hookwright.check(text)
        assert with_memory.as_dict() == alone.as_dict()
        assert [(row.span, row.label_span, row.text, repr(row)) for _, row in with_memory.pattern.rows()] == [(row.span, row.label_span, row.text, repr(row)) for _, row in alone.pattern.rows()]
    assert hookwright.write(with_memory, "html", "UK") == hookwright.write(alone, "html", "UK")


def test_rows_of_the_same_words_keep_places_of_their_own():
    """The same words in two rows are two readings, each with its own spans."""
    text = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. 10 sc\nRow 2: Ch 1, turn, sc in each st across. 10 sc\nRow 3: Ch 1, turn, sc in each st across. 10 sc\n"
    memory = hookwright.Memory()
    hookwright.check(text, memory=memory)
    report = hookwright.check("A line before.\n\n" + text, memory=memory)
    for _, row in report.pattern.rows():
        assert all(row.span.start <= step.span.start and step.span.end <= row.span.end for step in row.steps)


def test_a_finding_points_at_its_words_after_they_moved():
    """What moves down with its row is found where it stands now."""
    text = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. 10 sc\nRow 2: Ch 1, turn, [sc in next 3 sts] across. 9 sc\n"
    memory = hookwright.Memory()
    first = hookwright.check(text, memory=memory)
    moved = hookwright.check("Words before.\n\n" + text, memory=memory)
    places = [[(finding.kind, report.text[finding.span.start : finding.span.end]) for finding in report.findings if finding.span.end] for report in (first, moved)]
    assert any(kind == "repeat-leaves-stitches" for kind, _ in places[0])
    assert places[0] == places[1]
