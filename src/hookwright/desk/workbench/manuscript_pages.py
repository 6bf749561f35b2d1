"""/api/m/NAME: the text of a manuscript, saving it, and its saved states."""

import asyncio

from starlette.routing import Route, WebSocketRoute

from .answers import answering, asked, bench_of, name_of
from .live import live
from .saved_states import in_runs
from .strings import t
from .times import when
from .told import Told

SECONDS = 15.0
WHY = ("typing", "suggestion")


@answering
async def text(request) -> dict:
    kept = await asyncio.to_thread(bench_of(request).shelf.read, name_of(request))
    return {"name": name_of(request), "text": kept.text, "version": kept.version, "changed": when(kept.changed)}


@answering
async def save(request) -> dict:
    bench, name, wanted = bench_of(request), name_of(request), await asked(request)
    why = wanted.get("why") if wanted.get("why") in WHY else "typing"
    saved = await asyncio.to_thread(bench.shelf.save, name, wanted.get("text"), wanted.get("base"), why)
    if saved.version != wanted.get("base"):
        window = wanted.get("window")
        await bench.windows.tell(name, {"event": "changed", "version": saved.version, "text": saved.text, "why": "window"}, but=window if isinstance(window, str) else None)
    return {"version": saved.version, **({"text": saved.text, "merged": True} if saved.merged else {})}


@answering
async def history(request) -> dict:
    bench = bench_of(request)
    await asyncio.to_thread(bench.shelf.read, name_of(request))  # what was changed outside is a state, too
    states = await asyncio.to_thread(bench.shelf.states, name_of(request))
    return {"states": [one.as_dict() for one in in_runs(states, every=request.query_params.get("every") == "1")], "kept": len(states)}


@answering
async def state(request) -> dict:
    return {"text": await asyncio.to_thread(bench_of(request).shelf.text_of, name_of(request), request.path_params["id"])}


@answering
async def compare(request) -> dict:
    bench, name = bench_of(request), name_of(request)
    texts = [await _side(bench, name, request.query_params.get(side, "")) for side in ("a", "b")]
    return await bench.panels.run(name, "compare", tuple(texts), seconds=2 * SECONDS)


async def _side(bench, name: str, which: str) -> str:
    """The text of a state, or of the file as it is now ("" or "now")."""
    if which in ("", "now"):
        return (await asyncio.to_thread(bench.shelf.read, name)).text
    if not which.isdigit() or len(which) > 18:
        raise Told(404, "no-such-state", t("no-such-state"))
    return await asyncio.to_thread(bench.shelf.text_of, name, int(which))


@answering
async def bring_back(request) -> dict:
    bench, name = bench_of(request), name_of(request)
    saved = await asyncio.to_thread(bench.shelf.bring_back, name, request.path_params["id"])
    await bench.windows.tell(name, {"event": "changed", "version": saved.version, "text": saved.text, "why": "restored"})
    return {"version": saved.version, "text": saved.text}


ROUTES = [
    Route("/api/m/{name}", text),
    Route("/api/m/{name}", save, methods=["PUT"]),
    Route("/api/m/{name}/history", history),
    Route("/api/m/{name}/history/{id:int}", state),
    Route("/api/m/{name}/history/{id:int}/bring-back", bring_back, methods=["POST"]),
    Route("/api/m/{name}/compare", compare),
    WebSocketRoute("/api/m/{name}/live", live),
]
