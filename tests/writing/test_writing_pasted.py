"""A pattern pasted as it stood on a page, without a head: each line of it comes to stand where a sheet has it."""

import hookwright

PASTED = """**Quayside Sock** (US)

SIZES
2 (4, 6) yrs

YOU WILL NEED
– sport yarn, 60 (70, 80) g
– hook 3.5 mm
-marker

Ch 1 at the start of rounds is never a stitch. Rounds are joined with a slip stitch.

Cuff (4 mm hook)
Ch 9.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. [8 sc]
Rows 2-20 (22, 24): Ch 1, sc in blo of each st across, turn. [8]
Sl st the first and last rows together to make a tube. Do not fasten off.

LEG (x2)
Rnd 1: Ch 1, work 20 (22, 24) sc evenly along the row ends, join. [20 (22, 24)]
Work even in sc for 4 rnds.
Rnd 6: Ch 1, sc2tog around, join. [10 (11, 12)]

HEEL FLAP
Row 1: Sl st across first 2 sts, ch 1, sc in same st and in next 5 (6, 7) sts, turn, leaving rem sts unworked. [6 (7, 8)]

TURN HEEL
Row 1: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn. [4 (5, 6)]

JOINING
Sew the heel to the sole with the tail, then darn in the ends.
"""


def sheet() -> str:
    report = hookwright.check(PASTED)
    assert not [finding for finding in report.findings if finding.grade == "must mend"]
    return hookwright.write(report, "txt", "US").decode()


def test_marks_of_the_page_are_no_words():
    """Stars round a title and dashes before materials are marks; the title has none and the materials are a list."""
    text = sheet()
    assert text.startswith("Quayside Sock (US)\n")
    assert "- hook 3.5 mm\n- marker\n" in text


def test_what_settles_is_a_note_though_it_stands_under_the_materials():
    """A sentence on the chain at the start of a round is a note."""
    notes = sheet().split("\nNotes\n-----\n", 1)[1].split("\n\n\n", 1)[0]
    assert "Ch 1 at the start of rounds is never a stitch." in notes


def test_headings_in_capitals_are_headings():
    """ "TURN HEEL" does not end the row above it, "JOINING" is no word of the sentence below it, "Cuff (4 mm hook)" is no material."""
    text = sheet()
    for heading in ("Cuff (4 mm hook)", "HEEL FLAP", "TURN HEEL", "JOINING"):
        assert f"\n{heading}\n......" in text
    assert "turn HEEL" not in text


def test_a_seam_is_told_and_not_worked():
    """Two rows closed together stay her sentence, and take no stitch."""
    assert "\nSl st the first and last rows together to make a tube. Do not fasten off.\n" in sheet()


def test_words_of_rows_and_rounds():
    """Rounds are rounds, a decrease goes around, slip stitches across so many are in each of them, and two are not said twice."""
    text = sheet()
    assert "Next 4 rnds: Sc in each st around." in text
    assert "Ch 1, sc2tog around, join" in text
    assert "Sl st in next 2 sts, ch 1" in text
    assert "Make 2" not in text
