"""What a manuscript without a head says before its rows: kept as values, and on the sheet once and in its place."""

import pytest

import hookwright
from hookwright.notation import read

COWL = """Pebble Ridge Cowl
A free crochet pattern by Ottilie Marsh © 2026

UK terms used throughout.
Skill level: beginner
Sizes: newborn (3-6 months, toddler)
Finished size: 40 (44, 50) cm round
Yarn: aran wool, 1 (1, 2) balls
Hook size: 5.5 mm
Tension: 14 sts and 12 rows = 10 cm in dc
Special stitch: nubble = 5 tr closed together in one st

Materials
yarn needle
stitch marker

Pattern
Ch 70 (78, 86), ss into first ch to form a ring.
Round 1: 1 ch, 1 dc in each ch around, ss into first dc. 70 (78, 86) dc
Round 2: 1 ch, *1 dc in next st, nubble in next st; rep from * around, ss into first dc. 35 (39, 43) dc, 35 (39, 43) nubbles
"""


def test_the_lines_before_the_rows_are_read():
    """Title, designer, terms, level, sizes, yarn, hook, gauge and her own stitch are told; nothing of it is lost from the tree."""
    pattern, _ = read(COWL)
    front = pattern.front
    assert (front.title, front.designer, front.copyright, front.level) == ("Pebble Ridge Cowl", "Ottilie Marsh", "© 2026 Ottilie Marsh", "basic")
    assert pattern.terms == "UK" and pattern.sizes == ("newborn", "3-6 months", "toddler")
    assert [(hook.mm, hook.text) for hook in front.hook] == [(5.5, "5.5 mm")]
    assert front.yarn[0].name == "aran wool, 1 (1, 2) balls"
    assert (front.gauge[0].stitches, front.gauge[0].rows, front.gauge[0].over_mm, front.gauge[0].in_) == (14, 12, 100, "dc")
    prose = [item for piece in pattern.pieces for item in piece.items if hasattr(item, "rest")]
    assert "UK terms used throughout." in "".join(item.text for item in prose)
    assert "".join(item.rest for item in prose).split() == "yarn needle stitch marker".split()


def test_the_sheet_gives_them_once_and_in_their_place():
    """Her title is the title; no line of sizes or terms stands among the words about the pattern; the list of materials is one."""
    text = hookwright.write(hookwright.check(COWL), to="txt", terms="US").decode()
    assert text.startswith("Pebble Ridge Cowl\n=")
    assert "UK terms" not in text and "Written in US crochet terms" in text and "A pattern by Ottilie Marsh" in text
    assert text.count("newborn (3-6 months, toddler)") == 1
    assert "Finished size: 40 (44, 50) cm [15¾ (17¼, 19¾) in] round" in text
    assert "5.5 mm (US I-9), or the size you need to reach the gauge" in text
    assert "14 sts and 12 rows = 10 cm (4 in) in sc." in text
    assert "- yarn needle\n- stitch marker" in text
    assert text.count("closed together") == 1 and "Nubble: 5 dc closed together in one st." in text
    assert "nubble in next st; rep" in text and "About\n" not in text and "\nPattern\n" not in text


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("**THE GUSTY HAT**\n\nRnd 1: 6 sc in magic ring.", "THE GUSTY HAT"),
        ("## Lugger Bag\n\nA bag.\n\n## Base\n\nRow 1: ch 1, sc in next 3 sts.", "Lugger Bag"),
        ("Title: Lugger Bag\n\nRow 1: ch 1, sc in next 3 sts.", "Lugger Bag"),
        ("This is a bag that I made. It is blue.\n\nRow 1: ch 1, sc in next 3 sts.", ""),
        ("Row 1: ch 1, sc in next 3 sts.", ""),
        ("## Left\n\nRow 1: ch 1, sc in next 3 sts.\n\n## Right\n\nRow 1: ch 1, sc in next 3 sts.", ""),
    ],
)
def test_what_is_a_title(text, title):
    """The first line, where it is a name; a sentence, a row or one part of several is none."""
    assert read(text)[0].front.title == title


def test_words_that_only_resemble_stay_prose():
    """A sentence with the same words in it is hers and stays; a manuscript with a head is not looked through."""
    text = "Lugger Bag\n\nSize matters here, and the hook: use what you like best of all.\n\nRow 1: ch 1, sc in next 3 sts."
    pattern, _ = read(text)
    assert not pattern.front.hook and not pattern.front.finished
    assert read("---\nterms: US\n---\nHook: 5 mm\n\nRow 1: ch 1, sc in next 3 sts.")[0].front is None


BAG = """Easy Market Bag

Hi there! It holds a loaf of bread, three lemons and a book.

You'll Need:
* Cotton yarn (130 yards)
* 5 mm hook

Stitches & Abbreviations (US):
Ch – chain
SL ST – slip stitch
DC – double crochet

Finished Size: 12" wide x 14" tall

*Pattern Notes*: Ch 3 counts as a dc.

**Bottom**
R1: Magic ring, ch 3, 11 dc in ring, sl st to top of ch 3 (12)
R2: Ch 3, 1 dc in same st, 2 dc in each st around, sl st to top of ch 3 (24)

**Sides**
R3: Ch 3, 1 dc in each st around, sl st to top of ch 3 (24)

© Ottilie Marsh. Please send people here.
"""


def test_a_pattern_as_it_stands_on_a_page_of_hers():
    """Bold lines are pieces, stars list materials, slanted lead-ins begin notes, the usual abbreviations are left to the sheet's own list."""
    text = hookwright.write(hookwright.check(BAG), to="txt", terms="UK").decode()
    assert text.startswith("Easy Market Bag\n=") and "© Ottilie Marsh" in text.split("About")[0]
    assert "Materials\n---------\n\n- Cotton yarn (130 yards / 119 m)\n- 5 mm hook" in text
    assert 'Finished size: 12" (30.5 cm) wide x 14" (35.5 cm) tall' in text
    assert "Notes\n-----\n\nCh 3 counts as a tr." in text
    assert "Special stitches" not in text and "slip stitch" in text
    assert "Bottom\n......\n\nRnd 1: Make a magic ring, ch 3, 11 tr in ring, join with ss in top of beg ch-3. (12 sts)" in text
    assert "Sides\n.....\n\nRnd 3: Ch 3, tr in each st around" in text
