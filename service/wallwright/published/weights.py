"""What timber and panels weigh, from the data file beside this module."""

from fractions import Fraction
from typing import Final

from wallwright.published.tables import TABLES
from wallwright.sources import Source

(_FORMULA,) = TABLES["timber_density"].rows
_GRAVITIES: Final = {row["species"]: Fraction(row["gravity"]) for row in TABLES["timber_gravity"].rows}
SATURATION_PERCENT: Final = Fraction(_FORMULA["saturation_percent"])
"""Moisture past which wood swells no further."""


def _source(name: str) -> Source:
    table = TABLES[name]
    return Source(table.source, "", table.clause)


TIMBER_SOURCE: Final = _source("timber_density")
_PANEL_SOURCES: Final = {"osb": _source("panel_weight_osb"), "plywood": _source("panel_weight_plywood")}
_PANEL_PCF: Final = {
    "osb": Fraction(TABLES["panel_weight_osb"].rows[0]["pcf"]),
    "plywood": 12 * Fraction(TABLES["panel_weight_plywood"].rows[0]["psf_per_in"]),
}
NO_WEIGHT_OF_ITS_OWN: Final = "siding"
"""A kind of sheet with no published weight; the heavier of the two held is taken."""


def timber_pcf(species: str, moisture_percent: float) -> Fraction:
    """Density of a species group in lb per cubic foot at a moisture content in percent (0 to 200).

    Source: National Design Specification Supplement 3.1.3 with the gravities of NDS Table 12.3.3A.
    """
    return density_pcf(_GRAVITIES[species], Fraction(str(moisture_percent)))


def density_pcf(gravity: Fraction, moisture_percent: Fraction) -> Fraction:
    """The formula itself: density in lb per cubic foot from an oven-dry specific gravity."""
    swelling = Fraction(_FORMULA["swelling"]) * min(moisture_percent, SATURATION_PERCENT)
    return Fraction(_FORMULA["water_pcf"]) * gravity / (1 + gravity * swelling) * (1 + moisture_percent / 100)


def panel_pcf(kind: str) -> Fraction:
    """Density of a kind of sheet in lb per cubic foot."""
    return _PANEL_PCF.get(kind, max(_PANEL_PCF.values()))


def panel_source(kind: str) -> Source:
    """Where a sheet's density is written; for a kind without its own, that of the one taken in its place."""
    return _PANEL_SOURCES.get(kind, _PANEL_SOURCES["osb"])
