"""The outermost layer, plain ASGI: sizes of target and headers, admission, request id, headers, one log line.

It sees every request that the HTTP parser lets through, also those that match no route. Health stands
below admission, so that a busy service still answers for itself.
"""

import json
import logging
import re
import time
import uuid
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any, Final

from wallwright.api.headers import COMMON, policy_for
from wallwright.api.problems import Refused
from wallwright.api.settings import Settings
from wallwright.api.work import RETRY_AFTER, Work

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

UNQUEUED: Final = frozenset({"/health", "/ready", "/version"})
_REQUEST_ID: Final = re.compile(rb"[A-Za-z0-9._-]{1,64}")
_LOG: Final = logging.getLogger("wallwright.access")
_FAILURES: Final = logging.getLogger("wallwright")


class Outer:
    """Wraps the application."""

    def __init__(self, app: App, settings: Settings, work: Work | None = None) -> None:
        self.app = app
        self.settings = settings
        self.work = work or Work(settings.threads, settings.concurrency)
        self.under_way = 0

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        started = time.perf_counter()
        request_id = _request_id(scope)
        scope["wallwright_request_id"] = request_id
        scope["wallwright_work"] = self.work
        seen = {"status": 0, "bytes": 0}

        async def sending(message: Message) -> None:
            if message["type"] == "http.response.start":
                seen["status"] = message["status"]
                message["headers"] = _with_common(message["headers"], request_id)
            elif message["type"] == "http.response.body":
                if scope["method"] == "HEAD":
                    message["body"] = b""
                seen["bytes"] += len(message.get("body", b""))
            await send(message)

        refused = self._refusal(scope)
        if refused is not None:
            await send_problem(refused, sending)
        else:
            await self._inside(scope, receive, sending, seen)
        _log(scope, seen, started, request_id)

    async def _inside(self, scope: Scope, receive: Receive, send: Send, seen: dict[str, int]) -> None:
        """Hand a request on. What escapes the application's own handlers is still answered with a problem."""
        queued = scope["path"] not in UNQUEUED
        self.under_way += queued
        try:
            await self.app(scope, receive, send)
        except Exception as error:
            _FAILURES.error("request %s failed", scope["wallwright_request_id"].decode("ascii"), exc_info=error)
            if not seen["status"]:
                await send_problem(Refused("internal"), send)
        finally:
            self.under_way -= queued

    def _refusal(self, scope: Scope) -> Refused | None:
        """Why a request goes no further, if it does not."""
        target = len(scope.get("raw_path") or b"") + len(scope.get("query_string") or b"")
        if target > self.settings.url_bytes:
            return Refused("uri-too-long")
        if sum(len(name) + len(value) + 4 for name, value in scope["headers"]) > self.settings.header_bytes:
            return Refused("headers-too-large")
        raw = (scope.get("raw_path") or b"").split(b"?")[0]
        if raw and raw != scope["path"].encode("utf-8", "replace"):
            return Refused("not-found")
        path = scope["path"]
        if path != "/" and (path.endswith("/") or "//" in path):
            return Refused("not-found")
        if path not in UNQUEUED and (self.work.full or self.under_way >= self.settings.inside):
            return Refused("busy", headers=RETRY_AFTER)
        return None


async def send_problem(refused: Refused, send: Send) -> None:
    """Send a problem as JSON."""
    body = refused.body()
    headers = [
        (b"content-type", b"application/problem+json"),
        (b"content-length", str(len(body)).encode()),
        (b"cache-control", b"no-store"),
        *((name.lower().encode(), value.encode()) for name, value in refused.headers.items()),
    ]
    await send({"type": "http.response.start", "status": refused.status, "headers": headers})
    await send({"type": "http.response.body", "body": body})


def _request_id(scope: Scope) -> bytes:
    for name, value in scope["headers"]:
        if name == b"x-request-id" and _REQUEST_ID.fullmatch(value):
            return bytes(value)
    return uuid.uuid4().hex.encode()


def _with_common(headers: Any, request_id: bytes) -> list[tuple[bytes, bytes]]:
    found = list(headers)
    media_type = next((value for name, value in found if name.lower() == b"content-type"), b"").decode("latin-1")
    found += COMMON
    found.append((b"content-security-policy", policy_for(media_type).encode()))
    found.append((b"x-request-id", request_id))
    return found


def _log(scope: Scope, seen: dict[str, int], started: float, request_id: bytes) -> None:
    """One line of JSON with nothing of the caller's own text: no query, no body, no path that matches no route."""
    if scope["path"] in UNQUEUED:
        return
    line = {
        "method": scope["method"] if scope["method"].isascii() else "?",
        "route": scope.get("wallwright_route", "unmatched"),
        "status": seen["status"],
        "ms": round((time.perf_counter() - started) * 1000, 2),
        "bytes": seen["bytes"],
        "request_id": request_id.decode("ascii"),
    }
    _LOG.info(json.dumps(line, separators=(",", ":")))
