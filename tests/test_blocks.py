"""Headings that are read without the parser are those that the parser finds, and the lines around them are the same."""

from hypothesis import given
from hypothesis import strategies as st

from hookwright.notation import blocks

# A line ends with its last letter here: how far the spaces after it belong to it is of no weight.
LINES = ("## Body", "# Hat #", "### Left  front ##", "  ## Band", "Row 1: 6 sc in ring. 6 sts", "Row 2: *sc in next st; rep from * around.", "Size #5 hook", "", "  ", "#5 hook",
         "####### Row", "##", "   Ch 12.")


@given(st.lists(st.sampled_from(LINES), max_size=9))
def test_plain_headings_are_read_as_by_the_parser(lines):
    text = "\n".join(lines)
    if not blocks._MARKED_UP.search(text):
        assert blocks._plain_lines(text, 0, len(text), 0, True) == blocks._marked_lines(text, 0)


def test_a_heading_needs_no_parser():
    text = "## Body\nRow 1: 6 sc in ring.\n\n## Brim ##\n"
    assert not blocks._MARKED_UP.search(text)
    assert [(line.kind, text[line.start:line.end], line.level) for line in blocks.read_lines(text, 0)] == [
        ("heading", "Body", 2), ("text", "Row 1: 6 sc in ring.", 0), ("heading", "Brim", 2)]


def test_a_number_sign_that_makes_no_heading_is_left_to_the_parser():
    for line in ("#5 hook", "####### Row", "##"):
        assert blocks._MARKED_UP.search(line)
