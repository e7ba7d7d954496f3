"""The fuzzer on every operation and media type: all checks, all phases, and bodies of drawings and lists really parsed."""

import csv
import io
import os
import zlib
from xml.etree import ElementTree

import schemathesis
from hypothesis import HealthCheck, settings

from wallwright.api.app import create_app
from wallwright.api.settings import Settings
from wallwright.operations.table import OPERATIONS

EXAMPLES = int(os.environ.get("WALLWRIGHT_SCHEMA_EXAMPLES", "40"))
assert EXAMPLES != 100, "ask for 99 or 101: 100 is Hypothesis's own figure, which the fuzzer takes for none at all"
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
FORMS = {
    one.path: ["application/json", "image/svg+xml", *(["text/csv"] if "csv" in one.forms else [])] for one in OPERATIONS
}


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


@SCHEMA.exclude(lambda ctx: ctx.operation.path not in FORMS).parametrize()
@FUZZ
def test_posting_in_every_form(case):
    # Forms take turns by what is posted, so that each sees its share of every phase and a failure comes again as it came.
    forms = FORMS[case.operation.path]
    turn = zlib.crc32(repr(case.body).encode(errors="backslashreplace"))
    case.call_and_validate(headers={"Accept": forms[turn % len(forms)]})


@SCHEMA.exclude(lambda ctx: ctx.operation.path in FORMS).parametrize()
@FUZZ
def test_links_and_the_rest(case):
    # Half of those who ask for a drawing can only show pictures, so that problems are drawn for them.
    turn = zlib.crc32(repr(case.query).encode(errors="backslashreplace"))
    shown = case.operation.path.endswith(".svg") and turn % 2
    case.call_and_validate(headers={"Accept": "image/svg+xml" if shown else "*/*"})


STATES = SCHEMA.as_state_machine()
STATES.TestCase.settings = settings(FUZZ, max_examples=max(5, EXAMPLES // 10), stateful_step_count=4)
TestStates = STATES.TestCase
