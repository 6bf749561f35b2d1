"""A manuscript made to one maker: her own measures and gauge give her own numbers, and what can't be had is said."""

from pathlib import Path

import pytest

import hookwright

HAT = (Path(__file__).resolve().parents[2] / "examples" / "groyne-hat.md").read_text("utf-8")


def told(report) -> list[str]:
    return [finding.message for finding in report.findings if finding.kind == "not-made-to-measure"]


def test_a_head_and_a_gauge_give_the_counts_of_that_head():
    """57 cm less 3 cm at 10 rows to 10 cm are 54 rows; the nearest multiple of 4 is 52 or 56, both 2 cm off, and the larger is taken."""
    report = hookwright.made_to_measure(HAT, measures={"head": "57 cm"}, gauge="14 sts and 10 rows to 10 cm", size="Adult M")
    assert report.sizes == ("made to measure",)
    assert report.sized.answer.numbers["rows"] == (56,)
    assert report.must_mend == 0
    # 57 x 0.4 = 22.8 cm are 31.9 sts, less 7 of brim and 5 of crown 19.9: of 3 x panels + 1 the nearest is 19
    assert report.sized.answer.numbers["body"] == (19,)
    assert report.fabrics[0].rows[-1].stitches == 7 + 19 + 5


def test_another_yarn_is_estimated_and_said():
    """From weight 4 (11 to 14 sc) to weight 5 (8 to 11) the gauge goes to 9.5 / 12.5 of it, and a swatch is asked for."""
    report = hookwright.made_to_measure(HAT, measures={"head": "57 cm"}, yarn="chunky", size="Adult M")
    assert any("estimated at 10.7 sts and 7.6 rows to 10 cm" in message for message in told(report))
    assert report.pattern.head.yarn[0].weight == 5
    assert report.sized.answer.numbers["rows"] == (40,)  # 54 cm at 7.6 rows to 10 cm are 41 rows


def test_a_measure_that_changes_nothing_is_said():
    """No number of a hat is found from a foot."""
    assert any("`foot`" in message and "changes nothing" in message for message in told(hookwright.made_to_measure(HAT, measures={"foot": "25 cm"})))


@pytest.mark.parametrize(("asked", "why"), [
    ({"measures": {"head": "57"}}, "a length with its unit"),
    ({"gauge": "tight"}, "stitches, rows and what they are measured over"),
    ({"size": "XXL"}, "no size 'XXL'"),
    ({"yarn": "moonlight"}, "should say its weight"),
])
def test_what_cannot_be_understood_is_told_in_words(asked, why):
    """Arguments that say nothing are a ValueError with a sentence."""
    with pytest.raises(ValueError, match=why):
        hookwright.made_to_measure(HAT, **asked)


def test_a_pattern_without_wishes_says_what_it_lacks():
    """Numbers that are typed stay as they are, and the finding says what to write instead."""
    report = hookwright.made_to_measure("---\nsizes: [S, M]\n---\n\n## Band\n\nCh 21 (25).\n\nRow 1: Sc in 2nd ch from hook and in each ch across.", gauge="15 sts and 16 rows to 10 cm", size="M")
    assert any("says what it is found from" in message for message in told(report))
    assert report.fabrics[0].rows[-1].stitches == 24


EXAMPLES = ["groyne-hat", "kelp-cutter-mittens", "saltmarsh-smock", "slack-water-blanket"]


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_size_of_its_own_is_that_size_again(name):
    """Made to the measures of one of its own sizes, with nothing else asked, a pattern has the rows and counts of that size wherever no wish
    that compares sizes had moved its numbers."""
    text = (Path(__file__).resolve().parents[2] / "examples" / f"{name}.md").read_text("utf-8")
    whole = hookwright.check(text)
    same = 0
    for index, size in enumerate(whole.sizes):
        one = hookwright.made_to_measure(text, size=size)
        assert one.must_mend == 0, size
        if {name: values[0] for name, values in one.sized.answer.numbers.items()} == {name: values[index] for name, values in whole.sized.answer.numbers.items()}:
            same += 1
            assert [(row.stitches, row.by_kind) for row in one.fabrics[0].rows] == [(row.stitches, row.by_kind) for row in whole.fabrics[index].rows], size
    assert same >= len(whole.sizes) - 2


@pytest.mark.parametrize(("name", "measures"), [
    ("groyne-hat", {"head": "57 cm"}), ("groyne-hat", {"head": "44 cm"}),
    ("saltmarsh-smock", {"bust": "97 cm"}), ("slack-water-blanket", {"width": "100 cm", "length": "140 cm"}),
])
@pytest.mark.parametrize("gauge", [None, "15 sts and 11 rows to 10 cm", "20 sts and 22 rows to 10 cm"])
def test_every_count_of_hers_agrees(name, measures, gauge):
    """For other measures and gauges all rows come out, and what is written reads back as the same fabric."""
    text = (Path(__file__).resolve().parents[2] / "examples" / f"{name}.md").read_text("utf-8")
    report = hookwright.made_to_measure(text, measures=measures, gauge=gauge)
    assert [finding.message for finding in report.findings if finding.grade == "must mend"] == []
    assert not [finding for finding in report.findings if finding.kind == "written-reads-otherwise"]


def test_lengths_in_words_are_reckoned_or_named():
    """`{5 * row}` in a sentence is 1 cm at 50 rows to 10 cm; a length that is typed is named, since it stays."""
    report = hookwright.made_to_measure(HAT, measures={"head": "57 cm"}, gauge="60 sts and 50 rows to 10 cm")
    assert "the five rows should measure 1 cm" in hookwright.write(report, "txt").decode()
    typed = HAT.replace("{5 * row}", "5 cm")
    assert any("stay as they are" in message and "five rows should measure 5 cm" in message
               for message in told(hookwright.made_to_measure(typed, measures={"head": "57 cm"}, gauge="60 sts and 50 rows to 10 cm")))
