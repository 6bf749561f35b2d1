"""A pasted pattern becomes a manuscript that comes to the same stitches and loses no word."""

import re
from collections import Counter
from pathlib import Path

import pytest

import hookwright
from hookwright.desk.workbench.head_lines import _PASSED_OVER, quoted
from hookwright.desk.workbench.tidy import same_work, tidy

WHOLE = sorted((Path(__file__).resolve().parents[1] / "patterns" / "whole").glob("*.md"))[::6]
FOREIGN = """PEBBLE LANE COWL
by Marram Lane Studio

Skill level: easy
Hook: 5.5 mm (US I-9)
Yarn: worsted wool, 2 skeins
Gauge: 14 sts and 10 rows = 4 inches in hdc
Sizes: Small (Medium, Large)

The cowl is worked flat
and buttoned.

COWL
Ch 30 (36, 42).
Row 1: Hdc in 3rd ch from hook and in each
   ch across, turn. 28 (34, 40) hdc
Row 2: Ch 2 (does not count as st), hdc in each st
   across, turn. 28 (34, 40) hdc
Rows 3-20: Rep row 2.
Fasten off.

FINISHING
Sew it up.
"""


def words(text: str) -> Counter:
    return Counter(re.findall(r"\w+", text.lower()))


def test_a_foreign_pattern_gets_a_head_headings_and_rows():
    made = tidy(FOREIGN)
    text = made["text"]
    assert made["title"] == "PEBBLE LANE COWL" and made["report"]["must_mend"] == 0
    for line in ("title: PEBBLE LANE COWL", "designer: Marram Lane Studio", "terms: US", "sizes: [Small, Medium, Large]", 'hook: 5.5 mm (US I-9)', "level: easy",
                 "gauge: [{stitches: 14, rows: 10, over: 4 in, in: hdc}]", "## COWL", "## FINISHING",
                 "Row 1: Hdc in 3rd ch from hook and in each ch across, turn. 28 (34, 40) hdc"):
        assert line in text.split("\n"), line
    assert text.count("Pebble") + text.count("PEBBLE") == 1 and "The cowl is worked flat" in text
    assert "Rep Row 2" in made["respelled"] and made["notes"]
    assert tidy(text)["text"] == text  # tidied again it stays


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.stem)
def test_tidied_it_is_the_same_work_and_keeps_its_words(path):
    pasted = path.read_text("utf-8")
    made = tidy(pasted)
    assert same_work(hookwright.check(pasted), hookwright.check(made["text"]))
    lost = words(pasted) - words(made["text"])
    # only words that a head says by its keys are gone, or are said there in another number
    assert not {word.removesuffix("es").removesuffix("s") for word in lost} - _PASSED_OVER - {word.removesuffix("es").removesuffix("s") for word in words(made["text"])}, lost
    if made["respelled"]:
        assert same_work(hookwright.check(made["text"]), hookwright.check(made["respelled"]))


def test_what_has_a_head_stays_as_it_is():
    text = "---\ntitle: A\nterms: UK\n---\n\nRow 1: Ch 11, dc in 2nd ch from hook and in each ch across. (10 dc)\n"
    assert tidy(text)["text"] == text


def test_what_is_no_pattern_is_told():
    made = tidy("Dear Ann,\n\nthank you for the yarn.\n")
    assert "Dear Ann" in made["text"] and any("No row" in note for note in made["notes"])


@pytest.mark.parametrize("words", ["Hat", "4: a", "yes", "a # b", "- x", '"', "{x}", "né", "a: b, c", "[1]", "null", " x ", "*", "&a", "%", "@x", "5.5", "2026-01-01"])
def test_any_words_can_stand_in_a_head(words):
    report = hookwright.check(f"---\ntitle: {quoted(words)}\nterms: US\n---\n\nCh 5.\n")
    assert report.pattern.head.title == " ".join(words.split()) or words == " x "
    assert not [finding for finding in report.findings if finding.kind.startswith("head")]
