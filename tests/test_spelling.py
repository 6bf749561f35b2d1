"""Rows are spelt in ordinary modern phrasing, in US and in UK terms."""

import pytest

from hookwright.ground import PerSize
from hookwright.notation import read
from hookwright.notation.spell import spell, spell_body, spell_label, spell_stated
from hookwright.notation.spell_own import OwnNames
from hookwright.notation.tree import (
    Again,
    Chain,
    Colour,
    Counts,
    Either,
    Extent,
    FastenOff,
    Go,
    Group,
    Join,
    JoinYarn,
    Leave,
    Mark,
    NoJoin,
    Note,
    OwnStitch,
    Place,
    Repeat,
    Ring,
    Row,
    Skip,
    Stated,
    Stitch,
    Turn,
    Unread,
    Until,
)

END = Extent("end")
EACH = Place(n=None, extent=END)


def corner():
    return Group([Stitch("dc", 2), Chain(2), Stitch("dc", 2)], Place(of="sp", chains=2))


STEPS = [
    # stitches and where they go
    ([Stitch("dc", 1, Place())], "dc in next st", "tr in next st"),
    ([Stitch("dc", 1, Place(n=3))], "dc in next 3 sts", "tr in next 3 sts"),
    ([Stitch("dc", 2, Place(n=3))], "2 dc in each of next 3 sts", "2 tr in each of next 3 sts"),
    ([Stitch("sc", PerSize((3, 4, 5)))], "3 (4, 5) sc", "3 (4, 5) dc"),
    ([Stitch("sc", 1, Place(n=PerSize((1, 2, None))))], "sc in next 1 (2, -) sts", "dc in next 1 (2, -) sts"),
    ([Stitch("sc", 1, Place(n=PerSize((7, 7))))], "sc in next 7 sts", "dc in next 7 sts"),
    ([Stitch("hdc", 1, EACH)], "hdc in each st across", "htr in each st across"),
    ([Stitch("dc", 1, Place(of="dc", n=None, extent=Extent("last", 3)))], "dc in each dc to last 3 sts", "tr in each tr to last 3 sts"),
    ([Stitch("dc", 1, Place(n=None, extent=Extent("last", 1)))], "dc in each st to last st", "tr in each st to last st"),
    ([Stitch("sc", 1, Place(of="sp", chains=1, n=2))], "sc in next 2 ch-1 sps", "dc in next 2 ch-1 sps"),
    (
        [Stitch("sc", 1, Place("from hook", of="ch", ordinal=2)), Stitch("sc", 1, Place(of="ch", n=None, extent=END))],
        "sc in 2nd ch from hook and in each ch across",
        "dc in 2nd ch from hook and in each ch across",
    ),
    ([Stitch("fpdc", 1, Place())], "FPdc around next st", "FPtr around next st"),
    ([Stitch("hdc", 1, Place(loop="third", n=4))], "hdc in 3rd loop of next 4 sts", "htr in 3rd loop of next 4 sts"),
    ([Stitch("sc", 12, loop="back")], "12 sc in BLO", "12 dc in BLO"),
    ([Stitch("bobble", 1, Place(), legs=5, base="dc")], "5-dc bobble in next st", "5-tr bobble in next st"),
    ([Stitch("dc2tog", 1, Place(n=2), over=True)], "dc2tog over next 2 sts", "tr2tog over next 2 sts"),
    ([Stitch("dc", 1, Place("chain top", chains=3))], "dc in top of ch-3", "tr in top of ch-3"),
    ([Stitch("dc", 1, Place("chain top", chains=5, ordinal=3))], "dc in 3rd ch of ch-5", "tr in 3rd ch of ch-5"),
    ([Stitch("dc", 1, Place("nth", of="ch", ordinal=2, chains=4))], "dc in 2nd ch of next ch-4", "tr in 2nd ch of next ch-4"),
    (
        [Stitch("sc", 41, Place("row ends", n=None, extent=END), evenly=True)],
        "work 41 sc evenly along row ends",
        "work 41 dc evenly along row ends",
    ),
    ([Stitch("slst", 1, Place())], "sl st in next st", "ss in next st"),
    ([Stitch("inc", 1), Stitch("invdec", 2)], "inc, 2 inv dec", "inc, 2 inv dec"),
    # chains, skips, groups
    ([Chain(3, Counts(True, "dc", onward=True))], "ch 3 (counts as dc here and throughout)", "ch 3 (counts as tr here and throughout)"),
    ([Chain(5, Counts(True, "dc", chains=2))], "ch 5 (counts as dc, ch 2)", "ch 5 (counts as tr, ch 2)"),
    ([Chain(1, Counts(False))], "ch 1 (does not count as a st)", "ch 1 (does not count as a st)"),
    ([Skip(Place()), Skip(Place(n=2))], "skip next st, skip next 2 sts", "miss next st, miss next 2 sts"),
    ([Skip(Place(of="sp", chains=1))], "skip next ch-1 sp", "miss next ch-1 sp"),
    ([corner()], "(2 dc, ch 2, 2 dc) in next ch-2 sp", "(2 tr, ch 2, 2 tr) in next ch-2 sp"),
    # repeats
    ([Repeat([Stitch("sc", 3), Stitch("inc")], 6)], "[3 sc, inc] 6 times", "[3 dc, inc] 6 times"),
    (
        [Repeat([Chain(1), Stitch("dc", 1, Place())], 5, "more")],
        "*ch 1, dc in next st; rep from * 5 more times",
        "*ch 1, tr in next st; rep from * 5 more times",
    ),
    (
        [Repeat([Chain(1), Stitch("dc", 1, Place())], 1, "more")],
        "*ch 1, dc in next st; rep from * once more",
        "*ch 1, tr in next st; rep from * once more",
    ),
    (
        [Repeat([Chain(1), Stitch("sc")], PerSize((2, 3)), "more")],
        "*ch 1, sc; rep from * 2 (3) more times",
        "*ch 1, dc; rep from * 2 (3) more times",
    ),
    (
        [Repeat([Chain(1), Stitch("sc")], extent=Extent("last", 4))],
        "*ch 1, sc; rep from * to last 4 sts",
        "*ch 1, dc; rep from * to last 4 sts",
    ),
    (
        [Repeat([Stitch("sc"), Repeat([Stitch("hdc"), Stitch("inc")], 3)], extent=END)],
        "*sc, [hdc, inc] 3 times; rep from * across",
        "*dc, [htr, inc] 3 times; rep from * across",
    ),
    (
        [Repeat([Stitch("sc"), Repeat([Stitch("hdc"), Stitch("inc")], 3)], 4)],
        "[sc, {hdc, inc} 3 times] 4 times",
        "[dc, {htr, inc} 3 times] 4 times",
    ),
    (
        [Repeat([Stitch("sc"), Chain(2), Stitch("dc")], extent=END, stop=2, partial="last")],
        "*sc, ch 2**, dc; rep from * across, ending last rep at **",
        "*dc, ch 2**, tr; rep from * across, ending last rep at **",
    ),
    (
        [Repeat([Stitch("sc"), Chain(2)], 2, "more", stop=1, partial="again")],
        "*sc**, ch 2; rep from * twice more, then from * to ** once more",
        "*dc**, ch 2; rep from * twice more, then from * to ** once more",
    ),
    # colours, yarn, markers, ends
    ([Colour("A"), Stitch("sc", 4), Colour("B")], "with A, 4 sc, change to B", "with A, 4 dc, change to B"),
    (
        [JoinYarn(Place("any", of="sp", chains=2), "A", "dc")],
        "join A with standing dc in any ch-2 sp",
        "join A with standing tr in any ch-2 sp",
    ),
    ([Ring(), Stitch("sc", 6, Place("ring"))], "make a magic ring, 6 sc in ring", "make a magic ring, 6 dc in ring"),
    ([Chain(4), Ring("chain")], "ch 4, join with sl st to form a ring", "ch 4, join with ss to form a ring"),
    ([Join(Place("first", of="dc")), FastenOff()], "join with sl st in first dc. Fasten off", "join with ss in first tr. Fasten off"),
    ([NoJoin(), NoJoin(turn=True), Turn()], "do not join, do not turn, turn", "do not join, do not turn, turn"),
    ([Mark("place", Place("last")), Mark("remove")], "place marker in last st, remove marker", "place marker in last st, remove marker"),
    ([Leave(), Leave(3)], "leave rem sts unworked, leave next 3 sts unworked", "leave rem sts unworked, leave next 3 sts unworked"),
    (
        [Go(Extent("last", 2)), Note("thumb opening")],
        "continue in patt to last 2 sts, (thumb opening)",
        "continue in patt to last 2 sts, (thumb opening)",
    ),
    ([Either([[Stitch("sc", 2)], [Stitch("sc", 3)]]), Unread("frobble 3")], "2 sc, frobble 3", "2 dc, frobble 3"),
]


@pytest.mark.parametrize("steps, us, uk", STEPS, ids=[us[:40] for _, us, _ in STEPS])
def test_steps(steps, us, uk):
    """The same steps in both dialects."""
    assert spell(steps, "US") == us
    assert spell(steps, "UK") == uk


ROWS = [
    (
        Row("Row", (2,), side="RS", steps=[Chain(1), Stitch("sc", 1, EACH), Turn()], stated=[Stated(((24, "sc", None),))]),
        "Row 2 (RS): Ch 1, sc in each st across, turn. (24 sc)",
    ),
    (
        Row("Round", (3, 4, 5), steps=[Stitch("sc", 1, EACH)], stated=[Stated(((24, "dc", None), (6, "sp", 1)))]),
        "Rnds 3–5: Sc in each st around. (24 dc, 6 ch-1 sps)",
    ),
    (Row("Row", (3, 5), steps=[Turn()], stated=[Stated(((1, "st", None),))]), "Rows 3 and 5: Turn. (1 st)"),
    (
        Row("Row", (3,), only=("M", "L"), steps=[Turn()], stated=[Stated(((PerSize((1, 2)), "st", None),))]),
        "Sizes M and L only: Row 3: Turn. (1 (2) sts)",
    ),
    (Row("Row", name="Next", count_of_rows=PerSize((4, 6)), steps=[Turn()]), "Next 4 (6) rows: Turn."),
    (Row("Row", name="Foundation", steps=[Turn()]), "Foundation row: Turn."),
    (Row(steps=[Chain(PerSize((36, 40)))]), "Ch 36 (40)."),
    (Row("Round", (3,), last_number=PerSize((8, 10)), steps=[Stitch("sc", 1, EACH)]), "Rnds 3–8 (10): Sc in each st around."),
    (Row(again=Again((2, 3, 4, 5, 6, 7), times=8, then=Again((9,)))), "Rep Rows 2–7 another 8 times, then rep Row 9."),
    (Row(again=Again((2, 3), total_rows=18)), "Rep Rows 2 and 3 for a total of 18 rows."),
    (
        Row(again=Again(last=1, until=Until(measure_mm=(200.0, 210.0), measured_from="from beg", side="WS"))),
        "Rep last row until piece measures 20 (21) cm [7⅞ (8¼) in] from beg, ending with a WS row.",
    ),
    (Row(again=Again((3,), times=PerSize((2, 3)))), "Rep Row 3 another 2 (3) times."),
]


@pytest.mark.parametrize("row, text", ROWS, ids=[text[:40] for _, text in ROWS])
def test_rows(row, text):
    """Label, steps, counts; rows worked again."""
    assert spell(row, "US") == text


def test_label_and_body_apart():
    """The label and the rest can be had apart, for a page that prints the label in bold."""
    row = ROWS[0][0]
    assert spell_label(row, "UK") == "Row 2 (RS)"
    assert spell_body(row, "UK") == "Ch 1, dc in each st across, turn. (24 dc)"


def test_a_loop_for_the_whole_row_is_said_once():
    """Where all stitches go into the same loop the row says so once, after its chain."""
    steps = [
        Chain(1),
        Repeat([Stitch("sc", 3, loop="back"), Stitch("inc", loop="back")], extent=Extent("last", 1)),
        Stitch("sc", 1, Place("last"), "back"),
        Turn(),
    ]
    assert spell(steps, "US") == "ch 1, working in back loops only, *3 sc, inc; rep from * to last st, sc in last st, turn"
    assert spell([Stitch("sc", 3, loop="back"), Stitch("sc", 4)], "UK") == "3 dc in BLO, 4 dc"


def test_own_stitches_by_name():
    """A stitch of the designer's own is written by its name where it is known, else by what it is made of."""
    shell = Group([Stitch("dc", 5)], Place(of="sc"), name="scallop")
    assert spell([shell], "US", own=["scallop"]) == "scallop in next sc"
    assert spell([shell], "UK") == "(5 tr) in next dc (scallop made)"


def test_one_stitch_goes_by_her_one_name():
    """What she explains as a limpet is a limpet in rows and counts, in either terms; another popcorn stays what it is made of."""
    own = {
        "Limpet": OwnStitch("Limpet", kind="popcorn", legs=4, base="dc"),
        "V-st": OwnStitch("V-st", steps=[Stitch("dc"), Chain(1), Stitch("dc")], group=True),
        "dc fan": OwnStitch("dc fan", steps=[Stitch("dc", 5)], group=True),
        "dec": OwnStitch("dec", kind="invdec", steps=[Stitch("invdec")]),
        "trc": OwnStitch("trc", kind="tr", steps=[Stitch("tr")]),
    }
    steps = [
        Stitch("popcorn", 2, Place(n=2), legs=4, base="dc"),
        Stitch("popcorn", 1, Place(), legs=3, base="dc"),
        Group([Stitch("dc"), Chain(1), Stitch("dc")], Place(), name="V-st"),
        Group([Stitch("dc"), Chain(2), Stitch("dc")], Place(), name="V-st"),
        Group([Stitch("dc", 5)], Place(), name="dc fan"),
        Stitch("tr", 1, Place(n=1)),
        Stitch("invdec", 2),
    ]
    uk = OwnNames(own, "US", "UK", "Limpet: 4 dc; work a limpet in next st")
    words = spell(steps, "UK", own=uk)
    assert words.startswith("2 limpets in each of next 2 sts, 3-tr popcorn in next st, V-st in next st, (tr, ch 2, tr) in next st")
    assert words.endswith("tr fan in next st, dtr in next st, 2 dec")
    assert spell_stated(Stated(((3, "popcorn", None), (2, "group:V-st", None))), "UK", own=uk) == "3 limpets, 2 V-sts"
    assert "Limpet in next st" in spell([Stitch("popcorn", 1, Place(), legs=4, base="dc")], "US", own=OwnNames(own, text="the Limpet"))


def test_remarks_are_told_from_steps_and_put_in_the_other_words():
    """A remark that could be taken for work is said to be one; `put` turns its words."""
    row = Row("Row", (2,), steps=[Stitch("sc", 3), Note("thumb opening"), Turn()], notes=[Note("2 dc in each row end")])
    assert spell(row, "US") == "Row 2: 3 sc (thumb opening), turn. (note: 2 dc in each row end)"
    assert spell_body(row, "UK", put=lambda words: words.replace("dc", "tr")) == "3 dc (thumb opening), turn. (note: 2 tr in each row end)"


def test_a_reference_keeps_her_words_for_what_differs():
    """Where a reference says in words what differs, the words stay part of it."""
    row = Row("Row", (4,), again=Again((3,), same_manner=True), notes=[Note("but increasing one st at each end")])
    assert spell(row, "US") == "Row 4: Rep Row 3, but increasing one st at each end."


def test_sizes_that_take_no_part_are_left_out_where_the_row_says_so():
    """Under "Sizes M and L only" a list holds the numbers of these sizes."""
    row = Row("Row", (2,), only=("M", "L"), steps=[Stitch("sc", PerSize((None, 3, 5))), Turn()])
    assert spell(row, "US") == "Sizes M and L only: Row 2: 3 (5) sc, turn."


def test_sixty_rows_in_both_dialects_are_quick():
    """Spelling is a small part of writing: well under a millisecond a row even on a slow machine."""
    import timeit

    row = Row(
        "Row",
        (2,),
        steps=[Chain(3, Counts(True, "dc")), Repeat([Chain(1), Skip(Place()), Stitch("dc", 1, Place(n=3))], 5, "more"), corner(), Turn()],
    )
    assert min(timeit.repeat(lambda: (spell(row, "US"), spell(row, "UK")), number=60, repeat=3)) < 0.06


def test_what_is_passed_over_goes_by_the_dialect():
    """US "skipped" is UK "missed"; what a piece is measured from is put into the words of the dialect; no space before a comma."""
    assert spell([Stitch("dc", 1, Place("skipped"))], "US") == "dc in skipped st"
    assert spell([Stitch("dc", 1, Place("skipped"))], "UK") == "tr in missed st"
    row = Row("", (), steps=[], again=Again(last=1, until=Until(measure_mm=(100.0,), measured_from="from center")))
    assert "from centre" in spell_body(row, "UK", put=lambda words: words.replace("center", "centre"))
    row = Row("Row", (9,), steps=[], again=Again(rows=(3, 4), times=5, sense="more", until=Until(side="WS")))
    assert spell_body(row, "US") == "Rep Rows 3 and 4 another 5 times, ending with a WS row."


REMARKS = [
    ("Row 9: Ch 1, sc in each st across. Do not fasten off. Turn the strap a quarter, so that the row ends lie on top.",
     "Row 9: Ch 1, sc in each st across. Do not fasten off. Turn the strap a quarter, so that the row ends lie on top."),
    ("Row 9: Fold the flap so that the dots meet. Ch 1, sl st in each st across. Fasten off, leaving a tail to sew with.",
     "Row 9: Fold the flap so that the dots meet. Ch 1, sl st in each st across. Fasten off, leaving a tail to sew with."),
    ("Row 9: Ch 1, sc in each st across, turn, seam to the inside.", "Row 9: Ch 1, sc in each st across, turn, seam to the inside."),
    ("Rnd 9 (brim): Ch 1, leave next 6 sts unworked for the ear, sc in each st around.",
     "Rnd 9 (brim): Ch 1, leave next 6 sts unworked for the ear, sc in each st around."),
    ("Rows 9-12: Rep Rows 7 and 8 twice more, keeping to the stripes.", "Rows 9–12: Rep Rows 7 and 8 twice more, keeping to the stripes."),
    ("Row 9: As Row 4, changing to B at the end.", "Row 9: Rep Row 4, changing to B at the end."),
    ("Row 9: With right side facing, join B in first st, ch 1, sc in each st across.",
     "Row 9: With right side facing, join B in first st, ch 1, sc in each st across."),
    ("Row 9: Ch 1, sc in each st across, turn. Don’t fasten off yet.", "Row 9: Ch 1, sc in each st across, turn. Don’t fasten off yet."),
]


@pytest.mark.parametrize("text, written", REMARKS, ids=[text[:40] for text, _ in REMARKS])
def test_remarks_stand_where_she_placed_them(text, written):
    """A sentence that is no step stays one, whole, in her letters; what she said after a comma stays after it."""
    pattern, findings = read(text, terms="US")
    (_, row), = pattern.rows()
    assert not findings
    assert spell(row, "US") == written


@pytest.mark.parametrize(("hers", "written"), [
    ("until thumb measures 6 cm", "until thumb measures 6 cm"),
    ("until your mitten measures 6 cm from the cuff", "until mitten measures 6 cm"),
    ("until the left sleeve is 6 cm", "until left sleeve measures 6 cm"),
    ("until piece measures 6 cm", "until piece measures 6 cm"),
    ("until it measures 6 cm", "until piece measures 6 cm"),
    ("until work is 6 cm", "until piece measures 6 cm"),
    ("until the length is 6 cm", "until piece measures 6 cm"),
    ("until you have and it measures 6 cm", "until piece measures 6 cm"),
])
@pytest.mark.parametrize("terms", ["US", "UK"])
def test_the_part_that_is_measured_keeps_its_name(hers, written, terms):
    """Her word for a part that is made on another stays, since the piece is another length; what is no part is the piece."""
    pattern, _ = read(f"Ch 12, join with sl st in first ch.\n\nRnd 1: Sc in each ch around.\n\nRepeat last rnd {hers}.", terms="US")
    row = [row for _, row in pattern.rows()][-1]
    assert written in spell(row, terms)
