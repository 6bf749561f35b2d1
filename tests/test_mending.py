"""Ways out that were tried: a number slipped in a proved manuscript is found again, and nothing is called certain that is not."""

import random
import re
from pathlib import Path

import pytest

import hookwright
from hookwright.ground import MUST_MEND

EXAMPLES = sorted((Path(__file__).resolve().parents[1] / "examples").glob("*-*.md"))
TOY = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: [sc, inc] x 6 (18)\nRnd 4: [2 sc, inc] x 6 (24)\nRnd 5: [3 sc, inc] x 6 (30)\nRnds 6-8: sc in each st around (30)\nRnd 9: [3 sc, dec] x 6 (24)\n"


def first_to_mend(report):
    return next((finding for finding in report.findings if finding.grade == MUST_MEND), None)


def applied(text, way):
    return text[: way.span.start] + way.text + text[way.span.end :]


@pytest.mark.parametrize("right, wrong", [("[2 sc, inc] x 6", "[2 sc, inc] x 5"), ("[3 sc, inc] x 6", "[4 sc, inc] x 6"), ("[3 sc, dec] x 6", "[5 sc, dec] x 6"), ("6 sc in magic", "5 sc in magic")])
def test_a_slip_in_what_is_worked_is_mended(right, wrong):
    text = TOY.replace(right, wrong)
    report = hookwright.check(text)
    ways = hookwright.mends(report, first_to_mend(report))
    assert [way.sure for way in ways][:1] == ["certain"], ways
    assert applied(text, ways[0]) == TOY and not hookwright.check(applied(text, ways[0])).must_mend


def test_a_slip_in_a_count_is_her_choice():
    text = TOY.replace("(30)\nRnd 9", "(31)\nRnd 9")
    report = hookwright.check(text)
    ways = hookwright.mends(report, first_to_mend(report))
    assert applied(text, ways[0]) == TOY and ways[0].sure == "your choice"


@pytest.mark.parametrize("path", EXAMPLES[::4], ids=lambda path: path.stem)
def test_every_way_that_is_told_mends(path):
    """Whatever number slips in an example: what is suggested removes the finding, brings no new one, and is in the words it names."""
    text, chance = path.read_text("utf-8"), random.Random(path.stem)
    body = text.index("\n---\n", 10)
    numbers = list(re.finditer(r"(?<=next )\d+(?= sts)|(?<=\] )\d(?= times)|(?<= )\d+(?= dc in)", text[body:]))
    for found in chance.sample(numbers, min(2, len(numbers))):
        start, end = body + found.start(), body + found.end()
        slipped = text[:start] + str(int(found[0]) + 1) + text[end:]
        report = hookwright.check(slipped)
        finding = first_to_mend(report)
        if finding is None:
            continue
        memory = hookwright.Memory()
        ways = hookwright.mends(report, finding, memory)
        assert sum(way.sure == "certain" for way in ways) <= 1
        for way in ways:
            after = hookwright.check(applied(slipped, way))
            assert after.must_mend < report.must_mend and f"{way.text}" in way.says
            line = report.lines.place(finding.span.start)[0]
            assert not any(one.kind == finding.kind and after.lines.place(one.span.start)[0] == line for one in after.findings)


def test_numbers_found_for_the_sizes_are_left_alone():
    """Where a number stands by name the row is changed in her own text, and the name is no number."""
    text = "---\ntitle: A\nterms: US\nsizes: [S, M]\nnumbers:\n  wide: 12 (15)\n---\n\n## Strip\n\nCh {wide + 1}.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. ({wide} sc)\n\nRow 2: Ch 1, [sc in next 3 sts, 2 sc in next st] across, turn. (16 (20) sc)\n"
    report = hookwright.check(text)
    for way in hookwright.mends(report, first_to_mend(report)):
        assert "{wide" in applied(text, way) and not hookwright.check(applied(text, way)).must_mend


def test_the_command_tries_and_tells(tmp_path):
    from click.testing import CliRunner

    from hookwright.desk.main import main

    (tmp_path / "toy.md").write_text(TOY.replace("[2 sc, inc] x 6", "[2 sc, inc] x 5"), "utf-8")
    plain, tried = (CliRunner().invoke(main, ["check", str(tmp_path / "toy.md"), *more]).output for more in ((), ("--mend",)))
    assert "certain: write `x 6` instead of `x 5`" in tried and "tried: it comes out" not in plain


def test_a_row_by_itself_is_tried_over_the_row_below():
    asked = {"below": "12 sc", "in_round": True}
    report = hookwright.check("Rnd 2: [sc in next st, inc] x 5 (18)", **asked)
    ways = hookwright.mends(report, first_to_mend(report), **asked)
    assert ways and ways[0].text == "6"
