"""Version 1 only grows: an earlier document beside a later one, and every way in which a caller could be let down.

`v1.json` is the document that callers rely on. After a change that is meant, and told under "Results changed" or in the
changelog, write it anew:

    python -m tests.contract.growth --write
"""

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

FILE = Path(__file__).parent / "v1.json"
_REF = "#/components/schemas/"
# What a later value must not be, beside the earlier one, where a caller sends it.
_LOWER_BOUNDS = ("minimum", "exclusiveMinimum", "minLength", "minItems")
_UPPER_BOUNDS = ("maximum", "exclusiveMaximum", "maxLength", "maxItems")


def broken(old: dict[str, Any], new: dict[str, Any]) -> list[str]:
    """Everything in the later document on which a caller of the earlier one could not rely."""
    return sorted(set(_paths(old, new)))


def _paths(old: dict[str, Any], new: dict[str, Any]) -> Iterator[str]:
    for path, item in old["paths"].items():
        for method, before in item.items():
            after = new["paths"].get(path, {}).get(method)
            if after is None:
                yield f"{method} {path} is gone"
                continue
            if before["operationId"] != after["operationId"]:
                yield f"{method} {path} is called otherwise"
            yield from _parameters(f"{method} {path}", before, after)
            yield from _body(f"{method} {path}", before, after, old, new)
            yield from _answers(f"{method} {path}", before, after, old, new)


def _parameters(at: str, before: dict[str, Any], after: dict[str, Any]) -> Iterator[str]:
    later = {one["name"]: one for one in after.get("parameters", [])}
    earlier = {one["name"]: one for one in before.get("parameters", [])}
    for name, one in earlier.items():
        if name not in later:
            yield f"{at}: parameter {name} is gone"
        else:
            yield from _taken(f"{at}?{name}", one["schema"], later[name]["schema"], {}, {}, set())
    for name, one in later.items():
        if one.get("required") and name not in earlier:
            yield f"{at}: parameter {name} is required now"


def _body(
    at: str, before: dict[str, Any], after: dict[str, Any], old: dict[str, Any], new: dict[str, Any]
) -> Iterator[str]:
    for media, content in before.get("requestBody", {}).get("content", {}).items():
        later = after.get("requestBody", {}).get("content", {}).get(media)
        if later is None:
            yield f"{at}: {media} is taken no more"
        else:
            yield from _taken(f"{at} body", content["schema"], later["schema"], old, new, set())


def _answers(
    at: str, before: dict[str, Any], after: dict[str, Any], old: dict[str, Any], new: dict[str, Any]
) -> Iterator[str]:
    for status, answer in before["responses"].items():
        later = after["responses"].get(status)
        if later is None:
            continue  # A problem that no longer comes lets nobody down; 200 is always there.
        for media, content in answer.get("content", {}).items():
            if media not in later.get("content", {}):
                yield f"{at} {status}: {media} is given no more"
            else:
                yield from _given(
                    f"{at} {status}", content["schema"], later["content"][media]["schema"], old, new, set()
                )
        for name in answer.get("headers", {}):
            if name not in later.get("headers", {}):
                yield f"{at} {status}: header {name} is given no more"
    if "200" in before["responses"] and "200" not in after["responses"]:
        yield f"{at}: 200 is gone"


def _resolved(schema: dict[str, Any], document: dict[str, Any]) -> tuple[dict[str, Any], str]:
    name = schema.get("$ref", "").removeprefix(_REF)
    return (document["components"]["schemas"][name], name) if name else (schema, "")


def _kinds(schema: dict[str, Any]) -> list[dict[str, Any]]:
    """The alternatives of a schema; one that has none is its own only one."""
    found = schema.get("anyOf") or schema.get("oneOf")
    return list(found) if found else [schema]


def _partner(one: dict[str, Any], others: list[dict[str, Any]], document: dict[str, Any]) -> dict[str, Any] | None:
    """The alternative of the same kind: by the name that it refers to, else by its type."""
    for other in others:
        if one.get("$ref") and one.get("$ref") == other.get("$ref"):
            return other
    kind = _type(one, document)
    return next((other for other in others if _type(other, document) == kind), None)


def _type(schema: dict[str, Any], document: dict[str, Any]) -> str:
    found = _resolved(schema, document)[0] if document else schema
    kind = found.get("type") or ("enum" if "enum" in found else "const" if "const" in found else "any")
    return "number" if kind == "integer" else str(kind)


def _both(at: str, old_schema: Any, new_schema: Any, old: Any, new: Any, seen: set[str], walk: Any) -> Iterator[str]:
    """Walk the alternatives of both schemas in pairs; one that is gone is told. A named schema is walked once."""
    before, name = _resolved(old_schema, old)
    if name and f"{name} {walk.__name__}" in seen:
        return
    seen.add(f"{name} {walk.__name__}")
    at = name or at
    later = _kinds(_resolved(new_schema, new)[0])
    alternatives = _kinds(before)
    for one in alternatives:
        partner = _partner(one, later, new)
        if partner is None:
            yield f"{at}: {_type(one, old)} is gone"
        elif len(alternatives) > 1 or len(later) > 1:
            yield from _both(at, one, {**_resolved(partner, new)[0]}, old, new, seen, walk)
        else:
            yield from walk(at, _resolved(one, old)[0], _resolved(partner, new)[0], old, new, seen)


def _taken(at: str, old_schema: Any, new_schema: Any, old: Any, new: Any, seen: set[str]) -> Iterator[str]:
    """What a caller may send: nothing of it may be refused later, or mean something else where it is left out."""
    yield from _both(at, old_schema, new_schema, old, new, seen, _taken_kind)


def _taken_kind(at: str, before: Any, after: Any, old: Any, new: Any, seen: set[str]) -> Iterator[str]:
    for bound in _LOWER_BOUNDS:
        if bound in after and after[bound] > before.get(bound, float("-inf")):
            yield f"{at}: {bound} is {after[bound]}, was {before.get(bound)}"
    for bound in _UPPER_BOUNDS:
        if bound in after and after[bound] < before.get(bound, float("inf")):
            yield f"{at}: {bound} is {after[bound]}, was {before.get(bound)}"
    if "pattern" in after and after["pattern"] != before.get("pattern"):
        yield f"{at}: another pattern"
    if before.get("type") == "number" and after.get("type") == "integer":
        yield f"{at}: only whole numbers are taken"
    if "enum" in after and (gone := [word for word in before.get("enum", ["anything"]) if word not in after["enum"]]):
        yield f"{at}: {gone} is taken no more"
    fields = after.get("properties", {})
    for name in set(after.get("required", [])) - set(before.get("required", [])):
        yield f"{at}.{name} is required now"
    for name, one in before.get("properties", {}).items():
        if name not in fields:
            yield f"{at}.{name} is taken no more"
            continue
        if one.get("default") != fields[name].get("default"):
            yield f"{at}.{name}: another default"
        yield from _taken(f"{at}.{name}", one, fields[name], old, new, seen)
    if "items" in before and "items" in after:
        yield from _taken(f"{at}[]", before["items"], after["items"], old, new, seen)


def _given(at: str, old_schema: Any, new_schema: Any, old: Any, new: Any, seen: set[str]) -> Iterator[str]:
    """What an answer holds: no field may go, or turn into one that may be absent."""
    yield from _both(at, old_schema, new_schema, old, new, seen, _given_kind)


def _given_kind(at: str, before: Any, after: Any, old: Any, new: Any, seen: set[str]) -> Iterator[str]:
    fields = after.get("properties", {})
    for name in set(before.get("required", [])) - set(after.get("required", [])):
        yield f"{at}.{name} may be absent now"
    for name, one in before.get("properties", {}).items():
        if name not in fields:
            yield f"{at}.{name} is given no more"
        else:
            yield from _given(f"{at}.{name}", one, fields[name], old, new, seen)
    if "items" in before and "items" in after:
        yield from _given(f"{at}[]", before["items"], after["items"], old, new, seen)


if __name__ == "__main__":
    from wallwright.operations.document import document

    if "--write" in sys.argv:
        FILE.write_text(json.dumps(document(), separators=(",", ":"), sort_keys=True) + "\n", encoding="utf-8")
    for line in broken(json.loads(FILE.read_text(encoding="utf-8")), document()):
        print(line)
