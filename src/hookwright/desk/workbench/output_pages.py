"""/api/m/NAME/out and /api/jobs: what goes out, made by jobs; and pictures that take their time."""

import asyncio
import unicodedata
from urllib.parse import quote

from starlette.responses import FileResponse
from starlette.routing import Route

from .answers import Json, answering, asked, bench_of, name_of, text_of
from .names import good_name
from .strings import t
from .told import Told

MOST_FORMATS = 60


@answering
async def out(request):
    wanted = await asked(request)
    formats = wanted.get("formats")
    if not isinstance(formats, list) or not formats or len(formats) > MOST_FORMATS:
        raise Told(400, "out-nothing", t("out-nothing"))
    from .output import known

    formats = list(dict.fromkeys(str(one)[:60] for one in formats))
    unknown = next((one for one in formats if one not in known()), None)
    if unknown is not None:
        raise Told(400, "out-unknown", t("out-unknown", what=unknown))
    name = good_name(name_of(request))
    work = {"text": await text_of(request), "name": name, "formats": formats, "size": str(wanted.get("size") or "")[:200],
            "pictures": wanted["pictures"] if wanted.get("pictures") in ("none", "first", "all") else "first"}
    job = bench_of(request).jobs.begin(name, work, f"{name}.zip", "application/zip")
    return Json({"job": job.id}, 202)


@answering
async def formats(request):
    from .output import known

    return {"formats": known()}


@answering
async def job(request):
    return bench_of(request).jobs.job(request.path_params["id"]).as_dict()


@answering
async def cancel(request):
    return (await bench_of(request).jobs.cancel(request.path_params["id"])).as_dict()


@answering
async def file(request):
    made = bench_of(request).jobs.job(request.path_params["id"])
    if made.state != "done" or made.file is None or not await asyncio.to_thread(made.file.is_file):
        raise Told(404, "no-such-job", t("no-such-job"))
    answer = FileResponse(made.file, media_type=made.kind)
    if made.kind == "application/zip":
        plain = unicodedata.normalize("NFKD", made.name).encode("ascii", "ignore").decode().replace('"', "").replace("\\", "") or "pattern.zip"
        answer.headers["content-disposition"] = f"attachment; filename=\"{plain}\"; filename*=UTF-8''{quote(made.name, safe='')}"
    return answer


ROUTES = [
    Route("/api/m/{name}/out", formats, methods=["GET"]),
    Route("/api/m/{name}/out", out, methods=["POST"]),
    Route("/api/jobs/{id}", job, methods=["GET"]),
    Route("/api/jobs/{id}", cancel, methods=["DELETE"]),
    Route("/api/jobs/{id}/file", file),
]

