"""The document is the one that the code makes, holds what it promises, and its examples are answered byte for byte."""

import json
import re

import jsonschema
import pytest
from hypothesis import HealthCheck, given, settings
from openapi_spec_validator import validate
from tests.api.client import APP, call, post
from tests.contract.write_openapi import FOLDER, GOLDEN, files, golden_bytes
from tests.strategies.loads import loaded_walls
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import walls

from wallwright.operations.completed import to_wire
from wallwright.operations.table import OPERATIONS
from wallwright.wire.base import encode_length
from wallwright.wire.wall import Wall

DOCUMENT = json.loads(files()["wallwright.json"])


def closed(schema):
    """A copy of a schema in which answers hold no field that the document does not name."""
    if isinstance(schema, dict):
        copy = {key: closed(value) for key, value in schema.items()}
        if copy.get("type") == "object" and "properties" in copy:
            copy["additionalProperties"] = False
        return copy
    return [closed(value) for value in schema] if isinstance(schema, list) else schema


CLOSED = closed(DOCUMENT)


def checked(answer: object, name: str) -> None:
    """The answer keeps the closed schema of its name."""
    jsonschema.Draft202012Validator({**CLOSED, "$ref": f"#/components/schemas/{name}"}).validate(answer)


@pytest.mark.parametrize("name", files())
def test_committed_files_are_the_generated_ones(name):
    assert (FOLDER / name).read_bytes() == files()[name], "run: python tests/contract/write_openapi.py"


def test_committed_digests_of_readiness_are_those_of_the_examples():
    assert GOLDEN.read_bytes() == golden_bytes(), "run: python tests/contract/write_openapi.py"
    assert call("GET", "/ready").status_code == 200


def test_nothing_else_is_committed_there():
    assert {str(path.relative_to(FOLDER)) for path in FOLDER.rglob("*.json")} == set(files())


def test_the_served_document_is_the_committed_one():
    assert call("GET", "/openapi.json").content == (FOLDER / "wallwright.json").read_bytes()


def test_the_document_is_valid_openapi():
    validate(DOCUMENT)


def test_routes_and_document_name_the_same_paths():
    routes = {re.sub(r":str", "", route.path) for route in APP.app.routes}
    hidden = {"/problems/{code}"}
    assert routes - hidden == set(DOCUMENT["paths"])


def test_every_pattern_ends_where_the_text_ends():
    patterns = re.findall(r'"pattern": "((?:[^"\\]|\\.)*)"', json.dumps(DOCUMENT))
    assert patterns
    for pattern in patterns:
        text = json.loads(f'"{pattern}"')
        re.compile(text)
        assert text.endswith("$(?!\\n)"), text


@pytest.mark.parametrize("operation", OPERATIONS, ids=lambda operation: operation.name)
def test_each_example_is_answered_as_committed(operation):
    request = (FOLDER / f"examples/{operation.name}.request.json").read_bytes()
    answer = post(operation.path, request)
    assert answer.content + b"\n" == (FOLDER / f"examples/{operation.name}.answer.json").read_bytes()
    checked(answer.json(), operation.response.__name__)
    jsonschema.Draft202012Validator(
        {**DOCUMENT, "$ref": f"#/components/schemas/{operation.request.__name__}"}
    ).validate(json.loads(request))


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(walls() | loaded_walls() | sloped_walls())
def test_answers_to_random_walls_keep_the_closed_document(wall):
    import msgspec

    body = msgspec.json.encode(to_wire(wall, "in"), enc_hook=encode_length)
    for operation in (one for one in OPERATIONS if one.request is Wall):
        answer = post(operation.path, body)
        if answer.status_code == 422:
            checked(answer.json(), "Problem")
            continue
        checked(answer.json(), operation.response.__name__)
        # The completed wall, posted again, gives the same bytes.
        again = json.dumps(answer.json()["wall"]).encode()
        assert post(operation.path, again).content == answer.content


def test_each_type_has_a_plain_name_of_its_own():
    # Two types of one name get their module's path in front, and generators of clients then make one name of both.
    assert [name for name in DOCUMENT["components"]["schemas"] if not name.isalnum()] == []
