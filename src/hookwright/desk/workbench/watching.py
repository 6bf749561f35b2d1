"""The eye on her folder: what other programs change in it is told to the windows that show it."""

import asyncio
from pathlib import Path

from .names import ENDING
from .told import Told


async def watch(bench) -> None:
    """Until it is cancelled."""
    from watchfiles import Change, awatch

    def manuscripts(_: Change, path: str) -> bool:
        path = Path(path)
        return path.suffix == ENDING and not path.name.startswith(".") and path.parent == bench.folder

    async for changes in awatch(bench.folder, watch_filter=manuscripts, debounce=120, step=30, recursive=False, stop_event=None):
        for name in sorted({Path(path).stem for _, path in changes}):
            await seen(bench, name)


async def seen(bench, name: str) -> None:
    """Something happened to the file of this manuscript; where another wrote it, its windows get its text."""
    try:
        kept = await asyncio.to_thread(bench.shelf.changed_outside, name)
    except Told as told:
        if told.status == 404:
            await bench.windows.tell(name, {"event": "gone"})
        return
    if kept is not None:
        await bench.windows.tell(name, {"event": "changed", "version": kept.version, "text": kept.text, "why": "outside"})
