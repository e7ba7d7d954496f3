"""Exact lengths, checked against ``fractions`` and ``pint``, and by properties.

Sources: the inch is 25.4 mm exactly, the foot 12 in (NIST Special Publication 811, 2008, appendix B.8).
"""

import json
import time
from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wallwright.lengths import (
    GRID_PER_UNIT,
    INCH,
    MILLIMETRE,
    TAPE_MAX_LENGTH,
    Measure,
    Units,
    inch_name,
    inches,
    measure_of_number,
    measure_of_text,
    nearest,
    round_down,
    round_nearest,
    round_up,
    tape_text,
    to_number,
)

settings.register_profile("lengths", deadline=None, derandomize=True, database=None, max_examples=500)
LENGTHS = settings.get_profile("lengths")

UNITS: tuple[Units, ...] = ("in", "mm")
REGISTRY = pint.UnitRegistry(non_int_type=Fraction)

# One grid unit is 1/40,000 mm.
GRID = Fraction(1, 40_000)


def grid_of(quantity: Fraction, unit: str) -> Fraction:
    """A quantity on the grid as pint and fractions have it."""
    return REGISTRY.Quantity(quantity, unit).to("millimetre").magnitude / GRID


def test_the_grid_holds_both_systems_without_rounding() -> None:
    assert grid_of(Fraction(1, 64), "inch") == 15_875
    assert grid_of(Fraction(1, 1000), "inch") == 1_016
    assert grid_of(Fraction(1), "millimetre") == 40_000 == MILLIMETRE
    assert grid_of(Fraction(1), "inch") == 1_016_000 == INCH
    assert grid_of(Fraction("19.2"), "inch") == inches("19.2") == 5 * inches("96") // 25


@pytest.mark.parametrize(
    ("text", "quantity", "unit"),
    [
        ("7' 6 1/2\"", Fraction(181, 2), "inch"),
        ('90-1/2"', Fraction(181, 2), "inch"),
        ("6'", Fraction(6), "foot"),
        ("2286 mm", Fraction(2286), "millimetre"),
        ("0.5 m", Fraction(1, 2), "metre"),
        ("12.5 cm", Fraction(25, 2), "centimetre"),
        ("7'6\"", Fraction(90), "inch"),
        ("7'-6\"", Fraction(90), "inch"),
        ("7' -6\"", Fraction(90), "inch"),
        ("7ft 6in", Fraction(90), "inch"),
        ("7’ 6 ½”", Fraction(181, 2), "inch"),
        ("7′ 6½″", Fraction(181, 2), "inch"),
        ("6' 3''", Fraction(75), "inch"),
        ("3' 2", Fraction(38), "inch"),
        ("1/2'", Fraction(1, 2), "foot"),
        ('-3 1/2"', Fraction(-7, 2), "inch"),
        ('−3 1/2"', Fraction(-7, 2), "inch"),
        ('+3-1/2"', Fraction(7, 2), "inch"),
        ('- 3"', Fraction(-3), "inch"),
        ("-1' 6\"", Fraction(-18), "inch"),
        ("  8'  ", Fraction(8), "foot"),
        ('19.2"', Fraction(96, 5), "inch"),
        ('⅞"', Fraction(7, 8), "inch"),
    ],
)
def test_a_tape_text_reads_as_fractions_and_pint_have_it(text: str, quantity: Fraction, unit: str) -> None:
    for units in UNITS:
        assert measure_of_text(text).on_grid(units) == grid_of(quantity, unit)


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize(
    ("text", "quantity"),
    [("96", Fraction(96)), ("3 1/2", Fraction(7, 2)), ("1/4", Fraction(1, 4)), ("-2.5", Fraction(-5, 2))],
)
def test_a_bare_quantity_is_in_the_documents_units(text: str, quantity: Fraction, units: Units) -> None:
    unit = {"in": "inch", "mm": "millimetre"}[units]
    assert measure_of_text(text).on_grid(units) == grid_of(quantity, unit)


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "feet", "'", '"', "1/0", "1/02\"", "3 1", "8' 6' 2\"", "8\" 6'", "8'' '", "1.\"", ".5\"", "1e3", "0x10",
        "1,5 m", "8 MM", "8IN", "nan", "inf", "--3", "3 - 1/2\"\n", "8'\n", "1234567", "٣\"", "8' 6\" 1", "1/2/3",
        "8 km", "8'' 2\"", "½½", "6'   2\"", "\t6'",
    ],
)  # fmt: skip
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="length"):
        measure_of_text(text)


def test_a_text_longer_than_the_limit_is_refused() -> None:
    just = '"'.rjust(TAPE_MAX_LENGTH, "1")[-7:].rjust(9)
    assert measure_of_text(just).on_grid("in") == 111_111 * INCH
    with pytest.raises(ValueError, match="length"):
        measure_of_text("1 " * (TAPE_MAX_LENGTH // 2) + "1")


@given(st.integers(-(64 * 12 * 200), 64 * 12 * 200))
@LENGTHS
def test_a_tape_text_in_sixty_fourths_reads_back_as_itself(count: int) -> None:
    length = count * INCH // 64
    assert measure_of_text(tape_text(length, "in", 64)).on_grid("mm") == length


@given(st.integers(-100_000, 100_000))
@LENGTHS
def test_a_tape_text_in_whole_millimetres_reads_back_as_itself(count: int) -> None:
    length = count * MILLIMETRE
    assert measure_of_text(tape_text(length, "mm")).on_grid("in") == length


@given(st.integers(-(10**9), 10**9))
@LENGTHS
def test_a_tape_text_is_the_nearest_sixteenth_or_millimetre(length: int) -> None:
    for units, step in (("in", INCH // 16), ("mm", MILLIMETRE)):
        read = measure_of_text(tape_text(length, units)).on_grid("in")
        assert read % step == 0
        assert 2 * abs(read - length) <= step


@given(st.integers(-(10**10), 10**10), st.sampled_from(UNITS))
@LENGTHS
def test_a_number_out_and_in_again_is_the_same_grid_length(length: int, units: Units) -> None:
    out = json.loads(json.dumps(to_number(length, units)), parse_float=Decimal)
    assert measure_of_number(out).on_grid(units) == length


@given(st.decimals(-100_000, 100_000, places=9), st.sampled_from(UNITS))
@LENGTHS
def test_a_json_number_is_read_exactly_and_never_through_a_float(number: Decimal, units: Units) -> None:
    exact = Fraction(number) * GRID_PER_UNIT[units]
    assert measure_of_number(number).on_grid(units) == nearest(exact) or exact.denominator == 2
    assert 2 * abs(measure_of_number(number).on_grid(units) - exact) <= 1


def test_digits_that_a_float_would_lose_are_kept() -> None:
    # Two numbers that are one and the same float, on either side of half a grid unit.
    above, below = Decimal("100000.00001250000000001"), Decimal("100000.00001249999999999")
    assert float(above) == float(below)
    assert measure_of_number(above).on_grid("mm") - measure_of_number(below).on_grid("mm") == 1
    assert measure_of_text("0.000000001 m").on_grid("in") == nearest(Fraction(40_000, 10**6))


@pytest.mark.parametrize("text", ["Infinity", "-Infinity", "NaN", "1e400", "1e13"])
def test_a_number_that_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="finite"):
        measure_of_number(Decimal(text))


def test_a_measure_that_holds_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="measure"):
        Measure().on_grid("in")


@given(st.integers(-(10**9), 10**9), st.integers(1, 10**7))
@LENGTHS
def test_rounding_fits_covers_and_comes_nearest(length: int, step: int) -> None:
    down, up, near = round_down(length, step), round_up(length, step), round_nearest(length, step)
    assert down <= length <= up
    assert up - down in (0, step)
    assert down % step == up % step == near % step == 0
    assert near in (down, up)
    assert 2 * abs(near - length) <= step


@given(st.fractions(-(10**6), 10**6, max_denominator=10**5))
@LENGTHS
def test_the_nearest_integer_is_within_a_half(value: Fraction) -> None:
    assert abs(nearest(value) - value) <= Fraction(1, 2)


def test_halves_go_up() -> None:
    assert [nearest(Fraction(n, 2)) for n in (-3, -1, 1, 3)] == [-1, 0, 1, 2]
    assert round_nearest(INCH // 32, INCH // 16) == INCH // 16


ADVERSARIES = [
    "1" * 40,
    "1 " * 20,
    "1/1" * 13,
    "1.1" * 13,
    "'" * 40,
    "1'" * 20,
    "1 1/" * 10,
    "1-" * 20,
    " " * 40,
    "½ " * 20,
]


@pytest.mark.parametrize("seed", ADVERSARIES)
def test_reading_takes_linear_time_on_hostile_text(seed: str) -> None:
    for text in (seed, seed * 25_000):
        start = time.process_time()
        for _ in range(100):
            with pytest.raises(ValueError, match="length"):
                measure_of_text(text)
        # A hundred readings in a quarter second: backtracking that grew with the text would take minutes.
        assert time.process_time() - start < 0.25


@pytest.mark.parametrize(
    ("length", "text"),
    [
        (inches("97 1/8"), "8' 1 1/8\""),
        (inches("11 5/16"), '11 5/16"'),
        (inches("12"), "1' 0\""),
        (inches("-3 1/2"), '-3 1/2"'),
        (inches("1/2"), '1/2"'),
        (inches("12 1/2"), "1' 0 1/2\""),
        (0, '0"'),
        (-1, '0"'),
        (inches("19.2"), "1' 7 3/16\""),
    ],
)
def test_a_tape_text_is_written_as_a_person_marks_it(length: int, text: str) -> None:
    assert tape_text(length, "in") == text


@pytest.mark.parametrize(("text", "name"), [("3", "3"), ("1 1/2", "1-1/2"), ("7/16", "7/16"), ("2 63/64", "2-63/64")])
def test_a_name_in_inches_is_in_lowest_terms(text: str, name: str) -> None:
    # common practice, no source
    assert inch_name(inches(text)) == name
