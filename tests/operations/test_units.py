"""The same wall asked in millimetres and in inches is the same wall."""

import json

import msgspec
from hypothesis import given, settings
from tests.strategies.walls import walls

from wallwright.api.reader import Reader
from wallwright.operations.walls import to_domain, to_wire
from wallwright.wire.base import encode_length
from wallwright.wire.wall import Wall

READER = Reader(Wall)


@settings(max_examples=200)
@given(walls())
def test_a_completed_wall_is_the_same_in_both_systems(wall):
    asked = [READER.read(msgspec.json.encode(to_wire(wall, units), enc_hook=encode_length)) for units in ("in", "mm")]
    assert to_domain(asked[0]) == to_domain(asked[1])
    assert json.loads(msgspec.json.encode(asked[0].units)) == "in"
