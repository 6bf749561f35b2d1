"""What a program asks of the library: arguments in several forms, slips told by name, and small things of the report."""

import pytest

import hookwright
from hookwright.desk import counts

ROW = "Ch 31 (41).\nRow 1: Sc in 2nd ch from hook and in each ch across. 30 (40) sc\n"


@pytest.mark.parametrize("sizes", ["S, M", ["S", "M"], ("S", "M"), (name for name in ("S", "M"))])
def test_sizes_are_a_list_or_one_text_with_commas(sizes):
    """However they are given, they are the same two names."""
    assert hookwright.check(ROW, terms="us", sizes=sizes).sizes == ("S", "M")


@pytest.mark.parametrize(("asked", "kind", "says"), [
    ({"terms": "AU"}, ValueError, "'US' or 'UK', not 'AU'"),
    ({"terms": 1}, TypeError, "terms"),
    ({"sizes": 3}, TypeError, "sizes"),
    ({"sizes": ["S", "S"]}, ValueError, "'S' is named twice"),
    ({"sizes": ["S", None]}, TypeError, "named by a str"),
    ({"below": 20}, TypeError, "below is a str"),
    ({"in_round": "no"}, TypeError, "in_round"),
    ({"limit": 0}, ValueError, "limit"),
    ({"limit": "many"}, TypeError, "limit"),
])
def test_a_slip_of_the_program_is_told_by_name(asked, kind, says):
    """The arguments are looked at before anything is read."""
    with pytest.raises(kind, match=says):
        hookwright.check(ROW, **asked)


@pytest.mark.parametrize("asked", [{"to": "doc"}, {"to": "html", "terms": "AU"}, {"to": "html", "paper": "A5"}, {"to": "html", "language": "de"}])
def test_what_can_not_be_written_is_told(asked):
    """Another file, other terms, paper or language than there are."""
    with pytest.raises(ValueError):
        hookwright.write(hookwright.check(ROW, terms="US", sizes="S, M"), **asked)


def test_a_foundation_is_counted_in_chains():
    """31 and 41 chains: as `chains` in the report, as "31 ch" in the table, and stated counts are compared with it."""
    values = hookwright.check(ROW, terms="US", sizes="S, M").as_dict()
    assert [size["chains"] for size in values["rows"][0]["sizes"].values()] == [31, 41]
    assert "31 ch   41 ch" in counts.as_table(values)
    assert ",31 ch,41 ch" in counts.as_csv(values)
    for said, kinds in (("Ch 31. (31 ch)", []), ("Ch 31 (31).", []), ("Ch 31. (32 ch)", ["count-differs"])):
        found = hookwright.check(f"{said}\nRow 1: Sc in 2nd ch from hook and in each ch across. (30 sc)", terms="US").as_dict()
        assert [finding["kind"] for finding in found["findings"]] == kinds
        assert found["rows"][-1]["sizes"]["1"]["stitches"] == 30


@pytest.mark.parametrize("gauge", [
    "Gauge: 14 sts and 16 rows = 4 in in sc.", "## Tension\n\n14 sts x 16 rows = 4\" (10 cm) in sc with a 5 mm hook.", "GAUGE: In sc, 14 sts and 16 rows = 4 in",
])
def test_a_gauge_in_the_prose_gives_the_height_of_a_row(gauge):
    """8 in at 4 rows an inch are 32 rows."""
    text = f"{gauge}\n\n## Body\n\nCh 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30 sc)\nRow 2: Ch 1, turn, sc in each st across. (30 sc)\n"
    worked = hookwright.check(text + "Rep Row 2 until piece measures 8 in.\n", terms="US").fabrics[0].rows
    assert sum(row.stitches > 0 for row in worked) == 32


def test_the_height_of_a_row_is_by_the_measure_up():
    """10 rows over 5 cm up, whatever is measured across: 5 mm a row."""
    from hookwright.pipeline import row_height_mm

    report = hookwright.check("---\nterms: US\ngauge: {stitches: 20, rows: 10, over: 10 cm x 5 cm}\n---\n" + ROW, sizes="S, M")
    assert row_height_mm(report.pattern) == 5.0


@pytest.mark.parametrize(("text", "words"), [
    ("Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, *sc in next 4 sts, inc; rep from * across.", "any multiple of 5, plus 1 chain"),
    ("Ch 10 (12).\nRow 1: Sc in 2nd ch from hook and in next 8 (10) ch.", "only 10 (12) chains"),
])
def test_multiples_in_the_words_of_the_trade(text, words):
    """One chain is no chains, and where only the written counts do, those of all sizes are named."""
    report = hookwright.check(text, terms="US", sizes="S, M" if "(12)" in text else None).as_dict()
    assert [multiple["words"] for multiple in report["multiples"]] == [words]


def test_words_that_told_the_terms_are_quoted_only_where_they_stand():
    """A habit of hers (dc 3 chains high) is described, not put into her mouth; the way to settle it is named."""
    text = "Ch 22.\nRow 1: Dc in 4th ch from hook and in each ch across. (20 dc)\nRow 2: Ch 3, dc in next st and in each st across, turn. (20 dc)"
    told = next(finding for finding in hookwright.check(text).as_dict()["findings"] if finding["kind"] == "terms-guessed")
    assert "`dc 3 chains high`" not in told["message"] and "dc 3 chains high" in told["message"]
    assert "--terms us" in told["message"]


def test_a_slip_is_taken_for_the_singular():
    """`scc` is read as `sc` and not as its plural."""
    found = hookwright.check("Ch 9.\nRow 1: Scc in 2nd ch from hook and in each ch across. (8 sc)", terms="US").as_dict()["findings"]
    assert [(finding["kind"], finding["expected"]) for finding in found] == [("unknown-word", "sc")]


@pytest.mark.parametrize("below", ["xyz", "20 dc"])
def test_a_row_below_that_is_of_no_use_is_left_out_and_said(below):
    """One that can't be read, and one below a pattern with a foundation of its own: nothing else is blamed for it."""
    found = hookwright.check("Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30 sc)", terms="US", below=below).as_dict()
    assert [finding["kind"] for finding in found["findings"]] == ["below-not-read"]
    assert found["rows"][-1]["sizes"]["1"]["stitches"] == 30


def test_where_nothing_was_worked_nothing_is_said_to_be_proved():
    """An empty text."""
    assert hookwright.check("").as_dict()["proved"]["words"] == "nothing was worked"


def test_a_row_that_is_not_read_is_said_once():
    """A row longer than rows are read to is not blamed again for how it is written out."""
    found = hookwright.check("Ch 31.\nRow 1: " + "sc in next st, " * 5000 + "turn.", terms="US").as_dict()["findings"]
    assert [finding["kind"] for finding in found] == ["cannot-read"]


def test_a_manuscript_without_rows_has_a_sheet():
    """A head with a gauge and nothing below it, as a manuscript begins: nothing to draw is no reason to fail."""
    text = "---\ntitle: A\nterms: US\nsizes: [S, M]\ngauge: {stitches: 16, rows: 12, over: 10 cm, in: hdc}\nfinished: {width: 40 (44) cm}\n---\n"
    assert b"40" in hookwright.write(text, "html", "US")
