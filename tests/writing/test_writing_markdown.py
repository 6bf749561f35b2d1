"""The sheet as Markdown: read by a CommonMark reader it says what the sheet says, star for star."""

import re
from html import unescape

from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from hookwright.notation.tree import Pattern, Piece, Prose
from hookwright.writing import compose, write
from hookwright.writing.markdown import escaped

READER = MarkdownIt("commonmark").enable("table")


def shown(markdown: str) -> str:
    """The words that a reader of Markdown shows."""
    return " ".join(unescape(re.sub(r"<[^>]+>", "", READER.render(markdown))).split())


def test_rows_read_as_they_are_written(hat, hat_facts):
    """Stars, brackets and parentheses of a row are no marks."""
    words = shown(write(compose(hat, hat_facts, "US"), "md").decode())
    assert "Rnd 2: Ch 3, dc in same st, *2 dc in next st; rep from * around, join with sl st. [24 dc]" in words
    assert "[bobble in next ch-1 sp, sc2tog, (dc, ch 2, dc) in next st] 9 (11, 12) times" in words


def test_a_table_is_a_table(hat, hat_facts):
    """Sizes and measurements become a table with a head."""
    page = READER.render(write(compose(hat, hat_facts, "US"), "md").decode())
    assert page.count("<table>") == 1 and "<th>Circumference</th>" in page


@given(st.text(st.characters(codec="ascii", min_codepoint=33, max_codepoint=126), min_size=1, max_size=40))
def test_no_text_turns_into_marks(text):
    """Any line of ASCII is shown as it is."""
    assert shown(escaped(text)) == text


def test_html_of_hers_is_shown_as_text():
    """A tag in her prose is words, in Markdown as well."""
    pattern = Pattern("", "US", None, [Piece("One <i>two</i>", 2, [Prose("<script>alert(1)</script>\n\na <b>bold</b> word")])])
    page = READER.render(write(compose(pattern, None, "US"), "md").decode())
    assert "<script>" not in page and "<b>" not in page and "<i>" not in page
