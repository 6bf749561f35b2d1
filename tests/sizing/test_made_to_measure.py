"""A manuscript made to one maker: her own measures and gauge give her own numbers, and what can't be had is said."""

from pathlib import Path

import pytest
from click.testing import CliRunner

import hookwright
from hookwright.desk.main import main

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


def made(tmp_path, *words, text=HAT):
    """(exit code, all that was said, files written) of the command."""
    (tmp_path / "hat.md").write_text(text, "utf-8")
    done = CliRunner().invoke(main, ["made-to-measure", str(tmp_path / "hat.md"), *words, "--to", "txt"])
    return done.exit_code, done.output, sorted(path.name for path in tmp_path.glob("*.txt"))


def test_the_command_says_what_it_took_and_what_stayed(tmp_path):
    """The size it started from, and the numbers that are typed and so stay."""
    code, said, files = made(tmp_path, "--measure", "head 57 cm")
    assert code == 0 and len(files) == 1
    assert "it starts from size Adult M; numbers that are typed stay those of size Adult M: `brim` 7, `crown` 5" in said


@pytest.mark.parametrize("words", [
    ["--measure", "head 57 cm", "--gauge", "5 sts and 4 rows to 10 cm"],
    ["--measure", "bust 97 cm"],
    ["--measure", "head -5 cm"],
    [],
])
def test_nothing_is_written_where_nothing_can_be_made(tmp_path, words):
    """A clash, a measure that changes nothing, a length below nothing, and nothing asked: no sheet, and why."""
    code, said, files = made(tmp_path, *words)
    assert code == 2 and files == []
    assert "row-runs-out" not in said and "{" not in said


def test_a_clash_names_ways_out_and_the_nearest_numbers():
    """At 4 rows to 10 cm a multiple of 4 rows goes in steps of 10 cm, and 57 less 3 cm is wanted to within 3: 20 rows are 50, 24 are 60."""
    report = hookwright.made_to_measure(HAT, measures={"head": "57 cm"}, gauge="5 sts and 4 rows to 10 cm")
    clash = next(finding for finding in report.findings if finding.kind == "wishes-clash")
    assert "`rows` is a multiple of 4; `rows` lies within 3 cm of what is wanted, 54.0 cm" in clash.message
    assert [way.says for way in clash.suggestions] == ["leave out that `rows` is a multiple of 4", "leave out that `rows` lies within 3 cm of what is wanted"]
    assert "`rows` 22; off by 1.0 cm" in clash.suggestions[0].effect  # 22 rows are 55 cm, the nearest to 54


def test_every_fault_is_listed(tmp_path):
    """What must be mended is told with its words, not only how many there are."""
    code, said, _ = made(tmp_path, "--measure", "head 57 cm", text=HAT.replace("Row 4 (WS): Rep Row 2.", "Row 4 (WS): Ch 1, sc in each of next 100 sts, turn."))
    assert code == 1 and "must mend [row-runs-out]" in said


def test_too_much_work_is_called_so():
    """50 m of a pattern in twelves: the multiple can't be tried, and the finding says that and not that the piece is unknown."""
    blanket = (Path(__file__).resolve().parents[2] / "examples" / "slack-water-blanket.md").read_text("utf-8")
    report = hookwright.made_to_measure(blanket, measures={"width": "40 m", "length": "50 m"})
    message = next(finding.message for finding in report.findings if finding.kind == "number-not-found")
    assert "5,000 chains at most" in message and "names no piece" not in message


def test_measures_that_were_not_given_are_named():
    """Of a smock made for a bust all other measures are those of the size it starts from; a back waist length is no waist."""
    smock = (Path(__file__).resolve().parents[2] / "examples" / "saltmarsh-smock.md").read_text("utf-8")
    said = next(message for message in told(hookwright.made_to_measure(smock, measures={"bust": "97 cm"})) if "starts from" in message)
    assert "back waist length" in said and " waist," not in said.replace("back waist", "") and "bust" not in said


TWO_FABRICS = """---
terms: US
sizes: [{{name: S, to fit: 80 cm}}, {{name: L, to fit: 100 cm}}]
swatches:
  - {{of: Body, stitches: 24, width: 15 cm, rows: 12, height: 15 cm}}
  - {{of: Rib, stitches: 20, width: 10 cm, rows: 16, height: 10 cm}}
numbers:
  width: {{want: to fit, count: stitches, in: Body}}
  band: {{want: to fit, count: stitches, in: {band}}}
---

## Body

Ch {{width + 1}}.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. ({{width}} sc)
"""


def test_each_fabric_of_a_pattern_has_a_gauge_of_the_maker_in_proportion():
    """16 sts of Body to 10 cm become 12, so 20 of Rib become 15: 100 cm are 120 and 150 stitches."""
    report = hookwright.made_to_measure(TWO_FABRICS.format(band="Rib"), measures={"to fit": "100 cm"}, gauge="12 sts and 8 rows to 10 cm")
    assert {number.name: number.values for number in report.numbers} == {"width": (120,), "band": (150,)}


def test_a_gauge_of_the_maker_may_be_of_another_fabric_than_the_first():
    """15 sts of Rib instead of 20, so Body has 12 instead of 16."""
    report = hookwright.made_to_measure(TWO_FABRICS.format(band="Rib"), measures={"to fit": "100 cm"}, gauge="15 sts and 12 rows to 10 cm in Rib")
    assert {number.name: number.values for number in report.numbers} == {"width": (120,), "band": (150,)}


def test_a_gauge_in_a_fabric_the_pattern_does_not_know_is_said_to_be_taken_for_the_first():
    """Nothing is refused for a name."""
    report = hookwright.made_to_measure(TWO_FABRICS.format(band="Body"), measures={"to fit": "100 cm"}, gauge="12 sts and 8 rows to 10 cm in dc")
    assert {number.name: number.values for number in report.numbers} == {"width": (120,), "band": (120,)}
    assert any("taken for that of `Body`" in finding.message for finding in report.findings)


TYPED = """---
title: Pebble Hat
terms: US
sizes: [{name: S, to fit: 50 cm}, {name: M, to fit: 54 cm}, {name: L, to fit: 58 cm}]
gauge: 20 sts and 20 rows to 10 cm in sc
finished: {circumference: 48 (52, 56) cm}
---

## Hat

Ch 96 (104, 112), join with sl st to form a ring.

Rnd 1: Sc in each ch around. [96 (104, 112) sc]
"""


def test_typed_counts_give_the_nearest_size_at_her_gauge():
    """At 18 sts to 10 cm S, M and L come to 53.3, 57.8 and 62.2 cm; for a head of 54 cm 52 are right, so S is nearest; by the head alone it is M."""
    report = hookwright.made_to_measure(TYPED, measures={"head": "54 cm"}, gauge="18 sts and 18 rows to 10 cm")
    told = next(finding.message for finding in report.findings if finding.kind == "not-made-to-measure")
    assert "stay those of size S" in told and "comes to about 53.3 cm (21.0 in), where 52.0 cm (20.5 in) would be right" in told
    assert "finished measures are left out" in told and not report.pattern.head.finished
    told = next(finding.message for finding in hookwright.made_to_measure(TYPED, measures={"head": "54 cm"}).findings if finding.kind == "not-made-to-measure")
    assert "stay those of size M" in told and "At this gauge" not in told


def test_another_gauge_alone_leaves_typed_counts_without_blame():
    """A toy or a hat in thicker yarn keeps its counts: something to look at, and nothing to mend."""
    assert hookwright.made_to_measure(TYPED, gauge="14 sts and 14 rows to 10 cm").must_mend == 0


@pytest.mark.parametrize(("asked", "says"), [
    ({"measures": {"head": "5.7 cm"}}, "`head` 5.7 cm (2.2 in) is far from those of the pattern's sizes"),
    ({"measures": {"head": "57 cm"}, "gauge": "15 sts to 10 cm"}, "the gauge given tells of no rows"),
    ({"yarn": "worsted"}, "is for yarn of weight 4 already"),
])
def test_what_is_doubtful_is_told_once(asked, says):
    """A slip in a measure, a gauge without rows, and the yarn that the pattern is for."""
    text = HAT if "yarn:" in HAT else HAT.replace("numbers:", "yarn: {name: wool, weight: worsted}\nnumbers:", 1)
    told = [finding.message for finding in hookwright.made_to_measure(text, **asked).findings]
    assert len([one for one in told if says in one]) == 1, told


def test_the_body_is_that_of_the_size_it_starts_from():
    """A hat for a large head is made from the adult's size, and not blamed for being wide for the first one, a newborn."""
    hat = (Path(__file__).resolve().parents[2] / "examples" / "groyne-hat.md").read_text("utf-8")
    report = hookwright.made_to_measure(hat, measures={"head": "63 cm"})
    assert report.pattern.head.body.sizes == ("adults",)
    assert "child-hat-too-wide" not in [finding.kind for finding in report.findings]
