"""The PDF: tagged and valid PDF/UA-1, on both papers, with our fonts alone, and with any letters."""

import io

import page as validation
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from hookwright.ground import PerSize
from hookwright.notation import Head
from hookwright.notation.tree import Pattern, Piece, Prose
from hookwright.writing import compose, pdf, write, written


def text_of(data: bytes) -> str:
    return " ".join("\n".join(one.extract_text() for one in PdfReader(io.BytesIO(data)).pages).split())


def tags_of(data: bytes) -> list[str]:
    """Structure types in reading order."""
    found: list[str] = []
    todo = [PdfReader(io.BytesIO(data)).trailer["/Root"]["/StructTreeRoot"]]
    while todo:
        node = todo.pop()
        node = node.get_object() if hasattr(node, "get_object") else node
        if isinstance(node, list):
            todo.extend(reversed(node))
        elif isinstance(node, dict):
            if "/S" in node:
                found.append(str(node["/S"]))
            if "/K" in node:
                todo.append(node["/K"])
    return found


def complaints(data: bytes) -> list:
    """What a checker of PDF/UA-1 has to say."""
    return list(validation.validate_pdf_bytes(data, profile=validation.ValidationProfile.PDF_UA_1).failures)


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_the_pdf_can_be_read_by_a_voice(hat, hat_facts, terms):
    """It passes the rules of PDF/UA-1 (ISO 14289-1), with title, headings, lists and a table whose head cells are marked."""
    data = write(compose(hat, hat_facts, terms), "pdf")
    assert complaints(data) == []
    tags = tags_of(data)
    assert tags.count("/Title") == 1 and tags.count("/Table") == 1 and tags.count("/TH") == 4
    assert {"/H1", "/H2", "/L", "/Lbl", "/LBody", "/P"} <= set(tags)
    catalog = PdfReader(io.BytesIO(data)).trailer["/Root"]
    assert catalog["/Lang"] == ("en-US" if terms == "US" else "en-GB")


def test_all_words_are_there_as_text(hat, hat_facts):
    """Rows, labels, counts, measures and cautions can be searched and copied."""
    text = text_of(write(compose(hat, hat_facts, "US"), "pdf"))
    for words in (
        "Samphire Cap",
        "Rnd 3: Ch 3, [dc in next st, 2 dc in next st] 8 (10, 12) times, join with sl st.",
        "36 (42, 48) dc",
        "40 cm (15¾ in)",
        "Small parts",
        "Page 1 of 2",
    ):
        assert words in text


def lines_of(page) -> list[tuple[float, str]]:
    """(distance from the foot of the page in points, text) of each stretch of text."""
    found = []
    page.extract_text(visitor_text=lambda text, cm, tm, font, size: found.append((round(tm[5] * cm[3] + cm[5], 1), text.strip())) if text.strip() else None)
    return found


def test_a_label_wider_than_its_column_stands_beside_its_row(hat, hat_facts):
    """ "Rnds 100–127 (129, 130):" goes on below itself; the row begins on its first line, and the next row below both."""
    rows = hat.pieces[2].items
    rows[3].numbers, rows[3].last_number = tuple(range(100, 128)), PerSize((127, 129, 130))
    found = [line for page in PdfReader(io.BytesIO(write(compose(hat, hat_facts, "US"), "pdf"))).pages for line in lines_of(page)]
    at = {text: y for y, text in found}
    label, rest = at["Rnds 100–127"], at["(129, 130):"]
    assert at["Rep last rnd."] == label
    assert rest < label and at["Band rnd:"] < rest - 8


def test_no_last_page_with_only_a_few_lines(hat, hat_facts, monkeypatch):
    """A sheet that runs over by a little is set closer, so that the page is saved; one that does not is left as wide as it was."""
    saved = 0
    for lines in range(0, 100, 7):
        hat.pieces[-1].items[1:] = [Prose("Turn the cap inside out and look at every end. " * lines)]
        document = compose(hat, hat_facts, "US")
        closer = write(document, "pdf")
        with monkeypatch.context() as wide:
            wide.setattr(pdf, "_AIR", (1.0,))
            plain = write(document, "pdf")
        before, after = (len(PdfReader(io.BytesIO(data)).pages) for data in (plain, closer))
        assert after == before - 1 if closer != plain else after == before
        saved += before - after
        assert complaints(closer) == []
    assert 0 < saved < 6


def test_cautions_are_close_and_on_one_page(hat, hat_facts):
    """Each caution is a paragraph that begins with its title; all of them stand on the page where they begin, wherever the sheet ends."""
    for lines in range(0, 80, 9):
        hat.pieces[-1].items[1:] = [Prose("Turn the cap inside out and look at every end. " * lines)]
        pages = [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(write(compose(hat, hat_facts, "US"), "pdf"))).pages]
        begun = [page for page in pages if "Please take care" in page]
        assert len(begun) == 1 and "For babies. Use soft yarn" in begun[0] and "The law and the safety standards" in begun[0]


def test_the_colophon_is_small_and_has_no_title(hat, hat_facts):
    """What was proved and the copyright stand at the very end, with no heading of their own."""
    text = text_of(write(compose(hat, hat_facts, "US"), "pdf"))
    assert "About this sheet" not in text and "Set with Hookwright." in text


@pytest.mark.parametrize(("paper", "points"), [("A4", (595.28, 841.89)), ("Letter", (612, 792))])
def test_paper(hat, hat_facts, paper, points):
    """A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 in (ANSI/ASME Y14.1); a point is 1/72 in."""
    box = PdfReader(io.BytesIO(write(compose(hat, hat_facts, "US"), "pdf", paper=paper))).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(points, abs=0.01)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_large_print(hat, hat_facts, paper):
    """Rows in type of 18 points and nothing under 14, as makers of large print ask; the words are there, and a voice reads it as before."""
    document = compose(hat, hat_facts, "US")
    data = written(document, "pdf", paper=paper, large_print=True).data
    assert complaints(data) == []
    sizes = {}
    for one in PdfReader(io.BytesIO(data)).pages:
        one.extract_text(visitor_text=lambda text, cm, tm, font, size: sizes.setdefault(round(abs(size * tm[0] * cm[0]), 1), []).append(text) if text.strip() else None)
    assert min(sizes) >= 14 and "dc in" in " ".join(sizes[18.0])
    text = text_of(data)
    for words in ("Samphire Cap", "Ch 3, [dc in next st, 2 dc in next st] 8 (10, 12) times, join with sl st.", "36 (42, 48) dc", "40 cm (15¾ in)", "Small parts", "Page 1 of"):
        assert words in text


def test_the_same_sheet_gives_the_same_bytes(hat, hat_facts):
    """Nothing of the day or the machine gets into the file."""
    document = compose(hat, hat_facts, "US")
    assert write(document, "pdf") == write(document, "pdf")


def test_only_our_open_fonts_are_embedded(hat, hat_facts):
    """Every font in the file is a cut of Source Sans 3, embedded."""
    names = set()
    for one in PdfReader(io.BytesIO(write(compose(hat, hat_facts, "UK"), "pdf"))).pages:
        for font in one["/Resources"]["/Font"].values():
            inner = font.get_object()["/DescendantFonts"][0].get_object()
            assert any(key.startswith("/FontFile") for key in inner["/FontDescriptor"])
            names.add(str(inner["/BaseFont"]).split("+")[-1])
    assert names and all(name.startswith("SourceSans3") for name in names)


def test_a_letter_that_is_missing_is_shown_as_a_box_and_told(hat, hat_facts):
    """Hebrew in a title does not stop the PDF; the finding names the letters and what to do."""
    hat.head.title = "Cap \u05db\u05d5 \u2605"
    made = written(compose(hat, hat_facts, "US"), "pdf")
    assert "\u25a1" in text_of(made.data)
    assert complaints(made.data) == []
    (finding,) = made.findings
    assert finding.kind == "letter-not-in-font" and "\u2605" in finding.found
    assert written(compose(hat, hat_facts, "US"), "html").findings == ()


def test_a_very_long_title_and_long_names_fit(hat, hat_facts):
    """A title of 400 letters and a word of 300 make a sheet all the same."""
    hat.head.title = "A cap for a windy day " * 18
    hat.head.designer = "w" * 300
    hat.pieces[2].name = "A piece with a very long name " * 6
    assert complaints(write(compose(hat, hat_facts, "US"), "pdf")) == []


LETTERS = st.text(st.characters(max_codepoint=0x1FFFF), max_size=60)


@settings(max_examples=25, deadline=None)
@given(title=LETTERS, words=LETTERS, piece=LETTERS)
def test_any_letters_can_be_written(title, words, piece):
    """Whatever stands in the manuscript, every writer makes a file and the PDF is valid."""
    head = Head(title=title, designer=words, summary=words, materials=(words,) if words else ())
    pattern = Pattern(words, "US", head, [Piece(piece, 2, [Prose(words), Prose(f"- {words}\n- {piece}")])])
    document = compose(pattern, None, "UK")
    for kind in ("html", "md", "txt"):
        assert write(document, kind).decode("utf-8")
    assert complaints(write(document, "pdf")) == []
