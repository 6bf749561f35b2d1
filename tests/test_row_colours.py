"""Colours of whole rows reach the fabric: stripes of a range, a change at the end, colours said before and after a reference."""

import pytest

import hookwright

HEAD = """---
title: Tide Marks
terms: US
yarn:
  - {name: cotton, colours: {A: ebb blue, B: foam, C: eelgrass, D: dusk}}
---

## Panel

With A, ch 11.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10 sc)

Row 2: Ch 1, sc in each st across, changing to B, turn. (10 sc)

Row 3: Ch 1, sc in each st across, turn. (10 sc)

Row 4: Ch 1, sc in each st across, turn. (10 sc)

"""

SAID = [
    ("Rows 5-8: Rep Rows 3 and 4 twice more, working two rows in C and two rows in D.", "CCDD"),
    ("Rows 5-14: Rep Rows 3 and 4 5 times, keeping to two rows each of A, B, C and D in turn.", "AABBCCDDAA"),
    ("Rows 5-8: Rep Rows 3 and 4 twice, alternating A and B every row.", "ABAB"),
    ("Rows 5-12: Rep Rows 3 and 4 in the following color sequence: 2 rows B, 2 rows C, 4 rows A.", "BBCCAAAA"),
    ("Rows 5-8: Rep last row 4 times, working 1 row each in B, C, D and A.", "BCDA"),
    ("Rows 5-8: Sc in each st across, working 3 rows in C and 1 row in D.", "CCCD"),
    ("Rows 5-6: With C, rep Rows 3 and 4.", "CC"),
    ("Rows 5-6: Rep Rows 3 and 4 in D.", "DD"),
    ("Rows 5-6 (D): Rep Row 3.", "DD"),
    ("Row 5 (with D): As Row 3.", "D"),
    ("Row 5: As Row 3, using C.", "C"),
    ("Row 5: As Row 2, changing to C at the end.\n\nRow 6: As Row 3.", "BC"),
    ("Rows 5-6: Rep Rows 3 and 4. Change to A.\n\nRow 7: As Row 3.", "BBA"),
    ("Rows 5-8: Rep Rows 2 and 3, ending with a RS row in D.", "BBBB"),
]


def worked_in(fabric):
    """The colour in which the first stitch of each row is worked."""
    out, colour = [], ""
    for row in fabric.rows:
        changes = dict(row.colours)
        out.append(changes.get(0, colour))
        colour = row.colours[-1][1] if row.colours else colour
    return out


@pytest.mark.parametrize(("words", "colours"), SAID)
def test_rows_are_worked_in_the_colours_said(words, colours):
    """As said, and again when her sheet is read back in the other terms."""
    report = hookwright.check(HEAD + words + "\n")
    assert worked_in(report.fabrics[0])[5:] == list(colours)
    assert not [finding for finding in report.findings if finding.kind in ("cannot-read", "rows-in-range")]
    sheet = hookwright.check(hookwright.write(report, "md", terms="UK").decode())
    assert worked_in(sheet.fabrics[0])[5:] == list(colours)
