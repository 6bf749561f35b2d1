"""Every screen in light and dark, wide and narrow: no barrier that axe finds, nothing wider than the screen, all reached by keyboard.

Where HOOKWRIGHT_SHOTS names a folder, a picture of every screen is put there at three widths in both schemes, to be looked at.
"""

import os
from importlib.resources import files
from pathlib import Path

import pytest

pytestmark = pytest.mark.browser
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
WIDTHS = (1280, 800, 360)
OFF = "## Cuff\n\nCh 31.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. 30 sc\n\nRow 2: Ch 1, [sc in next 4 sts, 2 sc in next st] across, turn. 37 sc\n"


def folder(page, bench):
    page.goto(bench.address + "/")
    page.locator(".manuscripts .state:not(.unread)").first.wait_for()


def new(page, bench):
    folder(page, bench)
    page.locator("#new").click()


def paste(page, bench):
    folder(page, bench)
    page.locator("#paste").click()
    page.locator("#pasted").fill(OFF)
    page.get_by_role("button", name="Read it").click()
    page.locator("#tidied-text").wait_for()


def writing(page, bench):
    page.goto(bench.address + "/write/off")
    page.locator("#findings .finding").first.wait_for(state="attached")
    page.locator(".cm-content").click()
    page.keyboard.press("F8")
    page.locator(".tip").wait_for()


def findings(page, bench):
    page.goto(bench.address + "/write/off")
    page.locator("#findings .finding").first.wait_for(state="attached")
    if page.locator("#view-findings").is_visible():
        page.locator("#view-findings").click()
    for one in page.locator("#findings summary").all():
        one.click()


def completing(page, bench):
    page.goto(bench.address + "/write/off")
    page.locator("#findings .finding").first.wait_for(state="attached")
    page.locator(".cm-content").click()
    page.locator(".w-stitch").first.wait_for()
    page.keyboard.press("Control+End")
    page.keyboard.type("Row 3: Ch 1, fp")
    page.locator(".cm-tooltip-autocomplete").wait_for()


def printing(page, bench):
    page.goto(bench.address + "/write/shown")
    page.locator("#findings .state").first.wait_for(state="attached")
    page.locator("#out").click()
    page.get_by_role("dialog").wait_for()


def past(page, bench):
    page.goto(bench.address + "/history/changed")
    page.locator(".compare article").first.wait_for()


def keeper(page, bench):
    page.goto(bench.address + "/keep/shown")
    page.locator(".row-label:not(:empty)").wait_for()
    page.locator("button.chief.big").click()
    page.get_by_text("All rows").click()


def measured(page, bench):
    page.goto(bench.address + "/measure/shown")
    page.get_by_label("Gauge").fill("16 sts and 18 rows to 10 cm")
    page.get_by_role("button", name="Make her pattern").click()
    page.get_by_role("heading", name="Her pattern").wait_for()


def missing(page, bench):
    page.goto(bench.address + "/write/nowhere")


SCREENS = {
    "folder": folder, "new": new, "paste": paste, "write": writing, "findings": findings, "completing": completing, "out": printing, "history": past, "keep": keeper,
    "measure": measured, "missing": missing,
}
PANELS = ("sheet", "chart", "picture", "schematic", "sizes", "swatches", "yarn")


@pytest.fixture(scope="module")
def filled(bench):
    bench.put("shown")
    bench.put("off", OFF)
    bench.put("changed")
    return bench


@pytest.mark.parametrize("screen", SCREENS)
def test_no_barriers(filled, open_page, screen):
    """axe finds nothing under WCAG 2.0 to 2.2 A and AA nor its own good practice, wide and light, narrow and dark; nothing is cut off sideways."""
    page = open_page(filled)
    if screen == "history":
        page.goto(filled.address + "/write/changed")
        page.locator("#findings .state").first.wait_for()
        filled.put("changed", filled.text("changed").replace("Ch 1, sc in each st across", "Ch 1, hdc in each st across") + "\nFasten off.\n")
        page.locator(".cm-line", has_text="Fasten off.").wait_for()
    for width, scheme in looks():
        show(page, width, scheme)
        SCREENS[screen](page, filled)
        look_over(page, screen, width, scheme)


def test_no_barriers_beside_the_words(filled, open_page):
    """The same of every panel, one after the other."""
    page = open_page(filled, "/write/shown")
    page.locator("#findings .state").first.wait_for()
    for width, scheme in looks():
        show(page, width, scheme)
        if page.locator("#view-beside").is_visible():
            page.locator("#view-beside").click()
        for panel in PANELS:
            page.locator(f"#tab-{panel}").click()
            page.locator(f'#panel[data-panel="{panel}"]:not([aria-busy])').wait_for(timeout=40_000)
            look_over(page, f"panel-{panel}", width, scheme, "#beside")


def looks():
    return [(width, scheme) for width in WIDTHS for scheme in ("light", "dark")] if os.environ.get("HOOKWRIGHT_SHOTS") else [(1280, "light"), (360, "dark")]


def show(page, width, scheme):
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")


def look_over(page, screen, width, scheme, part=""):
    """axe over the page, or over that part of it; and a picture where pictures are wanted."""
    folder_of_shots = os.environ.get("HOOKWRIGHT_SHOTS")
    if folder_of_shots:
        page.wait_for_timeout(400)
        page.screenshot(path=str(Path(folder_of_shots) / f"{screen}-{width}-{scheme}.png"))
    if not page.evaluate("'axe' in window"):
        page.evaluate(files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8") + ";0")
    found = page.evaluate(f"axe.run({f'{part!r}' if part else 'document'}, {{iframes: false, runOnly: {RULES}}})")
    assert [(screen, width, scheme, one["id"], [node["html"][:200] for node in one["nodes"][:3]]) for one in found["violations"]] == []
    assert len(found["passes"]) > 12
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_the_whole_way_by_keyboard(filled, open_page):
    """From the folder into a manuscript, out of the editor, through its panels and back, with no pointer; what has the focus is seen to have it."""
    page = open_page(filled)
    page.locator(".manuscripts .state:not(.unread)").first.wait_for()
    for _ in range(40):
        page.keyboard.press("Tab")
        assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle !== 'none' || document.activeElement === document.body")
        if page.evaluate("document.activeElement.getAttribute('href')") == "/write/shown":
            break
    page.keyboard.press("Enter")
    page.wait_for_url("**/write/shown")
    page.locator("#findings .state").first.wait_for()
    seen = []
    for _ in range(60):
        page.keyboard.press("Tab")
        seen.append(page.evaluate("document.activeElement.id || document.activeElement.className || document.activeElement.tagName"))
        if seen[-1] == "tab-sheet":
            break
    assert any("cm-content" in one for one in seen) and seen[-1] == "tab-sheet"
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.activeElement.id") == "tab-chart"
    page.locator("#panel svg").wait_for()
    page.locator(".drawing").focus()
    page.keyboard.press("ArrowRight")
    page.locator("#chart-at", has_text=",").wait_for()
    page.keyboard.press("Enter")
    assert "cm-content" in page.evaluate("document.activeElement.className")


def test_the_chart_follows_the_cursor_and_leads_back(filled, open_page):
    """The row of the cursor is marked in the chart; a symbol clicked, or beside it within a finger's breadth, puts the cursor at its words."""
    page = open_page(filled, "/write/shown")
    page.locator("#findings .state").first.wait_for()
    page.locator("#tab-chart").click()
    page.locator("#panel svg").wait_for()
    page.locator(".cm-line", has_text="Row 2:").click()
    page.locator("#panel [data-stitch].here").first.wait_for()
    assert set(page.evaluate("[...document.querySelectorAll('#panel .here')].map(one => one.dataset.row)")) == {"Row 2"}
    assert page.locator("#chart-at").inner_text() == "Marked: Row 2"
    box = page.locator('#panel [data-stitch="sc"][data-row="Row 3"]').first.bounding_box()
    page.mouse.click(box["x"] + box["width"] / 2 + 2, box["y"] + 2)
    page.locator(".cm-activeLine", has_text="Row 3:").wait_for()


def test_the_picture_turns_and_is_still_where_there_is_no_webgl(filled, open_page):
    page = open_page(filled, "/write/shown")
    page.locator("#findings .state").first.wait_for()
    page.locator("#tab-picture").click()
    canvas = page.locator(".stage canvas")
    canvas.wait_for(timeout=40_000)
    page.get_by_text("Turn it with the pointer").wait_for()
    before = canvas.screenshot()
    canvas.focus()
    for _ in range(4):
        page.keyboard.press("ArrowRight")
    assert canvas.screenshot() != before
    page.add_init_script("HTMLCanvasElement.prototype.getContext = () => null")
    page.reload()
    page.locator(".stage img").wait_for(timeout=40_000)
    page.get_by_text("A still picture").wait_for()


def test_nothing_under_24_pixels_to_hit(filled, open_page):
    """Targets are at least 24 by 24 CSS pixels (WCAG 2.2, 2.5.8), but for links within a sentence."""
    page = open_page(filled, "/write/off", viewport={"width": 360, "height": 800})
    page.locator("#findings .finding").first.wait_for(state="attached")
    for view in ("words", "findings", "beside"):
        page.locator(f"#view-{view}").click()
        small = page.evaluate(
            "[...document.querySelectorAll('button, select, summary, a, input')].filter(one => one.checkVisibility() && one.type !== 'radio')"
            ".map(one => [one.outerHTML.slice(0, 80), one.getBoundingClientRect()]).filter(([, box]) => box.width > 1 && (box.width < 24 || box.height < 24)).map(([words]) => words)"
        )
        assert small == []


def test_at_twice_the_size_all_is_still_there(filled, open_page):
    """At 200 % of a screen of 1280 by 800 (640 by 400 CSS pixels) the editor, findings and panels can be reached and nothing scrolls sideways."""
    page = open_page(filled, "/write/off", viewport={"width": 640, "height": 400})
    page.locator("#findings .finding").first.wait_for(state="attached")
    for view, place in (("words", ".cm-content"), ("findings", "#findings .finding"), ("beside", "#panel")):
        page.locator(f"#view-{view}").click()
        page.locator(place).first.wait_for()
        assert page.evaluate("document.documentElement.scrollWidth") <= 640


def test_the_scheme_she_chose_stays(filled, open_page):
    page = open_page(filled)
    ground = "getComputedStyle(document.body).backgroundColor"
    light = page.evaluate(ground)
    page.get_by_role("button", name="Dark").click()
    dark = page.evaluate(ground)
    page.goto(filled.address + "/write/shown")
    assert page.evaluate(ground) == dark != light
