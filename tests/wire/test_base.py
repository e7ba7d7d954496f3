"""What every travelling type is made of: names that any drawing can hold, lengths that know their range."""

import re
from decimal import Decimal

import msgspec
import pytest

from wallwright.lengths import INCH
from wallwright.wire.base import (
    NAME_PATTERN,
    Extent,
    Length,
    Offset,
    Request,
    encode_length,
    length_schema,
    read_length,
)
from wallwright.wire.limits import NUMBER_MAX

NAME = re.compile(NAME_PATTERN)


@pytest.mark.parametrize(
    "name", ["", "north", "Bootshaus Süd", "小屋", "a\u0301", "\U0001f600", "<b>&\"'", "=1+1", " "]
)
def test_names_of_people_and_places_are_taken(name):
    assert NAME.search(name)


# XML 1.0, fifth edition, 2.2: characters outside Char cannot stand in a document at all; U+FFFE and U+FFFF among them.
@pytest.mark.parametrize("character", [chr(code) for code in (*range(0x20), 0x7F, *range(0x80, 0xA0), 0xFFFE, 0xFFFF)])
def test_names_hold_no_control_character_and_none_that_xml_forbids(character):
    for name in (character, f"a{character}", f"{character}a", f"a{character}b"):
        assert not NAME.search(name)


# Unicode Standard Annex 9, 2.1 and 2.2: embeddings, overrides and isolates.
@pytest.mark.parametrize("code", [*range(0x202A, 0x202F), *range(0x2066, 0x206A)])
def test_names_hold_no_mark_that_turns_the_direction_of_text(code):
    assert not NAME.search(f"a{chr(code)}b")


CASES = [
    (Length, 0, False), (Length, Decimal("1e-9"), True), (Length, -1, False), (Length, NUMBER_MAX, True),
    (Length, NUMBER_MAX + 1, False), (Extent, 0, True), (Extent, Decimal("-0.001"), False), (Extent, NUMBER_MAX, True),
    (Offset, -NUMBER_MAX, True), (Offset, -NUMBER_MAX - 1, False), (Offset, 0, True), (Offset, NUMBER_MAX + 1, False),
    (Length, True, False), (Length, None, False), (Length, [], False), (Length, {}, False), (Length, Decimal("Infinity"), False),
    (Length, "8' 1 1/8\"", True), (Length, "8 feet", False), (Length, "", False), (Offset, "-3 1/2\"", True),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "raw", "taken"), CASES)
def test_each_length_type_takes_its_own_range(kind, raw, taken):
    if taken:
        assert isinstance(read_length(kind, raw), kind)
    else:
        with pytest.raises(ValueError, match=r"length|finite|is given"):
            read_length(kind, raw)


def test_the_schema_of_a_length_says_the_same_range():
    number, text = length_schema(Length)["anyOf"]
    assert number == {"type": "number", "exclusiveMinimum": 0, "maximum": NUMBER_MAX}
    assert re.search(text["pattern"], '90-1/2"')
    assert length_schema(Extent)["anyOf"][0]["minimum"] == 0
    assert length_schema(Offset)["anyOf"][0]["minimum"] == -NUMBER_MAX


def test_a_length_is_read_exactly_and_goes_out_as_its_number():
    assert read_length(Length, Decimal("0.1")).measure.on_grid("in") == INCH // 10
    assert encode_length(Length(None, 14.5)) == 14.5


def test_other_types_are_none_of_its_business():
    for hook in (lambda: read_length(int, 3), lambda: length_schema(int), lambda: encode_length(object())):
        with pytest.raises(NotImplementedError):
            hook()


def test_requests_refuse_fields_that_they_do_not_know():
    class Asked(Request, frozen=True):
        width: Length

    decoder = msgspec.json.Decoder(Asked, dec_hook=read_length)
    assert decoder.decode(b'{"width": "1\'"}').width.measure.on_grid("mm") == 12 * INCH
    with pytest.raises(msgspec.ValidationError, match="widht"):
        decoder.decode(b'{"width": 1, "widht": 2}')
