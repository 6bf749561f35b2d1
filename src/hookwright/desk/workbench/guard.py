"""What every request must show before anything is done for it, and what every answer carries.

The server listens on the loopback address, but every page of every site that her browser has open can send requests there. So:
- the Host must be ours (else a name of a stranger that resolves to this machine would do);
- whoever comes must have been let in with the token of this start (a cookie that is sent to no other site's requests);
- what writes, and every WebSocket, must come from our own page (Origin) and carry the token of the page, which no other page can read;
- a request's body is measured while it comes, and packed ones are not opened at all.
"""

import hmac
import secrets
from dataclasses import dataclass, field
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs

from .strings import t
from .told import Told

MOST_BODY_BYTES = 4_000_000  # a text of 1 MB may be four times as long in JSON's escapes
READING = ("GET", "HEAD")
TOKEN_HEADER = "x-hookwright-token"

_HEADERS = [
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"permissions-policy", b"camera=(), geolocation=(), microphone=(self), payment=(), usb=()"),
]


@dataclass(frozen=True, slots=True)
class Secrets:
    """Of one start of the server: `way_in` opens it once in the address, `session` is the cookie, `page` what our pages send with each writing."""

    way_in: str = field(default_factory=lambda: secrets.token_urlsafe(32))
    session: str = field(default_factory=lambda: secrets.token_urlsafe(32))
    page: str = field(default_factory=lambda: secrets.token_urlsafe(32))


def same(given, wanted: str) -> bool:
    """Whether a secret is the one wanted, told in the same time whatever is wrong with it."""
    return isinstance(given, str) and hmac.compare_digest(given.encode("utf-8", "replace"), wanted.encode())


class Guard:
    """ASGI middleware round the whole workbench. port: the one it listens on."""

    def __init__(self, app, secrets: Secrets, port: int):
        self.app, self.secrets, self.port = app, secrets, port
        self.hosts = {f"127.0.0.1:{port}", f"localhost:{port}"}
        if port == 80:
            self.hosts |= {"127.0.0.1", "localhost"}
        self.origins = {f"http://{host}" for host in self.hosts}
        self.cookie = cookie_name(port)

    async def __call__(self, scope, receive, send):
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        headers = {name.decode("latin-1").lower(): value.decode("latin-1") for name, value in scope["headers"]}
        if len(headers) != len(scope["headers"]) and any(sum(name == one for name, _ in scope["headers"]) > 1 for one in (b"host", b"origin", b"content-length")):
            refused = 400, "not-asked-well"
        else:
            refused = self._refused(scope, headers)
        if refused is not None:
            await _refuse(scope, receive, send, *refused)
            return
        await self._let_in(scope, headers, receive, send)

    def _refused(self, scope, headers) -> tuple[int, str] | None:
        """Why it is not let in: (status, message), None where it is."""
        if headers.get("host", "").lower() not in self.hosts:
            return 421, "stranger"
        if headers.get("sec-fetch-site") in ("cross-site", "same-site"):
            return 403, "foreign"
        socket = scope["type"] == "websocket"
        writes = socket or scope["method"] not in READING
        origin = headers.get("origin")
        if (origin is not None or writes) and origin not in self.origins:
            return 403, "foreign"
        if not socket and scope["path"] == "/enter" and not writes:
            return None
        if not same(_cookie(headers.get("cookie", ""), self.cookie), self.secrets.session):
            return 403, "stranger"
        if writes:
            given = headers.get(TOKEN_HEADER)
            if given is None and (socket or not scope["path"].startswith("/api/")):  # a page can give a WebSocket no header, nor a form without script
                given = (parse_qs(scope.get("query_string", b"").decode("latin-1")).get("token") or [None])[0]
            if not same(given, self.secrets.page):
                return 403, "foreign"
        if not socket and headers.get("content-encoding", "identity").lower() != "identity":
            return 415, "body-packed"
        length = headers.get("content-length")
        if length is not None and (not length.isdigit() or int(length) > MOST_BODY_BYTES):
            return 413, "body-too-long"
        return None

    async def _let_in(self, scope, headers, receive, send):
        taken = 0

        async def measured():
            nonlocal taken
            message = await receive()
            if message["type"] == "http.request":
                taken += len(message.get("body", b""))
                if taken > MOST_BODY_BYTES:
                    raise Told(413, "body-too-long", t("body-too-long", most=MOST_BODY_BYTES // 1000))
            return message

        async def told(message):
            if message["type"] == "http.response.start":
                have = {name.lower() for name, _ in message["headers"]}
                more = [*_HEADERS, (b"cache-control", b"no-store"), (b"x-frame-options", b"DENY"), (b"content-security-policy", policy(self.port).encode())]
                message = {**message, "headers": [*message["headers"], *((name, value) for name, value in more if name not in have)]}
            await send(message)

        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        await self.app(scope, measured, told)


def cookie_name(port: int) -> str:
    """Cookies know no ports, so each workbench has a name of its own."""
    return f"hookwright-{port}"


def policy(port: int, nonce: str = "") -> str:
    """What a page of ours may load: only from here, no script or style within the page but those that bear the nonce."""
    styles = f"'self' 'nonce-{nonce}'" if nonce else "'self'"
    sockets = f"ws://127.0.0.1:{port} ws://localhost:{port}"
    return (f"default-src 'none'; script-src 'self'; style-src {styles}; img-src 'self' data: blob:; font-src 'self'; connect-src 'self' {sockets}; "
            "frame-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'")


# A sheet or picture is shown within our page, in a frame of its own that runs nothing and loads nothing.
FRAMED = {
    "content-security-policy": "sandbox; default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'self'",
    "x-frame-options": "SAMEORIGIN",
}


def _cookie(header: str, name: str) -> str | None:
    try:
        found = SimpleCookie(header).get(name)
    except CookieError:
        return None
    return found.value if found is not None else None


async def _refuse(scope, receive, send, status: int, what: str) -> None:
    if scope["type"] == "websocket":
        await receive()
        await send({"type": "websocket.close", "code": 4000 + status % 1000, "reason": what})
        return
    from starlette.responses import JSONResponse, PlainTextResponse

    words = t(what, most=MOST_BODY_BYTES // 1000)
    page = scope["method"] in READING and not scope["path"].startswith("/api/")
    answer = PlainTextResponse(words, status) if page else JSONResponse({"error": words, "what": what}, status)
    for name, value in [*_HEADERS, (b"cache-control", b"no-store"), (b"content-security-policy", b"default-src 'none'; frame-ancestors 'none'")]:
        answer.headers[name.decode()] = value.decode()
    await answer(scope, receive, send)
