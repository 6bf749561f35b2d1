"""From a request to plain values, and from what was found, or can't be done, to an answer."""

import asyncio
import functools
import json

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from .guard import FRAMED
from .strings import t
from .told import Told
from .utf16 import Utf16


class Json(JSONResponse):
    """JSON with letters as they are."""

    def render(self, content) -> bytes:
        return json.dumps(content, ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode("utf-8", "replace")


def answering(does):
    """An endpoint: what `does(request)` gives as JSON (or a Response as it is), and a Told as an answer in her words."""

    @functools.wraps(does)
    async def endpoint(request: Request) -> Response:
        try:
            value = await does(request)
        except Told as told:
            return Json(told.as_dict(), told.status)
        return value if isinstance(value, Response) else Json(value)

    return endpoint


async def asked(request: Request) -> dict:
    """The object in the body; {} where there is none."""
    body = await request.body()
    if not body:
        return {}
    try:
        value = json.loads(body)
    except (ValueError, RecursionError):
        value = None
    if not isinstance(value, dict):
        raise Told(400, "not-asked-well", t("not-asked-well"))
    return value


def name_of(request: Request) -> str:
    return request.path_params["name"]


def bench_of(request: Request):
    return request.app.state.bench


async def text_of(request: Request) -> str:
    """The text of the manuscript that the address names, as its file holds it now."""
    kept = await asyncio.to_thread(bench_of(request).shelf.read, name_of(request))
    return kept.text


def svg(text: str, drawing: str) -> Response:
    """A drawing; offsets into the text that stand in it are made a browser's."""
    there = Utf16(text)
    if not there.same:
        import re

        drawing = re.sub(r'(data-(?:from|to))="(\d+)"', lambda found: f'{found[1]}="{there.there(int(found[2]))}"', drawing)
    return Response(drawing, media_type="image/svg+xml", headers=FRAMED)
