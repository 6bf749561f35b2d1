"""The pages themselves: shells that the page's script fills, and the plain form where there is no script. Every word on them comes from the catalogue."""

import asyncio
import json
import secrets
from functools import cache
from pathlib import Path
from urllib.parse import parse_qs, quote

from starlette.responses import HTMLResponse, PlainTextResponse, RedirectResponse
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from .answers import bench_of
from .guard import cookie_name, policy, same
from .names import good_name
from .shelf import title_of
from .strings import LANGUAGE, for_page, t
from .told import Told

_HERE = Path(__file__).parent
SECONDS = 10.0  # that one check may take
PAGES = {"folder": "/", "write": "/write/{name}", "keep": "/keep/{name}", "history": "/history/{name}", "measure": "/measure/{name}"}


async def enter(request):
    """The address that `hookwright open` prints: with this start's token it gives the cookie, and goes on to the folder (or to `to`)."""
    bench = bench_of(request)
    if not same(request.query_params.get("token"), bench.secrets.way_in):
        return PlainTextResponse(t("stranger"), 403)
    to = request.query_params.get("to", "/")
    answer = RedirectResponse(to if to.startswith("/") and not to.startswith("//") and "\\" not in to else "/", 303)
    answer.set_cookie(cookie_name(bench.port), bench.secrets.session, httponly=True, samesite="strict", path="/")
    return answer


def _page(which: str):
    async def page(request):
        name = request.path_params.get("name", "")
        try:
            kept = await asyncio.to_thread(bench_of(request).shelf.read, good_name(name)) if name else None
        except Told as told:
            return _shown(request, "told", {"heading": t("not-here"), "words": told.words}, told.status)
        return _shown(request, which, _of_manuscript(name, kept) if kept else {"manuscripts": [{"name": one, "title": one} for one in bench_of(request).shelf.names()]})

    return page


async def write_plainly(request):
    """Saving and checking from a browser without script: the form is answered by the page again, with what was found."""
    bench, name = bench_of(request), request.path_params["name"]
    given = parse_qs((await request.body()).decode("utf-8", "replace"), keep_blank_values=True, max_num_fields=10)
    text = given.get("text", [""])[0].replace("\r\n", "\n")
    try:
        saved = await asyncio.to_thread(bench.shelf.save, name, text, given.get("base", [None])[0])
        await bench.windows.tell(name, {"event": "changed", "version": saved.version, "text": saved.text, "why": "window"})
        report = await bench.typing.run(name, "check", (saved.text,), seconds=SECONDS)
        kept = await asyncio.to_thread(bench.shelf.read, name)
    except Told as told:
        both = told.more.get("theirs") if isinstance(told.more, dict) else None
        return _shown(request, "told", {"heading": t("kept-told"), "words": told.words, "yours": text, "theirs": both}, told.status)
    return _shown(request, "write", {**_of_manuscript(name, kept), "report": report})


def _of_manuscript(name: str, kept) -> dict:
    return {"name": name, "title": title_of(kept.text) or name, "text": kept.text, "version": kept.version}


def _shown(request, which: str, more: dict, status: int = 200) -> HTMLResponse:
    """A page with the values that all have, and more."""
    bench, nonce = bench_of(request), secrets.token_urlsafe(16)
    values = {"t": t, "page": which, "name": "", "report": None, "folder": str(bench.folder), "folder_name": bench.folder.name, "token": bench.secrets.page,
              "nonce": nonce, "language": LANGUAGE, "strings": _in_script(for_page()), "quote": lambda words: quote(words, safe="")}
    answer = HTMLResponse(_template(which).render({**values, **more}), status)
    answer.headers["content-security-policy"] = policy(bench.port, nonce)
    return answer


def _in_script(values) -> str:
    """JSON that may stand within a <script> of data: nothing in it can end the element."""
    from markupsafe import Markup

    return Markup(json.dumps(values, ensure_ascii=False).replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026"))


@cache
def _environment():
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    return Environment(loader=FileSystemLoader(_HERE / "templates"), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)


def _template(which: str):
    """The page's own template; the plain one where it has none."""
    return _environment().select_template([f"{which}.html", "plain.html"])


class _Static(StaticFiles):
    """Files of the page: looked for anew each time, but sent only where they have changed."""

    def file_response(self, *args, **kwargs):
        answer = super().file_response(*args, **kwargs)
        answer.headers["cache-control"] = "no-cache"
        return answer


ROUTES = [
    Route("/enter", enter),
    *(Route(path, _page(which)) for which, path in PAGES.items()),
    Route(PAGES["write"], write_plainly, methods=["POST"]),
    Mount("/static", _Static(directory=_HERE / "static", check_dir=False)),
]
