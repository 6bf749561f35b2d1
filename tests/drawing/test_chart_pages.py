"""Charts on pages of paper: at the size at which they can be read, cut between rows and stitches, nothing left out and nothing twice."""

import re
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

import pytest

import hookwright
from hookwright.drawing import pages, symbol
from hookwright.drawing.chart import MM
from hookwright.drawing.chart_marks import TYPE
from hookwright.drawing.chart_pages import MARGIN_MM, PAPER_MM
from hookwright.drawing.symbols import height_of
from hookwright.stitches import CATALOGUE

SVG = "{http://www.w3.org/2000/svg}"
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


def example(name):
    return hookwright.check((EXAMPLES / f"{name}.md").read_text("utf-8"))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_symbol_is_whole_on_one_page_and_every_page_fits_the_paper(paper):
    """A blanket of 15,000 symbols, nothing folded: what is clear on the pages is what is drawn, each once; what is faint is drawn clear elsewhere."""
    made = hookwright.chart(example("slack-water-blanket"), "Blanket", "Stroller", whole=True)
    found = pages(made, paper)
    assert len(found) > 5
    wide, high = PAPER_MM[paper.upper()]
    whole, pages_said = Counter(), set()
    for at, page in enumerate(found):
        room = (wide, high) if not page.landscape else (high, wide)
        assert page.picture.mm <= room[0] - 2 * MARGIN_MM[0] + 0.1 and page.picture.height * MM <= room[1] - 2 * MARGIN_MM[1] + 0.1
        root = ElementTree.fromstring(page.picture.svg("p"))
        if at:
            whole.update((one.get("data-row"), one.get("data-index")) for one in root.iter(f"{SVG}g") if one.get("data-stitch") and one.get("data-index"))
            pages_said.update(int(number) for one in root.iter(f"{SVG}text") for number in re.findall(r"page (\d+)", one.text))
    drawn = Counter((one.get("data-row"), one.get("data-index")) for one in ElementTree.fromstring(made.picture.svg("c")).iter(f"{SVG}g")
                    if one.get("data-stitch") and one.get("data-index"))
    assert whole == drawn and pages_said == set(range(2, len(found) + 1))


def test_pages_are_cut_between_rows_and_show_the_row_below_faintly():
    """Rows of a part are whole; the row before the first of a part stands there faintly, to work into."""
    found = pages(hookwright.chart(example("slack-water-blanket"), "Blanket", "Stroller", whole=True))
    for page in found[1:]:
        root = ElementTree.fromstring(page.picture.svg("p"))
        rows = [one.get("data-row") for one in root.iter(f"{SVG}g") if one.get("data-row") and not one.get("data-stitch")]
        first = re.search(r"Row (\d+) to", page.words)[1]
        assert rows.index(f"Row {first}") == 1  # after the one below it
        assert {one.get("opacity") for one in root.iter(f"{SVG}g")} >= {"0.3"}
    assert found[1].words.startswith("part 1 of ") and "at the right" in found[1].words  # where the first row begins


def test_a_small_chart_is_one_page_at_print_size():
    """With its key on it; wide ones lie."""
    made = hookwright.chart(example("rock-pool-squares"), "Square")
    (page,) = pages(made)
    assert page.picture is made.picture and not page.landscape


def test_symbols_can_be_read_on_paper():
    """At 0.3 mm a unit a single crochet is 1.9 mm wide and a row of it 3 mm high, type is 8 points, lines are a third of a millimetre; the
    smallest sign, the dot of a slip stitch, is over a millimetre. The sheet sets charts smaller by a twentieth at most: those that fit a page fit its width."""
    assert MM * 6.4 >= 1.9 and TYPE * MM / 25.4 * 72 >= 8 and 1.1 * MM >= 0.33 and 4.4 * MM > 1.2
    assert min(height_of(id) for id in CATALOGUE if id not in ("slst", "picot", "ch")) * MM >= 3
    assert all(symbol(id) for id in CATALOGUE)
    for name in ("rock-pool-squares", "spindrift-scarf"):
        made = hookwright.chart(example(name))
        assert made.fits_a_page and made.picture.mm <= 170
    shawl = hookwright.chart(example("causeway-shawl"))
    assert shawl.fits_a_page and shawl.picture.mm <= 170 * 1.06


def test_the_chart_as_pdf_is_tagged_and_has_its_words():
    """PDF/UA-1; after the pages all of it in words; the same chart gives the same bytes; what is not known is said."""
    import io

    import page as validation
    from pypdf import PdfReader

    made = hookwright.chart(example("slack-water-blanket"), "Blanket", "Crib")
    data = hookwright.write_chart(made, "pdf", paper="Letter")
    assert list(validation.validate_pdf_bytes(data, profile=validation.ValidationProfile.PDF_UA_1).failures) == []
    assert data == hookwright.write_chart(made, "pdf", paper="Letter")
    read = PdfReader(io.BytesIO(data))
    words = " ".join(read.pages[-1].extract_text().split())
    assert read.metadata.title == "Chart: Blanket, size Crib" and "Rep Rows 3 and 4 twice more, working two rows in C and two rows in D." in words
    assert round(float(read.pages[0].mediabox.width)) == 612
    for arguments in ({"to": "png"}, {"to": "pdf", "paper": "A0"}):
        with pytest.raises(ValueError, match="A4 or Letter|'svg' or 'pdf'"):
            hookwright.write_chart(made, **arguments)


def test_more_pages_than_anybody_prints_are_refused_in_words(monkeypatch):
    """With the way out."""
    from hookwright.drawing import chart_pages

    monkeypatch.setattr(chart_pages, "MOST_PAGES", 3)
    with pytest.raises(ValueError, match="without --whole"):
        pages(hookwright.chart(example("slack-water-blanket"), "Blanket", "Stroller", whole=True))
