"""Her folder: what it shows, new manuscripts, other names, and putting away with a way back."""

import threading
import time

import pytest

from hookwright.desk.workbench.names import free_name, good_name, name_from
from hookwright.desk.workbench.told import Told


def shown(desk) -> dict:
    """The folder once all of it has been read."""
    for _ in range(60):
        folder = desk.get("/api/folder").json()
        if not folder["being_read"]:
            return folder
        time.sleep(0.2)
    raise AssertionError("the folder is not read")


def test_the_folder_tells_what_is_in_it(desk):
    (desk.folder / "wrong.md").write_text(desk.hat.replace("36 (42, 48)", "37 (42, 48)"), "utf-8")
    (desk.folder / "README.md").write_text("not a pattern", "utf-8")
    (desk.folder / "picture.md").write_bytes(b"\x89PNG\r\n" + bytes(200))
    (desk.folder / "long.md").write_text("x" * 1_000_001, "utf-8")
    folder = shown(desk)
    cards = {card["name"]: card for card in folder["manuscripts"]}
    assert sorted(cards) == ["cap", "long", "picture", "wrong"]
    assert cards["cap"]["title"] == "Little Cap" and cards["cap"]["sizes"] == ["S", "M", "L"]
    assert cards["cap"]["state"] == "must mend" and cards["wrong"]["must_mend"] >= 1  # 33 is no multiple of 5
    assert cards["picture"]["state"] == cards["long"]["state"] == "not read" and "kB" in cards["long"]["summary"]
    assert len(folder["templates"]) == 8


def test_a_card_has_a_small_picture(desk):
    card = shown(desk)["manuscripts"][0]
    drawing = desk.get(card["picture"])
    assert drawing.headers["content-type"] == "image/png" and drawing.content.startswith(b"\x89PNG") and desk.get(card["picture"]).content == drawing.content


def test_new_copy_and_rename_write_over_nothing(desk):
    first = desk.post("/api/folder/new", {"template": "square"}).json()["name"]
    second = desk.post("/api/folder/new", {"template": "square"}).json()["name"]
    copy = desk.post("/api/folder/new", {"copy_of": "cap"}).json()["name"]
    assert len({first, second, copy, "cap"}) == 4 and desk.text(copy) == desk.hat
    assert desk.post("/api/m/cap/rename", {"to": first}).json()["what"] == "name-taken"
    assert desk.post("/api/m/cap/rename", {"to": "Cap"}).json() == {"name": "Cap"}  # only the letter case
    assert desk.post("/api/m/Cap/rename", {"to": "Mütze für Zoë"}).json()["name"] == "Mütze für Zoë"
    assert desk.text("Mütze für Zoë") == desk.hat and not (desk.folder / "cap.md").exists()
    assert desk.get("/api/m/Mütze für Zoë").json()["text"] == desk.hat


def test_saved_states_go_with_the_name(desk):
    version = desk.get("/api/m/cap").json()["version"]
    desk.put("/api/m/cap", {"text": desk.hat + "Fasten off.\n", "base": version})
    desk.put("/api/m/cap/keeper", {"size": "M", "at": 2, "ticked": [0, 1], "seconds": {"0": 4.5}})
    desk.post("/api/m/cap/rename", {"to": "hat"})
    assert [state["why"] for state in desk.get("/api/m/hat/history").json()["states"]] == ["typing", "begun"]
    assert desk.get("/api/m/hat/keeper?size=M").json()["at"] == 2


def test_what_is_put_away_comes_back(desk):
    put = desk.post("/api/m/cap/archive").json()["name"]
    assert not (desk.folder / "cap.md").exists() and desk.get(f"/api/archived/{put}").json()["text"] == desk.hat
    assert desk.get("/api/m/cap").status_code == 404
    card = next(card for card in shown(desk)["manuscripts"] if card["archived"])
    assert card["name"] == put and card["title"] == "Little Cap"
    (desk.folder / "cap.md").write_text("another", "utf-8")
    back = desk.post(f"/api/m/{put}/restore").json()["name"]
    assert back != "cap" and desk.text("cap") == "another" and desk.text(back) == desk.hat
    assert desk.get(f"/api/m/{back}/history").json()["states"]


def test_what_is_not_there_is_told(desk):
    for answer in (desk.get("/api/m/nothing"), desk.post("/api/m/nothing/archive"), desk.post("/api/m/nothing/restore"), desk.post("/api/m/nothing/rename", {"to": "x"}),
                   desk.post("/api/folder/new", {"copy_of": "nothing"}), desk.post("/api/folder/new", {"template": "nothing"}), desk.get("/api/m/cap/history/999"),
                   desk.get("/api/jobs/none"), desk.get("/api/nothing"), desk.put("/api/m/nothing", {"text": "x", "base": ""})):
        assert answer.status_code == 404 and answer.json()["error"], answer.text
    assert desk.post("/api/folder/new", {"pasted": "  \n "}).json()["what"] == "nothing-pasted"


@pytest.mark.parametrize("name", ["", " ", ".", "..", "a/b", "a\\b", "a:b", "a\0b", "a\nb\x07", ".hidden", "end.", "x" * 101, "é" * 100 + "é", "nul", "COM1.x", "a\u202eb", "\ud800", None, 5])
def test_names_no_file_may_have(name):
    with pytest.raises(Told):
        good_name(name)


def test_names_are_kept_as_they_are_typed():
    assert good_name("Ju\u0308rgens  Hut") == "Jürgens Hut"
    assert good_name("20% off & more!") == "20% off & more!"
    assert name_from('A/B: "C"?') == "A B C" and name_from("...") == "Untitled" and name_from("<script>") == "script"


def test_a_free_name_is_found(tmp_path):
    for name in ("hat", "Hat 2"):
        (tmp_path / f"{name}.md").write_text("")
    assert free_name(tmp_path, "HAT") == "HAT 3" and free_name(tmp_path, "cap") == "cap"


def test_asked_again_and_again_the_same_work_is_done_once(desk, monkeypatch):
    """The page asks every second until all is read; what is being worked is not begun anew."""
    from hookwright.desk.workbench.workers import Pool

    for number in range(3):
        (desk.folder / f"other {number}.md").write_text(desk.hat.replace("Little Cap", f"Cap {number}"), "utf-8")
    begun, run = [], Pool.run

    async def counted(self, name, task, *args, **more):
        begun.append((name, task))
        return await run(self, name, task, *args, **more)

    monkeypatch.setattr(Pool, "run", counted)
    threads = [threading.Thread(target=shown, args=(desk,)) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    shown(desk)
    assert sorted(begun) == sorted({(name, "summary") for name in ("cap", "other 0", "other 1", "other 2")})
