"""The pages themselves: shells that the page's script fills. Every word on them comes from the catalogue."""

import json
import secrets
from functools import cache
from pathlib import Path
from urllib.parse import quote

from starlette.responses import HTMLResponse, PlainTextResponse, RedirectResponse
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from .answers import bench_of
from .guard import cookie_name, policy, same
from .names import good_name
from .strings import LANGUAGE, for_page, t
from .told import Told

_HERE = Path(__file__).parent
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
        bench = bench_of(request)
        name = request.path_params.get("name", "")
        try:
            name = good_name(name) if name else ""
        except Told as told:
            return PlainTextResponse(told.words, told.status)
        nonce = secrets.token_urlsafe(16)
        values = {"t": t, "page": which, "name": name, "folder": str(bench.folder), "folder_name": bench.folder.name, "token": bench.secrets.page, "nonce": nonce,
                  "language": LANGUAGE, "strings": _in_script(for_page()), "quote": lambda words: quote(words, safe="")}
        answer = HTMLResponse(_template(which).render(values))
        answer.headers["content-security-policy"] = policy(bench.port, nonce)
        return answer

    return page


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
    Mount("/static", _Static(directory=_HERE / "static", check_dir=False)),
]
