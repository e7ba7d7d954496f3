"""The reader over bodies that other readers of JSON stumble on: numbers without bound, half characters, NaN."""

import time
from decimal import Decimal

import pytest

from wallwright.api.problems import Refused
from wallwright.api.reader import Reader, number_of
from wallwright.lengths import INCH
from wallwright.wire.wall import Wall

READER = Reader(Wall)
REST = b'"units": "in", "length": 144, "height": 96}'


def refusal(start: bytes) -> tuple[str, list[tuple[str, str]]]:
    with pytest.raises(Refused) as caught:
        READER.read(start + REST)
    return caught.value.code, [(item.pointer, item.code) for item in caught.value.errors or []]


@pytest.mark.parametrize("number", [b"1e400", b"1e9999999", b"1e999999999", b"1e" + b"9" * 40])
def test_numbers_past_every_bound_are_a_fault_of_their_field_and_cost_no_time(number):
    started = time.perf_counter()
    assert refusal(b'{"plates": {"bottom": ' + number + b"}, ") == ("not-of-the-schema", [("/plates/bottom", "value")])
    assert refusal(b'{"spacing": ' + number + b", ") == ("not-of-the-schema", [("/spacing", "length")])
    assert refusal(b'{"spacing": -' + number + b", ") == ("not-of-the-schema", [("/spacing", "length")])
    assert time.perf_counter() - started < 1


@pytest.mark.parametrize("word", [b"NaN", b"Infinity", b"-Infinity"])
@pytest.mark.parametrize("before", [b"{", b'{"no_such_field": 1, '])
def test_words_for_numbers_are_not_json_also_behind_another_fault(word, before):
    assert refusal(before + b'"plates": {"bottom": ' + word + b"}, ") == ("not-json", [])


@pytest.mark.parametrize(
    "half", [rb'"\ud800": 1, ', rb'"name": "\udfff", ', b'"name": "\xed\xa0\x80", ', b'"name": "\xff", ']
)
@pytest.mark.parametrize("before", [b"{", b'{"no_such_field": 1, '])
def test_half_a_surrogate_pair_is_not_json_also_behind_another_fault(half, before):
    assert refusal(before + half)[0] == "not-json"


def test_many_faults_are_told_up_to_fifty_and_cost_no_time():
    started = time.perf_counter()
    code, errors = refusal(b"{" + b"".join(b'"x%d": 1, ' % number for number in range(20_000)))
    assert (code, len(errors)) == ("not-of-the-schema", 50)
    assert time.perf_counter() - started < 2


def test_whole_numbers_may_be_written_with_a_point_or_an_exponent():
    for number in (b"2", b"2.0", b"2e0", b"20e-1", b"2.000000000000000000000"):
        assert READER.read(b'{"plates": {"top": ' + number + b"}, " + REST).plates.top == 2


def test_null_is_told_as_null_wherever_it_stands():
    assert refusal(b'{"name": null, "spacing": null, "plates": null, "openings": [null], ')[1] == [
        ("/name", "null"),
        ("/spacing", "null"),
        ("/plates", "null"),
        ("/openings/0", "null"),
    ]


def test_a_decimal_keeps_every_digit_to_the_grid():
    wall = READER.read(b'{"spacing": 19.2, ' + REST)
    assert wall.spacing.measure.on_grid("in") == 96 * INCH // 5
    assert number_of("0.1") == Decimal("0.1")
    assert number_of("1e-500") == 0
