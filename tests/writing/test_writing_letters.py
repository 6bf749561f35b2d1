"""Fonts and the list of their letters."""

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

import hookwright.writing
from hookwright.writing import compose, write
from hookwright.writing.letters import covered, in_fonts, tidy, together

FONTS = Path(hookwright.writing.__file__).parent / "fonts"


def test_the_list_holds_exactly_the_letters_that_all_styles_have():
    """letters.toml agrees with the four font files."""
    have = set.intersection(*(set(TTFont(path).getBestCmap()) for path in FONTS.glob("*.ttf")))
    listed = {code for code in range(0x20, 0x20000) if in_fonts(chr(code))}
    assert listed == {code for code in have if code < 0x20000}
    assert in_fonts("½") and in_fonts("é") and not in_fonts("★")


def test_the_fonts_of_the_page_have_a_name_of_their_own():
    """The licence (SIL OFL 1.1, reserved font name) keeps the name for unchanged fonts; the cut fonts carry another and the licence."""
    paths = sorted((FONTS / "web").glob("*.woff2"))
    assert len(paths) == 4 and (FONTS / "OFL.txt").exists()
    for path in paths:
        names = {record.nameID: record.toUnicode() for record in TTFont(path)["name"].names}
        assert "Source" not in names[1] + names[4] + names[6]
        assert "SIL Open Font License" in names[13]


@pytest.mark.parametrize(
    ("text", "shows"),
    [
        ("a\u0301", "á"),
        ("Hat\u202e", "Hat"),
        ("a\x00b", "ab"),
        ("x\ud800y", "x\ufffdy"),
        ("plain", "plain"),
        ("soft\u00adhyphen", "softhyphen"),
    ],
)
def test_text_is_made_tidy(text, shows):
    """Letters are composed; what says nothing or turns the direction is dropped."""
    assert tidy(text) == shows


def test_a_heart_with_its_variation_mark_is_one_box():
    """Marks that only choose a look leave no box of their own."""
    assert covered("a \U0001f9f6\ufe0f b") == ("a \u25a1 b", {"\U0001f9f6"})


def test_a_short_list_of_sizes_stays_on_one_line(hat, hat_facts):
    """In the page and the PDF no short size list is torn; text and Markdown have plain spaces."""
    document = compose(hat, hat_facts, "US")
    assert "8\u00a0(10,\u00a012)" in write(document, "html").decode()
    assert "8 (10, 12)" in write(document, "txt").decode() and "\u00a0" not in write(document, "md").decode()
    long = "20 (24, 28, 32, 36, 40, 44, 48, 52)"
    assert together(long) == long.replace(" ", "\u00a0", 1)
    assert together("sc (3, then 4) and (6 sc)") == "sc (3, then 4) and (6 sc)"
