"""The live line of one window: its texts are checked while she writes, and it hears what others did to the manuscript.

The newest text wins: while one is being checked only the last one that came is remembered. One that takes long while a newer is waiting is ended.
"""

import asyncio
import contextlib
import json
import time

from starlette.websockets import WebSocket, WebSocketDisconnect

from .bench import Bench
from .names import good_name
from .text_file import good_text
from .told import Told

SECONDS = 10.0  # that one check may take
PATIENCE = 2.0  # that it may take while a newer text waits


class Window:
    """One socket, with the id that the page gave its window."""

    def __init__(self, socket: WebSocket, bench: Bench, name: str):
        self.socket, self.bench, self.name = socket, bench, name
        self.id = socket.query_params.get("window", "")[:80]
        self._sending = asyncio.Lock()
        self._next: tuple | None = None
        self._come = asyncio.Event()
        self._running: asyncio.Task | None = None
        self._since = 0.0

    async def tell(self, event: dict) -> None:
        async with self._sending:
            await self.socket.send_text(json.dumps(event, ensure_ascii=False, separators=(",", ":")))

    async def go(self) -> None:
        """Until the window is closed."""
        checking = asyncio.create_task(self._check_all())
        try:
            while True:
                await self._heard(await self.socket.receive_text())
        except (WebSocketDisconnect, RuntimeError, KeyError):
            pass
        finally:
            checking.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await checking

    async def _heard(self, words: str) -> None:
        try:
            asked = json.loads(words)
            serial, text = asked["serial"], asked["text"]
            if asked["op"] != "check" or not isinstance(serial, (int, str)):
                return
            text = good_text(text)
        except (ValueError, KeyError, TypeError, RecursionError):
            return
        except Told as told:
            await self.tell({"event": "not-checked", "serial": serial, **told.as_dict()})
            return
        self._next = serial, text, time.perf_counter()
        self._come.set()
        if self._running is not None and time.monotonic() - self._since > PATIENCE:
            self._running.cancel()

    async def _check_all(self) -> None:
        while True:
            await self._come.wait()
            self._come.clear()
            (serial, text, came), self._next = self._next, None
            self._since = time.monotonic()
            self._running = asyncio.create_task(self.bench.typing.run(self.name, "check", (text, self.name), seconds=SECONDS))
            try:
                await self._wait_for(self._running)
                event = {"event": "report", "serial": serial, "ms": round((time.perf_counter() - came) * 1000, 1), **self._running.result()}
            except asyncio.CancelledError:
                self._running.cancel()
                if asyncio.current_task().cancelling():
                    raise
                continue  # a newer text is waiting
            except Told as told:
                event = {"event": "not-checked", "serial": serial, **told.as_dict()}
            finally:
                self._running = None
            if self._next is None:  # else what was found is stale
                await self.tell(event)

    async def _wait_for(self, running) -> None:
        """Waits for a check, for PATIENCE only once a newer text has come."""
        while True:
            await asyncio.wait([running], timeout=PATIENCE)
            if running.done():
                if running.cancelled():
                    raise asyncio.CancelledError
                running.result()
                return
            if self._next is not None:
                running.cancel()
                await asyncio.wait([running])
                raise asyncio.CancelledError


async def live(socket: WebSocket) -> None:
    """/api/m/NAME/live"""
    bench: Bench = socket.app.state.bench
    try:
        name = good_name(socket.path_params["name"])
        await asyncio.to_thread(bench.shelf.read, name)
    except Told:
        await socket.close(4404)
        return
    await socket.accept()
    window = Window(socket, bench, name)
    bench.windows.opened(name, window)
    try:
        await window.go()
    finally:
        bench.windows.closed(name, window)
