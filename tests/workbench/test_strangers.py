"""No other page, no other name of this machine and no clever address gets at her folder."""

import gzip
import json

import pytest
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect

from hookwright.desk.workbench.app import workbench
from hookwright.desk.workbench.guard import MOST_BODY_BYTES

PORT = 8000
HOME = f"http://127.0.0.1:{PORT}"
WRITES = [("PUT", "/api/m/cap", {"text": "x", "base": ""}), ("POST", "/api/folder/new", {"pasted": "x"}), ("POST", "/api/m/cap/archive", {}), ("POST", "/api/m/cap/rename", {"to": "y"}),
          ("POST", "/api/m/cap/out", {"formats": ["html-us"]}), ("DELETE", "/api/jobs/x", None), ("PUT", "/api/m/cap/keeper", {"at": 1})]


@pytest.fixture
def stranger(desk):
    """Someone who was not let in."""
    client = TestClient(desk.client.app, base_url=HOME, follow_redirects=False)
    return client


@pytest.mark.parametrize("path", ["/", "/write/cap", "/api/folder", "/api/m/cap", "/api/m/cap/sheet", "/static/nothing.js"])
def test_without_the_cookie_nothing_is_shown(desk, stranger, path):
    answer = stranger.get(path)
    assert answer.status_code == 403
    assert "Cuff" not in answer.text and desk.bench.secrets.page not in answer.text


def test_a_wrong_token_opens_nothing(stranger):
    answer = stranger.get("/enter", params={"token": "x" * 43})
    assert answer.status_code == 403 and "set-cookie" not in answer.headers


def test_the_way_in_leads_nowhere_else(desk):
    for to in ("https://example.org", "//example.org", "/\\example.org"):
        assert desk.get("/enter", params={"token": desk.bench.secrets.way_in, "to": to}).headers["location"] == "/"


@pytest.mark.parametrize("host", ["example.org", f"example.org:{PORT}", "127.0.0.1", f"127.0.0.1:{PORT + 1}", f"127.0.0.1.example.org:{PORT}", "", f"[::1]:{PORT}"])
def test_another_host_is_refused(desk, host):
    """A name of a stranger that resolves to this machine has the stranger's name in Host."""
    assert desk.get("/api/folder", headers={"Host": host}).status_code == 421
    assert desk.client.get("/enter", params={"token": desk.bench.secrets.way_in}, headers={"Host": host}).status_code == 421


def test_localhost_is_this_machine_too(desk):
    cookie = "; ".join(f"{name}={value}" for name, value in desk.client.cookies.items())
    assert desk.get("/api/m/cap", headers={"Host": f"localhost:{PORT}", "Cookie": cookie}).status_code == 200


@pytest.mark.parametrize("method, path, body", WRITES)
@pytest.mark.parametrize("origin", [None, "null", "https://example.org", f"http://127.0.0.1:{PORT + 1}", f"https://127.0.0.1:{PORT}", f"http://127.0.0.1:{PORT}.example.org"])
def test_a_foreign_page_writes_nothing(desk, method, path, body, origin):
    headers = {"X-Hookwright-Token": desk.bench.secrets.page, **({"Origin": origin} if origin else {})}
    answer = desk.client.request(method, path, json=body, headers=headers)
    assert answer.status_code == 403 and answer.json()["what"] == "foreign"
    assert desk.text() == desk.hat and [path.name for path in desk.folder.glob("*.md")] == ["cap.md"]


@pytest.mark.parametrize("method, path, body", WRITES)
def test_without_the_pages_token_nothing_is_written(desk, method, path, body):
    for token in (None, "", "x", desk.bench.secrets.session, desk.bench.secrets.way_in):
        headers = {"Origin": HOME, **({"X-Hookwright-Token": token} if token is not None else {})}
        assert desk.client.request(method, path, json=body, headers=headers).status_code == 403
    assert desk.text() == desk.hat


def test_a_page_of_another_site_reads_nothing(desk):
    for site in ("cross-site", "same-site"):
        assert desk.get("/api/folder", headers={"Sec-Fetch-Site": site}).status_code == 403
    assert desk.get("/api/folder", headers={"Origin": "https://example.org"}).status_code == 403
    answer = desk.get("/api/folder")
    assert not [name for name in answer.headers if name.startswith("access-control")]


@pytest.mark.parametrize("headers, token", [({"Origin": "https://example.org"}, True), ({}, True), ({"Origin": HOME}, False), ({"Origin": HOME, "Host": "example.org"}, True)])
def test_a_live_line_is_for_our_own_page(desk, headers, token):
    query = f"?token={desk.bench.secrets.page}" if token else "?token=x"
    with pytest.raises(WebSocketDisconnect), desk.client.websocket_connect(f"ws://127.0.0.1:{PORT}/api/m/cap/live{query}", headers=headers) as line:
        line.receive_text()


def test_the_cookie_stays_with_the_browser(desk):
    answer = desk.client.get("/enter", params={"token": desk.bench.secrets.way_in})
    said = answer.headers["set-cookie"].lower()
    assert "httponly" in said and "samesite=strict" in said and "domain" not in said


@pytest.mark.parametrize("path", ["/", "/write/cap", "/keep/cap", "/history/cap", "/measure/cap"])
def test_pages_run_nothing_that_is_not_ours(desk, path):
    answer = desk.get(path)
    said = answer.headers["content-security-policy"]
    assert "default-src 'none'" in said and "script-src 'self';" in said and "frame-ancestors 'none'" in said and "base-uri 'none'" in said
    assert "unsafe" not in said and "http:" not in said.replace("ws:", "")
    assert answer.headers["x-content-type-options"] == "nosniff" and answer.headers["referrer-policy"] == "no-referrer" and answer.headers["cache-control"] == "no-store"
    for script in answer.text.split("<script")[1:]:
        opening, _, inside = script.partition(">")
        assert 'type="application/json"' in opening or "src=" in opening and not inside.partition("</script")[0].strip()
    assert " style=" not in answer.text and " onclick" not in answer.text


def test_a_sheet_is_framed_and_runs_nothing(desk):
    answer = desk.get("/api/m/cap/sheet")
    said = answer.headers["content-security-policy"]
    assert said.startswith("sandbox;") and "default-src 'none'" in said and "frame-ancestors 'self'" in said and "script" not in said


@pytest.mark.parametrize("name", ["../secret", "..%2Fsecret", "%2e%2e%2fsecret", "..", ".", ".hidden", "a/b", "a%2Fb", "a%5Cb", "..%5Csecret", "%00", "a%00b", "C:secret", "con", "x" * 300, "secret%0a", "%2Fetc%2Fpasswd", "%ff"])
def test_no_address_leads_out_of_the_folder(desk, name):
    (desk.folder.parent / "secret.md").write_text("her diary", "utf-8")
    for path in (f"/api/m/{name}", f"/api/m/{name}/sheet", f"/api/archived/{name}", f"/static/{name}", f"/write/{name}"):
        answer = desk.get(path)
        assert "diary" not in answer.text and answer.status_code in (200, 400, 403, 404, 405, 307), path
    assert desk.get(f"/api/m/{name}").status_code != 200
    desk.put(f"/api/m/{name}", {"text": "x", "base": ""})
    for wanted in (name, "../secret", "/tmp/secret", "..\\secret"):
        desk.post("/api/folder/new", {"pasted": "x", "name": wanted})
        desk.post("/api/m/cap/rename", {"to": wanted})
        desk.post("/api/folder/new", {"copy_of": wanted})
    assert (desk.folder.parent / "secret.md").read_text("utf-8") == "her diary"
    assert sorted(path.name for path in desk.folder.parent.iterdir()) == sorted([desk.folder.name, "secret.md"])


def test_a_link_that_leads_out_is_not_followed(desk):
    (desk.folder.parent / "secret.md").write_text("her diary", "utf-8")
    (desk.folder / "way-out.md").symlink_to(desk.folder.parent / "secret.md")
    (desk.folder / "archived").symlink_to(desk.folder.parent)
    for path in ("/api/m/way-out", "/api/m/way-out/sheet", "/api/archived/secret", "/api/folder"):
        assert "diary" not in desk.get(path).text
    assert "way-out" not in desk.get("/api/folder").text
    assert desk.put("/api/m/way-out", {"text": "x", "base": ""}).status_code == 403
    assert desk.post("/api/m/secret/restore").status_code in (403, 404)
    assert (desk.folder.parent / "secret.md").read_text("utf-8") == "her diary"


def test_ten_megabytes_of_text_change_nothing(desk):
    long = "sc in each st across. " * 500_000
    answer = desk.put("/api/m/cap", {"text": long, "base": ""})
    assert answer.status_code == 413 and answer.json()["error"]
    assert desk.post("/api/folder/new", {"pasted": long}).status_code == 413
    assert desk.put("/api/m/cap", {"text": "x" * 1_000_001, "base": ""}).status_code == 413  # within the body's bound, over the text's
    assert desk.text() == desk.hat


def test_a_body_is_measured_while_it_comes(desk):
    """One without a length is cut off at the bound, and no more of it is asked for."""
    sent = 0

    def parts():
        nonlocal sent
        for _ in range(64):
            sent += 1_000_000
            yield b"x" * 1_000_000

    answer = desk.client.request("PUT", "/api/m/cap", content=parts(), headers=desk.token)
    assert answer.status_code == 413
    assert desk.client.request("PUT", "/api/m/cap", content=b"{}", headers={**desk.token, "Content-Length": str(MOST_BODY_BYTES + 1)}).status_code == 413


def test_packed_text_is_not_opened(desk):
    bomb = gzip.compress(json.dumps({"text": "x" * 50_000_000, "base": ""}).encode())
    answer = desk.client.request("PUT", "/api/m/cap", content=bomb, headers={**desk.token, "Content-Encoding": "gzip", "Content-Type": "application/json"})
    assert answer.status_code == 415 and desk.text() == desk.hat


def test_words_that_would_swell_are_told_and_not_worked(desk):
    """A pattern of a few lines that asks for millions of stitches by repeats of repeats."""
    swelling = "Row 1: Ch 21, sc in 2nd ch from hook and in each ch across. 20 sc\nRow 2: Ch 1, " + "[" * 9 + "sc in next st" + "] 99 times" * 9 + ".\nRows 3-90000: Rep Row 2.\n"
    answer = desk.post("/api/folder/tidy", {"pasted": swelling})
    assert answer.status_code in (200, 503) and "Traceback" not in answer.text
    if answer.status_code == 200:
        assert answer.json()["report"]["must_mend"]
    assert desk.get("/api/m/cap").status_code == 200


def test_a_script_in_a_title_stays_words(desk):
    nasty = desk.hat.replace("Little Cap", "</script><script>alert(1)</script><img src=x onerror=alert(1)>")
    name = desk.post("/api/folder/new", {"pasted": nasty}).json()["name"]
    assert "<" not in name
    for path in (f"/api/m/{name}/sheet", f"/write/{name}", "/", f"/api/m/{name}/chart"):
        answer = desk.get(path)
        assert answer.status_code == 200 and "<script>alert" not in answer.text and "<img" not in answer.text
    folder = desk.get("/api/folder")
    assert folder.headers["content-type"].startswith("application/json")


@pytest.mark.parametrize("body", [b"", b"[", b"[]", b"null", b'{"text": 5}', b'{"text": "\\ud800"}', b'{"text": "a\\u0000b"}', b"[" * 100_000, b"\xff\xfe", b'{"text": null, "base": []}'])
def test_what_is_not_asked_well_is_told(desk, body):
    for method, path in (("PUT", "/api/m/cap"), ("POST", "/api/m/cap/out"), ("POST", "/api/m/cap/measure"), ("POST", "/api/m/cap/rename"), ("POST", "/api/folder/new")):
        answer = desk.client.request(method, path, content=body, headers=desk.token)
        assert 400 <= answer.status_code < 500 and answer.json()["error"], (method, path, answer.text)
    assert desk.text() == desk.hat


def test_it_listens_on_this_machine_alone():
    from hookwright.desk.workbench.serving import listening

    door = listening(0)
    try:
        assert door.getsockname()[0] == "127.0.0.1"
    finally:
        door.close()


def test_every_start_has_secrets_of_its_own(desk):
    from hookwright.desk.workbench.guard import Secrets

    one, other = Secrets(), Secrets()
    assert len({one.way_in, one.session, one.page, other.way_in, other.session, other.page}) == 6
    assert workbench(desk.bench).cookie.endswith(str(PORT))
