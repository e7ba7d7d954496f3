"""Exact lengths: every length inside the service is an integer on one grid.

One grid unit is 1/40,000 mm, which is also 1/1,016,000 in (the international inch
is 25.4 mm exactly, so 25.4 x 40,000 = 1,016,000). Whole millimetres, 1/64 in, 0.001 in
and 19.2 in all lie on it without rounding. No float holds a length here: numbers come in
as ``int`` or ``Decimal`` and leave as a number only at the very edge (`to_number`).

The tape grammar (RFC 5234), read case-sensitively:

    tape      = *SP [sign] [SP] ( feet-inches / inches / metric / quantity ) *SP
    feet-inches = quantity [SP] foot [ 0*2( SP / "-" ) quantity [SP] [inch] ]
    inches    = quantity [SP] inch
    metric    = quantity [SP] ( "mm" / "cm" / "m" )
    quantity  = whole ( SP / "-" ) fraction / whole [SP] vulgar / fraction / vulgar / decimal
    whole     = 1*6DIGIT
    decimal   = 1*6DIGIT [ "." 1*9DIGIT ]
    fraction  = 1*3DIGIT "/" nonzero 0*2DIGIT      ; nonzero = %x31-39
    vulgar    = one of the characters 1/4 1/2 3/4 1/8 3/8 5/8 7/8
    foot      = "'" / U+2019 / U+2032 / "ft"
    inch      = DQUOTE / U+201D / U+2033 / "''" / "in"
    sign      = "+" / "-" / U+2212

A quantity with no unit is in the document's ``units``; whatever follows feet is in inches.
"""

import re
from decimal import Context, Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Final, Literal

import msgspec

Units = Literal["in", "mm"]

MILLIMETRE: Final = 40_000
INCH: Final = 1_016_000
FOOT: Final = 12 * INCH
SIXTEENTH: Final = INCH // 16
"""The least fraction that a builder's tape is read to, in grid units."""

GRID_PER_UNIT: Final[dict[str, int]] = {"in": INCH, "mm": MILLIMETRE}
_SCALE: Final[dict[str, int]] = {
    "ft": FOOT,
    "in": INCH,
    "mm": MILLIMETRE,
    "cm": 10 * MILLIMETRE,
    "m": 1000 * MILLIMETRE,
}

# The decimals that name a grid unit beyond doubt: half a unit is 4.9e-7 in and 1.25e-5 mm.
_DECIMALS: Final[dict[str, int]] = {"in": 7, "mm": 5}

TAPE_MAX_LENGTH: Final = 40
_FRACTION = "[0-9]{1,3}/[1-9][0-9]{0,2}"
_QUANTITY = (
    f"(?:[0-9]{{1,6}}[ -]{_FRACTION}|[0-9]{{1,6}} ?[¼½¾⅛⅜⅝⅞]|{_FRACTION}|[¼½¾⅛⅜⅝⅞]|[0-9]{{1,6}}(?:\\.[0-9]{{1,9}})?)"
)
_FOOT = "(?:'|’|′|ft)"
_INCH = "(?:\"|”|″|''|in)"
TAPE_PATTERN: Final = (
    f"^ {{0,3}}[+−-]? ?(?:{_QUANTITY} ?{_FOOT}(?:[ -]{{0,2}}{_QUANTITY} ?{_INCH}?)?"
    f"|{_QUANTITY} ?{_INCH}|{_QUANTITY} ?(?:mm|cm|m)|{_QUANTITY}) {{0,3}}$(?!\\n)"
)
"""The grammar as a pattern, legal in Python and in ECMA-262 with the ``u`` flag."""

STOCK_PATTERN: Final = (
    "^(?:[1-4]x(?:[2-6]|8|10|12)"
    "|[0-9]{2,3}(?:\\.[0-9]{1,5})?x[0-9]{2,3}(?:\\.[0-9]{1,5})?"
    "|(?:[0-9]{1,2}-)?[0-9]{1,2}/[1-9][0-9]?x(?:[0-9]{1,2}|(?:[0-9]{1,2}-)?[0-9]{1,2}/[1-9][0-9]?)"
    "|[0-9]{1,2}x(?:[0-9]{1,2}-)?[0-9]{1,2}/[1-9][0-9]?)$(?!\\n)"
)
"""A nominal name, two sizes in millimetres, or two dressed sizes in inches with at least one fraction."""

_TAPE = re.compile(TAPE_PATTERN)
_QUANTITY_TOKEN = re.compile(
    "(?:([0-9]+)[ -])?([0-9]+)/([0-9]+)|([0-9]+) ?([¼½¾⅛⅜⅝⅞])|([¼½¾⅛⅜⅝⅞])|([0-9]+(?:\\.[0-9]+)?)"
)
_VULGAR = {
    "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4),
    "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
}  # fmt: skip

# Sixty digits hold any number that keeps the contract's limits times the grid, exactly.
_EXACT = Context(prec=60)
_HUGE = Decimal(10) ** 12


class Measure(msgspec.Struct, frozen=True, gc=False):
    """A length as it was given, before the document's units are known.

    ``grid`` holds it where the text named its unit; else ``bare`` holds the number.
    """

    grid: int | None = None
    bare: Fraction | Decimal | int | None = None

    def on_grid(self, units: Units) -> int:
        """This length in grid units, a bare number being in ``units``; to the nearest unit."""
        if self.grid is not None:
            return self.grid
        bare = self.bare
        if isinstance(bare, int):
            return bare * GRID_PER_UNIT[units]
        if isinstance(bare, Decimal):
            scaled = _EXACT.multiply(bare, Decimal(GRID_PER_UNIT[units]))
            return int(scaled.to_integral_value(rounding="ROUND_HALF_UP"))
        if bare is None:
            raise ValueError("a measure holds a grid length or a bare number")
        return nearest(bare * GRID_PER_UNIT[units])


def measure_of_number(number: int | Decimal) -> Measure:
    """The measure of a JSON number. Raises ValueError for one that is not finite or is absurdly large."""
    if isinstance(number, Decimal) and (not number.is_finite() or abs(number) > _HUGE):
        raise ValueError("a length must be a finite number")
    return Measure(bare=number)


def measure_of_text(text: str) -> Measure:
    """Read a tape string such as ``7' 6 1/2"``, ``90-1/2"``, ``2286 mm`` or ``0.5 m``.

    Raises ValueError where the text is not of the grammar above.
    """
    if len(text) > TAPE_MAX_LENGTH or _TAPE.match(text) is None:
        raise ValueError(
            f"{text[:TAPE_MAX_LENGTH]!r} is not a length; write a number, or a tape text such as {EXAMPLES}"
        )
    stripped = text.strip()
    negative = stripped[0] in "-−"
    total = Fraction(0)
    unit_named = False
    position = 0
    while (found := _QUANTITY_TOKEN.search(stripped, position)) is not None:
        unit = _unit_after(stripped, found.end())
        # A number after feet that names no unit is in inches.
        scale = _SCALE[unit] if unit else (INCH if unit_named else 0)
        unit_named = unit_named or unit is not None
        total += _value(found) * (scale or 1)
        position = found.end()
    if negative:
        total = -total
    return Measure(grid=nearest(total)) if unit_named else Measure(bare=total)


EXAMPLES: Final = "7' 6 1/2\", 90-1/2\", 6', 2286 mm or 0.5 m"


def _value(found: "re.Match[str]") -> Fraction:
    whole, top, bottom, whole_vulgar, vulgar, lone_vulgar, decimal = found.groups()
    if top is not None:
        return Fraction(int(whole or 0)) + Fraction(int(top), int(bottom))
    if vulgar is not None:
        return int(whole_vulgar) + _VULGAR[vulgar]
    if lone_vulgar is not None:
        return _VULGAR[lone_vulgar]
    return Fraction(decimal)


def _unit_after(text: str, position: int) -> str | None:
    rest = text[position:].lstrip(" ")
    for spelling, unit in _UNIT_SPELLINGS:
        if rest.startswith(spelling):
            return unit
    return None


# Longest first, so that '' is not read as two foot marks and mm not as metres.
_UNIT_SPELLINGS: Final = (
    ("''", "in"), ('"', "in"), ("”", "in"), ("″", "in"), ("in", "in"),
    ("'", "ft"), ("’", "ft"), ("′", "ft"), ("ft", "ft"),
    ("mm", "mm"), ("cm", "cm"), ("m", "m"),
)  # fmt: skip


def nearest(value: Fraction | int) -> int:
    """The integer nearest to an exact fraction; halves go up."""
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)


def inches(text: str) -> int:
    """A length in inches from a bare quantity such as ``"3 1/2"``, for constants in code."""
    return measure_of_text(text).on_grid("in")


def round_down(length: int, step: int) -> int:
    """The greatest multiple of ``step`` not above ``length``: for what must fit between two things."""
    return length // step * step


def round_up(length: int, step: int) -> int:
    """The least multiple of ``step`` not below ``length``: for what must cover."""
    return -(-length // step) * step


def round_nearest(length: int, step: int) -> int:
    """The multiple of ``step`` nearest to ``length``; halves go up."""
    return (2 * length + step) // (2 * step) * step


def to_number(length: int, units: Units) -> float:
    """A grid length as a JSON number in ``units``, with just the decimals that name the grid unit."""
    return round(length / GRID_PER_UNIT[units], _DECIMALS[units])


@lru_cache(2048)
def tape_text(length: int, units: Units, parts: int = 16) -> str:
    """A grid length as a person marks it: to the nearest 1/``parts`` in, or to the whole millimetre.

    Feet stand only from one foot up: ``8' 1 1/8"``, ``11 5/16"``, ``1' 0"``, ``-3 1/2"``, ``2286 mm``.
    ``parts`` must divide 64. The last texts are kept, since the same few lengths stand many times in one answer.
    """
    if units == "mm":
        return f"{nearest(Fraction(length, MILLIMETRE))} mm"
    count = round_nearest(abs(length), INCH // parts) // (INCH // parts)
    sign = "-" if length < 0 and count else ""
    whole, rest = divmod(count, parts)
    feet, inch = divmod(whole, 12)
    text = f"{feet}' " if feet else ""
    if rest:
        lowest = Fraction(rest, parts)
        fraction = f"{lowest.numerator}/{lowest.denominator}"
        text += f"{inch} {fraction}" if inch or feet else fraction
    else:
        text += str(inch)
    return f'{sign}{text}"'


@lru_cache(256)
def inch_name(length: int) -> str:
    """A grid length in inches as it stands in a name, down to 1/64 in: ``3``, ``1-1/2``, ``7/16``."""
    whole, rest = divmod(length * 64 // INCH, 64)
    if not rest:
        return str(whole)
    fraction = str(Fraction(rest, 64))
    return f"{whole}-{fraction}" if whole else fraction
