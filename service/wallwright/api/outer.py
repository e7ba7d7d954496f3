"""The outermost layer, plain ASGI: sizes of target and headers, admission, request id, headers, counts, one log line.

It sees every request that the HTTP parser lets through, also those that match no route. Health stands
below admission, so that a busy service still answers for itself; and it is answered here, so that a service lives
before its application is made. What else comes before then waits for it.
"""

import asyncio
import logging
import re
import secrets
import time
from collections.abc import Awaitable, Callable, MutableMapping, Sequence
from typing import Any, Final

from wallwright.api.board import UNMATCHED, Board
from wallwright.api.headers import preflight, standing
from wallwright.api.problems import Refused
from wallwright.api.settings import Settings
from wallwright.api.tags import Tags, unchanged
from wallwright.api.told import told
from wallwright.api.work import RETRY_AFTER, SLOW_THREADS, Work
from wallwright.wire.answers import Problem

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

HEALTH: Final = "/health"
READY: Final = "/ready"
UNQUEUED: Final = frozenset({HEALTH, READY, "/version", "/metrics"})
ALIVE: Final = b'{"status":"ok"}'
_HOST: Final = re.compile(rb"(\[[0-9A-Fa-f:.]+\]|[A-Za-z0-9._~%!$&'()*+,;=-]*)(:[0-9]{0,5})?")
_REQUEST_ID: Final = re.compile(rb"[A-Za-z0-9._-]{1,64}")
_LOG: Final = logging.getLogger("wallwright.access")
_FAILURES: Final = logging.getLogger("wallwright")


class Outer:
    """Wraps the application, which may be put in while it serves already."""

    def __init__(self, app: App | None, settings: Settings, board: Board | None = None) -> None:
        self.app = app
        self.settings = settings
        self.board = board or Board()
        self.board.name([HEALTH, READY])
        self.work = Work(settings.threads, settings.concurrency)
        # What is slow stands in a line of its own, so that it holds up nobody's wall; the solver lets go of the interpreter.
        self.slow = Work(SLOW_THREADS, settings.concurrency)
        self.tags = Tags()
        self.draw: Callable[[Problem], bytes] | None = None
        self.under_way = 0
        self._opened = asyncio.Event()
        self._differing: Sequence[str] | None = None

    def open(self, app: App, routes: Sequence[str], draw: Callable[[Problem], bytes] | None = None) -> None:
        """Put the application in, with the templates of its routes and what draws a problem: whoever waits is answered."""
        self.board.name(routes)
        self.app = app
        self.draw = draw
        self._opened.set()

    def tried(self, differing: Sequence[str]) -> None:
        """Say which of its examples this copy answered otherwise than it should: with none it is ready."""
        self._differing = differing

    def not_ready(self) -> Refused | None:
        """Why this copy takes no work, if it does not."""
        if self.board.stopping:
            return Refused("not-ready", "This copy is stopping.", headers=RETRY_AFTER)
        if self._differing is None:
            return Refused(
                "not-ready", "This copy has just started and still tries its own examples.", headers=RETRY_AFTER
            )
        if self._differing:
            return Refused("not-ready", "This copy answers its own examples otherwise than it should.")
        return None

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._handed_on(scope, receive, send)
            return
        seen = Seen(scope)
        scope["wallwright_request_id"] = seen.request_id
        scope["wallwright_work"] = self.work
        scope["wallwright_slow"] = self.slow
        scope["wallwright_draw"] = self.draw

        async def sending(message: Message) -> None:
            if message["type"] == "http.response.start":
                seen.status = message["status"]
                message["headers"] = seen.headers(message["headers"])
            elif message["type"] == "http.response.body":
                if scope["method"] == "HEAD":
                    message["body"] = b""
                seen.sent += len(message.get("body", b""))
            await send(message)

        try:
            refused = self._refusal(scope)
            if refused is not None:
                await send_problem(scope, refused, sending)
            else:
                await self._inside(scope, receive, sending, seen)
        finally:
            self._tell(seen)

    async def _inside(self, scope: Scope, receive: Receive, send: Send, seen: "Seen") -> None:
        """Hand a request on. What escapes the application's own handlers is still answered with a problem."""
        queued = scope["path"] not in UNQUEUED
        self.under_way += queued
        self.board.load(self.under_way, self.work.under_way)
        try:
            if scope["path"] == HEALTH and scope["method"] in ("GET", "HEAD"):
                await send_whole(200, b"application/json", ALIVE, [], send)
            elif not await self._told_unchanged(scope, send):
                await self._handed_on(scope, receive, send)
        except Exception as error:
            tell_failure(scope, error)
            if not seen.status:
                await send_problem(scope, Refused("internal"), send)
        finally:
            self.under_way -= queued
            self.board.load(self.under_way, self.work.under_way)

    async def _handed_on(self, scope: Scope, receive: Receive, send: Send) -> None:
        """The application's own answer, once there is one; that there is none yet is told without waiting."""
        if self.app is None:
            refused = self.not_ready() if scope["path"] == READY else None
            if refused is not None:
                await send_problem(scope, refused, send)
                return
            await self._opened.wait()
        assert self.app is not None  # noqa: S101 - it is put in before anyone is woken
        await self.app(scope, receive, send)

    async def _told_unchanged(self, scope: Scope, send: Send) -> bool:
        """Whether the caller held a link's answer, as its tag says that is known from the last time, and was told so."""
        held = [value.decode("latin-1") for name, value in scope["headers"] if name == b"if-none-match"]
        if not held or scope["method"] not in ("GET", "HEAD"):
            return False
        tag, media_type = self.tags.of(scope["path"], scope["query_string"]) or ("", "")
        if not tag or not unchanged(held, tag):
            return False
        scope["wallwright_media_type"] = media_type
        headers = [(b"etag", tag.encode()), (b"cache-control", b"public, max-age=300")]
        await send({"type": "http.response.start", "status": 304, "headers": headers})
        await send({"type": "http.response.body", "body": b""})
        return True

    def _refusal(self, scope: Scope) -> Refused | None:
        """Why a request goes no further, if it does not."""
        target = len(scope.get("raw_path") or b"") + len(scope.get("query_string") or b"")
        if target > self.settings.url_bytes:
            return Refused("uri-too-long")
        size = sum(len(name) + len(value) + 4 for name, value in scope["headers"])
        if size > self.settings.header_bytes or len(scope["headers"]) > self.settings.header_fields:
            return Refused("headers-too-large")
        hosts = [value for name, value in scope["headers"] if name == b"host"]
        missing = not hosts and scope.get("http_version") == "1.1"
        if missing or len(hosts) > 1 or any(_HOST.fullmatch(host) is None for host in hosts):
            return Refused("no-host", headers={"Connection": "close"})
        raw = (scope.get("raw_path") or b"").split(b"?")[0]
        if raw and raw != scope["path"].encode("utf-8", "replace"):
            return Refused("not-found")
        path = scope["path"]
        if path != "/" and (path.endswith("/") or "//" in path):
            return Refused("not-found")
        if path not in UNQUEUED and (self.work.full or self.under_way >= self.settings.inside):
            return Refused("busy", headers=RETRY_AFTER)
        return None

    def _tell(self, seen: "Seen") -> None:
        """Count an answer, and tell it in one line with nothing of the caller's own text: no query, no body, no path."""
        seconds = seen.seconds()
        scope = seen.scope
        route = scope.get("wallwright_route") or (scope["path"] if scope["path"] in self.board.routes else UNMATCHED)
        self.board.count(route, seen.status, seconds, scope.get("wallwright_problem", ""))
        if scope["path"] in UNQUEUED:
            return
        _LOG.info(
            {
                "method": scope["method"] if scope["method"].isascii() else "?",
                "route": route,
                "status": seen.status,
                "ms": round(seconds * 1000, 2),
                "bytes": seen.sent,
                "request_id": seen.request_id.decode("ascii"),
            }
        )


class Seen:
    """One request on its way: when it began, what was answered."""

    def __init__(self, scope: Scope) -> None:
        self.scope = scope
        self.began = time.perf_counter()
        self.request_id = _request_id(scope)
        self.status = 0
        self.sent = 0

    def seconds(self) -> float:
        """How long it has been under way."""
        return time.perf_counter() - self.began

    def headers(self, given: Any) -> list[tuple[bytes, bytes]]:
        """An answer's headers with those that stand on every answer."""
        found = list(given)
        named = {name.lower(): value for name, value in found}
        # An answer without content, such as 304, says of what it is: who holds that takes the headers over.
        kind = named.get(b"content-type")
        found += standing(kind.decode("latin-1") if kind else self.scope.get("wallwright_media_type", ""))
        if self.scope["method"] == "OPTIONS" and b"allow" in named:
            found += preflight(named[b"allow"])
        found.append((b"x-request-id", self.request_id))
        found.append((b"server-timing", self._timing()))
        return found

    def _timing(self) -> bytes:
        waited, worked = self.scope.get("wallwright_timing", (None, None))
        parts = [] if waited is None else [f"queue;dur={waited * 1000:.2f}", f"work;dur={worked * 1000:.2f}"]
        return ", ".join([*parts, f"total;dur={self.seconds() * 1000:.2f}"]).encode()


async def send_problem(scope: Scope, refused: Refused, send: Send) -> None:
    """Send a problem."""
    scope["wallwright_problem"] = refused.code
    kind, body = told(refused, scope)
    headers = [
        (b"cache-control", b"no-store"),
        *((name.lower().encode(), value.encode()) for name, value in refused.headers.items()),
    ]
    await send_whole(refused.status, kind.encode(), body, headers, send)


async def send_whole(status: int, kind: bytes, body: bytes, headers: Sequence[tuple[bytes, bytes]], send: Send) -> None:
    """Send an answer that is there whole."""
    named = [(b"content-type", kind), (b"content-length", str(len(body)).encode()), *headers]
    await send({"type": "http.response.start", "status": status, "headers": named})
    await send({"type": "http.response.body", "body": body})


def tell_failure(scope: Scope, error: Exception) -> None:
    """Tell a failure of our own with the id of its request."""
    request_id: bytes = scope.get("wallwright_request_id", b"")
    line = {
        "message": "request failed",
        "request_id": request_id.decode("ascii"),
        "route": scope.get("wallwright_route", UNMATCHED),
    }
    _FAILURES.error(line, exc_info=error)


def _request_id(scope: Scope) -> bytes:
    given = [value for name, value in scope["headers"] if name == b"x-request-id"]
    if len(given) == 1 and _REQUEST_ID.fullmatch(given[0]):
        return bytes(given[0])
    return secrets.token_hex(16).encode()
