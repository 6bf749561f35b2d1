"""What she does, in a real browser: from the first start to the printed sheet, and nothing lost on the way."""

import io
import json
import re
import zipfile

import pytest

pytestmark = pytest.mark.browser
FOREIGN = """Quayside Coaster
By an old booklet. US terms.

Materials: worsted weight cotton, 4 mm hook.
Gauge: 16 sts and 18 rows = 10 cm in sc.

Ch 13.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)
Row 2: Ch 1, sc in each st across, turn. (12 sc)
Rows 3-14: Rep Row 2. (12 sc)
Fasten off. Weave in ends.
"""


def words(page):
    return page.evaluate("[...document.querySelectorAll('.cm-line')].map(line => line.textContent).join('\\n')")


def counts(page, line):
    """What the ledger shows beside the line with these words."""
    row = page.locator(".cm-line", has_text=line).first
    top = row.bounding_box()["y"]
    shown = page.locator(".cm-counts .counts")
    return next(one.locator(".count").all_inner_texts() for one in shown.all() if abs(one.bounding_box()["y"] - top) < 8)


def type_at_end(page, text):
    page.locator(".cm-content").click()
    page.keyboard.press("Control+End")
    page.keyboard.insert_text(text)


def test_from_the_first_start_to_a_printed_sheet(own_bench, open_page, tmp_path):
    """An empty folder, a beginning chosen, its row changed, and a PDF saved with a list of what is in it."""
    page = open_page(own_bench)
    page.locator(".beginning").first.click()
    page.get_by_label("Its name").fill("Harbour Hat")
    page.keyboard.press("Enter")
    page.wait_for_url("**/write/Harbour%20Hat")
    page.locator("#findings .state.proved").wait_for()
    assert page.locator("#kept").inner_text() == "Saved"
    page.frame_locator("iframe.paper:visible").get_by_role("heading", level=1).wait_for()

    page.get_by_role("button", name="Print and share").click()
    dialog = page.get_by_role("dialog")
    dialog.wait_for()
    for box in dialog.get_by_role("checkbox").all():
        box.set_checked(box.get_attribute("value") in ("pdf-a4-us", "html-uk"))
    dialog.get_by_role("button", name="Make them").click()
    with page.expect_download() as fetched:
        dialog.get_by_role("link", name="Save Harbour Hat.zip").click(timeout=30_000)
    fetched.value.save_as(tmp_path / "out.zip")
    with zipfile.ZipFile(tmp_path / "out.zip") as archive:
        names = archive.namelist()
        sheet = archive.read(next(name for name in names if name.endswith(".pdf")))
        listed = json.loads(archive.read("manifest.json"))
    assert sheet.startswith(b"%PDF-") and len(listed["files"]) == 2
    assert {one["name"] for one in listed["files"]} | {"manifest.json"} == set(names)
    from pypdf import PdfReader

    assert "Row" in "".join(leaf.extract_text() for leaf in PdfReader(io.BytesIO(sheet)).pages) or "Rnd" in "".join(leaf.extract_text() for leaf in PdfReader(io.BytesIO(sheet)).pages)


def test_what_is_being_made_can_be_stopped(bench, open_page):
    bench.put("stopped")
    page = open_page(bench, "/write/stopped")
    page.locator("#findings .state").first.wait_for()
    page.get_by_role("button", name="Print and share").click()
    dialog = page.get_by_role("dialog")
    dialog.wait_for()
    for box in dialog.get_by_role("checkbox").all():
        box.check()
    dialog.get_by_role("button", name="Make them").click()
    dialog.get_by_role("progressbar").wait_for()
    dialog.get_by_role("button", name="Stop").click()
    dialog.get_by_text("Stopped. Nothing was kept.").wait_for()
    assert dialog.get_by_role("button", name="Make them").is_enabled()


def test_a_pattern_pasted_becomes_a_proved_manuscript(bench, open_page):
    page = open_page(bench)
    page.get_by_role("button", name="Paste a pattern").click()
    page.get_by_label("The pattern as you have it").fill(FOREIGN)
    page.get_by_role("button", name="Read it").click()
    page.get_by_label("Its name").fill("Quayside Coaster")
    assert "Row 1" in page.get_by_label("The manuscript").input_value()
    page.get_by_role("button", name="Keep it in the folder").click()
    page.wait_for_url("**/write/Quayside%20Coaster")
    page.locator("#findings .sum-up .state").wait_for()
    assert "must be mended" not in page.locator("#findings .sum-up .state").inner_text().replace("Nothing must be mended", "")
    assert counts(page, "Rows 3-14") == ["12"]


def test_a_wrong_repeat_is_found_read_and_mended_by_its_suggestion(bench, open_page):
    """Found while she types, read by key, put right by its certain suggestion, taken back, and put right again; saved by itself."""
    bench.put("mended", "## Cuff\n\nCh 31.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. 30 sc\n\nRow 2: Ch 1, [sc in next 4 sts, 2 sc in next st] across, turn. 36 sc\n")
    page = open_page(bench, "/write/mended")
    page.locator("#findings .state.proved").wait_for()
    type_at_end(page, "\nRow 3: Ch 1, [sc in next 4 sts, sc2tog] 6 times, turn. 31 sc\n")
    page.locator("#findings .finding.mend").first.wait_for()
    assert "≠ 30" in counts(page, "Row 3")
    assert page.locator("#view-findings #how-many").text_content() == "(1)"

    page.locator(".cm-content").click()
    page.keyboard.press("F8")
    tip = page.locator(".tip")
    tip.wait_for()
    assert "31" in tip.inner_text() and "30" in tip.inner_text()
    assert "31" in page.locator("#said").text_content() or page.locator("#said").evaluate("said => new Promise(done => setTimeout(() => done(said.textContent), 150))")
    page.keyboard.press("Control+.")
    page.locator("#findings .state.proved").wait_for()
    assert "30 sc" in words(page).split("Row 3")[1]
    page.keyboard.press("Control+z")
    page.locator("#findings .finding.mend").first.wait_for()
    page.locator("#findings button.way").first.click()
    page.locator("#findings .state.proved").wait_for()
    page.locator('#kept[data-state="kept"]').wait_for()
    assert "Row 3: Ch 1, [sc in next 4 sts, sc2tog] 6 times, turn. 30 sc" in bench.text("mended")


def test_what_was_tried_and_mends_is_offered_and_put_in_at_a_key(bench, open_page):
    """A wrong number in a repeat, for which nothing can be put in by the finding alone: what was tried and comes out is added to it."""
    bench.put("tried", "## Cuff\n\nCh 31.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. 30 sc\n\nRow 2: Ch 1, [sc in next 3 sts, 2 sc in next st] 6 times, turn. 36 sc\n")
    page = open_page(bench, "/write/tried")
    page.locator("#findings button.way", has_text="in next 4 sts").wait_for()
    page.locator(".cm-line", has_text="Row 2").click()
    page.keyboard.press("Control+.")
    page.locator("#findings .state.proved").wait_for()
    assert "Row 2: Ch 1, [sc in next 4 sts, 2 sc in next st] 6 times, turn. 36 sc" in words(page)


def test_another_size_and_another_ease(bench, open_page):
    """A size chosen at its column is shown in every panel; an ease tried on its slider changes the numbers and not the manuscript."""
    text = (
        "---\ntitle: Sized Hat\nterms: US\nsizes: [S, M, L]\nhook: 5 mm\ngauge: {stitches: 14, rows: 10, over: 10 cm, in: hdc}\n"
        "body: {from: heads, sizes: [3-5 years, adults, adults], head: \"51 (55, 60) cm\"}\n"
        "numbers:\n  height: {want: head * 0.4, count: stitches}\n  rows: {want: head - 4 cm, count: rows, even: yes}\n"
        "finished: {circumference: rows * row, height: height * stitch}\n---\n## Hat\n\nCh {height + 1}.\n\n"
        "Row 1: Hdc in 2nd ch from hook and in each ch across, turn. {height} hdc\n\nRows 2-{rows}: Ch 1, hdc in BLO of each st across, turn.\n"
    )
    bench.put("sized", text)
    page = open_page(bench, "/write/sized")
    page.locator(".ledger button.size", has_text="L").click()
    assert page.locator("#size").input_value() == "L"
    page.get_by_role("tab", name="Sizes").click()
    rows = page.locator("#panel tr", has_text="rows").first
    rows.wait_for()
    before = rows.locator("td").all_inner_texts()
    slider = page.get_by_role("slider")
    slider.focus()
    for _ in range(8):
        page.keyboard.press("ArrowRight")
    page.get_by_text("Tried here only").wait_for()
    from playwright.sync_api import expect

    expect(rows.locator("td").last).not_to_have_text(before[-1])
    assert bench.text("sized") == text
    page.get_by_role("button", name="Write it into the manuscript").click()
    page.locator('#kept[data-state="kept"]').wait_for()
    assert re.search(r"head - 0 cm|head [+-] ?0|head \+ 0 cm", bench.text("sized")) or "head - 4 cm" not in bench.text("sized")


def test_killed_while_she_types_nothing_is_lost(own_bench, open_page):
    """kill -9 between two words: what was typed stands in the window, and is on the disk once the workbench runs again, even in a new window."""
    own_bench.put("killed")
    page = open_page(own_bench, "/write/killed")
    page.locator("#findings .state").first.wait_for()
    type_at_end(page, "\nRow 4: Ch 1, sc in each st across.\n")
    page.locator('#kept[data-state="kept"]').wait_for()
    assert "Row 4" in own_bench.text("killed")
    own_bench.kill()
    page.keyboard.insert_text("\nThe last words before the end.\n")
    page.locator('#kept[data-state="waiting"]').wait_for()
    assert "last words" not in own_bench.text("killed")
    page.slips.clear()  # the browser tells of the lost line, as it should
    own_bench.port = 0  # it finds its place again by itself
    own_bench.start()
    page.get_by_text("Hookwright was started anew").wait_for()
    page.slips.clear()
    other = page.context.new_page()
    page.close()
    other.goto(f"{own_bench.enter}&to=/write/killed")
    other.locator(".cm-line", has_text="The last words before the end.").wait_for()
    other.locator('#kept[data-state="kept"]').wait_for()
    assert "last words" in own_bench.text("killed")
    other.close()


def test_a_saving_whose_answer_was_lost_is_no_clash(bench, open_page):
    """The text came to the disk and the line broke before the answer: what she types on at the same place is saved, and nothing is asked."""
    bench.put("lost")
    page = open_page(bench, "/write/lost")
    page.locator("#findings .state").first.wait_for()
    lost = []

    def lose(route):
        if route.request.method == "PUT" and not lost:
            lost.append(route.fetch().status)
            route.abort()
        else:
            route.continue_()

    page.route("**/api/m/lost", lose)
    type_at_end(page, "\nFirst words")
    page.locator('#kept[data-state="waiting"]').wait_for()
    assert lost == [200] and bench.text("lost").endswith("First words")
    page.keyboard.insert_text(" and the next.")
    page.locator('#kept[data-state="kept"]').wait_for()
    assert bench.text("lost").endswith("First words and the next.")
    assert page.get_by_role("dialog").count() == 0
    page.slips.clear()


def test_a_file_changed_outside_is_taken_over_merged_or_asked_about(bench, open_page):
    bench.put("outside")
    page = open_page(bench, "/write/outside")
    page.locator("#findings .state").first.wait_for()
    bench.put("outside", bench.text("outside").replace("Wrist Warmers", "Wrist Warmers from elsewhere"))
    page.locator(".cm-line", has_text="Wrist Warmers from elsewhere").wait_for()

    # both at once, in other places: put together
    type_at_end(page, "\nHers at the end.\n")
    bench.put("outside", bench.text("outside").replace("hook: 4 mm", "hook: 4.5 mm"))
    page.locator(".cm-line", has_text="hook: 4.5 mm").wait_for()
    page.locator('#kept[data-state="kept"]').wait_for()
    assert "Hers at the end." in bench.text("outside") and "hook: 4.5 mm" in bench.text("outside")

    # both at the same place: she is shown both and chooses
    page.evaluate("window.fetch = ((real) => async (address, given) => { if (given?.method === 'PUT') await new Promise(done => setTimeout(done, 700)); return real(address, given); })(window.fetch)")
    line = page.locator(".cm-line", has_text="Hers at the end.")
    line.click()
    page.keyboard.press("End")
    page.keyboard.insert_text(" In this window.")
    bench.put("outside", bench.text("outside").replace("Hers at the end.", "Hers at the end. In another program."))
    dialog = page.get_by_role("dialog")
    dialog.wait_for()
    assert "In this window." in dialog.inner_text() and "In another program." in dialog.inner_text()
    dialog.get_by_role("button", name="Keep what is here").click()
    page.locator('#kept[data-state="kept"]').wait_for()
    assert "In this window." in bench.text("outside") and "In another program." not in bench.text("outside")
    page.goto(f"{bench.address}/history/outside")
    page.locator("button.saved").nth(1).wait_for()


def test_the_history_brings_a_state_back(bench, open_page):
    bench.put("past")
    page = open_page(bench, "/write/past")
    page.locator("#findings .state").first.wait_for()
    bench.put("past", bench.text("past").replace("[sc in next 4 sts, 2 sc in next st] across", "sc in each st across").replace("36 (42, 48)", "30 (35, 40)"))
    page.locator(".cm-line", has_text="Row 2: Ch 1, sc in each").wait_for()
    page.get_by_role("link", name="History").click()
    article = page.locator(".compare article.restitched", has_text="Row 2")
    article.wait_for()
    assert "36, 42, 48" in article.inner_text() and "30, 35, 40" in article.inner_text()
    page.get_by_label("Every single saving").check()
    page.get_by_role("button", name="Look at the words").click()
    page.locator("pre.manuscript", has_text="2 sc in next st").wait_for()
    page.get_by_role("button", name="Bring this back").click()
    page.get_by_text("It is brought back").first.wait_for()
    assert "2 sc in next st" in bench.text("past")


def test_the_row_keeper_remembers(bench, open_page):
    """Rows ticked by key and by tap, a repeat counted, and after leaving she is where she was."""
    bench.put("kept")
    page = open_page(bench, "/keep/kept")
    page.locator(".row-label", has_text="Foundation").wait_for()
    page.get_by_label("Size").select_option("M")
    page.get_by_text("Ch 36.").wait_for()
    page.locator(".work").focus()
    page.keyboard.press(" ")
    page.get_by_role("button", name="Done", exact=True).click()
    page.locator(".row-label", has_text="Row 2").wait_for()
    assert "42" in page.locator(".row-count").inner_text()
    with page.expect_response(lambda answer: answer.request.method == "PUT" and '"at":3' in answer.request.post_data):
        page.get_by_role("button", name="On", exact=True).click()
    page.reload()
    page.locator(".row-label", has_text="Row 3").wait_for()
    assert page.get_by_label("Size").input_value() == "M"
    page.get_by_text("All rows").click()
    assert page.locator(".all-rows li", has_text="✓").count() == 2


def test_made_to_measure_in_the_browser(bench, open_page):
    bench.put("measured", "---\ntitle: Band\nterms: US\nsizes: [S, M]\nhook: 5 mm\ngauge: {stitches: 14, rows: 10, over: 10 cm, in: sc}\nbody: {from: heads, sizes: [3-5 years, adults]}\nnumbers:\n  around: {want: head - 2 cm, count: stitches}\n---\n## Band\n\nCh {around + 1}.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. {around} sc\n")
    page = open_page(bench, "/measure/measured")
    page.get_by_label("Head").fill("57")
    page.get_by_role("button", name="Make her pattern").click()
    page.get_by_role("heading", name="Her pattern").wait_for()
    assert page.frame_locator("iframe.paper").get_by_text("Ch 78.").count() or page.frame_locator("iframe.paper").get_by_text("sc in each").first.inner_text()
    page.get_by_role("button", name="Keep it in the folder").click()
    page.wait_for_url("**/write/measured%20made%20to%20measure")
    page.locator("#findings .sum-up .state.proved, #findings .sum-up .state.look").wait_for()


def test_without_script_the_words_can_be_saved_and_checked(bench, open_page):
    bench.put("plain")
    page = open_page(bench, "/write/plain", java_script_enabled=False)
    box = page.get_by_role("textbox", name="Manuscript")
    box.fill(box.input_value().replace("36 (42, 48) sc\n\nRow 3", "36 (42, 47) sc\n\nRow 3"))
    page.get_by_role("button", name="Save and check").click()
    assert "47" in page.locator("#findings").inner_text() and "must" in page.locator("#findings").inner_text()
    assert "36 (42, 47) sc" in bench.text("plain")


def test_a_swatch_is_counted_into_the_head(bench, open_page):
    """Counts entered give the gauge at once; put into the head they stand with the swatches that are there, and the manuscript still proves."""
    bench.put("swatch")
    page = open_page(bench, "/write/swatch")
    page.locator("#findings .state.proved").wait_for()
    page.get_by_role("tab", name="Swatches").click()
    for label, value in (("In pattern", "sc"), ("Stitches", "27"), ("Width", "15"), ("Rows", "30"), ("Height", "15")):
        page.get_by_label(label, exact=True).fill(value)
    page.get_by_text("18.0 stitches to 10 cm").wait_for()
    page.get_by_role("button", name="Put it into the head").click()
    page.locator(".cm-line", has_text="swatches:").wait_for()
    page.locator('#kept[data-state="kept"]').wait_for()
    page.get_by_role("cell", name="27 stitches over 15 cm").wait_for()
    assert "swatches: [{of: sc, stitches: 27, width: 15 cm, rows: 30, height: 15 cm}]" in bench.text("swatch")
    page.locator("#findings .state.proved").wait_for()


def test_copied_renamed_put_away_and_taken_out(bench, open_page):
    bench.put("moved")
    page = open_page(bench)
    mine = page.locator('li[data-name="moved"]')
    mine.get_by_text("More", exact=True).click()
    mine.get_by_role("button", name="Rename").click()
    page.get_by_label("New name").fill("moved elsewhere")
    page.keyboard.press("Enter")
    mine = page.locator('li[data-name="moved elsewhere"]')
    mine.get_by_text("More", exact=True).click()
    mine.get_by_role("button", name="Copy").click()
    page.get_by_label("New name").fill("moved twice")
    page.keyboard.press("Enter")
    page.locator('li[data-name="moved twice"]').wait_for()
    mine.get_by_text("More", exact=True).click()
    mine.get_by_role("button", name="Put away").click()
    page.locator("#put-away summary").click()
    page.locator("#archived").get_by_role("button", name="Take").first.click()
    page.locator('#list li[data-name="moved elsewhere"]').wait_for()
    assert bench.text("moved elsewhere") == bench.text("moved twice")
    assert not (bench.folder / "moved.md").exists()


def test_two_windows_on_the_same_manuscript_lose_nothing(bench, open_page):
    bench.put("twice")
    one, two = (open_page(bench, "/write/twice") for _ in range(2))
    for page in (one, two):
        page.locator("#findings .state").first.wait_for()
    type_at_end(one, "\nWritten in the first window.\n")
    two.locator(".cm-line", has_text="Cuff").click()
    two.keyboard.press("End")
    two.keyboard.insert_text(" in the second window")
    for page in (one, two):
        page.locator(".cm-line", has_text="Written in the first window.").wait_for()
        page.locator(".cm-line", has_text="in the second window").wait_for()
        page.locator('#kept[data-state="kept"]').wait_for()
    assert words(one) == words(two) == bench.text("twice")


def test_what_was_merged_can_be_undone_by_her_alone(bench, open_page):
    """Her undo takes back her own words, and not what came from elsewhere meanwhile."""
    bench.put("undone")
    page = open_page(bench, "/write/undone")
    page.locator("#findings .state").first.wait_for()
    type_at_end(page, "\nA thought.\n")
    page.locator('#kept[data-state="kept"]').wait_for()
    bench.put("undone", bench.text("undone").replace("hook: 4 mm", "hook: 5 mm"))
    page.locator(".cm-line", has_text="hook: 5 mm").wait_for()
    page.locator(".cm-content").click()
    page.keyboard.press("Control+z")
    page.locator(".cm-line", has_text="A thought.").wait_for(state="detached")
    assert "hook: 5 mm" in words(page)
