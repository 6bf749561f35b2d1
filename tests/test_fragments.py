"""Where a fragment begins, counts that nobody states, and sizes whose names say that they are sizes."""

import hookwright

EVEN = "Row 12: Ch 1, sc2tog, sc to last 2 sts, sc2tog, turn. (18)\nRow 13: Ch 1, sc across (18).\nRows 14-19: Rep Rows 12 and 13{count}."


def stitches(report) -> list[int]:
    return [row["sizes"]["1"]["stitches"] for row in report.as_dict()["rows"]]


def test_the_row_below_lies_under_the_first_row_where_the_counts_say_so():
    """Two rows come out over it by their own counts, so they are worked and the last one is off."""
    report = hookwright.check(EVEN.format(count=" (14)"), terms="US", below="20 sc")
    assert stitches(report) == [18, 18, 16, 16, 14, 14, 12, 12]
    assert [finding.kind for finding in report.findings if finding.grade == "must mend"] == ["count-differs"]


def test_without_a_count_at_the_end_too():
    assert stitches(hookwright.check(EVEN.format(count=""), terms="US", below="20 sc")) == [18, 18, 16, 16, 14, 14, 12, 12]


def test_a_start_that_moves_is_among_the_assumptions():
    """Rows that are only what a later one refers to are not worked, and that is said."""
    report = hookwright.check(EVEN.format(count=" (12)"), terms="US", below="18 sc")
    assert stitches(report)[-1] == 12
    assert any("only what it refers to" in one["words"] for one in report.as_dict()["assumed"])


HEEL = """---
title: Heel
terms: US
sizes: [Size 1, Size 2]
---

## Heel

Ch 13 (15).

Row 1: Sc in 2nd ch from hook and in each ch across, turn. 12 (14) sc

Size 2 only: Row 2: Ch 1, sc in each st across, turn. {size_2} sc

Edging: Ch 1, sc evenly around, working 1 sc in each row end and 3 sc in each corner, join with sl st.{count}
"""


def test_a_count_that_rests_on_row_ends_is_not_made_up():
    """Nothing says how many stitches the row ends take, so the sheet prints none; corners of flat work are corners."""
    words = hookwright.write(hookwright.check(HEEL.format(size_2=14, count="")), "txt").decode()
    edging = next(line for line in words.splitlines() if line.startswith("Edging:"))
    assert edging.endswith("join with sl st.")
    assert "3 sc in each corner around" in edging and "corner sp" not in edging


def test_a_size_is_not_called_a_size_twice():
    """In findings and on the sheet."""
    report = hookwright.check(HEEL.format(size_2=15, count=""))
    said = [finding.message for finding in report.findings if finding.grade == "must mend"] + [hookwright.write(report, "txt").decode()]
    assert any("Size 2" in words for words in said[:-1])
    assert not any("size size" in words.lower() for words in said)
