"""How findings look on a terminal."""

from hypothesis import given
from hypothesis import strategies as st

from hookwright.desk.show import amount, columns, full, in_order, one_line, safe
from hookwright.ground import LOOK, MUST_MEND, NOTE, NOWHERE, Finding, Lines, Span, Suggestion

TEXT = "## Cuff\n\nRnd 1: 18 (20, 24) sc.\nRnd 2: *2 sc, inc; rep from * around. 24 (28, 32) sts\n"
START = TEXT.index("*2 sc")
TABLE = (
    ("size", "there are", "repeats", "left over", "worked", "stated", ""),
    ("S", "18", "6 x 3", "0", "6 x 4 = 24", "24", ""),
    ("M", "20", "6 x 3", "2", "6 x 4 = 24", "28", "<-"),
    ("L", "24", "8 x 3", "0", "8 x 4 = 32", "32", ""),
)
LEAVES = Finding(
    "repeat-leaves-stitches",
    MUST_MEND,
    "in size M the repeat of Rnd 2 leaves 2 stitches unworked",
    Span(START, START + 10),
    labels=((Span(START, START + 10), "each repeat takes 3 and makes 4"), (Span(START + 37, START + 40), "stated")),
    working=TABLE,
    suggestions=(Suggestion("start size M with 21 chains", "certain", effect="7 x 3 = 21, 7 x 4 = 28 as stated"),),
    echoes=("Rnd 3", "Rnd 4"),
)


def test_a_finding_in_full_shows_place_sum_and_way_out():
    """The whole layout at 100 columns, as a person reads it."""
    assert full(LEAVES, Lines(TEXT), "patterns/mitten.md") == """\
must mend [repeat-leaves-stitches]: in size M the repeat of Rnd 2 leaves 2 stitches unworked
  mitten.md:4   Rnd 2: *2 sc, inc; rep from * around. 24 (28, 32) sts
                       ^^^^^^^^^^ each repeat takes 3 and makes 4
                                                            --- stated
  size   there are   repeats   left over   worked       stated
     S          18     6 x 3           0   6 x 4 = 24       24
     M          20     6 x 3           2   6 x 4 = 24       28   <-
     L          24     8 x 3           0   8 x 4 = 32       32
  certain: start size M with 21 chains (7 x 3 = 21, 7 x 4 = 28 as stated)
  for the same reason: Rnd 3, Rnd 4"""


def test_on_one_line_it_has_file_line_and_column():
    """File, line, column, grade, kind and message on a line that editors can follow."""
    assert one_line(LEAVES, Lines(TEXT), "mitten.md") == (
        "mitten.md:4:8: must mend [repeat-leaves-stitches]: in size M the repeat of Rnd 2 leaves 2 stitches unworked"
    )


def test_without_a_place_only_the_message_is_shown():
    """A finding about the whole manuscript points at no line."""
    assert full(Finding("kind", NOTE, "words", NOWHERE), Lines(TEXT), "m.md") == "for your information [kind]: words"


def test_a_label_on_another_line_shows_that_line_too():
    """The line meant comes first, then the others from the top down."""
    other = TEXT.index("18 (20")
    shown = full(LEAVES.but(labels=((Span(other, other + 2), "made here"),)), Lines(TEXT), "m.md").splitlines()
    assert shown[1].startswith("  m.md:4 ") and shown[3].startswith("  m.md:3 ")
    assert shown[4].strip() == "-- made here"


def test_marks_stand_under_wide_letters():
    """Letters two columns wide and accents move the marks with them."""
    text = "編む é *2 sc"
    start = text.index("*")
    lines = full(Finding("k", LOOK, "m", Span(start, start + 5)), Lines(text), "m").splitlines()
    assert columns(lines[1].split("*")[0]) == lines[2].index("^")


def test_control_characters_never_reach_the_terminal():
    """An escape sequence in a manuscript or a name is shown, not obeyed."""
    text = "Row 1: \x1b[2J\u202e5 sc\x07"
    finding = Finding("k", LOOK, "in Row 1 `\x1b[2J` is not known", Span(7, 11), labels=((Span(7, 8), "\x1bhere"),))
    shown = full(finding, Lines(text), "a\x1b.md") + one_line(finding, Lines(text), "a\x1b.md")
    assert "\x1b" not in shown and "\x07" not in shown and "\u202e" not in shown
    assert "<U+001B>[2J" in shown


def test_gravest_first_then_down_the_page():
    """Order of findings: grade, then place."""
    made = [Finding("a", NOTE, "", Span(1, 2)), Finding("b", MUST_MEND, "", Span(9, 10)), Finding("c", MUST_MEND, "", Span(3, 4))]
    assert [finding.kind for finding in in_order(made)] == ["c", "b", "a"]


def test_expected_and_found_where_there_is_no_sum():
    """Whose expectation it is stands beside it."""
    finding = Finding("k", LOOK, "m", expected=(20, 24), found=(20, 22), whose="stated in Row 3")
    assert full(finding, None, "m").splitlines()[1] == "  expected 20 (24) (stated in Row 3), found 20 (22)"


def test_amounts_in_words():
    """Numbers, lists by size with a dash where a size has none, and tables of kinds."""
    assert (amount(5), amount((5,)), amount((5, None, 7)), amount({"sc": 2})) == ("5", "5", "5 (-, 7)", "2 sc")


spans = st.tuples(st.integers(0, 80), st.integers(0, 30)).map(lambda pair: Span(pair[0], pair[0] + pair[1]))
words = st.text(max_size=60)


@given(st.text(max_size=300), spans, st.lists(st.tuples(spans, words), max_size=3), words, st.integers(40, 120))
def test_any_text_is_shown_within_the_width(text, span, labels, message, width):
    """Whatever is in the manuscript: no traceback, no raw control character, no line wider than asked."""
    finding = Finding("some-kind", LOOK, message, span, labels=tuple(labels), working=TABLE)
    shown = full(finding, Lines(text), "a manuscript of some length.md", width)
    for line in shown.split("\n"):
        assert safe(line) == line
        assert columns(line) <= width + 8  # a letter shown by its number may reach over the edge
