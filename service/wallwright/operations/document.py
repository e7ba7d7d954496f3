"""The OpenAPI 3.1 document, built from the wire Structs' own JSON Schemas and the table of operations."""

import functools
import json
from typing import Any, Final

import msgspec

from wallwright import __version__
from wallwright.operations.examples import EXAMPLES
from wallwright.operations.table import OPERATIONS, Operation
from wallwright.operations.wording import worded
from wallwright.wire import limits
from wallwright.wire.answers import Problem
from wallwright.wire.base import length_schema
from wallwright.wire.building import Building
from wallwright.wire.published import PublishedAnswer
from wallwright.wire.wall import Wall

_MEDIA: Final = {"json": "application/json", "svg": "image/svg+xml", "csv": "text/csv"}
_Z_PATTERN: Final = "^[A-Za-z0-9_-]+$(?!\\n)"
_TEXTS: Final = {
    400: "Not JSON, or not of the schema: every fault is told at once. Also a request that does not name one host.",
    404: "There is nothing of that name.",
    405: "The path does not take this method; Allow names those it takes.",
    406: "None of the accepted media types is offered.",
    408: "The body did not arrive in time.",
    413: "The body is larger than the service takes.",
    414: "The link is longer than the service takes; POST instead.",
    415: "The body is not declared as JSON, or is declared as compressed.",
    422: "The request keeps the schema and cannot be built; each error names the rule and the nearest value that works.",
    431: "The headers are larger than the service takes.",
    500: "The service failed.",
    503: "The service has as much work as it takes at once.",
}


@functools.cache
def document_bytes() -> bytes:
    """The document as it is committed and served."""
    return msgspec.json.format(msgspec.json.encode(document()), indent=1) + b"\n"


def document() -> dict[str, Any]:
    """The whole document as plain values."""
    kinds = {kind for operation in OPERATIONS for kind in (operation.request, operation.response)}
    kinds |= {Problem, PublishedAnswer}
    ordered = sorted(kinds, key=lambda kind: kind.__name__)
    _, components = msgspec.json.schema_components(
        ordered, schema_hook=length_schema, ref_template="#/components/schemas/{name}"
    )
    schemas = worded(json.loads(json.dumps(components)))
    paths: dict[str, Any] = {}
    for operation in OPERATIONS:
        paths[operation.path] = {"post": _post(operation)}
        for form in operation.forms:
            paths[f"{operation.path}.{form}"] = {"get": _get(operation, form)}
    paths |= _plain_paths()
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "wallwright",
            "version": __version__,
            "summary": "Works out the walls of small timber buildings, exactly, and draws them.",
            "description": (
                "Every computing operation is a POST that changes nothing and gives byte-identical answers to the same "
                "question. Lengths are numbers in `units`, or tape texts. Requests are closed; answers may grow within v1. "
                "Raising walls, cutting and structural sizes can hurt people: answers carry cautions and say what was not "
                "checked. Local codes and licensed practice come first. What the HTTP parser itself refuses is answered "
                "400 in plain text."
            ),
            "contact": {"name": "the wallwright project"},
            "license": {"name": "see the project", "identifier": "LicenseRef-wallwright"},
        },
        "servers": [{"url": "/", "description": "This service."}],
        "security": [],
        "tags": [
            {"name": "walls", "description": "Compute and draw."},
            {"name": "service", "description": "About the service."},
        ],
        "paths": paths,
        "components": {"schemas": schemas},
    }


def _problem(status: int, drawn: bool = False) -> dict[str, Any]:
    content: dict[str, Any] = {"application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}}
    if drawn:
        words = "The problem in words, where Accept names pictures or pages and no JSON."
        content[_MEDIA["svg"]] = {"schema": {"type": "string", "description": words}}
    found: dict[str, Any] = {"description": _TEXTS[status], "content": content}
    if status == 405:
        found["headers"] = {"Allow": {"description": "The methods taken.", "schema": {"type": "string"}}}
    if status == 503:
        found["headers"] = {"Retry-After": {"description": "Seconds to wait.", "schema": {"type": "string"}}}
    if status == 415:
        found["headers"] = {
            "Accept-Post": {"description": "The media type taken.", "schema": {"type": "string"}},
            "Accept-Encoding": {
                "description": "The content coding taken, where the body came in another.",
                "schema": {"type": "string"},
            },
        }
    return found


_DRAWING: Final = (
    "A drawing at a standard scale on letter or A4 paper, lying; 1 unit is 1 mm of paper. Of a wall too long to be read on one "
    "paper, and of an order that fills more than one, all papers stand below one another, each with its title strip; a "
    "wall goes on from match line to match line."
)


def _content(operation: Operation, form: str) -> dict[str, Any]:
    if form == "json":
        return {"schema": {"$ref": f"#/components/schemas/{operation.response.__name__}"}}
    return {
        "schema": {
            "type": "string",
            "description": _DRAWING if form == "svg" else f"RFC 4180: {operation.table_of}.",
        }
    }


def _post(operation: Operation) -> dict[str, Any]:
    content = {_MEDIA[form]: _content(operation, form) for form in operation.forms}
    location = {"description": "The same question as a link.", "schema": {"type": "string"}}
    return {
        "operationId": operation.name,
        "tags": ["walls"],
        "summary": operation.summary,
        "description": operation.description,
        "requestBody": {
            "required": True,
            "content": {
                "application/json": {
                    "schema": {"$ref": f"#/components/schemas/{operation.request.__name__}"},
                    "examples": {operation.name: {"value": EXAMPLES[operation.name]}},
                }
            },
        },
        "responses": {
            "200": {
                "description": operation.description,
                "headers": {"Content-Location": location},
                "content": content,
                "links": _links(operation),
            },
            **{str(status): _problem(status) for status in (400, 405, 406, 408, 413, 414, 415, 422, 431, 500, 503)},
        },
    }


def _links(operation: Operation) -> dict[str, Any]:
    """How an answer leads on: its completed wall can be posted to every operation on walls."""
    if operation.request not in (Wall, Building):
        return {}
    wall = "$response.body#/walls/0/wall" if operation.name == "building" else "$response.body#/wall"
    return {
        f"{other.name}-of-this-wall": {
            "operationId": other.name,
            "requestBody": wall,
            "description": "The completed wall, posted on as it is.",
        }
        for other in OPERATIONS
        if other.request is Wall
    }


def _get(operation: Operation, form: str) -> dict[str, Any]:
    etag = {"description": "Known before anything is computed.", "schema": {"type": "string"}}
    return {
        "operationId": f"{operation.name}-{form}",
        "tags": ["walls"],
        "summary": f"{operation.summary}, by link, as {form.upper()}",
        "description": "The link holds its whole question, so that a drawing can be shown as an image.",
        "parameters": [
            {
                "name": "z",
                "in": "query",
                "required": True,
                "description": "The request as zlib data (RFC 1950) in base64url without padding.",
                "schema": {"type": "string", "pattern": _Z_PATTERN, "minLength": 1, "maxLength": limits.Z_MAX},
            }
        ],
        "responses": {
            "200": {
                "description": operation.description,
                "headers": {"ETag": etag},
                "content": {_MEDIA[form]: _content(operation, form)},
            },
            "304": {"description": "The answer is the one that the caller holds."},
            **{str(status): _problem(status, form == "svg") for status in (400, 405, 414, 422, 431, 500, 503)},
        },
    }


def _metrics() -> dict[str, Any]:
    summary = "Counters of all workers of this copy, in the text format of Prometheus"
    return {
        "get": {
            "operationId": "metrics",
            "tags": ["service"],
            "summary": summary,
            "description": f"{summary}, by route template. Nothing in them tells of a caller or a question.",
            "responses": {
                "200": {"description": f"{summary}.", "content": {"text/plain": {"schema": {"type": "string"}}}},
                **{str(status): _problem(status) for status in (400, 405, 414, 431, 500)},
            },
        }
    }


def _plain_paths() -> dict[str, Any]:
    def get(
        name: str, summary: str, *problems: int, parameter: dict[str, Any] | None = None, answer: str = ""
    ) -> dict[str, Any]:
        schema = {"$ref": f"#/components/schemas/{answer}"} if answer else {"type": "object"}
        found: dict[str, Any] = {
            "operationId": name,
            "tags": ["service"],
            "summary": summary,
            "description": summary + ".",
            "responses": {
                "200": {"description": summary + ".", "content": {"application/json": {"schema": schema}}},
                **{str(status): _problem(status) for status in (400, *problems, 405, 414, 431, 500)},
            },
        }
        if parameter is not None:
            found["parameters"] = [parameter]
        return {"get": found}

    name = {
        "name": "name", "in": "path", "required": True, "description": "An example's name.",
        "schema": {"type": "string", "enum": list(EXAMPLES)},
    }  # fmt: skip
    return {
        "/health": get("health", "Whether the process answers"),
        "/ready": get("ready", "Whether it takes work", 503),
        "/metrics": _metrics(),
        "/version": get("version", "Version of the service and of its contract"),
        "/openapi.json": get("openapi", "This document", 503),
        "/v1/limits": get("limits", "The limits of the contract and of this copy", 503),
        "/v1/published": get(
            "published", "The published tables in use, with source, edition and clause", 503, answer="PublishedAnswer"
        ),
        "/v1/examples/{name}": get("example", "An example request", 404, 503, parameter=name),
    }
