"""The reference page's content, read from the service's own OpenAPI document."""

import json
from typing import Any

import msgspec

from wallwright.operations.document import document_bytes


class Route(msgspec.Struct):
    """One path and method."""

    method: str
    path: str
    id: str
    summary: str
    description: str
    takes: str
    gives: list[tuple[str, str, str]]
    """Status, what it means, media types."""


class Property(msgspec.Struct):
    """One field of a schema."""

    name: str
    kind: str
    links: list[str]
    required: bool
    description: str


class Schema(msgspec.Struct):
    """One kind of object that travels."""

    name: str
    description: str
    properties: list[Property]


class Reference(msgspec.Struct):
    """The whole document, ready to be shown."""

    summary: str
    description: str
    routes: list[Route]
    schemas: list[Schema]


def reference() -> Reference:
    """The document as it stands."""
    document = json.loads(document_bytes())
    routes = [
        _route(method, path, operation)
        for path, methods in document["paths"].items()
        for method, operation in methods.items()
        if isinstance(operation, dict) and "responses" in operation
    ]
    schemas = [_schema(name, schema) for name, schema in sorted(document["components"]["schemas"].items())]
    return Reference(document["info"].get("summary", ""), document["info"].get("description", ""), routes, schemas)


def _route(method: str, path: str, operation: dict[str, Any]) -> Route:
    body = operation.get("requestBody", {}).get("content", {}).get("application/json", {}).get("schema", {})
    gives = [
        (status, response.get("description", ""), ", ".join(response.get("content", {})))
        for status, response in sorted(operation["responses"].items())
    ]
    return Route(
        method.upper(),
        path,
        operation["operationId"],
        operation.get("summary", ""),
        operation.get("description", ""),
        body.get("$ref", "").rpartition("/")[2],
        gives,
    )


def _schema(name: str, schema: dict[str, Any]) -> Schema:
    required = schema.get("required", [])
    properties = [
        Property(field, kind_of(inner), sorted(_names(inner)), field in required, inner.get("description", ""))
        for field, inner in schema.get("properties", {}).items()
    ]
    return Schema(name, schema.get("description", ""), properties)


def kind_of(schema: dict[str, Any]) -> str:
    """What a schema takes, in words."""
    if "$ref" in schema:
        return str(schema["$ref"]).rpartition("/")[2]
    if "anyOf" in schema:
        kinds = [kind_of(one) for one in schema["anyOf"]]
        # A number or a tape text is what the whole contract calls a length.
        return "length" if kinds[0].startswith("number") and kinds[-1] == "text" else " or ".join(kinds)
    if "enum" in schema:
        return "one of " + ", ".join(str(word) for word in schema["enum"])
    if schema.get("type") == "array":
        return "list of " + kind_of(schema.get("items", {}))
    kind = str(schema.get("type", "any"))
    words = {"string": "text", "integer": "whole number", "boolean": "true or false"}
    return words.get(kind, kind) + _range(schema)


def _range(schema: dict[str, Any]) -> str:
    low, above, high = schema.get("minimum"), schema.get("exclusiveMinimum"), schema.get("maximum")
    parts = [f"from {low}"] if low is not None else [f"above {above}"] if above is not None else []
    parts += [f"to {high}"] if high is not None else []
    return f" {' '.join(parts)}" if parts else ""


def _names(schema: Any) -> set[str]:
    """The schemas that one speaks of."""
    if isinstance(schema, list):
        return {name for one in schema for name in _names(one)}
    if not isinstance(schema, dict):
        return set()
    found = {name for value in schema.values() if isinstance(value, dict | list) for name in _names(value)}
    return found | ({schema["$ref"].rpartition("/")[2]} if "$ref" in schema else set())
