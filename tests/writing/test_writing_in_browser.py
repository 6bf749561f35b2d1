"""The page in a real browser: no barrier that axe finds, nothing asked of the network, nothing wider than a narrow screen."""

import shutil
from importlib.resources import files
from pathlib import Path

import pytest

import hookwright
from hookwright.writing import compose, write

pytestmark = pytest.mark.browser
QUIET = [
    "--no-sandbox",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="module")
def browser():
    from playwright.sync_api import sync_playwright

    path = shutil.which("chromium") or shutil.which("chromium-browser")
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=QUIET)
        yield browser
        browser.close()


@pytest.fixture
def file(hat, hat_facts, tmp_path):
    path = tmp_path / "hat.html"
    path.write_bytes(write(compose(hat, hat_facts, "US"), "html"))
    return path


@pytest.fixture
def sized(tmp_path):
    """A sheet with the picture of its sizes and tables of all widths."""
    path = tmp_path / "sized.html"
    path.write_bytes(hookwright.write((Path(__file__).parents[1] / "sized" / "shingle-bank-beanie.md").read_text("utf-8"), "html"))
    return path


@pytest.fixture
def pictured(tmp_path):
    """A sheet with its pieces in their yarn."""
    path = tmp_path / "pictured.html"
    path.write_bytes(hookwright.write((Path(__file__).parents[1] / "sized" / "shingle-bank-beanie.md").read_text("utf-8"), "html", pictures="all"))
    return path


@pytest.mark.parametrize("which", ["file", "sized", "pictured"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 820, 1280])
def test_no_barriers_and_no_sideways_scrolling(browser, request, width, scheme, which):
    """axe finds nothing under WCAG 2.0 to 2.2 A and AA nor its own good practice; text needs no sideways scrolling (WCAG 2.2, 1.4.10)."""
    file = request.getfixturevalue(which)
    page = browser.new_page(viewport={"width": width, "height": 800}, color_scheme=scheme, bypass_csp=True)
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(file.as_uri())
    page.evaluate(files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8") + ";0")
    found = page.evaluate("axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']})")
    assert [(one["id"], one["nodes"][0]["html"]) for one in found["violations"]] == []
    assert len(found["passes"]) > 15
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert [url for url in asked if not url.startswith(("file:", "data:"))] == []
    page.close()


def test_pictures_of_pieces_are_shown_and_named(browser, pictured):
    """Under the page's own policy the image loads; its title and words are its name and description."""
    page = browser.new_page(viewport={"width": 820, "height": 900})
    refused = []
    page.on("console", lambda message: refused.append(message.text))
    page.goto(pictured.as_uri())
    box = page.locator("figure image").first.bounding_box()
    assert box["width"] > 200 and box["height"] > 200 and refused == []
    assert page.get_by_role("img", name="Picture: ").first.is_visible()
    page.close()


def test_the_sizes_table_is_whole_on_a_narrow_screen(browser, hat, hat_facts, tmp_path):
    """At 360 px each size is a block with its measurements named; no cell is cut off, and a voice still finds a table."""
    hat.head.finished["cuff"] = hat.head.finished["height"]
    path = tmp_path / "hat.html"
    path.write_bytes(write(compose(hat, hat_facts, "US"), "html"))
    page = browser.new_page(viewport={"width": 360, "height": 800})
    page.goto(path.as_uri())
    table = page.locator("#sizes table")
    assert table.evaluate("table => table.parentElement.scrollWidth <= table.parentElement.clientWidth")
    assert table.get_attribute("role") == "table"
    cell = page.get_by_role("cell").first
    assert cell.evaluate("cell => getComputedStyle(cell, '::before').content") == '"To fit"'
    assert all(box["x"] + box["width"] <= 360 for box in (one.bounding_box() for one in page.get_by_role("cell").all()))
    page.close()


def test_the_pictures_can_be_read_on_a_narrow_screen(browser, sized):
    """At 360 px the smallest type of each is 11 px or more, no two texts of it lie on each other, all of them lie inside it, and one too wide
    for the page slides in a frame of its own that the keyboard reaches."""
    page = browser.new_page(viewport={"width": 360, "height": 800})
    page.goto(sized.as_uri())
    corners = "(({left, right, top, bottom}) => [left, right, top, bottom])"
    pictures = page.evaluate(f"""[...document.querySelectorAll('figure svg')].map(svg => [{corners}(svg.getBoundingClientRect()),
        getComputedStyle(svg.parentElement).overflowX === 'auto' && svg.parentElement.tabIndex === 0, [...svg.querySelectorAll('text')].map(one => [one.textContent, one.getAttribute('font-size') * one.getScreenCTM().a, {corners}(one.getBoundingClientRect())])])""")
    assert len(pictures) > 1 and sum(len(texts) for *_, texts in pictures) > 30
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    for box, slides, texts in pictures:
        assert box[0] >= 0 and (box[1] <= 360 or slides)
        for at, (words, size, a) in enumerate(texts):
            assert size >= 11, words
            assert box[0] - 1.5 <= a[0] and a[1] <= box[1] + 1 and box[2] <= a[2] and a[3] <= box[3] + 1, words
            assert not [other for other, _, b in texts[at + 1 :] if a[0] < b[1] and b[0] < a[1] and a[2] + 3 < b[3] - 3 and b[2] + 3 < a[3] - 3], words
    page.close()


def test_our_fonts_are_really_used(browser, file):
    """The letters inside the page load: the regular and the semi-bold style are there."""
    page = browser.new_page()
    page.goto(file.as_uri())
    loaded = page.evaluate(
        "document.fonts.ready.then(() => [...document.fonts].filter(face => face.status === 'loaded').map(face => face.weight))"
    )
    assert {"400", "600"} <= set(loaded)
    page.close()


@pytest.mark.parametrize("text", ["<img src=x onerror=\"document.title='run'\">", "</style><script>document.title='run'</script>"])
def test_nothing_of_hers_runs(browser, hat, hat_facts, tmp_path, text):
    """A script in a title or a name is shown and does nothing."""
    hat.head.title = hat.head.designer = hat.head.summary = text
    path = tmp_path / "hat.html"
    path.write_bytes(write(compose(hat, hat_facts, "US"), "html"))
    page = browser.new_page()
    page.goto(path.as_uri())
    assert page.title() != "run"
    assert page.locator("h1").inner_text() == text
    page.close()
