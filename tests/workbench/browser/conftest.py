"""A workbench that is really running, and a real browser to open it in."""

import os
import re
import shutil
import signal
import subprocess
import sys
import threading
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
FLAGS = [
    "--no-sandbox",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--enable-unsafe-swiftshader",
]
WRIST_WARMERS = """---
title: Wrist Warmers
terms: US
sizes: [S, M, L]
hook: 4 mm
yarn: {name: soft wool, weight: 4, metres: 100, grams: 50}
gauge: [{stitches: 18, rows: 20, over: 10 cm, in: sc}]
---

## Cuff (make 2)

Ch 31 (36, 41).

Row 1: Sc in 2nd ch from hook and in each ch across, turn. 30 (35, 40) sc

Row 2: Ch 1, [sc in next 4 sts, 2 sc in next st] across, turn. 36 (42, 48) sc

Row 3: Ch 1, sc in each st across, turn. 36 (42, 48) sc
"""


class Bench:
    """A running workbench: its folder, its address; `kill` ends it as a power cut would, `start` begins it again at the same port."""

    def __init__(self, folder: Path):
        self.folder, self.port, self.process = folder, 0, None
        self.start()

    def start(self):
        self.process = subprocess.Popen(
            [sys.executable, "-m", "hookwright.desk.main", "open", str(self.folder), "--port", str(self.port), "--no-browser"],
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, start_new_session=True, env={**os.environ, "PYTHONUNBUFFERED": "1"},
        )
        said = []
        for line in self.process.stdout:
            said.append(line)
            if found := re.search(r"http://\S+", line):
                self.enter = found[0]
                break
        else:
            raise AssertionError("".join(said))
        threading.Thread(target=self.process.stdout.read, daemon=True).start()
        self.port = int(re.search(r":(\d+)/", self.enter)[1])
        self.address = f"http://127.0.0.1:{self.port}"

    def kill(self):
        """All its processes at once, with no time to put anything in order."""
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait(10)

    def end(self):
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
            try:
                self.process.wait(10)
            except subprocess.TimeoutExpired:
                self.kill()

    def put(self, name: str, text: str = WRIST_WARMERS) -> str:
        """A manuscript in the folder; gives the address of its page."""
        (self.folder / f"{name}.md").write_text(text, "utf-8")
        return f"{self.address}/write/{name}"

    def text(self, name: str) -> str:
        return (self.folder / f"{name}.md").read_text("utf-8")


def built_from_these_sources() -> bool:
    """Whether what stands in `static` was built from `frontend` as it is."""
    spec = spec_from_file_location("hatch_build", ROOT / "hatch_build.py")
    hook = module_from_spec(spec)
    spec.loader.exec_module(hook)
    stamp = ROOT / hook.STATIC / ".stamp"
    return stamp.is_file() and stamp.read_text("utf-8") == hook.digest_of(ROOT)


@pytest.fixture(scope="module")  # no longer: while it lives, its loop is in the way of other modules of the same process
def browser():
    from playwright.sync_api import sync_playwright

    assert built_from_these_sources(), "the pages are not those of these sources: python hatch_build.py builds them"
    path = shutil.which("chromium") or shutil.which("chromium-browser")
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def bench(tmp_path_factory):
    bench = Bench(tmp_path_factory.mktemp("patterns"))
    yield bench
    bench.end()


@pytest.fixture
def own_bench(tmp_path):
    bench = Bench(tmp_path)
    yield bench
    bench.end()


@pytest.fixture
def open_page(browser):
    """open_page(bench, address, **context): a page let in, whose slips and outside requests fail the test."""
    contexts = []

    def open_it(bench, address="/", **given):
        context = browser.new_context(**{"viewport": {"width": 1280, "height": 860}, "reduced_motion": "reduce", **given})
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(30_000)
        page.slips, page.outside = [], []
        page.on("pageerror", lambda slip: page.slips.append(str(slip)))
        page.on("console", lambda told: page.slips.append(told.text) if told.type == "error" and not re.search("status of 4(03|04|09)", told.text) else None)
        page.on("request", lambda asked: page.outside.append(asked.url) if not asked.url.startswith((bench.address, "data:", "blob:")) else None)
        page.goto(f"{bench.enter}&to={address.removeprefix(bench.address)}")
        return page

    yield open_it
    found = [(page.slips, page.outside) for context in contexts for page in context.pages]
    for context in contexts:
        context.close()
    assert [one for one in found if one != ([], [])] == []
