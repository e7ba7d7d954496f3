"""Random walls and buildings that can be built are answered in every form, by every way, as the document says.

The fuzzer's own data rarely hold a wall that can be built; these do, and pass through the same checks.
"""

import json
import os
from urllib.parse import urlsplit

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.contract.test_schemathesis import SCHEMA
from tests.strategies.buildings import buildings
from tests.strategies.walls import walls

from wallwright.domain.building import build
from wallwright.domain.framed import framed
from wallwright.domain.wall import Wall
from wallwright.lengths import FOOT, INCH
from wallwright.operations.building import to_wire_building
from wallwright.operations.completed import to_wire
from wallwright.wire.base import encode_length

COUNT = max(10, int(os.environ.get("WALLWRIGHT_SCHEMA_EXAMPLES", "40")) // 4)
SOME = settings(max_examples=COUNT, deadline=None, suppress_health_check=list(HealthCheck))
FORMS = {"json": "application/json", "svg": "image/svg+xml", "csv": "text/csv"}


def body(request: msgspec.Struct) -> object:
    return json.loads(msgspec.json.encode(request, enc_hook=encode_length))


def asked_in_every_form(path: str, question: object) -> None:
    """Post a question in each form, then follow the link that the answer names, which gives the same bytes."""
    for form, accept in FORMS.items():
        case = SCHEMA[path]["POST"].Case(body=question, media_type="application/json")
        answer = case.call_and_validate(headers={"Accept": accept})
        assert answer.status_code == 200, answer.text
        assert answer.headers["content-type"][0].startswith(accept)
        link = urlsplit(answer.headers["content-location"][0])
        assert link.path == f"{path}.{form}"
        linked = SCHEMA[link.path]["GET"].Case(query={"z": link.query.removeprefix("z=")}).call_and_validate()
        assert linked.status_code == 200
        assert linked.content == answer.content


@pytest.mark.parametrize("path", ["/v1/layout", "/v1/sheathing", "/v1/raising", "/v1/fasteners"])
@pytest.mark.parametrize("units", ["in", "mm"])
@SOME
@given(wall=walls())
def test_a_buildable_wall_is_answered_in_every_form(path, units, wall):
    asked_in_every_form(path, body(to_wire(wall, units)))


@settings(SOME, max_examples=max(5, COUNT // 4))
@given(buildings())
def test_a_building_is_answered_in_every_form(building):
    asked_in_every_form(
        "/v1/building",
        body(to_wire_building(build(building), building, "in", ("layout", "sheathing", "raising", "fasteners"))),
    )


@settings(SOME, max_examples=max(5, COUNT // 4))
@given(walls(), st.integers(0, 10), st.booleans())
def test_an_order_for_a_wall_is_answered_in_every_form(wall, spare, priced):
    asked_in_every_form("/v1/buying", order_for(wall, spare, priced=priced))


def order_for(wall: Wall, spare: int, *, priced: bool) -> dict:
    """A loose piece, a wall, and boards long enough for every section that it takes."""
    layout, size = framed(wall), wall.sheathing.sheet
    sections = {(row.stock, row.treated) for row in layout.layout.cut_list}
    longest = max(row.length for row in layout.layout.cut_list)
    longer = -(-longest // FOOT) + 1
    offers = [
        {
            "stock": {"thickness": one.thickness / INCH, "width": one.width / INCH},
            "length": f"{feet}'",
            "price": feet / 2,
            "treated": treated,
        }
        for one, treated in sorted(sections, key=lambda at: (at[0].thickness, at[0].width, at[1]))
        for feet in (longer, longer + 4)
    ]
    sheet = {
        "thickness": size.thickness / INCH,
        "kind": size.kind,
        "width": size.width / INCH,
        "length": size.length / INCH,
    }
    first = offers[0]
    return {
        "units": "in",
        "pieces": [{"stock": first["stock"], "treated": first["treated"], "length": 20, "count": 2, "mark": "block"}],
        "walls": [body(to_wire(wall, "in"))],
        "offers": offers,
        "sheet_offers": [{**sheet, "price": 20}] if priced else [],
        "spare_percent": spare,
        "effort": "quick",
    }
