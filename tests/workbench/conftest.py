"""A workbench on a folder of its own, asked through its application, and one that runs as a process of its own."""

import os
import re
import subprocess
import sys
import warnings
from contextlib import contextmanager
from pathlib import Path

import pytest

with warnings.catch_warnings():  # it would rather have the next line of httpx, which is not needed for this
    warnings.simplefilter("ignore")
    from starlette.testclient import TestClient

from hookwright.desk.workbench.app import workbench
from hookwright.desk.workbench.bench import Bench

PORT = 8000
HOME = f"http://127.0.0.1:{PORT}"
HAT = """---
title: Little Cap
terms: US
sizes: [S, M, L]
hook: 4 mm
gauge: [{stitches: 18, rows: 20, over: 10 cm, in: sc}]
---

## Cuff

Ch 31 (34, 41).
Row 1: Sc in 2nd ch from hook and in each ch across, turn. 30 (33, 40) sc
Row 2: Ch 1, sc in each st across, turn. 30 (33, 40) sc
Row 3: Ch 1, [sc in next 4 sts, 2 sc in next st] across, turn. 36 (42, 48) sc
"""


class Desk:
    """What a page of the workbench can ask."""

    hat = HAT

    def __init__(self, client: TestClient, bench: Bench):
        self.client, self.bench, self.folder = client, bench, bench.folder
        self.token = {"X-Hookwright-Token": bench.secrets.page, "Origin": HOME}

    def get(self, path, **more):
        return self.client.get(path, **more)

    def post(self, path, json=None, **more):
        return self.client.post(path, json=json or {}, headers=self.token, **more)

    def put(self, path, json, **more):
        return self.client.put(path, json=json, headers=self.token, **more)

    def delete(self, path):
        return self.client.delete(path, headers=self.token)

    def live(self, name, window="one"):
        return self.client.websocket_connect(f"ws://127.0.0.1:{PORT}/api/m/{name}/live?token={self.bench.secrets.page}&window={window}", headers={"Origin": HOME})

    def text(self, name="cap"):
        return (self.folder / f"{name}.md").read_text("utf-8")


@pytest.fixture(scope="session")
def workers():
    """Workers that all workbenches of these tests take over from each other, since starting them takes long."""
    kept = {name: [] for name in ("typing", "panels", "making")}
    yield kept
    for several in kept.values():
        for worker in several:
            worker.end()


@contextmanager
def opened(folder: Path, workers):
    folder.mkdir()
    bench = Bench.of(folder, PORT)
    bench.warm = False
    for name, kept in workers.items():
        getattr(bench, name).workers = kept
    with TestClient(workbench(bench), base_url=HOME, follow_redirects=False) as client:
        yield client, bench
        for name in workers:
            getattr(bench, name).workers = []
    for worker in (worker for kept in workers.values() for worker in kept):
        worker.busy = False


@pytest.fixture
def desk(tmp_path, workers):
    """A workbench with one manuscript, `cap`, that has been let in."""
    with opened(tmp_path / "hers", workers) as (client, bench):
        (tmp_path / "hers" / "cap.md").write_text(HAT, "utf-8")
        assert client.get("/enter", params={"token": bench.secrets.way_in}).status_code == 303
        yield Desk(client, bench)


@pytest.fixture(scope="module")
def shared_desk(tmp_path_factory, workers):
    """The same for tests that leave the manuscript as it is: its workers are started once."""
    folder = tmp_path_factory.mktemp("shared") / "hers"
    with opened(folder, workers) as (client, bench):
        (folder / "cap.md").write_text(HAT, "utf-8")
        client.get("/enter", params={"token": bench.secrets.way_in})
        yield Desk(client, bench)


class Running:
    """A server in a process of its own, as `hookwright open` starts it."""

    def __init__(self, folder: Path):
        environment = {**os.environ, "PYTHONPATH": str(Path(__file__).resolve().parents[2] / "src"), "PYTHONUNBUFFERED": "1"}
        self.process = subprocess.Popen([sys.executable, "-m", "hookwright.desk.main", "open", str(folder), "--no-browser"], stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                                        text=True, env=environment)
        self.said, line = "", ""
        while "/enter?token=" not in line:
            line = self.process.stdout.readline()
            self.said += line
            assert line, self.said
        self.home, _, self.way_in = line.strip().partition("/enter?token=")

    def client(self):
        import httpx

        client = httpx.Client(base_url=self.home, follow_redirects=True, trust_env=False, timeout=20)
        page = client.get("/enter", params={"token": self.way_in})
        client.headers.update({"X-Hookwright-Token": re.search(r'name="token" content="([^"]+)"', page.text)[1], "Origin": self.home})
        return client


@pytest.fixture
def running(tmp_path):
    """Starts servers on tmp_path; all are ended at the end."""
    started = []

    def start():
        started.append(Running(tmp_path))
        return started[-1]

    yield start
    for one in started:
        one.process.kill()
        one.process.wait(10)
        one.process.stdout.close()
