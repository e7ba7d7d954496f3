"""The fuzzer on every operation and media type: all checks, all phases, and bodies of drawings and lists really parsed."""

import csv
import io
import os
from xml.etree import ElementTree

import pytest
import schemathesis
from hypothesis import HealthCheck, settings

from wallwright.api.app import create_app
from wallwright.api.settings import Settings
from wallwright.operations.table import OPERATIONS

EXAMPLES = int(os.environ.get("WALLWRIGHT_SCHEMA_EXAMPLES", "40"))
HERE = os.path.dirname(__file__)
FUZZ = settings(
    max_examples=EXAMPLES,
    deadline=None,
    database=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large],
)
APP = create_app(Settings(concurrency=10_000))
CONFIG = schemathesis.Config.from_path(os.path.join(HERE, "schemathesis.toml"))
SCHEMA = schemathesis.openapi.from_asgi("/openapi.json", APP, config=CONFIG)
LISTED = {one.path for one in OPERATIONS if "csv" in one.forms}
DRAWN = {one.path for one in OPERATIONS} - LISTED


def only(paths: set[str]):
    """The document with these paths alone.

    Written as what is left out: beside operations named in the configuration, what is included only adds to all others.
    """
    return SCHEMA.exclude(lambda ctx: ctx.operation.path not in paths)


@schemathesis.deserializer("image/svg+xml")
def parsed_drawing(_, response):
    root = ElementTree.fromstring(response.content)
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    for element in root.iter():
        assert not element.tag.endswith("}script")
        assert "style" not in element.attrib
        assert not [
            value
            for value in element.attrib.values()
            if "nan" in value.lower().split() or "inf" in value.lower().split()
        ]
    return response.content.decode()


@schemathesis.deserializer("text/csv")
def parsed_list(_, response):
    rows = list(csv.reader(io.StringIO(response.content.decode(), newline=""), strict=True))
    assert rows
    assert {len(row) for row in rows} == {len(rows[0])}
    return response.content.decode()


@pytest.mark.parametrize("accept", ["application/json", "image/svg+xml", "text/csv"])
@only(LISTED).parametrize()
@FUZZ
def test_posting_in_every_form(case, accept):
    case.call_and_validate(headers={"Accept": accept})


@pytest.mark.parametrize("accept", ["application/json", "image/svg+xml"])
@only(DRAWN).parametrize()
@FUZZ
def test_posting_what_has_no_list_in_both_forms(case, accept):
    case.call_and_validate(headers={"Accept": accept})


@SCHEMA.exclude(lambda ctx: ctx.operation.path in LISTED | DRAWN).parametrize()
@FUZZ
def test_links_and_the_rest(case):
    case.call_and_validate()


STATES = SCHEMA.as_state_machine()
STATES.TestCase.settings = settings(FUZZ, max_examples=max(5, EXAMPLES // 10), stateful_step_count=4)
TestStates = STATES.TestCase
