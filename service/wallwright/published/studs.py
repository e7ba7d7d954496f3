"""How tall and how far apart wood studs may stand. Source: IRC Tables R602.3(5), R602.3(6) and R602.3.1."""

from fractions import Fraction

import msgspec

from wallwright.published.tables import TABLES, OutsideTable, first_up_to, foot, inch, rows
from wallwright.sources import Source

_SPACING = {
    "roof": "roof_spacing_in",
    "roof-and-center-bearing-floor": "roof_and_floor_spacing_in",
    "roof-and-clear-span-floor": "roof_and_floor_spacing_in",
    "roof-and-two-floors": "roof_and_two_floors_spacing_in",
    "floor": "floor_spacing_in",
    "none": "nonbearing_spacing_in",
}


class Limits(msgspec.Struct, frozen=True, gc=False):
    """The greatest height between supports and the greatest spacing of a stud, on the grid."""

    height: int
    spacing: int


def limits(rules: str, stud: str, load: str, *, exterior: bool = True) -> Limits:
    """Limits of a nominal ``stud`` such as ``2x4`` that carries ``load`` (``none``, ``roof``, …).

    Source: Table R602.3(5). Raises OutsideTable where the table holds no such stud or does not permit it.
    """
    for row in rows("stud_limits", rules):
        if row["stud"] == stud:
            height = row.get("nonbearing_height_ft" if load == "none" else "bearing_height_ft")
            spacing = row.get(_SPACING[load])
            if height is None or spacing is None or (exterior and not row["exterior"]):
                raise OutsideTable("the table permits no such stud here")
            return Limits(foot(height), inch(spacing))
    raise OutsideTable("the table holds no such stud")


def limits_source(rules: str) -> Source:
    """Where the limits stand."""
    return TABLES["stud_limits"].of(rules)


def tall_stud(
    rules: str, height: int, spacing: int, load: str, wind_mph: float, exposure: str, snow_psf: float, span: int
) -> str:
    """The stud that may stand taller than 10 ft, to 12 ft, under a roof or a roof and a floor.

    ``height``, ``spacing`` and ``span`` (of roof or floor) on the grid. Source: Table R602.3(6), 2018 on.
    Raises OutsideTable for a case that the table does not hold or leaves to design.
    """
    (columns,) = rows("tall_stud_columns", rules)
    if exposure != columns["exposure"] or snow_psf > columns["ground_snow_psf"]:
        raise OutsideTable("the table holds for exposure B and at most 30 psf of ground snow")
    pairs = zip(columns["wind_mph"], columns["span_ft"], strict=True)
    column = next((i for i, (mph, ft) in enumerate(pairs) if wind_mph <= mph and span <= foot(ft)), None)
    if column is None:
        raise OutsideTable("the wind or the span is past the table's last column")
    kind = "roof" if load == "roof" else "roof-and-floor"
    held = [row for row in rows("tall_studs", rules) if row["load"] == kind]
    heights = sorted({row["height_ft"] for row in held})
    tallest = heights[first_up_to(height, [foot(ft) for ft in heights], "the studs' height")]
    held = [row for row in held if row["height_ft"] == tallest]
    apart = first_up_to(spacing, [inch(row["spacing_in"]) for row in held], "the studs' spacing")
    size = str(held[apart]["stud"][column])
    if size == "DR":
        raise OutsideTable("the table asks for a design")
    return size


def tall_source(rules: str) -> Source:
    """Where taller studs stand."""
    return TABLES["tall_studs"].of(rules)


def tall_2x6_height(rules: str, stud: str, spacing: int, wind_mph: float, snow_psf: float, tributary: int) -> int:
    """How tall a 2x6 of No. 2 may stand under a light roof, ``tributary`` of which (on the grid) the wall carries.

    Source: R602.3.1, exception 2. Raises OutsideTable where the exception does not reach.
    """
    (most,) = rows("tall_2x6_limits", rules)
    if (
        stud != most["stud"]
        or snow_psf > most["ground_snow_psf"]
        or wind_mph > most["wind_mph"]
        or Fraction(tributary) > foot(most["roof_tributary_ft"])
    ):
        raise OutsideTable("the exception does not reach this wall")
    reached = [row for row in rows("tall_2x6_studs", rules) if spacing <= inch(row["spacing_in"])]
    if not reached:
        raise OutsideTable("the studs stand further apart than the exception allows")
    return max(foot(row["height_ft"]) for row in reached)
