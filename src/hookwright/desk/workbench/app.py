"""The whole workbench as one ASGI application."""

from contextlib import asynccontextmanager

from starlette.applications import Starlette
from starlette.responses import PlainTextResponse

from . import folder_pages, manuscript_pages, output_pages, pages, panel_pages, picture_pages
from .answers import Json
from .bench import Bench
from .guard import Guard
from .strings import t

ROUTES = [*pages.ROUTES, *folder_pages.ROUTES, *panel_pages.ROUTES, *picture_pages.ROUTES, *output_pages.ROUTES, *manuscript_pages.ROUTES]


def workbench(bench: Bench) -> Guard:
    """The application, guarded."""

    @asynccontextmanager
    async def lifespan(app):
        await bench.begin()
        try:
            yield
        finally:
            await bench.end()

    inner = Starlette(routes=ROUTES, lifespan=lifespan, exception_handlers={404: _missing, 405: _missing, 500: _slip})
    inner.state.bench = bench
    inner.state.pictures = picture_pages.Pictures()
    return Guard(inner, bench.secrets, bench.port)


async def _missing(request, error):
    if request.url.path.startswith("/api/"):
        return Json({"error": t("no-such-page"), "what": "no-such-page"}, error.status_code)
    return PlainTextResponse(t("no-such-page"), error.status_code)


async def _slip(request, error):
    words = t("own-slip", where=type(error).__name__)
    return Json({"error": words, "what": "own-slip"}, 500)
