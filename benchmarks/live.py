"""How long she waits for the findings when she pauses in typing: measured at the page's end of the real line, with the real server.

A manuscript of 400 written rows in five sizes is open; a row of it is changed at one place after another, as typing changes it, and each
time the clock runs from the text being sent to the report being there.
"""

import json
import random
import re
import subprocess
import sys
import tempfile
from contextlib import ExitStack
from pathlib import Path
from time import perf_counter, sleep

import manuscripts


class Line:
    """A server on a folder with one manuscript, and the line of a window that has it open."""

    def __init__(self, text: str):
        from websockets.sync.client import connect

        self._folder = tempfile.TemporaryDirectory()
        (Path(self._folder.name) / "long.md").write_text(text, "utf-8")
        self._server = subprocess.Popen([sys.executable, "-m", "hookwright.desk.main", "open", self._folder.name, "--no-browser"], stdout=subprocess.PIPE, text=True)
        address = ""
        while "/enter" not in address:
            address = self._server.stdout.readline()
        home, _, token = address.strip().partition("/enter?token=")
        cookie, page = _let_in(home, token)
        self._closing = ExitStack()
        self._line = self._closing.enter_context(connect(f"{home.replace('http', 'ws')}/api/m/long/live?token={page}&window=bench", origin=home, additional_headers={"Cookie": cookie},
                             max_size=None, compression=None, proxy=None))
        self._serial = 0

    def check(self, text: str) -> tuple[float, dict]:
        """(seconds until the report is there, the report)"""
        self._serial += 1
        started = perf_counter()
        self._line.send(json.dumps({"op": "check", "serial": self._serial, "text": text}))
        while True:
            event = json.loads(self._line.recv(60))
            if event.get("serial") == self._serial:
                return perf_counter() - started, event

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._closing.close()
        self._server.terminate()
        self._server.wait(10)
        self._folder.cleanup()


def _let_in(home: str, token: str) -> tuple[str, str]:
    import httpx

    with httpx.Client(follow_redirects=True, trust_env=False) as client:
        page = client.get(f"{home}/enter", params={"token": token}).text
        return "; ".join(f"{name}={value}" for name, value in client.cookies.items()), re.search(r'name="token" content="([^"]+)"', page)[1]


def pauses(pauses: int = 60, rows: int = 400) -> list[float]:
    """Seconds from a pause in typing to the findings, one a pause."""
    text, chance, taken = manuscripts.long_rows(rows), random.Random(7), []
    with Line(text) as line:
        line.check(text)
        lines = text.split("\n")
        written = [at for at, words in enumerate(lines) if words.startswith("Row ")]
        for pause in range(pauses + 3):
            at = chance.choice(written)
            changed = list(lines)
            kind = pause % 3  # a word half typed, a number changed, a remark added
            changed[at] = lines[at][:-4] if kind == 0 else re.sub(r"(\d+) \(", lambda found: f"{int(found[1]) + 1} (", lines[at], count=1) if kind == 1 else lines[at].replace(", turn", ", turn the work")
            seconds, report = line.check("\n".join(changed))
            if pause >= 3:
                taken.append(seconds)
            assert report["event"] == "report", report
            sleep(0.05)
    return taken


def percentile(values: list[float], share: float) -> float:
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, round(share * (len(ordered) - 1)))]


if __name__ == "__main__":
    taken = pauses()
    print(f"p50 {percentile(taken, 0.5) * 1000:.0f} ms, p95 {percentile(taken, 0.95) * 1000:.0f} ms, most {max(taken) * 1000:.0f} ms")
