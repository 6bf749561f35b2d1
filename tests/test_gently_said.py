"""What is said gently, with sums that can be done again, or not at all."""

import hookwright


def told(text: str, below: str, **how) -> list[tuple[str, str]]:
    """(kind, grade) of what is said beside the notes."""
    report = hookwright.check(text, terms="US", below=below, **how)
    return [(finding.kind, finding.grade) for finding in report.findings if finding.grade != "for your information"]


def test_a_join_to_a_chain_that_is_not_there():
    """The round begins with its first stitch; with the chain there is nothing to say."""
    assert told("Rnd 1: 14 dc in ring, join with sl st in top of ch-3. (14 dc)", "ring", in_round=True) == [("join-differs", "look at this")]
    assert told("Rnd 1: Ch 3 (counts as dc), 13 dc in ring, join with sl st in top of ch-3. (14 dc)", "ring", in_round=True) == []


def test_the_sum_of_a_repeat_names_what_lies_outside_it():
    """Two stitches are skipped before the repeat, and the sum begins with them."""
    report = hookwright.check(
        "Rnd 4: Sc in next ch-2 sp, skip next 2 dc, *FPdc around next dc, sc in next ch-2 sp; rep from * to end", terms="US", below="[2 dc, ch 2] x 4", in_round=True
    )
    message = next(finding.message for finding in report.findings if finding.kind == "repeat-leaves-stitches")
    assert "8 - 2 outside it = 6" in message


def test_a_list_of_the_row_below_without_a_number_for_each_size():
    """It is said with its numbers, and nothing else is blamed for it."""
    report = hookwright.check("Row 5: Ch 1, sc in next 6 (8, 9) sts.", terms="US", below="22 (26) sc")
    assert [(finding.kind, finding.grade) for finding in report.findings if finding.grade != "for your information"] == [("below-not-read", "look at this")]
    assert "gives 2 numbers for 3 sizes" in " ".join(finding.message for finding in report.findings)


def test_a_row_of_shells_that_begins_with_slip_stitches():
    """The stitches before the first space are passed by slip stitches, as is usual."""
    row = "Row 3: Sl st in next ch-1 sp, ch 3, (dc, ch 1, 2 dc) in same sp, [skip 4 dc, (2 dc, ch 1, 2 dc) in next ch-1 sp] across"
    assert told(row, "[2 dc, ch 1, 2 dc] x 4") == []


def test_a_unit_that_is_not_known_is_not_blamed():
    """What she calls a block is not known from the row."""
    text = "Row 1: Ch 6, dc in 4th ch from hook and in next 2 ch. (1 block)\nRow 2: Ch 6, dc in 4th ch from hook and in next 2 chs, (sl st, ch 3, 3 dc) in ch-3 sp of Row 1 block. (2 blocks)"
    report = hookwright.check(text, terms="US")
    assert [finding.kind for finding in report.findings if finding.grade == "must mend"] == []


def test_how_many_rows_come_to_a_length_is_said_not_to_be_known():
    """Without a row gauge the rows are worked once, and that is said; with one nothing is assumed."""
    rows = "Row 1: Ch 1, sc in each st across, turn. (20)\nRow 2: Ch 1, sc in each st across, turn. (20)\nRep Rows 1 and 2 until piece measures 20 cm."
    unknown = hookwright.check(rows, terms="US", below="20 sc")
    assert [said["words"] for said in unknown.as_dict()["assumed"]] == ["Row 3: no row gauge says how many rows come to that length, so the 2 rows are worked once here"]
    known = hookwright.check("---\nterms: US\ngauge: [{stitches: 20, rows: 20, over: 10 cm, in: sc}]\n---\n\nCh 21.\n" + rows, terms="US")
    assert not [said for said in known.as_dict()["assumed"] if "length" in said["words"]]
