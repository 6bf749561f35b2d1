"""The page: semantic, safe with any text of hers, readable, and whole without a network."""

import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest

import hookwright.writing
from hookwright.notation.tree import Prose
from hookwright.writing import compose, write

VOID = {"meta", "link", "br", "img", "hr", "input"}
STYLE = Path(hookwright.writing.__file__).with_name("page.css").read_text("utf-8")


class Page(HTMLParser):
    """Reads a page into a flat list of (tag, attributes) and checks that every tag is closed."""

    def __init__(self, data: bytes):
        super().__init__()
        self.tags: list[tuple[str, dict]] = []
        self.open: list[str] = []
        self.texts: dict[str, list[str]] = {}
        self.feed(data.decode("utf-8"))
        assert self.open == []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open:
            self.texts.setdefault(self.open[-1], []).append(data)

    def all(self, name: str) -> list[dict]:
        return [attributes for tag, attributes in self.tags if tag == name]


@pytest.fixture
def page(hat, hat_facts) -> Page:
    return Page(write(compose(hat, hat_facts, "UK"), "html"))


def test_headings_step_down_one_at_a_time(page):
    """One h1, and no level is left out on the way down."""
    levels = [int(tag[1]) for tag, _ in page.tags if re.fullmatch(r"h[1-6]", tag)]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after <= before + 1 for before, after in zip(levels, levels[1:], strict=False))


def test_landmarks_language_and_names(page):
    """Header, main and footer are there, the language is British English in UK terms, ids are unique and what points to them is right."""
    assert page.all("html")[0]["lang"] == "en-GB"
    assert len(page.all("main")) == len(page.all("footer")) == 1
    ids = [attributes["id"] for _, attributes in page.tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    for _, attributes in page.tags:
        assert attributes.get("aria-labelledby", ids[0]) in ids
        if attributes.get("href", "").startswith("#"):
            assert attributes["href"][1:] in ids


def test_tables_have_a_caption_and_head_cells_with_a_scope(page):
    """Each column and each row of a table has its head cell."""
    assert page.all("table") and len(page.all("caption")) == len(page.all("table"))
    assert {cell["scope"] for cell in page.all("th")} == {"col", "row"}


def test_nothing_is_fetched_and_nothing_runs(page):
    """No script, no picture, no style or font from outside; the only addresses are links she wrote."""
    assert not {tag for tag, _ in page.tags} & {"script", "img", "link", "iframe", "object", "embed", "form", "base"}
    assert not [name for _, attributes in page.tags for name in attributes if name.startswith("on") or name in ("src", "style")]
    outside = [attributes["href"] for _, attributes in page.tags if attributes.get("href", "#")[0] != "#"]
    assert outside == ["https://example.org/help"]
    style = "".join(page.texts["style"])
    assert "@import" not in style
    assert all(address.startswith("data:font/woff2") for address in re.findall(r"url\(([^)]*)", style))


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "</style><script>alert(1)</script>",
        '"><img src=x onerror=alert(1)>',
        "& &amp; ' \" ` </title>",
        "*/ } body { display: none } \\",
        "\u202edc 3 gnikrow",
        "\u05db\u05d5\u05d1\u05e2 \u05e1\u05e8\u05d5\u05d2",
        "x" * 5000,
        "\x00\x1b[31m\ud800",
    ],
)
def test_her_text_stays_text_wherever_it_stands(hat, hat_facts, text):
    """A title, a name, a note, a heading or a colour can hold anything: it is shown, it does nothing."""
    head = hat.head
    head.title = head.designer = head.summary = head.version = head.copyright = head.level = head.ease_text = text
    head.materials, head.cautions = (text,), (text,)
    head.yarn = (replace(head.yarn[0], name=text, fibre=text, colours={text: text}),)
    head.finished = {text: head.finished["height"]}
    for piece in hat.pieces[1:]:
        piece.name = text
        piece.items.append(
            Prose(f"{text}\n\n**{text}** and <b onclick=alert(1)>bold</b>, [here](javascript:alert(1)), <https://x.y/{text}>")
        )
    page = Page(write(compose(hat, hat_facts, "UK"), "html"))
    assert not {tag for tag, _ in page.tags} & {"script", "img"}
    assert not [name for _, attributes in page.tags for name in attributes if name.startswith("on")]
    assert not [attributes for attributes in page.all("a") if attributes.get("href", "").lower().startswith("javascript")]
    assert "display: none" not in "".join(page.texts["style"]).replace(STYLE, "")


def test_words_from_right_to_left_are_marked(hat, hat_facts):
    """A title in Hebrew is shown from right to left; a mark that only turns the direction is dropped."""
    hat.head.title = "\u05db\u05d5\u05d1\u05e2"
    page = Page(write(compose(hat, hat_facts, "US"), "html"))
    assert page.all("h1")[0]["dir"] == "auto"
    hat.head.title = "Cap \u202eesrever"
    assert "\u202e" not in write(compose(hat, hat_facts, "US"), "html").decode()


def luminance(colour: str) -> float:
    """Relative luminance of #rrggbb (WCAG 2.2, definition of relative luminance)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4 for value in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio (WCAG 2.2, definition of contrast ratio); black on white is 21."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_black_on_white_is_twenty_one_to_one():
    """The published bounds of the contrast ratio: 21 to 1 and 1 to 1 (WCAG 2.2)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#0d5157", "#0d5157") == pytest.approx(1)


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
def test_every_colour_of_text_stands_out(scheme):
    """Text has at least 4.5 to 1 on its ground in light and in dark (WCAG 2.2, success criterion 1.4.3)."""
    colours = dict(re.findall(r"--([a-z-]+):(#[0-9a-f]{6})", re.findall(r":root\{(.*?)\}", STYLE, re.S)[scheme]))
    for text, ground in [
        ("ink", "paper"),
        ("soft", "paper"),
        ("accent", "paper"),
        ("warn", "warn-tint"),
        ("ink", "warn-tint"),
        ("soft", "warn-tint"),
    ]:
        assert contrast(colours[text], colours[ground]) >= 4.5, (text, ground)


def test_paper_sets_the_size_of_the_printed_page(hat, hat_facts):
    """A4 and Letter are said to the browser; the running title cannot end the style sheet."""
    hat.head.title = 'A"} body{display:none} </style>'
    document = compose(hat, hat_facts, "US")
    assert "@page{size:A4;" in write(document, "html").decode()
    letter = write(document, "html", paper="Letter").decode()
    assert "@page{size:letter;" in letter
    assert "body{display:none}" not in "".join(Page(letter.encode()).texts["style"]).replace(STYLE, "")
