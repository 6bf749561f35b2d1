"""/api/folder: her manuscripts with what is known of each, new ones, pasted ones, other names, putting away."""

import asyncio
import json

from starlette.responses import Response
from starlette.routing import Route

from .answers import answering, asked, bench_of, name_of
from .constructions import construction, constructions
from .guard import FRAMED
from .names import place_of
from .strings import t
from .text_file import good_text, read_text
from .times import when
from .told import Told

SECONDS = 15.0
PATIENCE = 1.2  # that the folder waits for what must be worked anew; the rest is told the next time it is asked for
NOT_READ = {"title": "", "summary": "", "sizes": [], "state": "not read", "must_mend": 0, "look": 0, "picture": None}


@answering
async def folder(request) -> dict:
    bench = bench_of(request)
    cards = []
    for put_away in (False, True):
        for name in await asyncio.to_thread(bench.shelf.names, put_away):
            cards.append((name, put_away))
    tasks = [asyncio.create_task(_card(bench, name, put_away)) for name, put_away in cards]
    if tasks:
        await asyncio.wait(tasks, timeout=PATIENCE)
    out, waiting = [], 0
    for (name, put_away), task in zip(cards, tasks, strict=True):
        if task.done() and not task.exception():
            if task.result() is not None:
                out.append(task.result())
        else:
            waiting += 1
            out.append({"name": name, **NOT_READ, "title": name, "state": "being read", "changed": None, "archived": put_away})
    return {"folder": str(bench.folder), "manuscripts": out, "being_read": waiting, "templates": [one.as_dict() for one in constructions()]}


async def _card(bench, name: str, put_away: bool) -> dict | None:
    """What the folder shows of one manuscript; None for one that has just gone."""
    try:
        home = bench.shelf.attic() if put_away else bench.folder
        kept = await asyncio.to_thread(read_text, place_of(home, name))
    except Told as told:
        return None if told.status == 404 else {"name": name, **NOT_READ, "title": name, "summary": told.words, "changed": None, "archived": put_away}
    facts = await summary_of(bench, name, kept)
    picture = f"/api/m/{_quoted(name)}/small.png?version={kept.version}" if facts.pop("pictured", False) and not put_away else None
    return {"name": name, **facts, "picture": picture, "changed": when(kept.changed), "archived": put_away}


def _quoted(name: str) -> str:
    from urllib.parse import quote

    return quote(name, safe="")


async def summary_of(bench, name: str, kept) -> dict:
    """What is known of a text; worked once, then remembered by its version."""
    from hookwright import __version__

    async def work() -> bytes:
        try:
            facts = await bench.panels.run(name, "summary", (kept.text,), seconds=SECONDS)
        except Told as told:  # it is not tried again and again
            facts = {**NOT_READ, "title": name, "summary": told.words, "state": "must mend", "must_mend": 1}
        return json.dumps(facts).encode()

    return json.loads(await _remembered(bench, kept.version, f"summary {__version__}", work))


async def _remembered(bench, version: str, of: str, work) -> bytes:
    """What was found of a text before; else what `work()` gives, which is then kept."""

    async def once() -> bytes:
        found = await asyncio.to_thread(bench.store.known, version, of)
        if found is None:
            found = await work()
            await asyncio.to_thread(bench.store.keep_known, version, of, found)
        return found

    return await bench.once((version, of), once)


@answering
async def small_picture(request):
    bench = bench_of(request)
    kept = await asyncio.to_thread(bench.shelf.read, name_of(request))

    async def work() -> bytes:
        return await bench.making.run(name_of(request), "small", (kept.text,), seconds=4 * SECONDS) or b""

    drawing = await _remembered(bench, kept.version, "small", work)
    if not drawing:
        raise Told(404, "not-there-yet", t("not-there-yet"))
    return Response(drawing, media_type="image/svg+xml" if drawing.startswith(b"<svg") else "image/png", headers={**FRAMED, "cache-control": "private, max-age=3600"})


@answering
async def pieces(request) -> dict:
    kept = await asyncio.to_thread(bench_of(request).shelf.read, name_of(request))
    return await bench_of(request).panels.run(name_of(request), "pieces", (kept.text,), seconds=SECONDS)


@answering
async def new(request) -> dict:
    bench, wanted = bench_of(request), await asked(request)
    name = wanted.get("name") or ""
    if "copy_of" in wanted:
        return {"name": await asyncio.to_thread(bench.shelf.copy, wanted["copy_of"], name)}
    text = construction(wanted["template"]).text if "template" in wanted else good_text(wanted.get("pasted"))
    if not text.strip():
        raise Told(400, "nothing-pasted", t("nothing-pasted"))
    return {"name": await asyncio.to_thread(bench.shelf.new, text, name)}


@answering
async def tidy(request) -> dict:
    text = good_text((await asked(request)).get("pasted"))
    if not text.strip():
        raise Told(400, "nothing-pasted", t("nothing-pasted"))
    return await bench_of(request).panels.run("", "tidy", (text,), seconds=SECONDS)


@answering
async def rename(request) -> dict:
    bench, name = bench_of(request), name_of(request)
    made = await asyncio.to_thread(bench.shelf.rename, name, (await asked(request)).get("to"))
    await bench.windows.tell(name, {"event": "renamed", "to": made})
    return {"name": made}


@answering
async def archive(request) -> dict:
    bench, name = bench_of(request), name_of(request)
    made = await asyncio.to_thread(bench.shelf.put_away, name)
    await bench.windows.tell(name, {"event": "gone"})
    return {"name": made}


@answering
async def restore(request) -> dict:
    return {"name": await asyncio.to_thread(bench_of(request).shelf.take_out, name_of(request))}


@answering
async def archived_text(request) -> dict:
    kept = await asyncio.to_thread(bench_of(request).shelf.read, name_of(request), True)
    return {"name": name_of(request), "text": kept.text, "version": kept.version, "changed": when(kept.changed)}


ROUTES = [
    Route("/api/folder", folder),
    Route("/api/folder/new", new, methods=["POST"]),
    Route("/api/folder/tidy", tidy, methods=["POST"]),
    Route("/api/m/{name}/rename", rename, methods=["POST"]),
    Route("/api/m/{name}/archive", archive, methods=["POST"]),
    Route("/api/m/{name}/restore", restore, methods=["POST"]),
    Route("/api/m/{name}/small.png", small_picture),
    Route("/api/m/{name}/pieces", pieces),
    Route("/api/archived/{name}", archived_text),
]
