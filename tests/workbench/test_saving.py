"""Nothing she writes is lost: saving, other windows, changes from outside, saved states, and the server ended in the middle of it."""

import os
import signal
import threading
import time
from contextlib import closing, suppress

import pytest

from hookwright.desk.workbench.shelf import Shelf
from hookwright.desk.workbench.store import Store

MORE = "Row 4: Ch 1, sc in each st across, turn. 36 (42, 48) sc\n"


def suppressed(does):
    with suppress(Exception):
        does()


def version(desk, name="cap"):
    return desk.get(f"/api/m/{name}").json()["version"]


def states(desk, every=True):
    return desk.get("/api/m/cap/history", params={"every": int(every)}).json()["states"]


def test_what_is_saved_is_in_the_file_and_is_a_state(desk):
    saved = desk.put("/api/m/cap", {"text": desk.hat + MORE, "base": version(desk)}).json()
    assert desk.text() == desk.hat + MORE and saved == {"version": version(desk)}
    assert [state["why"] for state in states(desk)] == ["typing", "begun"]
    assert desk.put("/api/m/cap", {"text": desk.hat + MORE, "base": saved["version"]}).json() == saved
    assert len(states(desk)) == 2


def test_line_ends_and_marks_of_the_file_stay_hers(desk):
    path = desk.folder / "cap.md"
    path.write_bytes(b"\xef\xbb\xbf" + desk.hat.replace("\n", "\r\n").encode())
    path.chmod(0o640)
    read = desk.get("/api/m/cap").json()
    assert read["text"] == desk.hat
    desk.put("/api/m/cap", {"text": desk.hat + MORE, "base": read["version"]})
    assert path.read_bytes() == b"\xef\xbb\xbf" + (desk.hat + MORE).replace("\n", "\r\n").encode()
    assert os.name == "nt" or path.stat().st_mode & 0o777 == 0o640


def test_two_windows_keep_both_their_changes(desk):
    base = version(desk)
    with desk.live("cap", "one") as one, desk.live("cap", "two") as two:
        first = desk.put("/api/m/cap", {"text": desk.hat + MORE, "base": base, "window": "one"}).json()
        assert two.receive_json() == {"event": "changed", "version": first["version"], "text": desk.hat + MORE, "why": "window"}
        second = desk.put("/api/m/cap", {"text": desk.hat.replace("Little Cap", "Small Cap"), "base": base, "window": "two"}).json()
        both = (desk.hat + MORE).replace("Little Cap", "Small Cap")
        assert second["merged"] and second["text"] == both == desk.text()
        assert one.receive_json()["text"] == both


def test_both_at_the_same_place_are_kept_and_told(desk):
    base = version(desk)
    ours, theirs = desk.hat.replace("Little Cap", "Small Cap"), desk.hat.replace("Little Cap", "Tiny Cap")
    desk.put("/api/m/cap", {"text": theirs, "base": base})
    answer = desk.put("/api/m/cap", {"text": ours, "base": base})
    told = answer.json()
    assert answer.status_code == 409 and told["theirs"] == theirs == desk.text() and told["yours"] == ours
    kept = {state["why"]: desk.get(f"/api/m/cap/history/{state['id']}").json()["text"] for state in states(desk)}
    assert kept["conflict"] == ours and kept["typing"] == theirs
    assert desk.put("/api/m/cap", {"text": ours, "base": told["version"]}).status_code == 200  # she has chosen
    assert desk.text() == ours


def test_an_unknown_base_writes_over_nothing(desk):
    for base in ("nothing", "", None, 5):
        assert desk.put("/api/m/cap", {"text": "Ch 5.\n", "base": base}).status_code == 409
    assert desk.text() == desk.hat


def test_a_change_from_outside_is_told_and_merged(desk):
    base = version(desk)
    with desk.live("cap") as line:
        time.sleep(0.3)  # the eye on the folder is open by then
        (desk.folder / "cap.md").write_text(desk.hat + MORE, "utf-8")
        event = line.receive_json()
        assert event["event"] == "changed" and event["why"] == "outside" and event["text"] == desk.hat + MORE
    saved = desk.put("/api/m/cap", {"text": desk.hat.replace("Little", "Small"), "base": base}).json()
    assert saved["merged"] and desk.text() == (desk.hat + MORE).replace("Little", "Small")
    assert [state["why"] for state in states(desk)] == ["merged", "outside", "begun"]


def test_a_change_from_outside_is_told_even_where_a_panel_read_it_first(tmp_path):
    with closing(Store(tmp_path)) as store:
        shelf = Shelf(tmp_path, store)
        name = shelf.new("Ch 5.\n", "cap")
        (tmp_path / "cap.md").write_text("Ch 6.\n", "utf-8")
        assert shelf.read(name).text == "Ch 6.\n"
        assert shelf.changed_outside(name).text == "Ch 6.\n"
        assert shelf.changed_outside(name) is None


def test_a_file_that_went_away_is_written_anew(desk):
    base = version(desk)
    (desk.folder / "cap.md").unlink()
    assert desk.put("/api/m/cap", {"text": desk.hat + MORE, "base": base}).status_code == 200
    assert desk.text() == desk.hat + MORE


def test_every_state_can_be_looked_at_compared_and_brought_back(desk):
    base = version(desk)
    for count in range(1, 4):
        base = desk.put("/api/m/cap", {"text": desk.hat.replace("30 (33, 40)", f"30 (3{count + 3}, 40)"), "base": base}).json()["version"]
    base = desk.put("/api/m/cap", {"text": desk.text().replace("2 sc in next st]", "3 sc in next st]"), "base": base}).json()["version"]
    assert len(states(desk)) == 5 and [run["states"] for run in states(desk, every=False)] == [4, 1]
    first, last = states(desk)[-1]["id"], states(desk)[0]["id"]
    told = desk.get("/api/m/cap/compare", params={"a": first, "b": "now"}).json()
    rows = {row["label"]: row for row in told["rows"]}
    assert rows["Row 2"]["text_a"] != rows["Row 2"]["text_b"] and rows["Row 2"]["same_stitches"]  # another count is stated, the stitches are the same
    assert not rows["Row 3"]["same_stitches"] and told["stitches_changed"] == 1
    assert rows["Row 3"]["counts_a"] == [36, 42, 48] or rows["Row 3"]["counts_a"][0] == 36
    assert desk.get("/api/m/cap/compare", params={"a": last, "b": ""}).json()["stitches_changed"] == 0
    assert desk.post(f"/api/m/cap/history/{first}/bring-back").json()["text"] == desk.hat == desk.text()
    assert states(desk)[0]["why"] == "restored" and desk.get(f"/api/m/cap/history/{last}").json()["text"] != desk.hat


def test_many_states_take_little_room(desk):
    text, base = desk.hat + MORE * 60, version(desk)
    for count in range(200):
        text += f"{count} "
        base = desk.put("/api/m/cap", {"text": text, "base": base}).json()["version"]
    kept = states(desk)
    assert len(kept) == 201
    assert desk.get(f"/api/m/cap/history/{kept[100]['id']}").json()["text"].endswith("99 ")
    size = desk.bench.store._base.execute("select sum(length(packed)) from texts").fetchone()[0]
    assert size < 200 * 250, size


def test_many_hands_at_once_lose_nothing(desk):
    """Eight windows that each add lines to the end of a row's own block, from bases as old as they come."""
    blocks = "\n\n".join(f"## Piece {number}\n\nWords {number}." for number in range(8)) + "\n"
    base = desk.put("/api/m/cap", {"text": blocks, "base": version(desk)}).json()["version"]
    refused = []

    def write(number):
        text, mine = blocks, base
        for turn in range(6):
            text = text.replace(f"Words {number}.", f"Words {number}.\nLine {number}-{turn}.", 1)
            answer = desk.put("/api/m/cap", {"text": text, "base": mine, "window": str(number)})
            if answer.status_code != 200:
                refused.append(answer.json())
                return
            mine, text = answer.json()["version"], answer.json().get("text", text)

    hands = [threading.Thread(target=write, args=(number,)) for number in range(8)]
    for hand in hands:
        hand.start()
    for hand in hands:
        hand.join()
    assert not refused
    assert all(f"Line {number}-{turn}." in desk.text() for number in range(8) for turn in range(6))


@pytest.mark.skipif(os.name == "nt", reason="there is no such signal")
def test_killed_in_the_middle_of_typing_nothing_saved_is_lost(running, tmp_path):
    """kill -9 while texts are being saved: what was answered is there on the next start, whole, and so is its state."""
    (tmp_path / "cap.md").write_text("Ch 11.\n", "utf-8")
    server = running()
    answered = []
    with closing(server.client()) as client:
        base = client.get("/api/m/cap").json()["version"]
        threading.Timer(0.7, lambda: os.kill(server.process.pid, signal.SIGKILL)).start()
        try:
            while True:
                text = "Ch 11.\n" + "".join(f"Line {number}.\n" for number in range(len(answered) + 1))
                base = client.put("/api/m/cap", json={"text": text, "base": base}).json()["version"]
                answered.append(text)
        except Exception as gone:
            assert "Connect" in type(gone).__name__ or "Read" in type(gone).__name__ or "Remote" in type(gone).__name__, gone
    assert len(answered) > 3
    there = (tmp_path / "cap.md").read_text("utf-8")
    assert there.startswith(answered[-1]) and len(there) - len(answered[-1]) < 20  # at most what was on its way
    again = running()
    with closing(again.client()) as client:
        read = client.get("/api/m/cap").json()
        assert read["text"] == there
        kept = client.get("/api/m/cap/history", params={"every": 1}).json()["states"]
        assert answered[-1] in [client.get(f"/api/m/cap/history/{one['id']}").json()["text"] for one in kept[:3]]
        late = client.put("/api/m/cap", json={"text": answered[-1] + "Typed while it was away.\n", "base": base})  # a page that outlived the server
        if there == answered[-1]:
            assert late.status_code == 200 and "Typed while it was away." in (tmp_path / "cap.md").read_text("utf-8")
        else:  # what was on its way came to the disk, at the same place: both are told
            assert late.status_code == 409 and late.json()["theirs"] == there and "Typed while it was away." in late.json()["yours"]


@pytest.mark.skipif(not os.path.isdir("/proc/self"), reason="processes are counted by /proc")
def test_workers_end_with_a_server_that_was_killed(running, tmp_path):
    (tmp_path / "cap.md").write_text("Ch 11.\n", "utf-8")
    server = running()
    with closing(server.client()) as client:
        client.get("/api/m/cap/sheet")

    def facts(one):
        """(state, parent) of a process; ("Z", "") where it is gone."""
        try:
            with open(f"/proc/{one}/stat") as stat:
                return stat.read().rpartition(")")[2].split()[:2]
        except OSError:
            return "Z", ""

    started = [one for one in os.listdir("/proc") if one.isdigit() and facts(one)[1] == str(server.process.pid)]
    assert started
    server.process.kill()
    server.process.wait(10)
    until = time.monotonic() + 15
    while time.monotonic() < until and any(facts(one)[0] != "Z" for one in started):
        time.sleep(0.2)
    assert all(facts(one)[0] == "Z" for one in started)


@pytest.mark.skipif(os.name == "nt", reason="signals of another kind")
def test_ctrl_c_ends_it_in_peace(running, tmp_path):
    """Also while something is still being made and a line is open."""
    (tmp_path / "cap.md").write_text("Ch 41.\nRow 1: Sc in 2nd ch from hook and in each ch across. 40 sc\nRows 2-90: Ch 1, turn, sc in each st across. 40 sc\n", "utf-8")
    server = running()
    client = server.client()
    waiting = threading.Thread(target=lambda: suppressed(lambda: client.get("/api/m/cap/small.png")))
    waiting.start()
    time.sleep(0.5)
    server.process.send_signal(signal.SIGINT)
    said, _ = server.process.communicate(timeout=20)
    waiting.join(10)
    client.close()
    assert server.process.returncode == 0 and said.split() == "Closed. Everything was saved.".split()


def test_a_spoilt_file_of_states_is_put_aside(tmp_path):
    from hookwright.desk.workbench.store import FILE, HOME, Store

    (tmp_path / HOME).mkdir()
    (tmp_path / HOME / FILE).write_bytes(b"this is no file of states" * 400)
    store = Store(tmp_path)
    store.keep_state("cap", "Ch 5.", "begun")
    store.close()
    assert sorted(path.name for path in (tmp_path / HOME).glob("*spoilt*")) and Store(tmp_path).last("cap")


def test_states_of_long_texts_come_back_whole(tmp_path):
    """Texts beyond what a dictionary of the packer holds, letters of all kinds, and long chains of them."""
    from hookwright.desk.workbench.store import Store

    store, texts = Store(tmp_path), []
    for count in range(60):
        texts.append("é\U0001f9f6 sc in each st\n" * (count * 97 % 5000) + str(count))
        store.keep_state("cap", texts[-1], "typing")
    assert [store.text(state.version) for state in reversed(store.states("cap"))] == texts


def test_the_command_tells_what_can_not_be_opened(tmp_path):
    from click.testing import CliRunner

    from hookwright.desk.main import main

    (tmp_path / "cap.md").write_text("Ch 5.")
    for folder in (tmp_path / "none", tmp_path / "cap.md"):
        done = CliRunner().invoke(main, ["open", str(folder), "--no-browser"])
        assert done.exit_code == 2 and str(folder) in done.output and "Traceback" not in done.output
