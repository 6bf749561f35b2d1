"""The windows that have a manuscript open, so that each hears of what happened to it elsewhere."""

import asyncio


class Windows:
    """Which sockets show which manuscript."""

    def __init__(self):
        self._open: dict[str, set] = {}

    def opened(self, name: str, window) -> None:
        self._open.setdefault(name, set()).add(window)

    def closed(self, name: str, window) -> None:
        windows = self._open.get(name, set())
        windows.discard(window)
        if not windows:
            self._open.pop(name, None)

    @property
    def names(self) -> list[str]:
        """Manuscripts that are open in some window."""
        return list(self._open)

    async def tell(self, name: str, event: dict, but: str | None = None) -> None:
        """Sends the event to every window that has the manuscript open, `but` the one of that id."""
        windows = [window for window in self._open.get(name, ()) if but is None or window.id != but]
        await asyncio.gather(*(window.tell(event) for window in windows), return_exceptions=True)
