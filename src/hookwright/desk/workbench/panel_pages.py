"""/api/m/NAME/...: what stands beside the manuscript, of its text as it is saved, or as it stands in the window (POST with `text`)."""

import asyncio

from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from .answers import answering, asked, bench_of, name_of, svg, text_of
from .guard import FRAMED
from .strings import t
from .text_file import good_text
from .told import Told

SECONDS = 20.0
MOST_LETTERS = 200


def _word(request, key: str) -> str | None:
    value = request.query_params.get(key)
    return value[:MOST_LETTERS] if value else None


def _terms(request) -> str | None:
    value = (_word(request, "terms") or "").lower()
    return value if value in ("us", "uk") else None


async def _panel(request, task: str, *args):
    """The text and what the task made of it. A POST brings the text of the window with it."""
    text = await text_of(request) if request.method == "GET" else good_text((await asked(request)).get("text"))
    return text, await bench_of(request).panels.run(name_of(request), task, (text, *args), seconds=SECONDS)


@answering
async def sheet(request):
    _, page = await _panel(request, "sheet", _terms(request), _word(request, "size"))
    return HTMLResponse(page, headers=FRAMED)


@answering
async def chart(request):
    text, made = await _panel(request, "chart", _word(request, "piece"), _word(request, "size"), _terms(request))
    return svg(text, made["svg"])


@answering
async def schematic(request):
    text, made = await _panel(request, "schematic", _word(request, "piece"), _word(request, "size"))
    return svg(text, made["svg"])


@answering
async def together(request):
    return (await _panel(request, "together", _word(request, "size")))[1]


@answering
async def yarn(request):
    return (await _panel(request, "yarn", _word(request, "yarn")))[1]


@answering
async def sizes(request):
    return (await _panel(request, "sizes"))[1]


@answering
async def try_sizes(request):
    wanted = await asked(request)
    text = good_text(wanted["text"]) if "text" in wanted else await text_of(request)
    eases = wanted.get("ease", wanted.get("eases"))
    return await bench_of(request).panels.run(name_of(request), "try_eases", (text, eases), seconds=SECONDS)


@answering
async def swatches(request):
    return (await _panel(request, "swatches"))[1]


@answering
async def reckon(request):
    return await bench_of(request).panels.run(name_of(request), "reckon", (await asked(request),), seconds=SECONDS)


@answering
async def words(request):
    return (await _panel(request, "words"))[1]


@answering
async def mends(request):
    wanted = await asked(request)
    kind, start = wanted.get("kind"), wanted.get("from")
    if not isinstance(kind, str) or not isinstance(start, int) or isinstance(start, bool):
        raise Told(400, "not-asked-well", t("not-asked-well"))
    text = good_text(wanted["text"]) if "text" in wanted else await text_of(request)
    return await bench_of(request).panels.run(name_of(request), "mends", (text, kind, start), seconds=SECONDS)


@answering
async def measure_form(request):
    return (await _panel(request, "measure_form"))[1]


@answering
async def measure(request):
    wanted = await asked(request)
    text = await text_of(request)
    return await bench_of(request).panels.run(name_of(request), "measure", (text, wanted), seconds=SECONDS)


@answering
async def measured_sheet(request):
    """The same as `measure`, for a frame: what is asked for stands in the address, measures as `m.NAME`."""
    given = request.query_params
    wanted = {key: given.get(key) for key in ("gauge", "yarn", "size", "terms")} | {"measures": {key[2:]: value for key, value in given.items() if key.startswith("m.")}}
    page = await bench_of(request).panels.run(name_of(request), "measured_sheet", (await text_of(request), wanted), seconds=SECONDS)
    return HTMLResponse(page, headers=FRAMED)


@answering
async def keeper(request):
    bench = bench_of(request)
    _, made = await _panel(request, "keeper", _word(request, "size"), _terms(request))
    kept = await asyncio.to_thread(bench.store.keeping, name_of(request), made["size"] or "")
    return {**made, "at": kept.get("at", 0), "ticked": kept.get("ticked", []), "seconds": kept.get("seconds", {})}


@answering
async def keep(request):
    bench, wanted = bench_of(request), await asked(request)
    await text_of(request)
    at, ticked, seconds = wanted.get("at", 0), wanted.get("ticked", []), wanted.get("seconds", {})
    good = isinstance(at, int) and 0 <= at < 100_000 and isinstance(ticked, list) and len(ticked) < 100_000 and isinstance(seconds, (list, dict)) and len(seconds) < 100_000
    if not good:
        raise Told(400, "not-asked-well", t("not-asked-well"))
    size = str(wanted.get("size") or request.query_params.get("size") or "")[:MOST_LETTERS]
    await asyncio.to_thread(bench.store.keep_keeping, name_of(request), size, {"at": at, "ticked": ticked, "seconds": seconds})
    return Response(status_code=204)


BOTH = ["GET", "POST"]
ROUTES = [
    Route("/api/m/{name}/sheet", sheet, methods=BOTH),
    Route("/api/m/{name}/chart", chart, methods=BOTH),
    Route("/api/m/{name}/schematic", schematic, methods=BOTH),
    Route("/api/m/{name}/together", together, methods=BOTH),
    Route("/api/m/{name}/yarn", yarn, methods=BOTH),
    Route("/api/m/{name}/sizes", sizes, methods=BOTH),
    Route("/api/m/{name}/sizes/try", try_sizes, methods=["POST"]),
    Route("/api/m/{name}/swatches", swatches, methods=BOTH),
    Route("/api/m/{name}/swatches/reckon", reckon, methods=["POST"]),
    Route("/api/m/{name}/measure", measure_form, methods=["GET"]),
    Route("/api/m/{name}/measure", measure, methods=["POST"]),
    Route("/api/m/{name}/measure/sheet", measured_sheet, methods=["GET"]),
    Route("/api/m/{name}/words", words, methods=BOTH),
    Route("/api/m/{name}/mends", mends, methods=["POST"]),
    Route("/api/m/{name}/keeper", keeper, methods=["GET"]),
    Route("/api/m/{name}/keeper", keep, methods=["PUT"]),
]
