"""What stands beside the manuscript, the live line, and what goes out."""

import io
import json
import time
import zipfile
from pathlib import Path

import pytest

from hookwright.desk.workbench.output import known
from hookwright.desk.workbench.utf16 import Utf16
from hookwright.desk.workbench.workers import Pool

SIZED = """---
title: Kelp Band
terms: US
sizes: [S, L]
hook: 4 mm
body: {head: 52 (58) cm}
yarn: {name: wool, weight: 4, metres: 100, grams: 50}
swatches: [{of: single crochet, stitches: 32, width: 20 cm, rows: 36, height: 20 cm, weight: 20 g}]
finished: {circumference: around * row}
numbers:
  wide: 12
  around: {want: head - 3 cm, count: rows, even: yes}
---

## Band

Ch {wide + 1}.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. ({wide} sc)

Rows 2-{around}: Ch 1, sc in each st across, turn. ({wide} sc)
"""


@pytest.fixture(scope="module")
def sized(shared_desk):
    """The desk with a manuscript whose numbers are found."""
    (shared_desk.folder / "band.md").write_text(SIZED, "utf-8")
    return shared_desk


# ---------------------------------------------------------------- beside it


def test_the_sheet_in_both_terms_and_one_size(sized):
    us, uk = (sized.get("/api/m/band/sheet", params={"terms": terms}).text for terms in ("us", "uk"))
    assert "12 sc" in us and "12 dc" in uk
    one = sized.get("/api/m/band/sheet", params={"size": "L"}).text
    assert "Rows 2–100" in one.replace("-", "–") and "(100" not in one
    assert sized.post("/api/m/band/sheet", {"text": SIZED.replace("Kelp Band", "Other Band")}).text.count("Other Band") >= 1
    assert sized.get("/api/m/band/sheet", params={"size": "none"}).status_code == 400


def test_the_chart_points_into_her_text(sized):
    drawing = sized.get("/api/m/band/chart", params={"piece": "Band", "size": "S"})
    assert drawing.headers["content-type"].startswith("image/svg") and "data-from=" in drawing.text
    missing = sized.get("/api/m/band/chart", params={"piece": "Sleeve"})
    assert missing.status_code == 404 and "Sleeve" in missing.json()["error"]


def test_yarn_sizes_and_swatches(sized):
    yarn = sized.get("/api/m/band/yarn").json()
    assert yarn["sizes"] == ["S", "L"] and yarn["rows"][0]["metres"]["estimate"] > 0 and yarn["words"]
    assert sized.get("/api/m/band/yarn", params={"yarn": "blue"}).status_code == 400
    sizes = sized.get("/api/m/band/sizes").json()
    assert sizes["table"]["rows"] and sizes["numbers"]["around"]["values"] == [88, 100]
    assert sizes["eases"] == [{"number": "around", "of": "head", "ease_mm": -30.0, "unit": "cm", "least": -180, "most": 120}]
    swatches = sized.get("/api/m/band/swatches").json()["swatches"]
    assert swatches[0]["stitches_per_10cm"] == 16 and "give or take" in swatches[0]["words"]


def test_an_ease_is_tried_and_nothing_is_written(sized):
    before = sized.get("/api/m/band").json()
    tried = sized.post("/api/m/band/sizes/try", {"ease": {"around": 0}}).json()
    assert tried["numbers"]["around"]["values"] == [94, 104] and sized.get("/api/m/band").json() == before
    (edit,) = tried["edits"]
    written = SIZED[: edit["from"]] + edit["insert"] + SIZED[edit["to"] :]
    assert sized.post("/api/m/band/sizes", {"text": written}).json()["numbers"] == tried["numbers"]
    assert sized.post("/api/m/band/sizes/try", {"ease": {"around": -20.0}}).json()["edits"][0]["insert"] == "- 2 cm"
    for ease in ({"other": 5}, {"around": "x"}, {"around": 1e9}, {"around": True}):
        assert sized.post("/api/m/band/sizes/try", {"ease": ease}).status_code == 400


def test_a_swatch_is_reckoned_and_its_line_can_be_written(sized):
    made = sized.post("/api/m/band/swatches/reckon", {"of": "ribs: deep", "stitches": 30, "width": 20, "rows": "24", "height": "8 in", "unit": "cm"}).json()
    assert made["stitches_per_10cm"] == 15 and made["rows_per_10cm"] == pytest.approx(11.81, abs=0.01)
    text = SIZED.replace("swatches: [{of: single crochet, stitches: 32, width: 20 cm, rows: 36, height: 20 cm, weight: 20 g}]", made["yaml"])
    assert sized.post("/api/m/band/swatches", {"text": text}).json()["swatches"][0]["of"] == "ribs: deep"
    assert sized.post("/api/m/band/swatches/reckon", {"stitches": 30}).json()["what"] == "swatch-lacks"


def test_made_to_measure(sized):
    assert sized.get("/api/m/band/measure").json()["measures"] == ["head"]
    made = sized.post("/api/m/band/measure", {"measures": {"head": "55 cm"}, "gauge": "17 sts and 20 rows to 10 cm", "terms": "uk"}).json()
    assert made["numbers"]["around"] == 104 and "12 dc" in made["sheet"] and made["report"]["must_mend"] == 0
    for asked in ({}, {"measures": {"head": "tall"}}, {"gauge": "fine"}, {"size": "Z"}, {"measures": []}):
        answer = sized.post("/api/m/band/measure", asked)
        assert answer.status_code == 400 and answer.json()["error"], asked


def test_the_row_keeper_goes_row_by_row_and_remembers(sized):
    rows = sized.get("/api/m/band/keeper", params={"size": "L"}).json()
    assert len(rows["rows"]) == 101 and rows["rows"][100]["label"] == "Row 100" and rows["at"] == 0
    assert rows["rows"][2]["words"].startswith("Ch 1, sc in each st across") and rows["rows"][2]["count"] == 12
    assert SIZED[rows["rows"][1]["from"] :].startswith("Row 1")
    assert sized.put("/api/m/band/keeper", {"size": "L", "at": 40, "ticked": [1, 2], "seconds": {"1": 61.5}}).status_code == 204
    assert sized.get("/api/m/band/keeper", params={"size": "L"}).json()["at"] == 40
    assert sized.get("/api/m/band/keeper", params={"size": "S"}).json()["at"] == 0
    for wrong in ({"at": -1}, {"at": "x"}, {"ticked": 5}, {"seconds": "x"}):
        assert sized.put("/api/m/band/keeper", wrong).status_code == 400


def test_repeats_are_counted_as_they_come_out():
    text = (
        "Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (30 sc)\nRow 2: Ch 1, [sc in next 4 sts, 2 sc in next st] across, turn. (36 sc)\n"
        "Row 3: Ch 1, *sc in next 2 sts, skip next st; rep from * 3 times more, sc in each st across, turn. (32 sc)\nRow 4: Ch 1, [2 hdc in next st] 32 times. (64 hdc)\n"
        "Row 5: Ch 1, turn, *sc in next st, ch 1, skip next st; rep from * across. (32 sc, 32 ch-1 sps)\n"
    )
    from hookwright.desk.workbench.keeper_rows import keeper_rows

    rows = keeper_rows(text, None)["rows"]
    assert [[repeat["times"] for repeat in row["repeats"]] for row in rows] == [[], [], [6], [4], [32], [32]]


def test_pieces_and_the_schematic(sized):
    told = sized.get("/api/m/band/pieces").json()
    assert told["pieces"] == ["Band"] and told["sizes"] == ["S", "L"]
    assert "<svg" in sized.get("/api/m/band/schematic").text


@pytest.mark.parametrize(("example", "sewn"), [("saltmarsh-smock", True), ("groyne-hat", False)])
def test_a_garment_is_shown_sewn_together(example, sewn):
    """A smock of flat pieces is one picture; a hat is its piece, and so is what has no rows."""
    from hookwright.desk.workbench.shapes import together

    text = (Path(__file__).resolve().parents[2] / "examples" / f"{example}.md").read_text("utf-8")
    assert together(text, None) == {"together": sewn}
    assert together("Nothing yet.", None) == {"together": False}


# ---------------------------------------------------------------- the live line


def test_the_live_line_tells_counts_and_findings(sized):
    hat = sized.hat
    with sized.live("cap") as line:
        line.send_text(json.dumps({"op": "check", "serial": 1, "text": hat}))
        report = line.receive_json()
        assert (report["event"], report["serial"], report["sizes"]) == ("report", 1, ["S", "M", "L"])
        assert [row["counts"] for row in report["rows"]][1:3] == [[30, 33, 40]] * 2 and report["rows"][0]["chains"] == [31, 34, 41]
        (finding,) = [one for one in report["findings"] if one["kind"] == "repeat-leaves-stitches"]
        assert finding["grade"] == "must-mend" and "size M" in finding["message"] and "left over" in finding["working"] and finding["suggestions"]
        assert "[sc in next 4 sts" in hat[finding["from"] : finding["to"]]
        line.send_text(json.dumps({"op": "check", "serial": 2, "text": "\U0001f9f6 wool\n\n" + hat.split("---\n")[2]}))
        moved = line.receive_json()
        wide = "\U0001f9f6 wool\n\n" + hat.split("---\n")[2]
        (finding,) = [one for one in moved["findings"] if one["kind"] == "repeat-leaves-stitches"]
        assert "[sc in next 4 sts" in wide.encode("utf-16-le")[2 * finding["from"] : 2 * finding["to"]].decode("utf-16-le")


def test_words_that_are_none_stop_no_line(sized):
    with sized.live("cap") as line:
        for words in ("", "[", "{}", '{"op": "check"}', '{"op": "run", "serial": 1, "text": "x"}', '{"op": "check", "serial": {}, "text": "x"}', '{"op": "check", "serial": 5, "text": 5}'):
            line.send_text(words)
        line.send_text(json.dumps({"op": "check", "serial": 6, "text": "x" * 1_000_001}))
        told = [line.receive_json()]
        line.send_text(json.dumps({"op": "check", "serial": 7, "text": "Ch 5.\n"}))
        while told[-1].get("serial") != 7:
            told.append(line.receive_json())
        assert told[-1]["event"] == "report" and {one["event"] for one in told[:-1]} == {"not-checked"}


def test_the_newest_text_wins(sized):
    with sized.live("cap") as line:
        for serial in range(30):
            line.send_text(json.dumps({"op": "check", "serial": serial, "text": sized.hat + f"Row 4: Ch {serial + 1}.\n"}))
        told = [line.receive_json()["serial"]]
        while told[-1] != 29:
            told.append(line.receive_json()["serial"])
        assert told == sorted(told) and len(told) < 30


def test_a_monstrous_manuscript_stalls_no_other(sized):
    """One that takes its worker to the bound of time; another is checked at once meanwhile."""
    from hookwright.desk.workbench import live as module

    monster = "Ch 1001.\nRow 1: Sc in 2nd ch from hook and in each ch across. 1000 sc\n" + "".join(
        f"Row {number}: Ch 1, turn, sc in first {number % 900} sts, *dc in next {number % 11 + 1} sts, ch {number % 5}, skip next {number % 5} sts; rep from * across. ({number} sc)\n"
        for number in range(2, 6000))
    before, module.SECONDS = module.SECONDS, 1.5
    try:
        with sized.live("band", "monster") as slow, sized.live("cap", "quick") as quick:
            quick.send_text(json.dumps({"op": "check", "serial": 0, "text": sized.hat}))
            quick.receive_json()
            slow.send_text(json.dumps({"op": "check", "serial": 1, "text": monster}))
            started = time.perf_counter()
            quick.send_text(json.dumps({"op": "check", "serial": 2, "text": sized.hat + "Fasten off.\n"}))
            assert quick.receive_json()["serial"] == 2
            took = time.perf_counter() - started
            told = slow.receive_json()
            assert told["event"] == "not-checked" and told["what"] == "too-long" and "stopped" in told["error"]
            assert took < time.perf_counter() - started
            slow.send_text(json.dumps({"op": "check", "serial": 3, "text": "Ch 5.\n"}))
            module.SECONDS = 60.0
            assert slow.receive_json()["serial"] == 3  # another worker stands in its place
    finally:
        module.SECONDS = before


def test_a_worker_is_bounded_in_memory():
    """It is refused room beyond its bound, and says so in her words."""
    import asyncio

    from hookwright.desk.workbench.told import Told

    async def go():
        pool = Pool(1, memory=600_000_000)
        try:
            assert await pool.run("a", "ready", (), seconds=60)
            with pytest.raises(Told) as told:
                await pool.run("a", "sheet", ("x" * 400_000_000, None, None), seconds=60)
            assert told.value.what == "too-big" and "memory" in told.value.words
            assert await pool.run("a", "ready", (), seconds=60)
        finally:
            pool.end()

    asyncio.run(go())


@pytest.mark.parametrize("text", ["plain", "a\U0001f9f6b", "\U0001f9f6\U0001f9f6", "ä\u20ac\U0001f600x\n\U0001f600"])
def test_offsets_of_the_browser(text):
    known_ones = Utf16(text)
    for offset in range(len(text) + 1):
        there = known_ones.there(offset)
        assert there == len(text[:offset].encode("utf-16-le")) // 2 and known_ones.here(there) == offset


# ---------------------------------------------------------------- what goes out


def ended(desk, job):
    for _ in range(600):
        told = desk.get(f"/api/jobs/{job}").json()
        if told["state"] != "running":
            return told
        assert 0 <= told["done"] <= 1 and told["words"]
        time.sleep(0.1)
    raise AssertionError(told)


def test_everything_goes_out_in_one_archive(sized):
    formats = ["pdf-a4-us", "pdf-letter-uk-large", "html-uk", "txt-us", "chart-svg", "schematic-svg", "sizes-csv", "counts-csv", "yarn-csv", "manuscript"]
    job = sized.post("/api/m/band/out", {"formats": formats, "pictures": "none"})
    assert job.status_code == 202
    told = ended(sized, job.json()["job"])
    assert told["state"] == "done" and told["name"] == "band.zip", told
    answer = sized.get(f"/api/jobs/{told['id']}/file")
    assert answer.headers["content-disposition"].startswith("attachment") and answer.headers["content-type"] == "application/zip"
    with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
        assert archive.testzip() is None
        manifest = json.loads(archive.read("manifest.json"))
        made = {one["name"]: one for one in manifest["files"]}
        assert set(archive.namelist()) == {*(name for name, one in made.items() if "sha256" in one), "manifest.json"}
        assert len(made) == len(formats) and all(one["bytes"] == len(archive.read(name)) for name, one in made.items() if "bytes" in one)
        assert archive.read("band.md").decode() == SIZED and archive.read("band.us.a4.pdf").startswith(b"%PDF") and b"12 dc" in archive.read("band.uk.html")
        assert "Circumference" in archive.read("band.sizes.csv").decode("utf-8-sig") and archive.read("band.chart.Band.svg").startswith(b"<svg")


def test_a_picture_goes_out_with_its_mesh(sized):
    told = ended(sized, sized.post("/api/m/cap/out", {"formats": ["picture-png", "surface-glb"], "size": "M"}).json()["job"])
    assert told["state"] == "done", told
    with zipfile.ZipFile(io.BytesIO(sized.get(f"/api/jobs/{told['id']}/file").content)) as archive:
        assert archive.read("cap.picture.Cuff.png").startswith(b"\x89PNG") and archive.read("cap.surface.Cuff.glb").startswith(b"glTF")


def test_a_job_can_be_stopped(sized):
    job = sized.post("/api/m/band/out", {"formats": known()}).json()["job"]
    assert sized.delete(f"/api/jobs/{job}").json()["state"] == "cancelled"
    assert sized.get(f"/api/jobs/{job}").json()["state"] == "cancelled" and sized.get(f"/api/jobs/{job}/file").status_code == 404
    told = ended(sized, sized.post("/api/m/band/out", {"formats": ["manuscript"]}).json()["job"])
    assert told["state"] == "done"


def test_what_can_go_out_is_told_and_nothing_else_is_made(sized):
    assert sized.get("/api/m/band/out").json()["formats"] == known()
    for formats in (None, [], "pdf", ["pdf-a9-us"], ["../x"], ["html-us"] * 100):
        assert sized.post("/api/m/band/out", {"formats": formats}).status_code == 400


def test_what_mends_a_finding_is_tried_and_can_be_put_in(sized):
    text = "\U0001f9f6\n\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: [sc, inc] x 5 (18)\nRnd 4: [2 sc, inc] x 6 (24)\n"
    with sized.live("cap") as line:
        line.send_text(json.dumps({"op": "check", "serial": 1, "text": text}))
        finding = next(one for one in line.receive_json()["findings"] if one["grade"] == "must-mend")
    (way,) = sized.post("/api/m/cap/mends", {"text": text, "kind": finding["kind"], "from": finding["from"]}).json()["suggestions"]
    wide = text.encode("utf-16-le")
    mended = (wide[: 2 * way["from"]] + way["insert"].encode("utf-16-le") + wide[2 * way["to"] :]).decode("utf-16-le")
    assert mended == text.replace("x 5", "x 6") and way["sure"] == "certain"
    assert sized.post("/api/m/cap/mends", {"text": text, "kind": "no-such", "from": 0}).json() == {"suggestions": []}
    assert sized.post("/api/m/cap/mends", {"kind": 5, "from": "x"}).status_code == 400
