"""What the document says of a field's default is what an answer fills in."""

import re

import pytest
from tests.api.client import post

from wallwright.lengths import measure_of_text
from wallwright.operations.document import document
from wallwright.operations.wording import INPUT_WORDS

SCHEMAS = document()["components"]["schemas"]
MINIMAL = b'{"units": "in", "length": 144, "height": 96, "openings": [{"left": 48, "width": 30, "height": 40}]}'


def stated(description: str) -> tuple[str, str] | None:
    """The default that a description states, and whether as a word, a number or a size."""
    for kind, pattern in (
        ("word", r"Default `([^`]+)`\."),
        ("size", r"Default ([^()`.]+(?:\.[0-9]+)?[^()`.]*) \("),
        ("number", r"Default ([0-9]+)\."),
    ):
        found = re.search(pattern, description)
        if found:
            return kind, found[1]
    return None


def pairs(schema: dict, value: object, at: str):
    """Every field of a value beside its description in the document."""
    for option in [schema, *schema.get("anyOf", [])]:
        if "$ref" in option:
            named = SCHEMAS[option["$ref"].rsplit("/", 1)[1]]
            if isinstance(value, dict):
                for field, inner in value.items():
                    described = named["properties"][field]
                    yield f"{at}/{field}", described.get("description", ""), inner
                    yield from pairs(described, inner, f"{at}/{field}")
    if isinstance(value, list):
        for number, inner in enumerate(value):
            yield from pairs(schema.get("items", {}), inner, f"{at}/{number}")


def completed() -> list[tuple[str, str, object]]:
    wall = post("/v1/layout", MINIMAL).json()["wall"]
    return list(pairs({"$ref": "#/components/schemas/Wall"}, wall, ""))


def test_each_stated_default_is_the_one_filled_in():
    seen = set()
    for at, description, value in completed():
        default = stated(description)
        if default is None:
            continue
        kind, text = default
        seen.add(at)
        if kind == "word":
            assert value == text, at
        elif kind == "number":
            assert value == float(text), at
        else:
            assert round(value * 1_016_000) == measure_of_text(text).on_grid("in"), at
    assert {
        "/stud", "/spacing", "/plates/bottom", "/plates/top", "/layout/from", "/layout/tape_zero", "/layout/tape_offset",
        "/floor/kind", "/sheathing/gap", "/sheathing/sheet/width", "/sheathing/sheet/length", "/sheathing/sheet/thickness",
        "/sheathing/sheet/kind", "/sheathing/direction", "/fastening", "/species", "/moisture_percent", "/hands", "/rules",
        "/ends/left/post", "/openings/0/jacks",
    } <= seen  # fmt: skip


@pytest.mark.parametrize("name", INPUT_WORDS)
def test_every_field_of_a_request_is_described(name):
    assert [field for field, schema in SCHEMAS[name]["properties"].items() if not schema.get("description")] == []
