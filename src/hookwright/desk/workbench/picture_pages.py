"""/api/m/NAME/picture.png and surface.glb: a piece in its yarn, as a still picture and to be turned.

They take their time, so what was made last is remembered, and of what is asked for one manuscript only the newest is still worked on.
"""

import asyncio
from collections import OrderedDict

from starlette.responses import Response
from starlette.routing import Route

from .answers import answering, bench_of, name_of
from .strings import t
from .told import Told

SECONDS = 90.0
MOST_LETTERS = 200
MOST_KEPT_BYTES = 48_000_000
KINDS = {"picture": "image/png", "surface": "model/gltf-binary"}


class Pictures:
    """What was made last, and the newest work for each manuscript and kind; what is asked for before it is stopped."""

    def __init__(self):
        self._running: dict[tuple, asyncio.Task] = {}
        self._made: OrderedDict[tuple, bytes] = OrderedDict()

    async def of(self, what: tuple, key: tuple, work) -> bytes | None:
        """what: the very picture; key: whose newest it is; work(): a coroutine that makes it. None where a newer one was asked for meanwhile."""
        if what in self._made:
            self._made.move_to_end(what)
            return self._made[what]
        before = self._running.get(key)
        if before is not None:
            before.cancel()
        mine = self._running[key] = asyncio.ensure_future(work())
        await asyncio.wait([mine])
        if self._running.get(key) is mine:
            del self._running[key]
        if mine.cancelled():
            return None
        self._made[what] = mine.result()
        while len(self._made) > 1 and sum(map(len, self._made.values())) > MOST_KEPT_BYTES:
            self._made.popitem(last=False)
        return self._made[what]


def _page(kind: str):
    @answering
    async def page(request):
        bench, name = bench_of(request), name_of(request)
        piece, size = ((request.query_params.get(key) or "")[:MOST_LETTERS] for key in ("piece", "size"))
        kept = await asyncio.to_thread(bench.shelf.read, name)
        pictures = request.app.state.pictures
        made = await pictures.of((kept.version, kind, piece, size), (name, kind), lambda: bench.making.run(name, kind, (kept.text, piece, size), seconds=SECONDS))
        if made is None:
            raise Told(409, "newer-asked", t("picture-making"))
        return Response(made, media_type=KINDS[kind])

    return page


ROUTES = [Route("/api/m/{name}/picture.png", _page("picture")), Route("/api/m/{name}/surface.glb", _page("surface"))]
