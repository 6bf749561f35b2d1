"""The parts of a pattern sheet: their order, and what each says in US and in UK terms."""

from dataclasses import replace

import pytest

import hookwright
from hookwright.drawing import Picture
from hookwright.fabric import Fabric, WorkedRow
from hookwright.ground import PerSize
from hookwright.notation.tree import Chain, Convention, Counts, Note, OwnStitch, Pattern, Piece, Place, Prose, Row, Stitch, Turn
from hookwright.writing import Facts, RowFact, compose, row_facts, write


def sheet(pattern, facts, terms="US") -> str:
    return write(compose(pattern, facts, terms), "txt").decode()


def part(text: str, title: str) -> str:
    """The words under a heading of the plain text."""
    after = text.split(f"\n{title}\n" + "-" * len(title) + "\n", 1)[1]
    return after.split("\n\n\n", 1)[0]


def test_the_parts_stand_in_the_usual_order(hat, hat_facts):
    """Title and terms first, the instructions after all that is needed to begin, cautions and colophon last (Kim Werker)."""
    document = compose(hat, hat_facts, "US")
    assert document.front.title == "Samphire Cap"
    assert document.front.terms == "Written in US crochet terms"
    assert [section.name for section in document.sections] == [
        "about",
        "level",
        "sizes",
        "materials",
        "gauge",
        "notes",
        "multiple",
        "abbreviations",
        "special",
        "instructions",
        "finishing",
        "cautions",
        "colophon",
    ]


def test_a_row_is_spelled_in_the_terms_of_the_sheet(hat, hat_facts):
    """US dc is UK tr, US sc is UK dc, US skip is UK miss (Fun Crochet Designs, Crochet terms by country)."""
    us, uk = sheet(hat, hat_facts), sheet(hat, hat_facts, "UK")
    assert "Rnd 2: Ch 3, dc in same st, *2 dc in next st; rep from * around, join with sl st. [24 dc]" in us
    assert "Rnd 2: Ch 3, tr in same st, *2 tr in next st; rep from * around, join with ss. [24 tr]" in uk
    assert "Row 2 (WS): Ch 1, dc2tog, dc in each st to last 2 sts, dc2tog, turn. [10 (12, 14) sts]" in uk


def test_her_prose_is_put_into_the_terms_and_each_change_is_listed(hat, hat_facts):
    """Prose words change, and the designer is told which, where and how often; nothing changes in the manuscript's own terms."""
    assert compose(hat, hat_facts, "US").changes == ()
    document = compose(hat, hat_facts, "UK")
    changed = {(change.part, change.was, change.now) for change in document.changes}
    assert {
        ("Notes", "gauge", "tension"),
        ("Notes", "skip", "miss"),
        ("Finishing", "dc", "tr"),
        ("Finishing", "center", "centre"),
    } <= changed
    assert "Check your tension: miss nothing." in write(document, "txt").decode()


def test_only_abbreviations_that_are_used_are_listed(hat, hat_facts):
    """Every abbreviation on the sheet is explained and none besides."""
    listed = {line.split(":")[0] for line in part(sheet(hat, hat_facts), "Abbreviations").splitlines() if line}
    assert {"ch", "dc", "rep", "rnd", "RS", "sc", "sc2tog", "sl st", "sp", "st", "WS"} <= listed
    assert not listed & {"tr", "hdc", "BLO", "FPdc", "cl", "tch", "MR", "lp"}


def test_an_abbreviation_of_hers_is_kept_where_it_is_used(hat, hat_facts):
    """Her own abbreviation is explained in her words; one that stands nowhere is left out."""
    hat.pieces.append(
        Piece(
            "Abbreviations",
            2,
            [Prose("- **PM** = move the marker up\n- **XYZ**: never used\n- dc = double crochet")],
            section="abbreviations",
        )
    )
    hat.pieces[2].items.insert(1, Prose("PM at the end of each round."))
    hat.pieces[1].items.append(Prose("PM stands for a marker."))
    abbreviations = part(sheet(hat, replace(hat_facts, rows=())), "Abbreviations")
    assert "PM: move the marker up" in abbreviations
    assert "XYZ" not in abbreviations


def test_sizes_and_measurements_are_in_both_units(hat, hat_facts):
    """1 in is 25.4 mm: 400 mm are 15¾ in to the quarter, 70 mm are 2¾ in to the eighth (international inch, exact)."""
    sizes = part(sheet(hat, hat_facts), "Sizes")
    assert "Size Baby. To fit: 38–42 cm (15–16½ in); Circumference: 40 cm (15¾ in); Height: 16.5 cm (6½ in)" in sizes
    assert "Ear flap: 7 cm (2¾ in)" in sizes
    assert "Sizes are given as Baby (Child, Adult)." in sizes


def test_yarn_hook_and_gauge_are_whole(hat, hat_facts):
    """Category, metres and yards, grams and ounces, balls per size, mm before the US label, stitches and rows (Kim Werker, part 2)."""
    text = sheet(hat, hat_facts)
    materials = part(text, "Materials")
    assert (
        "worsted wool, weight 4 (medium); one ball: 180 m (197 yd) and 100 g (3.5 oz); 1 (2, 2) balls; "
        "colors: A, cream; B, slate gray"
        in materials
    )
    assert "5 mm (US H-8) and 4.5 mm (US 7)" in materials
    assert "14 sts and 17 rows = 10 cm (4 in) in sc, after blocking." in part(text, "Gauge")
    assert "13 sts and 8 rows = 10 cm (4 in) in tr." in part(sheet(hat, hat_facts, "UK"), "Tension")


def test_the_same_yarn_in_several_colours_is_told_once(hat, hat_facts):
    """Yarns that differ in colour and balls only are one entry with a line a colour."""
    first = hat.head.yarn[0]
    hat.head.yarn = (replace(first, colours={"A": "cream"}), replace(first, colours={"B": "slate gray"}, balls=1), replace(first, name="mohair"))
    materials = part(sheet(hat, hat_facts, "UK"), "Materials")
    assert materials.count("aran wool") == 1
    assert "(3.5 oz)\nA, cream: 1 (2, 2) balls\nB, slate grey: 1 ball\n" in materials
    assert "Yarn 2: mohair" in materials


def test_how_sizes_are_read_is_said_once(hat, hat_facts):
    """The list of sizes stands with the sizes; what a hyphen is stands with the rows, where her notes do not say it."""
    text = sheet(hat, hat_facts)
    assert text.count("Sizes are given as") == 1 and "A hyphen stands for" in part(text, "Instructions")
    hat.pieces[1].items.append(Prose("A dash means that your size does not work that step."))
    assert "A hyphen stands for" not in sheet(hat, hat_facts)


def test_a_stitch_is_explained_once(hat, hat_facts):
    """What her words define is not defined again, whatever name they use for it."""
    hat.pieces.append(Piece("Special Stitches", 2, [Prose("sc2tog, sc3tog: work the next 2 (3) sts together.")], section="special stitches"))
    assert "draw up a loop" not in part(sheet(hat, hat_facts, "UK"), "Special stitches")


def test_a_title_is_a_name(hat, hat_facts):
    """Of a title only the stitches are put into the terms; her spelling of a name stays. A size's name stays in sentences."""
    hat.head.title = "Gray Harbor Single Crochet Cap"
    assert compose(hat, hat_facts, "UK").front.title == "Gray Harbor Double Crochet Cap"
    hat.pieces[1].items.append(Prose("The gray crib blanket fits a crib."))
    assert "The grey cot blanket fits a cot." in sheet(hat, hat_facts, "UK")
    hat.sizes = ("Crib", "Child", "Adult")
    assert "The grey crib blanket fits a crib." in sheet(hat, hat_facts, "UK")


def test_no_word_of_the_other_dialect_is_left(hat, hat_facts):
    """Spelling and abbreviations of prose follow the terms of the sheet, post stitches their letters in the rows."""
    hat.pieces[1].items.append(Prose("Join with a sl st to its neighbor, keep to the center, and work fpdc over skipped sts."))
    assert "Join with a ss to its neighbour, keep to the centre, and work FPtr over missed sts." in sheet(hat, hat_facts, "UK")
    assert "work FPdc over" in sheet(hat, hat_facts, "US")


def test_a_convention_that_was_found_is_told(hat, hat_facts):
    """Her notes are hers; what was found besides is added once, in the terms of the sheet."""
    found = Facts(rows=hat_facts.rows, conventions=(Convention("join"), Convention("tch", 1, None, Counts(False)), Convention("join")))
    notes = part(sheet(hat, found, "UK"), "Notes")
    assert notes.count("Rounds are joined with ss.") == 1
    assert "Ch 1 does not count as a stitch." in notes


def test_counts_are_hers_and_the_worked_total_where_she_states_none(hat, hat_facts):
    """A stated count stands as stated; where none is stated, the total is said when it changes, and not when it stays."""
    rows = list(hat_facts.rows)
    rows[0] = RowFact(11)
    assert "11 dc in ring, join with sl st. [12 dc]" in sheet(hat, replace(hat_facts, rows=tuple(rows)))
    assert "Fasten off.\n" in sheet(hat, hat_facts)
    rows[5] = RowFact(PerSize((30, 40, 48)))
    assert "Fasten off. [30 (40, 48) sts]" in sheet(hat, replace(hat_facts, rows=tuple(rows)))


def test_a_range_whose_rows_differ_gives_each_count(hat, hat_facts):
    """Several rows under one label that end with different counts: one number a row."""
    rows = list(hat_facts.rows)
    rows[3] = RowFact(54, (42, 48, 54))
    assert "Rep last rnd. [42/48/54 sts]" in sheet(hat, replace(hat_facts, rows=tuple(rows)))


def test_names_in_prose_are_filled(hat, hat_facts):
    """{band} prints the numbers of the head, a measure prints both units, and a name that is not there stays as it is."""
    hat.pieces[1].items.append(Prose("It is {Circumference} round, {ear flap} deep, and {unknown}."))
    notes = part(sheet(hat, hat_facts), "Notes")
    assert "The band has 54 (66, 72) stitches." in notes
    assert "It is 40 (48, 53) cm [15¾ (19, 20¾) in] round, 7 cm (2¾ in) deep, and {unknown}." in notes


def test_cautions_are_owed_by_use(hat, hat_facts):
    """Buttons on a child's hat call for the caution on small parts; the law is named first in every case."""
    cautions = part(sheet(hat, hat_facts), "Please take care")
    assert "Leave the buttons off for babies." in cautions
    assert "Small parts:" in cautions and "For babies:" in cautions
    assert "The law and the safety standards of the place where it is made, sold or given come first." in cautions
    hat.head.for_, hat.head.cautions = ("adult",), ()
    assert "Please take care" not in sheet(hat, hat_facts)


def test_a_pattern_that_is_not_proved_is_marked_as_a_draft(hat, hat_facts):
    """A sheet with something to mend says so at its top and claims nothing at its end."""
    text = sheet(hat, replace(hat_facts, must_mend=1))
    assert "Draft, not for sale yet: 1 thing must still be mended." in text
    assert "stitch by stitch" not in text
    assert "Every row was worked stitch by stitch in all 3 sizes, and the counts agree." in sheet(hat, hat_facts)


def test_a_fragment_without_a_head_can_be_written():
    """One row and nothing else still makes a sheet."""
    row = Row("Row", (1,), steps=[Chain(1), Stitch("sc", 1, Place(n=1)), Turn()])
    text = sheet(Pattern("Row 1", "US", None, [Piece(items=[row])]), None, "UK")
    assert text.startswith("Crochet pattern\n")
    assert "Row 1: Ch 1, dc in next st, turn." in text
    assert "Written in UK crochet terms" in text


@pytest.mark.parametrize(("number", "words"), [(1, "1 st"), (2, "2 sts"), (PerSize((1, 1)), "1 (1) st"), (PerSize((1, 2)), "1 (2) sts")])
def test_plurals_follow_the_number(number, words):
    """1 st, 2 sts, and the plural where any size has more than one."""
    row = Row("Row", (1,), steps=[Stitch("sc", 1, Place(n=1))])
    document = compose(Pattern("", "US", None, [Piece(items=[row])]), Facts(rows=(RowFact(number),)), "US")
    count = document.sections[-2].blocks[0].rows[0].count
    assert count in (words, words.replace("1 (1)", "1"))


def test_the_whole_sheet_as_it_is_printed(hat, hat_facts, golden):
    """The sample hat in UK terms, read and accepted line by line."""
    assert write(compose(hat, hat_facts, "UK"), "txt").decode() == golden("samphire-cap.uk.txt")
    assert write(compose(hat, hat_facts, "US"), "md").decode() == golden("samphire-cap.us.md")


def test_her_own_parts_keep_their_heading_and_place(hat, hat_facts):
    """A part that is no instruction keeps its title, before or after the rows; her words of safety stand with the cautions."""
    hat.pieces.insert(1, Piece("Construction", 2, [Prose("Worked from the top.")], section="about"))
    hat.pieces.append(Piece("Care", 2, [Prose("Wash by hand.")], section="about"))
    hat.pieces.append(Piece("Safety", 2, [Prose("No hard parts, please.")]))
    document = compose(hat, hat_facts, "US")
    titles = [section.title for section in document.sections]
    assert titles.index("Construction") < titles.index("Level") < titles.index("Finishing") < titles.index("Care") < titles.index("Please take care")
    assert "No hard parts, please." in part(sheet(hat, hat_facts), "Please take care")


def test_a_stitch_she_defines_under_its_usual_name_is_written_in_the_other_terms(hat, hat_facts):
    """US fpdc is UK FPtr in the row, in the list and in her definition; a name of her own stays."""
    hat.own["fpdc"] = OwnStitch("fpdc", kind="fpdc", words="front post double crochet: work a dc around the post")
    hat.own["limpet"] = OwnStitch("limpet", kind="popcorn", words="4 dc in one stitch, closed together")
    hat.pieces[2].items.append(Row("Round", (9,), steps=[Stitch("fpdc", 1, Place(n=2)), Stitch("limpet", 1, Place("next")), Turn()]))
    text = sheet(hat, replace(hat_facts, rows=()), "UK")
    assert "FPtr around next 2 sts, limpet in next st" in text
    assert "FPtr: front post treble crochet: work a tr around the post" in part(text, "Special stitches")
    assert "Limpet: 4 tr in one stitch, closed together." in part(text, "Special stitches")
    assert "fpdc" not in text.lower()


def test_facts_of_rows_come_from_the_worked_rows():
    """One fact a written row: the stitches of its last worked row in each size, each row's where they differ, None where it was not worked."""
    once, twice, never = Row("Row", (1,)), Row("Row", (2, 3)), Row("Row", (4,))
    pattern = Pattern("", "US", None, [Piece(items=[once, Prose("words"), twice]), Piece(items=[never])])
    fabrics = [
        Fabric(size, [], [WorkedRow("", 1, once, "", stitches=10 * n), *(WorkedRow("", r, twice, "", stitches=10 * n + r) for r in (2, 3))])
        for n, size in ((1, "S"), (2, "M"))
    ]
    assert row_facts(pattern, fabrics) == (RowFact(PerSize((10, 20))), RowFact(PerSize((13, 23)), (PerSize((12, 22)), PerSize((13, 23)))), None)


def test_her_words_in_a_label_stay_in_it():
    """ "Row 3 (RS, ridges)" keeps its remark in the label; a remark in the row follows the row."""
    row = Row("Row", (3,), side="RS", steps=[Chain(1), Turn()], notes=[Note("RS, ridges", lead=":"), Note("(the thumb)")])
    text = sheet(Pattern("", "US", None, [Piece(items=[row])]), None)
    assert "Row 3 (RS, ridges): Ch 1, turn. (the thumb)" in text


@pytest.mark.parametrize(("row", "told"), [
    ("Rnd 2: [Sc in next st, 2 sc in next st] 6 times. (18 sc)", True),
    ("Rnd 2: [2 sc, inc] 4 times. (16 sc)", True),
    ("Rnd 2: Sc in each st around until piece measures 5 cm [2 in] from ring.", False),
    ("Rnd 2: Sc in each st around. [12 sc]", False),
])
def test_brackets_are_explained_where_they_repeat(row, told):
    """A bracket round a measure or a count is no repeat, and the key of marks holds only what the rows use."""
    made = hookwright.write(f"Rnd 1: 12 sc in a magic ring. (12 sc)\n\n{row}", "txt", "US").decode()
    assert ("[ ] with a number" in made) == told


def test_a_heading_right_above_another_heads_what_follows():
    """ "BACK" above "Ribbing:" with nothing between is printed, and its parts stand one level below it."""
    pattern = Pattern("", "US", None, [Piece("BACK"), Piece("Ribbing", 0, [Row("Row 1")]), Piece("FRONT", 0, [Row("Row 1")])])
    instructions = next(section for section in compose(pattern, None, "US").sections if section.name == "instructions")
    assert [(block.title, block.level) for block in instructions.blocks] == [("BACK", 3), ("Ribbing", 4), ("FRONT", 3)]


@pytest.mark.parametrize("to", ["txt", "md"])
def test_text_without_pictures_tells_the_measurements(hat, hat_facts, to):
    """What the outline of a piece shows stands nowhere else, so plain text says it."""
    outline = Picture(10, 10, "", "Brim: measurements", "width: 5.8 cm (2¼ in)")
    text = write(compose(hat, replace(hat_facts, schematics=(outline,)), "US"), to).decode()
    assert "Brim: measurements. Width: 5.8 cm (2¼ in)" in text
