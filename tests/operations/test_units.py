"""The same wall asked in millimetres and in inches is the same wall."""

import json

import msgspec
import pytest
from hypothesis import given, settings
from tests.strategies.walls import walls

from wallwright.api.reader import Reader
from wallwright.operations.completed import to_wire
from wallwright.operations.converters import CONVERTERS
from wallwright.operations.examples import EXAMPLES
from wallwright.operations.squaring_asked import to_deck, to_frame, wire_deck, wire_frame
from wallwright.operations.table import BY_NAME
from wallwright.operations.walls import to_domain
from wallwright.wire.base import encode_length
from wallwright.wire.wall import Wall

READER = Reader(Wall)
PARTS = {"squaring-frame": ("frame", wire_frame, to_frame), "squaring-deck": ("deck", wire_deck, to_deck)}


@settings(max_examples=200)
@given(walls())
def test_a_completed_wall_is_the_same_in_both_systems(wall):
    asked = [READER.read(msgspec.json.encode(to_wire(wall, units), enc_hook=encode_length)) for units in ("in", "mm")]
    assert to_domain(asked[0]) == to_domain(asked[1])
    assert json.loads(msgspec.json.encode(asked[0].units)) == "in"


@pytest.mark.parametrize("name", ["squaring-frame", "squaring-deck"])
def test_a_completed_measurement_is_the_same_in_both_systems(name):
    field, write, read = PARTS[name]
    reader = Reader(BY_NAME[name].request)
    first = read(reader.read(json.dumps(EXAMPLES[name]).encode()))
    for units in ("in", "mm"):
        body = msgspec.json.encode(write(CONVERTERS[units], first), enc_hook=encode_length)
        again = BY_NAME[name].answer(reader.read(body))
        assert read(reader.read(body)) == first
        assert json.loads(body) == json.loads(msgspec.json.encode(getattr(again, field), enc_hook=encode_length))


def test_an_answer_in_millimetres_is_the_one_in_inches():
    reader = Reader(BY_NAME["squaring-deck"].request)
    deck = to_deck(reader.read(json.dumps(EXAMPLES["squaring-deck"]).encode()))
    answers = [
        msgspec.json.decode(
            msgspec.json.encode(
                BY_NAME["squaring-deck"].answer(
                    reader.read(msgspec.json.encode(wire_deck(CONVERTERS[units], deck), enc_hook=encode_length))
                ),
                enc_hook=encode_length,
            )
        )
        for units in ("in", "mm")
    ]
    inches, millimetres = (
        [*answer["residuals"]["sides"].values(), *answer["residuals"]["diagonals"].values()] for answer in answers
    )
    assert [25.4 * one for one in inches] == pytest.approx(millimetres, abs=2e-5)
    for one, other in zip(answers[0]["placing"]["overhangs"], answers[1]["placing"]["overhangs"], strict=True):
        assert 25.4 * one["sideways"] == pytest.approx(other["sideways"], abs=2e-5)
    assert [edge["work"] for edge in answers[0]["placing"]["edges"]] == [
        edge["work"] for edge in answers[1]["placing"]["edges"]
    ]
