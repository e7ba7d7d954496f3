"""The application factory: routes from the table of operations, problems for everything that goes wrong."""

import asyncio
import functools
import re
import time
from collections.abc import Callable, Sequence
from typing import Any, Final

import msgspec
from litestar import Litestar, Request, Response, route
from litestar.exceptions import HTTPException, MethodNotAllowedException, NotFoundException
from litestar.handlers import HTTPRouteHandler
from litestar.plugins import PluginProtocol
from litestar.plugins.core import MsgspecDIPlugin

from wallwright import __version__
from wallwright.api import golden, links, tags
from wallwright.api.answers import MEDIA, encoded, plan_refused
from wallwright.api.board import Board
from wallwright.api.codes import code_pages
from wallwright.api.negotiation import chosen, require_json, require_plain
from wallwright.api.outer import ALIVE, HEALTH, READY, Outer, tell_failure
from wallwright.api.problems import PROBLEMS, Refused
from wallwright.api.reader import Reader
from wallwright.api.settings import Settings, settings_from
from wallwright.api.told import told
from wallwright.api.work import Work
from wallwright.findings import PlanRefused
from wallwright.operations.converters import CONVERTERS
from wallwright.operations.document import document_bytes
from wallwright.operations.examples import EXAMPLES, example_bytes
from wallwright.operations.problem_drawing import problem_drawing
from wallwright.operations.published import published_bytes
from wallwright.operations.table import OPERATIONS, Operation
from wallwright.wire import limits
from wallwright.wire.answers import Problem

AnyRequest = Request[Any, Any, Any]


async def body_of(request: AnyRequest, settings: Settings) -> bytes:
    """The whole body. Raises Refused with 413 past the limit and 408 where it does not arrive in time."""
    declared = request.headers.get("content-length", "")
    if declared.isdigit() and int(declared) > settings.body_bytes:
        raise Refused("body-too-large")
    found = bytearray()
    try:
        async with asyncio.timeout(settings.body_wait_seconds):
            more = True
            while more:
                message = await request.receive()
                found += message.get("body", b"")  # type: ignore[arg-type]
                more = message["type"] == "http.request" and message.get("more_body", False)
                if len(found) > settings.body_bytes:
                    raise Refused("body-too-large")
    except TimeoutError:
        raise Refused("request-timeout", headers={"Connection": "close"}) from None
    return bytes(found)


def _posting(operation: Operation, reader: Reader, settings: Settings, work: Work) -> HTTPRouteHandler:
    offers = [MEDIA[form] for form in operation.forms]
    forms = {MEDIA[form]: form for form in operation.forms}

    def answered(body: bytes, media_type: str) -> Response[bytes]:
        asked = reader.read(body)
        form = forms[media_type]
        try:
            content = encoded(operation, asked, form)
        except PlanRefused as refused:
            raise plan_refused(asked, refused) from None
        headers = {"vary": "Accept", "cache-control": "no-store"}
        link = links.link(f"{operation.path}.{form}", body, settings.url_bytes)
        if link:
            headers["content-location"] = link
        return Response(content, media_type=media_type, headers=headers)

    @route(operation.path, http_method=["POST"], status_code=200, name=operation.name)
    async def post(request: AnyRequest) -> Response[bytes]:
        request.scope["wallwright_route"] = operation.path  # type: ignore[typeddict-unknown-key]
        media_type = chosen(request.headers.getall("accept", []), offers)
        require_json(request.headers.getall("content-type", []))
        require_plain(request.headers.getall("content-encoding", []))
        body = await body_of(request, settings)
        return await worked(request, work, functools.partial(answered, body, media_type))

    return post


async def worked(request: AnyRequest, work: Work, task: Callable[[], Response[bytes]]) -> Response[bytes]:
    """An answer computed off the event loop; how long it stood in line and was computed is kept for its header."""
    began = time.perf_counter()
    done = await work.timed(task)
    spent = time.perf_counter() - began - done.waited
    request.scope["wallwright_timing"] = (done.waited, spent)  # type: ignore[typeddict-unknown-key]
    return done.result


def _linked(operation: Operation, form: str, reader: Reader, outer: Outer, work: Work) -> HTTPRouteHandler:
    path = f"{operation.path}.{form}"

    def answered(query: bytes, held: list[str]) -> Response[bytes]:
        body = links.unpacked(query, outer.settings.body_bytes)
        try:
            asked = reader.read(body)
        except Refused as refused:
            raise Refused("link-holds-no-request", refused.detail, refused.errors) from None
        try:
            tag = tags.etag(operation.identity(asked), form)
            headers = {"etag": tag, "cache-control": "public, max-age=300"}
            if tags.unchanged(held, tag):
                return Response(b"", status_code=304, media_type=MEDIA[form], headers=headers)
            content = encoded(operation, asked, form)
            # Whether there is any answer to hold is known only now.
            if tags.any_held(held):
                return Response(b"", status_code=304, media_type=MEDIA[form], headers=headers)
        except PlanRefused as refused:
            raise plan_refused(asked, refused) from None
        return Response(content, media_type=MEDIA[form], headers=headers)

    @route(path, http_method=["GET", "HEAD"], status_code=200, name=f"{operation.name}-{form}")
    async def get(request: AnyRequest) -> Response[bytes]:
        request.scope["wallwright_route"] = path  # type: ignore[typeddict-unknown-key]
        request.scope["wallwright_media_type"] = MEDIA[form]  # type: ignore[typeddict-unknown-key]
        held, query = request.headers.getall("if-none-match", []), request.scope["query_string"]
        found = await worked(request, work, functools.partial(answered, query, held))
        outer.tags.keep(path, query, found.headers["etag"], MEDIA[form])
        return found

    return get


def _fixed(path: str, content: bytes, media_type: str = "application/json", status: int = 200) -> HTTPRouteHandler:
    @route(path, http_method=["GET", "HEAD"], status_code=200, name=path)
    async def get(request: AnyRequest) -> Response[bytes]:
        request.scope["wallwright_route"] = path  # type: ignore[typeddict-unknown-key]
        return Response(content, media_type=media_type, status_code=status)

    return get


def _ready(outer: Outer) -> HTTPRouteHandler:
    @route(READY, http_method=["GET", "HEAD"], status_code=200, name=READY)
    async def get(request: AnyRequest) -> Response[bytes]:
        request.scope["wallwright_route"] = READY  # type: ignore[typeddict-unknown-key]
        refused = outer.not_ready()
        if refused is not None:
            raise refused
        return Response(b'{"status":"ready"}', media_type="application/json", headers={"cache-control": "no-store"})

    return get


def _metrics(board: Board) -> HTTPRouteHandler:
    @route("/metrics", http_method=["GET", "HEAD"], status_code=200, name="/metrics")
    async def get(request: AnyRequest) -> Response[bytes]:
        request.scope["wallwright_route"] = "/metrics"  # type: ignore[typeddict-unknown-key]
        board.resident()
        content = board.text(__version__).encode()
        return Response(content, media_type="text/plain; version=0.0.4", headers={"cache-control": "no-store"})

    return get


@route("/v1/examples/{name:str}", http_method=["GET", "HEAD"], status_code=200)
async def example(request: AnyRequest) -> Response[bytes]:
    """An example request by name."""
    request.scope["wallwright_route"] = "/v1/examples/{name}"  # type: ignore[typeddict-unknown-key]
    name = request.path_params["name"]
    if name not in EXAMPLES:
        raise Refused("not-found", f"There is no such example; there are {', '.join(EXAMPLES)}.")
    return Response(example_bytes(name), media_type="application/json")


class Plain(Litestar):
    """The framework without its plugins for other kinds of models: where those are installed, they would be loaded for nothing.

    They are half a start and four of its megabytes; the version is held to where the method has this name.
    """

    @staticmethod
    def _get_default_plugins(plugins: list[PluginProtocol]) -> list[PluginProtocol]:
        return [*plugins, MsgspecDIPlugin()]


_PAGES: Final = code_pages()


@route("/problems/{code:str}", http_method=["GET", "HEAD"], status_code=200)
async def problem_page(request: AnyRequest) -> Response[bytes]:
    """What a code means."""
    request.scope["wallwright_route"] = "/problems/{code}"  # type: ignore[typeddict-unknown-key]
    code = request.path_params["code"]
    if code not in _PAGES:
        raise Refused("not-found", "There is no such code.")
    return Response(msgspec.json.encode(_PAGES[code]), media_type="application/json")


def contract_limits() -> dict[str, int | dict[str, float]]:
    """The contract's limits as they are served: counts as they are, lengths in both systems of units."""
    served: dict[str, int | dict[str, float]] = {}
    for name, value in vars(limits).items():
        if name.endswith(("_MIN", "_MAX")):
            both = {units: converter.number(value) for units, converter in CONVERTERS.items()}
            served[name.lower()] = value if name in limits.COUNTS else both
    return served


def create_app(settings: Settings | None = None, extra_routes: Sequence[Any] = (), rows: int = 1) -> Outer:
    """The whole service. ``extra_routes`` are further handlers, such as the viewer's pages; ``rows`` the most workers."""
    outer = Outer(None, settings or settings_from(), Board(rows))
    outer.open(*application(outer, extra_routes))
    outer.tried(golden.differing())
    return outer


def application(outer: Outer, extra_routes: Sequence[Any] = ()) -> tuple[Any, list[str], Callable[[Problem], bytes]]:
    """The application that an outer layer wraps, the templates of its routes, and what draws a problem."""
    settings = outer.settings
    readers = {kind: Reader(kind) for kind in {operation.request for operation in OPERATIONS}}
    handlers: list[Any] = []
    for operation in OPERATIONS:
        reader = readers[operation.request]
        line = outer.slow if operation.slow else outer.work
        handlers.append(_posting(operation, reader, settings, line))
        handlers += [_linked(operation, form, reader, outer, line) for form in operation.forms]
    served = {"contract": contract_limits(), "operating": msgspec.to_builtins(settings)}
    version = msgspec.json.encode({"name": "wallwright", "version": __version__, "contract": "v1"})
    handlers += [
        _fixed(HEALTH, ALIVE),  # For other methods: the outer layer answers those that ask.
        _ready(outer),
        _metrics(outer.board),
        _fixed("/version", version),
        _fixed("/openapi.json", document_bytes()),
        _fixed("/v1/limits", msgspec.json.encode(served)),
        _fixed("/v1/published", published_bytes()),
        example,
        *extra_routes,
    ]
    paths = {path for handler in handlers for path in handler.paths}
    if "/problems/{code:str}" not in paths:
        handlers.append(problem_page)
    app = Plain(
        route_handlers=handlers,
        openapi_config=None,
        debug=False,
        logging_config=None,
        request_max_body_size=None,
        exception_handlers={
            Refused: _problem,
            MethodNotAllowedException: _wrong_method,
            NotFoundException: _nowhere,
            HTTPException: _http,
            Exception: _failed,
        },
    )
    return app, [re.sub(r":[a-z]+}", "}", path) for handler in handlers for path in handler.paths], problem_drawing


def _response(request: AnyRequest, refused: Refused) -> Response[bytes]:
    request.scope["wallwright_problem"] = refused.code  # type: ignore[typeddict-unknown-key]
    headers = {**refused.headers, "cache-control": "no-store"}
    kind, body = told(refused, request.scope)  # type: ignore[arg-type]
    return Response(body, status_code=refused.status, media_type=kind, headers=headers)


def _problem(request: AnyRequest, refused: Refused) -> Response[bytes]:
    return _response(request, refused)


def _wrong_method(request: AnyRequest, error: MethodNotAllowedException) -> Response[bytes]:
    allow = (error.headers or {}).get("allow", "")
    return _response(request, Refused("method-not-allowed", headers={"Allow": allow}))


def _nowhere(request: AnyRequest, _: NotFoundException) -> Response[bytes]:
    return _response(request, Refused("not-found"))


def _http(request: AnyRequest, error: HTTPException) -> Response[bytes]:
    known = {
        kind.status: code
        for code, kind in PROBLEMS.items()
        if code not in ("not-of-the-schema", "repeated-key", "bad-link", "no-host", "not-ready", "took-too-long")
    }
    return _response(request, Refused(known.get(error.status_code, "internal")))


def _failed(request: AnyRequest, error: Exception) -> Response[bytes]:
    tell_failure(request.scope, error)  # type: ignore[arg-type]
    return _response(request, Refused("internal"))
