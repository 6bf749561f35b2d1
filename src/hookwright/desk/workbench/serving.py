"""Starts the workbench on the loopback address, opens her browser, and stays until it is stopped."""

import asyncio
import contextlib
import socket
import sys
from pathlib import Path

from .bench import Bench
from .store import HOME

ADDRESS = "127.0.0.1"
_PORT = "port"


def listening(port: int) -> socket.socket:
    """A socket on this machine alone: at `port`, or at a free one where it is 0. OSError where that port is taken."""
    made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        if sys.platform != "win32":
            made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind((ADDRESS, port))
    except OSError:
        made.close()
        raise
    return made


def as_before(folder: Path) -> socket.socket:
    """A socket at the port this folder had the last time, where that is free: what a window kept when the server went is kept by its address."""
    try:
        return listening(int((folder / HOME / _PORT).read_text("ascii")[:5]))
    except (OSError, ValueError, OverflowError):
        return listening(0)


def serve(folder: Path, port: int = 0, *, opened=None) -> None:
    """Runs until Ctrl-C. opened(address): called with the address to go to, once it answers there. OSError where the port is taken, or nothing
    can be kept in the folder."""
    import uvicorn

    from .app import workbench

    door = listening(port) if port else as_before(folder.resolve())
    try:
        bench = Bench.of(folder.resolve(), door.getsockname()[1])
        (folder / HOME / _PORT).write_text(str(bench.port), "ascii")
        config = uvicorn.Config(workbench(bench), log_level="critical", access_log=False, lifespan="on", ws="websockets-sansio", ws_max_size=4_000_000, ws_per_message_deflate=False, ws_ping_interval=20,
                                timeout_graceful_shutdown=1, server_header=False, date_header=False, proxy_headers=False)
        server = uvicorn.Server(config)
        address = f"http://{ADDRESS}:{bench.port}/enter?token={bench.secrets.way_in}"
        with contextlib.suppress(KeyboardInterrupt):
            asyncio.run(_run(server, door, lambda: opened and opened(address)))
    finally:
        door.close()


async def _run(server, door, begun) -> None:
    """Serves, and tells once it answers."""
    serving = asyncio.create_task(server.serve(sockets=[door]))
    while not server.started and not serving.done():
        await asyncio.sleep(0.01)
    if not serving.done():
        begun()
    await serving
